//! Squares of descent: as many as the parts say, each with letters of its own, in a colour that never changes.

use podbook::render::dot;
use podbook::render::pedigree::{draw, letters_of, look_of, on_phone};
use podbook::render::scene::{Colour, Mark, Scene};
use podbook::report::PedigreeDrawing;
use podbook::report::pedigree::*;

use crate::layouts::family;
use crate::samples;
use crate::sketch::{Sketch, italic};

/// Fills and letters of the squares in the box of a plant, in order.
fn squares(scene: &Scene, code: &str) -> Vec<(Colour, String)> {
    let (mut squares, mut inside, mut fill) = (Vec::new(), false, None);
    for mark in &scene.marks {
        match mark {
            Mark::Open(title) => inside = title.starts_with(&format!("{code} ")),
            Mark::Close => inside = false,
            Mark::Shape {
                fill: Some(colour),
                stroke: Some(pen),
                ..
            } if inside && pen.width < 0.85 => fill = Some(colour.0),
            Mark::Text(run) if inside => {
                squares.extend(fill.take().map(|fill| (fill, run.text.clone())));
            }
            _ => {}
        }
    }
    squares
}

/// The slow twin: eighths counted species by species.
#[test]
fn as_many_squares_as_eighths_of_the_descent() {
    let drawing = samples::tree();
    let letters = letters_of(&drawing);
    for scene in [draw(&drawing), on_phone(&drawing)] {
        for plant in &drawing.plants {
            let drawn = squares(&scene, &plant.code);
            let all = if plant.kind == DrawnKind::Founder {
                1
            } else {
                8
            };
            assert_eq!(drawn.len(), all, "{}", plant.code);
            for share in &plant.shares {
                let expected = (share.fraction * all as f64).round() as usize;
                let of = drawn
                    .iter()
                    .filter(|(_, text)| *text == letters[share.species]);
                assert_eq!(of.count(), expected, "{}", plant.code);
            }
        }
    }
}

fn backcross(times: usize) -> PedigreeDrawing {
    let mut sketch = Sketch::default();
    sketch.founder("A", "ventricosa", None);
    sketch.founder("B", "spathulata", None);
    let mut last = "A".to_owned();
    for rank in 0..times {
        let code = format!("X{rank}");
        sketch.cross(&code, &last, "B", "");
        last = code;
    }
    sketch.drawing
}

#[test]
fn sixteenths_take_two_rows_and_finer_parts_are_written() {
    let drawing = backcross(5);
    let scene = draw(&drawing);
    assert_eq!(squares(&scene, "X2").len(), 8);
    let sixteenths = squares(&scene, "X3");
    assert_eq!(sixteenths.len(), 16);
    assert_eq!(
        sixteenths.iter().filter(|(_, text)| text == "ven").count(),
        1
    );
    let words =
        "each of eight squares: an expected eighth of the descent; each of sixteen: a sixteenth";
    let said: Vec<&str> = scene.texts().map(|run| run.text.as_str()).collect();
    assert!(said.join(" ").contains(words), "{said:?}");
    assert!(dot(&drawing).contains("each of sixteen: a sixteenth"));
    assert!(squares(&scene, "X4").is_empty());
    assert!(scene.texts().any(|run| run.text.contains("31/32")));
    assert!(dot(&drawing).contains("31/32"));
}

#[test]
fn what_is_not_known_and_what_is_one_of_several_has_signs_of_its_own() {
    let mut sketch = Sketch::default();
    sketch.founder("A", "mira", None);
    sketch.cross("X", "A", "?", "");
    let plant = sketch.plant("X");
    plant.unknown_share = 0.25;
    plant.either = vec![DrawnEither {
        of: "hamata or talangensis".into(),
        fraction: 0.25,
    }];
    let texts: Vec<String> = squares(&draw(&sketch.drawing), "X")
        .into_iter()
        .map(|(_, text)| text)
        .collect();
    assert_eq!(texts, ["mir", "mir", "mir", "mir", "or", "or", "?", "?"]);
}

#[test]
fn no_two_species_of_a_picture_have_the_same_letters() {
    let mut sketch = Sketch::default();
    for epithet in [
        "spathulata",
        "spa",
        "sparsa",
        "spathulifolia",
        "sp. \"x\"",
        "sp. x",
    ] {
        sketch.founder(epithet, epithet, None);
    }
    for drawing in (0..60)
        .map(family)
        .chain([sketch.drawing, samples::registry(90)])
    {
        let mut letters: Vec<String> = letters_of(&drawing);
        letters.retain(|letters| !letters.is_empty());
        let all = letters.len();
        letters.sort();
        letters.dedup();
        assert_eq!(letters.len(), all, "{letters:?}");
    }
}

#[test]
fn a_founder_that_is_added_changes_no_colour() {
    let drawing = samples::tree();
    let mut more = drawing.clone();
    more.species.insert(0, vec![italic("N. adnata")]);
    let shares = more.plants.iter_mut().flat_map(|plant| &mut plant.shares);
    shares.for_each(|share| share.species += 1);
    more.plants.push(DrawnPlant {
        code: "C99".into(),
        kind: DrawnKind::Founder,
        shares: vec![DrawnShare {
            species: 0,
            fraction: 1.0,
        }],
        ..DrawnPlant::default()
    });
    for draw in [draw, on_phone] {
        let (before, after) = (draw(&drawing), draw(&more));
        for plant in &drawing.plants {
            let of = |scene: &Scene| squares(scene, &plant.code);
            assert_eq!(of(&before), of(&after), "{}", plant.code);
            assert!(!of(&before).is_empty());
        }
    }
}

#[test]
fn the_genus_changes_no_colour() {
    let (with, without) = (vec![italic("N. mira")], vec![italic("mira")]);
    assert_eq!(look_of(Some(&with)), look_of(Some(&without)));
}
