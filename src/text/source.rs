//! The texts of a registry, and the way from a byte offset to a line and a column.
//!
//! A [`Source`] is one file's text without its byte-order mark; every other byte, carriage returns included, is as on
//! disk. [`Sources`] numbers the files. Finding and reading them is left to `folder`, changing them to `edit`.

use std::collections::{BTreeMap, HashMap};
use std::sync::OnceLock;

use super::span::{FileId, Span};
use super::unread::Unread;

/// One file's text.
#[derive(Clone, Debug, Default)]
pub struct Source {
    /// The path relative to the registry folder, its parts separated by `/`.
    pub path: String,
    /// The text, without a byte-order mark; at most `u32::MAX` bytes.
    pub text: String,
    /// Whether the file begins with a byte-order mark, which edits keep.
    pub marked: bool,
    line_starts: OnceLock<Vec<u32>>,
    /// Characters before each block of [`BLOCK`] bytes.
    letters_before: OnceLock<Vec<u32>>,
    spelt_out: OnceLock<Option<String>>,
    mended: OnceLock<String>,
    left_out: OnceLock<LeftOut>,
    open: OnceLock<LeftOut>,
}

/// Records that were not read, by their code and what they are, each with the byte at which its code stands.
pub type LeftOut = BTreeMap<(String, &'static str), u32>;

/// What is open where the place of a record could not be read; see [`Source::leave_open`].
pub const UNREAD_PLACE: &str = "place";
/// What is open where a page may hold more records than were read, whatever their codes.
pub const UNREAD_LISTS: &str = "lists";

/// Bytes after which characters are counted anew, so that a column in a line of any length is found at once.
const BLOCK: usize = 4096;

/// A place as a person counts it: lines and columns from 1, columns in characters.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Place<'a> {
    /// The file's path relative to the registry folder.
    pub path: &'a str,
    /// The line, from 1.
    pub line: u32,
    /// The character in the line, from 1; a tab is one character.
    pub column: u32,
}

impl Source {
    /// A source from a text in memory; a leading byte-order mark is taken off and remembered.
    ///
    /// # Panics
    /// If the text is longer than `u32::MAX` bytes; reading a folder refuses such a file before.
    pub fn new(path: impl Into<String>, mut text: String) -> Self {
        assert!(
            u32::try_from(text.len()).is_ok(),
            "a source holds at most 4 GiB"
        );
        let marked = text.starts_with('\u{feff}');
        if marked {
            text.drain(..'\u{feff}'.len_utf8());
        }
        Self {
            path: path.into(),
            text,
            marked,
            line_starts: OnceLock::new(),
            letters_before: OnceLock::new(),
            spelt_out: OnceLock::new(),
            mended: OnceLock::new(),
            left_out: OnceLock::new(),
            open: OnceLock::new(),
        }
    }

    /// The text with what is spelt with escapes written out plainly, every other byte at its old offset; the text itself
    /// when `spell` finds nothing to spell out. Only what the first call finds is kept.
    ///
    /// # Panics
    /// If the copy is not as long as the text.
    pub fn spelt_out(&self, spell: impl FnOnce(&str) -> Option<String>) -> &str {
        let copy = self.spelt_out.get_or_init(|| spell(&self.text));
        let copy = copy.as_ref().unwrap_or(&self.text);
        assert!(copy.len() == self.text.len(), "a copy keeps every offset");
        copy
    }

    /// Keeps a copy of the text in which what is faulty is blanked out, every other byte at its old offset, so that
    /// what is borrowed from it has the same offsets. What closes brackets that never close may follow at the end. Only
    /// the first copy is kept.
    ///
    /// # Panics
    /// If the copy is shorter than the text.
    pub fn mend(&self, copy: String) -> &str {
        assert!(
            copy.len() >= self.text.len(),
            "a mended copy keeps every offset"
        );
        self.mended.get_or_init(|| copy)
    }

    /// Notes the records that were not read. Only the first note is kept.
    pub fn leave_out(&self, records: LeftOut) {
        self.left_out.get_or_init(|| records);
    }

    /// Where the code of a record stands that was not read: of any kind, or of one such as `pod`.
    pub fn left_out(&self, code: &str, what: Option<&str>) -> Option<u32> {
        let of_code = self.left_out.get()?.range((code.to_owned(), "")..);
        let mut of_code = of_code.take_while(|((own, _), _)| own == code);
        let found = of_code.find(|((_, of), _)| what.is_none_or(|what| *of == what));
        found.map(|(_, at)| *at)
    }

    /// Notes what is open of the records that were read, since fields of theirs were not: a doubt, by code and kind of record,
    /// or what the words above say. Only the first note is kept.
    pub fn leave_open(&self, open: LeftOut) {
        self.open.get_or_init(|| open);
    }

    /// All that is open of the records that were read, with the byte at which the field stands.
    pub fn open(&self) -> impl Iterator<Item = (&str, &'static str, u32)> {
        let open = self.open.get().into_iter().flatten();
        open.map(|((code, what), at)| (code.as_str(), *what, *at))
    }

    /// Whether any record of one of these kinds was not read.
    pub fn has_left_out(&self, kinds: &[&str]) -> bool {
        let left_out = self.left_out.get().into_iter().flatten();
        left_out.into_iter().any(|((_, of), _)| kinds.contains(of))
    }

    /// The text its records were read from: the mended copy if there is one, else the one spelt out, else the text
    /// itself. What stands in all stands at the same offset.
    pub fn kept(&self) -> &str {
        let spelt_out = || self.spelt_out.get().and_then(Option::as_ref);
        self.mended.get().or_else(spelt_out).unwrap_or(&self.text)
    }

