//! What is on record of each thing that is asked for.

use super::answer::{Item, RegistrationReport};
use crate::analysis::evidence::evidence_row;
use crate::analysis::registration::{self as analysis, Away, RaisedBy, RegistrationSeen};
use crate::context::Context;
use crate::evidence::{Evidence, Unit};
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::naming::{Action, Judgement, Verdict};
use crate::observation::mixed_up::mixed_up;
use crate::observation::raised::{Raised, raised};
use crate::observation::standing::departed;
use crate::record::{Ramet, When};
use crate::registry::Registry;
use crate::report::card::Card;
use crate::report::plants::{copy_word, typed};
use crate::wording::{days, led_by};

/// The draft for a plant, by its card and the judgement on its epithet.
pub fn registration(
    context: &Context,
    (plant, card): (PlantRow, &Card),
    epithet: Option<Judgement>,
) -> RegistrationReport {
    let registry = context.registry;
    let evidence = context.evidence();
    let seen = analysis::registration(context, plant);
    let items = vec![
        of_epithet(epithet.as_ref()),
        parentage(evidence, plant, card),
        originator(seen.raised_by),
        origin(registry, &seen),
        by_hand(
            "who named it, and when",
            "write the name, the address and the day",
        ),
        by_hand(
            "who introduced it, and when",
            "write the name, the address and the day it was first passed on",
        ),
        registrant(registry),
        description(card),
        photograph(card),
        found(registry, plant),
        published(registry, plant),
        by_hand("origin of the epithet", "say where the name comes from"),
        chain(registry, &seen),
    ];
    RegistrationReport {
        id: registry.code(plant),
        name: card.plain_name(),
        refused: epithet
            .as_ref()
            .is_some_and(|of| of.verdict == Verdict::Refuse),
        epithet: epithet.map(|of| of.written.unwrap_or(of.typed)),
        items,
        away: seen.away.map(|away| away_words(context, plant, away)),
        doubts: doubts(evidence, registry, plant),
        made: context.today.to_string(),
    }
}

/// What is open of its name, and of whose records they are.
fn doubts(evidence: &Evidence, registry: &Registry, plant: PlantRow) -> Vec<String> {
    let mut doubts = evidence.names().doubts([TopOf::Plant(plant)]);
    let mixed_up = mixed_up(registry, plant);
    doubts.extend(mixed_up.map(|words| format!("mixed up {words}")));
    doubts
}

/// That the plant is gone, or that the one who raised it may have named it.
fn away_words(context: &Context, plant: PlantRow, away: Away) -> String {
    let registry = context.registry;
    let code = registry.code(plant);
    match away {
        Away::Gone => {
            let fate = departed(registry, plant, None, context.today).unwrap_or_default();
            format!(
                "{code} is no longer here ({fate}): a registration needs a living plant to describe and to show"
            )
        }
        Away::RaisedElsewhere => {
            format!("{code} was raised by another grower, who may have named it already: ask first")
        }
        Away::RaisedByUnknown => format!(
            "it is not recorded who raised {code}: whoever did may have named it already, so ask first"
        ),
    }
}

fn by_hand(asked: &'static str, missing: &'static str) -> Item {
    Item {
        asked,
        recorded: Vec::new(),
        missing: Some(missing),
    }
}

/// What is recorded; what is missing where nothing is.
fn item<R: Into<String>>(
    asked: &'static str,
    recorded: impl IntoIterator<Item = R>,
    missing: &'static str,
) -> Item {
    let recorded: Vec<String> = recorded.into_iter().map(Into::into).collect();
    Item {
        asked,
        missing: recorded.is_empty().then_some(missing),
        recorded,
    }
}

fn of_epithet(judged: Option<&Judgement>) -> Item {
    let Some(judged) = judged else {
        return by_hand(
            "cultivar epithet",
            "choose one: --epithet \"'Ada Fernley'\" checks it by the rules",
        );
    };
    let written = judged
        .written
        .clone()
        .unwrap_or_else(|| judged.typed.clone());
    let remarks = judged.remarks.iter();
    let remarks = remarks
        .filter(|of| of.action != Action::Note)
        .map(|of| of.text.clone());
    let (verdict, missing) = match judged.verdict {
        Verdict::Accept => ("can be used, as far as the rules go", None),
        Verdict::Mend => ("can be used in this form", None),
        Verdict::Refuse => ("cannot be used", Some("choose another")),
    };
    let first = format!("{written}: {verdict}");
    Item {
        asked: "cultivar epithet",
        recorded: std::iter::once(first).chain(remarks).collect(),
        missing,
    }
}

