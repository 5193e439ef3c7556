//! What has been found out about each part of the outline: which are records, which are left out.

use super::kinds::Kind;
use crate::text::Outline;
use crate::text::outline::Kind as Shape;
use crate::text::outline::{FaultKind, PartId, Role};

/// Marks on the parts of an outline.
pub(super) struct Marks {
    /// The kind of each part that is a record.
    kinds: Vec<Option<&'static Kind>>,
    /// The kind of the records a part is a list of.
    lists: Vec<Option<&'static Kind>>,
    /// Left out of the page.
    left_out: Vec<bool>,
    /// Left out of the trial at hand.
    cut: Vec<bool>,
    cuts: Vec<PartId>,
}

impl Marks {
    /// Finds the records of a page, from the page's own kind downward.
    pub fn new(outline: &Outline, page: &'static Kind) -> Marks {
        let count = outline.parts().len();
        let mut marks = Marks {
            kinds: vec![None; count],
            lists: vec![None; count],
            left_out: vec![false; count],
            cut: vec![false; count],
            cuts: Vec::new(),
        };
        let past = outline.root().map_or(0, |root| {
            marks.kinds[root.index()] = Some(page);
            outline.past(root)
        });
        // A part stands before those inside it, so its own mark is set by the time it is met.
        for at in (0..past).map(PartId) {
            if let Some(kind) = marks.kinds[at.index()] {
                marks.find_lists(outline, at, kind);
            } else if let Some(kind) = marks.lists[at.index()] {
                for element in outline.children(at) {
                    marks.kinds[element.index()] = Some(kind);
                }
            }
        }
        marks
    }

    fn find_lists(&mut self, outline: &Outline, record: PartId, kind: &'static Kind) {
        if kind.lists.is_empty() {
            return;
        }
        for field in outline.children(record) {
            let of = kind
                .lists
                .iter()
                .find(|(name, _)| outline.name(field) == Some(name));
            if let Some((_, of)) = of
                && outline.part(field).kind == Shape::List
            {
                self.lists[field.index()] = Some(of);
            }
        }
    }

    /// The kind of a part that is a record.
    pub fn kind(&self, part: PartId) -> Option<&'static Kind> {
        self.kinds[part.index()]
    }

    /// Whether a part is a list of records, each tried on its own.
    pub fn is_list(&self, part: PartId) -> bool {
        self.lists[part.index()].is_some()
    }

    /// Whether a part is left out of the page.
    pub fn is_left_out(&self, part: PartId) -> bool {
        self.left_out[part.index()]
    }

    /// Whether a part is left out of the trial at hand, or for good.
    pub fn is_cut(&self, part: PartId) -> bool {
        self.cut[part.index()] || self.left_out[part.index()]
    }

    /// Leaves a part out for good.
    pub fn leave_out(&mut self, part: PartId) {
        self.left_out[part.index()] = true;
    }

    /// Leaves a part out of the trial at hand.
    pub fn cut(&mut self, part: PartId) {
        self.cut[part.index()] = true;
        self.cuts.push(part);
    }

    /// Ends the trial at hand.
    pub fn restore(&mut self) {
        for part in self.cuts.drain(..) {
            self.cut[part.index()] = false;
        }
    }

    /// The least part around one whose absence leaves the rest its meaning: a field, or a record of a list. An element
    /// of a plain list is none, since taking out one of several dates or fathers would change what the others say.
    pub fn separable(&self, outline: &Outline, part: PartId) -> PartId {
        let mut at = part;
        loop {
            let place = outline.part(at);
            let in_struct = place
                .parent()
                .is_none_or(|around| outline.part(around).kind == Shape::Struct);
            if self.kind(at).is_some() || (place.role == Role::Field && in_struct) {
                return at;
            }
            match place.parent() {
                Some(around) => at = around,
                None => return at,
            }
        }
    }

    /// The least part around one that can be cut out of a trial: an element of a list too.
    pub fn removable(&self, outline: &Outline, part: PartId) -> PartId {
        let mut at = part;
        while let Some(around) = outline.part(at).parent() {
            let free = matches!(outline.part(around).kind, Shape::Struct | Shape::List);
            if free || self.kind(at).is_some() {
                return at;
            }
            at = around;
        }
        at
    }
}

/// Whether a fault of shape spoils the value it stands in, and is more than a comma or bracket out of place.
pub(super) fn spoils_value(kind: FaultKind) -> bool {
    use FaultKind::*;
    matches!(
        kind,
        UnclosedText
            | CurlyQuotes
            | SingleQuotes
            | InchMark
            | InnerQuotes
            | CommaInNumber
            | BareText
            | NotANumber
            | NamelessValue
    )
}
