//! The parents written on the page of a cross, one by one, with how certain each is.

use super::cross_page::{CrossPage, Parents};

/// A parent as written.
#[derive(Clone, Copy, Debug)]
pub struct Parent<'t> {
    /// Its code, as typed.
    pub code: &'t str,
    /// Whether it stands on the side of the seed parent.
    pub bore_the_seed: bool,
    /// Whether it is the only possibility for its side.
    pub certain: bool,
}

/// All parents of a cross, seed parents first. Of parents whose direction is lost neither side is certain.
pub fn parents<'t>(page: &CrossPage<'t>) -> Vec<Parent<'t>> {
    match &page.parents {
        Parents::Known { seed, pollen } => vec![mother(seed), father(pollen)],
        Parents::PollenOneOf { seed, pollen, .. } | Parents::PollenMixed { seed, pollen, .. } => {
            [mother(seed)]
                .into_iter()
                .chain(several(pollen, false))
                .collect()
        }
        Parents::Open { seed, .. } | Parents::PollenUnknown { seed } => vec![mother(seed)],
        Parents::SeedOneOf { seed, pollen } => {
            several(seed, true).chain([father(pollen)]).collect()
        }
        Parents::SeedUnknown { pollen } => vec![father(pollen)],
        Parents::OneOfPairs(pairs) => {
            let mothers: Vec<&str> = pairs.iter().map(|pair| pair.seed).collect();
            let fathers: Vec<&str> = pairs.iter().map(|pair| pair.pollen).collect();
            several(&mothers, true)
                .chain(several(&fathers, false))
                .collect()
        }
        Parents::DirectionLost((a, b)) => {
            let unsure = |code, bore_the_seed| Parent {
                code,
                bore_the_seed,
                certain: false,
            };
            vec![unsure(a, true), unsure(b, false)]
        }
        Parents::LabelOnly(_) | Parents::Unknown => Vec::new(),
    }
}

fn mother<'t>(code: &&'t str) -> Parent<'t> {
    Parent {
        code,
        bore_the_seed: true,
        certain: true,
    }
}

fn father<'t>(code: &&'t str) -> Parent<'t> {
    Parent {
        code,
        bore_the_seed: false,
        certain: true,
    }
}

/// The candidates of one side; one alone is certain.
fn several<'t>(codes: &[&'t str], bore_the_seed: bool) -> impl Iterator<Item = Parent<'t>> {
    let certain = codes.iter().all(|code| *code == codes[0]);
    codes.iter().map(move |code| Parent {
        code,
        bore_the_seed,
        certain,
    })
}
