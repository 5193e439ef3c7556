//! Does each reading lie within its trait, and was it taken while the plant could be read?
//!
//! Faults are reported cell by cell; what is only worth knowing (no unit, too young, too small) once for a column.

use super::absent::after_end;
use super::context::CheckContext;
use super::events::Event;
use super::reading_words::{Remark, misread_words, remark_words, unit_word};
use super::timeline::Timeline;
use super::{misplaced_points, same_plant};
use crate::diagnostic::{Code, Finding};
use crate::observation::months::months;
use crate::observation::stock_take::is_note_of_stock_take;
use crate::observation::{
    Misread, PITCHERS, in_own_unit, is_doubtful, is_too_small, is_too_young, pitcher_named,
    span_trait, value,
};
use crate::record::{Reads, Trait};
use crate::registry::{
    Column, CrossRow, PlantKind, PlantRow, Reading, SittingHead, SittingRow, TraitRow,
};
use crate::text::{Span, nearest};
use std::collections::BTreeMap;

/// One sitting under check.
struct Sitting<'g, 'r, 't> {
    context: &'g CheckContext<'r, 't>,
    head: &'r SittingHead<'t>,
    taken: Option<Event<'t>>,
    timelines: BTreeMap<CrossRow, Timeline<'t>>,
    /// The trait that is the leaf span, by which others say when they may be read.
    span: Option<TraitRow>,
    /// What is reported once for a column: how often, and where first.
    notes: BTreeMap<(u8, Remark), (usize, Option<Span>)>,
    found: Vec<Finding>,
}

/// Everything about one sitting.
pub(super) fn of_sitting(context: &CheckContext, at: SittingRow) -> Vec<Finding> {
    let head = &context.registry[at];
    let mut sitting = Sitting {
        context,
        head,
        taken: Event::new(context, head.file, "plants were read", head.sitting.on),
        timelines: BTreeMap::new(),
        span: span_trait(context.registry),
        notes: BTreeMap::new(),
        found: Vec::new(),
    };
    sitting.columns();
    let mut last = None;
    for row in 0..head.row_plants().len() {
        let span_cm = sitting.span_cm(row);
        for reading in head.row(row) {
            sitting.cell(&reading, span_cm);
            if last.replace(reading.plant) != Some(reading.plant) {
                sitting.in_time(&reading);
            }
        }
    }
    sitting.tell_notes();
    sitting.found
}

/// What looks like a slip though it can be read.
pub(super) fn advice_on_sitting(context: &CheckContext, at: SittingRow) -> Vec<Finding> {
    let head = &context.registry[at];
    let mut found = same_plant::of_sitting(context, head);
    found.extend(misplaced_points::of_sitting(context, head));
    found
}

