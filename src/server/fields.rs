//! The fields of an entry as a page sent them: each is asked for by name, and one that no one asked for is refused.

use serde_json::{Map, Value};

/// The longest words of one field, signs.
const LONGEST: usize = 2_000;
/// The most words in a list.
const MOST: usize = 200;

/// Fields that were not asked for yet.
pub struct Fields(Map<String, Value>);

impl Fields {
    /// The fields of an object.
    ///
    /// # Errors
    /// If it is none.
    pub fn of(value: &Value) -> Result<Fields, String> {
        let fields = value.as_object().cloned();
        fields
            .map(Fields)
            .ok_or_else(|| "an entry is an object with fields".to_owned())
    }

    /// Words, if given and not empty.
    ///
    /// # Errors
    /// If they are no words, too long, or more than a line.
    pub fn text(&mut self, name: &str) -> Result<Option<String>, String> {
        let words = match self.0.remove(name) {
            None | Some(Value::Null) => return Ok(None),
            Some(Value::String(words)) => words,
            Some(_) => return Err(format!("`{name}` needs words")),
        };
        let words = line(name, &words)?;
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
        let found = match self.0.remove(name) {
            None | Some(Value::Null) => return Ok(None),
            Some(Value::String(words)) if words.trim().is_empty() => return Ok(None),
            Some(Value::String(words)) => words.trim().parse().ok(),
            Some(Value::Number(number)) => number.as_u64().and_then(|of| of.try_into().ok()),
            Some(_) => None,
        };
        found
            .map(Some)
            .ok_or_else(|| format!("`{name}` needs a whole number"))
    }

    /// Whether something is so; not, when left out.
    ///
    /// # Errors
    /// If it is neither true nor false.
    pub fn is(&mut self, name: &str) -> Result<bool, String> {
        match self.0.remove(name) {
            None | Some(Value::Null) => Ok(false),
            Some(Value::Bool(is)) => Ok(is),
            Some(_) => Err(format!("`{name}` needs true or false")),
        }
    }

    /// A list of words; empty ones stay.
    ///
    /// # Errors
    /// If it is none.
    pub fn list(&mut self, name: &str) -> Result<Vec<String>, String> {
        let refused = || format!("`{name}` needs a list of words");
        let Some(found) = self.0.remove(name) else {
            return Ok(Vec::new());
        };
        let of = found
            .as_array()
            .filter(|of| of.len() <= MOST)
            .ok_or_else(refused)?;
        of.iter()
            .map(|of| line(name, of.as_str().ok_or_else(refused)?))
            .collect()
    }

    /// Makes sure that nothing is left.
    ///
    /// # Errors
    /// The name of what is.
    pub fn end(self) -> Result<(), String> {
        match self.0.keys().next() {
            None => Ok(()),
            Some(name) => Err(format!(
                "`{}` is no field of such an entry",
                crate::text::one_line(name)
            )),
        }
    }
}

/// Words in one line.
fn line(name: &str, words: &str) -> Result<String, String> {
    if words.chars().count() > LONGEST {
        return Err(format!("`{name}` is longer than {LONGEST} signs"));
    }
    if words.chars().any(char::is_control) {
        return Err(format!(
            "`{name}` must be one line without control characters"
        ));
    }
    Ok(words.trim().to_owned())
}

/// An option with its value, where there is one.
pub fn option(name: &str, value: Option<&String>) -> [String; 2] {
    match value {
        Some(value) => [name.to_owned(), value.clone()],
        None => [String::new(), String::new()],
    }
}
