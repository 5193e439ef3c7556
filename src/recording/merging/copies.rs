//! Two copies of one registry that were edited apart come together.

use super::apart::{Apart, apart, things};
use super::conflict::{Conflict, Decisions, Place, Side, Three};
use super::copy::Copy;
use super::locate::line_of;
use super::pages::{About, Pair, Pairs, Renames, Sheet, new_codes, pairs, recoded};
use super::rewrite::rewritten;
use super::three_way::Merging;
use super::value::{Record, Value};
use crate::record::{JournalMerge, JournalRename};
use crate::recording::draft::PageChange;
use crate::recording::journal::checksum;
use crate::recording::slip::Slip;
use crate::text::Outline;
use std::collections::{BTreeMap, BTreeSet};

/// A merge of two copies.
pub struct CopyMerge<'a> {
    /// This registry.
    pub ours: Copy<'a>,
    /// The other copy.
    pub theirs: Copy<'a>,
    /// The registry as it was when the two parted, where it is at hand.
    pub base: Option<Copy<'a>>,
    /// Whose word stays for what.
    pub decisions: &'a Decisions,
    /// Codes that both sides added and that are one thing each.
    pub same: &'a BTreeSet<String>,
}

/// A field that both sides changed, in words.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Clash {
    /// What it is about.
    pub about: String,
    /// What it says here, and where.
    pub here: (Option<String>, String),
    /// What it says there, and where.
    pub there: (Option<String>, String),
    /// Whose word stays; none where that is not decided.
    pub kept: Option<Side>,
}

/// What comes of a merge.
#[derive(Clone, Default, Debug)]
pub struct Merged {
    /// The pages that change.
    pub changes: Vec<PageChange>,
    /// Fields that both sides changed.
    pub clashes: Vec<Clash>,
    /// What both sides added under one code, and whose gets another.
    pub apart: Apart,
    /// Our codes that an earlier merge on the other side changed, with the new ones.
    pub followed: Renames,
    /// Records that one side had taken out, which go.
    pub taken_out: Vec<String>,
    /// Remarks of the other's pages that find no place here, by page.
    pub remarks: Vec<(String, Vec<String>)>,
    /// What the journal keeps of it.
    pub memory: JournalMerge,
}

