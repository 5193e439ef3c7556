//! Do the flowers of a female and the pollen of a male meet?
//!
//! Days count whole and both ends are included. Pollen may be kept for a stated number of days after the last day it
//! was taken; how long pollen lasts is the grower's to state, nothing is assumed here. Where a start or an end is only
//! known as a range, the answer tells what is possible and what is sure.

/// First and last possible day of something, `earliest <= latest`; days count from any fixed day.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Between {
    /// First possible day.
    pub earliest: i32,
    /// Last possible day.
    pub latest: i32,
}

/// Days on which flowers are open, or pollen is taken.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Window {
    /// The first day.
    pub opens: Between,
    /// The last day.
    pub closes: Between,
}

impl Window {
    /// What is left of it from a day on, which is not after its last: what may be over by then may not be open at all.
    pub fn left_on(self, day: i32) -> Window {
        let opens = Between {
            earliest: self.opens.earliest.max(day),
            latest: self.opens.latest.max(day),
        };
        Window { opens, ..self }
    }
}

/// Whether two windows meet.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Meeting {
    /// On no reading of the dates.
    Never,
    /// On some reading of the dates; the first and last day it could be.
    Perhaps(i32, i32),
    /// On every reading of the dates; the first and last day it could be.
    Surely(i32, i32),
}

impl Meeting {
    /// Either of two: sure if one of them is, on the days of both.
    pub fn or(self, other: Meeting) -> Meeting {
        let days = |of: Meeting| match of {
            Meeting::Never => None,
            Meeting::Perhaps(first, last) | Meeting::Surely(first, last) => Some((first, last)),
        };
        let (Some(one), Some(another)) = (days(self), days(other)) else {
            return if self.possible() { self } else { other };
        };
        let (first, last) = (one.0.min(another.0), one.1.max(another.1));
        let is_sure = |of: Meeting| matches!(of, Meeting::Surely(..));
        match is_sure(self) || is_sure(other) {
            true => Meeting::Surely(first, last),
            false => Meeting::Perhaps(first, last),
        }
    }

    /// Whether it can be planned at all.
    pub fn possible(self) -> bool {
        self != Meeting::Never
    }
}

/// Whether a female's flowers meet a male's pollen, kept for `keeps` days (0 for fresh only) after its last day.
pub fn meeting(female: Window, male: Window, keeps: u32) -> Meeting {
    let keeps = i32::try_from(keeps).unwrap_or(i32::MAX);
    let last_use = |day: i32| day.saturating_add(keeps);
    let (first, last) = (
        female.opens.earliest.max(male.opens.earliest),
        female.closes.latest.min(last_use(male.closes.latest)),
    );
    // What may be over before the first day looked at may not be there at all, however long the other lasts.
    let are_there = female.opens.earliest <= female.closes.earliest
        && male.opens.earliest <= last_use(male.closes.earliest);
    let surely = are_there
        && female.opens.latest <= last_use(male.closes.earliest)
        && male.opens.latest <= female.closes.earliest;
    if first > last {
        Meeting::Never
    } else if surely {
        Meeting::Surely(first, last)
    } else {
        Meeting::Perhaps(first, last)
    }
}
