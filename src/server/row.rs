//! A row of a sitting that a page sent: judged cell by cell as at the keyboard, and written as one event.

use super::fared::Fared;
use super::fields::{Fields, option};
use crate::observation::asked_columns::AskedColumn;
use crate::record::Day;
use crate::recording::book::Change;
use crate::recording::dates::dated;
use crate::recording::events::measure::{Measure, MeasuredRow, Seen};
use crate::recording::events::sitting_page::{Circumstances, sitting_of};
use crate::recording::measuring::{Session, Start, Step, plants_to_read, session};
use crate::recording::plants::single;
use crate::recording::rows_asked::columns_asked;
use crate::recording::voice::Voice;
use crate::registry::{PlantRow, Registry};
use crate::report::measuring::{doubt_words, refusal_words};

/// What was typed of one plant.
#[derive(Debug)]
pub struct Row {
    plant: String,
    traits: Vec<String>,
    /// A cell for each trait; or, where there are none, answers of a line.
    answers: Answers,
    circumstances: Circumstances,
    /// Whether it may take the place of a row that is there.
    again: bool,
    /// What stood in each cell on the page when it was touched; none where the page does not say.
    seen: Seen,
    /// Whether readings in doubt are meant.
    sure: bool,
}

#[derive(Debug)]
enum Answers {
    Cells(Vec<String>, Option<String>),
    Line(String),
}

impl Row {
    /// The fields of a row.
    ///
    /// # Errors
    /// What does not fit, in words.
    pub fn of(fields: &mut Fields) -> Result<Row, String> {
        let traits = fields.list("traits")?;
        if traits.is_empty() {
            return Err("`traits` is missing".to_owned());
        }
        let (cells, note) = (fields.list("cells")?, fields.text("note")?);
        let answers = match fields.text("line")? {
            Some(line) if cells.is_empty() => Answers::Line(line),
            Some(_) => return Err("a row has `cells` or a `line`, not both".to_owned()),
            None if cells.len() == traits.len() => Answers::Cells(cells, note),
            None => return Err("`cells` needs as many as there are `traits`".to_owned()),
        };
        Ok(Row {
            plant: fields.needed("plant")?,
            traits,
            answers,
            circumstances: Circumstances {
                on: fields.text("on")?,
                place: fields.text("place")?,
                ..Circumstances::default()
            },
            again: fields.is("again")?,
            seen: Seen {
                cells: fields.list("seen")?,
                note: None,
            },
            sure: fields.is("sure")?,
        })
    }

    /// The words of the command behind its name.
    pub fn words(&self) -> Vec<String> {
        let mut words = vec![self.plant.clone(), "--traits".to_owned()];
        words.push(self.traits.join(","));
        words.extend(option("--place", self.circumstances.place.as_ref()));
        words.extend(self.again.then(|| "--again".to_owned()));
        words.extend(option("--on", self.circumstances.on.as_ref()));
        words
    }

    /// What was typed, each cell under its trait: the command asks for it one by one.
    pub fn typed(&self) -> Vec<String> {
        match &self.answers {
            Answers::Line(line) => vec![format!("line={line}")],
            Answers::Cells(cells, note) => {
                let cells = self.traits.iter().zip(cells);
                let cells = cells.map(|(of, cell)| format!("{of}={cell}"));
                let note = note.as_ref().map(|note| format!("note={note}"));
                cells.chain(note).collect()
            }
        }
    }

    /// The change it makes.
    ///
    /// # Errors
    /// If a cell is no reading, looks like a slip, or the plant has a row already.
    pub fn change(&self, registry: &Registry, today: Day) -> Result<Change, Fared> {
        let plant = single(registry, &self.plant)?.plant;
        let columns = columns_asked(registry, &self.traits, &[plant])?;
        let (row, replaces) = self.taken(registry, (plant, &columns), today)?;
        let event = Measure {
            circumstances: self.circumstances.clone(),
            columns,
            rows: vec![row],
            again: replaces,
        };
        Ok(Change::of(registry, today, |draft| event.record(draft))?)
    }

    fn taken(
        &self,
        registry: &Registry,
        (plant, columns): (PlantRow, &[AskedColumn]),
        today: Day,
    ) -> Result<(MeasuredRow, bool), Fared> {
        let on = dated(
            registry,
            "the date",
            self.circumstances.on.as_deref(),
            today,
        )?;
        // The siblings come along, so that each reading is held against theirs of this day.
        let siblings = registry.plants().filter(|of| {
            *of != plant
                && registry.cross_of(plant).is_some()
                && registry.cross_of(*of) == registry.cross_of(plant)
        });
        let plants: Vec<PlantRow> = std::iter::once(plant).chain(siblings).collect();
        let start = Start {
            plants: &plants,
            columns,
            on: &on,
            circumstances: &self.circumstances,
            again: true,
        };
        let (session, _) = session(registry, &start);
        let mut taking = Taking {
            row: self,
            columns,
            session,
        };
        let (row, is_there) = taking.take()?;
        if is_there {
            let (read, ..) = plants_to_read(registry, &start);
            let there = read.first().map_or(&[][..], |of| &of.row.cells);
            if !self.again || self.is_changed_since(there) {
                let has = whole_row(registry, plant, &start);
                self.beside(&row, (columns, there), &has.join(", "))?;
            }
        }
        Ok((row, is_there))
    }

    /// Whether a cell that this one changes has got another reading since the page showed it.
    fn is_changed_since(&self, there: &[String]) -> bool {
        let touched = |at: usize| match &self.answers {
            Answers::Cells(cells, _) => cells.get(at).is_some_and(|cell| !cell.is_empty()),
            Answers::Line(_) => true,
        };
        let shown = self.seen.cells.len();
        let mut there = there.iter().take(shown).enumerate();
        there.any(|(at, there)| touched(at) && self.seen.is_changed(at, there))
    }

