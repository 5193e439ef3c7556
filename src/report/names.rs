//! Names of plants and crosses for pictures, cards and pages: Latin in italics.

use crate::analysis::evidence::probable_father;
use crate::evidence::{Evidence, Unit};
use crate::naming::recorded::Names;
use crate::naming::{Writing, breeder, formula_only, runs};
use crate::wording::{Name, upright};

/// The name in full with its basis, and that the father is only probable.
pub(super) fn full_name(evidence: &Evidence, unit: Unit) -> Name {
    let names = evidence.names();
    let formula = names.formula(unit.top(), false);
    match breeder(&formula, &Writing::in_runs(names.vocabulary())) {
        Ok(text) => runs(&(text + probable_father(evidence, unit))),
        Err(long) => upright(long.to_string()),
    }
}

/// The formula alone.
pub(super) fn short_name(names: &Names, unit: Unit) -> Name {
    let formula = names.formula(unit.top(), false);
    match formula_only(&formula, &Writing::in_runs(names.vocabulary())) {
        Ok(text) => runs(&text),
        Err(long) => upright(long.to_string()),
    }
}
