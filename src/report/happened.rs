//! What happened at the bench, in one sentence.

use crate::observation::SexSeen;
use crate::recording::recorded::{Shown, What};
use crate::wording::{about, at_date, counted, joined, joined_if_any, listed, several};

impl What {
    /// What happened, in one sentence.
    pub fn words(&self) -> String {
        match self {
            What::InWords(words) => words.clone(),
            What::Undid {
                what,
                again,
                asked,
                next,
            } => {
                let have = if *again { "take" } else { "have" };
                format!("Undid {what}: podbook {asked}. To {have} it back: podbook undo {next}")
            }
            What::Arrived { code, name } => format!("{code}: {name}, added to the collection"),
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
                let again = if *again { " again" } else { "" };
                let how = match is_open {
                    true => format!("left{again} to {pollen},"),
                    false => format!("pollinated{again} with {pollen}{}", and(" from ", envelope)),
                };
                let flowers = and_count(*flowers, "flower", "flowers");
                format!("{zone}: {seed} {how} {}{flowers}", at_date(on))
            }
            What::Gone {
                fate,
                plants,
                trays,
                on,
            } => {
                let word = match *fate {
                    "given" => "given away",
                    fate => fate,
                };
                format!("{}: {word} {}", with_trays(plants, trays), at_date(on))
            }
            What::Rooted { pieces, on } => format!("{}: rooted {}", several(pieces), at_date(on)),
            What::CameBack { plants, on } => {
                let are = if plants.len() == 1 { "is" } else { "are" };
                format!("{} {are} here again, {}", several(plants), at_date(on))
            }
            What::SeedArrived {
                cross,
                label,
                seeds,
                estimated,
            } => {
                let seeds = and_seeds(*seeds, *estimated);
                format!("{cross}: seed labelled {label}{seeds}")
            }
            What::PollenArrived {
                envelope,
                plant,
                name,
                on,
            } => {
                let name = name.as_ref().map(|name| format!(", labelled {name}"));
                let name = name.unwrap_or_default();
                format!("{envelope}: pollen of {plant}{name}, came {}", at_date(on))
            }
            What::SeedHandedOn {
                lot,
                seeds,
                how,
                on,
            } => {
                let seeds = counted(*seeds as usize, "seed", "seeds");
                format!("{lot}: {seeds} {how} {}", at_date(on))
            }
            What::PartGone {
                pot,
                seedlings,
                fate,
                on,
            } => {
                let seedlings = counted(*seedlings as usize, "seedling", "seedlings");
                format!("{pot}: {seedlings} {fate} {}", at_date(on))
            }
            What::Remarked { plants, words, on } => {
                format!("{}: “{words}”, {}", several(plants), at_date(on))
            }
            What::Flowered {
                plant,
                spike,
                sex,
                was,
                seen,
            } => {
                let seen = seen.iter().map(|(field, on)| stage(field, on));
                let sex = sex.map(|sex| sex_now(sex, *was));
                let seen = joined_if_any(seen.chain(sex), ", ");
                let seen = seen.unwrap_or_else(|| "on record".to_owned());
                format!("{plant}{}: {seen}", and(" spike ", spike))
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
            What::Took {
                zone,
                set,
                flowers,
                controls,
                on,
            } => {
                let flowers = flowers.map(|all| counted(all as usize, "flower", "flowers"));
                let of = and(" of ", &flowers);
                let controls = controls.map(|(set, all)| {
                    let all = counted(all as usize, "control flower", "control flowers");
                    format!("{set} of {all} set")
                });
                let controls = and(", ", &controls);
                format!("{zone}: {set}{of} set{controls}, counted {}", at_date(on))
            }
            What::Harvested {
                pod,
                zone,
                lot,
                capsules,
                seeds,
                estimated,
                on,
            } => {
                let capsules = and_count(*capsules, "capsule", "capsules");
                let seeds = and_seeds(*seeds, *estimated);
                let seed = match lot {
                    Some(lot) => format!("{capsules}{seeds}; the seed is {lot}"),
                    None => format!("{capsules}; empty, no seed in it"),
                };
                format!("{pod}: harvested from {zone} {}{seed}", at_date(on))
            }
            What::Sown {
                sowing,
                lot,
                seeds,
                on,
            } => {
                let seeds = and_count(*seeds, "seed", "seeds");
                format!("{sowing}: sown from {lot} {}{seeds}", at_date(on))
            }
            What::Counted {
                of,
                up,
                standing,
                on,
            } => {
                let up = up.map(|up| format!("{up} up so far"));
                let standing = standing.map(|standing| format!("{standing} alive"));
                let parts = up.into_iter().chain(standing);
                format!("{of}: {} {}", joined(parts, ", "), at_date(on))
            }
            What::Pricked {
                sowing,
                moved,
                to,
                on,
            } => {
                let moved = counted(*moved as usize, "seedling", "seedlings");
                format!("{to}: {moved} pricked out of {sowing} {}", at_date(on))
            }
            What::Numbered { plants, from, on } => {
                format!("{}: numbered from {from} {}", several(plants), at_date(on))
            }
            What::Potted {
                plants,
                pot,
                place,
                on,
            } => {
                let (plants, place) = (several(plants), and(", now on ", place));
                format!("{plants}: potted into {pot} {}{place}", at_date(on))
            }
            What::Moved { plants, trays, to } => {
                format!("{}: moved to {to}", with_trays(plants, trays))
            }
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
                    Shown::AsALaterOne => ": it is that of an accepted opinion of a later date",
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
                let (what, each) = what_was_treated(place.as_deref(), plants);
                format!(
                    "{what}: treated with {product} {}{each}. Follow the product's label and your local rules",
                    at_date(on)
                )
            }
            What::Muddled {
                codes,
                settled,
                still,
                rows,
                on,
            } => match (settled, rows) {
                (true, _) => {
                    let still = still.iter().map(|(code, with)| {
                        format!("{code} is still mixed up with {}", with.join(", "))
                    });
                    let now = joined_if_any(still, "; ");
                    let now =
                        now.unwrap_or_else(|| "each is again what its record says".to_owned());
                    format!("{}: mix-up settled {}; {now}", several(codes), at_date(on))
                }
                (false, Some(rows)) => rows_mixed_up(codes, *rows, on),
                (false, None) => {
                    let which = match codes.len() {
                        2 => "the other",
                        _ => "any of them",
                    };
                    let (codes, on) = (several(codes), at_date(on));
                    format!("{codes}: mixed up {on}; each may be {which}")
                }
            },
            What::Corrected {
                plant,
                column,
                was,
                now,
                on,
            } => {
                let shown = |cell| match cell {
                    "" => "not read",
                    cell => cell,
                };
                let (was, now) = (shown(was), shown(now));
                format!("{plant}: {column} {} was {was}, now {now}", at_date(on))
            }
            What::Seen {
                seen,
                missing,
                place,
                on,
            } => {
                let place = and(" on ", place);
                let missing = (!missing.is_empty()).then(|| several(missing));
                if let (0, Some(missing)) = (*seen, &missing) {
                    return format!("{missing}: not found{place} {}", at_date(on));
                }
                let seen = counted(*seen, "plant", "plants");
                let missing = and("; not found: ", &missing);
                format!("{seen} found{place} {}{missing}", at_date(on))
            }
            What::Measured {
                plants,
                readings,
                dead,
                on,
            } => {
                if plants.is_empty() {
                    return format!("{}: died {}", several(dead), at_date(on));
                }
                let readings = match *readings {
                    0 => "row without a reading,".to_owned(),
                    some => counted(some, "reading", "readings"),
                };
                let dead = (!dead.is_empty()).then(|| several(dead));
                let dead = and("; died: ", &dead);
                format!("{}: {readings} {}{dead}", several(plants), at_date(on))
            }
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

/// When a stage of a spike was seen, by the field that holds it.
fn stage(field: &str, on: &str) -> String {
    match field {
        "spike" => format!("spike seen {}", at_date(on)),
        "opened" if on.starts_with("by ") => format!("open {on}"),
        field => format!("{field} {}", at_date(on)),
    }
}

/// The sex that was seen, and what was on record before where that was another one.
fn sex_now(sex: SexSeen, was: Option<SexSeen>) -> String {
    match was {
        Some(SexSeen::Certain(was)) => format!("{sex} (its open flowers were {was})"),
        Some(was) => format!("{sex} (was {was})"),
        None => sex.to_string(),
    }
}

/// What was treated, and where that is written.
fn what_was_treated(place: Option<&str>, plants: &[String]) -> (String, &'static str) {
    match (place, plants.len()) {
        (None, _) => (several(plants), ""),
        (Some(place), 0) => (place.to_owned(), ""),
        (Some(place), 1) => (format!("{place} (1 plant)"), ", written on its record"),
        (Some(place), n) => (
            format!("{place} ({n} plants)"),
            ", written on the record of each",
        ),
    }
}

/// So many seedlings of some pots are mixed up, and the rest are not.
fn rows_mixed_up(pots: &[String], rows: u32, on: &str) -> String {
    let (either, each) = match pots.len() {
        2 => ("either pot", "both pots"),
        _ => ("any of the pots", "each of the pots"),
    };
    let seedlings = match rows {
        1 => format!("1 seedling is apart since {on}, and may be of {either}"),
        rows => format!(
            "{rows} seedlings mixed up {}; each may be of {either}",
            at_date(on)
        ),
    };
    format!(
        "{}: {seedlings}. Count what is left in {each}",
        listed(pots)
    )
}

/// Words behind those that lead to them; nothing where there are none.
fn and(before: &str, words: &Option<String>) -> String {
    words
        .as_ref()
        .map_or(String::new(), |words| format!("{before}{words}"))
}

/// `, 12 seeds`; nothing when there is no count.
fn and_count(count: Option<u32>, one: &str, many: &str) -> String {
    and(", ", &count.map(|count| counted(count as usize, one, many)))
}

/// `, about 180 seeds`; nothing when there is no number.
fn and_seeds(count: Option<u32>, is_guess: bool) -> String {
    let words = if count == Some(1) { "seed" } else { "seeds" };
    and(
        ", ",
        &count.map(|count| format!("{} {words}", about(count, is_guess))),
    )
}

/// Plants as [`several`] has them, then every tray.
fn with_trays(plants: &[String], trays: &[String]) -> String {
    match (plants, trays) {
        (plants, []) => several(plants),
        ([], trays) => trays.join(", "),
        (plants, trays) => format!("{}, {}", several(plants), trays.join(", ")),
    }
}
