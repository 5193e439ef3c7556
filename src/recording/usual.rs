//! Whether what is recorded took as long as it usually does, by common practice: no source has such figures.

use super::parts::Part;
use super::slip::Slip;
use super::voice::Words;
use crate::analysis::due::practice;
use crate::record::When;
use crate::registry::{Registry, SowingRow};
use crate::wording::{at_date, days, span_of_days, time_passed};

/// Days after which a pod cannot be of a pollination: twice the longest usual time.
const A_YEAR: i32 = 365;

/// Two events of one part, and how many days usually pass between them.
pub struct Usual {
    /// The code of the zone, lot or sowing.
    pub code: String,
    /// What was done before, such as `pollinated`.
    pub before: &'static str,
    /// What is recorded, such as `harvested`.
    pub now: &'static str,
    /// The usual days, least and most; `i32::MAX` where it is never too late.
    pub days: (i32, i32),
}

impl Usual {
    /// What is done with seedlings of a sowing, which none is before it comes up, and when that was sown.
    pub fn since_sown(registry: &Registry, row: SowingRow, now: &'static str) -> (Usual, When) {
        let usual = Usual {
            code: row.code(registry),
            before: "sown",
            now,
            days: (practice::GERMINATION.0, i32::MAX),
        };
        let sown = registry[row].on.map(|day| registry.when(day));
        (usual, sown.unwrap_or(When::UNKNOWN))
    }

    /// What to say of days that are fewer or more than is usual; nothing where a date is open.
    pub fn remark(&self, from: When, to: When) -> Option<Words> {
        let (least, most) = from.days_until(to)?;
        let unusual = most < self.days.0 || least > self.days.1;
        unusual.then(|| {
            format!(
                "{} was {} {} after it was {}; {} are usual (common practice). Check both dates",
                self.code,
                self.now,
                passed((least, most)),
                self.before,
                self.usual()
            )
            .into()
        })
    }

    /// Refuses what is on the very day of what must come before it, or earlier.
    ///
    /// # Errors
    /// If both are surely on one day, or in the wrong order.
    pub fn not_at_once(&self, from: When, to: When, help: impl Into<Words>) -> Result<(), Slip> {
        match from.days_until(to) {
            Some((_, most)) if most < 0 => {
                Err(self.slip(&format!("later, {}", at_date(&days(from))), help))
            }
            Some((_, most)) if most < 1 => Err(self.slip("on that day", help)),
            _ => Ok(()),
        }
    }

    /// Refuses what comes more than a year later.
    ///
    /// # Errors
    /// If surely more than a year has passed.
    pub fn within_a_year(&self, from: When, to: When, help: impl Into<Words>) -> Result<(), Slip> {
        match from.days_until(to) {
            Some((least, most)) if least > A_YEAR => {
                Err(self.slip(&format!("{} before", passed((least, most))), help))
            }
            _ => Ok(()),
        }
    }

    fn usual(&self) -> String {
        match self.days {
            (least, i32::MAX) => format!("{least} days or more"),
            days => span_of_days(days),
        }
    }

    fn slip(&self, when: &str, help: impl Into<Words>) -> Slip {
        Slip::on_record(
            format!(
                "{} was not recorded as {}: it was {} {when}; {} usually pass (common practice)",
                self.code,
                self.now,
                self.before,
                self.usual()
            ),
            help,
        )
    }
}

/// Days in words, full years where there are many.
fn passed((least, most): (i32, i32)) -> String {
    match least {
        731.. => time_passed(least),
        _ => span_of_days((least.max(0), most)),
    }
}
