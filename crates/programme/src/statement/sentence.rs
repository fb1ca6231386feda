//! A sentence as a person writes it: `limits::claim` with the names of results in place of amounts, and a whole bottle
//! or a whole series where its kind allows one.
//!
//! JSON is read here, once, whether it comes from a command, a form or a stored row, and is kept as it was written: the
//! record holds the words of a person, not our way to print them. Out: [`Sentence`]. Checked in `tests/statement.rs` and
//! `tests/outside_text.rs`.

use limits::claim::{Claim, Ratio, Says};
use quantity::{Amount, CalcError, Lang};
use record::error::Error;
use record::identity::ResultId;
use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use serde_json::{Value, json};

/// What stands in the place of an amount.
#[derive(Debug, Clone, PartialEq)]
pub enum Named {
    /// A result by its name.
    Result(String),
    /// The value of a well: the common value of its bottles.
    Well(WellName),
    /// An amount with its unit.
    Amount(Amount),
}

impl Serialize for Named {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Result(name) => json!({ "result": name }).serialize(s),
            Self::Well(well) => well.serialize(s),
            Self::Amount(a) => a.serialize(s),
        }
    }
}

impl<'de> Deserialize<'de> for Named {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        let written = Value::deserialize(d)?;
        if written.get("well").is_some() {
            return WellName::deserialize(&written)
                .map(Self::Well)
                .map_err(|e| D::Error::custom(format!("{e}, where a well stands by {WELL}")));
        }
        match written.get("result") {
            Some(Value::String(name)) if written.as_object().is_some_and(|o| o.len() == 1) => {
                Ok(Self::Result(name.clone()))
            }
            Some(_) => Err(D::Error::custom(format!("{written}, where a result stands alone, by its name"))),
            None => serde_path_to_error::deserialize(&written)
                .map(Self::Amount)
                .map_err(|e| D::Error::custom(e.to_string())),
        }
    }
}

/// How a well is named in the place of an amount.
const WELL: &str = "{\"well\":…,\"analyte\":…} with \"trip\", \"day\", \"fraction\", \"isotopes\", \"resolution\" where there are several";

/// A well's value as a sentence names it; what is left out takes the only one there is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WellName {
    /// Well.
    pub well: String,
    /// Element.
    pub analyte: String,
    /// Trip.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub trip: Option<String>,
    /// Day of sampling.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub day: Option<String>,
    /// Filtered or not.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fraction: Option<String>,
    /// Isotopes.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub isotopes: Option<String>,
    /// Mass resolution.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub resolution: Option<String>,
}

/// A series of the record as a sentence names it.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SeriesName {
    /// Well.
    pub well: String,
    /// Analyte.
    pub analyte: String,
    /// Needed where the well has the analyte in several fractions.
    pub fraction: Option<String>,
}

/// Many results by one name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Whole {
    /// Absence: every organic compound measured in this bottle.
    Bottle(String),
    /// Change: the trend of this series.
    Series(SeriesName),
    /// Age: everything that the tracers of this well say.
    Age(String),
}

/// What a sentence speaks of.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Subject {
    /// The waters: a number with the metal of a stage that no blank met is an upper bound.
    #[default]
    Waters,
    /// What was found in the bottles, that metal included.
    Bottles,
}

/// A sentence as a person writes it.
#[derive(Debug, Clone, PartialEq)]
pub struct Sentence {
    /// Its fields.
    pub claim: Claim<Named>,
    /// A bottle or a series in the place of amounts, a well in the place of what its tracers say.
    pub whole: Option<Whole>,
    /// What it speaks of where a number is only an upper bound on the water.
    pub subject: Subject,
    /// The fractions that the person compares knowingly: unfiltered with filtered water.
    pub fractions: Vec<String>,
    written: Value,
}

impl Serialize for Sentence {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        self.written.serialize(s)
    }
}

impl Sentence {
    /// Reads a sentence from JSON text.
    ///
    /// # Errors
    /// [`CalcError::Refused`] naming the field, what was found and what is expected.
    pub fn parse(text: &str) -> Result<Self, CalcError> {
        let written: Value = serde_json::from_str(text)
            .map_err(|e| CalcError::refused("the sentence", e, "JSON: an object with kind and its fields"))?;
        Self::read(&written)
    }

