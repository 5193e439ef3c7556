//! One row of readings: dots stacked so that none is hidden, the middle with its interval, and what ancestry expects.

use super::apart::within;
use super::frame::{DOT, FOCUS, Stand, dot, say};
use super::look::Look;
use super::scale::Scale;
use super::sheet::Sheet;
use super::swarm::{bars, step_of, swarm};
use crate::render::scene::{Colour, Face, INK, PAPER, Path, SOFT, Setting, Stroke, width};
use crate::report::chart::{ChartDot, DotRow};

/// Radius of a dot.
const RADIUS: f64 = 2.6;
/// From this many readings on a row is drawn as bars.
const CROWD: usize = 120;
/// Between the names of two dots.
const APART: f64 = 4.0;
/// Height of the tallest bar.
const BARS: f64 = 26.0;
/// Least and greatest width of a bar, and the most of them.
const BAR: f64 = 6.0;
const WIDEST_BAR: f64 = 12.0;
const MOST_BARS: f64 = 60.0;

/// A row whose dots have found their places.
pub struct PlacedRow<'a> {
    look: Look,
    disc: Disc,
    row: &'a DotRow,
    dots: Vec<(&'a ChartDot, f64, f64)>,
    /// Height above the middle line.
    pub above: f64,
    /// Height below it.
    pub below: f64,
}

/// The place a dot takes.
#[derive(Clone, Copy, Debug)]
struct Disc {
    wide: f64,
    tall: f64,
    /// Whether the number of the plant is written on it.
    numbered: bool,
}

/// Readings of a row up to which plants are numbered, and letters of a number up to which they are.
const NUMBERED: usize = 60;
const LETTERS: usize = 4;

impl Disc {
    /// Wide enough for the longest number; a plain dot where plants have none, or there are too many of them.
    fn of(dots: &[&ChartDot], look: Look) -> Disc {
        let fits = |dot: &&ChartDot| (1..=LETTERS).contains(&dot.number.chars().count());
        if dots.is_empty() || dots.len() > NUMBERED || !dots.iter().all(fits) {
            return Disc {
                wide: 2.0 * RADIUS,
                tall: 2.0 * RADIUS,
                numbered: false,
            };
        }
        let wide = dots
            .iter()
            .map(|dot| width(&dot.number, Face::Roman, look.small));
        let tall = look.small * 1.25;
        Disc {
            wide: f64::max(wide.fold(0.0, f64::max) + look.small * 0.4, tall),
            tall,
            numbered: true,
        }
    }
}

/// Dots on the steps of a scale, laid like bricks within `room` of each step: places across and heights above the line.
fn bricks(along: &[f64], (room, disc): (f64, Disc)) -> (Vec<f64>, Vec<f64>) {
    let pitch = disc.wide + 0.8;
    let most = f64::max(room / pitch, 1.0) as usize;
    let (mut across, mut up) = (along.to_vec(), vec![0.0; along.len()]);
    for (at, &x) in along.iter().enumerate() {
        let before = along[..at].iter().filter(|other| **other == x).count();
        let all = along.iter().filter(|other| **other == x).count();
        let (layer, place) = (before / most, before % most);
        let in_layer = most.min(all - layer * most);
        across[at] = x + pitch * (place as f64 - (in_layer as f64 - 1.0) / 2.0);
        up[at] = layer as f64 * (disc.tall + 0.8);
    }
    (across, up)
}

