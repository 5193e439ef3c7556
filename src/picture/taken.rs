//! When a picture was taken, by the camera's own clock.

use exif::{DateTime, Exif, In, Reader, Tag, Value};
use std::io::Cursor;

/// A moment by the camera's clock, where it was; no time zone. As the camera wrote it: whether there is such a day is
/// for the caller to ask.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Taken {
    /// Year.
    pub year: u16,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month, from 1.
    pub day: u8,
    /// Hour, 0 to 23.
    pub hour: u8,
    /// Minute.
    pub minute: u8,
    /// Second.
    pub second: u8,
    /// Billionths of a second, where the camera counts them.
    pub nanos: u32,
}

/// When a picture was taken: `DateTimeOriginal` of Exif 2.3 (tag 0x9003), or `DateTimeDigitized` (0x9004), with the
/// parts of a second. `DateTime`, when the file was last changed, says nothing of the plant. None where neither can be
/// read; also read from pictures whose pixels cannot be.
pub fn taken(bytes: &[u8]) -> Option<Taken> {
    let exif = Reader::new()
        .continue_on_error(true)
        .read_from_container(&mut Cursor::new(bytes))
        .or_else(|why| why.distill_partial_result(|_| ()))
        .ok()?;
    let of = |date, parts| moment(ascii(&exif, date)?, ascii(&exif, parts));
    of(Tag::DateTimeOriginal, Tag::SubSecTimeOriginal)
        .or_else(|| of(Tag::DateTimeDigitized, Tag::SubSecTimeDigitized))
}

fn ascii(exif: &Exif, tag: Tag) -> Option<&[u8]> {
    match &exif.get_field(tag, In::PRIMARY)?.value {
        Value::Ascii(words) => words.first().map(Vec::as_slice),
        _ => None,
    }
}

fn moment(date: &[u8], parts: Option<&[u8]>) -> Option<Taken> {
    let mut read = DateTime::from_ascii(date).ok()?;
    if let Some(parts) = parts {
        // A camera that writes no number counts no parts.
        let _ = read.parse_subsec(parts);
    }
    Some(Taken {
        year: read.year,
        month: read.month,
        day: read.day,
        hour: read.hour,
        minute: read.minute,
        second: read.second,
        nanos: read.nanosecond.unwrap_or(0),
    })
}
