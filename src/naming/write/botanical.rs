//! Botanical order: alphabetical inside each pair, the genus repeated, no direction, no individuals.
//!
//! The Code prefers alphabetical order (Rec. H.2A.1) and wants the genus with every parent (Art. H.2 Ex. 2). Crosses within one
//! taxon are that taxon. A formula of two taxa is the same for F1, later generations and backcrosses (Art. H.4.1); which
//! it is stands in words beside it. What is only claimed or doubted is called so where it stands; of parts that are written
//! once, because they are alike, the least sure one makes the whole as unsure.

use std::collections::BTreeSet;

use crate::naming::formula::{
    Certainty, Cross, Formula, Leaf, Part, PartId, Relation, Structure, backcross, leaves,
};

use super::ink::{Ink, TooLong, Writing};
use super::leaf;

/// The formula in botanical order.
///
/// # Errors
/// Refuses a formula whose text would be beyond any paper.
pub fn botanical(formula: &Formula, writing: &Writing<'_>) -> Result<String, TooLong> {
    ordered(formula, writing, Some(writing.vocabulary.genus_short()))
}

/// The formula in alphabetical order for a tag: the genus once, and a word that claims no seed parent.
pub(super) fn alphabetical(formula: &Formula, writing: &Writing<'_>) -> Result<String, TooLong> {
    let mut ink = Ink::new(writing.style);
    ink.latin(&writing.vocabulary.genus_short());
    ink.roman(" ");
    ink.text.push_str(&ordered(formula, writing, None)?);
    ink.roman(" (alphabetical)");
    Ok(ink.text)
}

fn ordered(
    formula: &Formula,
    writing: &Writing<'_>,
    genus: Option<String>,
) -> Result<String, TooLong> {
    let structure = Structure::of(formula);
    let mut pen = Pen {
        formula,
        structure,
        genus,
        least_sure: least_sure(formula),
        in_full: false,
        ink: Ink::new(writing.style),
        tasks: vec![Task::Part(formula.top(), Manner::default())],
    };
    if let Some((one, other)) = pen.two_taxa() {
        let certainty = pen.least_sure[formula.top().index()];
        let within = |text| (certainty != Certainty::Stated).then_some(Task::Roman(text));
        let [one, other] = [one, other].map(|part| Task::Part(part, Manner::default()));
        let tasks = [
            within(")"),
            Some(other),
            Some(Task::Sign),
            Some(one),
            within("("),
        ];
        pen.tasks = tasks.into_iter().flatten().collect();
        pen.run()?;
        pen.words();
        pen.ink.roman(leaf::how_sure(certainty));
    } else if pen.is_within_one_cross() && pen.is_of_two_names() {
        pen.in_full = true;
        pen.tasks = vec![Task::Part(formula.top(), Manner::INSIDE)];
        pen.run()?;
        pen.words();
    } else {
        pen.run()?;
    }
    Ok(pen.ink.text)
}

/// For each part how surely the least sure of it and of all it is made of is known.
fn least_sure(formula: &Formula) -> Vec<Certainty> {
    let mut least = vec![Certainty::Stated; formula.len()];
    for (id, part) in formula.parts() {
        let below = part.made_of().iter().map(|made| least[made.index()]).max();
        least[id.index()] = below
            .max(Some(formula.marks(id).certainty))
            .unwrap_or_default();
    }
    least
}

/// How a part is written.
#[derive(Clone, Copy, Default)]
struct Manner {
    /// As a part of a larger one, so that what has several parts stands in brackets.
    inside: bool,
    /// How sure the least sure of what is left out here is, and so the whole of what is written.
    certainty: Certainty,
}

impl Manner {
    const INSIDE: Manner = Manner {
        inside: true,
        certainty: Certainty::Stated,
    };

    fn no_surer_than(self, certainty: Certainty) -> Manner {
        Manner {
            certainty: self.certainty.max(certainty),
            ..self
        }
    }
}

enum Task {
    Part(PartId, Manner),
    Roman(&'static str),
    Sign,
}

struct Pen<'f> {
    formula: &'f Formula,
    structure: Structure,
    /// Written with every parent, unless it stands once in front.
    genus: Option<String>,
    least_sure: Vec<Certainty>,
    /// All crosses behind the words are written, not only the first of them.
    in_full: bool,
    ink: Ink,
    tasks: Vec<Task>,
}

