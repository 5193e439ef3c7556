//! The facts of a card in words: each only where it is recorded.

use super::answer::CardPhoto;
use super::made::made;
use crate::analysis::card::{CardSeen, Offered};
use crate::observation::mixed_up::{mixed_up, mixed_up_sex};
use crate::observation::sex::SexSeen;
use crate::record::{Photo, SeenBy, Treatment, When};
use crate::registry::Registry;
use crate::report::fact::{Fact, fact};
use crate::report::plants::{pot_words, typed, typed_or_not};
use crate::wording::{age, days, led_by, quoted};

/// From how it was made to the sex; the size comes between, from the readings.
pub fn facts(card: &CardSeen, size: Option<String>) -> Vec<Fact> {
    let of = card.offered;
    let facts = [
        fact("made", made(of)),
        fact("sown", of.sown().map(|when| sown(of, when))),
        fact("age", of.months_from_sowing().map(from_sowing)),
        fact("mixed up", mixed_up(of.registry, of.plant)),
        fact("received as", received(of)),
        fact("size", size),
        fact("pot", of.pot().map(|pot| pot_words(of.registry, pot))),
        fact("sex", sex(card)),
    ];
    facts.into_iter().flatten().collect()
}

/// The size and the sex.
pub fn described(card: &CardSeen, size: Option<String>) -> Vec<Fact> {
    let facts = [fact("size", size), fact("sex", sex(card))];
    facts.into_iter().flatten().collect()
}

/// Climate, pests and treatment.
pub fn kept(of: Offered) -> Vec<Fact> {
    let of_place = treatments(of, &of.place_treatments());
    let of_place =
        of_place.map(|last| format!("{last}; whether it stood there then is not on record"));
    let facts = [
        fact("climate it was kept in", of.climate()),
        fact("pests", pests(of)),
        fact("last treatment", treatments(of, &of.treatments())),
        fact("its place was treated", of_place),
    ];
    facts.into_iter().flatten().collect()
}

/// The day of a picture and its light.
pub fn photo(registry: &Registry, photo: &Photo) -> CardPhoto {
    CardPhoto {
        on: typed_or_not(registry, photo.on),
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
    let on = led_by(", ", on.map(|on| typed(of.registry, on)));
    let whose = match of.is_copy() {
        true => " (the plant it was taken from)",
        false => "",
    };
    Some(format!("{}{on}{whose}", quoted(&founder.received)))
}

/// The sex with the day and the basis; a guess is called one.
fn sex(card: &CardSeen) -> Option<String> {
    let on = typed_or_not(card.offered.registry, card.offered.sex_on());
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

/// All that may have been the last.
fn treatments(of: Offered, all: &[&Treatment]) -> Option<String> {
    let words: Vec<String> = all.iter().map(|last| treatment(of, last)).collect();
    (!words.is_empty()).then(|| words.join("; "))
}

/// When, with what and against what.
fn treatment(of: Offered, last: &Treatment) -> String {
    let against = led_by(" against ", last.against.as_deref());
    let on = typed(of.registry, last.on);
    format!("{on}: {}{against}", &*last.product)
}
