//! An invented laboratory's report on organic compounds in SL-2, none found, and an invented district's
//! limits. The report holds what such reports hold: net values for some compounds and limits for most,
//! one compound under two names, one number with a slip in it, one limit too high to answer.

/// Bottle of the report.
pub const BOTTLE: &str = "SL2-26-07-O";

/// Compounds of the report.
const COUNT: usize = 120;

/// Names that the report holds whatever the table's order.
const ALWAYS: &[&str] = &["lindane", "dieldrin", "atrazine", "desethylatrazine", "glyphosate", "AMPA", "bentazone"];

/// A row: name, number, group.
fn compounds() -> Vec<[String; 3]> {
    let mut reader = csv::Reader::from_reader(include_str!("../../../reference/compounds.csv").as_bytes());
    let all: Vec<[String; 3]> = reader
        .records()
        .map(|r| {
            let r = r.expect("the table of compounds is well-formed");
            [r[0].into(), r[1].into(), r[2].into()]
        })
        .collect();
    // One name less: the second name of lindane fills the list.
    let mut left = COUNT - 1 - ALWAYS.len();
    all.into_iter()
        .filter(|c| {
            let always = ALWAYS.contains(&c[0].as_str());
            let taken = always || left > 0;
            left -= usize::from(taken && !always);
            taken
        })
        .collect()
}

/// Names and numbers of the report's compounds, as the laboratory lists them.
pub fn numbers() -> String {
    let mut out = String::from("analyte,cas\n");
    for line in report().lines().skip(1) {
        // Bottle, then the name, quoted where it holds a comma, then the number.
        let rest = line.split_once(',').map_or(line, |(_, rest)| rest);
        let end = match rest.strip_prefix('"') {
            Some(quoted) => quoted.find('"').map_or(0, |e| e + 2),
            None => rest.find(',').unwrap_or(0),
        };
        let number = rest[end + 1..].split(',').next().unwrap_or_default();
        out += &format!("{},{number}\n", &rest[..end]);
    }
    out
}

/// The report.
pub fn report() -> String {
    let mut out = String::from(
        "bottle,analyte,cas,value,u,unit,critical_value,detection_limit,reporting_limit,laboratory,method\n",
    );
    let mut row = |name: &str, cas: &str, cells: [&str; 5]| {
        let name = if name.contains(',') { format!("\"{name}\"") } else { name.to_string() };
        let [value, u, critical, detection, reporting] = cells;
        out += &format!(
            "{BOTTLE},{name},{cas},{value},{u},µg/L,{critical},{detection},{reporting},Harrow Organic Analysis (invented),liquid and gas chromatography with mass spectrometry\n"
        );
    };
    for (i, [name, cas, group]) in compounds().iter().enumerate() {
        // A slip of the pen in one number, for the check digit to find.
        let cas = if name == "atrazine" { "1912-24-8" } else { cas };
        let cells = match (name.as_str(), group.as_str()) {
            ("dieldrin", _) => ["<0.05", "", "", "0.04", "0.05"],
            ("glyphosate" | "AMPA", _) => ["<0.03", "", "", "0.01", "0.03"],
            (_, "metabolite") => ["<0.02", "", "", "0.006", "0.02"],
            // Net values, negative ones too, none over its critical value.
            (_, "herbicide") if i % 4 == 0 => [NET[i / 4 % NET.len()], "0.0006", "0.001", "0.002", "0.005"],
            (_, "insecticide") => ["<0.005", "", "", "0.002", "0.005"],
            _ => ["<0.01", "", "", "0.003", "0.01"],
        };
        row(name, cas, cells);
    }
    row("gamma-HCH", "58-89-9", ["<0.004", "", "", "0.0015", "0.004"]);
    out
}

/// Net values of the report, µg/L.
const NET: &[&str] = &["0.0003", "-0.0002", "0.0006", "-0.0005", "0.0001", "0.0008", "-0.0001"];

/// Limits of a district that does not exist.
pub fn district_limits() -> String {
    "analyte,unit,authority,limit_high,document,edition,kind,provenance,date_read,note\n\
     Pb,µg/L,Sallow District (invented),2,District notice 7 (invented),2024,guide value,seen,2026-06-02,invented for the demo\n\
     Mn,µg/L,Sallow District (invented),50,District notice 7 (invented),2024,guide value,seen,2026-06-02,invented for the demo\n\
     NO3,mg/L as N,Sallow District (invented),5,District notice 7 (invented),2024,guide value,seen,2026-06-02,invented for the demo\n"
        .into()
}
