//! Pot tags: every QR code is read back from a picture, turned, blurred and dirtied; no word overlaps or leaves its tag.

use podbook::analysis::tags::{Tag, TagName};
use podbook::render::png;
use podbook::render::scene::{
    Colour, Face, Mark, POINTS, Scene, Step, TextRun, glyphs, outline, width,
};
use podbook::render::tags::{Composed, DOT, Item, Paper, TagSize, compose, sheets, singles};
use podbook::wording::NameRun;
use proptest::prelude::*;
use rxing::common::HybridBinarizer;
use rxing::qrcode::QRCodeReader;
use rxing::{BinaryBitmap, DecodeHints, Luma8LuminanceSource, Reader};

use super::samples::Lots;

const SIZES: [&str; 5] = ["10x60", "13x102", "16x127", "25x76", "13x150"];

fn name(text: &str) -> TagName {
    TagName {
        text: vec![NameRun {
            text: text.to_owned(),
            italic: true,
        }],
        left_out: Vec::new(),
    }
}

fn founder(code: &str) -> Tag {
    Tag {
        id: code.to_owned(),
        names: vec![name("N. spathulata")],
        ..Tag::default()
    }
}

fn size(words: &str) -> TagSize {
    words.parse().expect("a size")
}

/// A grey picture, row by row.
#[derive(Clone)]
struct Grey {
    wide: usize,
    high: usize,
    dots: Vec<f64>,
}

impl Grey {
    /// A page at 300 dots to the inch.
    fn of(scene: &Scene) -> Grey {
        let bytes = png(scene, 1.0 / (DOT * POINTS)).expect("a PNG");
        let pixels = tiny_skia::Pixmap::decode_png(&bytes).expect("a PNG");
        Grey {
            wide: pixels.width() as usize,
            high: pixels.height() as usize,
            dots: pixels
                .pixels()
                .iter()
                .map(|dot| f64::from(dot.green()))
                .collect(),
        }
    }

    /// The dot at a place, white beyond the edge.
    fn at(&self, x: i64, y: i64) -> f64 {
        let inside = x >= 0 && y >= 0 && x < self.wide as i64 && y < self.high as i64;
        if inside {
            self.dots[y as usize * self.wide + x as usize]
        } else {
            255.0
        }
    }

    /// Turned by an angle around its middle, on a white ground large enough for it.
    fn turned(&self, degrees: f64) -> Grey {
        let (sin, cos) = (degrees.to_radians().sin(), degrees.to_radians().cos());
        let side = (self.wide + self.high) as f64 * 1.1 + 80.0;
        let (middle, own) = (side / 2.0, (self.wide as f64 / 2.0, self.high as f64 / 2.0));
        let dot = |x: f64, y: f64| {
            let (dx, dy) = (x - middle, y - middle);
            let (x, y) = (cos * dx + sin * dy + own.0, cos * dy - sin * dx + own.1);
            let (left, top) = (x.floor(), y.floor());
            let (right, low) = (x - left, y - top);
            let of = |dx: i64, dy: i64| self.at(left as i64 + dx, top as i64 + dy);
            (of(0, 0) * (1.0 - right) + of(1, 0) * right) * (1.0 - low)
                + (of(0, 1) * (1.0 - right) + of(1, 1) * right) * low
        };
        self.filled(side as usize, side as usize, dot)
    }

    /// Each dot the mean of its neighbours in a square.
    fn blurred(&self, reach: i64) -> Grey {
        let count = ((2 * reach + 1) * (2 * reach + 1)) as f64;
        self.filled(self.wide, self.high, |x, y| {
            let near = (-reach..=reach).flat_map(|dy| (-reach..=reach).map(move |dx| (dx, dy)));
            near.map(|(dx, dy)| self.at(x as i64 + dx, y as i64 + dy))
                .sum::<f64>()
                / count
        })
    }

    /// Painted over from a corner on, as a crumb of soil or a scratch does.
    fn dirtied(
        &self,
        (left, top): (usize, usize),
        (wide, high): (usize, usize),
        paint: f64,
    ) -> Grey {
        let mut dirty = self.clone();
        for y in top..top + high {
            dirty.dots[y * self.wide + left..y * self.wide + left + wide].fill(paint);
        }
        dirty
    }

    /// The part from a place on.
    fn cut(&self, (left, top): (usize, usize), (wide, high): (usize, usize)) -> Grey {
        self.filled(wide, high, |x, y| {
            self.at((left + x as usize) as i64, (top + y as usize) as i64)
        })
    }