impl CopyMerge<'_> {
    /// What the merge makes of the pages.
    ///
    /// # Errors
    /// If a page cannot be changed, or another file stands where a page would go.
    pub fn merged(&self) -> Result<Merged, Slip> {
        let (pairs, known) = pairs(&self.ours, &self.theirs, self.base.as_ref())?;
        let apart = apart(&pairs, self.same);
        let followed = known[0].clone();
        let renames = self.renames(known, &apart);
        let pairs = set_apart(pairs, &apart)?;
        let mut merged = Merged {
            apart,
            followed,
            ..Merged::default()
        };
        let mut pages = Vec::new();
        for (about, pair) in &pairs {
            let text = self.page(about, pair, &mut merged)?;
            pages.extend(text.map(|text| (about, pair, text)));
        }
        merged.changes = self.changes(pages)?;
        merged.memory = self.memory(&renames, &merged.clashes);
        Ok(merged)
    }

    /// All codes of ours and of theirs that change.
    fn renames(&self, known: [Renames; 2], apart: &Apart) -> [Renames; 2] {
        let [mut ours, mut theirs] = known;
        match apart.side {
            Some(Side::Ours) => ours.extend(apart.renamed.iter().cloned()),
            Some(Side::Theirs) => theirs.extend(apart.renamed.iter().cloned()),
            None => {}
        }
        [ours, theirs]
    }

    /// The text of a page as it is to be; none when it goes.
    fn page(
        &self,
        about: &About,
        pair: &Pair,
        merged: &mut Merged,
    ) -> Result<Option<String>, Slip> {
        let [ours, theirs] = [&pair.ours, &pair.theirs].map(|of| of.as_ref().map(|of| &of.text));
        let base = pair.base.as_ref().map(Option::as_ref);
        if ours == theirs || base == Some(theirs) {
            return Ok(ours.cloned());
        }
        if base == Some(ours) || base.is_none() && ours.is_none() {
            merged
                .taken_out
                .extend(gone(about, ours, theirs.map(String::as_str)));
            return Ok(theirs.cloned());
        }
        if base.is_none() && theirs.is_none() {
            return Ok(ours.cloned());
        }
        let records =
            [base.flatten(), ours, theirs].map(|text| text.and_then(|text| Record::of_page(text)));
        let mut merging = Merging {
            decisions: self.decisions,
            hemisphere: self.ours.registry.settings.hemisphere,
            conflicts: Vec::new(),
        };
        let [base, own, other] = records.map(|of| of.map(Value::Record));
        let place = Place {
            about: about.words().to_owned(),
            steps: Vec::new(),
        };
        let of = Three {
            base: base.as_ref(),
            ours: own.as_ref(),
            theirs: other.as_ref(),
        };
        let wanted = merging.value("", &place, of);
        let text = match (wanted, ours, theirs) {
            (Some(Value::Record(wanted)), Some(ours), Some(_)) => Some(rewritten(ours, &wanted)?),
            (Some(_), ours, theirs) => ours.or(theirs).cloned(),
            (None, ..) => None,
        };
        merged.taken_out.extend(gone(about, ours, text.as_deref()));
        merged
            .clashes
            .extend(merging.conflicts.into_iter().map(|of| clash(of, pair)));
        let left = remarks_left(pair, text.as_deref());
        if !left.is_empty() {
            merged.remarks.push((path(&pair.theirs), left));
        }
        Ok(text)
    }

    /// The pages that change, each in its place.
    fn changes(&self, pages: Vec<(&About, &Pair, String)>) -> Result<Vec<PageChange>, Slip> {
        let ours = &self.ours;
        let mut own: BTreeSet<String> = pages
            .iter()
            .filter_map(|(_, pair, _)| pair.ours.as_ref())
            .map(|of| of.path.clone())
            .collect();
        own.extend(
            super::pages::sheets(ours)
                .into_values()
                .map(|sheet| sheet.path),
        );
        let mut now: BTreeMap<String, String> = BTreeMap::new();
        let mut unplaced = Vec::new();
        for (about, pair, text) in pages {
            match self.stays_at(about, pair) {
                Some(path) => drop(now.insert(path, text)),
                None => unplaced.push((about, pair, text)),
            }
        }
        for (about, pair, text) in unplaced {
            let path = new_path(about, pair, &now);
            let stray = ours.sources.find(&path).is_some() && !own.contains(&path);
            let unread = ours
                .sources
                .unread()
                .iter()
                .any(|unread| unread.path == path);
            if stray || unread || now.contains_key(&path) {
                return Err(Slip::PageTaken(path));
            }
            now.insert(path, text);
        }
        let paths: BTreeSet<String> = own.into_iter().chain(now.keys().cloned()).collect();
        let change = |path: String| {
            let was = ours.text(&path).map(str::to_owned);
            let now = now.remove(&path);
            (was != now).then_some(PageChange { path, was, now })
        };
        Ok(paths.into_iter().filter_map(change).collect())
    }

    /// Where our page is, unless its cross has another code now.
    fn stays_at(&self, about: &About, pair: &Pair) -> Option<String> {
        let path = &pair.ours.as_ref()?.path;
        match about {
            About::Page(_) => Some(path.clone()),
            About::Cross(code) => {
                let cross = self.ours.registry.cross(code)?;
                let file = self.ours.registry.crosses[cross as usize].file;
                (self.ours.sources.get(file).path == *path).then(|| path.clone())
            }
        }
    }

    /// What the journal keeps: which pages were taken in, what has another code, what was not kept.
    fn memory(&self, [ours, theirs]: &[Renames; 2], clashes: &[Clash]) -> JournalMerge {
        let pages = super::pages::sheets(&self.theirs).into_values();
        let rename = |copy: &Copy, (was, now): &(String, String)| JournalRename {
            page: checksum(copy.text(&copy.path_of(was)).unwrap_or_default()),
            was: was.clone(),
            now: now.clone(),
        };
        let own = ours.iter().map(|of| rename(&self.ours, of));
        let lost = clashes.iter().filter_map(|clash| {
            let (whose, value) = match clash.kept? {
                Side::Ours => ("there", &clash.there.0),
                Side::Theirs => ("here", &clash.here.0),
            };
            Some(format!(
                "{}: {whose} {}",
                clash.about,
                value.as_deref().unwrap_or("taken out")
            ))
        });
        JournalMerge {
            pages: pages.map(|sheet| checksum(&sheet.text)).collect(),
            renamed: own
                .chain(theirs.iter().map(|of| rename(&self.theirs, of)))
                .collect(),
            not_kept: lost.collect(),
        }
    }
}

