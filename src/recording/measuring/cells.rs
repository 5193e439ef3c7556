//! A cell as it is written: kinds in full and as declared, everything else as typed.

use crate::check::no_reading;
use crate::diagnostic::{Code, Finding};
use crate::observation::asked_columns::AskedColumn;
use crate::observation::kinds_short::kind_meant;
use crate::observation::{PITCHERS, in_own_unit};
use crate::record::{Reads, Trait};
use crate::registry::{Column, Registry};

/// A cell as it is written, with its value where it is one of a trait.
///
/// # Errors
/// What is wrong with it, in the words of `podbook check`.
pub fn cell(
    registry: &Registry,
    asked: &AskedColumn,
    typed: &str,
) -> Result<(String, Option<f64>), Box<Finding>> {
    let typed = typed.trim();
    let Some(declared) = asked.declared(registry) else {
        return match asked.column {
            Column::Pitcher => pitcher(typed).map(|word| (word, None)),
            _ => Ok((typed.to_owned(), None)),
        };
    };
    let written = match &declared.reads {
        Reads::Kinds(kinds) => kind_meant(kinds, typed).map(|at| kinds[at].to_owned()),
        _ => None,
    };
    let written = written.unwrap_or_else(|| typed.to_owned());
    let value = no_reading(declared, &written, asked.unit())?;
    Ok((written, Some(value)))
}

fn pitcher(typed: &str) -> Result<String, Box<Finding>> {
    let words = PITCHERS.map(|(word, _)| word);
    match kind_meant(&words, typed) {
        Some(at) => Ok(words[at].to_owned()),
        None => Err(Box::new(
            Finding::fault(Code("outside-trait"), "this is no kind of pitcher")
                .found(format!("`{typed}`"))
                .needed(format!("one of {}", words.join(", "))),
        )),
    }
}

/// The believable range a value is outside of, in the trait's unit; as for `podbook check`, only of what is measured.
pub(super) fn outside(declared: &Trait, value: f64) -> Option<(f64, f64)> {
    let chosen = matches!(declared.reads, Reads::Scale(_) | Reads::Kinds(_));
    let (least, most) = declared.between.filter(|_| !chosen)?;
    let own = in_own_unit(&declared.reads, value);
    (!(least..=most).contains(&own)).then_some((least, most))
}
