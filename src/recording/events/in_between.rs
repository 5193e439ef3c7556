//! What was recorded of plants and community pots while they were mixed up: whose it is depends on whether their tags were
//! right.

use crate::observation::photos::photos;
use crate::observation::standing::fate_and_day;
use crate::record::{Day, When};
use crate::registry::{CrossRow, PlantRow, PotRow, Registry};
use crate::text::FileId;
use crate::wording::{counted, listed};
use std::collections::{BTreeMap, BTreeSet};

/// What was recorded of one plant or pot.
pub(super) struct InBetween {
    /// In words such as `X20-01-1: spike 24a, 1 reading, seed parent of X24-01`.
    pub words: String,
    /// By the path of each page: the fields it stands in, and the sittings.
    pub fields: BTreeMap<String, BTreeSet<String>>,
}

/// Which fields hold what was recorded, in words such as `crosses/X20-01.ron: flowerings; pollen.ron: from`.
pub(super) fn where_it_stands(recorded: &[InBetween]) -> String {
    let mut pages: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for (path, fields) in recorded.iter().flat_map(|of| &of.fields) {
        let known = pages.entry(path).or_default();
        known.extend(fields.iter().map(String::as_str));
    }
    let pages = pages.into_iter().map(|(path, fields)| {
        let fields: Vec<&str> = fields.into_iter().collect();
        format!("{path}: {}", listed(&fields))
    });
    pages.collect::<Vec<_>>().join("; ")
}

/// Collects what was recorded from one day to another.
struct Told<'r, 't> {
    registry: &'r Registry<'t>,
    span: [When; 2],
    words: Vec<String>,
    fields: BTreeMap<String, BTreeSet<String>>,
}

/// What was recorded of a plant from one day to another; `None` where nothing was.
pub(super) fn recorded_in_between(
    registry: &Registry,
    plant: PlantRow,
    span: [When; 2],
) -> Option<InBetween> {
    let file = registry[registry.cross_of(plant)?].file;
    let mut told = Told::new(registry, span);
    told.spikes(plant, file);
    told.readings(plant);
    let pots: Vec<&str> = registry.all_pots(plant).map(|of| of.on).collect();
    told.days((file, "`pots`"), pots, ["potting", "pottings"]);
    let treated = registry.treatments(plant).iter();
    let treated = treated.filter(|of| !of.perhaps).map(|of| of.on);
    told.days(
        (file, "`treatments`"),
        treated.collect(),
        ["treatment", "treatments"],
    );
    let photos = photos(registry, plant);
    let photos = photos.into_iter().filter_map(|of| of.on);
    told.days((file, "`photos`"), photos.collect(), ["photo", "photos"]);
    told.pieces(plant, file);
    told.pollen(plant);
    told.crosses(plant);
    if let Some(fate) = registry.fate(plant).filter(|fate| told.between(fate.on())) {
        told.add(fate_and_day(fate), file, "`fate`");
    }
    told.of(registry.code(plant))
}

/// What was recorded of a community pot from one day to another; `None` where nothing was.
pub(super) fn recorded_of_pot(
    registry: &Registry,
    row: PotRow,
    span: [When; 2],
) -> Option<InBetween> {
    let (cross, pot) = (&registry[row.cross], &registry[row]);
    let mut told = Told::new(registry, span);
    let counts = pot.alive.iter().map(|of| of.on);
    told.days(
        (cross.file, "`alive`"),
        counts.collect(),
        ["count", "counts"],
    );
    let numbered = cross.seedlings.iter().filter_map(|&plant| {
        let (_, _, of) = registry.road(plant);
        let seedling = registry.seedling(plant).filter(|_| of == Some(row));
        seedling?.numbered
    });
    let one = "seedling numbered out of it";
    let many = "seedlings numbered out of it";
    told.days(
        (cross.file, "`community_pot`"),
        numbered.collect(),
        [one, many],
    );
    if let Some(fate) = pot.fate.as_ref().filter(|fate| told.between(fate.on())) {
        told.add(fate_and_day(fate), cross.file, "`fate`");
    }
    told.of(format!("{}.{}", cross.page.code, pot.code))
}

impl<'r, 't> Told<'r, 't> {
    fn new(registry: &'r Registry<'t>, span: [When; 2]) -> Self {
        Told {
            registry,
            span,
            words: Vec::new(),
            fields: BTreeMap::new(),
        }
    }

