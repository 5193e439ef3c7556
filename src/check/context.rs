//! What every check is given: the registry, today, and where a field stands in its file.

use crate::record::{CrossPage, Day, Fate, When, WhenFault};
use crate::registry::{Cross, CrossRow, PlantRow, Registry};
use crate::text::{FileId, Outline, Span};
use std::sync::OnceLock;

/// The registry under check. Outlines of files are made only when a finding needs one, and kept.
pub(super) struct CheckContext<'r, 't> {
    pub registry: &'r Registry<'t>,
    pub today: Day,
    /// Whether the labels founders came with are read.
    pub founders_labels: bool,
    outlines: Vec<OnceLock<Outline<'t>>>,
}

/// A record: its file, and a text of it that tells it from all others.
#[derive(Clone, Copy)]
pub(super) struct Anchor<'t> {
    pub file: FileId,
    pub text: &'t str,
}

impl<'r, 't> CheckContext<'r, 't> {
    pub fn new(registry: &'r Registry<'t>, today: Day) -> Self {
        let outlines = (0..registry.sources.len())
            .map(|_| OnceLock::new())
            .collect();
        CheckContext {
            registry,
            today,
            founders_labels: true,
            outlines,
        }
    }

    /// The same without reading the labels of founders.
    pub fn without_founders_labels(self) -> Self {
        CheckContext {
            founders_labels: false,
            ..self
        }
    }

    pub fn cross(&self, cross: CrossRow) -> &'r Cross<'t> {
        &self.registry[cross]
    }

    pub fn page(&self, cross: CrossRow) -> &'r CrossPage<'t> {
        &self.registry[cross].page
    }

    /// Where a text borrowed from a file stands.
    pub fn span(&self, file: FileId, text: &str) -> Option<Span> {
        self.registry.sources.span_of(file, text)
    }

    /// Where a field of a record stands, by a path such as `flowerings[2].sex`; the record's own text if there is no
    /// such field.
    pub fn field(&self, anchor: Anchor<'t>, path: &str) -> Option<Span> {
        let own = self.span(anchor.file, anchor.text)?;
        let sources = self.registry.sources;
        let outline = self.outlines[anchor.file.index()]
            .get_or_init(|| Outline::of(sources.get(anchor.file).kept()));
        let range = outline.field_of_record_at(own.start, path);
        Some(range.map_or(own, |range| Span::new(anchor.file, range)))
    }

    /// A date; `None` for one that cannot be read, which `dates` tells.
    pub fn when(&self, text: &str) -> Option<When> {
        self.read(text).ok()
    }

    /// A date, or why it cannot be read.
    pub fn read(&self, text: &str) -> Result<When, WhenFault> {
        When::read(text, self.registry.settings.hemisphere)
    }

    /// The record of a plant; `None` for an unseen one.
    pub fn anchor(&self, plant: PlantRow) -> Option<Anchor<'t>> {
        if let Some(founder) = self.registry.founder(plant) {
            let file = self.registry.clones_file?;
            let text = founder.code;
            return Some(Anchor { file, text });
        }
        let cross = self.registry.cross_of(plant)?;
        Some(Anchor {
            file: self.registry[cross].file,
            text: self.registry.number(plant)?,
        })
    }

    /// Whether a seedling has more to tell than its number and where it was raised.
    pub fn tells_more(&self, plant: PlantRow) -> bool {
        self.registry.seedling(plant).is_some() || self.registry.fate(plant).is_some()
    }

    /// The plant a code names, be it the plant's own or that of one of its ramets.
    pub fn plant(&self, code: &str) -> Option<PlantRow> {
        self.registry.plant_or_piece(code)
    }
}

/// What became of a plant: the word for it and its date.
pub(super) fn fate_words<'t>(fate: &Fate<'t>) -> (&'static str, &'t str) {
    let verb = match fate {
        Fate::Died { .. } => "died",
        Fate::Culled { .. } => "was culled",
        Fate::Sold { .. } => "was sold",
        Fate::Given { .. } => "was given away",
        Fate::Lost { .. } => "was lost",
        Fate::Elsewhere => "is another grower's",
    };
    (verb, fate.on())
}
