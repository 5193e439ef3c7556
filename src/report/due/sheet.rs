//! What is due, as a person reads it.

use crate::analysis::due::{DueReport, DueRow, MonthRoom, Urgency};
use crate::record::Day;
use crate::report::as_text::lines;
use crate::report::caution::Weight;
use crate::report::sheet::{Cell, Report, Sheet, Table};
use crate::wording::counted;

/// Codes of one kind of open record that a screen names.
const NAMED: usize = 6;

/// Months from one row of the short table of room to the next.
const SHORT_STEP: usize = 3;

const URGENCIES: [Urgency; 4] = [Urgency::Overdue, Urgency::Now, Urgency::Soon, Urgency::Open];

impl Report for DueReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        for urgency in URGENCIES {
            let table = task_table(urgency.heading(), self.of(urgency));
            if !table.rows.is_empty() {
                sheet.table(table);
            }
        }
        sheet.table(self.room_table(1));
        self.short(&mut sheet);
        for caution in lines(&self.cautions) {
            sheet.caution(Weight::Answer, caution);
        }
        sheet
    }

    fn spreadsheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        let headings = [
            "urgency",
            "from",
            "until",
            "what",
            "code",
            "record",
            "counted from",
            "why",
        ];
        let mut table = Table::new(&headings).titled("Due");
        for row in &self.rows {
            let day = |day: i32| Day(day).to_string();
            table.row(vec![
                row.urgency.word().into(),
                row.window.map(|on| day(on.earliest)).into(),
                row.window.map(|on| day(on.latest)).into(),
                row.what().into(),
                row.code.clone().into(),
                row.task.detail().into(),
                row.since.clone().into(),
                row.why().into(),
            ]);
        }
        sheet.table(table);
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
        let within = counted(self.within_days as usize, "day", "days");
        let (on, open) = (&self.on, self.open_words());
        let due = match self.rows.first().filter(|_| overdue + now + soon > 0) {
            None if open.is_empty() => format!("{on}: nothing falls due in the next {within}"),
            None => format!("{on}: {open}; nothing falls due in the next {within}"),
            Some(first) => {
                let open = if open.is_empty() {
                    open
                } else {
                    format!("; {open}")
                };
                format!(
                    "{on}: {overdue} overdue, {now} due now, {soon} within {within}{open}. First: {} {}",
                    first.what(),
                    first.code
                )
            }
        };
        match &self.room.full.0 {
            Some(may) => format!("{due}. The shelves may be full by {may}"),
            None => due,
        }
    }

    /// `8 jobs are long overdue (2015–2022), 4 have no date`; empty without such jobs.
    fn open_words(&self) -> String {
        let ends = self.of(Urgency::Open).filter_map(|row| row.window);
        let years: Vec<i32> = ends
            .filter_map(|window| Day(window.latest).ymd())
            .map(|(year, _, _)| year)
            .collect();
        let undated = self.of(Urgency::Open).count() - years.len();
        let jobs = |n: usize| counted(n, "job is", "jobs are");
        let long = years
            .iter()
            .min()
            .zip(years.iter().max())
            .map(|(first, last)| {
                let between = match first == last {
                    true => first.to_string(),
                    false => format!("{first}–{last}"),
                };
                format!("{} long overdue ({between})", jobs(years.len()))
            });
        let undated = (undated > 0).then(|| match &long {
            Some(_) => format!(
                "{undated} {} no date",
                if undated == 1 { "has" } else { "have" }
            ),
            None => format!("{} no date", counted(undated, "job has", "jobs have")),
        });
        let parts: Vec<String> = [long, undated].into_iter().flatten().collect();
        parts.join(", ")
    }

    /// One screen: what has a date, then the open records by kind, then room by the quarter.
    fn short(&self, sheet: &mut Sheet) {
        let dated = self.rows.iter().filter(|row| row.urgency != Urgency::Open);
        let mut table = Table::new(&["when", "what", "code", "on record", "days by"]);
        for row in dated {
            let overdue = row.urgency == Urgency::Overdue;
            let when = match overdue {
                true => format!("overdue {}", row.when()),
                false => row.when(),
            };
            table.row(vec![
                when.into(),
                row.what().into(),
                row.code.clone().into(),
                row.task.detail().into(),
                row.whose().into(),
            ]);
        }
        if !table.rows.is_empty() {
            sheet.brief_table(table);
        }
        let open = self.open_by_kind();
        if !open.rows.is_empty() {
            sheet.brief_table(open);
        }
        sheet.brief_table(self.room_table(SHORT_STEP));
    }

    fn open_by_kind(&self) -> Table {
        let mut kinds: Vec<(&str, Vec<&str>)> = Vec::new();
        for row in self.of(Urgency::Open) {
            let what = row.what();
            match kinds.last_mut().filter(|(of, _)| *of == what) {
                Some((_, codes)) => codes.push(&row.code),
                None => kinds.push((what, vec![&row.code])),
            }
        }
        let mut table = Table::new(&["what", "codes"]).titled(Urgency::Open.heading());
        for (what, codes) in kinds {
            let named = codes.iter().take(NAMED).copied().collect::<Vec<_>>();
            let named = match codes.len().saturating_sub(NAMED) {
                0 => named.join(", "),
                more => format!("{} and {more} more", named.join(", ")),
            };
            table.row(vec![what.into(), named.into()]);
        }
        table
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
            _ => {
                let suffice = if self.room.shelves == 1 {
                    "suffices"
                } else {
                    "suffice"
                };
                let known = match self.room.months.iter().any(|of| of.unplaced > 0) {
                    true => " for pots of known width",
                    false => "",
                };
                format!(": your {shelves} {suffice} for a year{known}")
            }
        }
    }

    fn room_table(&self, step: usize) -> Table {
        let title = format!("Room if all live{}", self.full_words());
        let headings = ["on", ">pots", ">shelves needed"];
        let columns = if self.room.shelves == 0 { 2 } else { 3 };
        let mut table = Table::new(&headings[..columns]).titled(title);
        for of in self.room.months.iter().step_by(step) {
            table.row(month_cells(of).into_iter().take(columns).collect());
        }
        table
    }
}

