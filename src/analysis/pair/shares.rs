//! Shares of the seedlings, expected and with each possible pair of parents further back.

use crate::analysis::kinship::{Drawn, DrawnParents, drawn_of};
use crate::analysis::pair::answer::{PairShare, SharesIf};
use crate::analysis::pair::intended::Intended;
use crate::ancestry::{Part, Reserve, Reserves, Shares, TooDeep};
use crate::lineage::{Origin, Pair, Pedigree};
use crate::numeric::Fraction;
use crate::registry::OriginRow;

/// The origin of the seedlings if a parent's parents were these, these, their chance.
type Way = (OriginRow, DrawnParents, Option<f64>);

impl Intended<'_, '_, '_> {
    /// Expected shares of the seedlings, and what keeps them from being those of one plant.
    pub(crate) fn shares(&self) -> Result<(Vec<PairShare>, Reserve), TooDeep> {
        let founders = &self.context.descent().founders;
        let shares = Shares::of(&self.pedigree, founders);
        let reserves = Reserves::of(&self.pedigree, founders, &shares);
        let reserve = reserves.of_origin(self.origin);
        Ok((self.shares_of(&shares, self.origin)?, reserve))
    }

    /// The shares with each possible pair of parents of a parent whose own are one of several; none where that makes no
    /// difference.
    pub(crate) fn shares_with_each(&self) -> Result<Vec<SharesIf>, TooDeep> {
        let mut pedigree = self.pedigree.clone();
        let ways: Vec<Way> = (0..2)
            .flat_map(|side| self.ways(&mut pedigree, side))
            .collect();
        let shares = Shares::of(&pedigree, &self.context.descent().founders);
        let row = |(seedlings, parents, chance): Way| {
            Ok(SharesIf {
                shares: self.shares_of(&shares, seedlings)?,
                parents,
                chance,
            })
        };
        let rows: Vec<SharesIf> = ways.into_iter().map(row).collect::<Result<_, TooDeep>>()?;
        let differ = rows.iter().any(|row| row.shares != rows[0].shares);
        Ok(if differ { rows } else { Vec::new() })
    }

    /// The pollination once for each possible pair of parents of one side, as more origins of a pedigree; none when
    /// they are certain.
    fn ways(&self, pedigree: &mut Pedigree, side: usize) -> Vec<Way> {
        let plant = self.pair[side];
        let recorded = &self.context.lineage().pedigree;
        let row = recorded.origin_row(plant);
        let Some(row) = row.filter(|row| recorded[*row].pairs.len() > 1) else {
            return Vec::new();
        };
        let origin = &recorded[row];
        let stated = origin.weights().is_some();
        let pairs = origin.pairs.iter().zip(origin.chances());
        let way = |(of, chance): (&Pair, f64)| {
            let own = pedigree.add_origin(Origin::certain(of.seed, of.pollen));
            let mut pair = self.pair;
            pair[side] = pedigree.add_offspring(own);
            let seedlings = pedigree.add_origin(Origin::certain(Some(pair[0]), Some(pair[1])));
            let drawn = Drawn {
                plant: self.registry.code(plant),
                with_pod_mates: false,
                of: drawn_of(self.context, row, of),
            };
            let parents = DrawnParents(vec![drawn]);
            (seedlings, parents, stated.then_some(chance))
        };
        pairs.map(way).collect()
    }

    fn shares_of(&self, shares: &Shares, origin: OriginRow) -> Result<Vec<PairShare>, TooDeep> {
        let parts = self
            .context
            .descent()
            .ordered(shares, shares.composition_of_origin(origin)?);
        let row = |(part, share): &(Part, Fraction)| PairShare {
            of: self.context.descent().name_in(shares, *part),
            share: share.to_string(),
            appendix_one: self.is_in_appendix_one(*part),
            is_species: self.context.descent().founders.is_sure(*part),
        };
        Ok(parts.iter().map(row).collect())
    }

    fn is_in_appendix_one(&self, part: Part) -> bool {
        let Part::Species(at) = part else {
            return false;
        };
        let name = &self.context.descent().species[at as usize];
        let mut listed = self.registry.taxa.species.iter();
        listed.any(|row| row.epithet == *name && row.appendix == Some("I"))
    }
}
