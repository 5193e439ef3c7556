//! What a recording has recorded, in words: one line of what happened, the codes to write down, and what to look at.

use super::caution::Weight;
use super::sheet::{Report, Sheet};
use crate::observation::SexSeen;
use crate::recording::recorded::{Recorded, Remark, Shown, What};
use crate::wording::{at_date, counted, listed, quoted, time_passed};
use serde::Serialize;

/// A recording that was made, or would be.
#[derive(Serialize)]
pub struct RecordedReport {
    /// What was recorded, in one sentence.
    pub recorded: String,
    /// Codes that were recorded on.
    pub about: Vec<String>,
    /// Codes to write on tags, envelopes and pots.
    pub write_down: Vec<WriteDown>,
    /// Pages that were changed, or would be.
    pub pages: Vec<String>,
    /// Number of the change in the journal; none when nothing was written.
    pub change: Option<u32>,
    /// What to look at.
    pub remarks: Vec<String>,
    /// Warnings of `podbook check` that the change brings.
    pub warnings: Vec<String>,
    /// The change as lines taken out and put in; only when nothing was written.
    pub difference: Option<String>,
}

/// A code to write down.
#[derive(Serialize)]
pub struct WriteDown {
    /// The code.
    pub code: String,
    /// On what.
    pub on: &'static str,
}

/// Words for a recording.
pub fn recorded(recorded: &Recorded) -> RecordedReport {
    let tags = recorded.tags.iter();
    RecordedReport {
        recorded: recorded.what.words(),
        about: recorded.about.clone(),
        write_down: tags
            .map(|tag| WriteDown {
                code: tag.code.clone(),
                on: tag.on,
            })
            .collect(),
        pages: Vec::new(),
        change: None,
        remarks: recorded.remarks.iter().map(Remark::words).collect(),
        warnings: Vec::new(),
        difference: None,
    }
}

impl Report for RecordedReport {
    fn sheet(&self) -> Sheet {
        let answer = match self.difference {
            None => self.recorded.clone(),
            Some(_) => format!("Would record: {}", self.recorded),
        };
        let mut sheet = Sheet::new(answer);
        sheet.is_said_once = self.change.is_some();
        let tags = self.write_down.iter();
        sheet.lines(
            None,
            tags.map(|tag| format!("Write on the {}: {}", tag.on, tag.code))
                .collect(),
        );
        if let Some(difference) = &self.difference {
            sheet.lines(
                Some("Nothing was written. The change:"),
                difference.lines().map(str::to_owned).collect(),
            );
        }
        for warning in self.remarks.iter().chain(&self.warnings) {
            sheet.caution(Weight::Answer, warning.clone());
        }
        sheet
    }
}

