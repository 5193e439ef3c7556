//! Arguments that were not understood, in our words: what was found, what was needed.
//!
//! Only numbers, words of a list, unknown options, unknown commands, options that exclude each other and what is missing
//! are answered here; for the rest the argument reader's own words are plain enough.

use super::guesses::{guessed, instead, meant};
use super::missing::{example, lacking, meaning, verb, words_after};
use super::verbs::Verb;
use crate::text::{nearest, visible};
use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap::{Arg, Error};
use std::error::Error as _;
use strsim::damerau_levenshtein;

const NOT_UTF8: &str = "a word on the command line is not UTF-8\nset the terminal to UTF-8, or leave out letters with accents";

/// What was found and what was needed; `None` where the reader's own words stand.
pub(super) fn in_our_words(error: &Error) -> Option<String> {
    match error.kind() {
        ErrorKind::ValueValidation if is_empty(error) => no_value(error),
        ErrorKind::ValueValidation => number(error),
        ErrorKind::InvalidUtf8 => Some(NOT_UTF8.to_owned()),
        ErrorKind::UnknownArgument | ErrorKind::TooManyValues => unknown(error),
        ErrorKind::InvalidSubcommand => no_command(error),
        ErrorKind::MissingSubcommand => which_command(error),
        ErrorKind::MissingRequiredArgument => missing(error),
        ErrorKind::ArgumentConflict => conflict(error),
        ErrorKind::TooFewValues | ErrorKind::WrongNumberOfValues => too_few(error),
        ErrorKind::InvalidValue if is_empty(error) => no_value(error),
        ErrorKind::InvalidValue => none_of_the_words(error),
        _ => None,
    }
}

fn number(error: &Error) -> Option<String> {
    let (option, found) = (
        said(error, ContextKind::InvalidArg)?,
        said(error, ContextKind::InvalidValue)?,
    );
    let reason = error.source()?.to_string();
    let needed = if reason.contains("float") {
        "a number such as 2.5".to_owned()
    } else if let Some((_, range)) = reason.split_once(" is not in ") {
        let (least, most) = range.split_once("..=")?;
        match found.starts_with('-') {
            true => format!("a whole number, not below {least}"),
            false => format!("a whole number from {least} to {most}"),
        }
    } else if ["digit", "integer", "too large"]
        .iter()
        .any(|word| reason.contains(word))
    {
        "a whole number, not below 0".to_owned()
    } else {
        return None;
    };
    Some(format!(
        "found `{}` after {option}, needed {needed}",
        visible(found)
    ))
}

fn unknown(error: &Error) -> Option<String> {
    // Of too many words the argument is named first, then the word.
    let kind = match error.kind() {
        ErrorKind::TooManyValues => ContextKind::InvalidValue,
        _ => ContextKind::InvalidArg,
    };
    let found = said(error, kind)?;
    let verb = verb(error);
    let help = match &verb {
        Some(verb) => format!("see how the line is written with `podbook {verb} --help`"),
        None => "see how the line is written with --help".to_owned(),
    };
    let known = verb.as_deref().and_then(|verb| instead(verb, found));
    let meant = said(error, ContextKind::SuggestedArg);
    let hint = match (known, meant) {
        (Some(known), _) => known.to_owned(),
        (None, Some(meant)) => format!("did you mean {meant}?"),
        (None, None) => help,
    };
    let what = match found.starts_with('-') {
        true => match &verb {
            Some(verb) => format!("is not an option of `podbook {verb}`"),
            None => "is not an option here".to_owned(),
        },
        false => "is one word too many".to_owned(),
    };
    Some(format!("`{}` {what}\n{hint}", visible(found)))
}

fn missing(error: &Error) -> Option<String> {
    let lacking = lacking(error);
    if lacking.is_empty() {
        return None;
    }
    let verb = verb(error);
    let help = match (verb.as_deref().and_then(example), verb) {
        (Some(example), _) => format!("such as: {example}"),
        (None, Some(verb)) => format!("see how the line is written with `podbook {verb} --help`"),
        (None, None) => "see how the line is written with `--help`".to_owned(),
    };
    let said = |(name, argument): &(String, Option<Arg>)| match argument.as_ref().and_then(meaning)
    {
        Some(meaning) if name.starts_with('-') => format!("{name} is missing: {meaning}"),
        Some(meaning) => format!("missing: {meaning}"),
        None => format!("{name} is missing"),
    };
    let said: Vec<String> = lacking.iter().map(said).collect();
    Some(format!("{}\n{help}", said.join("\n")))
}

/// Two options that say different things.
fn conflict(error: &Error) -> Option<String> {
    if let Some(word) = said(error, ContextKind::InvalidSubcommand) {
        let verb = verb(error)?;
        return Some(format!(
            "`{word}` comes first, its options behind it\nsuch as: podbook {verb} {word} --format csv; see them with `podbook {verb} {word} --help`"
        ));
    }
    let one = said(error, ContextKind::InvalidArg)?;
    let other = match error.get(ContextKind::PriorArg)? {
        ContextValue::String(other) => other.as_str(),
        ContextValue::Strings(others) => others.first()?.as_str(),
        _ => return None,
    };
    Some(match one == other {
        true => format!("{one} is given twice\ngive it once"),
        false => format!("{one} and {other} cannot be used together\ngive only one"),
    })
}

