//! What a page of another grower says here: whose record each is, what stays with them, and that their plants stand there.

use super::let_go::only_the_day;
use super::of_ours::{Growers, Stayed, of_ours};
use super::one_entry::one_entry_each;
use super::others::OtherMerge;
use super::our_pages::{Ours, codes_of};
use super::pages::About;
use super::their_codes::TheirCodes;
use crate::recording::handover::LISTS;
use crate::recording::says::value::{Record, Value};
use crate::recording::written::text;
use std::collections::{BTreeMap, BTreeSet};

/// What of a page finds no place here: records that stay there, and fields in words.
pub(super) type NotHere = (Vec<Stayed>, Vec<String>);

/// What a grower records of a plant of their own house; of a plant that both have each keeps this. Strokes
/// stand between the fields.
const OF_A_HOUSE: &str = "received | from | on | form | supplier_code | batch | confidence | name_as | papers | nights | nickname | \
    ramets | pots | treatments | foreign | told_by | kept | fate | came_back | note";

/// What a plant has where it stands.
const WHERE_IT_STANDS: [&str; 6] = ["fate", "came_back", "kept", "place", "ramets", "pots"];

impl OtherMerge<'_> {
    /// Says of a page that is not about a cross of ours what it says here; `before` is what it said there.
    pub(super) fn on_record(
        &self,
        about: &About,
        page: &mut Record,
        (before, place): (&Record, &About),
        (codes, ours): (&TheirCodes, &Ours),
    ) -> NotHere {
        if matches!(about, About::Page("clones.ron") | About::Cross(_)) {
            only_the_day(page);
        }
        match about {
            About::Page("clones.ron") => return self.founders(page, before, codes, ours),
            About::Page("pollen.ron") => self.envelopes(page, before, codes, ours),
            About::Page("registry.ron") => settings(page, ours, self.growers()),
            About::Page(_) => species(page, ours),
            About::Cross(code) => self.cross(page, code, place, ours),
        }
        NotHere::default()
    }

    /// The two growers, as each is called by the other.
    pub(super) fn growers(&self) -> Growers<'_> {
        Growers {
            hemisphere: self.ours.registry.settings.hemisphere,
            us: self.ours.registry.settings.registry.unwrap_or_default(),
            by: self.by,
        }
    }

    /// Leaves what comes in of a cross of ours; what stays there.
    pub(super) fn own_cross(&self, page: &mut Record, place: &About, ours: &Ours) -> Vec<Stayed> {
        let own = ours.pages.get(place);
        let what = own.map(|own| of_ours(page, own, self.growers()));
        let stayed = what.filter(|what| !what.is_empty()).map(|what| Stayed {
            of: place.words().to_owned(),
            what,
        });
        stayed.into_iter().collect()
    }

    fn founders(
        &self,
        page: &mut Record,
        before: &Record,
        codes: &TheirCodes,
        ours: &Ours,
    ) -> NotHere {
        let mut there = codes_of(before, "clones");
        let growers = self.growers();
        let mut stayed = Vec::new();
        let mut own = BTreeSet::new();
        page.each("clones", |founder| {
            let was = there.next().unwrap_or_default();
            let known = ours.founder(founder.text("code"));
            if codes.own.contains(&was) {
                let fields = OF_A_HOUSE.split(" | ");
                fields.for_each(|field| founder.set(field, None));
                stayed.extend(growers.flowerings_stay(founder, known));
                own.extend(founder.text("code").map(str::to_owned));
                growers.opinions(founder, known);
                if self.same.iter().any(|pair| pair.1 == was) {
                    founder.set("foreign", Some(Value::Record(self.named(&was))));
                }
                return;
            }
            self.tell(founder, &was, known);
            if known.is_some_and(stands_here) {
                stayed.extend(growers.flowerings_stay(founder, known));
            }
            stands_there(founder, known);
        });
        for reading in growers.readings_of((&own, ours.page("clones.ron")), page) {
            match stayed
                .iter_mut()
                .find(|of: &&mut Stayed| of.of == reading.of)
            {
                Some(of) => of.what.extend(reading.what),
                None => stayed.push(reading),
            }
        }
        let came_back = before.records("clones").map(|of| {
            let told = of.inside("told_by");
            told.is_some_and(|told| told.text("registry") == Some(growers.us))
        });
        let left = one_entry_each(page, &came_back.collect::<Vec<bool>>());
        name_all(page, &codes.own_taken_back);
        (stayed, left)
    }

    fn cross(&self, page: &mut Record, was: &str, place: &About, ours: &Ours) {
        let known = ours.pages.get(place);
        self.tell(page, was, known);
        let seedlings = known.into_iter();
        let seedlings = seedlings.flat_map(|known| known.by_text("seedlings", "number"));
        let seedlings: BTreeMap<&str, &Record> = seedlings.collect();
        page.each("seedlings", |seedling| {
            let known = seedling
                .text("number")
                .and_then(|number| seedlings.get(number));
            stands_there(seedling, known.copied());
        });
    }

    fn envelopes(&self, page: &mut Record, before: &Record, codes: &TheirCodes, ours: &Ours) {
        let mut there = codes_of(before, "lots");
        page.retain("lots", |_| {
            !there.next().is_some_and(|was| codes.own.contains(&was))
        });
        let mut there = codes_of(before, "lots").filter(|was| !codes.own.contains(was));
        page.each("lots", |lot| {
            let was = there.next().unwrap_or_default();
            self.tell(lot, &was, ours.lot(lot.text("code")));
        });
    }

    /// Says whose record it is, as it was said when it first came. What they took in from a third grower is that one's, and
    /// the day is that on which it came here.
    fn tell(&self, record: &mut Record, code: &str, known: Option<&Record>) {
        let told = match record.inside("told_by") {
            Some(third) => third.clone(),
            None => {
                self.own_opinions(record);
                self.named(code)
            }
        };
        let known = known.and_then(|known| known.get("told_by").cloned());
        let told = known.unwrap_or_else(|| {
            let mut told = told;
            told.set_text("on", &self.today.to_string());
            Value::Record(told)
        });
        record.set("told_by", Some(told));
    }

    /// An opinion without a name is that of whoever keeps the record.
    fn own_opinions(&self, record: &mut Record) {
        let by = |opinion: &mut Record| {
            if opinion.get("by").is_none() {
                opinion.set_text("by", self.by);
            }
        };
        record.each("identified", by);
        record.each("seedlings", |seedling| seedling.each("identified", by));
    }

    /// A code in the other registry.
    fn named(&self, code: &str) -> Record {
        let mut named = Record::default();
        named.set_text("registry", self.by);
        named.set_text("code", code);
        named
    }

    /// Who is "me" there is another here.
    pub(super) fn not_me(&self, page: &mut Record) {
        let by = self.by;
        let change = |record: &mut Record| {
            if record.text("by") == Some("me") {
                record.set_text("by", by);
            }
        };
        page.each("sittings", change);
        page.each("treatments", change);
        for parts in ["clones", "seedlings", "sowings", "community_pots"] {
            page.each(parts, |plant| {
                plant.each("identified", change);
                plant.each("treatments", change);
            });
        }
    }
}

