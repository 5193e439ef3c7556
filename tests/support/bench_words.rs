//! Command lines in a table: words, and texts in double quotes.

/// The words of a line; what stands between double quotes is one word.
pub fn words(line: &str) -> Vec<String> {
    let mut words = Vec::new();
    let mut rest = line.trim();
    while !rest.is_empty() {
        let (word, after) = match rest.strip_prefix('"') {
            Some(quoted) => quoted.split_once('"').expect("a closing quote"),
            None => rest.split_once(' ').unwrap_or((rest, "")),
        };
        words.push(word.to_owned());
        rest = after.trim_start();
    }
    words
}
