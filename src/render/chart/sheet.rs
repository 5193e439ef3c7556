//! A chart as it is drawn: marks on one strip of paper, with the heights at which the strip may be cut into pages.

use super::look::Look;
use crate::render::scene::{Face, Mark, Path, SOFT, Scene, Step, TextRun, width};
use std::ops::{Deref, DerefMut};

/// A chart on one strip of paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// What is drawn.
    pub scene: Scene,
    /// For what it is laid out.
    pub look: Look,
    /// Heights at which nothing is drawn across, rising.
    cuts: Vec<f64>,
    /// What stands on top of a page that begins below it.
    heads: Vec<Head>,
}

/// Headings of columns that long rows of rows repeat on every page.
#[derive(Clone, Debug, PartialEq)]
struct Head {
    /// Its own top and bottom.
    at: (f64, f64),
    /// Where the rows below it end.
    until: f64,
    marks: Vec<Mark>,
    /// Whether they are numbers of an axis, which a page on which the rows begin and do not end has below them.
    is_axis: bool,
}

impl Deref for Sheet {
    type Target = Scene;

    fn deref(&self) -> &Scene {
        &self.scene
    }
}

impl DerefMut for Sheet {
    fn deref_mut(&mut self) -> &mut Scene {
        &mut self.scene
    }
}

impl Sheet {
    /// Empty paper.
    pub fn new(title: String, look: Look) -> Sheet {
        Sheet {
            scene: Scene {
                width: look.width,
                title,
                ..Scene::default()
            },
            look,
            cuts: Vec::new(),
            heads: Vec::new(),
        }
    }

    /// Says that a page may end at this height.
    pub fn may_end(&mut self, y: f64) {
        self.cuts.push(y);
    }

    /// Says that what was drawn since the mark `first`, from `top` to `bottom`, is the heading of rows that follow.
    pub fn repeat_from(&mut self, top: f64, bottom: f64, first: usize) {
        self.heads.push(Head {
            at: (top, bottom),
            until: bottom,
            marks: self.scene.marks[first..].to_vec(),
            is_axis: false,
        });
    }

    /// Says that pages which begin in a field repeat these numbers above it, and a page that only begins it has them below.
    pub fn repeat_above(&mut self, (top, bottom): (f64, f64), tall: f64, marks: Vec<Mark>) {
        self.heads.push(Head {
            at: (top - tall, top),
            until: bottom,
            marks,
            is_axis: true,
        });
    }

    /// Says where the rows of the last heading end.
    pub fn repeat_to(&mut self, y: f64) {
        if let Some(head) = self.heads.last_mut() {
            head.until = y;
        }
    }

    /// The heading that a page beginning at this height repeats.
    fn head(&self, from: f64) -> Option<&Head> {
        let mut heads = self.heads.iter();
        heads.find(|head| head.at.1 < from + 0.5 && from + 0.5 < head.until)
    }

    /// Its height.
    fn head_room(&self, from: f64) -> f64 {
        self.head(from).map_or(0.0, |head| head.at.1 - head.at.0)
    }

    /// The numbers below the rows of a page, if the rows begin on it and go on after it.
    fn foot(&self, from: f64, to: f64) -> Option<&Head> {
        let mut heads = self.heads.iter().filter(|head| head.is_axis);
        heads.find(|head| from < head.at.1 && head.at.1 < to && to + 0.5 < head.until)
    }

    /// Their height.
    fn foot_room(&self, from: f64, to: f64) -> f64 {
        self.foot(from, to)
            .map_or(0.0, |head| head.at.1 - head.at.0)
    }

    /// The chart on pages of the height of its layout; whole where that has none. What fits on no page gets a longer one.
    pub fn pages(&self) -> Vec<Scene> {
        let Some(height) = self.look.height else {
            return vec![self.scene.clone()];
        };
        let stretches = self.stretches(height - 2.0 * self.look.margin);
        let all = stretches.len();
        let page = |(rank, stretch)| self.page(stretch, (rank, all), height);
        stretches.into_iter().enumerate().map(page).collect()
    }

