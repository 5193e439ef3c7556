//! What the two sides of a conflict say, in words: of a record that differs in part, only the fields that differ.

use super::conflict::Step;
use crate::recording::says::dates::is_date;
use crate::recording::says::value::Value;
use crate::text::Outline;
use crate::text::outline::Kind;

/// Fields, and the word that stands before them; what `label_only("…")` holds has no name.
struct Said {
    tag: String,
    fields: Vec<(String, Value)>,
}

impl Said {
    fn is_named(&self) -> bool {
        self.fields.iter().all(|(name, _)| !name.is_empty())
    }
}

/// What stands here and there at the end of these steps, in words.
pub fn said(steps: &[Step], here: Option<&Value>, there: Option<&Value>) -> [String; 2] {
    let field = match steps.last() {
        Some(Step::Field(name)) => name.as_str(),
        _ => "",
    };
    let [Some(own), Some(other)] = [here, there] else {
        return [here, there]
            .map(|of| of.map_or_else(|| "taken out".to_owned(), |of| whole(field, of)));
    };
    match (fields(own), fields(other)) {
        (Some(own), Some(other)) if own.tag == other.tag && own.is_named() => {
            differing(&own, &other)
        }
        _ => [own, other].map(|of| whole(field, of)),
    }
}

/// The fields of each that the other says otherwise.
fn differing(own: &Said, other: &Said) -> [String; 2] {
    let get = |said: &Said, name: &str| {
        let field = said.fields.iter().find(|(of, _)| of == name);
        field.map(|(_, value)| value.clone())
    };
    let mut names: Vec<&String> = own.fields.iter().map(|(name, _)| name).collect();
    let new = other.fields.iter().map(|(name, _)| name);
    names.extend(new.filter(|name| get(own, name).is_none()));
    names.retain(|name| get(own, name) != get(other, name));
    [own, other].map(|said| {
        let words = names.iter().map(|name| match get(said, name) {
            Some(value) => named(name, &value),
            None => format!("no {}", spaced(name)),
        });
        with_tag(&said.tag, words.collect())
    })
}

/// All that a value says.
fn whole(field: &str, value: &Value) -> String {
    match fields(value) {
        Some(said) => {
            let words = said.fields.iter().map(|(name, value)| named(name, value));
            with_tag(&said.tag, words.collect())
        }
        None => plain(field, value),
    }
}

/// The fields of a record, or of a word with details in brackets; none for another value.
fn fields(value: &Value) -> Option<Said> {
    match value {
        Value::Record(record) => Some(Said {
            tag: String::new(),
            fields: record
                .fields()
                .map(|(name, value)| (name.to_owned(), value.clone()))
                .collect(),
        }),
        Value::Plain(text) => details(text),
        Value::List(_) => None,
    }
}

fn details(text: &str) -> Option<Said> {
    let outline = Outline::of(text);
    let root = outline.root()?;
    let tag = outline.tag(root).filter(|tag| !tag.is_empty())?.to_owned();
    let kind = outline.part(root).kind;
    let is_whole = matches!(kind, Kind::Struct | Kind::Tuple) && outline.faults().is_empty();
    let fields = outline.children(root).filter_map(|field| {
        let name = outline.name(field).unwrap_or_default().to_owned();
        Some((name, Value::of(&outline, field)?))
    });
    let fields = fields.collect();
    is_whole.then_some(Said { tag, fields })
}

fn with_tag(tag: &str, words: Vec<String>) -> String {
    let tag = (!tag.is_empty()).then(|| spaced(tag));
    let words: Vec<String> = tag.into_iter().chain(words).collect();
    words.join(", ")
}

fn named(name: &str, value: &Value) -> String {
    if name.is_empty() {
        return value.line();
    }
    format!("{} {}", spaced(name), plain(name, value))
}

/// A date without quotes, words of the files as screens write them, anything else as it is written.
fn plain(field: &str, value: &Value) -> String {
    match value {
        Value::Plain(text) if text.starts_with('"') => match value.words() {
            Some(words) if is_date(field) || field.is_empty() => words.to_owned(),
            _ => text.clone(),
        },
        Value::Plain(text) => match text.as_str() {
            "elsewhere" => "another grower's, never here".to_owned(),
            text if text.contains(['"', '(']) => text.to_owned(),
            word => spaced(word),
        },
        Value::List(values) => {
            let values: Vec<String> = values.iter().map(|of| plain(field, of)).collect();
            values.join(", ")
        }
        Value::Record(_) => format!("({})", whole(field, value)),
    }
}

fn spaced(word: &str) -> String {
    match word {
        "given" => "given away".to_owned(),
        word => word.replace('_', " "),
    }
}
