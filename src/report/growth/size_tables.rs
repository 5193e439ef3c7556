//! Tables of sizes: at the common age, as typed, as read, plant by plant, and what else differed.

use crate::analysis::growth::Comparison;
use crate::analysis::growth::GroupGrowth;
use crate::analysis::growth::GroupKind;
use crate::analysis::growth::GrowthReport;
use crate::report::sheet::{Cell, Sheet, Table};
use crate::wording::{age, listed};

impl GrowthReport {
    fn heading(&self, what: &str) -> String {
        match self.unit {
            "" => format!(">{what}"),
            unit => format!(">{what} {unit}"),
        }
    }

    pub(crate) fn common_age_table(&self, sheet: &mut Sheet) {
        let decimals = self.decimals();
        let sides = || {
            let sides = self
                .comparisons
                .iter()
                .filter_map(|pair| pair.sides.as_ref());
            sides.flat_map(|(a, b)| [a, b])
        };
        let interpolated = sides().any(|side| side.interpolated > 0);
        let mut headings = vec![
            "group",
            ">months",
            ">n",
            ">of plants",
            ">median",
            ">mean",
            ">SD",
        ];
        headings.extend(interpolated.then_some(">interpolated"));
        headings.push(">pods");
        let mut table = Table::new(&headings)
            .titled(self.with_unit(&format!("{} at the common age", self.of_trait)));
        for side in sides() {
            let mut cells = vec![
                side.id.clone().into(),
                Cell::Number(side.age, 1),
                side.n.into(),
                side.plants.into(),
                Cell::Number(side.median, decimals),
                Cell::Number(side.mean, decimals),
                side.sd
                    .map_or(Cell::Missing, |sd| Cell::Number(sd, decimals)),
            ];
            cells.extend(interpolated.then(|| side.interpolated.into()));
            cells.push(side.families.into());
            table.row(cells);
        }
        if table.rows.is_empty() {
            return;
        }
        table.rows.dedup();
        sheet.table(table);
        self.difference_table(sheet);
    }

    /// A title with the unit of the trait behind it, so that narrow columns need not repeat it.
    fn with_unit(&self, title: &str) -> String {
        match self.unit {
            "" => title.to_owned(),
            unit => format!("{title}, {unit}"),
        }
    }

    fn difference_table(&self, sheet: &mut Sheet) {
        let decimals = self.decimals();
        let by = self.heading("by");
        let headings = [
            "difference",
            by.as_str(),
            ">%",
            ">95 % from",
            "+>to",
            ">months",
            ">g",
            ">g from",
            "+>g to",
            "of",
        ];
        let mut table = Table::new(&headings);
        for pair in &self.comparisons {
            let number = |value: Option<f64>, decimals: u8| {
                value.map_or(Cell::Missing, |value| Cell::Number(value, decimals))
            };
            let Some(difference) = pair.difference else {
                continue;
            };
            table.row(vec![
                less_words(&pair.of.1, &pair.of.0).into(),
                Cell::Number(difference, decimals),
                number(pair.percent, 0),
                number(pair.interval.map(|i| i.0), decimals),
                number(pair.interval.map(|i| i.1), decimals),
                number(pair.age, 1),
                number(pair.g.map(|g| g.0), 2),
                number(pair.g.map(|g| g.1.0), 2),
                number(pair.g.map(|g| g.1.1), 2),
                pair.unit.to_string().into(),
            ]);
        }
        sheet.table(table);
    }

    /// The difference at the other ages at which both were read.
    pub(crate) fn other_ages_table(&self, sheet: &mut Sheet) {
        let headings = [
            "difference".to_owned(),
            ">months".to_owned(),
            ">n".to_owned(),
            ">less n".to_owned(),
            self.heading("by"),
            ">%".to_owned(),
        ];
        let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
        let mut table =
            Table::new(&headings).titled("at the other ages at which both were read, not tested");
        for pair in &self.comparisons {
            for other in &pair.other_ages {
                table.row(vec![
                    less_words(&pair.of.1, &pair.of.0).into(),
                    Cell::Number(other.age, 1),
                    other.n.1.into(),
                    other.n.0.into(),
                    Cell::Number(other.difference, self.decimals()),
                    other
                        .percent
                        .map_or(Cell::Missing, |percent| Cell::Number(percent, 0)),
                ]);
            }
        }
        if !table.rows.is_empty() {
            sheet.table(table);
        }
    }

