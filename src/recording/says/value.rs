//! What a page says, without its layout and its remarks.

use crate::recording::written::lines;
use crate::text::Outline;
use crate::text::outline::{Kind, PartId};

/// A value of a page.
#[derive(Clone, PartialEq, Debug)]
pub enum Value {
    /// A text, a number, a word, or a word with details in brackets: RON in one line, taken as a whole.
    Plain(String),
    /// Values in brackets.
    List(Vec<Value>),
    /// Named fields.
    Record(Record),
}

/// Fields in the order they are written; none is empty.
#[derive(Clone, Debug, Default)]
pub struct Record(Vec<(String, Value)>);

impl PartialEq for Record {
    /// The order of fields says nothing.
    fn eq(&self, other: &Record) -> bool {
        let mut own = self.0.iter();
        self.0.len() == other.0.len()
            && own.all(|(name, value)| other.get(name).is_some_and(|other| other == value))
    }
}

impl Record {
    /// The record that is a whole page; `None` when the text is faulty or holds none.
    pub fn of_page(text: &str) -> Option<Record> {
        let outline = Outline::of(text);
        let root = outline.root().filter(|_| outline.faults().is_empty())?;
        match Value::of(&outline, root)? {
            Value::Record(record) => Some(record),
            _ => None,
        }
    }

    /// The fields with their names.
    pub fn fields(&self) -> impl Iterator<Item = (&str, &Value)> {
        self.0.iter().map(|(name, value)| (name.as_str(), value))
    }

    /// A field's value.
    pub fn get(&self, name: &str) -> Option<&Value> {
        let mut fields = self.0.iter();
        fields.find(|(of, _)| of == name).map(|(_, value)| value)
    }

    /// What a text field says, without its quotes.
    pub fn text(&self, name: &str) -> Option<&str> {
        self.get(name)?.words()
    }

    /// The records in a list field.
    pub fn records(&self, list: &str) -> impl Iterator<Item = &Record> {
        self.list(list).iter().filter_map(Value::record)
    }

    /// The values in a list field.
    pub fn list(&self, list: &str) -> &[Value] {
        self.get(list).map_or(&[], Value::list)
    }

    /// What the records of a list field say in a text field of theirs, each with its record.
    pub fn by_text(&self, list: &str, field: &str) -> impl Iterator<Item = (&str, &Record)> {
        let records = self.records(list);
        records.filter_map(move |record| Some((record.text(field)?, record)))
    }

    /// The record in a field.
    pub fn inside(&self, name: &str) -> Option<&Record> {
        self.get(name)?.record()
    }

    /// The record at a place of a list field.
    pub fn record(&self, list: &str, at: usize) -> Option<&Record> {
        self.list(list).get(at)?.record()
    }

    /// Gives a field a value, or takes it out.
    pub fn set(&mut self, name: &str, value: Option<Value>) {
        let at = self.0.iter().position(|(of, _)| of == name);
        match (at, value) {
            (Some(at), Some(value)) => self.0[at].1 = value,
            (Some(at), None) => drop(self.0.remove(at)),
            (None, Some(value)) => self.0.push((name.to_owned(), value)),
            (None, None) => {}
        }
    }

    /// Gives a field words.
    pub fn set_text(&mut self, name: &str, words: &str) {
        self.set(name, Some(Value::text(words)));
    }

    /// Gives a field values, or takes it out where there are none.
    pub fn set_list(&mut self, name: &str, values: Vec<Value>) {
        self.set(name, (!values.is_empty()).then_some(Value::List(values)));
    }

    /// Takes out the records of a list field that are not to stay.
    pub fn retain(&mut self, list: &str, mut stays: impl FnMut(&Record) -> bool) {
        let field = self.0.iter_mut().find(|(of, _)| of == list);
        if let Some((_, Value::List(values))) = field {
            values.retain(|value| match value {
                Value::Record(record) => stays(record),
                _ => true,
            });
            let is_empty = values.is_empty();
            self.0.retain(|(of, _)| of != list || !is_empty);
        }
    }

    /// Changes each record of a list field.
    pub fn each(&mut self, list: &str, mut change: impl FnMut(&mut Record)) {
        let field = self.0.iter_mut().find(|(of, _)| of == list);
        if let Some((_, Value::List(values))) = field {
            for value in values {
                if let Value::Record(record) = value {
                    change(record);
                }
            }
        }
    }
}

impl Value {
    /// The record that it is.
    pub fn record(&self) -> Option<&Record> {
        match self {
            Value::Record(record) => Some(record),
            _ => None,
        }
    }

