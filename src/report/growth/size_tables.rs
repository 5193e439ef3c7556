//! Tables of sizes: at the common age, as typed, as read, plant by plant, and what else differed.

use crate::analysis::growth::Averaged;
use crate::analysis::growth::Comparison;
use crate::analysis::growth::GroupGrowth;
use crate::analysis::growth::GroupKind;
use crate::analysis::growth::GrowthReport;
use crate::report::cell::Cell;
use crate::report::sheet::Sheet;
use crate::report::table::Table;
use crate::wording::{age, bare_age, listed, with_its_unit};

impl GrowthReport {
    /// A heading with the unit of the trait.
    fn heading(&self, what: &str) -> String {
        match self.unit {
            "" => what.to_owned(),
            unit => format!("{what} {unit}"),
        }
    }

    pub(crate) fn common_age_table(&self, sheet: &mut Sheet) {
        let decimals = self.decimals();
        let sides = || {
            let sides = self.comparisons.iter();
            let sides = sides.filter_map(|pair| Some((pair.unit, pair.sides.as_ref()?)));
            sides.flat_map(|(unit, (a, b))| [(unit, a), (unit, b)])
        };
        let of_pods = |unit: Averaged| unit == Averaged::Pod;
        let any_of_pods = sides().any(|(unit, _)| of_pods(unit));
        let families = match sides().any(|(_, side)| side.some_are_sowings) {
            true => "pods or sowings",
            false => "pods",
        };
        let mut table: Table = Table::of(sides())
            .titled(with_its_unit(
                &format!("{} at the common age", self.of_trait),
                self.unit,
            ))
            .text("group", |(_, side)| &side.id)
            .number("months", 1, |(_, side)| side.age)
            .figure("n", |(_, side)| side.n)
            .figure("of plants", |(_, side)| side.plants)
            .number("median", decimals, |(_, side)| side.median)
            .when(sides().any(|(unit, _)| !of_pods(unit)), |columns| {
                columns.number("mean", decimals, |(unit, side)| {
                    (!of_pods(unit)).then_some(side.mean)
                })
            })
            .when(any_of_pods, |columns| {
                columns.number("mean of pods", decimals, |(unit, side)| {
                    of_pods(unit).then_some(side.mean)
                })
            })
            .number("SD", decimals, |(_, side)| side.sd)
            .count_if_any("interpolated", |(_, side)| side.interpolated)
            .figure(families, |(_, side)| side.families)
            .into();
        if table.rows.is_empty() {
            return;
        }
        table.rows.dedup();
        sheet.table(table);
        self.difference_table(sheet);
    }

    fn difference_table(&self, sheet: &mut Sheet) {
        let all = self.comparisons.iter();
        let rows = all.filter_map(|pair| Some((pair, pair.difference?)));
        sheet.table(
            Table::of(rows)
                .text("difference", |(pair, _)| pair.less_words())
                .number(self.heading("by"), self.decimals(), |(_, by)| by)
                .number("%", 0, |(pair, _)| pair.percent)
                .limits(["95 % from", "to"], self.decimals(), |(pair, _)| {
                    pair.interval
                })
                .number("months", 1, |(pair, _)| pair.age)
                .number("g", 2, |(pair, _)| pair.g.map(|g| g.0))
                .limits(["g from", "g to"], 2, |(pair, _)| pair.g.map(|g| g.1))
                .text("of", |(pair, _)| pair.unit.to_string()),
        );
    }

    /// The difference at the other ages at which both were read.
    pub(crate) fn other_ages_table(&self, sheet: &mut Sheet) {
        let all = self.comparisons.iter();
        let rows = all.flat_map(|pair| pair.other_ages.iter().map(move |other| (pair, other)));
        sheet.table_if_any(
            Table::of(rows)
                .titled("at the other ages at which both were read, not tested")
                .text("difference", |(pair, _)| pair.less_words())
                .number("months", 1, |(_, other)| other.age)
                .figure("n", |(_, other)| other.n.1)
                .figure("less n", |(_, other)| other.n.0)
                .number(self.heading("by"), self.decimals(), |(_, other)| {
                    other.difference
                })
                .number("%", 0, |(_, other)| other.percent),
        );
    }

