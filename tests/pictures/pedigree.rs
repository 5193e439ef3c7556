//! The picture of descent: nothing overlaps, no line runs through a name, crossings are counted rightly, and every shape
//! of descent can be drawn.

use podbook::render::pedigree::{draw, layout, on_phone};
use podbook::render::scene::{Mark, Path, Scene, Step, TextRun, width};
use podbook::report::PedigreeDrawing;
use podbook::report::pedigree::*;

use crate::samples;
use crate::sketch::Sketch;

fn all() -> Vec<(&'static str, PedigreeDrawing)> {
    vec![
        ("tree", samples::tree()),
        ("complex", samples::complex()),
        ("uncertain", samples::uncertain()),
        ("long", samples::long_labels()),
        ("registry", samples::registry(120)),
        ("tangle", samples::tangle(90)),
    ]
}

#[test]
fn plants_keep_clear_of_each_other() {
    for (sample, drawing) in all() {
        let boxes = layout(&drawing).plant_boxes();
        assert_eq!(boxes.len(), drawing.plants.len());
        for one in 0..boxes.len() {
            for other in 0..one {
                let ([x, y, w, h], [a, b, c, d]) = (boxes[one], boxes[other]);
                let apart = x + w <= a || a + c <= x || y + h <= b + 0.01 || b + d <= y + 0.01;
                assert!(
                    apart,
                    "{sample}: plants {one} and {other} overlap: {:?} {:?}",
                    boxes[one], boxes[other]
                );
            }
        }
    }
}

/// Places along an outline, close enough that no letter fits between two of them.
fn places(path: &Path) -> Vec<(f64, f64)> {
    let (mut places, mut at) = (Vec::new(), (0.0, 0.0));
    for step in &path.0 {
        let [ax, ay, bx, by, x, y] = match *step {
            Step::Move(x, y) => {
                at = (x, y);
                continue;
            }
            Step::Line(x, y) => [at.0, at.1, x, y, x, y],
            Step::Curve(curve) => curve,
            Step::Close => continue,
        };
        for part in 0..=120 {
            let (t, u) = (f64::from(part) / 120.0, 1.0 - f64::from(part) / 120.0);
            let mix = |p: f64, q: f64, r: f64, s: f64| {
                u * u * u * p + 3.0 * u * u * t * q + 3.0 * u * t * t * r + t * t * t * s
            };
            places.push((mix(at.0, ax, bx, x), mix(at.1, ay, by, y)));
        }
        at = (x, y);
    }
    places
}

/// Lines of descent are the only strokes of their width.
fn lines(scene: &Scene) -> Vec<Path> {
    let path = |mark: &'_ Mark| match mark {
        Mark::Shape {
            path,
            stroke: Some(stroke),
            ..
        } if stroke.width == 1.05 => Some(path.clone()),
        _ => None,
    };
    scene.marks.iter().filter_map(path).collect()
}

fn is_sign(run: &TextRun) -> bool {
    ["♀", "♂", "?"].contains(&run.text.as_str())
}

#[test]
fn lines_never_run_through_names() {
    let scenes = all()
        .into_iter()
        .flat_map(|(sample, drawing)| [(sample, draw(&drawing)), (sample, on_phone(&drawing))]);
    for (sample, scene) in scenes {
        let names: Vec<&TextRun> = scene.texts().filter(|run| !is_sign(run)).collect();
        for path in lines(&scene) {
            let places = places(&path);
            let reach = |of: fn(&(f64, f64)) -> f64, pick: fn(f64, f64) -> f64, start: f64| {
                places.iter().map(of).fold(start, pick)
            };
            let top = reach(|place| place.1, f64::min, f64::INFINITY);
            let bottom = reach(|place| place.1, f64::max, f64::NEG_INFINITY);
            let near: Vec<&&TextRun> = names
                .iter()
                .filter(|run| run.place.1 > top && run.place.1 - run.size < bottom)
                .collect();
            for (x, y) in places {
                for run in &near {
                    let (left, base) = run.place;
                    let inside =
                        x > left + 0.5 && x < left + width(&run.text, run.face, run.size) - 0.5;
                    let through = inside && y > base - run.size * 0.6 && y < base;
                    assert!(
                        !through,
                        "{sample}: a line runs through {:?} at {x:.1} {y:.1}",
                        run.text
                    );
                }
            }
        }
    }
}

