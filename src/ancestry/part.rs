//! What a share of descent can belong to: a species, nobody knows whom, or one of several.

/// One bearer of a share.
///
/// Species are small numbers given by the caller. A share "one of several" stays whole and apart: it belongs to the
/// members of a listed set in some way nobody recorded, and is never split among them.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Part {
    /// A species (or variety, or provisional taxon) by the caller's number.
    Species(u32),
    /// A set of parts by its number, see [`super::Shares::members`].
    OneOf(u32),
    /// Descent through an unknown parent or an unidentified founder.
    Unknown,
}
