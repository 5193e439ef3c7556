//! The course of a sitting: which cell is asked for next, and what an answer does.

use super::answer::Answer;
use super::cells::cell;
use super::doubt::{Doubt, Judged, doubt};
use crate::diagnostic::Finding;
use crate::observation::asked_columns::AskedColumn;
use crate::observation::last_reading::LastReading;
use crate::observation::value;
use crate::record::{Reads, When};
use crate::recording::events::measure::{MeasuredRow, Seen, found_dead};
use crate::recording::plants::single;
use crate::recording::slip::Slip;
use crate::registry::{CrossRow, Registry, SowingRow};

/// Cross and sowing: siblings of one age.
pub type Siblings = (Option<CrossRow>, Option<SowingRow>);
/// Values of plants that are not asked about, each with its siblings and the number of its column.
pub type Others = Vec<(Siblings, usize, f64)>;

/// A plant to be read, and its row as far as it is known.
#[derive(Clone, Debug)]
pub struct PlantToRead {
    /// Its siblings are those of the same cross and sowing.
    pub siblings: Siblings,
    /// What it read last, column by column.
    pub last: Vec<Option<LastReading>>,
    /// Its row: cells that are there already, or empty ones.
    pub row: MeasuredRow,
    /// Whether the row is in the registry.
    pub written: bool,
}

/// What is asked next.
#[derive(Clone, Copy, Debug)]
pub struct Question<'s> {
    /// The plant's code.
    pub plant: &'s str,
    /// Which plant of how many, from 1.
    pub of: (usize, usize),
    /// The column.
    pub asked: &'s AskedColumn,
    /// What the plant read last.
    pub last: Option<&'s LastReading>,
    /// What stands in the cell already.
    pub there: &'s str,
}

/// What an answer comes to.
#[derive(Clone, Debug)]
pub enum Step {
    /// On to the next question.
    Next,
    /// The answer is no reading; the same is asked again.
    Refused(Box<Finding>),
    /// The answer leaves open which piece is meant; the same is asked again.
    Unclear(Slip),
    /// The reading looks like a slip: [`Session::confirm`] takes or drops it.
    Sure(String, Doubt),
    /// How it is read was asked.
    Explain,
    /// There is nothing to go back to.
    AtStart,
    /// The row of a plant is whole; whether it takes the place of one that is written.
    Row(MeasuredRow, bool),
}

/// A sitting in progress.
pub struct Session<'r, 't> {
    registry: &'r Registry<'t>,
    columns: Vec<AskedColumn>,
    plants: Vec<PlantToRead>,
    others: Others,
    on: When,
    /// Where the plants stand, when the sitting is of a place.
    place: Option<String>,
    plant: usize,
    column: usize,
    in_doubt: Option<String>,
}

impl<'r, 't> Session<'r, 't> {
    /// Begins with the first cell of the first plant.
    pub fn new(
        registry: &'r Registry<'t>,
        columns: Vec<AskedColumn>,
        plants: Vec<PlantToRead>,
        others: Others,
        (on, place): (When, Option<String>),
    ) -> Self {
        Self {
            registry,
            columns,
            plants,
            others,
            on,
            place,
            plant: 0,
            column: 0,
            in_doubt: None,
        }
    }

