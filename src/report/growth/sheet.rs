//! Who grows, in words: the verdict first, then sizes, rates, curves, survival, germination, then every caution.

use super::beside::at_age;
use crate::analysis::growth::{
    Alone, Comparison, GroupGrowth, GroupKind, GrowthReport, Side, Unitless, Verdict,
};
use crate::observation::trait_unit::INCH_DECIMALS;
use crate::record::LengthUnit;
use crate::report::sheet::{Report, Sheet};
use crate::wording::{age, counted, from_to, in_brackets, led_by, listed, p_words};

impl GrowthReport {
    /// A size with its unit: `1.2 cm`.
    pub(crate) fn sized(&self, size: f64) -> String {
        let decimals = usize::from(self.decimals());
        format!("{size:.decimals$} {}", self.unit)
            .trim_end()
            .to_owned()
    }

    /// Decimals of a size.
    pub(crate) fn decimals(&self) -> u8 {
        match self.unit {
            "in" => INCH_DECIMALS,
            _ => 1,
        }
    }

    /// The verdict on a pair in plain words.
    pub fn verdict(&self, pair: &Comparison) -> String {
        let (Some(months), Some((a, b)), Some(difference)) =
            (pair.age, &pair.sides, pair.difference)
        else {
            let why = match self.at.map(at_age) {
                Some(at) => format!("they do not both have a size at {at} months"),
                None => self.why_no_age(pair),
            };
            return format!("{} and {} are not comparable: {why}", pair.of.0, pair.of.1);
        };
        let (larger, smaller) = if difference < 0.0 { (a, b) } else { (b, a) };
        let percent = in_brackets(pair.percent.map(|percent| format!("{percent:.0} %")));
        let by = format!("by {}{percent}", self.sized(difference.abs()));
        let (months, of) = (at_age(months), format!("{} and {}", a.id, b.id));
        let larger_by = |how: &str| {
            let (larger, smaller) = (&larger.id, &smaller.id);
            format!("{larger} is {how}larger than {smaller} at {months} months, {by}")
        };
        match pair.verdict {
            Verdict::Clearly => larger_by("clearly "),
            Verdict::Probably => larger_by("probably "),
            Verdict::NoClearDifference => {
                let [first, second] = [a, b].map(|side| self.sized(side.mean));
                format!(
                    "No clear difference between {of} at {months} months: means {first} and {second}{}",
                    self.unclear_words(pair)
                )
            }
            _ if difference == 0.0 => {
                format!("{of} are equal at {months} months: {}", too_few(a, b))
            }
            _ => format!("{}: {}", larger_by(""), too_few(a, b)),
        }
    }

    /// How large a difference that is not clear may be; of one that only the other comparisons make unclear, how likely it is.
    fn unclear_words(&self, pair: &Comparison) -> String {
        let (Some((low, high)), p) = (pair.interval, pair.p) else {
            return String::new();
        };
        match p {
            Some(p) if pair.leaves_zero_out() => format!(
                "; {} after allowing for {} comparisons",
                p_words(p),
                self.tested()
            ),
            _ => {
                let [low, high] = [low, high].map(|of| self.sized(of).replace('-', "−"));
                format!("; the difference may be anything from {low} to {high} (95 %)")
            }
        }
    }

    /// How many pairs were tested for a difference.
    pub(super) fn tested(&self) -> usize {
        self.comparisons.iter().filter(|of| of.p.is_some()).count()
    }

    /// Why two groups share no age: nothing was read of one, or their ages never meet.
    fn why_no_age(&self, pair: &Comparison) -> String {
        let of_pair = |group: &&GroupGrowth| group.id == pair.of.0 || group.id == pair.of.1;
        let unread =
            |group: &&GroupGrowth| group.sittings.is_empty() && group.left_out.total() == 0;
        let groups = self.groups.iter().filter(of_pair).filter(unread);
        let unread: Vec<&str> = groups.map(|group| group.id.as_str()).collect();
        if unread.is_empty() {
            "they share no age".to_owned()
        } else {
            format!("no {} was read of {}", self.of_trait, listed(&unread))
        }
    }

    fn first_line(&self) -> String {
        match &self.comparisons[..] {
            [pair] => self.verdict(pair),
            [] if self.alone_at.is_some() => {
                self.alone_at.iter().map(|of| self.at_one_age(of)).collect()
            }
            [] => self
                .groups
                .first()
                .map_or_else(|| "Nothing to show".to_owned(), |group| self.alone(group)),
            many => format!("{}: {}", self.who_is_compared(many), found(many)),
        }
    }

