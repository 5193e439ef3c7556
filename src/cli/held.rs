//! Holding a registry while it is read or written, and putting right what a killed program left.

use super::outcome::{Refusal, shown};
use crate::text::NoFailures;
use crate::text::commit::{Hold, NoHold, PutRight, put_right, unsettled};
use std::path::Path;

/// Puts right what a killed program left, and says so.
///
/// # Errors
/// If it cannot be put right.
pub fn settled(hold: &Hold) -> Result<String, Refusal> {
    match put_right(hold, &NoFailures) {
        Ok(PutRight::Nothing) => Ok(String::new()),
        Ok(PutRight::Done) => Ok("finished a change that was cut short\n".to_owned()),
        Ok(PutRight::TakenBack { left_alone }) if left_alone.is_empty() => {
            Ok("took back a change that was cut short; record it again\n".to_owned())
        }
        Ok(PutRight::TakenBack { left_alone }) => Ok(format!(
            "took back a change that was cut short; {} had been changed since and was left alone\n",
            left_alone.join(", ")
        )),
        Err(why) => Err(Refusal::files(format!(
            "a change was cut short and cannot be put right: {why}"
        ))),
    }
}

/// Keeps writers away while a registry is read, and puts right what a killed one left, where that can be done.
pub fn held_to_read(folder: &Path) -> (Option<Hold>, String) {
    let hold = Hold::to_read(folder);
    if !unsettled(folder) {
        return (hold, String::new());
    }
    drop(hold);
    let put_right = Hold::to_write(folder).map_err(|why| not_held(folder, &why));
    let told = match put_right.and_then(|hold| settled(&hold)) {
        Ok(told) => told,
        Err(refusal) => format!("{}\n", refusal.words),
    };
    (Hold::to_read(folder), told)
}

/// The refusal of a registry that is not held.
pub fn not_held(folder: &Path, why: &NoHold) -> Refusal {
    Refusal::files(match why {
        NoHold::Busy => {
            "another podbook is using this registry and did not finish within 10 seconds\n\
            run the command again when it has"
                .to_owned()
        }
        NoHold::System(words) => format!(
            "{} cannot be written to: {words}\nallow writing in the folder, and run the command again",
            shown(folder)
        ),
    })
}
