//! When flowers are, or will be, open: from spikes seen and from how long this grower's own spikes took before.
//!
//! A forecast runs from the shortest to the longest past duration: of the same plant if three of its spikes or more are
//! on record, else of all plants if they have three. With fewer, common practice stands in and is called so: 28 to 56
//! days from the spike to the first flower, 14 to 28 days of flowers; the few on record only widen it. A spike of which
//! no end is recorded outlives the forecast, up to the longest that flowers last; its last flower is no earlier than the last
//! day on which its flowers were seen open, dusted, or gave pollen. Whether flowers and pollen meet is left
//! to `planning::windows`.

use crate::lineage::PlantRow;
use crate::observation::bearer::Borne;
use crate::observation::presence::{Presence, presence};
use crate::observation::seen_open::{last_seen_open, seen_open};
use crate::observation::sex::{SexSeen, sex_seen};
use crate::observation::sighting;
use crate::observation::spike_days::{LAST_AT_MOST, NO_LONGER};
use crate::planning::windows::{Between, Window};
use crate::record::{Day, Flowering, Sex, When};
use crate::registry::Registry;
use crate::wording::{days, led_by};
use std::collections::BTreeMap;

/// Days from a visible spike to its first open flower where nothing is on record: common practice.
const TO_OPEN: (i32, i32) = (28, 56);
/// Days from the first open flower to the last where nothing is on record: common practice.
const LASTING: (i32, i32) = (14, 28);

/// Spikes whose durations make a range of their own.
const ENOUGH: usize = 3;

/// One spike that is in flower or on its way.
#[derive(Clone, Debug)]
pub struct Spike {
    /// The plant.
    pub plant: PlantRow,
    /// The ramet that flowers, if it was written down.
    pub ramet: Option<String>,
    /// Its place among the spikes of its plant.
    pub at: usize,
    /// What tells it from the other spikes of its plant, or piece, that are listed with it: its code, `opened 2024-05-20`, or
    /// `seen 2024-05-01`. `None` where it is the only one.
    pub apart: Option<String>,
    /// When the spike was seen.
    pub seen: When,
    /// First and last day of open flowers, each as a range.
    pub window: Window,
    /// Whether flowers are recorded as open.
    pub opened: bool,
    /// The sex, and whether it is certain.
    pub sex: SexSeen,
    /// What the window is based on.
    pub forecast: Forecast,
}

impl Spike {
    /// The sex to plan with, certain or not.
    pub fn planned_sex(&self) -> Option<Sex> {
        match self.sex {
            SexSeen::Certain(sex) | SexSeen::Guess(sex, _) => Some(sex),
            SexSeen::Unsexed | SexSeen::Contradicted | SexSeen::MixedUp => None,
        }
    }

    /// What is left of its days from a day on. One that opened counts as open on that day until it is on record as over or
    /// has outlived what is forecast of it.
    pub fn left_on(&self, day: i32) -> Window {
        let left = self.window.left_on(day);
        if self.forecast.lasting.is_none() && left.closes.earliest == day {
            // Noted as over on that very day, it may have no flower left.
            let earliest = day.saturating_sub(1);
            let closes = Between {
                earliest,
                ..left.closes
            };
            return Window { closes, ..left };
        }
        let counts_as_open =
            self.opened && self.forecast.lasting.is_some() && !self.forecast.outlived;
        if !counts_as_open || left.closes.latest < day {
            return left;
        }
        let closes = Between {
            earliest: left.closes.earliest.max(day),
            ..left.closes
        };
        Window { closes, ..left }
    }

    /// The code of the plant, or of the ramet that flowers.
    pub fn code(&self, registry: &Registry) -> String {
        let code = registry.code(self.plant);
        match &self.ramet {
            Some(ramet) if ramet.starts_with(&code) => ramet.clone(),
            Some(ramet) => format!("{code}-{ramet}"),
            None => code,
        }
    }
}

/// The code of a plant or piece, and which of its spikes where that is to be said: `V2, spike 24a`.
pub fn which_spike(code: &str, apart: Option<&str>) -> String {
    format!("{code}{}", led_by(", spike ", apart))
}

/// Past durations in days, least and greatest of each spike.
#[derive(Default)]
struct Past {
    to_open: Vec<(i32, i32)>,
    lasting: Vec<(i32, i32)>,
}

impl Past {
    fn add(&mut self, registry: &Registry, flowering: &Flowering) {
        let dates = Dates::of(registry, flowering);
        // What may have been longer than any spike takes is a slip of a date, or too vague to measure one; either would keep
        // every later spike open.
        let sound =
            |days: Option<(i32, i32)>| days.filter(|(_, most)| (0..=NO_LONGER).contains(most));
        self.to_open
            .extend(sound(dates.seen.days_until(dates.opened)));
        // A vague day makes no spike last longer than flowers do; what surely lasted longer, did.
        let lasted = sound(dates.opened.days_until(dates.over));
        self.lasting
            .extend(lasted.map(|(least, most)| (least, most.min(LAST_AT_MOST.max(least)))));
    }
}

