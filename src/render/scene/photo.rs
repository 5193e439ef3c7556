//! A photo made ready for a picture: turned upright, scaled down, and written anew, so that nothing of what a camera
//! wrote beside it, such as the place, goes along.

use image::codecs::jpeg::JpegEncoder;
use image::{DynamicImage, ImageDecoder, ImageReader, Limits, RgbImage};
use std::fmt;
use std::io::Cursor;

/// The longest side kept, pixels: sharp on paper to A5 across, small enough to send.
const LONGEST: u32 = 1000;
/// The longest side that is opened, pixels, and the most memory that may take.
const OPENED: u32 = 20_000;
const MEMORY: u64 = 1 << 30;
/// Of 100, by which JPEG gives up little that is seen.
const QUALITY: u8 = 82;

/// A photo, upright.
#[derive(Clone, Debug, PartialEq)]
pub struct Photo {
    /// Width in pixels.
    pub width: u32,
    /// Height in pixels.
    pub height: u32,
    /// Red, green and blue of every pixel, row by row.
    pub pixels: Vec<u8>,
    /// The same as JPEG.
    pub jpeg: Vec<u8>,
}

/// Why a photo cannot be shown.
#[derive(Clone, Debug, PartialEq)]
pub struct PhotoRefusal(String);

impl fmt::Display for PhotoRefusal {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}", self.0)
    }
}

impl Photo {
    /// Reads a JPEG or PNG.
    ///
    /// # Errors
    /// If it is neither, is broken, or has more than 20,000 pixels a side.
    pub fn read(bytes: &[u8]) -> Result<Photo, PhotoRefusal> {
        let upright = upright(bytes).map_err(|why| PhotoRefusal(why.to_string()))?;
        let side = upright.width().max(upright.height());
        let small = match side > LONGEST {
            // Plain averages: the same bytes on every machine.
            true => upright.thumbnail(LONGEST, LONGEST),
            false => upright,
        };
        let small = small.to_rgb8();
        let mut jpeg = Vec::new();
        let written = JpegEncoder::new_with_quality(&mut jpeg, QUALITY).encode_image(&small);
        written.map_err(|why| PhotoRefusal(why.to_string()))?;
        Ok(Photo {
            width: small.width(),
            height: small.height(),
            pixels: small.into_raw(),
            jpeg,
        })
    }
}

/// The longest side of a small photo, pixels: sharp in a grid on a phone.
const SMALL: u32 = 360;

impl Photo {
    /// The same smaller, as JPEG, with its width and height.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn small(&self) -> Result<(Vec<u8>, (u32, u32)), PhotoRefusal> {
        let whole = RgbImage::from_raw(self.width, self.height, self.pixels.clone());
        let whole = DynamicImage::ImageRgb8(whole.unwrap_or_default());
        let small = match self.width.max(self.height) > SMALL {
            true => whole.thumbnail(SMALL, SMALL),
            false => whole,
        };
        let mut jpeg = Vec::new();
        let written = JpegEncoder::new_with_quality(&mut jpeg, QUALITY).encode_image(&small);
        written.map_err(|why| PhotoRefusal(why.to_string()))?;
        Ok((jpeg, (small.width(), small.height())))
    }
}

/// The picture as it was meant to be seen: cameras lay it down turned and say how.
fn upright(bytes: &[u8]) -> image::ImageResult<DynamicImage> {
    let mut limits = Limits::default();
    limits.max_image_width = Some(OPENED);
    limits.max_image_height = Some(OPENED);
    limits.max_alloc = Some(MEMORY);
    let mut reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format()?;
    reader.limits(limits);
    let mut decoder = reader.into_decoder()?;
    let turned = decoder.orientation()?;
    let mut picture = DynamicImage::from_decoder(decoder)?;
    picture.apply_orientation(turned);
    Ok(picture)
}
