//! The inverse of the relationship matrix, row by row, without the matrix.
//!
//! Each plant contributes v vᵀ / D, where v has 1 at the plant and minus the expected parts at its sources, and D is
//! what it adds of its own (Henderson 1976; Quaas 1976 with inbreeding; Henderson 1988 for averaged parents). Where
//! pod-mates share an unknown draw of parents, or founders a stock or a batch, the matrix gains a row for that.

use crate::lineage::{GeneticNode, PlantRow};

use super::relations::Kinship;

/// One contribution v vᵀ / D: the row itself, its sources with their expected parts, and D.
#[derive(Clone, PartialEq, Debug)]
pub struct Contribution {
    /// Row of the matrix.
    pub row: usize,
    /// Earlier rows and the part expected from each.
    pub sources: Vec<(usize, f64)>,
    /// Variance of its own, above 0, in units of A.
    pub mendelian_variance: f64,
}

/// The inverse as a sum of contributions. Rows are the plants by row, then the extra ones.
#[derive(Clone, PartialEq, Debug)]
pub struct InverseParts {
    /// Number of plants.
    pub plants: usize,
    /// What the rows after the plants stand for.
    pub extra: Vec<GeneticNode>,
    /// All contributions, sources before what draws from them.
    pub contributions: Vec<Contribution>,
}

/// A plant adds nothing of its own, so the matrix has no inverse: its parents are completely inbred.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Singular(pub PlantRow);

impl std::fmt::Display for Singular {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            out,
            "the relationship matrix has no inverse: the parents of plant row {} are completely inbred",
            self.0.0
        )
    }
}

impl std::error::Error for Singular {}

impl Kinship<'_> {
    /// The contributions of which the inverse is the sum.
    ///
    /// # Errors
    /// [`Singular`] if a plant adds no variance of its own.
    pub fn inverse_parts(&self) -> Result<InverseParts, Singular> {
        let (identity, nodes) = (self.identity(), self.identity().nodes());
        let mut parts = InverseParts {
            plants: self.pedigree().len(),
            extra: Vec::new(),
            contributions: Vec::new(),
        };
        let mut rows = Rows {
            of_stem: vec![Row::Nothing; nodes.len() as usize],
        };
        for node in 0..nodes.len() {
            let mendelian_variance = identity.mendelian_variance(node);
            rows.of_stem[node as usize] = match nodes.node(node) {
                GeneticNode::Founder(plant) | GeneticNode::Parent(plant) => Row::At(plant.index()),
                GeneticNode::Pod(_) if mendelian_variance == 0.0 => {
                    Row::Sources(rows.resolve(nodes.sources(node)))
                }
                GeneticNode::Stock(_) if mendelian_variance == 0.0 => Row::Nothing,
                _ => {
                    parts.extra.push(nodes.node(node));
                    Row::At(parts.plants + parts.extra.len() - 1)
                }
            };
            let sources = rows.resolve(nodes.sources(node));
            match (nodes.node(node), &rows.of_stem[node as usize]) {
                (GeneticNode::Founder(plant) | GeneticNode::Parent(plant), _)
                    if mendelian_variance <= 0.0 =>
                {
                    return Err(Singular(plant));
                }
                (_, &Row::At(row)) => parts.contributions.push(Contribution {
                    row,
                    sources,
                    mendelian_variance,
                }),
                _ => {}
            }
        }
        for plant in self
            .pedigree()
            .plants()
            .filter(|&plant| nodes.of_plant(plant).is_none())
        {
            let origin = self
                .pedigree()
                .origin_row(plant)
                .expect("a plant without node has an origin");
            let mendelian_variance = identity.pod_identity(origin).mendelian_variance;
            if mendelian_variance <= 0.0 {
                return Err(Singular(plant));
            }
            let sources = rows.resolve(std::iter::once((nodes.of_pod(origin), 1.0)));
            parts.contributions.push(Contribution {
                row: plant.index(),
                sources,
                mendelian_variance,
            });
        }
        Ok(parts)
    }
}

/// Where each node stands in the matrix.
struct Rows {
    of_stem: Vec<Row>,
}

#[derive(Clone)]
enum Row {
    At(usize),
    /// Without a row of its own: these rows stand for it.
    Sources(Vec<(usize, f64)>),
    Nothing,
}

impl Rows {
    fn resolve(&self, sources: impl Iterator<Item = (u32, f64)>) -> Vec<(usize, f64)> {
        let mut resolved: Vec<(usize, f64)> = Vec::new();
        for (source, fraction) in sources {
            match &self.of_stem[source as usize] {
                Row::At(row) => resolved.push((*row, fraction)),
                Row::Sources(rows) => {
                    resolved.extend(rows.iter().map(|&(row, part)| (row, fraction * part)))
                }
                Row::Nothing => {}
            }
        }
        resolved.sort_by_key(|source| source.0);
        // Pods of one parent meet in it.
        resolved.dedup_by(|next, kept| {
            let same = next.0 == kept.0;
            if same {
                kept.1 += next.1;
            }
            same
        });
        resolved
    }
}

impl InverseParts {
    /// Number of rows.
    pub fn len(&self) -> usize {
        self.plants + self.extra.len()
    }

    /// Whether there is no row.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }
}