/// Words that are needed beside those given; the argument's name says what they are.
fn too_few(error: &Error) -> Option<String> {
    let names = said(error, ContextKind::InvalidArg)?;
    let name = names
        .split(['<', '>'])
        .find(|part| !part.trim().is_empty())?;
    Some(format!(
        "{name} is needed, and only a part of it is given\nsee how the line is written with `podbook {} --help`",
        verb(error)?
    ))
}

fn is_empty(error: &Error) -> bool {
    said(error, ContextKind::InvalidValue).is_some_and(|found| found.trim().is_empty())
}

/// An option without what belongs after it, or an empty word where one is needed.
fn no_value(error: &Error) -> Option<String> {
    let named = said(error, ContextKind::InvalidArg)?;
    let named = named.replace(['<', '>', '[', ']'], "");
    let wrong = match named.split_once(' ').filter(|_| named.starts_with('-')) {
        Some((option, value)) => format!("{option} needs {value} after it"),
        None => format!(
            "found an empty word, needed {}",
            named.trim_end_matches('.')
        ),
    };
    let help = match verb(error).as_deref().and_then(example) {
        Some(example) => format!("such as: {example}"),
        None => "see how the line is written with --help".to_owned(),
    };
    Some(format!("{wrong}\n{help}"))
}

/// A word that is none of those an option takes.
fn none_of_the_words(error: &Error) -> Option<String> {
    let option = said(error, ContextKind::InvalidArg)?;
    let found = said(error, ContextKind::InvalidValue)?;
    let Some(ContextValue::Strings(words)) = error.get(ContextKind::ValidValue) else {
        return None;
    };
    let option = option.split_once(' ').map_or(option, |(option, _)| option);
    let (last, others) = words.split_last()?;
    let needed = match others.is_empty() {
        true => last.clone(),
        false => format!("{} or {last}", others.join(", ")),
    };
    Some(format!(
        "found `{}` after {}, needed {needed}",
        visible(found),
        option.replace(['<', '>', '[', ']'], "")
    ))
}

fn no_command(error: &Error) -> Option<String> {
    let found = said(error, ContextKind::InvalidSubcommand)?;
    if let Some(verb) = verb(error) {
        let words = words_after(&verb);
        let near = nearest(found, words.iter().map(String::as_str));
        let hint = match (near.first(), instead(&verb, found)) {
            (Some(near), _) => format!("did you mean `podbook {verb} {near}`?"),
            (None, Some(hint)) => hint.to_owned(),
            (None, None) => format!("see what it takes with `podbook {verb} --help`"),
        };
        return Some(format!(
            "`podbook {verb}` does not take `{}`\n{hint}",
            visible(found)
        ));
    }
    let hint = match meant(found).or_else(|| nearly(found).or_else(|| a_letter_short(found))) {
        Some(verb) => format!("did you mean `podbook {verb}`?"),
        None => "see the commands with `podbook --help`".to_owned(),
    };
    Some(format!(
        "`{}` is not a podbook command\n{hint}",
        visible(found)
    ))
}

/// A command that needs one of several words after it, or no command at all.
fn which_command(error: &Error) -> Option<String> {
    let Some(verb) = verb(error) else {
        return Some("a command is missing\nsee the commands with `podbook --help`".to_owned());
    };
    let words = words_after(&verb);
    Some(format!(
        "`podbook {verb}` needs one of these words after it: {}\nsee what each is for with `podbook {verb} --help`",
        words.join(", ")
    ))
}

/// Letters a word must have to be taken for a command with one slip: of shorter ones too many are near.
const FEWEST: usize = 4;

/// The command that a misspelt command or guess means: one slip, or its beginning. A farther one may be any command, and some
/// of them write.
fn nearly(found: &str) -> Option<&'static str> {
    let word = found.to_lowercase();
    let words = Verb::NAMES.iter().copied().chain(guessed());
    let near = *nearest(&word, words).first()?;
    let is_slip = damerau_levenshtein(&word, near) <= 1 || near.starts_with(&word);
    if word.chars().count() < FEWEST || !is_slip {
        return None;
    }
    let verb = Verb::NAMES.iter().find(|verb| **verb == near);
    verb.copied().or_else(|| meant(near))
}

/// The command of which a shorter word has lost one letter within, as `lst` of `list`, where that can be only one.
fn a_letter_short(found: &str) -> Option<&'static str> {
    let word = found.to_lowercase();
    let length = word.chars().count();
    let has_lost = |verb: &&&str| {
        verb.len() == length + 1
            && verb.chars().next() == word.chars().next()
            && damerau_levenshtein(&word, verb) == 1
    };
    let mut near = Verb::NAMES.iter().filter(has_lost);
    let only = near.next().filter(|_| near.next().is_none())?;
    (length + 1 == FEWEST).then_some(*only)
}

fn said(error: &Error, kind: ContextKind) -> Option<&str> {
    match error.get(kind)? {
        ContextValue::String(text) => Some(text),
        _ => None,
    }
}
