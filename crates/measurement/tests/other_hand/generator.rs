//! Makes one run of the second simulator: first what stands in the vials, then what the instrument counts of it.
//!
//! In: a design, a fault and a seed. Out: the run and the recipe as a laboratory would write them, and the truth that
//! neither holds. Levels in ng/L, times in minutes, rates in counts/s. Every figure of this file is the second
//! simulator's own choice, of the size that textbooks give for plasma mass spectrometry at ng/L (from memory).

use super::chance::Chance;
use super::design::{Asked, CADMIUM, Design, Fault, MOLYBDENUM_CPS_PER_NG_L, MOLYBDENUM_MASS, MOLYBDENUM_NG_L, Metal};
use super::instrument;
use measurement::run::{
    Assigned, BlankRule, BlankScale, DeadTime, Drift, Factor, FactorSource, Interference, InternalStandards, Isotope,
    Recipe, Role, RunInput, Vial,
};
use quantity::{Measured, Unit};

/// The samples that are held against the truth: well over the blanks, near them, without metal.
pub const ASKED: [&str; 3] = ["water", "near nothing", "nothing"];

/// Standards, ng/L of lead.
const STANDARDS: [f64; 5] = [0.5, 1.0, 2.0, 5.0, 10.0];
const CONTROL_NG_L: f64 = 2.0;
const CHECK_NG_L: f64 = 2.0;
const SPIKE_NG_L: f64 = 2.0;
/// The water before a sample where the design says so.
const HIGH_NG_L: f64 = 2000.0;
/// Relative u on the label of the control water and of what is added to a spike.
const U_LABEL: f64 = 0.005;
const MINUTES_A_VIAL: f64 = 6.0;
const VIALS_BETWEEN_CHECKS: usize = 5;
/// In every solution but the gas: what the instrument's own acid holds, a share of a bottle's contamination.
const ACID_OF_THE_INSTRUMENT: f64 = 0.5;

/// A run with the truth of what is asked, in the order of [`ASKED`]; none where the design does not ask it.
pub struct Made {
    pub input: RunInput,
    pub recipe: Recipe,
    pub truth: [Option<f64>; 3],
}

/// What a vial holds.
#[derive(Clone)]
pub struct Content {
    pub vial: Vial,
    /// ng/L of each metal of the design, as measured.
    pub solution: Vec<f64>,
    pub molybdenum: f64,
    /// Share of the signal that the matrix leaves.
    pub matrix: f64,
    /// Share of the internal standard that went in.
    pub internal: f64,
}

/// A bottle of the field before it is filled.
struct Bottle {
    name: String,
    role: Role,
    water: Vec<f64>,
    of: Option<String>,
    spiked: bool,
}

/// Bottles that no drift check divides.
type Groups = Vec<Vec<Bottle>>;

/// Lays the vials of a run out.
struct Bench<'a> {
    design: &'a Design,
    fault: Fault,
    chance: Chance,
    contents: Vec<Content>,
    /// True over stated level of the stock, by metal.
    stock: Vec<f64>,
    control: Vec<f64>,
    since_check: usize,
    since_control: usize,
    session: u32,
    first_of_session: usize,
}

/// Makes the run of a seed.
pub fn make(design: &Design, fault: Fault, seed: u64) -> Made {
    let mut bench = Bench::new(design, fault, seed);
    let truth = bench.lay_out();
    let Bench { mut chance, mut contents, .. } = bench;
    if fault == Fault::CarryOver {
        carry_over(&mut contents, chance.decade_between(1e-4, 1e-3));
    }
    let recipe = recipe(design);
    let mut input = instrument::measure(design, fault, contents, &recipe, &mut chance);
    match fault {
        Fault::Particle => instrument::particles(&mut input, &mut chance),
        Fault::Copied => instrument::copy_readings(&mut input),
        _ => {}
    }
    Made { input, recipe, truth }
}

fn carry_over(contents: &mut [Content], rate: f64) {
    for i in (1..contents.len()).rev() {
        let before = contents[i - 1].solution.clone();
        for (x, b) in contents[i].solution.iter_mut().zip(before) {
            *x += rate * b;
        }
    }
}