fn parentage(evidence: &Evidence, plant: PlantRow, card: &Card) -> Item {
    let parents = card.ancestors.iter().filter(|of| of.generation == 1);
    let mut recorded = vec![card.plain_name()];
    recorded.extend(parents.map(|of| of.words()));
    recorded.push(evidence_row(evidence, Unit::Plant(plant)).words);
    item("parentage", recorded, "")
}

fn originator(raised_by: Option<RaisedBy>) -> Item {
    let who = raised_by.map(|of| match of {
        RaisedBy::Own(grower) => grower.to_owned(),
        RaisedBy::Registry(name) => format!("the grower of the registry {name}"),
    });
    item(
        "who raised it",
        who,
        "write the name and address of the person who raised it",
    )
}

fn origin(registry: &Registry, seen: &RegistrationSeen) -> Item {
    let of = seen.origin;
    let dated = [
        ("cross made", of.pollinated),
        ("sown", of.sown),
        ("germinated", of.germinated),
    ];
    let dated = dated.into_iter().filter(|(_, when)| *when != When::UNKNOWN);
    let dated = dated.map(|(what, when)| format!("{what} {}", days(when)));
    let first = seen.first_flower;
    let first = first.map(|on| format!("flowers first seen {}", typed(registry, on)));
    item(
        "dates of its origin",
        dated.chain(first),
        "write when the cross was made and when it first flowered",
    )
}

fn registrant(registry: &Registry) -> Item {
    let settings = &registry.settings;
    let own = [settings.grower.as_deref(), settings.contact.as_deref()];
    let mut of = item(
        "who applies for registration",
        own.into_iter().flatten(),
        "write your name and address",
    );
    if settings.contact.is_none() {
        of.missing = Some("write your name and address");
    }
    of
}

/// Traits as they were read; what sets the plant apart from all others nobody can read from a record.
fn description(card: &Card) -> Item {
    let described = card.described.iter();
    let described = described.map(|of| format!("{}: {}", of.label, of.value));
    let traits = card.traits.iter();
    let traits = traits.map(|of| format!("{}: {}", of.name, of.words()));
    Item {
        asked: "description",
        recorded: described.chain(traits).collect(),
        missing: Some(
            "describe what sets it apart from all others, and confirm that copies keep it",
        ),
    }
}

fn photograph(card: &Card) -> Item {
    let of = card.photo.as_ref();
    item(
        "colour photograph, the standard",
        of.map(|of| format!("the latest was taken {}", of.on)),
        "take a photo that shows what sets it apart",
    )
}

fn found(registry: &Registry, plant: PlantRow) -> Item {
    let recorded = match registry.founder(plant) {
        None if raised(registry, plant) == Raised::NotRecorded => None,
        None => Some("raised from seed in cultivation".to_owned()),
        Some(founder) => {
            let place = founder.locality.as_deref();
            place.map(|place| format!("as claimed: {place}"))
        }
    };
    item(
        "where it was found, if wild",
        recorded,
        "write it, or that the plant was raised in cultivation",
    )
}

fn published(registry: &Registry, plant: PlantRow) -> Item {
    let cultivar = registry.cultivar(plant);
    item(
        "earlier publication",
        cultivar.and_then(|of| of.published.as_deref()),
        "name it, or say that there is none",
    )
}

/// The pieces and how each was made: an epithet stays with plants made without seed.
fn chain(registry: &Registry, seen: &RegistrationSeen) -> Item {
    let code = registry.code(seen.plant);
    let asked = "vegetative propagation";
    if seen.pieces < 2 {
        return by_hand(
            asked,
            "only the plant itself is on record; make a cutting or division and see whether it keeps what sets the plant apart",
        );
    }
    let pieces = registry.ramets(seen.plant);
    Item {
        asked,
        recorded: pieces.iter().map(|of| piece(&code, of)).collect(),
        missing: seen
            .made_unknown
            .then_some("say how each piece was made; a seedling may not bear the epithet"),
    }
}

fn piece(code: &str, of: &Ramet) -> String {
    let from = led_by(&format!(" of {code}-"), of.from);
    let made = match (of.made, copy_word(of.made)) {
        (_, Some(copy)) => format!("a {copy}{from}"),
        (None, _) => "how it was made is not recorded".to_owned(),
        _ => "the first plant".to_owned(),
    };
    format!("{code}-{}: {made}", of.code)
}
