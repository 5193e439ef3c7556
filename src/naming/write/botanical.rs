//! Botanical order: alphabetical inside each pair, the genus repeated, no direction, no individuals.
//!
//! The Code prefers alphabetical order (Rec. H.2A.1) and wants the genus with every parent (Art. H.2 Ex. 2). Crosses within one
//! taxon are that taxon. A formula of two taxa is the same for F1, later generations and backcrosses (Art. H.4.1); which
//! it is stands in words beside it.

use std::collections::BTreeSet;

use crate::naming::formula::{
    Cross, Formula, Part, PartId, Relation, Structure, backcross, leaves,
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
        ink: Ink::new(writing.style),
        tasks: vec![Task::Part(formula.top())],
    };
    if let Some((one, other)) = pen.two_taxa() {
        pen.tasks = vec![Task::Part(other), Task::Sign, Task::Part(one)];
        pen.run()?;
        pen.words();
    } else {
        pen.run()?;
    }
    if formula.is_doubtful() {
        pen.ink.roman(" (?)");
    }
    Ok(pen.ink.text)
}

enum Task {
    Part(PartId),
    Inside(PartId),
    Roman(&'static str),
    Sign,
}

struct Pen<'f> {
    formula: &'f Formula,
    structure: Structure,
    /// Written with every parent, unless it stands once in front.
    genus: Option<String>,
    ink: Ink,
    tasks: Vec<Task>,
}

impl Pen<'_> {
    fn run(&mut self) -> Result<(), TooLong> {
        while let Some(task) = self.tasks.pop() {
            match task {
                Task::Part(id) => self.part(id, false),
                Task::Inside(id) => self.part(id, true),
                Task::Roman(text) => self.ink.roman(text),
                Task::Sign => self.ink.cross(),
            }
            if self.ink.overflows() {
                return Err(TooLong::of(self.formula));
            }
        }
        Ok(())
    }

    fn part(&mut self, id: PartId, inside: bool) {
        let (close, open) = if inside { (")", "(") } else { ("", "") };
        match self.formula.part(id) {
            Part::Leaf(leaf) => leaf::leaf(&mut self.ink, self.genus.as_deref(), leaf),
            Part::Cross(cross)
                if cross.relation != Relation::Plain || self.structure.only_taxon(id).is_some() =>
            {
                let task = if inside {
                    Task::Inside(cross.seed)
                } else {
                    Task::Part(cross.seed)
                };
                self.tasks.push(task);
            }
            Part::Cross(cross) => {
                let (first, second) = self.ordered(cross);
                self.tasks.push(Task::Roman(close));
                self.tasks.extend([
                    Task::Inside(second),
                    Task::Sign,
                    Task::Inside(first),
                    Task::Roman(open),
                ]);
            }
            Part::OneOf(parts) if self.structure.only_taxon(id).is_some() => {
                self.tasks.push(Task::Part(parts[0]))
            }
            Part::Mixed(parts) if self.structure.only_taxon(id).is_some() => {
                self.tasks.push(Task::Part(parts[0]))
            }
            Part::OneOf(parts) | Part::Mixed(parts) if self.unlike(parts).len() == 1 => {
                let task = if inside {
                    Task::Inside(parts[0])
                } else {
                    Task::Part(parts[0])
                };
                self.tasks.push(task);
            }
            Part::OneOf(parts) => self.listed(parts, open, " or ", close),
            Part::Mixed(parts) => self.listed(parts, "mixed pollen (", ", ", ")"),
        }
    }

    fn ordered(&self, cross: &Cross) -> (PartId, PartId) {
        match self.structure.botanical_order(cross.seed, cross.pollen) {
            std::cmp::Ordering::Greater => (cross.pollen, cross.seed),
            _ => (cross.seed, cross.pollen),
        }
    }

    /// The parts in order, those that differ only in their plants or direction once.
    fn unlike(&self, parts: &[PartId]) -> Vec<PartId> {
        let mut parts = parts.to_vec();
        parts.sort_by(|one, other| self.structure.botanical_order(*one, *other));
        parts.dedup_by(|one, other| self.structure.alike(*one, *other));
        parts
    }

    fn listed(
        &mut self,
        parts: &[PartId],
        open: &'static str,
        between: &'static str,
        close: &'static str,
    ) {
        let parts = self.unlike(parts);
        self.tasks.push(Task::Roman(close));
        for (place, part) in parts.iter().enumerate().rev() {
            self.tasks.push(Task::Inside(*part));
            if place > 0 {
                self.tasks.push(Task::Roman(between));
            }
        }
        self.tasks.push(Task::Roman(open));
    }

    /// The two taxa of a formula that is of just two sure species, however often they were crossed.
    fn two_taxa(&self) -> Option<(PartId, PartId)> {
        let only_crosses =
            |(_, part): (PartId, &Part)| matches!(part, Part::Leaf(_) | Part::Cross(_));
        if !leaves(self.formula).all(|leaf| leaf.sure_species().is_some())
            || !self.formula.parts().all(only_crosses)
        {
            return None;
        }
        let names: BTreeSet<String> = leaves(self.formula).map(|leaf| leaf.name()).collect();
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
        let words = match cross.relation {
            Relation::Sib => "sib cross".to_owned(),
            Relation::Filial => format!("F{}", self.filial(cross)),
            Relation::SelfReported => "self reported".to_owned(),
            Relation::Plain => match backcross(self.formula, &self.structure, top) {
                Some(found) if found.times == 1 => {
                    format!("backcross to {genus}{}", found.recurrent)
                }
                Some(found) => format!(
                    "backcross {} times to {genus}{}",
                    found.times, found.recurrent
                ),
                None if self.simple(cross) => return,
                None => "later generation".to_owned(),
            },
        };
        self.ink.roman(" (");
        self.ink.roman(&words);
        self.ink.roman(")");
    }

    /// Which filial generation: the second for one cross within a cross, and so on.
    fn filial(&self, cross: &Cross) -> usize {
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
        number
    }

    fn simple(&self, cross: &Cross) -> bool {
        self.structure.only_taxon(cross.seed).is_some()
            && self.structure.only_taxon(cross.pollen).is_some()
    }
}
