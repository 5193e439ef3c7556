//! When flowers are, or will be, open: from spikes seen and from how long this grower's own spikes took before.
//!
//! A forecast runs from the shortest to the longest past duration, of the same plant if it has flowered before, else of
//! all plants on record. Without any, common practice stands in and is called so: 28 to 56 days from the spike to the
//! first flower, 14 to 28 days of flowers. Whether flowers and pollen meet is left to `planning::windows`.

use crate::lineage::PlantRow;
use crate::observation::presence::{Presence, presence};
use crate::observation::sex::{SexSeen, sex_seen};
use crate::observation::sighting;
use crate::planning::windows::{Between, Window};
use crate::record::{Day, Flowering, Sex, When};
use crate::registry::Registry;

/// Days from a visible spike to its first open flower where nothing is on record: common practice.
const TO_OPEN: (i32, i32) = (28, 56);
/// Days from the first open flower to the last where nothing is on record: common practice.
const LASTING: (i32, i32) = (14, 28);

/// One spike that is in flower or on its way.
#[derive(Clone, Debug)]
pub struct Spike {
    /// The plant.
    pub plant: PlantRow,
    /// The ramet that flowers, if it was written down.
    pub ramet: Option<String>,
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
            SexSeen::Unsexed | SexSeen::Contradicted => None,
        }
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

/// Past durations in days, least and greatest of each spike.
#[derive(Default)]
struct Past {
    to_open: Vec<(i32, i32)>,
    lasting: Vec<(i32, i32)>,
}

impl Past {
    fn add(&mut self, registry: &Registry, flowering: &Flowering) {
        let date = |text: Option<&str>| text.map_or(When::UNKNOWN, |text| registry.when(text));
        let [spike, opened, over] = [flowering.spike, flowering.opened, flowering.over].map(date);
        let sound = |days: Option<(i32, i32)>| days.filter(|(_, most)| *most >= 0);
        self.to_open.extend(sound(spike.days_until(opened)));
        self.lasting.extend(sound(opened.days_until(over)));
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
    /// None: common practice.
    Practice,
}

/// All spikes of plants that are here whose flowers may be open on or after a day, by first possible day, then code.
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
        let current = registry
            .flowerings(plant)
            .iter()
            .filter_map(|f| spike(registry, plant, f, forecast));
        found.extend(current.filter(|spike| spike.window.closes.latest >= on.0));
    }
    found.sort_by_key(|spike| (spike.window.opens.earliest, spike.plant));
    found
}

fn past_days(own: &[(i32, i32)], all: &[(i32, i32)], practice: (i32, i32)) -> PastDays {
    let (days, of) = match (range(own), range(all)) {
        (Some(days), _) => (days, PastSpikes::OfPlant(own.len())),
        (None, Some(days)) => (days, PastSpikes::OfAll(all.len())),
        (None, None) => (practice, PastSpikes::Practice),
    };
    PastDays { days, of }
}

fn spike(
    registry: &Registry,
    plant: PlantRow,
    flowering: &Flowering,
    [to_open, lasting]: [PastDays; 2],
) -> Option<Spike> {
    let date = |text: Option<&str>| text.map_or(When::UNKNOWN, |text| registry.when(text));
    let [seen, opened, over] = [flowering.spike, flowering.opened, flowering.over].map(date);
    let between = |from: Between, (least, most): (i32, i32)| Between {
        earliest: from.earliest.saturating_add(least),
        latest: from.latest.saturating_add(most),
    };
    let whole = |when: When| Between {
        earliest: when.first.0,
        latest: when.last.0,
    };
    let mut forecast = Forecast::default();
    let opens = if opened.is_bounded() {
        whole(opened)
    } else if opened.last != Day::LAST {
        // Open by a day: no earlier than its spike was seen, or than flowers last.
        let longest = opened.last.0.saturating_sub(lasting.days.1);
        let from = if seen.is_bounded() {
            seen.first.0
        } else {
            longest
        };
        Between {
            earliest: from.min(opened.last.0),
            latest: opened.last.0,
        }
    } else if seen.is_bounded() {
        forecast.to_open = Some(to_open);
        between(whole(seen), to_open.days)
    } else {
        return None;
    };
    let closes = if over.is_bounded() {
        whole(over)
    } else {
        forecast.lasting = Some(lasting);
        between(opens, lasting.days)
    };
    let own_sex = sighting(0, flowering).map(|seen| seen.seen());
    let known = sex_seen(registry, plant);
    let sex = match (known, own_sex) {
        (SexSeen::Unsexed, Some(own)) => own,
        _ => known,
    };
    Some(Spike {
        plant,
        ramet: flowering.ramet.map(str::to_owned),
        seen,
        window: Window { opens, closes },
        opened: opened.last != Day::LAST,
        sex,
        forecast,
    })
}
