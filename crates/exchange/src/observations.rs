//! Results of well water as observations: `observations.json`, the entities of OGC SensorThings API
//! part 1, version 1.1 (OGC 18-088), after the model of Observations, Measurements and Samples
//! (ISO 19156). One member an entity set; entities refer to each other by `@iot.id`.
//!
//! Thing: a well. Location: where it is known. Datastream: one measurand of one well in one unit by one
//! laboratory and method. FeatureOfInterest: the bottle. Observation: one result, newest revision;
//! `result` is a number where a value may be said, else `{"below": limit}` or `{"above": limit}`.
//! `resultQuality` has u, k, detection state, limits, blank and verdict.
//!
//! Times have the zone that was recorded; where none was, that of the act that wrote the result, and `zoneOfTime` says so. Blanks, spikes and
//! reference materials are evidence, not observations of a well: they are in `results.csv`.
//! The names of entities and their members are from memory of the standard.

use crate::Error;
use crate::folder::{Folder, Sink};
use crate::results::One;
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use quantity::Amount;
use record::model::{Bottle, Site, VerdictWord, Well};
use record::store::{Filter, Store};
use serde_json::{Value, json};
use std::collections::{BTreeMap, HashMap};

/// Name of the file.
pub const FILE: &str = "observations.json";

/// Type of an observation whose result is a number, and of one whose result may be anything.
// OGC 18-088, table 12 (from memory).
const MEASUREMENT: &str = "http://www.opengis.net/def/observationType/OGC-OM/2.0/OM_Measurement";
const OBSERVATION: &str = "http://www.opengis.net/def/observationType/OGC-OM/2.0/OM_Observation";

/// Bytes gathered before they go to the file.
const GATHER: usize = 1 << 16;

struct Datastream {
    name: String,
    thing: i64,
    sensor: usize,
    property: i64,
    unit: Option<(String, String)>,
    numbers_only: bool,
}

/// The file in the making.
pub struct Observations {
    sink: Sink,
    out: Vec<u8>,
    first: bool,
    /// Zone of the time of each act.
    zones: HashMap<i64, String>,
    wells: HashMap<String, i64>,
    streams: HashMap<String, usize>,
    datastreams: Vec<Datastream>,
    sensors: BTreeMap<(String, String), usize>,
    properties: BTreeMap<i64, Value>,
    features: Vec<bool>,
    key: String,
}

impl Observations {
    /// Begins the file.
    ///
    /// # Errors
    /// It cannot be made; the store cannot be read.
    pub fn begin(store: &Store, folder: &Folder) -> Result<Self, Error> {
        Ok(Self {
            sink: folder.file(FILE)?,
            out: b"{\"Observations\":[".to_vec(),
            first: true,
            zones: store.events()?.into_iter().map(|e| (e.number, zone_of(&e.at).to_owned())).collect(),
            wells: store.wells()?.into_iter().map(|w| (w.name, w.id)).collect(),
            streams: HashMap::new(),
            datastreams: vec![],
            sensors: BTreeMap::new(),
            properties: BTreeMap::new(),
            features: vec![],
            key: String::new(),
        })
    }

