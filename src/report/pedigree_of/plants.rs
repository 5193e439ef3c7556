//! One plant of a pedigree in words: its name, sex, fate and shares.

use super::drawing::Work;
use crate::ancestry::Part;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::naming::{Formula, Rung, Style, Writing, ladder, runs};
use crate::numeric::{Fraction, nearest};
use crate::observation::presence::{Presence, presence};
use crate::observation::sex::{SexSeen, sex_seen};
use crate::record::{Fate, Sex};
use crate::registry::{KnownBy, PlantKind};
use crate::report::pedigree::{
    DrawnEither, DrawnKind, DrawnPlant, DrawnShare, Fate as DrawnFate, Sex as DrawnSex,
};
use crate::wording::{Name, NameRun};

/// The longest formula written in a box, in characters; longer ones are left to the lines of the picture.
pub const LONGEST_LABEL: usize = 90;
/// A formula up to that long is written out, with the genus of each species.
const WRITTEN_OUT: usize = 60;

/// What a plant descends from, ready to be drawn.
#[derive(Default)]
pub struct Shares {
    pub known: Vec<DrawnShare>,
    pub either: Vec<DrawnEither>,
    pub unknown: f64,
}

impl Work<'_, '_, '_> {
    /// A plant by itself; `focus` marks the one on offer.
    pub fn plant(&self, plant: PlantRow, focus: bool) -> DrawnPlant {
        let kind = match self.registry.kind(plant) {
            PlantKind::Seedling => DrawnKind::Seedling,
            PlantKind::Unseen => match self.registry.unseen(plant).map(|unseen| unseen.known_by) {
                Some(KnownBy::SeedlingOf(_)) => DrawnKind::Seedling,
                _ => DrawnKind::Founder,
            },
            PlantKind::Founder => match self.names.founder(plant) {
                Some(founder) if founder.formula.generations() > 0 => DrawnKind::Clone,
                _ => DrawnKind::Founder,
            },
        };
        let parts = self.context.descent().shares_of(self.lineage, plant);
        let shares = self.shares(parts.unwrap_or_default());
        DrawnPlant {
            code: self.code(plant),
            label: self.label(plant),
            column: 0,
            kind,
            fate: self.fate(plant),
            sex: match sex_seen(self.registry, plant) {
                SexSeen::Certain(Sex::Female) => Some(DrawnSex::Female),
                SexSeen::Certain(Sex::Male) => Some(DrawnSex::Male),
                _ => None,
            },
            shares: shares.known,
            either: shares.either,
            unknown_share: shares.unknown,
            focus,
            evidence: self.evidence_of(Unit::Plant(plant)),
        }
    }

    fn code(&self, plant: PlantRow) -> String {
        match self.registry.unseen(plant).map(|unseen| unseen.known_by) {
            None => self.registry.code(plant),
            Some(KnownBy::SeedlingOf(cross)) => {
                format!("{}, number lost", self.registry[cross].page.code)
            }
            Some(KnownBy::Species(_)) => "never seen".to_owned(),
            Some(KnownBy::Label) => "by label only".to_owned(),
        }
    }

    /// What the plant is called: its nickname or cultivar name, then its formula as short as it needs to be.
    fn label(&self, plant: PlantRow) -> Vec<Name> {
        let roman = |text: String| {
            vec![NameRun {
                text,
                italic: false,
            }]
        };
        let nickname = self.registry.nickname(plant);
        let nickname = nickname.map(|nickname| roman(format!("\u{201c}{nickname}\u{201d}")));
        let cultivar = self.registry.cultivar(plant);
        let cultivar = cultivar.map(|cultivar| roman(format!("'{}'", &*cultivar.epithet)));
        let formula = self.short_name(self.names.short_formula(TopOf::Plant(plant), LONGEST_LABEL));
        nickname
            .into_iter()
            .chain(cultivar)
            .chain(formula)
            .collect()
    }

    /// A formula that a box holds: written out, or the longest version that is short enough, if there is one. None turns
    /// the parents round or has codes in place of species.
    pub fn short_name(&self, formula: Option<Formula>) -> Option<Name> {
        let formula = formula?;
        let letters = |name: &Name| {
            name.iter()
                .map(|run| run.text.chars().count())
                .sum::<usize>()
        };
        let whole = self.name(&formula, false);
        if let Some(whole) = whole.filter(|whole| letters(whole) <= WRITTEN_OUT) {
            return Some(whole);
        }
        let writing = Writing {
            style: Style::Runs,
            ..Writing::plain(self.names.vocabulary())
        };
        let versions = ladder(&formula, &writing, LONGEST_LABEL);
        let version = versions
            .into_iter()
            .find(|version| (Rung::GenusOnce..=Rung::WithoutBasis).contains(&version.rung))?;
        let run = |(text, italic)| NameRun { text, italic };
        Some(runs(&version.text).into_iter().map(run).collect())
    }

    fn fate(&self, plant: PlantRow) -> DrawnFate {
        match (
            presence(self.registry, plant, self.context.today),
            self.registry.fate(plant),
        ) {
            (Presence::Here | Presence::NeverHere, _) => DrawnFate::Here,
            (Presence::Gone, _) => DrawnFate::Dead,
            (Presence::LetGo, Some(Fate::Sold { .. })) => DrawnFate::Sold,
            (Presence::LetGo, _) => DrawnFate::LetGo,
        }
    }

    /// Shares of known species, of one of several, and the rest.
    pub fn shares(&self, parts: Vec<(Part, Fraction)>) -> Shares {
        let mut shares = Shares::default();
        for (part, share) in parts {
            let fraction = nearest(&share);
            match part {
                Part::Species(species) => shares.known.push(DrawnShare {
                    species: species as usize,
                    fraction,
                }),
                Part::OneOf(_) => shares.either.push(DrawnEither {
                    of: self.context.descent().part_name(part),
                    fraction,
                }),
                Part::Unknown => shares.unknown += fraction,
            }
        }
        shares
    }
}
