//! A well as it stands in the ground, depths to scale: layers, casing, screen, the level to which the
//! water of the shut well would rise, and the flow.
//!
//! In: depths in m below ground (negative above), inner radii in m, names, head in m above ground.
//! Out: a [`Figure`]. Depths are to scale; a pipe a hand wide and sixty metres long would be a hair, so
//! widths are drawn wider, in proportion to each other, and the figure says so. Where nothing is on
//! record the ground stays empty and says that too. Names stand beside what they name, moved apart
//! where they would meet, with a line to their place; the picture grows where they need more room.
//! Checked in `crates/report/tests/figures.rs`.

use super::axis;
use super::scale::Scale;
use super::{Anchor, Canvas, Figure, Head, Style, ink, is_narrow, px};
use crate::text;
use message::{Message, Name, Shown, Spoken, well as said};
use quantity::factor::MM_PER_M;
use std::fmt::Write as _;

/// A layer of the log.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LayerDrawn {
    /// Upper end, m below ground.
    pub from_m: f64,
    /// Lower end, m below ground.
    pub to_m: f64,
    /// What the driller wrote.
    pub name: String,
}

/// What a stretch of the well is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PipeKind {
    /// Closed wall.
    Casing,
    /// Slotted wall.
    Screen,
    /// No wall.
    Open,
}

/// A stretch of the well.
#[derive(Debug, Clone, PartialEq)]
pub struct PipeDrawn {
    /// Upper end, m below ground; negative above it.
    pub from_m: f64,
    /// Lower end, m below ground.
    pub to_m: f64,
    /// Inner radius, m.
    pub radius_m: f64,
    /// What it is.
    pub kind: PipeKind,
    /// Material, as it was written.
    pub material: String,
}

/// Materials of several words that every language has its own for.
const OF_SEVERAL_WORDS: [&str; 5] =
    ["galvanised steel", "stainless steel", "cast iron", "open hole", "material not stated"];

/// A material by its key in the catalogues; what they have no word for stays as it was written.
pub fn material(written: &str) -> Name {
    if OF_SEVERAL_WORDS.contains(&written) { written.replace(' ', "-").into() } else { written.into() }
}

/// What the figure shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WellPicture {
    /// Id, title, alternative text.
    pub head: Head,
    /// Layers, from the top; may be empty.
    pub layers: Vec<LayerDrawn>,
    /// Stretches of the well; may be empty.
    pub pipes: Vec<PipeDrawn>,
    /// Level of the shut well's water, m above ground, and the words for it; none when not measured.
    pub static_head: Option<(f64, String)>,
    /// The flow in words; none when not measured.
    pub flow: Option<String>,
}

/// Where things stand, px.
struct Frame {
    narrow: bool,
    left: f64,
    right: f64,
    /// Left of this the ground carries names, right of it marks.
    texture: f64,
    middle: f64,
    words: f64,
    width: f64,
}

/// A label beside the picture: where it points, its lines, its colour.
struct Beside {
    at: f64,
    lines: Vec<String>,
    fill: &'static str,
}

const LEADING: f64 = 15.0;
const GAP: f64 = 5.0;

/// Draws the figure, [`WIDE`](super::WIDE) or [`PHONE`](super::PHONE) px wide.
pub fn draw(p: &WellPicture, width: f64) -> Figure {
    let mut c = Canvas::new();
    let frame = frame(width);
    let y = axis::heading(&mut c, &p.head.title, &under(p), width);
    let (layers, pipes) = (layer_words(p, &frame), pipe_words(p, &frame));
    let needed = |l: &[Beside]| l.iter().map(|b| b.lines.len() as f64 * LEADING + GAP).sum::<f64>();
    let base: f64 = if frame.narrow { 400.0 } else { 340.0 };
    // Names of layers stand below the ground line only: the share of the height that lies there must hold them.
    let below = 1.0 - Scale::linear(extremes(p), (0.0, 1.0)).at(0.0);
    let tall = base.max(1.1 * needed(&pipes) + 40.0).max((needed(&layers) + 20.0) / below.max(0.2));
    let (top, bottom) = (y + 34.0, y + 34.0 + tall);
    let scale = Scale::linear(extremes(p), (top, bottom));
    c.text(frame.left - 7.0, top - 14.0, "m", Style::muted().hung(Anchor::End));
    let axis = if frame.narrow { said::Depth.text() } else { said::DepthBelowGround.text() };
    c.text(frame.left, top - 14.0, &axis, Style::muted());
    ground(&mut c, p, &scale, &frame);
    for t in scale.ticks() {
        let y = scale.at(t.value);
        c.line((frame.left - 4.0, y), (frame.left, y), ink::LINE, "");
        c.text(frame.left - 7.0, y + 4.0, &t.label, Style::muted().hung(Anchor::End));
    }
    c.line((frame.left, top), (frame.left, bottom), ink::LINE, "");
    body(&mut c, p, &scale, &frame);
    names_of_layers(&mut c, layers, &scale, &frame, (scale.at(0.0) + 3.0, bottom));
    names_of_pipes(&mut c, pipes, &scale, &frame, (top, bottom));
    c.finish(p.head.at_width(width), width, bottom + 14.0)
}

