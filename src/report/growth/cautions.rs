//! What a reader must know before trusting an answer on growth, one line each.

use super::course_tables::{GERMINATION, SURVIVAL};
use super::words::OF_SEVERAL;
use crate::analysis::growth::{
    Averaged, CameUp, Comparison, GerminationRow, GroupGrowth, GroupKind, GrowthReport, SurvivalRow,
};
use crate::observation::circumstances::{Circumstance, What};
use crate::observation::no_age::Undated;
use crate::report::caution::{Weight, not_counted};
use crate::report::sheet::Sheet;
use crate::report::unlike::unlike_words;
use crate::statistics::StatisticsError;
use crate::statistics::germination::FEWEST_COUNTS;
use crate::wording::{age, counted, days, joined, led_by, listed};

impl GrowthReport {
    pub(crate) fn cautions(&self, sheet: &mut Sheet) {
        sheet.cautions(Weight::Doubt, &self.doubts);
        sheet.cautions(Weight::Answer, &self.far_readings);
        for pair in &self.comparisons {
            for (weight, caution) in self.pair_cautions(pair) {
                sheet.caution(weight, caution);
            }
        }
        sheet.cautions(Weight::Answer, self.rates_alike_words());
        if self.tested() > 1 {
            sheet.caution(Weight::General, format!(
                "the words allow for {} comparisons (Holm); the interval of each pair stands for that pair alone",
                self.tested()
            ));
        }
        for group in &self.groups {
            if group.may_be_elsewhere > 0 {
                sheet.caution(Weight::LeftOut, self.elsewhere_words(group));
            }
            self.group_cautions(group, sheet);
        }
        self.comparison_cautions(sheet);
    }

    /// Seedlings of a muddled tray count in no group.
    fn elsewhere_words(&self, group: &GroupGrowth) -> String {
        let whose = Some(&group.id).filter(|_| self.groups.len() != 1);
        let whose = whose.map(|id| format!("{id}: ")).unwrap_or_default();
        format!("{whose}{}", not_counted(group.may_be_elsewhere))
    }

    fn comparison_cautions(&self, sheet: &mut Sheet) {
        let Some(compared) = &self.germination_compared else {
            return;
        };
        let all = |of: fn(&CameUp) -> &Vec<String>| -> Vec<&String> {
            compared.groups.iter().flat_map(of).collect()
        };
        let (mut left_out, too_vague) = (all(|of| &of.left_out), all(|of| &of.too_vague));
        let uncounted = all(|of| &of.uncounted);
        left_out.retain(|code| !too_vague.contains(code) && !uncounted.contains(code));
        let between = "not counted on that day, so interpolated between two counts";
        for (weight, why, codes) in [
            (
                Weight::LeftOut,
                "left out of the comparison, not that old yet",
                left_out,
            ),
            (
                Weight::LeftOut,
                "left out of the comparison, no count, or no number sown",
                uncounted,
            ),
            (
                Weight::LeftOut,
                "left out of the comparison, days after sowing not known to half a month",
                too_vague,
            ),
            (Weight::General, between, all(|of| &of.interpolated)),
        ] {
            if !codes.is_empty() {
                sheet.caution(weight, format!("germination: {why}: {}", listed(codes)));
            }
        }
        if compared.p.is_some() {
            sheet.caution(Weight::General,
                "germination: seeds are counted as independent, but those of one sowing share a pot and a day, so p is too small where \
                 pots differ",
            );
        }
    }

    fn pair_cautions(&self, pair: &Comparison) -> Vec<(Weight, String)> {
        let mut told = Vec::new();
        let groups = (self.group(&pair.of.0), self.group(&pair.of.1));
        if let Some(words) = self.latest_words(groups.0, groups.1) {
            told.push((Weight::General, words));
        }
        let Some((a, b)) = &pair.sides else {
            let ages = [groups.0, groups.1].map(|group| self.ages_words(group));
            let never = "podbook does not extrapolate before the first or after the last reading";
            told.push((Weight::Answer, format!("{never}: {}", ages.join(", "))));
            return told;
        };
        let apart = (a.age - b.age).abs();
        if apart > 0.05 {
            let exact = pair.interpolated_difference.map(|of| self.sized(of.abs()));
            let exact = led_by(
                "; brought to one age by interpolation the difference is ",
                exact,
            );
            told.push((
                Weight::General,
                format!(
                    "readings {apart:.1} months apart in age: {} at {:.1}, {} at {:.1} months{exact}",
                    a.id, a.age, b.id, b.age
                ),
            ));
        }
        for side in [a, b] {
            let (low, high) = side.mean_between;
            if high - low > 0.05 {
                let [low, high] = [low, high].map(|mean| self.sized(mean));
                told.push((Weight::Answer, format!(
                    "{}: dates are vague, so its mean may be anything from {low} to {high}; the interval allows for it",
                    side.id
                )));
            }
        }
        let unlike = unlike_words(&listed([&a.id, &b.id]), pair.circumstances.iter());
        told.extend(unlike.map(|words| (Weight::Answer, words)));
        if pair.unit == Averaged::Plant && !(one_family(groups.0) && one_family(groups.1)) {
            told.push((Weight::Answer, format!(
                "{} or {} has only one pod, so an effect of the pod cannot be told apart from an effect of the cross",
                a.id, b.id
            )));
        }
        told
    }

