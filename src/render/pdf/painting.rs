//! One page's content: outlines filled and stroked, and runs of text glyph by glyph.

use super::fonts::Fonts;
use crate::render::scene::{
    Colour, Glyph, Mark, Path, Placed, Scene, Step, Stroke, TextRun, advance, spelt,
};
use pdf_writer::types::{LineCapStyle, LineJoinStyle};
use pdf_writer::{Content, Finish, Name, Str, TextStr};

/// The content of a page.
pub(super) fn painted(scene: &Scene, fonts: &Fonts) -> Vec<u8> {
    let mut page = Page {
        content: Content::new(),
        height: scene.height,
    };
    let mut photos = 0;
    page.content.set_line_cap(LineCapStyle::RoundCap);
    page.content.set_line_join(LineJoinStyle::RoundJoin);
    for mark in &scene.marks {
        match mark {
            Mark::Shape { path, fill, stroke } => {
                page.shape(path, fill.map(|fill| fill.0), stroke.as_ref());
            }
            Mark::Text(run) => page.run(run, fonts),
            Mark::Photo(placed) => {
                page.photo(placed, photos);
                photos += 1;
            }
            Mark::Open(_) | Mark::Close => {}
        }
    }
    page.content.finish().into_vec()
}

/// Under which name a page knows its photos.
pub(super) fn photo_name(number: usize) -> String {
    format!("Photo{number}")
}

/// A page in the making. A PDF counts upward from the lower edge, a scene downward from the upper one.
struct Page {
    content: Content,
    height: f64,
}

impl Page {
    fn shape(&mut self, path: &Path, fill: Option<Colour>, stroke: Option<&Stroke>) {
        if path.0.is_empty() {
            return;
        }
        if let Some(colour) = fill {
            let [red, green, blue] = parts(colour);
            self.content.set_fill_rgb(red, green, blue);
        }
        if let Some(stroke) = stroke {
            let [red, green, blue] = parts(stroke.colour);
            let dash = stroke.dash.iter().map(|length| *length as f32);
            self.content
                .set_stroke_rgb(red, green, blue)
                .set_line_width(stroke.width as f32)
                .set_dash_pattern(dash, 0.0);
        }
        self.outline(path);
        match (fill, stroke) {
            (Some(_), Some(_)) => self.content.fill_nonzero_and_stroke(),
            (Some(_), None) => self.content.fill_nonzero(),
            (None, Some(_)) => self.content.stroke(),
            (None, None) => self.content.end_path(),
        };
    }

    /// The photo of that number on this page.
    fn photo(&mut self, placed: &Placed, number: usize) {
        let (across, down) = (placed.size.0 as f32, placed.size.1 as f32);
        let left = placed.place.0 as f32;
        let bottom = (self.height - placed.place.1) as f32 - down;
        self.content
            .save_state()
            .transform([across, 0.0, 0.0, down, left, bottom])
            .x_object(Name(photo_name(number).as_bytes()))
            .restore_state();
    }

    fn outline(&mut self, path: &Path) {
        let up = |y: f64| (self.height - y) as f32;
        for step in &path.0 {
            match *step {
                Step::Move(x, y) => self.content.move_to(x as f32, up(y)),
                Step::Line(x, y) => self.content.line_to(x as f32, up(y)),
                Step::Curve([ax, ay, bx, by, x, y]) => {
                    self.content
                        .cubic_to(ax as f32, up(ay), bx as f32, up(by), x as f32, up(y))
                }
                Step::Close => self.content.close_path(),
            };
        }
    }

    /// A run of text. Where its glyphs alone would not say it letter by letter, it carries the words beside them.
    fn run(&mut self, run: &TextRun, fonts: &Fonts) {
        let (glyphs, _) = spelt(&run.text, run.face, run.size);
        let says_itself = |(glyph, says): &(Glyph, String)| {
            let (number, known) = fonts.glyph(run.face, glyph.id);
            number > 0 && known == says
        };
        let beside = !glyphs.iter().all(says_itself);
        if beside {
            let words: String = glyphs.iter().map(|(_, says)| says.as_str()).collect();
            let mut mark = self
                .content
                .begin_marked_content_with_properties(Name(b"Span"));
            mark.properties().actual_text(TextStr(&words));
        }
        let [red, green, blue] = parts(run.colour);
        let name = Fonts::name(run.face);
        self.content
            .set_fill_rgb(red, green, blue)
            .begin_text()
            .set_font(Name(name.as_bytes()), run.size as f32);
        for level in glyphs.chunk_by(|(one, _), (other, _)| one.raise == other.raise) {
            self.level(run, level, fonts);
        }
        self.content.end_text();
        if beside {
            self.content.end_marked_content();
        }
    }

    /// Glyphs on one baseline: each where it was shaped, the difference to its own width put between.
    fn level(&mut self, run: &TextRun, glyphs: &[(Glyph, String)], fonts: &Fonts) {
        let first = glyphs[0].0;
        let (x, y) = (
            run.place.0 + first.x,
            self.height - run.place.1 + first.raise,
        );
        self.content
            .set_text_matrix([1.0, 0.0, 0.0, 1.0, x as f32, y as f32]);
        let mut shown = self.content.show_positioned();
        let mut items = shown.items();
        let mut pen = first.x;
        for (glyph, _) in glyphs {
            let off = (pen - glyph.x) / run.size * 1000.0;
            if off.abs() > 0.01 {
                items.adjust(off as f32);
            }
            let (number, _) = fonts.glyph(run.face, glyph.id);
            items.show(Str(&number.to_be_bytes()));
            pen = glyph.x + advance(glyph.id, run.face) * run.size / 1000.0;
        }
        items.finish();
        shown.finish();
    }
}

fn parts(colour: Colour) -> [f32; 3] {
    [colour.0, colour.1, colour.2].map(|part| f32::from(part) / 255.0)
}
