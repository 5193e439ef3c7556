//! Evidence in one sentence: the unit's own parents, the weakest cross further back if that is weaker, and how founders'
//! names are known. No step is printed without what is weaker.

use super::doubt::{Doubt, Named};
use super::listed::{number_in_words, or};
use super::statement::{Direction, Statement};
use super::strength::Strength;
use super::unit::Unit;
use super::whole::Evidence;
use crate::naming::{Leaf, Part};
use crate::record::Confidence;
use crate::registry::{CrossRow, KnownBy, PlantRow};

impl Evidence<'_, '_> {
    /// How surely a unit's descent is known, in one sentence.
    pub fn sentence(&self, unit: Unit) -> String {
        let Some(own) = self.statement(unit) else {
            return match unit {
                Unit::Plant(plant) => self.of_founder(plant),
                _ => "parents not known".to_owned(),
            };
        };
        let mut halves = vec![self.own_half(unit, &own)];
        halves.extend(self.further_half(unit, own.strength()));
        halves.extend(self.founders_half(unit));
        halves.extend(self.opinion_half(unit));
        halves.join("; ")
    }

    /// What an accepted opinion says of a seedling, whose name stays that of its parents.
    fn opinion_half(&self, unit: Unit) -> Option<String> {
        let Unit::Plant(plant) = unit else {
            return None;
        };
        let accepted = self.registry.accepted_of_seedling(plant)?;
        Some(format!(
            "identified as “{}” (accepted opinion)",
            &*accepted.name
        ))
    }

    /// How a unit's own parents are known; none for a plant whose parents are not recorded.
    pub fn own(&self, unit: Unit) -> Option<String> {
        self.statement(unit).map(|own| self.own_half(unit, &own))
    }

    /// The same in few words, for a row of a table: how the parents are known, what is weaker further back, and the
    /// worst known name where it is less than a tag.
    pub fn short(&self, unit: Unit) -> String {
        let links = self.short_links(unit);
        let words: Vec<String> = links.into_iter().map(|(_, words)| words).collect();
        words.join("; ")
    }

    /// Only the weakest of these, for a column of a screen; of two as weak the plant's own parents go first.
    pub fn weakest_short(&self, unit: Unit) -> String {
        let links = self.short_links(unit).into_iter();
        let weakest = links.reduce(|weakest, link| match link.0 > weakest.0 {
            true => link,
            false => weakest,
        });
        weakest.map_or(String::new(), |(_, words)| words)
    }

    fn short_links(&self, unit: Unit) -> Vec<(Strength, String)> {
        let own = self.statement(unit).map(|own| own.strength());
        let mut parts: Vec<(Strength, String)> = Vec::new();
        parts.extend(own.map(|own| (own, own.words().to_owned())));
        let further = self
            .further(unit)
            .filter(|further| Some(further.strength) > own);
        parts.extend(further.map(|further| {
            let at = self.holder_code(further.holder);
            let words = format!("{at} {}", further.strength.words());
            (further.strength, words)
        }));
        if let Some(name) = self
            .weakest_name(unit)
            .filter(|name| own.is_none() || name.strength > Strength::OnTag)
        {
            let of = match own {
                Some(_) => format!("name of {} ", self.founder_code(name.plant)),
                None => "name ".to_owned(),
            };
            parts.push((name.strength, format!("{of}{}", self.name_words(name))));
        }
        parts
    }

    /// How the unit's own parents are known.
    fn own_half(&self, unit: Unit, own: &Statement) -> String {
        let mut parts: Vec<String> = Vec::new();
        let mut doubts = own.doubts.iter();
        let several = doubts.find_map(|(_, doubt)| match doubt {
            Doubt::OneOfCrosses(n) => Some(*n),
            _ => None,
        });
        if let Some(n) = several {
            parts.push(self.one_of_crosses(unit, n));
            parts.push(self.each_cross(own));
        } else {
            let mut doubts = own.doubts.iter().peekable();
            // Whose word it is stands before what it says.
            let told = doubts.next_if(|(_, doubt)| *doubt == Doubt::Told);
            parts.extend(doubts.map(|(cross, doubt)| self.doubt(*cross, *doubt)));
            if let (Some((cross, _)), Some(first)) = (told, parts.first_mut()) {
                *first = format!("{}: {first}", self.told(*cross));
            }
        }
        match own.direction {
            Direction::Known => {}
            Direction::Assumed => {
                parts.push("the first parent on the label is taken as the seed parent".to_owned())
            }
            Direction::Lost => parts.push("which parent bore the seed is not known".to_owned()),
        }
        let whole_line = own.strength() == Strength::Witnessed
            && self
                .further(unit)
                .is_some_and(|further| further.strength == Strength::Witnessed)
            && !self.has_cross_without_record(unit);
        if whole_line {
            parts.push("every cross further back witnessed too".to_owned());
        }
        parts.join("; ")
    }

    /// Whether a founder behind a unit came of a cross of which only its label, or not even that, says anything.
    fn has_cross_without_record(&self, unit: Unit) -> bool {
        let founders = self.founders(unit).into_iter();
        let mut names = founders.filter_map(|link| self.names.founder(link.plant));
        names.any(|name| {
            let top = name.formula.part(name.formula.top());
            !matches!(top, Part::Leaf(Leaf::Species { .. } | Leaf::Unnamed { .. }))
        })
    }

    /// How each cross is known that a plant of a muddled tray may be of.
    fn each_cross(&self, own: &Statement) -> String {
        let words = own.crosses.iter().map(|&cross| {
            let of = own
                .doubts
                .iter()
                .filter(|(of, doubt)| *of == cross && !matches!(doubt, Doubt::OneOfCrosses(_)));
            let of: Vec<Doubt> = of.map(|(_, doubt)| *doubt).collect();
            let code = self.cross_code(cross);
            match of[..] {
                // Of the plant itself nothing more is known by that, so "parents witnessed" is not said.
                [Doubt::FreeText(Confidence::Unknown, Named::Both)] => {
                    format!("how {code} itself is known is not recorded")
                }
                [Doubt::FreeText(confidence, Named::Both)] => {
                    format!("{code} itself {}", Strength::from(confidence).words())
                }
                _ => {
                    let of: Vec<String> =
                        of.iter().map(|doubt| self.doubt(cross, *doubt)).collect();
                    format!("if of {code}, {}", of.join(", "))
                }
            }
        });
        words.collect::<Vec<_>>().join("; ")
    }

    fn one_of_crosses(&self, unit: Unit, n: usize) -> String {
        let n = number_in_words(n);
        let others = unit.mixed_up_with(self.registry);
        if !others.is_empty() {
            let codes = others.into_keys().map(str::to_owned);
            let with = or(&codes.collect::<Vec<_>>());
            return format!("from one of {n} crosses (mixed up with {with})");
        }
        let pods = unit.pods(self.registry).into_iter().map(|pod| {
            let cross = self.registry[pod.cross].page.code;
            format!("{cross}.{}", self.registry[pod].code)
        });
        format!(
            "from one of {n} crosses (pod {}), which may differ from plant to plant",
            or(&pods.collect::<Vec<_>>())
        )
    }

    pub(super) fn cross_code(&self, cross: CrossRow) -> &str {
        self.registry[cross].page.code
    }

    fn holder_code(&self, plant: PlantRow) -> String {
        match self.registry.unseen(plant).map(|unseen| unseen.known_by) {
            Some(KnownBy::SeedlingOf(cross)) => self.cross_code(cross).to_owned(),
            _ => self.registry.code(plant),
        }
    }
}
