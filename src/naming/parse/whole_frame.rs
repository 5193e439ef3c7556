//! A frame filled and closed: parents added, joined, and made one part of the formula.

use crate::naming::formula::{Direction, Leaf, Part, PartId};
use crate::naming::notes::{Refusal, RefusalCode};

use super::frame::{Called, Frame, Generation, Join, Parent, ParentName, Role};
use super::generation::WHICH_PLANT;
use super::parser::Parser;

impl Parser<'_> {
    /// Adds a parent to the open frame; what was waiting for it (sex, genus, sign) is used up.
    pub(super) fn add_parent(&mut self, part: PartId, name: Option<ParentName>) {
        let individuals = self.last_is_individual();
        let frame = self.frame();
        frame.individuals |= individuals;
        let sex = frame.sex.take();
        frame.genus = false;
        frame.name_sign = None;
        frame.qualifier = None;
        let named = name.is_some();
        frame.parents.push(Parent {
            name,
            ..Parent::new(part, sex)
        });
        let (doubted, hybrid) = (
            std::mem::take(&mut frame.next_doubted),
            std::mem::take(&mut frame.next_hybrid),
        );
        match hybrid {
            Some(Called::HybridOf) if named => self.give_partner(),
            Some(_) => self.hybrid_of_unknown(),
            None => {}
        }
        if doubted {
            self.doubt_part();
        }
    }

    fn last_is_individual(&mut self) -> bool {
        let Some(last) = self.current() else {
            return false;
        };
        let quoted = matches!(self.builder.part(last), Part::Leaf(Leaf::Quoted { .. }));
        quoted || self.builder.marks(last).is_individual()
    }

    /// Joins the next parent to what has been read.
    pub(super) fn join(&mut self, join: Join) {
        let column = self.here().column;
        if join != Join::Cross {
            self.frame().joined_at.get_or_insert(column);
        }
        self.frame().joins.push(join);
        self.at += 1;
    }

    /// Closes the frame of the bracket at hand and makes its content a parent of the frame around it.
    pub(super) fn close_bracket(&mut self) -> Result<(), Refusal> {
        if self.frames.len() == 1 {
            return self.refuse(
                RefusalCode::NotUnderstood,
                "a bracket is closed here that was not opened here",
            );
        }
        let (role, untouched) = (self.frame().role, self.frame().is_untouched());
        if untouched {
            return self.refuse(
                RefusalCode::BracketsEmpty,
                "nothing stands between these brackets; name a parent",
            );
        }
        let column = self.frame().column;
        let part = self.finish_frame()?;
        self.frames.pop();
        self.at += 1;
        match role {
            Role::Group | Role::Mixed => self.add_parent(part, None),
            Role::Parentage | Role::Clones => self.give_parentage(part, column)?,
        }
        Ok(())
    }

    /// The formula of the open frame.
    pub(super) fn finish_frame(&mut self) -> Result<PartId, Refusal> {
        if self.frame().wants_parent() {
            return self.parent_missing();
        }
        let mut frame = std::mem::replace(self.frame(), Frame::new(Role::Group, 1));
        open_pollination_is_of_one(&frame)?;
        if frame.role == Role::Mixed {
            let parts: Vec<PartId> = frame.parents.iter().map(|parent| parent.part).collect();
            return Ok(self.builder.mixed(parts));
        }
        if self.frames.len() == 1 && frame.joins.first() == Some(&Join::With) {
            let text = "two plants are joined without a sign; write × between parents, or name the seed parent first";
            let column = frame.joined_at.unwrap_or(frame.column);
            return Err(Refusal::new(RefusalCode::SignMissing, column, text));
        }
        let sides = self.sides(&frame).len();
        self.nesting_is_said(sides, frame.column)?;
        self.hybrid_is_of_one(&mut frame)?;
        self.sex_is_of_one(&mut frame)?;
        let sides = self.sides(&frame);
        let mut part = self.cross_all(&frame, sides)?;
        let base = self.bred_from(part);
        if (frame.direction_unknown || frame.whole.natural)
            && let Some(cross) = self.builder.cross_mut(base)
        {
            cross.direction = Direction::Unknown;
        }
        for (name, column) in &frame.names {
            part = self.check_name(part, name, *column)?;
        }
        if let Some(column) = frame.open_pollinated {
            part = self.generation_of(part, Generation::OpenPollinated, column)?;
        }
        for (generation, column) in &frame.generations {
            part = self.generation_of(part, generation.clone(), *column)?;
        }
        if let (Some(Called::HybridOf), [only]) = (frame.whole.hybrid, &frame.parents[..])
            && only.name.is_some()
        {
            frame.whole.hybrid = None;
            part = self.partnered(part);
        }
        Ok(self.say_of_whole(part, frame.whole))
    }

    pub(super) fn parent_missing<T>(&mut self) -> Result<T, Refusal> {
        let frame = self.frame();
        if frame.genus || frame.qualifier.is_some() {
            return self.refuse(
                RefusalCode::EpithetMissing,
                "an epithet is missing after the genus or qualifier",
            );
        }
        let side = if frame.parents.is_empty() {
            "before"
        } else {
            "after"
        };
        self.refuse(
            RefusalCode::ParentMissing,
            format!("a parent is missing {side} the sign; write `?` if it is not known"),
        )
    }
}

/// `OP ventricosa × lowii` does not say which plant was left to open pollination.
fn open_pollination_is_of_one(frame: &Frame) -> Result<(), Refusal> {
    match frame.open_pollinated {
        Some(column) if frame.parents.len() > 1 || frame.role == Role::Mixed => Err(Refusal::new(
            RefusalCode::NotUnderstood,
            column,
            WHICH_PLANT,
        )),
        _ => Ok(()),
    }
}
