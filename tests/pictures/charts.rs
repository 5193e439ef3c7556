//! Charts: what they show, that labels keep apart, that dots do not hide each other.

use podbook::render::scene::{Mark, Scene};
use podbook::render::{chart, png, svg};
use podbook::report::chart::*;
use podbook::report::pedigree::*;

use crate::look::keep;
use crate::samples::Lots;
use crate::sketch::name;

fn spread_values(lots: &mut Lots, count: usize, middle: f64, around: f64) -> Vec<f64> {
    let one = |lots: &mut Lots| {
        (0..6)
            .map(|_| lots.below(1000) as f64 / 1000.0 - 0.5)
            .sum::<f64>()
            / 0.7
    };
    (0..count)
        .map(|_| ((middle + around * one(lots)) * 10.0).round() / 10.0)
        .collect()
}

fn dots(values: &[f64]) -> Vec<ChartDot> {
    values
        .iter()
        .map(|&value| ChartDot {
            value,
            ..ChartDot::default()
        })
        .collect()
}

fn interval(low: f64, middle: f64, high: f64) -> Option<ChartInterval> {
    Some(ChartInterval { low, middle, high })
}

fn siblings() -> SiblingsChart {
    let mut lots = Lots(3);
    let strip = |heading: &str, lots: &mut Lots, middle: f64, around: f64| {
        let mut first = dots(&spread_values(lots, 18, middle, around));
        first[4].label = Some("X20-09-14".into());
        first[7].doubtful = true;
        TraitStrip {
            heading: heading.into(),
            rows: vec![
                DotRow {
                    label: name("pod 1"),
                    dots: first,
                    interval: interval(middle - around * 0.3, middle, middle + around * 0.3),
                    remark: "n = 18, median 9.4".into(),
                    ..DotRow::default()
                },
                DotRow {
                    label: name("pod 2"),
                    dots: dots(&spread_values(lots, 31, middle + around, around)),
                    interval: interval(
                        middle + around * 0.8,
                        middle + around,
                        middle + around * 1.2,
                    ),
                    remark: "n = 31, median 11.0".into(),
                    ..DotRow::default()
                },
            ],
            parents: vec![
                ParentReading {
                    value: middle - 2.5 * around,
                    label: "C01 ventricosa".into(),
                    sex: Some(Sex::Female),
                },
                ParentReading {
                    value: middle + 2.2 * around,
                    label: "C04 truncata".into(),
                    sex: Some(Sex::Male),
                },
            ],
            ..TraitStrip::default()
        }
    };
    SiblingsChart {
        verdict: "The 49 siblings of X20-09 differ most in leaf span".into(),
        under: vec!["41 of the 49 numbered are in the collection".into()],
        title: name("Siblings of *ventricosa* × *truncata*, X20-09"),
        strips: vec![strip("leaf span, cm", &mut lots, 9.4, 1.6), strip("pitcher height, mm", &mut lots, 62.0, 14.0)],
        notes: vec![
            "Dots are seedlings; hollow: unit not confirmed. Line below: median with its 95 % interval.".into(),
            "3 readings left out: under 12 months.".into(),
        ],
    }
}

fn growth() -> GrowthChart {
    let mut lots = Lots(5);
    let curve = |rank: usize, lots: &mut Lots| {
        let rate = 0.09 + 0.015 * (lots.below(100) as f64 / 100.0);
        let size = |age: f64| 1.2 * libm::exp(rate * age * (1.0 - age / 90.0));
        let readings = (0..7)
            .map(|step| GrowthReading {
                age: 4.0 + 4.0 * step as f64,
                size: size(4.0 + 4.0 * step as f64),
                doubtful: rank == 2 && step == 4,
                ..GrowthReading::default()
            })
            .collect();
        GrowthCurve {
            label: format!("X20-09-{:02}", rank + 1),
            readings,
            fitted: Vec::new(),
            potted: if rank == 3 {
                vec![9.5, 22.0]
            } else {
                Vec::new()
            },
            focus: rank == 3,
            ..GrowthCurve::default()
        }
    };
    GrowthChart {
        title: name("Growth of X20-09, *ventricosa* × *truncata*"),
        across: "months from sowing".into(),
        up: "leaf span, cm".into(),
        curves: (0..12).map(|rank| curve(rank, &mut lots)).collect(),
        logarithmic: false,
        notes: vec![
            "X20-09-04 is the plant in question. Hollow: unit not confirmed, left out of the line."
                .into(),
        ],
    }
}

