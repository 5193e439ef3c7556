//! Doors to pages.

/// A page to go to.
#[derive(Clone, Debug)]
pub struct Door {
    /// Its code.
    pub id: String,
    /// Where it lies.
    pub path: String,
}
