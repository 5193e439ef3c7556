//! Words of the files, as records write them.

use super::codes::Codes;
use crate::record::{Confidence, Made, Parents, ReceivedAs, SeenBy};
use crate::recording::written::{RonRecord, text, texts};

pub fn confidence(of: Confidence) -> &'static str {
    match of {
        Confidence::Witnessed => "witnessed",
        Confidence::Tag => "tag",
        Confidence::Claim => "claim",
        Confidence::OneOfSeveral => "one_of_several",
        Confidence::Unknown => "unknown",
    }
}

pub fn made(of: Made) -> &'static str {
    match of {
        Made::Original => "original",
        Made::Cutting => "cutting",
        Made::Division => "division",
        Made::Basal => "basal",
        Made::LabCopy => "lab_copy",
    }
}

pub fn seen_by(of: SeenBy) -> &'static str {
    match of {
        SeenBy::Flowers => "flowers",
        SeenBy::Buds => "buds",
        SeenBy::LeafTest => "leaf_test",
        SeenBy::Supplier => "supplier",
        SeenBy::Unsaid => "unsaid",
    }
}

pub fn received_as(of: ReceivedAs) -> &'static str {
    match of {
        ReceivedAs::Seed => "seed",
        ReceivedAs::Seedling => "seedling",
        ReceivedAs::Cutting => "cutting",
        ReceivedAs::Division => "division",
        ReceivedAs::LabPlant => "lab_plant",
        ReceivedAs::Plant => "plant",
    }
}

/// The parents of a cross as RON.
pub fn parents(of: &Parents, codes: &Codes) -> String {
    let code = |code: &str| codes.of(code);
    let several = |of: &[&str]| texts(of.iter().map(|code| codes.of(code)));
    let weights = |record: RonRecord, weights: &[u32]| match weights.is_empty() {
        true => record,
        false => record.value("weights", format!("{weights:?}")),
    };
    match of {
        Parents::Known { seed, pollen } => RonRecord::new()
            .text("seed", &code(seed))
            .text("pollen", &code(pollen))
            .named("known"),
        Parents::PollenOneOf {
            seed,
            pollen,
            weights: of,
        } => {
            let record = RonRecord::new()
                .text("seed", &code(seed))
                .value("pollen", several(pollen));
            weights(record, of).named("pollen_one_of")
        }
        Parents::PollenMixed {
            seed,
            pollen,
            weights: of,
        } => {
            let record = RonRecord::new()
                .text("seed", &code(seed))
                .value("pollen", several(pollen));
            weights(record, of).named("pollen_mixed")
        }
        Parents::Open { seed, near } => {
            let record = RonRecord::new().text("seed", &code(seed));
            let near = (!near.is_empty()).then(|| several(near));
            record.value_if("near", near).named("open")
        }
        Parents::PollenUnknown { seed } => RonRecord::new()
            .text("seed", &code(seed))
            .named("pollen_unknown"),
        Parents::SeedOneOf { seed, pollen } => RonRecord::new()
            .value("seed", several(seed))
            .text("pollen", &code(pollen))
            .named("seed_one_of"),
        Parents::SeedUnknown { pollen } => RonRecord::new()
            .text("pollen", &code(pollen))
            .named("seed_unknown"),
        Parents::OneOfPairs(pairs) => {
            let pair = |pair: &crate::record::PossiblePair| {
                let record = RonRecord::new()
                    .text("seed", &code(pair.seed))
                    .text("pollen", &code(pair.pollen));
                record
                    .value_if("weight", (pair.weight > 0).then_some(pair.weight))
                    .line()
            };
            let pairs: Vec<String> = pairs.iter().map(pair).collect();
            format!("one_of_pairs([{}])", pairs.join(", "))
        }
        Parents::DirectionLost((one, other)) => {
            format!(
                "direction_lost(({}, {}))",
                text(&code(one)),
                text(&code(other))
            )
        }
        Parents::LabelOnly(label) => format!("label_only({})", text(label)),
        Parents::Unknown => "unknown".to_owned(),
    }
}
