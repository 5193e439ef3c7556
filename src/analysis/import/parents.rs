//! The parents a row names: plants of the tables or on record by code or name, species by their names.

use super::answer::{RowParents, Who, Why};
use super::dates::is_blank;
use super::dittos::is_ditto;
use super::facts::RowFacts;
use super::index::folded;
use super::sorting::Sorting;
use super::species::species_named;
use super::word_lists::is_in;
use crate::naming::{ReadOptions, read};
use crate::wording::each_once;

/// What parents are looked up with.
#[derive(Clone, Copy)]
pub(super) struct Parentage<'s, 'a, 't> {
    pub sorting: &'s Sorting<'a, 't>,
    /// The row itself, by its place: it is no parent of its own.
    pub own: usize,
    /// Whether a parent that is named only by its species is the species, and no plant that has its name.
    pub species_stay: bool,
}

/// A parent that is not clear: the cell, and why.
pub(super) type Unclear = (String, Why);

impl Sorting<'_, '_> {
    /// The parents that a row names, as far as they are known.
    pub fn parents_of(&self, own: usize, facts: &RowFacts) -> RowParents {
        let parentage = Parentage {
            sorting: self,
            own,
            species_stay: false,
        };
        parentage.of(facts).0
    }
}

impl Parentage<'_, '_, '_> {
    /// The parents of a row, and what of them is not clear.
    pub fn of(&self, facts: &RowFacts) -> (RowParents, Vec<Unclear>) {
        let formula = facts.both_parents.as_ref().or(facts.cross.as_ref());
        let (mut parents, mut unclear) = match (&facts.seed_parent, &facts.pollen_parent, formula) {
            (None, None, Some(both)) => self.both(both),
            (seed, pollen, _) => self.two(seed.as_deref(), pollen.as_deref()),
        };
        let by_species = unclear
            .iter()
            .any(|(_, why)| matches!(why, Why::BySpecies(_)));
        if is_one_plant(&parents) && !by_species && self.selfed(&parents.seed).is_empty() {
            parents.pollen.clear();
            let cell = facts.pollen_parent.as_ref().or(formula);
            unclear.push((cell.cloned().unwrap_or_default(), Why::Selfed));
        }
        (parents, unclear)
    }

    /// Two parents in cells of their own.
    fn two(&self, seed: Option<&str>, pollen: Option<&str>) -> (RowParents, Vec<Unclear>) {
        let mut unclear = Vec::new();
        let mut parents = RowParents {
            seed: self.side(seed, &mut unclear),
            open: pollen.is_some_and(is_open),
            ..RowParents::default()
        };
        if let Some(cell) = pollen.filter(|cell| is_self(cell)) {
            parents.pollen = self.selfed(&parents.seed);
            unclear.push((cell.to_owned(), Why::Selfed));
        } else if let Some(mixture) = pollen.filter(|cell| !parents.open && self.is_mixture(cell)) {
            parents.mixed = true;
            parents.pollen = self.each(&mixed(mixture)).unwrap_or_default();
            unclear.push((mixture.to_owned(), Why::PollenMixed));
        } else if !parents.open {
            parents.pollen = self.side(pollen, &mut unclear);
        }
        (parents, unclear)
    }

    /// The father of seed that is said to be of one plant. No plant bears pods and gives pollen here, so he is not known;
    /// of a species or a cross any two plants may be meant.
    fn selfed(&self, mother: &[Who]) -> Vec<Who> {
        let is_plant = |who: &Who| match who {
            Who::Species(_) => false,
            Who::OnRecord(code) => self.sorting.registry.cross(code).is_none(),
            Who::Row(at) => !self.sorting.index.crosses.values().any(|cross| cross == at),
        };
        match mother.iter().any(is_plant) {
            true => Vec::new(),
            false => mother.to_vec(),
        }
    }

    fn side(&self, cell: Option<&str>, unclear: &mut Vec<Unclear>) -> Vec<Who> {
        let Some(cell) = cell else {
            unclear.push((String::new(), Why::ParentMissing));
            return Vec::new();
        };
        let found = self.named(cell);
        match found.len() {
            0 => unclear.push((cell.to_owned(), self.why_not_known(cell))),
            1 => unclear.extend(self.by_species(cell, &found[0])),
            _ => unclear.push((cell.to_owned(), Why::ParentOneOf)),
        }
        found
    }

    /// Both parents in one cell: two plants with a sign between them, else a label that can be read.
    fn both(&self, cell: &str) -> (RowParents, Vec<Unclear>) {
        let signs = cell.replace('×', " x ").replace(" X ", " x ");
        let sides: Vec<&str> = signs.split(" x ").map(unbracketed).collect();
        let two = match sides[..] {
            [mother, father] => Some((mother, father)),
            _ => None,
        };
        if let Some((mother, father)) = two.filter(|of| self.are_two(of.0, of.1)) {
            return self.two(Some(mother), Some(father));
        }
        let mut parents = RowParents::default();
        let mut unclear = Vec::new();
        let selfed = selfed_mother(&signs).map(|mother| (mother, self.named(mother)));
        if let Some((words, mother)) = selfed.filter(|(_, mother)| self.selfed(mother) != *mother) {
            unclear.extend(mother.iter().filter_map(|who| self.by_species(words, who)));
            unclear.push((cell.to_owned(), Why::Selfed));
            parents.seed = mother;
        } else if read(cell, self.sorting.vocabulary, ReadOptions::default())
            .refused
            .is_some()
        {
            // A doubt about one parent leaves the other.
            let is_coded = |words: &str| self.sorting.coded(words).is_some();
            if let Some((mother, father)) = two.filter(|of| is_coded(of.0) || is_coded(of.1)) {
                return self.two(Some(mother), Some(father));
            }
            unclear.push((cell.to_owned(), Why::ParentNotKnown));
        } else {
            parents.label = Some(cell.to_owned());
        }
        (parents, unclear)
    }

    /// Whether the two sides of a sign are read as two cells are: each names one plant, or one has the code of a plant and
    /// of the other is said who it is, or that it is not known.
    fn are_two(&self, mother: &str, father: &str) -> bool {
        let is_plant =
            |words: &str| matches!(self.named(words)[..], [Who::Row(_) | Who::OnRecord(_)]);
        let is_coded = |words: &str| self.sorting.coded(words).is_some();
        let is_said = |words: &str| is_blank(words) || !self.named(words).is_empty();
        let of_father = is_said(father) || is_open(father) || self.is_mixture(father);
        is_plant(mother) && is_plant(father)
            || is_coded(mother) && of_father
            || is_said(mother) && is_coded(father)
    }

    /// That a plant was found by a name which is no more than that of its species.
    fn by_species(&self, cell: &str, who: &Who) -> Option<Unclear> {
        let by_name = self.sorting.coded(cell).is_none();
        let is_plant = matches!(who, Who::Row(_) | Who::OnRecord(_));
        let is_species = || species_named(cell, self.sorting.vocabulary).is_some();
        (by_name && is_plant && is_species())
            .then(|| (cell.to_owned(), Why::BySpecies(who.clone())))
    }

    /// Everyone a cell may mean.
    fn named(&self, cell: &str) -> Vec<Who> {
        if is_blank(cell) {
            return Vec::new();
        }
        let whole = self.one(cell);
        if !whole.is_empty() {
            return whole;
        }
        let marks = cell.replace(" or ", "/").replace('|', "/");
        let pieces: Vec<&str> = marks.split('/').map(str::trim).collect();
        self.each(&pieces).unwrap_or_default()
    }

    /// Everyone that several words name together; `None` for fewer than two, or where one of them names no one: it could
    /// be any plant.
    fn each(&self, pieces: &[&str]) -> Option<Vec<Who>> {
        let each: Vec<Vec<Who>> = pieces.iter().map(|piece| self.one(piece)).collect();
        if pieces.len() < 2 || each.iter().any(Vec::is_empty) {
            return None;
        }
        Some(each_once(each.into_iter().flatten()))
    }

    /// Whether a cell names several plants, one each, whose pollen was mixed. A name may have such a sign in it.
    fn is_mixture(&self, cell: &str) -> bool {
        let pieces = mixed(cell);
        self.one(cell).is_empty()
            && pieces.iter().all(|piece| self.one(piece).len() == 1)
            && self.each(&pieces).is_some_and(|all| all.len() > 1)
    }

    /// Why no plant was found: a known one with a mark of doubt is something else than a name that is not known.
    fn why_not_known(&self, cell: &str) -> Why {
        if is_ditto(cell) {
            return Why::Ditto;
        }
        if cell.trim().eq_ignore_ascii_case("same") {
            return Why::SameAsWhich;
        }
        let pieces: Vec<&str> = cell.split([',', ';', '/']).map(str::trim).collect();
        let is_coded = |piece: &&str| self.sorting.coded(piece).is_some();
        if pieces.len() > 1 && pieces.iter().all(is_coded) {
            return Why::SeveralCodes(pieces.into_iter().map(str::to_owned).collect());
        }
        if self.sorting.index.of_two.contains(cell) {
            return Why::CodeOfTwo;
        }
        let sure = without_doubt(cell);
        match self.one(sure).as_slice() {
            [Who::OnRecord(_) | Who::Row(_)] if sure != cell => Why::ParentDoubted(sure.to_owned()),
            _ => Why::ParentNotKnown,
        }
    }

    /// The plant of `ventricosa (V1)`, where it has that name.
    fn coded_behind_its_name(&self, words: &str) -> Option<Who> {
        let (name, code) = words.strip_suffix(')')?.split_once('(')?;
        let who = self.sorting.coded(code.trim())?;
        let own = self.sorting.name_of(&who)?;
        let species = |name: &str| species_named(name, self.sorting.vocabulary);
        let is_name = folded(&own) == folded(name)
            || species(name).is_some_and(|named| species(&own) == Some(named));
        (is_name && who != Who::Row(self.own)).then_some(who)
    }

    /// The plant of a code, else every plant of a name, else a species.
    fn one(&self, words: &str) -> Vec<Who> {
        let is_own = |who: &Who| *who == Who::Row(self.own);
        if let Some(who) = self.sorting.coded(words) {
            return Some(who).into_iter().filter(|who| !is_own(who)).collect();
        }
        if let Some(who) = self.coded_behind_its_name(words) {
            return vec![who];
        }
        let species = || species_named(words, self.sorting.vocabulary).map(Who::Species);
        let Some(plants) = self.sorting.index.labels.get(&folded(words)) else {
            return species().into_iter().collect();
        };
        let plants: Vec<Who> = plants.iter().filter(|who| !is_own(who)).cloned().collect();
        match plants.len() {
            1 if self.species_stay => species().map_or(plants, |species| vec![species]),
            _ => plants,
        }
    }
}

/// Whether one plant stands for both parents.
pub(super) fn is_one_plant(parents: &RowParents) -> bool {
    match (&parents.seed[..], &parents.pollen[..]) {
        ([seed], [pollen]) => seed == pollen && !matches!(seed, Who::Species(_)),
        _ => false,
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
pub(super) fn without_doubt(cell: &str) -> &str {
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

/// Words without the brackets around the whole of them.
fn unbracketed(side: &str) -> &str {
    let side = side.trim();
    let inner = side
        .strip_prefix('(')
        .and_then(|side| side.strip_suffix(')'));
    inner.map_or(side, str::trim)
}

/// The plant of `V1 x self`, `V1 selfed` and `V1 ⊗`.
fn selfed_mother(cell: &str) -> Option<&str> {
    let ends = cell.match_indices(' ').map(|(at, _)| at);
    let mut ends = ends.filter(|at| is_self(&cell[*at..]));
    Some(cell[..ends.next()?].trim())
}
