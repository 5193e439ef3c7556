//! The faces a document uses: which glyphs, under which numbers, what each says, and their embedding.
//!
//! A face is embedded as the subset of its glyphs that occur, keyed by number (a CID font with Identity-H), with a map
//! back to Unicode so that text can be copied. ISO 32000-1, 9.7 and 9.10.

use crate::render::scene::{Face, Scene, advance, file_of, spelt};
use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Finish, Name, Pdf, Rect, Ref, Str};
use std::collections::BTreeMap;
use subsetter::{GlyphRemapper, subset};

/// Objects that a face takes: font, descendant, descriptor, file, map to Unicode.
const OBJECTS: i32 = 5;

/// The faces in use.
pub(super) struct Fonts {
    faces: BTreeMap<Face, Subset>,
    first: i32,
}

/// One face in use.
struct Subset {
    /// From the numbers of the face to those of the subset.
    numbers: GlyphRemapper,
    /// The glyphs in the order of the subset, from 1, with what each says where it first occurs.
    glyphs: Vec<(u16, String)>,
}

impl Default for Subset {
    fn default() -> Self {
        Self {
            numbers: GlyphRemapper::new(),
            glyphs: Vec::new(),
        }
    }
}

impl Fonts {
    /// The faces of all scenes; `first` is the first number free for their objects.
    pub(super) fn of(scenes: &[Scene], first: i32) -> Fonts {
        let mut faces: BTreeMap<Face, Subset> = BTreeMap::new();
        for run in scenes.iter().flat_map(Scene::texts) {
            let face = faces.entry(run.face).or_default();
            for (glyph, says) in spelt(&run.text, run.face, run.size).0 {
                let number = face.numbers.remap(glyph.id);
                if usize::from(number) > face.glyphs.len() {
                    face.glyphs.push((glyph.id, says));
                }
            }
        }
        Fonts { faces, first }
    }

    /// The name under which a page knows a face.
    pub(super) fn name(face: Face) -> String {
        format!("F{}", face as usize)
    }

    /// Every face's name on the pages, and its object.
    pub(super) fn named(&self) -> impl Iterator<Item = (String, Ref)> {
        let faces = self.faces.keys().enumerate();
        faces.map(|(at, face)| (Fonts::name(*face), self.object(at, 0)))
    }

    /// The number of a glyph in the subset, and what it says there; glyph 0, the empty box, says nothing.
    pub(super) fn glyph(&self, face: Face, id: u16) -> (u16, &str) {
        let Some(subset) = self.faces.get(&face) else {
            return (0, "");
        };
        let number = subset.numbers.get(id).unwrap_or(0);
        let says = usize::from(number)
            .checked_sub(1)
            .map(|at| &subset.glyphs[at].1);
        (number, says.map_or("", String::as_str))
    }

    fn object(&self, face: usize, part: i32) -> Ref {
        Ref::new(self.first + OBJECTS * face as i32 + part)
    }

    /// Writes the fonts.
    pub(super) fn write(&self, file: &mut Pdf) {
        for (at, (face, used)) in self.faces.iter().enumerate() {
            let part = |part| self.object(at, part);
            let name = format!("PODBK{}+{}", ["A", "B", "C", "D"][at], called(*face));
            let name = Name(name.as_bytes());
            file.type0_font(part(0))
                .base_font(name)
                .encoding_predefined(Name(b"Identity-H"))
                .descendant_font(part(1))
                .to_unicode(part(4));
            let mut font = file.cid_font(part(1));
            font.subtype(CidFontType::Type0)
                .base_font(name)
                .system_info(IDENTITY)
                .font_descriptor(part(2))
                .default_width(0.0);
            let widths = used.glyphs.iter().map(|(id, _)| advance(*id, *face) as f32);
            let empty_box = advance(0, *face) as f32;
            font.widths()
                .consecutive(0, std::iter::once(empty_box).chain(widths));
            font.finish();
            describe(file, (part(2), part(3)), name, *face);
            let data = outlines(*face, &used.numbers);
            file.stream(part(3), &data)
                .pair(Name(b"Subtype"), Name(b"CIDFontType0C"));
            file.cmap(part(4), &unicode(used));
        }
    }
}

const IDENTITY: SystemInfo = SystemInfo {
    registry: Str(b"Adobe"),
    ordering: Str(b"Identity"),
    supplement: 0,
};

fn called(face: Face) -> &'static str {
    match face {
        Face::Roman => "LibertinusSerif-Regular",
        Face::Italic => "LibertinusSerif-Italic",
        Face::Bold => "LibertinusSerif-Bold",
        Face::BoldItalic => "LibertinusSerif-BoldItalic",
    }
}

/// What a reader needs to stand in for the face; every figure is that of the typeface, in thousandths of its size.
fn describe(file: &mut Pdf, (descriptor, outlines): (Ref, Ref), name: Name, face: Face) {
    let slanted = matches!(face, Face::Italic | Face::BoldItalic);
    let mut flags = FontFlags::SERIF | FontFlags::SYMBOLIC;
    flags.set(FontFlags::ITALIC, slanted);
    file.font_descriptor(descriptor)
        .name(name)
        .flags(flags)
        .bbox(Rect::new(-600.0, -300.0, 2000.0, 1100.0))
        .italic_angle(if slanted { -12.0 } else { 0.0 })
        .ascent(894.0)
        .descent(-246.0)
        .cap_height(645.0)
        .stem_v(if matches!(face, Face::Bold | Face::BoldItalic) {
            130.0
        } else {
            80.0
        })
        .font_file3(outlines);
}

/// The outlines of the glyphs in use: the table `CFF ` of the subset, which is what a PDF of this kind holds.
fn outlines(face: Face, numbers: &GlyphRemapper) -> Vec<u8> {
    let whole = subset(file_of(face), 0, numbers).expect("the embedded font is well formed");
    table(&whole, *b"CFF ").map(<[u8]>::to_vec).unwrap_or(whole)
}

/// A table of an OpenType file by its tag (OpenType 1.9, "Organization of an OpenType font").
fn table(font: &[u8], tag: [u8; 4]) -> Option<&[u8]> {
    let number = |at: usize| {
        let bytes = font.get(at..at + 4)?;
        Some(u32::from_be_bytes(bytes.try_into().ok()?) as usize)
    };
    let tables = usize::from(u16::from_be_bytes(font.get(4..6)?.try_into().ok()?));
    let mut entries = (0..tables).map(|at| 12 + 16 * at);
    let entry = entries.find(|at| font.get(*at..at + 4) == Some(&tag[..]))?;
    let (start, length) = (number(entry + 8)?, number(entry + 12)?);
    font.get(start..start + length)
}

/// What each glyph of the subset says.
fn unicode(used: &Subset) -> Vec<u8> {
    let mut map = UnicodeCmap::new(Name(b"Custom"), IDENTITY);
    for (at, (_, says)) in used.glyphs.iter().enumerate() {
        if !says.is_empty() {
            map.pair_with_multiple(at as u16 + 1, says.chars());
        }
    }
    map.finish().into_vec()
}
