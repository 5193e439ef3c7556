//! A photo made ready for a picture: upright, scaled down, and written anew without what a camera wrote beside it.

use crate::picture::Picture;

pub use crate::picture::PictureRefusal as PhotoRefusal;

/// The longest side kept, pixels: sharp on paper to A5 across, small enough to send.
const LONGEST: u32 = 1000;
/// The longest side of a small photo, pixels: sharp in a grid on a phone.
const SMALL: u32 = 360;

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

impl Photo {
    /// Reads a JPEG or PNG.
    ///
    /// # Errors
    /// If it is neither, is broken, or has more than 20,000 pixels a side.
    pub fn read(bytes: &[u8]) -> Result<Photo, PhotoRefusal> {
        let small = Picture::read(bytes)?.within(LONGEST);
        let (width, height) = small.size();
        Ok(Photo {
            width,
            height,
            jpeg: small.jpeg()?,
            pixels: small.into_rgb(),
        })
    }

    /// The same smaller, as JPEG, with its width and height.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn small(&self) -> Result<(Vec<u8>, (u32, u32)), PhotoRefusal> {
        let whole = Picture::of_rgb((self.width, self.height), self.pixels.clone());
        let small = whole.within(SMALL);
        Ok((small.jpeg()?, small.size()))
    }
}
