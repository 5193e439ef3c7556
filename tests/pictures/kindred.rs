//! Merit and kinship as pictures: over random input labels have room, marks stand where the axis says, every figure stands
//! in the row and column of its two plants, and doubt can be seen without colour.

use podbook::render::chart::{self, Look};
use podbook::render::scene::{Mark, PAPER, SOFT, Scene, Step, TextRun, width};
use podbook::report::chart::*;

use crate::room::{laid_out, some_words, value};
use crate::samples::Lots;
use crate::sketch::name;

fn code(lots: &mut Lots) -> String {
    match lots.below(3) {
        0 => format!("Spa{}", lots.below(90)),
        1 => format!(
            "X{:02}-{:02}-{}",
            lots.below(30),
            lots.below(90),
            lots.below(4000)
        ),
        _ => format!("C-2019-{:03}/B", lots.below(900)),
    }
}

fn merit_row(lots: &mut Lots, at: usize) -> MeritChartRow {
    let middle = 100.0 - at as f64 * 7.0 + value(lots, 3.0);
    let known = [MeritKnown::Itself, MeritKnown::Offspring, MeritKnown::Mean];
    let is_open = lots.below(9) == 0;
    MeritChartRow {
        place: at + 1,
        plant: format!("{}-{at}", code(lots)),
        may_be_best: at < 3,
        interval: ChartInterval {
            low: middle - 1.0 - value(lots, 40.0),
            middle,
            high: match (is_open, lots.below(12)) {
                (true, _) => middle,
                (false, 0) => middle + 90_000.0,
                _ => middle + 1.0 + value(lots, 40.0),
            },
        },
        is_open,
        known: known[lots.below(3)],
        figure: match at {
            0 => String::new(),
            _ => format!("{} %", lots.below(50)),
        },
    }
}

fn merit(lots: &mut Lots) -> MeritChart {
    let count = 1 + lots.below(60);
    MeritChart {
        title: name(&some_words(lots, 30)),
        under: Vec::new(),
        heading: format!("{}, % above the mean", some_words(lots, 6)),
        figure: "better than the first".into(),
        rows: (0..count).map(|at| merit_row(lots, at)).collect(),
        notes: vec![some_words(lots, 40)],
    }
}

/// Whether a text is a figure of the axis.
fn number(run: &TextRun) -> Option<(f64, f64)> {
    let value: f64 = run.text.replace('−', "-").parse().ok()?;
    let middle = run.place.0 + width(&run.text, run.face, run.size) / 2.0;
    Some((value, middle))
}

/// The axis read off the picture: two of its figures and where they stand.
fn axis(scene: &Scene, heading: &TextRun) -> impl Fn(f64) -> f64 {
    let below = heading.place.1 + 1.25 * heading.size;
    let ticks: Vec<(f64, f64)> = scene
        .texts()
        .filter(|run| (run.place.1 - below).abs() < 0.01)
        .filter_map(number)
        .collect();
    let (first, last) = (ticks[0], ticks[ticks.len() - 1]);
    let step = (last.1 - first.1) / (last.0 - first.0);
    move |value| first.1 + (value - first.0) * step
}

/// Left and right of a path, and its middle height.
fn extent(path: &podbook::render::scene::Path) -> (f64, f64, f64) {
    let ends: Vec<(f64, f64)> = path
        .0
        .iter()
        .filter_map(|step| match *step {
            Step::Move(x, y) | Step::Line(x, y) => Some((x, y)),
            Step::Curve([.., x, y]) => Some((x, y)),
            Step::Close => None,
        })
        .collect();
    let of = |pick: fn(&(f64, f64)) -> f64, fold: fn(f64, f64) -> f64| {
        ends.iter().map(pick).reduce(fold).expect("a path has ends")
    };
    let (top, bottom) = (of(|at| at.1, f64::min), of(|at| at.1, f64::max));
    (
        of(|at| at.0, f64::min),
        of(|at| at.0, f64::max),
        (top + bottom) / 2.0,
    )
}

/// Marks at a height that have an area: whether they are hollow, round, and their middle across.
fn marks_at(scene: &Scene, y: f64) -> Vec<(bool, bool, f64)> {
    let marks = scene.marks.iter().filter_map(|mark| match mark {
        Mark::Shape {
            path,
            fill: Some(fill),
            ..
        } => {
            let (left, right, middle) = extent(path);
            let round = path.0.iter().any(|step| matches!(step, Step::Curve(_)));
            ((middle - y).abs() < 0.5 && right - left < 12.0).then_some((
                fill.0 == PAPER,
                round,
                (left + right) / 2.0,
            ))
        }
        _ => None,
    });
    marks.collect()
}

