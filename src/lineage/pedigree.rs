//! The parent table on which every descent computation runs.
//!
//! Plants are numbered parents first, so a plant's parents always have smaller rows; the row is the index in every
//! table and matrix. Plants of one pod share one [`Origin`], because siblings are exchangeable until one of them has
//! offspring: a computation visits origins, not plants. Where parentage is uncertain an origin holds several pairs.

use std::ops::{Index, Range};

pub use crate::registry::{Donor, Origin, OriginRow, Pair, PlantRow};

/// Who came from whom, founders first.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Pedigree {
    origins: Vec<Origin>,
    /// For each plant its origin, or [`Pedigree::FOUNDER`].
    origin_of: Vec<u32>,
}

impl Index<OriginRow> for Pedigree {
    type Output = Origin;

    fn index(&self, row: OriginRow) -> &Origin {
        &self.origins[row.index()]
    }
}

impl Pedigree {
    const FOUNDER: u32 = u32::MAX;

    /// An empty pedigree with room for `plants`.
    pub fn with_capacity(plants: usize) -> Self {
        Self {
            origins: Vec::new(),
            origin_of: Vec::with_capacity(plants),
        }
    }

    /// Adds a plant whose parents are not recorded.
    pub fn add_founder(&mut self) -> PlantRow {
        self.origin_of.push(Self::FOUNDER);
        PlantRow::new(self.origin_of.len() - 1)
    }

    /// Adds an origin for plants to come. Every parent named in it must already have a row.
    ///
    /// # Panics
    /// If a pair names a plant not yet added, or `may_be_of` an origin not yet added, or there is no pair: the caller numbers
    /// parents first.
    pub fn add_origin(&mut self, origin: Origin) -> OriginRow {
        assert!(!origin.pairs.is_empty(), "an origin needs a pair");
        for parent in origin
            .pairs
            .iter()
            .flat_map(|p| [p.seed, p.pollen])
            .flatten()
        {
            assert!(
                parent.index() < self.origin_of.len(),
                "parents are numbered before their offspring"
            );
        }
        assert!(
            origin
                .may_be_of
                .iter()
                .all(|(of, _)| of.index() < self.origins.len()),
            "the origins a plant may be of are numbered before its own"
        );
        self.origins.push(origin);
        OriginRow::new(self.origins.len() - 1)
    }

    /// Adds a plant of an origin.
    pub fn add_offspring(&mut self, origin: OriginRow) -> PlantRow {
        assert!(origin.index() < self.origins.len());
        self.origin_of.push(origin.0);
        PlantRow::new(self.origin_of.len() - 1)
    }

    /// Number of plants.
    pub fn len(&self) -> usize {
        self.origin_of.len()
    }

    /// Whether there is no plant at all.
    pub fn is_empty(&self) -> bool {
        self.origin_of.is_empty()
    }

    /// The rows of all origins, parents before offspring.
    pub fn origin_rows(&self) -> impl ExactSizeIterator<Item = OriginRow> + use<> {
        OriginRow::all(self.origins.len())
    }

    /// All origins, in the order they were added; the parents in an origin come from earlier origins.
    pub fn origins(&self) -> &[Origin] {
        &self.origins
    }

    /// The row of a plant's origin; `None` for a founder.
    pub fn origin_row(&self, plant: PlantRow) -> Option<OriginRow> {
        let origin = self.origin_of[plant.index()];
        (origin != Self::FOUNDER).then_some(OriginRow(origin))
    }

    /// Rows in stretches of one origin, in row order; founders in stretches without one.
    pub fn stretches(&self) -> impl Iterator<Item = (Range<usize>, Option<OriginRow>)> + '_ {
        let mut start = 0;
        self.origin_of
            .chunk_by(|one, next| one == next)
            .map(move |stretch| {
                let rows = start..start + stretch.len();
                start = rows.end;
                (
                    rows,
                    (stretch[0] != Self::FOUNDER).then_some(OriginRow(stretch[0])),
                )
            })
    }

    /// A plant's origin; `None` for a founder.
    pub fn origin(&self, plant: PlantRow) -> Option<&Origin> {
        self.origin_row(plant).map(|row| &self[row])
    }

    /// For each plant whether it is named as a parent.
    pub fn parent_marks(&self) -> Vec<bool> {
        let mut marks = vec![false; self.len()];
        for pair in self.origins.iter().flat_map(|origin| &origin.pairs) {
            [pair.seed, pair.pollen]
                .into_iter()
                .flatten()
                .for_each(|parent| marks[parent.index()] = true);
        }
        marks
    }

    /// For each origin whether it, or the origin of any ancestor, satisfies the test.
    pub fn origins_touched(&self, test: impl Fn(&Origin) -> bool) -> Vec<bool> {
        let mut touched: Vec<bool> = Vec::with_capacity(self.origins.len());
        for origin in &self.origins {
            let parents = origin
                .pairs
                .iter()
                .flat_map(|pair| [pair.seed, pair.pollen])
                .flatten();
            let above = parents
                .filter_map(|parent| self.origin_row(parent))
                .any(|row| touched[row.index()]);
            touched.push(above || test(origin));
        }
        touched
    }

    /// The rows of all plants, parents before offspring.
    pub fn plants(&self) -> impl ExactSizeIterator<Item = PlantRow> + DoubleEndedIterator + use<> {
        PlantRow::all(self.origin_of.len())
    }
}
