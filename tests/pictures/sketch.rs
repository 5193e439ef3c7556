//! Builds drawings from a few words per plant.

use podbook::report::pedigree::*;
use podbook::wording::{Name, NameRun};

/// A drawing in the making; plants are named by their code.
#[derive(Default)]
pub struct Sketch {
    pub drawing: PedigreeDrawing,
}

pub fn roman(text: &str) -> NameRun {
    NameRun {
        text: text.into(),
        italic: false,
    }
}

pub fn italic(text: &str) -> NameRun {
    NameRun {
        text: text.into(),
        italic: true,
    }
}

/// Words in `*stars*` are italic.
pub fn name(text: &str) -> Name {
    let runs = text
        .split('*')
        .enumerate()
        .filter(|(_, part)| !part.is_empty());
    runs.map(|(rank, part)| {
        if rank % 2 == 1 {
            italic(part)
        } else {
            roman(part)
        }
    })
    .collect()
}

impl Sketch {
    pub fn row(&self, code: &str) -> usize {
        self.drawing
            .plants
            .iter()
            .position(|plant| plant.code == code)
            .unwrap_or_else(|| panic!("no plant {code}"))
    }

    pub fn founder(&mut self, code: &str, epithet: &str, sex: Option<Sex>) -> usize {
        let species = match self
            .drawing
            .species
            .iter()
            .position(|one| one[0].text == epithet)
        {
            Some(found) => found,
            None => {
                self.drawing.species.push(vec![italic(epithet)]);
                self.drawing.species.len() - 1
            }
        };
        self.drawing.plants.push(DrawnPlant {
            code: code.into(),
            label: vec![vec![italic(&format!("N. {epithet}"))]],
            kind: DrawnKind::Founder,
            sex,
            shares: vec![DrawnShare {
                species,
                fraction: 1.0,
            }],
            ..DrawnPlant::default()
        });
        self.drawing.plants.len() - 1
    }

    /// A seedling of a cross between plants named by code; `?` is unknown, `a|b` one of two, `a+b` mixed.
    pub fn cross(&mut self, code: &str, seed: &str, pollen: &str, label: &str) -> usize {
        let (seed, pollen) = (self.parent(seed), self.parent(pollen));
        let column = seed
            .rows()
            .iter()
            .chain(pollen.rows())
            .map(|&row| self.drawing.plants[row].column + 1)
            .max();
        let shares = self.shares(&seed, &pollen);
        let unknown_share = 1.0 - shares.iter().map(|share| share.fraction).sum::<f64>();
        let child = self.drawing.plants.len();
        self.drawing.plants.push(DrawnPlant {
            code: code.into(),
            label: vec![name(label)],
            column: column.unwrap_or(1),
            shares,
            unknown_share,
            ..DrawnPlant::default()
        });
        let cross = DrawnCross {
            chances: Vec::new(),
            code: code.into(),
            seed,
            pollen,
            direction_known: true,
            children: vec![child],
            ..DrawnCross::default()
        };
        self.drawing.crosses.push(cross);
        child
    }

    pub fn sibling(&mut self, code: &str, of: &str) -> usize {
        let first = self.row(of);
        let plant = DrawnPlant {
            code: code.into(),
            ..self.drawing.plants[first].clone()
        };
        self.drawing.plants.push(plant);
        let row = self.drawing.plants.len() - 1;
        let cross = self
            .drawing
            .crosses
            .iter_mut()
            .find(|cross| cross.children.contains(&first))
            .expect("a cross");
        cross.children.push(row);
        row
    }

    pub fn plant(&mut self, code: &str) -> &mut DrawnPlant {
        let row = self.row(code);
        &mut self.drawing.plants[row]
    }

    pub fn cross_of(&mut self, code: &str) -> &mut DrawnCross {
        let row = self.row(code);
        self.drawing
            .crosses
            .iter_mut()
            .find(|cross| cross.children.contains(&row))
            .expect("a cross")
    }

    fn parent(&self, text: &str) -> DrawnParent {
        if text == "?" {
            return DrawnParent::Unknown;
        }
        let rows = |by: char| {
            text.split(by)
                .map(|code| self.row(code))
                .collect::<Vec<_>>()
        };
        match (text.contains('|'), text.contains('+')) {
            (true, _) => DrawnParent::OneOf(rows('|')),
            (_, true) => DrawnParent::Mixed(rows('+')),
            _ => DrawnParent::Known(self.row(text)),
        }
    }

    fn shares(&self, seed: &DrawnParent, pollen: &DrawnParent) -> Vec<DrawnShare> {
        let mut fraction = vec![0.0; self.drawing.species.len()];
        for side in [seed, pollen] {
            for &row in side.rows() {
                for share in &self.drawing.plants[row].shares {
                    fraction[share.species] += share.fraction / 2.0 / side.rows().len() as f64;
                }
            }
        }
        let present = fraction
            .into_iter()
            .enumerate()
            .filter(|(_, part)| *part > 0.0);
        present
            .map(|(species, fraction)| DrawnShare { species, fraction })
            .collect()
    }
}
