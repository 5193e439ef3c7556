//! What the columns of a filled table are.

use crate::observation::asked_columns::{AskedColumn, headed_column};
use crate::record::LengthUnit;
use crate::recording::slip::Slip;
use crate::registry::{Column, Registry};
use crate::text::{GridRow, nearest};

/// Words that head the column of plants.
const PLANT: [&str; 9] = [
    "plant", "plants", "code", "number", "no", "no.", "nr", "#", "seedling",
];
/// Words that head the column of dates, and of remarks.
const DATE: [&str; 2] = ["date", "on"];
const NOTE: [&str; 5] = ["note", "notes", "remark", "remarks", "comment"];

/// A column of the table.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Heading {
    /// As it stands in the file.
    pub words: String,
    /// What it is.
    pub means: Means,
}

/// What a column holds.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Means {
    /// The plants.
    Plant,
    /// The day each plant was read.
    Date,
    /// Something that was read.
    Asked(AskedColumn),
    /// Nothing that is taken: a last reading, or a column without cells.
    Unused,
    /// Nothing known, with what it may have meant.
    Unknown(Vec<String>),
}

/// The columns by their headings.
///
/// # Errors
/// If no column or more than one holds the plants, or two are of one trait.
pub fn headings(
    registry: &Registry,
    head: &GridRow,
    rows: &[GridRow],
    traits: &[AskedColumn],
) -> Result<Vec<Heading>, Slip> {
    let is_empty = |at: usize| {
        rows.iter()
            .all(|row| row.cells.get(at).is_none_or(String::is_empty))
    };
    let widest = rows.iter().map(|row| row.cells.len()).max().unwrap_or(0);
    let columns = 0..head.cells.len().max(widest);
    let headings = columns.map(|at| {
        let words = head.cells.get(at).cloned().unwrap_or_default();
        let means = means(registry, &words, traits, is_empty(at));
        Heading { words, means }
    });
    let headings: Vec<Heading> = headings.collect();
    let plants = headings
        .iter()
        .filter(|of| of.means == Means::Plant)
        .count();
    if plants != 1 {
        return Err(Slip::nothing(format!(
            "{} of the table is headed `plant`\nhead the column of plant codes or numbers `plant`, and no other",
            match plants {
                0 => "no column".to_owned(),
                n => format!("more than one column ({n})"),
            }
        )));
    }
    for (at, heading) in headings.iter().enumerate() {
        let same = |other: &&Heading| is_same(&heading.means, &other.means);
        if let Some(other) = headings[..at].iter().find(same) {
            return Err(Slip::ambiguous(
                "column for one trait",
                vec![other.words.clone(), heading.words.clone()],
                "leave each trait one column; a second reading is a sitting of its own",
            ));
        }
    }
    Ok(headings)
}

fn means(registry: &Registry, words: &str, traits: &[AskedColumn], is_empty: bool) -> Means {
    let lower = words.trim().to_lowercase();
    if PLANT.contains(&lower.as_str()) {
        return Means::Plant;
    }
    if is_empty || lower.starts_with("last ") || lower == "place" {
        return Means::Unused;
    }
    if DATE.contains(&lower.as_str()) {
        return Means::Date;
    }
    let lower = if NOTE.contains(&lower.as_str()) {
        "note"
    } else {
        words
    };
    match headed_column(registry, lower) {
        Some(asked) if is_asked(&asked, traits) => Means::Asked(asked),
        Some(_) => Means::Unused,
        None => Means::Unknown(near(registry, words)),
    }
}

/// Whether a column is among the traits named, if any are; what is no trait always is.
fn is_asked(asked: &AskedColumn, traits: &[AskedColumn]) -> bool {
    let is_trait = matches!(asked.column, Column::Trait { .. });
    let is_it = |of: &AskedColumn| is_one(of.column, asked.column);
    traits.is_empty() || !is_trait || traits.iter().any(is_it)
}

fn is_same(one: &Means, other: &Means) -> bool {
    match (one, other) {
        (Means::Asked(one), Means::Asked(other)) => is_one(one.column, other.column),
        (Means::Date, Means::Date) => true,
        _ => false,
    }
}

/// Whether two columns hold one thing, in whichever unit.
fn is_one(one: Column, other: Column) -> bool {
    match (one, other) {
        (Column::Trait { index, .. }, Column::Trait { index: other, .. }) => index == other,
        (one, other) => one == other,
    }
}

/// Traits that a heading may mean, with its unit where it has one.
fn near(registry: &Registry, words: &str) -> Vec<String> {
    let unit = words
        .rsplit_once(' ')
        .filter(|(_, unit)| LengthUnit::read(unit).is_some());
    let word = unit.map_or(words, |(word, _)| word);
    let traits = registry.settings.traits.iter();
    let known = traits.flat_map(|of| [of.code, &*of.name]);
    let near = nearest(word, known);
    near.into_iter().map(str::to_owned).collect()
}
