//! The parents a row names: plants of the tables or on record by code or name, species by their names.

use super::answer::{RowParents, Who, Why};
use super::dates::is_blank;
use super::dittos::is_ditto;
use super::facts::RowFacts;
use super::index::{Index, folded};
use super::species::species_named;
use super::word_lists::is_in;
use crate::naming::{ReadOptions, Vocabulary, read};
use crate::registry::Registry;

/// What parents are looked up with.
pub(super) struct Parentage<'a, 't> {
    pub registry: &'a Registry<'t>,
    pub index: &'a Index,
    pub vocabulary: &'a Vocabulary,
    /// Whether a parent that is named only by its species is the species, and no plant that has its name.
    pub species_stay: bool,
}

/// A parent that is not clear: the cell, and why.
pub(super) type Unclear = (String, Why);

impl Parentage<'_, '_> {
    /// The parents of a row, and what of them is not clear; `own` is the row itself, which is no parent of its own.
    pub fn of(&self, facts: &RowFacts, own: usize) -> (RowParents, Vec<Unclear>) {
        let mut parents = RowParents::default();
        let mut unclear = Vec::new();
        let formula = facts
            .cross
            .as_ref()
            .filter(|_| facts.both_parents.is_none());
        if let Some(both) = facts.both_parents.as_ref().or(formula)
            && facts.seed_parent.is_none()
            && facts.pollen_parent.is_none()
        {
            self.both(both, own, &mut parents, &mut unclear);
            return (parents, unclear);
        }
        parents.seed = self.side(facts.seed_parent.as_deref(), own, &mut unclear);
        let pollen = facts.pollen_parent.as_deref();
        parents.open = pollen.is_some_and(is_open);
        if let Some(cell) = pollen.filter(|cell| is_self(cell)) {
            parents.pollen = self.selfed(&parents.seed);
            unclear.push((cell.to_owned(), Why::Selfed));
        } else if !parents.open {
            parents.mixed = pollen.is_some_and(|cell| self.is_mixture(cell, own));
            parents.pollen = match pollen.filter(|_| parents.mixed) {
                Some(mixture) => {
                    unclear.push((mixture.to_owned(), Why::PollenMixed));
                    self.each(&mixed(mixture), own).unwrap_or_default()
                }
                None => self.side(pollen, own, &mut unclear),
            };
        }
        (parents, unclear)
    }

    /// The father of seed that is said to be of one plant. No plant bears pods and gives pollen here, so he is not known;
    /// of a species or a cross any two plants may be meant.
    fn selfed(&self, mother: &[Who]) -> Vec<Who> {
        let is_plant = |who: &Who| match who {
            Who::Species(_) => false,
            Who::OnRecord(code) => self.registry.cross(code).is_none(),
            Who::Row(at) => !self.index.crosses.values().any(|cross| cross == at),
        };
        match mother.iter().any(is_plant) {
            true => Vec::new(),
            false => mother.to_vec(),
        }
    }

    fn side(&self, cell: Option<&str>, own: usize, unclear: &mut Vec<Unclear>) -> Vec<Who> {
        let Some(cell) = cell else {
            unclear.push((String::new(), Why::ParentMissing));
            return Vec::new();
        };
        let found = self.named(cell, own);
        match found.len() {
            0 => unclear.push((cell.to_owned(), self.why_not_known(cell, own))),
            1 => unclear.extend(self.by_species(cell, &found[0])),
            _ => unclear.push((cell.to_owned(), Why::ParentOneOf)),
        }
        found
    }

