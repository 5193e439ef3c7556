//! `podbook measure`: readings, plant after plant, each row written the moment it is whole.

use super::asking::{Answered, Asker};
use super::command::file_words;
use super::from_table::FromTable;
use crate::cli::recording::{Book, Recording};
use crate::cli::request::{Outcome, Refusal, Request, tell};
use crate::observation::asked_columns::AskedColumn;
use crate::record::Reads;
use crate::recording::dates::dated;
use crate::recording::events::measure::{Measure as Event, MeasuredRow, found_dead};
use crate::recording::events::sitting_page::Circumstances;
use crate::recording::measuring::{Session, Start, Step, session};
use crate::recording::plants::single;
use crate::recording::rows_asked::{columns_asked, rows_asked};
use crate::registry::Registry;
use crate::report::measuring::{
    MeasuringReport, doubt_words, explanation, question_words, refusal_words,
};
use crate::text::one_line;
use crate::wording::{counted, listed};
use clap::Args;
use std::collections::BTreeSet;
use std::path::PathBuf;

/// Record readings, plant after plant, or from a filled sheet
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook measure X22-02 --traits span,banding --registry registry-demo\n\
    Answers: 14.5, 5 3/4in, red; Enter for not read; dead; ! remark; < back; ? how it is read.\n\
    Scales that follow each other can be answered together: 43. Each row is safe when it is whole: the same \
    command goes on where it stopped."
)]
pub struct Measure {
    /// Crosses, pods, sowings or plants
    #[arg(value_name = "ID")]
    ids: Vec<String>,
    /// What to read, such as span,banding [default: as at the last sitting]
    #[arg(long, value_name = "TRAITS", value_delimiter = ',')]
    traits: Vec<String>,
    /// Where the plants stand; without ID, the plants that stand there
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// How they are read, such as "ruler from above"
    #[arg(long, value_name = "WORDS")]
    method: Option<String>,
    /// Who reads: "me" or a role
    #[arg(long, value_name = "WHO")]
    by: Option<String>,
    /// The lamp
    #[arg(long, value_name = "WORDS")]
    light: Option<String>,
    /// Which pitchers are read
    #[arg(long, value_name = "KIND", value_parser = Pitcher::parser())]
    pitcher: Option<&'static str>,
    /// Ask again about plants that have a row in this sitting
    #[arg(long)]
    again: bool,
    /// A filled sheet: a .csv, .xlsx or .ods file, or - for a paste on standard input
    #[arg(long, value_name = "FILE")]
    from: Option<PathBuf>,
    /// With --from: leave out rows and columns that do not fit
    #[arg(long, requires = "from")]
    skip_bad: bool,
    #[command(flatten)]
    recording: Recording,
}

file_words! {
    /// Kinds of pitcher.
    Pitcher {
        /// Of a young plant.
        Juvenile = "juvenile",
        /// Adult, near the ground.
        Lower = "lower",
        /// Between.
        Intermediate = "intermediate",
        /// Adult, climbing.
        Upper = "upper",
    }
}

impl Measure {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        if let Some(file) = &self.from {
            let table = FromTable {
                file: file.clone(),
                ids: self.ids.clone(),
                traits: self.traits.clone(),
                circumstances: self.circumstances(),
                again: self.again,
                skip_bad: self.skip_bad,
                dry_run: self.recording.dry_run,
            };
            return table.run(request);
        }
        // Refuses what cannot be written before anything is asked.
        let book = Book::open(request, true)?;
        let (registry, remarks) = request.registry(&book.sources);
        let today = request.today()?;
        let refused = |slip| Refusal::slip(&slip);
        // With codes the place is where they are read, and not a choice among them.
        let place = self.place.as_deref().filter(|_| self.ids.is_empty());
        let plants = rows_asked(&registry, &self.ids, place, today).map_err(refused)?;
        let columns = columns_asked(&registry, &self.traits, &plants).map_err(refused)?;
        let circumstances = self.circumstances();
        let on = dated(&registry, "--on", circumstances.on.as_deref(), today).map_err(refused)?;
        let (session, had_row) = session(
            &registry,
            &Start {
                plants: &plants,
                columns: &columns,
                on: &on,
                circumstances: &circumstances,
                again: self.again,
            },
        );
        tell(&remarks);
        let mut sitting = Sitting {
            request,
            registry: &registry,
            asker: Asker::new()?,
            event: Event {
                circumstances,
                columns,
                rows: Vec::new(),
                again: false,
            },
            dry_run: self.recording.dry_run,
            written: Vec::new(),
            settled: BTreeSet::new(),
            report: MeasuringReport {
                had_row,
                ..MeasuringReport::default()
            },
        };
        sitting.take(session)?;
        sitting.nothing_left_over()?;
        sitting.end(plants.len())
    }

    fn circumstances(&self) -> Circumstances {
        Circumstances {
            on: self.recording.on.clone(),
            place: self.place.clone(),
            method: self.method.clone(),
            by: self.by.clone(),
            light: self.light.clone(),
            pitcher: self.pitcher,
        }
    }
}

