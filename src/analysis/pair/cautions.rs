//! What to keep in mind before this pollination.

use crate::analysis::pair::answer::{PairInbreeding, PairOptions, PairReport};
use crate::analysis::pair::caution::{Caution, Degree};

impl PairReport {
    pub(crate) fn to_keep_in_mind(&self, options: PairOptions) -> Vec<Caution> {
        let assumptions = self.inbreeding.rests_on.assumptions().into_iter();
        let mut told: Vec<Caution> = assumptions.map(Caution::Kinship).collect();
        told.extend(inbred(&self.inbreeding));
        told.push(Caution::Spread);
        let aside = self.traits.iter().filter(|row| row.set_aside.pods() > 0);
        told.extend(aside.map(|row| Caution::SetAside(row.name.clone(), row.set_aside)));
        if !self.traits.is_empty() {
            told.push(Caution::Midparent(options.heritability));
        }
        told.push(Caution::Border);
        told
    }
}

fn inbred(inbreeding: &PairInbreeding) -> Option<Caution> {
    let most = inbreeding.may_be.last();
    let degree = match most.map_or(inbreeding.expected, |of| of.value) {
        most if most >= 0.25 => Degree::VeryClose,
        most if most >= 0.125 => Degree::Close,
        most if most >= 0.0625 => Degree::Some,
        _ => return None,
    };
    Some(Caution::Inbred {
        degree,
        perhaps: !inbreeding.may_be.is_empty(),
    })
}
