//! What other people may read: records without what a grower keeps for herself.
//!
//! Left out are where plants came from and went to, prices, the names of places and of people, papers, places in the wild,
//! remarks and reasons. Every field of a record is named here: a new one does not compile until it is said whether others may
//! read it. What is left out reads as not recorded, so nothing becomes surer by it. `species.ron` is taken apart in
//! `registry`, which has the list a new registry starts with.

use super::{
    Beside, BriefSeedling, ClonesPage, CommunityPot, CrossPage, Cultivar, Fate, Flowering,
    FounderClone, Identification, Kept, Muddle, PartGone, Photo, Pod, PollenLot, PollenPage,
    Pollination, Potting, Pricking, Ramet, RegistryPage, Return, SeedLot, Seedling, Seedlings,
    Sitting, Sowing, Treatment,
};

use std::collections::BTreeMap;

/// A record that can be read by others.
pub trait ForOthers {
    /// Takes out what is private.
    fn hide(&mut self);
}

impl<R: ForOthers> ForOthers for [R] {
    fn hide(&mut self) {
        self.iter_mut().for_each(ForOthers::hide);
    }
}

impl<R: ForOthers> ForOthers for Option<R> {
    fn hide(&mut self) {
        self.as_mut_slice().hide();
    }
}

impl<R: ForOthers> ForOthers for Box<R> {
    fn hide(&mut self) {
        (**self).hide();
    }
}

/// The fields of records: those that others may read, those that are private, and those with something private in them.
macro_rules! fields {
    ($($record:ident {
        $(read: $($read:ident),+;)? $(private: $($private:ident),+;)? $(inside: $($inside:ident),+;)?
    })+) => {$(
        impl ForOthers for $record<'_> {
            fn hide(&mut self) {
                let Self { $($($read: _,)+)? $($($private,)+)? $($($inside,)+)? } = self;
                $($(*$private = Default::default();)+)?
                $($($inside.hide();)+)?
            }
        }
    )+};
}

fields! {
    RegistryPage {
        read: genus, hemisphere, show_lengths_in, chromosome_pairs, map_length_morgans, format, registry, traits,
            intervals, pot_steps;
        private: grower, contact, places, treatments, shelves, note;
    }
    FounderClone {
        read: code, received, on, form, batch, confidence, name_as, nickname, told_by;
        private: nights, foreign, from, supplier_code, locality, papers, note;
        inside: identified, cultivar, ramets, flowerings, pots, treatments, photos, kept, fate, came_back;
    }
    Seedling {
        read: number, sowing, pod, community_pot, one_of, germinated, numbered, nickname;
        private: place, note;
        inside: cultivar, identified, ramets, flowerings, pots, treatments, photos, muddled, kept, fate, came_back;
    }
    BriefSeedling {
        read: number, sowing, pod, community_pot;
        inside: beside;
    }
    CrossPage {
        read: code, parents, parents_misread, confidence, received, told_by;
        private: from, goal, note;
        inside: pollinations, pods, seed_lots, sowings, community_pots, seedlings, sittings;
    }
    PollenPage {
        inside: lots;
    }
    PollenLot {
        read: code, from, collected, dried, stored, thawed, finished, told_by;
        private: left, note;
    }
    Identification {
        read: on, name, confidence, accepted;
        private: by, basis, note;
    }
    Ramet {
        read: code, from, made, cut, rooted;
        private: place, note;
        inside: pots, fate, came_back;
    }
    Return {
        read: on;
        private: note;
        inside: left;
    }
    Flowering {
        read: code, spike, opened, over, sex, seen_by, ramet;
        private: note;
    }
    Potting {
        read: on, pot;
        private: place;
    }
    Treatment {
        read: on, product, against, perhaps;
        private: place, by, note;
    }
    Photo {
        read: file, on, light;
        private: note;
    }
    Muddle {
        read: on, with, one_of_before, settled;
        private: why;
    }
    Cultivar {
        read: epithet, published;
        private: note;
    }
    Kept {
        read: on;
        private: why;
    }
    Pollination {
        read: zone, plant, spike, on, pollen, pollen_told_by, flowers, set, counted, covered, control_flowers, control_set,
            spike_control_flowers, spike_control_set, spike_control_by_days, spike_control_covered, same_flowers;
        private: note;
    }
    Pod {
        read: code, zone, capsules, harvested, seeds;
        private: note;
    }
    SeedLot {
        read: code, pod, seeds, estimated, embryo_percent;
        private: came, stored, given_away, gone, left, fate, note;
    }
    Sowing {
        read: code, lot, pod, on, seeds, medium, germinated;
        private: container, place, note;
        inside: treatments, pricked_out, fate;
    }
    Pricking {
        read: on, moved, left;
        private: to;
    }
    CommunityPot {
        read: code, sowing, one_of, alive;
        private: pot, place, note;
        inside: muddled, gone, treatments, fate;
    }
    PartGone {
        read: count;
        inside: fate;
    }
}

impl ForOthers for ClonesPage<'_> {
    fn hide(&mut self) {
        let Self { clones, sittings } = self;
        // Batches say which founders count as siblings, and their words may name a supplier: each is called by the code of its
        // first founder.
        let mut first: BTreeMap<&str, &str> = BTreeMap::new();
        for founder in clones.iter_mut() {
            let code = founder.code;
            founder.batch = founder.batch.map(|of| *first.entry(of).or_insert(code));
        }
        clones.hide();
        sittings.hide();
    }
}

impl ForOthers for Seedlings<'_> {
    fn hide(&mut self) {
        self.0.hide();
    }
}

impl ForOthers for Beside<'_> {
    fn hide(&mut self) {
        match self {
            Beside::Nothing => {}
            Beside::Fate(fate) => fate.hide(),
            Beside::More(whole) => whole.hide(),
        }
    }
}

impl ForOthers for Fate<'_> {
    fn hide(&mut self) {
        match self {
            Fate::Died { on: _, cause } => *cause = None,
            Fate::Culled { on: _, reason } => *reason = None,
            Fate::Sold {
                on: _,
                label,
                to,
                price,
                said,
            }
            | Fate::Given {
                on: _,
                label,
                to,
                price,
                said,
            } => {
                *label = None;
                (*to, *price, *said) = (None, None, None);
            }
            Fate::Lost { on: _, note } => *note = None,
            Fate::Elsewhere => {}
        }
    }
}

impl ForOthers for Sitting<'_> {
    fn hide(&mut self) {
        let Self {
            on: _,
            method: _,
            pitcher: _,
            columns,
            rows,
            place,
            by,
            light,
            note,
        } = self;
        (*place, *by, *light, *note) = (None, None, None, None);
        let notes = columns.iter().enumerate();
        let notes = notes.filter(|(_, heading)| heading.trim().eq_ignore_ascii_case("note"));
        let notes: Vec<usize> = notes.map(|(at, _)| at + 1).collect();
        rows.blank(&notes);
    }
}