    /// With a border of white.
    fn on_white(&self, border: usize) -> Grey {
        let (wide, high) = (self.wide + 2 * border, self.high + 2 * border);
        self.filled(wide, high, |x, y| {
            self.at(x as i64 - border as i64, y as i64 - border as i64)
        })
    }

    fn filled(&self, wide: usize, high: usize, dot: impl Fn(f64, f64) -> f64) -> Grey {
        let places = (0..high).flat_map(|y| (0..wide).map(move |x| (x as f64, y as f64)));
        Grey {
            wide,
            high,
            dots: places.map(|(x, y)| dot(x, y)).collect(),
        }
    }

    /// What a decoder reads in it.
    fn read(&self) -> Option<String> {
        let luma: Vec<u8> = self
            .dots
            .iter()
            .map(|dot| dot.round().clamp(0.0, 255.0) as u8)
            .collect();
        let source = Luma8LuminanceSource::new(luma, self.wide as u32, self.high as u32).ok()?;
        let mut bitmap = BinaryBitmap::new(HybridBinarizer::new(source));
        let hints = DecodeHints {
            TryHarder: Some(true),
            ..DecodeHints::default()
        };
        let read = QRCodeReader.decode_with_hints(&mut bitmap, &hints).ok()?;
        Some(read.getText().to_owned())
    }
}

/// The tag alone on its page, in dots, with the sides of its code and of a module in dots.
fn drawn(tag: &Composed) -> (Grey, usize, usize) {
    let page = singles(std::slice::from_ref(tag)).remove(0);
    let module = (tag.module().expect("a code") / DOT).round() as usize;
    (Grey::of(&page), 29 * module, module)
}

#[test]
fn every_size_carries_a_code_that_is_read_back() {
    for words in SIZES {
        for code in ["Spa1-a", "X22-02-5", "X18-01-4-a", "X21-05.T1"] {
            let tag = compose(&founder(code), size(words)).expect("it fits");
            let module = tag
                .module()
                .unwrap_or_else(|| panic!("{words}: {code} has no code"));
            assert!(module >= 0.33, "{module}");
            let dots = module / DOT;
            assert!((dots - dots.round()).abs() < 1e-9, "{dots}");
            let (page, side, module) = drawn(&tag);
            assert_eq!(page.read().as_deref(), Some(code), "{words}");
            for degrees in [7.0, 33.0, 90.0, 180.0, 265.0] {
                assert_eq!(
                    page.turned(degrees).read().as_deref(),
                    Some(code),
                    "{words} turned {degrees}"
                );
            }
            assert_eq!(
                page.blurred(1).read().as_deref(),
                Some(code),
                "{words} blurred"
            );
            let top = (page.high.saturating_sub(side)) / 2;
            let code_alone = page.cut((0, top), (side, side)).on_white(8 * module);
            assert_eq!(code_alone.read().as_deref(), Some(code), "{words} alone");
        }
    }
}

/// A crumb or a scratch over five modules in a hundred, anywhere outside the corners, seen turned and blurred.
#[test]
fn a_dirty_code_is_read_back() {
    let mut lots = Lots(5);
    for words in SIZES {
        for code in ["Spa1-a", "X22-02-5", "X18-01-4-a", "X21-05.T1"] {
            let tag = compose(&founder(code), size(words)).expect("it fits");
            let (page, side, module) = drawn(&tag);
            let modules = side / module - 8;
            let crumb = modules * modules / 20 / 5;
            let top = page.high.saturating_sub(side) / 2;
            for paint in [0.0, 255.0] {
                // Behind the corners: from the tenth module on.
                let (x, y) = (lots.below(modules - 9 - 5), lots.below(modules - 9 - crumb));
                let place = ((4 + 9 + x) * module, top + (4 + 9 + y) * module);
                let dirty = page.dirtied(place, (5 * module, crumb * module), paint);
                let seen = dirty.blurred(1).turned(12.0);
                assert_eq!(seen.read().as_deref(), Some(code), "{words}: {code}");
            }
        }
    }
}

/// On a sheet the modules stay whole dots, wherever the tag stands.
#[test]
fn codes_on_a_sheet_are_read_one_by_one() {
    let codes: Vec<String> = (1..=30).map(|number| format!("X22-02-{number}")).collect();
    let tags = codes
        .iter()
        .map(|code| compose(&founder(code), size("13x102")).expect("it fits"));
    let tags: Vec<Composed> = tags.collect();
    for paper in [Paper::A4, Paper::Letter] {
        let pages = sheets(&tags, paper).expect("they fit");
        let page = Grey::of(&pages[0]);
        let is_grey = |dot: &f64| *dot > 20.0 && *dot < 100.0;
        let border = (10.0 / DOT).round() as usize;
        for (at, code) in codes.iter().take(2).enumerate() {
            let corner = (border + at * (102.0 / DOT) as usize, border);
            let tag = page.cut(corner, ((12.5 / DOT) as usize, (13.0 / DOT) as usize));
            assert_eq!(tag.on_white(20).read().as_deref(), Some(code.as_str()));
            // Between black and white there is nothing where modules are whole dots.
            let inner = tag.cut((24, 24), (90, 90));
            assert_eq!(inner.dots.iter().filter(|dot| is_grey(dot)).count(), 0);
        }
    }
}

