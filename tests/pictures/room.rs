//! Labels of charts: over many random charts none covers another, none leaves the page, no line runs through one, and
//! what a picture must tell is never cut away.

use podbook::analysis::growth::Lived;
use podbook::render::chart;
use podbook::render::scene::{Mark, Scene, Step, TextRun, width};
use podbook::report::chart::*;
use podbook::report::pedigree::{DrawnShare, Sex};
use podbook::wording::Name;

use crate::samples::Lots;
use crate::sketch::name;

/// Left, right, top and bottom of a text, from its widest letters to its baseline.
fn area(run: &TextRun) -> [f64; 4] {
    let (x, y) = run.place;
    [
        x,
        x + width(&run.text, run.face, run.size),
        y - 0.66 * run.size,
        y + 0.2 * run.size,
    ]
}

fn cover(a: [f64; 4], b: [f64; 4]) -> bool {
    a[0] + 0.3 < b[1] && b[0] + 0.3 < a[1] && a[2] + 0.3 < b[3] && b[2] + 0.3 < a[3]
}

pub fn labels_have_room(scene: &Scene, of: &str) {
    let texts: Vec<&TextRun> = scene
        .texts()
        .filter(|run| !run.text.trim().is_empty())
        .collect();
    let areas: Vec<[f64; 4]> = texts.iter().map(|run| area(run)).collect();
    for (at, run) in texts.iter().enumerate() {
        let mine = areas[at];
        assert!(
            mine[0] >= 0.0 && mine[1] <= scene.width && mine[2] >= 0.0 && mine[3] <= scene.height,
            "{of}: {:?} leaves the page: {mine:?}",
            run.text
        );
        for (other, &theirs) in texts.iter().zip(&areas[..at]) {
            assert!(
                !cover(mine, theirs),
                "{of}: {:?} covers {:?}",
                run.text,
                other.text
            );
        }
    }
}

/// The upright lines that mark parents, by the colours no grid has.
fn upright_lines(scene: &Scene) -> Vec<[f64; 3]> {
    let lines = scene.marks.iter().filter_map(|mark| match mark {
        Mark::Shape {
            path,
            stroke: Some(stroke),
            ..
        } if stroke.width == 0.9 => match path.0[..] {
            [Step::Move(x, top), Step::Line(other, bottom)] if x == other => {
                Some([x, top.min(bottom), top.max(bottom)])
            }
            _ => None,
        },
        _ => None,
    });
    lines.collect()
}

const WORDS: [&str; 7] = [
    "span",
    "of",
    "the",
    "newest",
    "pitcher,",
    "peristome-and-column",
    "cm",
];

fn some_words(lots: &mut Lots, most: usize) -> String {
    let words = (0..=lots.below(most)).map(|_| WORDS[lots.below(WORDS.len())]);
    words.collect::<Vec<_>>().join(" ")
}

fn formula(lots: &mut Lots, brackets: usize) -> Name {
    let mut text = "*N. ventricosa*".to_owned();
    for _ in 0..lots.below(brackets) {
        text = format!("(♀ {text} × ♂ *N. spathulata*)");
    }
    name(&format!("X22-02  {text}"))
}

fn value(lots: &mut Lots, most: f64) -> f64 {
    lots.below(1000) as f64 / 1000.0 * most
}

fn row(lots: &mut Lots, most: f64, label: Name) -> DotRow {
    let dot = |lots: &mut Lots| ChartDot {
        value: value(lots, most),
        label: (lots.below(9) == 0).then(|| format!("X22-02-{}", lots.below(300))),
        doubtful: lots.below(5) == 0,
    };
    let count = lots.below(30);
    let middle = value(lots, most);
    DotRow {
        label,
        dots: (0..count).map(|_| dot(lots)).collect(),
        interval: (lots.below(3) > 0).then_some(ChartInterval {
            low: middle * 0.8,
            middle,
            high: middle * 1.2,
        }),
        expected: None,
        remark: match lots.below(4) {
            0 => String::new(),
            _ => format!(
                "mean {middle:.1} ({:.1}–{:.1}, 95 %)",
                middle * 0.8,
                middle * 1.2
            ),
        },
    }
}

