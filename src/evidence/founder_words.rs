//! How the names of founders are known, in words: those behind a unit, or a founder's own.

use super::listed::and;
use super::names::{NameKind, NameLink, is_by_me};
use super::strength::Strength;
use super::unit::Unit;
use super::whole::Evidence;
use crate::naming::recorded::FounderName;
use crate::record::Confidence;
use crate::registry::{KnownBy, PlantRow};
use crate::wording::each_once;

impl Evidence<'_, '_> {
    /// How founders' names are known, the best known first.
    pub(super) fn founders_half(&self, unit: Unit) -> Option<String> {
        let links = self.founders(unit);
        let groups: Vec<&[NameLink]> = links
            .chunk_by(|one, other| {
                let key = |of: &NameLink| {
                    let known = (self.has_basis(*of), self.is_own_opinion(*of));
                    (of.strength, of.kind, known)
                };
                key(one) == key(other)
            })
            .collect();
        let mut words: Vec<String> = Vec::new();
        for group in groups {
            let codes = each_once(group.iter().map(|link| self.founder_code(link.plant)));
            let by = self.group_words(group[0], group.len());
            // Those known best need no list: whoever is not named is one of them.
            let is_rest =
                words.is_empty() && group.len() > 1 && group[0].strength <= Strength::OnTag;
            words.push(match (is_rest, words.is_empty()) {
                (true, _) => format!("founders {by}"),
                // The parents on a label, or a species named on a page, are no plants with a code.
                (false, true) if codes.iter().all(|code| code.starts_with("the ")) => {
                    format!("founders: {} {by}", and(&codes))
                }
                (false, true) => {
                    let founders = if codes.len() == 1 {
                        "founder"
                    } else {
                        "founders"
                    };
                    format!("{founders} {} {by}", and(&codes))
                }
                (false, false) => format!("{} {by}", and(&codes)),
            });
        }
        (!words.is_empty()).then(|| words.join("; "))
    }

    pub(super) fn of_founder(&self, plant: PlantRow) -> String {
        let Some(founder) = self.names.founder(plant) else {
            return self.of_unseen(plant);
        };
        let Some(name) = self.weakest_name(Unit::Plant(plant)) else {
            return String::new();
        };
        let told = self
            .registry
            .founder(plant)
            .and_then(|of| of.told_by.as_ref());
        let what = match (founder.identified, told) {
            (true, told) => identified(founder, told.map(|by| by.registry)),
            (false, Some(by)) => {
                format!("as told by the registry {}: name as received", by.registry)
            }
            (false, None) => "name as received".to_owned(),
        };
        let said = match (founder.confidence, &founder.basis) {
            (Confidence::Unknown, Some(basis)) => format!("on the basis \"{basis}\""),
            (Confidence::Unknown, None) => "how it is known is not recorded".to_owned(),
            (confidence, _) => Strength::from(confidence).words().to_owned(),
        };
        let more = match name.kind {
            NameKind::Plain => String::new(),
            NameKind::NotRead => return "the received name could not be read".to_owned(),
            NameKind::Provisional => ", provisional: no full share of that species".to_owned(),
            NameKind::HybridNameAlone => {
                ", a hybrid name alone, so the parents hold only if the name is right, and the generation is not known"
                    .to_owned()
            }
        };
        format!("{what}, {said}{more}")
    }

    fn of_unseen(&self, plant: PlantRow) -> String {
        let Some(unseen) = self.registry.unseen(plant) else {
            return "parents not known".to_owned();
        };
        let page = self.cross_code(unseen.cross);
        match unseen.known_by {
            KnownBy::Label => format!("never seen here, by the label of {page} only"),
            _ => format!("never seen here, named only as a parent of {page}"),
        }
    }

    /// A founder; both parents of a cross that only has a label are named by the cross.
    pub(super) fn founder_code(&self, plant: PlantRow) -> String {
        match self.registry.unseen(plant) {
            Some(unseen) if unseen.known_by == KnownBy::Label => {
                format!("the parents of {}", self.cross_code(unseen.cross))
            }
            Some(unseen) => match unseen.known_by {
                KnownBy::Species(epithet) => {
                    format!("the {epithet} of {}", self.cross_code(unseen.cross))
                }
                _ => self.registry.code(plant),
            },
            None => self.registry.code(plant),
        }
    }

    fn group_words(&self, link: NameLink, count: usize) -> String {
        let their = if count > 1 { "their tags" } else { "its tag" };
        let known = match (link.kind, link.strength) {
            (NameKind::Plain, Strength::OnTag) => format!("by {their}"),
            _ => self.name_words(link),
        };
        match self.is_own_opinion(link) {
            true => format!("identified here, {known}"),
            false => known,
        }
    }

    /// Whether it is on record what the name goes by, in words.
    fn has_basis(&self, link: NameLink) -> bool {
        let founder = self.names.founder(link.plant);
        founder.is_some_and(|of| of.basis.is_some())
    }

    /// Whether the name of a plant that another grower told of is an opinion of one's own.
    fn is_own_opinion(&self, link: NameLink) -> bool {
        let told = self.registry.founder(link.plant);
        let told = told.is_some_and(|of| of.told_by.is_some());
        told && self.names.founder(link.plant).is_some_and(is_by_me)
    }

    /// How a name is known; what stands in its way never hides that it is known still worse.
    pub(super) fn name_words(&self, link: NameLink) -> String {
        let known = match link.strength {
            Strength::Unknown if self.has_basis(link) => "on a basis of unstated strength",
            Strength::Unknown => "with no basis recorded",
            strength => strength.words(),
        };
        let kind = match link.kind {
            NameKind::Plain => return known.to_owned(),
            NameKind::NotRead => return "not readable".to_owned(),
            NameKind::HybridNameAlone => "by a hybrid name alone",
            NameKind::Provisional => "provisional",
        };
        match link.strength > Strength::Claimed {
            true => format!("{kind}, {known}"),
            false => kind.to_owned(),
        }
    }
}

/// An opinion that was accepted. Of a plant that another grower told of, it may be that one's or one's own.
fn identified(founder: &FounderName, told: Option<&str>) -> String {
    let label = &founder.label;
    match (told, founder.by.as_deref()) {
        (Some(_), Some("me")) => format!("identified here as \"{label}\""),
        (Some(registry), Some(by)) if by == registry => {
            format!("as told by the registry {registry}: identified as \"{label}\"")
        }
        (Some(_), None) => format!("identified as \"{label}\", whose opinion is not recorded"),
        _ => format!("identified as \"{label}\""),
    }
}
