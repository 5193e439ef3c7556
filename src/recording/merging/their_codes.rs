//! Codes under which the records of another grower's registry come into this one.
//!
//! What is on record here already keeps its code here: a plant is known only by a code that a record of either side names.
//! Everything else keeps its code there, or gets the other registry's name before it where the code is taken.

use super::copy::Copy;
use super::renaming::NewCodes;
use super::same::{Same, can_be_one, is_another};
use crate::recording::handover::{Known, Told, given, teller};
use crate::recording::says::value::{Record, Value};
use crate::recording::slip::Slip;
use crate::registry::Registry;
use std::collections::{BTreeMap, BTreeSet};

/// The codes, and what of theirs is on record here.
#[derive(Default)]
pub struct TheirCodes {
    /// New codes of everything.
    pub codes: NewCodes,
    /// Founders, crosses and envelopes there that are our own here, by their codes there.
    pub own: BTreeSet<String>,
    /// Founders there that are on record here, as our own or not, by their codes there.
    pub founders: BTreeSet<String>,
    /// Our founders of which they took back what they had on record, by our codes.
    pub own_taken_back: BTreeSet<String>,
}

/// Gives everything there its code here, and what they took back the one that it had; `before` are their pages as they were
/// when they were last taken in, where they say something else now. `by` is the other registry's name, and each pair of
/// `same` is one founder.
///
/// # Errors
/// If a code with that name before it is taken too, or is no code, or a pair cannot be one founder.
pub fn their_codes(
    (ours, theirs): (&Copy, &Copy),
    before: &[Record],
    (by, same): (&str, &[Same]),
) -> Result<TheirCodes, Slip> {
    can_be_one((ours.registry, theirs.registry), by, same)?;
    let mut giving = Giving {
        ours: ours.registry,
        theirs: theirs.registry,
        by,
        same,
        known: Known::of(ours.registry),
        found: TheirCodes::default(),
    };
    giving.founders()?;
    giving.crosses()?;
    giving.envelopes()?;
    for page in before {
        giving.taken_back(page)?;
    }
    let mut found = giving.found;
    found.codes.traits = other_traits(ours, theirs, by);
    found.codes.before_places = format!("{by}, ");
    found.codes.of_others = third_growers(ours.registry, theirs.registry);
    Ok(found)
}

struct Giving<'a> {
    ours: &'a Registry<'a>,
    theirs: &'a Registry<'a>,
    by: &'a str,
    same: &'a [Same],
    known: Known<'a>,
    found: TheirCodes,
}

impl<'a> Giving<'a> {
    fn founders(&mut self) -> Result<(), Slip> {
        let theirs = self.theirs;
        for of in theirs.plants().filter_map(|plant| theirs.founder(plant)) {
            let told = teller(of.told_by.as_ref(), of.code, self.by);
            let foreign = of.foreign.as_ref().map(|of| (of.registry, of.code));
            let here =
                self.founder_here(of.code, [Some(told), foreign, Some((self.by, of.code))])?;
            self.found.founders.extend(here.map(|_| of.code.to_owned()));
            let new = given(self.ours, &[of.code.to_owned()], here, self.by)?;
            if self.is_own(of.code, here) {
                // Its pieces there are not those here.
                for piece in &of.ramets {
                    let piece = format!("{}-{}", of.code, piece.code);
                    self.found.codes.plants.rename(&piece, new.clone());
                }
            }
            self.found.codes.plants.rename(of.code, new);
        }
        Ok(())
    }

