//! What a run says about itself, one file for each kind of check: blanks, calibration line, drift, overlaps, reference
//! materials, duplicates, spikes, isotopes that should agree, dead time and internal standards, replicates far from
//! the others, what high vials leave behind, what the detector counts without a sample, readings that repeat.
//!
//! A fault of a vial that others stand on (standard, blank, drift check) is told at all results of its analyte: it has
//! no position. What the data cannot show stands in [`unseen`].

mod blanks;
mod controls;
mod dark;
mod drift;
mod isotopes;
mod line;
mod overlaps;
mod repeated;
mod replicates;
mod signal;
pub(super) mod unseen;
mod wash_out;

pub use blanks::FEWEST_BLANKS;

use super::analyte_reduction::AnalyteReduction;
use super::input::Role;
use super::net::Net;
use super::recipe::{Recipe, Recovery};
use super::result::{RunFinding, RunResult};
use super::{Analyte, ReducedRun};
use message::{Digits, Message, Name, Share, Shown};
use quantity::{Check, Finding, Outcome};

/// Part of a result's u that a carry-over or a dark rate may move it by unseen.
// The programme's own choice: with half of u the whole grows by an eighth at most.
const UNSEEN_PART: f64 = 0.5;

struct Findings<'a> {
    out: &'a mut Vec<RunFinding>,
    analyte: Option<Analyte>,
}

impl Findings<'_> {
    fn add(&mut self, position: Option<u32>, finding: Finding) {
        self.out.push(RunFinding { finding, analyte: self.analyte.clone(), position });
    }
}

fn finding(check: Check, met: bool, says: impl Into<Message>) -> Finding {
    let outcome = if met { Outcome::Met } else { Outcome::NotMet };
    Finding::new(check, outcome, says.into())
}

fn unknown(check: Check, says: impl Into<Message>) -> Finding {
    Finding::new(check, Outcome::NotKnown, says.into())
}

/// A number to three digits, without a unit of its own.
fn plain(x: f64) -> Shown {
    Shown::trimmed(x, 3, "")
}

/// A part of a whole, its percent to three digits.
fn part(x: f64) -> Share {
    Share::new(x, Digits::Trimmed(3))
}

/// A role as the catalogues choose by it: `field-blank`.
pub(super) fn kind(role: Role) -> Name {
    Name(role.word().replace(' ', "-"))
}

fn name(of: &impl ToString) -> Name {
    Name(of.to_string())
}

/// All findings of a reduced run.
pub(super) fn findings(run: &mut ReducedRun) {
    let mut out = Vec::new();
    signal::dead_time(run, &mut out);
    signal::internal_standards(run, &mut out);
    repeated::repeated_readings(run, &mut out);
    let mut references = Vec::new();
    let mut duplicates = Vec::new();
    for c in 0..run.reductions.len() {
        let mut f = Findings { analyte: Some(run.reductions[c].plan.analyte.clone()), out: &mut out };
        line::excluded(run, c, &mut f);
        line::line(run, c, &mut f);
        drift::drift(run, c, &mut f);
        drift::open(run, c, &mut f);
        drift::fast(run, c, &mut f);
        signal::standards(run, c, &mut f);
        dark::detector_background(run, c, &mut f);
        wash_out::wash_out(run, c, &mut f);
        blanks::blanks(run, c, &mut f);
        overlaps::overlaps(run, c, &mut f);
        references.extend(controls::reference_materials(run, c, &mut f));
        duplicates.extend(controls::duplicate_pairs(run, c, &mut f));
        controls::spike_findings(run, c, &mut f);
    }
    replicates::outliers(run, &mut out);
    isotopes::isotopes_agree(run, &mut out);
    run.references = references;
    run.duplicates = duplicates;
    run.findings = out;
}

/// Whether results of other vials stand on a vial of a role.
fn others_stand_on(recipe: &Recipe, role: Role) -> bool {
    match role {
        Role::Standard | Role::CalibrationBlank | Role::DriftCheck | Role::InterferenceCheck => true,
        Role::FieldSpike => recipe.recovery == Recovery::FieldSpikes,
        Role::LabSpike => recipe.recovery == Recovery::LabSpikes,
        role => role == recipe.blank.samples,
    }
}

/// Where a fault of a vial is told: at its own result, or at all results (none) where others stand on it.
fn reach(run: &ReducedRun, v: usize) -> Option<u32> {
    let vial = &run.table.vials[v];
    (!others_stand_on(&run.recipe, vial.role)).then_some(vial.position)
}

/// Results of an analyte that a reader meets as such, with their net values: blanks and drift checks left aside.
fn judged(run: &ReducedRun, c: usize) -> impl Iterator<Item = (&RunResult, &Net)> {
    run.results
        .iter()
        .zip(&run.nets)
        .filter(move |(r, n)| n.0 == c && super::blank_role(&run.recipe, r.role).is_some())
        .map(|(r, n)| (r, &n.1))
}

/// Vials of an analyte that have a response, in order of time, session by session.
fn in_time(run: &ReducedRun, reduction: &AnalyteReduction) -> Vec<usize> {
    let vials = &run.table.vials;
    let mut order: Vec<usize> = (0..vials.len()).filter(|v| reduction.points[*v].is_some()).collect();
    let when = |v: usize| super::table::When::of(&vials[v]);
    order.sort_by(|a, b| when(*a).order(&when(*b)).then(vials[*a].position.cmp(&vials[*b].position)));
    order
}
