//! The season's work: answers of other commands, one below the other.

use super::words::{Here, say};
use crate::report::album::WorkSheet;
use maud::{Markup, html};

pub(super) fn work(here: Here, sheets: &[WorkSheet]) -> Markup {
    html! {
        h1 { "Season" }
        @for (at, of) in sheets.iter().enumerate() {
            section aria-labelledby=(format!("part-{at}")) {
                h2 id=(format!("part-{at}")) { (say(of.heading)) }
                (here.sheet(of.heading, &of.sheet))
            }
        }
    }
}
