//! Tasks, ranges and reasons in words.

use crate::analysis::due::{Basis, By, Caution, DayRange, DueRow, SeedSince, Task, Urgency};
use crate::analysis::ready::SpikeState;
use crate::observation::flowers::which_spike;
use crate::observation::parent_of::ParentOf;
use crate::observation::sex::SexSeen;
use crate::planning::windows::Between;
use crate::record::{Day, Sex};
use crate::report::as_text::serialize_as_text;
use crate::wording::{age, counted, first_of, joined, led_by, listed, span_of_days};
use std::fmt::{Display, Formatter, Result};

serialize_as_text!(Caution);

/// Names listed before the rest is counted.
const LISTED: usize = 3;

impl Task {
    /// What is to be done, in two or three words.
    fn what(&self) -> &'static str {
        match self {
            Task::DustAgain { .. } => "dust again",
            Task::Harvest { .. } => "harvest pods",
            Task::Spike {
                state: SpikeState::Open,
                sex,
                ..
            } => match is_male(sex) {
                true => "collect pollen",
                false => "pollinate",
            },
            Task::Spike { .. } => "watch the spike",
            Task::CountSet { .. } => "count what took",
            Task::UsePollen { .. } => "use the pollen",
            Task::Sow { .. } => "sow the seed",
            Task::SeedLeft { .. } => "see what seed is left",
            Task::CountSeedlings { .. } => "count seedlings",
            Task::PrickOut { .. } => "prick out",
            Task::TakeSitting { .. } => "take readings",
            Task::CheckCutting => "check the cutting",
            Task::TakeCutting { .. } => "take a cutting",
        }
    }

    /// What is on record of it; empty where the code says all.
    pub(super) fn detail(&self) -> String {
        match self {
            Task::DustAgain { until } => format!("flowers open until {until}"),
            Task::Harvest {
                set,
                still_on,
                flowers,
                unless,
                ended,
            } => {
                let pods = match (still_on, set) {
                    (Some(left), Some(set)) => format!("{left} of {set} pods not harvested"),
                    _ => harvest_words(*set, *flowers),
                };
                let unless =
                    (!unless.is_empty()).then(|| format!("unless {} was of it", listed(unless)));
                let ended = ended.as_ref().map(|what| format!("the plant: {what}"));
                let parts = [Some(pods), ended, unless];
                parts.into_iter().flatten().collect::<Vec<_>>().join("; ")
            }
            Task::Spike { state, sex, pollen } => spike_words(*state, sex, pollen),
            Task::CountSet { flowers } => match flowers {
                Some(flowers) => counted(*flowers as usize, "flower dusted", "flowers dusted"),
                None => "flowers not counted".to_owned(),
            },
            Task::UsePollen { of, place } => format!("pollen of {of}, {place}"),
            Task::Sow {
                seeds,
                estimated,
                stored,
                months,
                age_from,
            } => {
                let seeds = seeds_words(*seeds, *estimated, "left");
                let parts = [
                    seeds,
                    months.map(|months| seed_age(months, *age_from)),
                    stored.clone(),
                ];
                joined(parts.into_iter().flatten(), ", ")
            }
            Task::SeedLeft {
                left,
                at_most,
                took,
                seeds,
                estimated,
                stored,
                months,
                age_from,
            } => {
                let left = match left {
                    Some(left) => format!("left: {left}"),
                    None => took_unknown(*at_most, took),
                };
                let seeds = seeds_words(*seeds, *estimated, "at first");
                let parts = [
                    Some(left),
                    seeds,
                    months.map(|months| seed_age(months, *age_from)),
                    stored.clone(),
                ];
                joined(parts.into_iter().flatten(), ", ")
            }
            Task::CountSeedlings { up, sown } => match (up, sown) {
                (Some(up), Some(sown)) => format!("{up} of {sown} up at the last count"),
                (Some(up), None) => format!("{up} up at the last count"),
                (None, Some(sown)) => {
                    let seeds = counted(*sown as usize, "seed", "seeds");
                    format!("{seeds} sown, not counted yet")
                }
                (None, None) => "not counted yet".to_owned(),
            },
            Task::PrickOut { seedlings, is_rest } => {
                let left = if *is_rest { " left in the sowing" } else { "" };
                match *seedlings {
                    Some((least, most)) if least == 0 || least == most => {
                        let up_to = if least == 0 { "up to " } else { "" };
                        let most = counted(most as usize, "seedling", "seedlings");
                        format!("{up_to}{most}{left}")
                    }
                    Some((least, most)) => format!("{least}–{most} seedlings{left}"),
                    None => "seedlings not counted".to_owned(),
                }
            }
            Task::TakeSitting {
                months,
                plants,
                beside,
            } => {
                let plants = counted(*plants, "plant", "plants");
                let beside = Some(few(beside)).filter(|beside| !beside.is_empty());
                let beside = led_by(", to compare with ", beside);
                format!("{plants}, age {months:.1} months{beside}")
            }
            Task::CheckCutting => "not recorded as rooted".to_owned(),
            Task::TakeCutting {
                crosses,
                perhaps,
                kept,
            } => {
                let of = ParentOf {
                    sure: *crosses,
                    perhaps: *perhaps,
                };
                match (of.words("parent"), kept) {
                    (Some(parent), _) => format!("one piece on record, {parent}"),
                    (None, true) => "one piece on record, marked to keep".to_owned(),
                    (None, false) => "one piece on record".to_owned(),
                }
            }
        }
    }
}

