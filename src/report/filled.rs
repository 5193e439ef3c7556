//! A filled table in words: what each column was taken for, and each row that does not fit.

use super::measuring::{doubt_words, refusal_words};
use crate::recording::filled::{BadRow, Doubted, Filled, Heading, Means, Why};
use crate::text::one_line;
use crate::wording::{counted, did_you_mean, led_by};

/// What each column of the table was taken for, a line each.
pub fn match_words(filled: &Filled) -> String {
    let lines = filled.headings.iter().filter_map(heading_words);
    let mut out: String = lines.map(|line| format!("{line}\n")).collect();
    let rows: usize = filled
        .sittings
        .iter()
        .map(|sitting| sitting.rows.len())
        .sum();
    out.push_str(&format!("{} to record", counted(rows, "row", "rows")));
    if filled.not_read > 0 {
        out.push_str(&format!(", {} without a reading", filled.not_read));
    }
    if !filled.bad.is_empty() {
        let rows = counted(rows_of(filled), "row does", "rows do");
        out.push_str(&format!("; {rows} not fit"));
    }
    out.push('\n');
    out
}

fn heading_words(heading: &Heading) -> Option<String> {
    let words = one_line(&heading.words);
    match &heading.means {
        Means::Plant => Some(format!("column `{words}`: the plant")),
        Means::Date => Some(format!("column `{words}`: the date")),
        Means::Asked(asked) => Some(format!("column `{words}`: {}", asked.heading)),
        Means::Unused if words.is_empty() => None,
        Means::Unused => Some(format!("column `{words}`: not used")),
        Means::Unknown(_) => Some(format!("column `{words}`: no trait of this name")),
    }
}

/// Every reading that looks like a slip, a line each; empty when none does.
pub fn doubtful_words(doubted: &[Doubted]) -> String {
    if doubted.is_empty() {
        return String::new();
    }
    let line = |of: &Doubted| {
        let words = doubt_words(&of.plant, &of.column, &of.written, &of.doubt);
        format!("  {}\n", words.trim_end_matches(": sure?"))
    };
    let lines: String = doubted.iter().map(line).collect();
    let readings = counted(doubted.len(), "reading looks", "readings look");
    format!(
        "{readings} like a slip; put right what is one with `podbook correct`:
{lines}"
    )
}

/// Every row and heading that does not fit, a line each; empty when all fit.
pub fn bad_words(filled: &Filled) -> String {
    let mut out = String::new();
    for heading in &filled.headings {
        if let Means::Unknown(near) = &heading.means {
            let words = one_line(&heading.words);
            let near = did_you_mean("; ", near);
            out.push_str(&format!(
                "heading `{words}` names no trait{near}
"
            ));
        }
    }
    for bad in &filled.bad {
        out.push_str(&row_words(bad));
        out.push('\n');
    }
    out
}

fn rows_of(filled: &Filled) -> usize {
    let mut lines: Vec<usize> = filled.bad.iter().map(|bad| bad.line).collect();
    lines.dedup();
    lines.len()
}

fn row_words(bad: &BadRow) -> String {
    let column = led_by(", ", bad.column.as_deref().map(one_line));
    let plant = Some(one_line(&bad.plant)).filter(|_| !bad.plant.is_empty());
    let plant = led_by(", ", plant);
    let why = match &bad.why {
        Why::Cell(finding) => refusal_words(finding),
        Why::Slip(slip) => slip.to_string().replace('\n', "; "),
        Why::MadeDate(date) => format!(
            "the spreadsheet made the date {date} of this cell; format the column as text and type it again"
        ),
        Why::NoPlant => "readings without a plant".to_owned(),
        Why::Twice => {
            "an earlier row holds this plant and day, and only that one can be taken".to_owned()
        }
        Why::NotAsked => "the plant is none of those asked for".to_owned(),
        Why::HasRow => {
            "the plant has a row in that sitting; --again puts the new one in its place".to_owned()
        }
    };
    format!("row {}{plant}{column}: {why}", bad.line)
}
