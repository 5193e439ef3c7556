//! A scene as SVG.
//!
//! Letters are drawn as outlines, each glyph defined once and used by reference, because an embedded font is dropped by
//! half the programs that open SVG and a picture must look the same in all of them. Over each run lies the same text,
//! unpainted and stretched to the same width, so that it can still be selected, searched and read aloud. Numbers carry
//! at most two decimals; all text is escaped by its type.

use std::collections::BTreeSet;
use std::fmt::Write;

use super::scene::{
    Colour, Face, Mark, Path, Placed, Scene, Step, Stroke, TextRun, glyphs, outline,
};
use crate::text::Xml;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;

/// The whole SVG document.
pub fn svg(scene: &Scene) -> String {
    let mut out = head(scene);
    defs(&mut out, scene);
    let (width, height) = (number(scene.width), number(scene.height));
    let paper = hex(super::scene::PAPER);
    let _ = writeln!(
        out,
        r#"<rect width="{width}" height="{height}" fill="{paper}"/>"#
    );
    for mark in &scene.marks {
        match mark {
            Mark::Shape { path, fill, stroke } => {
                let fill = fill.map_or("none".to_string(), |fill| hex(fill.0));
                let stroke = stroke.as_ref().map_or(String::new(), pen);
                let _ = writeln!(out, r#"<path d="{}" fill="{fill}"{stroke}/>"#, steps(path));
            }
            Mark::Text(run) => letters(&mut out, run),
            Mark::Photo(placed) => photo(&mut out, placed),
            Mark::Open(title) => {
                let _ = writeln!(out, "<g><title>{}</title>", Xml::of(title));
            }
            Mark::Close => out.push_str("</g>\n"),
        }
    }
    out.push_str("</svg>\n");
    out
}

/// A photo within the file itself.
fn photo(out: &mut String, placed: &Placed) {
    let [x, y] = [placed.place.0, placed.place.1].map(number);
    let [width, height] = [placed.size.0, placed.size.1].map(number);
    let _ = writeln!(
        out,
        r#"<image x="{x}" y="{y}" width="{width}" height="{height}" preserveAspectRatio="none" href="data:image/jpeg;base64,{}"><title>{}</title></image>"#,
        STANDARD.encode(&placed.photo.jpeg),
        Xml::of(&placed.shows)
    );
}

fn head(scene: &Scene) -> String {
    let (width, height) = (number(scene.width), number(scene.height));
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}pt\" height=\"{height}pt\" \
         viewBox=\"0 0 {width} {height}\" role=\"img\">\n<title>{}</title>\n<desc>{}</desc>\n",
        Xml::of(&scene.title),
        Xml::of(&scene.description)
    )
}

/// Every glyph the scene uses, once, on its own grid.
fn defs(out: &mut String, scene: &Scene) {
    let mut used = BTreeSet::new();
    for run in scene.texts() {
        used.extend(
            glyphs(&run.text, run.face, run.size)
                .0
                .iter()
                .map(|glyph| (run.face, glyph.id)),
        );
    }
    out.push_str("<defs>\n");
    for (face, id) in used {
        let path = outline(id, face);
        if !path.0.is_empty() {
            let _ = writeln!(
                out,
                r#"<path id="{}" d="{}"/>"#,
                name(face, id),
                steps(&path)
            );
        }
    }
    out.push_str("</defs>\n");
}

/// A run: its outlines, and the unpainted text over them.
fn letters(out: &mut String, run: &TextRun) {
    let (places, width) = glyphs(&run.text, run.face, run.size);
    let (x, y) = (number(run.place.0), number(run.place.1));
    let scale = run.size / 1000.0;
    let _ = write!(
        out,
        r#"<g fill="{}" transform="translate({x} {y}) scale({})">"#,
        hex(run.colour),
        decimals(scale, 5)
    );
    for glyph in &places {
        if outline(glyph.id, run.face).0.is_empty() {
            continue;
        }
        let _ = write!(
            out,
            r##"<use href="#{}" x="{}""##,
            name(run.face, glyph.id),
            number(glyph.x / scale)
        );
        if glyph.raise != 0.0 {
            let _ = write!(out, r#" y="{}""#, number(-glyph.raise / scale));
        }
        out.push_str("/>");
    }
    let _ = writeln!(
        out,
        r#"</g><text x="{x}" y="{y}" font-family="serif" font-size="{}" textLength="{}" lengthAdjust="spacingAndGlyphs" fill-opacity="0">{}</text>"#,
        number(run.size),
        number(width),
        Xml::of(&run.text)
    );
}

fn name(face: Face, id: u16) -> String {
    let letter = ["r", "i", "b", "z"][face as usize];
    format!("{letter}{id}")
}

fn pen(stroke: &Stroke) -> String {
    let dash = match stroke.dash.is_empty() {
        true => String::new(),
        false => {
            let lengths: Vec<String> = stroke.dash.iter().map(|length| number(*length)).collect();
            format!(r#" stroke-dasharray="{}""#, lengths.join(" "))
        }
    };
    let (colour, width) = (hex(stroke.colour), number(stroke.width));
    format!(
        r#" stroke="{colour}" stroke-width="{width}" stroke-linecap="round" stroke-linejoin="round"{dash}"#
    )
}

fn steps(path: &Path) -> String {
    let mut out = String::new();
    for step in &path.0 {
        match step {
            Step::Move(x, y) => _ = write!(out, "M{} {}", number(*x), number(*y)),
            Step::Line(x, y) => _ = write!(out, "L{} {}", number(*x), number(*y)),
            Step::Curve(c) => {
                let all: Vec<String> = c.iter().map(|value| number(*value)).collect();
                let _ = write!(out, "C{}", all.join(" "));
            }
            Step::Close => out.push('Z'),
        }
    }
    out
}

fn hex(colour: Colour) -> String {
    format!("#{:02x}{:02x}{:02x}", colour.0, colour.1, colour.2)
}

/// A number with at most two decimals, no needless zeros and no minus before zero.
fn number(value: f64) -> String {
    decimals(value, 2)
}

fn decimals(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    match short {
        "-0" | "" => "0".to_string(),
        _ => short.to_string(),
    }
}
