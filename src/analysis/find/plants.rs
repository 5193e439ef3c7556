//! Founders, seedlings and their pieces; pollen; species.

use super::searched::{Field, RecordKind, Searched};
use crate::lineage::PlantRow;
use crate::naming::recorded::{Names, TopOf};
use crate::naming::{Writing, breeder};
use crate::observation::photos::photos;
use crate::record::{
    Cultivar, Fate, Flowering, FreeText, Identification, Kept, Muddle, Photo, Potting, Return,
    Treatment,
};
use crate::registry::{Column, PlantKind, Registry};

/// Fields that may be missing.
pub(super) type Fields<'r> = Vec<(Field, Option<&'r str>)>;

/// A name as breeders write it; `None` for one too long to write.
pub(super) fn written(names: &Names, of: TopOf) -> Option<String> {
    let formula = names.formula(of, false);
    breeder(&formula, &Writing::plain(names.vocabulary())).ok()
}

/// Words a record may leave out.
pub(super) fn text<'r>(words: &'r Option<FreeText<'_>>) -> Option<&'r str> {
    words.as_deref()
}

impl Searched {
    /// Every plant with its pieces.
    pub fn plants(&mut self, registry: &Registry, names: &Names) {
        for plant in registry.plants() {
            let code = registry.code(plant);
            match registry.kind(plant) {
                PlantKind::Unseen => continue,
                PlantKind::Founder => {
                    let name = written(names, TopOf::Plant(plant));
                    let mut fields = vec![(Field::Name, name.as_deref())];
                    fields.extend(of_founder(registry, plant));
                    fields.extend(shared(registry, plant));
                    self.record(RecordKind::Founder, &code, &fields);
                }
                PlantKind::Seedling => {
                    let mut fields = of_seedling(registry, plant);
                    fields.extend(shared(registry, plant));
                    self.record(RecordKind::Seedling, &code, &fields);
                }
            }
            for ramet in registry.ramets(plant) {
                let mut fields = vec![
                    (Field::Place, text(&ramet.place)),
                    (Field::Note, text(&ramet.note)),
                ];
                let pots = ramet.pots.iter();
                fields.extend(pots.map(|of| (Field::Place, text(&of.place))));
                fields.extend(ramet.fate.iter().flat_map(of_fate));
                fields.extend(of_returns(&ramet.came_back));
                let code = format!("{code}-{}", ramet.code);
                self.record(RecordKind::Ramet, &code, &fields);
            }
        }
    }

    /// Every envelope.
    pub fn pollen(&mut self, registry: &Registry) {
        for lot in &registry.pollen {
            let mut fields = vec![
                (Field::Note, text(&lot.note)),
                (Field::Note, text(&lot.dried)),
                (Field::Note, text(&lot.left)),
            ];
            fields.extend(
                lot.from
                    .codes()
                    .iter()
                    .map(|code| (Field::From, Some(*code))),
            );
            self.record(RecordKind::Pollen, lot.code, &fields);
        }
    }

    /// Every place on record, with what was used there.
    pub fn places(&mut self, registry: &Registry) {
        let settings = &registry.settings;
        let mut names: Vec<&str> = settings.places.iter().map(|of| &*of.name).collect();
        let treated = settings.treatments.iter();
        for name in treated.clone().filter_map(|of| of.place.as_deref()) {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        for name in names {
            let known = settings.places.iter().filter(|of| &*of.name == name);
            let mut fields: Fields = known
                .flat_map(|of| {
                    [
                        (Field::Note, text(&of.climate)),
                        (Field::Note, text(&of.note)),
                    ]
                })
                .collect();
            let here = treated
                .clone()
                .filter(|of| of.place.as_deref().is_some_and(|place| place == name));
            fields.extend(here.flat_map(treatment));
            self.record(RecordKind::Place, name, &fields);
        }
    }

    /// Every species a label may bear.
    pub fn species(&mut self, registry: &Registry) {
        for species in &registry.taxa.species {
            let fields = [
                (Field::Name, Some(species.epithet)),
                (Field::Note, text(&species.note)),
            ];
            self.record(RecordKind::Species, species.epithet, &fields);
        }
    }
}

fn of_founder<'r>(registry: &'r Registry, plant: PlantRow) -> Fields<'r> {
    let Some(founder) = registry.founder(plant) else {
        return Vec::new();
    };
    vec![
        (Field::Received, Some(&founder.received)),
        (Field::From, text(&founder.from)),
        (Field::Received, text(&founder.supplier_code)),
        (Field::Note, founder.batch),
        (Field::Note, text(&founder.locality)),
        (Field::Note, text(&founder.papers)),
        (Field::Note, text(&founder.nights)),
        (Field::Note, text(&founder.note)),
    ]
}