/// A sitting while it is taken.
struct Sitting<'a, 't> {
    request: &'a Request,
    registry: &'a Registry<'t>,
    asker: Asker,
    /// What is recorded; with `--dry-run` its rows are kept until the end.
    event: Event,
    dry_run: bool,
    /// Pages written so far.
    written: Vec<String>,
    /// Plants that were read or found dead.
    settled: BTreeSet<String>,
    report: MeasuringReport,
}

impl Sitting<'_, '_> {
    /// Asks until every plant was asked about or the input ends.
    fn take(&mut self, mut session: Session) -> Result<(), Refusal> {
        while let Some(question) = session.question() {
            let (words, there) = (question_words(&question), question.there.to_owned());
            let (plant, asked) = (question.plant.to_owned(), question.asked.clone());
            let answered = self.ask(&words, &there, &choices(self.registry, &asked))?;
            let step = match answered {
                Answered::Line(line) => session.answer(&line),
                Answered::End => {
                    if let Some((row, replaces)) = session.stop() {
                        self.write(row, replaces)?;
                    }
                    return Ok(());
                }
                Answered::Interrupted => return Ok(()),
            };
            if let Step::Sure(written, doubt) = &step {
                let question = doubt_words(&plant, &asked, written, doubt);
                let sure = self.sure(&question)?;
                let step = session.confirm(sure);
                self.step(step, &mut session, (&plant, &asked))?;
            } else {
                self.step(step, &mut session, (&plant, &asked))?;
            }
        }
        Ok(())
    }

    fn step(
        &mut self,
        step: Step,
        session: &mut Session,
        (plant, asked): (&str, &AskedColumn),
    ) -> Result<(), Refusal> {
        match step {
            Step::Row(row, replaces) => {
                let code = row.plant.clone();
                let is_read = row.is_read();
                self.write(row, replaces)?;
                if is_read {
                    session.is_written(&code);
                }
            }
            Step::Refused(finding) => self.refused(plant, asked, &refusal_words(&finding))?,
            Step::Unclear(slip) => self.refused(plant, asked, &slip.to_string())?,
            Step::Explain => self.asker.say(&explanation(self.registry, asked)),
            Step::AtStart => self.asker.say("this is the first question of this sitting"),
            Step::Next | Step::Sure(..) => {}
        }
        Ok(())
    }

    /// Asks a person again; ends lines, since those after a refused one would be taken for another plant's.
    fn refused(&mut self, plant: &str, asked: &AskedColumn, why: &str) -> Result<(), Refusal> {
        if self.asker.is_person() {
            self.asker.say(why);
            return Ok(());
        }
        let (line, heading) = (self.asker.line(), &asked.heading);
        let refusal = Refusal::arguments(format!(
            "line {line}, {plant}, {heading}: {why}\n{}correct the line and give the rest from {plant} on",
            self.so_far()
        ));
        Err(refusal.after(&self.written))
    }

    /// Lines beyond the last question show that others before them may have gone to the wrong plants.
    fn nothing_left_over(&mut self) -> Result<(), Refusal> {
        let left = self.asker.left_over();
        let left = left.map_err(|refusal| refusal.after(&self.written))?;
        let Some((line, words)) = left.first() else {
            return Ok(());
        };
        let count = counted(left.len(), "line was", "lines were");
        let had_row = match self.report.had_row {
            0 => String::new(),
            plants => format!(
                "\n{} not asked about, because of a row in this sitting already",
                counted(plants, "plant was", "plants were")
            ),
        };
        let recorded = match self.written.is_empty() {
            true => "nothing was recorded; ".to_owned(),
            false => {
                let plants: Vec<&str> = self.settled.iter().map(String::as_str).collect();
                format!(
                    "recorded: {}; `podbook undo` takes back the last row; ",
                    listed(&plants)
                )
            }
        };
        let refusal = Refusal::arguments(format!(
            "{count} left over when every plant had its answers, from line {line} on: `{}`{had_row}\n{recorded}look whether each line went to the plant it was meant for",
            one_line(words)
        ));
        Err(refusal.after(&self.written))
    }