fn spread() -> VariationChart {
    let mut lots = Lots(9);
    let mut row = |label: &str, count: usize, middle: f64, around: f64| DotRow {
        label: name(label),
        dots: dots(&spread_values(&mut lots, count, middle, around)),
        interval: interval(middle - around * 0.4, middle, middle + around * 0.4),
        expected: Some((middle - 2.0 * around, middle + 2.0 * around)),
        remark: format!("n = {count}, CV {:.0} %", around / middle * 100.0),
    };
    let rows = vec![
        row("X19-01  *ventricosa* × *spathulata*", 24, 10.0, 0.7),
        row(
            "X20-09  (*ventricosa* × *spathulata*) × *truncata*",
            40,
            13.0,
            1.6,
        ),
        row("X21-03  *ampullaria* × *gracilis*", 5, 11.0, 2.2),
        row("X22-07  *burbidgeae* × *truncata*", 400, 17.0, 1.5),
    ];
    VariationChart {
        title: name("Does one cross vary more than another?"),
        heading: "leaf span at 20 months, cm".into(),
        rows,
        notes: vec![
            "Solid: median with interval. Dotted: where ancestry expects the middle 95 % to lie."
                .into(),
        ],
    }
}

fn shares() -> ParentageChart {
    let drawing = crate::samples::complex();
    let row = |code: &str| {
        let plant = drawing
            .plants
            .iter()
            .find(|plant| plant.code == code)
            .expect("the plant");
        SharesRow {
            label: plant.label[0].clone(),
            shares: plant.shares.clone(),
            either: Vec::new(),
            unknown_share: 0.0,
        }
    };
    let mut rows: Vec<SharesRow> = ["G1", "E1", "D2", "B1", "A1"].map(row).into();
    rows.push(SharesRow {
        label: name("X17 *burbidgeae* × unknown"),
        shares: vec![DrawnShare {
            species: 2,
            fraction: 0.5,
        }],
        either: Vec::new(),
        unknown_share: 0.5,
    });
    ParentageChart {
        title: name("What they descend from"),
        species: drawing.species.clone(),
        rows,
        notes: Vec::new(),
    }
}

fn plans() -> PlansChart {
    let row = |seed: &str, pollen: &str, pods: [u32; 2]| PlansRow {
        seed: seed.into(),
        pollen: pollen.into(),
        may_not_meet: seed == "X15-02-3",
        pods: pods.into(),
    };
    let facts = |worth: &str| vec!["14 pods".into(), worth.into(), "inbreeding 0.0625".into()];
    PlansChart {
        title: name("Pollinate 4 pairs for 14 pods in 280 pots"),
        plans: vec![
            ("the plan".into(), facts("worth 9.120")),
            ("next best".into(), facts("worth 0.044 less")),
        ],
        rows: vec![
            row("Ven1", "Spa1", [3, 3]),
            row("X18-01-12", "Tru1", [2, 0]),
            row("X15-02-3", "Ram1", [0, 2]),
            row("a-very-long-code-from-another-grower-17", "Ham1", [9, 9]),
        ],
        notes: vec!["Pairs that differ between the two plans are dark.".into()],
    }
}

fn show(file: &str, scene: &Scene) {
    let bytes = png(scene, 2.0).expect("the chart fits");
    keep(&format!("chart-{file}.png"), &bytes);
    keep(&format!("chart-{file}.svg"), svg(scene).as_bytes());
    for run in scene.texts() {
        let right = run.place.0 + podbook::render::scene::width(&run.text, run.face, run.size);
        assert!(
            run.place.0 >= 0.0 && right <= scene.width,
            "{file}: {:?} runs out of the chart",
            run.text
        );
        assert!(
            run.place.1 > 0.0 && run.place.1 < scene.height,
            "{file}: {:?} stands outside",
            run.text
        );
    }
}

