//! What exact shares are: those of one plant, a mean, a minimum, or those of a name that may be wrong.

use crate::ancestry::Reserve;
use crate::context::Context;
use crate::evidence::Unit;
use crate::naming::recorded::TopOf;
use serde::Serialize;

/// What shares are.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum SharesAre {
    /// Those of the one pair of parents, and of theirs.
    #[default]
    AsRecorded,
    /// Those that a hybrid's name alone gives, of the plant itself or of a founder behind it.
    ByName,
    /// A mean over several possible pairs, here or further back, by their stated chances.
    Expected,
    /// What all possible pairs have in common, here and further back; the rest is one part or another.
    AtLeast,
    /// Both: a mean over some pairs of what others have in common.
    ExpectedAtLeast,
}

impl SharesAre {
    /// Those of a plant, of a cross's seedlings or of a part of them. Every answer that gives shares asks here.
    pub fn of_unit(context: &Context, unit: Unit) -> SharesAre {
        SharesAre::of(reserve(context, unit))
    }

    /// By what keeps them from being those of one plant. A name that may be wrong comes first: where it is, neither a mean
    /// nor a minimum holds.
    pub(crate) fn of(reserve: Reserve) -> SharesAre {
        match (reserve.by_name, reserve.mean, reserve.least) {
            (true, _, _) => SharesAre::ByName,
            (false, false, false) => SharesAre::AsRecorded,
            (false, true, false) => SharesAre::Expected,
            (false, false, true) => SharesAre::AtLeast,
            (false, true, true) => SharesAre::ExpectedAtLeast,
        }
    }
}

/// What keeps the shares of a unit from being those of one plant; several pairs of its own always do.
pub(super) fn reserve(context: &Context, unit: Unit) -> Reserve {
    let Some(origin) = unit.origin(context.registry) else {
        return founder_reserve(context, unit);
    };
    let reserve = context.descent().reserves.of_origin(origin);
    let own = &context.lineage().pedigree[origin];
    let (several, stated) = (own.pairs.len() > 1, own.weights().is_some());
    Reserve {
        mean: reserve.mean || several && stated,
        least: reserve.least || several && !stated,
        ..reserve
    }
}

fn founder_reserve(context: &Context, unit: Unit) -> Reserve {
    let founder = match unit.top() {
        TopOf::Plant(plant) => context.names().founder(plant),
        TopOf::Cross(_) | TopOf::Pot(..) => None,
    };
    Reserve {
        by_name: founder.is_some_and(|of| of.names_alone.any()),
        ..Reserve::default()
    }
}
