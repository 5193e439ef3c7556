//! By what a picture is known again.

use sha2::{Digest, Sha256};
use std::fmt::Write;

/// Digits of a mark: among 100,000 pictures two bear the same one with a chance of 1 in 50,000.
const DIGITS: usize = 12;

/// The first 12 hexadecimal digits of the SHA-256 (FIPS 180-4) of a file.
pub fn mark(bytes: &[u8]) -> String {
    let mut out = String::new();
    for byte in &Sha256::digest(bytes)[..DIGITS / 2] {
        let _ = write!(out, "{byte:02x}");
    }
    out
}

/// The mark a name ends with: `photos/X22-02-5-2025-05-10-3fa95b1c07de.jpg`.
pub fn mark_of_name(file: &str) -> Option<&str> {
    let (_, mark) = file.strip_suffix(".jpg")?.rsplit_once('-')?;
    let is_one = mark.len() == DIGITS && mark.bytes().all(|byte| byte.is_ascii_hexdigit());
    is_one.then_some(mark)
}
