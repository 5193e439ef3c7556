//! No answer holds a minus zero: a difference of nothing has no direction.

use crate::demo::demo;

/// Places of a minus zero: a hyphen or minus sign before nothing but zeros, with no letter or digit in front.
fn minus_zeros(text: &str) -> Vec<String> {
    let letters: Vec<char> = text.chars().collect();
    let is_number = |c: char| c.is_ascii_digit() || c == '.';
    let mut found = Vec::new();
    for (at, sign) in letters.iter().enumerate() {
        let before = at.checked_sub(1).map(|at| letters[at]);
        if !['-', '−'].contains(sign) || before.is_some_and(|c| c.is_alphanumeric()) {
            continue;
        }
        let number: String = letters[at + 1..]
            .iter()
            .take_while(|c| is_number(**c))
            .collect();
        let after = letters.get(at + 1 + number.chars().count());
        let is_date = after.is_some_and(|c| *c == '-' || c.is_alphanumeric());
        if number.starts_with('0') && !is_date && number.chars().all(|c| c == '0' || c == '.') {
            found.push(
                letters[at.saturating_sub(30)..(at + 10).min(letters.len())]
                    .iter()
                    .collect(),
            );
        }
    }
    found
}

#[test]
fn a_minus_zero_is_found_where_there_is_one() {
    assert_eq!(minus_zeros("[-0.0, −0.00) -0").len(), 3);
    assert!(minus_zeros("X22-02 2025-05-10 -0.5 (−0.2 to +0.0) 10-0").is_empty());
}

#[test]
fn json_writes_zero_without_a_sign() {
    let written = podbook::render::json::value(&vec![-0.0, 0.0, -1.5, 2e-9]).expect("it is JSON");
    assert_eq!(written, "[\n  0.0,\n  0.0,\n  -1.5,\n  2e-9\n]\n");
}

#[test]
fn no_answer_holds_a_minus_zero() {
    for question in [
        "variation X15-02 X22-02",
        "siblings X22-02",
        "growth X22-02 --pods",
        "growth X15-02 X18-01 X22-02",
        "grade X22-02.S2",
        "select X22-02 X18-01 --weigh span=1 --weigh banding=1 --need teeth=2 --keep 3 --minutes 20",
        "merit --trait span=1 --trait banding=1",
    ] {
        for form in ["text", "json", "csv"] {
            let run = demo(&format!("{question} --format {form}"));
            assert_eq!(run.exit, Some(0), "{question}: {run}");
            let found = minus_zeros(&run.stdout);
            assert!(found.is_empty(), "{question} as {form}: {found:?}");
        }
    }
    for question in [
        "kinship X22-02-5 X18-01-4",
        "diversity",
        "pair X22-02-5 Spa1",
        "plan --any-time",
    ] {
        for form in ["", " --json"] {
            let run = demo(&format!("{question}{form}"));
            let found = minus_zeros(&run.stdout);
            assert!(found.is_empty(), "{question}{form}: {found:?}");
        }
    }
}
