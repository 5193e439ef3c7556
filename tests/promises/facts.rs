//! Whether a registry read anew holds what an event recorded, looked up record by record.

use podbook::observation::{SexSeen, sighting};
use podbook::record::{Fate, Flowering, Made, Tally, Treatment};
use podbook::recording::recorded::{Recorded, What};
use podbook::registry::{CrossRow, PlantRow, RametRow, Registry, Target};
use podbook::text::visible_char;

/// Makes sure that everything a recording says can be read back.
///
/// # Panics
/// With what is missing.
pub fn read_back(after: &Registry, recorded: &Recorded) {
    let found = Found(after);
    for tag in recorded.tags.iter().filter(|tag| tag.on != "spike") {
        assert!(after.target(&tag.code).is_some(), "tag {}", tag.code);
    }
    for code in &recorded.about {
        assert!(after.target(code).is_some(), "code {code}");
    }
    if let What::Seen { place, .. } = &recorded.what {
        // Pieces are counted, and each plant has one row.
        let plants = recorded.about.iter().map(|code| found.plant(code).0);
        let plants: std::collections::BTreeSet<PlantRow> = plants.collect();
        assert!(
            found.rows_of(place.as_deref(), &recorded.on) >= plants.len(),
            "{recorded:?}"
        );
        return;
    }
    assert!(found.holds(recorded), "{:?}", recorded.what);
}

/// Whether a flowering says that sex, and how it is known.
fn known(flowering: &Flowering, sex: SexSeen) -> bool {
    sighting(0, flowering).map(|of| of.seen()) == Some(sex)
}

/// Words as they are kept: in one line, controls as their signs.
fn kept(words: &str) -> String {
    let sign = |c| match c {
        '\n' | '\r' | '\t' | '␊' => ' ',
        c if char::is_control(c) => visible_char(c),
        c => c,
    };
    words.chars().map(sign).collect()
}

struct Found<'r, 't>(&'r Registry<'t>);

impl Found<'_, '_> {
    fn plant(&self, code: &str) -> (PlantRow, Option<usize>) {
        let target = self.0.target(code);
        let of = target.and_then(Target::plant_or_ramet);
        let of = of.unwrap_or_else(|| panic!("{code} names {target:?}"));
        (of.plant, of.ramet.map(RametRow::index))
    }

    /// The place and the fate of a sowing or a community pot, and the code of the sowing that pot is of.
    fn tray(&self, code: &str) -> (Option<&str>, Option<&Fate<'_>>, Option<String>) {
        match self.0.target(code) {
            Some(Target::Sowing(row)) => {
                let of = &self.0[row];
                (of.place.as_deref(), of.fate.as_ref(), None)
            }
            Some(Target::CommunityPot(row)) => {
                let of = &self.0[row];
                let sowing = of
                    .sowing
                    .map(|sowing| format!("{}.{sowing}", self.0[row.cross].page.code));
                (of.place.as_deref(), of.fate.as_ref(), sowing)
            }
            other => panic!("{code} names {other:?}"),
        }
    }

    /// How many rows the sittings of a day at a place have.
    fn rows_of(&self, place: Option<&str>, on: &str) -> usize {
        let sittings = self.0.readings.sittings().iter();
        let of_day = sittings.filter(|head| {
            head.sitting.on == on && head.sitting.place.as_deref() == place.map(kept).as_deref()
        });
        of_day.map(|head| head.row_plants().len()).sum()
    }

    fn tallied(tallies: &[Tally], on: &str, count: u32) -> bool {
        let is = |tally: &Tally| tally.on == on && tally.count == count;
        tallies.iter().any(is)
    }