#[test]
fn charts_keep_their_text_on_the_paper() {
    show(
        "siblings",
        &chart::siblings(&siblings(), chart::Look::SCREEN),
    );
    show("growth", &chart::growth(&growth(), chart::Look::SCREEN));
    show("spread", &chart::variation(&spread(), chart::Look::SCREEN));
    show("shares", &chart::parentage(&shares(), chart::Look::SCREEN));
    show("plans", &chart::plans(&plans(), chart::Look::SCREEN));
}

/// Every pair stands in both plans: with its number of pods, or a dash where a plan does not make it.
#[test]
fn each_pair_is_counted_in_both_plans() {
    let scene = chart::plans(&plans(), chart::Look::SCREEN);
    let said: Vec<&str> = scene.texts().map(|run| run.text.as_str()).collect();
    let count = |text: &str| said.iter().filter(|run| **run == text).count();
    assert_eq!(
        (count("3"), count("2"), count("–"), count("9")),
        (2, 2, 2, 2),
        "{said:?}"
    );
}

/// Pods whose flowers and pollen only perhaps meet are drawn hollow.
#[test]
fn a_pair_that_may_not_meet_is_hollow() {
    let scene = chart::plans(&plans(), chart::Look::SCREEN);
    let capsule = |mark: &&Mark| matches!(mark, Mark::Shape { fill: None, stroke: Some(pen), .. } if pen.width == 1.0);
    assert_eq!(scene.marks.iter().filter(capsule).count(), 2);
}

/// Parts too short for their names are named below the ribbon, and a line parts them from each other.
#[test]
fn short_parts_are_named_below_their_ribbon() {
    let species = ["ventricosa", "lowii", "maxima", "truncata"];
    let fractions = [0.8125, 0.0625, 0.0625, 0.0625];
    let shares = fractions.into_iter().enumerate();
    let chart = ParentageChart {
        title: name("What they descend from"),
        species: species.map(|of| name(&format!("*N. {of}*"))).into(),
        rows: vec![SharesRow {
            label: name("X26-02"),
            shares: shares
                .map(|(species, fraction)| DrawnShare { species, fraction })
                .collect(),
            either: Vec::new(),
            unknown_share: 0.0,
        }],
        notes: Vec::new(),
    };
    let scene = chart::parentage(&chart, chart::Look::SCREEN);
    let said: Vec<&str> = scene.texts().map(|run| run.text.as_str()).collect();
    let said = said.join("").replace(' ', "");
    assert!(
        said.contains("shortparts,lefttoright:1/16lowii,1/16maxima,1/16truncata"),
        "{said}"
    );
    let border = |mark: &&Mark| matches!(mark, Mark::Shape { fill: None, stroke: Some(pen), .. } if pen.width == 0.6);
    assert!(scene.marks.iter().filter(border).count() >= 4);
}

#[test]
fn charts_without_values_say_so() {
    let empty = [
        chart::siblings(&SiblingsChart::default(), chart::Look::SCREEN),
        chart::growth(&GrowthChart::default(), chart::Look::SCREEN),
        chart::variation(&VariationChart::default(), chart::Look::SCREEN),
        chart::parentage(&ParentageChart::default(), chart::Look::SCREEN),
        chart::plans(&PlansChart::default(), chart::Look::SCREEN),
    ];
    for scene in empty {
        assert!(scene.texts().any(|run| run.text == "no readings to show"));
        png(&scene, 1.0).expect("an empty chart is still a picture");
    }
}

#[test]
fn values_that_are_not_numbers_are_not_drawn() {
    let mut chart = siblings();
    chart.strips[0].rows[0].dots.push(ChartDot {
        value: f64::NAN,
        ..ChartDot::default()
    });
    chart.strips[0].rows[0].dots.push(ChartDot {
        value: f64::INFINITY,
        ..ChartDot::default()
    });
    assert_eq!(
        svg(&chart::siblings(&chart, chart::Look::SCREEN)),
        svg(&chart::siblings(&siblings(), chart::Look::SCREEN))
    );
}

