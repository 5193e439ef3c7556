//! Recording at the bench: a season played by commands alone, and every slip that is refused.

mod answers;
#[path = "../support/bench_words.rs"]
mod bench_words;
mod by_hand;
mod doubts_that_travel;
mod fingerprints;
mod flowers;
mod handover;
mod journal;
mod late;
mod line_edits;
mod mended;
mod mix_ups;
mod order;
mod played;
mod promised;
#[cfg(unix)]
mod questions;
mod read_back;
mod refused;
mod right_record;
mod season;
mod slips;
mod taking_in;
mod told_again;
mod trays;
mod years;
