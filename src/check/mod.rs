//! Faults that only the whole registry shows.
