//! One parent as text: its name and what is marked on it.

use crate::naming::formula::{Certainty, Leaf, Marks, Tag, Unknown};
use crate::naming::token::is_double;

use super::ink::Ink;

/// Writes a name after its genus; an unknown parent takes no genus.
pub(super) fn leaf(ink: &mut Ink, genus: Option<&str>, leaf: &Leaf) {
    match leaf {
        Leaf::Species {
            epithet,
            qualifier: None,
            ..
        } => species(ink, genus, epithet),
        Leaf::Species {
            epithet,
            qualifier: Some(qualifier),
            ..
        } => {
            alone(ink, genus);
            ink.roman(qualifier.short());
            ink.roman(" ");
            ink.latin(epithet);
        }
        Leaf::Unnamed { label } => {
            alone(ink, genus);
            ink.roman("sp.");
            if let Some(label) = label {
                quoted(ink, label);
            }
        }
        Leaf::NamedHybrid { epithet } => {
            alone(ink, genus);
            ink.name_sign();
            ink.latin(epithet);
        }
        Leaf::Quoted { epithet } => {
            alone(ink, genus);
            cultivar(ink, epithet);
        }
        Leaf::Label { text } => match genus {
            Some(genus) => {
                ink.latin(genus);
                quoted(ink, text);
            }
            None => in_double_quotes(ink, text),
        },
        Leaf::Unknown(Unknown::NotRecorded) => ink.roman("?"),
        Leaf::Unknown(Unknown::OpenPollinated) => ink.roman("? (open pollinated)"),
        Leaf::Unknown(Unknown::MixedPollen) => ink.roman("? (mixed pollen)"),
    }
    if let Leaf::Species {
        infraspecific: Some(below),
        ..
    } = leaf
    {
        ink.roman(" ");
        ink.roman(below.rank.short());
        ink.roman(" ");
        ink.latin(&below.epithet);
    }
}

fn species(ink: &mut Ink, genus: Option<&str>, epithet: &str) {
    match genus {
        Some(genus) => ink.latin(&format!("{genus} {epithet}")),
        None => ink.latin(epithet),
    }
}

fn alone(ink: &mut Ink, genus: Option<&str>) {
    if let Some(genus) = genus {
        ink.latin(genus);
        ink.roman(" ");
    }
}

/// An epithet in single quotes.
pub(super) fn cultivar(ink: &mut Ink, epithet: &str) {
    ink.roman("'");
    ink.roman(epithet);
    ink.roman("'");
}

fn quoted(ink: &mut Ink, label: &str) {
    ink.roman(" ");
    in_double_quotes(ink, label);
}

fn in_double_quotes(ink: &mut Ink, label: &str) {
    ink.roman("\"");
    ink.roman(&label.replace(is_double, "'"));
    ink.roman("\"");
}

/// A name as received, in double quotes. One that has double quotes of its own stands as it is: in single quotes a word of
/// the tag would read as a cultivar.
fn received(ink: &mut Ink, name: &str) {
    let quotes = name.chars().filter(|letter| is_double(*letter)).count();
    let can_stand_alone = quotes % 2 == 0 && !name.contains(|letter| UNSAFE_ALONE.contains(letter));
    match quotes {
        0 => in_double_quotes(ink, name),
        _ if can_stand_alone => ink.roman(name),
        _ => in_double_quotes(ink, &name.replace(is_double, "''")),
    }
}

/// Letters that would end or open something where a name stands in brackets without quotes.
const UNSAFE_ALONE: &str = "()[]{}'‘’`´";

/// Writes what is marked on a parent, each mark after a space.
pub(super) fn marks(ink: &mut Ink, marks: &Marks, without_cultivar: bool) {
    for tag in &marks.tags {
        match tag {
            Tag::Cultivar(_) if without_cultivar => {}
            tag => self::tag(ink, tag),
        }
    }
    certainty(ink, marks);
}

/// Says of a parent that is only claimed, or that its label doubts, that it is.
pub(super) fn certainty(ink: &mut Ink, marks: &Marks) {
    ink.roman(how_sure(marks.certainty));
}

/// What stands behind a part that is no surer than this.
pub(super) fn how_sure(certainty: Certainty) -> &'static str {
    match certainty {
        Certainty::Stated => "",
        Certainty::Claimed => " (claimed)",
        Certainty::Doubtful => " (?)",
    }
}

fn tag(ink: &mut Ink, tag: &Tag) {
    match tag {
        Tag::Label(label) => quoted(ink, label),
        Tag::Place(place) if !bracketable(place) => quoted(ink, place),
        Tag::Plant(code) if !bracketable(code) => quoted(ink, code),
        Tag::Clone(clone) if clone.is_empty() || clone.contains(char::is_whitespace) => {
            quoted(ink, clone)
        }
        Tag::Place(place) => ink.roman(&format!(" ({place})")),
        Tag::Plant(code) => ink.roman(&format!(" [{code}]")),
        Tag::Received(name) => {
            ink.roman(" (received as ");
            received(ink, name);
            ink.roman(")");
        }
        // Bare, a stroke would make a Purdy pedigree of a text without a sign.
        Tag::Clone(clone) if clone.contains('/') => {
            ink.roman(" clone");
            quoted(ink, clone);
        }
        Tag::Clone(number) if number.starts_with('#') => ink.roman(&format!(" {number}")),
        Tag::Clone(clone) => ink.roman(&format!(" clone {clone}")),
        Tag::Word(word) => ink.roman(&format!(" {word}")),
        Tag::Cultivar(epithet) => {
            ink.roman(" ");
            cultivar(ink, epithet);
        }
    }
}

/// Whether a text can stand in brackets and be told from a formula.
fn bracketable(text: &str) -> bool {
    !text.is_empty() && !text.contains(|letter| "()[]{}\"“”„″×'‘’`´".contains(letter))
}
