//! Inches, half inches, millimetres and a bare "10".

use crate::bench_top::BenchTop;
use insta::assert_snapshot;
use serde_json::Value;

fn registry() -> BenchTop {
    BenchTop::with([
        ("registry.ron", include_str!("bare_number/registry.ron")),
        ("species.ron", include_str!("bare_number/species.ron")),
        ("clones.ron", include_str!("bare_number/clones.ron")),
        (
            "crosses/X20-09.ron",
            include_str!("bare_number/crosses/X20-09.ron"),
        ),
    ])
}

#[test]
fn the_whole_answer() {
    assert_snapshot!(registry().run(&["growth", "X20-09-14", "A1", "A2"]));
}

/// 4 in and 3 1/2 in are 10.2 and 8.9 cm; "10" is +1.4 cm in 2.8 months as cm (0.053 a month after 0.029), and a rate
/// 13 times the earlier one as inches.
#[test]
fn the_figures() {
    let run = registry().run(&["growth", "X20-09-14", "A1", "A2", "--json"]);
    let answer: Value = serde_json::from_str(&run.stdout).expect("JSON");
    let number = |value: &Value| value.as_f64().expect("a number");
    let rounded = |value: &Value, by: f64| (by * number(value)).round() / by;
    let typed = |group: usize| &answer["groups"][group]["typed"][0];
    assert_eq!(typed(1)["typed"], "4in");
    assert_eq!(rounded(&typed(1)["size"], 10.0), 10.2);
    assert_eq!(typed(2)["typed"], "3 1/2\"");
    assert_eq!(rounded(&typed(2)["size"], 10.0), 8.9);
    let bare = &answer["unitless"][0];
    assert_eq!(bare["typed"], "10");
    for end in 0..2 {
        assert_eq!(rounded(&bare["months_since"][end], 10.0), 2.8);
        assert_eq!(rounded(&bare["expected_rate"][end], 1000.0), 0.029);
    }
    let (cm, inch) = (&bare["guesses"][0], &bare["guesses"][1]);
    assert_eq!(rounded(&cm["change"], 10.0), 1.4);
    assert_eq!(rounded(&cm["rate"][0], 1000.0), 0.053);
    assert_eq!(rounded(&inch["cm"], 10.0), 25.4);
    let times = number(&inch["rate"][0]) / number(&bare["expected_rate"][0]);
    assert_eq!(times.round(), 13.0);
    assert_eq!(bare["probably"], "cm");
    // Out of every figure: two readings count, not three.
    assert_eq!(answer["groups"][0]["each"][0]["readings"].as_u64(), Some(2));
    assert_eq!(
        answer["groups"][0]["left_out"]["unit_unknown"].as_u64(),
        Some(1)
    );
}

/// The point is drawn hollow, and the plant in question is named.
#[test]
fn the_bare_number_is_drawn_hollow() {
    let top = registry();
    let drawn = |top: &BenchTop| top.run(&["growth", "X20-09-14", "--format", "svg"]).stdout;
    let with = drawn(&top);
    assert!(with.contains("X20-09-14"));
    let sure = top.change(
        "crosses/X20-09.ron",
        "[\"14\", \"10\"]",
        "[\"14\", \"10 cm\"]",
    );
    assert_ne!(with, drawn(&sure));
    assert!(with.contains("has no unit") && !drawn(&sure).contains("has no unit"));
}