    fn fate(&self, code: &str) -> Option<&Fate<'_>> {
        match self.plant(code) {
            (plant, None) => self.0.fate(plant),
            (plant, Some(at)) => self.0.ramets(plant)[at].fate.as_ref(),
        }
    }

    fn holds(&self, Recorded { what, on, .. }: &Recorded) -> bool {
        self.holds_plant(what, on)
            .or_else(|| self.holds_part(what, on))
            .unwrap_or_else(|| panic!("nothing is known of {what:?}"))
    }

    /// What is recorded on plants, pieces and envelopes.
    fn holds_plant(&self, what: &What, on: &str) -> Option<bool> {
        let registry = self.0;
        Some(match what {
            What::Arrived { code, name } => {
                let founder = registry.founder(self.plant(code).0).expect("a founder");
                *founder.received == *kept(name)
            }
            What::Flowered {
                plant,
                sex,
                seen,
                spike,
                was: _,
            } => registry
                .flowerings(self.plant(plant).0)
                .iter()
                .any(|flowering| {
                    let date = |field: &str| match field {
                        "spike" => flowering.spike,
                        "opened" => flowering.opened,
                        _ => flowering.over,
                    };
                    flowering.code == spike.as_deref()
                        && seen.iter().all(|(field, on)| date(field) == Some(on))
                        && sex.is_none_or(|sex| known(flowering, sex))
                }),
            What::CameBack { plants } => plants.iter().all(|code| {
                let (plant, piece) = self.plant(code);
                let returns = match piece {
                    None => registry.came_back(plant),
                    Some(at) => &registry.ramets(plant)[at].came_back[..],
                };
                let last = returns.last().map(|back| back.on);
                self.fate(code).is_none() && last == Some(on)
            }),
            What::PollenArrived {
                envelope,
                plant,
                name,
                ..
            } => {
                let lot = &registry[registry.pollen_lot(envelope)?];
                let founder = registry.founder(registry.plant(plant)?);
                let received = founder.map(|founder| &*founder.received);
                lot.from.codes() == [plant.as_str()]
                    && name
                        .as_ref()
                        .is_none_or(|name| received == Some(&*kept(name)))
            }
            What::SeedHandedOn { lot, seeds, .. } => match registry.target(lot)? {
                Target::SeedLot(lot) => registry[lot]
                    .gone
                    .last()
                    .is_some_and(|part| part.count == *seeds && part.fate.on() == on),
                _ => false,
            },
            What::PartGone {
                pot,
                seedlings,
                fate,
            } => match registry.target(pot)? {
                Target::CommunityPot(pot) => registry[pot].gone.last().is_some_and(|part| {
                    part.count == *seedlings
                        && part.fate.on() == on
                        && format!("{:?}", part.fate).to_lowercase().starts_with(fate)
                }),
                _ => false,
            },
            What::Remarked { plants, words } => plants
                .iter()
                .all(|code| self.cell(code, "note", on) == Some(kept(words))),
            What::Rooted { pieces } => pieces.iter().all(|code| {
                let (plant, piece) = self.plant(code);
                piece.is_some_and(|at| registry.ramets(plant)[at].rooted == Some(on))
            }),
            What::Collected { envelope, from } => {
                let lot = &registry[registry.pollen_lot(envelope)?];
                lot.collected == Some(on) && lot.from.codes() == [from.as_str()]
            }
            What::Envelope { envelope, finished } => {
                let lot = &registry[registry.pollen_lot(envelope)?];
                match finished {
                    true => lot.finished == Some(on),
                    false => lot.thawed.contains(&on),
                }
            }
            What::Gone {
                fate,
                plants,
                trays,
            } => {
                // Where nothing but seed ended, the words are those of seed.
                let fate = match *fate {
                    "spoilt" => "died",
                    "thrown out" => "culled",
                    "given away" => "given",
                    fate => fate,
                };
                trays.iter().all(|tray| {
                    let found = match registry.target(tray) {
                        Some(Target::SeedLot(lot)) => registry[lot].fate.as_ref(),
                        _ => self.tray(tray).1,
                    };
                    found.is_some_and(|found| {
                        let word = format!("{found:?}").to_lowercase();
                        word.starts_with(fate) && found.on() == on
                    })
                }) && plants.iter().all(|plant| {
                    self.fate(plant).is_some_and(|found| {
                        let word = format!("{found:?}").to_lowercase();
                        word.starts_with(fate) && found.on() == on
                    })
                })
            }
            What::Potted { plants, pot, place } => plants.iter().all(|plant| {
                let (row, piece) = self.plant(plant);
                let of_piece = piece.map(|at| &registry.ramets(row)[at]);
                let taken_off =
                    of_piece.filter(|of| !matches!(of.made, Some(Made::Original) | None));
                let last = match taken_off {
                    Some(piece) => piece.pots.last(),
                    None => registry.pots(row).last(),
                };
                last.is_some_and(|last| {
                    *last.pot == **pot
                        && last.on == on
                        && last.place.as_deref() == place.as_deref().map(kept).as_deref()
                })
            }),
            What::Moved { plants, trays, to } => {
                trays.iter().all(|tray| {
                    // A count of what stands in a sowing moves with the sowing.
                    let counted = self
                        .tray(tray)
                        .2
                        .is_some_and(|of| self.tray(&of).0 == Some(to));
                    self.tray(tray).0 == Some(to) || counted
                }) && plants.iter().all(|plant| {
                    let (row, piece) = self.plant(plant);
                    let ramets = registry.ramets(row);
                    let place = match (piece, registry.seedling(row)) {
                        (Some(at), _) => ramets[at].place.as_deref(),
                        (None, Some(seedling)) => seedling.place.as_deref(),
                        (None, None) => ramets[0].place.as_deref(),
                    };
                    place == Some(to)
                })
            }
            What::Taken { piece, made, .. } => match self.plant(piece) {
                (plant, Some(at)) => {
                    let ramet = &registry.ramets(plant)[at];
                    let found = ramet.made.map(|made| format!("{made:?}").to_lowercase());
                    ramet.cut == Some(on) && found.as_deref() == Some(made)
                }
                _ => false,
            },
            What::Opinion {
                plant,
                name,
                accepted,
                ..
            } => {
                let given = registry.identified(self.plant(plant).0).last();
                given.is_some_and(|last| *last.name == *kept(name) && last.accepted == *accepted)
            }
            What::Treated {
                plants,
                place,
                at_place,
                product,
            } => {
                let place = place.as_deref().map(kept);
                let is_it = |of: Option<&Treatment>| {
                    of.is_some_and(|of| {
                        *of.product == *kept(product)
                            && of.on == on
                            && of.place.as_deref() == place.as_deref()
                    })
                };
                let rows = plants.iter().map(|plant| self.plant(plant).0);
                let mut own = rows.map(|plant| registry.treatments(plant).last());
                own.all(is_it) && (!at_place || is_it(registry.settings.treatments.last()))
            }
            What::Muddled {
                codes,
                settled,
                rows,
                still: _,
            } => self.muddled(codes, *settled, *rows, on),
            What::Corrected {
                plant, column, now, ..
            } => self.cell(plant, column, on) == Some(kept(now)),
            What::Seen { .. } => false,
            What::NotKept { plants } => plants
                .iter()
                .all(|plant| registry.kept(self.plant(plant).0).is_none()),
            What::Kept { plants, .. } => plants
                .iter()
                .all(|plant| registry.is_kept(self.plant(plant).0)),
            _ => return None,
        })
    }

    fn muddled(&self, codes: &[String], settled: bool, rows: Option<u32>, on: &str) -> bool {
        let registry = self.0;
        if rows.is_some() {
            let pots = registry
                .crosses
                .iter()
                .flat_map(|cross| &cross.page.community_pots);
            let mut muddles = pots.flat_map(|pot| &pot.muddled);
            return muddles.any(|muddle| muddle.with == *codes && muddle.on == on);
        }
        codes.iter().all(|code| {
            let muddles = match registry.target(code) {
                Some(Target::CommunityPot(pot)) => &registry[pot].muddled[..],
                _ => {
                    let seedling = registry.seedling(self.plant(code).0);
                    seedling.map_or(&[][..], |seedling| &seedling.muddled)
                }
            };
            let others: Vec<&str> = codes
                .iter()
                .map(String::as_str)
                .filter(|other| other != code)
                .collect();
            muddles.iter().any(|muddle| match settled {
                true => {
                    let with = || muddle.with.iter().any(|of| others.contains(of));
                    muddle.settled == Some(on) && (others.is_empty() || with())
                }
                false => muddle.on == on && muddle.with == others,
            })
        })
    }

    /// A cell as it stands on the page, by the outline alone.
    fn cell(&self, plant: &str, column: &str, on: &str) -> Option<String> {
        let registry = self.0;
        let row = self.plant(plant).0;
        let (file, name) = match registry.cross_of(row) {
            Some(cross) => (registry[cross].file, registry.number(row)?.to_owned()),
            None => (registry.clones_file?, registry.code(row)),
        };
        let outline = podbook::text::Outline::of(registry.sources.get(file).kept());
        let text = |part| read_text(outline.slice(part));
        let root = outline.root()?;
        let mut found = None;
        for sitting in outline.children(outline.follow(root, "sittings")?) {
            let day = outline.field(sitting, "on").map(text);
            let columns: Vec<String> = outline
                .children(outline.field(sitting, "columns")?)
                .map(text)
                .collect();
            let Some(at) = columns
                .iter()
                .position(|known| known == column)
                .filter(|_| day.as_deref() == Some(on))
            else {
                continue;
            };
            for row in outline.children(outline.field(sitting, "rows")?) {
                let cells: Vec<String> = outline.children(row).map(text).collect();
                if cells[0] == name {
                    found = Some(cells[at + 1].clone());
                }
            }
        }
        found
    }

    /// What is recorded on parts of a cross.
    fn holds_part(&self, what: &What, on: &str) -> Option<bool> {
        let registry = self.0;
        let page = |cross: CrossRow| &registry[cross].page;
        Some(match what {
            What::SeedArrived {
                cross,
                label,
                seeds,
                estimated,
            } => {
                let page = page(registry.cross(cross)?);
                let lot = &page.seed_lots[0];
                lot.seeds == *seeds
                    && lot.estimated == *estimated
                    && page.received.as_deref() == Some(&*kept(label))
            }
            What::Pollinated {
                zone,
                flowers,
                again,
                envelope,
                ..
            } => {
                let Some(Target::Zone(row)) = registry.target(zone) else {
                    return Some(false);
                };
                let zone = &registry[row];
                let same = *again || (zone.flowers == *flowers && zone.on.len() == 1);
                zone.on.last() == Some(&on) && same && zone.pollen == envelope.as_deref()
            }
            What::Took {
                zone,
                set,
                flowers,
                controls,
            } => {
                let Some(Target::Zone(row)) = registry.target(zone) else {
                    return Some(false);
                };
                let zone = &registry[row];
                let counted = zone.control_set.zip(zone.control_flowers);
                let controls = controls.is_none() || *controls == counted;
                controls
                    && zone.set == Some(*set)
                    && zone.flowers == *flowers
                    && zone.counted == Some(on)
            }
            What::Harvested {
                pod,
                zone,
                lot,
                capsules,
                seeds,
                estimated,
            } => {
                let Some(Target::Pod(row)) = registry.target(pod) else {
                    return Some(false);
                };
                let pod = &registry[row];
                let of_zone = zone.rsplit('.').next();
                let of_pod = registry.seed_lots(row.cross);
                let mut of_pod = of_pod.filter(|(_, lot)| lot.pod == Some(pod.code));
                let seed = match lot.as_ref().map(|lot| registry.target(lot)) {
                    Some(Some(Target::SeedLot(lot))) => {
                        let lot = &registry[lot];
                        lot.seeds == *seeds
                            && lot.estimated == *estimated
                            && lot.pod == Some(pod.code)
                    }
                    Some(_) => false,
                    None => *seeds == Some(0) && of_pod.next().is_none(),
                };
                seed && pod.capsules == *capsules
                    && pod.seeds == *seeds
                    && pod.harvested == Some(on)
                    && pod.zone == of_zone
            }
            What::Sown { sowing, lot, seeds } => {
                let Some(Target::Sowing(row)) = registry.target(sowing) else {
                    return Some(false);
                };
                let sowing = &registry[row];
                sowing.lot == lot.rsplit('.').next()
                    && sowing.seeds == *seeds
                    && sowing.on == Some(on)
            }
            What::Counted { of, up, standing } => match registry.target(of)? {
                Target::Sowing(row) => {
                    let sowing = &registry[row];
                    let pots = page(row.cross).community_pots.iter();
                    let mut pots = pots.filter(|pot| pot.sowing == Some(sowing.code));
                    up.is_none_or(|up| Self::tallied(&sowing.germinated, on, up))
                        && standing.is_none_or(|standing| {
                            pots.any(|pot| Self::tallied(&pot.alive, on, standing))
                        })
                }
                Target::CommunityPot(pot) => Self::tallied(&registry[pot].alive, on, (*standing)?),
                _ => false,
            },
            What::Pricked { sowing, moved, to } => {
                let (Some(Target::Sowing(row)), Some(Target::CommunityPot(..))) =
                    (registry.target(sowing), registry.target(to))
                else {
                    return Some(false);
                };
                let last = registry[row].pricked_out.last()?;
                last.moved == *moved && last.on == on && last.to.as_deref() == to.rsplit('.').next()
            }
            What::Numbered { plants, .. } => plants.iter().all(|plant| {
                let seedling = registry.seedling(self.plant(plant).0);
                seedling.is_some_and(|seedling| seedling.numbered == Some(on))
            }),
            _ => return None,
        })
    }
}

/// The words of a text in quotes.
fn read_text(slice: &str) -> String {
    ron::from_str(slice).unwrap_or_else(|_| slice.to_owned())
}
