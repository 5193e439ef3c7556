//! One row of readings: dots stacked so that none is hidden, the middle with its interval, and what ancestry expects.

use super::apart::within;
use super::frame::{DOT, FOCUS, MARGIN, SMALL, Stand, WIDTH, dot, say};
use super::scale::Scale;
use super::swarm::{bins, swarm};
use crate::render::scene::{Face, INK, PAPER, Path, SOFT, Scene, Setting, Stroke, width};
use crate::report::chart::{ChartDot, DotRow};

/// Radius of a dot.
const RADIUS: f64 = 2.6;
/// From this many readings on a row is drawn as bars.
const CROWD: usize = 120;
/// Between the names of two dots.
const APART: f64 = 4.0;
/// Height of the tallest bar.
const BARS: f64 = 26.0;

/// A row whose dots have found their places.
pub struct PlacedRow<'a> {
    row: &'a DotRow,
    dots: Vec<(&'a ChartDot, f64, f64)>,
    /// Height above the middle line.
    pub above: f64,
    /// Height below it.
    pub below: f64,
}

/// Stacks the dots of a row along an axis.
pub fn place<'a>(row: &'a DotRow, scale: &Scale) -> PlacedRow<'a> {
    let shown: Vec<&ChartDot> = row
        .dots
        .iter()
        .filter(|dot| scale.shows(dot.value))
        .collect();
    let along: Vec<f64> = shown.iter().map(|dot| scale.at(dot.value)).collect();
    let crowded = shown.len() >= CROWD;
    let offset = if crowded {
        vec![0.0; shown.len()]
    } else {
        swarm(&along, 2.0 * RADIUS + 0.4)
    };
    let extent = |sign: f64| offset.iter().map(|at| sign * at).fold(0.0, f64::max) + RADIUS + 1.0;
    let labels = if shown.iter().any(|dot| dot.label.is_some()) {
        SMALL * 1.2
    } else {
        0.0
    };
    let bars = if row.interval.is_some() || row.expected.is_some() {
        7.0
    } else {
        0.0
    };
    let above = if crowded { BARS } else { extent(1.0) } + labels;
    let below = if crowded { 1.0 } else { extent(-1.0) } + bars + 2.0;
    let dots = shown
        .into_iter()
        .zip(along)
        .zip(offset)
        .map(|((dot, x), up)| (dot, x, up))
        .collect();
    PlacedRow {
        row,
        dots,
        above,
        below,
    }
}

impl PlacedRow<'_> {
    /// Paints the row around the height `y`.
    pub fn paint(&self, scene: &mut Scene, scale: &Scale, y: f64) {
        match self.dots.len() >= CROWD {
            true => self.bars(scene, y),
            false => self.circles(scene, y),
        }
        self.labels(scene, y);
        let under = y + self.below - 4.0;
        if let Some((low, high)) = self.row.expected {
            let (from, to) = (scale.at(low), scale.at(high));
            let dashes = Stroke::dashed(SOFT, 0.9, &[0.1, 2.4]);
            scene.stroke(Path::line((from, under), (to, under)), dashes);
            for x in [from, to] {
                scene.stroke(
                    Path::line((x, under - 2.5), (x, under + 2.5)),
                    Stroke::solid(SOFT, 0.9),
                );
            }
        }
        if let Some(interval) = self.row.interval {
            let (low, high) = (scale.at(interval.low), scale.at(interval.high));
            scene.stroke(
                Path::line((low, under), (high, under)),
                Stroke::solid(INK, 1.1),
            );
            let middle = (scale.at(interval.middle), under);
            scene.framed(Path::circle(middle, 2.0), PAPER, Stroke::solid(INK, 1.1));
        }
    }

    fn circles(&self, scene: &mut Scene, y: f64) {
        for (reading, x, up) in &self.dots {
            let colour = if reading.label.is_some() { FOCUS } else { DOT };
            dot(scene, (*x, y - up), RADIUS, colour, reading.doubtful);
        }
    }

    fn bars(&self, scene: &mut Scene, y: f64) {
        let along: Vec<f64> = self.dots.iter().map(|(_, x, _)| *x).collect();
        let low = along.iter().copied().fold(f64::INFINITY, f64::min);
        let high = along.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let count = ((high - low) / 6.0).clamp(1.0, 60.0) as usize;
        let heights = bins(&along, low, high, count);
        let most = heights.iter().copied().max().unwrap_or(1).max(1) as f64;
        let wide = (high - low) / count as f64;
        for (bin, height) in heights.into_iter().enumerate() {
            let tall = BARS * height as f64 / most;
            let corner = (low + bin as f64 * wide, y - tall);
            scene.fill(
                Path::rect(corner.0 + 0.3, corner.1, (wide - 0.6).max(0.4), tall),
                DOT,
            );
        }
    }

    /// The dots pointed out, with where their names begin above the row: clear of each other, as many as fit.
    fn named(&self) -> Vec<(&(&ChartDot, f64, f64), f64, f64)> {
        let pointed = |placed: &&(&ChartDot, f64, f64)| placed.0.label.is_some();
        let mut named: Vec<_> = self.dots.iter().filter(pointed).collect();
        named.sort_by(|a, b| a.1.total_cmp(&b.1));
        let mut left = WIDTH - 2.0 * MARGIN;
        let wides: Vec<f64> = named
            .iter()
            .map(|(dot, ..)| width(label(dot), Face::Roman, SMALL) + APART)
            .take_while(|wide| {
                left -= wide;
                left >= 0.0
            })
            .collect();
        let wishes = named.iter().zip(&wides);
        let wishes: Vec<f64> = wishes.map(|(dot, wide)| dot.1 - wide / 2.0).collect();
        let places = within(&wishes, &wides, (MARGIN, WIDTH - MARGIN));
        let placed = named.into_iter().zip(places).zip(wides);
        placed
            .map(|((dot, from), wide)| (dot, from, wide))
            .collect()
    }

    /// The baseline of the names, the row's middle standing at `y`.
    fn names_at(&self, y: f64) -> f64 {
        y - self.above + SMALL * 0.7
    }

    /// Left, right, top and bottom of every name above the row.
    pub fn boxes(&self, y: f64) -> Vec<[f64; 4]> {
        let base = self.names_at(y);
        let area = |(_, from, wide): (_, f64, f64)| {
            [
                from,
                from + wide - APART,
                base - SMALL * 0.85,
                base + SMALL * 0.3,
            ]
        };
        self.named().into_iter().map(area).collect()
    }

    /// Names of the dots pointed out, each with a stroke to its dot.
    fn labels(&self, scene: &mut Scene, y: f64) {
        let base = self.names_at(y);
        for ((dot, x, up), from, wide) in self.named() {
            scene.stroke(
                Path::line((*x, y - up - RADIUS), (from + wide / 2.0, base + 1.5)),
                Stroke::solid(FOCUS, 0.5),
            );
            let setting = Setting {
                size: SMALL,
                colour: FOCUS,
            };
            say(scene, label(dot), (from, base), Stand::After, setting);
        }
    }
}

/// The name of a dot pointed out.
fn label(dot: &ChartDot) -> &str {
    dot.label.as_deref().unwrap_or_default()
}

/// All values a row can show: readings, interval and expectation.
pub fn values(row: &DotRow) -> impl Iterator<Item = f64> {
    let interval = row
        .interval
        .iter()
        .flat_map(|interval| [interval.low, interval.middle, interval.high]);
    let expected = row.expected.iter().flat_map(|(low, high)| [*low, *high]);
    row.dots
        .iter()
        .map(|dot| dot.value)
        .chain(interval)
        .chain(expected)
}
