//! Do labels say what the records say, and are the names on them sound?
//!
//! A label that came with a cross, and one a plant left with, are compared with the recorded parents by their expected
//! shares: what is unknown on either side contradicts nothing.

use super::ground::Ground;
use crate::diagnostic::{Code, Finding};
use crate::lineage::Lineage;
use crate::naming::recorded::{Names, TopOf};
use crate::naming::{ReadOptions, Reading, ShareOf, Shares, Vocabulary, read, shares};
use crate::record::{Fate, Parents};
use crate::registry::PlantRow;
use crate::text::{FileId, Span};
use std::collections::{BTreeMap, BTreeSet};

/// A label, and what it is on.
struct Label<'t> {
    text: &'t str,
    place: Option<Span>,
    /// What the records say of it, if it is to be compared.
    record: Option<TopOf>,
    /// In words: "the label of X22-07".
    of: String,
}

/// Every label of the registry.
pub(super) fn all(ground: &Ground) -> Vec<Finding> {
    let labels = labels(ground);
    let mut found = doubtful_parents(ground);
    if labels.is_empty() {
        return found;
    }
    let lineage = Lineage::of(ground.registry);
    let names = Names::of(ground.registry, &lineage);
    let mut recorded: BTreeMap<(bool, u32), Option<Sides>> = BTreeMap::new();
    for label in &labels {
        let reading = read(label.text, names.vocabulary(), ReadOptions::default());
        found.extend(doubtful_words(label, names.vocabulary()));
        let by_record = label.record.and_then(|top| {
            let key = match top {
                TopOf::Plant(plant) => (true, plant.0),
                TopOf::Cross(cross) => (false, cross),
            };
            let sides = recorded.entry(key).or_insert_with(|| {
                let formula = names.formula(top, false);
                shares(&formula).ok().map(|shares| Sides::of(&shares))
            });
            sides.clone()
        });
        found.extend(judged(
            label,
            &reading,
            by_record.as_ref(),
            names.vocabulary(),
        ));
    }
    found
}

fn labels<'r>(ground: &Ground<'r, '_>) -> Vec<Label<'r>> {
    let registry = ground.registry;
    let mut all = Vec::new();
    for (row, founder) in registry.founders().iter().enumerate() {
        let Some(file) = registry.clones_file else {
            break;
        };
        all.push(Label {
            text: &founder.received,
            place: place(ground, file, &founder.received, founder.code),
            record: None,
            of: founder.code.to_owned(),
        });
        for opinion in &founder.identified {
            all.push(Label {
                text: &opinion.name,
                place: place(ground, file, &opinion.name, founder.code),
                record: None,
                of: founder.code.to_owned(),
            });
        }
        all.extend(left_with(ground, PlantRow(row as u32)));
    }
    for (at, cross) in registry.crosses.iter().enumerate() {
        let code = cross.page.code;
        if let Some(text) = &cross.page.received {
            let known = !matches!(cross.page.parents, Parents::LabelOnly(_) | Parents::Unknown);
            all.push(Label {
                text,
                place: place(ground, cross.file, text, code),
                record: known.then_some(TopOf::Cross(at as u32)),
                of: code.to_owned(),
            });
        }
        if let Parents::LabelOnly(text) = &cross.page.parents {
            all.push(Label {
                text,
                place: place(ground, cross.file, text, code),
                record: None,
                of: code.to_owned(),
            });
        }
        for &plant in &cross.seedlings {
            if ground.tells_more(plant) {
                all.extend(left_with(ground, plant));
            }
        }
    }
    all
}

fn place(ground: &Ground, file: FileId, text: &str, anchor: &str) -> Option<Span> {
    let own = ground.span(file, text);
    own.or_else(|| ground.span(file, anchor))
}

/// The labels a plant and its ramets left with.
fn left_with<'r>(ground: &Ground<'r, '_>, plant: PlantRow) -> Vec<Label<'r>> {
    let registry = ground.registry;
    let ramets = registry.ramets(plant).iter();
    let fates = registry
        .fate(plant)
        .into_iter()
        .chain(ramets.filter_map(|ramet| ramet.fate.as_ref()));
    let Some(anchor) = ground.anchor(plant) else {
        return Vec::new();
    };
    let seed_raised = registry.origin_of(plant).is_some();
    let label = |fate: &'r Fate| {
        let (Fate::Sold { label, .. } | Fate::Given { label, .. }) = fate else {
            return None;
        };
        let text: &str = label.as_ref()?;
        let named = without_code(text, &registry.code(plant));
        if named.is_empty() {
            return None;
        }
        Some(Label {
            text: named,
            place: place(ground, anchor.file, text, anchor.text),
            record: seed_raised.then_some(TopOf::Plant(plant)),
            of: registry.code(plant),
        })
    };
    fates.filter_map(label).collect()
}

/// A label without the plant's own code, or that of one of its ramets, at its start.
fn without_code<'t>(label: &'t str, code: &str) -> &'t str {
    let Some(rest) = label.trim().strip_prefix(code) else {
        return label;
    };
    let (ramet, after) = match rest.strip_prefix('-') {
        Some(ramet) => {
            let end = ramet.find(|c: char| !c.is_alphanumeric());
            ramet.split_at(end.unwrap_or(ramet.len()))
        }
        None => ("", rest),
    };
    let whole = ramet.is_empty() || crate::registry::ids::is_ramet_code(ramet);
    if whole && !after.starts_with(char::is_alphanumeric) {
        after.trim_start_matches(|c: char| c.is_whitespace() || ",:;/–-".contains(c))
    } else {
        label
    }
}