#[test]
fn names_stay_on_the_paper_and_every_plant_is_drawn_once() {
    for (sample, drawing) in all() {
        let scene = draw(&drawing);
        for run in scene.texts() {
            let right = run.place.0 + width(&run.text, run.face, run.size);
            assert!(
                run.place.0 >= 0.0 && right <= scene.width,
                "{sample}: {:?} leaves the paper",
                run.text
            );
            assert!(
                run.place.1 > 0.0 && run.place.1 < scene.height,
                "{sample}: {:?} leaves the paper",
                run.text
            );
        }
        for plant in &drawing.plants {
            let title = format!("{} ", plant.code);
            let groups = scene
                .marks
                .iter()
                .filter(|mark| matches!(mark, Mark::Open(text) if text.starts_with(&title)));
            assert_eq!(groups.count(), 1, "{sample}: {}", plant.code);
        }
    }
}

/// The slow twin: every two joined pairs between the same layers, compared by height.
#[test]
fn crossings_are_counted_rightly() {
    for (sample, drawing) in all() {
        let layout = layout(&drawing);
        let joints = layout.joints();
        let mut count = 0;
        for (rank, one) in joints.iter().enumerate() {
            for other in &joints[..rank] {
                let flipped = (one.1 - other.1) * (one.2 - other.2) < 0.0;
                count += usize::from(one.0 == other.0 && flipped);
            }
        }
        assert_eq!(layout.crossings(), count, "{sample}");
    }
}

#[test]
fn a_tree_is_drawn_without_crossings() {
    assert_eq!(layout(&samples::tree()).crossings(), 0);
    let one_way = [
        ("A", "C1", "C2"),
        ("B", "C3", "A"),
        ("D", "B", "C4"),
        ("E", "C5", "D"),
    ];
    let mut sketch = Sketch::default();
    (1..=5).for_each(|rank| _ = sketch.founder(&format!("C{rank}"), "mira", None));
    one_way
        .into_iter()
        .for_each(|(code, seed, pollen)| _ = sketch.cross(code, seed, pollen, ""));
    assert_eq!(layout(&sketch.drawing).crossings(), 0);
}

/// Broken lines of descent; that of the key has another width.
fn broken(scene: &Scene) -> usize {
    let broken = |mark: &&Mark| matches!(mark, Mark::Shape { stroke: Some(pen), .. } if pen.width == 1.05 && !pen.dash.is_empty());
    scene.marks.iter().filter(broken).count()
}

/// Whether a line ends at the left edge of the box of a plant.
fn is_joined(drawing: &PedigreeDrawing, row: usize) -> bool {
    let left = layout(drawing).plant_boxes()[row][0];
    let ends = |path: &Path| {
        places(path)
            .last()
            .is_some_and(|end| (end.0 - left).abs() < 0.5)
    };
    lines(&draw(drawing)).iter().any(ends)
}

/// A plant of two unknown parents is joined to its cross, also where no other plant stands before it.
#[test]
fn a_plant_of_unknown_parents_is_joined_to_its_cross() {
    let mut sketch = Sketch::default();
    let of_unknown = sketch.cross("B", "?", "?", "");
    assert!(is_joined(&sketch.drawing, of_unknown));
    sketch.founder("A", "mira", None);
    let child = sketch.cross("C", "A", "B", "");
    assert!(is_joined(&sketch.drawing, child) && is_joined(&sketch.drawing, of_unknown));
}

