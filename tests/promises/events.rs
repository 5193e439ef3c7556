//! Events of the bench drawn by lot, most of them likely to be taken, some not.

use crate::chance::Chance;
use podbook::record::{Fate, Sex};
use podbook::recording::draft::Draft;
use podbook::recording::events::{
    add::Add,
    add_pollen::AddPollen,
    add_seed::AddSeed,
    back::Back,
    collect::{Collect, Envelope, EnvelopeEvent},
    correct::Correct,
    count::Count,
    cutting::Cutting,
    flower::Flower,
    gone::{FateKind, Gone},
    harvest::Harvest,
    keep::Keep,
    muddle::Muddle,
    note::Note,
    number::Number,
    opinion::Opinion,
    place::Move,
    pollinate::{GivenPollen, Pollinate},
    pot::Pot,
    prick::Prick,
    rooted::Rooted,
    seen::Seen,
    sow::Sow,
    took::Took,
    treat::Treat,
};
use podbook::recording::recorded::Recorded;
use podbook::recording::slip::Slip;
use podbook::registry::{PlantKind, PlantRow, Registry};

/// One event, whichever it is.
#[derive(Clone, Debug)]
pub enum Event {
    Add(Add),
    AddPollen(AddPollen),
    AddSeed(AddSeed),
    Collect(Collect),
    Correct(Correct),
    Count(Count),
    Cutting(Cutting),
    Envelope(Envelope),
    Flower(Flower),
    Gone(Gone),
    Harvest(Harvest),
    Keep(Keep),
    Move(Move),
    Muddle(Muddle),
    Note(Note),
    Number(Number),
    Opinion(Opinion),
    Pollinate(Pollinate),
    Pot(Pot),
    Prick(Prick),
    Back(Back),
    Rooted(Rooted),
    Seen(Seen),
    Sow(Sow),
    Took(Took),
    Treat(Treat),
}

macro_rules! each {
    ($event:expr, $one:ident => $value:expr) => {
        match $event {
            Event::Add($one) => $value,
            Event::AddPollen($one) => $value,
            Event::AddSeed($one) => $value,
            Event::Collect($one) => $value,
            Event::Correct($one) => $value,
            Event::Count($one) => $value,
            Event::Cutting($one) => $value,
            Event::Envelope($one) => $value,
            Event::Flower($one) => $value,
            Event::Gone($one) => $value,
            Event::Harvest($one) => $value,
            Event::Keep($one) => $value,
            Event::Move($one) => $value,
            Event::Muddle($one) => $value,
            Event::Note($one) => $value,
            Event::Number($one) => $value,
            Event::Opinion($one) => $value,
            Event::Pollinate($one) => $value,
            Event::Pot($one) => $value,
            Event::Prick($one) => $value,
            Event::Back($one) => $value,
            Event::Rooted($one) => $value,
            Event::Seen($one) => $value,
            Event::Sow($one) => $value,
            Event::Took($one) => $value,
            Event::Treat($one) => $value,
        }
    };
}

impl Event {
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        each!(self, event => event.record(draft))
    }

    /// Whether the event may put a new value in the place of an old one, or take one out; all others only add.
    pub fn replaces(&self) -> bool {
        match self {
            Event::Correct(_) | Event::Flower(_) | Event::Move(_) | Event::Muddle(_) => true,
            // The place that stood there, the count that stood there, the number of the files' form.
            Event::Pot(_) | Event::Took(_) | Event::Treat(_) | Event::Opinion(_) => true,
            // The loss of a plant that was found, which goes into the row of the stock-take; a note that is added to.
            Event::Seen(_) => true,
            // The fate, which goes into the list of returns.
            Event::Back(_) => true,
            Event::Pollinate(of) => of.note.is_some(),
            // The reason that stood there, or the whole mark.
            Event::Keep(keep) => keep.no_longer || keep.why.is_some(),
            _ => false,
        }
    }

    pub fn name(&self) -> String {
        let told = format!("{self:?}");
        told.split(['(', ' ']).next().unwrap_or("").to_owned()
    }
}