    /// What makes the answer on survival less sure.
    pub(super) fn cautions_on_survival(&self, sheet: &mut Sheet) {
        sheet.cautions(Weight::Doubt, &self.doubts);
        let of_life =
            |of: &&Circumstance| !matches!(of.what, What::ReadOn | What::Method | What::ReadBy);
        let unlike = self.comparisons.iter().filter_map(|pair| {
            let (a, b) = pair.sides.as_ref()?;
            unlike_words(
                &listed([&a.id, &b.id]),
                pair.circumstances.iter().filter(of_life),
            )
        });
        sheet.cautions(Weight::Answer, unlike);
        for group in &self.groups {
            if group.may_be_elsewhere > 0 {
                sheet.caution(Weight::LeftOut, self.elsewhere_words(group));
            }
            if let Some(row) = &group.survival {
                survival_cautions(&group.id, row, sheet);
            }
        }
    }

    fn group(&self, id: &str) -> &GroupGrowth {
        let found = self.groups.iter().find(|group| group.id == id);
        found.unwrap_or(&self.groups[0])
    }

    /// Latest readings at unlike ages mislead: said in so many words.
    fn latest_words(&self, a: &GroupGrowth, b: &GroupGrowth) -> Option<String> {
        let (x, y) = (a.sittings.last()?, b.sittings.last()?);
        let (p, q) = (x.age?, y.age?);
        let apart = ((p.0 + p.1) / 2.0 - (q.0 + q.1) / 2.0).abs();
        let latest = |of: &GroupGrowth, median, at| {
            format!("{} median {} at {}", of.id, self.sized(median), age(at))
        };
        (apart > crate::observation::moment::NEAR).then(|| {
            let (first, second) = (latest(a, x.median, p), latest(b, y.median, q));
            format!("the latest sizes are not comparable: {first}, {second}")
        })
    }

    fn ages_words(&self, group: &GroupGrowth) -> String {
        let ages = group.sittings.iter().filter_map(|row| row.age);
        let range = ages.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
        match range {
            Some(range) => format!("{} read at {}", group.id, age(range)),
            None if group.sittings.is_empty() => format!("{} never measured", group.id),
            None if group.of_several_pods > 0 => format!("{} {OF_SEVERAL}", group.id),
            None => {
                let undated = group.undated.unwrap_or(Undated::Reading);
                format!("{} without a dated {undated}", group.id)
            }
        }
    }

    fn group_cautions(&self, group: &GroupGrowth, sheet: &mut Sheet) {
        let id = &group.id;
        let mut tell = |weight, words: String| sheet.caution(weight, format!("{id}: {words}"));
        if group.left_out.total() > 0 {
            let readings = counted(group.left_out.total(), "reading", "readings");
            let words = format!("left out {readings}: {}", group.left_out.words());
            tell(Weight::LeftOut, words);
        }
        let undated = group.undated.map(|of| format!("without a dated {of}"));
        let ageless = [
            (group.of_several_pods, Some(format!("that {OF_SEVERAL}"))),
            (group.without_age - group.of_several_pods, undated),
        ];
        for (n, why) in ageless.into_iter().filter(|(n, _)| *n > 0) {
            let plants = counted(n, "plant", "plants");
            let why = why.unwrap_or_default();
            let its = if n == 1 { "its" } else { "their" };
            let words = format!("{plants} {why}, so {its} readings have no age");
            tell(Weight::LeftOut, words);
        }
        let fewer = group.sittings.windows(2).find(|pair| pair[1].n < pair[0].n);
        if fewer.is_some() && group.kind != GroupKind::Plant {
            let counts = joined(group.sittings.iter().map(|row| row.n), " → ");
            let only_fewer = group.sittings.windows(2).all(|pair| pair[1].n <= pair[0].n);
            let means = match only_fewer {
                true => "later means are of those that were left",
                false => "the means are not of the same plants",
            };
            let words = format!("not the same plants each time ({counts} read); {means}");
            tell(Weight::Answer, words);
        }
        if group.rate.as_ref().is_some_and(|rate| rate.uneven) {
            let words = "plants were followed over different ages; young plants grow faster, so their rates are not quite alike";
            tell(Weight::Answer, words.to_owned());
        }
        let undated = group.each.iter().filter(|plant| plant.is_undated).count();
        if undated > 0 {
            let read = counted(undated, "plant was", "plants were");
            let words = format!("the days on which {read} read are too vague for a growth rate");
            tell(Weight::Answer, words);
        }
        if group.curves.iter().any(|curve| !curve.identified) {
            let words = "a curve with a final size is supported only from seven ages, with a final size under three times the largest reading";
            tell(Weight::General, words.to_owned());
        }
        if let Some(row) = &group.survival {
            survival_cautions(id, row, sheet);
        }
        germination_cautions(&group.germination, sheet);
    }
}