fn frame(width: f64) -> Frame {
    if is_narrow(width) {
        Frame { narrow: true, left: 40.0, right: 198.0, texture: 152.0, middle: 172.0, words: 210.0, width }
    } else {
        Frame { narrow: false, left: 54.0, right: 430.0, texture: 306.0, middle: 370.0, words: 446.0, width }
    }
}

fn under(p: &WellPicture) -> String {
    let (Some(widest), (lo, hi)) = (widest(p), (top_of(p), foot_of(p))) else {
        return said::DrawnWithoutPipe.text();
    };
    let depth = Shown::trimmed(hi - lo, 3, "m");
    said::DrawnToScale { depth, widest: Shown::trimmed(2.0 * MM_PER_M * widest, 3, "mm") }.text()
}

fn widest(p: &WellPicture) -> Option<f64> {
    p.pipes.iter().map(|s| s.radius_m).filter(|r| *r > 0.0 && r.is_finite()).reduce(f64::max)
}

fn depths(p: &WellPicture) -> impl Iterator<Item = f64> + '_ {
    let layers = p.layers.iter().flat_map(|l| [l.from_m, l.to_m]);
    layers.chain(p.pipes.iter().flat_map(|s| [s.from_m, s.to_m])).filter(|d| d.is_finite())
}

fn top_of(p: &WellPicture) -> f64 {
    depths(p).fold(0.0, f64::min)
}

fn foot_of(p: &WellPicture) -> f64 {
    depths(p).fold(0.0, f64::max)
}

/// All depths, the head, and a little air above the ground.
fn extremes(p: &WellPicture) -> Vec<f64> {
    let foot = foot_of(p).max(1.0);
    let head = p.static_head.as_ref().map_or(0.0, |h| -h.0);
    depths(p).chain([0.0, foot, head.min(-0.06 * foot)]).collect()
}

fn ends(from_m: f64, to_m: f64) -> (Shown, Shown) {
    (Shown::trimmed(from_m, 4, ""), Shown::trimmed(to_m, 4, "m"))
}

fn layer_words(p: &WellPicture, f: &Frame) -> Vec<Beside> {
    let room = f.texture - 6.0 - (f.left + 9.0);
    p.layers
        .iter()
        .map(|l| {
            let (from, to) = ends(l.from_m, l.to_m);
            let words = said::LayerDrawn { layer: Name::from(&l.name), from, to }.text();
            Beside {
                at: f64::midpoint(l.from_m, l.to_m),
                lines: text::wrap(&words, 12.0, text::Weight::Regular, room),
                fill: ink::TEXT,
            }
        })
        .collect()
}

fn pipe_words(p: &WellPicture, f: &Frame) -> Vec<Beside> {
    let room = f.width - 10.0 - f.words;
    let beside = |at: f64, words: String, fill| Beside {
        at,
        lines: text::wrap(&words, 12.0, text::Weight::Regular, room),
        fill,
    };
    let mut out = vec![];
    match &p.static_head {
        Some((h, words)) => out.push(beside(-h, words.clone(), ink::WATER)),
        None => out.push(beside(-0.06 * foot_of(p).max(1.0), said::HeadNotMeasured.text(), ink::MUTED)),
    }
    let flow = p.flow.as_ref().map_or_else(|| (said::FlowNotMeasured.text(), ink::MUTED), |w| (w.clone(), ink::WATER));
    out.push(beside(0.0, flow.0, flow.1));
    if p.pipes.is_empty() {
        out.push(beside(foot_of(p) / 2.0, said::PipeNotOnRecord.text(), ink::MUTED));
    }
    let mut pipes: Vec<&PipeDrawn> = p.pipes.iter().collect();
    pipes.sort_by(|a, b| a.from_m.total_cmp(&b.from_m));
    for s in pipes {
        out.push(beside(f64::midpoint(s.from_m, s.to_m), stretch(s).text(), ink::TEXT));
    }
    out
}

