//! Dates, ages and counts in words, the same everywhere.

use serde::Serialize;

use crate::record::{Day, Hemisphere, When};
use std::fmt::Display;

/// The command that records the first plant of a registry, for answers that find none.
pub const FIRST_PLANT: &str = "podbook add Ven1 \"N. ventricosa\"";

/// Each once, in the order in which it first comes.
pub fn each_once<T: PartialEq>(all: impl IntoIterator<Item = T>) -> Vec<T> {
    let mut once = Vec::new();
    for one in all {
        if !once.contains(&one) {
            once.push(one);
        }
    }
    once
}

/// A range of days: one day, or first to last; `by` or `after` when an end is open.
pub fn days(when: When) -> String {
    match (when.first == Day::FIRST, when.last == Day::LAST) {
        (true, true) => "date not known".to_owned(),
        (true, false) => format!("by {}", when.last),
        (false, true) => format!("after {}", when.first),
        _ if when.is_exact() => when.first.to_string(),
        _ => format!("{} to {}", when.first, when.last),
    }
}

/// A date as typed, with the word that belongs before it: `on 2024-03-05`, `in spring 2024`, `by 2024-03`.
pub fn at_date(typed: &str) -> String {
    let words = typed.trim();
    let begins = |prefix: &str| {
        let start = words.get(..prefix.len());
        start.is_some_and(|start| start.eq_ignore_ascii_case(prefix))
    };
    if ["by ", "before ", "after "].into_iter().any(begins) {
        return words.to_owned();
    }
    let ends = [" to ", "..", "–", "—"]
        .into_iter()
        .find_map(|between| words.split_once(between));
    if let Some((first, last)) = ends {
        return format!("between {} and {}", first.trim(), last.trim());
    }
    // Which months a season stands for changes nothing here.
    match When::read(words, Hemisphere::North) {
        Ok(When::UNKNOWN) => "on a day not known".to_owned(),
        Ok(when) if !when.is_exact() => format!("in {words}"),
        _ => format!("on {words}"),
    }
}

/// A date as typed, followed by what it covers when that is not plain.
pub fn typed_date(typed: &str, when: When) -> String {
    if when.is_exact() {
        when.first.to_string()
    } else if when == When::UNKNOWN {
        "day not known".to_owned()
    } else if typed == days(when) {
        typed.to_owned()
    } else {
        format!("{typed} ({})", days(when))
    }
}

/// A number with so many decimals and a true minus sign; one that rounds to nothing is not below it.
pub fn number(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(digits) if digits.bytes().all(|byte| matches!(byte, b'0' | b'.')) => digits.to_owned(),
        Some(digits) => format!("−{digits}"),
        None => text,
    }
}

/// A range of numbers, none of them below zero: `2.0–3.5`.
pub fn between((low, high): (f64, f64), decimals: usize) -> String {
    [low, high].map(|of| number(of, decimals)).join("–")
}

/// A number with its sign and so many decimals, as tables write it; one that rounds to nothing is not below it.
pub fn signed(number: f64, decimals: usize) -> String {
    let text = format!("{number:+.decimals$}");
    match text.trim_start_matches(['-', '0', '.']) {
        "" => text.replace('-', "+"),
        _ => text.replace('-', "−"),
    }
}

/// A coefficient of variation in percent, with its limits where there are some: `24 (18–37)`.
pub fn cv_words(cv: f64, between: Option<(f64, f64)>) -> String {
    let limits = between.map(|(low, high)| format!(" ({:.0}–{:.0})", low * 100.0, high * 100.0));
    format!("{:.0}{}", cv * 100.0, limits.unwrap_or_default())
}

/// An age in months: `20.0 months`, or `30.4–31.4 months`.
pub fn age(of: (f64, f64)) -> String {
    format!("{} months", bare_age(of))
}

/// The same without its unit.
pub fn bare_age((least, most): (f64, f64)) -> String {
    let shown = |months: f64| format!("{:.1}", months.max(0.0));
    from_to(shown(least), shown(most), "–")
}

/// A count of which some parts were not counted: `at least 20`; `0 seen`, which says no more than that.
pub fn at_least(count: u32, is_minimum: bool) -> String {
    match (count, is_minimum) {
        (0, true) => "0 seen".to_owned(),
        (_, true) => format!("at least {count}"),
        (_, false) => count.to_string(),
    }
}