    /// Adds a result, where it is one of a well's water.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn add(&mut self, one: &One) -> Result<(), Error> {
        let r = &one.listed;
        let Some(thing) = r.well.as_ref().and_then(|w| self.wells.get(w)).copied() else { return Ok(()) };
        if !r.kind.is_water() {
            return Ok(());
        }
        let number = r.amount.as_ref().and_then(Amount::value);
        let stream = self.stream(one, thing);
        self.datastreams[stream].numbers_only &= number.is_some();
        let bottle = usize::try_from(one.bottle).unwrap_or_default();
        if self.features.len() <= bottle {
            self.features.resize(bottle + 1, false);
        }
        self.features[bottle] = true;
        if !std::mem::take(&mut self.first) {
            self.out.push(b',');
        }
        let zone = self.zones.get(&one.event).map_or("", String::as_str);
        observation(&mut self.out, one, stream + 1, zone);
        if self.out.len() > GATHER {
            self.sink.all(&self.out)?;
            self.out.clear();
        }
        Ok(())
    }

    /// The datastream of a result.
    fn stream(&mut self, one: &One, thing: i64) -> usize {
        let r = &one.listed;
        // A datastream has one unit, laboratory and method for all its observations: a change begins another.
        let unit = r.amount.as_ref().map(|a| a.unit().ucum());
        let (laboratory, method) =
            (r.laboratory.as_deref().unwrap_or_default(), r.method.as_deref().unwrap_or_default());
        self.key.clear();
        self.key.push_str(itoa::Buffer::new().format(thing));
        self.key.push(' ');
        self.key.push_str(itoa::Buffer::new().format(one.measurand));
        for part in [unit.unwrap_or_default(), laboratory, method] {
            self.key.push('\0');
            self.key.push_str(part);
        }
        if let Some(at) = self.streams.get(&self.key) {
            return *at;
        }
        let sensors = self.sensors.len();
        let sensor = *self.sensors.entry((laboratory.into(), method.into())).or_insert(sensors);
        self.properties.entry(one.measurand).or_insert_with(|| {
            json!({
                "@iot.id": format!("measurand/{}", one.measurand),
                "name": r.analyte,
                "description": format!("{}, {}", r.analyte, r.fraction),
                "definition": format!("urn:limpid:analyte:{}", percent(&r.analyte)),
                "properties": {"isotopes": r.isotopes, "resolution": r.resolution, "fraction": r.fraction},
            })
        });
        self.datastreams.push(Datastream {
            name: format!("{} at {}, {}", r.analyte, r.well.as_deref().unwrap_or_default(), r.fraction),
            thing,
            sensor,
            property: one.measurand,
            unit: r.amount.as_ref().map(|a| (a.unit().to_string(), crate::standing::ucum(a.unit().ucum()))),
            numbers_only: true,
        });
        self.streams.insert(self.key.clone(), self.datastreams.len() - 1);
        self.datastreams.len() - 1
    }

    /// Ends the file with what the observations refer to.
    ///
    /// # Errors
    /// The store cannot be read, the disk refuses.
    pub fn end(mut self, store: &Store, folder: &Folder) -> Result<(), Error> {
        self.out.push(b']');
        let sites: HashMap<i64, Site> = store.sites()?.into_iter().map(|s| (s.id, s)).collect();
        let wells = store.wells()?;
        self.set("Things", wells.iter().map(|w| thing(w, &sites)))?;
        self.set("Locations", wells.iter().filter_map(|w| location(w, &sites)))?;
        let mut sensors: Vec<_> = std::mem::take(&mut self.sensors).into_iter().collect();
        sensors.sort_by_key(|s| s.1);
        self.set("Sensors", sensors.iter().map(|((laboratory, method), at)| sensor(laboratory, method, *at)))?;
        let properties = std::mem::take(&mut self.properties);
        self.set("ObservedProperties", properties.into_values())?;
        let features = std::mem::take(&mut self.features);
        let seen = |b: &Bottle| usize::try_from(b.id).ok().and_then(|i| features.get(i)).copied().unwrap_or(false);
        self.set("FeaturesOfInterest", store.bottles(&Filter::all())?.iter().filter(|b| seen(b)).map(feature))?;
        let streams = std::mem::take(&mut self.datastreams);
        self.set("Datastreams", streams.iter().enumerate().map(|(at, d)| datastream(d, at + 1)))?;
        self.out.extend(b"}\n");
        self.sink.all(&self.out)?;
        let about =
            "Results of well water as entities of OGC SensorThings API 1.1 (Observations, Measurements and Samples).";
        folder.keep(self.sink, "application/json", about)
    }

    fn set(&mut self, name: &str, entities: impl Iterator<Item = Value>) -> Result<(), Error> {
        self.out.extend(format!(",\n\"{name}\":[").into_bytes());
        for (i, entity) in entities.enumerate() {
            if i > 0 {
                self.out.push(b',');
            }
            self.out.extend(entity.to_string().into_bytes());
            if self.out.len() > GATHER {
                self.sink.all(&self.out)?;
                self.out.clear();
            }
        }
        self.out.push(b']');
        Ok(())
    }
}

