//! A card put together.

use super::ancestors::ancestors;
use super::answer::Card;
use super::facts::Offered;
use super::missing::open_questions;
use super::traits::{size_code, traits};
use crate::analysis::evidence::{evidence_row, is_less_than_a_tag, probable_father};
use crate::context::Context;
use crate::evidence::{Evidence, Unit};
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::naming::{Style, Writing, breeder, runs};
use crate::observation::standing::departed;
use crate::record::{Day, Fate, Ramet};
use crate::recording::handover::{Lineage, fingerprint, grouped, lines};
use crate::registry::{PlantKind, Target};
use crate::wording::{Name, NameRun, upright};

/// The card of a plant or of one of its pieces.
///
/// # Errors
/// In words, if the code names something else, or a parent known by name only.
pub fn card(context: &Context, id: &str) -> Result<Card, String> {
    let (registry, today) = (context.registry, context.today);
    let evidence = context.evidence();
    let (plant, piece) = match registry.target(id) {
        Some(Target::Plant(plant)) => (plant, None),
        Some(Target::Ramet(plant, at)) => (plant, Some(&registry.ramets(plant)[at as usize])),
        _ => {
            return Err(format!(
                "a card is of one plant, and `{id}` names something else\nname a plant such as X22-02-5, or a piece such as X22-02-5-b"
            ));
        }
    };
    if registry.kind(plant) == PlantKind::Unseen {
        return Err(format!(
            "`{id}` never stood here, so there is nothing to hand over"
        ));
    }
    let code = registry.code(plant);
    if matches!(registry.fate(plant), Some(Fate::Elsewhere)) {
        return Err(format!(
            "`{code}` stands with another grower, so there is nothing to hand over\nname a plant that stands here"
        ));
    }
    let id = piece.map_or_else(|| code.clone(), |piece| format!("{code}-{}", piece.code));
    let offered = Offered {
        registry,
        plant,
        piece,
        today,
    };
    let mut seen = traits(registry, plant);
    let traits_of_the_whole = registry.ramets(plant).len() > 1 && !seen.is_empty();
    let size = size_code(registry);
    let at = seen.iter().position(|of| Some(of.code.as_str()) == size);
    // A size read on the whole plant is none of a piece.
    let size = at.filter(|_| !traits_of_the_whole).map(|at| {
        let of = seen.remove(at);
        let siblings = of.siblings.map(|of| format!("; {of}")).unwrap_or_default();
        format!("{} {}, read {}{siblings}", of.name, of.value, of.when)
    });
    let unit = Unit::Plant(plant);
    let settings = &registry.settings;
    let grower = [settings.grower.as_deref(), settings.contact.as_deref()];
    let card = Card {
        id,
        name: name(evidence, plant),
        also: also(evidence, plant),
        photo: offered.photo(),
        facts: offered.facts(size),
        traits: seen,
        traits_of_the_whole,
        evidence: evidence_row(evidence, unit),
        weakest: weakest(evidence, unit),
        fingerprint: grouped(&fingerprint(&lines(
            registry,
            &Lineage::of(registry, plant),
        ))),
        ancestors: ancestors(evidence, plant),
        kept: offered.kept(),
        cautions: cautions(evidence, (plant, piece), today),
        grower: grower.into_iter().flatten().map(str::to_owned).collect(),
        missing: Vec::new(),
        made: today.to_string(),
    };
    let points = card
        .traits
        .iter()
        .any(|of| of.name.to_lowercase().contains("growth point"));
    Ok(Card {
        missing: open_questions(&card, points),
        ..card
    })
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
        Some(_) if !weakest.starts_with("name of ") => format!("the parents of {weakest}"),
        _ => weakest,
    }
}

/// The name in full with its basis.
fn name(evidence: &Evidence, plant: PlantRow) -> Name {
    let names = evidence.names();
    let writing = Writing {
        style: Style::Runs,
        ..Writing::plain(names.vocabulary())
    };
    let formula = names.formula(TopOf::Plant(plant), false);
    match breeder(&formula, &writing) {
        Ok(text) => {
            let text = text + probable_father(evidence, Unit::Plant(plant));
            let run = |(text, italic)| NameRun { text, italic };
            runs(&text).into_iter().map(run).collect()
        }
        Err(long) => upright(long.to_string()),
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
    (plant, piece): (PlantRow, Option<&Ramet>),
    today: Day,
) -> Vec<String> {
    let gone = departed(evidence.registry(), plant, piece, today);
    let gone = gone.map(|fate| format!("This plant is no longer here: {fate}."));
    let mut cautions: Vec<String> = gone.into_iter().collect();
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
