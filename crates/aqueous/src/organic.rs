//! What dissolved organic carbon can hold of each metal: a word and a sentence, not a number that nobody could support.
//!
//! In: a solved water and its DOC where it was measured. Out: one [`Binding`] a metal and one sentence for the answer.
//! Every share of the speciation is a share of the inorganic part. No model of humic matter stands behind it: what is
//! published was calibrated at amounts thousands of times larger, where the few strong sites do not show.
//! Sources: Cabaniss & Shuman 1988 (Cu: first order in DOC from 1 to 10 mg/L, Ca and Mg of little weight), Cheng & Allen
//! 2006 (Zn: weak and strong sites), Cabaniss 2009 (order Cu, Al, Pb, Zn, Ni, Ca, Cd), Wang & Tessier 1999 (Cd: sulfide
//! goes before humics from 1 µmol/L on); abstracts seen. Checked in `tests/organic.rs`.

use crate::analysis::Interpreted;
use crate::equilibrium::Equilibrium;
use crate::network::network;
use message::{Arg, Message, Name, analysis as said};

/// How much of a metal organic matter may hold at 1 to 3 mg/L DOC.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Binding {
    /// Most of it, where sulfide is absent.
    Most,
    /// Sulfide complexes go before organic ones in this water.
    UnderSulfide,
    /// A part that cannot be told.
    UnknownPart,
    /// Up to a fifth by the order of binding.
    UpToAFifth,
    /// Little.
    Small,
    /// None worth naming.
    None,
}

/// Sulfide from which on its complexes of cadmium outrank those of humics and thiols, mol/kg.
// Wang & Tessier 1999, ES&T 33:4270 (abstract): 1 µmol/L.
const SULFIDE_GOES_BEFORE: f64 = 1e-6;

impl Binding {
    /// What is known of a component; `None` where nobody looked.
    pub fn of(component: &str, sulfide_mol_kg: f64) -> Option<Self> {
        match component {
            "Cu^2+" | "Pb^2+" | "Al^3+" | "Fe^3+" => Some(Self::Most),
            "Cd^2+" if sulfide_mol_kg >= SULFIDE_GOES_BEFORE => Some(Self::UnderSulfide),
            "Cd^2+" | "Zn^2+" => Some(Self::UnknownPart),
            "Ni^2+" | "Co^2+" => Some(Self::UpToAFifth),
            "Mn^2+" | "Fe^2+" | "UO2^2+" => Some(Self::Small),
            "H3AsO3" => Some(Self::None),
            _ => None,
        }
    }

    /// The word of an answer.
    pub fn word(self) -> &'static str {
        match self {
            Self::Most => "most, where sulfide is absent",
            Self::UnderSulfide => "sulfide goes before",
            Self::UnknownPart => "unknown part",
            Self::UpToAFifth => "up to a fifth",
            Self::Small => "small",
            Self::None => "none worth naming",
        }
    }

    /// Its sentence.
    pub fn says(self) -> Message {
        match self {
            Self::Most => said::OrganicMetalMost.into(),
            Self::UnderSulfide => said::OrganicMetalUnderSulfide.into(),
            Self::UnknownPart => said::OrganicMetalUnknown.into(),
            Self::UpToAFifth => said::OrganicMetalFifth.into(),
            Self::Small => said::OrganicMetalSmall.into(),
            Self::None => said::OrganicMetalNone.into(),
        }
    }
}

/// Each metal of the water of which something is known, by its label.
pub fn bindings(e: &Equilibrium) -> Vec<(&'static str, Binding)> {
    let net = network();
    let sulfide = net.component("HS-").map_or(0.0, |c| e.total(c));
    let present = net.components.iter().enumerate().filter(|(k, _)| e.total(*k) > 0.0);
    present.filter_map(|(_, c)| Binding::of(&c.name, sulfide).map(|b| (c.label.as_str(), b))).collect()
}

/// The sentence of the whole answer; `None` for a water without a metal that organic matter might hold.
pub fn sentence(e: &Equilibrium, i: &Interpreted) -> Option<Message> {
    let all = bindings(e);
    let labels = |kinds: &[Binding]| -> Vec<Arg> {
        all.iter().filter(|(_, b)| kinds.contains(b)).map(|(label, _)| Name::from(*label).into()).collect()
    };
    let doc: Message = match &i.doc {
        Some(doc) => said::DocStated { doc: doc.with_u() }.into(),
        None => said::DocNotStated.into(),
    };
    let most = labels(&[Binding::Most]);
    let part = labels(&[Binding::UnknownPart, Binding::UpToAFifth]);
    Some(match (most.is_empty(), part.is_empty()) {
        _ if all.is_empty() => return None,
        (false, false) => said::OrganicMostAndPart { doc, most, part }.into(),
        (false, true) => said::OrganicMost { doc, most }.into(),
        (true, false) => said::OrganicPart { doc, part }.into(),
        (true, true) => said::OrganicSmall { doc }.into(),
    })
}