    /// Reads a sentence: an object with `kind`, its fields, and `lang`.
    ///
    /// # Errors
    /// [`CalcError::Refused`] naming the field, what was found and what is expected.
    pub fn read(written: &Value) -> Result<Self, CalcError> {
        let mut fields = written.clone();
        let kind = written.get("kind").and_then(Value::as_str);
        let mut take =
            |of: &str, key: &str| fields.as_object_mut().filter(|_| kind == Some(of)).and_then(|map| map.remove(key));
        let whole = match (take("absence", "bottle"), take("change", "series"), take("age", "well")) {
            (Some(Value::String(label)), ..) => Some(Whole::Bottle(label)),
            (Some(other), ..) => return Err(CalcError::refused("bottle", other, "the label of a bottle")),
            (None, Some(named), _) => Some(Whole::Series(
                SeriesName::deserialize(&named)
                    .map_err(|e| CalcError::refused("series", e, "{\"well\":…,\"analyte\":…,\"fraction\":…}"))?,
            )),
            (None, None, Some(Value::String(well))) => Some(Whole::Age(well)),
            (None, None, Some(other)) => return Err(CalcError::refused("well", other, "the name of a well")),
            (None, None, None) => None,
        };
        if let (Some(Whole::Age(_)), Some(tracers)) = (&whole, fields.get("tracers")) {
            return Err(CalcError::refused("tracers", tracers, "the well alone: the record says what its tracers say"));
        }
        let fractions = match fields.as_object_mut().and_then(|map| map.remove("fractions")) {
            None => vec![],
            Some(named) => Vec::<String>::deserialize(&named).map_err(|e| {
                CalcError::refused("fractions", e, "names of fractions, as [\"unfiltered\",\"0.45 um\"]")
            })?,
        };
        let subject = match fields.as_object_mut().and_then(|map| map.remove("subject")) {
            None => Subject::default(),
            Some(named) => {
                Subject::deserialize(&named).map_err(|_| CalcError::refused("subject", named, "waters or bottles"))?
            }
        };
        Ok(Self { claim: Claim::read(&fields)?, whole, subject, fractions, written: written.clone() })
    }

    /// "The first holds so many times as much as the second", of two results by their names.
    ///
    /// # Errors
    /// [`CalcError::Refused`] for a factor that JSON cannot hold.
    pub fn ratio(a: &str, b: &str, relation: &str, factor: Option<f64>) -> Result<Self, CalcError> {
        let named = |name: &str| Named::Result(name.into());
        let says = Says::Ratio(Ratio {
            a: named(a),
            b: named(b),
            a_name: None,
            b_name: None,
            analyte: None,
            relation: Some(relation.into()),
            factor,
            within: None,
            covariance: None,
        });
        Self::read(&serde_json::to_value(Claim { lang: None, says })?)
    }

    /// The language it is answered in.
    pub fn lang(&self) -> Lang {
        self.claim.lang.unwrap_or_default()
    }

    /// Whether a well stands in the place of an amount.
    pub(super) fn names_a_well(&self) -> bool {
        let mut found = false;
        let look = |_: &str, named: Named| {
            found |= matches!(named, Named::Well(_));
            Ok::<_, Error>(named)
        };
        self.claim.clone().with_amounts(look).expect("looking refuses nothing");
        found
    }

    /// The same sentence about the newest revisions.
    pub(super) fn of_newest(&self) -> Self {
        let newest = |_: &str, named| {
            Ok::<_, Error>(match named {
                Named::Result(name) => {
                    Named::Result(name.parse::<ResultId>().map_or_else(|_| name.clone(), |id| id.newest().to_string()))
                }
                other => other,
            })
        };
        let claim = self.claim.clone().with_amounts(newest).expect("a name is always found");
        Self { claim, ..self.clone() }
    }

    /// The sentence with its amounts, as JSON to be kept: what the person wrote stands as it was written (2, not 2.0).
    pub(super) fn with_amounts(&self, claim: &Claim) -> Result<Value, serde_json::Error> {
        let mut out = serde_json::to_value(claim)?;
        as_written(&mut out, &self.written);
        Ok(out)
    }
}

/// Puts the numbers and texts of `written` where a value read from them stands.
fn as_written(out: &mut Value, written: &Value) {
    match (out, written) {
        (Value::Object(out), Value::Object(written)) => {
            for (key, value) in out {
                if let Some(w) = written.get(key) {
                    as_written(value, w);
                }
            }
        }
        (Value::Array(out), Value::Array(written)) => {
            out.iter_mut().zip(written).for_each(|(value, w)| as_written(value, w));
        }
        (out @ Value::Number(_), w @ Value::Number(_)) | (out @ Value::String(_), w @ Value::String(_)) => {
            *out = w.clone();
        }
        _ => {}
    }
}