/// Appends text as JSON.
pub fn quoted(out: &mut Vec<u8>, text: &str) {
    serde_json::to_writer(out, text).expect("memory takes all, and text has a JSON form");
}

fn member(out: &mut Vec<u8>, name: &str, value: Option<f64>) {
    if let Some(x) = value.filter(|x| x.is_finite()) {
        out.extend([b",\"", name.as_bytes(), b"\":"].concat());
        crate::cell::push_number(out, x);
    }
}

fn text(out: &mut Vec<u8>, name: &str, value: Option<&str>) {
    if let Some(t) = value {
        out.extend([b",\"", name.as_bytes(), b"\":"].concat());
        quoted(out, t);
    }
}

/// The zone at the end of a time: `+02:00`, `Z`, or nothing.
fn zone_of(at: &str) -> &str {
    let time = at.find('T').map_or("", |t| &at[t..]);
    time.find(['Z', '+', '-']).map_or("", |z| &time[z..])
}

/// A time as the standard wants it, with seconds and zone; whether the zone is the record's own. What is no such time
/// (a day alone, words) stays as it was recorded.
fn with_zone(at: &str, zone: &str) -> (String, bool) {
    match crate::provenance::date_time(at) {
        Some(time) if zone_of(&time).is_empty() => (format!("{time}{zone}"), false),
        Some(time) => (time, true),
        None => (at.to_owned(), true),
    }
}

/// One observation, written by hand: there may be millions.
fn observation(out: &mut Vec<u8>, one: &One, stream: usize, zone: &str) {
    let r = &one.listed;
    out.extend(b"\n{\"@iot.id\":");
    crate::cell::push_whole(out, one.id);
    let (time, zoned) = match r.filled_at.as_deref() {
        None => (None, true),
        Some(at) => {
            let (at, zoned) = with_zone(at, zone);
            (Some(at), zoned)
        }
    };
    text(out, "phenomenonTime", time.as_deref());
    out.extend(b",\"resultTime\":null,\"result\":");
    let limit = |out: &mut Vec<u8>, word: &str, x: f64| {
        out.extend(format!("{{\"{word}\":").into_bytes());
        crate::cell::push_number(out, x);
        out.push(b'}');
    };
    match &r.amount {
        None => out.extend(b"null"),
        // A bare limit would be averaged as a number by whoever reads it; as an object it cannot be.
        Some(Amount::Below(b)) => limit(out, "below", b.limit),
        Some(Amount::Above(b)) => limit(out, "above", b.limit),
        Some(a) => crate::cell::push_number(out, a.value().unwrap_or_default()),
    }
    out.extend(b",\"resultQuality\":{\"state\":");
    quoted(out, r.state.word());
    member(out, "u", r.amount.as_ref().and_then(Amount::u));
    member(out, "k", r.coverage_k);
    member(out, "criticalValue", r.critical_value);
    member(out, "detectionLimit", r.detection_limit);
    member(out, "quantificationLimit", r.quantification_limit);
    member(out, "reportingLimit", r.reporting_limit);
    member(out, "blank", r.blank.as_ref().and_then(Amount::value));
    member(out, "uBlank", r.blank.as_ref().and_then(Amount::u));
    text(out, "verdict", r.verdict.map(VerdictWord::word));
    text(out, "profile", r.profile.as_deref());
    out.extend(b"},\"parameters\":{\"result\":");
    quoted(out, &r.result.to_string());
    text(out, "remark", r.remark.as_deref());
    text(out, "zoneOfTime", (!zoned).then_some("not recorded; that of the act that wrote the result"));
    out.extend(b"},\"Datastream\":{\"@iot.id\":\"datastream/");
    crate::cell::push_whole(out, i64::try_from(stream).unwrap_or_default());
    out.extend(b"\"},\"FeatureOfInterest\":{\"@iot.id\":\"bottle/");
    crate::cell::push_whole(out, one.bottle);
    out.extend(b"\"}}");
}