/// The recipe that the laboratory wrote.
fn recipe(design: &Design) -> Recipe {
    let mut r = Recipe {
        drift: Drift::Bracket,
        dead_time: DeadTime { ns: instrument::DEAD_TIME_NS, u_ns: instrument::U_DEAD_TIME_NS, ..DeadTime::default() },
        analogue_factor: Factor::new(instrument::CROSS_FACTOR, instrument::CROSS_FACTOR * instrument::U_CROSS_FACTOR),
        internal_standards: InternalStandards {
            isotopes: instrument::INTERNAL.iter().map(|(e, m, _)| Isotope::counting(e, *m, "low")).collect(),
            ..InternalStandards::default()
        },
        ..Recipe::default()
    };
    if design.bottles_differ {
        r.blank = BlankRule { scale: BlankScale::MassPerBottle, ..BlankRule::default() };
    }
    if design.oxide {
        let monitor = Isotope::counting("Mo", MOLYBDENUM_MASS, "low");
        r.monitors_only = vec![monitor.clone()];
        r.interferences.push(Interference {
            target: Isotope::counting(CADMIUM.element, CADMIUM.isotopes[0].0, "low"),
            monitor,
            species: "95Mo16O".into(),
            factor: FactorSource::Vials { vials: vec!["molybdenum alone".into()] },
        });
    }
    r
}

fn ng_l(value: f64, u: f64) -> Measured {
    Measured::new(value, u, Unit::known("ng/L"))
}

impl<'a> Bench<'a> {
    fn new(design: &'a Design, fault: Fault, seed: u64) -> Self {
        let mut chance = Chance::new(seed);
        let more = if fault == Fault::Stock { 1.02 } else { 1.0 };
        let stock = design.metals.iter().map(|_| more * (1.0 + design.u_stock * chance.normal())).collect();
        let control = design.metals.iter().map(|_| 1.0 + U_LABEL * chance.normal()).collect();
        Self {
            design,
            fault,
            chance,
            contents: vec![],
            stock,
            control,
            since_check: 0,
            since_control: 0,
            session: 0,
            first_of_session: 0,
        }
    }

    /// The whole run; the truth of what is asked.
    fn lay_out(&mut self) -> [Option<f64>; 3] {
        let d = self.design;
        if !d.check_late {
            self.check();
        }
        if d.gas_background {
            (0..3).for_each(|_| self.clean("gas", Role::GasBackground, 0.0));
        }
        (0..4).for_each(|_| self.clean("acid", Role::CalibrationBlank, 0.0));
        self.standards();
        self.molybdenum_alone();
        if d.second_source {
            self.control();
        }
        (0..3).for_each(|_| self.clean("procedure", Role::ProceduralBlank, 0.3));
        let (asked, rest, truth) = self.bottles();
        if !d.check_late {
            self.check();
        }
        if d.two_days {
            (self.session, self.first_of_session) = (1, self.contents.len());
            self.check();
        }
        let (first, second) = if d.check_late { (asked, rest) } else { (rest, asked) };
        for unit in first {
            self.place_between_checks(unit, d.check_late);
        }
        if d.check_late {
            self.check();
        }
        for unit in second {
            self.place_between_checks(unit, false);
        }
        self.molybdenum_alone();
        self.check();
        truth
    }

    fn push(&mut self, name: &str, role: Role, solution: Vec<f64>) -> &mut Content {
        let place = self.contents.len();
        let minutes = (place - self.first_of_session) as f64 * MINUTES_A_VIAL;
        let mut vial = Vial::new(place as u32 + 1, name, role, minutes);
        vial.session = self.session;
        self.since_check += 1;
        self.since_control += 1;
        self.contents.push(Content { vial, solution, molybdenum: 0.0, matrix: 1.0, internal: 1.0 });
        self.contents.last_mut().expect("just pushed")
    }

    /// A level of lead as that of each metal.
    fn levels(&self, lead_ng_l: f64) -> Vec<f64> {
        self.design.metals.iter().map(|m| lead_ng_l * m.scale * self.design.range).collect()
    }

    /// Water or acid without more than a share of a bottle's contamination.
    fn clean(&mut self, name: &str, role: Role, share: f64) {
        let chance = &mut self.chance;
        let mean = |m: &Metal| share * m.contamination;
        let own = |m: &Metal| if share > 0.0 { chance.lognormal(mean(m), 0.5) } else { 0.0 };
        let solution = self.design.metals.iter().map(own).collect();
        self.push(name, role, solution);
    }

    fn check(&mut self) {
        let stated = self.levels(CHECK_NG_L);
        let solution = stated.iter().zip(&self.stock).map(|(x, f)| x * f).collect();
        self.push("drift check", Role::DriftCheck, solution);
        self.since_check = 0;
    }

