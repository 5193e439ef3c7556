//! Taking in a lineage that another grower handed over: the plant comes into the collection, its ancestors are kept as
//! told by their owner and stand elsewhere.

use super::closure::Lineage;
use super::codes::{Codes, given, teller};
use super::known::Known;
use super::of_ours::told_only;
use super::records::{cross_record, founder, ramet, seedling};
use super::same::differing;
use super::senses::labels_agree;
use super::taxa::take_in_names;
use crate::record::{Fate, ToldBy};
use crate::recording::dates::dated;
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::recorded::Recorded;
use crate::recording::slip::Slip;
use crate::recording::written::{RonRecord, lines as list};
use crate::registry::{CrossRow, PlantRow, RametRow, Registry};
use std::collections::BTreeSet;

/// Which record stays where one that was taken in before says something else than the new one.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Keep {
    /// None: it is refused.
    Neither,
    /// The one here.
    Ours,
    /// The one that comes.
    Theirs,
}

/// A lineage to take in.
pub struct TakeIn<'a, 't> {
    /// The registry that was handed over.
    pub theirs: &'a Registry<'t>,
    /// The plant that comes.
    pub plant: PlantRow,
    /// The piece of it, where it has several.
    pub piece: Option<RametRow>,
    /// Short name of the other registry.
    pub by: &'a str,
    /// What happens to contradictions.
    pub keep: Keep,
    /// When it came; today if not given.
    pub on: Option<&'a str>,
}

/// What is taken in, sorted by where it goes.
#[derive(Default)]
pub(super) struct Taken {
    pub codes: Codes,
    /// Founders and crosses that are on record here already.
    pub known: BTreeSet<String>,
    pub contradictions: Vec<String>,
    /// Contradictions of which one stayed.
    pub settled: Vec<String>,
    pub founders: usize,
    pub seedlings: usize,
    pub crosses: usize,
    /// Whether a record that was here says something else from now on.
    pub changed: bool,
}

