//! A registry that shows lengths in inches: every length of an answer is the centimetres divided by 2.54, and nothing
//! else changes; what the grower states is read in inches too.

use crate::bench_top::BenchTop;
use crate::demo::{ask, copied};
use serde_json::Value;

fn in_inches() -> BenchTop {
    copied().change("registry.ron", "show_lengths_in: cm", "show_lengths_in: in")
}

/// Fields that hold lengths, and fields that no unit can change.
const LENGTHS: [&str; 11] = [
    "mean",
    "median",
    "sd",
    "size",
    "smallest",
    "largest",
    "quartiles",
    "mean_between",
    "tied_within",
    "difference",
    "interval",
];
const UNITLESS: [&str; 12] = [
    "cv",
    "cv_between",
    "p",
    "g",
    "percent",
    "index",
    "shelves",
    "ratio",
    "expected",
    "growth_per_month",
    "fold",
    "n",
];

/// What was met: numbers of the lengths, numbers of the others.
#[derive(Default)]
struct Met {
    lengths: usize,
    others: usize,
}

/// Walks two answers side by side. `inherited` is the nearest field name that says what a number is.
fn compare(cm: &Value, inch: &Value, field: &str, met: &mut Met) {
    match (cm, inch) {
        (Value::Object(a), Value::Object(b)) => {
            assert!(a.keys().eq(b.keys()), "{field}: other fields");
            for (key, value) in a {
                // A rate and its limits are logarithms a month: no unit.
                let inside =
                    ["rate", "shared_rates", "survival", "germination"].contains(&key.as_str());
                let said = if inside || field == "rate" {
                    "rate"
                } else {
                    key
                };
                compare(value, &b[key], said, met);
            }
        }
        (Value::Array(a), Value::Array(b)) => {
            assert_eq!(a.len(), b.len(), "{field}");
            a.iter().zip(b).for_each(|(a, b)| compare(a, b, field, met));
        }
        (Value::Number(a), Value::Number(b)) => {
            let (a, b) = (a.as_f64().expect("finite"), b.as_f64().expect("finite"));
            let same = |a: f64, b: f64| (a - b).abs() <= 1e-7 * a.abs().max(b.abs());
            if LENGTHS.contains(&field) {
                met.lengths += 1;
                assert!(same(a / 2.54, b), "{field}: {a} cm told as {b} in");
            } else if UNITLESS.contains(&field) || field == "rate" {
                met.others += 1;
                assert!(same(a, b), "{field}: {a} became {b}");
            }
        }
        _ => {}
    }
}

#[test]
fn lengths_are_shown_in_inches_and_nothing_else_changes() {
    let (cm, inch) = (copied(), in_inches());
    for question in [
        "siblings X22-02 --trait span",
        "growth X22-02 --pods",
        "variation X15-02 X22-02",
        "grade X22-02.S1 --at 20",
        "select X22-02 --weigh span=1 --keep 3 --shelf 110x110 --pot 7",
    ] {
        let answer = |top: &BenchTop| -> Value {
            let run = ask(top.path(), &format!("{question} --json"));
            assert_eq!(run.exit, Some(0), "{question}: {run}");
            serde_json::from_str(&run.stdout).expect("the answer is JSON")
        };
        let mut met = Met::default();
        compare(&answer(&cm), &answer(&inch), "", &mut met);
        let least = if question.starts_with("select") {
            0
        } else {
            10
        };
        assert!(met.lengths >= least, "{question}: {} lengths", met.lengths);
        assert!(met.others >= 3, "{question}: {} others", met.others);
    }
}

/// The eighteen of X22-02 in May 2025, by hand: median 12.0 cm is 4.72 in, smallest 4.8 is 1.89, largest 23.5 is 9.25.
#[test]
fn tables_say_in_which_unit() {
    let told = |question: &str| ask(in_inches().path(), question).stdout;
    let words = |text: String| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let siblings = words(told("siblings X22-02 --trait span"));
    assert!(
        siblings.contains("leaf span, in, 32.0 months")
            && siblings.contains("all 18 4.72 3.51–5.66"),
        "{siblings}"
    );
    assert!(siblings.contains("1.89–9.25"), "{siblings}");
    let height = words(told("siblings X22-02 --trait height"));
    assert!(
        height.contains("pitcher height, mm"),
        "mm stay mm: {height}"
    );
    let growth = words(told("growth X22-02 --pods"));
    assert!(growth.contains("means 4.56 in and 5.06 in"), "{growth}");
    assert!(growth.contains("X22-02.P2 less 0.50 11 "), "{growth}");
    let spread = words(told("variation X15-02 X22-02"));
    assert!(spread.contains("leaf span, in"), "{spread}");
    let sort = words(told("grade X22-02.S1 --at 20"));
    assert!(sort.contains("within 0.28 in are tied"), "{sort}");
}

#[test]
fn what_is_stated_is_read_in_inches_and_told_with_its_unit() {
    let top = in_inches();
    let words = |question: &str| {
        let run = ask(top.path(), question);
        run.stdout.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    // 7.6 cm is 2.99 in: rounded to 3.0 it would seem to reach the level.
    let keep = words("select X22-02 --weigh span=1 --need span=3 --at-most height=60 --keep 3");
    assert!(
        keep.contains("needed leaf span at least 3 in, pitcher height at most 60 mm"),
        "{keep}"
    );
    let rows = words("select X22-02 --weigh span=1 --need span=3 --keep 3 --format csv");
    assert!(rows.contains("leaf span 2.99 in, below 3 in"), "{rows}");
    assert!(
        words("select X22-02 --weigh span=1 --need banding=3 --keep 3")
            .contains("needed rim banding at least 3")
    );
    // Numbers 3 and 4 lie 0.2 cm apart, 0.0787 in: tied within 0.08 in, which as centimetres would part them.
    let near = words("grade X22-02.S1 --at 20 --tied-within 0.08");
    assert!(near.contains("tied with X22-02-4"), "{near}");
    let apart = words("grade X22-02.S1 --at 20 --tied-within 0.07");
    assert!(apart.contains("within 0.07 in are tied"), "{apart}");
    assert!(!apart.contains("tied with "), "{apart}");
}
