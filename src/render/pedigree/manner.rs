//! Sizes of letters, boxes and lines: roomy for a family, compact for a whole registry, large for a phone.

use super::parts::Tile;

/// Sizes in points; on a phone a point is a pixel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Manner {
    /// Letters of names.
    pub name: f64,
    /// Letters of the name of the plant on offer.
    pub focus: f64,
    /// Letters of codes and notes.
    pub small: f64,
    /// Squares of the parts of descent.
    pub tile: Tile,
    /// The widest a name may run before it is broken.
    pub room: f64,
    /// The same for the plant on offer.
    pub focus_room: f64,
    /// Between a box and what it holds.
    pub pad: f64,
    /// Air between two plants of one column.
    pub air: f64,
    /// Least width between two columns.
    pub gap: f64,
    /// Whether parts are written as fractions, since there is no room for squares.
    pub compact: bool,
}

/// Above this many plants a picture is compact.
pub const CROWD: usize = 60;

impl Manner {
    /// For a phone held upright, 360 points across; the smallest letters are 11 points.
    pub const PHONE: Manner = Manner {
        name: 14.0,
        focus: 17.0,
        small: 11.0,
        tile: Tile {
            side: 20.5,
            letters: 11.0,
        },
        room: 0.0,
        focus_room: 0.0,
        pad: 8.0,
        air: 9.0,
        gap: 0.0,
        compact: false,
    };

    const ROOMY: Manner = Manner {
        name: 9.5,
        focus: 12.0,
        small: 7.2,
        tile: Tile {
            side: 12.8,
            letters: 7.0,
        },
        room: 128.0,
        focus_room: 160.0,
        pad: 5.5,
        air: 9.0,
        gap: 44.0,
        compact: false,
    };

    const COMPACT: Manner = Manner {
        name: 8.0,
        focus: 10.0,
        small: 6.5,
        tile: Tile {
            side: 11.0,
            letters: 6.5,
        },
        room: 150.0,
        focus_room: 190.0,
        pad: 3.0,
        air: 5.0,
        gap: 64.0,
        compact: true,
    };

    /// The manner for a picture of that many plants.
    pub fn for_plants(count: usize) -> Manner {
        match count > CROWD {
            true => Manner::COMPACT,
            false => Manner::ROOMY,
        }
    }
}