/// A count that may be a guess: `about 260`.
pub fn about(count: u32, is_guess: bool) -> String {
    match is_guess {
        true => format!("about {count}"),
        false => count.to_string(),
    }
}

/// An age counted in days, as people say it: `45 days`, `5–6 months`, `4.1 years`.
pub fn age_of_days((least, most): (i32, Option<i32>)) -> String {
    let Some(most) = most else {
        return format!("at least {}", age_of_days((least, Some(least))));
    };
    let (least, most) = (least.max(0), most.max(0));
    // Mean lengths in the Gregorian calendar: 365.2425 days a year.
    let (unit, least, most) = match most {
        0..60 => return span_of_days((least, most)),
        60..730 => (
            "months",
            least * 12 * 400 / 146_097,
            most * 12 * 400 / 146_097,
        ),
        _ => {
            let years = |days: i32| format!("{:.1}", f64::from(days) / 365.2425);
            return format!("{} years", from_to(years(least), years(most), "–"));
        }
    };
    match least == most {
        true => counted(most as usize, "month", unit),
        false => format!("{least}–{most} {unit}"),
    }
}

/// A count of days: `97–188 days`.
pub fn span_of_days((least, most): (i32, i32)) -> String {
    if least == most {
        counted(least.max(0) as usize, "day", "days")
    } else {
        format!("{}–{} days", least.max(0), most.max(0))
    }
}

/// Time that has passed, in the unit a person would say it in: `40 days`, `14 months`, `4.1 years`; never rounded up.
pub fn time_passed(of_days: i32) -> String {
    match of_days {
        730.. => format!("{:.1} years", (f64::from(of_days) / 36.525).floor() / 10.0),
        61.. => format!("{:.0} months", (f64::from(of_days) / 30.4375).floor()),
        _ => counted(of_days.max(0) as usize, "day", "days"),
    }
}

/// `1 pod`, `3 pods`.
pub fn counted(n: usize, one: &str, many: &str) -> String {
    format!("{n} {}", if n == 1 { one } else { many })
}

/// Few codes by name, many by number and ends.
pub fn several(codes: &[String]) -> String {
    const NAMED: usize = 6;
    match codes {
        [] => "nothing".to_owned(),
        few if few.len() <= NAMED => few.join(", "),
        [first, .., last] => format!("{} plants, {first} to {last}", codes.len()),
        [one] => one.clone(),
    }
}

/// `a`, `a and b`, `a, b and c`.
pub fn listed<T: Display>(parts: impl IntoIterator<Item = T>) -> String {
    let mut parts: Vec<String> = parts.into_iter().map(|part| part.to_string()).collect();
    match (parts.pop(), parts.is_empty()) {
        (None, _) => String::new(),
        (Some(one), true) => one,
        (Some(last), false) => format!("{} and {last}", parts.join(", ")),
    }
}

/// As [`listed`] where they are no more than `most`, else the first so many: `a, b, c and 2 more`.
pub fn first_of<T: Display>(parts: &[T], most: usize) -> String {
    match parts.len().saturating_sub(most) {
        0 => listed(parts),
        more => format!("{} and {more} more", joined(&parts[..most], ", ")),
    }
}

/// One behind the other, with a sign between them.
pub fn joined<T: Display>(parts: impl IntoIterator<Item = T>, between: &str) -> String {
    let parts: Vec<String> = parts.into_iter().map(|part| part.to_string()).collect();
    parts.join(between)
}

/// The same; `None` where there are none.
pub fn joined_if_any<T: Display>(
    parts: impl IntoIterator<Item = T>,
    between: &str,
) -> Option<String> {
    let mut parts = parts.into_iter().peekable();
    parts.peek().is_some().then(|| joined(parts, between))
}

/// Words behind those that lead to them; nothing where there are none.
pub fn led_by<T: Display>(before: &str, words: Option<T>) -> String {
    words.map_or(String::new(), |words| format!("{before}{words}"))
}

/// 0 is `a`, 25 `z`, 26 `aa`, as spreadsheets count columns.
pub fn letters(number: usize) -> String {
    let mut out = Vec::new();
    let mut rest = number + 1;
    while rest > 0 {
        out.push(b'a' + ((rest - 1) % 26) as u8);
        rest = (rest - 1) / 26;
    }
    out.iter().rev().map(|&letter| char::from(letter)).collect()
}

