//! `podbook merge` of a whole registry: what is asked and refused before two come together.

use super::merge::Merge;
use crate::cli::recording::{Book, Change, Journal};
use crate::cli::request::{Outcome, Refusal, Request, shown};
use crate::cli::working::Working;
use crate::diagnostic::Severity;
use crate::record::{Day, JournalEntry};
use crate::recording::handover::{SHEET, doubts_not_here};
use crate::recording::merging::copies::CopyMerge;
use crate::recording::merging::copy::Copy;
use crate::recording::merging::merged::Merged;
use crate::recording::merging::others::OtherMerge;
use crate::recording::merging::remarks::stayed;
use crate::recording::merging::told::{recorded, undecided};
use crate::recording::voice::Words;
use crate::registry::ids::is_code;
use crate::registry::{Registry, build};
use crate::text::commit::{Hold, unsettled};
use crate::text::{Sources, is_registry, visible};
use std::path::Path;

/// A registry that was read, with its journal.
struct Read {
    sources: Sources,
    entries: Vec<JournalEntry>,
}

impl Read {
    fn folder(folder: &Path) -> Result<Read, Refusal> {
        if is_registry(folder).is_err() {
            return Err(Refusal::files(format!(
                "{} is neither a registry nor a lineage that was handed over\nname the folder with its registry.ron",
                shown(folder)
            )));
        }
        // What was cut short there is not ours to put right.
        if unsettled(folder) {
            return Err(Refusal::files(format!(
                "a change in {0} was cut short\nmend it there first: podbook check --registry {0}",
                shown(folder)
            )));
        }
        let _held = Hold::to_read(folder);
        Ok(Read {
            sources: Sources::read(folder),
            entries: Journal::read(folder).entries,
        })
    }

    /// What it says; a page that cannot be read would be lost.
    fn registry(&self, folder: &Path) -> Result<Registry<'_>, Refusal> {
        sound(
            &self.sources,
            &format!("podbook check --registry {}", shown(folder)),
        )
    }

    /// That the folder looks like a lineage that was handed over, and its page is missing.
    fn without_its_page(&self, folder: &Path) -> Option<String> {
        let cards = ["card.txt", "card.html"].map(|card| folder.join(card).is_file());
        let is_lineage = cards == [true; 2] && self.entries.is_empty();
        is_lineage.then(|| {
            format!(
                "{} has a card as a lineage has, but no {SHEET}: it was merged as a whole registry and not verified, and its plant is not in your collection. If it was handed over to you, take this back with `podbook undo` and ask for the folder again",
                shown(folder)
            )
        })
    }

    fn copy<'a>(&'a self, registry: &'a Registry<'a>) -> Copy<'a> {
        Copy {
            sources: &self.sources,
            registry,
            entries: &self.entries,
        }
    }
}

fn sound<'a>(sources: &'a Sources, check: &str) -> Result<Registry<'a>, Refusal> {
    let (registry, findings) = build(sources);
    if findings.count(Severity::Fault) > 0 {
        return Err(Refusal::files(format!(
            "a registry with faults cannot be merged, because what is not read would be lost\nmend it first: `{check}` shows how"
        )));
    }
    Ok(registry)
}

/// That a merge brings nothing, and what there is new there nevertheless.
fn nothing_new(merged: &Merged) -> String {
    let stayed = stayed(merged).map(|remark| format!("\n{}", visible(&remark)));
    let what = match merged.stayed.is_empty() {
        true => "all of this is on record already",
        false => "all that can come in is on record already",
    };
    format!(
        "{what}, so nothing was written{}",
        stayed.collect::<String>()
    )
}

impl Merge {
    /// Merges another registry into this one.
    pub(super) fn registry(&self, request: &Request) -> Result<Outcome, Refusal> {
        let working = Working::begin();
        working.at("reading both registries");
        let other = Read::folder(&self.folder)?;
        let theirs = other.registry(&self.folder)?;
        let book = Book::open(request, self.recording.dry_run)?;
        let ours = sound(&book.sources, "podbook check")?;
        let entries = book.journal().entries;
        let is_copied = entries.iter().any(|entry| other.entries.contains(entry));
        let by = self.other_grower(&ours, &theirs, is_copied)?;
        let own = Copy {
            sources: &book.sources,
            registry: &ours,
            entries: &entries,
        };
        self.same_is_on_both([&ours, &theirs], by)?;
        working.at("bringing their pages together");
        let merged = self.merged(own, other.copy(&theirs), (by, book.today))?;
        working.at("checking and writing");
        if let Some(slip) = undecided(&merged, request.full()) {
            return Err(Refusal::arguments(slip));
        }
        if merged.changes.is_empty() && merged.clashes.is_empty() {
            return Err(Refusal::arguments(nothing_new(&merged)));
        }
        self.keeps_fit(&merged)?;
        let mut recorded = recorded(by.or(theirs.settings.registry), by.is_none(), &merged);
        let without = other.without_its_page(&self.folder);
        let doubts = by.map(|by| doubts_not_here(&ours, &theirs, by));
        let more = without.into_iter().chain(doubts.into_iter().flatten());
        recorded.remarks.extend(more.map(Words::from));
        let change = Change {
            recorded,
            pages: merged.changes,
            undoes: None,
            merged: Some(merged.memory),
        };
        let report = book.record(request, &ours, change).map_err(contradicting)?;
        drop(working);
        request.told(&book, report)
    }

