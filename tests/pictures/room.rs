//! Labels of charts: over many random charts none covers another, none leaves the page, no line runs through one, and
//! what a picture must tell is never cut away.

use podbook::analysis::growth::Lived;
use podbook::render::chart::{self, Look, Sheet};
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
    for (at, (run, &mine)) in texts.iter().zip(&areas).enumerate() {
        assert!(
            mine[0] >= 0.0 && mine[1] <= scene.width && mine[2] >= 0.0 && mine[3] <= scene.height,
            "{of}: {:?} leaves the page: {mine:?}",
            run.text
        );
        for (other, &area) in texts[..at].iter().zip(&areas) {
            assert!(
                !cover(mine, area),
                "{of}: {:?} covers {:?}",
                run.text,
                other.text
            );
        }
    }
}

/// Draws for a screen, and in every fourth trial for a phone and for paper too: labels have room, the smallest letters are
/// as large as promised, and so it is on every page. Returns the picture for a screen.
pub fn laid_out((of, trial): (&str, usize), draw: impl Fn(Look) -> Sheet) -> Sheet {
    let of = &format!("{of} {trial}");
    let others = [Look::PHONE, Look::A4];
    for look in others.into_iter().filter(|_| trial % 4 == 0) {
        let sheet = draw(look);
        labels_have_room(&sheet, &format!("{of}, {look:?}"));
        let texts: Vec<&str> = sheet.texts().map(|run| run.text.as_str()).collect();
        let smallest = sheet.texts().map(|run| run.size).fold(99.0, f64::min);
        assert!(smallest >= look.small, "{of}: letters of {smallest}");
        assert_eq!(sheet.width, look.width);
        let pages = sheet.pages();
        for (rank, page) in pages.iter().enumerate() {
            labels_have_room(page, &format!("{of}, page {rank}, {look:?}"));
            if let Some(height) = look.height {
                assert_eq!(
                    page.height, height,
                    "{of}: page {rank} is longer than the paper"
                );
                let limits = (look.margin - 1.0, height - look.margin + 1.0);
                for y in heights(page) {
                    assert!(
                        limits.0 <= y && y <= limits.1,
                        "{of}: page {rank} is drawn on at {y}"
                    );
                }
            }
        }
        let on_pages = || pages.iter().flat_map(Scene::texts);
        for text in texts {
            assert!(
                on_pages().any(|run| run.text == text),
                "{of}: {text} is lost"
            );
        }
    }
    assert_eq!((Look::PHONE.small, Look::PHONE.width), (11.0, 360.0));
    let sheet = draw(Look::SCREEN);
    labels_have_room(&sheet, of);
    sheet
}

