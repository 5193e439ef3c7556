//! `podbook siblings`, `spread`, `sort` and `keep` asked wrongly: refused with what was found and what to do.

use crate::bench_top::BenchTop;

#[test]
fn what_is_asked_wrongly_is_refused() {
    let top = BenchTop::sound();
    for (arguments, words) in [
        (&["siblings", "X99-01"][..], "nothing on record is called"),
        (
            &["siblings", "X22-02", "--trait", "girth"],
            "no declared trait is called `girth`",
        ),
        (
            &["siblings", "X22-02", "--trait", "span", "--ratio", "3"],
            "such as 3:1",
        ),
        (
            &["siblings", "X22-02", "-o", "x.bmp"],
            "end it with .svg or .png",
        ),
        (
            &["spread", "X22-02", "X99-01"],
            "nothing on record is called",
        ),
        (&["sort", "X22-02", "--at=-2"], "not below zero"),
        (&["keep", "X22-02"], "no rule says what counts"),
        (&["keep", "X22-02", "--weigh", "span"], "span=1"),
        (
            &["keep", "X22-02", "--weigh", "span=1", "--shelf", "110"],
            "110x110",
        ),
        (
            &["keep", "X22-02", "--weigh", "span=1", "--minutes", "0"],
            "above zero",
        ),
    ] {
        let run = top.run(arguments);
        assert_eq!(run.exit, Some(2), "{arguments:?}: {run}");
        assert!(run.stderr.contains(words), "{arguments:?}: {run}");
    }
}