/// What a tag draws, as boxes in points: words line by line, and the code with its quiet zone.
struct Boxes {
    words: Vec<([f64; 4], String)>,
    ink: Vec<[f64; 4]>,
    code: Option<[f64; 4]>,
}

fn around(steps: &[Step]) -> Option<[f64; 4]> {
    let mut places = Vec::new();
    for step in steps {
        match *step {
            Step::Move(x, y) | Step::Line(x, y) => places.push((x, y)),
            Step::Curve([ax, ay, bx, by, x, y]) => places.extend([(ax, ay), (bx, by), (x, y)]),
            Step::Close => {}
        }
    }
    let first = *places.first()?;
    Some(
        places
            .iter()
            .fold([first.0, first.1, first.0, first.1], |of, place| {
                [
                    of[0].min(place.0),
                    of[1].min(place.1),
                    of[2].max(place.0),
                    of[3].max(place.1),
                ]
            }),
    )
}

fn ink(run: &TextRun) -> Vec<[f64; 4]> {
    let drawn = glyphs(&run.text, run.face, run.size).0.into_iter();
    let scale = run.size / 1000.0;
    drawn
        .filter_map(|glyph| {
            let of = around(&outline(glyph.id, run.face).0)?;
            let (x, y) = (run.place.0 + glyph.x, run.place.1 - glyph.raise);
            Some([
                of[0] * scale + x,
                of[1] * scale + y,
                of[2] * scale + x,
                of[3] * scale + y,
            ])
        })
        .collect()
}

fn boxes(scene: &Scene, module: Option<f64>) -> Boxes {
    let words = scene.texts().map(|run| {
        let wide = width(run.text.trim_end(), run.face, run.size);
        let (x, y) = run.place;
        // Capitals and figures; of what reaches below the line only what the text has.
        let below = if run.face == Face::Bold && !run.text.contains(|c| "gjpqyQ,;_".contains(c)) {
            0.02
        } else {
            0.26
        };
        (
            [x, y - 0.66 * run.size, x + wide, y + below * run.size],
            run.text.clone(),
        )
    });
    let black = scene.marks.iter().find_map(|mark| match mark {
        Mark::Shape {
            path,
            fill: Some(fill),
            ..
        } if fill.0 == Colour(0, 0, 0) => around(&path.0),
        _ => None,
    });
    let quiet = 4.0 * module.unwrap_or(0.0) * POINTS;
    Boxes {
        words: words.collect(),
        ink: scene.texts().flat_map(ink).collect(),
        code: black.map(|of| [of[0] - quiet, of[1] - quiet, of[2] + quiet, of[3] + quiet]),
    }
}

fn overlap(one: &[f64; 4], other: &[f64; 4]) -> bool {
    let slack = 0.01;
    one[0] + slack < other[2]
        && other[0] + slack < one[2]
        && one[1] + slack < other[3]
        && other[1] + slack < one[3]
}

/// Why a tag is not fit to print; `None` for a good one.
fn fault(tag: &Composed) -> Option<String> {
    let page = singles(std::slice::from_ref(tag)).remove(0);
    let boxes = boxes(&page, tag.module());
    let tip = tag.size.tip * POINTS;
    for of in &boxes.ink {
        let inside =
            of[0] >= 0.0 && of[1] >= 0.0 && of[2] <= page.width - tip && of[3] <= page.height;
        if !inside {
            return Some(format!(
                "ink at {of:?} leaves {} × {}",
                page.width - tip,
                page.height
            ));
        }
        if boxes.code.as_ref().is_some_and(|code| overlap(code, of)) {
            return Some(format!("ink at {of:?} in the quiet zone {:?}", boxes.code));
        }
    }
    for (at, (one, said)) in boxes.words.iter().enumerate() {
        for (other, also) in &boxes.words[at + 1..] {
            if overlap(one, other) {
                return Some(format!("`{said}` on `{also}`"));
            }
        }
    }
    let code = boxes.code?;
    let inside = code[0] >= -0.2 && code[1] >= -0.2 && code[3] <= page.height + 0.2;
    (!inside).then(|| format!("the quiet zone {code:?} leaves the tag"))
}

