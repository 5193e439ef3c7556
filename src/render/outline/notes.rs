//! What stands beside a plant's code because its parents are not certain.

use crate::report::pedigree::{DrawnCross, DrawnParent, PedigreeDrawing};

/// One line per plant, by its row; empty where there is nothing to say.
pub fn of_plants(drawing: &PedigreeDrawing) -> Vec<String> {
    let mut notes: Vec<Vec<String>> = vec![Vec::new(); drawing.plants.len()];
    let mut times = vec![0usize; drawing.plants.len()];
    for cross in &drawing.crosses {
        for &child in &cross.children {
            times[child] += 1;
            notes[child].extend(of_cross(cross));
        }
    }
    for (note, &times) in notes.iter_mut().zip(&times) {
        if times > 1 {
            *note = vec![format!("from one of {times} crosses")];
        }
    }
    notes.into_iter().map(|note| note.join(", ")).collect()
}

/// What is not certain about the parents of a cross.
pub fn of_cross(cross: &DrawnCross) -> Vec<String> {
    let mut notes = Vec::new();
    for (parent, sign) in [(&cross.seed, "♀"), (&cross.pollen, "♂")] {
        match parent {
            DrawnParent::OneOf(rows) => notes.push(format!("{sign} one of {}", rows.len())),
            DrawnParent::Mixed(rows) => notes.push(format!("{sign} mixed, {} plants", rows.len())),
            DrawnParent::Known(_) | DrawnParent::Unknown => {}
        }
    }
    if cross.father_probable {
        notes.push("♂ probable".to_string());
    }
    if !cross.direction_known {
        notes.push("direction not known".to_string());
    }
    notes
}

/// What stands for siblings that are not drawn.
pub fn more_text(count: u64) -> String {
    match count {
        1 => "and 1 more sibling".to_string(),
        _ => format!("and {count} more siblings"),
    }
}
