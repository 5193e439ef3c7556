//! A card put together, with the questions the record leaves open.

use super::ancestors::{Ancestor, ancestors_up};
use super::offered::Offered;
use super::question::Question;
use super::traits::{TraitSeen, traits};
use crate::context::Context;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::observation::pieces::only_copy_left;
use crate::observation::sex::{SexSeen, sex_seen};
use crate::observation::traits::span_trait;
use crate::record::Fate;
use crate::registry::{PlantKind, Target};

/// Generations of ancestors on a card.
const GENERATIONS: usize = 2;

/// All that a card says.
pub struct CardSeen<'r, 't> {
    /// What it is of, with what is recorded of it.
    pub offered: Offered<'r, 't>,
    /// The size of the plant; `None` also where it was read on one of several pieces.
    pub size: Option<TraitSeen>,
    /// Its other traits as they were read last.
    pub traits: Vec<TraitSeen>,
    /// Whether they were read on the plant as a whole, which has several pieces.
    pub traits_of_the_whole: bool,
    /// The sex seen.
    pub sex: SexSeen,
    /// Parents and grandparents, each followed by its own.
    pub ancestors: Vec<Ancestor>,
    /// What a buyer would ask and the record cannot answer.
    pub open: Vec<Question>,
}

/// Why there is no card.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CardError {
    /// The code names no plant and no piece of one.
    NoPlant,
    /// The plant never stood here.
    NeverHere,
    /// The plant is another grower's.
    Elsewhere(PlantRow),
}

/// The card of a plant or of one of its pieces.
///
/// # Errors
/// When the code names something else, a parent known by name only, or a plant of another grower.
pub fn card<'r, 't>(context: &Context<'r, 't>, id: &str) -> Result<CardSeen<'r, 't>, CardError> {
    let registry = context.registry;
    let of = registry.target(id).and_then(Target::plant_or_ramet);
    let of = of.ok_or(CardError::NoPlant)?;
    let plant = of.plant;
    // Under the code of the plant a buyer gets what is left of it.
    let piece = (registry.ramet(of)).or_else(|| only_copy_left(registry, plant));
    if registry.kind(plant) == PlantKind::Unseen {
        return Err(CardError::NeverHere);
    }
    if matches!(registry.fate(plant), Some(Fate::Elsewhere)) {
        return Err(CardError::Elsewhere(plant));
    }
    Ok(put_together(
        context,
        Offered {
            registry,
            plant,
            piece,
            today: context.today,
        },
    ))
}

fn put_together<'r, 't>(context: &Context<'r, 't>, offered: Offered<'r, 't>) -> CardSeen<'r, 't> {
    let (registry, plant) = (offered.registry, offered.plant);
    let mut seen = traits(registry, plant, offered.piece);
    let traits_of_the_whole = registry.ramets(plant).len() > 1 && !seen.is_empty();
    let span = span_trait(registry);
    let at = seen.iter().position(|of| Some(of.index) == span);
    // A size read on the whole plant is none of a piece.
    let at = at.filter(|_| !traits_of_the_whole);
    let size = at.map(|at| seen.remove(at));
    let mut card = CardSeen {
        offered,
        size,
        traits: seen,
        traits_of_the_whole,
        sex: sex_seen(registry, plant),
        ancestors: ancestors_up(context.evidence(), Unit::Plant(plant), GENERATIONS),
        open: Vec::new(),
    };
    card.open = open(context, &card);
    card
}

/// The questions that a card leaves open.
fn open(context: &Context, card: &CardSeen) -> Vec<Question> {
    let of = card.offered;
    // A plant that came from elsewhere is not asked when it was sown.
    let own = context.evidence().statement(Unit::Plant(of.plant));
    let is_founder = own.is_none();
    let points = |of: &TraitSeen| of.unit.name.to_lowercase().contains("growth point");
    let parent = |of: &Ancestor| of.generation == 1 && of.doubtful;
    let all = [
        (Question::Photo, of.photo().is_none()),
        (Question::Made, of.made().is_none()),
        (Question::Sown, of.sown().is_none() && !is_founder),
        (Question::Size, card.size.is_none()),
        (Question::Pot, of.pot().is_none()),
        (Question::Sex, card.sex == SexSeen::Unsexed),
        (Question::Climate, of.climate().is_none()),
        (Question::Pests, of.pests().is_none()),
        (Question::Treatment, of.treatments().is_empty()),
        (Question::GrowthPoints, !card.traits.iter().any(points)),
        (Question::Traits, card.traits.is_empty()),
        (Question::WhichPiece, card.traits_of_the_whole),
        (Question::Parents, card.ancestors.iter().any(parent)),
    ];
    let open = all.into_iter().filter(|(_, is_open)| *is_open);
    open.map(|(question, _)| question).collect()
}