impl Remark {
    /// What to look at, in one sentence.
    pub fn words(&self) -> String {
        match self {
            Remark::Settled { what, theirs } => {
                let whose = if *theirs { "in the lineage" } else { "here" };
                format!("What is {whose} stays: {what}")
            }
            Remark::Decided {
                about,
                theirs,
                stays,
                gives_way,
            } => {
                let whose = if *theirs { "theirs" } else { "ours" };
                format!("{about}: kept {whose}, {stays}; given up {gives_way}")
            }
            Remark::Apart {
                was,
                now,
                theirs,
                is_pot,
            } => {
                let whose = if *theirs { "theirs" } else { "ours" };
                let (things, if_one) = match is_pot {
                    true => (
                        "two pots",
                        "If both sides counted one pot, its seedlings count twice now:",
                    ),
                    false => ("two things", "If it is one thing,"),
                };
                format!(
                    "{was} was new on both sides and is {things}: {whose} is {now} from now on. {if_one} undo this and merge with --same {was}"
                )
            }
            Remark::TwoNames { plant, on, names } => format!(
                "{plant} has two names accepted on {on}, {} here and {} there. Both are on record, and the one written last is shown: take `accepted: true` off the other, or off both",
                quoted(&names[0]),
                quoted(&names[1])
            ),
            Remark::Follows { was, now } => {
                format!("{was} is {now} from now on: a merge on the other side gave it that code")
            }
            Remark::MadeOne { ours, theirs, now } => {
                format!("{ours} here and {theirs} there are one plant, {now} from now on")
            }
            Remark::LikelyOne {
                ours,
                theirs,
                came,
                from_seed,
            } => likely_one((ours, theirs), came, *from_seed),
            Remark::TakenOut { what } => {
                format!(
                    "{what} was taken out there and unchanged here, so it is taken out; `podbook undo` brings it back"
                )
            }
            Remark::NotesLeft { page, remarks } => format!(
                "{} in the other's {page} found no place here: {}",
                counted(remarks.len(), "remark", "remarks"),
                remarks.join(" ")
            ),
            Remark::StaysThere { own, crosses } => format!(
                "Their goals, shelves and other settings stay there{}{}",
                only_came(own, "opinions, flowers, photos and readings"),
                only_came(crosses, "opinions and readings")
            ),
            Remark::Seasons { dates } => format!(
                "{} with seasons of the other half of the world on these pages {} written in months",
                counted(*dates, "date", "dates"),
                if *dates == 1 { "is" } else { "are" }
            ),
            Remark::OfOurs { cross, what } => {
                let what: Vec<String> = what.iter().map(|of| several_of(*of)).collect();
                format!(
                    "{} that they recorded of {cross} did not come in, because such records cannot say whose they are",
                    listed(&what)
                )
            }
            Remark::PhotosToCopy { files } => format!(
                "Copy {} from the other folder: {}",
                counted(files.len(), "picture", "pictures"),
                listed(files)
            ),
            Remark::NoSpike { plant } => format!(
                "No spike of {plant} is on record for that day; record its flowers: podbook flower {plant}"
            ),
            Remark::PartlyThere { plants } => format!(
                "Of {} only some pieces stand there, so that is written for the place, in registry.ron",
                listed(plants)
            ),
            Remark::ThereToday { later } => {
                let left_out = match later {
                    0 => String::new(),
                    later => format!(
                        "; {} came there later and {} left out",
                        counted(*later, "plant", "plants"),
                        if *later == 1 { "is" } else { "are" }
                    ),
                };
                format!(
                    "Written on the plants that stand there today{left_out}. If others stood there on that day, undo this and name the plants"
                )
            }
            Remark::NoFlowers { plant } => format!(
                "No flowers of {plant} are on record, and only a male gives pollen; record them: podbook flower {plant} --sex male"
            ),
            Remark::OtherPollen {
                zone,
                seed,
                bears,
                pollen,
                on,
            } => format!(
                "Zone {zone} of {seed} was dusted with {pollen} {} ({bears}): if these are the same flowers, their pods have two possible fathers. If they are others, undo this and give their zone another name",
                at_date(on)
            ),
            Remark::LeftOut { gone } => format!(
                "Left out {} of the range that {} no longer here",
                counted(*gone, "plant", "plants"),
                if *gone == 1 { "is" } else { "are" }
            ),
            Remark::SpikeMovedBack { was, now } => format!(
                "The spike was on record as seen {was}; that is now {now}, because its flower opened earlier"
            ),
            Remark::NoPollen { plant } => format!(
                "{plant} has no open flower on record for that day, and no envelope of its pollen: check which plant it was"
            ),
            Remark::Unsexed { plant } => format!(
                "The sex of {plant} is not on record, and only a female bears pods; record its flowers: podbook flower {plant} --sex female"
            ),
            Remark::OldPollen {
                envelope,
                days,
                reported,
            } => format!(
                "The pollen of {envelope} is {} old; growers report that it lasts {reported}. Expect few pods",
                time_passed(*days)
            ),
            Remark::NotFrozen { envelope } => format!(
                "{envelope} is on record as kept at room temperature; if it was frozen, correct `stored` in pollen.ron"
            ),
            Remark::NoPlantThere { place, near } => format!(
                "No plant in the collection stands at {place}{}",
                match near.as_slice() {
                    [] => String::new(),
                    near => format!("; did you mean {}?", near.join(" or ")),
                }
            ),
            Remark::WasToKeep { plant, why } => match why {
                Some(why) => format!("{plant} was marked to keep ({why})"),
                None => format!("{plant} was marked to keep"),
            },
            Remark::Unusual { of, passed, usual } => {
                format!("{of} {passed}; {usual} are usual (common practice). Check both dates")
            }
            Remark::NamesTakenIn { names } => format!(
                "{} {} not in species.ron; added from the list a new registry starts with. Check what it says there",
                listed(names),
                if names.len() == 1 { "was" } else { "were" }
            ),
            Remark::KeptAsPot { pot } => {
                format!("The count is kept as {pot}, until they are pricked out")
            }
        }
    }
}

/// How many records are new, by kind; empty when none is.
fn new_records(founders: usize, seedlings: usize, crosses: usize) -> String {
    let new = [
        (founders, "founder", "founders"),
        (seedlings, "seedling", "seedlings"),
        (crosses, "cross", "crosses"),
    ];
    let new = new.into_iter().filter(|(count, ..)| *count > 0);
    let new: Vec<String> = new
        .map(|(count, one, more)| counted(count, one, more))
        .collect();
    new.join(", ")
}

