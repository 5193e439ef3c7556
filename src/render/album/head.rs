//! The head of every page: what a browser must know before it shows anything.

use super::words::say;
use maud::{Markup, html};

/// The head of a page with a title and a style sheet, and what else goes into it.
///
/// Pages of a server send their origin along with a form, since a server takes no form of unknown origin; pages kept as
/// files send nothing anywhere.
pub(super) fn head(title: &str, is_served: bool, style: &Markup, more: &Markup) -> Markup {
    html! {
        head {
            meta charset="utf-8";
            meta name="viewport" content="width=device-width, initial-scale=1";
            meta name="color-scheme" content="light dark";
            meta name="referrer" content=(if is_served { "same-origin" } else { "no-referrer" });
            title { (say(title)) }
            link rel="stylesheet" href=(style);
            (more)
        }
    }
}
