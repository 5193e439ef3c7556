//! Sources, outlines, edits, near names and findings.

mod findings;
mod outline;
mod sources;
