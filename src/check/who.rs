//! Who a code of a parent names, and whether two codes may name one plant.

use super::context::CheckContext;
use crate::registry::{PlantRow, Target};

/// Who a code names: a plant on record, or no more than a species or a cross.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Who<'t> {
    Plant(PlantRow),
    /// Some plant of this species or cross.
    Some(&'t str),
}

impl<'t> Who<'t> {
    pub fn named(context: &CheckContext, code: &'t str) -> Option<Who<'t>> {
        let code = code.trim();
        match (context.plant(code), context.registry.target(code)) {
            (Some(plant), _) => Some(Who::Plant(plant)),
            (None, Some(Target::Species(_) | Target::Cross(_))) => Some(Who::Some(code)),
            _ => None,
        }
    }

    /// Whether both can be one plant. Which plants a species has is not asked; a cross has its seedlings.
    pub fn may_be(self, context: &CheckContext, other: Who) -> bool {
        match (self, other) {
            (Who::Plant(a), Who::Plant(b)) => a == b,
            (Who::Some(a), Who::Some(b)) => a == b || context.registry.cross(a).is_none(),
            (Who::Plant(plant), Who::Some(code)) | (Who::Some(code), Who::Plant(plant)) => {
                let cross = context.registry.cross(code);
                cross.is_none_or(|cross| context.registry.cross_of(plant) == Some(cross))
            }
        }
    }
}
