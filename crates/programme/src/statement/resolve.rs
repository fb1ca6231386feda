//! From the fields of a sentence as a person writes them to the fields that `limits::claim` takes.
//!
//! A result's name becomes its amount; a bottle in a sentence of absence its compounds; a series in a sentence of change
//! (`"series":{"well":"SL-2","analyte":"Pb"}`) the slope, interval, span and methods of its trend. Where a sentence holds
//! results of one analyte from one run side by side, the covariance that they share (line, drift checks, blank) goes in.
//! A well (`{"well":"SL-2","analyte":"Pb"}`) becomes the common value of its bottles, and stands on all of them; where
//! they disagree there is none. In a sentence of age the well (`"well":"SL-2"`) becomes what its tracers say, model by
//! model; it stands on those rows of the record ([`Resolved::leans`]) and on no result. A number that is only an upper bound on the water, because the metal of a stage that no
//! blank met is in it, stands as that bound; beside the sentence on the waters stands the one on what was found in the
//! bottles, which may bear what the other does not. Unfiltered and filtered water are not compared unless the sentence names both.

use super::sentence::{Named, Sentence, SeriesName, Subject, WellName, Whole};
use assessment::age::Leans;
use assessment::attribution::RunPair;
use assessment::derive::{self, Reduced, find_run};
use assessment::organics::Compounds;
use assessment::put_back::PutBack;
use assessment::results::{self, Listed, Lists};
use assessment::same_water::{Common, Waters};
use assessment::series_of;
use assessment::well_value::{self, Told, WellValue};
use limits::claim::{Age, Change, Claim, Item, Ranking, Says, Shared, Slope, Tracers};
use measurement::run::{Analyte, ReducedRun};
use quantity::{Amount, Unit};
use record::error::Error;
use record::identity::ResultId;
use record::model::State;
use record::store::{Filter, Store};
use series::trend;
use std::collections::{BTreeSet, HashMap};

/// A sentence with amounts in place of names, and what they came from.
pub(super) struct Resolved {
    /// What `limits::claim::check` takes.
    pub claim: Claim,
    /// The same of what was found in the bottles, where the sentence speaks of waters that a number only bounds.
    pub bottles: Option<Claim>,
    /// Results whose number is only a bound on the water.
    pub bounds: Vec<ResultId>,
    /// Place in the fields, and the result that stands there.
    pub uses: Uses,
    /// Rows of tracers, histories and facts that an age leans on.
    pub leans: Vec<Leans>,
}

/// Places in the fields, and the results that stand there.
type Uses = Vec<(String, Listed)>;

