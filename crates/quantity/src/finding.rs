//! One check and what came of it. Findings are data: they stand beside a result, they never
//! replace it, and a verdict lists them. A fault in a file is a finding too, with its place.

use crate::{Amount, Check, Lang};
use message::{Message, Spoken, stage, word};
use serde::{Deserialize, Serialize};

/// The stage of a bottle's path that a finding speaks of, in the order of the path.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// Before the well: rock and water.
    Aquifer,
    /// Pipe, flow, contact time.
    Well,
    /// Cabinet and open air.
    CleanAir,
    /// Lot, washing, bottle blank.
    Bottle,
    /// Temperature, seals, holding time, transport.
    CoolBox,
    /// The instrument session.
    LabRun,
    /// The number itself: detection, duplicates, history.
    Number,
    /// What the number means beside the rest of the analysis.
    Meaning,
}

impl Stage {
    /// All stages in the order of the path.
    pub const ALL: [Self; 8] = [
        Self::Aquifer,
        Self::Well,
        Self::CleanAir,
        Self::Bottle,
        Self::CoolBox,
        Self::LabRun,
        Self::Number,
        Self::Meaning,
    ];

    /// As a document says it.
    pub fn said(self) -> Message {
        match self {
            Self::Aquifer => word::Aquifer.into(),
            Self::Well => word::Well.into(),
            Self::CleanAir => word::CleanAir.into(),
            Self::Bottle => word::Bottle.into(),
            Self::CoolBox => word::CoolBox.into(),
            Self::LabRun => word::LabRun.into(),
            Self::Number => word::Number.into(),
            Self::Meaning => stage::Meaning.into(),
        }
    }

    /// Its English word, for codes and data.
    pub fn word(self) -> &'static str {
        match self {
            Self::Aquifer => "aquifer",
            Self::Well => "well",
            Self::CleanAir => "clean air",
            Self::Bottle => "bottle",
            Self::CoolBox => "cool box",
            Self::LabRun => "lab run",
            Self::Number => "number",
            Self::Meaning => "meaning",
        }
    }
}

/// What came of a check.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// The check is met.
    Met,
    /// The check is not met.
    NotMet,
    /// The evidence that the check needs is missing.
    NotKnown,
}

impl Outcome {
    /// As a document says it.
    pub fn said(self) -> Message {
        match self {
            Self::Met => word::Met.into(),
            Self::NotMet => word::NotMet.into(),
            Self::NotKnown => word::NotKnown.into(),
        }
    }

    /// Its English word, for codes and data.
    pub fn word(self) -> &'static str {
        match self {
            Self::Met => "met",
            Self::NotMet => "not met",
            Self::NotKnown => "not known",
        }
    }
}

/// One number that a check compared.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Compared {
    /// What it is, in English.
    pub name: String,
    /// The same as identity and arguments; none for a name, and in what earlier programs kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub says: Option<Message>,
    /// The number.
    pub amount: Amount,
}

impl Compared {
    /// What it is, in the language that is spoken.
    pub fn text(&self) -> String {
        self.says.as_ref().map_or_else(|| self.name.clone(), Spoken::text)
    }
}

/// By what it is called: what an earlier program kept has no message beside the name.
impl PartialEq for Compared {
    fn eq(&self, other: &Self) -> bool {
        (&self.name, &self.amount) == (&other.name, &other.amount)
    }
}

/// Where in a file a fault stands; rows and columns as a person counts them, from 1.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Place {
    /// The file as the person named it.
    pub file: String,
    /// Row of the file (the header is row 1).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub row: Option<u64>,
    /// The column's heading, or its number where it has none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub column: Option<String>,
}

/// One check with its numbers.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Finding {
    /// Which check. The programme's table of checks says what it decides.
    pub check: Check,
    /// Where on the path.
    pub stage: Stage,
    /// What came of it.
    pub outcome: Outcome,
    /// What it means, as identity and arguments; none in what earlier programs kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub message: Option<Message>,
    /// The same in one plain English sentence, with the numbers that matter.
    pub sentence: String,
    /// The language of the sentence.
    #[serde(skip)]
    pub language: Lang,
    /// The numbers compared.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub compared: Vec<Compared>,
    /// Place in a file, for faults of the data.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<Place>,
}

impl Finding {
    /// A finding without numbers or place.
    pub fn new(check: Check, outcome: Outcome, says: impl Into<Message>) -> Self {
        let says = says.into();
        let sentence = says.in_english();
        Self {
            check,
            stage: check.stage(),
            outcome,
            message: Some(says),
            sentence,
            language: Lang::En,
            compared: vec![],
            place: None,
        }
    }

    /// One that has its sentence alone, as the record keeps it.
    pub fn kept(check: Check, outcome: Outcome, language: Lang, sentence: impl Into<String>) -> Self {
        let (stage, sentence) = (check.stage(), sentence.into());
        Self { check, stage, outcome, message: None, sentence, language, compared: vec![], place: None }
    }

    /// In the language that is spoken. One that an older program kept is in English alone, and says so.
    pub fn text(&self) -> String {
        self.formed(str::to_string)
    }

    /// The same as a sentence: its first letter large, a full stop.
    pub fn as_sentence(&self) -> String {
        self.formed(crate::format::sentence)
    }

    fn formed(&self, form: impl Fn(&str) -> String) -> String {
        match self.said(message::language()) {
            Some(text) => form(&text),
            None if self.language == message::language() => form(&self.sentence),
            None => message::older(&form(&self.sentence)),
        }
    }

    /// In a language; none where there is only the English that was kept.
    pub fn said(&self, lang: Lang) -> Option<String> {
        self.message.as_ref().and_then(|m| m.said(lang))
    }

    /// Adds a compared number. One beyond all numbers (a quotient by next to nothing) is left to the sentence: JSON has
    /// no word for it, and a kept finding has to read back.
    #[must_use]
    pub fn comparing(self, what: impl Into<Message>, amount: Amount) -> Self {
        let what = what.into();
        let name = what.in_english();
        self.compared(Compared { name, says: Some(what), amount })
    }

    /// The same for one whose name is the same in every language.
    #[must_use]
    pub fn comparing_named(self, name: impl Into<String>, amount: Amount) -> Self {
        self.compared(Compared { name: name.into(), says: None, amount })
    }

    fn compared(mut self, one: Compared) -> Self {
        if one.amount.is_finite() {
            self.compared.push(one);
        }
        self
    }
}

/// By identity and arguments where both have them; the English beside them is a help to people.
impl PartialEq for Finding {
    fn eq(&self, other: &Self) -> bool {
        let says = match (&self.message, &other.message) {
            (None, None) => self.sentence == other.sentence,
            (own, others) => own == others,
        };
        says && (self.check, self.stage, self.outcome) == (other.check, other.stage, other.outcome)
            && self.compared == other.compared
            && self.place == other.place
    }
}
