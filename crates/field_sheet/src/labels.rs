//! Label sheets: each label with a Data Matrix code (ISO/IEC 16022, ECC 200) of the bottle's label,
//! the label itself, kind, well, fraction and lot; cut marks; every dimension printed on the page.
//!
//! In: the sheet's bottles and a [`LabelGrid`] in mm. Out: [`Paper`] for the crate `typeset`. The
//! code is drawn here as one vector path; its message is the label and nothing else, so that any
//! reader gives it back. Checked in `tests/main.rs` by a general-purpose reader.

use super::data::{Data, Planned};
use super::fields;
use datamatrix::{DataMatrix, SymbolList};
use document::paper::{Paper, quoted};
use figure::text::{self, Weight};
use message::{Spoken as _, sheet};
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Points in a millimetre.
// 72 points an inch of 25.4 mm, exact.
const PT_PER_MM: f64 = 72.0 / 25.4;
/// Smallest module of a code, mm.
// Common practice for printers of 300 dots an inch and phone cameras: 0.25 mm and more.
const LEAST_MODULE_MM: f64 = 0.25;
/// Quiet zone, modules. ISO/IEC 16022 asks for one (from memory); two forgive a careless cut.
const QUIET: usize = 2;
/// Room at the foot of the page for the dimensions, mm.
const FOOT_MM: f64 = 12.0;

/// A grid of labels on a page, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LabelGrid {
    /// Page width.
    pub page_width_mm: f64,
    /// Page height.
    pub page_height_mm: f64,
    /// Labels across.
    pub columns: usize,
    /// Labels down.
    pub rows: usize,
    /// Label width.
    pub width_mm: f64,
    /// Label height.
    pub height_mm: f64,
    /// Left margin.
    pub left_mm: f64,
    /// Top margin.
    pub top_mm: f64,
    /// Between columns.
    pub gap_x_mm: f64,
    /// Between rows.
    pub gap_y_mm: f64,
}

impl LabelGrid {
    /// Labels of 63 × 33 mm, three across and eight down an A4 page: where nothing else is asked for.
    pub const A4: Self = Self {
        page_width_mm: 210.0,
        page_height_mm: 297.0,
        columns: 3,
        rows: 8,
        width_mm: 63.0,
        height_mm: 33.0,
        left_mm: 8.5,
        top_mm: 10.0,
        gap_x_mm: 2.0,
        gap_y_mm: 1.0,
    };
}

impl Default for LabelGrid {
    /// [`LabelGrid::A4`].
    fn default() -> Self {
        Self::A4
    }
}

/// Why no labels came out.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LabelError {
    /// The grid does not fit the page, or the labels are too small.
    #[error("{what}: found {found} mm, expected {expected}")]
    Grid {
        /// Which dimension.
        what: &'static str,
        /// As given, mm.
        found: f64,
        /// What would do.
        expected: String,
    },
    /// A label that no code holds.
    #[error("the label \"{label}\" cannot be written as a code: {reason}")]
    Code {
        /// The label.
        label: String,
        /// What the encoder says.
        reason: String,
    },
}

impl LabelGrid {
    /// Does it fit the page?
    ///
    /// # Errors
    /// [`LabelError::Grid`], naming the dimension.
    pub fn check(&self) -> Result<(), LabelError> {
        let wrong = |what, found: f64, expected: String| Err(LabelError::Grid { what, found, expected });
        let all = [
            self.page_width_mm,
            self.page_height_mm,
            self.width_mm,
            self.height_mm,
            self.left_mm,
            self.top_mm,
            self.gap_x_mm,
            self.gap_y_mm,
        ];
        if let Some(bad) = all.iter().find(|x| !x.is_finite() || **x < 0.0 || **x > 2000.0) {
            return wrong("a dimension of the labels", *bad, "0 to 2000 mm".into());
        }
        if self.columns == 0 || self.rows == 0 || self.columns * self.rows > 1000 {
            return wrong("labels on a page", (self.columns * self.rows) as f64, "1 to 1000 labels".into());
        }
        // 12 mm of height leave a code of 6 mm (`code_mm`), 24 of the finest modules with the quiet zone. Whether
        // a name fits those is asked label by label, in `labels`.
        for (what, x, least) in [("width of a label", self.width_mm, 35.0), ("height of a label", self.height_mm, 12.0)]
        {
            if x < least {
                return wrong(what, x, format!("{least} mm or more, for code and words"));
            }
        }
        let (n, m) = (self.columns as f64, self.rows as f64);
        let right = self.left_mm + n * self.width_mm + (n - 1.0) * self.gap_x_mm;
        if right > self.page_width_mm {
            return wrong("right edge of the labels", right, format!("at most the page's {} mm", self.page_width_mm));
        }
        let low = self.top_mm + m * self.height_mm + (m - 1.0) * self.gap_y_mm;
        if low > self.page_height_mm {
            return wrong("lower edge of the labels", low, format!("at most the page's {} mm", self.page_height_mm));
        }
        Ok(())
    }

