//! What other people may read: records without what a grower keeps for herself.
//!
//! Left out are where plants came from and went to, prices, the names of places and of people, papers, places in the wild,
//! remarks and reasons. Records are taken apart field by field, so that a new field is not forgotten here. What is left out
//! reads as not recorded, so nothing becomes surer by it. `species.ron` is taken apart in `registry`, which has the list a new
//! registry starts with.

use super::{
    Beside, ClonesPage, CommunityPot, CrossPage, Cultivar, Fate, Flowering, FounderClone,
    Identification, Kept, Muddle, Photo, Pod, PollenLot, PollenPage, Pollination, Potting, Ramet,
    RegistryPage, Return, SeedLot, Seedling, Sitting, Sowing, Treatment,
};

use std::collections::BTreeMap;

/// A record that can be read by others.
pub trait ForOthers {
    /// Takes out what is private.
    fn hide(&mut self);
}

fn each<R: ForOthers>(records: &mut [R]) {
    records.iter_mut().for_each(ForOthers::hide);
}

impl ForOthers for RegistryPage<'_> {
    fn hide(&mut self) {
        let Self {
            genus: _,
            hemisphere: _,
            show_lengths_in: _,
            chromosome_pairs: _,
            map_length_morgans: _,
            format: _,
            registry: _,
            traits: _,
            intervals: _,
            pot_steps: _,
            grower,
            contact,
            places,
            treatments,
            shelves,
            note,
        } = self;
        (*grower, *contact, *note) = (None, None, None);
        places.clear();
        treatments.clear();
        shelves.clear();
    }
}

impl ForOthers for ClonesPage<'_> {
    fn hide(&mut self) {
        // Batches say which founders count as siblings, and their words may name a supplier: each is called by the code of its
        // first founder.
        let mut first: BTreeMap<&str, &str> = BTreeMap::new();
        for founder in &mut self.clones {
            let code = founder.code;
            founder.batch = founder.batch.map(|of| *first.entry(of).or_insert(code));
        }
        each(&mut self.clones);
        each(&mut self.sittings);
    }
}

impl ForOthers for FounderClone<'_> {
    fn hide(&mut self) {
        let Self {
            code: _,
            received: _,
            on: _,
            form: _,
            batch: _,
            confidence: _,
            name_as: _,
            nickname: _,
            told_by: _,
            nights,
            foreign,
            from,
            supplier_code,
            identified,
            locality,
            papers,
            cultivar,
            ramets,
            flowerings,
            pots,
            treatments,
            photos,
            kept,
            fate,
            came_back,
            note,
        } = self;
        (*from, *supplier_code, *locality) = (None, None, None);
        (*papers, *nights, *note) = (None, None, None);
        *foreign = None;
        each(identified);
        each(ramets);
        each(flowerings);
        each(pots);
        each(treatments);
        each(photos);
        cultivar.iter_mut().for_each(ForOthers::hide);
        kept.iter_mut().for_each(ForOthers::hide);
        fate.iter_mut().for_each(ForOthers::hide);
        each(came_back);
    }
}

impl ForOthers for Seedling<'_> {
    fn hide(&mut self) {
        let Self {
            number: _,
            sowing: _,
            pod: _,
            community_pot: _,
            one_of: _,
            germinated: _,
            numbered: _,
            nickname: _,
            place,
            cultivar,
            identified,
            ramets,
            flowerings,
            pots,
            treatments,
            photos,
            muddled,
            kept,
            fate,
            came_back,
            note,
        } = self;
        (*place, *note) = (None, None);
        each(identified);
        each(ramets);
        each(flowerings);
        each(pots);
        each(treatments);
        each(photos);
        each(muddled);
        cultivar.iter_mut().for_each(|cultivar| cultivar.hide());
        kept.iter_mut().for_each(|kept| kept.hide());
        fate.iter_mut().for_each(|fate| fate.hide());
        each(came_back);
    }
}

