//! Does each reading lie within its trait, and was it taken while the plant could be read?
//!
//! Faults are told cell by cell; what is only worth knowing (no unit, too young, too small) once for a column.

use super::events::Event;
use super::ground::Ground;
use super::reading_words::{Remark, misread_words, remark_words, unit_word};
use super::road::{Road, after_end};
use super::same_plant;
use super::values::{Value, read};
use crate::diagnostic::{Code, Finding};
use crate::record::{LengthUnit, Reads, Trait};
use crate::registry::{Column, PlantKind, PlantRow, Reading, SittingHead};
use crate::text::{Span, nearest};
use std::collections::BTreeMap;

/// The trait whose code means the leaf span, by which others say when they may be read.
const LEAF_SPAN: &str = "span";
/// Mean days of a month: 365.25 / 12.
const MONTH: f64 = 30.4375;

/// One sitting under check.
struct Sitting<'g, 'r, 't> {
    ground: &'g Ground<'r, 't>,
    head: &'r SittingHead<'t>,
    taken: Option<Event<'t>>,
    roads: BTreeMap<u32, Road<'t>>,
    /// Leaf spans read in this sitting, cm, by plant.
    spans: BTreeMap<PlantRow, f64>,
    /// What is told once for a column: how often, and where first.
    notes: BTreeMap<(u8, Remark), (usize, Option<Span>)>,
    found: Vec<Finding>,
}

/// Everything about one sitting.
pub(super) fn of_sitting(ground: &Ground, at: usize) -> Vec<Finding> {
    let head = &ground.registry.readings.sittings()[at];
    let mut sitting = Sitting {
        ground,
        head,
        taken: Event::new(ground, head.file, "plants were read", head.sitting.on),
        roads: BTreeMap::new(),
        spans: BTreeMap::new(),
        notes: BTreeMap::new(),
        found: Vec::new(),
    };
    sitting.columns();
    let readings: Vec<Reading> = head.readings().collect();
    sitting.read_spans(&readings);
    let mut last = None;
    for reading in &readings {
        sitting.cell(reading);
        if last.replace(reading.plant) != Some(reading.plant) {
            sitting.in_time(reading);
        }
    }
    sitting.tell_notes();
    sitting.found.extend(same_plant::of_sitting(ground, head));
    sitting.found
}

