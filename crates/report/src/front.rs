//! Page one: the question of the trip, the answer for the well that it asks about, and what a reader needs to weigh it
//! who is handed this page alone.
//!
//! In: the results of the report, the values of its wells, the cases of its key results, what lies above a limit, the
//! years of the key substance. Out: a [`Front`]. It chooses and words; what was asked with a word that has no number
//! ("near", "clean") is answered by the number and never by a yes. Checked in `crates/cli/tests/page_one.rs`.

use super::scope::Chosen;
use super::words::{capital, in_few_words};
use super::{Run, day, strip, substance, verdict_word};
use assessment::air::TripAir;
use assessment::results::{Listed, coverage_k};
use assessment::verdict::Rules;
use assessment::well_value::{Told, WellValue};
use cleanliness::accounting::{Source, Stands, Told as ToldOf};
use document::content::{Cell, Column, Front, Illustration, Sure, Table};
use figure::earlier::{self, EarlierPicture, Then};
use figure::number::Printed;
use figure::{Head, PHONE, WIDE, slug};
use message::{Arg, Digits, Message, Name, Shown, Spoken, count, front as said, word};
use programme::case::Case;
use programme::limits_of::{Against, Row};
use quantity::{Amount, Check, Finding, Outcome};
use record::Error;
use record::model::VerdictWord;
use record::store::{Filter, Store};
use std::collections::{BTreeMap, BTreeSet};

/// Wells of the table, at most: the asked one, the highest, the lowest.
const WELLS: usize = 5;
/// Bottles of a well beside each other, at most.
const BOTTLES: usize = 3;
/// Lines of what cannot be told, at most, beside that of microbes.
const UNTOLD: usize = 5;

/// What page one is made of.
pub(super) struct Known<'a> {
    pub store: &'a Store,
    pub chosen: &'a Chosen,
    pub place: &'a str,
    /// The element or compound that the trip asks about.
    pub key: &'a str,
    pub runs: &'a [Run],
    pub wells: &'a [WellValue],
    /// Cases of the key results, one a well.
    pub cases: &'a [Case],
    pub years: &'a [Listed],
    pub against: &'a Against,
}

/// The substance that the report speaks of first: the one that the question names, lead where it was measured, else the
/// one nearest to a limit.
pub(super) fn key(question: Option<&str>, waters: &[&Listed], against: &Against) -> Option<String> {
    let mut analytes: Vec<&str> = waters.iter().map(|r| r.analyte.as_str()).collect();
    analytes.sort_unstable();
    analytes.dedup();
    let named = |a: &&&str| {
        let words = question.map(str::to_lowercase).unwrap_or_default();
        Message::named("substance", a).is_some_and(|m| {
            [message::Lang::En, message::Lang::De]
                .into_iter()
                .filter_map(|l| m.said(l))
                .any(|name| words.split(|c: char| !c.is_alphanumeric()).any(|w| w == name.to_lowercase()))
        })
    };
    let nearest = || against.rows.iter().find(|r| r.strictest && analytes.contains(&r.analyte.as_str()));
    let found = analytes.iter().find(named).or(analytes.iter().find(|a| **a == "Pb")).copied();
    found.or_else(|| nearest().map(|r| r.analyte.as_str())).or(analytes.first().copied()).map(String::from)
}

impl<'a> Known<'a> {
    /// Page one; none where no water was measured.
    pub fn front(&self) -> Result<Option<(Front, String)>, Error> {
        let wells = self.by_well();
        let Some((asked, bottles)) = self.asked(&wells) else { return Ok(None) };
        let value = self.value(asked);
        let case = self.cases.iter().find(|c| c.result.well.as_deref() == Some(asked));
        let verdict = value.and_then(|v| v.verdict).or_else(|| bottles.iter().filter_map(|r| r.verdict).max());
        let mut front = Front {
            over: self.over(),
            word: verdict.map(verdict_word),
            verdict: verdict.map_or_else(String::new, verdict_in_words),
            answer: self.answer(asked, bottles, value),
            method: self.method(asked, value),
            marks: self.marks(asked, bottles, value, case)?,
            wells: Some(self.table(&wells, asked)),
            above: self.above(),
            decides: self.decides(&wells),
            ..Front::default()
        };
        self.strip_of(case, &mut front)?;
        self.untold(&wells, &mut front);
        self.earlier(asked, value, &mut front);
        Ok(Some((front, asked.to_string())))
    }