    /// Both parents in one cell: two plants with a sign between them, else a label that can be read.
    fn both(&self, cell: &str, own: usize, parents: &mut RowParents, unclear: &mut Vec<Unclear>) {
        let signs = cell.replace('×', " x ").replace(" X ", " x ");
        let sides: Vec<&str> = signs.split(" x ").map(str::trim).collect();
        if let &[mother, father] = &sides[..]
            && self.are_two(mother, father, own)
        {
            let facts = RowFacts {
                seed_parent: Some(mother.to_owned()),
                pollen_parent: Some(father.to_owned()),
                ..RowFacts::default()
            };
            let (of_two, why) = self.of(&facts, own);
            *parents = of_two;
            return unclear.extend(why);
        }
        let selfed = selfed_mother(&signs).map(|mother| (mother, self.named(mother, own)));
        if let Some((words, mother)) = selfed.filter(|(_, mother)| self.selfed(mother) != *mother) {
            unclear.extend(mother.iter().filter_map(|who| self.by_species(words, who)));
            parents.seed = mother;
            return unclear.push((cell.to_owned(), Why::Selfed));
        }
        let reading = read(cell, self.vocabulary, ReadOptions::default());
        match reading.refused {
            None => parents.label = Some(cell.to_owned()),
            Some(_) => unclear.push((cell.to_owned(), Why::ParentNotKnown)),
        }
    }

    /// Whether the two sides of a sign are read as two cells are: each names one plant, or one has the code of a plant and
    /// of the other is said who it is, or that it is not known.
    fn are_two(&self, mother: &str, father: &str, own: usize) -> bool {
        let is_plant =
            |words: &str| matches!(self.named(words, own)[..], [Who::Row(_) | Who::OnRecord(_)]);
        let is_coded = |words: &str| self.index.coded(self.registry, words).is_some();
        let is_said = |words: &str| is_blank(words) || !self.named(words, own).is_empty();
        let of_father = is_said(father) || is_open(father) || self.is_mixture(father, own);
        is_plant(mother) && is_plant(father)
            || is_coded(mother) && of_father
            || is_said(mother) && is_coded(father)
    }

    /// That a plant was found by a name which is no more than that of its species.
    fn by_species(&self, cell: &str, who: &Who) -> Option<Unclear> {
        let by_name = self.index.coded(self.registry, cell).is_none();
        let is_plant = matches!(who, Who::Row(_) | Who::OnRecord(_));
        let is_species = || species_named(cell, self.vocabulary).is_some();
        (by_name && is_plant && is_species())
            .then(|| (cell.to_owned(), Why::BySpecies(who.clone())))
    }

    /// Everyone a cell may mean.
    fn named(&self, cell: &str, own: usize) -> Vec<Who> {
        if is_blank(cell) {
            return Vec::new();
        }
        let whole = self.one(cell, own);
        if !whole.is_empty() {
            return whole;
        }
        let marks = cell.replace(" or ", "/").replace('|', "/");
        let pieces: Vec<&str> = marks.split('/').map(str::trim).collect();
        self.each(&pieces, own).unwrap_or_default()
    }

    /// Everyone that several words name together; `None` for fewer than two, or where one of them names no one: it could
    /// be any plant.
    fn each(&self, pieces: &[&str], own: usize) -> Option<Vec<Who>> {
        let each: Vec<Vec<Who>> = pieces.iter().map(|piece| self.one(piece, own)).collect();
        if pieces.len() < 2 || each.iter().any(Vec::is_empty) {
            return None;
        }
        let mut all: Vec<Who> = Vec::new();
        for who in each.into_iter().flatten() {
            if !all.contains(&who) {
                all.push(who);
            }
        }
        Some(all)
    }

    /// Whether a cell names several plants, one each, whose pollen was mixed. A name may have such a sign in it.
    fn is_mixture(&self, cell: &str, own: usize) -> bool {
        let pieces = mixed(cell);
        self.one(cell, own).is_empty()
            && pieces.iter().all(|piece| self.one(piece, own).len() == 1)
            && self.each(&pieces, own).is_some_and(|all| all.len() > 1)
    }

