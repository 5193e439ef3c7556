//! Do labels say what the records say, and are the names on them sound?
//!
//! A label that came with a cross, and one a plant left with, are compared with the recorded parents by their expected
//! shares: what is unknown on either side contradicts nothing.

use super::context::CheckContext;
use super::doubts::{doubtful_parents, doubtful_words};
use super::possible_sides::Possible;
use super::sides::Sides;
use crate::context::Context;
use crate::diagnostic::{Code, Finding};
use crate::naming::recorded::{TopOf, accepted};
use crate::naming::{NoteCode, ReadOptions, Reading, Refusal, RefusalCode, Vocabulary, read};
use crate::observation::presence::{Presence, presence};
use crate::record::{Fate, Parents};
use crate::registry::PlantRow;
use crate::text::{FileId, Span};

/// A label, and what it is on.
struct Label<'t> {
    text: &'t str,
    place: Option<Span>,
    /// What the records say of it, if it is to be compared.
    record: Option<TopOf>,
    /// In words: "the label of X22-07".
    of: String,
    /// Whether answers about plants in the collection go by it.
    counts: bool,
    /// Whether a plant left with it.
    left_with: bool,
    /// Whether an accepted opinion says what the plant is, whatever the label says.
    settled: bool,
}

/// Every label of the registry.
pub(super) fn all(context: &CheckContext) -> Vec<Finding> {
    let labels = labels(context);
    let mut found = doubtful_parents(context);
    if labels.is_empty() {
        return found;
    }
    let known = Context::of(context.registry, context.today);
    let names = known.names();
    let mut recorded = Possible::new(context.registry, names);
    for label in &labels {
        let reading = read(label.text, names.vocabulary(), ReadOptions::default());
        let words = (label.text, label.place);
        found.extend(doubtful_words(words, names.vocabulary(), label.settled));
        let by_record = label.record.map_or_else(Vec::new, |top| recorded.of(top));
        found.extend(judged(label, &reading, &by_record, names.vocabulary()));
    }
    found
}

fn labels<'r>(context: &CheckContext<'r, '_>) -> Vec<Label<'r>> {
    let registry = context.registry;
    let mut all = Vec::new();
    for (row, founder) in registry.founders().iter().enumerate() {
        let Some(file) = registry.clones_file.filter(|_| context.founders_labels) else {
            break;
        };
        all.push(Label {
            text: &founder.received,
            place: place(context, file, &founder.received, founder.code),
            record: None,
            of: founder.code.to_owned(),
            counts: accepted(registry, founder).is_none() && is_here(context, PlantRow::new(row)),
            left_with: false,
            settled: accepted(registry, founder).is_some(),
        });
        all.extend(later_names(context, PlantRow::new(row)));
    }
    for (at, cross) in registry.all_crosses() {
        let code = cross.page.code;
        if let Some(text) = &cross.page.received {
            let known = !matches!(cross.page.parents, Parents::LabelOnly(_) | Parents::Unknown);
            all.push(Label {
                text,
                place: place(context, cross.file, text, code),
                record: known.then_some(TopOf::Cross(at)),
                of: code.to_owned(),
                counts: false,
                left_with: false,
                settled: false,
            });
        }
        if let Parents::LabelOnly(text) = &cross.page.parents {
            all.push(Label {
                text,
                place: place(context, cross.file, text, code),
                record: None,
                of: code.to_owned(),
                counts: of_the_collection(context, &cross.seedlings),
                left_with: false,
                settled: false,
            });
        }
        for &plant in &cross.seedlings {
            if context.tells_more(plant) {
                all.extend(later_names(context, plant));
            }
        }
    }
    all
}

fn is_here(context: &CheckContext, plant: PlantRow) -> bool {
    presence(context.registry, plant, context.today) == Presence::Here
}

/// Whether seedlings of a cross are in the collection, or are still to come.
fn of_the_collection(context: &CheckContext, seedlings: &[PlantRow]) -> bool {
    seedlings.is_empty() || seedlings.iter().any(|&plant| is_here(context, plant))
}

fn place(context: &CheckContext, file: FileId, text: &str, anchor: &str) -> Option<Span> {
    let own = context.span(file, text);
    own.or_else(|| context.span(file, anchor))
}

/// The names a plant was taken for later, and the labels it and its ramets left with.
fn later_names<'r>(context: &CheckContext<'r, '_>, plant: PlantRow) -> Vec<Label<'r>> {
    let registry = context.registry;
    let ramets = registry.ramets(plant).iter();
    let fates = registry
        .fate(plant)
        .into_iter()
        .chain(ramets.filter_map(|ramet| ramet.fate.as_ref()));
    let Some(anchor) = context.anchor(plant) else {
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
            place: place(context, anchor.file, text, anchor.text),
            record: seed_raised.then_some(TopOf::Plant(plant)),
            of: registry.code(plant),
            counts: false,
            left_with: true,
            settled: false,
        })
    };
    let shown = registry
        .founder(plant)
        .and_then(|of| accepted(registry, of));
    let opinions = registry.identified(plant).iter().map(|opinion| Label {
        text: &opinion.name,
        place: place(context, anchor.file, &opinion.name, anchor.text),
        record: None,
        of: registry.code(plant),
        counts: shown.is_some_and(|shown| std::ptr::eq(shown, opinion)) && is_here(context, plant),
        left_with: false,
        settled: shown.is_some_and(|shown| !std::ptr::eq(shown, opinion)),
    });
    opinions.chain(fates.filter_map(label)).collect()
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

