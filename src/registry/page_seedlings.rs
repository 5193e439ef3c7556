//! The seedlings of one page taken into rows: the sowing, pod and community pot they name found.

use super::cross::Cross;
use super::lookup::Lookup;
use super::seedling::SeedlingRow;
use crate::diagnostic::Finding;
use crate::record::{Beside, BriefSeedling, CommunityPot, Fate, Hemisphere, Seedling, When};
use crate::text::Sources;

impl<'t> Cross<'t> {
    /// The whole record of a seedling that says more than its row.
    pub(super) fn whole_record(&self, local: u32) -> Option<&Seedling<'t>> {
        let row = self.seedling_rows[local as usize];
        let whole = row.detail != SeedlingRow::NONE && !row.only_fate;
        whole.then(|| &*self.details[row.detail as usize])
    }

    /// What became of a seedling.
    pub(super) fn fate(&self, local: u32) -> Option<&Fate<'t>> {
        let row = self.seedling_rows[local as usize];
        match (row.detail, row.only_fate) {
            (SeedlingRow::NONE, _) => None,
            (at, true) => Some(&self.fates[at as usize]),
            (at, false) => self.details[at as usize].fate.as_deref(),
        }
    }

    /// Adds a seedling whose number is its own.
    pub(super) fn add_seedling(&mut self, sources: &'t Sources, seedling: BriefSeedling<'t>) {
        let lookup = Lookup {
            sources,
            file: self.file,
        };
        let start = lookup.sources.span_of(self.file, seedling.number);
        let sowing = self.local_sowing(lookup, &seedling);
        let pod = self.local_pod(lookup, &seedling, sowing);
        let community_pot = seedling.community_pot.map_or(SeedlingRow::NOWHERE, |code| {
            let codes = self
                .page
                .community_pots
                .iter()
                .map(|community_pot| community_pot.code);
            index_of(lookup, "community pot", code, codes, &mut self.findings)
        });
        let mut row = SeedlingRow {
            start: start.map_or(0, |span| span.start),
            detail: SeedlingRow::NONE,
            sowing,
            pod,
            community_pot,
            len: seedling.number.len() as u8,
            only_fate: false,
        };
        match seedling.beside {
            Beside::Nothing => {}
            Beside::Fate(fate) => {
                (row.detail, row.only_fate) = (self.fates.len() as u32, true);
                self.fates.push(*fate);
            }
            Beside::More(whole) => {
                row.detail = self.details.len() as u32;
                self.details.push(whole);
            }
        }
        self.seedling_rows.push(row);
    }

    /// The sowing a seedling names; without one that of its community pot, or the page's only sowing.
    fn local_sowing(&mut self, lookup: Lookup<'t>, seedling: &BriefSeedling<'t>) -> u16 {
        let sowings = &self.page.sowings;
        if let Some(code) = seedling.sowing {
            let codes = sowings.iter().map(|sowing| sowing.code);
            return index_of(lookup, "sowing", code, codes, &mut self.findings);
        }
        if let Some(community_pot) = seedling.community_pot
            && let Some(community_pot) = self
                .page
                .community_pots
                .iter()
                .find(|p| p.code == community_pot)
            && let Some(sowing) = community_pot.sowing
            && let Some(at) = sowings.iter().position(|s| s.code == sowing)
        {
            return at as u16;
        }
        let alone = sowings.len() == 1 && seedling.pod.is_none() && !is_muddled(seedling);
        if alone { 0 } else { SeedlingRow::NOWHERE }
    }

    /// The pod a seedling names, or that of its sowing, or the page's only pod.
    fn local_pod(&mut self, lookup: Lookup<'t>, seedling: &BriefSeedling<'t>, sowing: u16) -> u16 {
        if is_muddled(seedling) {
            return SeedlingRow::NOWHERE;
        }
        let pods = &self.page.pods;
        if let Some(code) = seedling.pod {
            let codes = pods.iter().map(|pod| pod.code);
            return index_of(lookup, "pod", code, codes, &mut self.findings);
        }
        let pot = |code| self.page.community_pots.iter().find(|pot| pot.code == code);
        let numbered = match &seedling.beside {
            Beside::More(whole) => whole.numbered,
            _ => None,
        };
        let pot = seedling.community_pot.and_then(pot);
        if pot.is_some_and(|pot| !pot.one_of.is_empty() && !left_before_mix_up(pot, numbered)) {
            return SeedlingRow::NOWHERE;
        }
        if let Some(sowing) = self.page.sowings.get(usize::from(sowing)) {
            let lots = &self.page.seed_lots;
            let lot = sowing
                .lot
                .and_then(|lot| lots.iter().find(|l| l.code == lot));
            if let Some(pod) = sowing.pod.or(lot.and_then(|lot| lot.pod))
                && let Some(at) = pods.iter().position(|p| p.code == pod)
            {
                return at as u16;
            }
        }
        if pods.len() == 1 {
            0
        } else {
            SeedlingRow::NOWHERE
        }
    }
}

/// The index of a local code, or a finding.
fn index_of<'t>(
    lookup: Lookup<'t>,
    what: &'static str,
    code: &'t str,
    codes: impl Iterator<Item = &'t str> + Clone,
    findings: &mut Vec<Finding>,
) -> u16 {
    match codes.clone().position(|known| known == code) {
        Some(at) if at < usize::from(SeedlingRow::NOWHERE) => at as u16,
        _ => {
            findings.push(lookup.unknown(what, code, codes));
            SeedlingRow::NOWHERE
        }
    }
}

/// Whether a seedling was numbered out of a community pot before the pot was mixed up with others. The settings are not read
/// yet, so it must be so in both halves of the world.
pub(super) fn left_before_mix_up(pot: &CommunityPot, numbered: Option<&str>) -> bool {
    let is_before = |half: Hemisphere| {
        let when = |text: &str| When::read(text, half).unwrap_or(When::UNKNOWN);
        let numbered = numbered.map_or(When::UNKNOWN, when);
        let mut mixed_up = pot.muddled.iter().map(|muddle| when(muddle.on));
        mixed_up.all(|on| numbered.surely_before(on))
    };
    !pot.muddled.is_empty() && is_before(Hemisphere::North) && is_before(Hemisphere::South)
}

/// Whether it may come from several pods.
fn is_muddled(seedling: &BriefSeedling) -> bool {
    matches!(&seedling.beside, Beside::More(whole) if !whole.one_of.is_empty())
}
