//! Figures as SVG: one drawing surface, one look.
//!
//! In: plain numbers with their units in the field names. Out: a [`Figure`]: the drawing with
//! `<title>` and `<desc>`, stable ids, numbers written to a tenth of a unit, so that the same input
//! gives the same bytes. Alone (a file of its own) it carries its font; inside a page or a PDF the
//! surroundings do ([`Figure::alone`], [`Figure::inline`], [`Figure::for_paper`]).
//!
//! The look: paper-like ground, one typeface with tabular figures, few colours. What a mark means is
//! told by its shape and by words in the legend; colour only repeats it, so that a grey print and a
//! colour-blind reader lose nothing. Text stands at 4.5 : 1 or better against the ground.
//!
//! * [`strip`] of 100 parts in a bottle · [`earlier`] what earlier trips found
//! * [`path`] the path of a bottle · [`mod@line`] calibration · [`sequence`] a run in time
//! * [`blanks`] blanks by kind · [`overview`] results over wells · [`pairs`] duplicates
//! * [`time_series`] one series over the years · [`time_series_panels`] many series · [`control`] blanks over the years
//! * [`chart`] control charts over the runs · [`tell_line`] fills and flows · [`air`] cabinet and open air
//! * [`blank_years`] every blank beside the wells
//! * [`equivalents`], [`piper`], [`stiff`] what ions · [`saturation`], [`ladder`], [`shares`] what
//!   follows from them · [`bars`] shares of a whole · [`histogram`] one number of many waters
//! * [`ages`] how old by which model, tritium on the rain
//! * [`well`] a well to scale · [`section`] where its water comes from · [`flow_test`] · [`choice`] flow against water
//!
//! What it does not do: no statistics; intervals and limits come in as numbers.
//! Checked in `crates/report/tests/figures.rs`: all text inside the picture, no text over text, no NaN, not blank.

pub mod ages;
pub mod air;
pub mod axis;
pub mod bars;
pub mod blank_years;
pub mod blanks;
pub mod chart;
pub mod choice;
pub mod control;
pub mod earlier;
pub mod equivalents;
pub mod flow_test;
pub mod fonts;
pub mod histogram;
pub mod ladder;
pub mod line;
pub mod marks;
pub mod number;
pub mod overview;
pub mod pairs;
pub mod path;
mod path_down;
pub mod piper;
pub mod saturation;
pub mod scale;
pub mod section;
pub mod sequence;
pub mod shares;
pub mod standing;
pub mod stiff;
pub mod strip;
pub mod tell_line;
pub mod text;
pub mod time_series;
pub mod time_series_panels;
pub mod verdict;
pub mod well;

use std::fmt::Write as _;
use text::Weight;

/// Width of a figure on paper or on a wide screen, px. At the width of a text column (165 mm) a
/// letter of 12 px is then 7.6 pt high.
pub const WIDE: f64 = 740.0;
/// Width of a figure on a telephone, px.
pub const PHONE: f64 = 328.0;

/// Colours of our own, chosen apart in lightness; contrast against [`PAPER`] in the comments.
pub mod ink {
    /// Ground of every figure and page.
    pub const PAPER: &str = "#fcfbf8";
    /// Text and measured marks, 14 : 1.
    pub const TEXT: &str = "#1d2b2f";
    /// Secondary text, 6 : 1.
    pub const MUTED: &str = "#55636a";
    /// Hair lines of the axes; carries no meaning.
    pub const HAIR: &str = "#e3dfd6";
    /// Frames and connecting lines, 3 : 1 as graphics need it.
    pub const LINE: &str = "#7d8f95";
    /// The water's own metal: band.
    pub const WATER_PALE: &str = "#c3dbdb";
    /// The water's own metal: line and words, 5.6 : 1.
    pub const WATER: &str = "#23636e";
    /// Forecast blocks.
    pub const FORECAST: &str = "#e2dcc9";
    /// Outline of forecast blocks.
    pub const FORECAST_EDGE: &str = "#a99c78";
    /// A check that is met, 7 : 1.
    pub const MET: &str = "#1f5d4c";
    /// A check that is not met, 7 : 1.
    pub const NOT_MET: &str = "#8f2f12";
    /// A check without evidence, 6 : 1.
    pub const NOT_KNOWN: &str = "#6a5716";
}

use ink::PAPER;