    /// The code here of a founder there, by the names it has or by the grower's word.
    fn founder_here(&self, code: &str, named: [Option<Told>; 3]) -> Result<Option<&'a str>, Slip> {
        let here = self.known.founder(named);
        let said = self.same.iter().find(|of| of.1 == code);
        match (here, said) {
            (Some(here), Some(pair)) if here != pair.0 => Err(is_another(pair, here)),
            (Some(here), _) => Ok(Some(here)),
            (None, said) => Ok(said.map(|pair| pair.0.as_str())),
        }
    }

    fn crosses(&mut self) -> Result<(), Slip> {
        let theirs = self.theirs;
        for cross in &theirs.crosses {
            let page = &cross.page;
            let told = teller(page.told_by.as_deref(), page.code, self.by);
            let here = self.known.cross(told);
            // A cross whose own code is free may still have a seedling whose code is not.
            let seedlings = cross.seedlings.iter().map(|&plant| theirs.code(plant));
            let codes: Vec<String> = std::iter::once(page.code.to_owned())
                .chain(seedlings)
                .collect();
            let new = given(self.ours, &codes, here, self.by)?;
            self.is_own(page.code, here);
            self.found.codes.plants.rename(page.code, new);
        }
        Ok(())
    }

    fn envelopes(&mut self) -> Result<(), Slip> {
        let theirs = self.theirs;
        for lot in &theirs.pollen {
            let told = teller(lot.told_by.as_ref(), lot.code, self.by);
            let here = self.known.envelope(told);
            let new = given(self.ours, &[lot.code.to_owned()], here, self.by)?;
            self.is_own(lot.code, here);
            self.found.codes.pollen.insert(lot.code.to_owned(), new);
        }
        Ok(())
    }

    /// What they had on record when it was last taken in, and have no more.
    fn taken_back(&mut self, page: &'a Record) -> Result<(), Slip> {
        let theirs = self.theirs;
        let is_founder = |code: &str| theirs.plant(code).is_some();
        for (code, told, foreign) in gone(page.records("clones"), is_founder, self.by) {
            let here = self
                .known
                .founder([Some(told), foreign, Some((self.by, code))]);
            let new = self.code_before(code, here)?;
            if self.found.own.contains(code) {
                self.found.own_taken_back.insert(new.clone());
            }
            self.found.codes.plants.rename(code, new);
        }
        let is_lot = |code: &str| theirs.pollen_lot(code).is_some();
        for (code, told, _) in gone(page.records("lots"), is_lot, self.by) {
            let new = self.code_before(code, self.known.envelope(told))?;
            self.found.codes.pollen.insert(code.to_owned(), new);
        }
        let cross = page.get("parents").map(|_| page).into_iter();
        for (code, told, _) in gone(cross, |code| theirs.cross(code).is_some(), self.by) {
            let new = self.code_before(code, self.known.cross(told))?;
            self.found.codes.plants.rename(code, new);
        }
        Ok(())
    }

    /// The code here of what they have no more.
    fn code_before(&mut self, code: &str, here: Option<&'a str>) -> Result<String, Slip> {
        self.is_own(code, here);
        given(self.ours, &[code.to_owned()], here, self.by)
    }

    /// Whether something there is our own here, which is kept in mind.
    fn is_own(&mut self, code: &str, here: Option<&str>) -> bool {
        let is_own = here.is_some_and(|here| !self.known.is_told(here));
        if is_own {
            self.found.own.insert(code.to_owned());
        }
        is_own
    }
}

/// How the names of places of third growers begin there.
fn third_growers(ours: &Registry, theirs: &Registry) -> Vec<String> {
    let tellers = theirs.tellers().into_iter();
    let third = tellers.filter(|by| Some(*by) != ours.settings.registry);
    third.map(|by| format!("{by}, ")).collect()
}

/// Records that are no more, by their codes there, with who told of each and by what code another registry knows it.
fn gone<'a>(
    records: impl Iterator<Item = &'a Record>,
    is_there: impl Fn(&str) -> bool,
    by: &'a str,
) -> impl Iterator<Item = (&'a str, Told<'a>, Option<Told<'a>>)> {
    let gone = records.filter_map(move |record| {
        let code = record.text("code").filter(|code| !is_there(code))?;
        let told = named(record, "told_by").unwrap_or((by, code));
        Some((code, told, named(record, "foreign")))
    });
    gone.collect::<Vec<_>>().into_iter()
}

/// A registry and a code in it that a field of a record names.
fn named<'a>(record: &'a Record, field: &str) -> Option<Told<'a>> {
    let of = record.inside(field)?;
    Some((of.text("registry")?, of.text("code")?))
}

/// Traits of one code that are read in two ways: theirs get another code. One that got another code there in that way, and
/// is ours, has its own here.
fn other_traits(ours: &Copy, theirs: &Copy, by: &str) -> BTreeMap<String, String> {
    let page = |copy: &Copy| {
        copy.text("registry.ron")
            .and_then(Record::of_page)
            .unwrap_or_default()
    };
    let (here, there) = (page(ours), page(theirs));
    let reads = |of: &Record| of.get("reads").map(Value::canonical);
    let own: BTreeMap<&str, Option<String>> = here
        .records("traits")
        .filter_map(|of| Some((of.text("code")?, reads(of))))
        .collect();
    let us = ours.registry.settings.registry.unwrap_or_default();
    let differ = there.records("traits").filter_map(|of| {
        let code = of.text("code")?;
        let came = code
            .strip_prefix(us)
            .and_then(|rest| rest.strip_prefix('-'));
        if let Some(ours) = came.filter(|ours| own.get(ours) == Some(&reads(of))) {
            return Some((code.to_owned(), ours.to_owned()));
        }
        let read = own.get(code)?;
        (*read != reads(of)).then(|| (code.to_owned(), format!("{by}-{code}")))
    });
    differ.collect()
}