fn strip(lots: &mut Lots) -> TraitStrip {
    let most = [5.0, 30.0, 900.0, 0.4][lots.below(4)];
    let kinds = lots.below(5) == 0;
    let label = |lots: &mut Lots| name(&format!("P{}, n {}", lots.below(4), lots.below(200)));
    let parent = |lots: &mut Lots| ParentReading {
        value: value(lots, most),
        label: format!("X{}-02-{}", lots.below(30), lots.below(500)),
        sex: [None, Some(Sex::Female), Some(Sex::Male)][lots.below(3)],
    };
    let bar = |lots: &mut Lots| KindBar {
        kind: some_words(lots, 6),
        n: lots.below(400) as u64,
        remark: format!("12 % (3–40 %); ♀ {}", some_words(lots, 8)),
    };
    let (rows, parents) = (1 + lots.below(3), lots.below(4));
    TraitStrip {
        heading: some_words(lots, 25),
        rows: (0..rows)
            .map(|_| {
                let label = label(lots);
                row(lots, most, label)
            })
            .collect(),
        steps: None,
        parents: (0..parents).map(|_| parent(lots)).collect(),
        kinds: match kinds {
            true => vec![KindGroup {
                label: some_words(lots, 3),
                bars: (0..4).map(|_| bar(lots)).collect(),
            }],
            false => Vec::new(),
        },
    }
}

#[test]
fn labels_of_siblings_have_room() {
    let mut lots = Lots(77);
    for trial in 0..400 {
        let strips = 1 + lots.below(3);
        let scene = chart::siblings(&SiblingsChart {
            title: formula(&mut lots, 6),
            strips: (0..strips).map(|_| strip(&mut lots)).collect(),
            notes: vec![some_words(&mut lots, 40)],
        });
        labels_have_room(&scene, &format!("siblings {trial}"));
        for run in scene.texts() {
            let text = area(run);
            for line in upright_lines(&scene) {
                let through = text[0] < line[0] && line[0] < text[1];
                assert!(
                    !(through && line[1] < text[3] && text[2] < line[2]),
                    "siblings {trial}: a parent's line runs through {:?}",
                    run.text
                );
            }
        }
    }
}

/// The whole formula and its n stand in the picture, broken between words only.
#[test]
fn a_long_formula_keeps_its_end_and_its_number() {
    let mut lots = Lots(5);
    for trial in 0..200 {
        let labels: Vec<Name> = (0..3).map(|_| formula(&mut lots, 9)).collect();
        let row = |label: &Name, lots: &mut Lots| DotRow {
            remark: "n 1234, CV 42 %".into(),
            ..row(lots, 20.0, label.clone())
        };
        let scene = chart::variation(&VariationChart {
            title: name("How much the crosses vary"),
            heading: "leaf span, cm".into(),
            rows: labels.iter().map(|label| row(label, &mut lots)).collect(),
            notes: Vec::new(),
        });
        labels_have_room(&scene, &format!("variation {trial}"));
        let all: String = scene.texts().map(|run| run.text.as_str()).collect();
        let bare = |text: &str| text.split_whitespace().collect::<String>();
        assert_eq!(all.matches("n 1234, CV 42 %").count(), 3, "{all}");
        for label in &labels {
            let whole: String = label.iter().map(|run| run.text.as_str()).collect();
            assert!(
                bare(&all).contains(&bare(&whole)),
                "{trial}: {whole} in {all}"
            );
        }
        for run in scene.texts() {
            let alone = run.text.ends_with("N.") || run.text.ends_with(['♀', '♂']);
            assert!(!alone, "{trial}: {:?} ends a line", run.text);
        }
    }
}

fn lives(lots: &mut Lots) -> Vec<Lived> {
    let count = 1 + lots.below(40);
    let life = |lots: &mut Lots| {
        let from = if lots.below(2) == 0 {
            0.0
        } else {
            value(lots, 30.0)
        };
        Lived {
            from,
            until: from + 0.1 + value(lots, 50.0),
            died: lots.below(3) == 0,
        }
    };
    (0..count).map(|_| life(lots)).collect()
}

fn survival_curve(lots: &mut Lots) -> SurvivalCurve {
    let lives = lives(lots);
    let mut ages: Vec<f64> = lives
        .iter()
        .filter(|life| life.died)
        .map(|life| life.until)
        .collect();
    ages.sort_by(f64::total_cmp);
    let fall = |(rank, age): (usize, f64)| SurvivalFall {
        age,
        alive: 100.0 - 2.0 * rank as f64,
        limits: None,
    };
    SurvivalCurve {
        label: format!("X{}-06.P{}", lots.below(30), lots.below(9)),
        steps: ages.into_iter().enumerate().map(fall).collect(),
        lives,
    }
}

