//! The files a new registry begins with: commented, valid, to be edited.
//!
//! `species.ron` is written from the two tables beside it; a test holds it to what they say. What the records mean is
//! left to `record`, writing the files to `text`.

use crate::text::Outline;

/// One file of a new registry.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct StarterFile {
    /// Path relative to the registry, with `/`.
    pub path: &'static str,
    /// What it is for, in a few words.
    pub purpose: &'static str,
    /// Its text.
    pub text: &'static str,
}

/// The files, in the order in which a grower meets them.
pub const STARTER: [StarterFile; 5] = [
    StarterFile {
        path: "registry.ron",
        purpose: "genus, hemisphere, traits you measure or score",
        text: include_str!("starter/registry.ron"),
    },
    StarterFile {
        path: "clones.ron",
        purpose: "plants that came from elsewhere",
        text: include_str!("starter/clones.ron"),
    },
    StarterFile {
        path: "pollen.ron",
        purpose: "pollen in hand, by envelope",
        text: include_str!("starter/pollen.ron"),
    },
    StarterFile {
        path: "species.ron",
        purpose: "names used on labels",
        text: include_str!("starter/species.ron"),
    },
    StarterFile {
        path: "crosses/page-to-copy.txt",
        purpose: "a page to copy for each cross",
        text: include_str!("starter/page-to-copy.txt"),
    },
];

/// A record of the starter `species.ron`, as it is written there: of the list `species` or `named_hybrids`, by its epithet.
pub fn starter_record(list: &str, epithet: &str) -> Option<&'static str> {
    let page = STARTER.iter().find(|file| file.path == "species.ron")?;
    let outline = Outline::of(page.text);
    let list = outline.follow(outline.root()?, list)?;
    let quoted = format!("\"{epithet}\"");
    let is = |record: &crate::text::outline::PartId| {
        let field = outline.field(*record, "epithet");
        field.is_some_and(|field| outline.slice(field) == quoted)
    };
    let record = outline.children(list).find(is)?;
    Some(outline.slice(record))
}
