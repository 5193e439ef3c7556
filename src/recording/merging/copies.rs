//! Two copies of one registry that were edited apart come together.

use super::apart::{Apart, apart};
use super::conflict::{Decisions, Side};
use super::copy::Copy;
use super::history::History;
use super::merged::{Clash, Merged, merged_page, not_kept};
use super::pages::{About, Pair, Pairs, Renames, new_codes, pairs, recoded};
use super::placing::Placing;
use crate::record::{JournalMerge, JournalRename};
use crate::recording::journal::checksum;
use crate::recording::slip::Slip;
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
        let mut pages = Placing::of(&self.ours);
        for (about, pair) in &pairs {
            let text = merged_page(
                (about, pair),
                (self.decisions, self.ours.registry),
                &mut merged,
            )?;
            pages.put(about, pair, text);
        }
        merged.changes = pages.changes()?;
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

    /// What the journal keeps: which pages were taken in, what has another code, what was not kept.
    fn memory(&self, [ours, theirs]: &[Renames; 2], clashes: &[Clash]) -> JournalMerge {
        let pages = super::pages::sheets(&self.theirs).into_values();
        let rename = |copy: &Copy, (was, now): &(String, String)| JournalRename {
            page: checksum(copy.text(&copy.path_of(was)).unwrap_or_default()),
            was: was.clone(),
            now: now.clone(),
        };
        let own = ours.iter().map(|of| rename(&self.ours, of));
        let mut renamed: Vec<JournalRename> = own
            .chain(theirs.iter().map(|of| rename(&self.theirs, of)))
            .collect();
        for known in History::of(&self.theirs).renamed() {
            let is_it = |of: &JournalRename| of.page == known.page && of.was == known.was;
            if !renamed.iter().any(is_it) {
                renamed.push(known.clone());
            }
        }
        JournalMerge {
            pages: pages.map(|sheet| checksum(&sheet.text)).collect(),
            renamed,
            not_kept: not_kept(clashes),
        }
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
