//! The whole text: caption, lines of descent, notes.

use super::fold::{TIE, broken, indented};
use super::words::{caption, line, notes};
use crate::render::outline::{Entry, Said, outline};
use crate::report::pedigree::PedigreeDrawing;
use crate::wording::counted;

/// The pedigree in lines of at most `width` columns: ancestors upward, or descendants downward.
pub fn pedigree_text(drawing: &PedigreeDrawing, width: usize) -> String {
    let told = outline(drawing);
    let lines = told.entries.iter();
    let mut lines: String = lines
        .map(|entry| indented(entry.depth, &text_of(drawing, entry), width))
        .collect();
    if told.hidden > 0 {
        let rest = counted(told.hidden, "plant", "plants");
        let rest = format!(
            "… {rest} not shown; ask for fewer generations, or for all with --json or --format dot"
        );
        lines.push_str(&broken(&rest, width));
    }
    let text = [caption(drawing, width), lines, notes(drawing, width)].concat();
    text.replace(TIE, " ")
}

fn text_of(drawing: &PedigreeDrawing, entry: &Entry) -> String {
    match &entry.said {
        Said::Plant {
            row,
            sign,
            chance,
            again,
            ..
        } => line(drawing, *row, (sign, chance), *again),
        Said::Unknown(sign) => format!("{sign} unknown"),
        Said::Cross(text) => text.clone(),
        Said::Remark(text) => format!("({text})"),
    }
}
