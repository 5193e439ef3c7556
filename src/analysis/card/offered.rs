//! What a card is of, and what is recorded of it.

use crate::lineage::PlantRow;
use crate::observation::months::months;
use crate::observation::photos::photos;
use crate::observation::pieces::pot_here;
use crate::observation::places::{is_in, place_of};
use crate::observation::pottings::latest_pot;
use crate::observation::presence::end_of;
use crate::observation::provenance::{provenance, sown};
use crate::observation::says_pest;
use crate::observation::sex::sighting_of;
use crate::observation::treated::treated;
use crate::record::{Day, Made, Photo, Potting, Ramet, ReceivedAs, Treatment, When};
use crate::registry::{Column, PlantKind, Registry};

/// What a card is of.
#[derive(Clone, Copy)]
pub struct Offered<'r, 't> {
    /// The registry.
    pub registry: &'r Registry<'t>,
    /// The plant.
    pub plant: PlantRow,
    /// One piece of the plant.
    pub piece: Option<&'r Ramet<'t>>,
    /// The day of the card.
    pub today: Day,
}

/// How a plant or a piece came to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HowMade {
    /// Made from another piece, as a cutting or the like.
    Copy(Made),
    /// Raised from seed.
    Seedling,
    /// Received in this form.
    Received(ReceivedAs),
}

/// The last look for pests.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PestsSeen<'r> {
    /// When.
    pub when: When,
    /// What was written.
    pub cell: &'r str,
    /// Whether it says that there were any.
    pub any: bool,
}

impl<'r, 't> Offered<'r, 't> {
    /// How it came to be; `None` where it is not recorded.
    pub fn made(self) -> Option<HowMade> {
        match self.piece {
            Some(piece) => match piece.made? {
                Made::Original => self.whole_made(),
                made => Some(HowMade::Copy(made)),
            },
            None => self.whole_made(),
        }
    }

    fn whole_made(self) -> Option<HowMade> {
        match self.registry.kind(self.plant) {
            PlantKind::Seedling => Some(HowMade::Seedling),
            _ => {
                let form = self.registry.founder(self.plant)?.form?;
                Some(HowMade::Received(form))
            }
        }
    }

    /// Whether it is a piece that was made from another.
    pub fn is_copy(self) -> bool {
        self.piece
            .is_some_and(|piece| piece.made != Some(Made::Original))
    }

    /// When the plant was sown.
    pub fn sown(self) -> Option<When> {
        let sown = sown(self.registry, self.plant);
        (sown != When::UNKNOWN).then_some(sown)
    }

    /// Age from sowing in months, today or at the end; `None` for a piece made from another.
    pub fn months_from_sowing(self) -> Option<(f64, f64)> {
        if self.is_copy() {
            return None;
        }
        let until = end_of(self.registry, self.plant, self.today);
        let until = until.unwrap_or(When::on(self.today));
        months(provenance(self.registry, self.plant).sown, until)
    }

    /// The latest picture; one of a piece is not told apart, so a piece has none.
    pub fn photo(self) -> Option<&'r Photo<'t>> {
        match self.piece {
            Some(_) => None,
            None => photos(self.registry, self.plant).pop(),
        }
    }

    /// The last pot.
    pub fn pot(self) -> Option<&'r Potting<'t>> {
        match self.piece {
            Some(piece) => latest_pot(self.registry, self.plant, Some(piece)),
            None => pot_here(self.registry, self.plant),
        }
    }

    /// The day of the flowers that decide its sex, as typed.
    pub fn sex_on(self) -> Option<&'t str> {
        let seen = sighting_of(self.registry, self.plant)?;
        let flowering = &self.registry.flowerings(self.plant)[seen.flowering];
        flowering.opened.or(flowering.spike)
    }

    /// Where it stands; private.
    fn place(self) -> Option<&'r str> {
        place_of(self.registry, self.plant, self.piece, self.today)
    }

    /// The climate of the place.
    pub fn climate(self) -> Option<&'r str> {
        let at = self.place()?;
        let places = self.registry.settings.places.iter();
        // The longest name is the nearest: `shelf 1, front` before `shelf 1`.
        let of = places
            .filter(|of| is_in(at, &of.name))
            .max_by_key(|of| of.name.len())?;
        of.climate.as_deref()
    }

    /// The last look for pests.
    pub fn pests(self) -> Option<PestsSeen<'r>> {
        let registry = self.registry;
        let looks = registry.readings.of(self.plant).filter_map(|reading| {
            let head = &registry[reading.sitting];
            let column = head.columns.get(usize::from(reading.column));
            let when = registry.when(head.sitting.on);
            let cell = registry.cell(reading).trim();
            (column == Some(&Column::Pest) && !cell.is_empty()).then_some((when, cell))
        });
        let (when, cell) = looks.max_by_key(|(when, _)| (when.last, when.first))?;
        let any = says_pest(cell);
        Some(PestsSeen { when, cell, any })
    }

    /// The latest treatments on the plant's own record: more than one where it is not known which came last.
    pub fn treatments(self) -> Vec<&'r Treatment<'t>> {
        self.latest_treatments(false)
    }

    /// The latest treatments of which only the place is on record; whether the plant stood there then is not.
    pub fn place_treatments(self) -> Vec<&'r Treatment<'t>> {
        self.latest_treatments(true)
    }

    fn latest_treatments(self, of_place: bool) -> Vec<&'r Treatment<'t>> {
        let all = treated(self.registry, self.plant, self.piece, self.place()).into_iter();
        let wanted = all.filter(|of| of.of_place == of_place);
        let mut wanted: Vec<&Treatment> = wanted.map(|of| of.treatment).collect();
        let when = |of: &Treatment| self.registry.when(of.on);
        let all = wanted.clone();
        wanted.retain(|of| !all.iter().any(|other| when(of).surely_before(when(other))));
        wanted.sort_by_key(|of| (when(of), of.product.to_string()));
        wanted
    }
}