/// Siblings that are not drawn are no surer of one of several crosses than those drawn.
#[test]
fn siblings_of_one_of_two_crosses_hang_on_a_broken_line() {
    let mut sketch = Sketch::default();
    for code in ["A", "B", "C", "D"] {
        sketch.founder(code, "mira", None);
    }
    sketch.cross("X", "A", "B", "");
    sketch.cross_of("X").more_siblings = 2;
    assert_eq!(broken(&draw(&sketch.drawing)), 0);
    let mut other = sketch.drawing.crosses[0].clone();
    other.seed = DrawnParent::Known(sketch.row("C"));
    other.pollen = DrawnParent::Known(sketch.row("D"));
    other.more_siblings = 0;
    sketch.drawing.crosses.push(other);
    let scene = draw(&sketch.drawing);
    assert_eq!(broken(&scene), 3);
    assert!(scene.texts().any(|run| run.text.contains("broken")));
}

/// Every sign of the picture is explained in it, and no other.
#[test]
fn the_key_says_what_is_drawn() {
    let mut drawing = samples::tree();
    let said = |drawing: &PedigreeDrawing, words: &str| {
        let scene = draw(drawing);
        let all: Vec<&str> = scene.texts().map(|run| run.text.as_str()).collect();
        assert_eq!(
            all.join(" ").contains(words),
            podbook::render::dot(drawing).contains(words) || words.contains("bracket"),
            "{words}"
        );
        all.join(" ").contains(words)
    };
    let lost = "? on a line: ";
    assert!(said(&drawing, "♀ seed parent") && !said(&drawing, lost));
    assert!(!said(&drawing, "?: not known") && !said(&drawing, "broken line"));
    drawing.plants.last_mut().expect("a plant").unknown_share = 0.125;
    drawing.plants.last_mut().expect("a plant").shares[0].fraction -= 0.125;
    assert!(said(&drawing, "?: not known"));
    let last = drawing.crosses.len() - 1;
    drawing.crosses[last].direction_known = false;
    assert!(said(&drawing, "♀ seed parent") && said(&drawing, lost));
    for cross in &mut drawing.crosses {
        cross.direction_known = false;
    }
    assert!(!said(&drawing, "♀ seed parent") && said(&drawing, lost));
}

#[test]
fn brackets_are_explained() {
    for (pollen, words) in [
        ("B|C", "bracket at ×: one of these"),
        ("B+C", "bracket at ×: their pollen was mixed"),
    ] {
        let mut sketch = Sketch::default();
        for code in ["A", "B", "C"] {
            sketch.founder(code, "mira", None);
        }
        sketch.cross("X", "A", pollen, "");
        let has = |scene: Scene| {
            let all: Vec<&str> = scene.texts().map(|run| run.text.as_str()).collect();
            all.join(" ").contains(words)
        };
        assert!(
            has(draw(&sketch.drawing)) && !has(on_phone(&sketch.drawing)),
            "{pollen}"
        );
    }
}

#[test]
fn lines_are_broken_where_there_is_doubt_and_nowhere_else() {
    let mut drawing = samples::tree();
    let signs = |scene: &Scene, sign: &str| scene.texts().filter(|run| run.text == sign).count();
    for scene in [draw(&drawing), on_phone(&drawing)] {
        assert_eq!(broken(&scene), 0);
        assert_eq!((signs(&scene, "♀"), signs(&scene, "♂")), (7, 7));
        assert!(!scene.texts().any(|run| run.text.contains("broken")));
    }
    drawing.crosses[0].seed_doubtful = true;
    drawing.crosses[1].seed_doubtful = true;
    drawing.crosses[1].pollen_doubtful = true;
    for scene in [draw(&drawing), on_phone(&drawing)] {
        assert_eq!(broken(&scene), 3);
        assert!(scene.texts().any(|run| run.text.contains("broken")));
    }
}

#[test]
fn an_order_of_parents_that_is_lost_is_not_drawn_as_a_doubtful_parent() {
    let mut drawing = samples::tree();
    drawing.crosses[6].direction_known = false;
    let scene = draw(&drawing);
    assert_eq!(broken(&scene), 0);
    assert_eq!(scene.texts().filter(|run| run.text == "?").count(), 2);
    assert!(scene.texts().any(|run| run.text.contains("direction not")));
}