#[test]
fn ticks_are_round_and_hold_all_values() {
    for (low, high) in [
        (0.0, 1.0),
        (9.6, 9.7),
        (-3.2, 17.0),
        (0.001, 0.0013),
        (5.0, 5.0),
        (0.0, 123_456.0),
        (-1e-7, 1e-7),
    ] {
        let scale = chart::Scale::linear([low, high].into_iter(), (0.0, 100.0), 6);
        assert!(
            (2..=14).contains(&scale.ticks.len()),
            "{low} to {high}: {:?}",
            scale.ticks
        );
        assert!(
            scale.at(low) >= -1e-6 && scale.at(high) <= 100.0 + 1e-6,
            "{low} to {high}: {:?}",
            scale.ticks
        );
        let step = scale.ticks[1] - scale.ticks[0];
        let lead = step / 10f64.powf(step.log10().floor());
        assert!(
            [1.0, 2.0, 5.0, 10.0]
                .iter()
                .any(|digit| (lead - digit).abs() < 1e-6),
            "step {step}"
        );
    }
    assert_eq!(chart::number(-0.04, 1), "0.0");
    assert_eq!(chart::number(-1.5, 1), "−1.5");
}

/// No two dots touch, and the swarm is no wider than stacking all dots of one place.
#[test]
fn a_swarm_hides_no_dot() {
    let mut lots = Lots(21);
    for count in [0, 1, 2, 30, 110] {
        let places: Vec<f64> = (0..count).map(|_| lots.below(200) as f64 / 2.0).collect();
        let offsets = chart::swarm(&places, 5.0);
        for one in 0..count {
            for other in 0..one {
                let (along, across) = (places[one] - places[other], offsets[one] - offsets[other]);
                assert!(
                    along * along + across * across > 25.0 - 1e-3,
                    "{count}: dots {one} and {other} touch"
                );
            }
        }
    }
    assert_eq!(chart::swarm(&[3.0, 3.0, 3.0], 2.0), [0.0, 2.0, -2.0]);
}

#[test]
fn bins_count_every_value_once() {
    assert_eq!(chart::bins(&[0.0, 0.5, 1.0, 1.0, 2.0], 0.0, 2.0, 2), [2, 3]);
    assert_eq!(chart::bins(&[4.0, 4.0], 4.0, 4.0, 3), [2, 0, 0]);
}

/// Values read evenly make even bars, and a bar stands over the values it holds.
#[test]
fn bars_hold_as_many_values_that_can_be_read() {
    let evenly: Vec<f64> = (20..=90).flat_map(|mm| [f64::from(mm) / 10.0; 4]).collect();
    assert_eq!(chart::step_of(&evenly), Some(0.1));
    for (least, each) in [(0.05, 4), (0.11, 8), (0.3, 12)] {
        let bars = chart::bars(&evenly, 0.1, least);
        let (last, whole) = bars.counts.split_last().expect("bars");
        assert!(
            whole.iter().all(|count| *count == each),
            "{:?}",
            bars.counts
        );
        assert!((1..=each).contains(last));
        assert_eq!(bars.counts.iter().sum::<usize>(), evenly.len());
    }
    let steps = chart::bars(&[1.0, 1.0, 3.0, 5.0], 1.0, 0.1);
    assert_eq!((steps.first, steps.apart), (1.0, 1.0));
    assert_eq!(steps.counts, [2, 0, 1, 0, 1]);
    assert_eq!(chart::bars(&[4.0, 4.0], 1.0, 1.0).counts, [2]);
    assert_eq!(chart::step_of(&[4.0, 4.0]), None);
    assert_eq!(chart::step_of(&[0.5, 1.25]), Some(0.75));
}

fn said(scene: &Scene) -> String {
    let texts: Vec<&str> = scene.texts().map(|run| run.text.as_str()).collect();
    texts.join(" ")
}

