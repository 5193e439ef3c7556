//! A picture opened, turned upright, made smaller and written anew, so that nothing of what a camera wrote beside it,
//! such as the place, goes along.

use image::codecs::jpeg::JpegEncoder;
use image::{DynamicImage, GrayImage, ImageDecoder, ImageError, ImageReader, Limits, RgbImage};
use std::fmt;
use std::io::{Cursor, ErrorKind};

/// The longest side that is opened, pixels; the most pixels of a picture, which is more than phones take; and the most
/// memory that may take.
const OPENED: u32 = 20_000;
const PIXELS: u64 = 128_000_000;
const MEMORY: u64 = 512 << 20;
/// Of 100, by which JPEG gives up little that is seen.
const QUALITY: u8 = 82;

/// A picture as it was meant to be seen.
#[derive(Clone, Debug)]
pub struct Picture(DynamicImage);

/// Why a picture cannot be shown.
#[derive(Clone, Debug, PartialEq)]
pub struct PictureRefusal(String);

impl fmt::Display for PictureRefusal {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}", self.0)
    }
}

const CUT_OFF: &str = "it is cut off before its end";

fn too_large() -> String {
    "it is too large: at most 20,000 pixels a side and 128 million in all".to_owned()
}

impl From<ImageError> for PictureRefusal {
    fn from(why: ImageError) -> Self {
        PictureRefusal(match why {
            ImageError::Unsupported(_) => "its format is neither JPEG nor PNG".to_owned(),
            ImageError::Limits(_) => too_large(),
            ImageError::IoError(why) if why.kind() == ErrorKind::UnexpectedEof => {
                CUT_OFF.to_owned()
            }
            why => why.to_string(),
        })
    }
}

impl Picture {
    /// Reads a JPEG or PNG; cameras lay a picture down turned and say how, so it is turned upright.
    ///
    /// # Errors
    /// If it is neither, is broken or cut off, has more than 20,000 pixels a side or 128 million in all, or needs more than
    /// 512 MiB.
    pub fn read(bytes: &[u8]) -> Result<Picture, PictureRefusal> {
        if is_cut_off(bytes) {
            return Err(PictureRefusal(CUT_OFF.to_owned()));
        }
        let mut limits = Limits::default();
        limits.max_image_width = Some(OPENED);
        limits.max_image_height = Some(OPENED);
        limits.max_alloc = Some(MEMORY);
        let mut reader = ImageReader::new(Cursor::new(bytes))
            .with_guessed_format()
            .map_err(|why| PictureRefusal(why.to_string()))?;
        reader.limits(limits);
        let mut decoder = reader.into_decoder()?;
        let (width, height) = decoder.dimensions();
        if u64::from(width) * u64::from(height) > PIXELS {
            return Err(PictureRefusal(too_large()));
        }
        let turned = decoder.orientation()?;
        let mut picture = DynamicImage::from_decoder(decoder)?;
        picture.apply_orientation(turned);
        Ok(Picture(picture))
    }

    /// Red, green and blue of every pixel, row by row; black where there are not so many.
    pub fn of_rgb((width, height): (u32, u32), pixels: Vec<u8>) -> Picture {
        let whole = RgbImage::from_raw(width, height, pixels);
        Picture(DynamicImage::ImageRgb8(
            whole.unwrap_or_else(|| RgbImage::new(width, height)),
        ))
    }

    /// Width and height in pixels.
    pub fn size(&self) -> (u32, u32) {
        (self.0.width(), self.0.height())
    }

    /// The same with no side longer than so many pixels; plain averages, which give the same bytes on every machine.
    pub fn within(self, longest: u32) -> Picture {
        match self.0.width().max(self.0.height()) > longest {
            true => Picture(self.0.thumbnail(longest, longest)),
            false => self,
        }
    }

    /// The picture as JPEG, with nothing beside it.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn jpeg(&self) -> Result<Vec<u8>, PictureRefusal> {
        let mut jpeg = Vec::new();
        JpegEncoder::new_with_quality(&mut jpeg, QUALITY).encode_image(&self.0.to_rgb8())?;
        Ok(jpeg)
    }

    /// Red, green and blue of every pixel, row by row.
    pub fn into_rgb(self) -> Vec<u8> {
        self.0.into_rgb8().into_raw()
    }

    /// How bright every pixel is.
    pub(super) fn grey(&self) -> GrayImage {
        self.0.to_luma8()
    }
}

/// Whether a JPEG ends before its mark of the end (ITU-T T.81, B.1.1.3: EOI after the scans, SOS before each). Decoders
/// show what there is of it and grey for the rest.
fn is_cut_off(bytes: &[u8]) -> bool {
    let Some(mut rest) = bytes.strip_prefix(&[0xff, 0xd8]) else {
        return false;
    };
    loop {
        match rest {
            [0xff, 0xda, scans @ ..] => return !scans.windows(2).any(|two| two == [0xff, 0xd9]),
            [0xff, 0xff, ..] => rest = &rest[1..],
            [0xff, _, high, low, ..] => {
                let length = usize::from(u16::from_be_bytes([*high, *low]));
                match rest.get(2 + length..) {
                    Some(next) => rest = next,
                    None => return true,
                }
            }
            [] | [0xff] | [0xff, _] | [0xff, _, _] => return true,
            // What is no JPEG inside is left to the decoder to refuse.
            _ => return false,
        }
    }
}
