//! The code of a plant as a QR code (ISO/IEC 18004), in modules of whole dots.

use crate::render::scene::{POINTS, Path, Step};
use qrcode::{EcLevel, QrCode};

/// A dot of a printer with 300 dots to the inch, millimetres.
pub const DOT: f64 = 25.4 / 300.0;
/// Dots of the smallest module: 4 make 0.339 mm, the first whole number of dots from 0.33 mm on.
const FEWEST_DOTS: u32 = 4;
/// Dots of the largest module; more helps no reader and takes room from the words.
const MOST_DOTS: u32 = 6;
/// Modules kept white on each side (ISO/IEC 18004).
const QUIET: usize = 4;

/// A QR code with the size of its modules.
#[derive(Clone, Debug, PartialEq)]
pub struct Qr {
    /// Modules on a side, without the quiet zone.
    modules: usize,
    /// Row by row, whether a module is dark.
    dark: Vec<bool>,
    /// Dots of a module.
    dots: u32,
}

/// The code with the fewest modules, and of those the one that stands most dirt.
fn smallest(letters: &str) -> Option<QrCode> {
    let levels = [EcLevel::H, EcLevel::Q, EcLevel::M];
    let codes = levels.map(|level| QrCode::with_error_correction_level(letters, level).ok());
    codes.into_iter().flatten().min_by_key(QrCode::width)
}

impl Qr {
    /// The largest code for these letters in a square of `room` millimetres, quiet zone included; `None` if even the
    /// smallest does not fit.
    ///
    /// It holds the letters alone: no address, which could go dead.
    pub fn fitting(letters: &str, room: f64) -> Option<Qr> {
        let code = smallest(letters)?;
        let modules = code.width();
        let side = |dots: u32| (modules + 2 * QUIET) as f64 * f64::from(dots) * DOT;
        let dots = (FEWEST_DOTS..=MOST_DOTS).rfind(|&dots| side(dots) <= room + 1e-9)?;
        let dark = code.to_colors().into_iter();
        Some(Qr {
            modules,
            dark: dark.map(|colour| colour == qrcode::Color::Dark).collect(),
            dots,
        })
    }

    /// The size of a module, millimetres.
    pub fn module(&self) -> f64 {
        f64::from(self.dots) * DOT
    }

    /// The side with its quiet zone, millimetres.
    pub fn side(&self) -> f64 {
        (self.modules + 2 * QUIET) as f64 * self.module()
    }

    /// All dark modules as one outline, so that no seam shows between them; `corner` is that of the quiet zone, in
    /// millimetres, and is moved to the nearest dot.
    pub fn path(&self, corner: (f64, f64)) -> Path {
        let dot = |at: f64| libm::round(at / DOT) * DOT;
        let (left, top) = (dot(corner.0), dot(corner.1));
        let module = self.module();
        let mut path = Path::default();
        for row in 0..self.modules {
            for (from, to) in self.stretches(row) {
                let x = left + (QUIET + from) as f64 * module;
                let y = top + (QUIET + row) as f64 * module;
                let wide = (to - from) as f64 * module;
                let rect = [x, y, wide, module].map(|mm| mm * POINTS);
                path.0
                    .extend::<Vec<Step>>(Path::rect(rect[0], rect[1], rect[2], rect[3]).0);
            }
        }
        path
    }

    /// The dark stretches of a row: first module, and the one behind the last.
    fn stretches(&self, row: usize) -> Vec<(usize, usize)> {
        let cells = &self.dark[row * self.modules..(row + 1) * self.modules];
        let mut at = 0;
        let mut stretches = Vec::new();
        for same in cells.chunk_by(|one, other| one == other) {
            if same[0] {
                stretches.push((at, at + same.len()));
            }
            at += same.len();
        }
        stretches
    }
}