/// Stacks the dots of a row along an axis.
pub fn place<'a>(row: &'a DotRow, scale: &Scale, look: Look) -> PlacedRow<'a> {
    let shown: Vec<&ChartDot> = row
        .dots
        .iter()
        .filter(|dot| scale.shows(dot.value))
        .collect();
    let along: Vec<f64> = shown.iter().map(|dot| scale.at(dot.value)).collect();
    let crowded = shown.len() >= CROWD;
    let disc = Disc::of(&shown, look);
    let (along, offset) = match (crowded, scale.pitch) {
        (true, _) => (along, vec![0.0; shown.len()]),
        (false, Some(pitch)) => bricks(&along, (pitch - 6.0, disc)),
        (false, None) => {
            let stretch = disc.wide / disc.tall;
            let squeezed: Vec<f64> = along.iter().map(|x| x / stretch).collect();
            // Long numbers fill their disc to its ends, where round discs would meet.
            let apart = if stretch > 1.2 { 1.22 } else { 1.0 };
            let offset = swarm(&squeezed, disc.tall * apart + 0.4);
            (along, offset)
        }
    };
    let half = disc.tall / 2.0;
    let extent = |sign: f64| offset.iter().map(|at| sign * at).fold(0.0, f64::max) + half + 1.0;
    let labels = if shown.iter().any(|dot| dot.label.is_some()) {
        look.small * 1.2
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
        disc,
        look,
        row,
        dots,
        above,
        below,
    }
}

