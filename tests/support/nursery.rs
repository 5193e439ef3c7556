//! A nursery made up from a number: the same number gives the same registry, byte for byte.
//!
//! For tests at scale and for benches. The shape is a breeder's: four generations, some 400 seedlings a cross, a few
//! muddled trays, partial dates, deaths and sales, flowerings on a few, a sitting or two, uncertain fathers, community pots
//! that are only counts. Everything in it is sound: a registry built from it has no fault. Chance comes from
//! SplitMix64 (Steele, Lea and Flood 2014, constants from memory).

#![allow(dead_code)]

use podbook::text::Sources;
use std::fmt::Write;
use std::path::Path;

/// SplitMix64.
pub struct Chance(pub u64);

impl Chance {
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number below `end`, which is above 0.
    pub fn below(&mut self, end: usize) -> usize {
        (self.next() % end as u64) as usize
    }

    /// Whether a chance of so many in a thousand came true.
    pub fn in_thousand(&mut self, chances: usize) -> bool {
        self.below(1000) < chances
    }

    pub fn pick<'a, T>(&mut self, from: &'a [T]) -> &'a T {
        &from[self.below(from.len())]
    }
}

/// What to make up.
#[derive(Clone, Copy, Debug)]
pub struct Nursery {
    pub seed: u64,
    pub seedlings: usize,
    pub crosses: usize,
    pub founders: usize,
    /// Chances in a thousand of a first sitting, and of each of further ones up to four.
    pub sittings: usize,
}

/// Pages by path, and what was put on them.
#[derive(Default)]
pub struct Grown {
    pub pages: Vec<(String, String)>,
    pub founders: usize,
    pub crosses: usize,
    pub seedlings: usize,
    pub readings: usize,
    /// Seedlings that may come from another cross than that of their page.
    pub muddled: usize,
    pub fates: usize,
}

impl Grown {
    pub fn bytes(&self) -> usize {
        self.pages.iter().map(|(_, text)| text.len()).sum()
    }

    pub fn sources(&self) -> Sources {
        let mut sources = Sources::new();
        for (path, text) in &self.pages {
            sources.add(path.clone(), text.clone());
        }
        sources
    }

    /// Writes the pages into a folder.
    pub fn write(&self, folder: &Path) {
        std::fs::create_dir_all(folder.join("crosses")).expect("a folder can be made");
        for (path, text) in &self.pages {
            std::fs::write(folder.join(path), text).expect("a page can be written");
        }
    }
}

/// A generation of crosses takes four years from pollination to flowers.
const GENERATIONS: usize = 4;

impl Nursery {
    /// About 400 seedlings a cross.
    pub fn of(seedlings: usize) -> Self {
        Self {
            seed: 7,
            seedlings,
            crosses: (seedlings / 400).max(4),
            founders: 60 + seedlings / 2000,
            sittings: 400,
        }
    }

    /// 2,000 seedlings of 60 crosses: a hobby of twenty years.
    pub fn hobby() -> Self {
        Self {
            crosses: 60,
            ..Self::of(2_000)
        }
    }

    /// Many readings of each seedling.
    pub fn well_read(seedlings: usize) -> Self {
        Self {
            sittings: 1000,
            ..Self::of(seedlings)
        }
    }

    pub fn grow(&self) -> Grown {
        let mut chance = Chance(self.seed);
        let mut grown = Grown {
            founders: self.founders,
            crosses: self.crosses,
            ..Grown::default()
        };
        grown.pages.push(("registry.ron".into(), REGISTRY.into()));
        grown.pages.push(("species.ron".into(), species()));
        grown.pages.push(("clones.ron".into(), self.clones()));
        for cross in 0..self.crosses {
            let text = self.cross(cross, &mut chance, &mut grown);
            let path = format!("crosses/{}.ron", self.code(cross));
            grown.pages.push((path, text));
        }
        grown
    }

    fn generation(&self, cross: usize) -> usize {
        cross * GENERATIONS / self.crosses
    }

    fn year(&self, cross: usize) -> usize {
        2001 + 4 * self.generation(cross)
    }

    pub fn code(&self, cross: usize) -> String {
        format!("X{:02}-{:03}", self.year(cross) % 100, cross + 1)
    }

    /// Seedlings on a page; the first pages take what does not divide.
    pub fn on_page(&self, cross: usize) -> usize {
        self.seedlings / self.crosses + usize::from(cross < self.seedlings % self.crosses)
    }

