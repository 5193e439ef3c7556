//! Where plants come from: rows, pairs of parents, origins shared by the plants of one cross.

/// The number of a plant: its row in every table, its index in the graph.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct PlantRow(pub u32);

impl PlantRow {
    /// The row as an index.
    pub fn index(self) -> usize {
        self.0 as usize
    }
}

/// One possible pair of parents; `None` is an unknown parent, which is never "unrelated" and never dropped.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Pair {
    /// The plant that bore the pod.
    pub seed: Option<PlantRow>,
    /// The plant that gave the pollen.
    pub pollen: Option<PlantRow>,
    /// Relative weight among the pairs of one origin, as the grower stated it; 0 when none was stated.
    pub weight: u32,
}

/// How the true pair was drawn when an origin has several.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Donor {
    /// One pair made the whole pod; it is only not known which.
    WholePod,
    /// Every seed drew its own pair (mixed or open pollination, a muddled tray).
    EachSeed,
}

/// Where the plants of one pod come from.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Origin {
    /// At least one pair; several when parentage is one of several.
    pub pairs: Vec<Pair>,
    /// How the pair was drawn; without meaning for a single pair.
    pub donor: Donor,
}
