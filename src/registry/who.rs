//! Who a code of a parent names, and whether two codes may name one plant.

use super::row_types::PlantRow;
use super::target::Target;
use super::whole::Registry;

/// Who a code names: a plant on record, or no more than a species or a cross.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Who<'t> {
    /// This plant, or a ramet of it.
    Plant(PlantRow),
    /// Some plant of this species or cross.
    Some(&'t str),
}

impl<'t> Who<'t> {
    /// Who a code names; none for one that names no plant, species or cross.
    pub fn named(registry: &Registry, code: &'t str) -> Option<Who<'t>> {
        let code = code.trim();
        match (registry.plant_or_piece(code), registry.target(code)) {
            (Some(plant), _) => Some(Who::Plant(plant)),
            (None, Some(Target::Species(_) | Target::Cross(_))) => Some(Who::Some(code)),
            _ => None,
        }
    }

    /// Whether both can be one plant. Which plants a species has is not asked; a cross has its seedlings.
    pub fn may_be(self, registry: &Registry, other: Who) -> bool {
        match (self, other) {
            (Who::Plant(a), Who::Plant(b)) => a == b,
            (Who::Some(a), Who::Some(b)) => a == b || registry.cross(a).is_none(),
            (Who::Plant(plant), Who::Some(code)) | (Who::Some(code), Who::Plant(plant)) => {
                let cross = registry.cross(code);
                cross.is_none_or(|cross| registry.cross_of(plant) == Some(cross))
            }
        }
    }
}