/// Names each of our founders that they had on record: one that is not named would count as taken out.
fn name_all(page: &mut Record, own: &BTreeSet<String>) {
    let named: BTreeSet<String> = codes_of(page, "clones").collect();
    let mut all = page.list("clones").to_vec();
    all.extend(own.difference(&named).map(|code| {
        let mut founder = Record::default();
        founder.set_text("code", code);
        Value::Record(founder)
    }));
    page.set_list("clones", all);
}

/// Whether a plant of theirs, or a piece of it, stands with us.
fn stands_here(known: &Record) -> bool {
    known.get("fate").is_none()
}

/// A plant stands there, unless it stands here: then what they recorded of its place ended when it left.
fn stands_there(plant: &mut Record, known: Option<&Record>) {
    match known {
        Some(known) if stands_here(known) => {
            WHERE_IT_STANDS
                .iter()
                .for_each(|field| plant.set(field, None));
        }
        _ if plant.get("fate").is_none() => {
            plant.set("fate", Some(Value::Plain("elsewhere".to_owned())));
        }
        _ => {}
    }
}

/// Traits and places that are new; everything else in `registry.ron` is about their own house. A trait of theirs that is
/// called as one of ours gets their name before it, as their places do.
fn settings(page: &mut Record, ours: &Ours, growers: Growers) {
    let own = ours.page("registry.ron");
    let mut settings = Record::default();
    for (list, key) in [("traits", "code"), ("places", "name")] {
        settings.set(list, page.get(list).cloned());
        settings.retain(list, |row| !growers.is_our_place(row));
        new_rows(&mut settings, own, list, key);
    }
    let names = texts(own, "traits", "name");
    settings.each("traits", |of| {
        let name = of.text("name").filter(|name| names.contains(name));
        if let Some(name) = name.map(|name| format!("{}, {name}", growers.by)) {
            of.set("name", Some(Value::Plain(text(&name))));
        }
    });
    // Whose record something is needs the second form.
    if own.and_then(|own| own.text("format")).is_none() {
        settings.set("format", Some(Value::Plain("2".to_owned())));
    }
    *page = settings;
}

/// Names that are new; a row that is here stays as it is.
fn species(page: &mut Record, ours: &Ours) {
    let own = ours.page("species.ron");
    for (list, key) in LISTS {
        new_rows(page, own, list, key);
    }
}

fn new_rows(page: &mut Record, own: Option<&Record>, list: &str, key: &str) {
    let known = texts(own, list, key);
    page.retain(list, |row| {
        row.text(key).is_none_or(|of| !known.contains(of))
    });
}

/// What the rows of a list of a page say in a field.
fn texts<'p>(page: Option<&'p Record>, list: &str, key: &str) -> BTreeSet<&'p str> {
    let rows = page.into_iter().flat_map(|page| page.records(list));
    rows.filter_map(|row| row.text(key)).collect()
}
