//! Parents and grandparents by clone, as surely as they are known.

use super::answer::Ancestor;
use crate::analysis::tags::known_as;
use crate::evidence::{Direction, Doubt, Evidence, Strength, Unit};
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::naming::{Style, Writing, ladder, runs};
use crate::wording::{Name, NameRun, listed};

/// Letters of an ancestor's name; a longer one is written shorter.
const MOST_LETTERS: usize = 90;

/// The parents of a plant, each followed by its own parents where it is one plant.
pub fn ancestors(evidence: &Evidence, plant: PlantRow) -> Vec<Ancestor> {
    let up = ancestors_up(evidence, Unit::Plant(plant), 2).into_iter();
    up.map(|(ancestor, _)| ancestor).collect()
}

/// Ancestors up to a generation, each followed by its own, with the row of one that is a single plant.
pub fn ancestors_up(
    evidence: &Evidence,
    unit: Unit,
    generations: usize,
) -> Vec<(Ancestor, Option<PlantRow>)> {
    let mut all = Vec::new();
    let mut open = parents(evidence, unit, 1);
    open.reverse();
    while let Some((ancestor, row)) = open.pop() {
        let next = ancestor.generation + 1;
        all.push((ancestor, row));
        if let Some(row) = row.filter(|_| next <= generations) {
            open.extend(parents(evidence, Unit::Plant(row), next).into_iter().rev());
        }
    }
    all
}

/// Both parents, with the row of one that is a single plant; none where parents are not recorded.
fn parents(
    evidence: &Evidence,
    unit: Unit,
    generation: usize,
) -> Vec<(Ancestor, Option<PlantRow>)> {
    let registry = evidence.registry();
    let Some(origin) = unit.origin(registry) else {
        return Vec::new();
    };
    let own = evidence.statement(unit);
    let direction = own.as_ref().map_or(Direction::Known, |own| own.direction);
    let doubt = |wanted: fn(&Doubt) -> bool| {
        own.as_ref()
            .is_some_and(|own| own.doubts.iter().any(|(_, of)| wanted(of)))
    };
    let is_open = doubt(|of| matches!(of, Doubt::Open(_)));
    // A plant of a muddled tray may come of a mixture or not.
    let is_muddled = match unit {
        Unit::Plant(plant) => !registry.pods_it_may_be_of(plant).is_empty(),
        _ => false,
    };
    let is_mixed = !is_muddled && doubt(|of| matches!(of, Doubt::Mixed(_)));
    let pairs = &registry[origin].pairs;
    let seeds = distinct(pairs.iter().map(|pair| pair.seed));
    let pollens = distinct(pairs.iter().map(|pair| pair.pollen));
    let strength = own.map_or(Strength::Unknown, |own| own.strength());
    let one = |rows: Vec<Option<PlantRow>>, side: &'static str| {
        let row = match rows[..] {
            [row] => row,
            _ => None,
        };
        let is_father = side == "♂";
        let (clone, name) = told(
            evidence,
            &rows,
            (is_open && is_father, is_mixed && is_father),
        );
        let is_probable = is_father && strength == Strength::Probable;
        let ancestor = Ancestor {
            generation,
            side: (direction == Direction::Known).then_some(side),
            clone: if is_probable {
                format!("probably {clone}")
            } else {
                clone
            },
            name,
            doubtful: row.is_none() || is_probable || strength == Strength::Claimed,
        };
        (ancestor, row)
    };
    vec![one(seeds, "♀"), one(pollens, "♂")]
}

/// The clone and its name, or what is known instead.
fn told(
    evidence: &Evidence,
    rows: &[Option<PlantRow>],
    (open, mixed): (bool, bool),
) -> (String, Name) {
    match rows {
        [Some(row)] => (clone(evidence, *row), name(evidence, *row)),
        [None] if open => ("open pollinated, father not known".to_owned(), Name::new()),
        [None] | [] => ("not known".to_owned(), Name::new()),
        several => {
            let each: Vec<String> = several
                .iter()
                .map(|row| {
                    row.map_or_else(|| "one not known".to_owned(), |row| clone(evidence, row))
                })
                .collect();
            let kind = if mixed { "mixed pollen of" } else { "one of" };
            (format!("{kind} {}", listed(&each)), Name::new())
        }
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

/// The longest version that is short enough; nothing where there is none.
fn name(evidence: &Evidence, plant: PlantRow) -> Name {
    let names = evidence.names();
    let writing = Writing {
        style: Style::Runs,
        ..Writing::plain(names.vocabulary())
    };
    let formula = names.short_formula(TopOf::Plant(plant), MOST_LETTERS);
    let version =
        formula.and_then(|formula| ladder(&formula, &writing, MOST_LETTERS).into_iter().next());
    let run = |(text, italic)| NameRun { text, italic };
    version.map_or(Name::new(), |version| {
        runs(&version.text).into_iter().map(run).collect()
    })
}

fn distinct(rows: impl Iterator<Item = Option<PlantRow>>) -> Vec<Option<PlantRow>> {
    let mut seen = Vec::new();
    rows.for_each(|row| {
        if !seen.contains(&row) {
            seen.push(row);
        }
    });
    seen
}
