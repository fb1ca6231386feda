//! Tables that do not stand as one row of headings over rows of data: a row of units or of methods under the headings,
//! parameters down and samples across, several blocks one under the other.
//!
//! In: all records of a sheet and what the mapping says of its shape. Out: [`Shaped`], the same cells under one row of
//! headings, each record with the row in which it stands (of a table on its side: the column). A unit under a heading is
//! joined to it, "Pb" over "µg/l" is "Pb (µg/l)", and goes the way of every heading with a unit. A column that a block
//! does not have is [`ABSENT`] in its rows, which is no empty cell: nothing was asked there.
//!
//! The table is held in memory; a table of one row of headings is not, it never comes here. Checked in
//! `tests/import_strange.rs`.

use super::fault::Collector;
use super::mapping::FileForm;
use super::text::Record;
use message::intake as said;
use quantity::Check;

/// Stands in a cell that the block of this row has no column for (ASCII "substitute", which no table holds).
pub(crate) const ABSENT: &[u8] = b"\x1A";

/// A table under one row of headings.
#[derive(Debug, Default)]
pub(crate) struct Shaped {
    /// The headings, then the rows.
    pub records: Vec<Record>,
    /// Method of each column, where a row of methods stands under the headings; else empty.
    pub methods: Vec<Vec<u8>>,
}

impl FileForm {
    /// Whether a table of this form has to be put into shape.
    pub(crate) fn is_shaped(&self) -> bool {
        self.units_row.is_some() || self.methods_row.is_some() || self.transposed || self.blocks
    }
}

/// Puts a table into shape.
pub(crate) fn shape(mut records: Vec<Record>, form: &FileForm, out: &mut Collector) -> Shaped {
    if form.transposed {
        records = on_its_side(&records);
        out.tell(Check::FileForm, None, None, said::LiesOnItsSide);
    }
    records.retain(|r| !r.is_blank() || form.blocks);
    let first = form.header_row.or_else(|| records.iter().find(|r| !r.is_blank()).map(|r| r.row));
    let Some(first) = first else { return Shaped::default() };
    records.retain(|r| r.row >= first);
    let take = |records: &mut Vec<Record>, row: Option<u64>| {
        let at = records.iter().position(|r| Some(r.row) == row)?;
        Some(records.remove(at))
    };
    let units = take(&mut records, form.units_row);
    let methods = take(&mut records, form.methods_row);
    if records.first().is_none_or(|r| r.row != first) {
        return Shaped::default();
    }
    if let Some(units) = units {
        records[0] = with_units(&records[0], &units);
    }
    let methods = methods.map_or_else(Vec::new, |m| (0..m.len()).map(|i| m.get(i).to_vec()).collect());
    if form.blocks {
        records = one_under_the_other(&records, out);
    }
    Shaped { records, methods }
}

/// Rows for columns: a record a column, its row the column counted from 1.
fn on_its_side(records: &[Record]) -> Vec<Record> {
    let width = records.iter().map(Record::len).max().unwrap_or(0);
    let filled: Vec<&Record> = records.iter().filter(|r| !r.is_blank()).collect();
    (0..width)
        .map(|at| {
            let mut column = Record::default();
            column.clear(at as u64 + 1);
            for r in &filled {
                column.push(r.get(at));
            }
            column
        })
        .collect()
}

fn with_units(headings: &Record, units: &Record) -> Record {
    let mut out = Record::default();
    out.clear(headings.row);
    for at in 0..headings.len() {
        let (heading, unit) = (headings.get(at), units.get(at));
        let unit = unit.strip_prefix(b"[").and_then(|u| u.strip_suffix(b"]")).unwrap_or(unit);
        let unit = unit.strip_prefix(b"(").and_then(|u| u.strip_suffix(b")")).unwrap_or(unit);
        // "No unit" under a label or a date, and the heading of the units themselves.
        let no_unit = [&b""[..], b"-", b"Einheit", b"Einheiten", b"Unit", b"Units"].contains(&unit);
        if no_unit || heading.is_empty() {
            out.push(heading);
        } else {
            out.push(&[heading, b" (", unit, b")"].concat());
        }
    }
    out
}