    /// The groups, and which of them are compared with which.
    fn who_is_compared(&self, pairs: &[Comparison]) -> String {
        let ids: Vec<&str> = self.groups.iter().map(|of| of.id.as_str()).collect();
        match self.with_the_first(pairs) {
            true => format!("{} compared with each of {}", ids[0], listed(&ids[1..])),
            false => format!("{} compared two by two", listed(ids)),
        }
    }

    /// Whether the groups were too many to compare all of them, so that each is compared with the first alone.
    fn with_the_first(&self, pairs: &[Comparison]) -> bool {
        let n = self.groups.len();
        pairs.len() < n * (n - 1) / 2
    }

    /// One group at the age asked for.
    fn at_one_age(&self, of: &Alone) -> String {
        let sizes = &of.sizes;
        let interpolated = Some(sizes.interpolated).filter(|n| *n > 0);
        let interpolated = in_brackets(interpolated.map(|n| format!("{n} interpolated")));
        let [median, mean] = [sizes.median, sizes.mean].map(|of| self.sized(of));
        let told = match sizes.n {
            1 => mean,
            _ => format!("median {median}, mean {mean}"),
        };
        let (low, high) = sizes.mean_between;
        let vague = (high - low > 0.05).then(|| {
            let [low, high] = [low, high].map(|of| self.sized(of));
            format!("; dates are vague, so the mean may be anything from {low} to {high}")
        });
        let sd = led_by(", SD ", sizes.sd.map(|sd| self.sized(sd)));
        format!(
            "{} at {} months: n {} of {}{interpolated}, {told}{sd}{}",
            sizes.id,
            at_age(of.at),
            sizes.n,
            counted(sizes.plants, "plant", "plants"),
            vague.unwrap_or_default()
        )
    }

    /// One group by itself.
    fn alone(&self, group: &GroupGrowth) -> String {
        let (id, of_trait) = (&group.id, &self.of_trait);
        let is_plant = group.kind == GroupKind::Plant;
        let plants = counted(group.plants, "plant", "plants");
        let Some(last) = group.sittings.last() else {
            let plants = in_brackets(Some(plants).filter(|_| !is_plant));
            let why = match group.left_out.total() {
                0 => "is on record",
                _ => "on record can be compared",
            };
            return format!("No {of_trait} of {id}{plants} {why}");
        };
        let old = led_by(" at ", last.age.map(age));
        let typical = if last.n > 1 { "median " } else { "" };
        let n = Some(last.n).filter(|n| *n != group.measured);
        let of_some = in_brackets(n.map(|n| format!("n {n}")));
        let rate = group.rate.as_ref();
        let rate = led_by(
            ", growing ",
            rate.map(|rate| self.own_rate(rate, group.kind)),
        );
        let (size, measured) = (self.sized(last.median), group.measured);
        match is_plant {
            true => format!("{id}: {of_trait} {size}{old}{rate}"),
            false => format!(
                "{id}: {measured} of {plants} measured; {of_trait}, {typical}{size}{old}{of_some}{rate}"
            ),
        }
    }
}

/// How many of several pairs differ, how surely, and how many could not be compared at all.
fn found(pairs: &[Comparison]) -> String {
    let n_of = |verdict| pairs.iter().filter(|pair| pair.verdict == verdict).count();
    let [clearly, probably, apart] =
        [Verdict::Clearly, Verdict::Probably, Verdict::NoCommonAge].map(n_of);
    let of_all = counted(pairs.len(), "pair", "pairs");
    let differ = |n: usize, how: &str| match n {
        1 => format!("1 of {of_all} {how} differs"),
        n => format!("{n} of {of_all} {how} differ"),
    };
    let found = match (clearly, probably) {
        (0, 0) if apart == pairs.len() => return format!("none of {of_all} can be compared"),
        (0, 0) if apart == 0 => format!("none of {of_all} shows a clear difference"),
        (0, 0) => {
            let compared = counted(pairs.len() - apart, "pair", "pairs");
            format!("no clear difference in {compared}")
        }
        (0, n) => differ(n, "probably"),
        (n, 0) => differ(n, "clearly"),
        (n, m) => format!("{}, {m} probably", differ(n, "clearly")),
    };
    match apart {
        0 => found,
        n => format!("{found}; {n} of {of_all} cannot be compared"),
    }
}