/// No shape leaves its page, and every page that has rows says what they are measured by.
pub fn stays_on_its_pages(pages: &[Scene], of: &str) {
    for page in pages {
        for mark in &page.marks {
            let Mark::Shape { path, .. } = mark else {
                continue;
            };
            for step in &path.0 {
                if let Step::Move(x, y) | Step::Line(x, y) | Step::Curve([.., x, y]) = *step {
                    let inside =
                        (0.0..=page.width).contains(&x) && (0.0..=page.height).contains(&y);
                    assert!(inside, "{of}: {x} {y}");
                }
            }
        }
        // The darker line at 0 is as long as the rows are many.
        let dark = page.marks.iter().filter(|mark| {
            matches!(mark, Mark::Shape { stroke: Some(stroke), .. } if stroke.colour == SOFT && stroke.width == 0.8)
        });
        let rows = page.texts().filter(|run| run.text.ends_with(" %"));
        if of.starts_with("merit") {
            let first = usize::from(
                page.texts()
                    .any(|run| run.text == "1" && run.size == Look::A4.small),
            );
            assert_eq!(dark.count(), rows.count() + first, "{of}: lines of rows");
        }
        let has_rows = page.texts().any(|run| run.text.ends_with(" %"));
        let headed = page.texts().any(|run| run.text == "the first");
        assert!(!has_rows || headed, "{of}: a page without headings");
    }
}

/// Level strokes at a height.
fn lines_at(scene: &Scene, y: f64) -> Vec<(f64, f64)> {
    let lines = scene.marks.iter().filter_map(|mark| match mark {
        Mark::Shape {
            path,
            stroke: Some(_),
            fill: None,
        } => match path.0[..] {
            [Step::Move(left, a), Step::Line(right, b)] if a == b && (a - y).abs() < 0.5 => {
                Some((left, right))
            }
            _ => None,
        },
        _ => None,
    });
    lines.collect()
}

#[test]
fn merit_stands_where_the_axis_says_and_doubt_is_seen() {
    let mut lots = Lots(41);
    for trial in 0..120 {
        let drawn = merit(&mut lots);
        let scene = laid_out(("merit", trial), |look| chart::merit(&drawn, look));
        let heading = scene
            .texts()
            .find(|run| {
                drawn.heading.starts_with(run.text.trim_end_matches('…')) && run.text.len() > 8
            })
            .expect("the axis is named")
            .clone();
        let at = axis(&scene, &heading);
        stays_on_its_pages(
            &chart::merit(&drawn, Look::A4).pages(),
            &format!("merit {trial}"),
        );
        for row in &drawn.rows {
            let label = scene
                .texts()
                .find(|run| run.text == row.plant)
                .unwrap_or_else(|| panic!("merit {trial}: {} is lost", row.plant));
            let y = label.place.1 - 0.32 * Look::SCREEN.label;
            let [(hollow, round, x)] = marks_at(&scene, y)[..] else {
                panic!("merit {trial}: {}: one mark", row.plant);
            };
            assert!(
                (x - at(row.interval.middle)).abs() < 0.6,
                "merit {trial}: {}",
                row.plant
            );
            assert_eq!(hollow, row.known == MeritKnown::Mean, "{}", row.plant);
            assert_eq!(round, row.known != MeritKnown::Offspring, "{}", row.plant);
            let bold = label.face == podbook::render::scene::Face::Bold;
            assert_eq!(bold, row.may_be_best);
            let [(low, high)] = lines_at(&scene, y)[..] else {
                panic!("merit {trial}: {}: one line", row.plant);
            };
            assert!(
                (low - at(row.interval.low)).abs() < 0.6,
                "merit {trial}: {}",
                row.plant
            );
            let told = at(row.interval.high);
            match row.is_open || told > high + 0.6 {
                // An end that is not known, or far outside, is no end: the line reaches the edge of the axis.
                true => assert!(high > x && high < Look::SCREEN.right(), "{}", row.plant),
                false => assert!((high - told).abs() < 0.6, "merit {trial}: {}", row.plant),
            }
        }
    }
}

/// Any merits and errors, finite or not, are drawn on the paper.
#[test]
fn the_oddest_merits_are_drawn() {
    let odd = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, 1e6, -1e6];
    for low in odd {
        for high in odd {
            let mut drawn = merit(&mut Lots(3));
            drawn.rows.truncate(1);
            drawn.rows[0].interval = ChartInterval {
                low,
                middle: 0.0,
                high,
            };
            let scene = chart::merit(&drawn, Look::SCREEN);
            crate::room::labels_have_room(&scene, &format!("{low} {high}"));
        }
    }
}

