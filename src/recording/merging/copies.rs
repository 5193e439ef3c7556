//! Two copies of one registry that were edited apart come together.

use super::apart::{Apart, apart};
use super::conflict::{Decisions, Side};
use super::copy::Copy;
use super::elsewhere::elsewhere;
use super::history::History;
use super::joined::{Joined, founders, joined, renames};
use super::likely::{self, Likely, likely};
use super::merged::{Clash, Merged, merged_pages, not_kept};
use super::pages::{About, Pair, Pairs, Renames, recoded};
use super::placing::Placing;
use super::renaming::new_codes;
use super::same::Same;
use super::side_by_side::pairs;
use crate::record::{JournalMerge, JournalRename};
use crate::recording::journal::checksum;
use crate::recording::slip::Slip;
use crate::registry::Registry;
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
    /// Founders that each side added under a code of its own and that are one plant each.
    pub joined: &'a [Same],
}

impl CopyMerge<'_> {
    /// What the merge makes of the pages.
    ///
    /// # Errors
    /// If a page cannot be changed, or another file stands where a page would go.
    pub fn merged(&self) -> Result<Merged, Slip> {
        let (pairs, known) = pairs(&self.ours, &self.theirs, self.base.as_ref())?;
        let (pairs, known) = self.met_elsewhere(pairs, known)?;
        let joined = joined(self.registries(), (&pairs, &known), self.joined)?;
        let likely = self.likely(&pairs, &known, &joined);
        let pairs = set_as_one(pairs, &joined)?;
        let one = joined.iter().map(|of| of.code().to_owned());
        let apart = apart(&pairs, &self.same.iter().cloned().chain(one).collect());
        let (followed, follows) = self.followed(&known[0]);
        let renames = self.renames(known, &joined, &apart);
        let mut pairs = set_apart(pairs, &apart)?;
        let mut merged = Merged {
            apart,
            followed,
            follows,
            joined,
            likely,
            ..Merged::default()
        };
        let mut pages = Placing::of(&self.ours);
        let by = (self.decisions, self.ours.registry);
        for (about, pair, text) in merged_pages((&mut pairs, &[]), by, &mut merged)? {
            pages.put(about, pair, text);
        }
        merged.changes = pages.changes()?;
        merged.memory = self.memory(&renames, &merged.clashes);
        Ok(merged)
    }

    /// The same, with the codes of what went by way of a third copy.
    fn met_elsewhere(
        &self,
        mut pairs: Pairs,
        mut known: [Renames; 2],
    ) -> Result<(Pairs, [Renames; 2]), Slip> {
        let histories = [History::of(&self.ours), History::of(&self.theirs)];
        let [here, there] = &histories;
        // A cross may name a founder that is followed, so that its record is only then the same.
        loop {
            let ours = elsewhere(&pairs, Side::Ours, (here, there), [&known[0], &known[1]])?;
            let theirs = elsewhere(&pairs, Side::Theirs, (there, here), [&known[1], &known[0]])?;
            if ours.is_empty() && theirs.is_empty() {
                return Ok((pairs, known));
            }
            pairs = recoded_side(pairs, Side::Ours, &ours)?;
            pairs = recoded_side(pairs, Side::Theirs, &theirs)?;
            known[0].extend(ours);
            known[1].extend(theirs);
        }
    }

    /// Our codes that change by an earlier merge there: because something else has the code, and because it has none there.
    fn followed(&self, known: &Renames) -> (Renames, Renames) {
        let theirs = self.theirs.registry;
        let is_there =
            |code: &str| theirs.target(code).is_some() || theirs.pollen_lot(code).is_some();
        known.iter().cloned().partition(|of| is_there(&of.0))
    }

    fn registries(&self) -> (&Registry<'_>, &Registry<'_>) {
        (self.ours.registry, self.theirs.registry)
    }

    /// Founders that each side added under a code of its own and that may be one plant. What both sides added under one
    /// code is asked about by that code.
    fn likely(&self, pairs: &Pairs, known: &[Renames; 2], one: &[Joined]) -> Vec<Likely> {
        let codes = known.each_ref().map(|of| new_codes(of));
        let [base, ours, theirs] = founders(pairs);
        let is_one = |code: &String| one.iter().any(|of| of.ours == *code || of.theirs == *code);
        let is_new = |side: usize, code: &str, other: &BTreeSet<String>| {
            let code = codes[side].plants.of(code);
            !base.contains(&code) && !other.contains(&code) && !is_one(&code)
        };
        let own = likely::founders(self.ours.registry, |of| is_new(0, of.code, &theirs));
        let new = likely::founders(self.theirs.registry, |of| is_new(1, of.code, &ours));
        let coded = new.into_iter().map(|of| (of, codes[1].plants.of(of.code)));
        let hemisphere = self.ours.registry.settings.hemisphere;
        likely(&own, &coded.collect::<Vec<_>>(), [hemisphere; 2])
    }

    /// All codes of ours and of theirs that change.
    fn renames(&self, known: [Renames; 2], one: &[Joined], apart: &Apart) -> [Renames; 2] {
        let [mut ours, mut theirs] = known;
        ours.extend(renames(one, Side::Ours));
        theirs.extend(renames(one, Side::Theirs));
        match apart.side {
            Some(Side::Ours) => ours.extend(apart.renamed.iter().cloned()),
            Some(Side::Theirs) => theirs.extend(apart.renamed.iter().cloned()),
            None => {}
        }
        [ours, theirs]
    }

    /// What the journal keeps: which pages were taken in, what has another code, what was not kept.
    fn memory(&self, [ours, theirs]: &[Renames; 2], clashes: &[Clash]) -> JournalMerge {
        let theirs_before = History::of(&self.theirs);
        let pages = super::pages::sheets(&self.theirs).into_values();
        let pages = pages.map(|sheet| checksum(&sheet.text));
        let last = theirs_before.last_merge().map(str::to_owned);
        let rename = |copy: &Copy, (was, now): &(String, String)| JournalRename {
            page: checksum(copy.text(&copy.path_of(was)).unwrap_or_default()),
            was: was.clone(),
            now: now.clone(),
        };
        let own = ours.iter().map(|of| rename(&self.ours, of));
        let mut renamed: Vec<JournalRename> = own
            .chain(theirs.iter().map(|of| rename(&self.theirs, of)))
            .collect();
        // What their merges did has gone further by this one.
        let codes = new_codes(theirs);
        for known in theirs_before.renamed() {
            let is_it = |of: &JournalRename| of.page == known.page && of.was == known.was;
            if !renamed.iter().any(is_it) {
                let now = codes.plants.of(&known.now);
                renamed.push(JournalRename { now, ..known });
            }
        }
        JournalMerge {
            pages: pages.chain(last).collect(),
            renamed,
            not_kept: not_kept(clashes),
        }
    }
}

/// Gives one side's new things their codes.
fn set_apart(pairs: Pairs, apart: &Apart) -> Result<Pairs, Slip> {
    match apart.side {
        Some(side) => recoded_side(pairs, side, &apart.renamed),
        None => Ok(pairs),
    }
}

/// Gives founders that are one plant one code.
fn set_as_one(pairs: Pairs, one: &[Joined]) -> Result<Pairs, Slip> {
    let pairs = recoded_side(pairs, Side::Ours, &renames(one, Side::Ours))?;
    recoded_side(pairs, Side::Theirs, &renames(one, Side::Theirs))
}

/// Gives one side's pages other codes.
fn recoded_side(pairs: Pairs, side: Side, codes: &Renames) -> Result<Pairs, Slip> {
    if codes.is_empty() {
        return Ok(pairs);
    }
    let mut sheets = [BTreeMap::new(), BTreeMap::new()];
    let mut bases = BTreeMap::new();
    for (about, pair) in pairs {
        bases.insert(about.clone(), pair.base);
        for (sheets, sheet) in sheets.iter_mut().zip([pair.ours, pair.theirs]) {
            sheets.extend(sheet.map(|sheet| (about.clone(), sheet)));
        }
    }
    let codes = new_codes(codes);
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