    /// Gravimetric standards of one stock: weighing errs by 0.05 %, the stock by its label.
    fn standards(&mut self) {
        let mut levels = STANDARDS.to_vec();
        if let Some(top) = self.design.top_standard {
            levels[STANDARDS.len() - 1] = top;
        }
        for (k, lead) in levels.into_iter().enumerate() {
            let stated = self.levels(lead);
            let weighed = 1.0 + 0.0005 * self.chance.normal();
            let solution = stated.iter().zip(&self.stock).map(|(x, f)| x * f * weighed).collect();
            let metals = self.design.metals;
            let half = self.fault == Fault::HalfInStandard && k == 2;
            let side = self.fault == Fault::Side;
            let (u_stock, named) = (self.design.u_stock, self.design.stock_named);
            let content = self.push(&format!("standard {k}"), Role::Standard, solution);
            content.internal = if half { 0.5 } else { 1.0 };
            let vial = &mut content.vial;
            // A clean run needs no side, since nothing is diluted; this fault leaves it unsaid.
            vial.dilution = if side { Factor::new(1.05, 0.0) } else { Factor::ONE };
            let value = |(m, x): (&Metal, &f64)| {
                let value = Assigned::new(m.element, ng_l(*x, x * u_stock));
                if named { value.from_stock("A") } else { value }
            };
            vial.assigned = metals.iter().zip(&stated).map(value).collect();
        }
    }

    fn molybdenum_alone(&mut self) {
        if self.design.oxide {
            let none = vec![0.0; self.design.metals.len()];
            self.push("molybdenum alone", Role::InterferenceCheck, none).molybdenum = MOLYBDENUM_NG_L;
        }
    }

    /// Water of another maker, certified in its bottle.
    fn control(&mut self) {
        let stated = self.levels(CONTROL_NG_L);
        let (metals, chance) = (self.design.metals, &mut self.chance);
        let solution = (0..metals.len())
            .map(|k| stated[k] * self.control[k] + chance.lognormal(0.3 * metals[k].contamination, 0.5))
            .collect();
        let content = self.push("control water", Role::ReferenceMaterial, solution);
        let value =
            |(m, x): (&Metal, &f64)| Assigned::new(m.element, ng_l(*x, x * U_LABEL)).from_stock("control water");
        content.vial.assigned = metals.iter().zip(&stated).map(value).collect();
        self.since_control = 0;
    }

    /// Bottles of the trip in groups that no check divides: those asked of, the others with the field blanks.
    fn bottles(&mut self) -> (Groups, Groups, [Option<f64>; 3]) {
        let d = self.design;
        let lead = self.chance.decade_between(2.0, 5.0);
        // The second metal's share varies, so that a sum or a ratio is not one number again.
        let water: Vec<f64> = self.levels(lead).into_iter().map(|x| x * self.chance.between(0.8, 1.2)).collect();
        let near_share = self.chance.between(0.0, 3.0);
        let near: Vec<f64> = d.metals.iter().map(|m| near_share * spread_at_zero(d, m)).collect();
        let none = vec![0.0; d.metals.len()];
        let truth = match d.asked {
            Asked::One => [Some(water[0]), Some(near[0]), Some(0.0)],
            Asked::Sum => [Some(water[0] + water[1]), None, None],
            Asked::Ratio => [Some(water[0] / water[1]), None, None],
        };
        let other_levels = [0; 3].map(|_| self.chance.decade_between(0.5, 8.0));
        let others = other_levels.map(|x| self.levels(x));
        let spiked = self.levels(SPIKE_NG_L).iter().zip(&others[2]).map(|(a, b)| a + b).collect::<Vec<_>>();
        let again = Bottle { of: Some("other 2".into()), ..bottle("other 2 again", Role::Duplicate, &others[1]) };
        let spike =
            |name: &str, role| Bottle { of: Some("other 3".into()), spiked: true, ..bottle(name, role, &spiked) };
        let mut rest = vec![
            vec![bottle("other 1", Role::Sample, &others[0])],
            vec![bottle("other 2", Role::Sample, &others[1]), again],
            vec![bottle("other 3", Role::Sample, &others[2]), spike("field spike", Role::FieldSpike)],
            vec![spike("laboratory spike", Role::LabSpike)],
        ];
        for k in 0..d.field_blanks {
            rest.insert(
                (2 * k + 1).min(rest.len()),
                vec![bottle(&format!("field blank {k}"), Role::FieldBlank, &none)],
            );
        }
        let mut asked: Groups = [&none, &near, &water]
            .iter()
            .zip(ASKED.iter().rev())
            .map(|(level, name)| vec![bottle(name, Role::Sample, level)])
            .collect();
        if d.high_before {
            let high = self.levels(HIGH_NG_L);
            for unit in &mut asked {
                unit.insert(0, bottle("high water", Role::Sample, &high));
            }
            let rinse = bottle("rinse", Role::BottleBlank, &none);
            rest.push(vec![bottle("high water", Role::Sample, &high), rinse]);
        }
        (asked, rest, truth)
    }

