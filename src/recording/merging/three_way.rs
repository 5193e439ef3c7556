//! One page from two that came from a third: what only one side changed is taken, what both changed is a conflict.

use super::conflict::{Conflict, Decisions, Place, Side, Three, entry_of, field_of};
use super::lists::{Manner, is_in_order, is_one_fact, keys, keys_by_days, manner};
use super::sitting::merged_readings;
use crate::record::{Day, Hemisphere, When};
use crate::recording::says::dates::said;
use crate::recording::says::value::{Record, Value};
use std::collections::BTreeMap;

/// A merge of pages.
pub struct Merging<'d> {
    /// Whose word stays.
    pub decisions: &'d Decisions,
    /// Reads dates with seasons.
    pub hemisphere: Hemisphere,
    /// What both sides changed, so far.
    pub conflicts: Vec<Conflict>,
    /// Names of one day that either side accepted by itself, so far.
    pub two_names: Vec<TwoNames>,
}

/// Two opinions on one plant, one of either side, which are accepted on one day and name it differently.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TwoNames {
    /// The plant.
    pub plant: String,
    /// The day, as it is written here.
    pub on: String,
    /// The name here, and the name there.
    pub names: [String; 2],
}

impl Merging<'_> {
    /// The value that stays.
    pub fn value(&mut self, field: &str, place: &Place, of: Three) -> Option<Value> {
        if of.ours == of.theirs || of.base == of.theirs {
            return of.ours.cloned();
        }
        if of.base == of.ours {
            return of.theirs.cloned();
        }
        if let Some(same) = self.same_days(field, of) {
            return same.cloned();
        }
        match (of.ours, of.theirs) {
            (Some(Value::Record(ours)), Some(Value::Record(theirs))) if !is_one_fact(field) => {
                let base = of.base.and_then(Value::record);
                Some(Value::Record(self.record(place, base, ours, theirs)))
            }
            _ if field == "fate" && of.theirs.is_some() && of.ours.is_some_and(is_elsewhere) => {
                of.theirs.cloned()
            }
            _ if field == "fate" && of.ours.is_some() && of.theirs.is_some_and(is_elsewhere) => {
                of.ours.cloned()
            }
            _ => self.list_or_conflict(field, place, of),
        }
    }

    /// A value of which two sides say the same days in other words: of the two sides the same form from either; else what the
    /// side that changed more than a spelling says.
    fn same_days<'v>(&self, field: &str, of: Three<'v>) -> Option<Option<&'v Value>> {
        let says = |value: Option<&Value>| Some(said(field, value?, self.hemisphere));
        let [base, here, there] = [of.base, of.ours, of.theirs].map(says);
        if let Some((ours, theirs)) = of.ours.zip(of.theirs).filter(|_| here == there) {
            return Some(Some(std::cmp::min_by_key(ours, theirs, |of| {
                of.canonical()
            })));
        }
        // Each field of a record, and each entry of a list, is looked at for itself.
        let is_parted = |of: Option<&Value>| match of {
            Some(Value::Record(_)) => !is_one_fact(field),
            Some(Value::List(_)) => manner(field) != Manner::Whole,
            _ => false,
        };
        if base.is_none() || is_parted(of.base) {
            return None;
        }
        match (base == there, base == here) {
            (true, _) => Some(of.ours),
            (_, true) => Some(of.theirs),
            _ => None,
        }
    }

    fn list_or_conflict(&mut self, field: &str, place: &Place, of: Three) -> Option<Value> {
        let manner = manner(field);
        let is_list = |of: Option<&Value>| of.is_none_or(|of| matches!(of, Value::List(_)));
        if manner == Manner::Whole || !is_list(of.ours) || !is_list(of.theirs) || !is_list(of.base)
        {
            return self.conflict(&named(place, field, manner), of);
        }
        let entries = |of: Option<&Value>| of.map_or(Vec::new(), |of| of.list().to_vec());
        let lists = [entries(of.base), entries(of.ours), entries(of.theirs)];
        let merged = self.list((field, manner), place, &lists);
        (!merged.is_empty()).then_some(Value::List(merged))
    }

    fn record(
        &mut self,
        place: &Place,
        base: Option<&Record>,
        ours: &Record,
        theirs: &Record,
    ) -> Record {
        let mut merged = Record::default();
        let is_sitting = ours.get("columns").is_some() && theirs.get("columns").is_some();
        let mut names: Vec<&str> = ours.fields().map(|(name, _)| name).collect();
        names.extend(
            theirs
                .fields()
                .map(|(name, _)| name)
                .filter(|name| ours.get(name).is_none()),
        );
        for name in names {
            if is_sitting && matches!(name, "columns" | "rows") {
                continue;
            }
            let of = Three {
                base: base.and_then(|base| base.get(name)),
                ours: ours.get(name),
                theirs: theirs.get(name),
            };
            merged.set(name, self.value(name, &field_of(place, name), of));
        }
        if is_sitting {
            let mut cell = |place: &Place, of: Three| self.value("", place, of);
            merged_readings(&mut cell, place, (base, ours, theirs), &mut merged);
        }
        merged
    }

    /// The entries of a list: those here, then those new there.
    fn list(
        &mut self,
        (field, manner): (&str, Manner),
        place: &Place,
        lists: &[Vec<Value>; 3],
    ) -> Vec<Value> {
        let keyed = lists
            .each_ref()
            .map(|list| keys_by_days(field, list, self.hemisphere));
        let shown = self.shown(manner, &keyed, lists);
        // An entry that is a value is read as one of its list, such as a day.
        let of_entry = if manner == Manner::Set { field } else { "" };
        let index = [0, 1, 2].map(|side| {
            let entries = keyed[side].iter().zip(&lists[side]);
            entries.collect::<BTreeMap<&(String, usize), &Value>>()
        });
        let there = keyed[2].iter().filter(|key| !index[1].contains_key(key));
        let mut merged = Vec::new();
        let mut sides = [false; 2];
        for key in keyed[1].iter().chain(there) {
            let of = Three {
                base: index[0].get(key).copied(),
                ours: index[1].get(key).copied(),
                theirs: index[2].get(key).copied(),
            };
            let place = entry_of(place, (field, manner), shown.get(key).unwrap_or(key));
            let value = self.value(of_entry, &place, of);
            let is_new = of.base.is_none();
            sides[0] |= is_new && of.theirs.is_none();
            sides[1] |= is_new && of.ours.is_none();
            merged.extend(value.map(|value| (is_new, value)));
        }
        if is_in_order(field) {
            self.accepted_on_one_day(&place.about, &index);
            if sides == [true; 2] {
                merged.sort_by_cached_key(|of| self.order_of_new(of));
            }
        }
        merged.into_iter().map(|(_, value)| value).collect()
    }

    /// The keys as the pages write them: as here, or there where the entry is not here.
    fn shown(
        &self,
        manner: Manner,
        keyed: &[Vec<(String, usize)>; 3],
        lists: &[Vec<Value>; 3],
    ) -> BTreeMap<(String, usize), (String, usize)> {
        let mut shown = BTreeMap::new();
        for side in [1, 2, 0] {
            for (key, written) in keyed[side].iter().zip(keys(manner, &lists[side])) {
                shown.entry(key.clone()).or_insert(written);
            }
        }
        shown
    }

    /// Keeps in mind which new opinions here and there are accepted, of one day, and of two names.
    fn accepted_on_one_day(&mut self, plant: &str, index: &Index) {
        let read = |on: &str| When::read(on, self.hemisphere).ok();
        let new = |side: usize, other: usize| {
            let known = [&index[0], &index[other]];
            let all = index[side].iter();
            let new = all.filter(move |(key, _)| !known.iter().any(|of| of.contains_key(*key)));
            new.filter_map(|(_, value)| accepted(value))
        };
        let mut found = Vec::new();
        for (on, own) in new(1, 2) {
            let one_day = new(2, 1).filter(|there| read(on).is_some() && read(on) == read(there.0));
            let others = one_day.filter(|there| there.1 != own);
            found.extend(others.map(|(_, other)| TwoNames {
                plant: plant.to_owned(),
                on: on.to_owned(),
                names: [own, other].map(str::to_owned),
            }));
        }
        self.two_names.append(&mut found);
    }

    /// What both sides added stands behind what was there, in the order of days, so that it is the same from either side.
    fn order_of_new(&self, (is_new, value): &(bool, Value)) -> (bool, Day, String) {
        if !is_new {
            return (false, Day::FIRST, String::new());
        }
        let on = match value {
            Value::Record(record) => record.text("on"),
            value => value.words(),
        };
        let when = on.and_then(|on| When::read(on, self.hemisphere).ok());
        (
            true,
            when.map_or(Day::FIRST, |when| when.first),
            value.canonical(),
        )
    }

    /// Both sides say something else: the word of one stays, if that is decided.
    pub fn conflict(&mut self, place: &Place, of: Three) -> Option<Value> {
        let kept = self.decisions.on(&place.about);
        self.conflicts.push(Conflict {
            about: place.about.clone(),
            steps: place.steps.clone(),
            here: of.ours.cloned(),
            there: of.theirs.cloned(),
            kept,
        });
        match kept {
            Some(Side::Theirs) => of.theirs.cloned(),
            _ => of.ours.cloned(),
        }
    }
}

/// Whether a fate says only that the plant never stood here. It contradicts no fate with the other grower.
fn is_elsewhere(fate: &Value) -> bool {
    fate.words() == Some("elsewhere")
}

/// The entries of a list as it was, here and there, by their keys with their numbers.
type Index<'v> = [BTreeMap<&'v (String, usize), &'v Value>; 3];

/// The day and the name of an opinion that is accepted.
fn accepted(value: &Value) -> Option<(&str, &str)> {
    let opinion = value.record()?;
    let is_accepted = opinion.text("accepted") == Some("true");
    is_accepted.then_some((opinion.text("on")?, opinion.text("name")?))
}

/// The place of a field whose name lists have too, such as `on`, where it holds one value.
fn named(place: &Place, field: &str, manner: Manner) -> Place {
    let mut place = place.clone();
    if manner != Manner::Whole {
        place.about = format!("{}, {field}", place.about);
    }
    place
}