/// A drawing, ready to stand in a page, on paper or alone.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Stable id: letters, digits, hyphens. Ids inside the drawing begin with it.
    pub id: String,
    /// What the figure shows, one line.
    pub title: String,
    /// What a reader who cannot see it must know: alternative text.
    pub desc: String,
    /// Width, px.
    pub width: f64,
    /// Height, px.
    pub height: f64,
    body: String,
    texts: Box<[Label]>,
    notes: Box<[Note]>,
}

/// What a mark of a figure stands for, for interfaces that tell it when the mark is pointed at. It is not drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Note {
    /// Place of the mark, px.
    pub at: (f64, f64),
    /// Its place on the axis of time, decimal year.
    pub time_years: f64,
    /// In words.
    pub words: String,
}

/// A piece of text as it stands in a figure, with its box. For checks of the layout.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// The words.
    pub text: String,
    /// Its box, px.
    pub area: Area,
}

/// A rectangle in px; y grows downwards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// Left.
    pub x0: f64,
    /// Top.
    pub y0: f64,
    /// Right.
    pub x1: f64,
    /// Bottom.
    pub y1: f64,
}

impl Area {
    /// Do the two share more than `slack` px in both directions?
    pub fn overlaps(&self, other: &Self, slack: f64) -> bool {
        self.x0 + slack < other.x1
            && other.x0 + slack < self.x1
            && self.y0 + slack < other.y1
            && other.y0 + slack < self.y1
    }
}

impl Figure {
    /// A file of its own: the font is inside, nothing is looked up anywhere.
    pub fn alone(&self) -> String {
        self.svg(&format!("<style>{}</style>", crate::fonts::font_faces(false)), "")
    }

    /// Inside a web page that carries the font: scales with the column.
    pub fn inline(&self) -> String {
        self.svg("", " class=\"drawing\"")
    }

    /// Inside a PDF, where the engine has the font.
    /// The ground is white, as the sheet is.
    pub fn for_paper(&self) -> String {
        text::with_known_letters(&self.svg("", "").replace(PAPER, "#ffffff"))
    }

    /// What its marks stand for, where the figure tells.
    pub fn notes(&self) -> &[Note] {
        &self.notes
    }

    /// All text of the figure with its boxes.
    pub fn labels(&self) -> &[Label] {
        &self.texts
    }

    fn svg(&self, style: &str, attributes: &str) -> String {
        let id = &self.id;
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" id=\"{id}\" viewBox=\"0 0 {w} {h}\" width=\"{w}\" height=\"{h}\" \
             role=\"img\" aria-labelledby=\"{id}-title {id}-desc\" font-family=\"{FAMILY}, sans-serif\" \
             font-size=\"12\"{attributes}><title id=\"{id}-title\">{title}</title>\
             <desc id=\"{id}-desc\">{desc}</desc>{style}\
             <rect width=\"{w}\" height=\"{h}\" fill=\"{PAPER}\"/>{body}</svg>\n",
            w = px(self.width),
            h = px(self.height),
            FAMILY = text::FAMILY,
            title = escape(&self.title),
            desc = escape(&self.desc),
            body = self.body,
        )
    }
}

/// A coordinate to a tenth of a px; what is not a number becomes 0 and never reaches the file.
pub(crate) fn px(x: f64) -> String {
    if !x.is_finite() {
        return "0".into();
    }
    let text = format!("{x:.1}");
    let text = text.strip_suffix(".0").unwrap_or(&text);
    if text == "-0" { "0".into() } else { text.into() }
}

/// Text for XML and HTML.
pub fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            // Characters that XML 1.0 does not allow (section 2.2 of the recommendation).
            c if (c < ' ' && !matches!(c, '\n' | '\t' | '\r')) || matches!(c, '\u{FFFE}' | '\u{FFFF}') => {
                out.push('\u{FFFD}');
            }
            c => out.push(c),
        }
    }
    out
}

/// Where a text hangs on its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// The text begins at the point.
    Start,
    /// The text is centred on the point.
    Middle,
    /// The text ends at the point.
    End,
}

/// How a text looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Style {
    /// Size, px.
    pub size: f64,
    /// Weight.
    pub weight: Weight,
    /// Colour.
    pub fill: &'static str,
    /// Where it hangs.
    pub anchor: Anchor,
    /// A ground-coloured rim, for text that stands over lines.
    pub halo: bool,
}

