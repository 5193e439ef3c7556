//! Slips in Markdown.

use crate::record::Day;
use crate::report::promised::{PromisedReport, Slip};
use crate::text::Markdown;
use crate::wording::at_date;
use std::fmt::Write;

/// The slips, a rule between them; a page without any says so.
pub fn slips(of: &PromisedReport, today: Day) -> String {
    if of.changed.is_empty() {
        return "No text that went with a plant has to be corrected.\n".to_owned();
    }
    let one = |slip: &Slip| one(slip, of, today);
    let slips: Vec<String> = of.changed.iter().map(one).collect();
    slips.join("\n---\n\n")
}

fn one(slip: &Slip, of: &PromisedReport, today: Day) -> String {
    let mut out = String::new();
    let _ = writeln!(
        out,
        "# Correction for {}\n\nThis plant left {}. What was written about it then is no longer right.\n",
        Markdown::of(&slip.plant),
        Markdown::of(&at_date(&slip.on))
    );
    let _ = writeln!(out, "It said:\n\n> {}\n", Markdown::of(&slip.was));
    let _ = writeln!(out, "It now reads:\n\n> {}\n", Markdown::of(&slip.now));
    out.push_str("Please keep this with the plant, write the new words on its tag, and pass them on if it moves on.\n");
    let who = [of.grower.as_deref(), of.contact.as_deref()];
    let who: Vec<String> = who
        .into_iter()
        .flatten()
        .map(|words| Markdown::of(words).to_string())
        .collect();
    let _ = writeln!(
        out,
        "\n{}",
        [vec![today.to_string()], who].concat().join(", ")
    );
    out
}
