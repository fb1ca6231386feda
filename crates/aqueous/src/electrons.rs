//! Electrons that a water's substances would take up and give away, beside its charge balance.
//!
//! In: the analysis in components. Out: [`Electrons`] — oxidants, sulfate and reductants in meq/L, each with u and with
//! what non-detects leave open, and what nobody looked for. It is no check: nothing obliges the two sums to be equal.
//! Where oxidants and reductants stand side by side the water is a mixture or not at rest; where both are nearly nothing
//! it has little to hold its redox state with. Organic carbon is not counted: what it would give is not in an analysis.
//! End points: O2 to H2O, NO3− and NO2− to N2, Fe(III) to Fe(II), SO4−− to HS−; HS− to SO4−−, CH4 to CO2, NH4+ to NO3−,
//! Fe(II) to Fe(III), Mn(II) to Mn(IV) (the oxidative capacity of Stumm & Morgan 1996, ch. 8, from memory).
//! Checked in `tests/electrons.rs`.

use crate::analysis::Interpreted;
use crate::balance::Side;
use crate::network::network;

/// Electrons that one mole takes up (positive) or gives away (negative), beside sulfate.
const ELECTRONS: [(&str, f64); 19] = [
    ("O2", 4.0),
    ("NO3-", 5.0),
    ("NO2-", 3.0),
    ("Fe^3+", 1.0),
    ("H2AsO4-", 2.0),
    ("UO2^2+", 2.0),
    ("CrO4^2-", 3.0),
    ("H2VO4-", 1.0),
    ("Sb(OH)6-", 2.0),
    ("HS-", -8.0),
    ("CH4", -8.0),
    ("NH4+", -8.0),
    ("Fe^2+", -1.0),
    ("Mn^2+", -2.0),
    ("H3AsO3", -2.0),
    ("U^4+", -2.0),
    ("Cr^3+", -3.0),
    ("VO^2+", -1.0),
    ("H3SbO3", -2.0),
];

/// Electrons that one mole of sulfate takes up on its way to sulfide.
const SULFATE: f64 = 8.0;

/// What carries most electrons in a groundwater: without one of these the sums are incomplete.
const USUAL: [(&str, &str); 7] = [
    ("O2", "O2"),
    ("NO3-", "NO3"),
    ("SO4^2-", "SO4"),
    ("HS-", "S(-II)"),
    ("Fe^2+", "Fe"),
    ("NH4+", "NH4"),
    ("CH4", "CH4"),
];

/// The sums.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Electrons {
    /// What takes electrons up more readily than sulfate.
    pub oxidants: Side,
    /// Sulfate, down to sulfide.
    pub sulfate: Side,
    /// What gives electrons away.
    pub reductants: Side,
    /// Usual carriers that nobody looked for.
    pub not_looked_for: Vec<&'static str>,
}

/// The sums of an analysis, meq/L; `litre_kg` is the water in a litre, kg.
pub fn electrons(i: &Interpreted, litre_kg: f64) -> Electrons {
    let mut out = Electrons::default();
    let meq_l = litre_kg * 1e3;
    for x in &i.entries {
        let name = network().components[x.component].name.as_str();
        if name == "SO4^2-" {
            out.sulfate.add(SULFATE * x.molality * meq_l, SULFATE * x.u * meq_l, x.bound);
        }
        let Some((_, n)) = ELECTRONS.iter().find(|(c, _)| *c == name) else { continue };
        let side = if *n > 0.0 { &mut out.oxidants } else { &mut out.reductants };
        side.add(n.abs() * x.molality * meq_l, n.abs() * x.u * meq_l, x.bound);
    }
    let looked_for = |component: &str| i.entries.iter().any(|x| network().components[x.component].name == component);
    out.not_looked_for = USUAL.iter().filter(|(c, _)| !looked_for(c)).map(|(_, shown)| *shown).collect();
    out
}
