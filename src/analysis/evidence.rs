//! How surely descent is known, in the fields of an answer. The words and the judgement are those of [`crate::evidence`].

use crate::evidence::{Direction, Doubt, Evidence, Strength, Unit};
use crate::lineage::PlantRow;
use serde::Serialize;

/// The evidence of one plant, cross or part of a cross.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct EvidenceRow {
    /// All of it in one sentence.
    pub words: String,
    /// How the unit's own parents are known; `null` for a founder.
    pub parents: Option<&'static str>,
    /// Pairs of parents it may have; several when one of them is the true one, or every seed has its own.
    pub pairs: Vec<EvidencePair>,
    /// `known`, `assumed` (the first on a label is taken as the seed parent) or `lost`; `null` for a founder.
    pub direction: Option<&'static str>,
    /// Control flowers of its spike; `null` when there were none, or not on every zone it may be of.
    pub controls: Option<EvidenceControls>,
    /// The weakest cross behind it; `null` when there is none.
    pub further_back: Option<FurtherBack>,
    /// Founders behind it, the best known first.
    pub founders: Vec<FounderNameRow>,
}

/// One possible pair.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EvidencePair {
    /// Code of the seed parent; `null` when not known.
    pub seed: Option<String>,
    /// Code of the pollen parent; `null` when not known.
    pub pollen: Option<String>,
    /// Its weight as stated; `null` when none was.
    pub weight: Option<u32>,
}

/// Flowers left alone.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct EvidenceControls {
    /// Pods on them.
    pub set: u32,
    /// How many they were; `null` where that is not recorded.
    pub flowers: Option<u32>,
    /// Least share of stray pollen, 0 to 1, with 95 % confidence (Wilson 1927).
    pub low: f64,
    /// Greatest share.
    pub high: f64,
    /// Whether the same plant and overlapping days joined them to the zone, since no spike was named.
    pub by_days: bool,
    /// Whether some of them stood under a cover, and the zone is not on record as covered.
    pub under_cover: bool,
}

/// The weakest cross behind a unit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FurtherBack {
    /// How it is known.
    pub known: &'static str,
    /// The ancestors on the way, from a parent to the one that came of it.
    pub path: Vec<String>,
}

/// How a founder's name is known.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FounderNameRow {
    /// Its code.
    pub id: String,
    /// How its name is known.
    pub known: &'static str,
}

impl EvidenceRow {
    /// The same with every text in another style.
    pub fn told(mut self, say: impl Fn(String) -> String) -> EvidenceRow {
        let say_of = |text: &mut String| *text = say(std::mem::take(text));
        say_of(&mut self.words);
        for pair in &mut self.pairs {
            pair.seed
                .iter_mut()
                .chain(&mut pair.pollen)
                .for_each(say_of);
        }
        let path = self.further_back.iter_mut().flat_map(|back| &mut back.path);
        path.for_each(say_of);
        self.founders.iter_mut().for_each(|of| say_of(&mut of.id));
        self
    }
}

/// The evidence of a unit in fields.
pub fn evidence_row(evidence: &Evidence, unit: Unit) -> EvidenceRow {
    let registry = evidence.registry();
    let own = evidence.statement(unit);
    let code = |plant| registry.code(plant);
    let origin = unit.origin(registry);
    let pairs = origin.map(|origin| &registry[origin].pairs);
    let pair = |pair: &crate::registry::Pair| EvidencePair {
        seed: pair.seed.map(code),
        pollen: pair.pollen.map(code),
        weight: (pair.weight > 0).then_some(pair.weight),
    };
    let further = evidence.further(unit);
    let founder = |link: crate::evidence::NameLink| FounderNameRow {
        id: code(link.plant),
        known: link.strength.code(),
    };
    EvidenceRow {
        words: evidence.sentence(unit),
        parents: own.as_ref().map(|own| own.strength().code()),
        pairs: pairs.into_iter().flatten().map(pair).collect(),
        direction: own.as_ref().map(|own| direction(own.direction)),
        controls: own.as_ref().and_then(|own| own.controls()).map(|of| {
            let interval = of.interval();
            EvidenceControls {
                set: of.set,
                flowers: of.flowers,
                low: interval.low,
                high: interval.high,
                by_days: of.by_days,
                under_cover: of.under_cover,
            }
        }),
        further_back: further.map(|further| FurtherBack {
            known: further.strength.code(),
            path: evidence.path(unit).into_iter().map(code).collect(),
        }),
        founders: evidence.founders(unit).into_iter().map(founder).collect(),
    }
}

fn direction(direction: Direction) -> &'static str {
    match direction {
        Direction::Known => "known",
        Direction::Assumed => "assumed",
        Direction::Lost => "lost",
    }
}

/// What stands beside a formula where stray pollen makes a father no more than probable, or a field about the parents could
/// not be read, since nothing in a formula shows that; empty where there is none of it.
pub fn probable_father(evidence: &Evidence, unit: Unit) -> &'static str {
    if has(evidence, unit, is_unread) {
        return " (parents in doubt)";
    }
    if has(evidence, unit, Doubt::leaves_father_probable) {
        return " (father probable)";
    }
    let registry = evidence.registry();
    let origin = unit.origin(registry);
    let parents = origin.map_or(Vec::new(), |at| registry[at].parents());
    probable_father_behind(evidence, &parents)
}

/// The same beside the formula of offspring of these plants.
pub fn probable_father_behind(evidence: &Evidence, parents: &[PlantRow]) -> &'static str {
    let pedigree = &evidence.names().lineage().pedigree;
    let behind = pedigree.with_ancestors(parents);
    let any = |is: fn(Doubt) -> bool| {
        let mut behind = behind.iter();
        behind.any(|plant| has(evidence, Unit::Plant(*plant), is))
    };
    if any(is_unread) {
        return " (parents further back in doubt)";
    }
    match any(Doubt::leaves_father_probable) {
        true => " (a father further back probable)",
        false => "",
    }
}

fn has(evidence: &Evidence, unit: Unit, is: fn(Doubt) -> bool) -> bool {
    let own = evidence.statement(unit);
    own.is_some_and(|own| own.doubts.iter().any(|(_, doubt)| is(*doubt)))
}

fn is_unread(doubt: Doubt) -> bool {
    matches!(doubt, Doubt::Unread(_))
}

/// Whether anything behind a unit is less sure than a tag.
pub fn is_less_than_a_tag(evidence: &Evidence, unit: Unit) -> bool {
    let name = evidence.weakest_name(unit);
    evidence.strength(unit) > Strength::OnTag
        || name.is_some_and(|name| name.strength > Strength::OnTag)
}

/// That a figure takes the recorded parents as right, where those of some of these, or crosses further back, are less sure
/// than a tag; none where all are.
pub fn parents_taken_as_right(evidence: &Evidence, of: &[(Unit, String)]) -> Option<String> {
    let unsure = |(unit, _): &&(Unit, String)| {
        evidence.statement(*unit).is_some() && evidence.strength(*unit) > Strength::OnTag
    };
    let codes: Vec<&str> = of
        .iter()
        .filter(unsure)
        .map(|(_, code)| code.as_str())
        .collect();
    let of_which = match codes[..] {
        [] => return None,
        [.., _] if codes.len() <= 3 => codes.join(", "),
        _ => format!("{} of the {} here", codes.len(), of.len()),
    };
    Some(format!(
        "only if the recorded parents are right: those of {of_which}, or parents further back, are less sure than a tag"
    ))
}