/// What makes the counts of the living less sure, or their curve.
fn survival_cautions(id: &str, row: &SurvivalRow, sheet: &mut Sheet) {
    let deaths = |n: usize| counted(n, "death", "deaths");
    if row.steps.is_empty() && row.deaths > 0 {
        let found = deaths(row.deaths);
        let words = format!("{id}: too few deaths for a curve ({found}); the counts are given");
        sheet.caution_on(SURVIVAL, Weight::General, words);
    }
    for (&sown, (plants, _)) in &row.vague {
        let (plants, days) = (counted(*plants, "plant", "plants"), days(sown));
        let words = format!(
            "{id}: sown {days}, so the ages of {plants} are not known to a month: in no curve of survival and no test of deaths"
        );
        sheet.caution(Weight::LeftOut, words);
    }
    let vague: usize = row.vague.values().map(|(_, died)| died).sum();
    if row.deaths + vague < row.died {
        let without = match row.died - row.deaths - vague {
            1 => "1 has no age on record, so the curve leaves it out".to_owned(),
            n => format!("{n} have no age on record, so the curve leaves them out"),
        };
        let died = deaths(row.died);
        let words = format!("{id}: of its {died} {without} and stands too high");
        sheet.caution(Weight::Answer, words);
    }
    if let Some(words) = entry_words(row) {
        sheet.caution_on(SURVIVAL, Weight::General, format!("{id}: {words}"));
    }
    let (unseen, alive) = (row.long_unseen, row.alive);
    let (who, lives) = match unseen {
        0 => return,
        _ if alive == 1 => (
            "the one plant counted as alive today has no entry".to_owned(),
            "it is alive",
        ),
        _ if unseen == alive => (
            format!("none of the {alive} plants counted as alive today has an entry"),
            "they are alive",
        ),
        1 => (
            format!("1 of the {alive} plants counted as alive today has no entry"),
            "it is alive",
        ),
        _ => (
            format!("{unseen} of the {alive} plants counted as alive today have no entry"),
            "they are alive",
        ),
    };
    let words = format!(
        "{id}: {who} for a year; check whether {lives}: deaths among them would lower survival"
    );
    sheet.caution(Weight::Answer, words);
}

/// What makes the courses of germination less sure.
fn germination_cautions(rows: &[GerminationRow], sheet: &mut Sheet) {
    let unfitted = rows.iter();
    let unfitted = unfitted.filter_map(|row| Some(unfitted_words(row, row.unfitted.as_ref()?)));
    let vague = |row: &&GerminationRow| row.vague_by > 0 && row.t50_coolbear.is_some();
    let vague = rows.iter().filter(vague).map(|row| {
        let days = counted(row.vague_by as usize, "day", "days");
        format!(
            "{}: days from dates vague by up to {days}, their middles taken",
            row.id
        )
    });
    let by_first = rows.iter().filter(|row| row.farooq_by_first_visit);
    let by_first = by_first.map(|row| {
        let (half, t50) = match row.by_first_visit {
            true => ("half", "T50"),
            false => ("exactly half", "T50 by N/2"),
        };
        let id = &row.id;
        format!("{id}: {half} had come up by the first count, so {t50} is at most what is shown")
    });
    for words in unfitted.chain(vague).chain(by_first) {
        sheet.caution_on(GERMINATION, Weight::General, words);
    }
}

/// From which age on a survival curve speaks; nothing where there is no curve.
fn entry_words(row: &SurvivalRow) -> Option<String> {
    if row.steps.is_empty() {
        return None;
    }
    let numbered = row.numbered_at.map(age);
    let numbered = numbered
        .map(|ages| format!("survival counts each plant from the day it was numbered ({ages})"));
    let assumed = (row.taken_from_sowing > 0).then(|| {
        let plants = counted(row.taken_from_sowing, "plant", "plants");
        format!(
            "not recorded when {plants} got a number: taken as followed from sowing, so the curve is too high if weaker ones died before"
        )
    });
    Some(joined(numbered.into_iter().chain(assumed), "; "))
}

fn one_family(group: &GroupGrowth) -> bool {
    !matches!(group.kind, GroupKind::Cross | GroupKind::Species)
}

/// Why no course of germination was fitted.
fn unfitted_words(row: &GerminationRow, why: &StatisticsError) -> String {
    let counts = counted(row.counts, "count", "counts");
    let why = match (why, row.vague_by) {
        (StatisticsError::TooFew { .. }, _) => {
            format!("it has three parameters and needs {FEWEST_COUNTS} counts with new seedlings")
        }
        (StatisticsError::NotPositive | StatisticsError::OrderUnknown, 1..) => {
            "the dates are too vague to say how many days after sowing each was".to_owned()
        }
        (StatisticsError::NotPositive | StatisticsError::OrderUnknown, _) => {
            "each must be on a day of its own after the sowing".to_owned()
        }
        _ => "none of its shape fits them".to_owned(),
    };
    format!("{}: no course fitted to {counts}; {why}", row.id)
}
