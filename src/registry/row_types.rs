//! The numbers of records as types, so that the number of a cross is never taken for that of a plant.

/// Declares the number of a kind of record: its place in that kind's table of the registry.
macro_rules! row {
    ($(#[$docs:meta])* $name:ident($number:ident)) => {
        $(#[$docs])*
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
        pub struct $name(pub $number);

        impl $name {
            /// The row at an index. No registry has more records of a kind than its number can count.
            pub const fn new(index: usize) -> Self {
                Self(index as $number)
            }

            /// The row as an index.
            pub const fn index(self) -> usize {
                self.0 as usize
            }

            /// The rows of a table of this length.
            pub fn all(
                length: usize,
            ) -> impl ExactSizeIterator<Item = Self> + DoubleEndedIterator + Clone {
                (0..length).map(Self::new)
            }
        }
    };
}

row! {
    /// The number of a plant: its row in every table, its index in the graph.
    PlantRow(u32)
}

row! {
    /// The number of a ramet: its place among the ramets of its plant.
    RametRow(u32)
}

row! {
    /// The number of a cross: its place among the crosses in the order of their codes.
    CrossRow(u32)
}

row! {
    /// The number of an origin: parents have smaller ones than their offspring.
    OriginRow(u32)
}

/// Declares the place of a part of a cross: its page, and its index in a list there.
macro_rules! part {
    ($(#[$docs:meta])* $name:ident) => {
        $(#[$docs])*
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
        pub struct $name {
            /// The cross on whose page it stands.
            pub cross: CrossRow,
            /// Its index in the list of its kind.
            pub at: usize,
        }
    };
}

part! {
    /// A pollination of one zone of a spike.
    ZoneRow
}

part! {
    /// A pod.
    PodRow
}

part! {
    /// A seed lot.
    LotRow
}

part! {
    /// A sowing.
    SowingRow
}

part! {
    /// A community pot.
    PotRow
}

row! {
    /// The number of a sitting: by page, and in the order of the page.
    SittingRow(u32)
}

row! {
    /// The number of a declared trait, in the order of `registry.ron`.
    TraitRow(u16)
}

row! {
    /// The number of a pollen lot: its place among the lots in the order of their codes.
    PollenRow(u32)
}
