//! What a reader must know before trusting an answer on growth, one line each.

use super::course_tables::{GERMINATION, SURVIVAL};
use super::words::OF_SEVERAL;
use crate::analysis::growth::{
    Averaged, CameUp, Comparison, GerminationRow, GroupGrowth, GroupKind, GrowthReport, SurvivalRow,
};
use crate::observation::no_age::Undated;
use crate::report::caution::{Weight, not_counted};
use crate::report::sheet::Sheet;
use crate::statistics::StatisticsError;
use crate::statistics::germination::FEWEST_COUNTS;
use crate::wording::{age, counted, joined, listed};

impl GrowthReport {
    pub(crate) fn cautions(&self, sheet: &mut Sheet) {
        sheet.cautions(Weight::Doubt, &self.doubts);
        sheet.cautions(Weight::Answer, &self.far_readings);
        for pair in &self.comparisons {
            for (weight, caution) in self.pair_cautions(pair) {
                sheet.caution(weight, caution);
            }
        }
        for group in &self.groups {
            if group.may_be_elsewhere > 0 {
                sheet.caution(Weight::LeftOut, self.elsewhere_words(group));
            }
            self.group_cautions(group, sheet);
        }
        self.germination_cautions(sheet);
    }

    /// Seedlings of a muddled tray count in no group.
    fn elsewhere_words(&self, group: &GroupGrowth) -> String {
        let whose = match self.groups.len() {
            1 => String::new(),
            _ => format!("{}: ", group.id),
        };
        format!("{whose}{}", not_counted(group.may_be_elsewhere))
    }

