//! The page put together: the intended pollination as one more cross of the pedigree.

use crate::analysis::evidence::{evidence_row, is_less_than_a_tag, probable_father_behind};
use crate::analysis::hybrid_names::hybrid_names;
use crate::analysis::names_taken::names_taken;
use crate::analysis::pair::answer::{PairOptions, PairReport, SideRow};
use crate::analysis::pair::caution::Caution;
use crate::analysis::pair::error::PairError;
use crate::analysis::pair::intended::Intended;
use crate::analysis::parentage::SharesAre;
use crate::ancestry::Heterozygosities;
use crate::context::Context;
use crate::evidence::Unit;
use crate::lineage::{Origin, PlantRow};
use crate::naming::recorded::TopOf;
use crate::naming::{
    Direction, Formula, FormulaBuilder, NoteCode, Relation, Style, Writing, botanical, breeder,
    describe, suggest,
};
use crate::observation::mixed_up::tags_in_doubt;
use crate::observation::pollen::{Envelope, OwnResults, in_hand};
use crate::observation::sex::sex_seen;
use crate::planning::intensity::{chance_of_both_sexes, expected_best, plants_for_one};
use crate::wording::joined_if_any;

/// Weighs one intended pollination.
///
/// # Errors
/// When the line is too long, or the pedigree too complex, for exact figures.
pub fn pair(
    context: &Context,
    pair: [PlantRow; 2],
    options: PairOptions,
) -> Result<PairReport, PairError> {
    let mut pedigree = context.lineage().pedigree.clone();
    let origin = pedigree.add_origin(Origin::certain(Some(pair[0]), Some(pair[1])));
    let intended = Intended {
        context,
        registry: context.registry,
        names: context.names(),
        pedigree,
        origin,
        founding: context.founding(),
        pair,
    };
    intended.report(options)
}