fn too_few(a: &Side, b: &Side) -> String {
    match a.n < 2 || b.n < 2 {
        true => {
            let plants = counted(a.n, "plant", "plants");
            format!("{plants} against {}, too few to say more", b.n)
        }
        false => "no spread to judge the difference by".to_owned(),
    }
}

impl Report for GrowthReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.first_line());
        if self.comparisons.len() > 1 {
            let verdicts = self.comparisons.iter().map(|pair| self.verdict(pair));
            let heading = match self.with_the_first(&self.comparisons) {
                true => "each with the first",
                false => "two by two",
            };
            sheet.lines(Some(heading), verdicts);
        }
        if !self.comparisons.is_empty() {
            let beside = [
                self.rates_line(),
                self.germination_line(),
                self.survival_line(),
            ];
            self.common_age_table(&mut sheet);
            sheet.lines(None, beside.into_iter().flatten());
            self.other_ages_table(&mut sheet);
        }
        let alone = self.alone_at.iter();
        sheet.lines(None, alone.flat_map(not_placed));
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
            self.unitless.iter().map(unitless_words),
        );
        self.cautions(&mut sheet);
        sheet
    }
}

/// Who could not be placed at an age, one line for each reason.
fn not_placed(alone: &Alone) -> Vec<String> {
    let told = alone.not_placed.iter();
    told.map(|of| format!("not placed, {}: {}", of.why, listed(&of.plants)))
        .collect()
}

/// What a bare number may mean, as a sentence.
pub fn unitless_words(bare: &Unitless) -> String {
    let mut told = Vec::new();
    for guess in bare
        .guesses
        .iter()
        .filter(|guess| guess.unit != LengthUnit::Mm || bare.probably == Some(LengthUnit::Mm))
    {
        let size = match guess.unit {
            LengthUnit::Cm => String::new(),
            _ => format!(" {:.1} cm,", guess.cm),
        };
        told.push(match (guess.change, guess.rate, bare.months_since) {
            (Some(change), Some(rate), Some(since)) => format!(
                "as {}{size} {change:+.1} cm in {} (rate {} a month{})",
                word(guess.unit),
                age(since),
                rate_words(rate),
                times(rate, bare.expected_rate)
            ),
            (Some(change), None, Some((_, 0.0))) => format!(
                "as {}{size} {change:+.1} cm from the other reading of that day",
                word(guess.unit)
            ),
            _ => format!("as {} {:.1} cm", word(guess.unit), guess.cm),
        });
    }
    let expected = bare.expected_rate.map(|rate| match bare.own_rate {
        true => format!("; its own rate before: {}", rate_words(rate)),
        false => format!("; mean rate of the other plants: {}", rate_words(rate)),
    });
    let expected = expected.unwrap_or_default();
    let verdict = match bare.probably {
        Some(unit) => format!(
            "probably {unit}: confirm by writing `{} {unit}`",
            bare.typed
        ),
        None => "no unit is clearly more likely: write the unit".to_owned(),
    };
    format!(
        "{} on {}: \"{}\" has no unit; {}{expected}; {verdict}. Until then left out of rankings",
        bare.id,
        bare.on,
        bare.typed,
        told.join("; ")
    )
}

/// A unit where the next word is a number: "as in 22.9 cm" reads as something else.
fn word(unit: LengthUnit) -> String {
    match unit {
        LengthUnit::In => "inches".to_owned(),
        unit => unit.to_string(),
    }
}

/// `0.053`, `0.036 to 0.170`: least and greatest rate.
fn rate_words((least, most): (f64, f64)) -> String {
    from_to(format!("{least:.3}"), format!("{most:.3}"), " to ")
}

/// How many times the expected rate it is, at least, where it is more than twice that.
fn times(rate: (f64, f64), expected: Option<(f64, f64)>) -> String {
    match expected {
        Some((least, most)) if least > 0.0 && rate.0 > 2.0 * most => {
            let is_range = rate.0 < rate.1 || least < most;
            let at_least = if is_range { "at least " } else { "" };
            format!(", {at_least}{:.0} times what is expected", rate.0 / most)
        }
        _ => String::new(),
    }
}
