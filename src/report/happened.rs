//! What happened at the bench, in one sentence.

use crate::observation::SexSeen;
use crate::recording::recorded::{Recorded, Shown, What};
use crate::wording::{about, at_date, counted, joined, joined_if_any, led_by, listed, several};

impl Recorded {
    /// What happened, in one sentence.
    pub fn words(&self) -> String {
        let on = at_date(&self.on);
        match &self.what {
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
                again,
            } => {
                let again = if *again { " again" } else { "" };
                let how = match is_open {
                    true => format!("left{again} to {pollen},"),
                    false => format!(
                        "pollinated{again} with {pollen}{}",
                        led_by(" from ", envelope.as_ref())
                    ),
                };
                let flowers = and_count(*flowers, "flower", "flowers");
                format!("{zone}: {seed} {how} {on}{flowers}")
            }
            What::Gone {
                fate,
                plants,
                trays,
            } => {
                let word = match *fate {
                    "given" => "given away",
                    fate => fate,
                };
                format!("{}: {word} {on}", with_trays(plants, trays))
            }
            What::Rooted { pieces } => format!("{}: rooted {on}", several(pieces)),
            What::CameBack { plants } => {
                let are = if plants.len() == 1 { "is" } else { "are" };
                format!("{} {are} here again, {on}", several(plants))
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
            } => {
                let name = name.as_ref().map(|name| format!(", labelled {name}"));
                let name = name.unwrap_or_default();
                format!("{envelope}: pollen of {plant}{name}, came {on}")
            }
            What::SeedHandedOn { lot, seeds, how } => {
                let seeds = counted(*seeds as usize, "seed", "seeds");
                format!("{lot}: {seeds} {how} {on}")
            }
            What::PartGone {
                pot,
                seedlings,
                fate,
            } => {
                let seedlings = counted(*seedlings as usize, "seedling", "seedlings");
                format!("{pot}: {seedlings} {fate} {on}")
            }
            What::Remarked { plants, words } => {
                format!("{}: “{words}”, {on}", several(plants))
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
                format!("{plant}{}: {seen}", led_by(" spike ", spike.as_ref()))
            }
            What::Collected { envelope, from } => {
                format!("{envelope}: pollen of {from}, collected {on}")
            }
            What::Envelope { envelope, finished } => {
                let word = if *finished { "finished" } else { "thawed" };
                format!("{envelope}: {word} {on}")
            }
            What::Took {
                zone,
                set,
                flowers,
                controls,
            } => {
                let flowers = flowers.map(|all| counted(all as usize, "flower", "flowers"));
                let of = led_by(" of ", flowers);
                let controls = controls.map(|(set, all)| {
                    let all = counted(all as usize, "control flower", "control flowers");
                    format!("{set} of {all} set")
                });
                let controls = led_by(", ", controls);
                format!("{zone}: {set}{of} set{controls}, counted {on}")
            }
            What::Harvested {
                pod,
                zone,
                lot,
                capsules,
                seeds,
                estimated,
            } => {
                let capsules = and_count(*capsules, "capsule", "capsules");
                let seeds = and_seeds(*seeds, *estimated);
                let seed = match lot {
                    Some(lot) => format!("{capsules}{seeds}; the seed is {lot}"),
                    None => format!("{capsules}; empty, no seed in it"),
                };
                format!("{pod}: harvested from {zone} {on}{seed}")
            }
            What::Sown { sowing, lot, seeds } => {
                let seeds = and_count(*seeds, "seed", "seeds");
                format!("{sowing}: sown from {lot} {on}{seeds}")
            }
            What::Counted { of, up, standing } => {
                let up = up.map(|up| format!("{up} up so far"));
                let standing = standing.map(|standing| format!("{standing} alive"));
                let parts = up.into_iter().chain(standing);
                format!("{of}: {} {on}", joined(parts, ", "))
            }
            What::Pricked { sowing, moved, to } => {
                let moved = counted(*moved as usize, "seedling", "seedlings");
                format!("{to}: {moved} pricked out of {sowing} {on}")
            }
            What::Numbered { plants, from } => {
                format!("{}: numbered from {from} {on}", several(plants))
            }
            What::Potted { plants, pot, place } => {
                let (plants, place) = (several(plants), led_by(", now on ", place.as_ref()));
                format!("{plants}: potted into {pot} {on}{place}")
            }
            What::Moved { plants, trays, to } => {
                format!("{}: moved to {to}", with_trays(plants, trays))
            }
            What::Taken { piece, from, made } => {
                let made = match *made {
                    "basal" => "basal shoot",
                    "lab_copy" => "laboratory copy",
                    made => made,
                };
                format!("{piece}: {made} of {from}, taken {on}")
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
                ..
            } => {
                let (what, each) = what_was_treated(place.as_deref(), plants);
                format!(
                    "{what}: treated with {product} {on}{each}. Follow the product's label and your local rules"
                )
            }
            What::Muddled {
                codes,
                settled,
                still,
                rows,
            } => match (settled, rows) {
                (true, _) => {
                    let still = still.iter().map(|(code, with)| {
                        format!("{code} is still mixed up with {}", with.join(", "))
                    });
                    let now = joined_if_any(still, "; ");
                    let now =
                        now.unwrap_or_else(|| "each is again what its record says".to_owned());
                    format!(
                        "{}: mix-up settled {}; {now}",
                        several(codes),
                        at_date(&self.on)
                    )
                }
                (false, Some(rows)) => rows_mixed_up(codes, *rows, &self.on),
                (false, None) => {
                    let which = match codes.len() {
                        2 => "the other",
                        _ => "any of them",
                    };
                    format!("{}: mixed up {on}; each may be {which}", several(codes))
                }
            },
            What::Corrected {
                plant,
                column,
                was,
                now,
            } => {
                let shown = |cell| match cell {
                    "" => "not read",
                    cell => cell,
                };
                let (was, now) = (shown(was), shown(now));
                format!("{plant}: {column} {on} was {was}, now {now}")
            }
            What::Seen {
                seen,
                missing,
                place,
            } => {
                let place = led_by(" on ", place.as_ref());
                let missing = (!missing.is_empty()).then(|| several(missing));
                if let (0, Some(missing)) = (*seen, &missing) {
                    return format!("{missing}: not found{place} {on}");
                }
                let seen = counted(*seen, "plant", "plants");
                let missing = led_by("; not found: ", missing);
                format!("{seen} found{place} {on}{missing}")
            }
            What::Measured {
                plants,
                readings,
                dead,
            } => {
                if plants.is_empty() {
                    return format!("{}: died {on}", several(dead));
                }
                let readings = match *readings {
                    0 => "row without a reading,".to_owned(),
                    some => counted(some, "reading", "readings"),
                };
                let dead = (!dead.is_empty()).then(|| several(dead));
                let dead = led_by("; died: ", dead);
                format!("{}: {readings} {on}{dead}", several(plants))
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

/// `, 12 seeds`; nothing when there is no count.
fn and_count(count: Option<u32>, one: &str, many: &str) -> String {
    led_by(", ", count.map(|count| counted(count as usize, one, many)))
}

/// `, about 180 seeds`; nothing when there is no number.
fn and_seeds(count: Option<u32>, is_guess: bool) -> String {
    let words = if count == Some(1) { "seed" } else { "seeds" };
    led_by(
        ", ",
        count.map(|count| format!("{} {words}", about(count, is_guess))),
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
