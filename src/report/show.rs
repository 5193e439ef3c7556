//! One plant, cross, pod, pollen lot or species on one screen.

use super::list::place;
use super::name::{confidence_words, rests_on};
use super::road::{Road, road, stages};
use super::sexes::{sexes, without_spare};
use super::sheet::{Cell, Report, Sheet, Table};
use super::standing::{Presence, fate_words, last_read, presence, sex_seen, sex_words};
use super::words::{age, counted, days, months, span_of_days, typed_date};
use crate::lineage::{Lineage, Link, PlantRow};
use crate::naming::recorded::{Names, TopOf};
use crate::naming::{Writing, breeder, formula_only};
use crate::record::{Day, Parents, PollenPlace, PollenSource, SeenBy, Sex, Sureness, When};
use crate::registry::{Column, PlantKind, Registry, Target};
use serde::Serialize;

/// What is known of one thing.
#[derive(Serialize, Default)]
pub struct ShowReport {
    /// Code.
    pub id: String,
    /// `founder`, `seedling`, `cross`, `pod`, `pollen lot` or `species`.
    pub what: &'static str,
    /// Name in breeder order with its basis.
    pub name: String,
    /// Facts, a label and its value each.
    pub facts: Vec<Fact>,
    /// Stages from pollination to this pot.
    pub road: Vec<Stage>,
    /// Spikes on record.
    pub flowerings: Vec<FloweringLine>,
    /// Rooted pieces.
    pub ramets: Vec<RametLine>,
    /// Readings, oldest first.
    pub readings: Vec<ReadingLine>,
    /// Crosses it is a parent of.
    pub offspring: Vec<OffspringLine>,
    /// Cautions.
    pub cautions: Vec<String>,
}

/// A label and its value.
#[derive(Serialize)]
pub struct Fact {
    /// The label.
    pub label: &'static str,
    /// The value.
    pub value: String,
}

/// One stage of the road.
#[derive(Serialize)]
pub struct Stage {
    /// What happened.
    pub stage: &'static str,
    /// When, as a range of days.
    pub when: String,
    /// How long since the stage before, or until today for the last.
    pub took: Option<String>,
}

/// One spike.
#[derive(Serialize)]
pub struct FloweringLine {
    /// First flower open, or the spike first seen.
    pub when: String,
    /// Sex.
    pub sex: String,
    /// How it is known.
    pub seen_by: &'static str,
    /// Which ramet.
    pub ramet: Option<String>,
}

/// One ramet.
#[derive(Serialize)]
pub struct RametLine {
    /// Code.
    pub id: String,
    /// How and when it was made.
    pub made: String,
    /// `here`, or what became of it.
    pub standing: String,
    /// Where it stands.
    pub place: Option<String>,
}

/// One reading.
#[derive(Serialize)]
pub struct ReadingLine {
    /// When.
    pub when: String,
    /// Age from sowing, months, least and greatest.
    pub months_from_sowing: Option<(f64, f64)>,
    /// What was read.
    pub of: String,
    /// As typed, with the heading's unit.
    pub value: String,
}

/// One cross it is a parent of.
#[derive(Serialize)]
pub struct OffspringLine {
    /// Code of the cross.
    pub id: String,
    /// `seed parent`, `pollen parent`, or `one of the possible …`.
    pub as_parent: String,
    /// The cross's formula.
    pub name: String,
    /// Numbered seedlings.
    pub numbered: usize,
}

/// Shows whatever a code names.
pub fn show(
    registry: &Registry,
    lineage: &Lineage,
    names: &Names,
    id: &str,
    today: Day,
) -> Option<ShowReport> {
    let screen = Screen {
        registry,
        lineage,
        names,
        today,
    };
    Some(match registry.target(id)? {
        Target::Plant(plant) | Target::Ramet(plant, _) => screen.plant(plant),
        Target::Cross(cross) => screen.cross(cross),
        Target::Pod(cross, pod) => screen.pod(cross, Some(pod as usize), None, id),
        Target::Sowing(cross, sowing) => screen.pod(cross, None, Some(sowing as usize), id),
        Target::Zone(cross, _) | Target::SeedLot(cross, _) | Target::Patch(cross, _) => {
            screen.cross(cross)
        }
        Target::Pollen(lot) => screen.pollen(lot),
        Target::Species(epithet) => screen.species(epithet),
    })
}

