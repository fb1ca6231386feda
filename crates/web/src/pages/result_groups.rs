//! Bottles of one well, day, substance and fraction as one thing: what stands in one row or card, what of it is asked for,
//! and in which order.
//!
//! In: the short list of results ([`Index`]). Out: [`Grouped`], made once for a state of the results and then kept;
//! [`Grouped::select`] answers which groups fit, how many results that are, and the rows of a page. Bottles of no well, and
//! blanks, stand alone. Replicates are never taken for separate samplings: the visit before is one of another day.

use crate::app::App;
use crate::http_error::HttpError;
use crate::worked;
use programme::index::{Entry, Index, Wanted};
use programme::limits_of::may_exceed;
use record::model::VerdictWord;
use record::store::Store;
use std::cmp::Reverse;
use std::collections::{HashMap, HashSet};
use std::sync::Arc;

/// Results of the newest day of each well looked at for what lies above a limit.
// A first look is made once for a state of the results: some thousand rows are read in a tenth of a second.
const LOOKED_AT: usize = 2000;

/// No group, in the list of groups by row.
const NONE: u32 = u32::MAX;

/// Bottles of one well, day, substance and fraction; or one bottle of no well, or a blank.
#[derive(Debug, Clone)]
pub(crate) struct Group {
    /// Its results.
    pub entries: Vec<Entry>,
    /// The group of the visit before.
    pub before: Option<u32>,
}

/// All groups, the newest sampling first.
#[derive(Default)]
pub(crate) struct Grouped {
    groups: Vec<Group>,
    /// Place of the group of a result, by the result's row.
    of_row: Vec<u32>,
    /// Rows of the newest day of each well that may lie above a limit.
    above: HashSet<i64>,
}

/// In which order groups stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum Order {
    /// Rejected, provisional and above a limit, provisional, accepted; of these the newest first.
    #[default]
    Needs,
    /// The newest sampling first.
    Newest,
    /// By the name of the well.
    Well,
    /// By the substance.
    Substance,
}

impl Order {
    /// All, as they are offered.
    pub const ALL: [Self; 4] = [Self::Needs, Self::Newest, Self::Well, Self::Substance];

    /// In an address.
    pub fn word(self) -> &'static str {
        match self {
            Self::Needs => "needs",
            Self::Newest => "newest",
            Self::Well => "well",
            Self::Substance => "substance",
        }
    }
}

/// What is asked of the groups.
pub(crate) struct Sought<'a> {
    pub wanted: &'a Wanted,
    /// Only results that a check holds back, by their rows.
    pub held: Option<&'a HashSet<i64>>,
    pub order: Order,
}

/// What was found.
#[derive(Debug, Clone, Default)]
pub(crate) struct Found {
    /// Results that fit.
    pub results: usize,
    /// Of what fits but for the verdict: accepted, provisional, rejected.
    pub verdicts: [usize; 3],
    /// Groups that hold them.
    pub groups: usize,
    /// Those of the page: which of the results of each fit.
    pub page: Vec<(u32, Vec<Entry>)>,
}

impl Grouped {
    fn of(i: &Index) -> Self {
        let mut out = Self::default();
        let mut places: HashMap<(u64, &str, &str, &str), u32> = HashMap::new();
        let mut visits: HashMap<(u32, &str, &str), u32> = HashMap::new();
        for evidence in [false, true] {
            for e in i.wanted(&Wanted { evidence, ..Wanted::default() }) {
                let (bottle, m) = (&i.bottles[e.bottle as usize], &i.measurands[e.measurand as usize]);
                let well = bottle.well.filter(|_| !evidence && !bottle.day.is_empty());
                // A bottle of no well stands by its own place, behind all wells.
                let place = well.map_or_else(|| (1 << 32) + u64::from(e.bottle), u64::from);
                let next = u32::try_from(out.groups.len()).unwrap_or(NONE);
                let at = *places
                    .entry((place, bottle.day.as_str(), m.analyte.as_str(), m.fraction.as_str()))
                    .or_insert(next);
                if at == next {
                    out.groups.push(Group { entries: vec![], before: None });
                    if let Some(well) = well
                        && let Some(later) = visits.insert((well, m.analyte.as_str(), m.fraction.as_str()), at)
                    {
                        out.groups[later as usize].before = Some(at);
                    }
                }
                out.groups[at as usize].entries.push(*e);
                let row = usize::try_from(e.row).unwrap_or(0);
                if out.of_row.len() <= row {
                    out.of_row.resize(row + 1, NONE);
                }
                out.of_row[row] = at;
            }
        }
        out
    }