fn is_male(sex: &SexSeen) -> bool {
    matches!(
        sex,
        SexSeen::Certain(Sex::Male) | SexSeen::Guess(Sex::Male, _)
    )
}

/// `about 180 seeds left`.
fn seeds_words(seeds: Option<u32>, estimated: bool, when: &str) -> Option<String> {
    let about = if estimated { "about " } else { "" };
    let seeds = seeds.map(|seeds| counted(seeds as usize, "seed", "seeds"));
    seeds.map(|seeds| format!("{about}{seeds} {when}"))
}

fn seed_age(months: (f64, f64), since: SeedSince) -> String {
    match since {
        SeedSince::Harvest => format!("{} old", age(months)),
        SeedSince::Arrival => format!("came {} ago", age(months)),
    }
}

/// `at most 100 left: how many X25-01.S1 took is not on record`.
fn took_unknown(at_most: Option<u32>, took: &[String]) -> String {
    let most = at_most.map_or(String::new(), |most| format!("at most {most} left: "));
    format!("{most}how many {} took is not on record", listed(took))
}

fn harvest_words(set: Option<u32>, flowers: Option<u32>) -> String {
    let of = |flowers: u32| counted(flowers as usize, "flower", "flowers");
    match (set, flowers) {
        (Some(set), Some(flowers)) => format!("{set} of {} took", of(flowers)),
        (Some(set), None) => format!("{} took", of(set)),
        (None, Some(flowers)) => format!("{}, set not counted", of(flowers)),
        (None, None) => "set not counted".to_owned(),
    }
}

fn spike_words(state: SpikeState, sex: &SexSeen, pollen: &[String]) -> String {
    let plant = match state {
        SpikeState::Open => format!("{sex}, open"),
        state => format!("{sex}, {state}"),
    };
    match (is_male(sex), pollen.is_empty()) {
        (true, _) => plant,
        (false, true) => format!("{plant}; no pollen in hand"),
        (false, false) => format!("{plant}; pollen: {}", few(pollen)),
    }
}

/// A few names, and how many more there are.
fn few(names: &[String]) -> String {
    // One more takes no more room than to count it.
    let shown = if names.len() == LISTED + 1 {
        names.len()
    } else {
        LISTED
    };
    first_of(names, shown)
}

impl Urgency {
    /// One word.
    pub(super) fn word(self) -> &'static str {
        match self {
            Urgency::Overdue => "overdue",
            Urgency::Now => "now",
            Urgency::Soon => "soon",
            Urgency::LongOverdue => "long overdue",
            Urgency::NoDate => "no date",
        }
    }

    /// A heading for tasks of an urgency.
    pub(super) fn heading(self) -> &'static str {
        match self {
            Urgency::Overdue => "Overdue",
            Urgency::Now => "Now",
            Urgency::Soon => "Soon",
            Urgency::LongOverdue => "Long overdue",
            Urgency::NoDate => "Without a date",
        }
    }
}

