//! A scene as PNG: the same outlines filled and stroked on a grid of pixels.
//!
//! No text engine, clock or thread takes part, so the same scene gives the same bytes. A picture too large to be opened
//! elsewhere is refused before any memory is asked for.

use std::fmt;

use tiny_skia::{
    Color, ColorU8, FillRule, FilterQuality, LineCap, LineJoin, Paint, PathBuilder, Pixmap,
    PixmapPaint, StrokeDash, Transform,
};

use super::scene::{
    Colour, Mark, PAPER, Path, Placed, Scene, Step, Stroke, TextRun, glyphs, outline,
};

/// The longest side a PNG may have, in pixels.
pub const LONGEST_SIDE: u32 = 20_000;
/// The most pixels a PNG may have.
pub const MOST_PIXELS: u64 = 100_000_000;

/// Why a scene was not written as PNG.
#[derive(Clone, Debug, PartialEq)]
pub enum PngRefusal {
    /// The scale is not a number above zero.
    Scale(f64),
    /// The scene has no size, or its size is not a number.
    Empty(f64, f64),
    /// More pixels than anything would open.
    TooLarge {
        /// Width asked for, in pixels.
        width: f64,
        /// Height asked for, in pixels.
        height: f64,
        /// A scale at which it would fit.
        fitting: f64,
    },
    /// The pixels could not be packed into a file.
    Packing(String),
}

impl fmt::Display for PngRefusal {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Scale(scale) => write!(out, "the scale must be a number above 0, found {scale}"),
            Self::Empty(width, height) => {
                write!(out, "the picture has no size: {width} by {height} points")
            }
            Self::TooLarge {
                width,
                height,
                fitting,
            } => write!(
                out,
                "a picture of {width:.0} by {height:.0} pixels is too large (at most {LONGEST_SIDE} a side and \
                 {MOST_PIXELS} in all): use a scale of {fitting:.2} or less, draw fewer generations, or write SVG"
            ),
            Self::Packing(reason) => {
                write!(out, "the picture could not be packed as PNG: {reason}")
            }
        }
    }
}

impl std::error::Error for PngRefusal {}

/// The scene as PNG bytes; `scale` is pixels per point.
///
/// # Errors
/// A scale that is not above zero, a scene without size, or a picture with too many pixels.
pub fn png(scene: &Scene, scale: f64) -> Result<Vec<u8>, PngRefusal> {
    let (width, height) = pixels(scene, scale)?;
    let mut pixmap =
        Pixmap::new(width, height).ok_or(PngRefusal::Empty(scene.width, scene.height))?;
    pixmap.fill(Color::from_rgba8(PAPER.0, PAPER.1, PAPER.2, 255));
    let view = Transform::from_scale(scale as f32, scale as f32);
    for mark in &scene.marks {
        match mark {
            Mark::Shape { path, fill, stroke } => {
                let Some(path) = outlined(path) else { continue };
                if let Some(fill) = fill {
                    pixmap.fill_path(&path, &paint(fill.0), FillRule::Winding, view, None);
                }
                if let Some(stroke) = stroke {
                    pixmap.stroke_path(&path, &paint(stroke.colour), &pen(stroke), view, None);
                }
            }
            Mark::Text(run) => letters(&mut pixmap, run, view),
            Mark::Photo(placed) => photo(&mut pixmap, placed, view),
            Mark::Open(_) | Mark::Close => {}
        }
    }
    pixmap
        .encode_png()
        .map_err(|error| PngRefusal::Packing(error.to_string()))
}

fn pixels(scene: &Scene, scale: f64) -> Result<(u32, u32), PngRefusal> {
    if !(scale.is_finite() && scale > 0.0) {
        return Err(PngRefusal::Scale(scale));
    }
    let sized = |side: f64| side.is_finite() && side > 0.0;
    if !sized(scene.width) || !sized(scene.height) {
        return Err(PngRefusal::Empty(scene.width, scene.height));
    }
    let (width, height) = (
        libm::ceil(scene.width * scale),
        libm::ceil(scene.height * scale),
    );
    let side = f64::from(LONGEST_SIDE);
    if width > side || height > side || width * height > MOST_PIXELS as f64 {
        let by_side = (side / scene.width).min(side / scene.height);
        let by_area = libm::sqrt(MOST_PIXELS as f64 / scene.width / scene.height);
        let fitting = libm::floor(by_side.min(by_area) * 99.0) / 100.0;
        return Err(PngRefusal::TooLarge {
            width,
            height,
            fitting,
        });
    }
    Ok((width.max(1.0) as u32, height.max(1.0) as u32))
}

fn letters(pixmap: &mut Pixmap, run: &TextRun, view: Transform) {
    let paint = paint(run.colour);
    let scale = (run.size / 1000.0) as f32;
    for glyph in glyphs(&run.text, run.face, run.size).0 {
        let (x, y) = (run.place.0 + glyph.x, run.place.1 - glyph.raise);
        let placed = view
            .pre_translate(x as f32, y as f32)
            .pre_scale(scale, scale);
        if let Some(path) = outlined(&outline(glyph.id, run.face)) {
            pixmap.fill_path(&path, &paint, FillRule::Winding, placed, None);
        }
    }
}

fn photo(pixmap: &mut Pixmap, placed: &Placed, view: Transform) {
    let photo = &placed.photo;
    let Some(mut pixels) = Pixmap::new(photo.width, photo.height) else {
        return;
    };
    let own = pixels.pixels_mut().iter_mut();
    for (pixel, rgb) in own.zip(photo.pixels.as_chunks::<3>().0) {
        *pixel = ColorU8::from_rgba(rgb[0], rgb[1], rgb[2], 255).premultiply();
    }
    let (across, down) = (
        placed.size.0 / f64::from(photo.width),
        placed.size.1 / f64::from(photo.height),
    );
    let placed = view
        .pre_translate(placed.place.0 as f32, placed.place.1 as f32)
        .pre_scale(across as f32, down as f32);
    let smooth = PixmapPaint {
        quality: FilterQuality::Bilinear,
        ..PixmapPaint::default()
    };
    pixmap.draw_pixmap(0, 0, pixels.as_ref(), &smooth, placed, None);
}

fn outlined(path: &Path) -> Option<tiny_skia::Path> {
    let mut pen = PathBuilder::new();
    for step in &path.0 {
        match *step {
            Step::Move(x, y) => pen.move_to(x as f32, y as f32),
            Step::Line(x, y) => pen.line_to(x as f32, y as f32),
            Step::Curve(c) => {
                let [ax, ay, bx, by, x, y] = c.map(|value| value as f32);
                pen.cubic_to(ax, ay, bx, by, x, y);
            }
            Step::Close => pen.close(),
        }
    }
    pen.finish()
}

fn paint(colour: Colour) -> Paint<'static> {
    let mut paint = Paint {
        anti_alias: true,
        ..Paint::default()
    };
    paint.set_color_rgba8(colour.0, colour.1, colour.2, 255);
    paint
}

fn pen(stroke: &Stroke) -> tiny_skia::Stroke {
    let mut lengths: Vec<f32> = stroke.dash.iter().map(|length| *length as f32).collect();
    if lengths.len() % 2 == 1 {
        lengths.extend_from_within(..);
    }
    tiny_skia::Stroke {
        width: stroke.width as f32,
        line_cap: LineCap::Round,
        line_join: LineJoin::Round,
        dash: StrokeDash::new(lengths, 0.0),
        ..tiny_skia::Stroke::default()
    }
}
