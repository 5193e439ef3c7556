//! What to keep in mind before this pollination.

use crate::analysis::pair::answer::{PairInbreeding, PairOptions, PairReport};
use crate::analysis::pair::caution::{Caution, Degree};

impl PairReport {
    pub(crate) fn to_keep_in_mind(&self, options: PairOptions) -> Vec<Caution> {
        let mut told = vec![Caution::Kinship(self.inbreeding.rests_on.assumptions())];
        told.extend(inbred(&self.inbreeding));
        if !self.impossible.is_empty() {
            return told;
        }
        told.push(Caution::Spread);
        let aside = self.traits.iter().filter(|row| row.set_aside.pods() > 0);
        let aside: Vec<_> = aside.map(|row| (row.name.clone(), row.set_aside)).collect();
        if !aside.is_empty() {
            told.push(Caution::SetAside(aside));
        }
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