/// The question whether founders of either side are one plant: what agrees, that they stay two, and how to make them one.
fn likely_one(
    (ours, theirs): (&[String], &[(String, String)]),
    [label, from, on]: &[String; 3],
    from_seed: bool,
) -> String {
    let there: Vec<&str> = theirs.iter().map(|of| of.0.as_str()).collect();
    let seed = match from_seed {
        true => " Plants raised from seed may be siblings, which are two plants.",
        false => "",
    };
    let (both, one) = match (ours.len(), theirs.len()) {
        (1, 1) => ("both", "they are one"),
        _ => ("all", "two of them are one plant"),
    };
    format!(
        "{} may be one plant with their {}: {both} came as {label}, from {from}, {on}. They stay apart{}.{seed} If {one}, undo this and merge with --same {}={}",
        ours.join(" or "),
        there.join(" or "),
        renamed(theirs),
        ours[0],
        there[0]
    )
}

/// What alone came of plants or crosses of one's own.
fn only_came(own: &[String], what: &str) -> String {
    match own {
        [] => String::new(),
        own => format!(
            "; their {} your own here, so only {what} of {} came in",
            match own {
                [one] => format!("{one} is"),
                several => format!("{} are", listed(several)),
            },
            if own.len() == 1 { "it" } else { "them" }
        ),
    }
}

/// So many of something, named in the singular.
fn several_of((count, one): (usize, &str)) -> String {
    let many = match one.split_once(' ') {
        Some(("sitting", rest)) => format!("sittings {rest}"),
        _ => format!("{one}s"),
    };
    counted(count, one, &many)
}

/// What those there are called here, where that is not what they are called there.
fn renamed(theirs: &[(String, String)]) -> String {
    let other = theirs.iter().filter(|(there, here)| there != here);
    let other: Vec<String> = other
        .map(|(there, here)| format!("{there} is {here} here"))
        .collect();
    match other.is_empty() {
        true => String::new(),
        false => format!("; {}", listed(&other)),
    }
}