    /// The key results of each well.
    fn by_well(&self) -> BTreeMap<&'a str, Vec<&'a Listed>> {
        let mut out: BTreeMap<&str, Vec<&Listed>> = BTreeMap::new();
        let of_key = |r: &&Listed| r.analyte == self.key && r.verdict.is_some() && r.kind.is_water();
        for r in self.chosen.results.iter().filter(of_key) {
            out.entry(r.well.as_deref().unwrap_or(&r.bottle)).or_default().push(r);
        }
        // One reporting isotope: the sum over isotopes where there is one, else the one with the most bottles.
        for of in out.values_mut() {
            let isotopes: BTreeSet<(&str, &str)> = of.iter().map(|r| (&*r.isotopes, &*r.resolution)).collect();
            let n = |i: &(&str, &str)| of.iter().filter(|r| (&*r.isotopes, &*r.resolution) == *i).count();
            let best = isotopes.iter().copied().max_by_key(|i| (i.0.contains('+'), n(i))).unwrap_or(("", ""));
            of.retain(|r| (&*r.isotopes, &*r.resolution) == best);
            of.sort_by(|a, b| (&a.filled_at, &a.bottle).cmp(&(&b.filled_at, &b.bottle)));
        }
        out
    }

    fn question(&self) -> Option<&str> {
        self.chosen.trips.iter().rev().find_map(|t| t.question.as_deref()).map(str::trim).filter(|q| !q.is_empty())
    }

