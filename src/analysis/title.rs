//! A name ready to be drawn: a code and the formula behind it, in upright and italic runs.

use crate::naming::recorded::{Names, TopOf};
use crate::naming::{Writing, breeder, formula_only, runs};
use crate::wording::{Name, upright};

/// A code and the formula behind it, Latin in italics; the basis, such as "seed parent first", where asked for.
pub(crate) fn titled(names: &Names, code: &str, top: TopOf, with_basis: bool) -> Name {
    let writing = Writing::in_runs(names.vocabulary());
    let formula = names.formula(top, false);
    let text = if with_basis {
        breeder(&formula, &writing)
    } else {
        formula_only(&formula, &writing)
    };
    let mut name = upright(code);
    if let Ok(text) = text {
        name.extend(upright("  "));
        name.extend(runs(&text));
    }
    name
}
