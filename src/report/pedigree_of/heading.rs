//! What stands over the picture, in plain words: the plant on offer and its parents by the names they go by; a cross by
//! its formula.

use super::drawing::Words;
use crate::analysis::pedigree::Pedigree;
use crate::evidence::number_in_words;
use crate::naming::Formula;
use crate::report::pedigree::{DrawnCross, DrawnParent, DrawnPlant};
use crate::wording::{Name, upright};

/// The plants and crosses drawn.
pub type Parts<'d> = (&'d [DrawnPlant], &'d [DrawnCross]);

impl Words<'_, '_, '_> {
    /// The heading of a picture of these plants and crosses.
    pub fn heading(&self, parts: Parts, of: &Pedigree, formula: &Formula) -> Name {
        let focus = parts.0.iter().position(|plant| plant.focus);
        let Some(row) = focus.filter(|_| of.asked.plant().is_some()) else {
            return self.name(formula, false).unwrap_or_default();
        };
        let own = called(&parts.0[row]);
        if of.down {
            return [upright("What came from "), own].concat();
        }
        let crosses = parts.1.iter();
        let crosses: Vec<&DrawnCross> = crosses
            .filter(|cross| cross.children.contains(&row))
            .collect();
        match crosses[..] {
            [] => own,
            [cross] => [own, upright(": "), parentage(parts.0, cross)].concat(),
            ref several => {
                let count = number_in_words(several.len());
                [
                    own,
                    upright(format!(": a seedling of one of {count} crosses")),
                ]
                .concat()
            }
        }
    }
}

/// "a seedling of “Dumpling” × N. spathulata", no surer than the cross is.
fn parentage(plants: &[DrawnPlant], cross: &DrawnCross) -> Name {
    let (seed, pollen) = (
        parent(plants, &cross.seed, "seed parent"),
        parent(plants, &cross.pollen, "pollen parent"),
    );
    let claimed = cross.seed_doubtful && known(&cross.seed);
    let opening = match claimed {
        true => "said to be a seedling of ",
        false => "a seedling of ",
    };
    let probable = match cross.father_probable {
        true => "probably ",
        false => "",
    };
    let between = match cross.direction_known {
        true => format!(" × {probable}"),
        false => " and ".to_owned(),
    };
    let mut whole = [upright(opening), seed, upright(&between), pollen].concat();
    if !cross.direction_known {
        whole.extend(upright(", direction not known"));
    }
    whole
}

fn known(parent: &DrawnParent) -> bool {
    matches!(parent, DrawnParent::Known(_))
}

fn parent(plants: &[DrawnPlant], parent: &DrawnParent, side: &str) -> Name {
    match parent {
        DrawnParent::Known(row) => name_of(&plants[*row]),
        DrawnParent::OneOf(rows) => {
            upright(format!("one of {} plants", number_in_words(rows.len())))
        }
        DrawnParent::Mixed(rows) => upright(format!(
            "the mixed pollen of {} plants",
            number_in_words(rows.len())
        )),
        DrawnParent::Unknown => upright(format!("an unknown {side}")),
    }
}

/// What a plant goes by, with its code.
fn called(plant: &DrawnPlant) -> Name {
    let name = name_of(plant);
    match name == upright(&plant.code) {
        true => name,
        false => [name, upright(format!(" ({})", plant.code))].concat(),
    }
}

/// A name short enough to stand within a sentence: a nickname, a cultivar or a species; else the code.
fn name_of(plant: &DrawnPlant) -> Name {
    let is_formula = |name: &Name| name.iter().any(|run| run.text.contains('×'));
    match plant.label.first() {
        Some(name) if !name.is_empty() && !is_formula(name) => name.clone(),
        _ => upright(&plant.code),
    }
}
