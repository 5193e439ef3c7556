//! What the cells of one row say, each in the form of the files.

use crate::record::{Holds, Sex};
use crate::registry::TraitRow;
use crate::text::GridRow;

/// What a row says, as the files would write it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RowFacts {
    /// The code as it stands there.
    pub code: Option<String>,
    /// Codes, where one cell holds several.
    pub codes: Vec<String>,
    /// The label word for word.
    pub label: Option<String>,
    /// Labels, where one cell holds several.
    pub labels: Vec<String>,
    /// Whom it came from.
    pub supplier: Option<String>,
    /// The supplier's code.
    pub supplier_code: Option<String>,
    /// When it came.
    pub acquired: Option<String>,
    /// What it came as: a word of the files.
    pub form: Option<&'static str>,
    /// What the column of the code says that it is of.
    pub codes_of: CodesOf,
    /// The code of its cross.
    pub cross: Option<String>,
    /// The mother as it stands there.
    pub seed_parent: Option<String>,
    /// The father as it stands there.
    pub pollen_parent: Option<String>,
    /// Both parents as they stand there.
    pub both_parents: Option<String>,
    /// The sex.
    pub sex: Option<Sex>,
    /// What was read.
    pub readings: Vec<TraitCell>,
    /// When it was read.
    pub measured: Option<String>,
    /// The pot's width.
    pub pot: Option<String>,
    /// When it was potted.
    pub potted: Option<String>,
    /// Where it stands.
    pub place: Option<String>,
    /// When the flowers were dusted.
    pub pollinated: Option<String>,
    /// How many pods.
    pub pods: Option<u32>,
    /// When they were harvested.
    pub harvested: Option<String>,
    /// When the seed was sown.
    pub sown: Option<String>,
    /// The seed of it.
    pub seeds: Option<SeedCount>,
    /// What is left of the seed, in the table's words.
    pub left: Option<String>,
    /// How many seedlings came up.
    pub germinated: Option<u32>,
    /// When these were counted.
    pub counted: Option<String>,
    /// How many had come up by days that headings say: the day, and the count.
    pub counts: Vec<(String, u32)>,
    /// What became of it.
    pub fate: Option<FateRead>,
    /// Whether a cell says that it is here.
    pub is_here: bool,
    /// Who has it now.
    pub to: Option<String>,
    /// What was asked for it when it went, by podbook's own sheet.
    pub price: Option<String>,
    /// The tag it left with, by podbook's own sheet.
    pub left_label: Option<String>,
    /// Whether it is marked to keep, by podbook's own sheet.
    pub kept: bool,
    /// Where the line is from.
    pub locality: Option<String>,
}

/// What the heading of a column of codes says that they are codes of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum CodesOf {
    /// Nothing; a code may be that of a plant or a cross.
    #[default]
    Unsaid,
    /// Crosses.
    Crosses,
    /// Crosses, beside columns that count what came of them: no row is that of a plant.
    Sowings,
    /// Packets of seed.
    Packets,
    /// Seedlings.
    Seedlings,
}

/// Seed, and how much of it as far as one number says it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SeedCount {
    /// How many; none where the cell has a range, a limit or words.
    pub number: Option<u32>,
    /// Whether the cell says that this is a guess.
    pub estimated: bool,
}

/// A reading.
#[derive(Clone, Debug, PartialEq)]
pub struct TraitCell {
    /// The trait, by its place among those declared.
    pub of: TraitRow,
    /// The cell, with its unit where one is known.
    pub cell: String,
    /// The day of this reading, where its column says one; else it is that of the row.
    pub on: Option<String>,
    /// Its column, by its place in the row from 0.
    pub column: usize,
}

/// The word of the files for a plant that never was here.
pub const ELSEWHERE: &str = "elsewhere";

/// What became of a plant.
#[derive(Clone, Debug, PartialEq)]
pub struct FateRead {
    /// A word of the files: `died`, `sold`, `given`, `lost`, `culled`, `elsewhere`.
    pub word: &'static str,
    /// When; `?` where the day is not known.
    pub on: String,
    /// Why, in the table's words.
    pub cause: Option<String>,
    /// Its column, by its place in the row from 0.
    pub column: usize,
}