/// Puts amounts in place of the names of results.
///
/// # Errors
/// [`Error::Absent`] for a name that is not on record; [`Error::Unfit`] for a result or a series without a bound; the store.
pub(super) fn resolve(store: &Store, sentence: &Sentence) -> Result<Resolved, Error> {
    let mut asked = sentence.claim.clone();
    if let (Some(Whole::Age(well)), Says::Age(age)) = (&sentence.whole, &mut asked.says) {
        let leans = whole_age(store, well, age)?;
        // No amount stands in a sentence of age.
        let claim = asked.with_amounts(|place, _| Err(Error::absent("amount", place, "")))?;
        return Ok(Resolved { claim, bottles: None, bounds: vec![], uses: vec![], leans });
    }
    let lists = Lists::of(store)?;
    let mut uses = vec![];
    let mut compounds = None;
    let reduced = if sentence.names_a_well() { derive::reduce_all(store)? } else { Reduced::default() };
    let pairs: Vec<RunPair> = reduced.runs.iter().map(|(p, r)| (p, r)).collect();
    let back = PutBack::of(store, &pairs)?;
    let wells = Wells::of(store, &pairs, &back)?;
    let mut commons = HashMap::new();
    let mut found = Found::default();
    match (&sentence.whole, &mut asked.says) {
        (Some(Whole::Bottle(label)), Says::Absence(absence)) => {
            compounds = Some(whole_bottle(store, &lists, label, &mut uses)?);
            // The bottle stands in place of a list.
            absence.results = None;
            absence.name.get_or_insert_with(|| place(&uses[0].1));
        }
        (Some(Whole::Series(named)), Says::Change(change)) => whole_series(store, named, change, &mut uses)?,
        _ => {}
    }
    let mut claim = asked.with_amounts(|place, named| match named {
        Named::Amount(a) => Ok(a),
        Named::Result(name) => {
            let r = lists.listed(results::find(store, &name)?);
            let a = amount(&r)?;
            found.result(place, &r);
            uses.push((place.to_string(), r));
            Ok::<_, Error>(a)
        }
        Named::Well(name) => {
            let value = wells.find(&name)?;
            found.well(place, value);
            for result in value.bottles.iter().filter_map(|p| p.result.as_ref()) {
                uses.push((place.to_string(), lists.listed(results::row(store, result)?)));
            }
            let amount = amount_of_well(value)?;
            // A bound has no u that two of them could share.
            let common = value.common.clone().filter(|_| matches!(value.told, Told::Value { .. }));
            commons.extend(common.map(|c| (place.to_string(), c)));
            Ok(amount)
        }
    })?;
    if !matches!(sentence.whole, Some(Whole::Bottle(_))) {
        one_fraction(&uses, &sentence.fractions)?;
    }
    if let (Says::Absence(absence), Some(compounds)) = (&mut claim.says, compounds) {
        absence.results = Some(compounds);
        for (place, r) in &uses {
            found.result(place, r);
        }
    }
    let of_bottles = found.in_place_of_bounds(&claim);
    let finish = |mut claim: Claim, called: fn(&Listed) -> String| {
        names(&mut claim.says, &uses, called);
        critical_values(&mut claim.says, &uses);
        shared(store, &mut claim.says, &uses, &wells, &commons)?;
        Ok::<_, Error>(claim)
    };
    if sentence.subject == Subject::Bottles {
        let claim = finish(of_bottles.unwrap_or(claim), |r| r.bottle.clone())?;
        return Ok(Resolved { claim, bottles: None, bounds: vec![], uses, leans: vec![] });
    }
    let bottles = of_bottles.map(|claim| finish(claim, |r| r.bottle.clone())).transpose()?;
    let mut claim = finish(claim, place)?;
    found.mark(&mut claim.says);
    Ok(Resolved { claim, bottles, bounds: found.results, uses, leans: vec![] })
}

/// Age: what the tracers of a well say to the age that is asked, and the rows that this leans on.
fn whole_age(store: &Store, well: &str, age: &mut Age) -> Result<Vec<Leans>, Error> {
    let leans = assessment::age::leans(store, well)?;
    let asked = age.clone();
    let tracers = assessment::age::of_sentence(store, well, |sampled| Ok(asked.asked(Some(sampled))?.years(sampled)))?;
    age.name.get_or_insert_with(|| well.into());
    age.tracers = tracers;
    if age.tracers.is_none() {
        // Nothing was sampled: a year still to come when the last was written down is none that anything fell before.
        let latest = latest(store)?;
        age.asked(latest)?;
        age.tracers = latest.map(|counted_from| Tracers { counted_from, ..Tracers::default() });
    }
    Ok(leans)
}

/// The day of the last entry as a decimal year.
fn latest(store: &Store) -> Result<Option<f64>, Error> {
    let last = store.events_last(1)?.pop();
    let day = last.and_then(|e| e.at.get(..10)?.parse::<jiff::civil::Date>().ok());
    Ok(day.map(series::rows::decimal_year))
}

/// What was found in bottles whose number is only a bound on the water, by the places of the fields.
#[derive(Default)]
struct Found {
    amounts: HashMap<String, Amount>,
    results: Vec<ResultId>,
}

impl Found {
    fn result(&mut self, place: &str, r: &Listed) {
        if let (Some(_), Some(net)) = (r.bound(), &r.net)
            && self.amounts.insert(place.into(), net.clone()).is_none()
        {
            self.results.push(r.result.clone());
        }
    }

    fn well(&mut self, place: &str, value: &WellValue) {
        if let Told::AtMost { found: Some(found), .. } = &value.told {
            self.amounts.insert(place.into(), found.clone());
            self.results.extend(value.bottles.iter().filter_map(|b| b.result.clone()));
        }
    }

