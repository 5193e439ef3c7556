//! Lists of seedlings too long for one page: which page holds what.

use super::door::Door;
use crate::wording::Name;

/// The most seedlings a page lists.
pub(super) const LISTED: usize = 500;
/// The most crosses a page lists: each takes about as much as four seedlings.
const CROSSES: usize = 100;

/// The pages over which a list goes on.
#[derive(Clone, Debug)]
pub struct Pager {
    /// The page itself, from 0.
    pub at: usize,
    /// All of them, in order.
    pub paths: Vec<String>,
}

/// A cross with seedlings in it.
#[derive(Clone)]
pub struct SpeciesCrossRow {
    /// The cross.
    pub door: Door,
    /// Name of its seedlings.
    pub name: Name,
    /// The share of a species in it, in words; empty where none is asked for.
    pub share: String,
    /// Seedlings: number and page.
    pub seedlings: Vec<(String, String)>,
}

/// A page that goes on with a list.
pub struct FurtherPage {
    /// The part of the album it belongs to.
    pub part: &'static str,
    /// What the list is of.
    pub of: Door,
    /// What it says is listed.
    pub heading: String,
    /// Crosses with seedlings; the cross itself has no name here.
    pub crosses: Vec<SpeciesCrossRow>,
    /// The pages of the list.
    pub pager: Pager,
}

/// Crosses in parts of so many seedlings and crosses that each fits on a page; a long cross goes on in the next part.
pub(super) fn parts(crosses: Vec<SpeciesCrossRow>) -> Vec<Vec<SpeciesCrossRow>> {
    let mut parts: Vec<Vec<SpeciesCrossRow>> = vec![Vec::new()];
    let mut room = LISTED;
    for mut cross in crosses {
        let mut left = std::mem::take(&mut cross.seedlings);
        loop {
            let part = parts.last_mut().expect("there is always one");
            if room == 0 || part.len() == CROSSES {
                parts.push(Vec::new());
                room = LISTED;
                continue;
            }
            let rest = left.split_off(left.len().min(room));
            room -= left.len();
            part.push(SpeciesCrossRow {
                seedlings: left,
                ..cross.clone()
            });
            left = rest;
            if left.is_empty() {
                break;
            }
        }
    }
    parts
}

/// Where the further pages of a page lie: `species/ventricosa.2.html`. No name of a page holds a full stop.
pub(super) fn further_path(path: &str, at: usize) -> String {
    match at {
        0 => path.to_owned(),
        at => format!("{}.{}.html", path.trim_end_matches(".html"), at + 1),
    }
}

impl Pager {
    pub(super) fn of(path: &str, pages: usize, at: usize) -> Pager {
        Pager {
            at,
            paths: (0..pages).map(|at| further_path(path, at)).collect(),
        }
    }
}
