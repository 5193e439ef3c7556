//! Names: labels read, formulas written, epithets judged.
