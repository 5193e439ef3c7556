//! Shares of the seedlings, expected and with each possible pair of parents further back.

use super::super::shares::fraction_text;
use super::answer::{PairShare, SharesIf};
use super::weigh::Intended;
use crate::ancestry::{Part, Shares};
use crate::lineage::{Origin, PlantRow};

impl Intended<'_, '_> {
    /// Expected shares of the seedlings.
    pub(super) fn shares(&self) -> Result<Vec<PairShare>, String> {
        let shares = Shares::of(&self.pedigree, &self.descent.founders);
        self.shares_of(&shares, self.origin)
    }

    /// The shares with each possible pair of parents of a parent whose own are one of several; none where that makes no
    /// difference.
    pub(super) fn shares_with_each(&self) -> Result<Vec<SharesIf>, String> {
        let mut pedigree = self.pedigree.clone();
        let mut ways = Vec::new();
        for (side, plant) in self.pair.into_iter().enumerate() {
            let Some(origin) = self.lineage.pedigree.origin(plant) else {
                continue;
            };
            let chances = origin.weights().map(|_| origin.chances());
            for (at, of) in origin
                .pairs
                .iter()
                .enumerate()
                .filter(|_| origin.pairs.len() > 1)
            {
                let own = pedigree.add_origin(Origin::certain(of.seed, of.pollen));
                let mut pair = self.pair;
                pair[side] = pedigree.add_offspring(own);
                let [seed, pollen] = pair.map(Some);
                let seedlings = pedigree.add_origin(Origin::certain(seed, pollen));
                let code = |parent: Option<PlantRow>| {
                    parent.map_or("unknown".to_owned(), |parent| self.registry.code(parent))
                };
                let (seed, pollen) = (code(of.seed), code(of.pollen));
                let parents = format!("{} of {seed} × {pollen}", self.registry.code(plant));
                let chance = chances.as_ref().map(|chances| chances[at]);
                ways.push((seedlings as usize, parents, chance));
            }
        }
        let shares = Shares::of(&pedigree, &self.descent.founders);
        let row = |(seedlings, parents, chance)| {
            Ok(SharesIf {
                shares: self.shares_of(&shares, seedlings)?,
                parents,
                chance,
            })
        };
        let rows: Vec<SharesIf> = ways.into_iter().map(row).collect::<Result<_, String>>()?;
        let differ = rows.iter().any(|row| row.shares != rows[0].shares);
        Ok(if differ { rows } else { Vec::new() })
    }

    fn shares_of(&self, shares: &Shares, origin: usize) -> Result<Vec<PairShare>, String> {
        let composition = shares
            .composition_of_origin(origin)
            .map_err(|error| error.to_string())?;
        let mut parts = composition.shares();
        parts.sort_by(|(a, x), (b, y)| {
            let unknown = |part: &Part| *part == Part::Unknown;
            let name = |part: &Part| self.part_name(shares, *part);
            unknown(a)
                .cmp(&unknown(b))
                .then(y.as_f64().total_cmp(&x.as_f64()))
                .then_with(|| name(a).cmp(&name(b)))
        });
        let row = |(part, share): &(Part, crate::ancestry::Fraction)| {
            let of = self.part_name(shares, *part);
            let listed = self
                .registry
                .taxa
                .species
                .iter()
                .find(|row| row.epithet == of);
            let appendix_one = listed.is_some_and(|row| row.appendix == Some("I"));
            PairShare {
                share: fraction_text(share),
                appendix_one,
                of,
            }
        };
        Ok(parts.iter().map(row).collect())
    }

    fn part_name(&self, shares: &Shares, part: Part) -> String {
        match part {
            Part::Species(at) => self.descent.species[at as usize].clone(),
            Part::Unknown => "unknown".to_owned(),
            Part::OneOf(set) => {
                let members = shares
                    .members(set)
                    .iter()
                    .map(|&member| self.part_name(shares, member));
                members.collect::<Vec<_>>().join(" or ")
            }
        }
    }
}
