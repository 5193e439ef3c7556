//! A pedigree as text for the terminal: the plant on offer first, its parents indented below it, founders last.
//!
//! Every plant is described once; where an ancestor comes again only its code is given. What does not fit the lines
//! asked for is counted in a last line. Nothing calls itself, so any number of generations is written.

use std::collections::BTreeSet;

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

use super::pedigree::{is_share, of_cross, without_genus, written};
use crate::report::pedigree::{
    DrawnKind, DrawnParent, DrawnPlant, Fate, Name, PedigreeDrawing, Sex,
};

/// Most lines of descent written before the rest is counted.
const LINES: usize = 400;
/// Deepest indentation; deeper generations stay there and say how deep they are.
const DEEPEST: usize = 12;

/// Holds a share and its species together when a line is broken; written as a blank.
const TIE: char = '\u{a0}';

/// One thing still to be written.
enum Step {
    /// A plant, as the parent with that sign.
    Plant {
        row: usize,
        depth: usize,
        sign: String,
    },
    /// A line as it stands.
    Line { depth: usize, text: String },
}

/// The pedigree in lines of at most `width` columns.
pub fn pedigree_text(drawing: &PedigreeDrawing, width: usize) -> String {
    let raised = raised_from(drawing);
    let mut out = caption(drawing, width);
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
            Step::Plant { row, depth, sign } => {
                let again = !told.insert(row) && !raised[row].is_empty();
                let follow = depth < deepest && followed.insert(row);
                let text = line(drawing, row, &sign, again && !follow);
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
            &format!("… {hidden} plants not shown; ask for fewer generations, or for a picture"),
            width,
        ));
    }
    out.push_str(&notes(drawing, width));
    out.replace(TIE, " ")
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
                    "cross {} of {} it may have come from",
                    rank + 1,
                    crosses.len()
                ),
            );
        }
        if cross.more_siblings > 0 {
            about.push(super::pedigree::more_text(cross.more_siblings));
        }
        if !about.is_empty() {
            steps.push(Step::Line {
                depth,
                text: format!("({})", about.join("; ")),
            });
        }
        for (parent, sign) in [(&cross.seed, "♀"), (&cross.pollen, "♂")] {
            let sign = if cross.direction_known { sign } else { "?" };
            steps.extend(parent_steps(parent, sign, depth));
        }
    }
    steps
}

fn parent_steps(parent: &DrawnParent, sign: &str, depth: usize) -> Vec<Step> {
    let sign = match parent {
        DrawnParent::Unknown => {
            return vec![Step::Line {
                depth,
                text: format!("{sign} unknown"),
            }];
        }
        DrawnParent::Known(_) => sign.to_string(),
        DrawnParent::OneOf(_) => format!("{sign} either"),
        DrawnParent::Mixed(_) => format!("{sign} mixed"),
    };
    let step = |&row: &usize| Step::Plant {
        row,
        depth,
        sign: sign.clone(),
    };
    parent.rows().iter().map(step).collect()
}

fn line(drawing: &PedigreeDrawing, row: usize, sign: &str, again: bool) -> String {
    let plant = &drawing.plants[row];
    let code = plain(&plant.code);
    let mut parts = vec![if sign.is_empty() {
        code
    } else {
        format!("{sign} {code}")
    }];
    if again {
        parts.push("see above".to_string());
    } else {
        let lines: Vec<String> = plant.label.iter().map(flat).collect();
        parts.push(lines.join(" ").trim().to_string());
        parts.push(standing(plant));
        parts.push(shares(drawing, plant));
    }
    parts.retain(|part| !part.is_empty());
    parts.join(" · ")
}

fn standing(plant: &DrawnPlant) -> String {
    let kind = if plant.kind == DrawnKind::Patch {
        "patch"
    } else {
        ""
    };
    let sex = match plant.sex {
        Some(Sex::Female) => "female",
        Some(Sex::Male) => "male",
        None => "",
    };
    let fate = match plant.fate {
        Fate::Here => "",
        Fate::Dead => "died",
        Fate::Sold => "sold",
        Fate::LetGo => "let go",
    };
    let said: Vec<&str> = [kind, sex, fate]
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect();
    said.join(", ")
}