fn path(sheet: &Option<Sheet>) -> String {
    sheet
        .as_ref()
        .map_or(String::new(), |sheet| sheet.path.clone())
}

/// Where a page goes that has no place here yet.
fn new_path(about: &About, pair: &Pair, now: &BTreeMap<String, String>) -> String {
    let own = match about {
        About::Page(page) => (*page).to_owned(),
        About::Cross(code) => format!("crosses/{code}.ron"),
    };
    let theirs = path(&pair.theirs);
    match pair.ours.is_none() && theirs.starts_with("crosses/") && now.contains_key(&own) {
        true => theirs,
        false => own,
    }
}

/// Gives one side's new things their codes.
fn set_apart(pairs: Pairs, apart: &Apart) -> Result<Pairs, Slip> {
    let Some(side) = apart.side else {
        return Ok(pairs);
    };
    let mut sheets = [BTreeMap::new(), BTreeMap::new()];
    let mut bases = BTreeMap::new();
    for (about, pair) in pairs {
        bases.insert(about.clone(), pair.base);
        for (sheets, sheet) in sheets.iter_mut().zip([pair.ours, pair.theirs]) {
            sheets.extend(sheet.map(|sheet| (about.clone(), sheet)));
        }
    }
    let codes = new_codes(&apart.renamed);
    let [ours, theirs] = sheets;
    let (mut ours, mut theirs) = match side {
        Side::Ours => (recoded(ours, &codes)?, theirs),
        Side::Theirs => (ours, recoded(theirs, &codes)?),
    };
    let abouts: BTreeSet<About> = ours.keys().chain(theirs.keys()).cloned().collect();
    let pair = |about: About| {
        let pair = Pair {
            base: bases.remove(&about).flatten(),
            ours: ours.remove(&about),
            theirs: theirs.remove(&about),
        };
        (about, pair)
    };
    Ok(abouts.into_iter().map(pair).collect())
}

/// Plants, crosses and parts of crosses of our page that the merged one does not have.
fn gone(about: &About, ours: Option<&String>, merged: Option<&str>) -> Vec<String> {
    let [was, now] = [ours.map(String::as_str), merged].map(|text| things(about, text));
    was.difference(&now).cloned().collect()
}

/// A conflict in words.
fn clash(of: Conflict, pair: &Pair) -> Clash {
    let at = |sheet: &Option<Sheet>| {
        let line = sheet
            .as_ref()
            .and_then(|sheet| line_of(&sheet.text, &of.steps));
        let path = path(sheet);
        line.map_or(path.clone(), |line| format!("{path}:{line}"))
    };
    Clash {
        here: (of.here.as_ref().map(Value::line), at(&pair.ours)),
        there: (of.there.as_ref().map(Value::line), at(&pair.theirs)),
        about: of.about,
        kept: of.kept,
    }
}

/// Remarks of their page that are not in the merged one and were not in what both came from.
fn remarks_left(pair: &Pair, merged: Option<&str>) -> Vec<String> {
    let remarks = |text: Option<&str>| text.map_or(Vec::new(), |text| Outline::of(text).remarks());
    let known = [pair.base.as_ref().and_then(|base| base.as_deref()), merged]
        .map(remarks)
        .concat();
    let theirs = remarks(pair.theirs.as_ref().map(|sheet| sheet.text.as_str()));
    theirs
        .into_iter()
        .filter(|remark| !known.contains(remark))
        .collect()
}
