//! The pages of two copies of a registry, side by side.

use super::conflict::Side;
use super::copy::Copy;
use super::history::{History, Origin, origin};
use super::renaming::{NewCodes, new_codes, renamed};
use super::value::Record;
use crate::recording::page::PageFault;
use std::collections::{BTreeMap, BTreeSet};

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

/// The pages side by side, with what they came from, and the codes of ours and of theirs that earlier merges changed.
/// Where the registry is at hand as both sides had it, that is what they came from.
///
/// # Errors
/// If a page has faults of shape.
pub fn pairs(
    ours: &Copy,
    theirs: &Copy,
    base: Option<&Copy>,
) -> Result<(Pairs, [Renames; 2]), PageFault> {
    let (here, there) = (History::of(ours), History::of(theirs));
    let renames = [there.renames(&here), here.renames(&there)];
    let known = renames.each_ref().map(|of| new_codes(of));
    let sheets = [
        recoded(sheets(ours), &known[0])?,
        recoded(sheets(theirs), &known[1])?,
    ];
    let given = base.map(self::sheets);
    let abouts: BTreeSet<&About> = sheets.iter().flat_map(|of| of.keys()).collect();
    let mut pairs = Pairs::new();
    for about in abouts {
        let [own, other] = sheets.each_ref().map(|of| of.get(about).cloned());
        let base = match (&own, &other, &given) {
            (Some(own), Some(other), _) if own.text == other.text => None,
            (_, _, Some(given)) => Some(given.get(about).map(|sheet| sheet.text.clone())),
            (own, other, None) => {
                let path = past_path(ours, own, other);
                let their_path = past_path(theirs, other, own);
                match origin((&here, &path), (&there, &their_path))? {
                    Origin::Unknown => None,
                    Origin::NoPage => Some(None),
                    Origin::Text(side, text) => {
                        let text = renamed(&text, &known[usize::from(side == Side::Theirs)])?;
                        Some(Some(text).filter(|text| is_about(about, text)))
                    }
                }
            }
        };
        pairs.insert(
            about.clone(),
            Pair {
                base,
                ours: own,
                theirs: other,
            },
        );
    }
    Ok((pairs, renames))
}

/// Whether a page is about that, and not about another cross whose page stood in the same place and has another code now.
fn is_about(about: &About, text: &str) -> bool {
    match about {
        About::Page(_) => true,
        About::Cross(code) => {
            Record::of_page(text).is_none_or(|page| page.text("code") == Some(code))
        }
    }
}

/// Where a page of a copy is, or was: where there is none, a page may have stood where the other copy has it. A page of
/// something else at that place is another page.
fn past_path(copy: &Copy, own: &Option<Sheet>, other: &Option<Sheet>) -> String {
    match (own, other) {
        (Some(own), _) => own.path.clone(),
        (None, Some(other)) if copy.text(&other.path).is_none() => other.path.clone(),
        _ => String::new(),
    }
}
