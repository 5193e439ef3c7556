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
use crate::analysis::select::known::known_of;
use crate::analysis::select::next::read_next;
use crate::analysis::select::reason::Caution;
use crate::analysis::select::response::responses;
use crate::analysis::select::rules::{Counted, counted_traits, distinct};
use crate::observation::in_pod::InPod;
use crate::observation::mixed_up::mix_ups;
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
    for quota in &rules.quotas {
        if registry.cross(&quota.cross).is_none() {
            let cross = quota.cross.clone();
            return Err(SelectError::QuotaWithoutCross { cross });
        }
    }
    let mut cautions = Vec::new();
    let mut known = Vec::new();
    let scopes = ids
        .iter()
        .map(|id| Scope::named(registry, id))
        .collect::<Result<Vec<_>, _>>()
        .map_err(SelectError::Scope)?;
    no_plant_twice(registry, &scopes).map_err(SelectError::Scope)?;
    for scope in scopes {
        let mut of = known_of(registry, scope, &traits, wish.today);
        judge_all(&mut of, &traits)?;
        known.push(of);
    }
    let mut choice = Chooser {
        registry,
        rules,
        traits: &traits,
        today: wish.today,
    }
    .choose(&known);
    cautions.extend(in_pod(registry, wish.today, &choice));
    let far = known.iter().flat_map(|of| of.far.clone());
    let mixed_up = mix_ups(registry, known.iter().flat_map(|of| of.plants.clone()));
    cautions.extend(far.chain(mixed_up).map(Caution::Reading));
    cautions.append(&mut choice.cautions);
    for (at, of) in traits.iter().enumerate() {
        let again = traits[..at].iter().any(|before| before.row == of.row);
        let error = of.unit.error_words().filter(|_| !again);
        cautions.extend(error.map(Caution::Reading));
    }
    for of in &known {
        cautions.extend(of.cautions(of.scope.code(registry)));
    }
    let read_next = match wish.minutes {
        Some(minutes) => read_next(
            registry,
            &known,
            &traits,
            &choice,
            (minutes, wish.minutes_each),
        )?,
        None => Vec::new(),
    };
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
    let goes = |row: &&SelectRow| matches!(row.proposal, Proposal::Sell | Proposal::LetGo);
    let going = choice.rows.iter().filter(goes);
    let bearing = going.filter_map(|row| zones.remove_entry(&row.plant));
    let bearing: Vec<_> = bearing.collect();
    (!bearing.is_empty()).then_some(Caution::InPod(bearing))
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
