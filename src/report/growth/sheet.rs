//! Who grows, in words: the verdict first, then sizes, rates, curves, survival, germination, then every caution.

use super::answer::{GroupGrowth, GrowthReport};
use super::compare::{Comparison, Side, Verdict};
use super::group::GroupKind;
use super::rates::CurveRow;
use super::unitless::Unitless;
use crate::report::sheet::{Cell, Report, Sheet, Table};
use crate::report::words::{age, counted, listed};

/// An age in months without a needless decimal: `20`, `19.5`.
fn at_age(months: f64) -> String {
    let text = format!("{months:.1}");
    text.strip_suffix(".0").unwrap_or(&text).to_owned()
}

impl GrowthReport {
    /// A size with its unit: `1.2 cm`.
    fn sized(&self, size: f64) -> String {
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
                    "{} and {} not comparable: no common age",
                    pair.of.0, pair.of.1
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
fn percent_a_month(rate: f64) -> f64 {
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

impl GrowthReport {
    fn heading(&self, what: &str) -> String {
        match self.unit {
            "" => format!(">{what}"),
            unit => format!(">{what} {unit}"),
        }
    }

    fn common_age_table(&self, sheet: &mut Sheet) {
        let headings = [
            "group".to_owned(),
            ">age months".to_owned(),
            ">n".to_owned(),
            ">of plants".to_owned(),
            ">interpolated".to_owned(),
            ">pods".to_owned(),
            self.heading("median"),
            self.heading("mean"),
            self.heading("SD"),
        ];
        let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
        let mut table =
            Table::new(&headings).titled(format!("{} at the common age", self.of_trait));
        for (a, b) in self
            .comparisons
            .iter()
            .filter_map(|pair| pair.sides.as_ref())
        {
            for side in [a, b] {
                table.row(vec![
                    side.id.clone().into(),
                    Cell::Number(side.age, 1),
                    side.n.into(),
                    side.plants.into(),
                    side.interpolated.into(),
                    side.families.into(),
                    Cell::Number(side.median, 1),
                    Cell::Number(side.mean, 1),
                    side.sd.map_or(Cell::Missing, |sd| Cell::Number(sd, 1)),
                ]);
            }
        }
        if table.rows.is_empty() {
            return;
        }
        table.rows.dedup();
        sheet.table(table);
        self.difference_table(sheet);
    }

    fn difference_table(&self, sheet: &mut Sheet) {
        let headings = [
            "difference".to_owned(),
            ">age months".to_owned(),
            self.heading("by"),
            ">%".to_owned(),
            self.heading("95 % from"),
            self.heading("to"),
            ">Hedges' g".to_owned(),
            ">g from".to_owned(),
            ">g to".to_owned(),
            "unit".to_owned(),
        ];
        let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
        let mut table = Table::new(&headings);
        for pair in &self.comparisons {
            let number = |value: Option<f64>, decimals: u8| {
                value.map_or(Cell::Missing, |value| Cell::Number(value, decimals))
            };
            let Some(difference) = pair.difference else {
                continue;
            };
            table.row(vec![
                format!("{} less {}", pair.of.1, pair.of.0).into(),
                number(pair.age, 1),
                Cell::Number(difference, 1),
                number(pair.percent, 0),
                number(pair.interval.map(|i| i.0), 1),
                number(pair.interval.map(|i| i.1), 1),
                number(pair.g.map(|g| g.0), 2),
                number(pair.g.map(|g| g.1.0), 2),
                number(pair.g.map(|g| g.1.1), 2),
                pair.unit.into(),
            ]);
        }
        sheet.table(table);
    }

    fn circumstance_table(&self, pair: &Comparison, sheet: &mut Sheet) {
        if pair.circumstances.is_empty() {
            return;
        }
        let mut table = Table::new(&["what else", &pair.of.0, &pair.of.1, "alike"]);
        for row in &pair.circumstances {
            let alike = match row.alike {
                Some(true) => "yes",
                Some(false) => "no",
                None => "not recorded",
            };
            table.row(vec![
                row.what.into(),
                row.first.clone().into(),
                row.second.clone().into(),
                alike.into(),
            ]);
        }
        sheet.table(table);
    }

    /// Readings of single plants, as typed and in one unit.
    fn typed_table(&self, sheet: &mut Sheet) {
        let headings = [
            "plant".to_owned(),
            "read on".to_owned(),
            "age".to_owned(),
            "as typed".to_owned(),
            self.heading("size"),
            "used".to_owned(),
        ];
        let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
        let mut table = Table::new(&headings).titled(format!("{} as typed", self.of_trait));
        for row in self.groups.iter().flat_map(|group| &group.typed) {
            table.row(vec![
                row.id.clone().into(),
                row.on.clone().into(),
                row.age.map_or(Cell::Missing, |range| age(range).into()),
                row.typed.clone().into(),
                row.size.map_or(Cell::Missing, |size| Cell::Number(size, 1)),
                if row.used { "yes" } else { "no" }.into(),
            ]);
        }
        if !table.rows.is_empty() {
            sheet.table(table);
        }
    }

    fn sitting_table(&self, sheet: &mut Sheet) {
        let headings = [
            "group".to_owned(),
            "read on".to_owned(),
            "age".to_owned(),
            ">n".to_owned(),
            self.heading("median"),
            self.heading("mean"),
            self.heading("SD"),
        ];
        let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
        let mut table = Table::new(&headings).titled(format!("{} as read", self.of_trait));
        let several = |group: &&GroupGrowth| group.kind != GroupKind::Plant;
        for group in self.groups.iter().filter(several) {
            for row in &group.sittings {
                table.row(vec![
                    group.id.clone().into(),
                    row.on.clone().into(),
                    row.age.map_or(Cell::Missing, |range| age(range).into()),
                    row.n.into(),
                    Cell::Number(row.median, 1),
                    Cell::Number(row.mean, 1),
                    row.sd.map_or(Cell::Missing, |sd| Cell::Number(sd, 1)),
                ]);
            }
        }
        if !table.rows.is_empty() {
            sheet.table(table);
        }
    }

    fn plant_table(&self, sheet: &mut Sheet) {
        let group = &self.groups[0];
        if group.kind == GroupKind::Plant || group.each.is_empty() {
            return;
        }
        let headings = [
            "plant".to_owned(),
            ">readings".to_owned(),
            ">from months".to_owned(),
            ">to months".to_owned(),
            self.heading("first"),
            self.heading("last"),
            ">rate a month".to_owned(),
            "pot moves".to_owned(),
        ];
        let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
        let mut table = Table::new(&headings).titled("plant by plant, fastest first");
        let mut each: Vec<_> = group.each.iter().collect();
        let rate = |rate: Option<f64>| rate.unwrap_or(f64::NEG_INFINITY);
        each.sort_by(|a, b| rate(b.rate).total_cmp(&rate(a.rate)));
        for plant in each {
            let months = |age: Option<f64>| age.map_or(Cell::Missing, |age| Cell::Number(age, 1));
            table.row(vec![
                plant.id.clone().into(),
                plant.readings.into(),
                months(plant.ages.map(|ages| ages.0)),
                months(plant.ages.map(|ages| ages.1)),
                Cell::Number(plant.sizes.0, 1),
                Cell::Number(plant.sizes.1, 1),
                plant
                    .rate
                    .map_or(Cell::Missing, |rate| Cell::Number(rate, 3)),
                listed(&plant.pot_moves).into(),
            ]);
        }
        sheet.table(table);
    }

    fn rate_table(&self, sheet: &mut Sheet) {
        let mut table = Table::new(&[
            "group",
            ">n",
            ">rate a month",
            ">SE",
            ">95 % from",
            ">to",
            ">% a month",
            ">from months",
            ">to months",
        ])
        .titled("growth rate (of the logarithm)");
        for group in &self.groups {
            let Some(rate) = &group.rate else { continue };
            let number = |value: Option<f64>, decimals: u8| {
                value.map_or(Cell::Missing, |value| Cell::Number(value, decimals))
            };
            table.row(vec![
                group.id.clone().into(),
                rate.n.into(),
                Cell::Number(rate.mean, 3),
                number(rate.standard_error, 3),
                number(rate.interval.map(|i| i.0), 3),
                number(rate.interval.map(|i| i.1), 3),
                Cell::Number(percent_a_month(rate.mean), 1),
                number(rate.between_ages.map(|ages| ages.0), 1),
                number(rate.between_ages.map(|ages| ages.1), 1),
            ]);
        }
        if !table.rows.is_empty() {
            sheet.table(table);
        }
    }

    fn curve_table(&self, sheet: &mut Sheet) {
        let mut table = Table::new(&["group", "curve", "parameters ± SE", ">AICc", "supported"])
            .titled("curves, the chosen one first");
        for group in &self.groups {
            for curve in &group.curves {
                table.row(vec![
                    group.id.clone().into(),
                    curve.shape.into(),
                    parameters(curve).into(),
                    curve
                        .aicc
                        .map_or(Cell::Missing, |aicc| Cell::Number(aicc, 1)),
                    if curve.identified { "yes" } else { "no" }.into(),
                ]);
            }
        }
        if !table.rows.is_empty() {
            sheet.table(table);
        }
    }

    fn survival_tables(&self, sheet: &mut Sheet) {
        let rows = || {
            let all = self.groups.iter();
            all.filter_map(|group| Some((group, group.survival.as_ref()?)))
        };
        if rows().next().is_none() {
            return;
        }
        let mut counts = Table::new(&[
            "group",
            ">followed",
            ">died",
            ">left alive",
            ">not dated",
            ">half dead by months",
        ])
        .titled("survival of numbered plants");
        let mut steps = Table::new(&[
            "group",
            ">age months",
            ">at risk",
            ">deaths",
            ">alive %",
            ">95 % from",
            ">to",
        ]);
        for (group, row) in rows() {
            counts.row(vec![
                group.id.clone().into(),
                row.followed.into(),
                row.deaths.into(),
                row.left.into(),
                row.undated.into(),
                row.median_age
                    .map_or(Cell::Missing, |age| Cell::Number(age, 1)),
            ]);
            for step in &row.steps {
                let limit = |value: Option<f64>| {
                    value.map_or(Cell::Missing, |share| Cell::Number(100.0 * share, 0))
                };
                steps.row(vec![
                    group.id.clone().into(),
                    Cell::Number(step.age, 1),
                    step.at_risk.into(),
                    step.deaths.into(),
                    Cell::Number(100.0 * step.survival, 0),
                    limit(step.interval.map(|i| i.0)),
                    limit(step.interval.map(|i| i.1)),
                ]);
            }
        }
        sheet.table(counts);
        if !steps.rows.is_empty() {
            sheet.table(steps);
        }
    }

    fn germination_table(&self, sheet: &mut Sheet) {
        let mut table = Table::new(&[
            "sowing",
            ">sown",
            ">germinated",
            ">%",
            ">95 % from",
            ">to",
            ">T50 days (N+1)/2",
            ">T50 days N/2",
            ">mean days",
            ">fitted %",
            ">fitted T50",
        ])
        .titled("germination");
        for row in self.groups.iter().flat_map(|group| &group.germination) {
            let number = |value: Option<f64>, decimals: u8| {
                value.map_or(Cell::Missing, |value| Cell::Number(value, decimals))
            };
            table.row(vec![
                row.id.clone().into(),
                row.sown.into(),
                row.germinated.into(),
                number(row.percent, 0),
                number(row.interval.map(|i| i.0), 0),
                number(row.interval.map(|i| i.1), 0),
                number(row.t50_coolbear, 0),
                number(row.t50_farooq, 0),
                number(row.mean_days, 0),
                number(row.fitted_percent, 0),
                number(row.fitted_t50, 0),
            ]);
        }
        if !table.rows.is_empty() {
            sheet.table(table);
        }
    }
}

fn parameters(curve: &CurveRow) -> String {
    let told = curve.parameters.iter().map(|p| match p.standard_error {
        Some(error) => format!("{} {:.3} ± {:.3}", p.name, p.value, error),
        None => format!("{} {:.3} ± not known", p.name, p.value),
    });
    told.collect::<Vec<_>>().join(", ")
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

impl GrowthReport {
    fn cautions(&self, sheet: &mut Sheet) {
        for pair in &self.comparisons {
            for caution in self.pair_cautions(pair) {
                sheet.caution(caution);
            }
        }
        for group in &self.groups {
            self.group_cautions(group, sheet);
        }
        if let Some(p) = self.alike_in_deaths {
            sheet.caution(format!(
                "survival: if the groups died alike, deaths so unevenly spread would come up {:.0} times in 100 (log-rank)",
                100.0 * p
            ));
        }
        if !self.in_two_groups.is_empty() {
            sheet.caution(format!(
                "{} in two groups at once: {}",
                counted(self.in_two_groups.len(), "plant stands", "plants stand"),
                listed(&self.in_two_groups)
            ));
        }
    }

    fn pair_cautions(&self, pair: &Comparison) -> Vec<String> {
        let mut told = Vec::new();
        let groups = (self.group(&pair.of.0), self.group(&pair.of.1));
        if let Some(words) = self.latest_words(groups.0, groups.1) {
            told.push(words);
        }
        let Some((a, b)) = &pair.sides else {
            told.push(format!(
                "sizes are never guessed before the first or after the last reading: {}, {}",
                self.ages_words(groups.0),
                self.ages_words(groups.1)
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
            told.push(format!(
                "readings {:.1} months apart in age: {} at {:.1}, {} at {:.1} months{exact}",
                (a.age - b.age).abs(),
                a.id,
                a.age,
                b.id,
                b.age
            ));
        }
        for side in [a, b] {
            if side.mean_between.1 - side.mean_between.0 > 0.05 {
                told.push(format!(
                    "{}: dates are vague, so its mean may be anything from {} to {}; the interval allows for it",
                    side.id,
                    self.sized(side.mean_between.0),
                    self.sized(side.mean_between.1)
                ));
            }
        }
        let of = |alike: Option<bool>| -> Vec<&str> {
            let rows = pair.circumstances.iter();
            rows.filter(|c| c.alike == alike).map(|c| c.what).collect()
        };
        let (differed, unsaid) = (of(Some(false)), of(None));
        if !differed.is_empty() || !unsaid.is_empty() {
            let mut words = Vec::new();
            if !differed.is_empty() {
                words.push(format!("differed: {}", listed(&differed)));
            }
            if !unsaid.is_empty() {
                words.push(format!("not recorded: {}", listed(&unsaid)));
            }
            told.push(format!(
                "not only the parents ({}): the difference may be theirs or not",
                words.join("; ")
            ));
        }
        if pair.unit == "plant" && !(one_family(groups.0) && one_family(groups.1)) {
            told.push(format!(
                "{} or {} has one pod only: what belongs to a pod cannot be told from what belongs to a cross",
                a.id, b.id
            ));
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
        (apart > super::grown::NEAR).then(|| {
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
            None => format!("{} without a dated sowing", group.id),
        }
    }

    fn group_cautions(&self, group: &GroupGrowth, sheet: &mut Sheet) {
        if group.left_out.total() > 0 {
            sheet.caution(format!(
                "{}: left out {}: {}",
                group.id,
                counted(group.left_out.total(), "reading", "readings"),
                group.left_out.words()
            ));
        }
        if group.without_age > 0 {
            sheet.caution(format!(
                "{}: {} without a dated sowing, so without an age",
                group.id,
                counted(group.without_age, "plant", "plants")
            ));
        }
        let fewer = group.sittings.windows(2).find(|pair| pair[1].n < pair[0].n);
        if fewer.is_some() && group.kind != GroupKind::Plant {
            let counts: Vec<String> = group.sittings.iter().map(|row| row.n.to_string()).collect();
            sheet.caution(format!(
                "{}: not the same plants each time ({} read); later means are of those that were left",
                group.id,
                counts.join(" → ")
            ));
        }
        if group.rate.as_ref().is_some_and(|rate| rate.uneven) {
            sheet.caution(format!(
                "{}: plants were followed over different ages; young plants grow faster, so their rates are not quite alike",
                group.id
            ));
        }
        if group.curves.iter().any(|curve| !curve.identified) {
            sheet.caution(format!(
                "{}: a curve with a final size is supported only from seven ages, with a final size under three times the largest reading",
                group.id
            ));
        }
        if let Some(row) = group
            .survival
            .as_ref()
            .filter(|row| row.steps.is_empty() && row.deaths > 0)
        {
            sheet.caution(format!(
                "{}: {} are too few for a curve; the counts are given",
                group.id,
                counted(row.deaths, "death", "deaths")
            ));
        }
        for row in group
            .germination
            .iter()
            .filter(|row| row.vague_by > 0 && row.t50_coolbear.is_some())
        {
            sheet.caution(format!(
                "{}: days from dates vague by up to {}, their middles taken",
                row.id,
                counted(row.vague_by as usize, "day", "days")
            ));
        }
        for row in group.germination.iter().filter(|row| row.by_first_visit) {
            sheet.caution(format!(
                "{}: half had come up by the first count, so T50 is at most what is shown",
                row.id
            ));
        }
    }
}

fn one_family(group: &GroupGrowth) -> bool {
    !matches!(group.kind, GroupKind::Cross | GroupKind::Species)
}
