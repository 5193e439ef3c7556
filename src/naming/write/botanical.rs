//! Botanical order: alphabetical inside each pair, the genus repeated, no direction, no individuals.
//!
//! The Code prefers alphabetical order (Rec. H.2A.1) and wants the genus with every parent (Art. H.2 Ex. 2). Crosses within one
//! taxon are that taxon. A formula of two taxa is the same for F1, later generations and backcrosses (Art. H.4.1); which
//! it is stands in words beside it. What is only claimed is called so; of parts that are written once, because they are
//! alike, one that is claimed makes the whole claimed.

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
        claims: claims(formula),
        ink: Ink::new(writing.style),
        tasks: vec![Task::Part(formula.top(), Manner::default())],
    };
    if let Some((one, other)) = pen.two_taxa() {
        let claimed = pen.is_claimed(formula.top());
        let within = |text| claimed.then_some(Task::Roman(text));
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
        pen.ink.roman(if claimed { CLAIMED } else { "" });
    } else {
        pen.run()?;
    }
    if formula.is_doubtful() {
        pen.ink.roman(" (?)");
    }
    Ok(pen.ink.text)
}

/// Behind what is only claimed.
const CLAIMED: &str = " (claimed)";

/// For each part whether it, or anything it is made of, is only claimed.
fn claims(formula: &Formula) -> Vec<bool> {
    let mut claims = vec![false; formula.len()];
    for (id, part) in formula.parts() {
        let own = formula.marks(id).certainty == Certainty::Claimed;
        let below = part.made_of().iter().any(|made| claims[made.index()]);
        claims[id.index()] = own || below;
    }
    claims
}

/// How a part is written.
#[derive(Clone, Copy, Default)]
struct Manner {
    /// As a part of a larger one, so that what has several parts stands in brackets.
    inside: bool,
    /// Something that is left out here is only claimed, and so is the whole of what is written.
    claimed: bool,
}

impl Manner {
    const INSIDE: Manner = Manner {
        inside: true,
        claimed: false,
    };

    fn claimed_if(self, claimed: bool) -> Manner {
        Manner {
            claimed: self.claimed || claimed,
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
    claims: Vec<bool>,
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

    fn is_claimed(&self, id: PartId) -> bool {
        self.formula.marks(id).certainty == Certainty::Claimed
    }

    fn part(&mut self, id: PartId, manner: Manner) {
        let manner = manner.claimed_if(self.is_claimed(id));
        let one_taxon = self.structure.only_taxon(id).is_some();
        // Only one of the parts is written: the others leave their claims.
        let all_below = manner.claimed_if(one_taxon && self.claims[id.index()]);
        let claimed = if manner.claimed { CLAIMED } else { "" };
        match self.formula.part(id) {
            Part::Leaf(leaf) => {
                leaf::leaf(&mut self.ink, self.genus.as_deref(), leaf);
                if !matches!(leaf, Leaf::Unknown(_)) {
                    self.ink.roman(claimed);
                }
            }
            Part::Cross(cross) if cross.relation != Relation::Plain || one_taxon => {
                self.tasks.push(Task::Part(cross.seed, all_below));
            }
            Part::Cross(cross) => {
                let sides = self.ordered(cross).map(|side| (side, false));
                self.composed(&sides, manner, || Task::Sign);
            }
            Part::OneOf(parts) | Part::Mixed(parts) if one_taxon => {
                self.tasks.push(Task::Part(parts[0], all_below));
            }
            Part::OneOf(parts) | Part::Mixed(parts) => match self.unlike(parts)[..] {
                [(only, hides)] => self.tasks.push(Task::Part(only, manner.claimed_if(hides))),
                ref unlike if matches!(self.formula.part(id), Part::Mixed(_)) => {
                    let manner = Manner::INSIDE.claimed_if(manner.claimed);
                    self.composed(unlike, manner, || Task::Roman(", "));
                    self.tasks.push(Task::Roman("mixed pollen "));
                }
                ref unlike => self.composed(unlike, manner, || Task::Roman(" or ")),
            },
        }
    }

    /// Several parts in brackets where brackets are needed, with what is said of all of them behind.
    fn composed(&mut self, parts: &[(PartId, bool)], manner: Manner, between: impl Fn() -> Task) {
        let bracket = manner.inside || manner.claimed;
        let word = if manner.claimed { CLAIMED } else { "" };
        self.tasks.push(Task::Roman(word));
        self.tasks.push(Task::Roman(if bracket { ")" } else { "" }));
        for (place, (part, hides)) in parts.iter().enumerate().rev() {
            let manner = Manner::INSIDE.claimed_if(*hides);
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

    /// The parts in order, those that differ only in their plants or direction once; and whether one so left out is only
    /// claimed where the one written is not.
    fn unlike(&self, parts: &[PartId]) -> Vec<(PartId, bool)> {
        let mut parts = parts.to_vec();
        parts.sort_by(|one, other| self.structure.botanical_order(*one, *other));
        let alike = parts.chunk_by(|one, other| self.structure.alike(*one, *other));
        let written = |alike: &[PartId]| {
            let unsure = |part: &PartId| {
                !self.structure.as_sure(*part, alike[0]) && self.claims[part.index()]
            };
            (alike[0], alike.iter().any(unsure))
        };
        alike.map(written).collect()
    }

    /// The two taxa of a formula that is of just two sure species, however often they were crossed.
    fn two_taxa(&self) -> Option<(PartId, PartId)> {
        let only_crosses =
            |(_, part): (PartId, &Part)| matches!(part, Part::Leaf(_) | Part::Cross(_));
        let top = self.formula.part(self.formula.top());
        let claimed_below = top.made_of().iter().any(|part| self.claims[part.index()]);
        if claimed_below
            || !leaves(self.formula).all(|leaf| leaf.sure_species().is_some())
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
