//! What stands beside the verdict in the first lines: how fast the groups grew, what came up, who lives.
//!
//! Each figure with its number of plants, its interval and the ages it is of; a difference is named only where a test
//! finds one.

use crate::analysis::growth::{CameUp, GerminationCompared};
use crate::analysis::growth::{GroupKind, GrowthReport};
use crate::analysis::growth::{RateRow, SHORTEST};
use crate::statistics::Scale;
use crate::wording::{from_to, in_brackets, joined, joined_if_any, p_words, share_words};

/// An age in months without a needless decimal: `20`, `19.5`.
pub(crate) fn at_age(months: f64) -> String {
    let text = format!("{months:.1}");
    text.strip_suffix(".0").unwrap_or(&text).to_owned()
}

impl GrowthReport {
    /// How fast the groups grew between the ages they share; where they share none, each with its own ages.
    pub(crate) fn rates_line(&self) -> Option<String> {
        let Some(window) = &self.shared_rates else {
            return self.unshared_rates_line();
        };
        let rates = window.rates.iter().map(|rate| {
            let limits = self.rate_limits(rate.interval, rate.n);
            let allowed = self.rate_allowed("days", rate.mean_between);
            let beside = joined([limits].into_iter().chain(allowed), "; ");
            format!("{} {} ({beside})", rate.id, self.rate_figure(rate.mean))
        });
        let [from, to] = [window.from, window.to].map(at_age);
        let rates = joined(rates, ", ");
        Some(format!(
            "growing from {from} to {to} months, a month: {rates}"
        ))
    }

    /// `6.2 %` of a length, `0.25` of a count: growth a month.
    pub(crate) fn rate_figure(&self, rate: f64) -> String {
        match self.scale {
            Scale::Log => format!("{:.1} %", percent_a_month(rate)),
            Scale::Plain => format!("{rate:.2}"),
        }
        .replace('-', "−")
    }

    fn rate_limits(&self, interval: Option<(f64, f64)>, n: usize) -> String {
        let shown = |rate: f64| match self.scale {
            Scale::Log => format!("{:.1}", percent_a_month(rate)),
            Scale::Plain => format!("{rate:.2}"),
        };
        let limits = interval.map(|(low, high)| format!("{} to {}, ", shown(low), shown(high)));
        format!("{}n {n}", limits.unwrap_or_default().replace('-', "−"))
    }

    /// The least and the greatest mean rate that days which are not exact allow.
    fn rate_allowed(&self, days: &str, between: Option<(f64, f64)>) -> Option<String> {
        let (least, most) = between?;
        let [least, most] = [least, most].map(|of| self.rate_figure(of));
        Some(format!("{days} not exact: {least} to {most}"))
    }

    /// What a rate is of, after the word: lengths grow on the logarithm.
    pub(crate) fn of_what(&self) -> &'static str {
        match self.scale {
            Scale::Log => " of the logarithm",
            Scale::Plain => "",
        }
    }

    /// A group's mean rate with its limits, its plants and the ages it is of.
    pub(crate) fn own_rate(&self, rate: &RateRow, of: GroupKind) -> String {
        let ages = rate.between_ages.map_or_else(
            || "at ages not known".to_owned(),
            |ages| {
                let [from, to] =
                    ages.map(|(least, most)| from_to(at_age(least), at_age(most), "–"));
                format!("from {from} to {to} months")
            },
        );
        let limits = self.rate_limits(rate.interval, rate.n);
        let allowed = self.rate_allowed("days of reading", rate.mean_between);
        // That one plant is one goes without saying.
        let limits = Some(limits).filter(|_| of != GroupKind::Plant);
        let beside = in_brackets(joined_if_any(limits.into_iter().chain(allowed), "; "));
        format!("{} a month {ages}{beside}", self.rate_figure(rate.mean))
    }

    fn unshared_rates_line(&self) -> Option<String> {
        let rates = self.groups.iter().filter_map(|group| {
            let rate = group.rate.as_ref()?;
            Some(format!("{} {}", group.id, self.own_rate(rate, group.kind)))
        });
        let told: Vec<String> = rates.collect();
        match told.len() {
            0 => None,
            1 => Some(format!("growing: {}", told[0])),
            _ => Some(format!(
                "growth rates not comparable, since the groups share no two ages {} months apart: {}",
                at_age(SHORTEST),
                told.join("; ")
            )),
        }
    }

    /// What came up by one day after sowing, group against group, on one line.
    pub(crate) fn germination_line(&self) -> Option<String> {
        let compared = self.germination_compared.as_ref()?;
        let group = |of: &CameUp| {
            let counted = of.last_counted.filter(|_| compared.day.is_none());
            let counted = counted.map(last_counted_words).unwrap_or_default();
            format!("{} {}{counted}", of.id, came_up_words(of))
        };
        let groups = joined(compared.groups.iter().map(group), "; ");
        let Some(day) = compared.day else {
            return Some(format!(
                "came up by the last counts: {groups}; not comparable: no day after sowing, known to a month, at which the counts of all decide"
            ));
        };
        let tested = match compared.p {
            None => "not tested: all or none came up".to_owned(),
            Some(p) => format!(
                "{} (Fisher's exact test, {})",
                found_words(p),
                compared.p_words(p)
            ),
        };
        Some(format!(
            "came up by day {day:.0} after sowing: {groups}; {tested}"
        ))
    }
}

/// The days of the last counts of a group: ` by day 92`, ` by days 60 to 92`.
fn last_counted_words((first, last): (f64, f64)) -> String {
    match [first, last].map(|day| format!("{day:.0}")) {
        [first, last] if first == last => format!(" by day {last}"),
        [first, last] => format!(" by days {first} to {last}"),
    }
}

/// What a test of a difference says, no more.
pub(super) fn difference_words(p: f64, test: &str) -> String {
    format!("{} ({test}, {})", found_words(p), p_words(p))
}

fn found_words(p: f64) -> &'static str {
    match p < 0.05 {
        true => "they differ",
        false => "no clear difference",
    }
}

/// What came up of a group: `12 of 60, 20 % (12–32 %)`, of a range `12 to 20 of 60, 20–33 %`.
fn came_up_words(of: &CameUp) -> String {
    match of.up == of.up_at_most {
        true => format!(
            "{} of {}, {}",
            of.up,
            of.sown,
            share_words(of.up, of.sown, of.between)
        ),
        false => format!(
            "{} to {} of {}, {} %",
            of.up,
            of.up_at_most,
            of.sown,
            of.percent_words()
        ),
    }
}

impl CameUp {
    /// Percent up, of a range from the least to the most: `20`, `20–33`.
    pub(crate) fn percent_words(&self) -> String {
        let percent = |up: u64| format!("{:.0}", 100.0 * up as f64 / self.sown as f64);
        match (percent(self.up), percent(self.up_at_most)) {
            (least, most) if least == most => least,
            (least, most) => format!("{least}–{most}"),
        }
    }
}

impl GerminationCompared {
    /// The chance of shares so unlike; of ranges that of the counts that decide least.
    pub(crate) fn p_words(&self, p: f64) -> String {
        let words = p_words(p);
        match (self.is_of_ranges(), self.differ()) {
            (false, _) => words,
            (true, true) => words.replace("p = ", "p at most "),
            (true, false) => words.replace("p = ", "p at least "),
        }
    }
}

/// What a rate of the logarithm means in percent a month.
pub(crate) fn percent_a_month(rate: f64) -> f64 {
    100.0 * libm::expm1(rate)
}
