//! The files besides those of the album.

/// The style sheet besides that of the album, `bench.css`.
pub const STYLE: &str = include_str!("bench.css");
/// The program that records, `bench.js`.
pub const SCRIPT: &str = include_str!("bench.js");
