//! A report as JSON: its own fields in their own order, two blanks of indent, one line break at the end.

use crate::report::{Plain, Report};
use crate::text::visible_char;
use serde_json::ser::{Formatter, PrettyFormatter, Serializer};
use std::io::Write;

/// The report as JSON text.
///
/// # Errors
/// If a value cannot be written as JSON, which no report's fields can bring about.
pub fn report(report: &impl Report) -> Result<String, serde_json::Error> {
    value(report)
}

/// Reports in a list.
///
/// # Errors
/// As [`report`].
pub fn reports<R: Report>(reports: &[R]) -> Result<String, serde_json::Error> {
    value(&reports)
}

/// Any plain value.
///
/// # Errors
/// As [`report`].
pub fn value(value: &impl Plain) -> Result<String, serde_json::Error> {
    let mut bytes = Vec::new();
    let form = Indented(PrettyFormatter::new());
    value.serialize(&mut Serializer::with_formatter(&mut bytes, form))?;
    bytes.push(b'\n');
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// The indented form of `serde_json`, in which no number is minus zero, since a difference of nothing has no direction,
/// and in which characters a terminal would obey or not show are written by their numbers.
struct Indented<'i>(PrettyFormatter<'i>);

impl Formatter for Indented<'_> {
    fn write_f64<W: ?Sized + Write>(&mut self, writer: &mut W, value: f64) -> std::io::Result<()> {
        // Adding zero turns −0 into 0 and leaves every other number as it is.
        self.0.write_f64(writer, value + 0.0)
    }

    fn write_string_fragment<W: ?Sized + Write>(
        &mut self,
        writer: &mut W,
        fragment: &str,
    ) -> std::io::Result<()> {
        let mut written = 0;
        for (at, letter) in fragment.char_indices() {
            if visible_char(letter) == letter {
                continue;
            }
            writer.write_all(&fragment.as_bytes()[written..at])?;
            for unit in letter.encode_utf16(&mut [0; 2]) {
                write!(writer, "\\u{unit:04x}")?;
            }
            written = at + letter.len_utf8();
        }
        writer.write_all(&fragment.as_bytes()[written..])
    }

    fn begin_array<W: ?Sized + Write>(&mut self, writer: &mut W) -> std::io::Result<()> {
        self.0.begin_array(writer)
    }

    fn end_array<W: ?Sized + Write>(&mut self, writer: &mut W) -> std::io::Result<()> {
        self.0.end_array(writer)
    }

    fn begin_array_value<W: ?Sized + Write>(
        &mut self,
        writer: &mut W,
        first: bool,
    ) -> std::io::Result<()> {
        self.0.begin_array_value(writer, first)
    }

    fn end_array_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> std::io::Result<()> {
        self.0.end_array_value(writer)
    }

    fn begin_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> std::io::Result<()> {
        self.0.begin_object(writer)
    }

    fn end_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> std::io::Result<()> {
        self.0.end_object(writer)
    }

    fn begin_object_key<W: ?Sized + Write>(
        &mut self,
        writer: &mut W,
        first: bool,
    ) -> std::io::Result<()> {
        self.0.begin_object_key(writer, first)
    }

    fn begin_object_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> std::io::Result<()> {
        self.0.begin_object_value(writer)
    }

    fn end_object_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> std::io::Result<()> {
        self.0.end_object_value(writer)
    }
}