impl PlacedRow<'_> {
    /// Paints the row around the height `y`.
    pub fn paint(&self, sheet: &mut Sheet, scale: &Scale, y: f64) {
        match self.dots.len() >= CROWD {
            true => self.bars(sheet, scale, y),
            false => self.circles(sheet, y),
        }
        self.labels(sheet, y);
        let under = y + self.below - 4.0;
        if let Some((low, high)) = self.row.expected {
            let (from, to) = (scale.at(low), scale.at(high));
            let dashes = Stroke::dashed(SOFT, 0.9, &[0.1, 2.4]);
            sheet.stroke(Path::line((from, under), (to, under)), dashes);
            for x in [from, to] {
                sheet.stroke(
                    Path::line((x, under - 2.5), (x, under + 2.5)),
                    Stroke::solid(SOFT, 0.9),
                );
            }
        }
        if let Some(interval) = self.row.interval {
            let (low, high) = (scale.at(interval.low), scale.at(interval.high));
            sheet.stroke(
                Path::line((low, under), (high, under)),
                Stroke::solid(INK, 1.1),
            );
            let middle = (scale.at(interval.middle), under);
            sheet.framed(Path::circle(middle, 2.0), PAPER, Stroke::solid(INK, 1.1));
        }
    }

    fn circles(&self, sheet: &mut Sheet, y: f64) {
        for (reading, x, up) in &self.dots {
            let colour = if reading.label.is_some() { FOCUS } else { DOT };
            match self.disc.numbered {
                true => self.numbered(sheet, reading, (*x, y - up), colour),
                false => dot(sheet, (*x, y - up), RADIUS, colour, reading.doubtful),
            }
        }
    }

    /// A disc with the number of the plant; an empty one for a doubtful reading.
    fn numbered(&self, sheet: &mut Sheet, of: &ChartDot, (x, y): (f64, f64), colour: Colour) {
        let (size, disc) = (self.look.small, self.disc);
        let corner = (x - disc.wide / 2.0, y - disc.tall / 2.0);
        let path = Path::rounded(corner, (disc.wide, disc.tall), disc.tall / 2.0);
        let fill = if of.doubtful {
            PAPER
        } else {
            colour.faded(0.28)
        };
        sheet.framed(path, fill, Stroke::solid(colour, 0.8));
        let place = (x, y + size * 0.33);
        let setting = Setting::ink(size);
        say(sheet, &of.number, place, Stand::Middle, setting);
    }

    fn bars(&self, sheet: &mut Sheet, scale: &Scale, y: f64) {
        let values: Vec<f64> = self.dots.iter().map(|(dot, ..)| dot.value).collect();
        let along = || self.dots.iter().map(|(_, x, _)| *x);
        let paper =
            along().fold(f64::NEG_INFINITY, f64::max) - along().fold(f64::INFINITY, f64::min);
        let points = scale.at(1.0) - scale.at(0.0);
        let least = f64::max(BAR, paper / MOST_BARS) / points;
        let step = match scale.pitch {
            Some(_) => 1.0,
            None => step_of(&values).unwrap_or(least),
        };
        let of = bars(&values, step, least);
        let most = of.counts.iter().copied().max().unwrap_or(1).max(1) as f64;
        let wide = f64::min(of.apart * points - 0.6, WIDEST_BAR).max(0.4);
        for (bin, &height) in of.counts.iter().enumerate() {
            let tall = BARS * height as f64 / most;
            let middle = scale.at(of.first + bin as f64 * of.apart);
            let corner = (middle - wide / 2.0, y - tall);
            sheet.fill(Path::rect(corner.0, corner.1, wide, tall), DOT);
        }
    }

    /// The dots pointed out, with where their names begin above the row: clear of each other, as many as fit.
    fn named(&self) -> Vec<(&(&ChartDot, f64, f64), f64, f64)> {
        let pointed = |placed: &&(&ChartDot, f64, f64)| placed.0.label.is_some();
        let mut named: Vec<_> = self.dots.iter().filter(pointed).collect();
        named.sort_by(|a, b| a.1.total_cmp(&b.1));
        let look = self.look;
        let mut left = look.room();
        let wides: Vec<f64> = named
            .iter()
            .map(|(dot, ..)| width(label(dot), Face::Roman, look.small) + APART)
            .take_while(|wide| {
                left -= wide;
                left >= 0.0
            })
            .collect();
        let wishes = named.iter().zip(&wides);
        let wishes: Vec<f64> = wishes.map(|(dot, wide)| dot.1 - wide / 2.0).collect();
        let places = within(&wishes, &wides, (look.margin, look.right()));
        let placed = named.into_iter().zip(places).zip(wides);
        placed
            .map(|((dot, from), wide)| (dot, from, wide))
            .collect()
    }

    /// The baseline of the names, the row's middle standing at `y`.
    fn names_at(&self, y: f64) -> f64 {
        y - self.above + self.look.small * 0.7
    }

    /// Left, right, top and bottom of every name above the row.
    pub fn boxes(&self, y: f64) -> Vec<[f64; 4]> {
        let (base, look) = (self.names_at(y), self.look);
        let area = |(_, from, wide): (_, f64, f64)| {
            [
                from,
                from + wide - APART,
                base - look.small * 0.85,
                base + look.small * 0.3,
            ]
        };
        let named = self.named().into_iter().map(area);
        named.chain(self.numbers(y)).collect()
    }

    /// The same of every number.
    fn numbers(&self, y: f64) -> impl Iterator<Item = [f64; 4]> {
        let disc = self.disc;
        let dots = self.dots.iter().filter(move |_| disc.numbered);
        dots.map(move |(_, x, up)| {
            let (across, down) = (disc.wide / 2.0, disc.tall / 2.0);
            [x - across, x + across, y - up - down, y - up + down]
        })
    }

    /// Names of the dots pointed out, each with a stroke to its dot.
    fn labels(&self, sheet: &mut Sheet, y: f64) {
        let look = sheet.look;
        let base = self.names_at(y);
        for ((dot, x, up), from, wide) in self.named() {
            sheet.stroke(
                Path::line(
                    (*x, y - up - self.disc.tall / 2.0),
                    (from + wide / 2.0, base + 1.5),
                ),
                Stroke::solid(FOCUS, 0.5),
            );
            let setting = Setting {
                size: look.small,
                colour: FOCUS,
            };
            say(sheet, label(dot), (from, base), Stand::After, setting);
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

/// How to read the rows, each sign where it is drawn.
pub fn read<'r>(rows: impl Iterator<Item = &'r DotRow>) -> Vec<String> {
    let (crowds, few): (Vec<&DotRow>, Vec<&DotRow>) = rows.partition(|row| row.dots.len() >= CROWD);
    let is_doubtful = |row: &&DotRow| row.dots.iter().any(|dot| dot.doubtful);
    let empty = few.iter().any(is_doubtful);
    let empty = empty.then(|| "Empty dot: a doubtful reading.".to_owned());
    let bars = "Bars: how many plants, each row on a scale of its own.";
    let bars = (!crowds.is_empty()).then(|| bars.to_owned());
    empty.into_iter().chain(bars).collect()
}