fn any_name() -> impl Strategy<Value = Vec<TagName>> {
    let word = prop_oneof![
        "[a-z]{3,14}",
        Just("×".to_owned()),
        Just("(ventricosa".to_owned()),
        Just("open pollinated".to_owned()),
        "[A-Z]{2,5}",
        "[ -~é猪Å]{1,20}",
    ];
    let text = proptest::collection::vec((word, any::<bool>()), 1..30).prop_map(|words| TagName {
        text: words
            .into_iter()
            .map(|(text, italic)| NameRun {
                text: text + " ",
                italic,
            })
            .collect(),
        left_out: Vec::new(),
    });
    proptest::collection::vec(text, 0..4)
}

fn any_tag() -> impl Strategy<Value = Tag> {
    let parents = proptest::option::of(
        "[A-Z][0-9]{2}-[0-9]{2}-[0-9]{1,3} × [A-Za-z0-9-]{2,12}( \\(claimed\\))?",
    );
    let sown = proptest::option::of("sown 20[0-9]{2}-[01][0-9]");
    let sex = prop_oneof![Just(None), Just(Some("♀")), Just(Some("♂"))];
    let mark = proptest::option::of("[a-z]{1,12}");
    (
        "[A-Za-z][A-Za-z0-9.-]{0,23}",
        parents,
        any_name(),
        sown,
        proptest::option::of("[0-9]{1,4} (seeds|left)"),
        sex,
        mark,
    )
        .prop_map(|(id, parents, names, sown, count, sex, mark)| Tag {
            id,
            parents,
            names,
            sown,
            count,
            sex,
            mark,
            printed: None,
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 250, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever stands on it, in whatever size: no word on another, none beyond the edge, none in the quiet zone, and
    /// what is not on the tag is told.
    #[test]
    fn no_word_overlaps_or_leaves_a_tag(tag in any_tag(), long in 40.0..160.0f64, wide in 8.0..40.0f64) {
        let asked = TagSize { length: long, width: wide.min(long), tip: 0.0 };
        let asked = if long > 100.0 { asked.with_tip(long / 4.0).expect("a tip") } else { asked };
        let Ok(composed) = compose(&tag, asked) else { return Ok(()) };
        prop_assert_eq!(fault(&composed), None);
        let page = singles(std::slice::from_ref(&composed)).remove(0);
        let texts: Vec<&str> = page.texts().map(|run| run.text.as_str()).collect();
        prop_assert!(texts.contains(&tag.id.as_str()));
        let told = |item: Item| composed.left_out.contains(&item);
        let squeezed = texts.concat().split_whitespace().collect::<String>();
        if let Some(parents) = &tag.parents {
            let whole = squeezed.contains(&parents.split_whitespace().collect::<String>());
            prop_assert_eq!(whole, !told(Item::Parents));
        }
        let counted = tag.sown.iter().chain(&tag.count);
        for part in counted.map(String::as_str).chain(tag.sex) {
            prop_assert!(told(Item::Detail) || squeezed.contains(&part.replace(' ', "")));
        }
        prop_assert_eq!(told(Item::Qr), composed.module().is_none());
    }
}

/// What goes first when room runs out, on a tag that gets shorter and shorter.
#[test]
fn a_shorter_tag_loses_the_least_important_first() {
    let tag = Tag {
        id: "X22-02-5".to_owned(),
        parents: Some("X18-01-4 × Spa1".to_owned()),
        names: vec![
            name("N. ventricosa × N. spathulata (seed parent first)"),
            name("N. ventricosa × spathulata"),
        ],
        printed: None,
        sown: Some("sown 2022-09".to_owned()),
        count: None,
        sex: Some("♀"),
        mark: Some("tent".to_owned()),
    };
    let mut before: Vec<Item> = Vec::new();
    let mut losses = Vec::new();
    for length in (20..=90).rev() {
        let size = TagSize {
            length: f64::from(length),
            width: 10.0,
            tip: 0.0,
        };
        let Ok(composed) = compose(&tag, size) else {
            break;
        };
        let lost = composed
            .left_out
            .iter()
            .filter(|item| !before.contains(item));
        losses.extend(lost.copied());
        before = composed.left_out;
    }
    let at = |item: Item| losses.iter().position(|lost| *lost == item);
    assert!(at(Item::FullName) < at(Item::Detail), "{losses:?}");
    assert!(at(Item::Qr) < at(Item::Detail), "{losses:?}");
    assert!(at(Item::Detail) < at(Item::Name), "{losses:?}");
    assert!(at(Item::Parents).is_none_or(|parents| Some(parents) > at(Item::Name)));
}