    /// What is asked next; none when every plant was asked about.
    pub fn question(&self) -> Option<Question<'_>> {
        let plant = self.plants.get(self.plant)?;
        Some(Question {
            plant: &plant.row.plant,
            of: (self.plant + 1, self.plants.len()),
            asked: &self.columns[self.column],
            last: plant.last[self.column].as_ref(),
            there: &plant.row.cells[self.column],
        })
    }

    /// Takes an answer to the question.
    pub fn answer(&mut self, typed: &str) -> Step {
        match Answer::of(typed) {
            Answer::Blank => self.advance(),
            Answer::Clear => self.fill(String::new()),
            Answer::Back => self.back(),
            Answer::Explain => Step::Explain,
            Answer::Note(words) => {
                self.note(words);
                Step::Next
            }
            Answer::Dead => self.dead(),
            Answer::Value(typed) => self.value(typed),
        }
    }

    /// Takes the reading in doubt, or drops it and asks again.
    pub fn confirm(&mut self, sure: bool) -> Step {
        match self.in_doubt.take().filter(|_| sure) {
            Some(written) => self.fill(written),
            None => Step::Next,
        }
    }

    /// The row begun, if it says anything: what was answered is not lost when the sitting is stopped.
    pub fn stop(&mut self) -> Option<(MeasuredRow, bool)> {
        let begun = self.plants.get(self.plant)?;
        let answered = begun.row.is_read() && !begun.row.is_untouched();
        answered.then(|| (begun.row.clone(), begun.written))
    }

    /// Marks the row handed out last as written.
    pub fn is_written(&mut self, plant: &str) {
        let found = self.plants.iter_mut().find(|of| of.row.plant == plant);
        if let Some(found) = found {
            found.written = true;
            let MeasuredRow { cells, note, .. } = found.row.clone();
            found.row.seen = Seen { cells, note };
        }
    }

    fn row(&mut self) -> &mut MeasuredRow {
        &mut self.plants[self.plant].row
    }

    /// The plant is dead, or the piece of it that stands where the sitting is.
    fn dead(&mut self) -> Step {
        let place = self.place.as_deref();
        let found = single(self.registry, &self.plants[self.plant].row.plant)
            .and_then(|of| found_dead(self.registry, of, place));
        match found {
            Ok(_) => {
                self.row().dead = true;
                self.finish()
            }
            Err(slip) => Step::Unclear(slip),
        }
    }

    fn note(&mut self, words: &str) {
        let note = &mut self.row().note;
        *note = match note.take() {
            Some(there) => Some(format!("{there}; {words}")),
            None => Some(words.to_owned()),
        };
    }

    fn value(&mut self, typed: &str) -> Step {
        if let Some(steps) = self.several_steps(typed) {
            return self.fill_steps(steps);
        }
        let (written, value) = match cell(self.registry, &self.columns[self.column], typed) {
            Ok(read) => read,
            Err(finding) => return Step::Refused(finding),
        };
        match value.and_then(|value| self.doubt(value)) {
            Some(doubt) => {
                self.in_doubt = Some(written.clone());
                Step::Sure(written, doubt)
            }
            None => self.fill(written),
        }
    }

    /// Steps of scales that follow each other, typed together: `43` for two scales of up to nine steps.
    fn several_steps<'a>(&self, typed: &'a str) -> Option<Vec<&'a str>> {
        let digits = typed.len() > 1 && typed.bytes().all(|byte| byte.is_ascii_digit());
        let columns = self.columns.get(self.column..self.column + typed.len())?;
        let is_scale = |asked: &AskedColumn| match asked.declared(self.registry) {
            Some(declared) => {
                matches!(&declared.reads, Reads::Scale(anchors) if anchors.len() < 10)
            }
            None => false,
        };
        (digits && columns.iter().all(is_scale))
            .then(|| (0..typed.len()).map(|at| &typed[at..=at]).collect())
    }

    fn fill_steps(&mut self, steps: Vec<&str>) -> Step {
        for (at, step) in steps.iter().enumerate() {
            let asked = &self.columns[self.column + at];
            if let Err(finding) = cell(self.registry, asked, step) {
                return Step::Refused(finding);
            }
        }
        let mut last = Step::Next;
        for step in steps {
            last = self.fill(step.to_owned());
        }
        last
    }

    fn doubt(&self, value: f64) -> Option<Doubt> {
        let declared = self.columns[self.column].declared(self.registry)?;
        let plant = &self.plants[self.plant];
        doubt(&Judged {
            declared,
            value,
            last: plant.last[self.column].as_ref(),
            siblings: &self.siblings(plant.siblings),
            on: self.on,
        })
    }

    /// What the other plants of one cross and sowing read in the column asked for.
    fn siblings(&self, of: Siblings) -> Vec<f64> {
        let asked = &self.columns[self.column];
        let others = self.others.iter();
        let others =
            others.filter(|(siblings, column, _)| (*siblings, *column) == (of, self.column));
        let here = self.plants.iter().enumerate();
        let here = here.filter(|(at, plant)| plant.siblings == of && *at != self.plant);
        let here = here.filter_map(|(_, plant)| {
            let declared = asked.declared(self.registry)?;
            value(declared, &plant.row.cells[self.column], asked.unit()).ok()
        });
        others.map(|(_, _, value)| *value).chain(here).collect()
    }

    fn fill(&mut self, written: String) -> Step {
        let column = self.column;
        self.row().cells[column] = written;
        self.advance()
    }

    fn advance(&mut self) -> Step {
        self.column += 1;
        match self.column < self.columns.len() {
            true => Step::Next,
            false => self.finish(),
        }
    }

    /// The row is whole; one that says nothing is not written.
    fn finish(&mut self) -> Step {
        let plant = &self.plants[self.plant];
        let (row, written) = (plant.row.clone(), plant.written);
        (self.plant, self.column) = (self.plant + 1, 0);
        match row.is_read() || row.dead {
            true => Step::Row(row, written),
            false => Step::Next,
        }
    }

    fn back(&mut self) -> Step {
        if self.column > 0 {
            self.column -= 1;
            return Step::Next;
        }
        match self.plants[..self.plant]
            .iter()
            .rposition(|of| !of.row.dead)
        {
            Some(before) => {
                (self.plant, self.column) = (before, self.columns.len() - 1);
                Step::Next
            }
            None => Step::AtStart,
        }
    }
}