    /// A row that another device entered is changed by no one who has not seen it; a death changes nothing in it.
    fn beside(
        &self,
        row: &MeasuredRow,
        (columns, there): (&[AskedColumn], &[String]),
        has: &str,
    ) -> Result<(), Fared> {
        let readings = |cells: &[String], of: &dyn Fn(usize) -> bool| -> Vec<String> {
            let cells = cells.iter().enumerate().filter(|(at, _)| of(*at));
            cells
                .filter(|(_, cell)| !cell.is_empty())
                .map(|(at, cell)| format!("{} {cell}", columns[at].heading))
                .collect()
        };
        let differs = |at: usize| there.get(at) != row.cells.get(at);
        let mine = readings(&row.cells, &differs);
        if row.dead && mine.is_empty() {
            return Ok(());
        }
        let replaces = !readings(there, &differs).is_empty();
        let mut words = format!("{} has a row in this sitting already: {has}", self.plant);
        if !mine.is_empty() {
            let verb = if replaces {
                "would change it to"
            } else {
                "adds"
            };
            words += &format!(". Yours {verb}: {}", mine.join(", "));
        }
        Err(Fared::There { words, replaces })
    }
}

/// All that a plant's row has in the sitting that goes on, each with the heading of its column.
fn whole_row(registry: &Registry, plant: PlantRow, start: &Start) -> Vec<String> {
    let given = (start.on, start.circumstances);
    let sitting = sitting_of(registry, plant, start.columns, given);
    let Some(there) = sitting else {
        return Vec::new();
    };
    let heads = registry
        .all_sittings()
        .find(|(row, _)| *row == there.sitting);
    let headings = heads.map_or(&[][..], |(_, head)| &head.sitting.columns);
    let cells = there.columns.iter().zip(headings);
    let cells = cells.filter_map(|(column, heading)| {
        let cell = there.cell(registry, plant, *column)?;
        (!cell.is_empty()).then(|| format!("{heading} {cell}"))
    });
    cells.collect()
}

/// The remarks and the values of a line. A remark goes on to the next semicolon, whatever commas are in it.
fn answers(line: &str) -> (Vec<&str>, Vec<&str>) {
    let is_remark = |of: &&str| of.trim_start().starts_with('!');
    let (remarks, values): (Vec<&str>, Vec<&str>) = line.split(';').partition(is_remark);
    let values = values.into_iter().flat_map(|of| of.split(", "));
    (remarks, values.collect())
}

fn beyond(typed: &str) -> String {
    format!("`{}` is more than this sheet asks for", typed.trim())
}

/// A row while it is judged.
struct Taking<'a, 'r, 't> {
    row: &'a Row,
    columns: &'a [AskedColumn],
    session: Session<'r, 't>,
}

impl Taking<'_, '_, '_> {
    fn take(&mut self) -> Result<(MeasuredRow, bool), Fared> {
        match &self.row.answers {
            Answers::Line(line) => {
                // The row is whole with its last value, so that a remark behind it is heard before it.
                let (remarks, values) = answers(line);
                for remark in remarks {
                    self.answer(remark)?;
                }
                let mut values = values.into_iter();
                while let Some(value) = values.next() {
                    let Some(row) = self.answer(value)? else {
                        continue;
                    };
                    return match values.find(|more| !more.trim().is_empty()) {
                        Some(more) => Err(Fared::Refused(beyond(more))),
                        None => Ok(row),
                    };
                }
            }
            Answers::Cells(cells, note) => {
                if let Some(note) = note {
                    self.answer(&format!("! {note}"))?;
                }
                while let Some(at) = self.column() {
                    if let Some(row) = self.answer(&cells[at])? {
                        return Ok(row);
                    }
                }
            }
        }
        while self.column().is_some() {
            if let Some(row) = self.answer("")? {
                return Ok(row);
            }
        }
        Err(Fared::Refused(
            "nothing was read, so nothing was written".to_owned(),
        ))
    }

    /// The column that is asked for, as long as it is one of this plant.
    fn column(&self) -> Option<usize> {
        let question = self.session.question().filter(|of| of.of.0 == 1)?;
        self.columns.iter().position(|of| of == question.asked)
    }

    /// Takes one answer; the row when it is whole, and whether the sitting has one of this plant.
    fn answer(&mut self, typed: &str) -> Result<Option<(MeasuredRow, bool)>, Fared> {
        let Some(at) = self.column() else {
            return Err(Fared::Refused(beyond(typed)));
        };
        let asked = &self.columns[at];
        let refused = |why: String| Fared::Refused(format!("{}: {why}", asked.heading));
        let mut step = self.session.answer(typed);
        if let Step::Sure(written, doubt) = &step {
            if !self.row.sure {
                return Err(Fared::Sure(doubt_words(
                    &self.row.plant,
                    asked,
                    written,
                    doubt,
                )));
            }
            step = self.session.confirm(true);
        }
        match step {
            Step::Next if self.column().is_none() => Err(Fared::Refused(
                "nothing was read, so nothing was written".to_owned(),
            )),
            Step::Next => Ok(None),
            Step::Row(row, is_there) => Ok(Some((row, is_there))),
            Step::Refused(finding) => Err(refused(refusal_words(&finding))),
            Step::Unclear(slip) => Err(refused(slip.said(Voice::Page))),
            Step::AtStart | Step::Explain | Step::Sure(..) => {
                Err(refused(format!("`{typed}` is no reading")))
            }
        }
    }
}
