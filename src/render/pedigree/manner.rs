//! Sizes of letters, ribbons and lines: roomy for a family, compact for a whole registry.

/// Sizes in points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Manner {
    /// Letters of names.
    pub name: f64,
    /// Letters of the name of the plant on offer.
    pub focus: f64,
    /// Letters of codes, shares and notes.
    pub small: f64,
    /// Height of a ribbon; that of the plant on offer is half as high again.
    pub ribbon: f64,
    /// The widest a name may run before it is broken.
    pub room: f64,
    /// Air between two plants of one column.
    pub air: f64,
    /// Least width between two columns.
    pub gap: f64,
    /// Whether code and name share one line and shares go unlabelled.
    pub compact: bool,
}

/// Above this many plants a picture is compact.
pub const CROWD: usize = 60;

impl Manner {
    /// The manner for a picture of that many plants.
    pub fn for_plants(count: usize) -> Manner {
        if count > CROWD {
            Manner::compact()
        } else {
            Manner::roomy()
        }
    }

    fn roomy() -> Manner {
        Manner {
            name: 9.5,
            focus: 12.0,
            small: 7.0,
            ribbon: 5.0,
            room: 114.0,
            air: 11.0,
            gap: 52.0,
            compact: false,
        }
    }

    fn compact() -> Manner {
        Manner {
            name: 8.0,
            focus: 10.0,
            small: 6.5,
            ribbon: 3.0,
            room: 150.0,
            air: 6.0,
            gap: 64.0,
            compact: true,
        }
    }
}
