//! What a buyer would ask.

/// A question of a buyer, in the order in which they are asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Question {
    /// What this very plant looks like.
    Photo,
    /// How it was made.
    Made,
    /// When it was sown; not asked of a plant that came from elsewhere.
    Sown,
    /// How large it is.
    Size,
    /// In which pot it stands.
    Pot,
    /// Which sex it is.
    Sex,
    /// In which climate it was kept.
    Climate,
    /// Whether it was looked at for pests.
    Pests,
    /// Whether it was treated.
    Treatment,
    /// How many growth points it has.
    GrowthPoints,
    /// What its pitchers look like.
    Traits,
    /// On which of several pieces the traits were read.
    WhichPiece,
    /// Which plants exactly were its parents.
    Parents,
}