/// Shortest and longest of some durations; `None` without any.
fn range(durations: &[(i32, i32)]) -> Option<(i32, i32)> {
    let least = durations.iter().map(|(least, _)| (*least).max(0)).min()?;
    let most = durations.iter().map(|(_, most)| *most).max()?;
    Some((least, most))
}

/// The durations a window is forecast with; `None` where its day is on record.
#[derive(Clone, Copy, PartialEq, Eq, Default, Debug)]
pub struct Forecast {
    /// From the spike to the first open flower.
    pub to_open: Option<PastDays>,
    /// From the first open flower to the last.
    pub lasting: Option<PastDays>,
    /// Whether the flowers would be over by those days, and are not on record as over.
    pub outlived: bool,
}

/// How long something took.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct PastDays {
    /// Days, shortest and longest.
    pub days: (i32, i32),
    /// Whose they are.
    pub of: PastSpikes,
}

/// Whose durations a forecast goes by.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum PastSpikes {
    /// So many past spikes of the plant itself.
    OfPlant(usize),
    /// So many of all plants.
    OfAll(usize),
    /// Common practice, widened by so many of all plants.
    Practice(usize),
}

/// All spikes of plants and pieces that are here whose flowers may be open on or after a day, by first possible day, then code.
pub fn spikes(registry: &Registry, on: Day) -> Vec<Spike> {
    let flowering = |plant: &PlantRow| !registry.flowerings(*plant).is_empty();
    let plants: Vec<PlantRow> = registry.plants().filter(flowering).collect();
    let mut all = Past::default();
    for &plant in &plants {
        registry
            .flowerings(plant)
            .iter()
            .for_each(|f| all.add(registry, f));
    }
    let seen = seen_open(registry, on);
    let mut found = Vec::new();
    for plant in plants
        .into_iter()
        .filter(|&plant| presence(registry, plant, on) == Presence::Here)
    {
        let mut own = Past::default();
        registry
            .flowerings(plant)
            .iter()
            .for_each(|f| own.add(registry, f));
        let forecast = [
            past_days(&own.to_open, &all.to_open, TO_OPEN),
            past_days(&own.lasting, &all.lasting, LASTING),
        ];
        let seen = seen.get(&plant).map_or(&[][..], Vec::as_slice);
        let here = |(_, f): &(usize, &Flowering)| {
            Borne::spike(registry, plant, f)
                .ended(registry, on)
                .is_none()
        };
        let all = registry.flowerings(plant).iter().enumerate();
        let current = all.filter(here).filter_map(|(at, f)| {
            let last_open = last_seen_open(registry, plant, f, seen);
            spike((registry, on), (plant, at), (forecast, last_open))
        });
        found.extend(current.filter(|spike| spike.window.closes.latest >= on.0));
    }
    found.sort_by_key(|spike| (spike.window.opens.earliest, spike.plant));
    tell_apart(registry, &mut found);
    found
}

/// Says of each spike which it is where its plant, or piece, has others among them.
fn tell_apart(registry: &Registry, spikes: &mut [Spike]) {
    let bearer = |spike: &Spike| (spike.plant, spike.ramet.clone());
    let mut borne: BTreeMap<(PlantRow, Option<String>), usize> = BTreeMap::new();
    for spike in spikes.iter() {
        *borne.entry(bearer(spike)).or_default() += 1;
    }
    for spike in spikes.iter_mut().filter(|of| borne[&bearer(of)] > 1) {
        let flowering = &registry.flowerings(spike.plant)[spike.at];
        let on = |what: &str, on: &str| format!("{what} {}", days(registry.when(on)));
        let opened = flowering.opened.map(|day| on("opened", day));
        let seen = || flowering.spike.map(|day| on("seen", day));
        spike.apart = flowering.code.map(str::to_owned).or(opened).or_else(seen);
    }
}

fn past_days(own: &[(i32, i32)], all: &[(i32, i32)], practice: (i32, i32)) -> PastDays {
    let of_enough = |past: &[(i32, i32)]| range(past).filter(|_| past.len() >= ENOUGH);
    let (days, of) = match (of_enough(own), of_enough(all)) {
        (Some(days), _) => (days, PastSpikes::OfPlant(own.len())),
        (None, Some(days)) => (days, PastSpikes::OfAll(all.len())),
        (None, None) => {
            let few = all.iter().copied().chain([practice]);
            let few: Vec<(i32, i32)> = few.collect();
            let widened = range(&few).unwrap_or(practice);
            (widened, PastSpikes::Practice(all.len()))
        }
    };
    PastDays { days, of }
}