impl DueRow {
    /// What is to be done, in two or three words. Pollen past its time is not for use without a look.
    pub(super) fn what(&self) -> &'static str {
        match (&self.task, self.urgency) {
            (Task::UsePollen { .. }, Urgency::LongOverdue | Urgency::NoDate) => "check the pollen",
            (task, _) => task.what(),
        }
    }

    /// The code of the record, and which of its spikes.
    pub(super) fn told(&self) -> String {
        which_spike(&self.code, self.spike.as_deref())
    }

    /// What is on record, and why then.
    pub(super) fn said(&self, between: &str) -> String {
        let parts = [self.task.detail(), self.why()];
        let said = parts.into_iter().filter(|part| !part.is_empty());
        joined(said, between)
    }

    /// Every day it may be due.
    pub(super) fn days(&self) -> String {
        let days = self.window.map(|window| window.to_string());
        days.unwrap_or_else(|| "no date".to_owned())
    }

    /// Whose range of days it is, in one or two words.
    pub(super) fn whose(&self) -> String {
        match &self.basis {
            Basis::Days(range) => match range.by {
                By::OwnRecords => format!("{} of yours", range.own),
                By::Registry => "registry.ron".to_owned(),
                By::Goals => "goals.ron".to_owned(),
                By::Practice => "practice".to_owned(),
            },
            Basis::Spike(_) => "forecast".to_owned(),
            Basis::ReadBefore => "read before".to_owned(),
            Basis::UsualAge => "usual age".to_owned(),
            Basis::Record => "record".to_owned(),
        }
    }

    /// When, as a person says it.
    pub(super) fn when(&self) -> String {
        let Some(Between { earliest, latest }) = self.window else {
            return "no date".to_owned();
        };
        let [earliest, latest] = [earliest, latest].map(Day);
        match self.urgency {
            // On the last of its days it was still in time.
            Urgency::Overdue | Urgency::LongOverdue | Urgency::NoDate => {
                format!("since {}", Day(latest.0.saturating_add(1)))
            }
            Urgency::Now if self.in_days.is_some_and(|(_, last)| last == 0) => "today".to_owned(),
            Urgency::Now => format!("by {latest}"),
            Urgency::Soon if earliest == latest => format!("on {earliest}"),
            Urgency::Soon => format!("{earliest} to {latest}"),
        }
    }

    /// Why then: the recorded day, and the range counted from it.
    pub(super) fn why(&self) -> String {
        let since = self.since.as_ref();
        match (&self.basis, since) {
            (Basis::Days(range), Some(since)) => format!("{} {since}; {range}", self.started()),
            (Basis::Days(range), None) => range.to_string(),
            (Basis::Spike(forecast), Some(since)) => format!("spike seen {since}; {forecast}"),
            (Basis::Spike(forecast), None) => forecast.to_string(),
            (Basis::ReadBefore, Some(since)) => {
                format!("sown {since}; others were read at that age")
            }
            (Basis::UsualAge, Some(since)) => format!("sown {since}; an age to read siblings at"),
            (Basis::ReadBefore | Basis::UsualAge, None) => String::new(),
            (Basis::Record, Some(since)) => format!("{} {since}", self.started()),
            (Basis::Record, None) => String::new(),
        }
    }

    /// What happened on the day a task is counted from.
    fn started(&self) -> &'static str {
        match self.task {
            Task::DustAgain { .. } | Task::CountSet { .. } => "last dusted",
            Task::Harvest { .. } => "pollinated",
            Task::Spike { .. } => "spike seen",
            Task::UsePollen { .. } => "collected",
            Task::Sow { age_from, .. } | Task::SeedLeft { age_from, .. } => match age_from {
                SeedSince::Harvest => "harvested",
                SeedSince::Arrival => "came",
            },
            Task::CountSeedlings { up: Some(_), .. } => "last counted",
            Task::PrickOut { is_rest: true, .. } => "others taken out",
            Task::CountSeedlings { .. } | Task::PrickOut { .. } | Task::TakeSitting { .. } => {
                "sown"
            }
            Task::CheckCutting | Task::TakeCutting { .. } => "cut",
        }
    }
}

/// `60–180 days later (common practice)`.
impl Display for DayRange {
    fn fmt(&self, out: &mut Formatter) -> Result {
        let days = span_of_days(self.days);
        let own = counted(self.own, "record", "records");
        match (self.by, self.own) {
            (By::OwnRecords, _) => write!(out, "{days} in {own} of yours"),
            (By::Registry, 0) => write!(out, "{days} by registry.ron"),
            (By::Registry, _) => write!(out, "{days} by registry.ron and {own} of yours"),
            (By::Goals, _) => write!(out, "{days} by goals.ron"),
            (By::Practice, 0) => write!(out, "{days} by common practice"),
            (By::Practice, _) => write!(out, "{days} by common practice and {own} of yours"),
        }
    }
}

impl Display for Caution {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match self {
            Caution::NoPromise => out.write_str(
                "dates are ranges worked out from records: look at the plant before you act",
            ),
            Caution::Practice => out.write_str(
                "ranges by common practice have no source; write your own under `intervals` in registry.ron",
            ),
            Caution::Overdue => out.write_str(
                "something overdue may have been done and not recorded: record it, or what became of it",
            ),
            Caution::PotSteps => out.write_str(
                "pot sizes by age are common practice; write your own under `pot_steps` in registry.ron",
            ),
            Caution::TooWide(pots) => {
                let pots = counted(*pots as usize, "pot is", "pots are");
                write!(out, "{pots} too wide for every shelf")
            }
            Caution::Unplaced(pots) => {
                let (one, many) = ("pot of unknown width takes", "pots of unknown width take");
                let pots = counted(*pots as usize, one, many);
                write!(out, "{pots} room that is not counted")
            }
            Caution::NoShelves => out.write_str(
                "no shelf is recorded: list them under `shelves` in registry.ron to see when they fill",
            ),
            Caution::NotEntered(codes) => write!(
                out,
                "{}: pods were ripe more than a year ago and no harvest is on record; record the harvest with its day, and with 0 seeds if the pods were lost",
                few(codes)
            ),
            Caution::ZoneNotEntered(codes) => write!(
                out,
                "{}: pods were ripe more than a year ago, and a pod on record without its zone may be theirs; record a harvest with its day and 0 seeds for the zone whose pods were lost, or write `zone` on that pod in the file of its cross (no command or form writes it)",
                few(codes)
            ),
        }
    }
}
