//! Bottles of one water filled to different volumes, and bottles of one well filled at different flows: the two
//! lines that people draw by hand. Mass against volume: slope the water, intercept what bottle and hands brought.
//! Concentration against 1/flow: intercept the aquifer, slope the pipe. Whether the line is a line is tested both
//! ways. The science is [`cleanliness::lines`].

use super::Found;
use cleanliness::lines::{self, Point, TestedLine};
use message::{Sentence, attribution as said};
use serde::Serialize;

/// Which of the two.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sort {
    /// pg against mL.
    Fills,
    /// ng/L against 1/flow, min/L.
    Flows,
}

/// A line through bottles.
#[derive(Debug, Clone, Serialize)]
pub struct SeriesLine {
    /// Which.
    pub sort: Sort,
    /// Labels of the bottles, in the order of the points.
    pub bottles: Vec<String>,
    /// Fills: mL, pg, u in pg. Flows: L/min, ng/L, u in ng/L.
    pub points: Vec<Point>,
    /// The line, where one could be drawn. Of flows it is drawn in 1/flow.
    pub line: Option<TestedLine>,
    /// What it tells; where no line could be drawn, why, without a full stop.
    pub sentence: Sentence,
}

/// The lines of a well's bottles; none where all were filled alike.
pub(super) fn of(found: &[Found]) -> Vec<SeriesLine> {
    let volume = |f: &Found| f.bottle.volume_mL.map(|v| (v, f.mass_pg, f.own_u_pg));
    let flow = |f: &Found| f.bottle.flow_L_min.map(|q| (q, f.net.value, f.net.u));
    // A bottle at a flow of its own says nothing of the volume.
    let plain: Vec<&Found> = found.iter().filter(|f| f.bottle.flow_L_min.is_none()).collect();
    let at_flow: Vec<&Found> = found.iter().collect();
    let mut out = vec![];
    for (sort, bottles, point) in
        [(Sort::Fills, &plain, &volume as &dyn Fn(&Found) -> Option<Point>), (Sort::Flows, &at_flow, &flow)]
    {
        let with: Vec<(&&Found, Point)> = bottles.iter().filter_map(|f| Some((f, point(f)?))).collect();
        let points: Vec<Point> = with.iter().map(|w| w.1).collect();
        if different(&points) < 2 {
            continue;
        }
        let drawn = if sort == Sort::Fills { lines::fills(&points) } else { lines::flows(&points) };
        let (line, sentence) = match drawn {
            Ok((line, says)) if !line.converged => (Some(line), said::LineNotSettled { line: says }.into()),
            Ok((line, says)) => (Some(line), says),
            Err(e) => (None, e.message()),
        };
        out.push(SeriesLine {
            sort,
            bottles: with.iter().map(|w| w.0.bottle.label.clone()).collect(),
            points,
            line,
            sentence: sentence.into(),
        });
    }
    out
}

/// How many different x.
fn different(points: &[Point]) -> usize {
    let mut x: Vec<f64> = points.iter().map(|p| p.0).collect();
    x.sort_by(f64::total_cmp);
    x.dedup_by(|a, b| (*a - *b).abs() < 0.01 * b.abs());
    x.len()
}
