//! A screen as a person reads it.

use super::answer::ShowReport;
use crate::report::sheet::{Cell, Report, Sheet, Table};
use crate::wording::age;

impl Report for ShowReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(format!("{}: {}", self.id, self.name));
        sheet.facts(
            None,
            self.facts
                .iter()
                .map(|fact| (fact.label, Some(fact.value.clone())))
                .collect(),
        );
        if !self.history.is_empty() {
            let mut table = Table::new(&["history", "", ""]);
            for stage in &self.history {
                table.row(vec![
                    stage.stage.into(),
                    stage.when.clone().into(),
                    stage.took.clone().unwrap_or_default().into(),
                ]);
            }
            sheet.table(table);
        }
        if !self.flowerings.is_empty() {
            let mut table = Table::new(&["flowering", "sex", "known by", "ramet"]);
            for spike in &self.flowerings {
                table.row(vec![
                    spike.when.clone().into(),
                    spike.sex.clone().into(),
                    spike.seen_by.into(),
                    spike.ramet.clone().unwrap_or_default().into(),
                ]);
            }
            sheet.table(table);
        }
        if !self.ramets.is_empty() {
            let mut table = Table::new(&["ramet", "made", "status", "place"]);
            for ramet in &self.ramets {
                table.row(vec![
                    ramet.id.clone().into(),
                    ramet.made.clone().into(),
                    ramet.status.clone().into(),
                    ramet.place.clone().unwrap_or_default().into(),
                ]);
            }
            sheet.table(table);
        }
        if !self.readings.is_empty() {
            let mut table = Table::new(&["read", ">age from sowing", "what", ">as typed"]);
            for reading in &self.readings {
                table.row(vec![
                    reading.when.clone().into(),
                    Cell::from(reading.months_from_sowing.map(age)),
                    reading.of.clone().into(),
                    reading.value.clone().into(),
                ]);
            }
            sheet.table(table);
        }
        if !self.pods.is_empty() {
            let heads = [
                "pod",
                "zone",
                "pollinated",
                "harvested",
                ">seeds",
                ">numbered",
            ];
            let mut table = Table::new(&heads);
            for pod in &self.pods {
                table.row(vec![
                    pod.id.clone().into(),
                    pod.zone.clone().unwrap_or_default().into(),
                    pod.pollinated.clone().into(),
                    pod.harvested.clone().into(),
                    Cell::from(pod.seeds.map(|seeds| seeds as usize)),
                    pod.numbered.into(),
                ]);
            }
            sheet.table(table);
        }
        if !self.offspring.is_empty() {
            let mut table = Table::new(&["parent of", "as", ">numbered", "name"]);
            for cross in &self.offspring {
                table.row(vec![
                    cross.id.clone().into(),
                    cross.as_parent.clone().into(),
                    cross.numbered.into(),
                    cross.name.clone().into(),
                ]);
            }
            sheet.table(table);
        }
        self.cautions
            .iter()
            .for_each(|caution| sheet.rank(caution.clone()));
        sheet
    }
}