/// Words a grower, or a hand on a wrong key, may type.
pub const WORDS: [&str; 14] = [
    "damping off",
    "say \"so\"",
    "back\\slash",
    "not // a comment",
    "/* nor this",
    "[x](y: 1), ",
    "two\nlines",
    "a\ttab",
    "ümlaut ♀ 🌱",
    "",
    " blanks ",
    "#\"#",
    "turned \u{202e}round",
    "\u{feff}mark\u{0}",
];

const DATES: [&str; 9] = [
    "2024-03-30",
    "2025-05-24",
    "yesterday",
    "spring 2024",
    "2024-03",
    "30 Mar 2024",
    "late 2023",
    "2024-02-30",
    "2031-01-01",
];

const PLACES: [&str; 4] = ["shelf 1", "shelf 2", "bench \"3\"", "windowsill"];

/// Codes on record, and some that are not.
struct Codes {
    plants: Vec<String>,
    parts: [Vec<String>; 4],
    envelopes: Vec<String>,
}

impl Codes {
    fn of(registry: &Registry) -> Codes {
        let plants = registry
            .plants()
            .filter(|&plant| registry.kind(plant) != PlantKind::Unseen)
            .flat_map(|plant| {
                let code = registry.code(plant);
                let pieces = registry.ramets(plant).iter();
                let pieces: Vec<String> = pieces
                    .map(|piece| format!("{code}-{}", piece.code))
                    .collect();
                std::iter::once(code).chain(pieces)
            })
            .collect();
        let mut parts = [const { Vec::new() }; 4];
        for cross in &registry.crosses {
            let page = &cross.page;
            let code = |part: &str| format!("{}.{part}", page.code);
            parts[0].extend(page.pollinations.iter().map(|part| code(part.zone)));
            parts[1].extend(page.seed_lots.iter().map(|part| code(part.code)));
            parts[2].extend(page.sowings.iter().map(|part| code(part.code)));
            parts[3].extend(page.community_pots.iter().map(|part| code(part.code)));
        }
        Codes {
            plants,
            parts,
            envelopes: registry
                .pollen
                .iter()
                .map(|lot| lot.code.to_owned())
                .collect(),
        }
    }
}

/// Draws what events are made of.
struct Lot<'c> {
    chance: &'c mut Chance,
    codes: Codes,
}

impl Lot<'_> {
    fn of(&mut self, codes: impl Fn(&Codes) -> &[String], otherwise: &str) -> String {
        let codes = codes(&self.codes);
        match codes.is_empty() || self.chance.in_hundred(2) {
            true => otherwise.to_owned(),
            false => self.chance.pick(codes).clone(),
        }
    }

    fn plant(&mut self) -> String {
        self.of(|codes| &codes.plants, "Nix9")
    }

    fn plants(&mut self) -> Vec<String> {
        if self.chance.in_hundred(15) {
            let list = [
                "X22-02-1..3",
                "X22-02-1,3,7",
                "X22-02-8..5",
                "X22-02-2,5..8",
                "Max2-a,b",
            ];
            return vec![self.chance.pick(&list).to_string()];
        }
        let several = 1 + self.chance.below(3);
        (0..several).map(|_| self.plant()).collect()
    }

    fn part(&mut self, kind: usize) -> String {
        self.of(|codes| &codes.parts[kind], "X22-02")
    }

    fn words(&mut self) -> Option<String> {
        self.chance.perhaps(40, &WORDS).map(str::to_owned)
    }

    fn on(&mut self) -> Option<String> {
        self.chance.perhaps(50, &DATES).map(str::to_owned)
    }

    fn place(&mut self) -> Option<String> {
        self.chance.perhaps(40, &PLACES).map(str::to_owned)
    }

    fn count(&mut self, most: usize) -> u32 {
        match self.chance.below(40) {
            0 => u32::MAX,
            1 => 0,
            _ => self.chance.below(most) as u32,
        }
    }

    fn some_count(&mut self, most: usize) -> Option<u32> {
        self.chance.in_hundred(60).then(|| self.count(most))
    }

    /// Another zone, sowing or pot of the same page, or any.
    fn code(&mut self, fresh: &[&str]) -> Option<String> {
        self.chance.perhaps(25, fresh).map(str::to_owned)
    }
}