/// A strip of one row, on the screen.
fn strip_of(dots: Vec<ChartDot>, steps: Option<usize>) -> Scene {
    let strip = TraitStrip {
        steps,
        rows: vec![DotRow {
            dots,
            ..DotRow::default()
        }],
        ..TraitStrip::default()
    };
    let drawn = SiblingsChart {
        strips: vec![strip],
        ..SiblingsChart::default()
    };
    chart::siblings(&drawn, chart::Look::SCREEN).scene
}

/// Bars stand over the values that were read: one for each step of a scale, or of the ruler.
#[test]
fn a_bar_stands_over_each_step_read() {
    let bars = |values: &[f64], steps| {
        let bare = strip_of(Vec::new(), steps);
        let scene = strip_of(dots(values), steps);
        let filled = |scene: &Scene| {
            let shapes = scene.marks.iter().filter(|mark| {
                matches!(mark, Mark::Shape { path, fill: Some(_), stroke: None } if path.0.len() == 5)
            });
            shapes.count()
        };
        filled(&scene) - filled(&bare)
    };
    let steps: Vec<f64> = (0..300).map(|at| f64::from(1 + at % 3)).collect();
    assert_eq!(bars(&steps, Some(3)), 3);
    let sizes: Vec<f64> = (0..300).map(|at| f64::from(30 + at % 50) / 10.0).collect();
    assert_eq!(bars(&sizes, None), 50);
}

#[test]
fn signs_of_rows_are_explained_where_they_are_drawn() {
    let drawn = |dots| said(&strip_of(dots, None));
    let few = dots(&[1.0, 2.0, 3.0]);
    assert!(!drawn(few.clone()).contains("Empty dot"));
    let mut doubtful = few;
    doubtful[1].doubtful = true;
    assert!(drawn(doubtful).contains("Empty dot: a doubtful reading."));
    let many: Vec<f64> = (0..200).map(|at| f64::from(at % 30)).collect();
    assert!(drawn(dots(&many)).contains("Bars: how many plants"));
}

/// Letters that two species share, and `aff.`, name none: such parts are named below.
#[test]
fn short_parts_are_named_where_letters_tell_none_apart() {
    let ribbon = |names: [&str; 3]| {
        let share = |(species, fraction)| DrawnShare { species, fraction };
        let rows = vec![SharesRow {
            label: name("X"),
            shares: [(0, 0.75), (1, 0.125), (2, 0.125)].map(share).into(),
            ..SharesRow::default()
        }];
        said(&chart::parentage(
            &ParentageChart {
                species: names.map(podbook::wording::latin).into(),
                rows,
                ..ParentageChart::default()
            },
            chart::Look::SCREEN,
        ))
    };
    let alike = ribbon(["ventricosa", "glabrata", "glandulifera"]);
    assert!(
        alike.contains("short parts") && !alike.contains("gla."),
        "{alike}"
    );
    let provisional = ribbon(["ventricosa", "aff. truncata", "aff. hamata"]);
    assert!(provisional.contains("short parts"), "{provisional}");
    let apart = ribbon(["ventricosa", "truncata", "hamata"]);
    assert!(!apart.contains("short parts"), "{apart}");
}

#[test]
fn a_name_is_italic_but_for_what_is_no_latin() {
    assert_eq!(
        podbook::wording::latin("N. aff. truncata"),
        name("*N. *aff. *truncata*")
    );
    assert_eq!(
        podbook::wording::latin("N. truncata"),
        name("*N. truncata*")
    );
    assert_eq!(
        podbook::wording::latin("N. sp. \"Red\""),
        name("*N. *sp. \"Red\"")
    );
}