    /// The well that the question names, else the best supported, else the first.
    fn asked<'w>(&self, wells: &'w BTreeMap<&'a str, Vec<&'a Listed>>) -> Option<(&'a str, &'w [&'a Listed])> {
        let names = |w: &&str| {
            let question = self.question().unwrap_or_default();
            question.match_indices(*w).any(|(at, _)| {
                let free = |c: Option<char>| !c.is_some_and(char::is_alphanumeric);
                free(question[..at].chars().next_back()) && free(question[at + w.len()..].chars().next())
            })
        };
        let best = || wells.iter().min_by_key(|(_, of)| of.iter().filter_map(|r| r.verdict).max()).map(|(w, _)| *w);
        let name = wells.keys().copied().filter(|w| names(w)).max_by_key(|w| w.len()).or_else(best)?;
        Some((name, wells.get(name)?.as_slice()))
    }

    fn value(&self, well: &str) -> Option<&'a WellValue> {
        let of = |w: &&WellValue| w.analyte == self.key && w.water.well.as_deref() == Some(well);
        self.wells.iter().filter(of).max_by_key(|w| (w.isotopes.contains('+'), w.water.day.clone()))
    }

    fn element(&self) -> Name {
        substance(self.key).into()
    }

    fn over(&self) -> String {
        let place = || self.place.into();
        match &self.chosen.trips[..] {
            [trip] => {
                let day = trip.starts.get(..10).unwrap_or(&trip.starts);
                said::OverTrip { place: place(), day: day.into() }.text()
            }
            _ => said::OverRecord { place: place() }.text(),
        }
    }

    fn answer(&self, well: &str, bottles: &[&Listed], value: Option<&WellValue>) -> String {
        let mut out = vec![self.found(well, bottles, value).text()];
        if let Some(back) = value.and_then(WellValue::number_with_all_back) {
            out.push(said::PutBack { amount: back.into() }.text());
        }
        let earlier = self.earlier_values(well).len();
        out.push(match earlier {
            0 => said::ChangeNotTold.text(),
            n => said::ChangeSeen { values: count(n) }.text(),
        });
        out.join(" ")
    }

    /// What was found at a well, in one sentence.
    fn found(&self, well: &str, bottles: &[&Listed], value: Option<&WellValue>) -> Message {
        let (element, well_name) = (|| self.element(), || Name::from(well));
        let day = value.map(|v| v.water.day.clone()).or_else(|| newest_day(bottles));
        let day = day.map_or_else(|| said::OnADayNotRecorded.into(), |day| Message::from(said::On { day: day.into() }));
        match value.map(|v| &v.told) {
            Some(Told::Value { amount, coverage_k, interval }) => {
                let amount = Shown { expanded: None, ..amount.shown(*coverage_k) };
                let [low, high] = interval.map(|x| Shown::new(x, amount.digits, ""));
                let (element, well, n) = (element(), well_name(), value.map_or(0, |v| v.bottles.len()));
                match n {
                    0 | 1 => said::ValueOfOne { day, well, amount, low, high, element }.into(),
                    n => said::Value { day, well, amount, low, high, element, bottles: count(n) }.into(),
                }
            }
            Some(Told::AtMost { found: Some(found), .. }) => {
                let bound = value.and_then(WellValue::bound).unwrap_or_default();
                let unit = found.unit().to_string();
                let found = Shown { expanded: None, ..found.shown(2.0) };
                said::AtMost {
                    day,
                    well: well_name(),
                    bound: bound.into(),
                    unit: unit.into(),
                    element: element(),
                    found,
                }
                .into()
            }
            Some(Told::AtMost { amount, found: None }) => {
                let bound = amount.with_u();
                said::NotFound { day, well: well_name(), bound, element: element() }.into()
            }
            Some(Told::NoNumber) => {
                said::Apart { day, well: well_name(), values: values(bottles), element: element() }.into()
            }
            // Reported without counts: each bottle by itself; what they share is not known.
            None => said::Reported { day, well: well_name(), values: values(bottles), element: element() }.into(),
        }
    }

    /// The answer for every well, the asked one first, each in one sentence, and which well is asked about.
    pub fn answers(&self) -> (Vec<String>, Option<String>) {
        let wells = self.by_well();
        let Some((asked, _)) = self.asked(&wells) else { return (vec![], None) };
        let mut order: Vec<(&str, &Vec<&Listed>)> = wells.iter().map(|(w, of)| (*w, of)).collect();
        order.sort_by_key(|(w, _)| *w != asked);
        let told = |(well, of): &(&str, &Vec<&Listed>)| self.found(well, of, self.value(well)).text();
        (order.iter().take(WELLS).map(told).collect(), Some(asked.to_string()))
    }

    fn method(&self, well: &str, value: Option<&WellValue>) -> String {
        let mut out = vec![];
        if let Some(v) = value.filter(|v| v.told != Told::NoNumber) {
            let bottles = v.bottles.iter().map(|p| Arg::Name(p.bottle.as_str().into())).collect();
            out.push(said::Method { bottles }.text());
        }
        let first = self.years.iter().filter(|r| r.well.as_deref() == Some(well) && r.analyte == self.key);
        if let Some(first) = first.filter_map(|r| r.filled_at.as_deref()).min() {
            out.push(said::FirstMeasured { day: first.get(..16).unwrap_or(first).into() }.text());
        }
        out.join(" ")
    }

    fn strip_of(&self, case: Option<&Case>, front: &mut Front) -> Result<(), Error> {
        let Some(case) = case else { return Ok(()) };
        let Some(accounting) = &case.result.accounting else { return Ok(()) };
        let bottle = self.store.bottles(&Filter::all().is("label", case.result.bottle.as_str()))?;
        let volume = bottle.first().and_then(|b| b.volume_mL);
        let words = super::path::of_hundred(case, accounting).unwrap_or_default();
        front.strip = strip::of(case, volume, words).map(|p| Illustration {
            wide: figure::strip::draw(&p, WIDE),
            phone: Some(figure::strip::draw(&p, PHONE)),
            caption: String::new(),
        });
        let mut notes: Vec<String> = accounting.says.iter().map(|s| s.text()).collect();
        let told_apart = |s: Source| accounting.part(s).filter(|p| p.told != ToldOf::Measured);
        notes.extend(told_apart(Source::WellAndPipe).and_then(|p| p.why.as_ref()).map(|w| w.text()));
        front.strip_note = notes.join(" ");
        Ok(())
    }

    /// Clean air, blanks, nothing lost, bottles agree: each with its numbers, and none of them left out.
    fn marks(
        &self,
        well: &str,
        bottles: &[&Listed],
        value: Option<&WellValue>,
        case: Option<&Case>,
    ) -> Result<Vec<Sure>, Error> {
        let finding = |check: Check| case.and_then(|c| c.findings.iter().find(|f| f.check == check));
        let outcome = |f: Option<&Finding>| f.map_or(Outcome::NotKnown, |f| f.outcome);
        let air = finding(Check::AirClass);
        let blanks = finding(Check::NumberBlanks).or_else(|| finding(Check::RunBlankCount));
        let loss = finding(Check::NumberRecovery);
        let agree = finding(Check::NumberDuplicates).or_else(|| finding(Check::NumberReplicates));
        let sure = |outcome, name: String, text: String| Sure { outcome, name, text };
        Ok(vec![
            sure(outcome(air), said::CleanAir.text(), self.air(well, air)?),
            sure(outcome(blanks), said::Blanks.text(), self.blanks(case, blanks)),
            sure(outcome(loss), said::Loss.text(), loss_in_words(loss)),
            sure(
                outcome(agree),
                match outcome(agree) {
                    Outcome::NotMet => said::BottlesDisagree.text(),
                    _ => said::BottlesAgree.text(),
                },
                match (bottles, value) {
                    ([] | [_], _) => said::OneBottleAlone.text(),
                    _ => Arg::from(values(bottles)).text(),
                },
            ),
        ])
    }

    fn air(&self, well: &str, finding: Option<&Finding>) -> Result<String, Error> {
        let [trip] = &self.chosen.trips[..] else { return Ok(text_or_not_on_record(finding)) };
        let found: TripAir = assessment::air::of_trip(self.store, trip.id)?;
        let rules = Rules::new(self.store.check_rules()?);
        let class = rules.limit(Check::AirClass, 5.0) as u8;
        let Some(place) = found.places.iter().find(|p| p.well == well && p.open.is_some()) else {
            return Ok(text_or_not_on_record(finding));
        };
        // The smallest size that the class has a limit for speaks: it shows most.
        let size = place.reading.readings.iter().find(|r| r.size_um >= 0.5 - 1e-9);
        let Some(size) = size else { return Ok(text_or_not_on_record(finding)) };
        let allowed = cleanliness::air::class_limit(class, size.size_um);
        let whole = |x: f64| Shown::new(x, Digits::Up(2), "").typeset();
        let counted = said::Particles {
            counted: i64::try_from(size.count).unwrap_or(i64::MAX),
            size: Shown::trimmed(size.size_um, 2, "µm"),
            volume: Shown::significant(place.reading.volume_l, 2, "L"),
            most: whole(size.upper_95_per_m3),
        };
        Ok(match allowed {
            Some(limit) => said::ParticlesOfClass {
                counted: counted.into(),
                class: i64::from(class),
                allowed: Shown::trimmed(limit, 4, "").typeset(),
            }
            .text(),
            None => counted.text(),
        })
    }

    fn blanks(&self, case: Option<&Case>, finding: Option<&Finding>) -> String {
        let r = case.map(|c| &c.result);
        let of_run = |r: &&Run| {
            let label = case.map(|c| c.result.bottle.as_str());
            r.reduced.results.iter().any(|x| Some(x.vial.as_str()) == label)
                || r.prepared.input.vials.iter().any(|v| Some(v.name.as_str()) == label)
        };
        let run = self.runs.iter().find(of_run).or(self.runs.first());
        let summary = run.and_then(|run| {
            run.reduced
                .analytes
                .iter()
                .find(|a| a.analyte.element == self.key && r.is_none_or(|r| r.isotopes == a.analyte.isotopes))
        });
        let Some(blank) = summary.and_then(|a| a.blank.as_ref()) else { return text_or_not_on_record(finding) };
        let mean = Shown { expanded: None, ..Amount::Measured(blank.mean.clone()).shown(2.0) };
        let mut out = vec![said::BlanksTakenOff { n: count(blank.n), kind: blank.role.said(), mean }.text()];
        let taken: BTreeSet<&str> = run
            .into_iter()
            .flat_map(|run| {
                let of_key = |x: &&measurement::run::Reading| x.excluded.is_some() && x.isotope.element == self.key;
                let out = run.prepared.input.readings.iter().filter(of_key).map(|x| x.position);
                let positions: BTreeSet<u32> = out.collect();
                run.prepared.input.vials.iter().filter(move |v| positions.contains(&v.position) && v.role.is_blank())
            })
            .map(|v| v.name.as_str())
            .collect();
        if !taken.is_empty() {
            let vials = taken.into_iter().map(|v| Arg::Name(v.into())).collect();
            out.push(said::BlanksTakenOut { vials }.text());
        }
        out.join(" ")
    }

    /// Every well that day, or of many the asked, the highest and the lowest.
    fn table(&self, wells: &BTreeMap<&'a str, Vec<&'a Listed>>, asked: &str) -> Table {
        let level = |of: &[&Listed]| of.iter().filter_map(|r| size(r.amount.as_ref()?)).fold(0.0, f64::max);
        let mut order: Vec<(&str, &Vec<&Listed>)> = wells.iter().map(|(w, of)| (*w, of)).collect();
        order.sort_by(|a, b| (b.0 == asked).cmp(&(a.0 == asked)).then(level(b.1).total_cmp(&level(a.1))));
        let more = order.len().saturating_sub(WELLS);
        if more > 0 {
            // The asked one, the highest ones, the lowest.
            let lowest = order[order.len() - 1];
            order.truncate(WELLS - 1);
            order.push(lowest);
        }
        let widest = order.iter().map(|(_, of)| of.len()).max().unwrap_or(1).min(BOTTLES);
        let unit =
            order.iter().flat_map(|(_, of)| of.iter()).find_map(|r| r.amount.as_ref()).map(|a| a.unit().to_string());
        let unit = unit.unwrap_or_default();
        let mut columns = vec![Column::words(word::Well.text())];
        for k in 0..widest {
            let letter = char::from(b'A' + u8::try_from(k).unwrap_or(0)).to_string();
            columns.push(Column::numbers(said::BottleLetter { letter: letter.into() }.text(), &unit));
        }
        columns.push(Column::words(word::Verdict.text()));
        columns.push(Column::words(said::Because.text()));
        let row = |(well, of): &(&str, &Vec<&Listed>)| {
            let mut cells = vec![Cell::Text((*well).to_string())];
            for k in 0..widest {
                cells.push(of.get(k).map_or(Cell::Missing("–".into()), |r| cell_of(r, &unit).of(&r.result)));
            }
            let verdict = of.iter().filter_map(|r| r.verdict).max();
            cells.push(verdict.map_or(Cell::Missing("–".into()), |v| Cell::Verdict(verdict_word(v))));
            cells.push(Cell::Text(self.because(well, of)));
            cells
        };
        let rows = order.iter().map(row).collect();
        let mut notes = vec![said::NeverLeftOut.text()];
        let most = order.iter().map(|(_, of)| of.len()).max().unwrap_or(0);
        if most > BOTTLES {
            notes.push(said::MoreBottles { n: count(most - BOTTLES) }.text());
        }
        if more > 0 {
            notes.push(said::MoreWells { n: count(more) }.text());
        }
        let caption = said::EveryWell { element: capital(substance(self.key)).into() }.text();
        Table { caption, columns, rows, notes }
    }

    /// One reason of few words.
    fn because(&self, well: &str, of: &[&Listed]) -> String {
        let case = self.cases.iter().find(|c| c.result.well.as_deref() == Some(well));
        let Some(case) = case else { return of.first().map_or_else(String::new, |r| reasons_in_few_words(r)) };
        let decided =
            |f: &&Finding| f.outcome != Outcome::Met && case.result.reasons.iter().any(|r| r == f.check.text());
        let agree = || case.findings.iter().find(|f| f.check == Check::NumberDuplicates);
        let mut told: Vec<String> = case.findings.iter().filter(decided).filter_map(in_few_words).collect();
        if told.is_empty() {
            told.extend(agree().and_then(in_few_words));
        }
        told.truncate(2);
        told.join("; ")
    }

    /// What lies above a limit, whatever its verdict: substances with their wells.
    fn above(&self) -> String {
        let mut of: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
        let mut order: Vec<&str> = vec![];
        let is_above = |r: &&Row| r.comparison.answer == limits::Answer::Above && !r.comparison.limit.is_goal_of_zero();
        for r in self.against.rows.iter().filter(is_above) {
            if !order.contains(&r.analyte.as_str()) {
                order.push(&r.analyte);
            }
            of.entry(&r.analyte).or_default().insert(r.well.as_deref().unwrap_or(&r.result.bottle));
        }
        if order.is_empty() {
            return said::NoneAbove { n: count(self.against.not_tested.len()) }.text();
        }
        let one = |a: &&str| -> Arg {
            let places = of[*a].iter().map(|w| Arg::Name((*w).into())).collect();
            Message::from(said::AboveIn { substance: substance(a).into(), places }).into()
        };
        let verdicts: BTreeSet<Option<VerdictWord>> =
            self.against.rows.iter().filter(is_above).map(|r| r.verdict).collect();
        let above = said::Above { substances: order.iter().take(6).map(one).collect(), n: count(order.len()) }.text();
        match verdicts.iter().next() {
            Some(Some(all)) if verdicts.len() == 1 => {
                format!("{above} {}", message::paper::AllOfVerdict { verdict: verdict_word(*all).said() }.text())
            }
            _ => above,
        }
    }

    fn untold(&self, wells: &BTreeMap<&'a str, Vec<&'a Listed>>, front: &mut Front) {
        let mut out: Vec<String> = vec![];
        if self.chosen.earlier_trips == 0 && self.earlier_values_of_any(wells) == 0 {
            out.push(said::WhetherChanged { element: self.element() }.text());
        }
        let of = |with: &dyn Fn(&Case) -> bool| -> Vec<Arg> {
            let named = self.cases.iter().filter(|c| with(c)).filter_map(|c| c.result.well.as_deref());
            named.map(|w| Arg::Name(w.into())).collect()
        };
        let not_told = |c: &Case, s: Source| {
            c.result.accounting.as_ref().and_then(|a| a.part(s)).is_some_and(|p| p.told != ToldOf::Measured)
        };
        let disagree = |c: &Case| c.result.accounting.as_ref().is_some_and(|a| a.stands == Stands::BottlesDisagree);
        let air = of(&|c| not_told(c, Source::AirAndHands));
        if !air.is_empty() {
            out.push(said::WhatAirBrought { wells: air }.text());
        }
        let pipe = of(&|c| not_told(c, Source::WellAndPipe));
        if !pipe.is_empty() {
            out.push(said::WhatPipeGives { wells: pipe }.text());
        }
        let apart = of(&disagree);
        if !apart.is_empty() {
            out.push(said::WhatWaterHolds { wells: apart }.text());
        }
        let no_spike =
            of(&|c| c.findings.iter().any(|f| f.check == Check::NumberRecovery && f.outcome == Outcome::NotKnown));
        if !no_spike.is_empty() {
            out.push(said::WhetherLost { wells: no_spike }.text());
        }
        if self.cases.is_empty() {
            out.push(said::HowItCame.text());
        }
        out.truncate(UNTOLD);
        if self.against.not_tested.iter().any(|n| n == "microbes") {
            out.push(said::Microbes.text());
        }
        front.untold = out;
    }

    /// What would decide: the bottles, blanks and spikes that are missing.
    fn decides(&self, wells: &BTreeMap<&'a str, Vec<&'a Listed>>) -> Vec<String> {
        let mut out = vec![];
        if self.chosen.earlier_trips == 0 && self.earlier_values_of_any(wells) == 0 {
            out.push(said::SecondTrip.text());
        }
        let of = |with: &dyn Fn(&Case) -> bool| -> Vec<Arg> {
            let named = self.cases.iter().filter(|c| with(c)).filter_map(|c| c.result.well.as_deref());
            named.map(|w| Arg::Name(w.into())).collect()
        };
        let part = |c: &Case, s: Source| {
            c.result.accounting.as_ref().and_then(|a| a.part(s)).is_some_and(|p| p.told != ToldOf::Measured)
        };
        let lacks = |c: &Case, check: Check, outcome: Outcome| {
            c.findings.iter().any(|f| f.check == check && f.outcome == outcome)
        };
        let air = of(&|c| part(c, Source::AirAndHands));
        if !air.is_empty() {
            out.push(said::TwoBlanks { wells: air }.text());
        }
        let spike = of(&|c| lacks(c, Check::NumberRecovery, Outcome::NotKnown));
        if !spike.is_empty() {
            out.push(said::OneSpike { wells: spike }.text());
        }
        let third = of(&|c| lacks(c, Check::NumberDuplicates, Outcome::NotMet));
        if !third.is_empty() {
            out.push(said::ThirdBottle { wells: third }.text());
        }
        let second = of(&|c| lacks(c, Check::NumberDuplicates, Outcome::NotKnown));
        if !second.is_empty() {
            out.push(said::SecondBottle { wells: second }.text());
        }
        if self.cases.is_empty() {
            out.push(said::BlanksAndSpikes.text());
        }
        out
    }

    /// Values of the key at a well before the report's first day: time, value, interval.
    fn earlier_values(&self, well: &str) -> Vec<(String, &'a Listed)> {
        let began = self.began();
        let of = |r: &&Listed| {
            r.analyte == self.key && r.well.as_deref() == Some(well) && r.kind.is_water() && r.verdict.is_some()
        };
        let before = |r: &'a Listed| {
            let at = r.filled_at.as_deref()?.get(..10)?;
            (at < began.as_str()).then(|| (at.to_string(), r))
        };
        let mut out: Vec<(String, &Listed)> = self.years.iter().filter(of).filter_map(before).collect();
        out.sort_by(|a, b| a.0.cmp(&b.0));
        out
    }

    fn earlier_values_of_any(&self, wells: &BTreeMap<&'a str, Vec<&'a Listed>>) -> usize {
        wells.keys().map(|w| self.earlier_values(w).len()).sum()
    }

    /// The day on which the newest bottles of the key were filled.
    fn began(&self) -> String {
        let trip = self.chosen.trips.last().map(|t| t.starts.clone());
        let newest = || {
            let of = self.chosen.results.iter().filter(|r| r.analyte == self.key && r.kind.is_water());
            of.filter_map(|r| r.filled_at.clone()).max()
        };
        let at = trip.or_else(newest).unwrap_or_default();
        at.get(..10).unwrap_or(&at).to_string()
    }

    fn earlier(&self, well: &str, value: Option<&WellValue>, front: &mut Front) {
        let unit_of = |a: &Amount| a.unit().clone();
        let newest: Option<Amount> = match value.map(|v| &v.told) {
            Some(Told::Value { amount, .. } | Told::AtMost { amount, .. }) => Some(amount.clone()),
            _ => None,
        };
        let newest = newest.or_else(|| {
            let of = self.chosen.results.iter().filter(|r| r.analyte == self.key && r.well.as_deref() == Some(well));
            of.filter_map(|r| r.amount.clone()).next_back()
        });
        let Some(newest) = newest else { return };
        let unit = unit_of(&newest);
        let began = self.began();
        let then = |at: &str, a: &Amount| -> Option<Then> {
            let a = a.convert(&unit, None, None).ok()?;
            let year = year_of(at)?;
            Some(match &a {
                Amount::Measured(m) => {
                    let half = coverage_k(m.dof) * m.u;
                    Then { year, value: m.value, interval: Some((m.value - half, m.value + half)) }
                }
                Amount::Stated(s) => Then { year, value: s.value, interval: Some((s.value, s.value)) },
                Amount::Below(b) => Then { year, value: b.limit, interval: None },
                Amount::Above(_) => return None,
            })
        };
        let earlier = self.earlier_values(well);
        let mut values: Vec<Then> = earlier.iter().filter_map(|(at, r)| then(at, r.amount.as_ref()?)).collect();
        let n = values.len();
        let day = value.map_or(began, |v| v.water.day.clone());
        values.extend(then(&day, &newest));
        let newest_printed = match &newest {
            Amount::Measured(_) => Shown { expanded: None, unit: String::new(), ..newest.shown(2.0) }.text(),
            _ => newest.with_u().text().replace(&format!(" {unit}"), ""),
        };
        let note = match n {
            0 => said::OnePoint.text(),
            n => said::SeveralPoints { values: count(n + 1), unit: unit.to_string().into() }.text(),
        };
        let picture = EarlierPicture {
            head: Head {
                id: slug(&format!("earlier-{well}-{}", self.key)),
                title: document_title(),
                desc: said::EarlierDescribed { values: count(n), newest: newest.with_u() }.text(),
            },
            unit: unit.to_string(),
            values,
            newest: newest_printed,
        };
        front.earlier = Some(Illustration { wide: earlier::draw(&picture), phone: None, caption: String::new() });
        front.earlier_note = note;
    }
}

