//! SVG, PNG, DOT and text: well formed with any text in any name, the same every time, refused in order when absurd.

use std::io::Write;
use std::process::{Command, Stdio};

use podbook::render::scene::{Face, INK, PAPER, Path, Scene, Stroke, TextRun, glyphs, outline};
use podbook::render::{PngRefusal, dot, pedigree, pedigree_text, png, svg};
use podbook::report::PedigreeDrawing;
use podbook::report::pedigree::*;
use proptest::prelude::*;
use unicode_width::UnicodeWidthStr;

use crate::samples;
use crate::sketch::{Sketch, name};

/// Texts that have broken a format before.
const NASTY: [&str; 16] = [
    "",
    " ",
    "\"",
    "\\",
    "\\N\\G\\\"",
    "a\nb\tc\rd",
    "<b>&amp;</b>",
    "]]>",
    "--><!--",
    "&#0;&bogus;",
    "\u{0}\u{1}\u{8}\u{1f}\u{7f}\u{85}\u{fffe}\u{ffff}",
    "猪笼草 ネペンテス \u{202e} abc",
    "'; DROP -> {x} [y=z];",
    "%s%n {} ${x} `x`",
    "e\u{301}\u{200d}\u{feff}👩‍🌾",
    "//comment /* # \u{2028}\u{2029}",
];

fn nasty() -> PedigreeDrawing {
    let mut sketch = Sketch::default();
    for (row, text) in NASTY.iter().enumerate() {
        sketch.founder(&format!("{row}"), text, None);
        sketch.drawing.plants[row].code = format!("{row}{text}");
    }
    let rows: Vec<usize> = (0..NASTY.len()).collect();
    sketch.drawing.plants.push(DrawnPlant {
        code: NASTY.concat(),
        label: NASTY.iter().map(|text| name(text)).collect(),
        column: 1,
        focus: true,
        ..DrawnPlant::default()
    });
    sketch.drawing.crosses.push(DrawnCross {
        chances: Vec::new(),
        code: NASTY.concat(),
        seed: DrawnParent::OneOf(rows.clone()),
        pollen: DrawnParent::Mixed(rows),
        direction_known: true,
        father_probable: true,
        children: vec![NASTY.len()],
        more_siblings: 2,
        ..DrawnCross::default()
    });
    let mut drawing = sketch.drawing;
    drawing.title = NASTY.concat();
    drawing.caption = Caption {
        heading: name(&NASTY.concat()),
        formula: name(&NASTY.concat()),
        code: NASTY.concat(),
        evidence: NASTY.concat(),
    };
    drawing.footnotes = NASTY.map(str::to_string).to_vec();
    drawing
}

/// What is wrong with a document as XML, as far as the elements used here go.
fn fault_of_xml(text: &str) -> Option<String> {
    let mut open = Vec::new();
    let mut rest = text;
    while let Some(at) = rest.find('<') {
        if let Some(fault) = fault_of_text(&rest[..at]) {
            return Some(fault);
        }
        let Some(end) = rest[at..].find('>') else {
            return Some("a tag without end".into());
        };
        let tag = &rest[at + 1..at + end];
        let word = tag
            .trim_matches('/')
            .split(' ')
            .next()
            .unwrap_or("")
            .to_string();
        if tag.matches('"').count() % 2 == 1 {
            return Some(format!("an open quote in <{tag}>"));
        }
        if let Some(fault) = fault_of_text(tag) {
            return Some(fault);
        }
        if tag.starts_with('/') {
            if open.pop() != Some(word.clone()) {
                return Some(format!("</{word}> closes something else"));
            }
        } else if !tag.ends_with('/') {
            open.push(word);
        }
        rest = &rest[at + end + 1..];
    }
    if open.is_empty() {
        fault_of_text(rest)
    } else {
        Some(format!("never closed: {open:?}"))
    }
}

