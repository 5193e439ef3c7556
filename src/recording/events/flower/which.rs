//! Which spike on record is meant: the one named, or the one that was going on then.

use super::event::Flower;
use crate::observation::sex::{is_of_before_a_mix_up, sighting};
use crate::observation::spike_days::{LAST_AT_MOST, may_be_of_piece};
use crate::observation::who_it_may_be::may_be;
use crate::record::{Day, Flowering, When};
use crate::recording::dates::dated;
use crate::recording::draft::Draft;
use crate::recording::in_flower::spike_named;
use crate::recording::slip::Slip;
use crate::recording::voice::{Words, words};
use crate::registry::{PlantOrRamet, PlantRow, Registry};
use crate::wording::at_date;

/// Days that a spike lasts no longer than: a season (common practice, no source).
const SEASON: i32 = 200;

/// How a page records a spike whose end is recorded next.
const OPENED: &str = "first as “its first flower, opened that day”";

impl Flower {
    /// The spike on record that is meant: the one named, or the only one not over when only its end is given. The spike of
    /// another piece of the plant never is; one recorded without a piece may be.
    pub(super) fn of_record(
        &self,
        draft: &Draft,
        plant: PlantOrRamet,
    ) -> Result<Option<usize>, Slip> {
        let registry = draft.registry;
        if let Some(spike) = &self.spike {
            return spike_named(registry, plant, spike).map(Some);
        }
        let flowerings = registry.flowerings(plant.plant);
        if self.is_claim() {
            return Ok(flowerings.iter().position(|of| self.is_same_claim(of)));
        }
        let asked = self.when(draft)?;
        let only_over = self.over.is_some() && self.opened.is_none();
        let (going_on, others): (Vec<usize>, Vec<usize>) =
            not_over(registry, plant).into_iter().partition(|&at| {
                let of = &flowerings[at];
                is_near(begun(registry, of), asked, only_over)
                    && (only_over || !is_of_another_pot(registry, (plant.plant, of), asked))
            });
        match going_on.as_slice() {
            [] if only_over && self.seen.is_none() => {
                let code = |at: &usize| flowerings[*at].code;
                let known: Vec<&str> = others.iter().filter_map(code).collect();
                let closed = closed(registry, plant, asked);
                Err(closed.map_or_else(
                    || self.none_going_on(!others.is_empty(), &known),
                    |(spike, over)| self.is_over_already(spike, over),
                ))
            }
            [at] if self.seen.is_none() && self.continues(registry, flowerings[*at].opened) => {
                Ok(Some(*at))
            }
            [_, _, ..] if only_over => Err(Slip::ambiguous(
                "spike",
                codes(flowerings, &going_on),
                Words::or("name it with --spike", "name it under “Spike”"),
            )),
            _ => match self.opened_already(registry, plant.plant, &going_on) {
                Some(slip) => Err(slip),
                None => Ok(None),
            },
        }
    }

    /// The refusal of a day on which the first flower opened while a spike that may be the same one has another on record.
    fn opened_already(
        &self,
        registry: &Registry,
        plant: PlantRow,
        going_on: &[usize],
    ) -> Option<Slip> {
        if self.seen.is_some() || self.over.is_some() {
            return None;
        }
        let asked = self.opened.as_deref()?;
        let when = registry.when(asked);
        let open = going_on.iter().find_map(|&at| {
            let of = &registry.flowerings(plant)[at];
            let (code, opened) = (of.code?, of.opened?);
            // A day by which flowers were open stands for itself.
            let first = match registry.when(opened) {
                of if of.first == Day::FIRST => When::on(of.last),
                of => of,
            };
            let apart = first.days_until(when);
            let may_be_it =
                apart.is_none_or(|(least, most)| least <= LAST_AT_MOST && most >= -LAST_AT_MOST);
            may_be_it.then_some((code, opened))
        });
        let (code, opened) = open?;
        Some(Slip::contradicts(
            format!(
                "the first flower of {} opened {}",
                self.plant,
                at_date(asked)
            ),
            format!(
                "spike {code} is on record as opened {} and not as over",
                at_date(opened)
            ),
            Words::or(
                format!(
                    "to give it another day: --spike {code}; if that is another spike, say when you first saw it as well: --seen DATE"
                ),
                format!(
                    "to give it another day, fill in “Spike”: {code}; if that is another one, record it first as “a new spike, still closed”, then name it there"
                ),
            ),
        ))
    }

    /// When something was seen of the spike; today if no day is given or known.
    fn when(&self, draft: &Draft) -> Result<When, Slip> {
        let given = [&self.over, &self.opened, &self.open_on, &self.seen];
        let typed = given.into_iter().find_map(|typed| typed.as_deref());
        let on = dated(draft.registry, "--on", typed, draft.today)?;
        match on.when {
            When::UNKNOWN => Ok(dated(draft.registry, "--on", None, draft.today)?.when),
            when => Ok(when),
        }
    }

