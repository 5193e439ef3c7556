//! Text over and under the picture: sizes, and setting it from margin to margin.

use super::place::MARGIN;
use crate::render::scene::{Colour, Scene, Setting, Word, set, wrap};

/// Sizes of letters in points.
pub struct Sizes {
    /// What the picture is of.
    pub title: f64,
    /// Formula, expected parts and evidence.
    pub body: f64,
    /// Key and notes.
    pub small: f64,
    /// In the squares of the key.
    pub letters: f64,
}

impl Sizes {
    /// On paper and on a screen.
    pub const PAPER: Sizes = Sizes {
        title: 14.0,
        body: 9.5,
        small: 7.5,
        letters: 7.0,
    };
    /// On a phone.
    pub const PHONE: Sizes = Sizes {
        title: 19.0,
        body: 13.0,
        small: 11.5,
        letters: 11.0,
    };
}

/// A paragraph below `top`; returns where it ends.
pub fn paragraph(scene: &mut Scene, text: &[Word], top: f64, (size, colour): (f64, Colour)) -> f64 {
    let mut y = top;
    for line in wrap(text, size, scene.width - 2.0 * MARGIN) {
        y += size * 1.25;
        set(scene, &line, (MARGIN, y), Setting { size, colour });
    }
    y + size * 0.35
}