    fn germination_cautions(&self, sheet: &mut Sheet) {
        let Some(compared) = &self.germination_compared else {
            return;
        };
        let all = |of: fn(&CameUp) -> &Vec<String>| -> Vec<&str> {
            let codes = compared.groups.iter().flat_map(of);
            codes.map(String::as_str).collect()
        };
        let (left_out, too_vague) = (all(|of| &of.left_out), all(|of| &of.too_vague));
        let interpolated = all(|of| &of.interpolated);
        let not_counted: Vec<&str> = (left_out.into_iter())
            .filter(|code| !too_vague.contains(code))
            .collect();
        let reasons = [
            ("not counted at that day", not_counted),
            ("days after sowing not known to half a month", too_vague),
        ];
        for (why, codes) in reasons.iter().filter(|(_, codes)| !codes.is_empty()) {
            let codes = listed(codes);
            let words = format!("germination: left out of the comparison, {why}: {codes}");
            sheet.caution(Weight::LeftOut, words);
        }
        if !interpolated.is_empty() {
            sheet.caution(
                Weight::General,
                format!(
                    "germination: not counted on that day, so interpolated between two counts: {}",
                    listed(&interpolated)
                ),
            );
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
            told.push((
                Weight::Answer,
                format!(
                    "sizes are never guessed before the first or after the last reading: {}, {}",
                    self.ages_words(groups.0),
                    self.ages_words(groups.1)
                ),
            ));
            return told;
        };
        if (a.age - b.age).abs() > 0.05 {
            let exact = pair
                .interpolated_difference
                .map_or(String::new(), |difference| {
                    format!(
                        "; brought to one age by interpolation the difference is {}",
                        self.sized(difference.abs())
                    )
                });
            told.push((
                Weight::General,
                format!(
                    "readings {:.1} months apart in age: {} at {:.1}, {} at {:.1} months{exact}",
                    (a.age - b.age).abs(),
                    a.id,
                    a.age,
                    b.id,
                    b.age
                ),
            ));
        }
        for side in [a, b] {
            if side.mean_between.1 - side.mean_between.0 > 0.05 {
                told.push((Weight::Answer, format!(
                    "{}: dates are vague, so its mean may be anything from {} to {}; the interval allows for it",
                    side.id,
                    self.sized(side.mean_between.0),
                    self.sized(side.mean_between.1)
                )));
            }
        }
        let of = |alike: Option<bool>| -> Vec<String> {
            let rows = pair.circumstances.iter();
            rows.filter(|c| c.alike == alike)
                .map(|c| c.what.to_string())
                .collect()
        };
        let (differed, unsaid) = (of(Some(false)), of(None));
        if let Some(words) = not_alike([&a.id, &b.id], &differed, &unsaid) {
            told.push((Weight::Answer, words));
        }
        if pair.unit == Averaged::Plant && !(one_family(groups.0) && one_family(groups.1)) {
            told.push((Weight::Answer, format!(
                "{} or {} has only one pod, so an effect of the pod cannot be told apart from an effect of the cross",
                a.id, b.id
            )));
        }
        told
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
        (apart > crate::observation::moment::NEAR).then(|| {
            format!(
                "the latest sizes are not comparable: {} median {} at {}, {} median {} at {}",
                a.id,
                self.sized(x.median),
                age(p),
                b.id,
                self.sized(y.median),
                age(q)
            )
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
        if group.left_out.total() > 0 {
            sheet.caution(
                Weight::LeftOut,
                format!(
                    "{}: left out {}: {}",
                    group.id,
                    counted(group.left_out.total(), "reading", "readings"),
                    group.left_out.words()
                ),
            );
        }
        let undated = group.undated.map(|of| format!("without a dated {of}"));
        let ageless = [
            (group.of_several_pods, Some(format!("that {OF_SEVERAL}"))),
            (group.without_age - group.of_several_pods, undated),
        ];
        for (n, why) in ageless.into_iter().filter(|(n, _)| *n > 0) {
            let plants = counted(n, "plant", "plants");
            let readings = match n {
                1 => "its readings have no age",
                _ => "their readings have no age",
            };
            let words = format!(
                "{}: {plants} {}, so {readings}",
                group.id,
                why.unwrap_or_default()
            );
            sheet.caution(Weight::LeftOut, words);
        }
        let fewer = group.sittings.windows(2).find(|pair| pair[1].n < pair[0].n);
        if fewer.is_some() && group.kind != GroupKind::Plant {
            let counts = group.sittings.iter().map(|row| row.n.to_string());
            let only_fewer = group.sittings.windows(2).all(|pair| pair[1].n <= pair[0].n);
            let means = match only_fewer {
                true => "later means are of those that were left",
                false => "the means are not of the same plants",
            };
            sheet.caution(
                Weight::Answer,
                format!(
                    "{}: not the same plants each time ({} read); {means}",
                    group.id,
                    joined(counts, " → ")
                ),
            );
        }
        if group.rate.as_ref().is_some_and(|rate| rate.uneven) {
            sheet.caution(Weight::Answer, format!(
                "{}: plants were followed over different ages; young plants grow faster, so their rates are not quite alike",
                group.id
            ));
        }
        match group.each.iter().filter(|plant| plant.is_undated).count() {
            0 => {}
            n => sheet.caution(
                Weight::Answer,
                format!(
                    "{}: the days on which {} read are too vague for a growth rate",
                    group.id,
                    counted(n, "plant was", "plants were")
                ),
            ),
        }
        if group.curves.iter().any(|curve| !curve.identified) {
            sheet.caution(Weight::General, format!(
                "{}: a curve with a final size is supported only from seven ages, with a final size under three times the largest reading",
                group.id
            ));
        }
        if let Some(row) = group
            .survival
            .as_ref()
            .filter(|row| row.steps.is_empty() && row.deaths > 0)
        {
            sheet.caution_on(
                SURVIVAL,
                Weight::General,
                format!(
                    "{}: too few deaths for a curve ({}); the counts are given",
                    group.id,
                    counted(row.deaths, "death", "deaths")
                ),
            );
        }
        if let Some(row) = group.survival.as_ref().filter(|row| row.deaths < row.died) {
            let without = match row.died - row.deaths {
                1 => "1 has no age on record, so the curve leaves it out".to_owned(),
                n => format!("{n} have no age on record, so the curve leaves them out"),
            };
            sheet.caution(
                Weight::Answer,
                format!(
                    "{}: of its {} {without} and stands too high",
                    group.id,
                    counted(row.died, "death", "deaths")
                ),
            );
        }
        if let Some(words) = group.survival.as_ref().and_then(entry_words) {
            sheet.caution_on(SURVIVAL, Weight::General, format!("{}: {words}", group.id));
        }
        if let Some(row) = group.survival.as_ref().filter(|row| row.long_unseen > 0) {
            sheet.caution(Weight::Answer, format!(
                "{}: {} {} no entry for a year; look whether {}: deaths among them would lower survival",
                group.id,
                match row.alive {
                    1 => "the one plant counted as alive today".to_owned(),
                    alive => format!(
                        "{} of the {alive} plants counted as alive today",
                        row.long_unseen
                    ),
                },
                if row.long_unseen == 1 { "has" } else { "have" },
                if row.long_unseen == 1 { "it lives" } else { "they live" }
            ));
        }
        for row in &group.germination {
            if let Some(why) = &row.unfitted {
                sheet.caution_on(GERMINATION, Weight::General, unfitted_words(row, why));
            }
        }
        for row in group
            .germination
            .iter()
            .filter(|row| row.vague_by > 0 && row.t50_coolbear.is_some())
        {
            sheet.caution_on(
                GERMINATION,
                Weight::General,
                format!(
                    "{}: days from dates vague by up to {}, their middles taken",
                    row.id,
                    counted(row.vague_by as usize, "day", "days")
                ),
            );
        }
        for row in group.germination.iter().filter(|row| row.by_first_visit) {
            sheet.caution_on(
                GERMINATION,
                Weight::General,
                format!(
                    "{}: half had come up by the first count, so T50 is at most what is shown",
                    row.id
                ),
            );
        }
    }
}

/// From which age on a survival curve speaks; nothing where there is no curve.
fn entry_words(row: &SurvivalRow) -> Option<String> {
    if row.steps.is_empty() {
        return None;
    }
    let numbered = row.numbered_at.map(|ages| {
        format!(
            "survival counts each plant from the day it was numbered ({})",
            age(ages)
        )
    });
    let assumed = (row.taken_from_sowing > 0).then(|| {
        format!(
            "not recorded when {} got a number: taken as followed from sowing, so the curve is too high if weaker ones died before",
            counted(row.taken_from_sowing, "plant", "plants")
        )
    });
    let told = numbered.into_iter().chain(assumed);
    Some(joined(told, "; "))
}

/// What was not the same on both sides, and what may not have been. Siblings have the same parents and one plant has only
/// itself, so the words blame no parents.
fn not_alike(sides: [&String; 2], differed: &[String], unsaid: &[String]) -> Option<String> {
    let two = listed(&sides);
    let unsaid = (!unsaid.is_empty()).then(|| format!("not recorded: {}", listed(unsaid)));
    if differed.is_empty() {
        return unsaid.map(|unsaid| {
            format!("whether {two} were grown alike is not known ({unsaid}), so a difference may come from that")
        });
    }
    let also = unsaid.map_or(String::new(), |unsaid| format!("; {unsaid}"));
    let differed = listed(differed);
    Some(format!(
        "{two} were not grown alike (differed: {differed}{also}), so a difference may come from that"
    ))
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