/// Heights at which outlines have a corner.
fn heights(scene: &Scene) -> impl Iterator<Item = f64> {
    let paths = scene.marks.iter().filter_map(|mark| match mark {
        Mark::Shape { path, .. } => Some(&path.0),
        _ => None,
    });
    paths.flatten().filter_map(|step| match step {
        Step::Move(_, y) | Step::Line(_, y) | Step::Curve([.., y]) => Some(*y),
        Step::Close => None,
    })
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

pub fn some_words(lots: &mut Lots, most: usize) -> String {
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

pub fn value(lots: &mut Lots, most: f64) -> f64 {
    lots.below(1000) as f64 / 1000.0 * most
}

fn row(lots: &mut Lots, most: f64, label: Name) -> DotRow {
    let numbered = lots.below(2) == 0;
    let dot = |lots: &mut Lots| ChartDot {
        value: value(lots, most),
        label: (lots.below(9) == 0).then(|| format!("X22-02-{}", lots.below(300))),
        doubtful: lots.below(5) == 0,
        number: match numbered {
            true => lots.below(2000).to_string(),
            false => String::new(),
        },
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

fn ratio(lots: &mut Lots) -> Option<RatioStrip> {
    let part = |lots: &mut Lots| RatioPart {
        label: some_words(lots, 5),
        n: lots.below(90) as u64,
        expected: value(lots, 90.0),
    };
    (lots.below(4) == 0).then(|| RatioStrip {
        verdict: "counted beside what 9:3:4 expects".into(),
        parts: (0..3).map(|_| part(lots)).collect(),
    })
}

/// A scale: plants stand in rows on its steps, which are written out below.
fn scale(lots: &mut Lots) -> TraitStrip {
    let steps = 2 + lots.below(8);
    let mut of = TraitStrip {
        steps: Some(steps),
        anchors: (0..steps).map(|_| some_words(lots, 4)).collect(),
        kinds: Vec::new(),
        ..strip(lots)
    };
    let values = of.rows.iter_mut().flat_map(|row| &mut row.dots);
    for dot in values {
        dot.value = 1.0 + lots.below(steps) as f64;
    }
    for row in &mut of.rows {
        row.interval = None;
    }
    for parent in &mut of.parents {
        parent.value = 1.0 + lots.below(steps) as f64;
    }
    of
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
        anchors: Vec::new(),
        ratio: ratio(lots),
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
        let drawn = SiblingsChart {
            verdict: some_words(&mut lots, 20),
            under: vec![some_words(&mut lots, 20)],
            title: formula(&mut lots, 6),
            strips: (0..strips)
                .map(|_| match lots.below(3) {
                    0 => scale(&mut lots),
                    _ => strip(&mut lots),
                })
                .collect(),
            notes: vec![some_words(&mut lots, 40)],
        };
        let scene = laid_out(("siblings", trial), |look| chart::siblings(&drawn, look));
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

/// Rows that no page holds go on from page to page, each page with the grid and the numbers of its axis.
#[test]
fn a_long_chart_goes_on_page_by_page() {
    let mut lots = Lots(11);
    let mut rows = || -> Vec<DotRow> {
        (0..90)
            .map(|_| {
                let label = formula(&mut lots, 4);
                let mut of = row(&mut lots, 20.0, label);
                // Numbers in the dots would be taken for those of the axis.
                of.dots.iter_mut().for_each(|dot| dot.number.clear());
                of
            })
            .collect()
    };
    let variation = VariationChart {
        title: name("How much the crosses vary"),
        heading: "leaf span, cm".into(),
        rows: rows(),
        notes: vec!["a note".into()],
    };
    let siblings = SiblingsChart {
        strips: vec![TraitStrip {
            heading: "span".into(),
            rows: rows(),
            ..TraitStrip::default()
        }],
        ..SiblingsChart::default()
    };
    let draws: [(&str, &dyn Fn(Look) -> Sheet); 2] = [
        ("variation", &|look| chart::variation(&variation, look)),
        ("siblings", &|look| chart::siblings(&siblings, look)),
    ];
    for (of, draw) in draws {
        laid_out((of, 0), draw);
        let pages = draw(Look::A4).pages();
        assert!(pages.len() > 2, "{of}: {} pages", pages.len());
        let numbers = |page: &Scene| -> Vec<String> {
            let texts = page.texts().map(|run| run.text.clone());
            texts.filter(|text| text.parse::<f64>().is_ok()).collect()
        };
        for page in &pages[..pages.len() - 1] {
            assert!(numbers(page).len() > 2, "{of}: a page without numbers");
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
        let drawn = VariationChart {
            title: name("How much the crosses vary"),
            heading: "leaf span, cm".into(),
            rows: labels.iter().map(|label| row(label, &mut lots)).collect(),
            notes: Vec::new(),
        };
        let scene = laid_out(("variation", trial), |look| chart::variation(&drawn, look));
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
        let drawn = SurvivalChart {
            title: name("Survival of X19-06"),
            across: "months from sowing".into(),
            up: "alive, %".into(),
            counted: "followed at that age".into(),
            curves: curves.clone(),
            notes: Vec::new(),
        };
        let scene = laid_out(("survival", trial), |look| chart::survival(&drawn, look));
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
                between: (trial % 3 == 0)
                    .then_some((4.0 * step as f64 + 1.0, 4.0 * step as f64 + 5.0)),
            };
            GrowthCurve {
                label: format!("X22-02-{}", lots.below(4000)),
                readings: (0..count).map(reading).collect(),
                focus: lots.below(6) == 0,
                group: lots.below(5),
                behind: vec![(0..count).map(reading).collect(); lots.below(3)],
                band: (0..lots.below(6))
                    .map(|step| (4.0 * step as f64 + 3.0, 1.0, 2.0 + step as f64))
                    .collect(),
                ..GrowthCurve::default()
            }
        };
        let count = 1 + lots.below(40);
        let drawn = GrowthChart {
            title: formula(&mut lots, 6),
            across: "months from sowing".into(),
            up: "leaf span, cm".into(),
            curves: (0..count).map(|_| curve(&mut lots)).collect(),
            logarithmic: lots.below(2) == 0,
            notes: vec![some_words(&mut lots, 40)],
        };
        laid_out(("growth", trial), |look| chart::growth(&drawn, look));
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
                either: Vec::new(),
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
        let scene = laid_out(("parentage", trial), |look| chart::parentage(&chart, look));
        let bare = |text: &str| text.split_whitespace().collect::<String>();
        let all: String = scene.texts().map(|run| run.text.as_str()).collect();
        for row in &chart.rows {
            let whole: String = row.label.iter().map(|run| run.text.as_str()).collect();
            assert!(bare(&all).contains(&bare(&whole)), "{trial}: {whole}");
        }
    }
}

fn grid_row(lots: &mut Lots, columns: &[GridColumn], has_index: bool) -> GridRow {
    let cell = |lots: &mut Lots, of: &GridColumn| {
        let value = match of.steps {
            Some(steps) => 1.0 + lots.below(steps) as f64,
            None => value(lots, 900.0),
        };
        (lots.below(6) > 0).then(|| GridCell {
            value,
            words: format!("{value:.1}"),
        })
    };
    let middle = value(lots, 8.0) - 4.0;
    GridRow {
        number: match lots.below(12) {
            0 => format!("X{}-02-{}", lots.below(99), lots.below(4000)),
            _ => lots.below(400).to_string(),
        },
        cells: columns.iter().map(|of| cell(lots, of)).collect(),
        index: (has_index && lots.below(4) > 0).then_some(ChartInterval {
            low: middle - 1.7,
            middle,
            high: middle + 1.7,
        }),
        remark: format!("{middle:+.1}"),
    }
}

fn grid(lots: &mut Lots) -> SelectGrid {
    let column = |lots: &mut Lots| GridColumn {
        heading: some_words(lots, 6),
        counts: "weight 2".into(),
        steps: (lots.below(2) == 0).then(|| 2 + lots.below(8)),
    };
    let columns: Vec<GridColumn> = (0..1 + lots.below(9)).map(|_| column(lots)).collect();
    let has_index = lots.below(4) > 0;
    let group = |lots: &mut Lots, heading: &str, gone: bool| {
        let count = 1 + lots.below(24);
        let row = |lots: &mut Lots| {
            let mut row = grid_row(lots, &columns, has_index && !gone);
            if gone {
                row.remark = "died 2024-05 (rot after a move to another pot)".into();
            }
            row
        };
        GridGroup {
            heading: format!("{heading} {count}"),
            is_kept: heading == "Keep",
            is_gone: gone,
            rows: (0..count).map(|_| row(lots)).collect(),
        }
    };
    let cross = |lots: &mut Lots| {
        let groups = [("Keep", false), ("Sell", false), ("No longer here", true)];
        let groups: Vec<GridGroup> = groups.map(|(of, gone)| group(lots, of, gone)).into();
        let kept = groups[0].rows.len();
        GridCross {
            id: format!("X{}-02", lots.below(99)),
            equal: vec![(0, lots.below(kept))],
            unsure: vec![(kept - 1, kept + lots.below(groups[1].rows.len()))],
            groups,
        }
    };
    SelectGrid {
        title: name(&some_words(lots, 40)),
        under: vec![some_words(lots, 20)],
        crosses: (0..1 + lots.below(3)).map(|_| cross(lots)).collect(),
        has_index,
        notes: vec![some_words(lots, 40)],
        columns: columns.clone(),
    }
}

/// Nothing overlaps, every plant and every heading of a group stands in the grid, and a page that begins within the rows
/// repeats the headings of its columns.
#[test]
fn a_grid_has_room_for_every_plant() {
    let mut lots = Lots(19);
    for trial in 0..60 {
        let grid = grid(&mut lots);
        let scene = laid_out(("grid", trial), |look| chart::select(&grid, look));
        let said = |text: &str| scene.texts().any(|run| run.text == text);
        brackets_keep_clear(&scene, &format!("grid {trial}"));
        let headings = chart::select(&grid, Look::A4).pages();
        for page in &headings {
            let rows = page
                .texts()
                .any(|run| run.text == "–" && run.place.1 < 300.0);
            let headed = page.texts().any(|run| run.text.starts_with("weight"));
            assert!(!rows || headed, "grid {trial}: a page without headings");
        }
        for group in grid.crosses.iter().flat_map(|cross| &cross.groups) {
            assert!(said(&group.heading), "grid {trial}: {}", group.heading);
            for row in &group.rows {
                let cut = row.number.len() > 6;
                assert!(cut || said(&row.number), "grid {trial}: {}", row.number);
            }
        }
    }
}

/// No bracket runs through a word: brackets are the upright strokes of their width.
fn brackets_keep_clear(scene: &Scene, of: &str) {
    let upright = |mark: &Mark| match mark {
        Mark::Shape {
            path,
            stroke: Some(pen),
            ..
        } if pen.width == 0.9 => match path.0[..] {
            [Step::Move(x, top), Step::Line(other, bottom)] if x == other => {
                Some([x, x, top, bottom])
            }
            _ => None,
        },
        _ => None,
    };
    for bracket in scene.marks.iter().filter_map(upright) {
        for run in scene.texts() {
            let [left, right, top, bottom] = area(run);
            assert!(
                !cover(
                    [bracket[0] - 0.4, bracket[1] + 0.4, bracket[2], bracket[3]],
                    [left, right, top, bottom]
                ),
                "{of}: a bracket runs through {:?}",
                run.text
            );
        }
    }
}

fn scatter(lots: &mut Lots) -> ScatterChart {
    let axis = |lots: &mut Lots| ScatterAxis {
        heading: format!("{}, more is better", some_words(lots, 6)),
        steps: (lots.below(2) == 0).then(|| 2 + lots.below(6)),
    };
    let (across, up) = (axis(lots), axis(lots));
    let read = |lots: &mut Lots, of: &ScatterAxis| match of.steps {
        Some(steps) => 1.0 + lots.below(steps) as f64,
        None => value(lots, 30.0),
    };
    let mut dots: Vec<ScatterDot> = Vec::new();
    for number in 0..1 + lots.below(60) {
        let at = (read(lots, &across), read(lots, &up));
        match dots.iter_mut().find(|dot| dot.at == at) {
            Some(dot) => dot.numbers.push(number.to_string()),
            None => dots.push(ScatterDot {
                at,
                numbers: vec![number.to_string()],
                is_kept: lots.below(5) == 0,
                is_on_front: false,
            }),
        }
    }
    ScatterChart {
        title: name(&some_words(lots, 30)),
        under: vec![some_words(lots, 12)],
        across,
        up,
        front: dots.iter().take(3).map(|dot| dot.at).collect(),
        dots,
        notes: vec![some_words(lots, 30)],
    }
}

/// Numbers stand on no other number, and every plant to keep is named in a tray of usual size.
#[test]
fn numbers_of_a_scatter_have_room() {
    let mut lots = Lots(23);
    for trial in 0..100 {
        let drawn = scatter(&mut lots);
        let scene = laid_out(("scatter", trial), |look| chart::scatter(&drawn, look));
        let kept = drawn
            .dots
            .iter()
            .filter(|dot| dot.is_kept && dot.numbers.len() < 4);
        for dot in kept.filter(|_| drawn.dots.len() < 20) {
            let numbers = dot.numbers.join(", ");
            let mut texts = scene.texts();
            assert!(
                texts.any(|run| run.text == numbers),
                "scatter {trial}: {numbers}"
            );
        }
    }
}
