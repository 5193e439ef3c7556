//! The facts of a card: each only where it is recorded.

use super::answer::{CardFact, CardPhoto};
use super::made::made;
use crate::lineage::PlantRow;
use crate::observation::mixed_up::mixed_up;
use crate::observation::months::months;
use crate::observation::photos::photos;
use crate::observation::places::{is_in, place_noted};
use crate::observation::presence::end_of;
use crate::observation::provenance::{provenance, sown};
use crate::observation::says_pest;
use crate::observation::sex::{SexSeen, sex_seen, sighting_of};
use crate::observation::treated::treated;
use crate::record::{Day, Made, Ramet, SeenBy, Sex, When};
use crate::registry::{Column, Registry};
use crate::wording::{age, days, typed_date};

/// What a card is of.
#[derive(Clone, Copy)]
pub struct Offered<'r, 't> {
    pub registry: &'r Registry<'t>,
    pub plant: PlantRow,
    /// One piece of the plant.
    pub piece: Option<&'r Ramet<'t>>,
    pub today: Day,
}

fn fact(label: &'static str, value: Option<String>) -> Option<CardFact> {
    value.map(|value| CardFact { label, value })
}

impl Offered<'_, '_> {
    /// From how it was made to the sex; the size comes between, from the readings.
    pub fn facts(self, size: Option<String>) -> Vec<CardFact> {
        let facts = [
            fact("made", made(self.registry, self.plant, self.piece)),
            fact("sown", self.sown()),
            fact("age", self.age()),
            fact("mixed up", mixed_up(self.registry, self.plant)),
            fact("received as", self.received()),
            fact("size", size),
            fact("pot", self.pot()),
            fact("sex", self.sex()),
        ];
        facts.into_iter().flatten().collect()
    }

    /// The day of the latest picture; one of a piece is not told apart, so a piece has none.
    pub fn photo(self) -> Option<CardPhoto> {
        if self.piece.is_some() {
            return None;
        }
        let photo = photos(self.registry, self.plant).pop()?;
        let on = photo.on.map(|on| typed_date(on, self.registry.when(on)));
        Some(CardPhoto {
            on: on.unwrap_or_else(|| "day not recorded".to_owned()),
            file: photo.file.to_string(),
        })
    }

    fn sown(self) -> Option<String> {
        let sown = sown(self.registry, self.plant);
        let whose = if self.is_copy() {
            " (the seedling it was taken from)"
        } else {
            ""
        };
        (sown != When::UNKNOWN).then(|| format!("{}{whose}", days(sown)))
    }

    /// Whether it is a piece that was made from another.
    fn is_copy(self) -> bool {
        self.piece
            .is_some_and(|piece| piece.made != Some(Made::Original))
    }

    fn age(self) -> Option<String> {
        if self.is_copy() {
            return None;
        }
        let until = end_of(self.registry, self.plant, self.today);
        let until = until.unwrap_or(When::on(self.today));
        let from = provenance(self.registry, self.plant).sown;
        months(from, until).map(|months| format!("{} from sowing", age(months)))
    }

    /// The words on the tag the plant came with, letter by letter, and when; a copy did not come that day.
    fn received(self) -> Option<String> {
        let founder = self.registry.founder(self.plant)?;
        let on = founder.on.filter(|_| !self.is_copy());
        let on = on.map(|on| format!(", {}", typed_date(on, self.registry.when(on))));
        let whose = if self.is_copy() {
            " (the plant it was taken from)"
        } else {
            ""
        };
        Some(format!(
            "\"{}\"{}{whose}",
            &*founder.received,
            on.unwrap_or_default()
        ))
    }

    fn pot(self) -> Option<String> {
        if self.piece.is_some() {
            return None;
        }
        let pot = self.registry.pots(self.plant).last()?;
        let since = typed_date(pot.on, self.registry.when(pot.on));
        Some(format!("{} since {since}", &*pot.pot))
    }

