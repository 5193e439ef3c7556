//! Which cautions an answer needs, by what was found.

use super::caution::Caution;
use super::possible::Possibility;
use super::share::Share;
use crate::ancestry::{Heterozygosity, Part, Reserve};
use crate::context::Context;
use crate::evidence::{NameKind, NameLink, Strength, Unit};
use crate::lineage::Donor;
use crate::registry::OriginRow;

/// What cautions are chosen by.
#[derive(Clone, Copy)]
pub(super) struct Found<'f> {
    pub shares: &'f [Share],
    pub possibilities: &'f [Possibility],
    pub heterozygosity: &'f Heterozygosity,
    pub reserve: Reserve,
    pub by_name_alone: bool,
}

/// All of them, in the order in which they are said.
pub(super) fn cautions(context: &Context, unit: Unit, found: Found) -> Vec<Caution> {
    let origin = unit.origin(context.registry);
    let own = (found.possibilities.first()).is_some_and(|of| of.further_back.is_empty());
    let behind = (found.reserve.mean || found.reserve.least) && !own;
    let own = origin.filter(|_| own);
    let all = [
        (found.shares.iter().any(|share| share.of == Part::Unknown))
            .then_some(Caution::UnknownPart),
        by_name(found),
        is_provisional(context, found.shares).then_some(Caution::Provisional),
        are_parents_weak(context, unit).then_some(Caution::LessThanATag),
        are_names_weak(context, unit).then_some(Caution::NamesLessThanATag),
        own.map(|origin| one_of_pairs(context, unit, origin)),
        behind.then_some(Caution::OnePairFurtherBack),
        (found.heterozygosity.assumes_equal_chances).then_some(Caution::EqualChances),
    ];
    all.into_iter().flatten().collect()
}

fn by_name(found: Found) -> Option<Caution> {
    found.reserve.by_name.then_some(match found.by_name_alone {
        true => Caution::NameAlone,
        false => Caution::NameAloneBehind,
    })
}

fn is_provisional(context: &Context, shares: &[Share]) -> bool {
    let descent = context.descent();
    let is_named = |part: &Part| matches!(part, Part::Species(_));
    let mut parts = shares.iter().flat_map(|share| match share.of {
        Part::OneOf(set) => descent.shares.members(set).to_vec(),
        part => vec![part],
    });
    parts.any(|part| is_named(&part) && !descent.founders.is_sure(part))
}

/// Whether the record of a cross, its own or one further back, is less than a tag.
fn are_parents_weak(context: &Context, unit: Unit) -> bool {
    let own = context.evidence().statement(unit);
    let further = context.evidence().further(unit);
    let own = own.map(|own| own.strength());
    own.max(further.map(|further| further.strength)) > Some(Strength::OnTag)
}

/// Whether the name of a founder is less than a tag. What is provisional or only a hybrid's name has a caution of its own;
/// parents that only a page names are as sure as the page.
fn are_names_weak(context: &Context, unit: Unit) -> bool {
    let founders = context.evidence().founders(unit);
    let is_plain = |link: &&NameLink| {
        link.kind == NameKind::Plain && context.registry.founder(link.plant).is_some()
    };
    let mut plain = founders.iter().filter(is_plain);
    plain.any(|link| link.strength > Strength::OnTag)
}

/// Whose parents one of several pairs is.
fn one_of_pairs(context: &Context, unit: Unit, origin: OriginRow) -> Caution {
    match (unit, &context.lineage().pedigree[origin].donor) {
        (_, Donor::WholePod) => Caution::OnePairOfAPod,
        (Unit::Plant(_), Donor::EachSeed | Donor::OneMother) => Caution::OnePairOfThePlant,
        (_, Donor::EachSeed | Donor::OneMother) => Caution::OnePairOfEachSeed,
    }
}
