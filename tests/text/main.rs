//! Sources, outlines, edits, near names and findings.

mod edits;
mod findings;
mod nearest;
mod outline;
mod sources;
