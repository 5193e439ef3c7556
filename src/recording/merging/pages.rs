//! The pages of two copies of a registry, side by side.

use super::conflict::Side;
use super::copy::Copy;
use super::renaming::{NewCodes, renamed};
use crate::recording::page::PageFault;
use std::collections::BTreeMap;

/// The pages that every registry may have.
const ROOT: [&str; 5] = [
    "registry.ron",
    "species.ron",
    "clones.ron",
    "pollen.ron",
    "goals.ron",
];

/// What a page is about: a cross by its code, another page by its name.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum About {
    /// A page of the registry itself.
    Page(&'static str),
    /// A cross.
    Cross(String),
}

impl About {
    /// In words.
    pub fn words(&self) -> &str {
        match self {
            About::Page(page) => page,
            About::Cross(code) => code,
        }
    }

    /// The code that what stands on the page is written behind: that of a cross; empty on another page.
    pub fn around(&self) -> &str {
        match self {
            About::Page(_) => "",
            About::Cross(code) => code,
        }
    }
}

/// A page on one side.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Sheet {
    /// Where it is.
    pub path: String,
    /// Its text, with the codes it has on the merged pages.
    pub text: String,
}

/// Where a page is; empty where there is none.
pub fn path_of(sheet: &Option<Sheet>) -> String {
    sheet
        .as_ref()
        .map_or(String::new(), |sheet| sheet.path.clone())
}

/// A page as it was, here and there.
#[derive(Clone, Default, Debug)]
pub struct Pair {
    /// What both came from: known or not, and if known whether there was a page.
    pub base: Option<Option<String>>,
    /// Here.
    pub ours: Option<Sheet>,
    /// There.
    pub theirs: Option<Sheet>,
}

impl Pair {
    /// The texts of what both came from, as far as that is known, here and there.
    pub fn texts(&self) -> [Option<&str>; 3] {
        let base = self.base.as_ref().and_then(Option::as_deref);
        let [ours, theirs] = [&self.ours, &self.theirs].map(Option::as_ref);
        let [ours, theirs] = [ours, theirs].map(|of| of.map(|sheet| sheet.text.as_str()));
        [base, ours, theirs]
    }

    /// The page of one side.
    pub fn of(&self, side: Side) -> &Option<Sheet> {
        match side {
            Side::Ours => &self.ours,
            Side::Theirs => &self.theirs,
        }
    }
}

/// All pages by what they are about.
pub type Pairs = BTreeMap<About, Pair>;

/// The pages of a copy by what they are about.
pub fn sheets(copy: &Copy) -> BTreeMap<About, Sheet> {
    let sheet = |path: &str| {
        let text = copy.text(path)?.to_owned();
        Some(Sheet {
            path: path.to_owned(),
            text,
        })
    };
    let root = ROOT
        .iter()
        .filter_map(|path| Some((About::Page(path), sheet(path)?)));
    let crosses = copy.registry.crosses.iter().map(|cross| {
        let sheet = Sheet {
            path: copy.sources.get(cross.file).path.clone(),
            text: copy.sources.text(cross.file).to_owned(),
        };
        (About::Cross(cross.page.code.to_owned()), sheet)
    });
    root.chain(crosses).collect()
}

/// Gives the pages of a side other codes.
///
/// # Errors
/// If a page has faults of shape.
pub fn recoded(
    sheets: BTreeMap<About, Sheet>,
    codes: &NewCodes,
) -> Result<BTreeMap<About, Sheet>, PageFault> {
    if codes.is_empty() {
        return Ok(sheets);
    }
    let of = sheets.into_iter().map(|(about, sheet)| {
        let text = renamed(&sheet.text, codes)?;
        let about = match about {
            About::Cross(code) => About::Cross(codes.plants.of(&code)),
            page => page,
        };
        Ok((about, Sheet { text, ..sheet }))
    });
    of.collect()
}

/// Old codes and new ones.
pub type Renames = Vec<(String, String)>;
