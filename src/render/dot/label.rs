//! Values of attributes, made from text only by escaping it.
//!
//! Latin stands in true italics through HTML-like labels, whose tags are all written here.

use crate::render::scene::{Colour, Face, Word};
use crate::text::Xml;
use dot_generator::{attr, id};
use dot_structures::{Attribute, Id};

/// A value of an attribute as it stands in DOT.
pub struct Value(String);

impl Value {
    /// A word or number of ours.
    pub fn word(word: &'static str) -> Value {
        Value(word.to_owned())
    }

    /// A quoted string: backslashes doubled, marks of XML written out since Graphviz reads entities there too.
    pub fn quoted(text: &str) -> Value {
        let xml = Xml::of(text).to_string();
        Value(format!("\"{}\"", xml.replace('\\', "\\\\")))
    }

    /// An HTML-like label.
    pub fn html(label: Label) -> Value {
        Value(match label.is_blank() {
            true => "< >".to_owned(),
            false => format!("<{}>", label.0),
        })
    }
}

/// An attribute. (The macro takes a call in the place of a value for something else, so values go in by name.)
pub fn says(key: &str, value: Value) -> Attribute {
    let value = value.0;
    attr!(key, value)
}

/// Text inside an HTML-like label, and the tags around it.
#[derive(Clone, Default)]
pub struct Label(String);

impl Label {
    /// Text as XML has it; a backslash or closing bracket by its number, because Graphviz takes the one for an escape
    /// and the other, alone between two tags, for the end of something.
    pub fn text(text: &str) -> Label {
        let xml = Xml::of(text).to_string();
        Label(xml.replace('\\', "&#92;").replace(']', "&#93;"))
    }

    /// Words in their faces.
    pub fn words(line: &[Word]) -> Label {
        let said = line.iter().filter(|word| !word.text.is_empty());
        let runs = said.map(|word| {
            let text = Label::text(&word.text);
            match word.face {
                Face::Roman => text,
                Face::Italic => text.within("I"),
                Face::Bold => text.within("B"),
                Face::BoldItalic => text.within("I").within("B"),
            }
        });
        Label::joined(runs)
    }

    /// All of them, one after the other.
    pub fn joined(parts: impl IntoIterator<Item = Label>) -> Label {
        Label(parts.into_iter().map(|part| part.0).collect())
    }

    /// Letters of that size in points and that colour.
    pub fn set(self, size: f64, colour: Colour) -> Label {
        // Graphviz refuses tags around nothing.
        if self.is_blank() {
            return self;
        }
        let colour = hex(colour);
        Label(format!(
            r#"<FONT POINT-SIZE="{size:.1}" COLOR="{colour}">{}</FONT>"#,
            self.0
        ))
    }

    /// A cell of a row.
    pub fn cell(self, attributes: &str) -> Label {
        let blank = if self.is_blank() { " " } else { "" };
        Label(format!("<TD{attributes}>{}{blank}</TD>", self.0))
    }

    /// A cell filled with a colour, so wide and high at least.
    pub fn square(self, fill: Colour, (wide, high): (f64, f64)) -> Label {
        let fill = hex(fill);
        self.cell(&format!(
            r#" BGCOLOR="{fill}" WIDTH="{wide:.0}" HEIGHT="{high:.0}" CELLPADDING="0""#
        ))
    }

    /// Cells as a row of a table.
    pub fn row(cells: impl IntoIterator<Item = Label>) -> Label {
        Label(format!("<TR>{}</TR>", Label::joined(cells).0))
    }

    /// Rows as a table.
    pub fn table(rows: impl IntoIterator<Item = Label>, attributes: &str) -> Label {
        Label(format!(
            "<TABLE {attributes}>{}</TABLE>",
            Label::joined(rows).0
        ))
    }

    fn within(self, tag: &str) -> Label {
        Label(format!("<{tag}>{}</{tag}>", self.0))
    }

    fn is_blank(&self) -> bool {
        self.0.trim().is_empty()
    }
}

/// A colour as attributes have it.
pub fn hex(colour: Colour) -> String {
    let Colour(red, green, blue) = colour;
    format!("#{red:02x}{green:02x}{blue:02x}")
}

/// An identifier as it stands in DOT.
pub fn word(id: &Id) -> &str {
    let (Id::Html(text) | Id::Escaped(text) | Id::Plain(text) | Id::Anonymous(text)) = id;
    text
}
