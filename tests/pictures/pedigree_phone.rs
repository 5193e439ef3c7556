//! The pedigree on a phone: one column, plants in the order of descent, lines that meet no box and cross no other.

use podbook::render::pedigree::on_phone;
use podbook::render::scene::{Mark, Scene, Step};
use podbook::report::pedigree::*;

use crate::layouts::family;
use crate::samples;
use crate::sketch::Sketch;

type Segment = [(f64, f64); 2];

fn segments(scene: &Scene) -> Vec<Vec<Segment>> {
    let lines = scene.marks.iter().filter_map(|mark| match mark {
        Mark::Shape {
            path,
            stroke: Some(pen),
            fill: None,
        } if pen.width == 1.05 => Some(path),
        _ => None,
    });
    let places = |path: &podbook::render::scene::Path| {
        let ends = path.0.iter().filter_map(|step| match *step {
            Step::Move(x, y) | Step::Line(x, y) => Some((x, y)),
            _ => None,
        });
        let ends: Vec<(f64, f64)> = ends.collect();
        ends.windows(2).map(|pair| [pair[0], pair[1]]).collect()
    };
    lines.map(places).collect()
}

/// Whether an upright and a level segment cross elsewhere than at an end.
fn cross(a: &Segment, b: &Segment) -> bool {
    let upright = |s: &Segment| s[0].0 == s[1].0;
    let (up, level) = match (upright(a), upright(b)) {
        (true, false) => (a, b),
        (false, true) => (b, a),
        _ => return false,
    };
    let (x, y) = (up[0].0, level[0].1);
    level[0].0 + 0.01 < x && x < level[1].0 - 0.01 && up[0].1 + 0.01 < y && y < up[1].1 - 0.01
}

#[test]
fn no_lines_cross() {
    for seed in 0..40 {
        let lines = segments(&on_phone(&family(seed)));
        for (at, one) in lines.iter().enumerate() {
            for other in &lines[..at] {
                let crossed = one.iter().any(|a| other.iter().any(|b| cross(a, b)));
                assert!(!crossed, "family {seed}: {one:?} {other:?}");
            }
        }
    }
}

/// Upper left corners of the boxes with their codes, from top to bottom.
fn column(scene: &Scene) -> Vec<(String, f64, f64)> {
    let mut column = Vec::new();
    let mut open: Option<String> = None;
    for mark in &scene.marks {
        match mark {
            Mark::Open(title) => open = title.split(' ').next().map(str::to_owned),
            Mark::Shape { path, .. } => {
                if let (Some(code), Some(Step::Move(x, y))) = (open.take(), path.0.first()) {
                    column.push((code, *x, *y));
                }
            }
            _ => {}
        }
    }
    column
}

#[test]
fn the_plant_on_offer_comes_first_and_seed_parents_before_pollen_parents() {
    let drawing = samples::tree();
    let column = column(&on_phone(&drawing));
    assert_eq!(column[0].0, "X23-06-12");
    assert!(column.windows(2).all(|pair| pair[0].2 < pair[1].2));
    let at = |row: usize| {
        let code = &drawing.plants[row].code;
        column.iter().find(|(of, ..)| of == code).expect("drawn")
    };
    for cross in &drawing.crosses {
        let (DrawnParent::Known(seed), DrawnParent::Known(pollen)) = (&cross.seed, &cross.pollen)
        else {
            panic!("both are known");
        };
        let (child, seed, pollen) = (at(cross.children[0]), at(*seed), at(*pollen));
        assert!(child.2 < seed.2 && seed.2 < pollen.2, "{}", cross.code);
        assert!(child.1 < seed.1 && seed.1 == pollen.1, "{}", cross.code);
    }
}

#[test]
fn a_plant_that_comes_again_is_only_named() {
    let mut sketch = Sketch::default();
    sketch.founder("A", "mira", None);
    sketch.founder("B", "hamata", None);
    sketch.cross("F1", "A", "B", "");
    sketch.cross("BC", "F1", "B", "");
    sketch.cross("Z", "BC", "F1", "");
    sketch.plant("Z").focus = true;
    let scene = on_phone(&sketch.drawing);
    let told = scene.texts().filter(|run| run.text.contains("see above"));
    assert_eq!(told.count(), 1);
    let drawn = column(&scene);
    assert_eq!(drawn.iter().filter(|(code, ..)| code == "F1").count(), 2);
}

#[test]
fn a_line_of_many_generations_keeps_its_letters_and_its_width() {
    let mut sketch = Sketch::default();
    sketch.founder("B", "hamata", None);
    sketch.founder("P0", "mira", None);
    for rank in 1..60 {
        sketch.cross(&format!("P{rank}"), &format!("P{}", rank - 1), "B", "");
    }
    sketch.plant("P59").focus = true;
    let scene = on_phone(&sketch.drawing);
    crate::room::labels_have_room(&scene, "sixty generations");
    assert!(scene.texts().all(|run| run.size >= 11.0));
}