    fn clones(&self) -> String {
        let mut text = String::from("(clones: [\n");
        for founder in 0..self.founders {
            let epithet = SPECIES[founder % SPECIES.len()];
            let sex = if founder % 2 == 0 { "female" } else { "male" };
            let _ = writeln!(
                text,
                "    (code: \"V{}\", received: \"N. {epithet}\", from: \"a swap\", on: \"spring {}\", confidence: claim,\n     \
                 ramets: [(code: \"a\", made: original)],\n     \
                 flowerings: [(opened: \"2000-0{}\", sex: {sex})]),",
                founder + 1,
                1990 + founder % 8,
                4 + founder % 5,
            );
        }
        text.push_str("])\n");
        text
    }

    /// A plant that can bear seed (`true`) or give pollen, older than the cross.
    fn parent(&self, cross: usize, bears_seed: bool, chance: &mut Chance) -> String {
        let older = self.generation(cross) * self.crosses / GENERATIONS;
        if older == 0 || chance.in_thousand(300) {
            let founder = 2 * chance.below(self.founders / 2) + usize::from(!bears_seed);
            let ramet = if chance.in_thousand(30) { "-a" } else { "" };
            return format!("V{}{ramet}", founder + 1);
        }
        let number = 2 * chance.below(2) + 1 + usize::from(!bears_seed);
        format!("{}-{number}", self.code(chance.below(older)))
    }

    fn parents(&self, cross: usize, chance: &mut Chance) -> String {
        let seed = self.parent(cross, true, chance);
        let pollen = self.parent(cross, false, chance);
        let second = self.parent(cross, false, chance);
        match chance.below(50) {
            0 | 1 => format!(
                "pollen_one_of(seed: \"{seed}\", pollen: [\"{pollen}\", \"{second}\"], weights: [2, 1])"
            ),
            2 => format!("pollen_mixed(seed: \"{seed}\", pollen: [\"{pollen}\", \"{second}\"])"),
            3 => format!("open(seed: \"{seed}\")"),
            4 => format!("pollen_unknown(seed: \"{seed}\")"),
            5 => format!(
                "one_of_pairs([(seed: \"{seed}\", pollen: \"{pollen}\"), (seed: \"{seed}\", pollen: \"{second}\")])"
            ),
            6 => "label_only(\"N. ventricosa × talangensis\")".into(),
            7 => format!("known(seed: \"{seed}\", pollen: \"truncata\")"),
            _ => format!("known(seed: \"{seed}\", pollen: \"{pollen}\")"),
        }
    }

    fn cross(&self, cross: usize, chance: &mut Chance, grown: &mut Grown) -> String {
        let (code, year, count) = (self.code(cross), self.year(cross), self.on_page(cross));
        let mut text = String::new();
        let parents = self.parents(cross, chance);
        let _ = write!(
            text,
            "// Sown together, pricked out together.\n(\n    code: \"{code}\",\n    parents: {parents},\n    \
             confidence: witnessed,\n    goal: \"a wide striped rim on a plant for a warm house\",\n    pollinations: [\n        \
             (zone: \"A\", on: [\"{year}-04-03\", \"{year}-04-04\"], flowers: 22, set: 9),\n        \
             (zone: \"B\", on: [\"{year}-04-09\"], flowers: 14, set: 6),\n    ],\n    pods: [\n        \
             (code: \"P1\", zone: \"A\", harvested: \"{year}-08\", seeds: {}),\n        \
             (code: \"P2\", zone: \"B\", harvested: \"late {year}\", seeds: {}),\n    ],\n    seed_lots: [\n        \
             (code: \"L1\", pod: \"P1\", seeds: {}),\n    ],\n",
            count * 4 + 50,
            count * 2 + 20,
            count * 3 + 20,
        );
        let _ = write!(
            text,
            "    sowings: [\n        (code: \"S1\", lot: \"L1\", on: \"{year}-12-27\", seeds: {}, container: \"tray 60 × 40\",\n         \
             medium: \"peat and perlite 1:1\", germinated: [(on: \"{}-02\", count: {}), (on: \"{}-04\", count: {})]),\n        \
             (code: \"S2\", pod: \"P2\", on: \"{}-01-03\", seeds: {}, germinated: [(on: \"{}-03-20\", count: {})]),\n    ],\n    \
             community_pots: [\n        (code: \"A\", sowing: \"S1\", alive: [(on: \"spring {}\", count: {})]),\n    ],\n",
            count * 2 + 20,
            year + 1,
            count / 2,
            year + 1,
            count + 10,
            year + 1,
            count * 2,
            year + 1,
            count,
            year + 1,
            count + 5,
        );
        text.push_str("    seedlings: [\n");
        let mut gone = vec![false; count + 1];
        for (number, gone) in gone.iter_mut().enumerate().skip(1) {
            *gone = self.seedling(cross, number, &mut text, chance, grown);
        }
        text.push_str("    ],\n");
        self.sit(cross, &gone, &mut text, chance, grown);
        text.push_str(")\n");
        text
    }

