//! Reading JSON with the unit in the key: `radius_m`, `radius_ft`, or `"radius":{"value":…,"unit":…}`.

use quantity::{Amount, CalcError, Unit};
use serde_json::{Map, Value};

/// Suffixes of keys with the units they mean.
pub(super) type Suffixes = &'static [(&'static str, &'static str)];

pub(super) const LENGTH: Suffixes = &[("m", "m"), ("cm", "cm"), ("mm", "mm"), ("km", "km"), ("ft", "ft"), ("in", "in")];
pub(super) const TIME: Suffixes = &[("s", "s"), ("min", "min"), ("h", "h"), ("d", "d"), ("years", "a")];
pub(super) const FLOW: Suffixes = &[
    ("L_min", "L/min"),
    ("L_s", "L/s"),
    ("mL_min", "mL/min"),
    ("m3_s", "m3/s"),
    ("m3_h", "m3/h"),
    ("m3_d", "m3/d"),
    ("gal_min", "gal/min"),
    ("gpm", "gal/min"),
    ("imp_gal_min", "imp gal/min"),
    ("ft3_d", "ft3/d"),
];
pub(super) const VOLUME: Suffixes = &[("L", "L"), ("mL", "mL"), ("m3", "m3"), ("gal", "gal"), ("imp_gal", "imp gal")];
pub(super) const PRESSURE: Suffixes = &[("bar", "bar"), ("mbar", "mbar"), ("kPa", "kPa"), ("Pa", "Pa"), ("psi", "psi")];
pub(super) const CONDUCTIVITY: Suffixes = &[("m_s", "m/s"), ("m_d", "m/d"), ("cm_s", "cm/s"), ("ft_d", "ft/d")];
pub(super) const TRANSMISSIVITY: Suffixes = &[("m2_s", "m2/s"), ("m2_d", "m2/d"), ("ft2_d", "ft2/d")];

/// An object with its place in the input, for messages.
#[derive(Clone)]
pub(super) struct Object<'a> {
    pub path: String,
    pub map: &'a Map<String, Value>,
}

/// A number found under a key with a unit.
pub(super) struct Found {
    /// The key, for messages.
    pub key: String,
    /// The unit's text: rows of one table must agree on it.
    pub unit: Unit,
    /// Value in that unit.
    pub value: f64,
    /// u in that unit.
    pub u: Option<f64>,
}

impl Found {
    /// Value and u in another unit.
    pub fn to(&self, unit: &str) -> Result<(f64, Option<f64>), CalcError> {
        let f = self
            .unit
            .conversion(&Unit::known(unit), None, None)
            .map_err(|e| CalcError::refused(&self.key, e, format!("a unit that turns into {unit}")))?;
        Ok((f.apply(self.value), self.u.map(|u| f.apply_difference(u))))
    }
}

impl<'a> Object<'a> {
    pub fn new(value: &'a Value, path: impl Into<String>) -> Result<Self, CalcError> {
        let path = path.into();
        let map = value.as_object().ok_or_else(|| CalcError::refused(&path, kind(value), "a JSON object"))?;
        Ok(Self { path, map })
    }

    pub fn place(&self, key: &str) -> String {
        if self.path.is_empty() { key.to_string() } else { format!("{}.{key}", self.path) }
    }

    pub fn number(&self, key: &str) -> Result<Option<f64>, CalcError> {
        match self.map.get(key) {
            None | Some(Value::Null) => Ok(None),
            Some(v) => v.as_f64().map(Some).ok_or_else(|| CalcError::refused(self.place(key), v, "a number")),
        }
    }

    /// A whole number of 0 or more.
    pub fn whole(&self, key: &str) -> Result<Option<u64>, CalcError> {
        let whole = |x: f64| x.fract() == 0.0 && (0.0..=u64::MAX as f64).contains(&x);
        match self.map.get(key) {
            None | Some(Value::Null) => Ok(None),
            // 1e5 is as whole as 100000.
            Some(v) => v
                .as_u64()
                .or_else(|| v.as_f64().filter(|x| whole(*x)).map(|x| x as u64))
                .map(Some)
                .ok_or_else(|| CalcError::refused(self.place(key), v, "a whole number of 0 or more")),
        }
    }

    pub fn text(&self, key: &str) -> Option<&'a str> {
        self.map.get(key).and_then(Value::as_str)
    }

    /// Objects of a list; empty when the key is absent.
    pub fn list(&self, key: &str) -> Result<Vec<Object<'a>>, CalcError> {
        match self.map.get(key) {
            None => Ok(vec![]),
            Some(Value::Array(items)) => {
                items.iter().enumerate().map(|(i, v)| Object::new(v, format!("{}[{i}]", self.place(key)))).collect()
            }
            Some(v) => Err(CalcError::refused(self.place(key), kind(v), "a list")),
        }
    }

    /// A quantity by name: one key `name_unit`, or `name` with value and unit. Two keys at once are refused.
    pub fn quantity(&self, name: &str, suffixes: Suffixes) -> Result<Option<Found>, CalcError> {
        let mut found: Option<Found> = None;
        for (suffix, unit) in suffixes {
            let key = format!("{name}_{suffix}");
            let Some(value) = self.number(&key)? else {
                continue;
            };
            if let Some(other) = &found {
                return Err(CalcError::refused(
                    self.place(&key),
                    format!("{} as well", other.key),
                    "one of the two: mixed units",
                ));
            }
            let u = self.number(&format!("u_{key}"))?;
            found = Some(Found { key: self.place(&key), unit: Unit::known(unit), value, u });
        }
        if found.is_none() && self.map.get(name).is_some_and(Value::is_object) {
            let amount: Amount = serde_json::from_value(self.map[name].clone())
                .map_err(|e| CalcError::refused(self.place(name), e, "value, u and unit"))?;
            let value = amount.value().ok_or_else(|| CalcError::refused(self.place(name), "a limit", "a value"))?;
            found = Some(Found { key: self.place(name), unit: amount.unit().clone(), value, u: amount.u() });
        }
        Ok(found)
    }

    pub fn needed(&self, name: &str, suffixes: Suffixes) -> Result<Found, CalcError> {
        self.quantity(name, suffixes)?.ok_or_else(|| {
            let keys: Vec<String> = suffixes.iter().take(3).map(|(s, _)| format!("{name}_{s}")).collect();
            CalcError::refused(self.place(name), "nothing", format!("a number under {} or the like", keys.join(", ")))
        })
    }
}

/// Refuses a table whose rows are in different units.
pub(super) fn one_unit<'f>(what: &str, found: impl Iterator<Item = &'f Found>) -> Result<(), CalcError> {
    let mut first: Option<&Found> = None;
    for f in found {
        match first {
            None => first = Some(f),
            Some(a) if a.unit == f.unit => {}
            Some(a) => {
                return Err(CalcError::refused(
                    &f.key,
                    format!("mixed units: {} beside {} in {}", f.unit, a.unit, a.key),
                    format!("one unit for all {what}"),
                ));
            }
        }
    }
    Ok(())
}

fn kind(v: &Value) -> &'static str {
    match v {
        Value::Null => "nothing",
        Value::Bool(_) => "true or false",
        Value::Number(_) => "a number",
        Value::String(_) => "a text",
        Value::Array(_) => "a list",
        Value::Object(_) => "an object",
    }
}