    /// The sentence with what was found; none where no number is a bound of this kind.
    fn in_place_of_bounds(&self, claim: &Claim) -> Option<Claim> {
        let put = |place: &str, a: Amount| Ok::<_, Error>(self.amounts.get(place).cloned().unwrap_or(a));
        let put = (!self.amounts.is_empty()).then(|| claim.clone().with_amounts(put));
        put.map(|claim| claim.expect("putting an amount in place refuses nothing"))
    }

    /// No water is called free of what was found in its bottle.
    fn mark(&self, says: &mut Says) {
        let Says::Absence(absence) = says else { return };
        let holds = |place: &str| self.amounts.contains_key(place).then_some(true);
        absence.found_in_bottle = absence.found_in_bottle.or_else(|| holds("value"));
        for (i, item) in absence.results.iter_mut().flatten().enumerate() {
            item.found_in_bottle = item.found_in_bottle.or_else(|| holds(&format!("results[{i}].amount")));
        }
    }
}

/// The values of wells, where a sentence names one.
struct Wells<'a> {
    waters: Waters<'a>,
    values: Vec<WellValue>,
}

impl<'a> Wells<'a> {
    fn of(store: &Store, runs: &[RunPair<'a>], back: &'a PutBack) -> Result<Self, Error> {
        let waters = Waters::of(store, runs, back)?;
        let values =
            if runs.is_empty() { vec![] } else { well_value::of(&waters, &well_value::measured(store, runs)?) };
        Ok(Self { waters, values })
    }

    /// The only value that a name fits.
    fn find(&self, name: &WellName) -> Result<&WellValue, Error> {
        let fits = |asked: &Option<String>, is: &str| asked.as_deref().is_none_or(|a| a == is);
        let of_well = |w: &&WellValue| {
            w.water.well.as_deref() == Some(name.well.as_str())
                && w.analyte == name.analyte
                && fits(&name.trip, w.water.trip.as_deref().unwrap_or_default())
                && fits(&name.day, &w.water.day)
                && fits(&name.fraction, &w.water.fraction)
                && fits(&name.isotopes, &w.isotopes)
                && fits(&name.resolution, &w.resolution)
        };
        let found: Vec<&WellValue> = self.values.iter().filter(of_well).collect();
        let what = format!("{} of {}", name.analyte, name.well);
        match found[..] {
            [] => Err(Error::absent("value of a well", what, "; `limpid results --wells` lists all that there are")),
            [one] => Ok(one),
            _ => {
                let told = |w: &&WellValue| {
                    format!("{}, {}, {} {}@{}", w.water.day, w.water.fraction, w.analyte, w.isotopes, w.resolution)
                };
                Err(Error::Unfit {
                    what: format!("the value of {what}"),
                    found: found.iter().map(told).collect::<Vec<_>>().join("; "),
                    expected: "one of them, by \"trip\", \"day\", \"fraction\", \"isotopes\" or \"resolution\"".into(),
                })
            }
        }
    }
}

/// What may be said of a well; nothing where its bottles disagree.
fn amount_of_well(value: &WellValue) -> Result<Amount, Error> {
    match &value.told {
        Told::Value { amount, .. } | Told::AtMost { amount, .. } => Ok(amount.clone()),
        Told::NoNumber => Err(Error::Unfit {
            what: format!("{} of {}", value.analyte, value.water.well.as_deref().unwrap_or_default()),
            found: format!("bottles that disagree: {}", value.number()),
            expected: "bottles that agree, or a single bottle by the name of its result".into(),
        }),
    }
}

/// Unfiltered and filtered water are compared only where the sentence names both.
fn one_fraction(uses: &[(String, Listed)], named: &[String]) -> Result<(), Error> {
    let fractions: BTreeSet<&str> = uses.iter().map(|(_, r)| r.fraction.as_str()).filter(|f| !f.is_empty()).collect();
    if fractions.len() < 2 || fractions.iter().all(|f| named.iter().any(|n| n == f)) {
        return Ok(());
    }
    let names: Vec<String> = fractions.iter().map(|f| format!("\"{f}\"")).collect();
    Err(Error::Unfit {
        what: "the fractions of the statement".into(),
        found: fractions.into_iter().collect::<Vec<_>>().join(" beside "),
        expected: format!(
            "water of one fraction, or \"fractions\":[{}] in the sentence, which names them",
            names.join(",")
        ),
    })
}

/// Absence over a bottle: every organic compound measured in it.
fn whole_bottle(store: &Store, lists: &Lists, label: &str, uses: &mut Uses) -> Result<Vec<Item>, Error> {
    let compounds = Compounds::of(store, &results::all(store)?)?;
    let mut items = vec![];
    for row in store.results(&Filter::all().is("bottle.label", label).latest())? {
        if compounds.holds(&row.analyte) {
            let r = lists.listed(row);
            let cas = compounds.cas(&r.analyte);
            let (analyte, amount) = (r.analyte.clone(), amount(&r)?);
            items.push(Item { analyte, amount, critical_value: None, found_in_bottle: None, cas });
            uses.push((format!("results[{}].amount", items.len() - 1), r));
        }
    }
    if items.is_empty() {
        return Err(Error::absent("organic compound of bottle", label, "; name a bottle with results of compounds"));
    }
    Ok(items)
}

fn amount(r: &Listed) -> Result<Amount, Error> {
    r.amount.clone().ok_or_else(|| Error::Unfit {
        what: r.result.to_string(),
        found: "not found, and not said below what".into(),
        expected: "a value or a limit".into(),
    })
}

/// Well, or bottle where it has none.
fn place(r: &Listed) -> String {
    r.well.clone().unwrap_or_else(|| r.bottle.clone())
}

/// The result at a place of the fields.
fn at<'a>(uses: &'a [(String, Listed)], role: &str) -> Option<&'a Listed> {
    uses.iter().find(|(r, _)| r == role).map(|(_, l)| l)
}

