//! The registry of another grower comes into this one: everything in it is on record here as told by that grower and
//! stands there.

use super::conflict::Decisions;
use super::copy::Copy;
use super::history::History;
use super::likely::{Likely, founders, likely};
use super::merged::{Merged, merged_pages, not_kept};
use super::of_ours::Stayed;
use super::our_pages::Ours;
use super::pages::{About, Pair, Pairs, Sheet, sheets};
use super::placing::Placing;
use super::renaming::renamed;
use super::rewrite::changed;
use super::same::Same;
use super::their_codes::{TheirCodes, their_codes};
use crate::record::{Day, Hemisphere};
use crate::recording::handover::labels_agree;
use crate::recording::journal::checksum;
use crate::recording::says::seasons::as_months;
use crate::recording::says::value::Record;
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

impl OtherMerge<'_> {
    /// What the merge makes of the pages.
    ///
    /// # Errors
    /// If the two are of other halves of the world or other genera, a code cannot be, or a page cannot be changed.
    pub fn merged(&self) -> Result<Merged, Slip> {
        self.fit()?;
        let pages = self.their_pages();
        let before: Vec<Record> = pages.iter().filter_map(Theirs::taken_back).collect();
        let named = (self.by, self.same);
        let codes = their_codes((&self.ours, &self.theirs), &before, named)?;
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
        for mut came in self.came(&pages, &codes, &known)? {
            merged.memory.pages.extend(came.sum.take());
            if let Some(mut told) = came.told.take() {
                seasons.insert(told.place.clone(), told.seasons);
                merged.stayed.append(&mut told.stayed);
                if !told.left.is_empty() {
                    let left = std::mem::take(&mut told.left);
                    merged.remarks.push((came.path.clone(), left));
                }
                beside(&mut pairs, &mut ours, (came, told));
            } else if let Some((place, base)) = came.taken_back() {
                let own = ours.remove(&place);
                let pair = Pair {
                    base: Some(Some(base)),
                    ours: own,
                    theirs: None,
                };
                pairs.insert(place, pair);
            }
        }
        let mut pages = Placing::of(&self.ours);
        let by = (self.decisions, self.ours.registry);
        let rest: Vec<&str> = ours.values().map(|sheet| sheet.text.as_str()).collect();
        for (about, pair, text) in merged_pages((&mut pairs, &rest), by, &mut merged)? {
            if pair.ours.as_ref().map(|sheet| &sheet.text) != text.as_ref() {
                merged.seasons += seasons.get(about).copied().unwrap_or_default();
            }
            pages.put(about, pair, text);
        }
        merged.changes = pages.changes()?;
        merged.memory.not_kept = not_kept(&merged.clashes);
        Ok(merged)
    }

    /// Their pages, also those that they took back since they were last taken in.
    fn their_pages(&self) -> Vec<Theirs> {
        let (here, there) = (History::of(&self.ours), History::of(&self.theirs));
        let sheets = sheets(&self.theirs).into_iter().map(|(about, sheet)| {
            let was = here.taken_in(&there, &sheet.path);
            Theirs {
                about,
                was,
                path: sheet.path,
                text: Some(sheet.text),
            }
        });
        let mut pages: Vec<Theirs> = sheets.collect();
        for (path, was) in here.gone_since(&there) {
            let about =
                about(&path, &was).filter(|about| pages.iter().all(|of| of.about != *about));
            // Where the page is gone, its list is empty.
            pages.extend(about.map(|about| Theirs {
                text: matches!(about, About::Page(_)).then(|| "()".to_owned()),
                was: Some(was),
                about,
                path,
            }));
        }
        pages
    }

    /// Their pages as they are on record here, and as they were when they were last taken in.
    fn came(&self, pages: &[Theirs], codes: &TheirCodes, ours: &Ours) -> Result<Vec<Came>, Slip> {
        let length = pages.iter().filter_map(|of| of.text.as_ref());
        let length: usize = length.map(String::len).sum();
        let came = on_cores(pages, length >= MUCH, |page| {
            let told = |text: &String| self.told(&page.about, text, codes, ours);
            Ok(Came {
                sum: page.text.as_deref().map(checksum),
                path: page.path.clone(),
                told: page.text.as_ref().map(told).transpose()?.flatten(),
                base: page.was.as_ref().map(told).transpose()?,
                is_own: matches!(&page.about, About::Cross(code) if codes.own.contains(code)),
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
            return labels_agree(self.ours.registry, self.theirs.registry, self.by);
        }
        Err(Slip::contradicts(
            "both registries in one",
            format!(
                "this registry is of {}, the other of {}",
                ours.genus, theirs.genus
            ),
            "a registry is of one genus: keep the other one by itself",
        ))
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
            self.growers().without_ours(page);
            let came = match about {
                About::Cross(code) if codes.own.contains(code) => {
                    (self.own_cross(page, &place, ours), Vec::new())
                }
                _ => self.on_record(about, page, (&before, &place), (codes, ours)),
            };
            self.not_me(page);
            came
        })?;
        Ok(page.map(|(text, (stayed, left))| Told {
            place,
            text,
            stayed,
            left,
            seasons,
        }))
    }
}

/// So many bytes of pages are worth all cores.
const MUCH: usize = 1 << 20;

/// A page of theirs.
struct Theirs {
    about: About,
    path: String,
    /// What it says; none where they took it back.
    text: Option<String>,
    /// What it said when it was last taken in.
    was: Option<String>,
}

impl Theirs {
    /// What it said, where it says something else now.
    fn taken_back(&self) -> Option<Record> {
        let was = self
            .was
            .as_deref()
            .filter(|was| Some(*was) != self.text.as_deref());
        was.and_then(Record::of_page)
    }
}

/// A page of theirs that comes.
struct Came {
    /// Its checksum; none where they took it back.
    sum: Option<String>,
    path: String,
    /// As it is on record here; none where it stays there.
    told: Option<Told>,
    /// As it was on record here when it was last taken in; none inside where it stayed there.
    base: Option<Option<Told>>,
    /// Whether it is about a cross of ours.
    is_own: bool,
}

impl Came {
    /// A page that they took back: what it is about, and what it said here. A cross of ours stays.
    fn taken_back(self) -> Option<(About, String)> {
        let base = self
            .base
            .flatten()
            .filter(|_| self.sum.is_none() && !self.is_own);
        base.map(|told| (told.place, told.text))
    }
}

/// What a page is about; none for one that nothing of theirs is on.
fn about(path: &str, text: &str) -> Option<About> {
    match path {
        "clones.ron" => Some(About::Page("clones.ron")),
        "pollen.ron" => Some(About::Page("pollen.ron")),
        _ => {
            let page = Record::of_page(text)?;
            page.get("parents")?;
            Some(About::Cross(page.text("code")?.to_owned()))
        }
    }
}

/// A page of theirs as it is on record here.
struct Told {
    place: About,
    text: String,
    /// What of crosses and plants stays there.
    stayed: Vec<Stayed>,
    /// What finds no place here, in words.
    left: Vec<String>,
    /// Dates with seasons that are written as months.
    seasons: usize,
}

/// Puts a page of theirs beside ours about the same.
fn beside(pairs: &mut Pairs, ours: &mut BTreeMap<About, Sheet>, (came, told): (Came, Told)) {
    let pair = pairs.entry(told.place).or_insert_with_key(|place| Pair {
        ours: ours.remove(place),
        ..Pair::default()
    });
    let base = came.base.map(|was| was.map(|told| told.text));
    pair.base = base.or(pair.base.take());
    pair.theirs = Some(Sheet {
        path: came.path,
        text: told.text,
    });
}