/// The dates on record of one spike.
struct Dates {
    seen: When,
    opened: When,
    over: When,
}

impl Dates {
    fn of(registry: &Registry, flowering: &Flowering) -> Dates {
        let date = |text: Option<&str>| text.map_or(When::UNKNOWN, |text| registry.when(text));
        Dates {
            seen: date(flowering.spike),
            opened: date(flowering.opened),
            over: date(flowering.over),
        }
    }

    /// Whether a day is on record by which flowers were open.
    fn have_opened(&self) -> bool {
        self.opened.last != Day::LAST
    }

    /// The day of the first open flower, and whether it is forecast; `None` when nothing says when it may be.
    fn opens(&self, [to_open, lasting]: [PastDays; 2]) -> Option<(Between, bool)> {
        if self.opened.is_bounded() {
            return Some((whole(self.opened), false));
        }
        if self.have_opened() {
            // Open by a day: no earlier than its spike was seen, or than flowers last.
            let latest = self.opened.last.0;
            let from = match self.seen.is_bounded() {
                true => self.seen.first.0,
                false => latest.saturating_sub(lasting.days.1),
            };
            let earliest = from.min(latest);
            return Some((Between { earliest, latest }, false));
        }
        let forecast = || (between(whole(self.seen), to_open.days), true);
        self.seen.is_bounded().then(forecast)
    }

    /// First and last day of open flowers, and what they are forecast with.
    fn window(&self, past: [PastDays; 2], on: Day) -> Option<(Window, Forecast)> {
        let (opens, is_forecast) = self.opens(past)?;
        let [to_open, lasting] = past;
        let mut forecast = Forecast {
            to_open: is_forecast.then_some(to_open),
            ..Forecast::default()
        };
        if self.over.is_bounded() {
            return Some((ordered(opens, whole(self.over)), forecast));
        }
        let mut closes = between(opens, lasting.days);
        forecast.lasting = Some(lasting);
        // Where the first flower may have opened on one of several days, from the first of them.
        let first = match self.opened.is_bounded() {
            true => opens.earliest,
            false => opens.latest,
        };
        forecast.outlived = self.have_opened() && first.saturating_add(lasting.days.1) < on.0;
        if forecast.outlived {
            let longest = opens.latest.saturating_add(LAST_AT_MOST);
            closes.latest = closes.latest.max(longest);
        }
        Some((Window { opens, closes }, forecast))
    }
}

fn whole(when: When) -> Between {
    Between {
        earliest: when.first.0,
        latest: when.last.0,
    }
}

fn between(from: Between, (least, most): (i32, i32)) -> Between {
    Between {
        earliest: from.earliest.saturating_add(least),
        latest: from.latest.saturating_add(most),
    }
}

/// The last flower is never before the first, so that two vague dates narrow each other; not those in the wrong order.
fn ordered(opens: Between, closes: Between) -> Window {
    if closes.latest < opens.earliest {
        return Window { opens, closes };
    }
    Window {
        opens: Between {
            latest: opens.latest.min(closes.latest),
            ..opens
        },
        closes: Between {
            earliest: closes.earliest.max(opens.earliest),
            ..closes
        },
    }
}

fn spike(
    (registry, on): (&Registry, Day),
    (plant, at): (PlantRow, usize),
    (past, last_open): ([PastDays; 2], Option<Day>),
) -> Option<Spike> {
    let flowering = &registry.flowerings(plant)[at];
    let dates = Dates::of(registry, flowering);
    let (mut window, forecast) = dates.window(past, on)?;
    let seen_by = (flowering.opened).and_then(|opened| seen_open_by(registry, opened));
    if let Some(day) = last_open.max(seen_by).filter(|day| *day <= on) {
        window.closes = no_earlier(window.closes, day, flowering.over.is_some());
    }
    let own_sex = sighting(0, flowering).map(|seen| seen.seen());
    let known = sex_seen(registry, plant);
    let sex = match (known, own_sex) {
        (SexSeen::Unsexed, Some(own)) => own,
        _ => known,
    };
    Some(Spike {
        plant,
        ramet: flowering.ramet.map(str::to_owned),
        at,
        apart: None,
        seen: dates.seen,
        window,
        opened: dates.have_opened(),
        sex,
        forecast,
    })
}

/// The day on which flowers were open that are on record as open by a day.
fn seen_open_by(registry: &Registry, opened: &str) -> Option<Day> {
    let day = registry.when(opened.trim().strip_prefix("by ")?);
    (day.first == day.last).then_some(day.last)
}

/// The last day of open flowers where they were open on a day. What is forecast gives way to it, what is on record does not.
fn no_earlier(closes: Between, day: Day, on_record: bool) -> Between {
    let latest = match on_record {
        true => closes.latest,
        false => closes.latest.max(day.0),
    };
    Between {
        earliest: closes.earliest.max(day.0.min(latest)),
        latest,
    }
}