/// Names that the sentence leaves out are taken from its results, as they are `called`.
fn names(says: &mut Says, uses: &[(String, Listed)], called: fn(&Listed) -> String) {
    let of = |role: &str| at(uses, role).map(called);
    // Of several analytes none can speak for the sentence.
    let one = uses.windows(2).all(|w| w[0].1.analyte == w[1].1.analyte);
    let analyte = uses.first().map(|(_, r)| r.analyte.clone()).filter(|_| one);
    let put = |into: &mut Option<String>, value: Option<String>| {
        if into.is_none() {
            *into = value;
        }
    };
    match says {
        Says::Ratio(f) => {
            put(&mut f.analyte, analyte);
            put(&mut f.a_name, of("a"));
            put(&mut f.b_name, of("b"));
        }
        Says::Difference(f) => {
            put(&mut f.analyte, analyte);
            put(&mut f.a_name, of("a"));
            put(&mut f.b_name, of("b"));
        }
        Says::Threshold(f) => {
            put(&mut f.analyte, analyte);
            put(&mut f.name, of("value"));
        }
        Says::Analogy(f) => {
            put(&mut f.analyte, analyte);
            put(&mut f.name, of("value"));
        }
        Says::Absence(f) => {
            put(&mut f.analyte, analyte.filter(|_| uses.len() == 1));
            put(&mut f.name, of("value"));
        }
        Says::Reference(f) => {
            put(&mut f.analyte, analyte);
            put(&mut f.name, of("value"));
        }
        Says::Ranking(f) => put(&mut f.analyte, analyte),
        Says::Change(f) => {
            put(&mut f.analyte, analyte);
            put(&mut f.name, of("after").or_else(|| of("series[0]")));
        }
        // Its water is named by its well, or by whoever wrote what the tracers say.
        Says::Age(_) => {}
    }
}

/// Absence holds each result to the level that the record held it to.
fn critical_values(says: &mut Says, uses: &[(String, Listed)]) {
    let absence = match says {
        Says::Absence(absence) => absence,
        // Its bound is never under what the blanks let anybody see.
        Says::Threshold(f) => {
            let measured = matches!(f.value, Amount::Measured(_));
            f.critical_value = f.critical_value.or_else(|| at(uses, "value")?.critical_value.filter(|_| measured));
            return;
        }
        _ => return,
    };
    let edge = |role: &str| {
        let r = at(uses, role)?;
        // Not decided is not found: its own net value is what it would have to exceed.
        if let (State::NotDecided, Some(Amount::Measured(m))) = (r.state, &r.amount) {
            return Some(m.value);
        }
        // As in the list of compounds: a value without u is held to the limit that its laboratory reports by.
        let stated = matches!(r.amount, Some(Amount::Stated(_)));
        r.critical_value.or(r.reporting_limit.filter(|_| stated))
    };
    absence.critical_value = absence.critical_value.or_else(|| edge("value"));
    for (i, item) in absence.results.iter_mut().flatten().enumerate() {
        item.critical_value = item.critical_value.or_else(|| edge(&format!("results[{i}].amount")));
    }
}

