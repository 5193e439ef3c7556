//! The running server on loopback: who gets in, what gets into the book, and how often.
//!
//! `PODBOOK_SERVE=1000 cargo test --test serve` tries the slow clients and the interruptions a thousand times each; the ordinary
//! run tries fewer.

#[cfg(unix)]
mod cut_short;
mod doors;
#[path = "../support/drawn_tag.rs"]
mod drawn_tag;
#[cfg(unix)]
mod ending;
#[path = "../support/heard.rs"]
mod heard;
mod lan;
#[path = "../support/lot.rs"]
mod lot;
mod once;
mod page;
mod pairing;
mod pictures;
mod records;
mod running;
mod slow;
mod spoken;
#[cfg(unix)]
mod surroundings;

/// How often something is tried: as asked, or a few times.
fn rounds(few: usize) -> usize {
    let asked = std::env::var("PODBOOK_SERVE").ok();
    asked.and_then(|of| of.parse().ok()).unwrap_or(few)
}
