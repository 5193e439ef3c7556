//! Pages for devices that are not paired: they name nothing of the registry.

use super::super::head::head;
use super::super::words::say;
use maud::{DOCTYPE, Markup, html};

/// How they look, `bare.css`: the only file a stranger gets.
pub const BARE_STYLE: &str = include_str!("bare.css");

/// A page of a few sentences.
pub fn notice(title: &str, sentences: &[&str]) -> String {
    bare(
        title,
        html! { @for sentence in sentences { p { (say(sentence)) } } },
    )
}

/// The page on which a device is paired; with the secret where the link holds one, and with the registry where the secret
/// is right.
pub fn pair(secret: &str, registry: Option<&str>) -> String {
    bare(
        "Pair this device",
        html! {
            @if let Some(name) = registry { p { "With the registry " strong { (say(name)) } "." } }
            p { "A paired device sees everything in the registry, and can record in it unless podbook was started for reading only." }
            form method="post" action="/pair" {
                input type="hidden" name="secret" value=(say(secret));
                p {
                    label for="name" { "Name of this device" }
                    input id="name" name="name" value="phone" maxlength="40" autocomplete="off";
                }
                button { "Pair" }
            }
        },
    )
}

fn bare(title: &str, main: Markup) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            (head(title, true, &html! { "/bare.css" }, &html! {}))
            body { main id="main" { h1 { (say(title)) } (main) } }
        }
    };
    page.into_string() + "\n"
}
