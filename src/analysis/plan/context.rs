//! What a plan looks at, and how a season is laid out from it: who may bear pods, whose pollen there is, what is kept.

use crate::analysis::plan::candidates::SeasonCandidates;
use crate::analysis::plan::days::ALWAYS;
use crate::analysis::plan::error::PlanError;
use crate::analysis::plan::goals::Goals;
use crate::analysis::plan::made::Made;
use crate::analysis::plan::merits::PredictedMerit;
use crate::context::Context;
use crate::kinship::Kinship;
use crate::lineage::PlantRow;
use crate::observation::flowers::{Spike, spikes};
use crate::observation::presence::{Presence, presence};
use crate::observation::sex::{SexSeen, sex_seen};
use crate::planning::season::Season;
use crate::planning::windows::Window;
use crate::record::Sex;
use crate::registry::{Registry, natural_order};

/// What every part of the plan looks at.
pub(crate) struct PlanContext<'g, 'r, 't> {
    pub context: &'g Context<'r, 't>,
    pub registry: &'r Registry<'t>,
    pub kinship: &'g Kinship<'g>,
    pub merit: &'g PredictedMerit<'g>,
    pub goals: &'g Goals,
}

/// A plant that may bear pods.
pub(crate) struct Female {
    pub plant: PlantRow,
    /// The days on which the flowers of each of its spikes are open.
    pub spikes: Vec<Window>,
    /// Pods that each of them may still bear.
    pub places: Vec<u32>,
}

impl PlanContext<'_, '_, '_> {
    /// Lays out the season: spikes that flower within `days_ahead` days, or with `any_time` every plant whose sex was
    /// seen or guessed as though it would flower.
    pub fn candidates(
        &self,
        days_ahead: u32,
        any_time: bool,
    ) -> Result<SeasonCandidates, PlanError> {
        let until = self.context.today.0.saturating_add(days_ahead as i32);
        let near: Vec<Spike> = spikes(self.registry, self.context.today)
            .into_iter()
            .filter(|spike| spike.window.opens.earliest <= until)
            .collect();
        let made = Made::of(self.registry, self.context.today);
        let females = self.females((&near, &made), any_time);
        let females = self.by_code(females, |female| female.plant);
        let pollen = self.by_code(self.pollen(&near, any_time), |pollen| pollen.plant);
        let mut donors: Vec<PlantRow> = pollen.iter().map(|pollen| pollen.plant).collect();
        donors.dedup();
        let seeds: Vec<PlantRow> = females.iter().map(|female| female.plant).collect();
        let kept = self.kept();
        let mut candidates = SeasonCandidates {
            season: Season::default(),
            seeds,
            donors,
            pollen,
            every_pair: true,
            meets: Vec::new(),
            kept,
            made,
        };
        self.fill(&mut candidates, &females)?;
        // Why nothing can be pollinated is told of all plants.
        Ok(if candidates.season.pairings.is_empty() {
            candidates
        } else {
            candidates.without_idle()
        })
    }

    /// Females with the window of each of their spikes.
    fn females(&self, (near, made): (&[Spike], &Made), any_time: bool) -> Vec<Female> {
        let most = self.goals.pods_per_spike;
        if any_time {
            let female = |&plant: &PlantRow| self.is(plant, Sex::Female);
            let one = |plant| Female {
                plant,
                spikes: vec![ALWAYS],
                places: vec![most],
            };
            return self.registry.plants().filter(female).map(one).collect();
        }
        let mut open: Vec<(PlantRow, Vec<&Spike>)> = Vec::new();
        for spike in near.iter().filter(|s| s.planned_sex() == Some(Sex::Female)) {
            match open.iter_mut().find(|(plant, _)| *plant == spike.plant) {
                Some((_, spikes)) => spikes.push(spike),
                None => open.push((spike.plant, vec![spike])),
            }
        }
        let female = |(plant, spikes): (PlantRow, Vec<&Spike>)| {
            let at: Vec<usize> = spikes.iter().map(|spike| spike.at).collect();
            // Days gone by are no days to pollinate.
            let left = |spike: &&Spike| spike.left_on(self.context.today.0);
            Female {
                plant,
                spikes: spikes.iter().map(left).collect(),
                places: made.places_left(plant, &at, most),
            }
        };
        open.into_iter().map(female).collect()
    }

    /// Things in the order of their plants' codes; those of one plant stay as they are.
    fn by_code<T>(&self, things: Vec<T>, plant: impl Fn(&T) -> PlantRow) -> Vec<T> {
        let coded = |thing: T| (self.registry.code(plant(&thing)), thing);
        let mut coded: Vec<(String, T)> = things.into_iter().map(coded).collect();
        coded.sort_by(|a, b| natural_order(&a.0, &b.0));
        coded.into_iter().map(|(_, thing)| thing).collect()
    }

    pub(crate) fn is(&self, plant: PlantRow, sex: Sex) -> bool {
        let seen = sex_seen(self.registry, plant);
        let fits = matches!(seen, SexSeen::Certain(of) | SexSeen::Guess(of, _) if of == sex);
        fits && presence(self.registry, plant, self.context.today) == Presence::Here
    }

    /// Whether a plant's sex was only guessed.
    pub(crate) fn is_guessed(&self, plant: PlantRow) -> bool {
        matches!(sex_seen(self.registry, plant), SexSeen::Guess(..))
    }

    /// Whether a plant that is here was seen to be of a sex, on open flowers.
    pub(crate) fn is_surely(&self, plant: PlantRow, sex: Sex) -> bool {
        sex_seen(self.registry, plant) == SexSeen::Certain(sex)
            && presence(self.registry, plant, self.context.today) == Presence::Here
    }

    /// Founders and kept plants that are here.
    fn kept(&self) -> Vec<PlantRow> {
        let wanted = |&plant: &PlantRow| {
            (self.registry.origin_of(plant).is_none() || self.registry.is_kept(plant))
                && presence(self.registry, plant, self.context.today) == Presence::Here
        };
        self.registry.plants().filter(wanted).collect()
    }
}