/// A stretch of the well in words; an open hole is made of nothing.
fn stretch(s: &PipeDrawn) -> Message {
    let kind = match s.kind {
        PipeKind::Casing => "casing",
        PipeKind::Screen => "screen",
        PipeKind::Open => "open",
    };
    let (kind, (from, to)) = (Name::from(kind), ends(s.from_m, s.to_m));
    let width = Shown::trimmed(2.0 * MM_PER_M * s.radius_m, 4, "mm");
    if s.material.is_empty() || s.kind == PipeKind::Open {
        return said::PipeDrawn { kind, from, to, width }.into();
    }
    let material = said::Material { material: material(&s.material) }.into();
    said::PipeDrawnOf { kind, material, from, to, width }.into()
}

/// Layers with their look, and the line of the ground.
fn ground(c: &mut Canvas, p: &WellPicture, scale: &Scale, f: &Frame) {
    // With nothing on record a metre of ground stands for the unknown depth.
    let foot = if depths(p).next().is_some() { foot_of(p) } else { 1.0 };
    let (a, b) = (scale.at(0.0), scale.at(foot));
    c.rect((f.left, a), (f.right, b), &format!("fill=\"none\" stroke=\"{}\" stroke-dasharray=\"3 3\"", ink::LINE));
    if p.layers.is_empty() && b - a > 30.0 {
        let style = Style::muted();
        let words = said::LayersNotOnRecord.text();
        c.wrapped((f.left + 8.0, f64::midpoint(a, b)), &words, style, f.middle - 28.0 - f.left);
    }
    for (i, l) in p.layers.iter().enumerate() {
        let (y0, y1) = (scale.at(l.from_m), scale.at(l.to_m));
        let tint = if i % 2 == 0 { "#f1ece0" } else { ink::FORECAST };
        c.rect((f.left, y0), (f.right, y1), &format!("fill=\"{tint}\""));
        let marks = texture(&l.name.to_lowercase(), (f.texture, y0), (f.right, y1));
        if !marks.is_empty() {
            let look = "fill=\"none\" stroke-width=\"1.1\" stroke-linecap=\"round\"";
            c.shape(&marks, &format!("{look} stroke=\"{}\"", ink::FORECAST_EDGE));
        }
        c.line((f.left, y1), (f.right, y1), ink::FORECAST_EDGE, "");
    }
    c.line((f.left - 12.0, a), (f.right + 8.0, a), ink::TEXT, "stroke-width=\"1.8\"");
}

/// Marks that tell clay, sand, gravel, peat and rock apart without colour, as path data.
pub(super) fn texture(name: &str, (x0, y0): (f64, f64), (x1, y1): (f64, f64)) -> String {
    let has = |words: &[&str]| words.iter().any(|w| name.contains(w));
    let (step, mark) = if has(&["clay", "silt", "shale", "till"]) {
        (13.0, "h6")
    } else if has(&["gravel"]) {
        (14.0, "a2 2 0 1 0 4 0a2 2 0 1 0 -4 0")
    } else if has(&["sand"]) {
        (9.0, "h0.1")
    } else if has(&["peat", "soil", "ground"]) {
        (12.0, "l2 4l2 -4")
    } else if has(&["chalk", "lime", "rock", "granite", "gneiss", "basalt"]) {
        (14.0, "h5m-2.5 -2.5v5")
    } else {
        return String::new();
    };
    let mut out = String::new();
    let mut y = y0 + 5.0;
    let mut row = 0;
    while y < y1 - 3.0 {
        let mut x = x0 + 5.0 + if row % 2 == 0 { 0.0 } else { step / 2.0 };
        while x < x1 - 8.0 {
            let _ = write!(out, "M{} {}{mark}", px(x), px(y));
            x += step;
        }
        y += step * 0.8;
        row += 1;
    }
    out
}

