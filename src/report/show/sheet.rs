//! A screen as a person reads it.

use super::answer::ShowReport;
use crate::report::fact::Fact;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::Table;
use crate::wording::{about, age};

impl Report for ShowReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(format!("{}: {}", self.id, self.name));
        sheet.facts(None, self.facts.iter().map(Fact::told));
        sheet.table_if_any(
            Table::of(&self.history)
                .text("history", |stage| stage.stage)
                .text("", |stage| &stage.when)
                .text("", |stage| stage.took.as_deref().unwrap_or_default()),
        );
        sheet.table_if_any(
            Table::of(&self.flowerings)
                .text("flowering", |spike| &spike.when)
                .text("sex", |spike| &spike.sex)
                .text("known by", |spike| spike.seen_by)
                .text("piece", |spike| spike.ramet.as_deref().unwrap_or_default())
                .text_if_any("over", |spike| spike.over.as_deref())
                .text_if_any("spike", |spike| spike.spike.as_deref())
                .text_if_any("remark", |spike| spike.note.as_deref()),
        );
        sheet.table_if_any(
            Table::of(&self.ramets)
                .text("piece", |ramet| &ramet.id)
                .text("made", |ramet| &ramet.made)
                .text("status", |ramet| &ramet.status)
                .text("place", |ramet| ramet.place.as_deref().unwrap_or_default())
                .text_if_any("pot", |ramet| ramet.pot.as_deref())
                .text_if_any("handed on", |ramet| ramet.handed_on.as_deref()),
        );
        sheet.table_if_any(
            Table::of(&self.readings)
                .text("read", |reading| &reading.when)
                .figure("age from sowing", |reading| {
                    reading.months_from_sowing.map(age)
                })
                .text("what", |reading| match reading.doubtful {
                    true => format!("{} (doubtful: small plant)", reading.of),
                    false => reading.of.clone(),
                })
                .figure("as typed", |reading| &reading.value)
                .text_if_any("method", |reading| reading.method.as_deref()),
        );
        sheet.table_if_any(
            Table::of(&self.pods)
                .text("pod", |pod| &pod.id)
                .text("zone", |pod| pod.zone.as_deref().unwrap_or_default())
                .text("pollinated", |pod| &pod.pollinated)
                .text("harvested", |pod| &pod.harvested)
                .figure("seeds", |pod| {
                    pod.seeds.map(|of| about(of, pod.seeds_estimated))
                })
                .figure("numbered", |pod| pod.numbered),
        );
        sheet.table_if_any(
            Table::of(&self.offspring)
                .text("parent of", |cross| &cross.id)
                .text("as", |cross| &cross.as_parent)
                .figure("numbered", |cross| cross.numbered)
                .text("name", |cross| &cross.name),
        );
        sheet.ranked(&self.cautions);
        sheet
    }
}
