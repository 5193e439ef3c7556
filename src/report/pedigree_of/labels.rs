//! What a plant of a pedigree is called.

use super::drawing::Words;
use crate::analysis::pedigree::Fate;
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::naming::{Formula, Rung, Writing, breeder, formula_only, ladder, runs};
use crate::observation::standing::EVERY_PIECE_GONE;
use crate::registry::{KnownBy, OriginRow, PotRow};
use crate::wording::{Name, counted, upright};

/// The longest formula written in a box, in characters; longer ones are left to the lines of the picture.
const LONGEST_LABEL: usize = 90;
/// A formula up to that long is written out, with the genus of each species.
const WRITTEN_OUT: usize = 60;

impl Fate {
    /// What became of a plant, in a word or a few; empty while it is here.
    pub fn word(self) -> &'static str {
        match self {
            Fate::Here => "",
            Fate::Dead => "died",
            Fate::Culled => "culled",
            Fate::Lost => "lost",
            Fate::Sold => "sold",
            Fate::LetGo => "given away",
            Fate::Gone => EVERY_PIECE_GONE,
        }
    }
}

impl Words<'_, '_, '_> {
    pub fn code(&self, plant: PlantRow) -> String {
        match self
            .context
            .registry
            .unseen(plant)
            .map(|unseen| unseen.known_by)
        {
            None => self.context.registry.code(plant),
            Some(KnownBy::SeedlingOf(cross)) => {
                format!("{}, number lost", self.context.registry[cross].page.code)
            }
            Some(KnownBy::Species(_)) => "a plant never seen".to_owned(),
            Some(KnownBy::Label) => "by label only".to_owned(),
        }
    }

    /// Whether it has no record and no cross: a parent by the name of its species, or by a side of a label.
    pub fn is_named_only(&self, plant: PlantRow) -> bool {
        let unseen = self.context.registry.unseen(plant);
        unseen.is_some_and(|of| matches!(of.known_by, KnownBy::Species(_) | KnownBy::Label))
    }

    /// What the plant is called: its nickname or cultivar name, then its formula as short as it needs to be.
    pub fn label(&self, plant: PlantRow) -> Vec<Name> {
        let nickname = self.context.registry.nickname(plant);
        let nickname = nickname.map(|nickname| upright(format!("\u{201c}{nickname}\u{201d}")));
        let cultivar = self.context.registry.cultivar(plant);
        let cultivar = cultivar.map(|cultivar| upright(format!("'{}'", &*cultivar.epithet)));
        let formula = self.short_name(
            self.context
                .names()
                .short_formula(TopOf::Plant(plant), LONGEST_LABEL),
        );
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
        let writing = Writing::in_runs(self.context.names().vocabulary());
        let versions = ladder(&formula, &writing, LONGEST_LABEL);
        let version = versions
            .into_iter()
            .find(|version| (Rung::GenusOnce..=Rung::WithoutBasis).contains(&version.rung))?;
        Some(runs(&version.text))
    }

    /// The formula of a cross, as short as a box needs it, and how many seedlings stand together.
    pub fn batch_label(&self, origin: OriginRow, seedlings: usize) -> Vec<Name> {
        let words = match seedlings {
            0 => "no numbered seedling yet".to_owned(),
            n => counted(n, "numbered seedling", "numbered seedlings"),
        };
        let name = self.batch_name(origin);
        name.into_iter().chain([upright(words)]).collect()
    }

    /// The formula of a pot with mixed-up seedlings, and how many stand in it without a number.
    pub fn pot_label(&self, pot: PotRow, left: Option<(u32, u32)>) -> Vec<Name> {
        let words = match left {
            Some((least, most)) if least == most => {
                let seedlings = counted(most as usize, "seedling", "seedlings");
                format!("{seedlings} without a number")
            }
            Some((least, most)) => format!("{least}–{most} seedlings without a number"),
            None => "seedlings without a number".to_owned(),
        };
        let names = self.context.names();
        let formula = names.short_formula(TopOf::Pot(pot), LONGEST_LABEL);
        let name = self.short_name(formula);
        name.into_iter().chain([upright(words)]).collect()
    }

    fn batch_name(&self, origin: OriginRow) -> Option<Name> {
        let names = self.context.names();
        let cross = names.cross_of_origin(origin)?;
        let parents = self.context.lineage().pedigree[origin].parents();
        let few = |&plant: &PlantRow| {
            let formula = names.short_formula(TopOf::Plant(plant), LONGEST_LABEL);
            formula.is_some()
        };
        let short = parents.iter().all(few);
        self.short_name(short.then(|| names.formula(TopOf::Cross(cross), false)))
    }

    /// A formula in runs of upright and italic letters; nothing when it is too long to write out.
    pub fn name(&self, formula: &Formula, with_basis: bool) -> Option<Name> {
        let writing = Writing::in_runs(self.context.names().vocabulary());
        let text = if with_basis {
            breeder(formula, &writing)
        } else {
            formula_only(formula, &writing)
        };
        Some(runs(&text.ok()?))
    }
}