    fn x(&self, column: usize) -> f64 {
        self.left_mm + column as f64 * (self.width_mm + self.gap_x_mm)
    }

    fn y(&self, row: usize) -> f64 {
        self.top_mm + row as f64 * (self.height_mm + self.gap_y_mm)
    }

    fn code_mm(&self) -> f64 {
        (self.height_mm - 6.0).min(0.4 * self.width_mm).min(24.0)
    }

    /// Is there room for the line of dimensions under the labels?
    fn has_foot(&self) -> bool {
        self.y(self.rows - 1) + self.height_mm + FOOT_MM <= self.page_height_mm
    }
}

/// The code of a message as SVG: one path, quiet zone inside, `modules` across in all.
///
/// # Errors
/// [`LabelError::Code`] for a message that no symbol holds.
pub fn code(message: &str) -> Result<(String, usize), LabelError> {
    let matrix = DataMatrix::encode_str(message, SymbolList::default().enforce_square())
        .map_err(|e| LabelError::Code { label: message.into(), reason: format!("{e:?}") })?;
    let bitmap = matrix.bitmap();
    let side = bitmap.width() + 2 * QUIET;
    let mut dark: Vec<(usize, usize)> = bitmap.pixels().map(|(x, y)| (y, x)).collect();
    dark.sort_unstable();
    let mut path = String::new();
    let mut i = 0;
    while i < dark.len() {
        let (y, x) = dark[i];
        let mut run = 1;
        while dark.get(i + run) == Some(&(y, x + run)) {
            run += 1;
        }
        let _ = write!(path, "M{} {}h{run}v1h-{run}z", x + QUIET, y + QUIET);
        i += run;
    }
    let svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {side} {side}\" width=\"{side}\" height=\"{side}\" shape-rendering=\"crispEdges\"><rect width=\"{side}\" height=\"{side}\" fill=\"#fff\"/><path d=\"{path}\" fill=\"#000\"/></svg>"
    );
    Ok((svg, side))
}

/// Sheets of labels, one a bottle.
///
/// # Errors
/// A grid that does not fit; a label that no code holds, or whose code would be too fine to read.
pub fn labels(data: &Data, grid: &LabelGrid) -> Result<Paper, LabelError> {
    grid.check()?;
    let mut files = BTreeMap::new();
    let mut main = format!(
        "#set page(width: {}mm, height: {}mm, margin: 0mm)\n#set text(size: 9pt, hyphenate: false)\n#set par(leading: 0.45em, spacing: 0.45em)\n\n",
        grid.page_width_mm, grid.page_height_mm
    );
    let per_page = grid.columns * grid.rows;
    let pages: Vec<&[Planned]> = data.bottles.chunks(per_page).collect();
    if pages.is_empty() {
        let _ = writeln!(
            main,
            "#pad(10mm)[#{}]",
            quoted(&sheet::PaperNoBottles { trip: data.trip.name.as_str().into() }.text())
        );
    }
    for (p, page) in pages.iter().enumerate() {
        if p > 0 {
            main.push_str("#pagebreak()\n\n");
        }
        // The heading is for the outline and for those who hear the page: a sheet of labels has no room to show one.
        let _ = writeln!(
            main,
            "#place(hide(heading(level: 1, {})))",
            quoted(&sheet::PaperLabelsPage { page: (p + 1).to_string().into() }.text())
        );
        cut_marks(grid, &mut main);
        for (i, bottle) in page.iter().enumerate() {
            let name = format!("code-{}.svg", p * per_page + i);
            let (svg, modules) = code(&bottle.label)?;
            // Asked of each label: a longer name takes more modules in the same width.
            let module = grid.code_mm() / modules as f64;
            if module < LEAST_MODULE_MM {
                return Err(LabelError::Grid {
                    what: "a module of the code",
                    found: module,
                    expected: format!(
                        "{LEAST_MODULE_MM} mm or more: take a larger label, or shorter names than \"{}\"",
                        bottle.label
                    ),
                });
            }
            files.insert(name.clone(), svg.into_bytes());
            one(data, grid, bottle, &name, (grid.x(i % grid.columns), grid.y(i / grid.columns)), &mut main);
        }
        foot(data, grid, (p + 1, pages.len()), &mut main);
    }
    Ok(Paper {
        main,
        files,
        title: text::with_known_letters(&sheet::PaperLabels { trip: data.trip.name.as_str().into() }.text()),
        author: String::new(),
        date: super::paper_sheet::date(&data.trip.starts),
        lang: message::language().code().into(),
        record: String::new(),
        attached: vec![],
    })
}

