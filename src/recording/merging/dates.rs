//! Which fields of the pages hold dates.

/// Whether a field of this name holds a date, or dates. `spike` does in a flowering and is a code elsewhere.
pub fn is_date(field: &str) -> bool {
    matches!(
        field,
        "on" | "counted"
            | "harvested"
            | "collected"
            | "thawed"
            | "finished"
            | "germinated"
            | "numbered"
            | "cut"
            | "rooted"
            | "spike"
            | "opened"
            | "over"
            | "settled"
    )
}
