//! Which colours a picture uses: paper, ink, and a fixed palette for species.
//!
//! The palette was searched so that every pair stays apart for normal sight and under simulated protanopia, deuteranopia
//! and tritanopia (`tests/pictures/colours.rs` measures it). Colour still never carries meaning alone: shares are
//! labelled, and from the tenth species on the colours repeat under a hatching.

/// An opaque colour: red, green and blue, each 0 to 255.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour(pub u8, pub u8, pub u8);

/// The background of every picture: a warm off-white.
pub const PAPER: Colour = Colour(0xfd, 0xfb, 0xf6);
/// Text and lines of descent.
pub const INK: Colour = Colour(0x2a, 0x26, 0x22);
/// Codes, notes and other second voices; still readable on paper.
pub const SOFT: Colour = Colour(0x6b, 0x64, 0x5c);
/// Thin rules, grids and frames.
pub const RULE: Colour = Colour(0xcf, 0xc7, 0xba);

/// Fill colours of species, in order of first appearance.
pub const SPECIES: [Colour; 9] = [
    Colour(0x4b, 0x96, 0x69),
    Colour(0x8c, 0x1a, 0x2b),
    Colour(0xf0, 0xa8, 0xbc),
    Colour(0x40, 0x4e, 0xae),
    Colour(0xb0, 0xd4, 0x87),
    Colour(0x3f, 0xb0, 0xee),
    Colour(0x7c, 0x88, 0x14),
    Colour(0x5c, 0x33, 0x50),
    Colour(0xa6, 0x76, 0xa3),
];

/// The fill of the species that appeared as number `rank` (0 first), and how many times the palette has been used up.
pub fn species_colour(rank: usize) -> (Colour, usize) {
    (SPECIES[rank % SPECIES.len()], rank / SPECIES.len())
}

impl Colour {
    /// The colour mixed with paper: 1 keeps it, 0 gives paper.
    pub fn faded(self, strength: f64) -> Colour {
        let mix = |ink: u8, paper: u8| {
            let value =
                f64::from(paper) + (f64::from(ink) - f64::from(paper)) * strength.clamp(0.0, 1.0);
            libm::round(value) as u8
        };
        Colour(
            mix(self.0, PAPER.0),
            mix(self.1, PAPER.1),
            mix(self.2, PAPER.2),
        )
    }

    /// The colour darkened until text in it stands out from paper by at least 4.5 to 1 (WCAG 2, level AA).
    pub fn readable(self) -> Colour {
        let mut colour = self;
        while contrast(colour, PAPER) < 4.5 {
            let dim = |part: u8| (u16::from(part) * 15 / 16) as u8;
            colour = Colour(dim(colour.0), dim(colour.1), dim(colour.2));
        }
        colour
    }
}

/// Contrast ratio of two colours, 1 to 21 (WCAG 2 definition).
fn contrast(one: Colour, other: Colour) -> f64 {
    let (a, b) = (luminance(one), luminance(other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

fn luminance(colour: Colour) -> f64 {
    let linear = |part: u8| {
        let value = f64::from(part) / 255.0;
        if value <= 0.03928 {
            value / 12.92
        } else {
            libm::pow((value + 0.055) / 1.055, 2.4)
        }
    };
    0.2126 * linear(colour.0) + 0.7152 * linear(colour.1) + 0.0722 * linear(colour.2)
}