impl<'t> Sitting<'_, '_, 't> {
    fn declared(&self, index: u16) -> &Trait<'t> {
        &self.ground.registry.settings.traits[usize::from(index)]
    }

    fn place(&self, reading: &Reading) -> Option<Span> {
        let cell = self.ground.registry.cell(reading);
        let own = self.ground.span(self.head.file, cell);
        own.or_else(|| self.ground.span(self.head.file, self.head.sitting.on))
    }

    /// Headings: each once, and a unit only where lengths are read.
    fn columns(&mut self) {
        let mut first: BTreeMap<u16, &str> = BTreeMap::new();
        for (column, heading) in self.head.columns.iter().zip(&self.head.sitting.columns) {
            let &Column::Trait { index, unit } = column else {
                continue;
            };
            let place = self.ground.span(self.head.file, heading);
            if first.insert(index, heading).is_some() {
                self.found.push(
                    Finding::warning(Code("repeated-column"), "one trait heads two columns")
                        .at(place)
                        .found(format!("`{heading}`"))
                        .needed("each trait once in a sitting")
                        .help("a second reading of the same plants is a sitting of its own"),
                );
            }
            let is_length = matches!(self.declared(index).reads, Reads::Length(_));
            if unit.is_some() && !is_length {
                self.found.push(
                    Finding::fault(Code("unit-not-needed"), "this trait has no unit")
                        .at(place)
                        .found(format!("`{heading}`"))
                        .needed(format!("`{}`", self.declared(index).code)),
                );
            }
        }
    }

    /// Leaf spans of this sitting, if a trait read in it depends on them.
    fn read_spans(&mut self, readings: &[Reading]) {
        let depends = |column: &Column| match column {
            Column::Trait { index, .. } => {
                let declared = self.declared(*index);
                declared.from_span_cm.is_some() || declared.doubtful_under_span_cm.is_some()
            }
            _ => false,
        };
        if !self.head.columns.iter().any(depends) {
            return;
        }
        for reading in readings {
            if let Column::Trait { index, unit } = self.column(reading)
                && self.declared(index).code == LEAF_SPAN
                && let Some(cm) = self.cm(reading, unit)
            {
                self.spans.insert(reading.plant, cm);
            }
        }
    }

    fn column(&self, reading: &Reading) -> Column {
        let column = self.head.columns.get(usize::from(reading.column));
        column.copied().unwrap_or(Column::Unknown)
    }

    fn cm(&self, reading: &Reading, unit: Option<LengthUnit>) -> Option<f64> {
        let cell = self.ground.registry.cell(reading);
        let reads = Reads::Length(crate::record::MeasuredIn::Cm);
        match read(cell, &reads, unit) {
            Ok(Value::Number(cm)) => Some(cm),
            _ => None,
        }
    }

    fn cell(&mut self, reading: &Reading) {
        let (index, unit) = match self.column(reading) {
            Column::Trait { index, unit } => (index, unit),
            Column::Pitcher => return self.pitcher(reading),
            _ => return,
        };
        let ground = self.ground;
        let declared = &ground.registry.settings.traits[usize::from(index)];
        let cell = ground.registry.cell(reading);
        match read(cell, &declared.reads, unit) {
            Ok(Value::Number(number)) => self.bounds(reading, declared, number),
            Ok(Value::Bare) => self.note(reading, Remark::NoUnit),
            Ok(Value::Choice) => {}
            Err(misread) => {
                let finding = misread_words(cell, declared, misread).at(self.place(reading));
                self.found.push(finding);
            }
        }
        self.too_early(reading, declared);
    }

    fn bounds(&mut self, reading: &Reading, declared: &Trait, number: f64) {
        let Some((least, most)) = declared.between else {
            return;
        };
        if (least..=most).contains(&number) {
            return;
        }
        let cell = self.ground.registry.cell(reading);
        let finding = Finding::warning(
            Code("unbelievable-value"),
            format!("no plant reads this for {}", &*declared.name),
        )
        .at(self.place(reading))
        .found(format!("`{cell}`"))
        .needed(format!("{least} to {most}{}", unit_word(&declared.reads)))
        .help(
            "is it a slip of the pen, or another unit? if it is true, widen `between` of the trait",
        );
        self.found.push(finding);
    }

    fn pitcher(&mut self, reading: &Reading) {
        const KINDS: [&str; 4] = ["juvenile", "lower", "intermediate", "upper"];
        let cell = self.ground.registry.cell(reading).trim();
        if !KINDS.contains(&cell) {
            let finding = Finding::fault(Code("outside-trait"), "this is no kind of pitcher")
                .at(self.place(reading))
                .found(format!("`{cell}`"))
                .needed("`juvenile`, `lower`, `intermediate` or `upper`")
                .did_you_mean(nearest(cell, KINDS));
            self.found.push(finding);
        }
    }

    fn too_early(&mut self, reading: &Reading, declared: &Trait) {
        if let Some(months) = declared.from_months
            && let Some(taken) = self.taken
            && let Some(start) = self.start(reading.plant)
            && let Some((_, oldest)) = start.when.days_until(taken.when)
            && f64::from(oldest) < months * MONTH
        {
            self.note(reading, Remark::TooYoung);
        }
        if let Some(span) = self.spans.get(&reading.plant).copied() {
            if declared.from_span_cm.is_some_and(|least| span < least) {
                self.note(reading, Remark::TooSmall);
            } else if declared
                .doubtful_under_span_cm
                .is_some_and(|least| span < least)
            {
                self.note(reading, Remark::Doubtful);
            }
        }
    }

    fn start(&mut self, plant: PlantRow) -> Option<Event<'t>> {
        let registry = self.ground.registry;
        let cross = registry.cross_of(plant)?;
        let own = registry.crosses[cross as usize].origin;
        if registry.origin_of(plant) != Some(own) {
            return None;
        }
        let ground = self.ground;
        let road = self
            .roads
            .entry(cross)
            .or_insert_with(|| Road::of(ground, cross as usize));
        road.start(registry.road(plant).0)
    }

    /// A plant is read after it began and before it came to its end.
    fn in_time(&mut self, reading: &Reading) {
        let Some(taken) = self.taken else { return };
        let registry = self.ground.registry;
        if registry.kind(reading.plant) == PlantKind::Seedling
            && let Some(start) = self.start(reading.plant)
        {
            self.found.extend(taken.must_follow(self.ground, &start));
        }
        if let Some(late) = after_end(self.ground, reading.plant, &taken) {
            self.found.push(late.at(self.place(reading)));
        }
    }

    fn note(&mut self, reading: &Reading, remark: Remark) {
        let key = (reading.column, remark);
        if let Some((count, _)) = self.notes.get_mut(&key) {
            *count += 1;
        } else {
            let place = self.place(reading);
            self.notes.insert(key, (1, place));
        }
    }

    fn tell_notes(&mut self) {
        for ((column, remark), (count, place)) in std::mem::take(&mut self.notes) {
            let Some(Column::Trait { index, .. }) = self.head.columns.get(usize::from(column))
            else {
                continue;
            };
            let declared = self.declared(*index);
            let finding = remark_words(remark, declared, count).at(place);
            self.found.push(finding);
        }
    }
}
