//! What is due, as a person reads it.

use crate::analysis::due::{DueReport, DueRow, MonthRoom, Urgency};
use crate::record::Day;
use crate::report::as_text::lines;
use crate::report::caution::Weight;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::{Columns, Table};
use crate::wording::{counted, from_to, joined_if_any, led_by};

/// Codes of one kind of open record that a screen names.
const NAMED: usize = 6;

/// Up to so many days ahead are given as a number, more by the last of them.
const COUNTED: u32 = 62;
/// Months from one row of the short table of room to the next.
const SHORT_STEP: usize = 3;

const URGENCIES: [Urgency; 5] = [
    Urgency::Overdue,
    Urgency::Now,
    Urgency::Soon,
    Urgency::LongOverdue,
    Urgency::NoDate,
];

impl Report for DueReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        for urgency in URGENCIES {
            sheet.table_if_any(task_table(urgency.heading(), self.of(urgency)));
        }
        sheet.table(self.room_table(1));
        self.short(&mut sheet);
        sheet.cautions(Weight::Answer, lines(&self.cautions));
        sheet
    }

    fn spreadsheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        let day = |day: i32| Day(day).to_string();
        sheet.table(
            Table::of(&self.rows)
                .titled("Due")
                .text("urgency", |row| row.urgency.word())
                .text("from", |row| row.window.map(|on| day(on.earliest)))
                .text("until", |row| row.window.map(|on| day(on.latest)))
                .text("what", DueRow::what)
                .text("code", |row| &row.code)
                .text_if_any("spike", |row| row.spike.as_deref())
                .text("record", |row| row.task.detail())
                .text("counted from", |row| &row.since)
                .text("why", DueRow::why),
        );
        sheet.table(self.room_columns());
        sheet
    }
}

impl DueReport {
    fn of(&self, urgency: Urgency) -> impl Iterator<Item = &DueRow> {
        self.rows.iter().filter(move |row| row.urgency == urgency)
    }

    fn answer(&self) -> String {
        let [overdue, now, soon] =
            [URGENCIES[0], URGENCIES[1], URGENCIES[2]].map(|urgency| self.of(urgency).count());
        let within = self.within_words();
        let (on, open) = (&self.on, self.open_words());
        let due = match self.rows.first().filter(|_| overdue + now + soon > 0) {
            None => {
                let open = open.map(|open| format!("{open}; ")).unwrap_or_default();
                format!("{on}: {open}nothing falls due {within}")
            }
            Some(first) => {
                let (what, code, open) = (first.what(), first.told(), led_by("; ", open));
                format!(
                    "{on}: {overdue} overdue, {now} due now, {soon} {within}{open}. First: {what} {code}"
                )
            }
        };
        let full = self.full_now().or_else(|| self.full_later());
        format!("{due}{}", led_by(". ", full))
    }

    /// How far ahead was looked: `in the next 30 days`, or of many days the last, `by 2026-06-08`.
    fn within_words(&self) -> String {
        match self.within_days {
            few @ ..=COUNTED => format!("in the next {}", counted(few as usize, "day", "days")),
            _ => format!("by {}", self.until),
        }
    }

    /// That there is no room left, and how much is needed: `The 2 shelves are full: pots for 2.4 to 2.6 stand here`.
    fn full_now(&self) -> Option<String> {
        let today = self.room.months.first()?;
        if self.room.full.1.as_ref() != Some(&today.on) {
            return None;
        }
        let [least, most] = <[f64; 2]>::from(today.shelves?).map(|of| format!("{of:.1}"));
        let needed = from_to(least, most, " to ");
        Some(match self.room.shelves {
            1 => format!("The shelf is full: the pots need {needed} of it"),
            shelves => format!("The {shelves} shelves are full: the pots need {needed}"),
        })
    }

    /// When the shelves fill.
    fn full_later(&self) -> Option<String> {
        let may = self.room.full.0.as_ref()?;
        let today = self.room.months.first().map(|month| &month.on);
        let shelves = match self.room.shelves {
            1 => "shelf",
            _ => "shelves",
        };
        Some(match today == Some(may) {
            true => format!("The {shelves} may be full already"),
            false => format!("The {shelves} may be full by {may}"),
        })
    }

    /// `8 jobs are long overdue (2015–2022), 4 have no date`; `None` without such jobs.
    fn open_words(&self) -> Option<String> {
        let ends = self.of(Urgency::LongOverdue).filter_map(|row| row.window);
        let years = ends.filter_map(|window| Day(window.latest).ymd());
        let years: Vec<i32> = years.map(|(year, _, _)| year).collect();
        let ends = years.iter().min().zip(years.iter().max());
        let long = ends.map(|(first, last)| {
            let jobs = counted(years.len(), "job is", "jobs are");
            format!("{jobs} long overdue ({})", from_to(first, last, "–"))
        });
        let undated = match (self.of(Urgency::NoDate).count(), &long) {
            (0, _) => None,
            (1, Some(_)) => Some("1 has no date".to_owned()),
            (n, Some(_)) => Some(format!("{n} have no date")),
            (n, None) => Some(format!("{} no date", counted(n, "job has", "jobs have"))),
        };
        joined_if_any([long, undated].into_iter().flatten(), ", ")
    }

