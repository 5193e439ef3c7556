//! A card put together.

use super::ancestors::ancestor;
use super::answer::Card;
use super::facts::{described, facts, kept, photo};
use super::missing::question_words;
use super::traits::trait_seen;
use crate::analysis::card::{self as analysis, CardError, CardSeen};
use crate::analysis::evidence::{evidence_row, is_less_than_a_tag};
use crate::context::Context;
use crate::evidence::{Evidence, Unit};
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::observation::standing::departed;
use crate::record::{Day, Ramet};
use crate::recording::handover::{
    Lineage, contradictions, fingerprint, grouped, lines, with_piece,
};
use crate::report::names::full_name;
use crate::wording::led_by;

/// The card of a plant or of one of its pieces.
///
/// # Errors
/// In words, if the code names something else, or a parent known by name only.
pub fn card(context: &Context, id: &str) -> Result<Card, String> {
    let seen = analysis::card(context, id).map_err(|error| refusal(context, id, error))?;
    Ok(worded(context, &seen))
}

fn refusal(context: &Context, id: &str, error: CardError) -> String {
    match error {
        CardError::NoPlant => format!(
            "a card is of one plant, and `{id}` names something else\nname a plant such as X22-02-5, or a piece such as X22-02-5-b"
        ),
        CardError::NeverHere => {
            format!("`{id}` never stood here, so there is nothing to hand over")
        }
        CardError::Elsewhere(plant) => format!(
            "`{}` is another grower's plant and never stood here, so there is nothing to hand over\nname a plant that stands here",
            context.registry.code(plant)
        ),
    }
}

fn worded(context: &Context, seen: &CardSeen) -> Card {
    let (registry, evidence) = (context.registry, context.evidence());
    let of = seen.offered;
    let plant = of.plant;
    let code = registry.code(plant);
    let unit = Unit::Plant(plant);
    let settings = &registry.settings;
    let grower = [settings.grower.as_deref(), settings.contact.as_deref()];
    let size = seen.size.as_ref().map(|size| {
        let of = trait_seen(registry, size);
        let siblings = led_by("; ", of.siblings);
        format!("{} {}, read {}{siblings}", of.name, of.value, of.when)
    });
    let lineage = Lineage::of(registry, plant);
    let lines = lines(registry, &lineage);
    let lines = with_piece(lines, of.piece.map(|piece| piece.code));
    let ancestors = seen.ancestors.iter();
    let traits = seen.traits.iter();
    Card {
        name: full_name(evidence, unit),
        also: also(evidence, plant),
        photo: of.photo().map(|of| photo(registry, of)),
        described: described(seen, size.clone()),
        facts: facts(seen, size),
        traits: traits.map(|of| trait_seen(registry, of)).collect(),
        traits_of_the_whole: seen.traits_of_the_whole,
        evidence: evidence_row(evidence, unit),
        weakest: weakest(evidence, unit),
        fingerprint: grouped(&fingerprint(&lines)),
        ancestors: ancestors.map(|of| ancestor(evidence, of)).collect(),
        kept: kept(of),
        cautions: cautions(evidence, &lineage, (plant, of.piece), context.today),
        grower: grower.into_iter().flatten().map(str::to_owned).collect(),
        missing: seen.open.iter().copied().map(question_words).collect(),
        made: context.today.to_string(),
        id: of
            .piece
            .map_or_else(|| code.clone(), |piece| format!("{code}-{}", piece.code)),
    }
}

/// The weakest link in a few words; empty where all of it is at least on a tag.
fn weakest(evidence: &Evidence, unit: Unit) -> String {
    if !is_less_than_a_tag(evidence, unit) {
        return String::new();
    }
    let weakest = evidence.weakest_short(unit);
    let own = evidence.statement(unit).map(|own| own.strength().words());
    match own {
        Some(own) if own == weakest => format!("its own parents, {own}"),
        Some(_) if !weakest.starts_with("name of ") => {
            let how = evidence.further(unit).map(|link| link.strength.words());
            let holder = how.and_then(|how| Some((weakest.strip_suffix(how)?.trim_end(), how)));
            match holder {
                Some((holder, how)) => format!("the parents of {holder}, {how}"),
                None => format!("the parents of {weakest}"),
            }
        }
        _ => weakest,
    }
}

fn also(evidence: &Evidence, plant: PlantRow) -> Option<String> {
    let registry = evidence.registry();
    let cultivar = registry
        .cultivar(plant)
        .map(|of| format!("'{}'", &*of.epithet));
    let nickname = registry.nickname(plant);
    cultivar.or(nickname.map(|nickname| format!("called “{nickname}” here; not a cultivar name")))
}

/// That the plant is gone first, and doubts about names; then whom to ask. What the law is, the card does not say.
fn cautions(
    evidence: &Evidence,
    lineage: &Lineage,
    (plant, piece): (PlantRow, Option<&Ramet>),
    today: Day,
) -> Vec<String> {
    let gone = departed(evidence.registry(), plant, piece, today);
    let gone = gone.map(|fate| format!("This plant is no longer here: {fate}."));
    let mut cautions: Vec<String> = gone.into_iter().collect();
    let registry = evidence.registry();
    let against = contradictions(registry, lineage, today);
    let against = against.into_iter();
    cautions.extend(against.map(|fault| format!("The record contradicts itself: {fault}.")));
    let doubts = evidence.names().doubts([TopOf::Plant(plant)]);
    cautions.extend(doubts);
    cautions.extend(CAUTIONS.map(str::to_owned));
    cautions
}

const CAUTIONS: [&str; 3] = [
    "Before this plant crosses a border, ask the CITES management authorities of both countries; the rules differ.",
    "Ask the plant-health service which papers it needs, also within a country; local rules come first.",
    "A young plant may change with age, and any plant in another climate.",
];
