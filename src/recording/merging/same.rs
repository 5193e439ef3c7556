//! Founders here and in another grower's registry that the grower says are one plant: what is refused of that.

use crate::record::{Foreign, FounderClone};
use crate::recording::slip::Slip;
use crate::registry::Registry;

/// A code here and a code there.
pub type Same = (String, String);

/// Whether each pair can be one plant; `by` is the other registry's name.
///
/// # Errors
/// If a code is no founder on its side, if ours came from another grower or has another foreign code, or if a code is
/// named twice.
pub fn can_be_one(
    (ours, theirs): (&Registry, &Registry),
    by: &str,
    same: &[Same],
) -> Result<(), Slip> {
    for (at, pair) in same.iter().enumerate() {
        let (own, other) = (founder_of(ours, pair, &pair.0, "here")?, &pair.1);
        founder_of(theirs, pair, other, "there")?;
        let recorded = match (&own.told_by, &own.foreign) {
            (Some(told), _) => Some(format!(
                "{} is on record as told by the registry {}, not as yours",
                own.code, told.registry
            )),
            (None, Some(of)) if !is_it(of, by, other) => Some(format!(
                "{} is {} of the registry {} on record",
                own.code, of.code, of.registry
            )),
            _ => None,
        };
        if let Some(recorded) = recorded {
            let help = "correct that record first if it is wrong, or leave them two";
            return Err(refused(pair, recorded, help));
        }
        let before = &same[..at];
        if before.iter().any(|of| (of.0 == pair.0) != (of.1 == pair.1)) {
            let recorded = "another --same names one of these two with a third".to_owned();
            return Err(refused(pair, recorded, "name each plant once"));
        }
    }
    Ok(())
}

fn is_it(foreign: &Foreign, by: &str, code: &str) -> bool {
    foreign.registry == by && foreign.code == code
}

/// A founder that a pair names.
///
/// # Errors
/// If there is no such founder.
pub fn founder_of<'r>(
    registry: &'r Registry<'r>,
    pair: &Same,
    code: &str,
    side: &str,
) -> Result<&'r FounderClone<'r>, Slip> {
    let founder = registry
        .plant(code)
        .and_then(|plant| registry.founder(plant));
    founder.ok_or_else(|| {
        let help = "name two founders, yours first; seedlings are never made one";
        refused(pair, format!("{code} is no founder {side}"), help)
    })
}

/// The refusal of a pair.
pub fn refused(pair: &Same, recorded: String, help: &str) -> Slip {
    Slip::contradicts(
        format!("--same {}={} makes two founders one plant", pair.0, pair.1),
        recorded,
        help,
    )
}

/// What a founder there is here already, though the grower says it is another plant.
pub fn is_another(pair: &Same, here: &str) -> Slip {
    refused(
        pair,
        format!("{} is on record here as {here} already", pair.1),
        "take the merge back that brought it in (`podbook undo`) and merge again with --same, or leave them two",
    )
}
