//! What a page says, without its layout, its remarks and the spelling of its dates: as values that can be compared, in the
//! months of another half of the world, and in canonical form.

pub mod canonical;
pub mod dates;
pub mod seasons;
pub mod value;
