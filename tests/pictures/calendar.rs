//! Calendars: over random rows labels have room, every row stands in the picture, and dots and bars stand at their days as
//! counted one by one from the left end.

use podbook::render::chart::{self, Look};
use podbook::render::scene::{Mark, Scene, Step};
use podbook::report::chart::*;

use crate::kindred::stays_on_its_pages;
use crate::room::{laid_out, some_words, value};
use crate::samples::Lots;
use crate::sketch::name;

fn row(lots: &mut Lots, at: usize, (from, until): (i32, i32)) -> CalendarRow {
    let span = (until - from) as usize;
    let first = from - 40 + lots.below(span + 80) as i32;
    let window = match lots.below(6) {
        0 => None,
        1 => Some((first, first)),
        2 => Some((i32::MIN, first)),
        3 => Some((first, i32::MAX)),
        _ => Some((first, first + lots.below(90) as i32)),
    };
    let is_late = window.is_some() && lots.below(7) == 0;
    CalendarRow {
        what: format!("row{at} {}", some_words(lots, 5)),
        details: (0..lots.below(3)).map(|_| some_words(lots, 9)).collect(),
        window,
        instead: match (window, is_late) {
            (None, _) => "no date".into(),
            (_, true) => "overdue since 2021-06-21".into(),
            _ => String::new(),
        },
    }
}

fn calendar(lots: &mut Lots) -> CalendarChart {
    let from = 738_000 + lots.below(400) as i32;
    let days = (from, from + [7, 30, 180, 900, 4000][lots.below(5)]);
    let mut at = 0;
    let mut group = |lots: &mut Lots| CalendarGroup {
        heading: format!(
            "X{:02}-{:02}-{}",
            lots.below(30),
            lots.below(9),
            lots.below(999)
        ),
        beside: match lots.below(2) {
            0 => String::new(),
            _ => some_words(lots, 3),
        },
        rows: (0..1 + lots.below(4))
            .map(|_| {
                at += 1;
                row(lots, at, days)
            })
            .collect(),
    };
    CalendarChart {
        title: name(&some_words(lots, 30)),
        under: vec![some_words(lots, 12)],
        days,
        ticks: calendar_ticks(days),
        today: CalendarEnd::First,
        has_boxes: value(lots, 1.0) < 0.5,
        groups: (0..1 + lots.below(9)).map(|_| group(lots)).collect(),
        notes: vec![some_words(lots, 30)],
    }
}

/// Left and right of every filled mark of a row, whose first line stands on `base`; arrows are left out, paper too.
fn bars(scene: &Scene, base: f64) -> Vec<(f64, f64)> {
    let middle = base - Look::SCREEN.label * (1.25 - 0.15 - 0.75);
    let marks = scene.marks.iter().filter_map(|mark| {
        let Mark::Shape {
            path,
            fill: Some(_),
            stroke,
        } = mark
        else {
            return None;
        };
        let ends: Vec<(f64, f64)> = path
            .0
            .iter()
            .filter_map(|step| match *step {
                Step::Move(x, y) | Step::Line(x, y) | Step::Curve([.., x, y]) => Some((x, y)),
                Step::Close => None,
            })
            .collect();
        let of = |pick: fn(f64, f64) -> f64, axis: fn(&(f64, f64)) -> f64| {
            ends.iter().map(axis).reduce(pick).expect("a path has ends")
        };
        let (top, bottom) = (of(f64::min, |at| at.1), of(f64::max, |at| at.1));
        let round = path.0.iter().any(|step| matches!(step, Step::Curve(_)));
        let here = ((top + bottom) / 2.0 - middle).abs() < 0.3;
        (here && (round || stroke.is_some()))
            .then(|| (of(f64::min, |at| at.0), of(f64::max, |at| at.0)))
    });
    marks.collect()
}