    /// A group by its place.
    pub fn group(&self, at: u32) -> Option<&Group> {
        self.groups.get(at as usize)
    }

    /// Rows of the results of the same group and isotopes as one result, by bottle; those without a verdict at the end.
    pub fn set(&self, row: i64) -> Vec<i64> {
        let Some(group) = self.place_of(row).and_then(|at| self.group(at)) else { return vec![row] };
        let measurand = group.entries.iter().find(|e| e.row == row).map(|e| e.measurand);
        let mut of: Vec<&Entry> = group.entries.iter().filter(|e| Some(e.measurand) == measurand).collect();
        of.sort_by_key(|e| (e.verdict.is_none(), e.bottle));
        of.into_iter().map(|e| e.row).collect()
    }

    /// Of each well, substance and fraction the group of its newest day.
    pub fn newest(&self, i: &Index) -> Vec<u32> {
        let earlier: HashSet<u32> = self.groups.iter().filter_map(|g| g.before).collect();
        let of_well = |g: &Group| {
            let bottle = g.entries.first().and_then(|e| i.bottles.get(e.bottle as usize));
            bottle.is_some_and(|b| b.kind.is_water())
        };
        let newest = (0..).zip(&self.groups).filter(|(at, g)| !earlier.contains(at) && of_well(g));
        newest.map(|(at, _)| at).collect()
    }

    /// Page `page` (from 0) of `per` groups.
    pub fn select(&self, i: &Index, sought: &Sought, page: usize, per: usize) -> Found {
        let mut out = Found::default();
        // In the order in which they are met, the newest first: which groups, and what is known of each.
        let mut met: Vec<Met> = vec![];
        let mut place = vec![NONE; self.groups.len()];
        let held = |e: &&Entry| sought.held.is_none_or(|held| held.contains(&e.row));
        let fits = |e: &&Entry| sought.wanted.verdict.is_none() || e.verdict == sought.wanted.verdict;
        for e in i.wanted(sought.wanted).filter(held) {
            if let Some(v) = e.verdict {
                out.verdicts[v as usize] += 1;
            }
            let Some(at) = self.place_of(e.row).filter(|_| fits(&e)) else { continue };
            out.results += 1;
            if place[at as usize] == NONE {
                place[at as usize] = u32::try_from(met.len()).unwrap_or(NONE);
                met.push(Met { at, first: *e, worst: None, above: false });
            }
            let of = &mut met[place[at as usize] as usize];
            of.worst = of.worst.max(e.verdict);
            of.above |= self.above.contains(&e.row);
        }
        out.groups = met.len();
        let shown: Vec<u32> = in_order(i, met, sought.order).into_iter().skip(page * per).take(per).collect();
        out.page = shown.iter().map(|at| (*at, vec![])).collect();
        for e in i.wanted(sought.wanted).filter(held).filter(fits) {
            if let Some(n) = self.place_of(e.row).and_then(|at| shown.iter().position(|s| *s == at)) {
                out.page[n].1.push(*e);
            }
        }
        out
    }

    /// The group of a result, by its row.
    fn place_of(&self, row: i64) -> Option<u32> {
        usize::try_from(row).ok().and_then(|row| self.of_row.get(row)).copied().filter(|at| *at != NONE)
    }
}

/// A group that fits.
struct Met {
    at: u32,
    /// One of its results.
    first: Entry,
    /// The worst verdict of those that fit.
    worst: Option<VerdictWord>,
    /// One of those that fit may lie above a limit.
    above: bool,
}

