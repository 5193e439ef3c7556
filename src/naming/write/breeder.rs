//! Breeder order: seed parent first, every hybrid parent in brackets, the genus with every parent, the basis of the order
//! stated once.

use crate::naming::formula::{Certainty, Cross, Direction, Formula, Leaf, Part, PartId, Relation};

use super::basis::{Basis, Directions, Manner, basis};
use super::brackets::needs_own_brackets;
use super::ink::{Ink, TooLong, Writing};
use super::leaf;

/// The formula in breeder order, followed once by what the order is based on.
///
/// # Errors
/// Refuses a formula whose text would be beyond any paper.
pub fn breeder(formula: &Formula, writing: &Writing<'_>) -> Result<String, TooLong> {
    written(formula, writing, Manner::FULL)
}

/// The formula in breeder order without the basis of the order, for a text that states it elsewhere.
///
/// # Errors
/// Refuses a formula whose text would be beyond any paper.
pub fn formula_only(formula: &Formula, writing: &Writing<'_>) -> Result<String, TooLong> {
    written(
        formula,
        writing,
        Manner {
            basis: Basis::LeftOut,
            ..Manner::FULL
        },
    )
}

/// A formula's plain text in brackets; that its own direction is not known then stands within them.
pub(in crate::naming) fn bracketed(text: &str) -> String {
    match text.strip_suffix(" (direction unknown)") {
        Some(formula) => format!("({formula}, direction unknown)"),
        None => format!("({text})"),
    }
}

pub(super) fn written(
    formula: &Formula,
    writing: &Writing<'_>,
    manner: Manner,
) -> Result<String, TooLong> {
    let directions = Directions::of(formula);
    let pen = Pen {
        formula,
        writing,
        manner,
        genus: writing.vocabulary.genus_short(),
        mark_known: manner.sexes && (writing.sexes || directions.mixed()),
        ink: Ink::new(writing.style),
        tasks: Vec::new(),
    };
    pen.write(directions)
}

/// What is still to be written.
enum Task {
    Part(PartId),
    Inside(PartId),
    Marks(PartId),
    OwnMarks(PartId),
    Roman(&'static str),
    Written(String),
    Generation(usize),
    Sign,
    Female,
    Male,
}

struct Pen<'f> {
    formula: &'f Formula,
    writing: &'f Writing<'f>,
    manner: Manner,
    genus: String,
    mark_known: bool,
    ink: Ink,
    tasks: Vec<Task>,
}