    /// `--same` names what is there on both sides of two copies, or a founder here and one there.
    fn same_is_on_both(&self, sides: [&Registry; 2], by: Option<&str>) -> Result<(), Refusal> {
        let codes = self.same_codes();
        if let (Some(first), Some(_)) = (codes.first(), by) {
            return Err(Refusal::arguments(format!(
                "--same {0} names one code, and the same code in another grower's registry says nothing\n\
                 write your founder and theirs: --same {0}={0}",
                visible(first)
            )));
        }
        let has = |registry: &Registry, code: &str| {
            let spike = code.split_once(" spike ");
            registry.target(code).is_some()
                || registry.pollen_lot(code).is_some()
                || spike.is_some_and(|(plant, spike)| has_spike(registry, plant, spike))
        };
        let lost = |code: &&String| sides.iter().any(|side| !has(side, code));
        codes.iter().find(lost).map_or(Ok(()), |code| {
            Err(Refusal::arguments(format!(
                "--same {} says nothing here: that code is not on both sides\n\
                 name a code that both copies have, or two founders: --same OURS=THEIRS",
                visible(code)
            )))
        })
    }

    /// `--keep` names a conflict there is.
    fn keeps_fit(&self, merged: &Merged) -> Result<(), Refusal> {
        let decisions = self.decisions();
        let conflicts = merged.clashes.iter().map(|clash| clash.about.as_str());
        decisions.idle(conflicts.clone()).map_or(Ok(()), |begin| {
            let all: Vec<_> = conflicts.map(visible).collect();
            let all = match all.is_empty() {
                true => "there is none".to_owned(),
                false => format!("there are: {}", all.join("; ")),
            };
            Err(Refusal::arguments(format!(
                "--keep {} is about no conflict of this merge\n{all}",
                visible(begin)
            )))
        })
    }

    /// What the merge makes of the pages: of another grower's registry, or of a copy.
    fn merged(
        &self,
        ours: Copy,
        theirs: Copy,
        (by, today): (Option<&str>, Day),
    ) -> Result<Merged, Refusal> {
        let decisions = &self.decisions();
        if let Some(by) = by {
            let merge = OtherMerge {
                ours,
                theirs,
                by,
                decisions,
                same: &self.same_founders(),
                today,
            };
            return merge.merged().map_err(Refusal::arguments);
        }
        let first = self.base.as_deref().map(Read::folder).transpose()?;
        let base = match (&first, &self.base) {
            (Some(read), Some(folder)) => Some((read, read.registry(folder)?)),
            _ => None,
        };
        let merge = CopyMerge {
            ours,
            theirs,
            base: base.as_ref().map(|(read, registry)| read.copy(registry)),
            decisions,
            same: &self.same_codes(),
            joined: &self.same_founders(),
        };
        merge.merged().map_err(Refusal::arguments)
    }

    /// The other registry's name, where it is another grower's; none where it is a copy of this one. Registries of one name
    /// are copies of each other; so are nameless ones with a change in both journals.
    fn other_grower<'a>(
        &'a self,
        ours: &Registry,
        theirs: &'a Registry,
        is_copied: bool,
    ) -> Result<Option<&'a str>, Refusal> {
        let own = ours.settings.registry;
        let name = match (self.told_by.as_deref(), own, theirs.settings.registry) {
            (Some(name), ..) => name.trim(),
            (None, Some(own), Some(other)) if own == other => return Ok(None),
            (None, None, None) if is_copied || self.base.is_some() => return Ok(None),
            (None, _, Some(other)) => other,
            (None, _, None) => {
                return Err(Refusal::arguments(
                    "whose registry the other is, is not known, because it has no name\n\
                     if it is another grower's, give it a short name: --told-by club\n\
                     if both are copies of one, write the same name into both registry.ron, such as registry: \"tent\"",
                ));
            }
        };
        if !is_code(name) || own == Some(name) {
            return Err(Refusal::arguments(format!(
                "`{}` cannot be the name of another registry here\n\
                 give a short name without blanks that is not your own registry's: --told-by club",
                visible(name)
            )));
        }
        Ok(Some(name))
    }
}

/// The refusal of a merge that would bring a fault. Either registry is sound, so the records of the two contradict each other.
fn contradicting(refusal: Refusal) -> Refusal {
    if refusal.exit != 2 {
        return refusal;
    }
    let words = refusal.words.trim_end();
    Refusal::arguments(format!(
        "{words}\n\neach side is sound by itself, but together these records contradict each other\n\
         correct one of them first, here or there (`podbook undo` takes back a change), then merge again"
    ))
}

/// Whether a plant has a spike of that code on record.
fn has_spike(registry: &Registry, plant: &str, spike: &str) -> bool {
    let plant = registry.plant(plant);
    let spikes = plant.into_iter().flat_map(|of| registry.flowerings(of));
    spikes.into_iter().any(|of| of.code == Some(spike))
}