fn one(data: &Data, grid: &LabelGrid, b: &Planned, name: &str, (x, y): (f64, f64), main: &mut String) {
    let code = grid.code_mm();
    let room_mm = grid.width_mm - code - 8.0;
    // The label as large as the room lets it, the typeface's own widths.
    let largest = (grid.height_mm * 0.4).min(15.0);
    let size = (room_mm * PT_PER_MM / text::width(&b.label, 1.0, Weight::SemiBold)).clamp(largest.min(6.5), largest);
    let lines = [
        Some(fields::word(&b.kind)),
        b.well.as_ref().map(|w| sheet::PaperLabelWell { well: w.as_str().into() }.text()),
        b.fraction.as_deref().map(fields::fraction),
        b.lot.as_ref().map(|l| sheet::Lot { lot: l.as_str().into() }.text()),
        Some(data.trip.name.clone()),
    ];
    let words: Vec<String> = lines.into_iter().flatten().map(|l| quoted(&l)).collect();
    let small = if grid.height_mm >= 24.0 { 8.5 } else { 6.5 };
    let label = quoted(&b.label);
    let _ = writeln!(
        main,
        "#place(dx: {x:.2}mm, dy: {y:.2}mm, block(width: {w}mm, height: {h}mm, clip: true, inset: (x: 3mm, y: 2.5mm), grid(columns: ({code}mm, 1fr), column-gutter: 2mm, align: horizon, image({file}, width: {code}mm, alt: {alt}), [#text(size: {size:.2}pt, weight: 600, {label}) #parbreak() #text(size: {small}pt, ({words},).join(linebreak()))])))",
        w = grid.width_mm,
        h = grid.height_mm,
        file = quoted(name),
        alt = quoted(&sheet::PaperCodeOf { label: b.label.as_str().into() }.text()),
        words = words.join(", "),
    );
}

/// Short ticks at the corners of every label, outside the outer edges and in the gaps.
fn cut_marks(grid: &LabelGrid, main: &mut String) {
    let tick = 2.0_f64;
    let (low, right) = (grid.y(grid.rows - 1) + grid.height_mm, grid.x(grid.columns - 1) + grid.width_mm);
    let mut line = |x: f64, y: f64, dx: f64, dy: f64| {
        let _ = writeln!(
            main,
            "#place(line(start: ({x:.2}mm, {y:.2}mm), end: ({:.2}mm, {:.2}mm), stroke: 0.3pt + luma(120)))",
            x + dx,
            y + dy
        );
    };
    for c in 0..grid.columns {
        for x in [grid.x(c), grid.x(c) + grid.width_mm] {
            line(x, (grid.top_mm - tick - 1.0).max(0.0), 0.0, tick);
            line(x, low + 1.0, 0.0, tick);
        }
    }
    for r in 0..grid.rows {
        for y in [grid.y(r), grid.y(r) + grid.height_mm] {
            line((grid.left_mm - tick - 1.0).max(0.0), y, tick, 0.0);
            line(right + 1.0, y, tick, 0.0);
        }
    }
}

/// The dimensions, and a bar to measure whether the printer kept them.
fn foot(data: &Data, grid: &LabelGrid, (page, of): (usize, usize), main: &mut String) {
    if !grid.has_foot() {
        return;
    }
    let y = grid.page_height_mm - FOOT_MM + 3.0;
    let mm = |x: f64| fields::number(x).into();
    let dimensions = sheet::PaperGrid {
        trip: data.trip.name.as_str().into(),
        page: page.to_string().into(),
        pages: of.to_string().into(),
        page_width: mm(grid.page_width_mm),
        page_height: mm(grid.page_height_mm),
        columns: grid.columns.to_string().into(),
        rows: grid.rows.to_string().into(),
        width: mm(grid.width_mm),
        height: mm(grid.height_mm),
        left: mm(grid.left_mm),
        top: mm(grid.top_mm),
        gap_x: mm(grid.gap_x_mm),
        gap_y: mm(grid.gap_y_mm),
        code: message::language().number(&format!("{:.1}", grid.code_mm())).into(),
    };
    let invented = if data.invented { format!(" {}.", sheet::Invented.text()) } else { String::new() };
    let words = dimensions.text() + &invented;
    let x = grid.left_mm.max(8.0);
    let _ = writeln!(
        main,
        "#place(dx: {x}mm, dy: {y}mm, rect(width: 50mm, height: 1.2mm, fill: black))\n#place(dx: {:.2}mm, dy: {:.2}mm, block(width: {:.2}mm, text(size: 6.5pt, {})))\n",
        x + 54.0,
        y - 1.0,
        grid.page_width_mm - x - 54.0 - 8.0,
        quoted(&words)
    );
}