    /// The sex with the day and the basis; a guess is called one.
    fn sex(self) -> Option<String> {
        let word = |sex: Sex| match sex {
            Sex::Female => "female",
            Sex::Male => "male",
        };
        let seen = sighting_of(self.registry, self.plant);
        let flowering = seen.map(|seen| &self.registry.flowerings(self.plant)[seen.flowering]);
        let on = flowering.and_then(|of| of.opened.or(of.spike));
        let on = on.map_or_else(
            || "day not recorded".to_owned(),
            |on| typed_date(on, self.registry.when(on)),
        );
        match sex_seen(self.registry, self.plant) {
            SexSeen::Certain(sex) => Some(format!("{}, seen on open flowers, {on}", word(sex))),
            SexSeen::Guess(sex, by) => Some(match by {
                SeenBy::Buds => format!("perhaps {}: a guess from buds, {on}", word(sex)),
                SeenBy::LeafTest => format!("perhaps {}: a leaf test, {on}", word(sex)),
                SeenBy::Unsaid => {
                    format!("perhaps {}: how it was seen is not recorded", word(sex))
                }
                SeenBy::Supplier | SeenBy::Flowers => {
                    format!("perhaps {}: somebody's word", word(sex))
                }
            }),
            SexSeen::Contradicted => Some("not certain: both sexes are on record".to_owned()),
            SexSeen::Unsexed => None,
        }
    }

    /// Climate, pests and treatment.
    pub fn kept(self) -> Vec<CardFact> {
        let facts = [
            fact("climate it was kept in", self.climate()),
            fact("pests", self.pests()),
            fact("last treatment", self.treatment()),
        ];
        facts.into_iter().flatten().collect()
    }

    /// The climate of the place; the place itself is private.
    fn climate(self) -> Option<String> {
        let own = self
            .piece
            .and_then(|piece| piece.place.as_deref().map(str::to_owned));
        let at = own.or_else(|| place_noted(self.registry, self.plant).map(str::to_owned))?;
        let places = self.registry.settings.places.iter();
        // The longest name is the nearest: `shelf 1, front` before `shelf 1`.
        let of = places
            .filter(|of| is_in(&at, &of.name))
            .max_by_key(|of| of.name.len())?;
        of.climate.as_deref().map(str::to_owned)
    }

    /// The last look for pests, and what it said.
    fn pests(self) -> Option<String> {
        let readings = self.registry.readings.of(self.plant).filter_map(|reading| {
            let head = &self.registry[reading.sitting];
            let column = head.columns.get(usize::from(reading.column));
            let when = self.registry.when(head.sitting.on);
            let cell = self.registry.cell(reading).trim().to_owned();
            (column == Some(&Column::Pest) && !cell.is_empty()).then_some((when, cell))
        });
        let (when, cell) = readings.max_by_key(|(when, _)| (when.last, when.first))?;
        Some(match says_pest(&cell) {
            true => format!("{cell} seen {}", days(when)),
            false => format!("none seen {}", days(when)),
        })
    }

    /// The latest treatment of the plant, or of where it stands now since it has been there.
    fn treatment(self) -> Option<String> {
        let registry = self.registry;
        let own = self
            .piece
            .and_then(|piece| piece.place.as_deref().map(str::to_owned));
        let at = own.or_else(|| place_noted(registry, self.plant).map(str::to_owned));
        let all = treated(registry, self.plant, self.piece, at.as_deref());
        let last = all
            .into_iter()
            .max_by_key(|of| registry.when(of.treatment.on).last)?;
        let (of, is_place) = (last.treatment, last.of_place);
        let on = typed_date(of.on, registry.when(of.on));
        let against = of.against.as_deref().map(|pest| format!(" against {pest}"));
        let against = against.unwrap_or_default();
        let where_it = if is_place {
            ", used where it stands now"
        } else {
            ""
        };
        Some(format!("{on}: {}{against}{where_it}", &*of.product))
    }
}