/// Longitude and latitude of a well, else of its site.
fn point(w: &Well, sites: &HashMap<i64, Site>) -> Option<[f64; 2]> {
    let site = w.site_id.and_then(|s| sites.get(&s));
    let of = |lon: Option<f64>, lat: Option<f64>| lon.zip(lat).map(|(a, b)| [a, b]);
    of(w.longitude_deg, w.latitude_deg).or_else(|| site.and_then(|s| of(s.longitude_deg, s.latitude_deg)))
}

fn thing(w: &Well, sites: &HashMap<i64, Site>) -> Value {
    let mut out = json!({
        "@iot.id": format!("well/{}", w.id),
        "name": w.name,
        "description": w.description.as_deref().unwrap_or("Well of the programme"),
        "properties": {
            "site": w.site, "medium": w.medium, "pipeMaterial": w.pipe_material, "elevation_m": w.elevation_m,
        },
    });
    if point(w, sites).is_some() {
        out["Locations"] = json!([{"@iot.id": format!("location/{}", w.id)}]);
    }
    out
}

fn location(w: &Well, sites: &HashMap<i64, Site>) -> Option<Value> {
    let at = point(w, sites)?;
    let whose = if w.longitude_deg.is_some() { "the well" } else { "its site" };
    Some(json!({
        "@iot.id": format!("location/{}", w.id),
        "name": w.name,
        "description": format!("Coordinates of {whose}, WGS 84"),
        "encodingType": "application/geo+json",
        "location": {"type": "Point", "coordinates": at},
    }))
}

fn sensor(laboratory: &str, method: &str, at: usize) -> Value {
    let or = |t: &str, other: &str| if t.is_empty() { other.to_owned() } else { t.to_owned() };
    json!({
        "@iot.id": format!("sensor/{}", at + 1),
        "name": or(laboratory, "laboratory not stated"),
        "description": or(method, "method not stated"),
        "encodingType": "text/html",
        "metadata": or(method, "method not stated"),
    })
}

fn feature(b: &Bottle) -> Value {
    json!({
        "@iot.id": format!("bottle/{}", b.id),
        "name": b.label,
        "description": format!("{} in bottle {}", b.kind.word(), b.label),
        "encodingType": "application/geo+json",
        "feature": {
            "type": "Feature",
            "geometry": null,
            "properties": {"kind": b.kind.word(), "trip": b.trip, "well": b.well, "fraction": b.fraction},
        },
    })
}

fn datastream(d: &Datastream, id: usize) -> Value {
    let (symbol, ucum) = d.unit.clone().unzip();
    json!({
        "@iot.id": format!("datastream/{id}"),
        "name": d.name,
        "description": d.name,
        "observationType": if d.numbers_only { MEASUREMENT } else { OBSERVATION },
        "unitOfMeasurement": {
            "name": ucum, "symbol": symbol, "definition": ucum.as_ref().map(|u| format!("https://ucum.org/{u}")),
        },
        "Thing": {"@iot.id": format!("well/{}", d.thing)},
        "Sensor": {"@iot.id": format!("sensor/{}", d.sensor + 1)},
        "ObservedProperty": {"@iot.id": format!("measurand/{}", d.property)},
    })
}

/// What of ASCII does not stand in such a name as it is.
const CODED: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_').remove(b'~');

/// Text as part of a name that any system takes (RFC 3986: unreserved characters stay).
pub fn percent(text: &str) -> String {
    utf8_percent_encode(text, CODED).to_string()
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_name_keeps_the_signs_that_stand_for_themselves() {
        // RFC 3986 section 2.3.
        for c in (0..=0x2FF).filter_map(char::from_u32).chain(['漢', '\u{1F41F}']) {
            let kept = c.is_ascii_alphanumeric() || "-._~".contains(c);
            let bytes = c.to_string().bytes().fold(String::new(), |out, b| format!("{out}%{b:02X}"));
            assert_eq!(super::percent(&c.to_string()), if kept { c.to_string() } else { bytes }, "{c:?}");
        }
    }
}