/// The groups in an order; what is alike in it stays as it is.
fn in_order(i: &Index, mut met: Vec<Met>, order: Order) -> Vec<u32> {
    let well = |m: &Met| {
        let bottle = i.bottles.get(m.first.bottle as usize);
        bottle.and_then(|b| i.wells.get(b.well? as usize)).map_or("\u{10FFFF}", String::as_str)
    };
    let analyte = |m: &Met| i.measurands.get(m.first.measurand as usize).map_or("", |m| m.analyte.as_str());
    match order {
        Order::Newest => {}
        Order::Well => met.sort_by(|a, b| well(a).cmp(well(b))),
        Order::Substance => met.sort_by(|a, b| analyte(a).cmp(analyte(b))),
        Order::Needs => {
            // Few ranks of very many: each is gathered by itself, without a sort.
            let mut ranks: [Vec<u32>; 5] = Default::default();
            for m in met {
                let rank = match m.worst {
                    Some(VerdictWord::Rejected) => 0,
                    Some(VerdictWord::Provisional) if m.above => 1,
                    Some(VerdictWord::Provisional) => 2,
                    Some(VerdictWord::Accepted) => 3,
                    None => 4,
                };
                ranks[rank].push(m.at);
            }
            return ranks.concat();
        }
    }
    met.into_iter().map(|m| m.at).collect()
}

/// The groups of the results as they stand.
pub(crate) fn grouped(store: &Store, app: &App) -> Result<Arc<Grouped>, HttpError> {
    let now = app.record.index(store, Index::state)?;
    worked::kept(app, "groups", now.to_string(), || {
        let (mut made, newest) = app.record.index(store, |i| (Grouped::of(i), newest_day(i)))?;
        made.above = may_exceed(store, &newest)?.into_iter().collect();
        Ok(made)
    })
}

/// Results of each well's newest day that are provisional.
fn newest_day(i: &Index) -> Vec<i64> {
    let mut days: Vec<Option<&str>> = vec![None; i.wells.len()];
    let of_newest = |e: &&Entry| {
        let bottle = &i.bottles[e.bottle as usize];
        let Some(day) = bottle.well.and_then(|w| days.get_mut(w as usize)) else { return false };
        *day.get_or_insert(bottle.day.as_str()) == bottle.day && e.verdict == Some(VerdictWord::Provisional)
    };
    i.wanted(&Wanted::default()).filter(of_newest).map(|e| e.row).take(LOOKED_AT).collect()
}

/// Rows of results whose standing verdict a check decided.
pub(crate) fn held_by(store: &Store, app: &App, check: &str) -> Result<Arc<HashSet<i64>>, HttpError> {
    let now = app.record.index(store, Index::state)?;
    worked::kept(app, &format!("held by {check}"), now.to_string(), || {
        let held = Wanted { held_by: Some(check.into()), ..Wanted::default() };
        app.record.index(store, |i| i.wanted(&held).map(|e| e.row).collect::<HashSet<i64>>())
    })
}

/// The results that stand for a group: of one isotope or sum of isotopes. The sum where there is one, else the one with
/// the most bottles, else the first of the record.
pub(crate) fn reporting<'e>(i: &Index, of: &'e [Entry]) -> Vec<&'e Entry> {
    let isotopes = |e: &Entry| i.measurands.get(e.measurand as usize).map_or("", |m| m.isotopes.as_str());
    let mut sets: Vec<u32> = of.iter().map(|e| e.measurand).collect();
    sets.sort_unstable();
    sets.dedup();
    let rank = |m: &u32| {
        let bottles = of.iter().filter(|e| e.measurand == *m).count();
        let sum = of.iter().find(|e| e.measurand == *m).is_some_and(|e| isotopes(e).contains('+'));
        (sum, bottles, Reverse(*m))
    };
    let best = sets.into_iter().max_by_key(rank);
    let mut out: Vec<&Entry> = of.iter().filter(|e| Some(e.measurand) == best).collect();
    // Bottles with a verdict before those that are evidence alone.
    out.sort_by_key(|e| (e.verdict.is_none(), e.bottle));
    out
}