impl RowFacts {
    /// The field of a column of dates, where it is one of its own.
    pub(super) fn day(&mut self, holds: Holds) -> Option<&mut Option<String>> {
        Some(match holds {
            Holds::Acquired => &mut self.acquired,
            Holds::Measured => &mut self.measured,
            Holds::Potted => &mut self.potted,
            Holds::Pollinated => &mut self.pollinated,
            Holds::Harvested => &mut self.harvested,
            Holds::Sown => &mut self.sown,
            Holds::Counted => &mut self.counted,
            _ => return None,
        })
    }

    /// Whether anything is said that only a plant has: also a pot or a place, where nothing is said of seed that could be
    /// in it.
    pub(super) fn is_of_plant(&self) -> bool {
        if self.codes_of == CodesOf::Sowings {
            return false;
        }
        let named = self.codes_of == CodesOf::Seedlings && self.code.is_some();
        let grown = self.sex.is_some() || !self.readings.is_empty();
        let potted = self.pot.is_some() && !self.is_of_many();
        let stands = self.place.is_some() && !self.is_of_seed() || potted;
        let stands = stands && !matches!(self.codes_of, CodesOf::Crosses | CodesOf::Packets);
        let gone = self.fate.is_some() || self.form.is_some_and(|form| form != "seed");
        named || grown || stands || gone
    }

    /// Whether anything is counted that only a cross or its seed has; the day of its sowing a plant has too.
    pub(super) fn is_of_many(&self) -> bool {
        let up = self.germinated.is_some() || !self.counts.is_empty();
        up || self.pods.is_some() || self.seeds.is_some() || self.left.is_some()
    }

    /// Whether anything is said that a cross or its seed has, and no plant.
    pub(super) fn is_of_seed(&self) -> bool {
        let made = self.pollinated.is_some() || self.pods.is_some() || self.harvested.is_some();
        made || self.is_sown() || self.seeds.is_some() || self.left.is_some()
    }

    /// Whether the seed was sown: a day says so, or seedlings came up or were looked for.
    pub fn is_sown(&self) -> bool {
        self.sown.is_some() || self.germinated.is_some() || !self.counts.is_empty()
    }

    /// How many seeds there were; none where the row does not say it as one number.
    pub fn seed_number(&self) -> Option<u32> {
        self.seeds?.number
    }

    /// How many seeds were sown: those of the row if none of them are left; none where that is not one number.
    pub fn sown_seeds(&self) -> Option<u32> {
        let all_sown = self.left.as_deref().is_none_or(|left| left == "none");
        let counted = self.seeds.filter(|seeds| !seeds.estimated && all_sown);
        let number = counted.and_then(|seeds| seeds.number);
        number.filter(|number| *number > 0)
    }

    /// The codes of plants and crosses that it names for its own, also with that of its cross before a number.
    pub(super) fn codes_in(&self) -> Vec<String> {
        let own = self.code.iter().chain(&self.codes);
        let number = self.cross.as_ref().zip(self.code.as_ref());
        let numbered = number.map(|(cross, number)| format!("{cross}-{number}"));
        own.cloned().chain(numbered).collect()
    }

    /// Whether parents are named.
    pub(super) fn has_parents(&self) -> bool {
        self.seed_parent.is_some() || self.pollen_parent.is_some() || self.both_parents.is_some()
    }
}

/// A table as it was read.
#[derive(Clone, PartialEq, Eq, Default, Debug)]
pub struct InputTable {
    /// The file's name, and the sheet's where it has one.
    pub name: String,
    /// Its rows.
    pub rows: Vec<GridRow>,
    /// Cells with a coloured ground, as line from 1 and place in the row from 0, in the order of the lines.
    pub coloured: Vec<(usize, usize)>,
    /// Lines with words that are struck through, in their order.
    pub struck: Vec<usize>,
}