impl What {
    /// What happened, in one sentence.
    pub fn words(&self) -> String {
        match self {
            What::Arrived { code, name } => format!("{code}: {name}, added to the collection"),
            What::TakenIn {
                here,
                there,
                by,
                founders,
                seedlings,
                crosses,
            } => {
                let same = if here == there {
                    String::new()
                } else {
                    format!(" ({there} there)")
                };
                let new = new_records(*founders, *seedlings, *crosses);
                let new = match new.is_empty() {
                    true => "the rest of its lineage was on record already".to_owned(),
                    false => format!("new on record: {new}"),
                };
                format!(
                    "{here}{same}: in the collection, with its lineage as told by the registry {by}; {new}"
                )
            }
            What::Merged {
                other,
                is_copy,
                pages,
                founders,
                seedlings,
                crosses,
            } => {
                let new = new_records(*founders, *seedlings, *crosses);
                let new = if new.is_empty() {
                    "no new plants".to_owned()
                } else {
                    format!("new on record: {new}")
                };
                let name = other.as_deref().unwrap_or_default();
                let what = match (is_copy, name) {
                    (true, "") => "The other copy is merged".to_owned(),
                    (true, name) => format!("The other copy of {name} is merged"),
                    (false, name) => {
                        format!("The registry {name} is on record here, as told by its grower")
                    }
                };
                format!(
                    "{what}: {} changed; {new}",
                    counted(*pages, "page", "pages")
                )
            }
            What::Photographed { photos, plants } => format!(
                "Recorded {} of {}",
                counted(*photos, "photo", "photos"),
                counted(*plants, "plant", "plants")
            ),
            What::Pollinated {
                zone,
                seed,
                pollen,
                is_open,
                envelope,
                flowers,
                on,
                again,
            } => {
                let flowers = match flowers {
                    Some(flowers) => {
                        format!(", {}", counted(*flowers as usize, "flower", "flowers"))
                    }
                    None => String::new(),
                };
                let from = match envelope {
                    Some(envelope) => format!(" from {envelope}"),
                    None => String::new(),
                };
                let again = if *again { " again" } else { "" };
                let on = at_date(on);
                match is_open {
                    true => format!("{zone}: {seed} left{again} to {pollen}, {on}{flowers}"),
                    false => {
                        format!(
                            "{zone}: {seed} pollinated{again} with {pollen}{from} {on}{flowers}"
                        )
                    }
                }
            }
            What::Gone { fate, plants, on } => {
                let word = match *fate {
                    "given" => "given away",
                    fate => fate,
                };
                format!("{}: {word} {}", several(plants), at_date(on))
            }
            What::SeedArrived {
                cross,
                label,
                seeds,
            } => {
                format!(
                    "{cross}: seed labelled {label}{}",
                    and_count(*seeds, "seed", "seeds")
                )
            }
            What::Flowered {
                plant,
                spike,
                sex,
                was,
                seen,
            } => {
                let seen = seen.iter().map(|(field, on)| match *field {
                    "spike" => format!("spike seen {}", at_date(on)),
                    "opened" if on.starts_with("by ") => format!("open {on}"),
                    field => format!("{field} {}", at_date(on)),
                });
                let sex = sex.map(|sex| match was {
                    Some(SexSeen::Certain(was)) => format!("{sex} (its open flowers were {was})"),
                    Some(was) => format!("{sex} (was {was})"),
                    None => sex.to_string(),
                });
                let parts: Vec<String> = seen.chain(sex).collect();
                let spike = spike
                    .as_ref()
                    .map(|code| format!(" spike {code}"))
                    .unwrap_or_default();
                format!("{plant}{spike}: {}", parts.join(", "))
            }
            What::Collected { envelope, from, on } => {
                format!("{envelope}: pollen of {from}, collected {}", at_date(on))
            }
            What::Envelope {
                envelope,
                finished,
                on,
            } => {
                let word = if *finished { "finished" } else { "thawed" };
                format!("{envelope}: {word} {}", at_date(on))
            }
            What::BroughtIn {
                rows,
                founders,
                seedlings,
                crosses,
                readings,
                sowings,
            } => {
                let added =
                    (*sowings > 0).then(|| counted(*sowings, "further sowing", "further sowings"));
                let parts = [
                    counted(*founders, "founder", "founders"),
                    counted(*crosses, "cross", "crosses"),
                    counted(*seedlings, "seedling", "seedlings"),
                    counted(*readings, "reading", "readings"),
                ];
                let parts: Vec<String> = parts.into_iter().chain(added).collect();
                format!(
                    "Brought in {}: {}",
                    counted(*rows, "row", "rows"),
                    listed(&parts)
                )
            }
            What::Took {
                zone,
                set,
                flowers,
                on,
            } => {
                let of = flowers.map(|flowers| {
                    format!(" of {}", counted(flowers as usize, "flower", "flowers"))
                });
                format!(
                    "{zone}: {set}{} set, counted {}",
                    of.unwrap_or_default(),
                    at_date(on)
                )
            }
            What::Harvested {
                pod,
                zone,
                lot,
                capsules,
                seeds,
                on,
            } => {
                let capsules = and_count(*capsules, "capsule", "capsules");
                let seed = match lot {
                    Some(lot) => {
                        format!("{}; the seed is {lot}", and_count(*seeds, "seed", "seeds"))
                    }
                    None => "; empty, no seed in it".to_owned(),
                };
                format!(
                    "{pod}: harvested from {zone} {}{capsules}{seed}",
                    at_date(on)
                )
            }
            What::Sown {
                sowing,
                lot,
                seeds,
                on,
            } => {
                format!(
                    "{sowing}: sown from {lot} {}{}",
                    at_date(on),
                    and_count(*seeds, "seed", "seeds")
                )
            }
            What::Counted {
                of,
                up,
                standing,
                on,
            } => {
                let up = up.map(|up| format!("{up} up so far"));
                let standing = standing.map(|standing| format!("{standing} alive"));
                let parts: Vec<String> = up.into_iter().chain(standing).collect();
                format!("{of}: {} {}", parts.join(", "), at_date(on))
            }
            What::Pricked {
                sowing,
                moved,
                to,
                on,
            } => format!(
                "{to}: {} pricked out of {sowing} {}",
                counted(*moved as usize, "seedling", "seedlings"),
                at_date(on)
            ),
            What::Numbered { plants, from, on } => {
                format!("{}: numbered from {from} {}", several(plants), at_date(on))
            }
            What::Potted {
                plants,
                pot,
                place,
                on,
            } => {
                let place = place.as_ref().map(|place| format!(", now on {place}"));
                format!(
                    "{}: potted into {pot} {}{}",
                    several(plants),
                    at_date(on),
                    place.unwrap_or_default()
                )
            }
            What::Moved { plants, to } => format!("{}: moved to {to}", several(plants)),
            What::Taken {
                piece,
                from,
                made,
                on,
            } => {
                let made = match *made {
                    "basal" => "basal shoot",
                    "lab_copy" => "laboratory copy",
                    made => made,
                };
                format!("{piece}: {made} of {from}, taken {}", at_date(on))
            }
            What::Opinion {
                plant, name, shown, ..
            } => {
                let why = match shown {
                    Shown::AsTheOpinion => return format!("{plant}: now shown as {name}"),
                    Shown::AsBefore => "",
                    Shown::AsReceived => ": its record says `name_as: received`",
                    Shown::ByParents => ": it is written from the recorded parents",
                };
                format!("{plant}: opinion recorded, {name}; the name shown is unchanged{why}")
            }
            What::Treated {
                plants,
                place,
                product,
                on,
                ..
            } => {
                let (what, each) = match (place, plants.len()) {
                    (None, _) => (several(plants), ""),
                    (Some(place), 0) => (place.clone(), ""),
                    (Some(place), 1) => (format!("{place} (1 plant)"), ", written on its record"),
                    (Some(place), n) => (
                        format!("{place} ({n} plants)"),
                        ", written on the record of each",
                    ),
                };
                format!(
                    "{what}: treated with {product} {}{each}. Follow the product's label and your local rules",
                    at_date(on)
                )
            }
            What::Muddled {
                codes,
                settled: true,
                on,
                ..
            } => {
                format!(
                    "{}: known apart again since {on}; each is again what its record says",
                    several(codes)
                )
            }
            What::Muddled {
                codes, rows, on, ..
            } => match rows {
                Some(rows) => {
                    let (either, each) = match codes.len() {
                        2 => ("either pot", "both pots"),
                        _ => ("any of the pots", "each of the pots"),
                    };
                    let seedlings = match rows {
                        1 => format!("1 seedling is apart since {on}, and may be of {either}"),
                        rows => {
                            format!(
                                "{rows} seedlings mixed up {}; each may be of {either}",
                                at_date(on)
                            )
                        }
                    };
                    format!(
                        "{}: {seedlings}. Count what is left in {each}",
                        listed(codes)
                    )
                }
                None => format!(
                    "{}: mixed up {}; each may be any of them",
                    several(codes),
                    at_date(on)
                ),
            },
            What::Corrected {
                plant,
                column,
                was,
                now,
                on,
            } => {
                let shown = |cell: &str| match cell.is_empty() {
                    true => "not read".to_owned(),
                    false => cell.to_owned(),
                };
                format!(
                    "{plant}: {column} {} was {}, now {}",
                    at_date(on),
                    shown(was),
                    shown(now)
                )
            }
            What::Seen {
                seen,
                missing,
                place,
                on,
            } => {
                let place = place
                    .as_ref()
                    .map(|place| format!(" on {place}"))
                    .unwrap_or_default();
                let seen = counted(*seen, "plant", "plants");
                let found = format!("{seen} found{place} {}", at_date(on));
                match missing.as_slice() {
                    [] => found,
                    missing => format!("{found}; not found: {}", several(missing)),
                }
            }
            What::Measured {
                plants,
                readings,
                dead,
                on,
            } => {
                let read = format!(
                    "{}: {} {}",
                    several(plants),
                    counted(*readings, "reading", "readings"),
                    at_date(on)
                );
                match (plants.is_empty(), dead.is_empty()) {
                    (true, _) => format!("{}: died {}", several(dead), at_date(on)),
                    (false, true) => read,
                    (false, false) => format!("{read}; died: {}", several(dead)),
                }
            }
            What::Undone { change, asked } => format!("Undid change {change}: podbook {asked}"),
            What::NotKept { plants } => format!("{}: no longer marked to keep", several(plants)),
            What::Kept { plants, before } => {
                let before = match before {
                    0 => String::new(),
                    1 => "; 1 more was marked already".to_owned(),
                    n => format!("; {n} more were marked already"),
                };
                format!("{}: marked to keep{before}", several(plants))
            }
        }
    }
}

/// `, 12 seeds`; nothing when there is no count.
fn and_count(count: Option<u32>, one: &str, many: &str) -> String {
    match count {
        Some(count) => format!(", {}", counted(count as usize, one, many)),
        None => String::new(),
    }
}

/// Few codes by name, many by number and ends.
fn several(codes: &[String]) -> String {
    const NAMED: usize = 6;
    match codes {
        [] => "nothing".to_owned(),
        few if few.len() <= NAMED => few.join(", "),
        [first, .., last] => format!("{} plants, {first} to {last}", codes.len()),
        [one] => one.clone(),
    }
}