    /// Writes a seedling; whether it was gone before the first sitting.
    fn seedling(
        &self,
        cross: usize,
        number: usize,
        text: &mut String,
        chance: &mut Chance,
        grown: &mut Grown,
    ) -> bool {
        let year = self.year(cross);
        let mut gone = false;
        grown.seedlings += 1;
        let _ = write!(text, "        (number: \"{number}\"");
        // The first four of a page are the parents of later crosses and come from a pod that is known.
        let parental = number <= 4;
        if !parental && chance.in_thousand(10) {
            if cross > 0 && chance.in_thousand(300) {
                let other = self.code(cross - 1);
                let _ = write!(text, ", one_of: [\"P1\", \"{other}.P2\"]");
                grown.muddled += 1;
            } else {
                text.push_str(", one_of: [\"P1\", \"P2\"]");
            }
        } else {
            let sowing = if chance.in_thousand(700) { "S1" } else { "S2" };
            let _ = write!(text, ", sowing: \"{sowing}\"");
        }
        if chance.in_thousand(40) {
            let _ = write!(text, ", germinated: \"{}-05\"", year + 1);
        }
        if chance.in_thousand(30) {
            let _ = write!(text, ", place: \"bench {}\"", chance.below(9) + 1);
        }
        if parental || chance.in_thousand(15) {
            let sex = if number % 2 == 1 { "female" } else { "male" };
            let _ = write!(
                text,
                ", flowerings: [(opened: \"{}-09\", sex: {sex})]",
                year + 3
            );
        } else if chance.in_thousand(250) {
            gone = chance.in_thousand(300);
            let when = year + if gone { 2 } else { 4 + chance.below(2) };
            grown.fates += 1;
            let _ = match chance.below(4) {
                0 => write!(
                    text,
                    ", fate: died(on: \"by {when}\", cause: \"damping off\")"
                ),
                1 => write!(text, ", fate: sold(on: \"{when}-06-14\", to: \"a swap\")"),
                _ => write!(text, ", fate: culled(on: \"{when}-05\")"),
            };
        }
        if chance.in_thousand(10) {
            text.push_str(", ramets: [(code: \"a\", made: original), (code: \"b\", from: \"a\", made: cutting)]");
        }
        if chance.in_thousand(10) {
            text.push_str(", note: \"tag faded, read \\\"7\\\" or \\\"1\\\"\"");
        }
        text.push_str("),\n");
        gone
    }

    /// Writes the sittings, in which a plant is read that is still there.
    fn sit(
        &self,
        cross: usize,
        gone: &[bool],
        text: &mut String,
        chance: &mut Chance,
        grown: &mut Grown,
    ) {
        let year = self.year(cross);
        text.push_str("    sittings: [\n");
        for sitting in 0..4 {
            if !chance.in_thousand(self.sittings) {
                break;
            }
            let _ = write!(
                text,
                "        (on: \"{}-0{}-12\", place: \"bench 2\", method: \"steel ruler\", by: \"me\", pitcher: lower,\n         \
                 columns: [\"span cm\", \"banding\", \"rim\"], rows: [\n",
                year + 3,
                5 + sitting,
            );
            for (number, gone) in gone.iter().enumerate().skip(1) {
                if *gone || chance.in_thousand(150) {
                    continue;
                }
                let span = format!("{}.{}", 3 + chance.below(20), chance.below(10));
                let banding = ["", "1", "2", "3", "4", "5"][chance.below(6)];
                let rim = ["green", "red", ""][chance.below(3)];
                grown.readings +=
                    1 + usize::from(!banding.is_empty()) + usize::from(!rim.is_empty());
                let _ = writeln!(
                    text,
                    "            [\"{number}\", \"{span}\", \"{banding}\", \"{rim}\"],"
                );
            }
            text.push_str("        ]),\n");
        }
        text.push_str("    ],\n");
    }
}

