//! Words of the files, as records write them.

use super::codes::Codes;
use crate::record::{Parents, PossiblePair};
use crate::recording::written::{RonRecord, text, texts};

/// Codes as a list.
pub fn renamed(codes: &Codes, of: &[impl AsRef<str>]) -> String {
    texts(of.iter().map(|code| codes.of(code.as_ref())))
}

/// The parents of a cross as RON.
pub fn parents(of: &Parents, codes: &Codes) -> String {
    let one = |record: RonRecord, side, code: &str| record.text(side, &codes.of(code));
    let seed = |code: &str| one(RonRecord::new(), "seed", code);
    let several = |of: &[&str]| texts(of.iter().map(|code| codes.of(code)));
    let pollens = |record: RonRecord, pollen: &[&str], weights: &[u32]| {
        let weights = (!weights.is_empty()).then(|| format!("{weights:?}"));
        let record = record.value("pollen", several(pollen));
        record.value_if("weights", weights)
    };
    match of {
        Parents::Known { seed: of, pollen } => one(seed(of), "pollen", pollen).named("known"),
        Parents::PollenOneOf {
            seed: of,
            pollen,
            weights,
        } => pollens(seed(of), pollen, weights).named("pollen_one_of"),
        Parents::PollenMixed {
            seed: of,
            pollen,
            weights,
        } => pollens(seed(of), pollen, weights).named("pollen_mixed"),
        Parents::Open { seed: of, near } => {
            let near = (!near.is_empty()).then(|| several(near));
            seed(of).value_if("near", near).named("open")
        }
        Parents::PollenUnknown { seed: of } => seed(of).named("pollen_unknown"),
        Parents::SeedOneOf { seed: of, pollen } => {
            let seeds = RonRecord::new().value("seed", several(of));
            one(seeds, "pollen", pollen).named("seed_one_of")
        }
        Parents::SeedUnknown { pollen } => {
            one(RonRecord::new(), "pollen", pollen).named("seed_unknown")
        }
        Parents::OneOfPairs(pairs) => {
            let pair = |of: &PossiblePair| {
                let weight = (of.weight > 0).then_some(of.weight);
                let record = one(seed(of.seed), "pollen", of.pollen);
                record.value_if("weight", weight).line()
            };
            let pairs: Vec<String> = pairs.iter().map(pair).collect();
            format!("one_of_pairs([{}])", pairs.join(", "))
        }
        Parents::DirectionLost((first, second)) => {
            let [first, second] = [first, second].map(|code| text(&codes.of(code)));
            format!("direction_lost(({first}, {second}))")
        }
        Parents::LabelOnly(label) => format!("label_only({})", text(label)),
        Parents::Unknown => "unknown".to_owned(),
    }
}
