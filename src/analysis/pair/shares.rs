//! Shares of the seedlings, expected and with each possible pair of parents further back.

use crate::analysis::pair::answer::{PairShare, SharesIf};
use crate::analysis::pair::weigh::Intended;
use crate::ancestry::fraction_text;
use crate::ancestry::{Part, Shares};
use crate::lineage::{Origin, Pair, Pedigree, PlantRow};

/// The origin of the seedlings if a parent's parents were these, these in words, their chance.
type Way = (usize, String, Option<f64>);

impl Intended<'_, '_> {
    /// Expected shares of the seedlings.
    pub(crate) fn shares(&self) -> Result<Vec<PairShare>, String> {
        let shares = Shares::of(&self.pedigree, &self.descent.founders);
        self.shares_of(&shares, self.origin)
    }

    /// The shares with each possible pair of parents of a parent whose own are one of several; none where that makes no
    /// difference.
    pub(crate) fn shares_with_each(&self) -> Result<Vec<SharesIf>, String> {
        let mut pedigree = self.pedigree.clone();
        let ways: Vec<Way> = (0..2)
            .flat_map(|side| self.ways(&mut pedigree, side))
            .collect();
        let shares = Shares::of(&pedigree, &self.descent.founders);
        let row = |(seedlings, parents, chance): Way| {
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

    /// The pollination once for each possible pair of parents of one side, as more origins of a pedigree; none when
    /// they are certain.
    fn ways(&self, pedigree: &mut Pedigree, side: usize) -> Vec<Way> {
        let plant = self.pair[side];
        let origin = self.lineage.pedigree.origin(plant);
        let Some(origin) = origin.filter(|origin| origin.pairs.len() > 1) else {
            return Vec::new();
        };
        let stated = origin.weights().is_some();
        let code = |plant: Option<PlantRow>| {
            plant.map_or("unknown".to_owned(), |plant| self.registry.code(plant))
        };
        let pairs = origin.pairs.iter().zip(origin.chances());
        let way = |(of, chance): (&Pair, f64)| {
            let own = pedigree.add_origin(Origin::certain(of.seed, of.pollen));
            let mut pair = self.pair;
            pair[side] = pedigree.add_offspring(own);
            let seedlings = pedigree.add_origin(Origin::certain(Some(pair[0]), Some(pair[1])));
            let parents = format!("{} × {}", code(of.seed), code(of.pollen));
            let parents = format!("{} of {parents}", self.registry.code(plant));
            (seedlings as usize, parents, stated.then_some(chance))
        };
        pairs.map(way).collect()
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