fn of_seedling<'r>(registry: &'r Registry, plant: PlantRow) -> Fields<'r> {
    registry.seedling(plant).map_or_else(Vec::new, |seedling| {
        let mut fields = vec![
            (Field::Place, text(&seedling.place)),
            (Field::Note, text(&seedling.note)),
        ];
        fields.extend(seedling.muddled.iter().map(mix_up));
        fields
    })
}

/// How a mix-up happened.
pub(super) fn mix_up<'r>(of: &'r Muddle) -> (Field, Option<&'r str>) {
    (Field::MixedUp, text(&of.why))
}

/// The words of a treatment.
pub(super) fn treatment<'r>(of: &'r Treatment) -> [(Field, Option<&'r str>); 5] {
    [
        (Field::Treated, Some(&*of.product)),
        (Field::Treated, text(&of.against)),
        (Field::Treated, text(&of.by)),
        (Field::Place, text(&of.place)),
        (Field::Note, text(&of.note)),
    ]
}

/// Remarks and pests of sittings, as typed.
fn remarks<'r>(registry: &'r Registry, plant: PlantRow) -> Fields<'r> {
    let words = registry.readings.of(plant).filter_map(|reading| {
        let column = &registry[reading.sitting].columns[usize::from(reading.column)];
        matches!(column, Column::Note | Column::Pest)
            .then(|| (Field::Note, Some(registry.cell(reading))))
    });
    words.collect()
}

/// What founders and seedlings have in common.
fn shared<'r>(registry: &'r Registry, plant: PlantRow) -> Fields<'r> {
    let cultivar = |of: &'r Cultivar| {
        [
            (Field::Epithet, Some(&*of.epithet)),
            (Field::Note, text(&of.published)),
            (Field::Note, text(&of.note)),
        ]
    };
    let opinion = |of: &'r Identification| {
        [
            (Field::Name, Some(&*of.name)),
            (Field::Note, text(&of.by)),
            (Field::Note, text(&of.note)),
        ]
    };
    let pot = |of: &'r Potting| (Field::Place, text(&of.place));
    let spike = |of: &'r Flowering| {
        let note = of.note.as_deref().map(|note| &**note);
        [(Field::Spike, of.code), (Field::Note, note)]
    };
    let kept = |of: &'r Kept| (Field::Note, text(&of.why));
    let mut fields = vec![(Field::Nickname, registry.nickname(plant))];
    fields.extend(registry.cultivar(plant).into_iter().flat_map(cultivar));
    fields.extend(registry.identified(plant).iter().flat_map(opinion));
    let photo = |of: &'r Photo| {
        [
            (Field::Note, text(&of.light)),
            (Field::Note, text(&of.note)),
        ]
    };
    fields.extend(registry.pots(plant).iter().map(pot));
    fields.extend(registry.treatments(plant).iter().flat_map(treatment));
    fields.extend(photos(registry, plant).into_iter().flat_map(photo));
    fields.extend(remarks(registry, plant));
    fields.extend(registry.flowerings(plant).iter().flat_map(spike));
    fields.extend(registry.kept(plant).map(kept));
    fields.extend(registry.fate(plant).into_iter().flat_map(of_fate));
    fields.extend(of_returns(registry.came_back(plant)));
    fields
}

/// The words of how something left, and of its return.
fn of_returns<'r>(returns: &'r [Return]) -> impl Iterator<Item = (Field, Option<&'r str>)> {
    returns.iter().flat_map(|back| {
        let note = [(Field::Note, text(&back.note))];
        of_fate(&back.left).into_iter().chain(note)
    })
}

/// The words of a fate.
pub(super) fn of_fate<'r>(fate: &'r Fate) -> Fields<'r> {
    match fate {
        Fate::Died { cause, .. } => vec![(Field::Note, text(cause))],
        Fate::Culled { reason, .. } => vec![(Field::Note, text(reason))],
        Fate::Lost { note, .. } => vec![(Field::Note, text(note))],
        Fate::Elsewhere => Vec::new(),
        Fate::Sold { label, to, .. } | Fate::Given { label, to, .. } => {
            vec![
                (Field::Label, text(label)),
                (Field::To, to.as_ref().map(|to| &***to)),
            ]
        }
    }
}
