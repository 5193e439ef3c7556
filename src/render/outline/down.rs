//! Downward: the plant asked for first, below it each partner it was crossed with and what came of it.
//!
//! Partners stand in the words of their cross.

use std::collections::{BTreeMap, BTreeSet};

use super::entry::{Entry, Outline, Said};
use super::notes::more_text;
use crate::report::pedigree::{DrawnCross, DrawnParent, DrawnPlant, PedigreeDrawing};

/// Most entries told before the rest is counted.
const LINES: usize = 400;

/// What came from the plants nothing in the drawing was raised from.
pub fn downward(drawing: &PedigreeDrawing) -> Outline {
    let (parent_of, several) = (parent_of(drawing), of_several(drawing));
    let mut todo = starts(drawing, &parent_of);
    todo.reverse();
    let (mut outline, mut followed) = (Outline::default(), BTreeSet::new());
    while let Some(mut entry) = todo.pop() {
        if outline.entries.len() == LINES {
            outline.hidden = drawing.plants.len() - followed.len();
            break;
        }
        if let Said::Plant {
            row,
            sign,
            again,
            doubtful,
            ..
        } = &mut entry.said
        {
            let follow = followed.insert(*row);
            *doubtful = several.contains(row);
            if *doubtful {
                *sign = "perhaps".to_owned();
            }
            *again = !follow && parent_of.contains_key(row);
            if follow {
                let crosses = parent_of.get(row).map_or(&[][..], Vec::as_slice);
                let offspring = offspring(drawing, (*row, crosses), entry.depth + 1);
                todo.extend(offspring.into_iter().rev());
            }
        }
        outline.entries.push(entry);
    }
    outline
}

/// The crosses each plant is a parent of, or may be.
fn parent_of(drawing: &PedigreeDrawing) -> BTreeMap<usize, Vec<usize>> {
    let mut crosses: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (at, cross) in drawing.crosses.iter().enumerate() {
        for &row in cross.seed.rows().iter().chain(cross.pollen.rows()) {
            crosses.entry(row).or_default().push(at);
        }
    }
    crosses
}

/// The plants that may have come from more than one cross.
fn of_several(drawing: &PedigreeDrawing) -> BTreeSet<usize> {
    let (mut met, mut several) = (BTreeSet::new(), BTreeSet::new());
    let children = drawing.crosses.iter().flat_map(|cross| &cross.children);
    several.extend(children.filter(|&&row| !met.insert(row)).copied());
    several
}

/// The plant on offer; for a cross its parents. Partners stand beside what came of them.
fn starts(drawing: &PedigreeDrawing, parent_of: &BTreeMap<usize, Vec<usize>>) -> Vec<Entry> {
    let first = |row: usize| plant(row, 0);
    let focus = (0..drawing.plants.len()).find(|&row| drawing.plants[row].focus);
    let own = |row: &usize| parent_of.contains_key(row) || drawing.plants.len() == 1;
    if let Some(row) = focus.filter(own) {
        return vec![first(row)];
    }
    let raised: BTreeSet<usize> = drawing
        .crosses
        .iter()
        .flat_map(|cross| cross.children.iter().copied())
        .collect();
    let founders = (0..drawing.plants.len()).filter(|row| !raised.contains(row));
    founders.map(first).collect()
}

/// Each cross of a plant: the partner, then the offspring.
fn offspring(drawing: &PedigreeDrawing, of: (usize, &[usize]), depth: usize) -> Vec<Entry> {
    let (row, crosses) = of;
    let (mut steps, mut told) = (Vec::new(), None);
    for &at in crosses {
        let cross = &drawing.crosses[at];
        let text = partner(drawing, cross, row);
        // Seedlings that may be of several crosses stand in crosses of their own; one heading serves all.
        if told.as_ref() != Some(&text) {
            told = Some(text.clone());
            let said = Said::Cross(text);
            steps.push(Entry { depth, said });
        }
        let children = cross.children.iter();
        steps.extend(children.map(|&row| plant(row, depth + 1)));
        if cross.more_siblings > 0 {
            let said = Said::Remark(more_text(cross.more_siblings));
            steps.push(Entry {
                depth: depth + 1,
                said,
            });
        }
    }
    steps
}

fn plant(row: usize, depth: usize) -> Entry {
    let said = Said::Plant {
        row,
        sign: String::new(),
        chance: String::new(),
        again: false,
        doubtful: false,
    };
    Entry { depth, said }
}

/// Its code, or the name by which alone it is known.
fn called(plant: &DrawnPlant) -> String {
    match plant.label.last() {
        Some(name) if plant.is_named_only => name.iter().map(|run| run.text.as_str()).collect(),
        _ => plant.code.clone(),
    }
}

/// "X22-02, as pollen parent, with ♀ X18-01-4".
fn partner(drawing: &PedigreeDrawing, cross: &DrawnCross, row: usize) -> String {
    let bore_seed = cross.seed.rows().contains(&row);
    let (own, other, side, sign) = match bore_seed {
        true => (&cross.seed, &cross.pollen, "seed parent", "♂"),
        false => (&cross.pollen, &cross.seed, "pollen parent", "♀"),
    };
    let side = match (own, cross.direction_known) {
        (_, false) => "a parent, direction not known".to_owned(),
        (DrawnParent::Known(_), _) => side.to_owned(),
        (DrawnParent::Mixed(_), _) => format!("{side}, its pollen mixed with others'"),
        (DrawnParent::OneOf(_) | DrawnParent::Unknown, _) => format!("one of the possible {side}s"),
    };
    let codes = |rows: &[usize], between: &str| {
        let codes = rows.iter().map(|&row| called(&drawing.plants[row]));
        codes.collect::<Vec<_>>().join(between)
    };
    let with = match other {
        DrawnParent::Known(row) => codes(&[*row], ""),
        DrawnParent::OneOf(rows) => format!("either {}", codes(rows, " or ")),
        DrawnParent::Mixed(rows) => format!("mixed pollen of {}", codes(rows, " and ")),
        DrawnParent::Unknown => "unknown".to_owned(),
    };
    let sign = if cross.direction_known { sign } else { "?" };
    format!("{}, as {side}, with {sign} {with}:", cross.code)
}
