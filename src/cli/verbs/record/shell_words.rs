//! Words of a command that can be copied into a shell.

/// A word in quotes where a shell would take it apart.
pub(super) fn quoted(words: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || "-_./".contains(c);
    match words.chars().all(plain) {
        true => words.to_owned(),
        false => format!("'{}'", words.replace('\'', "'\\''")),
    }
}