/// The pipe, the water in it, the level it would rise to, the water that runs over.
fn body(c: &mut Canvas, p: &WellPicture, scale: &Scale, f: &Frame) {
    let widest = widest(p).unwrap_or(0.05);
    // The widest pipe is 18 px wide inside; the narrowest stays visible.
    let half = |r: f64| (9.0 * r / widest).clamp(2.5, 9.0);
    for s in &p.pipes {
        let (y0, y1, h) = (scale.at(s.from_m), scale.at(s.to_m), half(s.radius_m));
        c.rect((f.middle - h, y0), (f.middle + h, y1), &format!("fill=\"{}\"", ink::WATER_PALE));
        let look = match s.kind {
            PipeKind::Casing => "stroke-width=\"3\"",
            PipeKind::Screen => "stroke-width=\"3\" stroke-dasharray=\"2.4 2.4\"",
            PipeKind::Open => "stroke-width=\"1\" stroke-dasharray=\"1 3\"",
        };
        for x in [f.middle - h - 1.5, f.middle + h + 1.5] {
            c.line((x, y0), (x, y1), ink::TEXT, look);
        }
    }
    let ground = scale.at(0.0);
    if let Some((head_m, _)) = &p.static_head {
        let y = scale.at(-head_m);
        let more =
            format!("stroke-width=\"1.4\" stroke-dasharray=\"4 3\" fill-opacity=\"0.5\" fill=\"{}\"", ink::WATER_PALE);
        c.rect((f.middle - 9.0, y), (f.middle + 9.0, ground), &format!("stroke=\"{}\" {more}", ink::WATER));
        c.line((f.middle - 26.0, y), (f.middle + 26.0, y), ink::WATER, "stroke-width=\"2\"");
        let tip = |dx: f64, dy: f64| format!("{} {}", px(f.middle - 17.0 + dx), px(y + dy));
        c.shape(
            &format!("M{}L{}L{}Z", tip(0.0, -1.0), tip(-4.5, -9.0), tip(4.5, -9.0)),
            &format!("fill=\"{}\"", ink::WATER),
        );
    }
    if p.flow.is_some() && !p.pipes.is_empty() {
        // The overflow: a short spout to the right, its water falling to the ground.
        let y = ground - 7.0;
        let d = format!("M{} {}H{}q7 0 8 6", px(f.middle), px(y), px(f.middle + 12.0));
        c.shape(&d, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"2.6\"", ink::WATER));
    }
}

/// Tops of labels, moved apart so that none meets another, inside top and bottom as far as there is room.
fn spread(labels: &[Beside], scale: &Scale, (top, bottom): (f64, f64)) -> Vec<f64> {
    let height = |b: &Beside| b.lines.len() as f64 * LEADING + GAP;
    let mut ys: Vec<f64> = labels.iter().map(|b| scale.at(b.at) - (height(b) - GAP) / 2.0).collect();
    let mut floor = top;
    for (y, b) in ys.iter_mut().zip(labels) {
        *y = y.max(floor);
        floor = *y + height(b);
    }
    let mut ceiling = bottom;
    for (y, b) in ys.iter_mut().zip(labels).rev() {
        *y = y.min(ceiling - height(b));
        ceiling = *y;
    }
    ys
}

fn sorted(mut labels: Vec<Beside>) -> Vec<Beside> {
    labels.sort_by(|a, b| a.at.total_cmp(&b.at));
    labels
}

fn names_of_layers(c: &mut Canvas, labels: Vec<Beside>, scale: &Scale, f: &Frame, ends: (f64, f64)) {
    let labels = sorted(labels);
    for (y, b) in spread(&labels, scale, ends).iter().zip(&labels) {
        let (at, tall) = (scale.at(b.at), b.lines.len() as f64 * LEADING);
        let away = at < *y - 1.0 || at > y + tall + 1.0;
        if away {
            c.line((f.left, at), (f.left + 7.0, y + tall / 2.0), ink::LINE, "");
        }
        for (i, line) in b.lines.iter().enumerate() {
            let style = Style::text().coloured(b.fill).rimmed();
            c.text(f.left + 9.0, y + 12.0 + i as f64 * LEADING, line, style);
        }
    }
}

fn names_of_pipes(c: &mut Canvas, labels: Vec<Beside>, scale: &Scale, f: &Frame, ends: (f64, f64)) {
    let labels = sorted(labels);
    for (y, b) in spread(&labels, scale, ends).iter().zip(&labels) {
        let tall = b.lines.len() as f64 * LEADING;
        let from = f.middle + if b.at < 0.0 { 26.0 } else { 13.0 };
        if b.fill != ink::MUTED {
            let bend = f.right + (f.words - f.right) / 2.0;
            let points =
                [(from, scale.at(b.at)), (bend.min(f.words - 8.0), scale.at(b.at)), (f.words - 4.0, y + tall / 2.0)];
            c.polyline(&points, ink::LINE, "");
        }
        for (i, line) in b.lines.iter().enumerate() {
            c.text(f.words, y + 12.0 + i as f64 * LEADING, line, Style::text().coloured(b.fill));
        }
    }
}