    /// The value of a part; `None` for one that says nothing: `None`, an empty list.
    pub fn of(outline: &Outline, part: PartId) -> Option<Value> {
        let children = || outline.children(part);
        match outline.part(part).kind {
            Kind::Word if outline.slice(part) == "None" => None,
            Kind::Tuple if outline.tag(part) == Some("Some") => children()
                .next()
                .and_then(|inside| Value::of(outline, inside)),
            Kind::List => {
                let values: Vec<Value> =
                    children().filter_map(|of| Value::of(outline, of)).collect();
                (!values.is_empty()).then_some(Value::List(values))
            }
            Kind::Struct if is_record(outline.tag(part)) => {
                let mut record = Record::default();
                for field in children() {
                    let name = outline.name(field).unwrap_or_default();
                    // A named hybrid without known parents says so by an empty list.
                    let none = name == "parents" && outline.part(field).kind == Kind::List;
                    let value = Value::of(outline, field);
                    record.set(name, value.or(none.then(|| Value::List(Vec::new()))));
                }
                Some(Value::Record(record))
            }
            Kind::Struct | Kind::Tuple => Some(Value::Plain(bracketed(outline, part))),
            Kind::Text => Some(Value::Plain(quoted(outline.slice(part)))),
            _ => Some(Value::Plain(outline.slice(part).to_owned())),
        }
    }

    /// A text.
    pub fn text(words: &str) -> Value {
        Value::Plain(crate::recording::written::text(words))
    }

    /// What a text says, without its quotes; a word or number as it stands.
    pub fn words(&self) -> Option<&str> {
        match self {
            Value::Plain(text) => {
                let inside = text
                    .strip_prefix('"')
                    .and_then(|rest| rest.strip_suffix('"'));
                Some(inside.unwrap_or(text))
            }
            _ => None,
        }
    }

    /// The values of a list.
    pub fn list(&self) -> &[Value] {
        match self {
            Value::List(values) => values,
            _ => &[],
        }
    }

    /// In one line, as RON.
    pub fn line(&self) -> String {
        self.joined(&|parts| parts.join(", "))
    }

    /// In one line; `join` brings together the fields of a record, and the values of a list.
    fn joined(&self, join: &dyn Fn(Vec<String>) -> String) -> String {
        match self {
            Value::Plain(text) => text.clone(),
            Value::List(values) => {
                let values = values.iter().map(|value| value.joined(join));
                format!("[{}]", join(values.collect()))
            }
            Value::Record(record) => {
                let fields = record.fields();
                let fields = fields.map(|(name, value)| format!("{name}: {}", value.joined(join)));
                format!("({})", join(fields.collect()))
            }
        }
    }

    /// As the value of a field: a list of records has one a line.
    pub fn written(&self) -> String {
        match self {
            Value::List(values)
                if !values.is_empty() && values.iter().all(|of| !matches!(of, Value::Plain(_))) =>
            {
                let values: Vec<String> = values.iter().map(Value::line).collect();
                lines(&values)
            }
            value => value.line(),
        }
    }

    /// In one line, with fields and the records of lists in an order of their own: two that say the same are the same.
    pub fn canonical(&self) -> String {
        self.joined(&|mut parts| {
            parts.sort();
            parts.join(", ")
        })
    }
}

/// A record's own name, such as `Seedling(…)`, may stand before it; a word of the files begins with a small letter.
fn is_record(tag: Option<&str>) -> bool {
    tag.is_none_or(|tag| tag.is_empty() || tag.starts_with(|c: char| c.is_uppercase()))
}

/// A word with details, or a bracket without names, on one line.
fn bracketed(outline: &Outline, part: PartId) -> String {
    let inside = outline.children(part).filter_map(|child| {
        let value = Value::of(outline, child)?.line();
        Some(match outline.name(child) {
            Some(name) => format!("{name}: {value}"),
            None => value,
        })
    });
    let inside: Vec<String> = inside.collect();
    format!(
        "{}({})",
        outline.tag(part).unwrap_or_default(),
        inside.join(", ")
    )
}

/// A text in plain quotes.
fn quoted(slice: &str) -> String {
    let Some(raw) = slice.strip_prefix('r') else {
        return slice.to_owned();
    };
    let raw = raw.trim_matches('#');
    let inside = raw
        .strip_prefix('"')
        .and_then(|rest| rest.strip_suffix('"'));
    let inside = inside.unwrap_or(raw).replace('\\', "\\\\");
    format!("\"{}\"", inside.replace('"', "\\\""))
}