    /// Whether a record without a day says the same of the sex.
    fn is_same_claim(&self, of: &Flowering) -> bool {
        let undated = of.spike.or(of.opened).or(of.over).is_none();
        let by = sighting(0, of).map(|of| of.seen());
        undated && by.is_some() && by == self.sex.map(|sex| self.as_seen(sex))
    }

    /// The refusal of the end of a spike when none was going on then: whether others are not over, and the codes they have.
    fn none_going_on(&self, others: bool, known: &[&str]) -> Slip {
        let none = match others {
            true => format!("that began in the {SEASON} days before that day and is not over"),
            false => "that is not over".to_owned(),
        };
        let (plant, known) = (&self.plant, known.join(", "));
        let opened = Words::or("with --opened as well", OPENED);
        let help = match known.is_empty() {
            true => words!("record it {}"; opened),
            false => words!(
                "spikes not over: {known}; name it {}, or record another spike {}";
                Words::or("with --spike", "under “Spike”"), opened
            ),
        };
        Slip::nothing(words!("{plant} has no spike on record {none}\n{}"; help))
    }

    /// The refusal of a second end of a spike.
    fn is_over_already(&self, spike: &str, over: &str) -> Slip {
        let (plant, over) = (&self.plant, at_date(over));
        Slip::nothing(words!(
            "spike {spike} of {plant} is on record as over {over} already\nto give it another day{}";
            Words::or(
                format!(": --spike {spike}; to record another spike, give --opened as well"),
                format!(", fill in “Spike”: {spike}; record another spike {OPENED}")
            )
        ))
    }

    /// Whether what was seen belongs to a spike going on, and does not begin another one. A day by which flowers were
    /// open gives way to the day on which the first one opened.
    fn continues(&self, registry: &Registry, opened: Option<&str>) -> bool {
        let (Some(asked), Some(known)) = (&self.opened, opened) else {
            return true;
        };
        let (when, by) = (registry.when(asked), registry.when(known));
        asked == known || (by.first == Day::FIRST && when.last <= by.last)
    }
}

/// The spikes with a beginning and no end on record that may be of the piece named.
fn not_over(registry: &Registry, plant: PlantOrRamet) -> Vec<usize> {
    let piece = registry.ramet(plant).map(|piece| piece.code);
    let flowerings = registry.flowerings(plant.plant).iter().enumerate();
    let not_over = flowerings.filter(|(_, of)| {
        of.over.is_none() && of.opened.or(of.spike).is_some() && may_be_of_piece(of, piece)
    });
    not_over.map(|(at, _)| at).collect()
}

/// The code and the end of the last spike, of the piece named, that began in the season of a date and is over.
fn closed<'r>(
    registry: &'r Registry,
    plant: PlantOrRamet,
    asked: When,
) -> Option<(&'r str, &'r str)> {
    let piece = registry.ramet(plant).map(|piece| piece.code);
    let flowerings = registry.flowerings(plant.plant).iter();
    let near = flowerings
        .filter(|of| may_be_of_piece(of, piece) && is_near(begun(registry, of), asked, true));
    near.filter_map(|of| of.code.zip(of.over)).next_back()
}

/// When a spike with a beginning on record began.
fn begun(registry: &Registry, of: &Flowering) -> When {
    let begun = [of.opened, of.spike].into_iter().flatten();
    let mut begun = begun.map(|on| registry.when(on));
    let known = begun.find(|when| *when != When::UNKNOWN);
    known.unwrap_or(When::UNKNOWN)
}

/// Whether a spike may have begun within a season of a date; no spike is over before it began.
fn is_near(begun: When, asked: When, is_over: bool) -> bool {
    // A day by which something was seen stands for itself.
    let first = |when: When| match (when.first, when.last) {
        (Day::FIRST, last) if last != Day::LAST => last.0,
        (first, _) => first.0,
    };
    first(asked) <= begun.last.0.saturating_add(SEASON)
        && first(begun) <= asked.last.0.saturating_add(SEASON)
        && !(is_over && asked.surely_before(begun))
}

/// Whether a spike was on record before a mix-up that is not settled, and something was seen after it: what bears the code
/// now may be another plant.
fn is_of_another_pot(
    registry: &Registry,
    (plant, of): (PlantRow, &Flowering),
    asked: When,
) -> bool {
    let mix_up = may_be(registry, plant);
    let since = mix_up.is_some_and(|mix_up| mix_up.since.surely_before(asked));
    since && is_of_before_a_mix_up(registry, plant, of) == Some(true)
}

fn codes(flowerings: &[Flowering], which: &[usize]) -> Vec<String> {
    let code = |at: &usize| flowerings[*at].code.unwrap_or("one without a code");
    which.iter().map(|at| code(at).to_owned()).collect()
}
