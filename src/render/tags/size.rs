//! Sizes of tags and labels.

use std::str::FromStr;

/// A tag lying across, millimetres.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct TagSize {
    /// The longer side.
    pub length: f64,
    /// The shorter side.
    pub width: f64,
    /// How much of the length stays empty: what goes into the soil, or round a stem.
    pub tip: f64,
}

/// Shortest and longest sides that can be asked for, millimetres.
const SIDES: std::ops::RangeInclusive<f64> = 6.0..=300.0;
/// A tag at least so many times as long as wide is a stake (common practice, no source).
const STAKE: f64 = 5.0;
/// The share of a stake that goes into the soil (common practice, no source).
const IN_SOIL: f64 = 0.25;

impl TagSize {
    /// The same with another empty end.
    ///
    /// # Errors
    /// In words, if less than a third of the length is left to write on.
    pub fn with_tip(self, tip: f64) -> Result<TagSize, String> {
        match tip.is_finite() && (0.0..=self.length * 2.0 / 3.0).contains(&tip) {
            true => Ok(TagSize { tip, ..self }),
            false => Err(format!(
                "--tip needs millimetres from 0 to {:.0}, two thirds of the tag; found {tip}",
                self.length * 2.0 / 3.0
            )),
        }
    }

    /// `13 × 102 mm`.
    pub fn words(self) -> String {
        format!("{} × {} mm", self.width, self.length)
    }
}

impl FromStr for TagSize {
    type Err = String;

    /// `13x102`, millimetres in either order.
    fn from_str(text: &str) -> Result<TagSize, String> {
        let bare = text.trim().trim_end_matches("mm").trim();
        let sides = bare.split_once(['x', 'X', '×']);
        let side = |side: &str| side.trim().parse::<f64>().ok();
        let sides = sides.and_then(|(one, other)| Some((side(one)?, side(other)?)));
        let Some((one, other)) = sides.filter(|(a, b)| SIDES.contains(a) && SIDES.contains(b))
        else {
            return Err(format!(
                "a size is two sides in millimetres from {} to {}, such as 13x102; found `{}`",
                SIDES.start(),
                SIDES.end(),
                crate::text::one_line(text)
            ));
        };
        let (length, width) = (one.max(other), one.min(other));
        let tip = if length >= STAKE * width {
            IN_SOIL * length
        } else {
            0.0
        };
        Ok(TagSize { length, width, tip })
    }
}
