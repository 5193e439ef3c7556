//! Upward: the plant on offer first, its parents indented below it, founders last.

use std::collections::{BTreeMap, BTreeSet};

use super::entry::{Entry, Outline, Said};
use super::notes::{more_text, of_cross};
use crate::report::kinship::odds;
use crate::report::pedigree::{DrawnCross, DrawnParent, PedigreeDrawing};

/// Most entries told before the rest is counted.
const LINES: usize = 400;

/// The plant on offer and its ancestors.
pub fn upward(drawing: &PedigreeDrawing) -> Outline {
    let raised = raised_from(drawing);
    let mut todo: Vec<Entry> = starts(drawing, &raised);
    let deepest = deepest(drawing, &raised, &todo);
    todo.reverse();
    let (mut entries, mut told, mut followed) = (Vec::new(), BTreeSet::new(), BTreeSet::new());
    // The first plant told of each cross, with whose parents those of its siblings stand.
    let mut first_of: BTreeMap<usize, usize> = BTreeMap::new();
    while let Some(mut entry) = todo.pop() {
        if entries.len() == 2 * LINES {
            break;
        }
        if let Said::Plant { row, again, .. } = &mut entry.said {
            let follow = entry.depth < deepest && followed.insert(*row);
            *again = !told.insert(*row) && !raised[*row].is_empty() && !follow;
            let first = match raised[*row][..] {
                [cross] if follow => Some(*first_of.entry(cross).or_insert(*row)),
                _ => None,
            };
            if let Some(sibling) = first.filter(|first| first != row) {
                todo.push(same_cross(drawing, sibling, entry.depth + 1));
            } else if follow {
                let parents = parents(drawing, &raised[*row], entry.depth + 1);
                todo.extend(parents.into_iter().rev());
            }
        }
        entries.push(entry);
    }
    Outline {
        entries,
        hidden: drawing.plants.len() - told.len(),
    }
}

/// How many generations back can be told in the entries there are, each plant followed once; no limit if all can.
fn deepest(drawing: &PedigreeDrawing, raised: &[Vec<usize>], starts: &[Entry]) -> usize {
    let row = |entry: &Entry| match entry.said {
        Said::Plant { row, .. } => Some(row),
        _ => None,
    };
    let mut generation: Vec<usize> = starts.iter().filter_map(row).collect();
    let (mut met, mut lines, mut depth) = (BTreeSet::new(), generation.len(), 0);
    loop {
        generation.retain(|&row| met.insert(row));
        let steps: Vec<Entry> = generation
            .iter()
            .flat_map(|&row| parents(drawing, &raised[row], depth + 1))
            .collect();
        lines += steps.len();
        if steps.is_empty() {
            return usize::MAX;
        }
        if lines > LINES {
            return depth.max(1);
        }
        generation = steps.iter().filter_map(row).collect();
        depth += 1;
    }
}

/// For each plant the crosses it may have been raised from.
fn raised_from(drawing: &PedigreeDrawing) -> Vec<Vec<usize>> {
    let mut raised = vec![Vec::new(); drawing.plants.len()];
    for (row, cross) in drawing.crosses.iter().enumerate() {
        cross
            .children
            .iter()
            .for_each(|&child| raised[child].push(row));
    }
    raised
}

/// The plants on offer, then all others nothing was raised from.
fn starts(drawing: &PedigreeDrawing, raised: &[Vec<usize>]) -> Vec<Entry> {
    let mut bred = vec![false; raised.len()];
    for cross in &drawing.crosses {
        cross
            .seed
            .rows()
            .iter()
            .chain(cross.pollen.rows())
            .for_each(|&row| bred[row] = true);
    }
    let focus = |row: &usize| drawing.plants[*row].focus;
    let first = (0..raised.len()).filter(|row| focus(row));
    let last = (0..raised.len()).filter(|row| !bred[*row] && !focus(row));
    first
        .chain(last)
        .map(|row| plant(row, 0, ("", String::new()), false))
        .collect()
}

/// The parents of a plant, from every cross it may have come from.
fn parents(drawing: &PedigreeDrawing, crosses: &[usize], depth: usize) -> Vec<Entry> {
    let mut steps = Vec::new();
    for (rank, &row) in crosses.iter().enumerate() {
        let cross = &drawing.crosses[row];
        let mut about = of_cross(cross);
        if crosses.len() > 1 {
            about.insert(
                0,
                format!(
                    "{}: cross {} of {} it may have come from",
                    cross.code,
                    rank + 1,
                    crosses.len()
                ),
            );
        }
        if cross.more_siblings > 0 {
            about.push(more_text(cross.more_siblings));
        }
        if !about.is_empty() {
            steps.push(Entry {
                depth,
                said: Said::Remark(about.join("; ")),
            });
        }
        for side in sides(cross) {
            steps.extend(parent_steps(side, &cross.chances, depth));
        }
    }
    steps
}

/// What stands for the parents of a plant whose sibling stands above. Which of several possible parents it has may
/// differ from sibling to sibling, so only the cross is said to be the same.
fn same_cross(drawing: &PedigreeDrawing, sibling: usize, depth: usize) -> Entry {
    let code = &drawing.plants[sibling].code;
    Entry {
        depth,
        said: Said::Remark(format!("of the same cross as {code}, above")),
    }
}

/// Both parents with their signs, and whether they are in doubt.
fn sides(cross: &DrawnCross) -> [(&DrawnParent, &'static str, bool); 2] {
    let sign = |sign| if cross.direction_known { sign } else { "?" };
    [
        (&cross.seed, sign("♀"), cross.seed_doubtful),
        (&cross.pollen, sign("♂"), cross.pollen_doubtful),
    ]
}

fn parent_steps(
    side: (&DrawnParent, &str, bool),
    chances: &[(usize, f64)],
    depth: usize,
) -> Vec<Entry> {
    let (parent, sign, doubtful) = side;
    let (sign, doubtful) = match parent {
        DrawnParent::Unknown => {
            return vec![Entry {
                depth,
                said: Said::Unknown(sign.to_owned()),
            }];
        }
        DrawnParent::Known(_) => (sign.to_owned(), doubtful),
        DrawnParent::OneOf(_) => (format!("{sign} perhaps"), true),
        DrawnParent::Mixed(_) => (format!("{sign} mixed pollen of"), true),
    };
    let chance = |row: usize| {
        let known = chances.iter().find(|(of, _)| *of == row);
        let known = known.filter(|_| matches!(parent, DrawnParent::OneOf(_)));
        known.map_or(String::new(), |(_, chance)| format!(" ({})", odds(*chance)))
    };
    let rows = parent.rows().iter();
    rows.map(|&row| plant(row, depth, (&sign, chance(row)), doubtful))
        .collect()
}

fn plant(row: usize, depth: usize, (sign, chance): (&str, String), doubtful: bool) -> Entry {
    let said = Said::Plant {
        row,
        sign: sign.to_owned(),
        chance,
        again: false,
        doubtful,
    };
    Entry { depth, said }
}
