//! Purdy notation written: strokes rising with each later cross, doses of a recurrent parent by `*n`.
//!
//! After Purdy and others 1968, Crop Science 8: 405–406. It cannot say that the direction or the father is unknown among several,
//! and it names no individuals; a formula that needs this has no Purdy text.

use crate::naming::formula::{
    Certainty, Cross, Direction, Formula, Leaf, Part, PartId, Relation, Unknown,
};
use crate::naming::token::{is_letter_sign, is_sign};
use crate::naming::vocabulary::Vocabulary;

use super::ink::{Ink, Style};

/// More doses than are read back.
const MOST_DOSES: u32 = 64;

/// The formula as a Purdy pedigree; `None` when Purdy notation cannot say it, as it cannot say a doubt. It has no sign for
/// a claim either: the word stands behind every name that is only claimed or of a cross that is.
pub fn purdy(formula: &Formula) -> Option<String> {
    if formula.is_doubtful() {
        return None;
    }
    pedigree(formula, |leaf, claimed| {
        let says_so = claimed && !matches!(leaf, Leaf::Unknown(_));
        let word = if says_so { " (claimed)" } else { "" };
        format!("{}{word}", name(leaf, formula.len() > 1))
    })
}

/// The Purdy pedigree as a tag bears it: perhaps with declared codes, and `?` behind every parent that is only claimed or
/// comes from a cross that is.
pub(super) fn purdy_for_tag(formula: &Formula, codes: Option<&Vocabulary>) -> Option<String> {
    pedigree(formula, |leaf, claimed| {
        let code = match (leaf, codes) {
            (Leaf::Species { .. }, Some(words)) if leaf.sure_species() == Some(&leaf.name()) => {
                words.code_of(&leaf.name())
            }
            _ => None,
        };
        let name = code.unwrap_or_else(|| name(leaf, formula.len() > 1));
        format!("{name}{}", if claimed { "?" } else { "" })
    })
}

fn pedigree(formula: &Formula, name: impl Fn(&Leaf, bool) -> String) -> Option<String> {
    let plan = Plan::of(formula)?;
    let mut ink = Ink::new(Style::Text);
    let mut tasks = vec![(Task::Part(formula.top()), false)];
    while let Some((task, within_claim)) = tasks.pop() {
        match task {
            Task::Strokes(level) => ink.roman(&strokes(level)),
            Task::Dose(doses) => ink.roman(&format!("*{doses}")),
            Task::Part(id) => {
                let claimed = within_claim || formula.marks(id).certainty != Certainty::Stated;
                match formula.part(id) {
                    Part::Leaf(Leaf::Label { text }) if holds_signs(text) => return None,
                    Part::Leaf(leaf) => ink.roman(&name(leaf, claimed)),
                    Part::Cross(cross) => {
                        let made = plan.cross(id, cross).into_iter().rev();
                        tasks.extend(made.map(|task| (task, claimed)));
                    }
                    Part::OneOf(_) | Part::Mixed(_) => return None,
                }
            }
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

/// The run a cross continues when its hybrid side has the same single parent on the same side, known as surely, and is
/// not itself in doubt: doses would hide which of them is only claimed. Two unknown parents may be two plants.
fn run(
    formula: &Formula,
    parent: PartId,
    hybrid: PartId,
    runs: &[Option<Run>],
    side: impl Fn(&Cross) -> PartId,
) -> Option<Run> {
    let certainty = |id: PartId| formula.marks(id).certainty;
    let known = certainty(parent);
    let parent = match formula.part(parent) {
        Part::Leaf(Leaf::Unknown(_)) => return None,
        Part::Leaf(parent) => parent,
        _ => return None,
    };
    let alone = Run {
        doses: 1,
        other: hybrid,
    };
    let Part::Cross(below) = formula.part(hybrid) else {
        return Some(alone);
    };
    let as_sure = certainty(side(below)) == known && certainty(hybrid) == Certainty::Stated;
    match (formula.part(side(below)), runs[hybrid.index()]) {
        (Part::Leaf(again), Some(run)) if again == parent && as_sure => Some(Run {
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

/// Whether a label holds what would be taken for a stroke, a dose or a sign.
fn holds_signs(label: &str) -> bool {
    let mut words = label.split(|letter: char| !letter.is_alphanumeric());
    label.contains(|letter| "/*".contains(letter) || is_sign(letter))
        || words.any(|word| word.chars().count() == 1 && word.starts_with(is_letter_sign))
}

/// A name between strokes; what holds a space stands in double quotes.
fn name(leaf: &Leaf, among_strokes: bool) -> String {
    match leaf {
        Leaf::Unknown(Unknown::NotRecorded | Unknown::OpenPollinated | Unknown::MixedPollen) => {
            "?".to_owned()
        }
        leaf => {
            let name = leaf.name();
            let quote = among_strokes
                && !matches!(leaf, Leaf::Quoted { .. } | Leaf::Label { .. })
                && name.contains(char::is_whitespace);
            if quote {
                format!("\"{}\"", name.replace('"', "'"))
            } else {
                name
            }
        }
    }
}
