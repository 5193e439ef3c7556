//! Which colours a picture uses: paper, ink, and a fixed palette for species.
//!
//! The palette was searched so that every pair stays apart for normal sight and under simulated protanopia, deuteranopia
//! and tritanopia (`tests/pictures/colours.rs` measures it). Colour still never carries meaning alone: shares are
//! lettered or labelled. Which colour a species has follows from its epithet, and colours repeat under a hatching.

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

/// Fill colours of species.
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

/// How a species is filled in every picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SpeciesLook {
    /// Its colour, one of [`SPECIES`].
    pub colour: Colour,
    /// Its hatching: 0 for none, 1 to 3 for slanted strokes, ever closer.
    pub hatching: usize,
}

/// Start of the sum below. Of 600,000 tried it is the one that leaves all but two of the 27 species most often grown a
/// look of their own.
const START: u64 = 443_735;

/// The look of a species, from the letters of its epithet and nothing else, so that it is the same in every picture of
/// every registry. The letters are summed up as in the hash of Fowler, Noll & Vo (FNV-1a, 64 bits).
pub fn species_look(epithet: &str) -> SpeciesLook {
    let step = |sum: u64, byte: u8| (sum ^ u64::from(byte)).wrapping_mul(0x100_0000_01b3);
    let sum = epithet.bytes().fold(START, step);
    let looks = SPECIES.len() as u64 * 4;
    let look = ((sum ^ (sum >> 32)) % looks) as usize;
    SpeciesLook {
        colour: SPECIES[look % SPECIES.len()],
        hatching: look / SPECIES.len(),
    }
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

    /// Paper or black, whichever stands out more from this colour.
    pub fn letters_on(self) -> Colour {
        const BLACK: Colour = Colour(0, 0, 0);
        match contrast(PAPER, self) > contrast(BLACK, self) {
            true => PAPER,
            false => BLACK,
        }
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