    fn of(self, code: String) -> Option<InBetween> {
        (!self.words.is_empty()).then(|| InBetween {
            words: format!("{code}: {}", listed(&self.words)),
            fields: self.fields,
        })
    }

    /// A day before the first is surely another time; one that is not known says nothing of the time between.
    fn between(&self, on: &str) -> bool {
        let ([from, to], when) = (self.span, self.registry.when(on));
        when.last != Day::LAST && when.last >= from.first && !to.surely_before(when)
    }

    fn add(&mut self, words: String, file: FileId, field: &str) {
        self.words.push(words);
        self.field(file, field);
    }

    fn field(&mut self, file: FileId, field: &str) {
        let path = self.registry.sources.get(file).path.clone();
        self.fields
            .entry(path)
            .or_default()
            .insert(field.to_owned());
    }

    /// How many of some days lie between.
    fn days(
        &mut self,
        (file, field): (FileId, &str),
        days: Vec<&str>,
        [one, many]: [&'static str; 2],
    ) {
        match days.into_iter().filter(|on| self.between(on)).count() {
            0 => {}
            n => self.add(counted(n, one, many), file, field),
        }
    }

    fn spikes(&mut self, plant: PlantRow, file: FileId) {
        for spike in self.registry.flowerings(plant) {
            let dates = [spike.spike, spike.opened, spike.over];
            if dates.into_iter().flatten().any(|of| self.between(of)) {
                let code = spike.code.map(|code| format!("spike {code}"));
                self.add(
                    code.unwrap_or_else(|| "a spike".to_owned()),
                    file,
                    "`flowerings`",
                );
            }
        }
    }

    fn readings(&mut self, plant: PlantRow) {
        let mut readings = 0;
        for reading in self.registry.readings.of(plant) {
            let head = &self.registry[reading.sitting];
            if self.between(head.sitting.on) {
                readings += 1;
                self.field(head.file, &format!("the sitting of {}", head.sitting.on));
            }
        }
        if readings > 0 {
            self.words.push(counted(readings, "reading", "readings"));
        }
    }

    /// Pieces that were cut, and those of which the end is on record apart from that of the whole plant.
    fn pieces(&mut self, plant: PlantRow, file: FileId) {
        let whole = self.registry.fate(plant).map(|fate| fate.on());
        for piece in self.registry.ramets(plant) {
            let fate = piece.fate.as_ref();
            let fate = fate.filter(|fate| Some(fate.on()) != whole && self.between(fate.on()));
            let end = fate.map(|fate| format!("piece {} {}", piece.code, fate_and_day(fate)));
            let cut = piece.cut.filter(|cut| self.between(cut));
            let cut = cut.map(|_| format!("piece {}", piece.code));
            if let Some(words) = end.or(cut) {
                self.add(words, file, "`ramets`");
            }
        }
    }

    fn pollen(&mut self, plant: PlantRow) {
        let registry = self.registry;
        for lot in &registry.pollen {
            let codes = lot.from.codes().iter();
            let mut of = codes.filter_map(|code| registry.target(code));
            let is_of = of.any(|of| of.plant() == Some(plant));
            if is_of && lot.collected.is_some_and(|day| self.between(day)) {
                self.words.push(format!("pollen {}", lot.code));
                let page = self.fields.entry("pollen.ron".to_owned()).or_default();
                page.insert(format!("`from` of {}", lot.code));
            }
        }
    }

    /// The crosses a plant may be a parent of that were pollinated in between, or on no day on record.
    fn crosses(&mut self, plant: PlantRow) {
        for cross in self.registry.cross_rows() {
            if let Some(side) = self.side_in(plant, cross) {
                let (page, file) = (&self.registry[cross].page, self.registry[cross].file);
                self.add(format!("{side} parent of {}", page.code), file, "`parents`");
            }
        }
    }

    fn side_in(&self, plant: PlantRow, cross: CrossRow) -> Option<&'static str> {
        let of = &self.registry[cross];
        let mut days = of.page.pollinations.iter().flat_map(|of| &of.on);
        if !days.any(|on| self.between(on)) {
            return None;
        }
        let mut pairs = self.registry[of.origin].pairs.iter();
        let is_seed = pairs.clone().any(|pair| pair.seed == Some(plant));
        let is_pollen = pairs.any(|pair| pair.pollen == Some(plant));
        match (is_seed, is_pollen) {
            (true, _) => Some("seed"),
            (false, true) => Some("pollen"),
            (false, false) => None,
        }
    }
}