#[test]
fn days_stand_where_counting_puts_them() {
    let mut lots = Lots(91);
    let look = Look::SCREEN;
    let (start, stop) = (
        look.right() - look.room() * 0.44,
        look.right() - look.small * 0.5,
    );
    for trial in 0..80 {
        let drawn = calendar(&mut lots);
        let scene = laid_out(("calendar", trial), |look| chart::calendar(&drawn, look));
        stays_on_its_pages(
            &chart::calendar(&drawn, Look::A5).pages(),
            &format!("calendar {trial}"),
        );
        let (from, until) = drawn.days;
        let day = |day: i32| {
            let day = day.clamp(from, until);
            start + (stop - start) * f64::from(day - from) / f64::from(until - from)
        };
        for row in drawn.groups.iter().flat_map(|group| &group.rows) {
            let first = row.what.split(' ').next().expect("a word");
            let label = scene
                .texts()
                .find(|run| run.text.split(' ').next() == Some(first))
                .unwrap_or_else(|| panic!("calendar {trial}: {first} is lost"));
            let bars = bars(&scene, label.place.1);
            if !row.instead.is_empty() {
                assert!(bars.is_empty(), "calendar {trial}: {first}: {bars:?}");
                assert!(scene.texts().any(|run| {
                    (run.place.1 - label.place.1).abs() < look.label && run.text == row.instead
                }));
                continue;
            }
            let (earliest, latest) = row.window.expect("a row without words has days");
            let [(left, right)] = bars[..] else {
                panic!("calendar {trial}: {first}: one bar, found {bars:?}");
            };
            let (a, b) = (day(earliest), day(latest));
            let middle = (a + b) / 2.0;
            assert!(
                left <= middle + 2.3 && middle - 2.3 <= right,
                "calendar {trial}: {first}"
            );
            if b - a >= look.small * 0.5 {
                assert!(
                    (left - a).abs() < 0.01,
                    "calendar {trial}: {first}: {left} {a}"
                );
                assert!(
                    (right - b).abs() < 0.01,
                    "calendar {trial}: {first}: {right} {b}"
                );
            }
        }
    }
}

/// The days marked are the first of a month or year, or a week apart.
#[test]
fn ticks_are_days_people_know() {
    let first = podbook::record::Day::new(2021, 11, 17).expect("a day").0;
    let names = |until| {
        let ticks = calendar_ticks((first, first + until));
        ticks.into_iter().map(|(_, name)| name).collect::<Vec<_>>()
    };
    assert_eq!(names(15), ["17 Nov", "24 Nov", "1 Dec"]);
    assert_eq!(names(120), ["Dec", "2022", "Feb", "Mar"]);
    assert_eq!(names(1600), ["2022", "2023", "2024", "2025", "2026"]);
    for (day, name) in calendar_ticks((first, first + 1000)) {
        let (year, month, of_month) = podbook::record::Day(day).ymd().expect("a day");
        assert_eq!(of_month, 1);
        assert!(name == year.to_string() && month == 1 || name.len() == 3 && month > 1);
    }
}

/// Months are dropped where there is little room, but never the years.
#[test]
fn a_calendar_of_months_names_its_years() {
    let from = 739_000;
    for days in [200, 400, 500, 730, 900, 1090] {
        let chart = CalendarChart {
            days: (from, from + days),
            ticks: calendar_ticks((from, from + days)),
            groups: vec![CalendarGroup {
                rows: vec![CalendarRow::default()],
                ..CalendarGroup::default()
            }],
            ..CalendarChart::default()
        };
        let is_year = |name: &str| name.len() == 4 && name.starts_with("20");
        let years = chart.ticks.iter().filter(|(_, name)| is_year(name)).count();
        let scene = chart::calendar(&chart, Look::SCREEN);
        let drawn: Vec<&str> = scene.texts().map(|run| run.text.as_str()).collect();
        let named = drawn.iter().filter(|text| is_year(text)).count();
        // One at the right end may have no room.
        assert!(
            named + 1 >= years && (named > 0 || years < 2),
            "{days}: {drawn:?}"
        );
    }
}