    /// One screen: what has a date, then the open records by kind, then room by the quarter.
    fn short(&self, sheet: &mut Sheet) {
        let dated = self.rows.iter().filter(|row| row.urgency.is_dated());
        sheet.brief_table_if_any(
            Table::of(dated)
                .text("when", |row| match row.urgency {
                    Urgency::Overdue => format!("overdue {}", row.when()),
                    _ => row.when(),
                })
                .text("what", DueRow::what)
                .text("code", |row| row.told())
                .text("on record", |row| row.task.detail())
                .text("days by", DueRow::whose),
        );
        sheet.brief_table_if_any(self.open_by_kind());
        sheet.brief_table(self.room_table(SHORT_STEP));
    }

    fn open_by_kind(&self) -> Table {
        let mut kinds: Vec<(&str, Vec<&str>)> = Vec::new();
        for row in self.rows.iter().filter(|row| !row.urgency.is_dated()) {
            let what = row.what();
            match kinds.iter_mut().find(|(of, _)| *of == what) {
                Some((_, codes)) => codes.push(&row.code),
                None => kinds.push((what, vec![&row.code])),
            }
        }
        let named = |codes: &[&str]| {
            let named = codes[..codes.len().min(NAMED)].join(", ");
            match codes.len().saturating_sub(NAMED) {
                0 => named,
                more => format!("{named} and {more} more"),
            }
        };
        Table::of(&kinds)
            .titled("Long overdue, or without a date")
            .text("what", |(what, _)| *what)
            .text("codes", |(_, codes)| named(codes))
            .into()
    }

    /// When the shelves fill, after a colon; nothing without shelves.
    fn full_words(&self) -> String {
        let shelves = counted(self.room.shelves, "shelf", "shelves");
        match (self.room.shelves, &self.room.full) {
            (0, _) => String::new(),
            (_, (Some(may), Some(sure))) if may == sure => format!(": {shelves} full by {may}"),
            (_, (Some(may), Some(sure))) => {
                format!(": {shelves} may be full by {may}, full by {sure}")
            }
            (_, (Some(may), None)) => format!(": {shelves} may be full by {may}"),
            (shelves_here, _) => {
                let suffice = match shelves_here {
                    1 => "suffices",
                    _ => "suffice",
                };
                let any = |of: fn(&MonthRoom) -> u64| self.room.months.iter().any(|m| of(m) > 0);
                let known = match (any(|of| of.unplaced), any(|of| of.too_wide)) {
                    (false, false) => "",
                    (true, false) => " for pots of known width",
                    (false, true) => " for the pots that fit",
                    (true, true) => " for pots of known width that fit",
                };
                format!(": your {shelves} {suffice} for a year{known}")
            }
        }
    }

    fn room_table(&self, step: usize) -> Table {
        let title = format!("Room if all live{}", self.full_words());
        let every = || self.room.months.iter();
        // A month like the one before it is not said again.
        let mut changes: Vec<&MonthRoom> = every().collect();
        changes.dedup_by_key(|of| (of.pots, of.shelves, of.unplaced, of.too_wide));
        let (heading, months) = match changes.len() <= every().step_by(step).len() {
            true => ("from", changes),
            false => ("on", every().step_by(step).collect()),
        };
        Table::of(months)
            .titled(title)
            .text(heading, |of| &of.on)
            .figure("pots", |of| from_to(of.pots.0, of.pots.1, "–"))
            .when(self.room.shelves > 0, |columns| {
                columns.figure("shelves needed", |of| {
                    let [least, most] = <[f64; 2]>::from(of.shelves?).map(|of| format!("{of:.2}"));
                    Some(from_to(least, most, "–"))
                })
            })
            .into()
    }

    /// Room for a spreadsheet: least and most in columns of their own.
    fn room_columns(&self) -> Table {
        Table::of(&self.room.months)
            .titled("Room")
            .text("on", |of| &of.on)
            .figure("pots, least", |of| of.pots.0)
            .figure("pots, most", |of| of.pots.1)
            .number("shelves, least", 2, |of| Some(of.shelves?.0))
            .number("shelves, most", 2, |of| Some(of.shelves?.1))
            .figure("pots of unknown width", |of| of.unplaced)
            .count_if_any("pots too wide for a shelf", |of| of.too_wide as usize)
            .into()
    }
}

fn task_table<'r>(title: &str, rows: impl Iterator<Item = &'r DueRow>) -> Columns<&'r DueRow> {
    Table::of(rows)
        .titled(title)
        .text("days", DueRow::days)
        .text("what", DueRow::what)
        .text("code", |row| row.told())
        .text("on record, and why then", |row| row.said("; "))
}