/// A line: each cross is of the two seedlings of the cross before. A tiny page a generation.
pub fn line(generations: usize) -> Grown {
    let mut grown = Grown {
        founders: 2,
        crosses: generations,
        seedlings: 2 * generations,
        ..Grown::default()
    };
    grown.pages.push(("registry.ron".into(), REGISTRY.into()));
    let clones = "(clones: [(code: \"X0-1\", received: \"N. mira\"), (code: \"X0-2\", received: \"N. mira\")])\n";
    grown.pages.push(("clones.ron".into(), clones.into()));
    for cross in 1..=generations {
        let before = cross - 1;
        let text = format!(
            "(code: \"X{cross}\", parents: known(seed: \"X{before}-1\", pollen: \"X{before}-2\"), seedlings: [(number: \"1\"), (number: \"2\")])\n"
        );
        grown.pages.push((format!("crosses/X{cross}.ron"), text));
    }
    grown
}

const REGISTRY: &str = r#"(
    genus: "Nepenthes",
    hemisphere: north,
    traits: [
        (code: "span", name: "leaf span", reads: length(cm), from_months: 6),
        (code: "banding", name: "rim banding", reads: scale(["plain", "ghost", "part", "clear", "crisp"])),
        (code: "rim", name: "rim colour", reads: kinds(["green", "red"])),
    ],
)
"#;

const SPECIES: [&str; 12] = [
    "ventricosa",
    "spathulata",
    "burbidgeae",
    "truncata",
    "spectabilis",
    "hamata",
    "jacquelineae",
    "ramispina",
    "mira",
    "talangensis",
    "ampullaria",
    "rafflesiana",
];

fn species() -> String {
    let rows = SPECIES.map(|epithet| format!("    (epithet: \"{epithet}\"),\n"));
    format!("(species: [\n{}])\n", rows.concat())
}

/// One sowing of one cross, read at every sitting: `sittings` sittings a month apart, three readings a plant in each.
pub fn tray(seedlings: usize, sittings: usize) -> Grown {
    let mut chance = Chance(11);
    let mut grown = Grown {
        founders: 2,
        crosses: 1,
        seedlings,
        readings: 3 * seedlings * sittings,
        ..Grown::default()
    };
    grown.pages.push(("registry.ron".into(), REGISTRY.into()));
    grown.pages.push(("species.ron".into(), species()));
    grown.pages.push((
        "clones.ron".into(),
        "(clones: [(code: \"V1\", received: \"N. ventricosa\", confidence: claim), \
         (code: \"V2\", received: \"N. spathulata\", confidence: claim)])\n"
            .into(),
    ));
    let mut text = String::from(
        "(\n    code: \"X20-01\",\n    parents: known(seed: \"V1\", pollen: \"V2\"),\n    \
         pods: [(code: \"P1\"), (code: \"P2\")],\n    \
         sowings: [(code: \"S1\", on: \"2020-09-01\", seeds: 5000)],\n    seedlings: [\n",
    );
    for number in 1..=seedlings {
        let pod = number % 2 + 1;
        let _ = writeln!(
            text,
            "        (number: \"{number}\", sowing: \"S1\", pod: \"P{pod}\"),"
        );
    }
    text.push_str("    ],\n    sittings: [\n");
    let speeds: Vec<usize> = (0..seedlings).map(|_| 20 + chance.below(60)).collect();
    for sitting in 0..sittings {
        let (year, month) = (2021 + sitting / 12, sitting % 12 + 1);
        let _ = writeln!(
            text,
            "        (on: \"{year}-{month:02}-05\", method: \"ruler\", columns: [\"span cm\", \"banding\", \"rim\"], rows: ["
        );
        for (at, speed) in speeds.iter().enumerate() {
            let millimetres = 10 + speed * (sitting + 4) / 4 + chance.below(4);
            let _ = writeln!(
                text,
                "            [\"{}\", \"{}.{}\", \"{}\", \"{}\"],",
                at + 1,
                millimetres / 10,
                millimetres % 10,
                1 + chance.below(5),
                ["green", "red"][chance.below(2)]
            );
        }
        text.push_str("        ]),\n");
    }
    text.push_str("    ],\n)\n");
    grown.pages.push(("crosses/X20-01.ron".into(), text));
    grown
}
