//! The species behind every plant as columns of the model, worked out once for all seedlings of an origin.

use crate::ancestry::Part;
use crate::context::Context;
use crate::lineage::PlantRow;
use crate::numeric::{Fraction, nearest};
use crate::registry::Registry;

/// Columns with their values.
type Columns = Vec<(u32, f64)>;

/// The columns of species with a plant's shares in them, for every plant of a registry. A million seedlings have a few
/// thousand origins, and each of these is kept once.
pub(super) struct SpeciesColumns<'r, 't> {
    registry: &'r Registry<'t>,
    of_origin: Vec<Columns>,
    /// Of plants whose parents are not recorded: they have the first rows.
    of_founder: Vec<Columns>,
}

impl<'r, 't> SpeciesColumns<'r, 't> {
    /// For every plant, the columns of species beginning with `first`; none where a line is too long for exact shares.
    pub fn of_all(context: &Context<'r, 't>, first: u32) -> Self {
        let (registry, descent) = (context.registry, context.descent());
        let columns = |parts: Vec<(Part, Fraction)>| -> Columns {
            let known = parts.into_iter().filter_map(|(part, share)| match part {
                Part::Species(species) => Some((first + species, nearest(&share))),
                _ => None,
            });
            known.collect()
        };
        let of_origin = registry.origin_rows().map(|origin| {
            let shares = descent.shares_of_origin(origin);
            columns(shares.unwrap_or_default())
        });
        let founders = registry.plants();
        let founders = founders.take_while(|&plant| registry.origin_of(plant).is_none());
        let of_founder = founders.map(|plant| {
            let shares = descent.shares_of(context.lineage(), plant);
            columns(shares.unwrap_or_default())
        });
        SpeciesColumns {
            registry,
            of_origin: of_origin.collect(),
            of_founder: of_founder.collect(),
        }
    }

    /// The columns of one plant.
    pub fn of(&self, plant: PlantRow) -> &[(u32, f64)] {
        match self.registry.origin_of(plant) {
            Some(origin) => &self.of_origin[origin.index()],
            None => &self.of_founder[plant.index()],
        }
    }
}