impl DueReport {
    /// Room for a spreadsheet: least and most in columns of their own.
    fn room_columns(&self) -> Table {
        let headings = [
            "on",
            ">pots, least",
            ">pots, most",
            ">shelves, least",
            ">shelves, most",
            ">pots of unknown width",
        ];
        let mut table = Table::new(&headings).titled("Room");
        for of in &self.room.months {
            let shelf = |of: f64| Cell::Number(of, 2);
            table.row(vec![
                of.on.clone().into(),
                Cell::Count(of.pots.0),
                Cell::Count(of.pots.1),
                of.shelves.map(|(least, _)| shelf(least)).into(),
                of.shelves.map(|(_, most)| shelf(most)).into(),
                Cell::Count(of.unplaced),
            ]);
        }
        table
    }
}

fn task_table<'r>(title: &str, rows: impl Iterator<Item = &'r DueRow>) -> Table {
    let headings = ["days", "what", "code", "on record, and why then"];
    let mut table = Table::new(&headings).titled(title);
    for row in rows {
        table.row(vec![
            row.days().into(),
            row.what().into(),
            row.code.clone().into(),
            row.said("; ").into(),
        ]);
    }
    table
}

fn month_cells(of: &MonthRoom) -> Vec<Cell> {
    let pots = match of.pots {
        (least, most) if least == most => most.to_string(),
        (least, most) => format!("{least}–{most}"),
    };
    let shelves = of.shelves.map(|(least, most)| {
        let [least, most] = [least, most].map(|share| format!("{share:.2}"));
        match least == most {
            true => most,
            false => format!("{least}–{most}"),
        }
    });
    vec![of.on.clone().into(), pots.into(), shelves.into()]
}
