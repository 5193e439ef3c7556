//! Parents and grandparents by clone, in words.

use super::answer::Ancestor;
use crate::analysis::card::{self, Clones};
use crate::analysis::tags::known_as;
use crate::evidence::{Evidence, Side};
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::naming::{Fitted, Rung, Writing, ladder, runs};
use crate::wording::{Name, each_once, listed, upright};

/// Letters of an ancestor's name; a longer one is written shorter.
const MOST_LETTERS: usize = 90;

/// One ancestor in words.
pub fn ancestor(evidence: &Evidence, of: &card::Ancestor) -> Ancestor {
    let clone = clones(evidence, &of.clones);
    Ancestor {
        generation: of.generation,
        side: of.side.map(|side| match side {
            Side::Seed => "♀",
            Side::Pollen => "♂",
        }),
        clone: match of.clones {
            Clones::One(_) if of.probable => format!("probably {clone}"),
            Clones::One(_) if of.doubtful => format!("{clone} (in doubt)"),
            _ => clone,
        },
        name: names(evidence, &of.clones),
        doubtful: of.doubtful,
    }
}

/// The clone, or what is known instead.
fn clones(evidence: &Evidence, of: &Clones) -> String {
    let each = |rows: &[Option<PlantRow>]| {
        let unknown = || "one not known".to_owned();
        let words = |row: &Option<PlantRow>| row.map_or_else(unknown, |row| clone(evidence, row));
        listed(rows.iter().map(words))
    };
    match of {
        Clones::One(plant) => clone(evidence, *plant),
        Clones::Open => "open pollinated, father not known".to_owned(),
        Clones::NotKnown => "not known".to_owned(),
        Clones::OneOf(rows) => format!("one of {}", each(rows)),
        Clones::Mixed(rows) => format!("mixed pollen of {}", each(rows)),
    }
}

fn clone(evidence: &Evidence, plant: PlantRow) -> String {
    let registry = evidence.registry();
    let code = known_as(registry, plant);
    match registry.nickname(plant) {
        Some(nickname) => format!("{code} “{nickname}”"),
        None => code,
    }
}

/// The name of the clone; of several the names that they may have, in their order and each once.
fn names(evidence: &Evidence, of: &Clones) -> Name {
    let (rows, between) = match of {
        Clones::One(plant) => return name(evidence, *plant),
        Clones::Open | Clones::NotKnown => return Name::new(),
        Clones::OneOf(rows) => (rows, " or "),
        Clones::Mixed(rows) => (rows, " and "),
    };
    let names = rows.iter().map(|row| {
        row.map_or_else(
            || upright("a plant not known"),
            |plant| name(evidence, plant),
        )
    });
    let mut whole = Name::new();
    for name in each_once(names.filter(|name| !name.is_empty())) {
        if !whole.is_empty() {
            whole.extend(upright(between));
        }
        whole.extend(name);
    }
    whole
}

/// The longest formula that is short enough; nothing where there is none. A buyer cannot read Purdy notation, and the heading
/// of the card is a formula.
fn name(evidence: &Evidence, plant: PlantRow) -> Name {
    let names = evidence.names();
    let writing = Writing::in_runs(names.vocabulary());
    let formula = names.short_formula(TopOf::Plant(plant), MOST_LETTERS);
    let versions = formula.map(|formula| ladder(&formula, &writing, MOST_LETTERS));
    let is_formula = |of: &Fitted| !matches!(of.rung, Rung::Purdy | Rung::PurdyCodes);
    let version = versions.into_iter().flatten().find(is_formula);
    version.map_or(Name::new(), |version| runs(&version.text))
}
