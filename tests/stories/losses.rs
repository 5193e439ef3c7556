//! Who lives on: two pods of one pollination after a hot summer, deaths and departures on dates.

use crate::bench_top::BenchTop;
use insta::assert_snapshot;
use serde_json::Value;

fn registry() -> BenchTop {
    BenchTop::with([
        ("registry.ron", include_str!("losses/registry.ron")),
        ("species.ron", include_str!("losses/species.ron")),
        ("clones.ron", include_str!("losses/clones.ron")),
        (
            "crosses/X19-06.ron",
            include_str!("losses/crosses/X19-06.ron"),
        ),
    ])
}

#[test]
fn the_whole_answer() {
    assert_snapshot!(registry().run(&["growth", "X19-06", "--pods"]));
}

/// Sizes and what makes them less sure have no place where survival is asked; who is alive is the shares by hand below.
#[test]
fn survival_alone() {
    let asked = ["growth", "X19-06", "--pods", "--survival"];
    assert_snapshot!(registry().run(&asked));
    let one = registry().run(&["growth", "X19-06", "--survival"]);
    assert!(
        one.stdout.starts_with("Alive today: X19-06 19 of 33"),
        "{one}"
    );
    let none = registry().run(&["growth", "V3", "--survival"]);
    assert!(none.stdout.starts_with("No numbered plant of V3"), "{none}");
}

/// By hand for the first pod, numbered at six months: 20 followed, 3 die (17/20 live), 2 of 17 die (15/20), 1 of 15, 1 of
/// 14, 1 of 13 (12/20); two are sold and one more dies among 10; kept alive 12/20 × 9/10 = 54 %.
#[test]
fn the_steps() {
    let run = registry().run(&["growth", "X19-06", "--pods", "--json"]);
    let answer: Value = serde_json::from_str(&run.stdout).expect("JSON");
    let survival = &answer["groups"][0]["survival"];
    let steps = survival["steps"].as_array().expect("steps");
    let told: Vec<(u64, u64, f64)> = steps
        .iter()
        .map(|step| {
            let count = |name: &str| step[name].as_u64().expect("a count");
            let alive = step["survival"].as_f64().expect("a share");
            (count("at_risk"), count("deaths"), alive)
        })
        .collect();
    let expected = [
        (20, 3, 17.0 / 20.0),
        (17, 2, 15.0 / 20.0),
        (15, 1, 14.0 / 20.0),
        (14, 1, 13.0 / 20.0),
        (13, 1, 12.0 / 20.0),
        (10, 1, 12.0 / 20.0 * 9.0 / 10.0),
    ];
    assert_eq!(told.len(), expected.len());
    for (told, by_hand) in told.iter().zip(expected) {
        assert_eq!((told.0, told.1), (by_hand.0, by_hand.1));
        assert!((told.2 - by_hand.2).abs() < 1e-12, "{told:?}");
    }
    assert_eq!(survival["left"], 3);
    assert!(survival.get("lives").is_none(), "for the picture only");
}

/// Later means are of those that were left: the answer says so.
#[test]
fn means_of_survivors_are_called_so() {
    let run = registry().run(&["growth", "X19-06", "--pods"]);
    let words: Vec<&str> = run.stdout.split_whitespace().collect();
    let words = words.join(" ");
    assert!(words.contains("not the same plants each time"), "{run}");
    assert!(
        words.contains("later means are of those that were left"),
        "{run}"
    );
}