    fn place_between_checks(&mut self, unit: Vec<Bottle>, no_check: bool) {
        if self.since_check >= VIALS_BETWEEN_CHECKS && !no_check {
            self.check();
        }
        if self.design.control_often && self.since_control >= 3 {
            self.control();
        }
        for bottle in unit {
            self.fill(bottle);
        }
    }

    /// Fills a bottle, with what falls into it, and a vial of it.
    fn fill(&mut self, bottle: Bottle) {
        let d = self.design;
        let volume_ml =
            if d.bottles_differ { [125.0, 250.0, 500.0][self.chance.between(0.0, 3.0) as usize] } else { 250.0 };
        let field_blank = bottle.role == Role::FieldBlank;
        let diluted = d.blanks_diluted || !field_blank;
        let dilution = if diluted { d.dilution.0 } else { 1.0 };
        let true_dilution = if diluted { dilution * (1.0 + d.dilution.1 * self.chance.normal()) } else { 1.0 };
        // A clean run says that its bottles hold no acid; this fault leaves 5 mL unsaid.
        let water_share = if self.fault == Fault::Acid && !field_blank { volume_ml / (volume_ml + 5.0) } else { 1.0 };
        let dirty = self.fault == Fault::DirtyBlank && bottle.name == "field blank 1";
        let mut solution = Vec::new();
        for (m, water) in d.metals.iter().zip(&bottle.water) {
            let usual = if bottle.name == "rinse" { 0.0 } else { self.chance.lognormal(m.contamination, d.bottle_cv) };
            let fell_in = (usual + if dirty { 15.0 * m.contamination } else { 0.0 }) * 250.0 / volume_ml;
            solution.push((water * water_share + fell_in) / true_dilution);
        }
        let matrix = if field_blank { 1.0 } else { self.chance.between(d.matrix.0, d.matrix.1) };
        let added = self.levels(SPIKE_NG_L);
        let half = self.fault == Fault::HalfInBlank && bottle.name == "field blank 1";
        let acid_ml = (self.fault != Fault::Acid).then_some(0.0);
        let content = self.push(&bottle.name, bottle.role, solution);
        content.molybdenum = if field_blank || !d.oxide { 0.0 } else { MOLYBDENUM_NG_L / true_dilution };
        content.matrix = matrix;
        content.internal = if half { 0.5 } else { 1.0 };
        let vial = &mut content.vial;
        if diluted {
            vial.dilution = Factor::new(dilution, dilution * d.dilution.1);
        }
        vial.bottle = Some(bottle.name);
        vial.bottle_volume_ml = Some(volume_ml);
        vial.acid_ml = acid_ml;
        vial.of = bottle.of;
        if bottle.spiked {
            let value = |(m, x): (&Metal, &f64)| Assigned::new(m.element, ng_l(*x, x * U_LABEL));
            vial.spike_added = d.metals.iter().zip(&added).map(value).collect();
        }
    }
}

fn bottle(name: &str, role: Role, water: &[f64]) -> Bottle {
    Bottle { name: name.into(), role, water: water.to_vec(), of: None, spiked: false }
}

/// What a sample without metal scatters by, ng/L: the bottle, and the counts of its background.
fn spread_at_zero(d: &Design, m: &Metal) -> f64 {
    let sensitivity = m.sensitivity * d.brightness;
    let rate = d.dark_cps * m.isotopes.len() as f64 + sensitivity * (1.0 + ACID_OF_THE_INSTRUMENT) * m.contamination;
    let counted = (2.0 * rate / (d.integration_s * d.replicates as f64)).sqrt() / sensitivity * d.dilution.0;
    (d.bottle_cv * m.contamination).hypot(counted)
}

/// What every aspirated solution holds of a metal beside its own, ng/L.
pub fn acid_of_the_instrument(m: &Metal) -> f64 {
    ACID_OF_THE_INSTRUMENT * m.contamination
}

/// Counts/s of molybdenum in a vial.
pub fn molybdenum_cps(content: &Content, brightness: f64) -> f64 {
    content.molybdenum * MOLYBDENUM_CPS_PER_NG_L * brightness
}
