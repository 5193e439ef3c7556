//! Downward: the plant asked for first, below it each partner it was crossed with and what came of it.
//!
//! Every plant is followed once; where it comes again only its code is given. Nothing calls itself.

use std::collections::{BTreeMap, BTreeSet};

use super::fold::{broken, indented};
use super::words::line;
use crate::render::pedigree::more_text;
use crate::report::pedigree::{DrawnCross, DrawnParent, PedigreeDrawing};
use crate::wording::counted;

/// Most lines written before the rest is counted.
const LINES: usize = 400;

/// One line still to be written.
enum Step {
    Plant { row: usize, depth: usize },
    Line { depth: usize, text: String },
}

/// The lines of what came from the plants nothing in the drawing was raised from, at most `width` columns wide.
pub fn downward(drawing: &PedigreeDrawing, width: usize) -> String {
    let (parent_of, several) = (parent_of(drawing), of_several(drawing));
    let mut todo = starts(drawing, &parent_of);
    todo.reverse();
    let (mut out, mut followed, mut lines) = (String::new(), BTreeSet::new(), 0);
    while let Some(step) = todo.pop() {
        if lines == LINES {
            let hidden = drawing.plants.len() - followed.len();
            let rest = counted(hidden, "plant", "plants");
            let rest = format!(
                "… {rest} not shown; ask for fewer generations, or for all with --json or --format dot"
            );
            out.push_str(&broken(&rest, width));
            break;
        }
        lines += 1;
        match step {
            Step::Line { depth, text } => out.push_str(&indented(depth, &text, width)),
            Step::Plant { row, depth } => {
                let follow = followed.insert(row);
                let has_offspring = parent_of.contains_key(&row);
                let sign = if several.contains(&row) {
                    "perhaps"
                } else {
                    ""
                };
                let text = line(drawing, row, (sign, ""), !follow && has_offspring);
                out.push_str(&indented(depth, &text, width));
                if follow {
                    let crosses = parent_of.get(&row).map_or(&[][..], Vec::as_slice);
                    todo.extend(
                        offspring(drawing, (row, crosses), depth + 1)
                            .into_iter()
                            .rev(),
                    );
                }
            }
        }
    }
    out
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
fn starts(drawing: &PedigreeDrawing, parent_of: &BTreeMap<usize, Vec<usize>>) -> Vec<Step> {
    let first = |row: usize| Step::Plant { row, depth: 0 };
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
fn offspring(drawing: &PedigreeDrawing, of: (usize, &[usize]), depth: usize) -> Vec<Step> {
    let (row, crosses) = of;
    let (mut steps, mut told) = (Vec::new(), None);
    for &at in crosses {
        let cross = &drawing.crosses[at];
        let text = partner(drawing, cross, row);
        // Seedlings that may be of several crosses stand in crosses of their own; one heading serves all.
        if told.as_ref() != Some(&text) {
            told = Some(text.clone());
            steps.push(Step::Line { depth, text });
        }
        let children = cross.children.iter();
        steps.extend(children.map(|&row| Step::Plant {
            row,
            depth: depth + 1,
        }));
        if cross.more_siblings > 0 {
            let text = format!("({})", more_text(cross.more_siblings));
            steps.push(Step::Line {
                depth: depth + 1,
                text,
            });
        }
    }
    steps
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
        let codes: Vec<&str> = rows
            .iter()
            .map(|&row| drawing.plants[row].code.as_str())
            .collect();
        codes.join(between)
    };
    let with = match other {
        DrawnParent::Known(row) => codes(&[*row], ""),
        DrawnParent::OneOf(rows) => format!("either {}", codes(rows, " or ")),
        DrawnParent::Mixed(rows) => format!("mixed {}", codes(rows, " and ")),
        DrawnParent::Unknown => "unknown".to_owned(),
    };
    let sign = if cross.direction_known { sign } else { "?" };
    format!("{}, as {side}, with {sign} {with}:", cross.code)
}
