//! Who grows, in words: the verdict first, then sizes, rates, curves, survival, germination, then every caution.

use super::answer::{GroupGrowth, GrowthReport};
use super::compare::{Comparison, Side, Verdict};
use super::group::GroupKind;
use super::unitless::Unitless;
use crate::report::sheet::{Report, Sheet};
use crate::report::words::{age, counted, listed};

/// An age in months without a needless decimal: `20`, `19.5`.
fn at_age(months: f64) -> String {
    let text = format!("{months:.1}");
    text.strip_suffix(".0").unwrap_or(&text).to_owned()
}

impl GrowthReport {
    /// A size with its unit: `1.2 cm`.
    pub(super) fn sized(&self, size: f64) -> String {
        format!("{size:.1} {}", self.unit).trim_end().to_owned()
    }

    /// The verdict on a pair in plain words.
    pub fn verdict(&self, pair: &Comparison) -> String {
        let (Some(months), Some((a, b)), Some(difference)) =
            (pair.age, &pair.sides, pair.difference)
        else {
            return match self.at {
                Some(at) => format!(
                    "{} and {} not comparable: not both have a size at {} months",
                    pair.of.0,
                    pair.of.1,
                    at_age(at)
                ),
                None => format!(
                    "{} and {} not comparable: {}",
                    pair.of.0,
                    pair.of.1,
                    self.why_no_age(pair)
                ),
            };
        };
        let (larger, smaller) = if difference < 0.0 { (a, b) } else { (b, a) };
        let by = format!(
            "by {} ({:.0} %)",
            self.sized(difference.abs()),
            pair.percent.unwrap_or(0.0)
        );
        let larger_by = format!(
            "{} larger than {} at {} months {by}",
            larger.id,
            smaller.id,
            at_age(months)
        );
        match pair.verdict {
            Verdict::Clearly => format!("{larger_by}, clearly"),
            Verdict::Probably => format!("{larger_by}, probably"),
            Verdict::NoClearDifference => format!(
                "no clear difference between {} and {} at {} months: {} larger {by}",
                a.id,
                b.id,
                at_age(months),
                larger.id
            ),
            _ if difference == 0.0 => format!(
                "{} and {} equal at {} months: {}",
                a.id,
                b.id,
                at_age(months),
                too_few(a, b)
            ),
            _ => format!("{larger_by}: {}", too_few(a, b)),
        }
    }

    /// Why two groups share no age: nothing was read of one, or their ages never meet.
    fn why_no_age(&self, pair: &Comparison) -> String {
        let of_pair = |group: &&GroupGrowth| group.id == pair.of.0 || group.id == pair.of.1;
        let unread =
            |group: &&GroupGrowth| group.sittings.is_empty() && group.left_out.total() == 0;
        let groups = self.groups.iter().filter(of_pair).filter(unread);
        let unread: Vec<&str> = groups.map(|group| group.id.as_str()).collect();
        if unread.is_empty() {
            "no common age".to_owned()
        } else {
            format!("no {} read of {}", self.of_trait, listed(&unread))
        }
    }

    fn first_line(&self) -> String {
        match &self.comparisons[..] {
            [pair] => self.verdict(pair),
            [] => self
                .groups
                .first()
                .map_or_else(|| "nothing to show".to_owned(), |group| self.alone(group)),
            many => counted(many.len(), "comparison", "comparisons"),
        }
    }

    /// One group by itself.
    fn alone(&self, group: &GroupGrowth) -> String {
        let plants = match group.kind {
            GroupKind::Plant => group.id.clone(),
            _ => format!(
                "{}: {} of {} measured",
                group.id,
                group.measured,
                counted(group.plants, "plant", "plants")
            ),
        };
        let Some(last) = group.sittings.last() else {
            return format!("{plants}: no comparable {}", self.of_trait);
        };
        let old = last
            .age
            .map_or(String::new(), |range| format!(" at {}", age(range)));
        let typical = if last.n > 1 { "median " } else { "" };
        let rate = match &group.rate {
            Some(rate) => format!(", growing {:.1} % a month", percent_a_month(rate.mean)),
            None => String::new(),
        };
        format!("{plants}; {typical}{}{old}{rate}", self.sized(last.median))
    }
}

/// What a rate of the logarithm means in percent a month.
pub(super) fn percent_a_month(rate: f64) -> f64 {
    100.0 * libm::expm1(rate)
}

fn too_few(a: &Side, b: &Side) -> String {
    if a.n < 2 || b.n < 2 {
        format!(
            "{} against {}, too few to say more",
            counted(a.n, "plant", "plants"),
            b.n
        )
    } else {
        "no spread to judge the difference by".to_owned()
    }
}

impl Report for GrowthReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.first_line());
        if self.comparisons.len() > 1 {
            let verdicts = self.comparisons.iter().map(|pair| self.verdict(pair));
            sheet.lines(Some("verdicts"), verdicts.collect());
        }
        if !self.comparisons.is_empty() {
            self.common_age_table(&mut sheet);
        }
        for pair in &self.comparisons {
            self.circumstance_table(pair, &mut sheet);
        }
        self.typed_table(&mut sheet);
        self.sitting_table(&mut sheet);
        if self.groups.len() == 1 {
            self.plant_table(&mut sheet);
        }
        self.rate_table(&mut sheet);
        self.curve_table(&mut sheet);
        self.survival_tables(&mut sheet);
        self.germination_table(&mut sheet);
        sheet.lines(
            Some("lengths without a unit"),
            self.unitless.iter().map(unitless_words).collect(),
        );
        self.cautions(&mut sheet);
        sheet
    }
}

/// What a bare number may mean, as a sentence.
pub fn unitless_words(bare: &Unitless) -> String {
    let mut told = Vec::new();
    for guess in bare
        .guesses
        .iter()
        .filter(|guess| guess.unit != "mm" || bare.probably == Some("mm"))
    {
        let size = match guess.unit {
            "cm" => String::new(),
            _ => format!(" {:.1} cm,", guess.cm),
        };
        told.push(match (guess.change, guess.rate, bare.months_since) {
            (Some(change), Some(rate), Some(since)) => format!(
                "as {}{size} {change:+.1} cm in {since:.1} months (rate {rate:.3} a month{})",
                guess.unit,
                times(rate, bare.expected_rate)
            ),
            _ => format!("as {} {:.1} cm", guess.unit, guess.cm),
        });
    }
    let expected = match (bare.expected_rate, bare.own_rate) {
        (Some(rate), true) => format!("; its own rate before: {rate:.3}"),
        (Some(rate), false) => format!("; its siblings' rate: {rate:.3}"),
        (None, _) => String::new(),
    };
    let verdict = match bare.probably {
        Some(unit) => format!(
            "probably {unit}: confirm by writing `{} {unit}`",
            bare.typed
        ),
        None => "no unit stands out: write the unit".to_owned(),
    };
    format!(
        "{} on {}: \"{}\" has no unit; {}{expected}; {verdict}. Until then left out of rankings and drawn hollow",
        bare.id,
        bare.on,
        bare.typed,
        told.join("; ")
    )
}

fn times(rate: f64, expected: Option<f64>) -> String {
    match expected {
        Some(expected) if expected > 0.0 && rate > 2.0 * expected => {
            format!(", {:.0} times what is expected", rate / expected)
        }
        _ => String::new(),
    }
}