#[test]
fn labels_of_survival_have_room_and_every_plant_is_counted() {
    let mut lots = Lots(31);
    for trial in 0..200 {
        let curves: Vec<SurvivalCurve> = (0..1 + lots.below(6))
            .map(|_| survival_curve(&mut lots))
            .collect();
        let scene = chart::survival(&SurvivalChart {
            title: name("Survival of X19-06"),
            across: "months from sowing".into(),
            up: "alive, %".into(),
            counted: "followed at that age".into(),
            curves: curves.clone(),
            notes: Vec::new(),
        });
        labels_have_room(&scene, &format!("survival {trial}"));
        let ages = curves.iter().flat_map(|curve| &curve.lives);
        let ages = ages.map(|life| life.until).chain([0.0]);
        let ticks = chart::Scale::linear(ages, (0.0, 1.0), 7).ticks;
        for curve in &curves {
            // By counting one plant after the other, at every tick.
            let mut by_hand = Vec::new();
            for tick in &ticks {
                let mut followed = 0;
                for life in &curve.lives {
                    let begun = life.from < *tick || (*tick == 0.0 && life.from == 0.0);
                    if begun && life.until >= *tick {
                        followed += 1;
                    }
                }
                by_hand.push(followed.to_string());
            }
            let told = scene.texts().filter(|run| run.text == curve.label);
            let rows = told.map(|label| {
                let beside = scene.texts().filter(|run| run.place.1 == label.place.1);
                let row = beside.filter(|run| run.place.0 < label.place.0);
                row.map(|run| run.text.clone()).collect::<Vec<_>>()
            });
            assert!(
                rows.into_iter().any(|row| row == by_hand),
                "survival {trial}: {} {by_hand:?}",
                curve.label
            );
        }
    }
}

#[test]
fn labels_of_growth_have_room() {
    let mut lots = Lots(12);
    for trial in 0..200 {
        let curve = |lots: &mut Lots| {
            let (count, size) = (1 + lots.below(6), 1.0 + value(lots, 3.0));
            let reading = |step: usize| GrowthReading {
                age: 4.0 * step as f64 + 3.0,
                size: size * libm::exp(0.3 * step as f64),
                doubtful: step == 4,
            };
            GrowthCurve {
                label: format!("X22-02-{}", lots.below(4000)),
                readings: (0..count).map(reading).collect(),
                focus: lots.below(6) == 0,
                ..GrowthCurve::default()
            }
        };
        let count = 1 + lots.below(40);
        let scene = chart::growth(&GrowthChart {
            title: formula(&mut lots, 6),
            across: "months from sowing".into(),
            up: "leaf span, cm".into(),
            curves: (0..count).map(|_| curve(&mut lots)).collect(),
            logarithmic: lots.below(2) == 0,
            notes: vec![some_words(&mut lots, 40)],
        });
        labels_have_room(&scene, &format!("growth {trial}"));
    }
}

#[test]
fn labels_of_shares_have_room_and_formulas_are_whole() {
    let mut lots = Lots(8);
    let epithets = ["spathulata", "ventricosa", "burbidgeae", "truncata", "mira"];
    for trial in 0..200 {
        let row = |lots: &mut Lots| {
            let mut left = 16;
            let mut shares = Vec::new();
            for species in 0..epithets.len() {
                let part = lots.below(left + 1);
                left -= part;
                if part > 0 {
                    shares.push(DrawnShare {
                        species,
                        fraction: part as f64 / 16.0,
                    });
                }
            }
            SharesRow {
                label: formula(lots, 9),
                shares,
                unknown_share: left as f64 / 16.0,
            }
        };
        let chart = ParentageChart {
            title: name("What they descend from"),
            species: epithets
                .iter()
                .map(|epithet| name(&format!("*{epithet}*")))
                .collect(),
            rows: (0..4).map(|_| row(&mut lots)).collect(),
            notes: Vec::new(),
        };
        let scene = chart::parentage(&chart);
        labels_have_room(&scene, &format!("parentage {trial}"));
        let bare = |text: &str| text.split_whitespace().collect::<String>();
        let all: String = scene.texts().map(|run| run.text.as_str()).collect();
        for row in &chart.rows {
            let whole: String = row.label.iter().map(|run| run.text.as_str()).collect();
            assert!(bare(&all).contains(&bare(&whole)), "{trial}: {whole}");
        }
    }
}
