//! What is missing on the command line: named, and asked for where a person at a terminal records something.

use super::arguments::command;
use super::outcome::Refusal;
use super::request::tell;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap::{Arg, Command, Error};
use std::ffi::OsString;
use std::io::{IsTerminal, stdin};

/// Arguments that a line lacks, in the order of the line, each with the name it has in the help.
pub(super) fn lacking(error: &Error) -> Vec<(String, Option<Arg>)> {
    let Some(ContextValue::Strings(names)) = error.get(ContextKind::InvalidArg) else {
        return Vec::new();
    };
    let verb = verb(error);
    let known = arguments_of(verb.as_deref().unwrap_or_default());
    let named = |name: &String| {
        let same = |known: &&Arg| letters(&known.to_string()) == letters(name);
        let known = known.iter().find(same);
        let word = match known.and_then(|known| known.get_value_names()) {
            Some([word]) if !name.starts_with('-') => word.to_string(),
            _ => name.replace(['<', '>'], ""),
        };
        (word, known.cloned())
    };
    names.iter().map(named).collect()
}

/// The name of an argument without the brackets that say whether it can be left out, which depend on the line.
fn letters(name: &str) -> String {
    name.replace(['<', '>', '[', ']'], "")
}

/// A command, or a command within one.
fn command_of(verb: &str) -> Option<Command> {
    let mut words = verb.split_whitespace();
    words.try_fold(command(), |within, word| {
        within.find_subcommand(word).cloned()
    })
}

fn arguments_of(verb: &str) -> Vec<Arg> {
    let found = command_of(verb);
    let all = found.iter().flat_map(|found| found.get_arguments());
    all.cloned().collect()
}

/// The words of which a command needs one, without older names of them.
pub(super) fn words_after(verb: &str) -> Vec<String> {
    let found = command_of(verb);
    let all = found.iter().flat_map(|found| found.get_subcommands());
    let named = all.filter(|word| !word.is_hide_set());
    named.map(|word| word.get_name().to_owned()).collect()
}

/// The command that was given, as its usage names it.
pub(super) fn verb(error: &Error) -> Option<String> {
    let Some(ContextValue::StyledStr(usage)) = error.get(ContextKind::Usage) else {
        return None;
    };
    let usage = usage.to_string();
    let words = usage.split_whitespace().skip(2);
    let verb = words.take_while(|word| word.starts_with(|c: char| c.is_ascii_lowercase()));
    let verb = verb.collect::<Vec<_>>().join(" ");
    (!verb.is_empty()).then_some(verb)
}

/// What an argument is, as the help says it: one line, with a small letter, as it stands within a sentence.
pub(super) fn meaning(argument: &Arg) -> Option<String> {
    let line = help_line(argument)?;
    let mut letters = line.chars();
    let first = letters.next()?;
    Some(first.to_lowercase().chain(letters).collect())
}

/// The first line of the help of an argument.
fn help_line(argument: &Arg) -> Option<String> {
    let help = argument.get_help()?.to_string();
    Some(help.lines().next()?.trim_end_matches('.').to_owned())
}

/// The line that the help of a command gives as its first example, without what only tries it out.
pub(super) fn example(verb: &str) -> Option<String> {
    let help = command_of(verb)?.get_after_help()?.to_string();
    let line = help.lines().next()?.strip_prefix("Example: ")?;
    let plain = line.replace(" --registry registry-demo", "");
    Some(plain.replace(" --dry-run", ""))
}

/// Asks a person for the arguments that a line lacks and adds them to it; false if there is no person or no answer, or
/// if something else is wrong.
pub(super) fn arguments_asked(error: &Error, line: &mut Vec<OsString>) -> bool {
    if error.kind() != ErrorKind::MissingRequiredArgument || !is_person() {
        return false;
    }
    let lacking = lacking(error);
    let positional = |(_, known): &(String, Option<Arg>)| {
        known.as_ref().is_some_and(|known| known.is_positional())
    };
    if lacking.is_empty() || !lacking.iter().all(positional) {
        return false;
    }
    for (name, argument) in lacking {
        let meaning = argument.as_ref().and_then(help_line);
        let Some(answer) = answer(&format!("{}: ", meaning.unwrap_or(name))) else {
            return false;
        };
        let several = argument.and_then(|argument| argument.get_num_args());
        match several.is_some_and(|several| several.max_values() > 1) {
            true => line.extend(words(&answer)),
            false => line.push(answer.into()),
        }
    }
    true
}

/// Asks a person for what a recording lacks and adds it to the line; false if there is no person or no answer.
pub(super) fn words_asked(refusal: &Refusal, line: &mut Vec<OsString>) -> bool {
    if !refusal.wants_more || !is_person() {
        return false;
    }
    let Some(answer) = answer(&format!("{}\n> ", refusal.words)) else {
        return false;
    };
    let mut words = match refusal.words.contains("in quotes") && !answer.contains('"') {
        true => vec![one_word(&answer)],
        false => words(&answer),
    };
    // An option is known without its dashes when the question names it.
    if let Some(first) = words.first_mut() {
        let option = format!("--{}", first.to_string_lossy());
        let named = |word: &str| word.trim_matches([',', ';']) == option;
        if refusal.words.split_whitespace().any(named) {
            *first = option.into();
        } else if !first.to_string_lossy().starts_with('-') {
            line.extend(option_asked(&refusal.words).map(OsString::from));
        }
    }
    line.extend(words);
    true
}

/// The one option whose words a question asks for, as in `add --zone and a word for it`; the answer is given without it.
fn option_asked(question: &str) -> Option<&str> {
    let (_, asked) = question.split_once("\nadd ")?;
    let mut words = asked.split_whitespace();
    let option = words.next().filter(|word| word.starts_with("--"))?;
    let of_it = words.next()?;
    let takes_words = of_it == "and" || of_it.chars().all(|c| c.is_ascii_uppercase());
    takes_words.then_some(option)
}

/// Whether a person reads what is asked and can answer it.
fn is_person() -> bool {
    stdin().is_terminal() && std::io::stderr().is_terminal()
}

/// One line of a person's; `None` if it is empty or cannot be read.
fn answer(question: &str) -> Option<String> {
    tell(question);
    let mut line = String::new();
    stdin().read_line(&mut line).ok()?;
    let line = line.trim();
    (!line.is_empty()).then(|| line.to_owned())
}

/// An answer that is one word of the line, also where it is not in quotes.
fn one_word(answer: &str) -> OsString {
    match words(answer).as_mut_slice() {
        [one] => std::mem::take(one),
        _ => answer.into(),
    }
}

/// Words as a shell takes them apart; at blanks, where a quote is left open, as in `2"`.
fn words(line: &str) -> Vec<OsString> {
    let blanks = || line.split_whitespace().map(str::to_owned).collect();
    let words: Vec<String> = shlex::split(line).unwrap_or_else(blanks);
    words.into_iter().map(OsString::from).collect()
}