fn kinship(lots: &mut Lots) -> KinshipChart {
    let count = 2 + lots.below(39);
    let cell = |lots: &mut Lots| KinshipCell {
        kinship: Some(match lots.below(4) {
            0 => 0.0,
            1 => 0.001_953_125,
            _ => lots.below(65) as f64 / 64.0,
        }),
        is_expected: lots.below(5) == 0,
    };
    KinshipChart {
        title: name(&some_words(lots, 30)),
        under: vec![some_words(lots, 20)],
        plants: (0..count)
            .map(|at| format!("{}-{at}", code(lots)))
            .collect(),
        rows: (0..count)
            .map(|row| (0..=row).map(|_| cell(lots)).collect())
            .collect(),
        words: Vec::new(),
        notes: vec![some_words(lots, 30)],
    }
}

/// The figure that stands in the column of one plant and the row of another, found by their headings on the paper.
fn figure(scene: &Scene, row: &str, column: usize) -> String {
    let heading = (column + 1).to_string();
    let middle = |run: &TextRun| run.place.0 + width(&run.text, run.face, run.size) / 2.0;
    let label = |run: &&TextRun| run.text == row;
    let found = scene.texts().filter(label).find_map(|label| {
        // The heading of the stretch this row is in: the lowest above it.
        let above = scene.texts().filter(|run| {
            run.text == heading && run.place.1 < label.place.1 && run.place.0 > label.place.0 + 5.0
        });
        // Figures of rows above may read the same; headings have no code beside them.
        let headings = above.filter(|run| {
            let beside = |other: &TextRun| {
                (other.place.1 - run.place.1).abs() < 0.6 && other.size > run.size
            };
            !scene.texts().any(beside)
        });
        let heading = headings.max_by(|a, b| a.place.1.total_cmp(&b.place.1))?;
        let mut cells = scene.texts().filter(|run| {
            (run.place.1 - label.place.1).abs() < 0.6 && (middle(run) - middle(heading)).abs() < 0.6
        });
        cells.next().map(|run| run.text.clone())
    });
    found.unwrap_or_else(|| panic!("no figure of {row} and plant {heading}"))
}

#[test]
fn every_pair_has_its_figure() {
    let mut lots = Lots(57);
    for trial in 0..24 {
        let drawn = kinship(&mut lots);
        let sheet = laid_out(("kinship", trial), |look| chart::kinship(&drawn, look));
        let phone = chart::kinship(&drawn, Look::PHONE);
        stays_on_its_pages(
            &chart::kinship(&drawn, Look::A5).pages(),
            &format!("kinship {trial}"),
        );
        for scene in [&sheet.scene, &phone.scene] {
            for (row, cells) in drawn.rows.iter().enumerate() {
                for (column, cell) in cells.iter().enumerate() {
                    let told = figure(scene, &drawn.plants[row], column);
                    let kinship = cell.kinship.expect("every pair has one");
                    let by_hand = match told.contains('.') {
                        true => format!("{kinship:.4}"),
                        false if kinship > 0.0 && kinship < 0.005 => "<1".to_owned(),
                        false => ((kinship * 100.0 + 0.5).floor() as u32).to_string(),
                    };
                    assert_eq!(told, by_hand, "kinship {trial}: {row} {column}");
                }
            }
            let broken = scene.marks.iter().filter(|mark| {
                matches!(mark, Mark::Shape { stroke: Some(stroke), .. } if !stroke.dash.is_empty())
            });
            let expected = drawn.rows.iter().flatten().filter(|cell| cell.is_expected);
            assert_eq!(broken.count(), expected.count(), "kinship {trial}");
        }
    }
}

/// Seedlings of one cross differ in the ends of their codes, which stay where there is too little room.
#[test]
fn a_long_code_is_cut_in_its_middle() {
    let long = "X".repeat(60);
    let drawn = KinshipChart {
        plants: ["11", "12"].map(|end| format!("{long}-{end}")).into(),
        rows: vec![
            vec![KinshipCell::default()],
            vec![KinshipCell::default(); 2],
        ],
        ..KinshipChart::default()
    };
    let scene = chart::kinship(&drawn, Look::PHONE);
    let cut: Vec<&str> = scene.texts().map(|run| run.text.as_str()).collect();
    for end in ["-11", "-12"] {
        let whole = |of: &&&str| of.starts_with("XX") && of.contains('…') && of.ends_with(end);
        assert_eq!(cut.iter().filter(whole).count(), 1, "{cut:?}");
    }
}

#[test]
fn too_many_to_read_are_told_in_words() {
    let drawn = KinshipChart {
        title: name("Most closely related"),
        words: vec!["A1 and A2: at least 0.25 (1/4)".into(); 21],
        ..KinshipChart::default()
    };
    let scene = laid_out(("kinship", 0), |look| chart::kinship(&drawn, look));
    let lines = scene.texts().filter(|run| run.text.starts_with("A1 and"));
    assert_eq!(lines.count(), 21);
}
