//! The fingerprint of a lineage: SHA-256 (FIPS 180-4) of its records in canonical form.

use crate::recording::journal::checksum;
use std::collections::BTreeMap;

/// The records of a lineage in canonical form, one a line, by what they are of.
pub type Lines = BTreeMap<String, String>;

/// Digits of the fingerprint that are printed.
const DIGITS: usize = 16;

/// The first sixteen hexadecimal digits of the checksum of all records.
pub fn fingerprint(lines: &Lines) -> String {
    let mut text = String::new();
    for (of, record) in lines {
        text.push_str(of);
        text.push(' ');
        text.push_str(record);
        text.push('\n');
    }
    checksum(&text)[..DIGITS].to_owned()
}

/// Digits in groups of four, as they are printed on a card.
pub fn grouped(digits: &str) -> String {
    // A page that was changed may hold anything in their place.
    let digits: Vec<char> = digits.chars().collect();
    let groups = digits.chunks(4).map(String::from_iter);
    groups.collect::<Vec<String>>().join(" ")
}

/// What records differ: those changed, those missing and those that are new, in the order of their names.
pub fn differences(was: &Lines, is: &Lines) -> Vec<String> {
    let names = was
        .keys()
        .chain(is.keys().filter(|name| !was.contains_key(*name)));
    let mut names: Vec<&String> = names
        .filter(|name| was.get(*name) != is.get(*name))
        .collect();
    names.sort();
    names.into_iter().cloned().collect()
}
