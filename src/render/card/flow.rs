//! Lines one under the other, over as many pages as they need.

use super::look::Look;
use crate::render::scene::{
    Colour, Face, INK, Path, Photo, Placed, RULE, SOFT, Scene, Setting, Stroke, Word, set, wrap,
};
use std::sync::Arc;

/// From one baseline to the next, in sizes of the letters.
const LEADING: f64 = 1.28;
/// The part of the width that a photo takes at the right.
const PHOTO: f64 = 0.36;
/// Between facts, in sizes of the letters.
const AIR: f64 = 0.28;

/// Pages in the making.
pub(super) struct Flow<'t> {
    pub look: Look,
    title: &'t str,
    pages: Vec<Scene>,
    /// How far down the last page is used.
    pub y: f64,
    /// Down to where a photo stands at the right, and how much of the width it takes.
    beside: Option<(f64, f64)>,
}

/// Upright bold words.
pub(super) fn bold(text: impl Into<String>) -> Word {
    Word {
        text: text.into(),
        face: Face::Bold,
    }
}

impl<'t> Flow<'t> {
    pub fn new(look: Look, title: &'t str) -> Flow<'t> {
        let mut flow = Flow {
            look,
            title,
            pages: Vec::new(),
            y: 0.0,
            beside: None,
        };
        flow.page();
        flow
    }

    fn page(&mut self) {
        self.pages.push(Scene {
            width: self.look.width,
            height: self.look.height.unwrap_or(0.0),
            title: self.title.to_owned(),
            description: format!("Sale card, page {}", self.pages.len() + 1),
            ..Scene::default()
        });
        self.y = self.look.margin;
    }

    pub fn scene(&mut self) -> &mut Scene {
        let last = self.pages.len() - 1;
        &mut self.pages[last]
    }

    /// Begins a page unless so much is left of this one.
    pub fn need(&mut self, height: f64) {
        let bottom = self.look.height.map(|height| height - self.look.margin);
        if bottom.is_some_and(|bottom| self.y + height > bottom) {
            self.page();
        }
    }

    pub fn gap(&mut self, height: f64) {
        self.y += height;
    }

    /// How many lines words take, and how high that is.
    pub fn height(words: &[Word], size: f64, room: f64) -> f64 {
        wrap(words, size, room).len() as f64 * size * LEADING
    }

    /// Words in lines from a left edge; the baseline of the first.
    pub fn words(
        &mut self,
        words: &[Word],
        (left, room): (f64, f64),
        (size, colour): (f64, Colour),
    ) -> f64 {
        let mut first = None;
        for line in wrap(words, size, room) {
            self.need(size * LEADING);
            self.y += size * LEADING;
            let y = self.y - size * 0.32;
            first.get_or_insert(y);
            set(self.scene(), &line, (left, y), Setting { size, colour });
        }
        first.unwrap_or(self.y)
    }

    /// Words over the whole width.
    pub fn line(&mut self, words: &[Word], size: f64) {
        let look = self.look;
        self.words(words, (look.margin, look.room()), (size, INK));
    }

    /// A photo with the words that belong to it: over the width of a narrow page, else at the right of what comes next.
    pub fn photo(&mut self, photo: &Arc<Photo>, caption: &str) {
        let look = self.look;
        let shape = f64::from(photo.height) / f64::from(photo.width);
        let beside = look.labels > 0.0;
        let room = if beside {
            look.room() * PHOTO
        } else {
            look.room()
        };
        // As high as wide at the most: a tall one gets narrower.
        let width = room.min(room / shape);
        let (height, left) = (width * shape, look.width - look.margin - width);
        let top = self.y;
        self.scene().photo(Placed {
            photo: Arc::clone(photo),
            place: (left, top),
            size: (width, height),
            shows: caption.to_owned(),
        });
        self.y += height + look.small * 0.2;
        self.words(&[Word::roman(caption)], (left, width), (look.small, SOFT));
        self.gap(look.body * 0.5);
        if beside {
            self.beside = Some((self.y, width + look.margin * 0.5));
            self.y = top;
        }
    }

    /// Ends what stands beside a photo.
    pub fn below_photo(&mut self) {
        if let Some((bottom, _)) = self.beside.take() {
            self.y = self.y.max(bottom);
        }
    }

    /// How much of the width a photo takes here.
    fn taken(&self) -> f64 {
        match self.beside {
            Some((bottom, width)) if self.y < bottom => width,
            _ => 0.0,
        }
    }

    /// A small heading over a thin rule.
    pub fn heading(&mut self, text: &str) {
        let look = self.look;
        self.gap(look.body * 0.7);
        self.need(look.body * 4.0);
        let y = self.y;
        let rule = Path::line((look.margin, y), (look.width - look.margin, y));
        self.scene().stroke(rule, Stroke::solid(RULE, 0.7));
        self.gap(look.body * 0.25);
        self.words(
            &[bold(text)],
            (look.margin, look.room()),
            (look.small, SOFT),
        );
        self.gap(look.body * 0.2);
    }

    /// A label with its value: beside it, or under it where the page is narrow.
    pub fn fact(&mut self, label: &str, value: &[Word]) {
        let look = self.look;
        let label = [Word::roman(label)];
        let left = look.margin + look.labels;
        let room = look.room() - look.labels - self.taken();
        let beside = look.labels > 0.0;
        let label_room = if beside {
            look.labels - 6.0
        } else {
            look.room()
        };
        let label_height = Flow::height(&label, look.small, label_room);
        let value_height = Flow::height(value, look.body, room);
        // A fact that fits on one page is not parted.
        self.need(if beside {
            label_height.max(value_height)
        } else {
            label_height + look.body * LEADING
        });
        let top = self.y;
        // Both on one baseline.
        let drop = if beside {
            (look.body - look.small) * (LEADING - 0.32)
        } else {
            0.0
        };
        self.gap(drop);
        self.words(&label, (look.margin, label_room), (look.small, SOFT));
        let below = self.y;
        if beside {
            self.y = top;
        }
        self.words(value, (left, room), (look.body, INK));
        self.y = self.y.max(below) + look.body * AIR;
    }

    /// The pages; a picture without pages gets the height it took.
    pub fn finish(mut self) -> Vec<Scene> {
        if self.look.height.is_none() {
            let height = self.y + self.look.margin;
            self.scene().height = height;
        }
        self.pages
    }
}