/// "½ ventricosa, ½ unknown"; nothing for a species.
fn shares(drawing: &PedigreeDrawing, plant: &DrawnPlant) -> String {
    if plant.kind == DrawnKind::Founder {
        return String::new();
    }
    let name = |species: usize| -> String {
        let name = drawing.species.get(species).map(flat).unwrap_or_default();
        without_genus(&name).to_string()
    };
    let known = plant
        .shares
        .iter()
        .map(|share| format!("{}{TIE}{}", written(share.fraction), name(share.species)));
    let unknown = (is_share(plant.unknown_share))
        .then(|| format!("{}{TIE}unknown", written(plant.unknown_share)));
    let all: Vec<String> = known.chain(unknown).collect();
    all.join(", ")
}

fn caption(drawing: &PedigreeDrawing, width: usize) -> String {
    let formula: String = drawing
        .caption
        .formula
        .iter()
        .map(|run| run.text.as_str())
        .collect();
    let rest = [
        drawing.caption.code.as_str(),
        drawing.caption.rests_on.as_str(),
    ];
    let second: Vec<&str> = rest.into_iter().filter(|part| !part.is_empty()).collect();
    let mut out = String::new();
    for text in [plain(&formula), plain(&second.join(", "))] {
        if !text.is_empty() {
            out.push_str(&broken(&text, width));
        }
    }
    if !out.is_empty() {
        out.push('\n');
    }
    out
}

fn notes(drawing: &PedigreeDrawing, width: usize) -> String {
    let notes: String = drawing
        .footnotes
        .iter()
        .map(|note| broken(&plain(note), width))
        .collect();
    if notes.is_empty() {
        notes
    } else {
        format!("\n{notes}")
    }
}

/// A line under its indentation, broken where it is too long; what follows is indented further.
fn indented(depth: usize, text: &str, width: usize) -> String {
    let (steps, told) = match depth {
        0..=DEEPEST => (depth, text.to_string()),
        _ => (DEEPEST, format!("[{depth} back] {text}")),
    };
    let margin = " ".repeat((steps * 3).min(width / 2));
    let hang = format!("{margin}      ");
    let first = width.saturating_sub(hang.len()).max(12);
    let mut out = String::new();
    if told.width() + margin.len() <= width {
        return format!("{margin}{told}\n");
    }
    for (rank, line) in broken(&told, first).lines().enumerate() {
        let before = if rank == 0 { &margin } else { &hang };
        out.push_str(&format!("{before}{line}\n"));
    }
    out
}

/// A name without its faces.
fn flat(name: &Name) -> String {
    plain(&name.iter().map(|run| run.text.as_str()).collect::<String>())
}

/// Text without control characters, which a terminal would obey.
fn plain(text: &str) -> String {
    text.chars()
        .map(|letter| if letter.is_control() { ' ' } else { letter })
        .collect::<String>()
        .trim()
        .to_string()
}

/// The line cut to the width, with an ellipsis where something was left out.
fn fitted(line: &str, width: usize) -> String {
    if line.width() <= width {
        return line.to_string();
    }
    let (mut out, mut used) = (String::new(), 1);
    for letter in line.chars() {
        used += letter.width().unwrap_or(0);
        if used > width {
            break;
        }
        out.push(letter);
    }
    out.push('…');
    out
}

/// Text broken at blanks into lines of the width.
fn broken(text: &str, width: usize) -> String {
    let (mut out, mut line) = (String::new(), String::new());
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        if !line.is_empty() && line.width() + 1 + word.width() > width {
            out.push_str(&fitted(&line, width));
            out.push('\n');
            line.clear();
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(word);
    }
    out.push_str(&fitted(&line, width));
    out.push('\n');
    out
}