impl Pen<'_> {
    fn run(&mut self) -> Result<(), TooLong> {
        while let Some(task) = self.tasks.pop() {
            match task {
                Task::Part(id, manner) => self.part(id, manner),
                Task::Roman(text) => self.ink.roman(text),
                Task::Sign => self.ink.cross(),
            }
            if self.ink.overflows() {
                return Err(TooLong::of(self.formula));
            }
        }
        Ok(())
    }

    fn certainty(&self, id: PartId) -> Certainty {
        self.formula.marks(id).certainty
    }

    fn part(&mut self, id: PartId, manner: Manner) {
        let manner = manner.no_surer_than(self.certainty(id));
        let one_taxon = self.structure.only_taxon(id).is_some();
        // Only one of the parts is written: the others leave their doubts.
        let all_below = match one_taxon {
            true => manner.no_surer_than(self.least_sure[id.index()]),
            false => manner,
        };
        match self.formula.part(id) {
            Part::Leaf(leaf) => {
                leaf::leaf(&mut self.ink, self.genus.as_deref(), leaf);
                if !matches!(leaf, Leaf::Unknown(_)) {
                    self.ink.roman(leaf::how_sure(manner.certainty));
                }
            }
            Part::Cross(cross) if one_taxon => self.tasks.push(Task::Part(cross.seed, all_below)),
            // Sibs are alike, though one of them may be known less surely.
            Part::Cross(cross) if cross.relation != Relation::Plain => {
                let (one, hides) = self.unlike(&[cross.seed, cross.pollen])[0];
                self.tasks
                    .push(Task::Part(one, manner.no_surer_than(hides)));
            }
            Part::Cross(cross) => {
                let sides = self.ordered(cross).map(|side| (side, Certainty::Stated));
                self.composed(&sides, manner, || Task::Sign);
            }
            Part::OneOf(parts) | Part::Mixed(parts) if one_taxon => {
                self.tasks.push(Task::Part(parts[0], all_below));
            }
            Part::OneOf(parts) | Part::Mixed(parts) => match self.unlike(parts)[..] {
                [(only, hides)] => {
                    self.tasks
                        .push(Task::Part(only, manner.no_surer_than(hides)));
                }
                ref unlike if matches!(self.formula.part(id), Part::Mixed(_)) => {
                    let manner = Manner::INSIDE.no_surer_than(manner.certainty);
                    self.composed(unlike, manner, || Task::Roman(", "));
                    self.tasks.push(Task::Roman("mixed pollen "));
                }
                ref unlike => self.composed(unlike, manner, || Task::Roman(" or ")),
            },
        }
    }

    /// Several parts in brackets where brackets are needed, with what is said of all of them behind.
    fn composed(
        &mut self,
        parts: &[(PartId, Certainty)],
        manner: Manner,
        between: impl Fn() -> Task,
    ) {
        let bracket = manner.inside || manner.certainty != Certainty::Stated;
        self.tasks
            .push(Task::Roman(leaf::how_sure(manner.certainty)));
        self.tasks.push(Task::Roman(if bracket { ")" } else { "" }));
        for (place, (part, hides)) in parts.iter().enumerate().rev() {
            let manner = Manner::INSIDE.no_surer_than(*hides);
            self.tasks.push(Task::Part(*part, manner));
            if place > 0 {
                self.tasks.push(between());
            }
        }
        self.tasks.push(Task::Roman(if bracket { "(" } else { "" }));
    }

    fn ordered(&self, cross: &Cross) -> [PartId; 2] {
        match self.structure.botanical_order(cross.seed, cross.pollen) {
            std::cmp::Ordering::Greater => [cross.pollen, cross.seed],
            _ => [cross.seed, cross.pollen],
        }
    }

    /// The parts in order, those that differ only in their plants or direction once; and how sure the least sure of those
    /// so left out is, where the one written is not as unsure.
    fn unlike(&self, parts: &[PartId]) -> Vec<(PartId, Certainty)> {
        let mut parts = parts.to_vec();
        parts.sort_by(|one, other| self.structure.botanical_order(*one, *other));
        let alike = parts.chunk_by(|one, other| self.structure.alike(*one, *other));
        let written = |alike: &[PartId]| {
            let others = alike
                .iter()
                .filter(|part| !self.structure.as_sure(**part, alike[0]));
            let least = others.map(|part| self.least_sure[part.index()]).max();
            (alike[0], least.unwrap_or_default())
        };
        alike.map(written).collect()
    }

    /// Whether the whole was bred within one cross: F2, sibs, a self.
    fn is_within_one_cross(&self) -> bool {
        matches!(self.formula.part(self.formula.top()), Part::Cross(cross)
            if cross.relation != Relation::Plain)
    }

    fn is_of_two_names(&self) -> bool {
        let only_crosses =
            |(_, part): (PartId, &Part)| matches!(part, Part::Leaf(_) | Part::Cross(_));
        leaves(self.formula).all(|leaf| leaf.sure_species().is_some())
            && self.formula.parts().all(only_crosses)
            && self.names().len() == 2
    }

    fn names(&self) -> BTreeSet<String> {
        leaves(self.formula).map(|leaf| leaf.name()).collect()
    }

    /// The two taxa of a formula that is of just two sure species, however often they were crossed; the whole may be claimed.
    fn two_taxa(&self) -> Option<(PartId, PartId)> {
        let mut base = self.formula.part(self.formula.top());
        while let Part::Cross(cross) = base
            && cross.relation != Relation::Plain
        {
            base = self.formula.part(cross.seed);
        }
        let is_unsure = |part: &PartId| self.least_sure[part.index()] != Certainty::Stated;
        if base.made_of().iter().any(is_unsure) || !self.is_of_two_names() {
            return None;
        }
        let names = self.names();
        let mut first_of = names.iter().map(|name| {
            let of_name = |(id, part): (PartId, &Part)| match part {
                Part::Leaf(leaf) if leaf.name() == *name => Some(id),
                _ => None,
            };
            self.formula.parts().find_map(of_name)
        });
        match (first_of.next(), first_of.next(), names.len()) {
            (Some(one), Some(other), 2) => Some((one?, other?)),
            _ => None,
        }
    }

    /// What kind of cross of two taxa it is.
    fn words(&mut self) {
        let top = self.formula.top();
        let Part::Cross(cross) = self.formula.part(top) else {
            return;
        };
        let genus = self.genus.as_ref();
        let genus = genus.map(|genus| format!("{genus} ")).unwrap_or_default();
        let later = || "later generation".to_owned();
        let words = match cross.relation {
            Relation::Sib if self.simple(cross.seed) => "sib cross".to_owned(),
            Relation::SelfReported if self.simple(cross.seed) => "self reported".to_owned(),
            Relation::Sib | Relation::SelfReported => later(),
            Relation::Filial => self
                .filial(cross)
                .map_or_else(later, |number| format!("F{number}")),
            Relation::Plain => match backcross(self.formula, &self.structure, top) {
                Some(found) if found.times == 1 => {
                    format!("backcross to {genus}{}", found.recurrent)
                }
                Some(found) => format!(
                    "backcross {} times to {genus}{}",
                    found.times, found.recurrent
                ),
                None if self.simple(top) => return,
                None => later(),
            },
        };
        self.ink.roman(" (");
        self.ink.roman(&words);
        self.ink.roman(")");
    }

    /// Which filial generation of the cross that is written: the second for one cross within it, and so on. None for that of
    /// another cross, such as a backcross, which is not what stands before the word.
    fn filial(&self, cross: &Cross) -> Option<usize> {
        let (mut number, mut at) = (2, cross.seed);
        while let Part::Cross(Cross {
            relation: Relation::Filial,
            seed,
            ..
        }) = self.formula.part(at)
        {
            number += 1;
            at = *seed;
        }
        self.simple(at).then_some(number)
    }

    /// Whether a part is a plain cross, and of plants of one taxon each unless it is written in full.
    fn simple(&self, part: PartId) -> bool {
        let is_pure = |side| self.structure.only_taxon(side).is_some();
        matches!(self.formula.part(part), Part::Cross(cross)
            if cross.relation == Relation::Plain && (self.in_full || is_pure(cross.seed) && is_pure(cross.pollen)))
    }
}