/// Shares that can be compared, and how much is open.
#[derive(Clone)]
struct Sides {
    species: BTreeMap<String, f64>,
    open: f64,
}

impl Sides {
    fn of(shares: &Shares) -> Sides {
        let mut sides = Sides {
            species: BTreeMap::new(),
            open: 0.0,
        };
        for (of, share) in shares {
            match of {
                ShareOf::Species(name) => {
                    sides.species.insert(name.clone(), share.as_f64());
                }
                _ => sides.open += share.as_f64(),
            }
        }
        sides
    }

    /// Whether one species must have more on this side than it can have on the other.
    fn exceeds(&self, other: &Sides) -> bool {
        self.species.iter().any(|(name, share)| {
            let there = other.species.get(name).copied().unwrap_or(0.0);
            *share > there + other.open + 1e-9
        })
    }

    fn contradicts(&self, other: &Sides) -> bool {
        self.exceeds(other) || other.exceeds(self)
    }

    fn words(&self) -> String {
        let mut parts: Vec<String> = self
            .species
            .iter()
            .map(|(name, share)| format!("{name} {}", percent(*share)))
            .collect();
        if self.open > 0.0 {
            parts.push(format!("not known {}", percent(self.open)));
        }
        parts.join(", ")
    }
}

fn percent(share: f64) -> String {
    let tenths = (share * 1000.0).round() / 10.0;
    format!("{tenths} %")
}

/// What a label's reading gives to tell.
fn judged(
    label: &Label,
    reading: &Reading,
    record: Option<&Sides>,
    vocabulary: &Vocabulary,
) -> Option<Finding> {
    let Some(refusal) = &reading.refused else {
        let on_label = Sides::of(&reading.shares);
        let record = record.filter(|record| record.contradicts(&on_label))?;
        return Some(contradiction(label, &on_label.words(), record));
    };
    let readings = || refusal.readings.iter();
    let told: Vec<Sides> = readings()
        .map(|text| read(text, vocabulary, ReadOptions::default()))
        .filter(|reading| reading.refused.is_none())
        .map(|reading| Sides::of(&reading.shares))
        .collect();
    if let Some(record) = record
        && !told.is_empty()
        && told.iter().all(|sides| sides.contradicts(record))
    {
        return Some(contradiction(
            label,
            "none of the readings it allows fits",
            record,
        ));
    }
    let finding = Finding::note(
        Code("label-not-read"),
        format!("a label of {} cannot be read for certain", label.of),
    )
    .at(label.place)
    .found(format!("`{}`", label.text))
    .needed(refusal.text.clone());
    let finding = match readings().take(3).map(String::as_str).collect::<Vec<_>>()[..] {
        [] => finding,
        ref few => finding.help(format!("it may mean {}", few.join(" or "))),
    };
    Some(
        finding.help(
            "a label is kept as it came; what it tells counts as unknown until it can be read",
        ),
    )
}

fn contradiction(label: &Label, on_label: &str, record: &Sides) -> Finding {
    Finding::warning(
        Code("label-contradicts-record"),
        format!("a label of {} contradicts the recorded parents", label.of),
    )
    .at(label.place)
    .found(format!("on the label: {on_label}"))
    .needed(format!("by the records: {}", record.words()))
    .help("which is right? a label may have lost brackets or a grandparent; whoever has the plant should be told")
}

/// Names on a label that are doubtful, or that are no names.
fn doubtful_words(label: &Label, vocabulary: &Vocabulary) -> Vec<Finding> {
    let words = label.text.split(|c: char| !(c.is_alphabetic() || c == '-'));
    let words: BTreeSet<String> = words.map(str::to_lowercase).collect();
    let mut found = Vec::new();
    for word in &words {
        if let Some(doubt) = vocabulary
            .species(word)
            .and_then(|row| row.doubt.as_deref())
        {
            found.push(doubtful(label.place, word, doubt));
        }
        if let Some(row) = vocabulary.named_hybrid(word).filter(|row| !row.may_emit) {
            let finding = Finding::note(
                Code("not-a-name"),
                format!("{word} is no name that can be given to a plant"),
            )
            .at(label.place)
            .found(format!("`{}`", label.text))
            .needed(format!("the formula: {}", row.formula))
            .help(format!(
                "its status: {}; the label is kept as it came",
                row.status
            ));
            found.push(finding);
        }
    }
    found
}

fn doubtful(place: Option<Span>, epithet: &str, doubt: &str) -> Finding {
    Finding::warning(
        Code("doubtful-name"),
        format!("{epithet} is a name of doubtful status"),
    )
    .at(place)
    .found(format!("`{epithet}`"))
    .needed("a name that says which plant is meant")
    .help(doubt.to_owned())
    .help("what the plant is now taken for belongs into `identified`, with date and by whom")
}

/// Species named as parents whose names are doubtful.
fn doubtful_parents(ground: &Ground) -> Vec<Finding> {
    let registry = ground.registry;
    let doubts: BTreeMap<&str, &str> = registry
        .taxa
        .species
        .iter()
        .filter(|row| row.doubtful)
        .map(|row| {
            (
                row.epithet,
                row.note
                    .as_deref()
                    .unwrap_or("marked doubtful in species.ron"),
            )
        })
        .collect();
    if doubts.is_empty() {
        return Vec::new();
    }
    let mut found = Vec::new();
    for cross in &registry.crosses {
        for parent in super::parents::parents(&cross.page) {
            let code = parent.code.trim();
            if let Some(doubt) = doubts.get(code).filter(|_| ground.plant(code).is_none()) {
                found.push(doubtful(ground.span(cross.file, parent.code), code, doubt));
            }
        }
    }
    found
}