    /// Why no plant was found: a known one with a mark of doubt is something else than a name that is not known.
    fn why_not_known(&self, cell: &str, own: usize) -> Why {
        if is_ditto(cell) {
            return Why::Ditto;
        }
        if cell.trim().eq_ignore_ascii_case("same") {
            return Why::SameAsWhich;
        }
        let pieces: Vec<&str> = cell.split([',', ';', '/']).map(str::trim).collect();
        let is_coded = |piece: &&str| self.index.coded(self.registry, piece).is_some();
        if pieces.len() > 1 && pieces.iter().all(is_coded) {
            return Why::SeveralCodes(pieces.into_iter().map(str::to_owned).collect());
        }
        if self.index.is_of_two(cell) {
            return Why::CodeOfTwo;
        }
        let sure = without_doubt(cell);
        match self.one(sure, own).as_slice() {
            [Who::OnRecord(_) | Who::Row(_)] if sure != cell => Why::ParentDoubted(sure.to_owned()),
            _ => Why::ParentNotKnown,
        }
    }

    /// The plant of a code, else every plant of a name, else a species.
    fn one(&self, words: &str, own: usize) -> Vec<Who> {
        if let Some(who) = self.index.coded(self.registry, words) {
            return Some(who)
                .into_iter()
                .filter(|who| *who != Who::Row(own))
                .collect();
        }
        let species = || species_named(words, self.vocabulary).map(Who::Species);
        let plants = self.index.labels.get(&folded(words)).into_iter().flatten();
        let plants = plants.filter(|who| **who != Who::Row(own));
        let plants: Vec<Who> = plants.cloned().collect();
        let is_label = self.index.labels.contains_key(&folded(words));
        match plants.len() {
            1 if self.species_stay => species().map_or(plants, |species| vec![species]),
            0 if !is_label => species().into_iter().collect(),
            _ => plants,
        }
    }
}

/// What signs of a mixture stand between: `A & B`, `A + B`, `A and B`, `mix of A, B`.
fn mixed(cell: &str) -> Vec<&str> {
    let trimmed = cell.trim();
    let lower = trimmed.to_ascii_lowercase();
    let named = ["mixture of ", "mix of ", "mix: ", "mix "];
    match named.iter().find(|word| lower.starts_with(**word)) {
        Some(word) => {
            let rest = &trimmed[word.len()..];
            let pieces = rest.split(['&', '+', ',', ' ']).map(str::trim);
            pieces
                .filter(|piece| !piece.is_empty() && !piece.eq_ignore_ascii_case("and"))
                .collect()
        }
        None => trimmed
            .split(['&', '+'])
            .flat_map(|piece| piece.split(" and "))
            .map(str::trim)
            .collect(),
    }
}

/// A name without the marks of doubt around it: `A2?`, `A2 (?)`, `prob. A2`, `maybe A2`.
fn without_doubt(cell: &str) -> &str {
    let mut rest = cell.trim();
    let lower = rest.to_ascii_lowercase();
    let words = [
        "probably ",
        "prob. ",
        "prob ",
        "possibly ",
        "poss. ",
        "maybe ",
        "perhaps ",
    ];
    if let Some(word) = words.iter().find(|word| lower.starts_with(**word)) {
        rest = &rest[word.len()..];
    }
    rest.trim_end_matches(['?', '(', ')', ' '])
        .trim_start_matches('?')
        .trim()
}

fn is_open(cell: &str) -> bool {
    let lower = cell.to_lowercase();
    ["op", "o.p.", "open", "open pollinated", "open-pollinated"].contains(&lower.trim())
}

/// Words for pollen of the plant itself.
fn is_self(cell: &str) -> bool {
    let lower = cell.to_lowercase().replace('×', "x");
    let words = lower.trim().trim_end_matches('.');
    let words = words.strip_prefix("x ").unwrap_or(words).trim();
    let all = "self | selfed | selfing | self pollinated | self-pollinated | ⊗ | self ⊗ | selfed ⊗ | ⊗ self";
    is_in(all, words)
}

/// The plant of `V1 x self`, `V1 selfed` and `V1 ⊗`.
fn selfed_mother(cell: &str) -> Option<&str> {
    let ends = cell.match_indices(' ').map(|(at, _)| at);
    let mut ends = ends.filter(|at| is_self(&cell[*at..]));
    Some(cell[..ends.next()?].trim())
}
