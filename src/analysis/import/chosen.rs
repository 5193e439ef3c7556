//! Which of a grower's choices holds for a doubt.

use crate::record::{Choose, ImportChoices, RowClass};

/// What is done with a doubt of a class in a row: the row's own choice, else that of the class, else the default; a choice
/// that the class does not know is passed over.
pub(super) fn chosen(choices: &ImportChoices, class: RowClass, table: &str, line: usize) -> Choose {
    let possible = class.choices();
    let rows = choices.rows.iter().rev();
    let own = rows
        .filter(|of| of.row == line && of.table == table)
        .map(|of| of.choose);
    let classes = choices.choices.iter().rev();
    let of_class = classes.filter(|of| of.class == class).map(|of| of.choose);
    let mut all = own.chain(of_class);
    all.find(|choose| possible.contains(choose))
        .unwrap_or(possible[0])
}
