//! Sexes, flowers and pollen in words, and what to keep in mind before pollinating.

use crate::analysis::ready::{Caution, OptionMeets, SpikeState};
use crate::observation::flowers::{Forecast, PastDays, PastSpikes};
use crate::observation::sex::SexSeen;
use crate::observation::spike_days::LAST_AT_MOST;
use crate::planning::windows::Between;
use crate::record::{Day, SeenBy, Sex};
use crate::report::as_text::{in_words, serialize_as_text};
use crate::report::caution::{Weighed, Weight};
use crate::wording::{counted, listed, span_of_days};
use std::fmt::{Display, Formatter, Result};

serialize_as_text!(Between, Caution, Forecast, OptionMeets, SexSeen, SpikeState);

impl Display for Sex {
    fn fmt(&self, out: &mut Formatter) -> Result {
        out.write_str(self.word())
    }
}

/// `female`, `male by buds only`, `unsexed`.
impl Display for SexSeen {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match self {
            SexSeen::Unsexed => out.write_str("unsexed"),
            SexSeen::Certain(sex) => sex.fmt(out),
            SexSeen::Guess(sex, SeenBy::Buds) => write!(out, "{sex} by buds only"),
            SexSeen::Guess(sex, SeenBy::LeafTest) => write!(out, "{sex} by leaf test only"),
            SexSeen::Guess(sex, SeenBy::Unsaid) => write!(out, "{sex}, not recorded how seen"),
            SexSeen::Guess(sex, _) => write!(out, "{sex}, claimed by the supplier"),
            SexSeen::MixedUp => out.write_str("female or male: mixed up"),
            SexSeen::Contradicted => out.write_str("both sexes on record"),
        }
    }
}

/// One day, or first to last.
impl Display for Between {
    fn fmt(&self, out: &mut Formatter) -> Result {
        let [earliest, latest] = [self.earliest, self.latest].map(Day);
        match earliest == latest {
            true => earliest.fmt(out),
            false => write!(out, "{earliest} to {latest}"),
        }
    }
}

impl Display for PastDays {
    fn fmt(&self, out: &mut Formatter) -> Result {
        let spikes = |n| counted(n, "past spike", "past spikes");
        match self.of {
            PastSpikes::OfPlant(n) => write!(out, "{} of this plant", spikes(n)),
            PastSpikes::OfAll(n) => write!(out, "{} of all plants here", spikes(n)),
            PastSpikes::Practice(0) => out.write_str("common practice, no spike of yours to go by"),
            PastSpikes::Practice(n) => {
                write!(out, "common practice and {} of yours", spikes(n))
            }
        }
    }
}

impl Display for Forecast {
    fn fmt(&self, out: &mut Formatter) -> Result {
        if let Some(past) = self.to_open {
            let days = span_of_days(past.days);
            write!(out, "{days} from spike to first flower ({past})")?;
        }
        if self.to_open.and(self.lasting).is_some() {
            out.write_str("; ")?;
        }
        if let Some(past) = self.lasting {
            write!(out, "flowers for {} ({past})", span_of_days(past.days))?;
        }
        match self.outlived {
            true => write!(
                out,
                "; not on record as over, and flowers may last {LAST_AT_MOST} days (common practice)"
            ),
            false => Ok(()),
        }
    }
}

in_words!(SpikeState {
    SpikeState::Open => "open",
    SpikeState::ShouldBeOpen => "should be open",
    SpikeState::MayBeOpen => "may be open",
    SpikeState::Expected => "expected",
    SpikeState::MayBeOver => "may be over",
});

impl Display for OptionMeets {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match self {
            OptionMeets::Fresh(meeting) => meeting.fmt(out),
            OptionMeets::StoredFrom(day) => {
                write!(out, "from {day} on, if the pollen is still alive")
            }
        }
    }
}

impl Weighed for Caution {
    fn weight(&self) -> Weight {
        match self {
            Caution::SexUnknown => Weight::Doubt,
            Caution::OnlyEnvelope(_) | Caution::FewFlowers => Weight::Answer,
            Caution::NoPromise | Caution::OnePollenToAZone | Caution::KinshipIsAMinimum => {
                Weight::General
            }
        }
    }

    fn table(&self) -> Option<&'static str> {
        matches!(self, Caution::NoPromise | Caution::FewFlowers).then_some(SET_SO_FAR)
    }
}

/// Heading of the rates at which flowers set.
pub(super) const SET_SO_FAR: &str = "Set so far, pooled";

impl Display for Caution {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match self {
            Caution::NoPromise => out.write_str(
                "flowers may fail to set: a rate shown here is your own so far, from few flowers",
            ),
            Caution::OnePollenToAZone => out.write_str(
                "one pollen to a zone, the lowest zone first, a clean brush for each; a mixture has no single father",
            ),
            Caution::OnlyEnvelope(plants) => write!(
                out,
                "only one envelope{} of {}: keep half back",
                if plants.len() == 1 { "" } else { " each" },
                listed(plants)
            ),
            Caution::SexUnknown => out.write_str(
                "a spike of unknown sex is listed with the females; it may turn out male",
            ),
            Caution::FewFlowers => {
                out.write_str("set rates from fewer than 20 flowers are only a hint")
            }
            Caution::KinshipIsAMinimum => out.write_str(
                "inbreeding is a minimum if the recorded parents are right: founders are assumed unrelated unless a batch is recorded",
            ),
        }
    }
}