#[test]
fn unknown_parents_are_drawn_as_unknown() {
    let mut sketch = Sketch::default();
    sketch.founder("C1", "gracilis", Some(Sex::Female));
    sketch.cross("X1", "C1", "?", "*gracilis* × unknown");
    let scene = draw(&sketch.drawing);
    // In the box of the parent and in half of the squares of the offspring.
    assert_eq!(scene.texts().filter(|run| run.text == "?").count(), 1 + 4);
    let dotted = |mark: &&Mark| matches!(mark, Mark::Shape { fill: Some(_), stroke: Some(pen), .. } if pen.dash == [0.1, 2.6]);
    assert_eq!(scene.marks.iter().filter(dotted).count(), 1);
    assert!(scene.texts().any(|run| run.text.contains("unknown")));
}

#[test]
fn uncertain_parents_are_said_in_words() {
    let scene = draw(&samples::uncertain());
    for words in [
        "♂ one of 2",
        "♂ mixed, 3 plants",
        "direction not known",
        "from one of 2 crosses",
    ] {
        assert!(scene.texts().any(|run| run.text.contains(words)), "{words}");
    }
}

#[test]
fn a_picture_says_when_it_fits_no_sheet() {
    let notes = |drawing: &PedigreeDrawing| -> String {
        draw(drawing)
            .texts()
            .map(|run| run.text.clone())
            .collect::<Vec<_>>()
            .join("\n")
    };
    let mut small = Sketch::default();
    small.founder("C1", "mira", None);
    small.founder("C2", "hamata", None);
    small.cross("X1", "C1", "C2", "");
    let small = notes(&small.drawing);
    assert!(!small.contains("A4"), "{small}");
    let large = notes(&samples::registry(300));
    assert!(large.contains("A4"), "{large}");
}

#[test]
fn a_long_line_of_descent_is_laid_out() {
    let mut drawing = PedigreeDrawing::default();
    let generations = 3000;
    for row in 0..2 * generations {
        drawing.plants.push(DrawnPlant {
            code: format!("P{row}"),
            ..DrawnPlant::default()
        });
    }
    for row in 1..generations {
        drawing.crosses.push(DrawnCross {
            seed: DrawnParent::Known(row - 1),
            pollen: DrawnParent::Known(generations + row),
            direction_known: true,
            children: vec![row],
            ..DrawnCross::default()
        });
    }
    let layout = layout(&drawing);
    assert_eq!(layout.crossings(), 0);
    assert!(layout.size().0 > 100.0 * generations as f64);
}

#[test]
fn a_thousand_plants_are_laid_out() {
    let drawing = samples::registry(1000);
    assert_eq!(layout(&drawing).plant_boxes().len(), 1000);
}

#[test]
fn faulty_descent_is_drawn_as_far_as_it_goes() {
    let mut sketch = Sketch::default();
    sketch.founder("A", "mira", None);
    sketch.cross("B", "A", "?", "");
    // A raised from its own offspring, B crossed with itself, and a cross of nobody.
    sketch.drawing.crosses.push(DrawnCross {
        seed: DrawnParent::Known(1),
        children: vec![0],
        ..DrawnCross::default()
    });
    sketch.drawing.crosses.push(DrawnCross {
        seed: DrawnParent::Known(1),
        pollen: DrawnParent::Known(1),
        children: vec![1, 1],
        more_siblings: 3,
        ..DrawnCross::default()
    });
    sketch.drawing.crosses.push(DrawnCross {
        seed: DrawnParent::OneOf(Vec::new()),
        ..DrawnCross::default()
    });
    assert!(draw(&sketch.drawing).height > 0.0);
    assert!(draw(&PedigreeDrawing::default()).height > 0.0);
}

#[test]
fn siblings_that_are_not_drawn_are_counted() {
    let mut sketch = Sketch::default();
    sketch.founder("A", "mira", None);
    sketch.founder("B", "hamata", None);
    sketch.cross("X", "A", "B", "");
    sketch.cross_of("X").more_siblings = 1;
    let one = draw(&sketch.drawing);
    assert!(one.texts().any(|run| run.text == "and 1 more sibling"));
    sketch.cross_of("X").children.clear();
    sketch.drawing.crosses[0].more_siblings = 40;
    let none = draw(&sketch.drawing);
    assert!(none.texts().any(|run| run.text == "and 40 more siblings"));
}