impl Intended<'_, '_, '_> {
    fn report(&self, options: PairOptions) -> Result<PairReport, PairError> {
        let formula = self.formula();
        let writing = self.writing();
        let [seed, pollen] = self.pair;
        let doubt = probable_father_behind(self.context.evidence(), &self.pair);
        let with_doubt = |text: String| text + doubt;
        let (spread, readings) = self.spread()?;
        let heterozygosities =
            Heterozygosities::of(&self.pedigree, &self.context.descent().founders)?;
        let h = heterozygosities.heterozygosity_of_origin(self.origin);
        let envelopes = self.envelopes(pollen);
        let impossible = self.impossible([seed, pollen], self.context.today, !envelopes.is_empty());
        let (shares, reserve) = self.shares()?;
        let mut report = PairReport {
            seed: self.side(seed),
            pollen: self.side(pollen),
            other_way: self.other_way(&impossible, self.context.today),
            impossible,
            formula: breeder(&formula, &writing).ok().map(with_doubt),
            botanical: botanical(&formula, &writing).ok().map(with_doubt),
            names: hybrid_names(
                suggest(&formula, self.names.vocabulary()),
                &self.names.vocabulary().genus_short(),
            ),
            heterozygosity: (h.certain, h.possible),
            heterozygosity_is_a_mean: reserve.several_pairs,
            inbreeding: self.inbreeding()?,
            spread_ratio: spread.ratio(seed, pollen, options.heritability).into(),
            traits: self.traits(&readings, &spread, options)?,
            seedlings: options.seedlings,
            both_sexes: chance_of_both_sexes(options.seedlings),
            best_of_them: expected_best(options.seedlings),
            plants_for_one: plants_for_shares(),
            made_before: self.made_before(),
            flowers: self.flowers(self.context.today),
            envelopes,
            cautions: self
                .name_notes(&formula)
                .map(Caution::Name)
                .into_iter()
                .collect(),
            shares_with_each: self.shares_with_each()?,
            shares,
            shares_are: SharesAre::of(reserve),
        };
        report.cautions.extend(self.elsewhere(self.context.today));
        report.cautions.extend(self.mixed_up());
        report.cautions.extend(report.to_keep_in_mind(options));
        if report.impossible.is_empty() {
            let units = self.pair.map(Unit::Plant);
            let taken = names_taken(self.context.evidence(), &units);
            report.cautions.extend(taken.map(Caution::SpreadByNames));
        }
        Ok(report)
    }

    fn writing(&self) -> Writing<'_> {
        Writing {
            vocabulary: self.names.vocabulary(),
            style: Style::default(),
            sexes: false,
        }
    }

    /// What is to be said of the name; no label in Purdy notation stands on this page.
    fn name_notes(&self, formula: &Formula) -> Option<String> {
        let told = describe(formula.clone(), "", self.names.vocabulary());
        let notes = told.notes.into_iter();
        let notes = notes.filter(|note| note.code != NoteCode::PurdyNotPossible);
        joined_if_any(notes.map(|note| note.text), "; ")
    }

    /// The envelopes in hand with pollen of a plant.
    fn envelopes(&self, pollen: PlantRow) -> Vec<Envelope> {
        let today = self.context.today;
        let results = OwnResults::of(self.registry, today);
        let mut envelopes = in_hand(self.registry, today, &results);
        envelopes.retain(|envelope| envelope.plant == Some(pollen));
        envelopes
    }

    fn mixed_up(&self) -> impl Iterator<Item = Caution> {
        let tops = self.pair.map(TopOf::Plant);
        let mut mixed_up = self.names.mixed_up_with_descendants(&tops);
        mixed_up.extend(tags_in_doubt(self.registry, self.pair));
        mixed_up.into_iter().map(Caution::MixedUp)
    }

    /// The seedlings' formula; siblings give the next filial generation.
    fn formula(&self) -> Formula {
        let [seed, pollen] = self.pair;
        let mut builder = FormulaBuilder::new();
        let side = |builder: &mut FormulaBuilder, plant| {
            builder.copy_bare(&self.names.formula(TopOf::Plant(plant), false))
        };
        let seed_part = side(&mut builder, seed);
        let from = |plant| self.context.lineage().pedigree.origin_row(plant);
        let together = from(seed).filter(|_| from(seed) == from(pollen));
        let one_pair = |origin| self.context.lineage().pedigree[origin].pairs.len() == 1;
        let top = if seed == pollen {
            builder.within(seed_part, Relation::SelfReported)
        } else if together.is_some_and(one_pair) {
            builder.within(seed_part, Relation::Filial)
        } else {
            let pollen_part = side(&mut builder, pollen);
            builder.cross(seed_part, pollen_part, Direction::Known)
        };
        builder.finish(top)
    }

    fn side(&self, plant: PlantRow) -> SideRow {
        let formula = self.names.formula(TopOf::Plant(plant), false);
        SideRow {
            id: self.registry.code(plant),
            name: crate::naming::formula_only(&formula, &self.writing()).ok(),
            evidence: evidence_row(self.context.evidence(), Unit::Plant(plant)),
            is_less_than_a_tag: is_less_than_a_tag(self.context.evidence(), Unit::Plant(plant)),
            sex: sex_seen(self.registry, plant),
            nights: self.nights(plant),
        }
    }

    fn nights(&self, plant: PlantRow) -> Vec<(String, String)> {
        let above = self.context.lineage().pedigree.with_ancestors(&[plant]);
        let claims = above.into_iter().filter_map(|founder| {
            let nights = self.registry.founder(founder)?.nights.as_ref()?;
            Some((self.registry.code(founder), nights.to_string()))
        });
        claims.collect()
    }
}

/// How many seedlings to raise for one that has what one in so many shows, with a chance of 95 %.
fn plants_for_shares() -> Vec<(String, u32)> {
    let one_in = [4, 16, 64].into_iter().filter_map(|parts| {
        let plants = plants_for_one(1.0 / f64::from(parts), 0.95)?;
        Some((format!("1/{parts}"), plants))
    });
    one_in.collect()
}