impl Style {
    /// Body text of a figure.
    pub const fn text() -> Self {
        Self { size: 12.0, weight: Weight::Regular, fill: ink::TEXT, anchor: Anchor::Start, halo: false }
    }
    /// Axis numbers and secondary words.
    pub const fn muted() -> Self {
        Self { fill: ink::MUTED, ..Self::text() }
    }
    /// Names.
    pub const fn strong() -> Self {
        Self { weight: Weight::SemiBold, ..Self::text() }
    }
    /// Hung elsewhere.
    #[must_use]
    pub const fn hung(self, anchor: Anchor) -> Self {
        Self { anchor, ..self }
    }
    /// Another size, px.
    #[must_use]
    pub const fn sized(self, size: f64) -> Self {
        Self { size, ..self }
    }
    /// Another colour.
    #[must_use]
    pub const fn coloured(self, fill: &'static str) -> Self {
        Self { fill, ..self }
    }
    /// With a rim.
    #[must_use]
    pub const fn rimmed(self) -> Self {
        Self { halo: true, ..self }
    }
    /// Height of a line of this text, px.
    pub fn leading(&self) -> f64 {
        (self.size * 1.28).round()
    }
}

/// A drawing in the making. Keeps the boxes of its texts and of what texts must not cover.
#[derive(Debug, Default)]
pub struct Canvas {
    body: String,
    texts: Vec<Label>,
    obstacles: Vec<Area>,
    notes: Vec<Note>,
}

impl Canvas {
    /// An empty drawing.
    pub fn new() -> Self {
        Self::default()
    }

    /// Box that a text will take.
    pub fn area_of(x: f64, y: f64, text: &str, style: Style) -> Area {
        let w = text::width(text, style.size, style.weight);
        let x0 = match style.anchor {
            Anchor::Start => x,
            Anchor::Middle => x - w / 2.0,
            Anchor::End => x - w,
        };
        Area { x0, y0: y - style.size * 0.78, x1: x0 + w, y1: y + style.size * 0.22 }
    }

    /// Says what a mark stands for.
    pub fn note(&mut self, at: (f64, f64), time_years: f64, words: String) {
        self.notes.push(Note { at, time_years, words });
    }

    /// A line of text whose baseline is at y.
    pub fn text(&mut self, x: f64, y: f64, text: &str, style: Style) {
        if text.is_empty() {
            return;
        }
        let anchor = match style.anchor {
            Anchor::Start => "",
            Anchor::Middle => " text-anchor=\"middle\"",
            Anchor::End => " text-anchor=\"end\"",
        };
        let weight = if style.weight == Weight::SemiBold { " font-weight=\"600\"" } else { "" };
        let halo = if style.halo {
            format!(" stroke=\"{PAPER}\" stroke-width=\"3.5\" stroke-linejoin=\"round\" paint-order=\"stroke\"")
        } else {
            String::new()
        };
        let size =
            if (style.size - 12.0).abs() < 1e-9 { String::new() } else { format!(" font-size=\"{}\"", px(style.size)) };
        let _ = write!(
            self.body,
            "<text x=\"{}\" y=\"{}\" fill=\"{}\"{size}{weight}{anchor}{halo}>{}</text>",
            px(x),
            px(y),
            style.fill,
            escape(text)
        );
        self.texts.push(Label { text: text.into(), area: Self::area_of(x, y, text, style) });
    }

    /// Text in lines no wider than `room`; returns the baseline after the last line.
    pub fn wrapped(&mut self, at: (f64, f64), text: &str, style: Style, room: f64) -> f64 {
        let mut y = at.1;
        if text.is_empty() {
            return y;
        }
        for line in text::wrap(text, style.size, style.weight, room) {
            self.text(at.0, y, &line, style);
            y += style.leading();
        }
        y
    }

    /// Text turned a quarter to the left, centred on the point.
    pub fn text_up(&mut self, x: f64, y: f64, text: &str, style: Style) {
        let half = text::width(text, style.size, style.weight) / 2.0;
        let _ = write!(
            self.body,
            "<text transform=\"translate({} {}) rotate(-90)\" text-anchor=\"middle\" fill=\"{}\" font-size=\"{}\">{}</text>",
            px(x),
            px(y),
            style.fill,
            px(style.size),
            escape(text)
        );
        let area = Area { x0: x - style.size * 0.78, y0: y - half, x1: x + style.size * 0.22, y1: y + half };
        self.texts.push(Label { text: text.into(), area });
    }

