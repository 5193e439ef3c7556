//! Sample pedigrees: our own scenario, from a four-generation tree to a whole registry.

use podbook::report::pedigree::*;

use super::sketch::{Sketch, name};

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

fn sex(female: bool) -> Option<Sex> {
    Some(if female { Sex::Female } else { Sex::Male })
}

/// Eight founders, four generations.
pub fn tree() -> PedigreeDrawing {
    let mut sketch = Sketch::default();
    for (rank, epithet) in SPECIES.iter().take(8).enumerate() {
        sketch.founder(&format!("C{:02}", rank + 1), epithet, sex(rank % 2 == 0));
    }
    let crosses = [
        ("X14-01-3", "C01", "C02", "*ventricosa* × *spathulata*"),
        ("X15-04-1", "C03", "C04", "*burbidgeae* × *truncata*"),
        ("X15-07-9", "C05", "C06", "*spectabilis* × *hamata*"),
        ("X16-02-2", "C07", "C08", "*jacquelineae* × *ramispina*"),
        (
            "X18-03-5",
            "X14-01-3",
            "X15-04-1",
            "(*ventricosa* × *spathulata*) × (*burbidgeae* × *truncata*)",
        ),
        (
            "X19-11-4",
            "X15-07-9",
            "X16-02-2",
            "(*spectabilis* × *hamata*) × (*jacquelineae* × *ramispina*)",
        ),
        (
            "X23-06-12",
            "X18-03-5",
            "X19-11-4",
            "eight-species seedling 12",
        ),
    ];
    for (rank, (code, seed, pollen, label)) in crosses.into_iter().enumerate() {
        sketch.cross(code, seed, pollen, label);
        sketch.plant(code).sex = if rank < 6 { sex(rank % 2 == 0) } else { None };
    }
    sketch.plant("X23-06-12").focus = true;
    sketch.plant("C04").fate = Fate::Dead;
    sketch.cross_of("X23-06-12").more_siblings = 23;
    sketch.cross_of("X18-03-5").more_siblings = 7;
    let mut drawing = sketch.drawing;
    drawing.title = "Pedigree of X23-06-12".into();
    drawing.caption = Caption {
        heading: name("X23-06-12: a seedling of X18-03-5 × X19-11-4"),
        formula: name(
            "*N.* [(*ventricosa* × *spathulata*) × (*burbidgeae* × *truncata*)] × [(*spectabilis* × *hamata*) × \
             (*jacquelineae* × *ramispina*)]",
        ),
        code: "X23-06-12".into(),
        evidence: "seed parent first; all parents witnessed".into(),
    };
    drawing.footnotes = vec![
        "Shares are what descent leads one to expect; a real seedling strays from them.".into(),
    ];
    drawing
}

/// Forty plants with backcrosses and an ancestor used again and again.
pub fn complex() -> PedigreeDrawing {
    let mut sketch = Sketch::default();
    for (rank, epithet) in SPECIES.iter().enumerate() {
        sketch.founder(&format!("C{:02}", rank + 1), epithet, sex(rank % 2 == 0));
    }
    let crosses = [
        ("A1", "C01", "C02"),
        ("A2", "C03", "C02"),
        ("A3", "C03", "C04"),
        ("A4", "C05", "C06"),
        ("A5", "C07", "C08"),
        ("A6", "C09", "C10"),
        ("A7", "C11", "C12"),
        ("A8", "C01", "C04"),
        ("B1", "A1", "C02"),
        ("B2", "A2", "A3"),
        ("B3", "A4", "A5"),
        ("B4", "A6", "C10"),
        ("B5", "A7", "A6"),
        ("B6", "A8", "A1"),
        ("B7", "C05", "A4"),
        ("D1", "B1", "C02"),
        ("D2", "B2", "B3"),
        ("D3", "B5", "B4"),
        ("D4", "B6", "B1"),
        ("D5", "B7", "A4"),
        ("D6", "B3", "C08"),
        ("E1", "D1", "D2"),
        ("E2", "D3", "D6"),
        ("E3", "D4", "B2"),
        ("E4", "D5", "D6"),
        ("F1", "E1", "E2"),
        ("F2", "E3", "E4"),
        ("G1", "F1", "F2"),
    ];
    for (code, seed, pollen) in crosses {
        sketch.cross(code, seed, pollen, &format!("cross {code}"));
    }
    sketch.plant("G1").focus = true;
    sketch.plant("G1").label = vec![name("*Nepenthes* complex hybrid")];
    sketch.cross_of("G1").more_siblings = 11;
    let mut drawing = sketch.drawing;
    drawing.title = "Pedigree of G1".into();
    drawing.caption.formula =
        name("*N.* complex hybrid of twelve species, twice backcrossed to *spathulata*");
    drawing.caption.code = "G1".into();
    drawing.caption.evidence = "seed parent first; E4 from the tag".into();
    drawing
}

/// Numbers that look drawn by lot and are the same every time.
pub struct Lots(pub u64);

impl Lots {
    pub fn below(&mut self, count: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % count.max(1)
    }
}

fn founders(sketch: &mut Sketch, count: usize) {
    for rank in 0..count {
        sketch.founder(
            &format!("C{rank:03}"),
            SPECIES[rank % SPECIES.len()],
            sex(rank % 2 == 0),
        );
    }
}

