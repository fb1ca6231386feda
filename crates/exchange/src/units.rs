//! The unit of a column of the record, from its name: `volume_mL` is in mL, `from_m` in m. UCUM codes.
//! A column whose unit stands in another column of its row (`unit`, `limit_unit`) says which.

use record::schema::{Column, Kind, Table};

/// Endings of column names and their UCUM codes; longer ones first where one ends in another.
const ENDINGS: &[(&str, &str)] = &[
    ("ng_per_L", "ng/L"),
    ("ng_L", "ng/L"),
    ("ug_L", "ug/L"),
    ("mg_L", "mg/L"),
    ("L_min", "L/min"),
    ("m3_d", "m3/d"),
    ("m2_d", "m2/d"),
    ("m_s", "m/s"),
    ("uS_cm", "uS/cm"),
    ("mol_L", "mol/L"),
    ("ng_m3", "ng/m3"),
    ("pg_Pb", "pg"),
    ("mL", "mL"),
    ("L", "L"),
    ("pg", "pg"),
    ("ng", "ng"),
    ("kg", "kg"),
    ("g", "g"),
    ("um", "um"),
    ("mm", "mm"),
    ("cm2", "cm2"),
    ("m3", "m3"),
    ("km", "km"),
    ("m", "m"),
    ("deg", "deg"),
    ("C", "Cel"),
    ("mV", "mV"),
    ("bar", "bar"),
    ("kPa", "kPa"),
    ("cps", "/s"),
    ("s", "s"),
    ("seconds", "s"),
    ("min", "min"),
    ("minutes", "min"),
    ("h", "h"),
    ("hours", "h"),
    ("d", "d"),
    ("days", "d"),
    ("percent", "%"),
];

/// Where the unit of a column stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnitOf {
    /// In its name, as this UCUM code.
    Fixed(&'static str),
    /// In another column of the row.
    Column(&'static str),
    /// It has none.
    None,
}

/// The unit of a column.
pub fn of(table: &Table, column: &Column) -> UnitOf {
    if !matches!(column.kind, Kind::Real | Kind::Integer | Kind::Json) {
        return UnitOf::None;
    }
    let ends_in = |ending: &str| {
        column.name.strip_suffix(ending).is_some_and(|before| before.ends_with('_') || before.is_empty())
    };
    if let Some((_, code)) = ENDINGS.iter().find(|(ending, _)| ends_in(ending)) {
        return UnitOf::Fixed(code);
    }
    if column.kind != Kind::Real || column.name == "dof" {
        return UnitOf::None;
    }
    let units = || table.columns.iter().filter(|c| c.kind == Kind::Unit);
    let own = units().find(|u| u.name.strip_suffix("_unit").is_some_and(|of| column.name.starts_with(of)));
    match own.or_else(|| units().find(|u| u.name == "unit")) {
        Some(u) => UnitOf::Column(u.name),
        None => UnitOf::None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use record::schema::table;

    #[test]
    fn units_come_from_names_and_from_unit_columns() {
        for (t, c, unit) in [
            ("bottle", "volume_mL", UnitOf::Fixed("mL")),
            ("lot", "target_pg_Pb", UnitOf::Fixed("pg")),
            ("fill", "seconds", UnitOf::Fixed("s")),
            ("reading", "rates_cps", UnitOf::Fixed("/s")),
            ("custody", "temperature_C", UnitOf::Fixed("Cel")),
            ("result", "value", UnitOf::Column("unit")),
            ("result", "dof", UnitOf::None),
            ("check_rule", "limit_value", UnitOf::Column("limit_unit")),
            ("share", "share", UnitOf::None),
            ("bottle", "label", UnitOf::None),
        ] {
            let table = table(t).unwrap();
            let column = table.columns.iter().find(|x| x.name == c).unwrap();
            assert_eq!(of(table, column), unit, "{t}.{c}");
        }
    }

    #[test]
    fn every_code_is_one_that_the_tool_reads() {
        // UCUM has these two; no laboratory file brings them.
        for (_, code) in ENDINGS.iter().filter(|(_, c)| !["/s", "deg"].contains(c)) {
            assert_eq!(quantity::Unit::parse(code).unwrap().ucum(), *code);
        }
    }
}
