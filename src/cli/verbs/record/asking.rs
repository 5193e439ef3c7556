//! Who answers a sitting's questions: a person at a terminal, or lines from a pipe.

use crate::cli::request::{Refusal, tell};
use crate::text::{Terminal, system_words};
use rustyline::completion::Completer;
use rustyline::error::ReadlineError;
use rustyline::highlight::Highlighter;
use rustyline::hint::Hinter;
use rustyline::history::MemHistory;
use rustyline::validate::Validator;
use rustyline::{CompletionType, Config, Context, Editor, Helper};
use std::io::{IsTerminal, stdin};

/// Where answers come from.
pub(super) enum Asker {
    /// A person, with a line editor.
    Person(Box<Editor<Choices, MemHistory>>),
    /// Lines, and how many were read.
    Lines(usize),
}

/// What came.
pub(super) enum Answered {
    /// A line.
    Line(String),
    /// The input ended.
    End,
    /// Ctrl-C.
    Interrupted,
}

impl Asker {
    /// A person where standard input is a terminal, lines elsewhere.
    ///
    /// # Errors
    /// If the terminal cannot be used.
    pub(super) fn new() -> Result<Asker, Refusal> {
        if !stdin().is_terminal() {
            return Ok(Asker::Lines(0));
        }
        let config = Config::builder()
            .completion_type(CompletionType::List)
            .build();
        let mut editor = Editor::with_history(config, MemHistory::new())
            .map_err(|error| Refusal::files(format!("the terminal cannot be used: {error}")))?;
        editor.set_helper(Some(Choices::default()));
        Ok(Asker::Person(Box::new(editor)))
    }

    /// Whether somebody can be asked again.
    pub(super) fn is_person(&self) -> bool {
        matches!(self, Asker::Person(_))
    }

    /// The number of the last line, where lines are read.
    pub(super) fn line(&self) -> usize {
        match self {
            Asker::Person(_) => 0,
            Asker::Lines(read) => *read,
        }
    }

    /// Asks. What stands there already can be edited by a person; a line that is empty leaves it.
    ///
    /// # Errors
    /// If standard input cannot be read.
    pub(super) fn ask(
        &mut self,
        question: &str,
        there: &str,
        choices: &[String],
    ) -> Result<Answered, Refusal> {
        let unread =
            |why: String| Refusal::files(format!("standard input could not be read: {why}"));
        match self {
            Asker::Person(editor) => {
                if let Some(helper) = editor.helper_mut() {
                    helper.0 = choices.to_vec();
                }
                let question = Terminal::lines(question);
                let question = String::from_utf8_lossy(question.as_bytes()).into_owned();
                match editor.readline_with_initial(question.trim_end_matches('\n'), (there, "")) {
                    Ok(line) if line.trim().is_empty() && !there.is_empty() => {
                        Ok(Answered::Line("-".to_owned()))
                    }
                    Ok(line) => Ok(Answered::Line(line)),
                    Err(ReadlineError::Eof) => Ok(Answered::End),
                    Err(ReadlineError::Interrupted) => Ok(Answered::Interrupted),
                    Err(error) => Err(unread(error.to_string())),
                }
            }
            Asker::Lines(read) => {
                let mut bytes = Vec::new();
                let length = std::io::BufRead::read_until(&mut stdin().lock(), b'\n', &mut bytes)
                    .map_err(|error| unread(system_words(&error)))?;
                *read += 1;
                if length == 0 {
                    return Ok(Answered::End);
                }
                let line = String::from_utf8(bytes)
                    .map_err(|_| unread(format!("line {read} is not UTF-8")))?;
                Ok(Answered::Line(
                    line.trim_end_matches(['\n', '\r']).to_owned(),
                ))
            }
        }
    }

    /// The lines no question is left for, with their numbers; blank ones and those of a person count for nothing.
    ///
    /// # Errors
    /// If standard input cannot be read.
    pub(super) fn left_over(&mut self) -> Result<Vec<(usize, String)>, Refusal> {
        let mut left = Vec::new();
        while !self.is_person() {
            match self.ask("", "", &[])? {
                Answered::Line(line) if line.trim().is_empty() => {}
                Answered::Line(line) => left.push((self.line(), line)),
                Answered::End | Answered::Interrupted => break,
            }
        }
        Ok(left)
    }

    /// Says something to a person; lines are not answered.
    pub(super) fn say(&self, words: &str) {
        if self.is_person() {
            tell(&format!("{words}\n"));
        }
    }
}

/// Words that Tab completes.
#[derive(Default)]
pub(super) struct Choices(Vec<String>);

impl Completer for Choices {
    type Candidate = String;

    fn complete(
        &self,
        line: &str,
        cursor: usize,
        _: &Context<'_>,
    ) -> rustyline::Result<(usize, Vec<String>)> {
        let begun = line[..cursor].to_lowercase();
        let begins = |choice: &&String| choice.to_lowercase().starts_with(&begun);
        Ok((0, self.0.iter().filter(begins).cloned().collect()))
    }
}

impl Hinter for Choices {
    type Hint = String;
}

impl Highlighter for Choices {}
impl Validator for Choices {}
impl Helper for Choices {}