/// A grower's registry: families of siblings, one or two of which are bred from again.
pub fn registry(count: usize) -> PedigreeDrawing {
    let (mut sketch, mut lots) = (Sketch::default(), Lots(11));
    founders(&mut sketch, count / 8);
    let mut breeders: Vec<usize> = (0..count / 8).collect();
    while sketch.drawing.plants.len() < count {
        let (near, made) = (breeders.len().min(14), sketch.drawing.plants.len());
        let mother = breeders[breeders.len() - 1 - lots.below(near)];
        let father = breeders[if lots.below(4) == 0 {
            lots.below(breeders.len())
        } else {
            breeders.len() - 1 - lots.below(near)
        }];
        let deep = sketch.drawing.plants[mother]
            .column
            .max(sketch.drawing.plants[father].column)
            > 4;
        if mother == father || deep {
            breeders.rotate_right(3);
            continue;
        }
        let codes = [mother, father].map(|row| sketch.drawing.plants[row].code.clone());
        let first = format!("X{made:03}");
        sketch.cross(&first, &codes[0], &codes[1], "");
        for rank in 1..(2 + lots.below(9)).min(count - made) {
            sketch.sibling(&format!("X{:03}", made + rank), &first);
        }
        breeders.rotate_left(5);
        breeders.push(made);
        if lots.below(3) == 0 && sketch.drawing.plants.len() > made + 1 {
            breeders.push(made + 1);
        }
    }
    let mut drawing = sketch.drawing;
    drawing.title = "The registry".into();
    drawing.caption.code = format!("{count} plants");
    drawing
}

/// A registry in which anything was crossed with anything: far more tangled than any grower's.
pub fn tangle(count: usize) -> PedigreeDrawing {
    let (mut sketch, mut lots) = (Sketch::default(), Lots(7));
    let first = count / 6;
    founders(&mut sketch, first);
    let mut made = first;
    while made < count {
        let pool = sketch.drawing.plants.len();
        let recent = pool.saturating_sub(30 + first / 2);
        let mother = if lots.below(3) == 0 {
            lots.below(first)
        } else {
            recent + lots.below(pool - recent)
        };
        let father = if lots.below(2) == 0 {
            lots.below(first)
        } else {
            recent + lots.below(pool - recent)
        };
        if mother == father
            || sketch.drawing.plants[mother]
                .column
                .max(sketch.drawing.plants[father].column)
                > 5
        {
            continue;
        }
        let codes = [mother, father].map(|row| sketch.drawing.plants[row].code.clone());
        let code = format!("X{made:03}");
        sketch.cross(&code, &codes[0], &codes[1], "");
        let siblings = lots.below(4).min(count - made - 1);
        for rank in 0..siblings {
            sketch.sibling(&format!("X{:03}", made + 1 + rank), &code);
        }
        made += 1 + siblings;
    }
    sketch.drawing
}

/// Every kind of uncertainty once.
pub fn uncertain() -> PedigreeDrawing {
    let mut sketch = Sketch::default();
    for (rank, epithet) in SPECIES.iter().take(6).enumerate() {
        sketch.founder(&format!("C{:02}", rank + 1), epithet, sex(rank % 2 == 0));
    }
    sketch.cross(
        "H1",
        "C01",
        "C02|C04",
        "*ventricosa* × (*spathulata* or *truncata*)",
    );
    sketch.cross("H2", "C03", "?", "*burbidgeae* × unknown");
    sketch.cross("H3", "C05", "C04+C06+C02", "*spectabilis* × mixed pollen");
    sketch.cross("H4", "C03", "C06", "*burbidgeae*, *hamata*");
    sketch.cross_of("H4").direction_known = false;
    sketch.cross("K1", "H1", "H2", "");
    sketch.cross("K2", "H3", "H4", "");
    sketch.cross("L1", "K1", "K2", "seedling of the muddled tray");
    let child = sketch.row("L1");
    sketch.cross("L2", "K1", "H4", "its neighbour");
    sketch.cross_of("L2").children.push(child);
    sketch.plant("L1").focus = true;
    sketch.plant("H3").kind = DrawnKind::Siblings;
    sketch.plant("H2").fate = Fate::Sold;
    let mut drawing = sketch.drawing;
    drawing.caption.formula = name("*N.* [*ventricosa* × (*spathulata* or *truncata*)] × … or …");
    drawing.caption.code = "L1".into();
    drawing.caption.evidence = "one of two pods; father of H2 unknown".into();
    drawing.footnotes = vec!["H3 was pollinated with mixed pollen of three plants.".into()];
    drawing
}

/// Long names and names of odd letters.
pub fn long_labels() -> PedigreeDrawing {
    let mut sketch = Sketch::default();
    sketch.founder("C-2019-014/B", "ventricosa", sex(true));
    sketch.founder(
        "C-2019-015",
        "sp. \"Ridge above the second waterfall, red form\"",
        sex(false),
    );
    sketch.founder("C3", "talangensis", sex(true));
    let long = "{[(*ventricosa* × *sp.* \"Ridge\") × (*talangensis* × *ventricosa*)] × (*spathulata* × *burbidgeae*)} × \
                *Donaudampfschifffahrtsgesellschaftskapitän* × 猪笼草 <b>&amp;\"'";
    sketch.cross("X20-09-14", "C-2019-014/B", "C-2019-015", long);
    sketch.cross("X22-01-1", "C3", "X20-09-14", long);
    sketch.plant("X22-01-1").focus = true;
    let mut drawing = sketch.drawing;
    drawing.caption.formula = name(long);
    drawing.caption.code = "X22-01-1".into();
    drawing.caption.evidence = "seed parent first".into();
    drawing
}
