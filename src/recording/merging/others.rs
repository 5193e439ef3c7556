//! The registry of another grower comes into this one: everything in it is on record here as told by that grower and
//! stands there.

use super::conflict::Decisions;
use super::copy::Copy;
use super::history::History;
use super::likely::{Likely, founders, likely};
use super::merged::{Merged, merged_page, not_kept};
use super::of_ours::{Growers, Stayed, of_ours};
use super::pages::{About, Pair, Pairs, Sheet, sheets};
use super::placing::Placing;
use super::renaming::renamed;
use super::rewrite::changed;
use super::same::Same;
use super::seasons::as_months;
use super::their_codes::{TheirCodes, their_codes};
use super::value::{Record, Value};
use crate::record::{Day, Hemisphere};
use crate::recording::journal::checksum;
use crate::recording::slip::Slip;
use crate::text::on_cores;
use std::collections::{BTreeMap, BTreeSet};

/// The registry of another grower.
pub struct OtherMerge<'a> {
    /// This registry.
    pub ours: Copy<'a>,
    /// The other.
    pub theirs: Copy<'a>,
    /// Its short name.
    pub by: &'a str,
    /// Whose word stays for what.
    pub decisions: &'a Decisions,
    /// Founders here and there that the grower says are one plant each.
    pub same: &'a [Same],
    /// The day that counts as today.
    pub today: Day,
}

/// What a grower records of a plant of their own house; of a plant that both have each keeps this.
const OF_A_HOUSE: [&str; 19] = [
    "received",
    "from",
    "on",
    "form",
    "supplier_code",
    "batch",
    "confidence",
    "name_as",
    "papers",
    "nights",
    "nickname",
    "ramets",
    "pots",
    "treatments",
    "foreign",
    "told_by",
    "kept",
    "fate",
    "note",
];

/// What a plant has where it stands.
const WHERE_IT_STANDS: [&str; 5] = ["fate", "kept", "place", "ramets", "pots"];

