//! The registry as one value: every record found by its code, every plant by its row.

use super::cross::Cross;
use super::mix_up::{MixUp, MixedUp};
use super::origin::Origin;
use super::plants::{Plant, PlantKind, Unseen};
use super::readings::{ReadingTable, SittingHead};
use super::row_types::{
    CrossRow, OriginRow, PlantRow, PodRow, PollenRow, PotRow, SittingRow, SowingRow, TraitRow,
};
use super::seedling::SeedlingRow;
use crate::record::{
    Cultivar, Day, Fate, Flowering, FounderClone, Identification, Kept, PollenLot, Potting, Ramet,
    RegistryPage, Return, Seedling, SpeciesPage, ToldBy, Treatment, When,
};
use crate::text::{FileId, Sources, Span};
use indexmap::IndexMap;
use std::borrow::Borrow;
use std::collections::BTreeMap;

/// A whole registry, borrowed from its files' texts.
#[derive(Debug)]
pub struct Registry<'t> {
    /// The files.
    pub sources: &'t Sources,
    /// What `registry.ron` says, or the defaults.
    pub settings: RegistryPage<'t>,
    /// What `species.ron` says.
    pub taxa: SpeciesPage<'t>,
    /// Crosses in the order of their codes.
    pub crosses: Vec<Cross<'t>>,
    /// Pollen lots in the order of their codes.
    pub pollen: Vec<PollenLot<'t>>,
    /// Sittings and readings.
    pub readings: ReadingTable<'t>,
    /// The file of the clones, if there is one.
    pub clones_file: Option<FileId>,
    /// The file of the pollen, if there is one.
    pub pollen_file: Option<FileId>,
    pub(super) rows: Vec<Plant>,
    pub(super) origins: Vec<Origin>,
    /// Origins of pots whose pods are of other crosses.
    pub(super) pot_origins: BTreeMap<PotRow, OriginRow>,
    /// The crosses that the origins of muddled seedlings and pots may be of.
    pub(super) muddled_origins: BTreeMap<OriginRow, Vec<CrossRow>>,
    /// The mix-ups of the plants that have any.
    pub(super) mix_ups: BTreeMap<MixedUp, Vec<MixUp<'t>>>,
    /// The day up to which records say what has happened; [`Day::LAST`] until it is said.
    pub(super) last_day: Day,
    pub(super) founders: Vec<FounderClone<'t>>,
    pub(super) unseen: Vec<Unseen<'t>>,
    pub(super) founder_codes: IndexMap<&'t str, u32>,
    pub(super) cross_codes: IndexMap<&'t str, CrossRow>,
    pub(super) pollen_codes: IndexMap<&'t str, PollenRow>,
}

impl<'t> Registry<'t> {
    /// Number of plants, founders and unseen parents included.
    pub fn plant_count(&self) -> usize {
        self.rows.len()
    }

    /// All rows, founders first, parents before offspring.
    pub fn plants(&self) -> impl ExactSizeIterator<Item = PlantRow> + use<> {
        PlantRow::all(self.rows.len())
    }

    /// What a plant is on record as.
    pub fn kind(&self, plant: PlantRow) -> PlantKind {
        self.rows[plant.index()].kind()
    }

    /// The rows of all origins, parents before offspring.
    pub fn origin_rows(&self) -> impl ExactSizeIterator<Item = OriginRow> + Clone + use<> {
        OriginRow::all(self.origins.len())
    }

    /// The origins of plants, an origin after those of its parents.
    pub fn origins(&self) -> &[Origin] {
        &self.origins
    }

    /// The cross whose plants have an origin; `None` for that of plants which may be of several crosses.
    pub fn cross_of_origin(&self, origin: OriginRow) -> Option<CrossRow> {
        let mut crosses = self.all_crosses();
        let (cross, _) = crosses.find(|(_, cross)| cross.origin == origin)?;
        Some(cross)
    }

    /// The row of a plant's origin; `None` for a founder.
    pub fn origin_of(&self, plant: PlantRow) -> Option<OriginRow> {
        let origin = self.rows[plant.index()].origin;
        (origin != Plant::FOUNDER).then_some(OriginRow(origin))
    }

    /// The founders' records; a founder's row is its index here.
    pub fn founders(&self) -> &[FounderClone<'t>] {
        &self.founders
    }