fn document_title() -> String {
    message::document_words::EarlierTrips.text()
}

/// A value, or the bound of what has none.
fn size(a: &Amount) -> Option<f64> {
    match a {
        Amount::Below(b) | Amount::Above(b) => Some(b.limit),
        other => other.value(),
    }
}

/// Decimal year of a day.
fn year_of(at: &str) -> Option<f64> {
    let d = day(at)?;
    Some(f64::from(d.year) + (f64::from(d.month) - 1.0 + (f64::from(d.day) - 0.5) / 30.5) / 12.0)
}

fn newest_day(bottles: &[&Listed]) -> Option<String> {
    let newest = bottles.iter().filter_map(|r| r.filled_at.as_deref()).max()?;
    Some(newest.get(..10).unwrap_or(newest).to_string())
}

/// What was found in each bottle: of a value that bounds what was found, the value and its U; of nothing found the bound.
fn values(bottles: &[&Listed]) -> Vec<Arg> {
    let one = |r: &&Listed| -> Arg {
        match (&r.bound(), &r.amount) {
            (Some((bound, unit)), _) => {
                Message::from(said::Bounded { bound: bound.as_str().into(), unit: unit.as_str().into() }).into()
            }
            (None, Some(amount @ Amount::Measured(_))) => Arg::Amount(amount.shown(r.coverage_k.unwrap_or(2.0))),
            (None, Some(amount)) => amount.with_u().into(),
            (None, None) => Message::from(said::NotStated).into(),
        }
    };
    let mut out: Vec<Arg> = bottles.iter().take(4).map(one).collect();
    if bottles.len() > 4 {
        out.push(Message::from(said::AndMore { n: count(bottles.len() - 4) }).into());
    }
    out
}

