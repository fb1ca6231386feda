//! Rows of the record as plain structs, read back from the store. Units stand in the names, or
//! in a `unit` field beside the value. References come as the id, and as the name that people
//! use where one is at hand.
//!
//! What they mean is declared in [`schema`](crate::schema); amendments are applied.

use crate::identity::ResultId;
use crate::store::{RowRead, StoreError, Typed};

pub use crate::words::*;

macro_rules! rows {
    ($($about:literal $name:ident from $table:literal {
        $($doc:literal $field:ident: $ty:ty = $path:literal,)+
    })+) => { $(
        #[doc = $about]
        #[derive(Debug, Clone, PartialEq, serde::Serialize)]
        #[allow(non_snake_case, reason = "units keep their capitals: mL, pg_Pb")]
        pub struct $name {
            /// Row.
            pub id: i64,
            $(#[doc = $doc] pub $field: $ty,)+
        }

        impl Typed for $name {
            const TABLE: &'static str = $table;
            const PATHS: &'static [&'static str] = &["id", $($path),+];
            fn from_row(row: &RowRead) -> Result<Self, StoreError> {
                // Fields read in order: place 0 is the id.
                let mut place = 0;
                let mut next = || { place += 1; place };
                Ok(Self { id: row.get(0)?, $($field: row.get(next())?,)+ })
            }
        }
    )+ };
}