impl OtherMerge<'_> {
    /// What the merge makes of the pages.
    ///
    /// # Errors
    /// If the two are of other halves of the world or other genera, a code cannot be, or a page cannot be changed.
    pub fn merged(&self) -> Result<Merged, Slip> {
        self.fit()?;
        let codes = their_codes(&self.ours, &self.theirs, (self.by, self.same))?;
        let mut ours = sheets(&self.ours);
        let known = Ours::of(&ours, &codes);
        let mut pairs = Pairs::new();
        let mut merged = Merged {
            own: codes.own.intersection(&codes.founders).cloned().collect(),
            own_crosses: self.own_crosses(&codes),
            likely: self.likely(&codes),
            ..Merged::default()
        };
        let mut seasons = BTreeMap::new();
        // What they no longer have stays here.
        for came in self.came(&codes, &known)? {
            merged.memory.pages.push(came.sum);
            let Some(told) = came.told else {
                continue;
            };
            let Told {
                place, text, what, ..
            } = told;
            seasons.insert(place.clone(), told.seasons);
            if let (About::Cross(cross), false) = (&place, what.is_empty()) {
                let cross = cross.clone();
                merged.stayed.push(Stayed { cross, what });
            }
            let pair = pairs.entry(place).or_insert_with_key(|place| Pair {
                ours: ours.remove(place),
                ..Pair::default()
            });
            pair.base = came.base.or(pair.base.take());
            pair.theirs = Some(Sheet {
                path: came.path,
                text,
            });
        }
        let mut pages = Placing::of(&self.ours);
        for (about, pair) in &pairs {
            let text = merged_page(
                (about, pair),
                (self.decisions, self.ours.registry),
                &mut merged,
            )?;
            if pair.ours.as_ref().map(|sheet| &sheet.text) != text.as_ref() {
                merged.seasons += seasons.get(about).copied().unwrap_or_default();
            }
            pages.put(about, pair, text);
        }
        merged.changes = pages.changes()?;
        merged.memory.not_kept = not_kept(&merged.clashes);
        Ok(merged)
    }

    /// Their pages as they are on record here, and as they were when they were last taken in.
    fn came(&self, codes: &TheirCodes, ours: &Ours) -> Result<Vec<Came>, Slip> {
        let (here, there) = (History::of(&self.ours), History::of(&self.theirs));
        let sheets = sheets(&self.theirs).into_iter().map(|(about, sheet)| {
            let was = here.taken_in(&there, &sheet.path);
            (about, sheet, was)
        });
        let sheets: Vec<(About, Sheet, Option<String>)> = sheets.collect();
        let length: usize = sheets.iter().map(|of| of.1.text.len()).sum();
        let came = on_cores(&sheets, length >= MUCH, |(about, sheet, was)| {
            let base = was.as_ref().map(|was| {
                let was = self.told(about, was, codes, ours)?;
                Ok::<_, Slip>(was.map(|told| told.text))
            });
            Ok(Came {
                sum: checksum(&sheet.text),
                path: sheet.path.clone(),
                told: self.told(about, &sheet.text, codes, ours)?,
                base: base.transpose()?,
            })
        });
        came.into_iter().collect()
    }

    fn own_crosses(&self, codes: &TheirCodes) -> Vec<String> {
        let crosses = codes.own.iter();
        let crosses = crosses.filter(|code| self.theirs.registry.cross(code).is_some());
        crosses.cloned().collect()
    }

    /// Founders that may be one of ours: new here, and on record here or there as no plant of the other side.
    fn likely(&self, codes: &TheirCodes) -> Vec<Likely> {
        let [ours, theirs] = [self.ours.registry, self.theirs.registry];
        let named = self.same.iter().map(|pair| pair.0.as_str());
        let named: BTreeSet<&str> = named.collect();
        let own = founders(ours, |of| {
            of.told_by.is_none() && of.foreign.is_none() && !named.contains(of.code)
        });
        let name = ours.settings.registry;
        let new = founders(theirs, |of| {
            let told = of.told_by.as_ref().map(|by| by.registry);
            let foreign = of.foreign.as_ref().map(|by| by.registry);
            let of_ours = [told, foreign].into_iter().flatten();
            !codes.founders.contains(of.code) && !of_ours.into_iter().any(|by| Some(by) == name)
        });
        let coded = new
            .into_iter()
            .map(|of| (of, codes.codes.plants.of(of.code)));
        let hemispheres = [ours, theirs].map(|of| of.settings.hemisphere);
        likely(&own, &coded.collect::<Vec<_>>(), hemispheres)
    }

    /// Labels mean the same on both sides.
    fn fit(&self) -> Result<(), Slip> {
        let (ours, theirs) = (&self.ours.registry.settings, &self.theirs.registry.settings);
        if ours.genus == theirs.genus {
            return Ok(());
        }
        Err(Slip::Contradicts {
            asked: "both registries in one".to_owned(),
            recorded: format!(
                "this registry is of {}, the other of {}",
                ours.genus, theirs.genus
            ),
            help: "a registry is of one genus: keep the other one by itself".to_owned(),
        })
    }

    /// The half of the world there and here.
    fn hemispheres(&self) -> (Hemisphere, Hemisphere) {
        let of = |copy: &Copy| copy.registry.settings.hemisphere;
        (of(&self.theirs), of(&self.ours))
    }

    /// A page of theirs as it is on record here, and what it is about; none for one that stays there.
    fn told(
        &self,
        about: &About,
        text: &str,
        codes: &TheirCodes,
        ours: &Ours,
    ) -> Result<Option<Told>, Slip> {
        let place = match about {
            About::Cross(code) => About::Cross(codes.codes.plants.of(code)),
            About::Page("goals.ron") => return Ok(None),
            page => page.clone(),
        };
        // Only for founders and envelopes does the code they had there matter.
        let (text, seasons) = as_months(text, self.hemispheres())?;
        let before = matches!(about, About::Page("clones.ron" | "pollen.ron"));
        let before = before.then(|| Record::of_page(&text)).flatten();
        let before = before.unwrap_or_default();
        let text = renamed(&text, &codes.codes)?;
        let page = changed(&text, |page| {
            let what = match about {
                About::Cross(code) if codes.own.contains(code) => {
                    self.own_cross(page, &place, ours)
                }
                _ => {
                    self.on_record(about, page, (&before, &place), (codes, ours));
                    Vec::new()
                }
            };
            self.not_me(page);
            what
        })?;
        Ok(page.map(|(text, what)| Told {
            place,
            text,
            what,
            seasons,
        }))
    }

    /// Says of a page that is not about a cross of ours what it says here; `before` is what it said there.
    fn on_record(
        &self,
        about: &About,
        page: &mut Record,
        (before, place): (&Record, &About),
        (codes, ours): (&TheirCodes, &Ours),
    ) {
        match about {
            About::Page("clones.ron") => self.founders(page, before, codes, ours),
            About::Page("pollen.ron") => self.envelopes(page, before, codes, ours),
            About::Page("registry.ron") => settings(page, ours, self.growers()),
            About::Page(_) => species(page, ours),
            About::Cross(code) => self.cross(page, code, place, ours),
        }
    }

    /// The two growers, as each is called by the other.
    fn growers(&self) -> Growers<'_> {
        Growers {
            hemisphere: self.ours.registry.settings.hemisphere,
            us: self.ours.registry.settings.registry.unwrap_or_default(),
            by: self.by,
        }
    }

    /// Leaves what comes in of a cross of ours; what stays there.
    fn own_cross(
        &self,
        page: &mut Record,
        place: &About,
        ours: &Ours,
    ) -> Vec<(usize, &'static str)> {
        match ours.pages.get(place) {
            Some(own) => of_ours(page, own, self.growers()),
            None => Vec::new(),
        }
    }

    fn founders(&self, page: &mut Record, before: &Record, codes: &TheirCodes, ours: &Ours) {
        let mut there = codes_of(before, "clones");
        let growers = self.growers();
        page.retain("sittings", |sitting| !growers.is_ours(sitting));
        page.each("clones", |founder| {
            let was = there.next().unwrap_or_default();
            let known = ours.founder(founder.text("code"));
            if codes.own.contains(&was) {
                OF_A_HOUSE.iter().for_each(|field| founder.set(field, None));
                founder.each("flowerings", |spike| spike.set("ramet", None));
                growers.opinions(founder, known);
                if self.same.iter().any(|pair| pair.1 == was) {
                    founder.set("foreign", Some(Value::Record(self.named(&was))));
                }
                return;
            }
            self.tell(founder, &was, known);
            stands_there(founder, known);
        });
    }

    fn cross(&self, page: &mut Record, was: &str, place: &About, ours: &Ours) {
        let known = ours.pages.get(place);
        self.tell(page, was, known);
        let seedlings = known
            .into_iter()
            .flat_map(|known| known.records("seedlings"));
        let seedlings: BTreeMap<&str, &Record> = seedlings
            .filter_map(|of| Some((of.text("number")?, of)))
            .collect();
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

    /// Says whose record it is, as it was said when it first came.
    fn tell(&self, record: &mut Record, code: &str, known: Option<&Record>) {
        if record.get("told_by").is_some() {
            return;
        }
        let told = known.and_then(|known| known.get("told_by").cloned());
        let told = told.unwrap_or_else(|| {
            let mut told = self.named(code);
            told.set("on", Some(Value::text(&self.today.to_string())));
            Value::Record(told)
        });
        record.set("told_by", Some(told));
    }

    /// A code in the other registry.
    fn named(&self, code: &str) -> Record {
        let mut named = Record::default();
        named.set("registry", Some(Value::text(self.by)));
        named.set("code", Some(Value::text(code)));
        named
    }

    /// Who is "me" there is another here.
    fn not_me(&self, page: &mut Record) {
        let by = self.by;
        let change = |record: &mut Record| {
            if record.text("by") == Some("me") {
                record.set("by", Some(Value::text(by)));
            }
        };
        page.each("sittings", change);
        page.each("treatments", change);
        for plants in ["clones", "seedlings"] {
            page.each(plants, |plant| {
                plant.each("identified", change);
                plant.each("treatments", change);
            });
        }
    }
}