    pub(crate) fn circumstance_table(&self, pair: &Comparison, sheet: &mut Sheet) {
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
            let second = match row.alike {
                Some(true) => Cell::from("the same"),
                _ => row.second.clone().into(),
            };
            table.row(vec![
                row.what.to_string().into(),
                row.first.clone().into(),
                second,
                alike.into(),
            ]);
        }
        sheet.table(table);
    }

    /// Readings of single plants, as typed and in one unit.
    pub(crate) fn typed_table(&self, sheet: &mut Sheet) {
        let decimals = self.decimals();
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
                row.size
                    .map_or(Cell::Missing, |size| Cell::Number(size, decimals)),
                if row.used { "yes" } else { "no" }.into(),
            ]);
        }
        if !table.rows.is_empty() {
            sheet.table(table);
        }
    }

    pub(crate) fn sitting_table(&self, sheet: &mut Sheet) {
        let decimals = self.decimals();
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
                    Cell::Number(row.median, decimals),
                    Cell::Number(row.mean, decimals),
                    row.sd
                        .map_or(Cell::Missing, |sd| Cell::Number(sd, decimals)),
                ]);
            }
        }
        if !table.rows.is_empty() {
            sheet.table(table);
        }
    }

    pub(crate) fn plant_table(&self, sheet: &mut Sheet) {
        let decimals = self.decimals();
        let group = &self.groups[0];
        if group.kind == GroupKind::Plant || group.each.is_empty() {
            return;
        }
        let headings = [
            "plant".to_owned(),
            ">n".to_owned(),
            ">from months".to_owned(),
            "+>to months".to_owned(),
            self.heading("first"),
            self.heading("last"),
            ">rate".to_owned(),
            "pot moves".to_owned(),
        ];
        let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
        // Rates over different ages put nobody before another.
        let alike = group.rate.as_ref().is_some_and(|rate| !rate.uneven);
        let mut table = Table::new(&headings).titled(format!(
            "plant by plant{}; n readings, rate{} a month",
            if alike { ", fastest first" } else { "" },
            self.of_what()
        ));
        let mut each: Vec<_> = group.each.iter().collect();
        let rate = |rate: Option<f64>| rate.unwrap_or(f64::NEG_INFINITY);
        if alike {
            each.sort_by(|a, b| rate(b.rate).total_cmp(&rate(a.rate)));
        }
        for plant in each {
            let months = |age: Option<f64>| age.map_or(Cell::Missing, |age| Cell::Number(age, 1));
            table.row(vec![
                plant.id.clone().into(),
                plant.readings.into(),
                months(plant.ages.map(|ages| ages.0)),
                months(plant.ages.map(|ages| ages.1)),
                Cell::Number(plant.sizes.0, decimals),
                Cell::Number(plant.sizes.1, decimals),
                plant
                    .rate
                    .map_or(Cell::Missing, |rate| Cell::Number(rate, 3)),
                listed(&plant.pot_moves).into(),
            ]);
        }
        sheet.table(table);
    }
}

/// `X22-02.P2 less P1` within a cross, else both codes.
fn less_words(second: &str, first: &str) -> String {
    let cross = second.split_once('.').map_or("", |(cross, _)| cross);
    let pod = first
        .strip_prefix(cross)
        .and_then(|rest| rest.strip_prefix('.'));
    match pod {
        Some(pod) if !cross.is_empty() => format!("{second} less {pod}"),
        _ => format!("{second} less {first}"),
    }
}
