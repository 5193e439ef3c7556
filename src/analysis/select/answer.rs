//! Whom to keep, sell or let go, by the rules the grower states: a proposal with the reason on every row.
//!
//! An index of weighted traits, independent levels and the front of plants no sibling beats stand side by side; the
//! proposal follows the levels first and then the index. A plant not read stays unread: it is never let go for that.
//! What counts is in `rules`, what is known in `known`, the choice in `choice`, room and sexes in `fit`, further readings
//! in `next`; `recording::marks` writes decisions.

use crate::analysis::select::choice::Chooser;
use crate::analysis::select::error::SelectError;
use crate::analysis::select::known::known_of;
use crate::analysis::select::next::read_next;
use crate::analysis::select::reason::{Caution, Levels, Needed, ReadAt, Reason};
use crate::analysis::select::response::{KeepResponse, responses};
use crate::analysis::select::rules::{Counted, counted_traits};
use crate::lineage::PlantRow;
use crate::observation::scope::{Scope, no_plant_twice};
use crate::record::{Day, KeepRules};
use crate::registry::Registry;
use serde::Serialize;

/// What is asked besides the rules.
#[derive(Clone, Copy, Debug)]
pub struct KeepWish {
    /// The day that counts as today.
    pub today: Day,
    /// Minutes available for further readings.
    pub minutes: Option<f64>,
    /// Minutes one plant's reading takes.
    pub minutes_each: f64,
    /// Heritability assumed of every trait, 0 to 1.
    pub heritability: f64,
}

/// A proposal for several crosses.
#[derive(Clone, Debug, Serialize)]
pub struct KeepReport {
    /// What is weighed, in words.
    pub weighed: Vec<String>,
    /// What is a must.
    pub needed: Vec<Needed>,
    /// Every cross.
    pub crosses: Vec<KeepCross>,
    /// Every plant here, cross by cross, best first.
    pub plants: Vec<KeepRow>,
    /// What the choice is expected to pass on.
    pub responses: Vec<KeepResponse>,
    /// Heritability assumed for that.
    pub heritability: f64,
    /// Shelves that what is kept takes, and shelves there are.
    pub shelves: Option<(f64, f64)>,
    /// Plants worth reading next.
    pub read_next: Vec<ReadNext>,
    /// Cautions.
    pub cautions: Vec<Caution>,
    /// Whether the decisions were written.
    pub applied: bool,
    /// How many plants were marked now.
    pub marked: usize,
    #[serde(skip)]
    pub(crate) minutes: Option<f64>,
}

/// One cross.
#[derive(Clone, Debug, Serialize)]
pub struct KeepCross {
    /// Code.
    pub id: String,
    /// Plants here today.
    pub here: usize,
    /// How many are to be kept by quota; `null` when none is stated.
    pub quota: Option<usize>,
    /// Proposed to keep.
    pub keep: usize,
    /// Proposed to sell.
    pub sell: usize,
    /// Proposed to let go.
    pub let_go: usize,
    /// To be read first.
    pub read_first: usize,
    /// Those beaten by no sibling of their age.
    pub on_front: usize,
    /// Those among the best by index, as many as the quota, that also stand on the front.
    pub index_on_front: usize,
    /// Plants that reach every level.
    pub pass_levels: usize,
    /// Chance that those kept hold both sexes, 0 to 1.
    pub both_sexes: Option<f64>,
    /// Trait, age and days of what was read.
    pub read_at: Vec<ReadAt>,
}

/// What is proposed for a plant.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Proposal {
    /// Keep.
    Keep,
    /// Offer.
    Sell,
    /// Discard.
    LetGo,
    /// Cannot be judged before it is read.
    ReadFirst,
}

/// One plant.
#[derive(Clone, Debug, Serialize)]
pub struct KeepRow {
    /// Code.
    pub plant: String,
    /// Code of its cross.
    pub cross: String,
    /// Weighted sum of traits standardised among siblings of one age; `null` when none was read at it.
    pub index: Option<f64>,
    /// Its 95 % limits.
    pub index_between: Option<(f64, f64)>,
    /// Place by index within the cross, 1 first.
    pub place: Option<usize>,
    /// How it stands to the levels.
    pub levels: Levels,
    /// Layer of the front, 1 beaten by no sibling; `null` when a trait was not read.
    pub front: Option<usize>,
    /// What is proposed.
    pub proposal: Proposal,
    /// Why.
    pub reason: Reason,
    #[serde(skip)]
    pub(crate) row: PlantRow,
    /// Whether it has no index only because it was read at another age than its siblings.
    #[serde(skip)]
    pub(crate) read_elsewhere: bool,
    #[serde(skip)]
    pub(crate) already_marked: bool,
}

/// A plant worth reading.
#[derive(Clone, Debug, Serialize)]
pub struct ReadNext {
    /// Code.
    pub plant: String,
    /// Minutes it takes.
    pub minutes: f64,
    /// Expected gain in the summed index of those kept.
    pub gain: f64,
}

/// Proposes whom to keep.
///
/// # Errors
/// When a code or trait names nothing, or no rule says what counts.
pub fn keep(
    registry: &Registry,
    ids: &[String],
    rules: &KeepRules,
    wish: KeepWish,
) -> Result<KeepReport, SelectError> {
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
        known.push(known_of(registry, scope, &traits, wish.today)?);
    }
    let mut choice = Chooser {
        registry,
        rules,
        traits: &traits,
        today: wish.today,
    }
    .choose(&known);
    let far = known.iter().flat_map(|of| of.far.clone());
    cautions.extend(far.map(Caution::Reading));
    cautions.append(&mut choice.cautions);
    for (at, of) in traits.iter().enumerate() {
        let again = traits[..at].iter().any(|before| before.index == of.index);
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
    Ok(KeepReport {
        weighed: traits
            .iter()
            .filter(|of| of.weight != 0.0)
            .map(|of| format!("{} {}", of.unit.name, of.weight))
            .collect(),
        needed: traits.iter().filter_map(Counted::needed).collect(),
        responses: responses(registry, &known, &traits, (&choice.rows, wish.heritability)),
        heritability: wish.heritability,
        crosses: choice.crosses,
        plants: choice.rows,
        shelves: choice.shelves,
        read_next,
        cautions,
        applied: false,
        marked: 0,
        minutes: wish.minutes,
    })
}