/// An event drawn by lot.
pub fn event(registry: &Registry, chance: &mut Chance) -> Event {
    let kind = chance.below(28);
    let has_left = |plant: &PlantRow| {
        let fate = registry.fate(*plant);
        matches!(fate, Some(Fate::Sold { .. } | Fate::Given { .. }))
    };
    let left: Vec<String> = registry
        .plants()
        .filter(has_left)
        .map(|plant| registry.code(plant))
        .collect();
    let mut lot = Lot {
        codes: Codes::of(registry),
        chance,
    };
    let l = &mut lot;
    match kind {
        0 => Event::Add(Add {
            code: l.code(&["New1", "Ven1", "X22-02-9", "a.b", "Ünd2"]),
            name: l
                .chance
                .pick(&[
                    "N. ventricosa red",
                    "N. maxima \"x\" \\ 2",
                    "?",
                    "",
                    "maxima\nx veitchii",
                ])
                .to_string(),
            from: l.words(),
            form: l
                .chance
                .perhaps(50, &["seed", "cutting", "division", "plant"]),
            known_by: l.chance.perhaps(50, &["tag", "claim", "unknown"]),
            supplier_code: l.words(),
            batch: l.code(&["b1", "b2"]),
            locality: l.words(),
            papers: l.words(),
            place: l.words(),
            on: l.on(),
            note: l.words(),
        }),
        1 => Event::AddSeed(AddSeed {
            label: l
                .chance
                .pick(&[
                    "maxima x veitchii",
                    "?",
                    "N. (ventricosa × maxima) \"r\"",
                    " ",
                ])
                .to_string(),
            code: l.code(&["X26-01", "X22-02", "seed", "b/c"]),
            seeds: l.some_count(300),
            estimated: l.chance.in_hundred(30),
            from: l.words(),
            stored: l.words(),
            on: l.on(),
            note: l.words(),
        }),
        2 => Event::Collect(Collect {
            plant: l.plant(),
            code: l.code(&["E1", "Max2-2403", "é"]),
            stored: l.chance.perhaps(50, &["fresh", "fridge", "freezer"]),
            dried: l.words(),
            on: l.on(),
            note: l.words(),
        }),
        3 | 22 => Event::Correct(Correct {
            plant: l.plant(),
            column: l
                .chance
                .pick(&["span", "rim", "leaves", "note", "pest", "spam"])
                .to_string(),
            value: l
                .chance
                .pick(&[
                    "8.25 cm",
                    "12",
                    "red",
                    "",
                    "5 1/2 in",
                    "a \"b\" // c",
                    "two\nlines",
                ])
                .to_string(),
            on: l
                .chance
                .perhaps(40, &["2024-05-24", "2025-05-20", "2024-06-01"])
                .map(str::to_owned),
        }),
        4 => {
            let of = 2 + l.chance.below(2);
            Event::Count(Count {
                of: l.part(of),
                up: l.some_count(60),
                standing: l.some_count(40),
                on: l.on(),
            })
        }
        5 => Event::Cutting(Cutting {
            from: l.plant(),
            code: l.code(&["c", "b", "2", "zz"]),
            made: l.chance.perhaps(40, &["cutting", "division", "basal"]),
            rooted: l
                .chance
                .perhaps(20, &["2025", "yesterday"])
                .map(str::to_owned),
            place: l.place(),
            on: l.on(),
            note: l.words(),
        }),
        6 => Event::Envelope(Envelope {
            code: l.of(|codes| &codes.envelopes, "Ven1"),
            what: *l.chance.pick(&[
                EnvelopeEvent::Thawed,
                EnvelopeEvent::Thawed,
                EnvelopeEvent::Finished,
            ]),
            on: l.on(),
        }),
        7 | 23 => Event::Flower(Flower {
            plant: l.plant(),
            spike: l.code(&["24a", "26a"]),
            seen: l.chance.perhaps(20, &DATES).map(str::to_owned),
            opened: l.chance.perhaps(40, &DATES).map(str::to_owned),
            over: l.chance.perhaps(20, &DATES).map(str::to_owned),
            open_on: l.chance.perhaps(20, &DATES).map(str::to_owned),
            sex: l.chance.perhaps(50, &[Sex::Female, Sex::Male]),
            seen_by: l.chance.perhaps(20, &["flowers", "buds", "supplier"]),
            note: l.words(),
        }),
        8 if l.chance.in_hundred(20) => Event::Gone(Gone {
            plants: vec![l.part(1)],
            fate: l
                .chance
                .perhaps(95, &[FateKind::Sold, FateKind::Given, FateKind::Died]),
            seeds: l.some_count(30),
            to: l.words(),
            price: l.words(),
            on: l.on(),
            ..Gone::default()
        }),
        8 if l.chance.in_hundred(12) => Event::Gone(Gone {
            plants: vec![l.part(3)],
            fate: l
                .chance
                .perhaps(95, &[FateKind::Sold, FateKind::Culled, FateKind::Died]),
            seedlings: Some(l.count(9)),
            why: l.chance.perhaps(30, &WORDS).map(str::to_owned),
            on: l.on(),
            ..Gone::default()
        }),
        8 => Event::Gone(Gone {
            seeds: None,
            seedlings: None,
            all_pieces: true,
            place: None,
            plants: l.plants(),
            price: None,
            fate: l.chance.perhaps(
                95,
                &[
                    FateKind::Died,
                    FateKind::Culled,
                    FateKind::Sold,
                    FateKind::Given,
                    FateKind::Lost,
                ],
            ),
            why: l.chance.perhaps(20, &WORDS).map(str::to_owned),
            to: l.chance.perhaps(10, &WORDS).map(str::to_owned),
            label: l.chance.perhaps(10, &WORDS).map(str::to_owned),
            on: l.on(),
        }),
        9 => Event::Harvest(Harvest {
            zone: l.part(0),
            capsules: l.some_count(6),
            seeds: l.some_count(300),
            estimated: l.chance.in_hundred(30),
            embryo_percent: l.chance.perhaps(20, &[0, 60, 100, 101]),
            stored: l.words(),
            on: l.on(),
            note: l.words(),
        }),
        10 | 11 => Event::Keep(Keep {
            place: None,
            plants: l.plants(),
            why: l.words(),
            no_longer: l.chance.in_hundred(20),
            on: l.on(),
        }),
        12 => Event::Move(Move {
            plants: l.plants(),
            place: None,
            to: l.place().unwrap_or("tent".to_owned()),
        }),
        13 => muddle(l),
        14 => {
            let of = 2 + l.chance.below(2);
            Event::Number(Number {
                from: l.part(of),
                numbers: l
                    .chance
                    .pick(&["9", "10-12", "13-20", "30-34", "3", "x", "40-39"])
                    .to_string(),
                pot: l
                    .chance
                    .perhaps(50, &["5cm", "2.5 in", "seven"])
                    .map(str::to_owned),
                place: l.place(),
                on: l.on(),
            })
        }
        15 => Event::Opinion(Opinion {
            plant: l.plant(),
            name: l.chance.pick(&["N. maxima", "N. \"x\"\\", ""]).to_string(),
            by: l.words(),
            basis: l.words(),
            known_by: l.chance.perhaps(30, &["claim", "tag"]),
            accept: l.chance.in_hundred(40),
            on: l.on(),
            note: l.words(),
        }),
        16 => pollinate(l),
        17 => Event::Pot(Pot {
            plants: l.plants(),
            width: l
                .chance
                .pick(&["7cm", "2.5 in", "12 cm", "0cm", "12"])
                .to_string(),
            place: l.place(),
            on: l.on(),
        }),
        18 => Event::Prick(Prick {
            sowing: l.part(2),
            moved: l.count(12),
            left: l.some_count(20),
            to: l.code(&["T1", "T9", "t/"]),
            pot: l.words(),
            place: l.place(),
            on: l.on(),
        }),
        19 => {
            let plants = if l.chance.in_hundred(60) {
                l.plants()
            } else {
                Vec::new()
            };
            let except = plants.iter().take(l.chance.below(2)).cloned().collect();
            Event::Seen(Seen {
                except,
                place: l.place(),
                plants,
                on: l.on(),
            })
        }
        24 => Event::Back(Back {
            plants: match left.is_empty() || l.chance.in_hundred(30) {
                true => l.plants(),
                false => vec![l.chance.pick(&left).clone()],
            },
            place: l.place(),
            note: l.words(),
            on: l.on(),
        }),
        26 => Event::AddPollen(AddPollen {
            plant: l
                .chance
                .perhaps(70, &["Pol1", "Max1", "é"])
                .map(str::to_owned),
            name: l
                .chance
                .perhaps(80, &["N. maxima", "?", "lowii x veitchii", " "])
                .map(str::to_owned),
            code: l.code(&["E7", "Max2-2403", "é"]),
            from: l.words(),
            collected: l.on(),
            dried: l.words(),
            stored: l.chance.perhaps(50, &["fresh", "fridge", "freezer"]),
            on: l.on(),
            note: l.words(),
        }),
        27 => Event::Note(Note {
            plants: l.plants(),
            words: l.chance.pick(&WORDS).to_string(),
            on: l.on(),
        }),
        25 => Event::Rooted(Rooted {
            pieces: l.plants(),
            on: l.on(),
        }),
        20 => Event::Sow(Sow {
            lot: l.part(1),
            seeds: l.some_count(60),
            container: l.words(),
            medium: l.words(),
            place: l.place(),
            again: l.chance.in_hundred(50),
            on: l.on(),
            note: l.words(),
        }),
        21 if l.chance.in_hundred(50) => Event::Took(Took {
            zone: l.part(0),
            set: l.count(8),
            controls: l
                .chance
                .perhaps(20, &["0/5", "1/2", "x"])
                .map(str::to_owned),
            again: l.chance.in_hundred(70),
            on: l.on(),
            entered: None,
        }),
        _ => {
            let plants = if l.chance.in_hundred(60) {
                l.plants()
            } else {
                Vec::new()
            };
            let place = if plants.is_empty() { l.place() } else { None };
            Event::Treat(Treat {
                plants,
                place,
                product: l
                    .chance
                    .pick(&["predatory mites", "soap \"x\" no. 1", "3 ml oil", " "])
                    .to_string(),
                against: l.words(),
                by: l.words(),
                on: l.on(),
                note: l.words(),
            })
        }
    }
}

