//! Which plants descend from a species.

use crate::ancestry::Part;
use crate::context::Descent;
use crate::lineage::{Lineage, PlantRow};
use crate::registry::Registry;

/// A species asked for that is not in the registry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownSpecies {
    /// As typed.
    pub typed: String,
    /// Epithets that are written much like it.
    pub near: Vec<String>,
}

/// The part a species name stands for; inner `None` when no founder brings it in.
///
/// # Errors
/// When it is not in the registry.
pub(super) fn species_part(
    registry: &Registry,
    descent: &Descent,
    species: &str,
) -> Result<Option<Part>, UnknownSpecies> {
    let epithet = species
        .trim()
        .trim_start_matches("N. ")
        .trim_start_matches("Nepenthes ")
        .to_lowercase();
    let mut codes = registry.taxa.codes.iter();
    let meant = codes.find(|code| code.code.eq_ignore_ascii_case(&epithet));
    let epithet = meant.map_or(epithet.as_str(), |code| code.means);
    if let Some(at) = descent.species.iter().position(|known| known == epithet) {
        return Ok(Some(Part::Species(at as u32)));
    }
    let mut known = registry.taxa.species.iter().map(|row| row.epithet);
    if known.clone().any(|of| of == epithet) {
        return Ok(None);
    }
    let near = crate::text::nearest(epithet, known.by_ref());
    Err(UnknownSpecies {
        typed: species.to_owned(),
        near: near.into_iter().map(Into::into).collect(),
    })
}

/// Whether a part of a plant's ancestry is of a species, or may be.
pub(super) fn descends(descent: &Descent, lineage: &Lineage, plant: PlantRow, part: Part) -> bool {
    let holds = |of: &Part| *of == part;
    descent.shares_of(lineage, plant).is_ok_and(|shares| {
        shares.iter().any(|(of, _)| match of {
            Part::OneOf(set) => descent.shares.members(*set).iter().any(holds),
            of => holds(of),
        })
    })
}
