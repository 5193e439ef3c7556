//! Founders that both copies added under two codes and that the grower says are one plant.
//!
//! The code that comes first in the order of lists stays, so it is the same whoever merges.

use super::conflict::Side;
use super::pages::{About, Pairs, Renames};
use super::renaming::new_codes;
use super::same::{Same, founder_of, refused};
use crate::recording::says::value::Record;
use crate::recording::slip::Slip;
use crate::registry::Registry;
use crate::registry::ids::natural_order;
use std::collections::BTreeSet;

/// Two founders that become one.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Joined {
    /// Its code here before.
    pub ours: String,
    /// Its code there before.
    pub theirs: String,
    /// Whose code stays.
    pub stays: Side,
}

impl Joined {
    /// The code that stays.
    pub fn code(&self) -> &str {
        match self.stays {
            Side::Ours => &self.ours,
            Side::Theirs => &self.theirs,
        }
    }
}

/// What becomes one; `known` are the codes of each side that earlier merges changed.
///
/// # Errors
/// If a code is no founder of its side, or is on the other side or was on both.
pub fn joined(
    (ours, theirs): (&Registry, &Registry),
    (pairs, known): (&Pairs, &[Renames; 2]),
    same: &[Same],
) -> Result<Vec<Joined>, Slip> {
    let [here, there] = known.each_ref().map(|of| new_codes(of));
    let [base, own, other] = founders(pairs);
    let mut seen = BTreeSet::new();
    let join = |pair: &Same| {
        founder_of(ours, pair, &pair.0, "here")?;
        founder_of(theirs, pair, &pair.1, "there")?;
        let (ours, theirs) = (here.plants.of(&pair.0), there.plants.of(&pair.1));
        let is_new =
            |code: &String, other: &BTreeSet<String>| !base.contains(code) && !other.contains(code);
        if !is_new(&ours, &other) || !is_new(&theirs, &own) {
            let recorded = "not each of them is new on its own side alone".to_owned();
            let help = "name two founders whose codes the other copy does not have";
            return Err(refused(pair, recorded, help));
        }
        if !seen.insert(ours.clone()) || !seen.insert(theirs.clone()) {
            let recorded = "another --same names one of them".to_owned();
            return Err(refused(pair, recorded, "name each plant once"));
        }
        let stays = match natural_order(&ours, &theirs).is_le() {
            true => Side::Ours,
            false => Side::Theirs,
        };
        Ok(Joined {
            ours,
            theirs,
            stays,
        })
    };
    same.iter().map(join).collect()
}

/// Codes of the founders that both came from, here, and there.
pub fn founders(pairs: &Pairs) -> [BTreeSet<String>; 3] {
    let pair = pairs.get(&About::Page("clones.ron"));
    let texts = pair.map(|pair| pair.texts()).unwrap_or_default();
    texts.map(|text| {
        let page = text.and_then(Record::of_page).unwrap_or_default();
        let codes = page.by_text("clones", "code");
        codes.map(|(code, _)| code.to_owned()).collect()
    })
}

/// Old codes of a side, with the ones that stay.
pub fn renames(joined: &[Joined], side: Side) -> Renames {
    let given_up = joined.iter().filter(|of| of.stays != side);
    let rename = |of: &Joined| {
        let was = match side {
            Side::Ours => &of.ours,
            Side::Theirs => &of.theirs,
        };
        (was.clone(), of.code().to_owned())
    };
    given_up.map(rename).collect()
}