impl Pen<'_> {
    fn write(mut self, directions: Directions) -> Result<String, TooLong> {
        if self.manner.genus_once && !self.all_coded() {
            self.ink.latin(&self.genus.clone());
            self.ink.roman(" ");
        }
        self.tasks.push(Task::Part(self.formula.top()));
        while let Some(task) = self.tasks.pop() {
            self.perform(task);
            if self.ink.overflows() {
                return Err(TooLong::of(self.formula));
            }
        }
        self.basis(directions);
        Ok(self.ink.text)
    }

    fn perform(&mut self, task: Task) {
        match task {
            Task::Part(id) => self.part(id, false),
            Task::Inside(id) => self.part(id, true),
            Task::Marks(id) => self.marks(id, true),
            Task::OwnMarks(id) => self.clone_marks(id),
            Task::Roman(text) => self.ink.roman(text),
            Task::Written(text) => self.ink.text.push_str(&text),
            Task::Generation(number) => self.ink.roman(&format!(" F{number}")),
            Task::Sign => self.ink.cross(),
            Task::Female => self.ink.female(),
            Task::Male => self.ink.male(),
        }
    }

    /// Tasks are taken from the end, so what comes first is pushed last.
    fn then(&mut self, tasks: impl IntoIterator<Item = Task, IntoIter: DoubleEndedIterator>) {
        self.tasks.extend(tasks.into_iter().rev());
    }

    fn part(&mut self, id: PartId, inside: bool) {
        match self.formula.part(id) {
            Part::Leaf(leaf) => {
                self.leaf(leaf);
                self.marks(id, false);
            }
            Part::Cross(cross) => self.cross(id, *cross, inside),
            Part::OneOf(parts) => self.one_of(id, parts, inside),
            Part::Mixed(parts) => self.mixed(id, parts),
        }
    }

    fn leaf(&mut self, leaf: &Leaf) {
        if let Some(code) = self.code(leaf) {
            return self.ink.roman(&code);
        }
        let genus = Some(self.genus.as_str()).filter(|_| !self.manner.genus_once);
        leaf::leaf(&mut self.ink, genus, leaf);
    }

    fn code(&self, leaf: &Leaf) -> Option<String> {
        match leaf {
            Leaf::Species {
                epithet,
                qualifier: None,
                infraspecific: None,
            } if self.manner.codes => self.writing.vocabulary.code_of(epithet),
            _ => None,
        }
    }

    fn all_coded(&self) -> bool {
        crate::naming::formula::leaves(self.formula).all(|leaf| self.code(leaf).is_some())
    }

    /// Labels may be left out; that a parent is only claimed never is.
    fn marks(&mut self, id: PartId, without_cultivar: bool) {
        let marks = self.formula.marks(id);
        if self.manner.tags {
            leaf::marks(&mut self.ink, marks, without_cultivar);
        } else if self.manner.codes && marks.certainty != Certainty::Stated {
            self.ink.roman("?");
        } else {
            leaf::certainty(&mut self.ink, marks);
        }
    }

    /// Whether anything is written behind a part, so that it needs brackets of its own.
    fn is_marked(&self, id: PartId) -> bool {
        let marks = self.formula.marks(id);
        marks.certainty != Certainty::Stated || (self.manner.tags && !marks.is_empty())
    }

    fn cross(&mut self, id: PartId, cross: Cross, inside: bool) {
        let cultivar = self
            .formula
            .marks(id)
            .cultivar()
            .filter(|_| self.manner.tags);
        if let Some(epithet) = cultivar {
            let epithet = epithet.to_owned();
            if !self.manner.genus_once {
                self.ink.latin(&self.genus.clone());
                self.ink.roman(" ");
            }
            leaf::cultivar(&mut self.ink, &epithet);
            self.ink.roman(" ");
        }
        let marked = self.is_marked(id);
        let clones = self.clones(&cross);
        let bracket = cultivar.is_some() || ((inside || marked) && !clones);
        self.tasks.push(Task::Marks(id));
        if bracket {
            self.tasks.push(Task::Roman(")"));
        }
        self.content(cross, clones, bracket);
        if bracket {
            self.tasks.push(Task::Roman("("));
        }
    }

    /// Two plants of one species: `N. rajah (clone A × clone B)`, since no sign stands within a species.
    fn clones(&self, cross: &Cross) -> bool {
        let (seed, pollen) = (
            self.formula.part(cross.seed),
            self.formula.part(cross.pollen),
        );
        cross.relation == Relation::Plain
            && matches!((seed, pollen), (Part::Leaf(one @ Leaf::Species { .. }), Part::Leaf(other)) if one == other)
    }

    fn content(&mut self, cross: Cross, clones: bool, bracket: bool) {
        match cross.relation {
            Relation::Sib => self.then([Task::Inside(cross.seed), Task::Roman(" sib cross")]),
            Relation::SelfReported => {
                self.then([Task::Inside(cross.seed), Task::Roman(" (self reported)")])
            }
            Relation::Filial if !cross.is_written_out() => self.filial(cross),
            Relation::Filial | Relation::Plain => self.plain(cross, clones, bracket),
        }
    }

    fn plain(&mut self, cross: Cross, clones: bool, bracket: bool) {
        let unknown = cross.direction == Direction::Unknown && (bracket || clones);
        let marked = cross.direction == Direction::Known && self.mark_known;
        if clones {
            self.tasks.push(Task::Roman(")"));
        }
        if unknown {
            self.tasks.push(Task::Roman(", direction unknown"));
        }
        let side = |id| {
            if clones {
                Task::OwnMarks(id)
            } else {
                Task::Inside(id)
            }
        };
        if !clones && needs_own_brackets(self.formula, self.manner, &cross) {
            self.then([Task::Roman("("), side(cross.pollen), Task::Roman(")")]);
        } else {
            self.tasks.push(side(cross.pollen));
        }
        if marked {
            self.tasks.push(Task::Male);
        }
        self.tasks.push(Task::Sign);
        self.tasks.push(side(cross.seed));
        if marked {
            self.tasks.push(Task::Female);
        }
        if clones {
            self.then([Task::Roman(" (")]);
            if let Part::Leaf(leaf) = self.formula.part(cross.seed) {
                self.clone_species(leaf);
            }
        }
    }

    /// The species stands before the bracket; brackets opened by the cross itself come first, hence at once.
    fn clone_species(&mut self, leaf: &Leaf) {
        let mut ink = Ink::new(self.writing.style);
        std::mem::swap(&mut ink, &mut self.ink);
        self.leaf(leaf);
        std::mem::swap(&mut ink, &mut self.ink);
        self.tasks.push(Task::Written(ink.text));
    }

    fn clone_marks(&mut self, id: PartId) {
        let mut ink = Ink::new(self.writing.style);
        std::mem::swap(&mut ink, &mut self.ink);
        self.marks(id, false);
        std::mem::swap(&mut ink, &mut self.ink);
        let named = self.manner.tags && !self.formula.marks(id).tags.is_empty();
        let text = if named {
            ink.text.trim_start().to_owned()
        } else {
            format!("unnamed clone{}", ink.text)
        };
        self.ink.text.push_str(&text);
    }

    /// F2, F3 …: counted from the cross at the bottom, so that the number is true.
    fn filial(&mut self, cross: Cross) {
        let (mut number, mut base, mut at) = (2, None, cross.seed);
        while let Part::Cross(below) = self.formula.part(at)
            && below.relation == Relation::Filial
            && !below.is_written_out()
        {
            if base.is_none() && !self.formula.marks(at).is_empty() {
                base = Some(at);
            }
            number += 1;
            at = below.seed;
        }
        self.then([Task::Inside(base.unwrap_or(at)), Task::Generation(number)]);
    }

    fn one_of(&mut self, id: PartId, parts: &[PartId], inside: bool) {
        let bracket = inside || self.is_marked(id);
        self.tasks.push(Task::Marks(id));
        self.listed(parts, " or ", if bracket { ")" } else { "" });
        self.tasks.push(Task::Roman(if bracket { "(" } else { "" }));
    }

    fn mixed(&mut self, id: PartId, parts: &[PartId]) {
        self.tasks.push(Task::Marks(id));
        self.listed(parts, ", ", ")");
        self.tasks.push(Task::Roman("mixed pollen ("));
    }

    fn listed(&mut self, parts: &[PartId], between: &'static str, close: &'static str) {
        self.tasks.push(Task::Roman(close));
        for (place, part) in parts.iter().enumerate().rev() {
            self.tasks.push(Task::Inside(*part));
            if place > 0 {
                self.tasks.push(Task::Roman(between));
            }
        }
    }

    /// What the order is based on, in brackets at the end.
    fn basis(&mut self, found: Directions) {
        let female = if self.writing.style == super::Style::Ascii {
            "f"
        } else {
            "♀"
        };
        let (manner, open) = (self.manner.basis, self.top_is_unknown());
        if let Some(basis) = basis(found, manner, open, self.mark_known, female) {
            self.ink.roman(&format!(" ({basis})"));
        }
    }

    fn top_is_unknown(&self) -> bool {
        let top = self.formula.top();
        let bracketed = self.is_marked(top);
        matches!(self.formula.part(top), Part::Cross(cross)
            if cross.direction == Direction::Unknown && cross.is_written_out() && !bracketed && !self.clones(cross))
    }
}