fn cell_of(r: &Listed, unit: &str) -> Cell {
    match (r.bound(), &r.amount) {
        (Some((bound, _)), _) => Cell::Text(bound),
        (None, Some(amount)) if amount.unit().to_string() == unit => {
            Cell::Text(Printed::of(amount, r.coverage_k.unwrap_or(2.0)).number())
        }
        (None, Some(amount)) => Cell::Text(Printed::of(amount, r.coverage_k.unwrap_or(2.0)).in_line()),
        (None, None) => Cell::Missing(said::NotStated.text()),
    }
}

fn verdict_in_words(verdict: VerdictWord) -> String {
    match verdict {
        VerdictWord::Accepted => said::Accepted.text(),
        VerdictWord::Provisional => said::Provisional.text(),
        VerdictWord::Rejected => said::Rejected.text(),
    }
}

fn text_or_not_on_record(finding: Option<&Finding>) -> String {
    finding.map_or_else(|| said::NotOnRecord.text(), |f| capital(f.as_sentence()))
}

/// Loss is told from the spike on: what was lost before it nobody sees.
fn loss_in_words(finding: Option<&Finding>) -> String {
    let measured = finding.filter(|f| f.outcome != Outcome::NotKnown).and_then(|f| {
        f.compared.iter().find_map(|c| match &c.amount {
            Amount::Measured(m) => Some(m.clone()),
            _ => None,
        })
    });
    let Some(m) = measured else { return text_or_not_on_record(finding) };
    // A share, or percent already.
    let percent = if m.unit.to_string() == "%" { 1.0 } else { 100.0 };
    let (value, half) = (percent * m.value, percent * coverage_k(m.dof) * m.u);
    let most = (100.0 - value + half).max(0.0);
    let recovery = Amount::measured(value, percent * m.u, quantity::Unit::known("%"));
    let recovery = recovery.shown(coverage_k(m.dof));
    said::LossAtMost { recovery, most: Shown::bound(most, "%") }.text()
}

fn reasons_in_few_words(r: &Listed) -> String {
    let first = r.reasons.iter().find_map(|c| Check::from_text(c));
    let told = |f: Check| in_few_words(&Finding::new(f, Outcome::NotKnown, said::NotOnRecord));
    first.and_then(told).unwrap_or_default()
}
