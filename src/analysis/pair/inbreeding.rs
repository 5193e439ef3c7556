//! How inbred the seedlings would be, and what that is based on.

use crate::analysis::kinship::outcomes;
use crate::analysis::kinship::{RestsOn, in_shared_batches};
use crate::analysis::pair::answer::PairInbreeding;
use crate::analysis::pair::intended::Intended;
use crate::kinship::{Kinship, possible_kinship};
use crate::lineage::{FounderStock, Founding, PedigreeTooComplex};

impl Intended<'_, '_, '_> {
    pub(crate) fn inbreeding(&self) -> Result<PairInbreeding, PedigreeTooComplex> {
        let kinship = Kinship::of(&self.pedigree, self.founding)?;
        let above = self.context.lineage().pedigree.with_ancestors(&self.pair);
        let in_batch = in_shared_batches(self.founding, &above);
        let apart = (in_batch > 1).then(|| self.without_batches());
        let apart = apart.map(|founding| {
            let kinship = Kinship::of(&self.pedigree, &founding)?;
            Ok::<f64, PedigreeTooComplex>(kinship.inbreeding_of_origin(self.origin))
        });
        let expected = kinship.inbreeding_of_origin(self.origin);
        let possible =
            possible_kinship(&self.context.lineage().pedigree, self.founding, self.pair)?;
        let may_be = possible.as_ref().map(outcomes).unwrap_or_default();
        Ok(PairInbreeding {
            at_least: may_be.first().map_or(expected, |of| of.value),
            expected,
            may_be,
            if_batches_unrelated: apart.transpose()?,
            rests_on: RestsOn::of((&self.pedigree, &kinship), self.founding, &self.pair),
        })
    }

    /// The assumptions on founders, with every batch taken apart.
    fn without_batches(&self) -> Founding {
        let mut apart = self.founding.clone();
        for plant in self.registry.plants().take(self.registry.founders().len()) {
            if let Some(stock) = self.founding.stock(plant) {
                apart.declare(
                    plant,
                    FounderStock {
                        batch: None,
                        ..stock.clone()
                    },
                );
            }
        }
        apart
    }
}