/// Change over a whole series: slope by its trend, span, methods.
fn whole_series(store: &Store, named: &SeriesName, change: &mut Change<Named>, uses: &mut Uses) -> Result<(), Error> {
    let unfit = |what: String, found: String, expected: &str| Error::Unfit { what, found, expected: expected.into() };
    let of = format!("{} of {}", named.analyte, named.well);
    // Isotopes are chosen and methods carried on within the series alone, so its own results are all that it takes.
    let listed: Vec<Listed> = results::all(store)?
        .into_iter()
        .filter(|r| r.well.as_deref() == Some(named.well.as_str()) && r.analyte == named.analyte)
        .filter(|r| named.fraction.as_deref().is_none_or(|f| f == r.fraction))
        .collect();
    let record = series_of::of(store, &listed)?;
    let series = match record.wells.as_slice() {
        [] => return Err(Error::absent("series", of, "; name a well and an analyte with results of water on record")),
        [one] => one,
        many => {
            let fractions: Vec<&str> = many.iter().map(|s| s.fraction.as_str()).collect();
            return Err(unfit(
                format!("the series {of}"),
                format!("fractions {}", fractions.join(", ")),
                "\"fraction\" with one of them",
            ));
        }
    };
    let told = trend::trend(&series.observations(), &trend::Request::default())
        .map_err(|e| Error::Science { what: format!("the trend of {of}"), message: e.to_string() })?;
    let Some(slope) = told.slope.filter(trend::Slope::is_bounded) else {
        return Err(unfit(
            format!("the trend of {of}"),
            format!("a slope that {} non-detects of {} leave open", told.non_detects, told.n),
            "a slope with both ends of its interval",
        ));
    };
    let by_row: HashMap<i64, &Listed> = listed.iter().map(|r| (r.row, r)).collect();
    let mut methods: Vec<&str> = vec![];
    for (i, p) in series.rows.iter().enumerate() {
        uses.push((format!("series[{i}]"), by_row[&p.row].clone()));
        let method = p.observation.method.as_str();
        if !method.is_empty() && !methods.contains(&method) {
            methods.push(method);
        }
    }
    let day = |p: Option<&series_of::Point>| p.map(|p| p.date.to_string());
    // The interval that allows for the correlation of neighbours, where it can be told or assumed.
    let (low, high) = slope.deciding_interval();
    change.slope = Some(Slope {
        per_year: slope.per_year,
        interval_95: [low, high],
        unit: series.unit.clone(),
        from: day(series.rows.first()),
        to: day(series.rows.last()),
        start: None,
        years: Some(told.span.1 - told.span.0).filter(|years| *years > 0.0),
    });
    change.methods.get_or_insert_with(|| methods.into_iter().map(String::from).collect());
    Ok(())
}

/// Puts in the covariance of results that one run measured with one line and one blank; what a person wrote stays.
fn shared(
    store: &Store,
    says: &mut Says,
    uses: &[(String, Listed)],
    wells: &Wells,
    commons: &HashMap<String, Common>,
) -> Result<(), Error> {
    let mut runs = Runs { store, reduced: HashMap::new(), wells, commons };
    let mut pair = |a: &str, b: &str| runs.of_places(uses, a, b);
    match says {
        Says::Ratio(f) if f.covariance.is_none() => f.covariance = pair("a", "b")?,
        Says::Difference(f) if f.covariance.is_none() => f.covariance = pair("a", "b")?,
        Says::Change(f) if f.covariance.is_none() => f.covariance = pair("before", "after")?,
        Says::Ranking(f) if f.covariances.is_none() => f.covariances = shared_of_items(f, uses, &mut runs)?,
        _ => {}
    }
    Ok(())
}

