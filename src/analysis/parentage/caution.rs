//! What to keep in mind with shares.

/// One thing to keep in mind, in the order in which it is said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Caution {
    /// Part of the descent is not known.
    UnknownPart,
    /// The plant is a hybrid by its name alone.
    NameAlone,
    /// A founder behind it is a hybrid by its name alone.
    NameAloneBehind,
    /// A share is of a provisional name.
    Provisional,
    /// The record of a cross behind the shares is less certain than a tag.
    LessThanATag,
    /// The name of a founder, perhaps of the plant itself, is less certain than a tag.
    NamesLessThanATag,
    /// All seedlings of a pod have one and the same of several pairs as parents.
    OnePairOfAPod,
    /// This plant has one of several pairs as parents.
    OnePairOfThePlant,
    /// Each seedling has one of several pairs as parents, seed by seed.
    OnePairOfEachSeed,
    /// An ancestor has one of several pairs as parents, with different shares.
    OnePairFurtherBack,
    /// Heterozygosity takes parents without stated chances as equally likely.
    EqualChances,
}
