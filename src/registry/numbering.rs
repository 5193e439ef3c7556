//! Rows for all plants, founders first, and the origins of their pods.
//!
//! Crosses are numbered as units, since all seedlings of one have the same possible parents; a seedling from a muddled
//! tray, which may belong to another cross, is a unit of its own that comes after those crosses. Of a loop one unit
//! loses its parents, with a finding that names the whole loop, and the rest goes on.

use super::cross::Cross;
use super::mating::{Mating, Side};
use super::muddled::muddled;
use super::older::leave_out_descendants;
use super::order::founders_first;
use super::parents::Codes;
use super::plants::Unseen;
use super::rows::{Numbered, Rows};
use super::units::Units;
use crate::diagnostic::Findings;

/// Gives every plant its row.
pub(super) fn number<'t>(
    codes: &Codes<'t>,
    parts: &mut [Cross<'t>],
    unseen: &mut [Unseen<'t>],
    mut matings: Vec<Mating<'t>>,
    founders: usize,
    findings: &mut Findings,
) -> Numbered {
    let mut muddled = muddled(codes, parts, findings);
    leave_out_descendants(&mut muddled, unseen, &matings);
    let units = Units {
        sources: codes.sources,
        parts,
        unseen,
        muddled: &muddled,
        matings: &matings,
    };
    let mut without_parents = Vec::new();
    let order = founders_first(&units.links(), |in_loop| {
        findings.push(units.own_ancestor(in_loop));
        without_parents.push(in_loop[0]);
    });
    for unit in without_parents {
        match (unit as usize).checked_sub(parts.len()) {
            None => matings[unit as usize].pairs = vec![(Side::Unknown, Side::Unknown, 0)],
            Some(at) => {
                muddled[at].crosses.clear();
                muddled[at].pods.clear();
            }
        }
    }
    let rows = Rows {
        parts,
        unseen,
        muddled: &muddled,
        matings: &matings,
        given: Numbered::default(),
    };
    rows.give(founders, &order)
}