/// What pairs of items share; none where no pair shares anything.
fn shared_of_items(
    ranking: &Ranking,
    uses: &[(String, Listed)],
    runs: &mut Runs,
) -> Result<Option<Vec<Shared>>, Error> {
    let items = &ranking.items;
    // The sentence is worked out in the unit of its first item, whichever laboratory that came from.
    let unit = items.first().map(|i| i.amount.unit());
    let place = |i: usize| format!("items[{i}].amount");
    let mut pairs = vec![];
    for (i, a) in items.iter().enumerate() {
        for (j, b) in items.iter().enumerate().skip(i + 1) {
            if let Some(x) = at(uses, &place(i))
                && let Some(c) = runs.of_places(uses, &place(i), &place(j))?
                && let Some(covariance) = squared(c, x, unit)
            {
                pairs.push(Shared { a: a.name.clone(), b: b.name.clone(), covariance });
            }
        }
    }
    Ok(Some(pairs).filter(|p| !p.is_empty()))
}

/// A covariance of results in another unit than theirs; none where they do not convert.
fn squared(covariance: f64, of: &Listed, unit: Option<&Unit>) -> Option<f64> {
    let per_unit = of.amount.as_ref()?.unit().conversion(unit?, None, None).ok()?.apply_difference(1.0);
    Some(covariance * per_unit * per_unit)
}

/// Runs of the record, each reduced once.
struct Runs<'a> {
    store: &'a Store,
    reduced: HashMap<i64, ReducedRun>,
    wells: &'a Wells<'a>,
    /// Common values of wells, by their places in the fields.
    commons: &'a HashMap<String, Common>,
}

impl Runs<'_> {
    /// Covariance of what stands at two places. A well beside a single bottle counts as independent: too large a u.
    fn of_places(&mut self, uses: &[(String, Listed)], a: &str, b: &str) -> Result<Option<f64>, Error> {
        match (self.commons.get(a), self.commons.get(b)) {
            (Some(x), Some(y)) => return Ok(Some(self.wells.waters.now().covariance(x, y)).filter(|c| *c != 0.0)),
            (None, None) => {}
            _ => return Ok(None),
        }
        match (at(uses, a), at(uses, b)) {
            (Some(a), Some(b)) => self.covariance(a, b),
            _ => Ok(None),
        }
    }

    /// Covariance of two results, in the square of their unit; none where they share no run, or where one is no longer
    /// what its run gives.
    fn covariance(&mut self, a: &Listed, b: &Listed) -> Result<Option<f64>, Error> {
        let measured = |l: &Listed| matches!(l.amount, Some(Amount::Measured(_)));
        if !measured(a) || !measured(b) {
            return Ok(None);
        }
        let (Some((run, p)), Some((other, q))) = (self.vial(a)?, self.vial(b)?) else { return Ok(None) };
        if run != other {
            return Ok(None);
        }
        if !self.reduced.contains_key(&run) {
            let Some(row) = self.store.runs()?.into_iter().find(|r| r.id == run) else { return Ok(None) };
            let prepared = derive::prepare(self.store, find_run(self.store, &row.name)?)?;
            self.reduced.insert(run, derive::reduce(&prepared)?);
        }
        let reduced = &self.reduced[&run];
        let index = |l: &Listed, position: u32| {
            let analyte =
                Analyte { element: l.analyte.clone(), isotopes: l.isotopes.clone(), resolution: l.resolution.clone() };
            reduced.find(position, &analyte).filter(|i| {
                let net = &reduced.results[*i].net;
                l.amount.as_ref().is_some_and(|a| {
                    a.value().map(f64::to_bits) == Some(net.value.to_bits())
                        && a.u().map(f64::to_bits) == Some(net.u.to_bits())
                })
            })
        };
        let pair = index(a, p).zip(index(b, q));
        Ok(pair.map(|(i, j)| reduced.covariance(i, j)))
    }

    /// Run and position of the vial that gave a result.
    fn vial(&self, l: &Listed) -> Result<Option<(i64, u32)>, Error> {
        let row = self.store.results(&Filter::all().is("id", l.row))?.pop();
        let Some(vial) = row.and_then(|r| r.vial_id) else { return Ok(None) };
        let vial = self.store.list::<record::model::Vial>(&Filter::all().is("id", vial))?.pop();
        Ok(vial.and_then(|v| Some((v.run_id, u32::try_from(v.position).ok()?))))
    }
}
