//! What an outline is made of: parts, and the faults met on the way.

use std::ops::Range;

/// The number of a part in its outline: parts stand in the order of their first bytes, a part before those inside it.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct PartId(pub u32);

impl PartId {
    /// The number as an index.
    pub fn index(self) -> usize {
        self.0 as usize
    }
}

/// What shape a value has.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Kind {
    /// `(name: value, …)`, with or without a name before it; also `()`.
    Struct,
    /// `(value, …)`, with or without a name before it.
    Tuple,
    /// `[value, …]`.
    List,
    /// `{key: value, …}`.
    Map,
    /// `"…"` or `r"…"`.
    Text,
    /// `b"…"`, `br"…"` or `b'…'`.
    Bytes,
    /// `'…'`.
    Char,
    /// A number.
    Number,
    /// A bare word: `true`, `None`, `Witnessed`.
    Word,
}

impl Kind {
    /// Whether it has brackets.
    pub fn is_bracketed(self) -> bool {
        matches!(self, Kind::Struct | Kind::Tuple | Kind::List | Kind::Map)
    }
}

/// What a value is to the part around it.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Role {
    /// One of a list or tuple, or the whole text's value.
    Element,
    /// The value of a named field.
    Field,
    /// The key of a map's entry.
    Key,
    /// The value of a map's entry.
    Value,
}

/// One value and where it stands. Offsets count bytes from the start of the text.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Part {
    /// Its shape.
    pub kind: Kind,
    /// What it is to the part around it.
    pub role: Role,
    /// First byte, of the name before the bracket if there is one; a field's name is not included.
    pub start: u32,
    /// First byte after.
    pub end: u32,
    /// The opening bracket; equals `start` when there is no name, and for values without brackets.
    pub open: u32,
    /// Whether the closing bracket was there; true for values without brackets.
    pub closed: bool,
    pub(super) label_start: u32,
    pub(super) label_end: u32,
    pub(super) parent: u32,
    pub(super) past: u32,
}

/// No part: the parent of an outermost one.
pub(super) const NONE: u32 = u32::MAX;

impl Part {
    /// The bytes of the value.
    pub fn range(&self) -> Range<u32> {
        self.start..self.end
    }

    /// The bytes of the field's name, when it is a field.
    pub fn label(&self) -> Option<Range<u32>> {
        (self.role == Role::Field).then_some(self.label_start..self.label_end)
    }

    /// The bytes of the value and, when it is a field, of its name and colon.
    pub fn whole(&self) -> Range<u32> {
        let start = if self.role == Role::Field {
            self.label_start
        } else {
            self.start
        };
        start..self.end
    }

    /// The part around it.
    pub fn parent(&self) -> Option<PartId> {
        (self.parent != NONE).then_some(PartId(self.parent))
    }
}

/// Something that is not as RON needs it.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Fault {
    /// First byte concerned.
    pub start: u32,
    /// First byte after; equals `start` for something that is missing there.
    pub end: u32,
    /// What it is.
    pub kind: FaultKind,
    /// Another place that bears on it: for an unclosed bracket, where its end was noticed to be missing; for something
    /// missing, the value or name before it.
    pub other: Option<u32>,
}

/// What is not as RON needs it.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum FaultKind {
    /// An opening bracket without its closing one.
    UnclosedBracket,
    /// A closing bracket without its opening one.
    StrayBracket,
    /// A text without its closing quotation mark.
    UnclosedText,
    /// A `/*` without its `*/`.
    UnclosedComment,
    /// A text in typographic quotation marks.
    CurlyQuotes,
    /// A text in single quotation marks.
    SingleQuotes,
    /// A text with an inch mark in it, which looks like its end.
    InchMark,
    /// A text with quotation marks in it around some of its words.
    InnerQuotes,
    /// A number with a comma between its thousands or before its decimals.
    CommaInNumber,
    /// A remark that begins with `#`, or a line that begins with another mark of remarks elsewhere.
    WrongRemark,
    /// Characters that mean nothing here.
    StrayCharacters,
    /// A word with `.`, `+` or `-` in it, which only a text may hold.
    BareText,
    /// Digits that are no number, such as a date without quotation marks.
    NotANumber,
    /// Two values without a comma between.
    MissingComma,
    /// A comma without a value before it.
    StrayComma,
    /// A name or key without its colon.
    MissingColon,
    /// A colon without a name or key before it.
    StrayColon,
    /// A name or key and a colon without a value.
    MissingValue,
    /// A value without a name among named ones.
    NamelessValue,
    /// A field's name with a hyphen or a blank in it, or another sign that no name has.
    SplitName,
    /// A field's name in quotation marks.
    QuotedName,
    /// `;` for a comma, or `=` for a colon.
    WrongMark,
    /// A second value after the one that is the whole text.
    SecondValue,
    /// More brackets within each other than any page needs; nothing of the text is outlined.
    NestedTooDeep,
}