impl<'t> Sitting<'_, '_, 't> {
    fn declared(&self, index: TraitRow) -> &Trait<'t> {
        &self.context.registry[index]
    }

    fn place(&self, reading: &Reading) -> Option<Span> {
        let cell = self.context.registry.cell(reading);
        let own = self.context.span(self.head.file, cell);
        own.or_else(|| self.context.span(self.head.file, self.head.sitting.on))
    }

    /// Headings: each once, and a unit only where lengths are read.
    fn columns(&mut self) {
        let mut first: BTreeMap<TraitRow, &str> = BTreeMap::new();
        for (column, heading) in self.head.columns.iter().zip(&self.head.sitting.columns) {
            let &Column::Trait { index, unit } = column else {
                continue;
            };
            let place = self.context.span(self.head.file, heading);
            if first.insert(index, heading).is_some() {
                self.found.push(
                    Finding::warning(Code("repeated-column"), "two columns have the same trait")
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

    /// The leaf span read on a row, cm, if a trait read in this sitting depends on it.
    fn span_cm(&self, row: usize) -> Option<f64> {
        let depends = |column: &Column| match column {
            Column::Trait { index, .. } => {
                let declared = self.declared(*index);
                declared.from_span_cm.is_some() || declared.doubtful_under_span_cm.is_some()
            }
            _ => false,
        };
        if !self.head.columns.iter().any(depends) {
            return None;
        }
        let spans = self.head.row(row).filter_map(|reading| {
            let Column::Trait { index, unit } = self.column(&reading) else {
                return None;
            };
            let cell = self.context.registry.cell(reading);
            let is_span = self.span == Some(index);
            is_span.then(|| value(self.declared(index), cell, unit).ok())?
        });
        spans.last()
    }

    fn column(&self, reading: &Reading) -> Column {
        let column = self.head.columns.get(usize::from(reading.column));
        column.copied().unwrap_or(Column::Unknown)
    }

    fn cell(&mut self, reading: &Reading, span_cm: Option<f64>) {
        let (index, unit) = match self.column(reading) {
            Column::Trait { index, unit } => (index, unit),
            Column::Pitcher => return self.pitcher(reading),
            _ => return,
        };
        let context = self.context;
        let declared = &context.registry[index];
        let cell = context.registry.cell(reading);
        match value(declared, cell, unit) {
            Ok(value) => self.bounds(reading, declared, in_own_unit(&declared.reads, value)),
            Err(Misread::UnitUnknown) => self.note(reading, Remark::NoUnit),
            Err(misread) => {
                let finding = misread_words(cell, declared, misread).at(self.place(reading));
                self.found.push(finding);
            }
        }
        self.too_early(reading, declared);
        let span_cm = span_cm.filter(|_| self.span != Some(index));
        self.too_small(reading, declared, span_cm);
    }

    fn bounds(&mut self, reading: &Reading, declared: &Trait, number: f64) {
        let Some((least, most)) = declared.between else {
            return;
        };
        let chosen = matches!(declared.reads, Reads::Scale(_) | Reads::Kinds(_));
        if chosen || (least..=most).contains(&number) {
            return;
        }
        let cell = self.context.registry.cell(reading);
        let finding = Finding::warning(
            Code("unbelievable-value"),
            format!("this {} is outside the range of its trait", &*declared.name),
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
        let cell = self.context.registry.cell(reading).trim();
        if pitcher_named(cell).is_none() {
            let finding = Finding::fault(Code("outside-trait"), "this is no kind of pitcher")
                .at(self.place(reading))
                .found(format!("`{cell}`"))
                .needed("`juvenile`, `lower`, `intermediate` or `upper`")
                .did_you_mean(nearest(cell, PITCHERS.map(|(name, _)| name)));
            self.found.push(finding);
        }
    }

    fn too_early(&mut self, reading: &Reading, declared: &Trait) {
        if declared.from_months.is_some()
            && let Some(taken) = self.taken
            && let Some(start) = self.start(reading.plant)
            && is_too_young(declared, months(start.when, taken.when))
        {
            self.note(reading, Remark::TooYoung);
        }
    }

    fn too_small(&mut self, reading: &Reading, declared: &Trait, span_cm: Option<f64>) {
        if is_too_small(declared, span_cm) {
            self.note(reading, Remark::TooSmall);
        } else if is_doubtful(declared, span_cm) {
            self.note(reading, Remark::Doubtful);
        }
    }

    fn start(&mut self, plant: PlantRow) -> Option<Event<'t>> {
        let registry = self.context.registry;
        let cross = registry.cross_of(plant)?;
        let own = registry[cross].origin;
        if registry.origin_of(plant) != Some(own) {
            return None;
        }
        let context = self.context;
        let timeline = self
            .timelines
            .entry(cross)
            .or_insert_with(|| Timeline::of(context, cross));
        timeline.start(registry.road(plant).0)
    }

    /// A plant is read after it began and before it came to its end.
    fn in_time(&mut self, reading: &Reading) {
        // A day that has not come yet is one fault of its own; what it contradicts is no second one.
        let today = self.context.today;
        let Some(taken) = self.taken.filter(|taken| taken.when.first <= today) else {
            return;
        };
        let registry = self.context.registry;
        if registry.kind(reading.plant) == PlantKind::Seedling
            && let Some(start) = self.start(reading.plant)
        {
            self.found.extend(taken.must_follow(self.context, &start));
        }
        // A stock-take that did not find the plant agrees with its end.
        if !is_note_of_stock_take(self.head, reading)
            && let Some(late) = after_end(self.context, reading.plant, &taken)
        {
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