struct Screen<'s, 'r, 't> {
    registry: &'r Registry<'t>,
    lineage: &'r Lineage,
    names: &'s Names<'r, 't>,
    today: Day,
}

fn fact(label: &'static str, value: Option<impl Into<String>>) -> Option<Fact> {
    value.map(|value| Fact {
        label,
        value: value.into(),
    })
}

impl Screen<'_, '_, '_> {
    fn name(&self, top: TopOf) -> String {
        let formula = self.names.formula(top, false);
        breeder(&formula, &Writing::plain(self.names.vocabulary()))
            .unwrap_or_else(|long| long.to_string())
    }

    fn short(&self, top: TopOf) -> String {
        let formula = self.names.formula(top, false);
        formula_only(&formula, &Writing::plain(self.names.vocabulary()))
            .unwrap_or_else(|long| long.to_string())
    }

    fn typed(&self, text: &str) -> String {
        typed_date(text, self.registry.when(text))
    }

    fn plant(&self, plant: PlantRow) -> ShowReport {
        let registry = self.registry;
        let founder = registry.founder(plant);
        let mut facts: Vec<Fact> = Vec::new();
        facts.extend(fact(
            "rests on",
            Some(rests_on(registry, self.names, TopOf::Plant(plant))),
        ));
        facts.extend(fact("parents", self.parents(plant)));
        facts.extend(fact("standing", Some(self.standing(plant))));
        facts.extend(fact("sex", Some(sex_words(sex_seen(registry, plant)))));
        facts.extend(fact("place", place(registry, plant)));
        facts.extend(fact(
            "pot",
            registry
                .pots(plant)
                .last()
                .map(|pot| format!("{} since {}", &*pot.pot, self.typed(pot.on))),
        ));
        facts.extend(fact("kept", self.kept(plant)));
        facts.extend(fact(
            "nickname",
            registry
                .nickname(plant)
                .map(|n| format!("{n} (not a cultivar name)")),
        ));
        facts.extend(fact(
            "cultivar",
            registry
                .cultivar(plant)
                .map(|c| format!("'{}'", &*c.epithet)),
        ));
        if let Some(founder) = founder {
            facts.extend(fact(
                "received as",
                Some(format!("\"{}\"", &*founder.received)),
            ));
            facts.extend(fact("received", founder.on.map(|on| self.typed(on))));
            facts.extend(fact(
                "batch",
                founder
                    .batch
                    .map(|batch| format!("{batch} (founders of one batch count as siblings)")),
            ));
            facts.extend(fact("locality claim", founder.locality.as_deref()));
            facts.extend(fact("nights that work here", founder.nights.as_deref()));
            facts.extend(fact("papers", founder.papers.as_deref()));
        }
        for opinion in registry.identified(plant) {
            let on = opinion
                .on
                .map(|on| format!(" on {}", self.typed(on)))
                .unwrap_or_default();
            facts.extend(fact(
                "identified as",
                Some(format!(
                    "\"{}\"{on}, {}",
                    &*opinion.name,
                    confidence_words(opinion.confidence)
                )),
            ));
        }
        let note = founder.map_or_else(
            || {
                registry
                    .seedling(plant)
                    .and_then(|seedling| seedling.note.as_deref())
            },
            |founder| founder.note.as_deref(),
        );
        facts.extend(fact("note", note));
        facts.extend(fact("last read", last_read(registry, plant).map(days)));
        let mut report = ShowReport {
            id: registry.code(plant),
            what: if registry.kind(plant) == PlantKind::Founder {
                "founder"
            } else {
                "seedling"
            },
            name: self.name(TopOf::Plant(plant)),
            facts,
            flowerings: self.flowerings(plant),
            ramets: self.ramets(plant),
            readings: self.readings(plant),
            offspring: self.offspring(plant),
            ..ShowReport::default()
        };
        if registry.cross_of(plant).is_some() {
            report.road = self.stages(road(registry, plant));
        }
        self.caution(plant, &mut report);
        report
    }

    fn caution(&self, plant: PlantRow, report: &mut ShowReport) {
        let pieces = super::standing::pieces_here(self.registry, plant, self.today);
        if pieces == 1 && !report.offspring.is_empty() {
            report.cautions.push(format!(
                "{} is a parent of {} and stands here as one piece only: take a cutting",
                report.id,
                counted(report.offspring.len(), "cross", "crosses")
            ));
        }
        if report
            .facts
            .iter()
            .any(|fact| fact.label == "papers" || fact.label == "locality claim")
        {
            report.cautions.push(
                "before a plant crosses a border ask your CITES management authority and your plant-health service".into(),
            );
        }
    }

    fn standing(&self, plant: PlantRow) -> String {
        let registry = self.registry;
        match (presence(registry, plant, self.today), registry.fate(plant)) {
            (Presence::Here, _) => "here".to_owned(),
            (_, Some(fate)) => fate_words(fate),
            (Presence::NeverHere, None) => "never here: named only as a parent".to_owned(),
            (_, None) => "all ramets gone".to_owned(),
        }
    }

    fn kept(&self, plant: PlantRow) -> Option<String> {
        let kept = match self.registry.founder(plant) {
            Some(founder) => founder.kept.as_ref(),
            None => self
                .registry
                .seedling(plant)
                .and_then(|seedling| seedling.kept.as_deref()),
        }?;
        let on = kept.on.map(|on| self.typed(on));
        let why = kept.why.as_deref().map(str::to_owned);
        Some(
            [on, why]
                .into_iter()
                .flatten()
                .collect::<Vec<_>>()
                .join(": "),
        )
    }

    /// The parents by code, with what is uncertain about them.
    fn parents(&self, plant: PlantRow) -> Option<String> {
        let origin = &self.registry.origins()[self.registry.origin_of(plant)? as usize];
        let code = |row: Option<PlantRow>| {
            row.map_or_else(|| "?".to_owned(), |row| self.registry.code(row))
        };
        let pairs: Vec<String> = origin
            .pairs
            .iter()
            .map(|pair| format!("♀ {} × ♂ {}", code(pair.seed), code(pair.pollen)))
            .collect();
        let how = match (pairs.len(), origin.donor) {
            (1, _) => "",
            (_, crate::registry::Donor::WholePod) => ", one of these",
            (_, crate::registry::Donor::EachSeed) => ", any of these for each seed",
        };
        let cross = self
            .registry
            .cross_of(plant)
            .map(|cross| &self.registry.crosses[cross as usize].page);
        let lost = cross.is_some_and(|page| matches!(page.parents, Parents::DirectionLost(_)));
        let direction = if lost { " (direction not known)" } else { "" };
        Some(format!("{}{how}{direction}", pairs.join("; ")))
    }

    fn stages(&self, road: Road) -> Vec<Stage> {
        let steps = [
            ("pollinated", road.pollinated),
            ("harvested", road.harvested),
            ("sown", road.sown),
            ("germinated", road.germinated),
        ];
        let mut stages: Vec<Stage> = Vec::new();
        let mut before: Option<When> = None;
        for (stage, when) in steps.into_iter().filter(|(_, when)| *when != When::UNKNOWN) {
            let took = before
                .and_then(|before| before.days_until(when))
                .map(|took| format!("after {}", span_of_days(took)));
            stages.push(Stage {
                stage,
                when: days(when),
                took,
            });
            before = Some(when);
        }
        for (stage, from) in [
            ("age from sowing", road.sown),
            ("age from germination", road.germinated),
        ] {
            if let Some(months) = months(from, When::on(self.today)) {
                stages.push(Stage {
                    stage,
                    when: age(months),
                    took: None,
                });
            }
        }
        stages
    }

    fn flowerings(&self, plant: PlantRow) -> Vec<FloweringLine> {
        let line = |flowering: &crate::record::Flowering| FloweringLine {
            when: match (flowering.opened, flowering.spike) {
                (Some(opened), _) => format!("opened {}", self.typed(opened)),
                (None, Some(spike)) => format!("spike seen {}", self.typed(spike)),
                (None, None) => "date not recorded".to_owned(),
            },
            sex: match flowering.sex {
                Some(Sex::Female) => "female",
                Some(Sex::Male) => "male",
                None => "not seen",
            }
            .to_owned(),
            seen_by: match flowering.seen_by {
                SeenBy::Flowers => "open flowers",
                SeenBy::Buds => "buds: a guess",
                SeenBy::LeafTest => "leaf test",
                SeenBy::Supplier => "supplier's word",
            },
            ramet: flowering.ramet.map(str::to_owned),
        };
        self.registry.flowerings(plant).iter().map(line).collect()
    }

    fn ramets(&self, plant: PlantRow) -> Vec<RametLine> {
        use crate::record::Made;
        let code = self.registry.code(plant);
        let line = |ramet: &crate::record::Ramet| {
            let made = match ramet.made {
                Some(Made::Original) | None => "the plant itself",
                Some(Made::Cutting) => "cutting",
                Some(Made::Division) => "division",
                Some(Made::Basal) => "basal shoot",
                Some(Made::LabCopy) => "laboratory copy",
            };
            let from = ramet
                .from
                .map(|from| format!(" of {code}-{from}"))
                .unwrap_or_default();
            let cut = ramet
                .cut
                .map(|cut| format!(", cut {}", self.typed(cut)))
                .unwrap_or_default();
            let rooted = ramet
                .rooted
                .map(|on| format!(", rooted {}", self.typed(on)))
                .unwrap_or_default();
            RametLine {
                id: format!("{code}-{}", ramet.code),
                made: format!("{made}{from}{cut}{rooted}"),
                standing: ramet
                    .fate
                    .as_ref()
                    .map_or_else(|| "here".to_owned(), fate_words),
                place: ramet.place.as_deref().map(str::to_owned),
            }
        };
        self.registry.ramets(plant).iter().map(line).collect()
    }

    fn readings(&self, plant: PlantRow) -> Vec<ReadingLine> {
        let registry = self.registry;
        let sown = road(registry, plant).sown;
        let mut lines: Vec<(When, ReadingLine)> = registry
            .readings
            .of(plant)
            .map(|reading| {
                let head = &registry.readings.sittings()[reading.sitting as usize];
                let when = registry.when(head.sitting.on);
                let cell = registry.cell(reading);
                let (of, value) = match head.columns[usize::from(reading.column)] {
                    Column::Trait { index, unit } => {
                        let of = registry.settings.traits[usize::from(index)]
                            .name
                            .to_string();
                        let bare = cell
                            .trim()
                            .bytes()
                            .all(|byte| byte.is_ascii_digit() || byte == b'.');
                        let unit = if bare { unit_words(unit) } else { "" };
                        (of, format!("{cell}{unit}"))
                    }
                    Column::Pest => ("pest".to_owned(), cell.to_owned()),
                    Column::Pitcher => ("pitcher".to_owned(), cell.to_owned()),
                    Column::Note | Column::Unknown => ("note".to_owned(), cell.to_owned()),
                };
                (
                    when,
                    ReadingLine {
                        when: days(when),
                        months_from_sowing: months(sown, when),
                        of,
                        value,
                    },
                )
            })
            .collect();
        lines.sort_by_key(|(when, _)| *when);
        lines.into_iter().map(|(_, line)| line).collect()
    }

    fn offspring(&self, plant: PlantRow) -> Vec<OffspringLine> {
        let of = self.lineage.offspring_of(plant);
        let crosses = of.iter().filter_map(|(origin, link)| {
            let at = self
                .registry
                .crosses
                .iter()
                .position(|cross| cross.origin == *origin)?;
            let pairs = &self.registry.origins()[*origin as usize].pairs;
            let side = match link {
                Link::Pollen => "pollen parent",
                _ => "seed parent",
            };
            let sure = pairs.iter().all(|pair| match link {
                Link::Pollen => pair.pollen == Some(plant),
                _ => pair.seed == Some(plant),
            });
            let cross = &self.registry.crosses[at];
            Some(OffspringLine {
                id: cross.page.code.to_owned(),
                as_parent: if sure {
                    side.to_owned()
                } else {
                    format!("one of the possible {side}s")
                },
                name: self.short(TopOf::Cross(at as u32)),
                numbered: cross.seedlings.len(),
            })
        });
        crosses.collect()
    }

    fn cross(&self, at: u32) -> ShowReport {
        let registry = self.registry;
        let cross = &registry.crosses[at as usize];
        let page = &cross.page;
        let here = cross
            .seedlings
            .iter()
            .filter(|&&p| presence(registry, p, self.today) == Presence::Here)
            .count();
        let kept = cross
            .seedlings
            .iter()
            .filter(|&&p| registry.is_kept(p))
            .count();
        let sown: u32 = page.sowings.iter().filter_map(|s| s.seeds).sum();
        let up: u32 = page
            .sowings
            .iter()
            .filter_map(|s| s.germinated.iter().map(|t| t.count).max())
            .sum();
        let parents = cross
            .seedlings
            .first()
            .and_then(|&plant| self.parents(plant));
        let sexes = sexes(registry, cross, self.today);
        let mut cautions: Vec<String> = sexes.chance_of_the_other().into_iter().collect();
        cautions.extend(without_spare(registry, self.lineage, cross, self.today));
        let facts = [
            fact(
                "rests on",
                Some(rests_on(registry, self.names, TopOf::Cross(at))),
            ),
            fact("parents", parents),
            fact(
                "received as",
                page.received.as_deref().map(|label| format!("\"{label}\"")),
            ),
            fact("goal", page.goal.as_deref()),
            fact(
                "counts",
                Some(format!(
                    "{sown} seeds sown, {up} germinated, {} numbered, {here} here, {kept} kept",
                    cross.seedlings.len()
                )),
            ),
            fact("sexes seen", sexes.words()),
            fact("note", page.note.as_deref()),
        ];
        let mut facts: Vec<Fact> = facts.into_iter().flatten().collect();
        for zone in &page.pollinations {
            let on: Vec<String> = zone.on.iter().map(|on| self.typed(on)).collect();
            let pollen = zone
                .pollen
                .map(|lot| format!(", pollen lot {lot}"))
                .unwrap_or_default();
            let flowers = zone
                .flowers
                .map(|n| format!(", {}", counted(n as usize, "flower", "flowers")))
                .unwrap_or_default();
            let set = zone.set.map(|n| format!(", {n} set")).unwrap_or_default();
            facts.extend(fact(
                "zone",
                Some(format!(
                    "{}: {}{pollen}{flowers}{set}",
                    zone.zone,
                    on.join(", ")
                )),
            ));
        }
        for patch in &page.patches {
            let count = patch
                .alive
                .last()
                .map(|tally| format!("{} alive on {}", tally.count, self.typed(tally.on)));
            facts.extend(fact(
                "patch",
                Some(format!(
                    "{}: {}",
                    patch.code,
                    count.unwrap_or_else(|| "not counted".into())
                )),
            ));
        }
        ShowReport {
            id: page.code.to_owned(),
            what: "cross",
            name: self.name(TopOf::Cross(at)),
            facts,
            road: self.stages(stages(
                registry,
                page,
                (page.sowings.len() == 1).then_some(0),
                (page.pods.len() == 1).then_some(0),
            )),
            cautions,
            ..ShowReport::default()
        }
    }

    fn pod(&self, at: u32, pod: Option<usize>, sowing: Option<usize>, id: &str) -> ShowReport {
        let registry = self.registry;
        let cross = &registry.crosses[at as usize];
        let page = &cross.page;
        let of = |&&plant: &&PlantRow| {
            let (own_sowing, own_pod, _) = registry.road(plant);
            pod.is_none_or(|pod| own_pod == Some(pod))
                && sowing.is_none_or(|sowing| own_sowing == Some(sowing))
        };
        let numbered = cross.seedlings.iter().filter(of).count();
        let pod_record = pod.map(|pod| &page.pods[pod]);
        let sowing_record = sowing.map(|sowing| &page.sowings[sowing]);
        let facts = [
            fact(
                "rests on",
                Some(rests_on(registry, self.names, TopOf::Cross(at))),
            ),
            fact("zone", pod_record.and_then(|pod| pod.zone)),
            fact(
                "capsules",
                pod_record
                    .and_then(|pod| pod.capsules)
                    .map(|n| n.to_string()),
            ),
            fact(
                "seeds",
                pod_record
                    .and_then(|pod| pod.seeds)
                    .or(sowing_record.and_then(|s| s.seeds))
                    .map(|n| n.to_string()),
            ),
            fact(
                "container",
                sowing_record.and_then(|s| s.container.as_deref()),
            ),
            fact("medium", sowing_record.and_then(|s| s.medium.as_deref())),
            fact("place", sowing_record.and_then(|s| s.place.as_deref())),
            fact("numbered seedlings", Some(numbered.to_string())),
        ];
        ShowReport {
            id: id.to_owned(),
            what: if pod.is_some() { "pod" } else { "sowing" },
            name: self.name(TopOf::Cross(at)),
            facts: facts.into_iter().flatten().collect(),
            road: self.stages(stages(registry, page, sowing, pod)),
            ..ShowReport::default()
        }
    }

    fn pollen(&self, at: u32) -> ShowReport {
        let lot = &self.registry.pollen[at as usize];
        let (from, name) = match &lot.from {
            PollenSource::Plant(code) => {
                let plant = self.registry.plant(code).or_else(|| {
                    code.rsplit_once('-')
                        .and_then(|(plant, _)| self.registry.plant(plant))
                });
                (
                    (*code).to_owned(),
                    plant.map_or_else(|| "?".to_owned(), |plant| self.name(TopOf::Plant(plant))),
                )
            }
            PollenSource::OneOf(codes) => (
                format!("one of {}", codes.join(", ")),
                "one of several".to_owned(),
            ),
            PollenSource::Mixed(codes) => (
                format!("a mixture of {}", codes.join(", ")),
                "a mixture".to_owned(),
            ),
            PollenSource::Unknown => ("nobody knows whom".to_owned(), "unknown pollen".to_owned()),
        };
        let stored = lot.stored.map(|place| match place {
            PollenPlace::Fresh => "fresh",
            PollenPlace::Room => "room temperature",
            PollenPlace::Fridge => "fridge",
            PollenPlace::Freezer => "freezer",
        });
        let collected = lot.collected.map(|on| self.registry.when(on));
        let facts = [
            fact("from", Some(from)),
            fact("collected", lot.collected.map(|on| self.typed(on))),
            fact(
                "age today",
                collected
                    .and_then(|when| when.days_until(When::on(self.today)))
                    .map(span_of_days),
            ),
            fact("dried", lot.dried.as_deref()),
            fact("stored", stored),
            fact(
                "thawed",
                (!lot.thawed.is_empty()).then(|| {
                    lot.thawed
                        .iter()
                        .map(|on| self.typed(on))
                        .collect::<Vec<_>>()
                        .join(", ")
                }),
            ),
            fact("left", lot.left.as_deref()),
            fact("finished", lot.finished.map(|on| self.typed(on))),
            fact("note", lot.note.as_deref()),
        ];
        ShowReport {
            id: lot.code.to_owned(),
            what: "pollen lot",
            name,
            facts: facts.into_iter().flatten().collect(),
            ..ShowReport::default()
        }
    }

    fn species(&self, epithet: &str) -> ShowReport {
        let Some(row) = self
            .registry
            .taxa
            .species
            .iter()
            .find(|row| row.epithet == epithet)
        else {
            return ShowReport::default();
        };
        let sureness = match row.sureness {
            Sureness::High => "high",
            Sureness::Medium => "medium",
            Sureness::Low => "low",
            Sureness::Unsaid => "not said",
        };
        let facts = [
            fact("authors", row.authors.as_deref()),
            fact("year", row.year.map(|year| year.to_string())),
            fact(
                "altitude of wild plants",
                row.elevation_m.map(|(low, high)| format!("{low}–{high} m")),
            ),
            fact("area", row.area.as_deref()),
            fact("treaty appendix, by the list used", row.appendix),
            fact("status", row.status.as_deref()),
            fact("sureness of the row", Some(sureness)),
            fact("evidence", row.evidence.as_deref()),
            fact("source", row.source.as_deref()),
            fact("note", row.note.as_deref()),
        ];
        let mut cautions = Vec::new();
        if row.appendix.is_some() {
            cautions.push(
                "lists change and countries may be stricter: ask your CITES management authority"
                    .to_owned(),
            );
        }
        ShowReport {
            id: epithet.to_owned(),
            what: "species",
            name: format!("{} {epithet}", self.names.vocabulary().genus_short()),
            facts: facts.into_iter().flatten().collect(),
            cautions,
            ..ShowReport::default()
        }
    }
}

