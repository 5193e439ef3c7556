//! Texts as they lie on disk: sources, places in them, their outline, edits that keep every other byte.
