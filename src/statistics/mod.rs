//! How siblings differ: arithmetic on numbers, not on plants.