/// Words in brackets, a blank before them; nothing where there are none.
pub fn in_brackets<T: Display>(words: Option<T>) -> String {
    words.map_or(String::new(), |words| format!(" ({words})"))
}

/// Names near to one that was not found, behind a sign: `; did you mean span or banding?`; nothing where there are none.
pub fn did_you_mean(before: &str, near: &[String]) -> String {
    let near = joined_if_any(near, " or ");
    let asked = near.map(|near| format!("did you mean {near}?"));
    led_by(before, asked)
}

/// A least and a most as they are written, `2.1–3.4`; one of them where they are written alike.
pub fn from_to(least: impl Display, most: impl Display, between: &str) -> String {
    let (least, most) = (least.to_string(), most.to_string());
    match least == most {
        true => most,
        false => format!("{least}{between}{most}"),
    }
}

/// `leaf span, cm`; the name alone where it has no unit.
pub fn with_its_unit(name: &str, unit: &str) -> String {
    let unit = Some(unit).filter(|unit| !unit.is_empty());
    format!("{name}{}", led_by(", ", unit))
}

/// A label letter by letter, in quotes unless it holds quotes of its own.
pub fn quoted(label: &str) -> String {
    match label.contains('"') {
        true => label.to_owned(),
        false => format!("\"{label}\""),
    }
}

/// A share in percent with its limits: `52 % (42–62 %)`.
pub fn share_words(n: u64, all: u64, (low, high): (f64, f64)) -> String {
    let share = n as f64 / all as f64;
    format!(
        "{:.0} % ({:.0}–{:.0} %)",
        share * 100.0,
        low * 100.0,
        high * 100.0
    )
}

/// A probability as people read it.
pub fn p_words(p: f64) -> String {
    if p < 0.001 {
        "p < 0.001".to_owned()
    } else if p < 0.1 {
        format!("p = {p:.3}")
    } else {
        format!("p = {p:.2}")
    }
}

/// A chance in whole percent; what is neither sure nor impossible is never shown as that.
pub fn chance(chance: f64) -> String {
    match 100.0 * chance {
        sure if chance >= 1.0 - 1e-9 => format!("{sure:.0} %"),
        none if chance <= 1e-9 => format!("{none:.0} %"),
        high if high > 99.0 => "> 99 %".to_owned(),
        low if low < 1.0 => "< 1 %".to_owned(),
        middle => format!("{middle:.0} %"),
    }
}

/// A stretch of a name: Latin in italics, the rest upright.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct NameRun {
    /// What it says, blanks included.
    pub text: String,
    /// Whether it is set in italics.
    pub italic: bool,
}

/// A name in runs.
pub type Name = Vec<NameRun>;

/// A name set upright.
pub fn upright(text: impl Into<String>) -> Name {
    vec![NameRun {
        text: text.into(),
        italic: false,
    }]
}

/// A scientific name: italic but for `aff.`, `sp.` and their like, a hybrid sign and what stands in quotes.
pub fn latin(name: &str) -> Name {
    let mut runs = Name::new();
    let mut quoted = false;
    for word in name.split_inclusive(' ') {
        let bare = word.trim_end();
        quoted |= bare.starts_with(['"', '\'', '\u{201c}']);
        let short = bare.ends_with('.') && bare.starts_with(char::is_lowercase);
        let italic = !(quoted || short || bare == "×");
        match runs.last_mut() {
            Some(run) if run.italic == italic => run.text.push_str(word),
            _ => runs.push(NameRun {
                text: word.to_owned(),
                italic,
            }),
        }
    }
    runs
}

/// A word of a command as one would type it: in quotes where a shell would not take it as it is.
pub fn typed_word(word: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || "-_./,:=+~%@".contains(c);
    match !word.is_empty() && word.chars().all(plain) {
        true => word.to_owned(),
        false => format!("'{}'", word.replace('\'', "'\\''")),
    }
}

/// Whether a word says little without the next, so that no line ends between them: an abbreviated genus, a number before
/// its unit.
pub fn stays_with_next(word: &str, next: &str) -> bool {
    let bare = word.trim_start_matches('(');
    let genus = matches!(bare.as_bytes(), [letter, b'.'] if letter.is_ascii_uppercase());
    let number = bare.ends_with(|last: char| last.is_ascii_digit());
    let unit = next.trim_end_matches([',', '.', ';', ':', ')']);
    genus || number && matches!(unit, "%" | "cm" | "mm" | "in" | "MB")
}
