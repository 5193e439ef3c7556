//! Ancestors as nested lists: read aloud they are parents of parents, on a wide page founders stand at the left.

use super::words::{Here, name, say};
use crate::report::album::Kinsman;
use maud::{Markup, PreEscaped, html};

/// The ancestors of what stands at the root.
pub(super) fn pedigree(here: Here, root: &str, ancestors: &[Kinsman]) -> Markup {
    if ancestors.is_empty() {
        return html! { p { "Parents are not recorded." } };
    }
    let mut lists = String::new();
    let mut depth = 0;
    for of in ancestors {
        if depth == of.of.generation {
            lists += "</li>";
        }
        while depth < of.of.generation {
            lists += "<ul>";
            depth += 1;
        }
        while depth > of.of.generation {
            lists += "</li></ul>";
            depth -= 1;
            if depth == of.of.generation {
                lists += "</li>";
            }
        }
        lists += &kinsman(here, of).into_string();
    }
    lists += &"</li></ul>".repeat(depth);
    html! {
        div.wide role="region" tabindex="0" aria-label="Pedigree, tree" {
            ul.tree { li { div.kin.me { strong { (say(root)) } } (PreEscaped(lists)) } }
        }
        @if ancestors.iter().any(|of| of.of.doubtful) {
            p aria-hidden="true" { small { "Broken line: in doubt." } }
        }
    }
}

/// One ancestor, its list item still open.
fn kinsman(here: Here, of: &Kinsman) -> Markup {
    let side = match of.of.side {
        Some("♀") => Some(("♀", "seed parent")),
        Some(_) => Some(("♂", "pollen parent")),
        None => None,
    };
    let class = match of.of.doubtful {
        true => "kin doubt",
        false => "kin",
    };
    html! {
        (PreEscaped("<li>"))
        div class=(class) {
            @if let Some((sign, words)) = side {
                span.side { span aria-hidden="true" { (sign) } span.aloud { (words) ", " } } " "
            }
            @match &of.path {
                Some(path) => a href=(here.to(path)) { (say(&of.of.clone)) },
                None => span { (here.linked(&of.of.clone)) },
            }
            @if !of.of.name.is_empty() { small { (name(&of.of.name)) } }
        }
    }
}