fn fault_of_text(text: &str) -> Option<String> {
    let bad = |letter: char| {
        (letter < ' ' && letter != '\n')
            || letter == '\u{fffe}'
            || letter == '\u{ffff}'
            || letter == '>'
    };
    if let Some(letter) = text.chars().find(|letter| bad(*letter)) {
        return Some(format!("{letter:?} in {text:?}"));
    }
    let known = ["&amp;", "&lt;", "&gt;", "&quot;", "&#39;"];
    let wild = text
        .match_indices('&')
        .find(|(at, _)| !known.iter().any(|entity| text[*at..].starts_with(entity)));
    wild.map(|(at, _)| format!("a bare & at {at} of {text:?}"))
}

#[test]
fn svg_is_well_formed_with_any_text() {
    assert_eq!(fault_of_xml("<a b=\"1\"><c/>x &amp; y</a>\n"), None);
    for broken in [
        "<a>",
        "<a></b>",
        "<a>&</a>",
        "<a>\u{1}</a>",
        "<a b=\"></a>",
        "a > b",
    ] {
        assert!(fault_of_xml(broken).is_some(), "{broken}");
    }
    for drawing in [
        nasty(),
        samples::tree(),
        samples::complex(),
        samples::uncertain(),
        samples::long_labels(),
    ] {
        let text = svg(&pedigree::draw(&drawing));
        assert_eq!(fault_of_xml(&text), None);
        assert!(!text.contains("NaN") && !text.contains("inf"));
    }
}

/// The text of a picture can be selected and searched: it stands in the SVG as text, whole.
#[test]
fn svg_keeps_its_text() {
    let text = svg(&pedigree::draw(&samples::tree()));
    for words in [
        "N. jacquelineae",
        "X23-06-12",
        "eight-species seedling 12",
        "seed parent first; all parents witnessed",
    ] {
        assert!(text.contains(&format!(">{words}</text>")), "{words}");
    }
    assert_eq!(
        text.matches("http").count(),
        1,
        "nothing is fetched; the one address is the name of the format"
    );
}