    /// Whether a reading in doubt is meant: y or n.
    fn sure(&mut self, question: &str) -> Result<bool, Refusal> {
        loop {
            let words = format!("{question} y/n ");
            let answer = match self.ask(&words, "", &[])? {
                Answered::Line(line) => line.trim().to_lowercase(),
                Answered::End | Answered::Interrupted => String::new(),
            };
            match answer.as_str() {
                "y" | "yes" => return Ok(true),
                "n" | "no" => return Ok(false),
                _ if self.asker.is_person() => {}
                _ => {
                    let refusal = Refusal::arguments(format!(
                        "line {}: {question}\n{}follow such a line with y or n",
                        self.asker.line().saturating_sub(1),
                        self.so_far()
                    ));
                    return Err(refusal.after(&self.written));
                }
            }
        }
    }

    /// What is safe although the sitting is ended.
    fn so_far(&self) -> &'static str {
        match self.written.is_empty() {
            true => "",
            false => "the rows before it are recorded; ",
        }
    }

    fn ask(
        &mut self,
        question: &str,
        there: &str,
        choices: &[String],
    ) -> Result<Answered, Refusal> {
        let answered = self.asker.ask(question, there, choices);
        answered.map_err(|refusal| refusal.after(&self.written))
    }

    /// Writes a row; it is safe when this returns.
    fn write(&mut self, row: MeasuredRow, replaces: bool) -> Result<(), Refusal> {
        if replaces && row.is_untouched() {
            return Ok(());
        }
        let plant = row.plant.clone();
        if row.is_read() || row.dead {
            self.settled.insert(plant.clone());
        }
        if row.is_read() && !self.report.read.contains(&plant) {
            self.report.read.push(plant.clone());
        }
        if row.dead {
            self.report.dead.push(self.dead(&row)?);
        }
        if self.dry_run {
            self.event.again |= replaces;
            self.event.rows.retain(|other| other.plant != row.plant);
            self.event.rows.push(row);
            return Ok(());
        }
        let event = Event {
            rows: vec![row],
            again: replaces,
            ..self.event.clone()
        };
        let written = self.written.clone();
        let refused = |refusal: Refusal| refusal.after(&written);
        let book = Book::open(self.request, false).map_err(refused)?;
        tell(&book.remarks);
        let report = self.request.recorded(&book, |draft| event.record(draft));
        let report = report.map_err(refused)?;
        for page in report.pages {
            if !self.written.contains(&page) {
                self.written.push(page);
            }
        }
        // What the row changes for its siblings, such as their median, was on record before.
        let of_plant = |warning: &String| {
            let mut words = warning.split(|c: char| !c.is_alphanumeric() && c != '-');
            words.any(|word| word == plant)
        };
        let warnings = report.warnings.into_iter().filter(of_plant);
        // What was recorded meanwhile, and is kept.
        for warning in report.remarks.into_iter().chain(warnings) {
            self.asker.say(&warning);
            if !self.report.warnings.contains(&warning) {
                self.report.warnings.push(warning);
            }
        }
        Ok(())
    }

    /// What died by a row: the piece that was looked at, where other pieces of the plant are left.
    fn dead(&self, row: &MeasuredRow) -> Result<String, Refusal> {
        let place = self.event.circumstances.place.as_deref();
        let of = single(self.registry, &row.plant);
        let dead = of.and_then(|of| found_dead(self.registry, of, place));
        let dead = dead.map(|of| self.registry.code_of(of));
        dead.map_err(|slip| Refusal::slip(&slip).after(&self.written))
    }

    fn end(mut self, asked: usize) -> Result<Outcome, Refusal> {
        let settled = self.settled.len() + self.report.had_row;
        self.report.not_read = asked.saturating_sub(settled);
        if self.dry_run && !self.event.rows.is_empty() {
            let event = self.event;
            return self.request.record(true, |draft| event.record(draft));
        }
        let outcome = self.request.answer(&self.report, String::new());
        outcome.map(|outcome| Outcome {
            written: self.written.clone(),
            ..outcome
        })
    }
}

/// The kinds that Tab completes.
fn choices(registry: &Registry, asked: &AskedColumn) -> Vec<String> {
    match asked.declared(registry).map(|declared| &declared.reads) {
        Some(Reads::Kinds(kinds)) => kinds.iter().map(|kind| (*kind).to_owned()).collect(),
        _ => Vec::new(),
    }
}
