//! What a code names in the registry, and which codes one that names nothing may have meant.

use super::ids::{is_ramet_code, splits};
use super::left_out::LeftOut;
use super::lookup::Lookup;
use super::row_types::{
    CrossRow, LotRow, PlantRow, PodRow, PollenRow, PotRow, RametRow, SowingRow, ZoneRow,
};
use super::whole::Registry;
use crate::diagnostic::Finding;
use crate::text::{FileId, Names, nearest, same_form};
use indexmap::IndexMap;

/// What a code on the command line or in a record names.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Target<'t> {
    /// A plant.
    Plant(PlantRow),
    /// A ramet of a plant.
    Ramet(PlantRow, RametRow),
    /// A cross.
    Cross(CrossRow),
    /// A pod of a cross.
    Pod(PodRow),
    /// A zone (pollination) of a cross.
    Zone(ZoneRow),
    /// A seed lot of a cross.
    SeedLot(LotRow),
    /// A sowing of a cross.
    Sowing(SowingRow),
    /// A community pot of a cross.
    CommunityPot(PotRow),
    /// A pollen lot.
    Pollen(PollenRow),
    /// A species.
    Species(&'t str),
}

/// What a code leads to, also where its letters and marks are composed otherwise than on record.
pub(super) fn as_recorded<'c, T>(codes: &'c IndexMap<&str, T>, code: &str) -> Option<&'c T> {
    codes.get(code).or_else(|| {
        let mut codes = codes.iter().filter(|_| !code.is_ascii());
        codes
            .find(|(known, _)| same_form(known, code))
            .map(|(_, of)| of)
    })
}

impl<'t> Registry<'t> {
    /// The plant with a code.
    pub fn plant(&self, code: &str) -> Option<PlantRow> {
        if let Some(&founder) = as_recorded(&self.founder_codes, code) {
            return Some(PlantRow(founder));
        }
        self.seedling_coded(code)
    }

    /// The plant a code names, be it the plant's own or that of one of its ramets, on record or not.
    pub fn plant_or_piece(&self, code: &str) -> Option<PlantRow> {
        let code = code.trim();
        match self.target(code) {
            Some(target) => target.plant(),
            None => self.plant(code.rsplit_once('-')?.0),
        }
    }

    /// The seedling with a code, whatever else has it.
    pub fn seedling_coded(&self, code: &str) -> Option<PlantRow> {
        let (cross, number) =
            splits(code).find_map(|(cross, number)| Some((self.cross(cross)?, number)))?;
        let cross = &self[cross];
        let local = cross.find(self.sources, number)?;
        Some(cross.seedlings[local as usize])
    }

    /// The cross with a code.
    pub fn cross(&self, code: &str) -> Option<CrossRow> {
        as_recorded(&self.cross_codes, code).copied()
    }

    /// The pollen lot with a code.
    pub fn pollen_lot(&self, code: &str) -> Option<PollenRow> {
        as_recorded(&self.pollen_codes, code).copied()
    }