#[test]
fn numbers_in_svg_have_at_most_two_decimals() {
    let mut scene = Scene {
        width: 10.0,
        height: 1e6,
        ..Scene::default()
    };
    scene.stroke(
        Path::line((1.0 / 3.0, -0.001), (-1e-9, 2.5)),
        Stroke::solid(INK, 1.0),
    );
    let text = svg(&scene);
    assert!(text.contains(r#"d="M0.33 0L0 2.5""#), "{text}");
    assert!(text.contains(r#"height="1000000pt""#), "{text}");
}

#[test]
fn pictures_are_the_same_bytes_every_time() {
    for drawing in [samples::complex(), samples::registry(150)] {
        let twice = || {
            (
                svg(&pedigree::draw(&drawing)),
                png(&pedigree::draw(&drawing), 1.0),
                dot(&drawing),
            )
        };
        assert_eq!(twice(), twice());
    }
}

#[test]
fn png_has_the_size_asked_for() {
    let scene = pedigree::draw(&samples::tree());
    for scale in [0.5, 1.0, 2.0] {
        let bytes = png(&scene, scale).expect("the tree fits");
        let side = |at: usize| {
            u32::from_be_bytes([bytes[at], bytes[at + 1], bytes[at + 2], bytes[at + 3]])
        };
        assert_eq!(
            (side(16), side(20)),
            (
                (scene.width * scale).ceil() as u32,
                (scene.height * scale).ceil() as u32
            )
        );
    }
}

#[test]
fn absurd_pictures_are_refused_in_order() {
    let scene = Scene {
        width: 600.0,
        height: 400.0,
        ..Scene::default()
    };
    for scale in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(
            matches!(png(&scene, scale), Err(PngRefusal::Scale(_))),
            "{scale}"
        );
    }
    let empty = Scene::default();
    assert!(matches!(png(&empty, 1.0), Err(PngRefusal::Empty(..))));
    let Err(PngRefusal::TooLarge { fitting, .. }) = png(&scene, 1e6) else {
        panic!("a huge picture was drawn")
    };
    let refusal = png(&scene, 1e6).expect_err("still too large").to_string();
    assert!(
        refusal.contains("too large") && refusal.contains("scale"),
        "{refusal}"
    );
    assert!(fitting > 1.0);
    let long = Scene {
        width: 10.0,
        height: 1e9,
        ..Scene::default()
    };
    assert!(matches!(png(&long, 1.0), Err(PngRefusal::TooLarge { .. })));
}

/// What Graphviz says of a text; nothing where it is not installed.
fn graphviz(text: &str) -> Option<Result<String, String>> {
    let spawned = Command::new("dot")
        .arg("-Tsvg")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn();
    let Ok(mut child) = spawned else {
        println!("note: Graphviz is not installed, so its own judgement is left out");
        return None;
    };
    let text = text.to_string();
    let mut input = child.stdin.take().expect("a pipe");
    let writer = std::thread::spawn(move || input.write_all(text.as_bytes()));
    let out = child.wait_with_output().expect("dot ends");
    let _ = writer.join();
    let said = String::from_utf8_lossy(&out.stderr).into_owned();
    let drawn = String::from_utf8_lossy(&out.stdout).into_owned();
    Some(if out.status.success() && said.is_empty() {
        Ok(drawn)
    } else {
        Err(said)
    })
}

#[test]
fn graphviz_reads_what_dot_writes() {
    for drawing in [
        nasty(),
        samples::tree(),
        samples::uncertain(),
        samples::long_labels(),
        PedigreeDrawing::default(),
    ] {
        if let Some(Err(said)) = graphviz(&dot(&drawing)) {
            panic!("Graphviz: {said}\n{}", dot(&drawing));
        }
    }
}

#[test]
fn graphviz_shows_every_name_as_it_is() {
    let mut sketch = Sketch::default();
    sketch.founder("C<1>&\"", "a\\b \"c\" <d> & e\\n", None);
    if let Some(Ok(drawn)) = graphviz(&dot(&sketch.drawing)) {
        assert!(
            drawn.contains("C&lt;1&gt;&amp;&quot;") || drawn.contains("C&lt;1&gt;&amp;\""),
            "{drawn}"
        );
        let kept = ["a\\b", "a&#92;b", "a&#45;b"]
            .iter()
            .any(|text| drawn.contains(text));
        assert!(kept, "{drawn}");
    }
}

#[test]
fn dot_says_what_is_in_doubt() {
    // Graphviz reads no table without a row.
    assert!(!dot(&PedigreeDrawing::default()).contains("<TABLE"));
    assert!(!dot(&samples::tree()).contains("dashed"));
    let text = dot(&samples::uncertain());
    for words in [
        "style=dashed",
        "♂ one of 2",
        "♂ mixed, 3 plants",
        "direction not known",
        "label=\"?\"",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
}

#[test]
fn text_tells_the_whole_descent_once() {
    let text = pedigree_text(&samples::complex(), 80);
    for plant in &samples::complex().plants {
        let told = text.lines().filter(|line| {
            line.trim_start()
                .trim_start_matches(['♀', '♂', ' '])
                .starts_with(&format!("{} · ", plant.code))
        });
        let described = told.filter(|line| !line.ends_with("see above")).count();
        let founder = plant.kind == DrawnKind::Founder;
        assert!(
            described == 1 || founder && described > 1,
            "{}: {described} times in\n{text}",
            plant.code
        );
    }
    assert!(text.contains("see above"));
}

#[test]
fn text_keeps_to_the_width() {
    for drawing in [
        samples::tree(),
        samples::complex(),
        samples::uncertain(),
        samples::long_labels(),
        nasty(),
    ] {
        for width in [40, 80, 120] {
            for line in pedigree_text(&drawing, width).lines() {
                assert!(line.width() <= width, "{} columns: {line:?}", line.width());
                assert!(!line.chars().any(char::is_control), "{line:?}");
            }
        }
    }
}

#[test]
fn text_says_how_much_is_left_out() {
    let mut drawing = PedigreeDrawing::default();
    for row in 0..5000 {
        drawing.plants.push(DrawnPlant {
            code: format!("P{row}"),
            focus: row == 4999,
            ..DrawnPlant::default()
        });
        if row > 0 {
            let seed = DrawnParent::Known(row - 1);
            drawing.crosses.push(DrawnCross {
                seed,
                children: vec![row],
                direction_known: true,
                ..DrawnCross::default()
            });
        }
    }
    let text = pedigree_text(&drawing, 80);
    let shown = text.lines().filter(|line| line.contains('P')).count();
    assert!(
        text.contains(&format!("… {} plants not shown", 5000 - shown)),
        "{shown} shown: {}",
        text.lines().last().unwrap_or("")
    );
    assert!(text.contains("♂ unknown"));
}

#[test]
fn the_font_has_every_sign_the_pictures_use() {
    let signs = "ABCxyz0189 äöüßéñçøåčšžł ×♀♂½¼¾⅛⅜⅝⅞⅓⅔⅙⅚ –—−±≈≥≤ ‘’“”„…·→←αβσ°%†";
    for face in [Face::Roman, Face::Italic, Face::Bold, Face::BoldItalic] {
        for letter in signs.chars() {
            let (glyphs, wide) = glyphs(&letter.to_string(), face, 10.0);
            assert!(
                glyphs.iter().all(|glyph| glyph.id != 0) && wide > 0.0,
                "{letter:?} in {face:?}"
            );
        }
    }
}

#[test]
fn letters_the_font_lacks_are_drawn_as_boxes() {
    for text in ["猪", "ネ", "🌱", "\u{e000}"] {
        let (glyphs, wide) = glyphs(text, Face::Italic, 10.0);
        assert!(
            wide > 1.0
                && glyphs
                    .iter()
                    .any(|glyph| !outline(glyph.id, Face::Italic).0.is_empty()),
            "{text}"
        );
    }
    let run = |text: &str| TextRun {
        place: (5.0, 20.0),
        size: 12.0,
        face: Face::Roman,
        colour: INK,
        text: text.into(),
    };
    let mut scene = Scene {
        width: 60.0,
        height: 30.0,
        ..Scene::default()
    };
    let blank = png(&scene, 1.0).expect("small");
    scene.text(run("猪"));
    assert_ne!(png(&scene, 1.0).expect("small"), blank);
    assert_ne!(INK, PAPER);
}

/// Each sign alone as a code, a name, a caption and a footnote.
#[test]
fn graphviz_reads_every_sign_alone() {
    for sign in (' '..='~').map(String::from) {
        let mut sketch = Sketch::default();
        sketch.founder("a", &sign, Some(Sex::Female));
        sketch.founder("b", &sign, Some(Sex::Male));
        sketch.cross("c", "a", "b", &sign);
        let mut drawing = sketch.drawing;
        drawing.plants[2].code = sign.clone();
        drawing.caption.formula = name(&sign);
        drawing.footnotes = vec![sign.clone()];
        if let Some(Err(said)) = graphviz(&dot(&drawing)) {
            panic!("{sign}: {said}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_anywhere_is_drawn(texts in proptest::collection::vec(any::<String>(), 6)) {
        let mut sketch = Sketch::default();
        sketch.founder("a", &texts[0], Some(Sex::Female));
        sketch.founder("b", &texts[1], Some(Sex::Male));
        sketch.cross("c", "a", "b", &texts[2]);
        let mut drawing = sketch.drawing;
        drawing.plants[2].code = texts[3].clone();
        drawing.plants[2].focus = true;
        drawing.caption.formula = name(&texts[4]);
        drawing.footnotes = vec![texts[5].clone()];
        drawing.caption.heading = name(&texts[1]);
        for scene in [pedigree::draw(&drawing), pedigree::on_phone(&drawing)] {
            prop_assert_eq!(fault_of_xml(&svg(&scene)), None);
            prop_assert!(png(&scene, 0.5).is_ok());
        }
        prop_assert!(pedigree_text(&drawing, 80).lines().all(|line| line.width() <= 80));
        if let Some(Err(said)) = graphviz(&dot(&drawing)) {
            prop_assert!(false, "Graphviz: {}", said);
        }
    }
}
