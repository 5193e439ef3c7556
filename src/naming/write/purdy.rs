//! Purdy notation written: strokes rising with each later cross, doses of a recurrent parent by `*n`.
//!
//! After Purdy and others 1968, Crop Science 8: 405–406. It cannot say that the direction or the father is unknown among several,
//! and it names no individuals; a formula that needs this has no Purdy text.

use crate::naming::formula::{Cross, Direction, Formula, Leaf, Part, PartId, Relation, Unknown};

use super::ink::{Ink, Style};

/// More doses than are read back.
const MOST_DOSES: u32 = 64;

/// The formula as a Purdy pedigree; `None` when Purdy notation cannot say it, or nobody could read it.
pub fn purdy(formula: &Formula) -> Option<String> {
    let plan = Plan::of(formula)?;
    let mut ink = Ink::new(Style::Text);
    let mut tasks = vec![Task::Part(formula.top())];
    while let Some(task) = tasks.pop() {
        match task {
            Task::Strokes(level) => ink.roman(&strokes(level)),
            Task::Dose(doses) => ink.roman(&format!("*{doses}")),
            Task::Part(id) => match formula.part(id) {
                Part::Leaf(leaf) => ink.roman(&name(leaf, formula.len() > 1)),
                Part::Cross(cross) => tasks.extend(plan.cross(id, cross).into_iter().rev()),
                Part::OneOf(_) | Part::Mixed(_) => return None,
            },
        }
        if ink.overflows() {
            return None;
        }
    }
    Some(ink.text)
}

enum Task {
    Part(PartId),
    Strokes(u32),
    Dose(u32),
}

/// A parent that stands on the same side of every cross in a run of crosses.
#[derive(Clone, Copy, Debug)]
struct Run {
    doses: u32,
    other: PartId,
}

/// For each part the level of its strokes and the run of doses that ends in it.
struct Plan {
    level: Vec<u32>,
    seed_run: Vec<Option<Run>>,
    pollen_run: Vec<Option<Run>>,
}

impl Plan {
    fn of(formula: &Formula) -> Option<Self> {
        let size = formula.len();
        let mut plan = Self {
            level: vec![0; size],
            seed_run: vec![None; size],
            pollen_run: vec![None; size],
        };
        for (id, part) in formula.parts() {
            let Part::Cross(cross) = part else {
                matches!(part, Part::Leaf(_)).then_some(())?;
                continue;
            };
            let sayable =
                cross.direction != Direction::Unknown && cross.relation != Relation::SelfReported;
            sayable.then_some(())?;
            plan.seed_run[id.index()] =
                run(formula, cross.seed, cross.pollen, &plan.seed_run, |below| {
                    below.seed
                });
            plan.pollen_run[id.index()] = run(
                formula,
                cross.pollen,
                cross.seed,
                &plan.pollen_run,
                |below| below.pollen,
            );
            let below = match plan.dosed(id) {
                Some((run, _)) if run.doses > MOST_DOSES => return None,
                Some((run, _)) => plan.level[run.other.index()],
                None => plan.level[cross.seed.index()].max(plan.level[cross.pollen.index()]),
            };
            plan.level[id.index()] = below + 1;
        }
        Some(plan)
    }

    /// The run of two or more doses that ends in a part, and whether the recurrent parent bore the seed.
    fn dosed(&self, id: PartId) -> Option<(Run, bool)> {
        let several = |run: &Option<Run>| run.filter(|run| run.doses > 1);
        let by_seed = several(&self.seed_run[id.index()]).map(|run| (run, true));
        by_seed.or_else(|| several(&self.pollen_run[id.index()]).map(|run| (run, false)))
    }

    fn cross(&self, id: PartId, cross: &Cross) -> Vec<Task> {
        let strokes = Task::Strokes(self.level[id.index()]);
        match self.dosed(id) {
            Some((run, true)) => vec![
                Task::Part(cross.seed),
                Task::Dose(run.doses),
                strokes,
                Task::Part(run.other),
            ],
            Some((run, false)) => vec![
                Task::Part(run.other),
                strokes,
                Task::Part(cross.pollen),
                Task::Dose(run.doses),
            ],
            None => vec![Task::Part(cross.seed), strokes, Task::Part(cross.pollen)],
        }
    }
}

/// The run a cross continues when its hybrid side has the same single parent on the same side.
fn run(
    formula: &Formula,
    parent: PartId,
    hybrid: PartId,
    runs: &[Option<Run>],
    side: impl Fn(&Cross) -> PartId,
) -> Option<Run> {
    let Part::Leaf(parent) = formula.part(parent) else {
        return None;
    };
    let alone = Run {
        doses: 1,
        other: hybrid,
    };
    let Part::Cross(below) = formula.part(hybrid) else {
        return Some(alone);
    };
    match (formula.part(side(below)), runs[hybrid.index()]) {
        (Part::Leaf(again), Some(run)) if again == parent => Some(Run {
            doses: run.doses + 1,
            other: run.other,
        }),
        _ => Some(alone),
    }
}

fn strokes(level: u32) -> String {
    match level {
        1 => "/".to_owned(),
        2 => "//".to_owned(),
        level => format!("/{level}/"),
    }
}

/// A name between strokes; what holds a space stands in double quotes.
fn name(leaf: &Leaf, among_strokes: bool) -> String {
    match leaf {
        Leaf::Unknown(Unknown::NotRecorded | Unknown::OpenPollinated | Unknown::MixedPollen) => {
            "UNK".to_owned()
        }
        leaf => {
            let name = leaf.name();
            let quote = among_strokes
                && !matches!(leaf, Leaf::Quoted { .. })
                && name.contains(char::is_whitespace);
            if quote {
                format!("\"{}\"", name.replace('"', "'"))
            } else {
                name
            }
        }
    }
}
