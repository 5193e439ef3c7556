//! For what a card is laid out: widths and sizes of letters.

use crate::render::scene::POINTS;

/// The measures of a layout, points; on a phone a point is a pixel.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Look {
    /// Width of the page.
    pub width: f64,
    /// Height of the page; `None` for a picture as long as it needs to be.
    pub height: Option<f64>,
    pub(super) margin: f64,
    /// Letters of the name, of all that is read, and of labels.
    pub(super) title: f64,
    pub(super) body: f64,
    pub(super) small: f64,
    /// Width of the column of labels; 0 where labels stand above.
    pub(super) labels: f64,
}

impl Look {
    /// 148 × 210 mm (ISO 216).
    pub const A5: Look = Look {
        width: 148.0 * POINTS,
        height: Some(210.0 * POINTS),
        margin: 10.0 * POINTS,
        title: 14.0,
        body: 8.8,
        small: 7.6,
        labels: 86.0,
    };
    /// 210 × 297 mm.
    pub const A4: Look = Look {
        width: 210.0 * POINTS,
        height: Some(297.0 * POINTS),
        margin: 17.0 * POINTS,
        title: 20.0,
        body: 12.0,
        small: 10.2,
        labels: 118.0,
    };
    /// A phone held upright, 360 pixels across; the smallest letters are 11 pixels.
    pub const PHONE: Look = Look {
        width: 360.0,
        height: None,
        margin: 16.0,
        title: 19.0,
        body: 13.0,
        small: 11.0,
        labels: 0.0,
    };

    /// The same with letters and the column of labels in another size.
    pub(super) fn in_size(self, size: f64) -> Look {
        Look {
            title: self.title * size,
            body: self.body * size,
            small: self.small * size,
            labels: self.labels * size,
            ..self
        }
    }

    /// Width between the margins.
    pub(super) fn room(self) -> f64 {
        self.width - 2.0 * self.margin
    }
}