/// Codes of the records of a list, in their order.
fn codes_of(page: &Record, list: &str) -> impl Iterator<Item = String> {
    let codes: Vec<String> = page
        .records(list)
        .map(|record| record.text("code").unwrap_or_default().to_owned())
        .collect();
    codes.into_iter()
}

/// A plant stands there, unless it stands here: then what they recorded of its place ended when it left.
fn stands_there(plant: &mut Record, known: Option<&Record>) {
    match known {
        Some(known) if known.get("fate").is_none() => {
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

/// Traits and places that are new; everything else in `registry.ron` is about their own house.
fn settings(page: &mut Record, ours: &Ours, growers: Growers) {
    let own = ours.page("registry.ron");
    let mut settings = Record::default();
    for (list, key) in [("traits", "code"), ("places", "name")] {
        settings.set(list, page.get(list).cloned());
        settings.retain(list, |row| !growers.is_our_place(row));
        new_rows(&mut settings, own, list, key);
    }
    // Whose record something is needs the second form.
    if own.and_then(|own| own.text("format")).is_none() {
        settings.set("format", Some(Value::Plain("2".to_owned())));
    }
    *page = settings;
}

/// Names that are new; a row that is here stays as it is.
fn species(page: &mut Record, ours: &Ours) {
    let own = ours.page("species.ron");
    for (list, key) in [
        ("species", "epithet"),
        ("named_hybrids", "epithet"),
        ("synonyms", "name"),
        ("codes", "code"),
        ("epithets", "epithet"),
    ] {
        new_rows(page, own, list, key);
    }
}

fn new_rows(page: &mut Record, own: Option<&Record>, list: &str, key: &str) {
    let known: BTreeSet<&str> = own
        .into_iter()
        .flat_map(|own| own.records(list))
        .filter_map(|row| row.text(key))
        .collect();
    page.retain(list, |row| {
        row.text(key).is_none_or(|of| !known.contains(of))
    });
}

/// So many bytes of pages are worth all cores.
const MUCH: usize = 1 << 20;

/// A page of theirs that comes.
struct Came {
    /// Its checksum.
    sum: String,
    path: String,
    /// As it is on record here; none where it stays there.
    told: Option<Told>,
    /// As it was on record here when it was last taken in; none inside where it stayed there.
    base: Option<Option<String>>,
}

/// A page of theirs as it is on record here.
struct Told {
    place: About,
    text: String,
    /// What of a cross of ours stays there.
    what: Vec<(usize, &'static str)>,
    /// Dates with seasons that are written as months.
    seasons: usize,
}

/// Our records that theirs may be about.
struct Ours {
    pages: BTreeMap<About, Record>,
    founders: BTreeMap<String, usize>,
    lots: BTreeMap<String, usize>,
}

impl Ours {
    fn of(sheets: &BTreeMap<About, Sheet>, codes: &TheirCodes) -> Ours {
        let own = codes.own.iter().map(|code| codes.codes.plants.of(code));
        let own: BTreeSet<String> = own.collect();
        let needed = |about: &About, sheet: &Sheet| {
            matches!(about, About::Page(_))
                || sheet.text.contains("told_by")
                || own.contains(about.words())
        };
        let pages = sheets.iter().filter(|(about, sheet)| needed(about, sheet));
        let pages: BTreeMap<About, Record> = pages
            .filter_map(|(about, sheet)| Some((about.clone(), Record::of_page(&sheet.text)?)))
            .collect();
        let index = |page: &'static str, list: &str| {
            let page = pages.get(&About::Page(page));
            let codes = page.into_iter().flat_map(|page| codes_of(page, list));
            codes.enumerate().map(|(at, code)| (code, at)).collect()
        };
        Ours {
            founders: index("clones.ron", "clones"),
            lots: index("pollen.ron", "lots"),
            pages,
        }
    }

    fn page(&self, page: &'static str) -> Option<&Record> {
        self.pages.get(&About::Page(page))
    }

    fn founder(&self, code: Option<&str>) -> Option<&Record> {
        let at = self.founders.get(code?)?;
        self.page("clones.ron")?.record("clones", *at)
    }

    fn lot(&self, code: Option<&str>) -> Option<&Record> {
        let at = self.lots.get(code?)?;
        self.page("pollen.ron")?.record("lots", *at)
    }
}
