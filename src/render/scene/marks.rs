//! What a scene holds: filled and stroked outlines, runs of text, and titled groups for readers who cannot see it.

use super::{Colour, Face, Path, Photo, font};
use std::collections::BTreeSet;
use std::sync::Arc;

/// A picture: marks in the order they are painted, on paper of a stated size in points (72 to the inch).
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Scene {
    /// Width in points.
    pub width: f64,
    /// Height in points.
    pub height: f64,
    /// What the picture is, in one line of plain text.
    pub title: String,
    /// What it shows, for a reader who cannot see it.
    pub description: String,
    /// The marks, first painted first.
    pub marks: Vec<Mark>,
}

/// One thing painted, or the border of a group.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// An outline, filled, stroked, or both.
    Shape {
        /// The outline.
        path: Path,
        /// What fills it.
        fill: Option<Fill>,
        /// What draws along it.
        stroke: Option<Stroke>,
    },
    /// A run of text.
    Text(TextRun),
    /// A photo.
    Photo(Placed),
    /// Begins a group with a title; groups may nest.
    Open(String),
    /// Ends the group begun last.
    Close,
}

/// How an outline is filled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fill(pub Colour);

/// How a line is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Stroke {
    /// Its colour.
    pub colour: Colour,
    /// Its width in points.
    pub width: f64,
    /// Lengths drawn and skipped in turn, in points; empty for a solid line.
    pub dash: Vec<f64>,
}

/// Text in one face and size, starting at a fixed place on its baseline.
#[derive(Clone, Debug, PartialEq)]
pub struct TextRun {
    /// Left end of the baseline and its height, in points.
    pub place: (f64, f64),
    /// Size of the letters in points.
    pub size: f64,
    /// Which of the four faces.
    pub face: Face,
    /// The colour of the letters.
    pub colour: Colour,
    /// What it says.
    pub text: String,
}

/// A photo in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// The photo.
    pub photo: Arc<Photo>,
    /// Its upper left corner, points.
    pub place: (f64, f64),
    /// Its width and height, points.
    pub size: (f64, f64),
    /// What it shows, for a reader who cannot see it.
    pub shows: String,
}

impl Mark {
    /// The same so many points further right and down.
    pub fn moved(self, (right, down): (f64, f64)) -> Mark {
        match self {
            Mark::Shape { path, fill, stroke } => Mark::Shape {
                path: path.moved((right, down)),
                fill,
                stroke,
            },
            Mark::Text(run) => Mark::Text(TextRun {
                place: (run.place.0 + right, run.place.1 + down),
                ..run
            }),
            Mark::Photo(placed) => Mark::Photo(Placed {
                place: (placed.place.0 + right, placed.place.1 + down),
                ..placed
            }),
            Mark::Open(_) | Mark::Close => self,
        }
    }

    /// The same so many times as large, from the upper left corner.
    pub fn scaled(self, by: f64) -> Mark {
        match self {
            Mark::Shape { path, fill, stroke } => Mark::Shape {
                path: path.scaled(by),
                fill,
                stroke: stroke.map(|stroke| Stroke {
                    width: stroke.width * by,
                    dash: stroke.dash.iter().map(|part| part * by).collect(),
                    ..stroke
                }),
            },
            Mark::Text(run) => Mark::Text(TextRun {
                place: (run.place.0 * by, run.place.1 * by),
                size: run.size * by,
                ..run
            }),
            Mark::Photo(placed) => Mark::Photo(Placed {
                place: (placed.place.0 * by, placed.place.1 * by),
                size: (placed.size.0 * by, placed.size.1 * by),
                ..placed
            }),
            Mark::Open(_) | Mark::Close => self,
        }
    }
}

impl Stroke {
    /// A solid line.
    pub fn solid(colour: Colour, width: f64) -> Stroke {
        Stroke {
            colour,
            width,
            dash: Vec::new(),
        }
    }

    /// A line of strokes and gaps.
    pub fn dashed(colour: Colour, width: f64, dash: &[f64]) -> Stroke {
        Stroke {
            colour,
            width,
            dash: dash.to_vec(),
        }
    }
}

impl Scene {
    /// The letters of its texts that the typeface has no drawing of.
    pub fn not_drawn(&self) -> BTreeSet<char> {
        let texts = self.marks.iter().filter_map(|mark| match mark {
            Mark::Text(run) => Some(run),
            _ => None,
        });
        texts
            .flat_map(|run| font::not_drawn(&run.text, run.face))
            .collect()
    }

    /// Paints a filled outline.
    pub fn fill(&mut self, path: Path, colour: Colour) {
        self.marks.push(Mark::Shape {
            path,
            fill: Some(Fill(colour)),
            stroke: None,
        });
    }

    /// Draws along an outline.
    pub fn stroke(&mut self, path: Path, stroke: Stroke) {
        self.marks.push(Mark::Shape {
            path,
            fill: None,
            stroke: Some(stroke),
        });
    }

    /// Paints an outline and draws along it.
    pub fn framed(&mut self, path: Path, colour: Colour, stroke: Stroke) {
        self.marks.push(Mark::Shape {
            path,
            fill: Some(Fill(colour)),
            stroke: Some(stroke),
        });
    }

    /// Sets a run of text; nothing is set for empty text.
    pub fn text(&mut self, run: TextRun) {
        if !run.text.is_empty() {
            self.marks.push(Mark::Text(run));
        }
    }

    /// Puts a photo in its place.
    pub fn photo(&mut self, placed: Placed) {
        self.marks.push(Mark::Photo(placed));
    }

    /// Begins a titled group.
    pub fn open(&mut self, title: impl Into<String>) {
        self.marks.push(Mark::Open(title.into()));
    }

    /// Ends the group begun last.
    pub fn close(&mut self) {
        self.marks.push(Mark::Close);
    }

    /// Every photo in painting order.
    pub fn photos(&self) -> impl Iterator<Item = &Placed> {
        self.marks.iter().filter_map(|mark| match mark {
            Mark::Photo(placed) => Some(placed),
            _ => None,
        })
    }

    /// Every text in painting order; what a search in the picture would find.
    pub fn texts(&self) -> impl Iterator<Item = &TextRun> {
        self.marks.iter().filter_map(|mark| match mark {
            Mark::Text(run) => Some(run),
            _ => None,
        })
    }
}
