//! Words of a command that can be copied into a shell.

use crate::cli::request::{Request, shown};

/// The option that names the registry, where the line named it; nothing else.
pub(super) fn registry_words(request: &Request) -> String {
    let named = request.named_registry();
    named.map_or_else(String::new, |of| {
        format!(" --registry {}", quoted(&shown(of)))
    })
}

/// A word in quotes where a shell would take it apart.
pub(super) fn quoted(words: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || "-_./".contains(c);
    match words.chars().all(plain) {
        true => words.to_owned(),
        false => format!("'{}'", words.replace('\'', "'\\''")),
    }
}
