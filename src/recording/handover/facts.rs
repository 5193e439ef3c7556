//! What a fingerprint is taken of: the records of a lineage and the names they are read by, in canonical form.

use super::closure::Lineage;
use super::fingerprint::Lines;
use super::names::NamesOfLineage;
use super::names_used::names_used;
use super::records::as_written;
use crate::naming::recorded::accepted;
use crate::recording::says::canonical::canonical;
use crate::recording::written::{RonRecord, text};
use crate::registry::Registry;
use crate::text::one_line;

/// The line of what holds for all: which form the fingerprint is of, and the genus. The first fingerprints have none.
const FORM: &str = "registry";

/// How the line of the piece that is handed over begins. A lineage of a plant as a whole has none; nor have those of pieces that
/// were handed over first.
const PIECE: &str = "piece ";

/// The lines with one for the piece of the plant that is handed over.
pub fn with_piece(mut lines: Lines, piece: Option<&str>) -> Lines {
    lines.extend(piece.map(|piece| (format!("{PIECE}{piece}"), text(piece))));
    lines
}

/// Whether the lines say which piece was handed over.
pub fn say_which_piece(lines: &Lines) -> bool {
    lines.keys().any(|of| of.starts_with(PIECE))
}

/// What the lines of a page were taken of.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Form {
    /// The records as they were written, in the order of their pages, without the names they are read by.
    First,
    /// The records and the names they are read by; dates by their days, lists in any order.
    Second,
}

impl Form {
    /// That of lines that were handed over.
    pub fn of(lines: &Lines) -> Form {
        match lines.contains_key(FORM) {
            true => Form::Second,
            false => Form::First,
        }
    }

    /// The lines of a lineage in this form.
    pub fn lines(self, registry: &Registry, lineage: &Lineage) -> Lines {
        match self {
            Form::First => as_written(registry, lineage),
            Form::Second => lines(registry, lineage),
        }
    }
}

/// What a lineage says, by what it is of: `founder Ven1`, `cross X22-02`, `plant X22-02-5`, `species ventricosa`.
pub fn lines(registry: &Registry, lineage: &Lineage) -> Lines {
    let hemisphere = registry.settings.hemisphere;
    let records = as_written(registry, lineage).into_iter();
    let mut lines: Lines = records
        .map(|(of, record)| (of, canonical(&record, hemisphere)))
        .collect();
    for row in names_used(registry, &NamesOfLineage::of(registry, lineage)) {
        let of = format!("{} {}", in_one_word(row.list), one_line(row.name));
        let line = lines.entry(of).or_default();
        // Of two rows about one name the order counts.
        line.push_str(&row.record.line());
    }
    lines.extend(of_several_names(registry, lineage));
    let form = RonRecord::new().value("fingerprint", 2);
    let form = form.text("genus", registry.settings.genus);
    lines.insert(FORM.to_owned(), form.line());
    lines
}

fn in_one_word(list: &str) -> &str {
    match list {
        "named_hybrids" => "hybrid",
        "synonyms" => "spelling",
        "codes" => "code",
        "epithets" => "epithet",
        list => list,
    }
}

/// The name of each founder that has several accepted ones: which is shown may hang on the order in which they are written.
fn of_several_names(registry: &Registry, lineage: &Lineage) -> Lines {
    let founders = lineage.plants.iter();
    let founders = founders.filter_map(|&plant| registry.founder(plant));
    let of_several = founders.filter(|of| {
        let accepted = of.identified.iter().filter(|opinion| opinion.accepted);
        accepted.count() > 1
    });
    let named = of_several.filter_map(|of| {
        let opinion = accepted(registry, of)?;
        Some((format!("name {}", of.code), text(&opinion.name)))
    });
    named.collect()
}
