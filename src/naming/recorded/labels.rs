//! A label as read: its formula, and which of it is a hybrid's Latin name that gives the parents and no generation.

use crate::naming::formula::leaves;
use crate::naming::{
    Formula, FormulaBuilder, Leaf, Note, NoteCode, Part, PartId, ReadOptions, Reading, Unknown,
    Vocabulary, as_written, read,
};

/// The label that seed came with.
#[derive(Clone, Debug)]
pub struct SeedLabel {
    /// What it states; an unknown plant where it could not be read. The epithet of a plant is a label here: neither it nor
    /// the plant's parents are those of its seedlings.
    pub formula: Formula,
    /// Which hybrid names stand in it alone.
    pub alone: NamesAlone,
    /// What was assumed of an F2 on it.
    pub filial: Option<Note>,
}

impl SeedLabel {
    /// A label as read.
    pub(super) fn read(label: &str, vocabulary: &Vocabulary) -> SeedLabel {
        let reading = read(label, vocabulary, ReadOptions::default());
        let alone = NamesAlone::of(label, &reading, vocabulary);
        let of_a_plant = as_written(label, vocabulary).and_then(epithet_as_label);
        SeedLabel {
            formula: of_a_plant.or(reading.formula).unwrap_or_else(unknown),
            alone,
            filial: filial_note(reading.notes),
        }
    }

    /// That of a page without a label.
    pub(super) fn none() -> SeedLabel {
        SeedLabel {
            formula: unknown(),
            alone: NamesAlone::default(),
            filial: None,
        }
    }

    /// Whether it names the two parents of the seedlings, and not only the seedlings or their mother.
    pub fn names_both_parents(&self) -> bool {
        let top = self.formula.part(self.formula.top());
        matches!(top, Part::Cross(_)) && !self.alone.whole
    }
}

/// The epithet of a plant that is all a label says, as a label, with whatever is marked on it.
fn epithet_as_label(written: Formula) -> Option<Formula> {
    let Part::Leaf(Leaf::Quoted { epithet }) = written.part(written.top()) else {
        return None;
    };
    let mut builder = FormulaBuilder::new();
    let text = epithet.clone();
    let label = builder.leaf(Leaf::Label { text });
    *builder.marks(label) = written.marks(written.top()).clone();
    Some(builder.finish(label))
}

/// The note that an F2 is taken from a label.
pub(super) fn filial_note(notes: Vec<Note>) -> Option<Note> {
    let mut notes = notes.into_iter();
    notes.find(|note| note.code == NoteCode::FilialTakenFromLabel)
}

/// Hybrid names in a label that give parents, if the name is right, and no generation.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct NamesAlone {
    /// The label is such a name and no more.
    pub whole: bool,
    /// What its seed parent and its pollen parent have of such names.
    pub sides: [NameAlone; 2],
}

/// Whether a parent on a label is known by a hybrid's name alone.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum NameAlone {
    /// No such name is in it.
    #[default]
    No,
    /// One is behind it.
    Behind,
    /// It is one.
    Itself,
}

impl NamesAlone {
    /// Those of a label that was read.
    pub(super) fn of(label: &str, reading: &Reading, vocabulary: &Vocabulary) -> NamesAlone {
        let mut notes = reading.notes.iter();
        let (true, Some(formula)) = (
            notes.any(|note| note.code == NoteCode::NameExpanded),
            &reading.formula,
        ) else {
            return NamesAlone::default();
        };
        let sides = as_written(label, vocabulary)
            .and_then(|written| Some([sides(&written)?, sides(formula)?]))
            .map(|[written, read]| [0, 1].map(|side| NameAlone::of(&written[side], &read[side])));
        NamesAlone {
            whole: is_one_name(label, formula, vocabulary),
            sides: sides.unwrap_or_default(),
        }
    }
}

impl NamesAlone {
    /// Whether a name alone is in it at all.
    pub fn any(self) -> bool {
        self.whole || self.sides != [NameAlone::No; 2]
    }

    /// Those of one parent on the label.
    pub fn of_parent(self, bore_the_seed: bool) -> NamesAlone {
        let side = self.sides[usize::from(!bore_the_seed)];
        NamesAlone {
            whole: side == NameAlone::Itself,
            sides: [side; 2],
        }
    }
}

impl NameAlone {
    /// Of a parent as it is written and as it is read.
    fn of(written: &Formula, read: &Formula) -> NameAlone {
        match written.part(written.top()) {
            _ if names(written) == names(read) => NameAlone::No,
            Part::Leaf(_) => NameAlone::Itself,
            _ => NameAlone::Behind,
        }
    }
}

/// The two sides of a cross, each as a formula.
fn sides(formula: &Formula) -> Option<[Formula; 2]> {
    let excerpt = |part: PartId| {
        let mut builder = FormulaBuilder::new();
        builder.copy_of(formula);
        builder.excerpt(part)
    };
    match formula.part(formula.top()) {
        Part::Cross(cross) => Some([cross.seed, cross.pollen].map(excerpt)),
        _ => None,
    }
}

/// How many hybrid names stand in a formula.
fn names(formula: &Formula) -> usize {
    let is_name = |leaf: &&Leaf| matches!(leaf, Leaf::NamedHybrid { .. });
    leaves(formula).filter(is_name).count()
}

/// Whether a formula is that of one hybrid name in a label, with no further cross.
fn is_one_name(label: &str, formula: &Formula, vocabulary: &Vocabulary) -> bool {
    let crosses = |of: &Formula| {
        let is_cross = |(_, part): &(_, &Part)| matches!(part, Part::Cross(_));
        of.parts().filter(is_cross).count()
    };
    let lower = label.to_lowercase();
    let words = lower.split(|letter: char| !letter.is_alphabetic() && letter != '-');
    let names = words
        .flat_map(|word| [Some(word), word.strip_prefix('x')])
        .flatten();
    let mut names = names.map(|name| vocabulary.accepted(name).unwrap_or(name));
    names.any(|name| {
        let alone = || read(&format!("×{name}"), vocabulary, ReadOptions::default()).formula;
        vocabulary.named_hybrid(name).is_some()
            && alone().is_some_and(|alone| crosses(&alone) == crosses(formula))
    })
}

/// The formula of a plant nothing is known of.
pub(super) fn unknown() -> Formula {
    let mut builder = FormulaBuilder::new();
    let leaf = builder.leaf(Leaf::Unknown(Unknown::NotRecorded));
    builder.finish(leaf)
}