    /// The record of a founder.
    pub fn founder(&self, plant: PlantRow) -> Option<&FounderClone<'t>> {
        (self.kind(plant) == PlantKind::Founder).then(|| &self.founders[plant.index()])
    }

    /// What is known of an unseen parent.
    pub fn unseen(&self, plant: PlantRow) -> Option<&Unseen<'t>> {
        let row = self.rows[plant.index()];
        (row.kind() == PlantKind::Unseen).then(|| &self.unseen[row.record_index as usize])
    }

    /// The cross a seedling stands under.
    pub fn cross_of(&self, plant: PlantRow) -> Option<CrossRow> {
        let row = self.rows[plant.index()];
        (row.kind() == PlantKind::Seedling).then_some(CrossRow(row.record_index))
    }

    /// The further record of a seedling, when it has one.
    pub fn seedling(&self, plant: PlantRow) -> Option<&Seedling<'t>> {
        let cross = &self[self.cross_of(plant)?];
        cross.whole_record(self.rows[plant.index()].local)
    }

    /// A seedling's sowing, pod and community pot, as far as recorded.
    pub fn road(&self, plant: PlantRow) -> (Option<SowingRow>, Option<PodRow>, Option<PotRow>) {
        let Some(cross) = self.cross_of(plant) else {
            return (None, None, None);
        };
        let row = self[cross].seedling_rows[self.rows[plant.index()].local as usize];
        let known = |at: u16| (at != SeedlingRow::NOWHERE).then_some(usize::from(at));
        (
            known(row.sowing).map(|at| SowingRow { cross, at }),
            known(row.pod).map(|at| PodRow { cross, at }),
            known(row.community_pot).map(|at| PotRow { cross, at }),
        )
    }

    /// The last opinion that was accepted of a seedling.
    pub fn accepted_of_seedling(&self, plant: PlantRow) -> Option<&Identification<'t>> {
        let opinions = self.seedling(plant)?.identified.iter();
        opinions.rev().find(|opinion| opinion.accepted)
    }

    /// A seedling's number within its cross.
    pub fn number(&self, plant: PlantRow) -> Option<&'t str> {
        let cross = &self[self.cross_of(plant)?];
        Some(cross.number_text(self.sources, self.rows[plant.index()].local))
    }

    /// Where a plant's code or number stands.
    pub fn place(&self, plant: PlantRow) -> Option<Span> {
        match self.kind(plant) {
            PlantKind::Founder => self
                .sources
                .span_of(self.clones_file?, self.founders[plant.index()].code),
            PlantKind::Seedling => {
                let cross = &self[self.cross_of(plant)?];
                self.sources.span_of(cross.file, self.number(plant)?)
            }
            PlantKind::Unseen => None,
        }
    }

    /// A plant's code: `V1`, `X22-07-12`; a phrase for an unseen parent.
    pub fn code(&self, plant: PlantRow) -> String {
        let row = self.rows[plant.index()];
        match row.kind() {
            PlantKind::Founder => self.founders[row.record_index as usize].code.to_owned(),
            PlantKind::Seedling => {
                let cross = &self[CrossRow(row.record_index)];
                [
                    cross.page.code,
                    "-",
                    cross.number_text(self.sources, row.local),
                ]
                .concat()
            }
            PlantKind::Unseen => self.unseen_phrase(&self.unseen[row.record_index as usize]),
        }
    }

    fn unseen_phrase(&self, unseen: &Unseen) -> String {
        use super::plants::KnownBy;
        let cross = self[unseen.cross].page.code;
        let side = if unseen.bore_the_seed {
            "seed parent"
        } else {
            "pollen parent"
        };
        match unseen.known_by {
            KnownBy::Species(epithet) => format!("some {epithet} ({side} of {cross})"),
            KnownBy::Label => format!("{side} of {cross}, by label only"),
            KnownBy::SeedlingOf(of) => {
                format!(
                    "some seedling of {} ({side} of {cross})",
                    self[of].page.code
                )
            }
        }
    }

    /// What became of the whole plant.
    pub fn fate(&self, plant: PlantRow) -> Option<&Fate<'t>> {
        if let Some(founder) = self.founder(plant) {
            return founder.fate.as_ref();
        }
        let cross = &self[self.cross_of(plant)?];
        cross.fate(self.rows[plant.index()].local)
    }

    /// How it left before and came back.
    pub fn came_back(&self, plant: PlantRow) -> &[Return<'t>] {
        self.either_record(plant, |f| &f.came_back[..], |s| &s.came_back[..])
    }

    /// Its rooted pieces.
    pub fn ramets(&self, plant: PlantRow) -> &[Ramet<'t>] {
        self.either_record(plant, |f| &f.ramets[..], |s| &s.ramets[..])
    }

    /// Its spikes.
    pub fn flowerings(&self, plant: PlantRow) -> &[Flowering<'t>] {
        self.either_record(plant, |f| &f.flowerings[..], |s| &s.flowerings[..])
    }

    /// Its pots.
    pub fn pots(&self, plant: PlantRow) -> &[Potting<'t>] {
        self.either_record(plant, |f| &f.pots[..], |s| &s.pots[..])
    }

    /// Its pots and those of the pieces taken off it.
    pub fn all_pots(&self, plant: PlantRow) -> impl Iterator<Item = &Potting<'t>> {
        let of_pieces = self
            .ramets(plant)
            .iter()
            .flat_map(|piece| piece.pots.iter());
        self.pots(plant).iter().chain(of_pieces)
    }

    /// What was put on it against pests and diseases.
    pub fn treatments(&self, plant: PlantRow) -> &[Treatment<'t>] {
        self.either_record(plant, |f| &f.treatments[..], |s| &s.treatments[..])
    }

    /// Dated opinions on what it is.
    pub fn identified(&self, plant: PlantRow) -> &[Identification<'t>] {
        self.either_record(plant, |f| &f.identified[..], |s| &s.identified[..])
    }

    /// The rows of the declared traits, in the order of `registry.ron`.
    pub fn trait_rows(&self) -> impl ExactSizeIterator<Item = TraitRow> + Clone + use<> {
        TraitRow::all(self.settings.traits.len())
    }

    /// The rows of all sittings, by page and place in it.
    pub fn sitting_rows(
        &self,
    ) -> impl ExactSizeIterator<Item = SittingRow> + DoubleEndedIterator + Clone + use<> {
        SittingRow::all(self.readings.sittings().len())
    }

    /// All sittings with their rows.
    pub fn all_sittings(
        &self,
    ) -> impl ExactSizeIterator<Item = (SittingRow, &SittingHead<'t>)> + DoubleEndedIterator {
        self.sitting_rows().zip(self.readings.sittings())
    }

    /// The rows of all crosses.
    pub fn cross_rows(&self) -> impl ExactSizeIterator<Item = CrossRow> + Clone + use<> {
        CrossRow::all(self.crosses.len())
    }

    /// All crosses with their rows.
    pub fn all_crosses(&self) -> impl ExactSizeIterator<Item = (CrossRow, &Cross<'t>)> {
        self.cross_rows().zip(&self.crosses)
    }

    /// The crosses made or received here; those another grower told of are not among them.
    pub fn own_crosses(&self) -> impl Iterator<Item = (CrossRow, &Cross<'t>)> {
        self.all_crosses()
            .filter(|(_, cross)| cross.page.told_by.is_none())
    }

    /// Whose record of it this is, where it is not the grower's own; for a seedling that of its cross.
    pub fn told_by(&self, plant: PlantRow) -> Option<&ToldBy<'t>> {
        match self.founder(plant) {
            Some(founder) => founder.told_by.as_ref(),
            None => {
                let cross = self.cross_of(plant)?;
                self[cross].page.told_by.as_deref()
            }
        }
    }

    /// The cultivar epithet it carries.
    pub fn cultivar(&self, plant: PlantRow) -> Option<&Cultivar<'t>> {
        match self.founder(plant) {
            Some(founder) => founder.cultivar.as_ref(),
            None => self.seedling(plant)?.cultivar.as_deref(),
        }
    }

    /// Its nickname.
    pub fn nickname(&self, plant: PlantRow) -> Option<&str> {
        match self.founder(plant) {
            Some(founder) => founder.nickname.as_deref(),
            None => self.seedling(plant)?.nickname.as_deref(),
        }
    }

    /// The decision to keep it, if there is one.
    pub fn kept(&self, plant: PlantRow) -> Option<&Kept<'t>> {
        match self.founder(plant) {
            Some(founder) => founder.kept.as_ref(),
            None => self.seedling(plant)?.kept.as_deref(),
        }
    }

    /// Whether somebody decided to keep it.
    pub fn is_kept(&self, plant: PlantRow) -> bool {
        self.kept(plant).is_some()
    }

    fn either_record<'r, R>(
        &'r self,
        plant: PlantRow,
        of_founder: impl Fn(&'r FounderClone<'t>) -> &'r [R],
        of_seedling: impl Fn(&'r Seedling<'t>) -> &'r [R],
    ) -> &'r [R] {
        match (self.founder(plant), self.seedling(plant)) {
            (Some(founder), _) => of_founder(founder),
            (None, Some(seedling)) => of_seedling(seedling),
            (None, None) => &[],
        }
    }

    /// A date of a record; an unreadable one, which has its own finding, is unknown. What has begun by the day up to which
    /// records count has happened by then: 2026, written in March of that year, ends in March.
    pub fn when(&self, text: &str) -> When {
        let when = When::read(text, self.settings.hemisphere).unwrap_or(When::UNKNOWN);
        match when.is_bounded() && when.first <= self.last_day {
            true => When {
                last: when.last.min(self.last_day),
                ..when
            },
            false => when,
        }
    }

    /// The text of a reading's cell, as typed.
    pub fn cell(&self, reading: impl Borrow<super::Reading>) -> &str {
        self.readings.text(self.sources, *reading.borrow())
    }
}