rows! {
    "A mapping or a recipe, one version."
    KeptText from "mapping" {
        "Name" name: String = "name",
        "Version" version: i64 = "version",
        "The text" toml: String = "toml",
        "BLAKE3 of the text" hash: [u8; 32] = "hash",
    }

    "A recipe, one version."
    KeptRecipe from "recipe" {
        "Name" name: String = "name",
        "Version" version: i64 = "version",
        "The text" toml: String = "toml",
        "BLAKE3 of the text" hash: [u8; 32] = "hash",
        "Event that brought it" event: i64 = "event",
    }

    "A raw file, without its bytes."
    RawFile from "raw_file" {
        "File name without folder" name: String = "name",
        "BLAKE3 of the bytes" hash: [u8; 32] = "hash",
        "Bytes" size: i64 = "size",
        "How it was read" mapping_id: i64 = "mapping",
        "Name of the mapping" mapping: String = "mapping.name",
        "Version of the mapping" mapping_version: i64 = "mapping.version",
        "Data rows taken, where known" rows: Option<i64> = "rows",
        "Event that brought it" event: i64 = "event",
    }

    "Names that a person said to be one."
    SameName from "same_name" {
        "What it is a name of: analyte, fraction, quantity, or a table" kind: String = "kind",
        "As written, or the old name" written: String = "written",
        "The name that it is read as" stands_for: String = "stands_for",
        "Only in files read by this mapping" mapping: Option<String> = "mapping",
        "Reason" why: Option<String> = "why",
        "Who" person: Option<String> = "person.name",
        "Event that brought it" event: i64 = "event",
    }

    "Who samples, measures, signs."
    Person from "person" {
        "Name" name: String = "name",
        "Role" role: Option<String> = "role",
    }

    "A place with wells."
    Site from "site" {
        "Name" name: String = "name",
        "In words" description: Option<String> = "description",
        "WGS 84" latitude_deg: Option<f64> = "latitude_deg",
        "WGS 84" longitude_deg: Option<f64> = "longitude_deg",
        "The site does not exist, its data are made up" invented: Option<bool> = "invented",
    }

    "A well, spring, spout or river point."
    Well from "well" {
        "Name" name: String = "name",
        "Site" site_id: Option<i64> = "site",
        "Name of the site" site: Option<String> = "site.name",
        "In words" description: Option<String> = "description",
        "groundwater or surface-water" medium: Option<String> = "medium",
        "Material the water meets last" pipe_material: Option<String> = "pipe_material",
        "Flows always, shut between visits, pumped" flow_note: Option<String> = "flow_note",
        "Ground above sea level" elevation_m: Option<f64> = "elevation_m",
        "WGS 84" latitude_deg: Option<f64> = "latitude_deg",
        "WGS 84" longitude_deg: Option<f64> = "longitude_deg",
        "Stream that takes its overflow" overflows_to_id: Option<i64> = "overflows_to",
        "Name of that stream" overflows_to: Option<String> = "overflows_to.name",
    }

    "A piece of casing or screen."
    WellSection from "well_section" {
        "Well" well_id: i64 = "well",
        "Name of the well" well: String = "well.name",
        "Depth of its top" from_m: f64 = "from_m",
        "Depth of its foot" to_m: f64 = "to_m",
        "Inner radius" radius_m: f64 = "radius_m",
        "casing, screen or open" kind: String = "kind",
        "Material" material: Option<String> = "material",
    }

    "A layer of the log."
    Layer from "layer" {
        "Well" well_id: i64 = "well",
        "Name of the well" well: String = "well.name",
        "Depth of its top" from_m: f64 = "from_m",
        "Depth of its foot" to_m: f64 = "to_m",
        "Rock or soil" material: String = "material",
    }

    "Bottles cleaned together."
    Lot from "lot" {
        "Name" name: String = "name",
        "Bottle material" material: Option<String> = "material",
        "Nominal volume" volume_mL: Option<f64> = "volume_mL",
        "Day" cleaned_on: Option<String> = "cleaned_on",
        "Washing steps" steps: Option<String> = "steps",
        "Days in acid" acid_days: Option<f64> = "acid_days",
        "Last rinse" rinse: Option<String> = "rinse",
        "Lead that a blank of the lot may hold at most" target_pg_Pb: Option<f64> = "target_pg_Pb",
    }

    "An acid lot."
    Acid from "acid" {
        "Lot" name: String = "name",
        "Acid and grade" kind: Option<String> = "kind",
        "Day" opened_on: Option<String> = "opened_on",
    }

    "A filter lot."
    FilterLot from "filter" {
        "Lot" name: String = "name",
        "Pore size" pore_um: f64 = "pore_um",
        "Material" material: Option<String> = "material",
    }

    "One sampling visit."
    Trip from "trip" {
        "Name" name: String = "name",
        "Start" starts: String = "starts",
        "End" ends: Option<String> = "ends",
        "What the trip is to decide" question: Option<String> = "question",
        "Weather" weather: Option<String> = "weather",
        "Wind" wind: Option<String> = "wind",
        "Dust" dust: Option<String> = "dust",
        "Road salt" road_salt: Option<String> = "road_salt",
        "Engines near by" engines: Option<String> = "engines",
        "Who was there" persons: Option<String> = "persons",
    }

    "A bottle: samples and blanks alike."
    Bottle from "bottle" {
        "Label" label: String = "label",
        "What it is" kind: BottleKind = "kind",
        "Trip" trip_id: Option<i64> = "trip",
        "Name of the trip" trip: Option<String> = "trip.name",
        "Well" well_id: Option<i64> = "well",
        "Name of the well" well: Option<String> = "well.name",
        "Lot" lot_id: Option<i64> = "lot",
        "Name of the lot" lot: Option<String> = "lot.name",
        "unfiltered, a pore size, or filtered" fraction: Option<String> = "fraction",
        "Filter lot" filter_id: Option<i64> = "filter",
        "Pore size of the filter" filter_pore_um: Option<f64> = "filter.pore_um",
        "Volume of water" volume_mL: Option<f64> = "volume_mL",
        "Its standard uncertainty" u_volume_mL: Option<f64> = "u_volume_mL",
        "When filled" filled_at: Option<String> = "filled_at",
        "Who filled it" sampler: Option<String> = "sampler.name",
        "Acid lot" acid_id: Option<i64> = "acid",
        "Name of the acid lot" acid: Option<String> = "acid.name",
        "Acid added" acid_mL: Option<f64> = "acid_mL",
        "When acidified" acidified_at: Option<String> = "acidified_at",
        "Where acidified" acidified_place: Option<String> = "acidified_place",
        "Times opened" openings: Option<i64> = "openings",
        "Minutes open in the cabinet" cabinet_min: Option<f64> = "cabinet_min",
        "Minutes open outdoors" open_air_min: Option<f64> = "open_air_min",
        "The sample that this is a duplicate or a spike of" parent_id: Option<i64> = "parent",
        "Its label" parent: Option<String> = "parent.label",
        "Replicate set" set_name: Option<String> = "set_name",
        "Remark of the field" note: Option<String> = "note",
        "Days in acid, where they differ from the lot" acid_days: Option<f64> = "acid_days",
        "Bags around it" bags: Option<i64> = "bags",
        "Cabinet or glove box" cabinet: Option<String> = "cabinet",
        "Flow set for this bottle" flow_L_min: Option<f64> = "flow_L_min",
        "Its standard uncertainty" u_flow_L_min: Option<f64> = "u_flow_L_min",
        "Standard uncertainty of the acid added" u_acid_mL: Option<f64> = "u_acid_mL",
        "Density of the water" density_kg_L: Option<f64> = "density_kg_L",
        "Its standard uncertainty" u_density_kg_L: Option<f64> = "u_density_kg_L",
    }

    "What a bottle of a lot may bring at most."
    LotTarget from "lot_target" {
        "Lot" lot_id: i64 = "lot",
        "Element" analyte: String = "analyte",
        "Highest mass a bottle may bring" target_pg: f64 = "target_pg",
    }

    "What is known of a source before a trip."
    SourceFact from "source_fact" {
        "What it is, with its unit" what: String = "what",
        "Element; none: all" analyte: Option<String> = "analyte",
        "Only for this lot" lot_id: Option<i64> = "lot",
        "Only for this acid" acid_id: Option<i64> = "acid",
        "Only for this material of pipe" material: Option<String> = "material",
        "Only for this place" place: Option<String> = "place",
        "Value" value: f64 = "value",
        "Standard uncertainty" u: f64 = "u",
        "Where it comes from" source: String = "source",
    }

    "One metal of a signature."
    SignatureRow from "signature" {
        "Source of metal" name: String = "name",
        "Element" analyte: String = "analyte",
        "Relative amount by mass" amount: f64 = "amount",
        "Where it comes from" source: String = "source",
    }

    "The water's own by all bottles fitted together."
    AttributedRow from "attributed" {
        "Result" result_id: i64 = "result",
        "Revision" revision: i64 = "revision",
        "The bottles tell the water from the sources" identifiable: bool = "identifiable",
        "The water's own concentration" water: Option<f64> = "water",
        "Standard uncertainty" u_water: Option<f64> = "u_water",
        "Low end of the 95 % interval" water_low: Option<f64> = "water_low",
        "High end" water_high: Option<f64> = "water_high",
        "Unit, UCUM" unit: String = "unit",
        "Share of the water" share: Option<f64> = "share",
        "Low end of the 95 % interval" low: Option<f64> = "low",
        "High end" high: Option<f64> = "high",
        "Which bottles were fitted" scope: String = "scope",
        "How" method: String = "method",
        "What cannot be told apart" remark: Option<String> = "remark",
    }

    "Metal added on purpose."
    Spike from "spike" {
        "Spiked bottle" bottle_id: i64 = "bottle",
        "Its label" bottle: String = "bottle.label",
        "Element" analyte: String = "analyte",
        "Mass added" added_pg: f64 = "added_pg",
        "Its standard uncertainty" u_pg: f64 = "u_pg",
    }

    "A part of a bottle."
    Aliquot from "aliquot" {
        "Name" name: String = "name",
        "Bottle" bottle_id: i64 = "bottle",
        "Its label" bottle: String = "bottle.label",
        "Part of which aliquot" parent_id: Option<i64> = "parent",
        "Split, archive, re-analysis" purpose: Option<String> = "purpose",
        "Volume" volume_mL: Option<f64> = "volume_mL",
        "Who received it" laboratory: Option<String> = "laboratory",
        "Sent" sent_at: Option<String> = "sent_at",
        "Received" received_at: Option<String> = "received_at",
        "As received" condition: Option<String> = "condition",
    }

    "A reading at the well."
    FieldReading from "field_reading" {
        "Trip" trip_id: Option<i64> = "trip",
        "Name of the trip" trip: Option<String> = "trip.name",
        "Well" well_id: i64 = "well",
        "Name of the well" well: String = "well.name",
        "Bottle filled at that moment" bottle_id: Option<i64> = "bottle",
        "Its label" bottle: Option<String> = "bottle.label",
        "When" at: String = "at",
        "What was read" quantity: String = "quantity",
        "Value" value: f64 = "value",
        "Standard uncertainty" u: Option<f64> = "u",
        "Unit, UCUM" unit: String = "unit",
    }

    "A timed fill."
    Fill from "fill" {
        "Trip" trip_id: Option<i64> = "trip",
        "Name of the trip" trip: Option<String> = "trip.name",
        "Well" well_id: i64 = "well",
        "Name of the well" well: String = "well.name",
        "When" at: Option<String> = "at",
        "Volume to the mark" volume_L: f64 = "volume_L",
        "Standard uncertainty of the mark" u_volume_L: Option<f64> = "u_volume_L",
        "Time" seconds: f64 = "seconds",
    }

    "A particle count."
    AirCount from "air_count" {
        "Trip" trip_id: Option<i64> = "trip",
        "Name of the trip" trip: Option<String> = "trip.name",
        "Well" well_id: Option<i64> = "well",
        "Name of the well" well: Option<String> = "well.name",
        "cabinet, open-air or room" place: String = "place",
        "When" at: Option<String> = "at",
        "Particles of at least this size" size_um: f64 = "size_um",
        "Counted" count: i64 = "count",
        "Air drawn" volume_L: f64 = "volume_L",
    }

    "A step of custody."
    Custody from "custody" {
        "Bottle, or none for the whole box" bottle_id: Option<i64> = "bottle",
        "Its label" bottle: Option<String> = "bottle.label",
        "Trip" trip_id: Option<i64> = "trip",
        "Name of the trip" trip: Option<String> = "trip.name",
        "When" at: String = "at",
        "sealed, sent, received, acidified, opened" step: String = "step",
        "Who" person: Option<String> = "person.name",
        "Where" place: Option<String> = "place",
        "In the box" temperature_C: Option<f64> = "temperature_C",
        "whole or broken" seal: Option<String> = "seal",
    }

    "An instrument session."
    Run from "run" {
        "Name as in the laboratory" name: String = "name",
        "Who measured" laboratory: Option<String> = "laboratory",
        "Kind of instrument" instrument: Option<String> = "instrument",
        "Start" started_at: Option<String> = "started_at",
        "Recipe" recipe_id: Option<i64> = "recipe",
        "Name of the recipe" recipe: Option<String> = "recipe.name",
        "Version of the recipe" recipe_version: Option<i64> = "recipe.version",
        "The recipe as written" recipe_toml: Option<String> = "recipe.toml",
    }

    "A vial of a run."
    Vial from "vial" {
        "Run" run_id: i64 = "run",
        "Place in the sequence" position: i64 = "position",
        "Name as in the laboratory" name: String = "name",
        "What it is for" role: VialRole = "role",
        "What is in it" bottle_id: Option<i64> = "bottle",
        "Label of the bottle" bottle: Option<String> = "bottle.label",
        "Or which part of a bottle" aliquot_id: Option<i64> = "aliquot",
        "Name of the aliquot" aliquot: Option<String> = "aliquot.name",
        "Time since the start of the run" minutes: f64 = "minutes",
        "Mass after over mass before dilution" dilution: Option<f64> = "dilution",
        "Its standard uncertainty" u_dilution: Option<f64> = "u_dilution",
        "Day of a run of several days" session: Option<i64> = "session",
    }

    "An assigned value of a vial."
    Assigned from "assigned" {
        "Vial" vial_id: i64 = "vial",
        "Element" analyte: String = "analyte",
        "Value" value: f64 = "value",
        "Standard uncertainty" u: f64 = "u",
        "Unit, UCUM" unit: String = "unit",
        "Certificate, dilution record" source: Option<String> = "source",
        "Stock that it was made of" stock: Option<String> = "stock",
        "Side of the vial's dilution" assigned_side: Option<AssignedSide> = "assigned_side",
    }

    "Counts of one vial, isotope, resolution and detector mode."
    Reading from "reading" {
        "Vial" vial_id: i64 = "vial",
        "As Pb208" isotope: String = "isotope",
        "Mass resolution" resolution: Resolution = "resolution",
        "Detector mode" mode: Mode = "mode",
        "Replicates" rates_cps: Vec<f64> = "rates_cps",
        "Time on the mass per replicate" integration_s: f64 = "integration_s",
        "File" raw_file_id: Option<i64> = "raw_file",
        "Row in it" file_row: Option<i64> = "file_row",
    }

    "A result with what identifies it."
    ResultRow from "result" {
        "Bottle" bottle_id: i64 = "bottle",
        "Its label" bottle: String = "bottle.label",
        "What was measured" measurand_id: i64 = "measurand",
        "Element or quantity" analyte: String = "measurand.analyte",
        "As 206+207+208; empty where not said" isotopes: String = "measurand.isotopes",
        "low, medium, high; empty where it does not apply" resolution: String = "measurand.resolution",
        "unfiltered, a pore size, or filtered" fraction: String = "measurand.fraction",
        "Revision" revision: i64 = "revision",
        "Vial" vial_id: Option<i64> = "vial",
        "Value, below or above" censor: Censor = "censor",
        "Net value, also where not detected" value: Option<f64> = "value",
        "Standard uncertainty" u: Option<f64> = "u",
        "Degrees of freedom; none: infinite" dof: Option<f64> = "dof",
        "The limit where censored" limit_value: Option<f64> = "limit_value",
        "Unit, UCUM" unit: String = "unit",
        "Detection state" state: State = "state",
        "L_C, net scale" critical_value: Option<f64> = "critical_value",
        "L_D, net scale" detection_limit: Option<f64> = "detection_limit",
        "L_Q" quantification_limit: Option<f64> = "quantification_limit",
        "One-sided 95 % upper bound" upper_bound: Option<f64> = "upper_bound",
        "Before the blank was subtracted" gross: Option<f64> = "gross",
        "Its standard uncertainty" u_gross: Option<f64> = "u_gross",
        "The blank subtracted" blank: Option<f64> = "blank",
        "Its standard uncertainty" u_blank: Option<f64> = "u_blank",
        "As the laboratory states it" reporting_limit: Option<f64> = "reporting_limit",
        "Its kind" reporting_limit_kind: Option<String> = "reporting_limit_kind",
        "The laboratory's remark" remark: Option<String> = "remark",
        "Who measured" laboratory: Option<String> = "laboratory",
        "Method as the laboratory names it" method: Option<String> = "method",
        "File" raw_file_id: Option<i64> = "raw_file",
        "Row in it" file_row: Option<i64> = "file_row",
        "What its verdict speaks of" subject_id: i64 = "subject",
        "Its key" subject: String = "subject.key",
        "Version of the program that derived it" engine: String = "engine",
        "A value or an upper bound; none: a value" bears: Option<Bears> = "bears",
        "Event that wrote it" event: i64 = "event",
    }

    "How a result came to be."
    DerivationRow from "derivation" {
        "Result" result_id: i64 = "result",
        "The graph" body: serde_json::Value = "body",
    }

    "The same as it stands, for one who reads the graph himself."
    DerivationText from "derivation" {
        "Result" result_id: i64 = "result",
        "The graph, JSON" body: String = "body",
    }

    "The water's share of the measured metal."
    Share from "share" {
        "Result" result_id: i64 = "result",
        "Share" share: f64 = "share",
        "Standard uncertainty" u: f64 = "u",
        "Low end of the 95 % interval" low: f64 = "low",
        "High end of the 95 % interval" high: f64 = "high",
        "How" method: String = "method",
    }

    "A part of the metal in a bottle, or all of it."
    AccountingRow from "accounting" {
        "Result" result_id: i64 = "result",
        "Part, or all that was found" part: AccountingPart = "part",
        "Revision" revision: i64 = "revision",
        "How it is told; of all how the sum stands" told: AccountingTold = "told",
        "The part that holds its metal" told_with: Option<AccountingPart> = "told_with",
        "Metal" value_pg: Option<f64> = "value_pg",
        "Its standard uncertainty; of all U" u_pg: Option<f64> = "u_pg",
        "Low end of the 95 % interval" low_pg: Option<f64> = "low_pg",
        "High end" high_pg: Option<f64> = "high_pg",
        "Share of what was found" share: Option<f64> = "share",
        "Its standard uncertainty" u_share: Option<f64> = "u_share",
        "Low end of its 95 % interval" low: Option<f64> = "low",
        "High end" high: Option<f64> = "high",
        "Why it is not told" message: Option<serde_json::Value> = "message",
    }

    "One check of the programme's table, one revision."
    CheckRule from "check_rule" {
        "As stage.what" check_name: String = "check_name",
        "Revision" revision: i64 = "revision",
        "What it decides" weight: Weight = "weight",
        "The programme's own limit" limit_value: Option<f64> = "limit_value",
        "Its unit, UCUM" limit_unit: Option<String> = "limit_unit",
        "Reason for the choice" why: Option<String> = "why",
    }

    "An isotope ratio of lead in a known source."
    LeadSource from "lead_source" {
        "The source" source: String = "source",
        "206/207 or 208/206, either way up" ratio: String = "ratio",
        "The ratio" value: f64 = "value",
        "Its standard uncertainty, or the spread between pieces" u: Option<f64> = "u",
        "Where the figure is from" origin: String = "origin",
    }

    "A finding on record."
    FindingRow from "finding" {
        "What it speaks of" subject_id: i64 = "subject",
        "Its key" subject: String = "subject.key",
        "Assessment that it belongs to" revision: i64 = "revision",
        "As stage.what" check_name: String = "check_name",
        "Stage of the path" stage: quantity::Stage = "stage",
        "What came of it" outcome: quantity::Outcome = "outcome",
        "In one plain sentence" sentence: String = "sentence",
        "The numbers" compared: Vec<quantity::Compared> = "compared",
        "What the sentence says, as identity and arguments" message: Option<serde_json::Value> = "message",
    }

    "A finding as it is kept, unread."
    FindingText from "finding" {
        "What it speaks of" subject_id: i64 = "subject",
        "Assessment that it belongs to" revision: i64 = "revision",
        "As stage.what" check_name: String = "check_name",
        "Stage of the path" stage: String = "stage",
        "What came of it" outcome: String = "outcome",
        "In one plain sentence" sentence: String = "sentence",
        "The numbers as JSON" compared: String = "compared",
        "What the sentence says, as JSON" message: Option<String> = "message",
    }

    "A verdict as it is kept, its reasons unread."
    VerdictText from "verdict" {
        "What it speaks of" subject_id: i64 = "subject",
        "Revision" revision: i64 = "revision",
        "The word" verdict: VerdictWord = "verdict",
        "Checks that decided, as JSON" reasons: String = "reasons",
        "The profile of checks that judged; none: the programme's table alone" profile: Option<String> = "profile",
    }

    "What is measured."
    Measurand from "measurand" {
        "Element or quantity" analyte: String = "analyte",
        "As 206+207+208; empty where not said" isotopes: String = "isotopes",
        "low, medium, high; empty where it does not apply" resolution: String = "resolution",
        "unfiltered, a pore size, or filtered" fraction: String = "fraction",
    }

    "What a verdict speaks of."
    Subject from "subject" {
        "Its key" key: String = "key",
    }

    "A verdict, one revision."
    Verdict from "verdict" {
        "What it speaks of" subject_id: i64 = "subject",
        "Its key" subject: String = "subject.key",
        "Revision" revision: i64 = "revision",
        "The word" verdict: VerdictWord = "verdict",
        "Checks that decided" reasons: serde_json::Value = "reasons",
        "Version of the program" engine: String = "engine",
        "Profile that it was judged by; none: the programme's table alone" profile: Option<String> = "profile",
    }

    "A profile of checks."
    CheckProfile from "check_profile" {
        "Name" name: String = "name",
        "Which results it may judge" basis: ProfileBasis = "basis",
        "Reason for having it" why: String = "why",
        "Who" person: Option<String> = "person.name",
    }

    "A rule of a profile, one revision."
    ProfileRule from "profile_rule" {
        "Profile" profile_id: i64 = "profile",
        "Its name" profile: String = "profile.name",
        "As stage.what" check_name: String = "check_name",
        "Revision" revision: i64 = "revision",
        "What it decides" weight: Weight = "weight",
        "The limit" limit_value: Option<f64> = "limit_value",
        "Its unit, UCUM" limit_unit: Option<String> = "limit_unit",
        "Reason for the rule" why: Option<String> = "why",
    }

    "Which profile judges which results; the last row counts."
    ProfileChoice from "profile_choice" {
        "Profile; none: the programme's table" profile: Option<String> = "profile.name",
        "Only this laboratory" laboratory: Option<String> = "laboratory",
        "Only this element or quantity" analyte: Option<String> = "analyte",
        "Reason" why: String = "why",
        "Who" person: Option<String> = "person.name",
        "Event" event: i64 = "event",
    }

    "What a laboratory says of its own quality."
    LaboratoryQuality from "laboratory_quality" {
        "Laboratory or meter" laboratory: String = "laboratory",
        "Method; none: all" method: Option<String> = "method",
        "Element or quantity; none: all of the method" analyte: Option<String> = "analyte",
        "What the row says" kind: QualityKind = "kind",
        "First day of filling that it speaks of" from_day: Option<String> = "from_day",
        "Last day" until_day: Option<String> = "until_day",
        "Bottle that it speaks of" bottle_id: Option<i64> = "bottle",
        "Accredited, in control" answer: Option<Answer> = "answer",
        "Blank, recovery, first of two, reading" value: Option<f64> = "value",
        "Nothing was found above this" below: Option<f64> = "below",
        "Second of two" second: Option<f64> = "second",
        "What should have been found" expected: Option<f64> = "expected",
        "Unit, UCUM" unit: Option<String> = "unit",
        "Report, batch, certificate" note: Option<String> = "note",
    }

    "A request to a laboratory."
    LabRequest from "lab_request" {
        "Name" name: String = "name",
        "Trip" trip_id: i64 = "trip",
        "Name of the trip" trip: String = "trip.name",
        "To whom" laboratory: Option<String> = "laboratory",
        "Where labels and order were drawn from" seed: i64 = "seed",
        "Who drew them" person: Option<String> = "person.name",
        "Event" event: i64 = "event",
    }

    "A blind label."
    BlindLabel from "blind_label" {
        "Blind label" label: String = "label",
        "Request" request_id: i64 = "request",
        "Its name" request: String = "request.name",
        "Bottle" bottle_id: i64 = "bottle",
        "Label of the bottle" bottle: String = "bottle.label",
        "Place in the order" position: i64 = "position",
    }

    "When a request's labels were opened."
    Unblinding from "unblinding" {
        "Request" request_id: i64 = "request",
        "Its name" request: String = "request.name",
        "File that came back" raw_file_id: Option<i64> = "raw_file",
        "Reason" why: Option<String> = "why",
        "Who" person: Option<String> = "person.name",
        "Event" event: i64 = "event",
    }

    "What a person took out of the evidence, or back; of several, the last counts."
    Exclusion from "exclusion" {
        "Vial" vial_id: Option<i64> = "vial",
        "Bottle: all its vials" bottle_id: Option<i64> = "bottle",
        "Label of the bottle" bottle: Option<String> = "bottle.label",
        "Only this isotope" isotope: Option<String> = "isotope",
        "Out, or back in" excluded: bool = "excluded",
        "Reason" why: String = "why",
        "Who" person: String = "person.name",
        "Event" event: i64 = "event",
    }

    "A person stands for a verdict."
    SignOff from "sign_off" {
        "Result or evidence" subject_id: i64 = "subject",
        "Its key" subject: String = "subject.key",
        "Who" person: String = "person.name",
        "Reason" why: String = "why",
        "Event" event: i64 = "event",
    }

    "A correction on record."
    Amendment from "amendment" {
        "Table" table_name: String = "table_name",
        "Row" row_id: i64 = "row_id",
        "Column" column_name: String = "column_name",
        "As it stood" old: Option<String> = "old",
        "As it is read from now on" new: Option<String> = "new",
        "Reason" why: String = "why",
        "Who" person: Option<String> = "person.name",
        "Event" event: i64 = "event",
    }

    "A field sheet brought home."
    FieldSheet from "field_sheet" {
        "The file" raw_file_id: i64 = "raw_file",
        "Name of the file" file: String = "raw_file.name",
        "Trip" trip_id: i64 = "trip",
        "Which sheet" sheet: String = "sheet",
        "Which phone" device: String = "device",
        "The phone's time when it was saved" exported_at: String = "exported_at",
        "The phone's offset from UTC at its first entry" utc_offset_min: i64 = "utc_offset_min",
        "What was added to the phone's times" add_days: f64 = "add_days",
    }

    "An entry of a field sheet."
    FieldEntry from "field_entry" {
        "Which sheet" sheet: String = "sheet",
        "Which phone" device: String = "device",
        "The phone's counter" n: i64 = "n",
        "Trip" trip_id: i64 = "trip",
        "The phone's time" at: String = "at",
        "Who held the phone" who: Option<String> = "who",
        "Kind of entry" what: String = "what",
        "The entry as JSON" body: String = "body",
        "What was added to the phone's times, days" add_days: f64 = "field_sheet.add_days",
        "Event" event: i64 = "event",
    }

    "An organic compound as a laboratory names it."
    Compound from "compound" {
        "Name" name: String = "name",
        "CAS number as stated" cas: Option<String> = "cas",
    }

    "A tracer of age or origin as a laboratory measured it."
    TracerRow from "tracer" {
        "Label of the bottle" bottle: Option<String> = "bottle.label",
        "Well of the bottle" bottle_well_id: Option<i64> = "bottle.well",
        "When the bottle was filled" filled_at: Option<String> = "bottle.filled_at",
        "Well, where no bottle is named" well_id: Option<i64> = "well",
        "Day of sampling, where no bottle is named" sampled_on: Option<String> = "sampled_on",
        "Isotope or gas" tracer: String = "tracer",
        "As measured, or the limit" value: f64 = "value",
        "Not detected: the value is the limit" below: Option<bool> = "below",
        "Its uncertainty" uncertainty: f64 = "uncertainty",
        "Its coverage factor" k: Option<f64> = "k",
        "Its unit" unit: String = "unit",
        "Above it the tracer counts as detected" critical_value: Option<f64> = "critical_value",
        "As the laboratory states it" detection_limit: Option<f64> = "detection_limit",
        "Day of measurement" measured_on: Option<String> = "measured_on",
        "Laboratory" laboratory: Option<String> = "laboratory",
        "Method" method: Option<String> = "method",
        "The day that the value holds for" decayed_to: Option<DecayedTo> = "decayed_to",
        "Half-life with which it was reckoned back" half_life_a: Option<f64> = "half_life_a",
        "Fractionation taken out, or not" normalised_to: Option<Normalised> = "normalised_to",
        "What was noted" note: Option<String> = "note",
    }

    "A year of a history of rain or air."
    HistoryRow from "input_history" {
        "Name of the history" name: String = "name",
        "Isotope or gas" tracer: String = "tracer",
        "Where it holds" region: String = "region",
        "Where the numbers are from" source: String = "source",
        "Only for wells of this site" site_id: Option<i64> = "site",
        "Decimal year" in_year: f64 = "in_year",
        "The background of all time before this year" before: Option<bool> = "before",
        "Value" value: f64 = "value",
        "Its standard uncertainty" u: f64 = "u",
        "Its unit" unit: String = "unit",
    }

    "Something known of the recharge, or a price."
    RechargeFactRow from "recharge_fact" {
        "What it is" what: RechargeFact = "what",
        "Of a price: which tracer" tracer: Option<String> = "tracer",
        "Only for wells of this site" site_id: Option<i64> = "site",
        "Only for this well" well_id: Option<i64> = "well",
        "Lower end" low: f64 = "low",
        "Upper end" high: f64 = "high",
        "Where it comes from" source: String = "source",
    }

    "A limit that a person added."
    LocalLimit from "local_limit" {
        "Element or compound" analyte: String = "analyte",
        "Unit with its basis" unit: String = "unit",
        "Who set it" authority: String = "authority",
        "Upper end" limit_high: f64 = "limit_high",
        "Lower end of a range" limit_low: Option<f64> = "limit_low",
        "Where it stands" document: Option<String> = "document",
        "Which edition" edition: Option<String> = "edition",
        "as N, as NO3" basis: Option<String> = "basis",
        "Kind of limit" kind: Option<String> = "kind",
        "First day" valid_from: Option<String> = "valid_from",
        "Last day" valid_until: Option<String> = "valid_until",
        "seen or recalled" provenance: Option<String> = "provenance",
        "The day it was read" date_read: Option<String> = "date_read",
        "What else" note: Option<String> = "note",
    }

    "A sentence with its answer, one revision."
    StatementRow from "statement" {
        "Name" name: String = "name",
        "Revision" revision: i64 = "revision",
        "Kind" kind: String = "kind",
        "The sentence as fields" fields: serde_json::Value = "fields",
        "The answer" answer: String = "answer",
        "Answer, interval, sentences" checked: serde_json::Value = "checked",
        "Why provisional or rejected results were taken" despite: Option<String> = "despite",
        "Head of the record then" head: String = "head",
        "Who" person: String = "person.name",
        "Version of the program" engine: String = "engine",
    }

    "An act that was taken back."
    Undone from "undone" {
        "Number of the act" undone_event: i64 = "undone_event",
        "Hash of its event" hash: [u8; 32] = "hash",
        "Reason" why: String = "why",
        "Who" person: String = "person.name",
        "Event that took it back" event: i64 = "event",
    }

    "A person's public key."
    PersonKey from "person_key" {
        "What people compare keys by" fingerprint: String = "fingerprint",
        "Whose" person: String = "person.name",
        "The key as one line" public_key: String = "public_key",
        "Signature by the key of the line that says whose it is" proof: String = "proof",
        "Event" event: i64 = "event",
    }

    "A key that is used no longer."
    KeyEnd from "key_end" {
        "Key" person_key_id: i64 = "person_key",
        "Its fingerprint" fingerprint: String = "person_key.fingerprint",
        "Laid aside, or lost" how: KeyEndHow = "how",
        "Reason" why: String = "why",
        "Who said so" person: Option<String> = "person.name",
        "Event" event: i64 = "event",
    }

    "A signature by key."
    Signed from "signed" {
        "Key" person_key_id: i64 = "person_key",
        "Its fingerprint" fingerprint: String = "person_key.fingerprint",
        "What was signed" what: SignedWhat = "what",
        "The sign-off" sign_off_id: Option<i64> = "sign_off",
        "Number of the last event that it covers" events: i64 = "events",
        "What was signed, as it was signed" line: String = "line",
        "The signature" signature: String = "signature",
        "Event" event: i64 = "event",
    }

    "A head that others keep."
    Anchor from "anchor" {
        "Number of the last event that it covers" events: i64 = "events",
        "Hash of that event" head: String = "head",
        "How it is kept" kind: AnchorKind = "kind",
        "Who keeps it, or where" kept_by: String = "kept_by",
        "When an authority stamped it" stamped_at: Option<String> = "stamped_at",
        "The authority's answer" receipt: Option<Vec<u8>> = "receipt",
        "Who took it in" person: Option<String> = "person.name",
        "Event" event: i64 = "event",
    }

    "A result that a statement stands on."
    StatementUse from "statement_use" {
        "Statement" statement_id: i64 = "statement",
        "Place in the fields" role: String = "role",
        "Result" result_id: i64 = "result",
        "Its verdict then" verdict: Option<VerdictWord> = "verdict",
        "What was taken of it" amount: serde_json::Value = "amount",
    }
}

impl Well {
    /// Whether this is a stream, not a well.
    pub fn is_stream(&self) -> bool {
        self.medium.as_deref() == Some(Medium::SurfaceWater.word())
    }
}

/// Name of a set of bottles of one water filled to different volumes.
pub const FILL_SERIES: &str = "fill series";
/// Name of a set of bottles of one well filled at different flows.
pub const FLOW_SERIES: &str = "flow series";
/// Name of a set of blanks that somebody takes for practice.
pub const TRAINING: &str = "training";

impl Bottle {
    /// Whether the bottle is evidence only: one of a series that tells where metal comes from. Such a bottle gets no
    /// verdict and no place among the results of its well.
    pub fn is_series(&self) -> bool {
        matches!(self.set_name.as_deref(), Some(FILL_SERIES | FLOW_SERIES | TRAINING))
    }
}

impl ResultRow {
    /// The result's name.
    pub fn identity(&self) -> ResultId {
        let Self { bottle, analyte, isotopes, resolution, fraction, revision, .. } = self.clone();
        ResultId { bottle, analyte, isotopes, resolution, fraction, revision: Some(revision) }
    }
}