    pub(crate) fn circumstance_table(&self, pair: &Comparison, sheet: &mut Sheet) {
        sheet.table_if_any(
            Table::of(&pair.circumstances)
                .text("what else", |row| row.what.to_string())
                .text(&pair.of.0, |row| &row.first)
                .text(&pair.of.1, |row| match row.alike {
                    Some(true) => Cell::from("the same"),
                    _ => Cell::from(&row.second),
                })
                .text("alike", |row| match row.alike {
                    Some(true) => "yes",
                    Some(false) => "no",
                    None if row.first.is_some() && row.second.is_some() => "not known",
                    None => "not recorded",
                }),
        );
    }

    /// Readings of single plants, as typed and in one unit.
    pub(crate) fn typed_table(&self, sheet: &mut Sheet) {
        sheet.table_if_any(
            Table::of(self.groups.iter().flat_map(|group| &group.typed))
                .titled(format!("{} as typed", self.of_trait))
                .text("plant", |row| &row.id)
                .text("read on", |row| &row.on)
                .text("age", |row| row.age.map(age))
                .text("as typed", |row| &row.typed)
                .number(self.heading("size"), self.decimals(), |row| row.size)
                .text("used", |row| if row.used { "yes" } else { "no" }),
        );
    }

    pub(crate) fn sitting_table(&self, sheet: &mut Sheet) {
        let decimals = self.decimals();
        let several = |group: &&GroupGrowth| group.kind != GroupKind::Plant;
        let of_groups = self.groups.iter().filter(several);
        let rows = of_groups.flat_map(|group| group.sittings.iter().map(move |row| (group, row)));
        sheet.table_if_any(
            Table::of(rows)
                .titled(format!("{} as read", self.of_trait))
                .text("group", |(group, _)| &group.id)
                .text("read on", |(_, row)| &row.on)
                .text("age", |(_, row)| row.age.map(age))
                .figure("n", |(_, row)| row.n)
                .number(self.heading("median"), decimals, |(_, row)| row.median)
                .number(self.heading("mean"), decimals, |(_, row)| row.mean)
                .number(self.heading("SD"), decimals, |(_, row)| row.sd),
        );
    }

    pub(crate) fn plant_table(&self, sheet: &mut Sheet) {
        let decimals = self.decimals();
        let group = &self.groups[0];
        if group.kind == GroupKind::Plant || group.each.is_empty() {
            return;
        }
        // Rates over different ages put nobody before another.
        let alike = group.rate.as_ref().is_some_and(|rate| !rate.uneven);
        let title = format!(
            "plant by plant{}; n readings, rate{} a month",
            if alike { ", fastest first" } else { "" },
            self.of_what()
        );
        let mut each: Vec<_> = group.each.iter().collect();
        let rate = |rate: Option<f64>| rate.unwrap_or(f64::NEG_INFINITY);
        if alike {
            each.sort_by(|a, b| rate(b.rate).total_cmp(&rate(a.rate)));
        }
        sheet.table(
            Table::of(each)
                .titled(title)
                .text("plant", |plant| &plant.id)
                .figure("n", |plant| plant.readings)
                .figure("from months", |plant| {
                    plant.ages.map(|[first, _]| bare_age(first))
                })
                .figure("to months", |plant| {
                    plant.ages.map(|[_, last]| bare_age(last))
                })
                .beside()
                .number(self.heading("first"), decimals, |plant| plant.sizes.0)
                .number(self.heading("last"), decimals, |plant| plant.sizes.1)
                .number("rate", 3, |plant| plant.rate)
                .text("pot moves", |plant| listed(&plant.pot_moves)),
        );
    }
}

impl Comparison {
    /// `X22-02.P2 less P1` within a cross, else both codes.
    fn less_words(&self) -> String {
        let (first, second) = &self.of;
        let first = self.first_within.as_ref().unwrap_or(first);
        format!("{second} less {first}")
    }
}
