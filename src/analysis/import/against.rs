//! What a row says against its parents.

use super::answer::{ImportRow, Who, Why};
use super::parents::{Parentage, species_named};

/// A cell, and what it contradicts.
type Contradiction = (String, Why);

impl Parentage<'_, '_> {
    /// A label of one species, where a parent is surely of another. `row` is looked up by its place with `other`.
    pub fn label_against<'r>(
        &self,
        row: &ImportRow,
        other: impl Fn(usize) -> Option<&'r ImportRow>,
    ) -> Option<Contradiction> {
        let label = row.facts.label.as_ref()?;
        let species = species_named(label, self.vocabulary)?;
        let sides = [&row.parents.seed, &row.parents.pollen];
        let sure = sides.into_iter().filter_map(|side| match &side[..] {
            [one] => self.name_of(one, &other),
            _ => None,
        });
        let mut named = sure.filter(|name| {
            let own = species_named(name, self.vocabulary);
            own.is_some_and(|own| own != species)
        });
        let name = named.next()?;
        Some((label.clone(), Why::ParentIs(name)))
    }

    /// The name that a parent is on record under, or in its row.
    fn name_of<'r>(
        &self,
        who: &Who,
        other: impl Fn(usize) -> Option<&'r ImportRow>,
    ) -> Option<String> {
        match who {
            Who::Species(epithet) => Some(format!("N. {epithet}")),
            Who::Row(at) => other(*at)?.facts.label.clone(),
            Who::OnRecord(code) => {
                let founder = self.registry.founder(self.registry.plant(code)?)?;
                Some(founder.received.to_string())
            }
        }
    }

    /// Parents of a seedling that are not those of its cross in the tables, both with their places among the rows.
    pub fn cross_against(
        &self,
        (at, row): (usize, &ImportRow),
        (line, cross): (usize, &ImportRow),
    ) -> Option<Contradiction> {
        let (own, _) = self.of(&row.facts, at);
        let (of_cross, _) = self.of(&cross.facts, line);
        let sides = [
            (own.seed, of_cross.seed, &row.facts.seed_parent),
            (own.pollen, of_cross.pollen, &row.facts.pollen_parent),
        ];
        let differs = sides.into_iter().find(|(own, other, _)| {
            let both_known = !own.is_empty() && !other.is_empty();
            both_known && !own.iter().any(|who| other.contains(who))
        });
        let (_, _, cell) = differs?;
        let code = cross.facts.code.clone().unwrap_or_default();
        Some((cell.clone().unwrap_or_default(), Why::CrossHasOthers(code)))
    }
}
