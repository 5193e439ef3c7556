//! The draft of a registration as a form in Markdown, with room for what has to be written by hand.

use crate::report::registration::RegistrationReport;
use crate::text::Markdown;
use std::fmt::Write;

/// Where something has to be written by hand.
const BLANK: &str = "______________________________";

/// The form.
pub fn form(of: &RegistrationReport) -> String {
    let mut out = String::new();
    let epithet = of.epithet.as_deref().filter(|_| !of.refused);
    let title = epithet.unwrap_or(&of.name);
    let _ = writeln!(
        out,
        "# Draft of a registration: {}\n\nPlant {}, from the grower's records on {}. Finish it by hand, and ask the registration authority\nfor its own form; only it can say whether the epithet is free.",
        Markdown::of(title),
        Markdown::of(&of.id),
        Markdown::of(&of.made)
    );
    for doubt in &of.doubts {
        let _ = writeln!(out, "\n> {}", Markdown::of(doubt));
    }
    for (at, item) in of.items.iter().enumerate() {
        let _ = writeln!(out, "\n## {}. {}\n", at + 1, capital(item.asked));
        for line in &item.recorded {
            let _ = writeln!(out, "- {}", Markdown::of(line.trim()));
        }
        if let Some(missing) = item.missing {
            let gap = if item.recorded.is_empty() { "" } else { "\n" };
            let _ = writeln!(out, "{gap}*To add: {}.*\n\n{BLANK}", Markdown::of(missing));
        }
    }
    out
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_uppercase().chain(letters).collect()
    })
}
