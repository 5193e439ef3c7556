//! Why a folder could not be begun, in words.

use crate::cli::request::{Refusal, kept_words, shown};
use crate::text::{NoFolder, visible};
use std::path::Path;

/// The refusal; `how` says how another folder is named, as ` with -o DIR`.
pub(super) fn no_folder(folder: &Path, why: NoFolder, how: &str) -> Refusal {
    let folder = shown(folder);
    let elsewhere = format!("name a folder that is not there yet, or an empty one{how}");
    match why {
        NoFolder::NotEmpty(entry) => Refusal::arguments(format!(
            "{folder} is not empty: it holds {}\n{elsewhere}; nothing was written",
            visible(&entry)
        )),
        NoFolder::AFile => Refusal::arguments(format!("{folder} is a file\n{elsewhere}")),
        NoFolder::LinkBroken => {
            Refusal::arguments(format!("{folder} is a link to nothing\n{elsewhere}"))
        }
        NoFolder::Kept(why) => Refusal::arguments(format!(
            "{}\n{elsewhere}; nothing was written",
            kept_words(&folder, &why)
        )),
        NoFolder::System(words) => Refusal::files(format!(
            "{folder} could not be written: {words}\n{elsewhere}, where you may write"
        )),
    }
}