impl TakeIn<'_, '_> {
    /// Writes the records.
    ///
    /// # Errors
    /// If a date or code cannot be, or a record taken in before says something else and neither is to stay.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let on = dated(draft.registry, "--on", self.on, draft.today)?.text;
        labels_agree(draft.registry, self.theirs, self.by)?;
        let lineage = Lineage::of(self.theirs, self.plant);
        let mut taken = self.coded(draft.registry, &lineage)?;
        let here = taken.codes.of(&self.theirs.code(self.plant));
        let gone = self.stays_gone(draft, &here);
        for &plant in &lineage.plants {
            if self.theirs.founder(plant).is_some() {
                self.founder(draft, plant, &on, &mut taken)?;
            }
        }
        for &cross in &lineage.crosses {
            self.cross(draft, &lineage, cross, &on, &mut taken)?;
        }
        if !taken.contradictions.is_empty() {
            return Err(Slip::lineages_differ(&taken.contradictions));
        }
        let home = self.comes_home(draft.registry, &here);
        if let (Some(plant), Some(piece)) = (draft.registry.plant(&here), &home) {
            let change = FieldChange::Push("ramets", piece.line());
            draft.change_plants(vec![(plant, vec![change])])?;
        }
        take_in_names(self.theirs, draft)?;
        if draft.changes().is_empty() && !taken.settled.is_empty() {
            return Err(Slip::nothing(format!(
                "the record here stays as it is:\n  {}\nnothing else of the lineage is new",
                taken.settled.join("\n  ")
            )));
        }
        if let (true, Some(gone)) = (draft.changes().is_empty(), &gone) {
            return Err(Slip::contradicts(
                format!("{here} was to come into the collection"),
                gone.clone(),
                format!("nothing was written. {}", Self::how_back(&here)),
            ));
        }
        if !draft.changes().is_empty() {
            draft.second_form()?;
        }
        Ok(self.recorded(draft.registry, (here, gone), taken))
    }

    /// Gives every founder and cross its code here.
    fn coded(&self, ours: &Registry, lineage: &Lineage) -> Result<Taken, Slip> {
        let (mut taken, known) = (Taken::default(), Known::of(ours));
        for &plant in &lineage.plants {
            if let Some(of) = self.theirs.founder(plant) {
                let told = teller(of.told_by.as_ref(), of.code, self.by);
                let foreign = of.foreign.as_ref().map(|of| (of.registry, of.code));
                let here = known.founder([Some(told), foreign, Some((self.by, of.code))]);
                self.code(ours, &[of.code.to_owned()], here, &mut taken)?;
            }
        }
        for &cross in &lineage.crosses {
            let page = &self.theirs[cross].page;
            let told = teller(page.told_by.as_deref(), page.code, self.by);
            // A cross whose own code is free may still have a seedling whose code is not.
            let seedlings = self.theirs[cross].seedlings.iter();
            let seedlings = seedlings.filter(|plant| lineage.plants.contains(plant));
            let codes = std::iter::once(page.code.to_owned())
                .chain(seedlings.map(|&plant| self.theirs.code(plant)));
            let codes: Vec<String> = codes.collect();
            self.code(ours, &codes, known.cross(told), &mut taken)?;
        }
        for cross in self.named_beside(lineage) {
            if taken.codes.exactly(cross).is_none() {
                let here = known.cross((self.by, cross));
                self.code(ours, &[cross.to_owned()], here, &mut taken)?;
            }
        }
        Ok(taken)
    }

    /// Codes of crosses whose plants or pots the lineage names in mix-ups, and whose zones may be the same flowers as those of
    /// its own; they need be no part of it themselves.
    fn named_beside(&self, lineage: &Lineage) -> BTreeSet<&str> {
        let seedlings = lineage.plants.iter();
        let plants = seedlings
            .flat_map(|&plant| self.theirs.mix_ups(plant))
            .flat_map(|of| of.with.iter().map(String::as_str));
        let pots = lineage.crosses.iter();
        let pots = pots
            .flat_map(|&cross| &self.theirs[cross].page.community_pots)
            .flat_map(|pot| pot.muddled.iter())
            .flat_map(|of| of.with.iter().copied());
        let zones = lineage.crosses.iter();
        let zones = zones
            .flat_map(|&cross| &self.theirs[cross].page.pollinations)
            .filter_map(|of| of.same_flowers?.split_once('.'));
        let others = plants.chain(pots);
        others
            .filter_map(|code| code.rsplit_once(['-', '.']))
            .chain(zones)
            .map(|(cross, _)| cross)
            .collect()
    }

    /// Gives a founder or a cross its code here; the codes are its own and those that begin with it.
    fn code(
        &self,
        ours: &Registry,
        codes: &[String],
        known: Option<&str>,
        taken: &mut Taken,
    ) -> Result<(), Slip> {
        let code = codes[0].as_str();
        taken.known.extend(known.is_some().then(|| code.to_owned()));
        let new = given(ours, codes, known, self.by)?;
        taken.codes.rename(code, new);
        Ok(())
    }

    fn told_by(&self, told_by: Option<&ToldBy>, code: &str, on: &str) -> String {
        let (registry, code) = teller(told_by, code, self.by);
        let record = RonRecord::new().text("registry", registry);
        record.text("code", code).text("on", on).line()
    }

    /// A plant's own record with what it has here: the one that came stands here, with its other pieces elsewhere.
    fn placed(&self, plant: PlantRow, record: RonRecord) -> RonRecord {
        if plant != self.plant {
            return record.value("fate", "elsewhere");
        }
        let Some(came) = self.piece else {
            return record;
        };
        let pieces: Vec<String> = (self.theirs.each_ramet(plant))
            .map(|(of, piece)| {
                let elsewhere = (of.ramet != Some(came)).then_some("elsewhere");
                ramet(piece).value_if("fate", elsewhere).line()
            })
            .collect();
        record.with("ramets", format!("[{}]", pieces.join(", ")))
    }

    fn founder(
        &self,
        draft: &mut Draft,
        plant: PlantRow,
        on: &str,
        taken: &mut Taken,
    ) -> Result<(), Slip> {
        let Some(of) = self.theirs.founder(plant) else {
            return Ok(());
        };
        let record = founder(of, &taken.codes);
        if !taken.known.contains(of.code) {
            taken.founders += 1;
            let told_by = self.told_by(of.told_by.as_ref(), of.code, on);
            let record = self.placed(plant, record.value("told_by", told_by));
            return Ok(draft.clones()?.append("clones", &[record.line()])?);
        }
        let ours = draft.registry;
        let here = ours.plant(&taken.codes.of(of.code));
        // A plant of our own stays as we know it.
        let told = here.and_then(|here| ours.founder(here).filter(|of| of.told_by.is_some()));
        let (Some(here), Some(known)) = (here, told) else {
            return Ok(());
        };
        let differ = differing(&founder(known, &Codes::unchanged()), &record);
        let differ = told_only(ours, here, differ);
        let mut changes = self.settled(&ours.code(here), differ, taken);
        changes.extend(self.arrives(ours, plant, here));
        draft.change_plants(vec![(here, changes)])
    }

    fn cross(
        &self,
        draft: &mut Draft,
        lineage: &Lineage,
        cross: CrossRow,
        on: &str,
        taken: &mut Taken,
    ) -> Result<(), Slip> {
        let page = &self.theirs[cross];
        let record = cross_record(self.theirs, (cross, Some(lineage)), &taken.codes);
        let of_lineage = page.seedlings.iter().copied();
        let seedlings: Vec<PlantRow> = of_lineage
            .filter(|plant| lineage.plants.contains(plant))
            .collect();
        let code = taken.codes.of(page.page.code);
        let Some(here) = draft
            .registry
            .cross(&code)
            .filter(|_| taken.known.contains(page.page.code))
        else {
            taken.crosses += 1;
            taken.seedlings += seedlings.len();
            let told_by = self.told_by(page.page.told_by.as_deref(), page.page.code, on);
            let rows: Vec<String> = seedlings
                .iter()
                .filter_map(|&plant| self.seedling((plant, lineage), taken))
                .collect();
            let record = record.value("told_by", told_by);
            let record = match rows.is_empty() {
                true => record,
                false => record.value("seedlings", list(&rows)),
            };
            return draft.new_cross(&code, &record);
        };
        if draft.registry[here].page.told_by.is_none() {
            return Ok(());
        }
        let own = cross_record(draft.registry, (here, None), &Codes::unchanged());
        let changes = self.settled(&code, differing(&own, &record), taken);
        draft.cross(here).change_whole(&changes)?;
        self.siblings(draft, (here, lineage), &seedlings, taken)
    }

    fn seedling(&self, (plant, lineage): (PlantRow, &Lineage), taken: &Taken) -> Option<String> {
        let record = seedling(self.theirs, (plant, Some(lineage)), &taken.codes)?;
        Some(self.placed(plant, record).line())
    }

    /// Seedlings of a cross that was taken in before: those that are new, and what is new about the others.
    fn siblings(
        &self,
        draft: &mut Draft,
        (cross, lineage): (CrossRow, &Lineage),
        seedlings: &[PlantRow],
        taken: &mut Taken,
    ) -> Result<(), Slip> {
        let ours = draft.registry;
        let mut rows = Vec::new();
        let mut changes = Vec::new();
        for &plant in seedlings {
            let code = taken.codes.of(&self.theirs.code(plant));
            let Some(here) = ours.plant(&code) else {
                taken.seedlings += 1;
                rows.extend(self.seedling((plant, lineage), taken));
                continue;
            };
            // What stands on records of other plants is there already, and cannot give way on this one.
            let own = seedling(ours, (here, None), &Codes::unchanged());
            let told = seedling(self.theirs, (plant, Some(lineage)), &taken.codes);
            if let (Some(own), Some(told)) = (own, told) {
                let differ = told_only(ours, here, differing(&own, &told));
                let mut settled = self.settled(&code, differ, taken);
                settled.extend(self.arrives(ours, plant, here));
                changes.push((here, settled));
            }
        }
        draft.change_plants(changes)?;
        Ok(draft.cross(cross).append("seedlings", &rows)?)
    }

    /// The plant that comes may have been an ancestor elsewhere until now.
    fn arrives(&self, ours: &Registry, plant: PlantRow, here: PlantRow) -> Option<FieldChange> {
        let was_elsewhere = matches!(ours.fate(here), Some(Fate::Elsewhere));
        (plant == self.plant && was_elsewhere).then_some(FieldChange::Remove("fate"))
    }
}
