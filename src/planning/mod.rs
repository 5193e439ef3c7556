//! What to pollinate next.
