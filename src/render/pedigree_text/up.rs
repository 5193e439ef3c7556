//! Upward: the plant on offer first, its parents indented below it, founders last.

use std::collections::BTreeSet;

use super::fold::{broken, indented};
use super::words::line;
use crate::render::pedigree::{more_text, of_cross};
use crate::report::kinship::odds;
use crate::report::pedigree::{DrawnParent, PedigreeDrawing};
use crate::wording::counted;

/// Most lines of descent written before the rest is counted.
const LINES: usize = 400;
/// One thing still to be written.
enum Step {
    /// A plant, as the parent with that sign.
    Plant {
        row: usize,
        depth: usize,
        sign: String,
        /// The chance that it is that parent, in brackets; empty where it is certain or not stated.
        chance: String,
    },
    /// A line as it stands.
    Line { depth: usize, text: String },
}

/// The lines of descent, at most `width` columns wide.
pub fn upward(drawing: &PedigreeDrawing, width: usize) -> String {
    let raised = raised_from(drawing);
    let mut out = String::new();
    let mut todo: Vec<Step> = starts(drawing, &raised);
    let deepest = deepest(drawing, &raised, &todo);
    todo.reverse();
    let (mut told, mut followed, mut lines) = (BTreeSet::new(), BTreeSet::new(), 0);
    while let Some(step) = todo.pop() {
        lines += 1;
        if lines > 2 * LINES {
            break;
        }
        match step {
            Step::Line { depth, text } => out.push_str(&indented(depth, &text, width)),
            Step::Plant {
                row,
                depth,
                sign,
                chance,
            } => {
                let again = !told.insert(row) && !raised[row].is_empty();
                let follow = depth < deepest && followed.insert(row);
                let text = line(drawing, row, (&sign, &chance), again && !follow);
                out.push_str(&indented(depth, &text, width));
                if follow {
                    todo.extend(parents(drawing, &raised[row], depth + 1).into_iter().rev());
                }
            }
        }
    }
    if told.len() < drawing.plants.len() {
        let hidden = drawing.plants.len() - told.len();
        out.push_str(&broken(
            &format!(
                "… {} not shown; ask for fewer generations, or for all with --json or --format dot",
                counted(hidden, "plant", "plants")
            ),
            width,
        ));
    }
    out
}

/// How many generations back can be told in the lines there are, each plant followed once.
fn deepest(drawing: &PedigreeDrawing, raised: &[Vec<usize>], starts: &[Step]) -> usize {
    let row = |step: &Step| match step {
        Step::Plant { row, .. } => Some(*row),
        Step::Line { .. } => None,
    };
    let mut generation: Vec<usize> = starts.iter().filter_map(row).collect();
    let (mut met, mut lines, mut depth) = (BTreeSet::new(), generation.len(), 0);
    loop {
        generation.retain(|&row| met.insert(row));
        let steps: Vec<Step> = generation
            .iter()
            .flat_map(|&row| parents(drawing, &raised[row], depth + 1))
            .collect();
        lines += steps.len();
        if steps.is_empty() || lines > LINES {
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
fn starts(drawing: &PedigreeDrawing, raised: &[Vec<usize>]) -> Vec<Step> {
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
        .map(|row| Step::Plant {
            row,
            depth: 0,
            sign: String::new(),
            chance: String::new(),
        })
        .collect()
}

/// The parents of a plant, from every cross it may have come from.
fn parents(drawing: &PedigreeDrawing, crosses: &[usize], depth: usize) -> Vec<Step> {
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
            steps.push(Step::Line {
                depth,
                text: format!("({})", about.join("; ")),
            });
        }
        for (parent, sign) in [(&cross.seed, "♀"), (&cross.pollen, "♂")] {
            let sign = if cross.direction_known { sign } else { "?" };
            steps.extend(parent_steps((parent, &cross.chances), sign, depth));
        }
    }
    steps
}

fn parent_steps(
    (parent, chances): (&DrawnParent, &[(usize, f64)]),
    sign: &str,
    depth: usize,
) -> Vec<Step> {
    let of = match parent {
        DrawnParent::Unknown => {
            return vec![Step::Line {
                depth,
                text: format!("{sign} unknown"),
            }];
        }
        DrawnParent::Known(_) => "",
        DrawnParent::OneOf(_) => " perhaps",
        DrawnParent::Mixed(_) => " mixed",
    };
    let chance = |row: usize| {
        let known = chances.iter().find(|(of, _)| *of == row);
        let known = known.filter(|_| matches!(parent, DrawnParent::OneOf(_)));
        known.map_or(String::new(), |(_, chance)| format!(" ({})", odds(*chance)))
    };
    let step = |&row: &usize| Step::Plant {
        row,
        depth,
        sign: format!("{sign}{of}"),
        chance: chance(row),
    };
    parent.rows().iter().map(step).collect()
}
