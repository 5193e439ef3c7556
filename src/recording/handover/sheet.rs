//! The page that travels with a lineage: its fingerprint and the records it was taken of.

use super::fingerprint::{Lines, fingerprint, grouped};

/// The page's name in the folder that is handed over.
pub const SHEET: &str = "lineage.txt";
const HEAD: &str = "Lineage of ";
const PRINTED: &str = "Fingerprint ";
const RECORDS: &str = "Records";

/// What a lineage's page says.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct LineageSheet {
    /// Code of the plant.
    pub plant: String,
    /// The digits printed, without blanks.
    pub printed: String,
    /// The records.
    pub lines: Lines,
    /// Whether the words above the records are those podbook writes.
    pub head_is_ours: bool,
}

/// The page for a plant.
pub fn written(plant: &str, lines: &Lines) -> String {
    let mut out = head(plant, &fingerprint(lines));
    for (of, record) in lines {
        out.push_str(&format!("{of}\t{record}\n"));
    }
    out
}

/// What stands above the records. Who changes these words keeps the old ones: `read` knows by them that a page was not changed.
fn head(plant: &str, digits: &str) -> String {
    format!(
        "{HEAD}{plant}\n{PRINTED}{}\n\n\
        `podbook verify` in this folder says whether these records, the .ron pages beside them and the fingerprint belong\n\
        together, and which record differs. The fingerprint shows that this is the lineage the card was printed from. It\n\
        does not prove that the lineage is true: the grower who recorded it answers for that.\n\n\
        The fingerprint covers the records and the names they are read by, which are on the .ron pages: dates by their\n\
        days, in whatever order they stand. It does not cover the card, the pedigree and the pictures: `podbook card\n\
        {plant}` in this folder writes the card anew from the records.\n\n{RECORDS}\n",
        grouped(digits)
    )
}

/// What a page says; `None` if it is not such a page.
pub fn read(text: &str) -> Option<LineageSheet> {
    let mut rest = text.lines();
    let plant = rest.next()?.strip_prefix(HEAD)?.trim().to_owned();
    let printed = digits(rest.next()?.strip_prefix(PRINTED)?);
    let above = text.lines().take_while(|line| line.trim_end() != RECORDS);
    let ours = head(&plant, &printed);
    let head_is_ours = above
        .flat_map(str::split_whitespace)
        .chain([RECORDS])
        .eq(ours.split_whitespace());
    let mut lines = Lines::new();
    let records = rest.skip_while(|line| line.trim_end() != RECORDS).skip(1);
    for line in records.filter(|line| !line.trim().is_empty()) {
        let (of, record) = line.trim_end_matches('\r').split_once('\t')?;
        // Two lines about one record are neither of them the one that was handed over.
        lines.entry(of.to_owned()).or_default().push_str(record);
    }
    (!lines.is_empty()).then_some(LineageSheet {
        plant,
        printed,
        lines,
        head_is_ours,
    })
}

/// A fingerprint as somebody types it, without blanks and in small letters.
pub fn digits(typed: &str) -> String {
    let kept = typed.chars().filter(|c| !c.is_whitespace() && *c != '-');
    kept.flat_map(char::to_lowercase).collect()
}