    /// Top and bottom of what goes on each page.
    fn stretches(&self, room: f64) -> Vec<(f64, f64)> {
        let margin = self.look.margin;
        let (mut from, end) = (margin, self.scene.height - margin);
        let mut stretches = Vec::new();
        while end - from > room - self.head_room(from) {
            let later = || self.cuts.iter().copied().filter(|cut| *cut > from + 1.0);
            let until = from + room - self.head_room(from);
            let fitting = later().filter(|cut| *cut + self.foot_room(from, *cut) <= until);
            let Some(cut) = fitting
                .reduce(f64::max)
                .or_else(|| later().reduce(f64::min))
            else {
                break;
            };
            stretches.push((from, cut));
            from = cut;
        }
        stretches.push((from, end.max(from)));
        stretches
    }

    fn page(&self, (from, to): (f64, f64), (rank, all): (usize, usize), height: f64) -> Scene {
        let margin = self.look.margin;
        let (first, last) = (rank == 0, rank + 1 == all);
        let is_here = |mark: &Mark| match top(mark) {
            Some(y) => (first || y >= from) && (last || y < to),
            None => true,
        };
        let up = margin - from + self.head_room(from);
        let here = self.scene.marks.iter().filter_map(|mark| match all > 1 {
            true => clipped(mark, (from, to)).or_else(|| is_here(mark).then(|| mark.clone())),
            false => Some(mark.clone()),
        });
        let here = here.map(|mark| mark.moved((0.0, up)));
        let head = self.head(from).into_iter();
        let head = head.flat_map(|head| {
            head.marks
                .iter()
                .cloned()
                .map(|mark| mark.moved((0.0, margin - head.at.0)))
        });
        let foot = self.foot(from, to).filter(|_| !last).into_iter();
        let foot = foot.flat_map(|head| {
            let down = to + up + (head.at.1 - head.at.0) - head.at.1;
            head.marks
                .iter()
                .cloned()
                .map(move |mark| mark.moved((0.0, down)))
        });
        let room = self.head_room(from) + self.foot_room(from, to);
        let mut page = Scene {
            height: f64::max(height, to - from + room + 2.0 * margin),
            marks: head.chain(here).chain(foot).collect(),
            ..self.scene.clone()
        };
        if all > 1 {
            let text = format!("page {} of {all}", rank + 1);
            let size = self.look.small;
            let left = self.look.right() - width(&text, Face::Roman, size);
            page.text(TextRun {
                place: (left, page.height - margin / 2.0),
                size,
                face: Face::Roman,
                colour: SOFT,
                text,
            });
        }
        page
    }
}

/// What of an upright line stands on a page, if it crosses a cut: it goes on from page to page.
fn clipped(mark: &Mark, (from, to): (f64, f64)) -> Option<Mark> {
    let Mark::Shape { path, fill, stroke } = mark else {
        return None;
    };
    let [Step::Move(x, one), Step::Line(other, two)] = path.0[..] else {
        return None;
    };
    let (top, bottom) = (one.min(two).max(from), one.max(two).min(to));
    (x == other && top < bottom).then(|| Mark::Shape {
        path: Path::line((x, top), (x, bottom)),
        fill: *fill,
        stroke: stroke.clone(),
    })
}

/// The upper end of a mark; of a text its middle, which is never cut through.
fn top(mark: &Mark) -> Option<f64> {
    match mark {
        Mark::Shape { path, .. } => path.0.iter().filter_map(height_of).reduce(f64::min),
        Mark::Text(run) => Some(run.place.1 - run.size * 0.4),
        Mark::Photo(placed) => Some(placed.place.1),
        Mark::Open(_) | Mark::Close => None,
    }
}

fn height_of(step: &Step) -> Option<f64> {
    match step {
        Step::Move(_, y) | Step::Line(_, y) | Step::Curve([.., y]) => Some(*y),
        Step::Close => None,
    }
}
