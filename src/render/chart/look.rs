//! For what a chart is laid out: a screen, a phone held upright, or paper to print on.

use crate::render::scene::POINTS;

/// The measures of a layout, points; on a phone a point is a pixel.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Look {
    /// Width of the picture.
    pub width: f64,
    /// Height of a page; `None` for a picture as long as it needs to be.
    pub height: Option<f64>,
    /// Air around what is drawn.
    pub margin: f64,
    /// Letters of titles.
    pub title: f64,
    /// Letters of labels.
    pub label: f64,
    /// Letters of notes and ticks, the smallest there are.
    pub small: f64,
}

impl Look {
    /// For a page of the web: its letters can still be read where a phone shows it whole, 360 points across.
    pub const SCREEN: Look = Look {
        width: 400.0,
        height: None,
        margin: 14.0,
        title: 12.5,
        label: 9.5,
        small: 8.5,
    };
    /// A phone held upright, 360 pixels across; the smallest letters are 11 pixels.
    pub const PHONE: Look = Look {
        width: 360.0,
        height: None,
        margin: 14.0,
        title: 16.0,
        label: 12.0,
        small: 11.0,
    };
    /// 210 × 297 mm (ISO 216), upright.
    pub const A4: Look = Look {
        width: 210.0 * POINTS,
        height: Some(297.0 * POINTS),
        margin: 15.0 * POINTS,
        title: 16.0,
        label: 11.0,
        small: 9.5,
    };

    /// 148 × 210 mm (ISO 216), upright.
    pub const A5: Look = Look {
        width: 148.0 * POINTS,
        height: Some(210.0 * POINTS),
        margin: 10.0 * POINTS,
        title: 13.0,
        label: 9.5,
        small: 8.5,
    };

    /// Width between the margins.
    pub fn room(self) -> f64 {
        self.width - 2.0 * self.margin
    }

    /// The right end of what is drawn.
    pub fn right(self) -> f64 {
        self.width - self.margin
    }

    /// A length beside letters, given as it is on a screen.
    pub fn beside_letters(self, on_screen: f64) -> f64 {
        on_screen * self.small / Look::SCREEN.small
    }
}
