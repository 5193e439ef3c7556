//! Whom to keep, sell or let go, by the rules the grower states: a proposal with the reason on every row.
//!
//! An index of weighted traits, independent levels and the front of plants no sibling beats stand side by side; the
//! proposal follows the levels first and then the index. A plant not read stays unread: it is never let go for that.
//! What counts is in `rules`, what is known in `known`, the choice in `choice`, room and sexes in `fit`, further readings
//! in `next`; `recording::marks` writes decisions.

use crate::analysis::select::answer::{KeepWish, Proposal, SelectReport, SelectRow, SelectTrait};
use crate::analysis::select::choice::{Choice, Chooser};
use crate::analysis::select::error::SelectError;
use crate::analysis::select::judged::judge_all;
use crate::analysis::select::known::{Known, known_of};
use crate::analysis::select::next::read_next;
use crate::analysis::select::reason::Caution;
use crate::analysis::select::response::responses;
use crate::analysis::select::rules::{Counted, counted_traits, distinct};
use crate::lineage::Lineage;
use crate::observation::in_pod::InPod;
use crate::observation::mixed_up::mix_ups;
use crate::observation::parent_of::{ParentOf, parent_of};
use crate::observation::pieces::pieces_here;
use crate::observation::scope::{Scope, no_plant_twice};
use crate::record::{Day, KeepRules};
use crate::registry::Registry;
use crate::statistics::culling::Level;
use std::collections::BTreeMap;

/// Proposes whom to keep.
///
/// # Errors
/// When a code or trait names nothing, or no rule says what counts.
pub fn keep(
    registry: &Registry,
    ids: &[String],
    rules: &KeepRules,
    wish: KeepWish,
) -> Result<SelectReport, SelectError> {
    let traits = counted_traits(registry, ids, rules)?;
    quotas_name_crosses(registry, rules)?;
    let known = judged(registry, ids, &traits, wish.today)?;
    let chooser = Chooser {
        registry,
        rules,
        traits: &traits,
        today: wish.today,
    };
    let mut choice = chooser.choose(&known);
    let of_choice = std::mem::take(&mut choice.cautions);
    let in_pod = in_pod(registry, wish.today, &choice).into_iter();
    let in_pod = in_pod.chain(last_pieces(registry, wish.today, &choice));
    let cautions = in_pod.chain(cautions(registry, &known, &traits, of_choice));
    let cautions = cautions.collect();
    let read_next = wish.minutes.map(|minutes| {
        let time = (minutes, wish.minutes_each);
        read_next(registry, &known, &traits, &choice, time)
    });
    let read_next = read_next.transpose()?.unwrap_or_default();
    Ok(SelectReport {
        weighed: traits
            .iter()
            .filter(|of| of.weight != 0.0)
            .map(|of| format!("{} {}", of.unit.name, of.weight))
            .collect(),
        needed: traits.iter().filter_map(Counted::needed).collect(),
        responses: responses(registry, &known, &traits, (&choice.rows, wish.heritability)),
        heritability: wish.heritability,
        crosses: choice.crosses,
        traits: distinct(&traits).map(|at| column(&traits, at)).collect(),
        beside: Vec::new(),
        plants: choice.rows,
        gone: known.into_iter().flat_map(|of| of.gone).collect(),
        shelves: choice.shelves,
        read_next,
        cautions,
        applied: false,
        marked: 0,
        minutes: wish.minutes,
    })
}

/// That plants which would go may still bear pods; `None` where none does.
fn in_pod(registry: &Registry, today: Day, choice: &Choice) -> Option<Caution> {
    let mut zones: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for one in (InPod { registry, today }).ripening() {
        let plant = registry.code(one.bearer.plant);
        zones.entry(plant).or_default().push(one.code());
    }
    let bearing = going(choice).filter_map(|row| zones.remove_entry(&row.plant));
    let bearing: Vec<_> = bearing.collect();
    (!bearing.is_empty()).then_some(Caution::InPod(bearing))
}

/// That the last piece of a parent would go; `None` where none does.
fn last_pieces(registry: &Registry, today: Day, choice: &Choice) -> Option<Caution> {
    let lineage = Lineage::of(registry);
    let parents = going(choice).filter_map(|row| {
        let of = parent_of(registry, &lineage, row.row, None);
        let is_last = of != ParentOf::default() && pieces_here(registry, row.row, today) == 1;
        is_last.then(|| (row.plant.clone(), of))
    });
    let parents: Vec<_> = parents.collect();
    (!parents.is_empty()).then_some(Caution::LastPiece(parents))
}

fn going(choice: &Choice) -> impl Iterator<Item = &SelectRow> {
    let goes = |row: &&SelectRow| matches!(row.proposal, Proposal::Sell | Proposal::LetGo);
    choice.rows.iter().filter(goes)
}

fn quotas_name_crosses(registry: &Registry, rules: &KeepRules) -> Result<(), SelectError> {
    let mut crosses = rules.quotas.iter().map(|quota| &quota.cross);
    match crosses.find(|cross| registry.cross(cross).is_none()) {
        None => Ok(()),
        Some(cross) => Err(SelectError::QuotaWithoutCross(cross.clone())),
    }
}

/// The plants of every cross or part of one that is asked for, judged within it.
fn judged(
    registry: &Registry,
    ids: &[String],
    traits: &[Counted],
    today: Day,
) -> Result<Vec<Known>, SelectError> {
    let scopes = ids.iter().map(|id| Scope::named(registry, id));
    let scopes: Result<Vec<_>, _> = scopes.collect();
    let scopes = scopes.map_err(SelectError::Scope)?;
    no_plant_twice(registry, &scopes).map_err(SelectError::Scope)?;
    let known = scopes.into_iter().map(|scope| {
        let mut of = known_of(registry, scope, traits, today);
        judge_all(&mut of, traits)?;
        Ok(of)
    });
    known.collect()
}

/// Cautions on readings and plants in doubt, then those of the choice, then what was left out.
fn cautions(
    registry: &Registry,
    known: &[Known],
    traits: &[Counted],
    of_choice: Vec<Caution>,
) -> Vec<Caution> {
    let far = known.iter().flat_map(|of| of.far.clone());
    let mixed_up = mix_ups(registry, known.iter().flat_map(|of| of.plants.clone()));
    let doubts = far.chain(mixed_up).map(Caution::Reading);
    let errors = distinct(traits).filter_map(|at| traits[at].unit.error_words());
    let errors = errors.map(Caution::Reading);
    let of_each = known.iter();
    let of_each = of_each.flat_map(|of| of.cautions(of.scope.code(registry)));
    let cautions = doubts.chain(of_choice).chain(errors);
    cautions.chain(of_each).collect()
}

/// A trait that counts, with its weight, wherever in the rules that stands.
fn column(traits: &[Counted], at: usize) -> SelectTrait {
    let of = &traits[at];
    let same = traits.iter().filter(|other| other.row == of.row);
    let weight = same.map(|other| other.weight).sum();
    let at_most = matches!(of.level, Some(Level::AtMost(_)));
    SelectTrait {
        code: of.unit.code.clone(),
        heading: of.unit.heading(),
        weight,
        less_is_better: weight < 0.0 || (weight == 0.0 && at_most),
        unit: of.unit.clone(),
    }
}
