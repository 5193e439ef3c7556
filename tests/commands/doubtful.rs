//! Readings under the trait's `doubtful_under_span_cm`: they count, and every answer that uses them says so.

use crate::bench_top::BenchTop;
use crate::demo::{ask, copied};

/// X18-01-9 with a leaf span when its rim was read last; 5 cm is where that stops being doubtful.
fn of_span(span: &str) -> BenchTop {
    let row = format!("[\"9\", \"{span}\", \"lower\", ");
    copied().change("crosses/X18-01.ron", "[\"9\", \"11.0\", \"lower\", ", &row)
}

#[test]
fn every_answer_that_counts_one_says_so() {
    let top = of_span("4.9");
    let of = |question: &str| {
        let run = ask(top.path(), question);
        run.stdout.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    for question in [
        "siblings X18-01 --trait banding",
        "select X18-01 --weigh banding=1",
        "merit --trait banding",
    ] {
        let words = of(question);
        assert!(
            words.contains("rim banding: 1 of ") || words.contains("rim banding: 2 of "),
            "{question}: {words}"
        );
        let doubt = "doubtful (leaf span under 5 cm), but counted";
        assert!(words.contains(doubt), "{question}: {words}");
    }
    let drawn = "siblings X18-01 --trait banding -o siblings.svg --today 2025-06-10";
    let run = top.run(&drawn.split(' ').collect::<Vec<_>>());
    assert_eq!(run.exit, Some(0), "{run}");
    let picture = crate::every_form::letters(&top.text("siblings.svg"));
    for words in ["Empty dot: a doubtful reading.", "(leaf span under 5 cm)"] {
        assert!(picture.contains(words), "{words}");
    }
    let show = of("show X18-01-9");
    assert!(
        show.contains("rim banding (doubtful: small plant)"),
        "{show}"
    );
    let card = of("card X18-01-9");
    assert!(
        card.contains("doubtful: the plant was still small"),
        "{card}"
    );
}

#[test]
fn a_plant_of_five_centimetres_is_none() {
    let top = of_span("5.0");
    for question in [
        "siblings X18-01 --trait banding",
        "select X18-01 --weigh banding=1",
        "show X18-01-9",
        "card X18-01-9",
    ] {
        let run = ask(top.path(), question);
        assert!(!run.stdout.contains("doubtful"), "{question}: {run}");
    }
}