impl ForOthers for CrossPage<'_> {
    fn hide(&mut self) {
        let Self {
            code: _,
            parents: _,
            parents_misread: _,
            confidence: _,
            received: _,
            told_by: _,
            from,
            goal,
            pollinations,
            pods,
            seed_lots,
            sowings,
            community_pots,
            seedlings,
            sittings,
            note,
        } = self;
        (*from, *goal, *note) = (None, None, None);
        each(pollinations);
        each(pods);
        each(seed_lots);
        each(sowings);
        each(community_pots);
        each(sittings);
        for seedling in &mut seedlings.0 {
            match &mut seedling.beside {
                Beside::Nothing => {}
                Beside::Fate(fate) => fate.hide(),
                Beside::More(whole) => whole.hide(),
            }
        }
    }
}

impl ForOthers for PollenPage<'_> {
    fn hide(&mut self) {
        each(&mut self.lots);
    }
}

impl ForOthers for PollenLot<'_> {
    fn hide(&mut self) {
        (self.left, self.note) = (None, None);
    }
}

impl ForOthers for Identification<'_> {
    fn hide(&mut self) {
        (self.by, self.basis, self.note) = (None, None, None);
    }
}

impl ForOthers for Ramet<'_> {
    fn hide(&mut self) {
        (self.place, self.note) = (None, None);
        self.fate.iter_mut().for_each(ForOthers::hide);
        each(&mut self.pots);
        each(&mut self.came_back);
    }
}

impl ForOthers for Return<'_> {
    fn hide(&mut self) {
        self.left.hide();
        self.note = None;
    }
}

impl ForOthers for Flowering<'_> {
    fn hide(&mut self) {
        self.note = None;
    }
}

impl ForOthers for Potting<'_> {
    fn hide(&mut self) {
        self.place = None;
    }
}

impl ForOthers for Treatment<'_> {
    fn hide(&mut self) {
        (self.place, self.by, self.note) = (None, None, None);
    }
}

impl ForOthers for Photo<'_> {
    fn hide(&mut self) {
        self.note = None;
    }
}

impl ForOthers for Muddle<'_> {
    fn hide(&mut self) {
        self.why = None;
    }
}

impl ForOthers for Cultivar<'_> {
    fn hide(&mut self) {
        self.note = None;
    }
}

impl ForOthers for Kept<'_> {
    fn hide(&mut self) {
        self.why = None;
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

impl ForOthers for Pollination<'_> {
    fn hide(&mut self) {
        self.note = None;
    }
}

impl ForOthers for Pod<'_> {
    fn hide(&mut self) {
        self.note = None;
    }
}

impl ForOthers for SeedLot<'_> {
    fn hide(&mut self) {
        (self.came, self.stored, self.given_away) = (None, None, None);
        self.gone.clear();
        (self.left, self.fate, self.note) = (None, None, None);
    }
}

impl ForOthers for Sowing<'_> {
    fn hide(&mut self) {
        (self.place, self.container, self.note) = (None, None, None);
        each(&mut self.treatments);
        for pricking in &mut self.pricked_out {
            pricking.to = None;
        }
        self.fate.iter_mut().for_each(ForOthers::hide);
    }
}

impl ForOthers for CommunityPot<'_> {
    fn hide(&mut self) {
        (self.place, self.pot, self.note) = (None, None, None);
        each(&mut self.treatments);
        each(&mut self.muddled);
        self.gone.iter_mut().for_each(|part| part.fate.hide());
        self.fate.iter_mut().for_each(ForOthers::hide);
    }
}

impl ForOthers for Sitting<'_> {
    fn hide(&mut self) {
        (self.place, self.by) = (None, None);
        (self.light, self.note) = (None, None);
        let notes = self.columns.iter().enumerate();
        let notes = notes.filter(|(_, heading)| heading.trim().eq_ignore_ascii_case("note"));
        let notes: Vec<usize> = notes.map(|(at, _)| at + 1).collect();
        self.rows.blank(&notes);
    }
}