/// What a label's reading gives to tell.
fn judged(
    label: &Label,
    reading: &Reading,
    record: &[Sides],
    vocabulary: &Vocabulary,
) -> Option<Finding> {
    match &reading.refused {
        None => as_read(label, reading, record),
        Some(refusal) if none_fits(refusal, record, vocabulary) => {
            let found = "none of the readings it allows fits";
            Some(contradiction(label, found, record))
        }
        Some(refusal) => Some(not_read(label, refusal)),
    }
}

/// A label that can be read: a name that is not listed, or other parents than the record's.
fn as_read(label: &Label, reading: &Reading, record: &[Sides]) -> Option<Finding> {
    let mut notes = reading.notes.iter();
    let unlisted_name = notes.find(|note| note.code == NoteCode::NameNotListed);
    if let Some(note) = unlisted_name.filter(|_| label.counts) {
        return Some(unlisted(label, &note.text).help(ADD_THE_NAME));
    }
    let on_label = Sides::of(&reading.shares);
    let contradicted = record.iter().filter(|record| record.contradicts(&on_label));
    match contradicted.count() {
        0 => None,
        all if all == record.len() => Some(contradiction(label, &on_label.words(), record)),
        _ if label.left_with => Some(surer(label, &on_label.words(), record)),
        _ => None,
    }
}

/// Whether every way in which a label may be meant contradicts the record.
fn none_fits(refusal: &Refusal, record: &[Sides], vocabulary: &Vocabulary) -> bool {
    let readings = refusal.readings.iter();
    let told: Vec<Sides> = readings
        .map(|text| read(text, vocabulary, ReadOptions::default()))
        .filter(|reading| reading.refused.is_none())
        .map(|reading| Sides::of(&reading.shares))
        .collect();
    let fits = |sides: &Sides| !record.iter().all(|record| sides.contradicts(record));
    !record.is_empty() && !told.is_empty() && !told.iter().any(fits)
}

/// A label that cannot be read for certain.
fn not_read(label: &Label, refusal: &Refusal) -> Finding {
    let why = why(label, &refusal.text, refusal.column);
    let may_mean = |finding| may_mean(finding, label, &refusal.readings);
    match refusal.code {
        RefusalCode::UnknownEpithet | RefusalCode::NotANamedHybrid if label.counts => {
            may_mean(unlisted(label, &why)).help(ADD_THE_NAME)
        }
        // A short form, or a name that was cut off or misspelt.
        RefusalCode::UndeclaredCode if label.counts => may_mean(unlisted(label, &why)).help(
            "say what it means, by the parents on the page of a cross or with `podbook opinion`; until then every answer shows this parentage as `?`",
        ),
        _ => may_mean(
            Finding::note(
                Code("label-not-read"),
                format!("a label of {} cannot be read for certain", label.of),
            )
            .at(label.place)
            .found(why)
            .needed("a formula of species, named hybrids and declared codes, or a name in quotation marks"),
        )
        .help(match label.left_with {
            true => "it is kept as it was written; the parents on record count, and what this tag says is not compared with them",
            false => "a label is kept as it came; until it can be read, its parentage counts as unknown",
        }),
    }
}

/// With the readings a label allows, where there are some.
fn may_mean(finding: Finding, label: &Label, readings: &[String]) -> Finding {
    // The label itself in quotes says nothing new.
    let quoted = |reading: &&str| *reading == format!("N. \"{}\"", label.text.trim());
    let readings = readings.iter().map(String::as_str);
    let few: Vec<&str> = readings.filter(|of| !quoted(of)).take(3).collect();
    match few[..] {
        [] => finding,
        ref few => finding.help(format!("it may mean {}", few.join(" or "))),
    }
}

/// What to do about a name that is missing from the list.
const ADD_THE_NAME: &str =
    "add the name to species.ron; until then every answer shows this parentage as `?`";

/// A name that is missing from the list, on a label that answers about plants in the collection go by.
fn unlisted(label: &Label, why: &str) -> Finding {
    Finding::warning(
        Code("name-not-listed"),
        format!("a name on the label of {} is not known", label.of),
    )
    .at(label.place)
    .found(why.to_owned())
    .needed("species and named hybrids that species.ron holds, or \"?\" where none is known")
}

/// The label and why it cannot be read. Columns are those of the label: the finding's own place is that of the file.
fn why(label: &Label, refusal: &str, column: usize) -> String {
    let reason = [" at", " from"]
        .iter()
        .fold(refusal.to_owned(), |text, word| {
            text.replace(&format!("{word} column {column}"), "")
        });
    format!("`{}`: {reason}", label.text)
}

/// What the records say, in words: each parentage.
fn each(record: &[Sides]) -> String {
    const NAMED: usize = 4;
    let words: Vec<String> = record.iter().take(NAMED).map(Sides::words).collect();
    let more = record.len().saturating_sub(NAMED);
    match more {
        0 => words.join("; or "),
        more => format!("{}; or {more} more", words.join("; or ")),
    }
}

/// A plant left with a label that names one of several parentages as if it were certain.
fn surer(label: &Label, on_label: &str, record: &[Sides]) -> Finding {
    Finding::warning(
        Code("label-surer-than-record"),
        format!("a label of {} is surer than the recorded parents", label.of),
    )
    .at(label.place)
    .found(format!("on the label: {on_label}"))
    .needed(format!("by the records: {}", each(record)))
    .help("whoever has the plant should be told that its parents are not certain")
}

fn contradiction(label: &Label, on_label: &str, record: &[Sides]) -> Finding {
    Finding::warning(
        Code("label-contradicts-record"),
        format!("a label of {} contradicts the recorded parents", label.of),
    )
    .at(label.place)
    .found(format!("on the label: {on_label}"))
    .needed(format!("by the records: {}", each(record)))
    .help("which is right? a label may have lost brackets or a grandparent; whoever has the plant should be told")
}