/// A line to a name is level as far as the field goes: a slant through it reads as a plant that shrinks.
#[test]
fn lines_to_names_are_level_in_the_field() {
    let curve = |(label, size): (&str, f64)| GrowthCurve {
        label: label.into(),
        readings: vec![GrowthReading {
            age: 1.0,
            size,
            ..GrowthReading::default()
        }],
        ..GrowthCurve::default()
    };
    let mut curves: Vec<GrowthCurve> = [("a", 1.0), ("b", 1.01), ("c", 1.02)].map(curve).into();
    curves[2].readings.push(GrowthReading {
        age: 9.0,
        size: 2.0,
        ..GrowthReading::default()
    });
    let scene = chart::growth(
        &GrowthChart {
            curves,
            ..GrowthChart::default()
        },
        chart::Look::SCREEN,
    );
    let ways = scene.marks.iter().filter_map(|mark| match mark {
        Mark::Shape {
            path,
            stroke: Some(_),
            ..
        } if path.0.len() == 3 => Some(path.0.clone()),
        _ => None,
    });
    let mut count = 0;
    for way in ways {
        let [from, edge, _] = way.iter().map(|step| step_end(*step)).collect::<Vec<_>>()[..] else {
            panic!("three places");
        };
        assert!(edge.0 >= from.0 && edge.1 == from.1, "{way:?}");
        count += 1;
    }
    assert_eq!(count, 3);
}

/// Lines for whose names there is no room are counted.
#[test]
fn lines_without_a_name_are_counted() {
    let drawn = |count: usize| {
        let curve = |at: usize| GrowthCurve {
            label: format!("X22-02-{at}"),
            readings: [1.0, 9.0]
                .map(|age| GrowthReading {
                    age,
                    size: age + at as f64 / 100.0,
                    ..GrowthReading::default()
                })
                .into(),
            ..GrowthCurve::default()
        };
        let chart = GrowthChart {
            curves: (0..count).map(curve).collect(),
            ..GrowthChart::default()
        };
        said(&chart::growth(&chart, chart::Look::SCREEN))
    };
    let many = drawn(200);
    let named = (0..200).filter(|at| many.split(' ').any(|of| of == format!("X22-02-{at}")));
    let unnamed = 200 - named.count();
    assert!(unnamed > 1, "{many}");
    assert!(
        many.contains(&format!("{unnamed} lines have no room for a name.")),
        "{many}"
    );
    assert!(!drawn(3).contains("no room"));
}

fn step_end(step: podbook::render::scene::Step) -> (f64, f64) {
    use podbook::render::scene::Step;
    match step {
        Step::Move(x, y) | Step::Line(x, y) | Step::Curve([.., x, y]) => (x, y),
        Step::Close => (0.0, 0.0),
    }
}

/// The slow twin: least squares by trying every way to pool neighbours.
#[test]
fn labels_keep_apart_at_least_cost() {
    let mut lots = Lots(2);
    for count in 1..=7 {
        let mut wishes: Vec<f64> = (0..count).map(|_| lots.below(40) as f64).collect();
        wishes.sort_by(f64::total_cmp);
        let placed = chart::within(&wishes, &vec![6.0; count], (-1e3, 1e3));
        let cost = |at: &[f64]| {
            at.iter()
                .zip(&wishes)
                .map(|(a, b)| (a - b) * (a - b))
                .sum::<f64>()
        };
        let sorted: Vec<usize> = (0..count).collect();
        let best = (0..1u32 << (count - 1))
            .filter_map(|cuts| {
                let mut at = vec![0.0; count];
                let mut from = 0;
                for to in 0..count {
                    if to + 1 == count || cuts >> to & 1 == 1 {
                        let run = &sorted[from..=to];
                        let first = run
                            .iter()
                            .enumerate()
                            .map(|(rank, &row)| wishes[row] - 6.0 * rank as f64)
                            .sum::<f64>()
                            / run.len() as f64;
                        run.iter()
                            .enumerate()
                            .for_each(|(rank, &row)| at[row] = first + 6.0 * rank as f64);
                        from = to + 1;
                    }
                }
                let apart = sorted
                    .windows(2)
                    .all(|pair| at[pair[1]] - at[pair[0]] > 6.0 - 1e-9);
                apart.then(|| cost(&at))
            })
            .fold(f64::INFINITY, f64::min);
        assert!(
            (cost(&placed) - best).abs() < 1e-9,
            "{wishes:?}: {placed:?}"
        );
    }
}