fn muddle(l: &mut Lot) -> Event {
    let pots = l.chance.in_hundred(30);
    let several = 2 + l.chance.below(2);
    let codes: Vec<String> = (0..several)
        .map(|_| if pots { l.part(3) } else { l.plant() })
        .collect();
    Event::Muddle(Muddle {
        settled: l.chance.in_hundred(30),
        tags_right: l.chance.in_hundred(50),
        tags_swapped: false,
        moved: false,
        rows: if pots { l.some_count(5) } else { None },
        why: l.words(),
        on: l.on(),
        codes,
    })
}

fn pollinate(l: &mut Lot) -> Event {
    let several = |l: &mut Lot| (0..2).map(|_| l.plant()).collect::<Vec<String>>();
    let pollen = match l.chance.below(5) {
        0 => GivenPollen::OneOf(several(l)),
        1 => GivenPollen::Mixed(several(l)),
        2 => GivenPollen::Open(several(l)),
        3 => GivenPollen::With(l.plant()),
        _ => GivenPollen::With(l.of(|codes| &codes.envelopes, "Max2")),
    };
    Event::Pollinate(Pollinate {
        seed: l.plant(),
        pollen: Some(pollen),
        zone: l.code(&["A", "red", "a b"]),
        spike: l.chance.perhaps(10, &["24a", "26a"]).map(str::to_owned),
        flowers: l.some_count(20),
        controls: l.some_count(5),
        covered: l.chance.in_hundred(20),
        goal: l.words(),
        on: l.on(),
        note: l.words(),
    })
}