    /// The range of a slice borrowed from the text or from a copy of it.
    fn range_of(&self, slice: &str) -> Option<std::ops::Range<u32>> {
        let spelt_out = self.spelt_out.get().and_then(Option::as_ref);
        let texts = [Some(&self.text), spelt_out, self.mended.get()];
        texts.into_iter().flatten().find_map(|text| {
            let start = (slice.as_ptr() as usize).checked_sub(text.as_ptr() as usize)?;
            let end = start.checked_add(slice.len())?;
            (end <= text.len()).then_some(start as u32..end as u32)
        })
    }

    /// Offsets at which lines start; the first is 0. A line ends after `\n`.
    pub fn line_starts(&self) -> &[u32] {
        self.line_starts.get_or_init(|| {
            let breaks = self
                .text
                .bytes()
                .enumerate()
                .filter(|(_, byte)| *byte == b'\n');
            std::iter::once(0)
                .chain(breaks.map(|(at, _)| at as u32 + 1))
                .collect()
        })
    }

    /// Line and column, both from 1, of a byte offset; an offset past the end counts as the end.
    pub fn line_column(&self, offset: u32) -> (u32, u32) {
        let offset = floor_boundary(&self.text, offset as usize);
        let line = self
            .line_starts()
            .partition_point(|&start| start as usize <= offset);
        let start = self.line_starts()[line - 1] as usize;
        let column = self.letters_before(offset) - self.letters_before(start) + 1;
        (line as u32, column as u32)
    }

    /// Characters before a byte offset that is a character's boundary.
    fn letters_before(&self, offset: usize) -> usize {
        let begins = |byte: &&u8| **byte & 0xc0 != 0x80;
        let letters = |bytes: &[u8]| bytes.iter().filter(begins).count();
        let bytes = self.text.as_bytes();
        let blocks = self.letters_before.get_or_init(|| {
            let mut sum = 0;
            let after = bytes.chunks_exact(BLOCK).map(|block| {
                sum += letters(block) as u32;
                sum
            });
            std::iter::once(0).chain(after).collect()
        });
        let block = offset / BLOCK;
        blocks[block] as usize + letters(&bytes[block * BLOCK..offset])
    }

    /// The text of a line, counted from 1, without its line ending; empty past the last line.
    pub fn line(&self, line: u32) -> &str {
        let starts = self.line_starts();
        let Some(&start) = starts.get((line as usize).saturating_sub(1)) else {
            return "";
        };
        match starts.get(line.max(1) as usize) {
            Some(&next) => {
                let text = &self.text[start as usize..next as usize - 1];
                text.strip_suffix('\r').unwrap_or(text)
            }
            None => &self.text[start as usize..],
        }
    }
}

/// The greatest character boundary at or before `offset`.
fn floor_boundary(text: &str, offset: usize) -> usize {
    text.floor_char_boundary(offset.min(text.len()))
}

/// The files of one registry, numbered in the order of their paths' bytes, and what could not be read.
#[derive(Clone, Debug, Default)]
pub struct Sources {
    files: Vec<Source>,
    /// Number of the first file with a path; only looked up.
    numbers: HashMap<String, u32>,
    pub(super) unread: Vec<Unread>,
}

impl Sources {
    /// No files; for texts in memory.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a text under a path and numbers it after those already there.
    ///
    /// # Panics
    /// As [`Source::new`].
    pub fn add(&mut self, path: impl Into<String>, text: impl Into<String>) -> FileId {
        let source = Source::new(path, text.into());
        let number = self.files.len() as u32;
        self.numbers.entry(source.path.clone()).or_insert(number);
        self.files.push(source);
        FileId(number)
    }

    /// What lay in the folder but could not be read, in the order of paths.
    pub fn unread(&self) -> &[Unread] {
        &self.unread
    }

    /// Number of files.
    pub fn len(&self) -> usize {
        self.files.len()
    }

    /// Whether there is no file.
    pub fn is_empty(&self) -> bool {
        self.files.is_empty()
    }

    /// The files with their numbers.
    pub fn iter(&self) -> impl ExactSizeIterator<Item = (FileId, &Source)> {
        let numbered = self.files.iter().enumerate();
        numbered.map(|(number, source)| (FileId(number as u32), source))
    }

    /// One file.
    ///
    /// # Panics
    /// If the number is not from these sources.
    pub fn get(&self, file: FileId) -> &Source {
        &self.files[file.index()]
    }

    /// The text of one file.
    ///
    /// # Panics
    /// If the number is not from these sources.
    pub fn text(&self, file: FileId) -> &str {
        &self.get(file).text
    }

    /// The file with this path (relative, with `/`).
    pub fn find(&self, path: &str) -> Option<FileId> {
        self.numbers.get(path).copied().map(FileId)
    }

    /// The text under a span as the records were read from it; see [`Source::kept`].
    pub fn kept_slice(&self, span: Span) -> &str {
        let source = self.files.get(span.file.index());
        source
            .and_then(|source| source.kept().get(span.range()))
            .unwrap_or("")
    }

    /// The place where a span starts.
    ///
    /// # Panics
    /// If the span's file is not from these sources.
    pub fn locate(&self, span: Span) -> Place<'_> {
        let source = self.get(span.file);
        let (line, column) = source.line_column(span.start);
        Place {
            path: &source.path,
            line,
            column,
        }
    }

    /// Where a slice borrowed from a file's text stands in it; `None` if it was not borrowed from that text.
    pub fn span_of(&self, file: FileId, slice: &str) -> Option<Span> {
        Some(Span::new(file, self.get(file).range_of(slice)?))
    }
}
