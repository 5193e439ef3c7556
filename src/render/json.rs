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

/// What is written as the indented form of `serde_json` writes it.
macro_rules! as_the_pretty_form {
    ($($part:ident($($given:ident: $type:ty)?),)*) => {$(
        fn $part<W: ?Sized + Write>(&mut self, writer: &mut W $(, $given: $type)?) -> std::io::Result<()> {
            self.0.$part(writer $(, $given)?)
        }
    )*};
}

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

    as_the_pretty_form! {
        begin_array(),
        end_array(),
        begin_array_value(first: bool),
        end_array_value(),
        begin_object(),
        end_object(),
        begin_object_key(first: bool),
        begin_object_value(),
        end_object_value(),
    }
}
