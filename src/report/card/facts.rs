//! The facts of a card in words: each only where it is recorded.

use super::answer::{CardFact, CardPhoto};
use super::made::made;
use crate::analysis::card::{CardSeen, Offered};
use crate::observation::mixed_up::{mixed_up, mixed_up_sex};
use crate::observation::sex::SexSeen;
use crate::record::{Photo, SeenBy, Treatment, When};
use crate::registry::Registry;
use crate::wording::{age, days, quoted, typed_date};

fn fact(label: &'static str, value: Option<String>) -> Option<CardFact> {
    value.map(|value| CardFact { label, value })
}

/// From how it was made to the sex; the size comes between, from the readings.
pub fn facts(card: &CardSeen, size: Option<String>) -> Vec<CardFact> {
    let of = card.offered;
    let facts = [
        fact("made", made(of)),
        fact("sown", of.sown().map(|when| sown(of, when))),
        fact("age", of.months_from_sowing().map(from_sowing)),
        fact("mixed up", mixed_up(of.registry, of.plant)),
        fact("received as", received(of)),
        fact("size", size),
        fact("pot", pot(of)),
        fact("sex", sex(card)),
    ];
    facts.into_iter().flatten().collect()
}

/// The size and the sex.
pub fn described(card: &CardSeen, size: Option<String>) -> Vec<CardFact> {
    let facts = [fact("size", size), fact("sex", sex(card))];
    facts.into_iter().flatten().collect()
}

/// Climate, pests and treatment.
pub fn kept(of: Offered) -> Vec<CardFact> {
    let facts = [
        fact("climate it was kept in", of.climate().map(str::to_owned)),
        fact("pests", pests(of)),
        fact(
            "last treatment",
            of.treatment().map(|last| treatment(of, last)),
        ),
        fact(
            "its place was treated",
            of.place_treatment().map(|last| {
                format!(
                    "{}; whether it stood there then is not on record",
                    treatment(of, last)
                )
            }),
        ),
    ];
    facts.into_iter().flatten().collect()
}

/// The day of a picture and its light.
pub fn photo(registry: &Registry, photo: &Photo) -> CardPhoto {
    let on = photo.on.map(|on| typed_date(on, registry.when(on)));
    CardPhoto {
        on: on.unwrap_or_else(|| "day not recorded".to_owned()),
        light: photo.light.as_deref().map(str::to_owned),
        file: photo.file.to_string(),
    }
}

fn sown(of: Offered, when: When) -> String {
    let whose = match of.is_copy() {
        true => " (the seedling it was taken from)",
        false => "",
    };
    format!("{}{whose}", days(when))
}

fn from_sowing(months: (f64, f64)) -> String {
    format!("{} from sowing", age(months))
}

/// The words on the tag the plant came with, letter by letter, and when; a copy did not come that day.
fn received(of: Offered) -> Option<String> {
    let founder = of.registry.founder(of.plant)?;
    let on = founder.on.filter(|_| !of.is_copy());
    let on = on.map(|on| format!(", {}", typed_date(on, of.registry.when(on))));
    let whose = match of.is_copy() {
        true => " (the plant it was taken from)",
        false => "",
    };
    Some(format!(
        "{}{}{whose}",
        quoted(&founder.received),
        on.unwrap_or_default()
    ))
}

fn pot(of: Offered) -> Option<String> {
    let pot = of.pot()?;
    Some(match of.registry.when(pot.on) {
        When::UNKNOWN => format!("{}, day not known", &*pot.pot),
        when => format!("{} since {}", &*pot.pot, typed_date(pot.on, when)),
    })
}

/// The sex with the day and the basis; a guess is called one.
fn sex(card: &CardSeen) -> Option<String> {
    let on = card.offered.sex_on().map_or_else(
        || "day not recorded".to_owned(),
        |on| typed_date(on, card.offered.registry.when(on)),
    );
    match card.sex {
        SexSeen::Certain(sex) => Some(format!("{}, seen on open flowers, {on}", sex.word())),
        SexSeen::Guess(sex, by) => Some(match by {
            SeenBy::Buds => format!("perhaps {}: a guess from buds, {on}", sex.word()),
            SeenBy::LeafTest => format!("perhaps {}: a leaf test, {on}", sex.word()),
            SeenBy::Unsaid => format!("perhaps {}: how it was seen is not recorded", sex.word()),
            SeenBy::Supplier | SeenBy::Flowers => {
                format!("perhaps {}: claimed by the supplier", sex.word())
            }
        }),
        SexSeen::Contradicted => Some("not certain: both sexes are on record".to_owned()),
        SexSeen::MixedUp => Some(mixed_up_sex(card.offered.registry, card.offered.plant)),
        SexSeen::Unsexed => None,
    }
}

/// The last look for pests, and what it said.
fn pests(of: Offered) -> Option<String> {
    let seen = of.pests()?;
    Some(match seen.any {
        true => format!("{} seen {}", seen.cell, days(seen.when)),
        false => format!("none seen {}", days(seen.when)),
    })
}

/// When, with what and against what.
fn treatment(of: Offered, last: &Treatment) -> String {
    let on = typed_date(last.on, of.registry.when(last.on));
    let against = last.against.as_deref();
    let against = against
        .map(|pest| format!(" against {pest}"))
        .unwrap_or_default();
    format!("{on}: {}{against}", &*last.product)
}