fn unit_words(unit: Option<crate::record::LengthUnit>) -> &'static str {
    use crate::record::LengthUnit;
    match unit {
        Some(LengthUnit::Mm) => " mm",
        Some(LengthUnit::Cm) => " cm",
        Some(LengthUnit::M) => " m",
        Some(LengthUnit::In) => " in",
        None => "",
    }
}

impl Report for ShowReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(format!("{}: {}", self.id, self.name));
        sheet.facts(
            None,
            self.facts
                .iter()
                .map(|fact| (fact.label, Some(fact.value.clone())))
                .collect(),
        );
        if !self.road.is_empty() {
            let mut table = Table::new(&["the road", "", ""]);
            for stage in &self.road {
                table.row(vec![
                    stage.stage.into(),
                    stage.when.clone().into(),
                    stage.took.clone().unwrap_or_default().into(),
                ]);
            }
            sheet.table(table);
        }
        if !self.flowerings.is_empty() {
            let mut table = Table::new(&["flowering", "sex", "known by", "ramet"]);
            for spike in &self.flowerings {
                table.row(vec![
                    spike.when.clone().into(),
                    spike.sex.clone().into(),
                    spike.seen_by.into(),
                    spike.ramet.clone().unwrap_or_default().into(),
                ]);
            }
            sheet.table(table);
        }
        if !self.ramets.is_empty() {
            let mut table = Table::new(&["ramet", "made", "standing", "place"]);
            for ramet in &self.ramets {
                table.row(vec![
                    ramet.id.clone().into(),
                    ramet.made.clone().into(),
                    ramet.standing.clone().into(),
                    ramet.place.clone().unwrap_or_default().into(),
                ]);
            }
            sheet.table(table);
        }
        if !self.readings.is_empty() {
            let mut table = Table::new(&["read", ">age from sowing", "what", ">as typed"]);
            for reading in &self.readings {
                table.row(vec![
                    reading.when.clone().into(),
                    Cell::from(reading.months_from_sowing.map(age)),
                    reading.of.clone().into(),
                    reading.value.clone().into(),
                ]);
            }
            sheet.table(table);
        }
        if !self.offspring.is_empty() {
            let mut table = Table::new(&["parent of", "as", ">numbered", "name"]);
            for cross in &self.offspring {
                table.row(vec![
                    cross.id.clone().into(),
                    cross.as_parent.clone().into(),
                    cross.numbered.into(),
                    cross.name.clone().into(),
                ]);
            }
            sheet.table(table);
        }
        sheet.cautions.extend(self.cautions.iter().cloned());
        sheet
    }
}
