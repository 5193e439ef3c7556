//! A founder or a seedling.

use super::answer::{Fact, ShowReport};
use super::muddles::muddles;
use super::screen::{Screen, fact, handed_on, stages};
use crate::analysis::show::{OneOf, Parents, Standing, plant as plant_seen};
use crate::evidence::{Direction, Strength};
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::observation::mixed_up::{mixed_up, mixed_up_sex};
use crate::observation::parent_of::ParentOf;
use crate::observation::photos::photos;
use crate::observation::pieces::is_itself_gone;
use crate::observation::pottings::pots_in_order;
use crate::observation::presence::Presence;
use crate::observation::provenance::seasons_read;
use crate::observation::sex::SexSeen;
use crate::observation::standing::{fate_and_day, not_found_words, status_words};
use crate::observation::treated::Treated;
use crate::record::{Confidence, Return, When};
use crate::registry::{PlantKind, RametRow};
use crate::report::caution::{RankedCaution, Weight};
use crate::wording::{at_date, days, joined, quoted};

impl Screen<'_, '_, '_> {
    /// A plant asked for by one of its pieces; the answer begins with that piece.
    pub fn piece(&self, plant: PlantRow, piece: RametRow) -> ShowReport {
        let mut report = self.plant(plant);
        for fact in &mut report.facts {
            if fact.label == "status" {
                fact.label = "whole plant";
            }
        }
        let words = report.ramets.get(piece.index());
        let words = words.map(|line| self.piece_words(line));
        report.facts.splice(0..0, fact("piece", words));
        report
    }

    /// A founder or a seedling.
    pub fn plant(&self, plant: PlantRow) -> ShowReport {
        let registry = self.registry;
        let seen = plant_seen(self.context, plant);
        let founder = registry.founder(plant);
        let mut facts: Vec<Fact> = Vec::new();
        facts.extend(fact(
            "parents",
            seen.parents.as_ref().map(|of| self.parents(of)),
        ));
        facts.extend(fact(
            "status",
            Some(self.status(plant, seen.presence, seen.not_found)),
        ));
        facts.extend(fact("handed on", handed_on(registry.fate(plant))));
        let sex = match seen.sex {
            SexSeen::MixedUp => mixed_up_sex(registry, plant),
            sex => sex.to_string(),
        };
        facts.extend(fact("sex", Some(sex)));
        let place = match seen.presence {
            Presence::Gone | Presence::LetGo => "last place",
            _ => "place",
        };
        facts.extend(fact(place, seen.place));
        facts.extend(fact(
            "pot",
            pots_in_order(registry, plant)
                .pop()
                .filter(|_| !is_itself_gone(registry, plant))
                .map(|pot| match registry.when(pot.on) {
                    When::UNKNOWN => format!("{}, day not known", &*pot.pot),
                    _ => format!("{} since {}", &*pot.pot, self.typed(pot.on)),
                }),
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
            facts.extend(fact("received as", Some(quoted(&founder.received))));
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
        for &(opinion, standing) in &seen.opinions {
            let on = opinion
                .on
                .map(|on| format!(" {}", self.at_typed(on)))
                .unwrap_or_default();
            let by = opinion.by.as_deref();
            let by = by.map(|by| format!(" by {by}")).unwrap_or_default();
            let note = opinion.note.as_deref();
            let note = note.map(|note| format!(" ({note})")).unwrap_or_default();
            let basis = opinion.basis.as_deref();
            let known = match (basis, opinion.confidence) {
                (None, Confidence::Unknown) => "basis not recorded".to_owned(),
                (Some(basis), Confidence::Unknown) => basis.to_owned(),
                (None, known) => Strength::from(known).words().to_owned(),
                (Some(basis), known) => format!("{basis}, {}", Strength::from(known).words()),
            };
            let standing = standing.map_or("", standing_words);
            facts.extend(fact(
                "identified as",
                Some(format!(
                    "\"{}\"{by}{on}, {known}{note}{standing}",
                    &*opinion.name
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
        let foreign = founder.and_then(|founder| founder.foreign.as_ref());
        facts.extend(fact(
            "elsewhere",
            foreign.map(|other| format!("{} in the registry {}", other.code, other.registry)),
        ));
        facts.extend(fact("told by", self.told_by(plant)));
        facts.extend(fact("mixed up", self.muddles(plant)));
        facts.extend(fact("treated", treatments(&seen.treated, false)));
        facts.extend(fact("place treated", treatments(&seen.treated, true)));
        facts.extend(fact("note", note));
        facts.extend(fact("last read", seen.last_read.map(days)));
        facts.extend(fact("photos", self.photos(plant)));
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
            ramets: self.ramets(plant, seen.end),
            readings: seen.readings.iter().map(|of| self.reading(of)).collect(),
            offspring: seen.offspring.iter().map(|of| self.offspring(of)).collect(),
            history: seen.history.as_ref().map_or(Vec::new(), stages),
            ..ShowReport::default()
        };
        let page = registry.cross_of(plant);
        let page = page.map(|cross| &registry[cross].page);
        let seasons = page.and_then(|page| seasons_read(registry, page));
        let seasons = seasons.map(|words| RankedCaution::new(Weight::General, words));
        report.cautions.extend(seasons);
        self.caution(plant, seen.parent_without_spare(), &mut report);
        report
    }

    fn caution(&self, plant: PlantRow, alone: Option<ParentOf>, report: &mut ShowReport) {
        let doubts = self.names.doubts([TopOf::Plant(plant)]);
        report.cautions.extend(RankedCaution::doubts(doubts));
        let mixed_up = mixed_up(self.registry, plant).map(|words| format!("mixed up {words}"));
        let mixed_up = mixed_up.into_iter().collect();
        report.cautions.extend(RankedCaution::doubts(mixed_up));
        if let Some(parent) = alone.and_then(|of| of.words("a parent")) {
            report.cautions.push(RankedCaution::new(
                Weight::Answer,
                format!(
                    "{} is {parent} and has one piece on record here: take a cutting",
                    report.id
                ),
            ));
        }
        if report
            .facts
            .iter()
            .any(|fact| fact.label == "papers" || fact.label == "locality claim")
        {
            report.cautions.push(RankedCaution::new(
                Weight::General,
                "before a plant crosses a border ask your CITES management authority and your plant-health service",
            ));
        }
    }

    fn status(&self, plant: PlantRow, presence: Presence, not_found: Option<When>) -> String {
        match (presence, self.registry.fate(plant)) {
            (Presence::NeverHere, None) => {
                "never in the collection: named only as a parent".to_owned()
            }
            (Presence::Here, _) => match not_found {
                Some(on) => format!("{}; on record as here", not_found_words(on)),
                None => match self.registry.came_back(plant).last() {
                    Some(last) => format!("{}; {}", status_words(None, true), back_words(last)),
                    None => status_words(None, true),
                },
            },
            (_, fate) => status_words(fate, false),
        }
    }

    /// How many photos there are, and the last one.
    fn photos(&self, plant: PlantRow) -> Option<String> {
        let photos = photos(self.registry, plant);
        let last = photos.last()?;
        let on = last.on.map(|on| format!(", {}", self.typed(on)));
        let on = on.unwrap_or_default();
        Some(match photos.len() {
            1 => format!("1{on}: {}", &*last.file),
            n => format!("{n}, the last one{on}: {}", &*last.file),
        })
    }

    /// Whose record this is, where it is not the grower's own.
    fn told_by(&self, plant: PlantRow) -> Option<String> {
        let told = self.registry.told_by(plant)?;
        let on = told.on.map(|on| format!(", taken in {on}"));
        let number = self.registry.number(plant);
        let code = match number {
            Some(number) => format!("{}-{number}", told.code),
            None => told.code.to_owned(),
        };
        Some(format!(
            "the registry {}, as {code}{}",
            told.registry,
            on.unwrap_or_default()
        ))
    }

    /// Mix-ups, the last one last.
    fn muddles(&self, plant: PlantRow) -> Option<String> {
        muddles(self.registry.mix_ups(plant))
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
        Some(joined([on, why].into_iter().flatten(), ": "))
    }

    /// The parents by code, with what is uncertain about them.
    pub fn parents(&self, of: &Parents) -> String {
        let code = |row: Option<PlantRow>| {
            row.map_or_else(|| "?".to_owned(), |row| self.registry.code(row))
        };
        let (seed, pollen) = match of.direction {
            Direction::Known => ("♀ ", "♂ "),
            Direction::Assumed | Direction::Lost => ("", ""),
        };
        let pairs = of.pairs.iter();
        let pairs = pairs
            .map(|&[mother, father]| format!("{seed}{} × {pollen}{}", code(mother), code(father)));
        let how = match of.one_of {
            OneOf::Alone => "",
            OneOf::One => ", one of these",
            OneOf::EachSeed => ", any of these for each seed",
        };
        let direction = match of.direction {
            Direction::Known => "",
            Direction::Assumed => " (the first on the label taken as the seed parent)",
            Direction::Lost => " (direction not known)",
        };
        let crosses = of.since_mixed_up.iter();
        let crosses: Vec<&str> = crosses
            .map(|&cross| self.registry[cross].page.code)
            .collect();
        let since = match &crosses[..] {
            [] => String::new(),
            codes => format!(
                "; or a seedling of {} since it was mixed up",
                codes.join(" or ")
            ),
        };
        format!("{}{how}{direction}{since}", joined(pairs, "; "))
    }
}

/// Treatments of the plant, or those of which only the place is on record, one behind the other.
pub(super) fn treatments(all: &[Treated], of_place: bool) -> Option<String> {
    let wanted = all.iter().filter(|of| of.of_place == of_place);
    let words = wanted.map(|of| of.treatment).map(|treatment| {
        let against = treatment
            .against
            .as_deref()
            .map(|pest| format!(" against {pest}"))
            .unwrap_or_default();
        format!("{} {}{against}", treatment.on, &*treatment.product)
    });
    let words: Vec<String> = words.collect();
    let doubt = match of_place {
        true => ": whether it stood there then is not on record",
        false => "",
    };
    (!words.is_empty()).then(|| format!("{}{doubt}", words.join("; ")))
}

/// Whether an opinion changes the name that is shown.
fn standing_words(standing: Standing) -> &'static str {
    match standing {
        Standing::Shown => "; accepted, the name shown",
        Standing::Overtaken => "; accepted, a later one is shown",
        Standing::Beside => {
            "; accepted too, but the one written last is shown, and that one is not known to be later"
        }
        Standing::AsReceived => "; accepted, but the name is shown as received",
        Standing::NotAccepted => "; an opinion, not accepted",
    }
}

/// Since when it is back, and how it had left.
fn back_words(of: &Return) -> String {
    format!("back {} ({})", at_date(of.on), fate_and_day(&of.left))
}
