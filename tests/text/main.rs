//! Sources, outlines, edits, near names and findings.

mod commit;
mod edits;
mod findings;
mod nearest;
mod new_folder;
mod outline;
mod sources;