    /// Whatever a code names: plant, ramet, cross, a part of a cross (`X22-07.P1`), pollen lot or species.
    pub fn target(&self, code: &str) -> Option<Target<'t>> {
        let code = code.trim();
        if let Some(plant) = self.plant(code) {
            return Some(Target::Plant(plant));
        }
        if let Some(cross) = self.cross(code) {
            return Some(Target::Cross(cross));
        }
        if let Some((cross, part)) = code.rsplit_once('.')
            && let Some(cross) = self.cross(cross)
            && let Some(part) = self.part(cross, part)
        {
            return Some(part);
        }
        if let Some((plant, ramet)) = code.rsplit_once('-')
            && is_ramet_code(ramet)
            && let Some(plant) = self.plant(plant)
            && let Some(at) = self
                .ramets(plant)
                .iter()
                .position(|r| same_form(r.code, ramet))
        {
            return Some(Target::Ramet(plant, RametRow::new(at)));
        }
        if let Some(lot) = self.pollen_lot(code) {
            return Some(Target::Pollen(lot));
        }
        let epithet = code.strip_prefix("N. ").unwrap_or(code);
        self.taxa
            .species
            .iter()
            .find(|s| s.epithet == epithet)
            .map(|s| Target::Species(s.epithet))
    }

    /// The note on a code in a page that names a page or record left out because of a fault of its own.
    pub fn left_out(&self, what: &str, code: &str, file: FileId) -> Option<Finding> {
        let kept = self.crosses.iter().map(|cross| cross.file);
        LeftOut::of(self.sources, kept).note(what, code, file)
    }

    /// A code in a page that names nothing, with the nearest that do; the note on it where its record was left out.
    pub fn unknown<'n>(
        &self,
        what: &'static str,
        (file, code): (FileId, &str),
        known: impl Iterator<Item = &'n str>,
    ) -> Finding {
        let sources = self.sources;
        let unknown = || Lookup { sources, file }.unknown(what, code, known);
        self.left_out(what, code, file).unwrap_or_else(unknown)
    }

    /// The page on which a code stands in what was left out because of a fault, or that is not read at all: who uses the
    /// code for something new uses it twice.
    pub fn stands_unread(&self, code: &str) -> Option<String> {
        let kept = self.crosses.iter().map(|cross| cross.file);
        LeftOut::of(self.sources, kept).page_of(code)
    }

    /// The pages that could not be read, or of which a faulty part was left out, and on which a code may stand that
    /// names nothing: each with the reason. The page its cross should be on comes first.
    pub fn may_be_on(&self, code: &str) -> Vec<String> {
        let kept = self.crosses.iter().map(|cross| cross.file);
        LeftOut::of(self.sources, kept).may_hold(code.trim(), self.founders_lost())
    }

    /// The pages that could not be read, or of which a plant or a tray was left out: each with the reason.
    pub fn may_have_more(&self) -> Vec<String> {
        let kept = self.crosses.iter().map(|cross| cross.file);
        LeftOut::of(self.sources, kept).may_hold_any(self.founders_lost())
    }

    fn founders_lost(&self) -> bool {
        self.clones_file.is_none() && self.sources.find("clones.ron").is_some()
    }

    /// What to do first where a trait was left out with a fault of `registry.ron`; `None` where that is not why it is
    /// unknown.
    pub fn lost_trait(&self, heading: &str) -> Option<String> {
        LeftOut::trait_note(self.sources, heading).map(|(help, _)| help)
    }

    /// Those of [`Registry::near`] that name a plant or a piece of one.
    pub fn near_plants(&self, code: &str) -> Vec<String> {
        let mut near = self.near(code);
        near.retain(|near| {
            self.target(near)
                .is_some_and(|of| of.plant_or_ramet().is_some())
        });
        near
    }

    /// The codes nearest to one that names nothing, at most three.
    pub fn near(&self, code: &str) -> Vec<String> {
        let mut known: Vec<String> = Vec::new();
        known.extend(self.founder_codes.keys().map(|code| code.to_string()));
        known.extend(self.cross_codes.keys().map(|code| code.to_string()));
        known.extend(self.pollen_codes.keys().map(|code| code.to_string()));
        known.extend(self.taxa.species.iter().map(|row| row.epithet.to_string()));
        let begun = |cross: &str| self.cross_codes.get(cross).copied();
        let cross = splits(code)
            .find_map(|(cross, _)| begun(cross))
            .or_else(|| code.split_once('.').and_then(|(cross, _)| begun(cross)));
        if let Some(cross) = cross {
            let page = &self[cross].page;
            let parts = (page.pods.iter().map(|pod| pod.code))
                .chain(page.sowings.iter().map(|sowing| sowing.code))
                .chain(page.seed_lots.iter().map(|lot| lot.code))
                .chain(
                    page.community_pots
                        .iter()
                        .map(|community_pot| community_pot.code),
                );
            known.extend(parts.map(|part| format!("{}.{part}", page.code)));
            known.extend(self[cross].seedlings.iter().map(|&row| self.code(row)));
        }
        let crosses = Names::new(self.cross_codes.keys().copied());
        for (prefix, number) in splits(code) {
            let near = crosses.nearest(prefix).into_iter();
            let asked = near.map(|cross| format!("{cross}-{number}"));
            known.extend(asked.filter(|code| self.plant(code).is_some()));
        }
        nearest(code, known.iter().map(String::as_str))
            .into_iter()
            .map(str::to_owned)
            .collect()
    }

    fn part(&self, cross: CrossRow, code: &str) -> Option<Target<'t>> {
        let pod = self.pods(cross).find(|(_, pod)| pod.code == code);
        let zone = self.zones(cross).find(|(_, of)| of.zone == code);
        let lot = self.seed_lots(cross).find(|(_, lot)| lot.code == code);
        let sowing = self.sowings(cross).find(|(_, of)| of.code == code);
        let pot = self.community_pots(cross).find(|(_, pot)| pot.code == code);
        pod.map(|(row, _)| Target::Pod(row))
            .or(sowing.map(|(row, _)| Target::Sowing(row)))
            .or(lot.map(|(row, _)| Target::SeedLot(row)))
            .or(pot.map(|(row, _)| Target::CommunityPot(row)))
            .or(zone.map(|(row, _)| Target::Zone(row)))
    }
}