    /// A straight line; `more` holds further attributes.
    pub fn line(&mut self, from: (f64, f64), to: (f64, f64), stroke: &str, more: &str) {
        let _ = write!(
            self.body,
            "<path d=\"M{} {}L{} {}\" stroke=\"{stroke}\" fill=\"none\"{}{more}/>",
            px(from.0),
            px(from.1),
            px(to.0),
            px(to.1),
            space(more)
        );
    }

    /// A line through points.
    pub fn polyline(&mut self, points: &[(f64, f64)], stroke: &str, more: &str) {
        let mut d = String::new();
        for (i, (x, y)) in points.iter().enumerate() {
            let _ = write!(d, "{}{} {}", if i == 0 { 'M' } else { 'L' }, px(*x), px(*y));
        }
        if !points.is_empty() {
            // Open, unless it is said what fills it: by an attribute, because a page may allow no style of its own.
            let open = if more.contains("fill=") { "" } else { " fill=\"none\"" };
            let _ = write!(self.body, "<path d=\"{d}\" stroke=\"{stroke}\"{open}{}{more}/>", space(more));
        }
    }

    /// A rectangle between two corners.
    pub fn rect(&mut self, a: (f64, f64), b: (f64, f64), more: &str) {
        let _ = write!(
            self.body,
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"{}{more}/>",
            px(a.0.min(b.0)),
            px(a.1.min(b.1)),
            px((b.0 - a.0).abs()),
            px((b.1 - a.1).abs()),
            space(more)
        );
    }

    /// A closed shape from path data.
    pub fn shape(&mut self, d: &str, more: &str) {
        let _ = write!(self.body, "<path d=\"{d}\"{}{more}/>", space(more));
    }

    /// A disc.
    pub fn circle(&mut self, centre: (f64, f64), r: f64, more: &str) {
        let _ = write!(
            self.body,
            "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{}{more}/>",
            px(centre.0),
            px(centre.1),
            px(r),
            space(more)
        );
    }

    /// Notes an area that later labels must not cover.
    pub fn keep_clear(&mut self, area: Area) {
        self.obstacles.push(area);
    }

    /// Is the area free of texts and of what must stay visible?
    pub fn is_free(&self, area: &Area) -> bool {
        !self.texts.iter().any(|t| t.area.overlaps(area, -1.5)) && !self.obstacles.iter().any(|o| o.overlaps(area, 0.0))
    }

    /// Sets the text at the first of the places where it stands free and inside `within`; tells
    /// whether it found one.
    pub fn text_where_free(&mut self, places: &[(f64, f64, Anchor)], text: &str, style: Style, within: Area) -> bool {
        for &(x, y, anchor) in places {
            let style = style.hung(anchor);
            let a = Self::area_of(x, y, text, style);
            let inside = a.x0 >= within.x0 && a.x1 <= within.x1 && a.y0 >= within.y0 && a.y1 <= within.y1;
            if inside && self.is_free(&a) {
                self.text(x, y, text, style);
                return true;
            }
        }
        false
    }

    /// The finished figure.
    pub fn finish(self, head: Head, width: f64, height: f64) -> Figure {
        Figure {
            id: slug(&head.id),
            title: head.title,
            desc: head.desc,
            width,
            height: height.ceil(),
            body: self.body,
            texts: self.texts.into(),
            notes: self.notes.into(),
        }
    }
}

/// A figure is narrow when it is drawn for a telephone.
fn is_narrow(width: f64) -> bool {
    width < 500.0
}

impl Head {
    /// The same with an id of its own for the telephone's form, so that both can stand in one page.
    fn at_width(&self, width: f64) -> Self {
        let suffix = if is_narrow(width) { "-phone" } else { "" };
        Self { id: format!("{}{suffix}", self.id), ..self.clone() }
    }
}

/// What every figure says of itself.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Head {
    /// Stable id.
    pub id: String,
    /// Title.
    pub title: String,
    /// Alternative text.
    pub desc: String,
}

fn space(more: &str) -> &'static str {
    if more.is_empty() { "" } else { " " }
}

/// An id from any text: lower case letters, digits, single hyphens, a letter first.
pub fn slug(text: &str) -> String {
    let mut out = String::new();
    for c in text.to_lowercase().chars() {
        if c.is_ascii_alphanumeric() {
            out.push(c);
        } else if !out.ends_with('-') && !out.is_empty() {
            out.push('-');
        }
    }
    let out = out.trim_end_matches('-').to_string();
    if out.starts_with(|c: char| c.is_ascii_alphabetic()) { out } else { format!("f-{out}") }
}
