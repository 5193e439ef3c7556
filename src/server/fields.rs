//! The fields of an entry as a page sent them: each is asked for by name, and one that no one asked for is refused.

use crate::recording::voice::label_of;
use serde_json::{Map, Value};

/// The longest words of one field, signs.
const LONGEST: usize = 2_000;
/// The most words in a list.
const MOST: usize = 200;

/// Fields that were not asked for yet, and the command that would record those that were.
pub struct Fields {
    left: Map<String, Value>,
    /// The words of the command; an option bears the name of its field.
    pub command: Vec<String>,
}

impl Fields {
    /// The fields of an object.
    ///
    /// # Errors
    /// If it is none.
    pub fn of(value: &Value) -> Result<Fields, String> {
        let left = value.as_object().cloned();
        let left = left.ok_or("an entry is an object with fields")?;
        let command = Vec::new();
        Ok(Fields { left, command })
    }

    /// Words, if given and not empty.
    ///
    /// # Errors
    /// If they are no words, too long, or more than a line.
    pub fn text(&mut self, name: &str) -> Result<Option<String>, String> {
        let words = match self.left.remove(name) {
            None | Some(Value::Null) => return Ok(None),
            Some(Value::String(words)) => words,
            Some(_) => return Err(format!("`{name}` needs words")),
        };
        let words = line(&self.called(name), &words)?;
        Ok(Some(words).filter(|words| !words.is_empty()))
    }

    /// Words that must be there.
    ///
    /// # Errors
    /// If they are missing, or as [`Fields::text`].
    pub fn needed(&mut self, name: &str) -> Result<String, String> {
        self.text(name)?
            .ok_or_else(|| format!("`{name}` is missing"))
    }

    /// A whole number, if given.
    ///
    /// # Errors
    /// If it is none.
    pub fn number(&mut self, name: &str) -> Result<Option<u32>, String> {
        let found = match self.left.remove(name) {
            None | Some(Value::Null) => return Ok(None),
            Some(Value::String(words)) if words.trim().is_empty() => return Ok(None),
            Some(Value::String(words)) => words.trim().parse().ok(),
            Some(Value::Number(number)) => number.as_u64().and_then(|of| of.try_into().ok()),
            Some(_) => None,
        };
        found
            .map(Some)
            .ok_or_else(|| format!("{} needs a whole number", self.called(name)))
    }

    /// A field as the form of the event calls it.
    fn called(&self, name: &str) -> String {
        let event = self.command.first().map_or("", String::as_str);
        let label = label_of(event, &typed(name));
        label.map_or_else(|| format!("`{name}`"), |label| format!("“{label}”"))
    }

    /// Whether something is so; not, when left out.
    ///
    /// # Errors
    /// If it is neither true nor false.
    pub fn is(&mut self, name: &str) -> Result<bool, String> {
        match self.left.remove(name) {
            None | Some(Value::Null) => Ok(false),
            Some(Value::Bool(is)) => Ok(is),
            Some(_) => Err(format!("`{name}` needs true or false")),
        }
    }

    /// As [`Fields::needed`]; a word of the command too.
    pub(super) fn word(&mut self, name: &str) -> Result<String, String> {
        let word = self.needed(name)?;
        self.command.push(word.clone());
        Ok(word)
    }

    /// As [`Fields::text`]; an option of the command too.
    pub(super) fn option(&mut self, name: &str) -> Result<Option<String>, String> {
        let words = self.text(name)?;
        self.command.extend(option(&typed(name), words.as_ref()));
        Ok(words)
    }

    /// As [`Fields::option`], one of these words.
    ///
    /// # Errors
    /// If it is another word, or as [`Fields::text`].
    pub(super) fn choice(
        &mut self,
        name: &str,
        of: &[&'static str],
    ) -> Result<Option<&'static str>, String> {
        let Some(typed) = self.option(name)? else {
            return Ok(None);
        };
        let chosen = of.iter().find(|word| **word == typed);
        let chosen = chosen.ok_or_else(|| format!("`{name}` needs one of: {}", of.join(", ")));
        chosen.map(|word| Some(*word))
    }

    /// As [`Fields::number`]; an option of the command too.
    pub(super) fn count(&mut self, name: &str) -> Result<Option<u32>, String> {
        let count = self.number(name)?;
        let words = count.map(|of| of.to_string());
        self.command.extend(option(&typed(name), words.as_ref()));
        Ok(count)
    }

    /// As [`Fields::is`]; an option of the command too.
    pub(super) fn flag(&mut self, name: &str) -> Result<bool, String> {
        let is = self.is(name)?;
        self.command.extend(is.then(|| typed(name)));
        Ok(is)
    }

    /// A list of words; empty ones stay.
    ///
    /// # Errors
    /// If it is none.
    pub fn list(&mut self, name: &str) -> Result<Vec<String>, String> {
        let refused = || format!("`{name}` needs a list of words");
        let Some(found) = self.left.remove(name) else {
            return Ok(Vec::new());
        };
        let of = found
            .as_array()
            .filter(|of| of.len() <= MOST)
            .ok_or_else(refused)?;
        of.iter()
            .map(|of| line(&self.called(name), of.as_str().ok_or_else(refused)?))
            .collect()
    }

    /// Makes sure that nothing is left, and gives the words of the command.
    ///
    /// # Errors
    /// The name of what is.
    pub fn end(self) -> Result<Vec<String>, String> {
        match self.left.keys().next() {
            None => Ok(self.command),
            Some(name) => Err(format!(
                "`{}` is no field of such an entry",
                crate::text::one_line(name)
            )),
        }
    }
}

/// Words in one line, of a field as it is called.
fn line(field: &str, words: &str) -> Result<String, String> {
    if words.chars().count() > LONGEST {
        return Err(format!("{field} is longer than {LONGEST} signs"));
    }
    if words.chars().any(char::is_control) {
        return Err(format!(
            "{field} must be one line without control characters"
        ));
    }
    Ok(words.trim().to_owned())
}

/// The option of a field.
fn typed(name: &str) -> String {
    format!("--{}", name.replace('_', "-"))
}

/// An option with its value, where there is one.
pub fn option(name: &str, value: Option<&String>) -> impl Iterator<Item = String> {
    let words = value.map(|value| [name.to_owned(), value.clone()]);
    words.into_iter().flatten()
}