/// Blocks under one row of headings. A block begins after a gap with a row whose first filled cell is the first heading.
fn one_under_the_other(records: &[Record], out: &mut Collector) -> Vec<Record> {
    let Some((head, rest)) = records.split_first() else { return vec![] };
    let Some(key) = (0..head.len()).find(|at| !head.get(*at).is_empty()) else { return records.to_vec() };
    let is_head = |r: &Record| r.get(key) == head.get(key);
    let mut all: Vec<Vec<u8>> = vec![];
    let mut place = |r: &Record| -> Vec<usize> {
        (0..r.len())
            .map(|at| {
                let heading = r.get(at);
                all.iter().position(|h| h == heading && !heading.is_empty()).unwrap_or_else(|| {
                    all.push(heading.to_vec());
                    all.len() - 1
                })
            })
            .collect()
    };
    let mut places = place(head);
    let mut rows: Vec<(Vec<usize>, &Record)> = vec![];
    for r in rest {
        if is_head(r) {
            places = place(r);
            out.tell(Check::FileForm, Some(r.row), None, said::BlockBegins);
        } else {
            rows.push((places.clone(), r));
        }
    }
    let mut headings = Record::default();
    headings.clear(head.row);
    for h in &all {
        headings.push(h);
    }
    let mut stacked = vec![headings];
    for (places, r) in rows {
        let mut row = Record::default();
        row.clear(r.row);
        // A blank row stays one: it parts the table from what stands below.
        let blank = r.is_blank();
        for at in 0..all.len() {
            match places.iter().position(|p| *p == at) {
                _ if blank => row.push(b""),
                Some(cell) => row.push(r.get(cell)),
                None => row.push(ABSENT),
            }
        }
        stacked.push(row);
    }
    stacked
}

#[cfg(test)]
mod tests {
    use super::*;

    fn record(row: u64, line: &str) -> Record {
        let mut r = Record::default();
        r.clear(row);
        line.split(';').for_each(|c| r.push(c.as_bytes()));
        r
    }

    fn table(lines: &[&str]) -> Vec<Record> {
        lines.iter().enumerate().map(|(i, l)| record(i as u64 + 1, l)).collect()
    }

    fn check(lines: &[&str], form: &FileForm, want: &[(u64, &str)]) {
        let shaped = shape(table(lines), form, &mut Collector::new("x.csv", true));
        let cells = |r: &Record| {
            (0..r.len()).map(|i| String::from_utf8_lossy(r.get(i)).replace('\x1A', "#")).collect::<Vec<_>>().join(";")
        };
        let got: Vec<(u64, String)> = shaped.records.iter().map(|r| (r.row, cells(r))).collect();
        let want: Vec<(u64, String)> = want.iter().map(|(n, t)| (*n, (*t).to_string())).collect();
        assert_eq!(got, want);
    }

    #[test]
    fn units_stand_under_their_headings() {
        let form = FileForm { header_row: Some(2), units_row: Some(3), ..FileForm::default() };
        check(
            &["Report;;", "Probe;Pb;Cd", ";µg/l;[ng/l]", "A;1;2"],
            &form,
            &[(2, "Probe;Pb (µg/l);Cd (ng/l)"), (4, "A;1;2")],
        );
    }

    #[test]
    fn samples_across_become_rows() {
        let form = FileForm { transposed: true, units_row: Some(2), ..FileForm::default() };
        check(
            &["Parameter;Einheit;A;B", "Pb;µg/l;1;2", "Cd;ng/l;3;4"],
            &form,
            &[(1, "Parameter;Pb (µg/l);Cd (ng/l)"), (3, "A;1;3"), (4, "B;2;4")],
        );
    }

    #[test]
    fn blocks_come_under_one_row_of_headings() {
        let form = FileForm { blocks: true, ..FileForm::default() };
        check(
            &["Probe;Pb", "A;1", ";", "Probe;Cd;Pb", "A;2;3"],
            &form,
            &[(1, "Probe;Pb;Cd"), (2, "A;1;#"), (3, ";;"), (5, "A;3;2")],
        );
    }
}
