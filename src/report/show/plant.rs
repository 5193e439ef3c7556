//! A founder or a seedling.

use super::answer::ShowReport;
use super::muddles::muddles;
use super::screen::{Screen, handed_on, stages};
use crate::analysis::show::{OneOf, Parents, Standing, plant as plant_seen};
use crate::evidence::{Direction, Strength};
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::observation::mixed_up::{mixed_up, mixed_up_sex};
use crate::observation::parent_of::ParentOf;
use crate::observation::photos::photos;
use crate::observation::pieces::pot_here;
use crate::observation::presence::Presence;
use crate::observation::provenance::seasons_read;
use crate::observation::sex::SexSeen;
use crate::observation::standing::{fate_and_day, not_found_words, status_words};
use crate::observation::treated::Treated;
use crate::record::{Confidence, Identification, Return, When};
use crate::registry::{PlantKind, RametRow};
use crate::report::caution::{RankedCaution, Weight};
use crate::report::fact::{Fact, fact};
use crate::report::plants::{pot_words, typed};
use crate::wording::{at_date, days, in_brackets, joined, joined_if_any, led_by, quoted};

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
        let pot = pot_here(registry, plant);
        facts.extend(fact("pot", pot.map(|pot| pot_words(registry, pot))));
        facts.extend(fact("kept", self.kept(plant)));
        let nickname = registry.nickname(plant);
        let nickname = nickname.map(|name| format!("{name} (not a cultivar name)"));
        facts.extend(fact("nickname", nickname));
        let cultivar = registry.cultivar(plant);
        let cultivar = cultivar.map(|of| format!("'{}'", &*of.epithet));
        facts.extend(fact("cultivar", cultivar));
        if let Some(founder) = founder {
            facts.extend(fact("received as", Some(quoted(&founder.received))));
            facts.extend(fact(
                "received",
                founder.on.map(|on| typed(self.registry, on)),
            ));
            let batch = founder.batch;
            let batch = batch.map(|of| format!("{of} (founders of one batch count as siblings)"));
            facts.extend(fact("batch", batch));
            facts.extend(fact("locality claim", founder.locality.as_deref()));
            facts.extend(fact("nights that work here", founder.nights.as_deref()));
            facts.extend(fact("papers", founder.papers.as_deref()));
        }
        for &(opinion, standing) in &seen.opinions {
            facts.extend(fact("identified as", Some(self.opinion(opinion, standing))));
        }
        let seedling = || registry.seedling(plant)?.note.as_deref();
        let note = founder.map_or_else(seedling, |founder| founder.note.as_deref());
        let foreign = founder.and_then(|founder| founder.foreign.as_ref());
        facts.extend(fact(
            "elsewhere",
            foreign.map(|other| format!("{} in the registry {}", other.code, other.registry)),
        ));
        facts.extend(fact("told by", self.told_by(plant)));
        facts.extend(fact("mixed up", muddles(registry.mix_ups(plant))));
        facts.extend(fact("treated", treatments(&seen.treated, false)));
        facts.extend(fact("place treated", treatments(&seen.treated, true)));
        facts.extend(fact("note", note));
        facts.extend(fact("last read", seen.last_read.map(days)));
        facts.extend(fact("photos", self.photos(plant)));
        let mut report = ShowReport {
            id: registry.code(plant),
            what: match registry.kind(plant) {
                PlantKind::Founder => "founder",
                _ => "seedling",
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

    /// What somebody took it for, when and on which ground, and whether that is the name shown.
    fn opinion(&self, opinion: &Identification, standing: Option<Standing>) -> String {
        let on = led_by(" ", opinion.on.map(|on| self.at_typed(on)));
        let by = led_by(" by ", opinion.by.as_deref());
        let note = in_brackets(opinion.note.as_deref());
        let sure = match opinion.confidence {
            Confidence::Unknown => None,
            known => Some(Strength::from(known).words()),
        };
        let known = joined_if_any(opinion.basis.as_deref().into_iter().chain(sure), ", ");
        let known = known.unwrap_or_else(|| "basis not recorded".to_owned());
        let standing = standing.map_or("", standing_words);
        format!("\"{}\"{by}{on}, {known}{note}{standing}", &*opinion.name)
    }

    fn caution(&self, plant: PlantRow, alone: Option<ParentOf>, report: &mut ShowReport) {
        let mut doubts = self.names.doubts([TopOf::Plant(plant)]);
        let mixed_up = mixed_up(self.registry, plant);
        doubts.extend(mixed_up.map(|words| format!("mixed up {words}")));
        report.cautions.extend(RankedCaution::doubts(doubts));
        if let Some(words) = alone.and_then(|of| of.one_piece_left(&report.id)) {
            let words = format!("{words}: take a cutting");
            report
                .cautions
                .push(RankedCaution::new(Weight::Answer, words));
        }
        let travelled = |fact: &Fact| matches!(fact.label, "papers" | "locality claim");
        if report.facts.iter().any(travelled) {
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
        let on = led_by(", ", last.on.map(|on| typed(self.registry, on)));
        Some(match photos.len() {
            1 => format!("1{on}: {}", &*last.file),
            n => format!("{n}, the last one{on}: {}", &*last.file),
        })
    }

    /// Whose record this is, where it is not the grower's own.
    fn told_by(&self, plant: PlantRow) -> Option<String> {
        let told = self.registry.told_by(plant)?;
        let on = led_by(", taken in ", told.on);
        let number = led_by("-", self.registry.number(plant));
        Some(format!(
            "the registry {}, as {}{number}{on}",
            told.registry, told.code
        ))
    }

    fn kept(&self, plant: PlantRow) -> Option<String> {
        let kept = match self.registry.founder(plant) {
            Some(founder) => founder.kept.as_ref()?,
            None => self.registry.seedling(plant)?.kept.as_deref()?,
        };
        let on = kept.on.map(|on| typed(self.registry, on));
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
            OneOf::EachSeed => ", one of these for each seed",
        };
        let direction = match of.direction {
            Direction::Known => "",
            Direction::Assumed => " (the first on the label taken as the seed parent)",
            Direction::Lost => " (direction not known)",
        };
        let crosses = of.since_mixed_up.iter();
        let crosses = crosses.map(|&cross| self.registry[cross].page.code);
        let since = joined_if_any(crosses, " or ");
        let since = since.map(|codes| format!("; or a seedling of {codes} since it was mixed up"));
        let since = since.unwrap_or_default();
        format!("{}{how}{direction}{since}", joined(pairs, "; "))
    }
}

/// Treatments of the plant, or those of which only the place is on record, one behind the other.
pub(super) fn treatments(all: &[Treated], of_place: bool) -> Option<String> {
    let wanted = all.iter().filter(|of| of.of_place == of_place);
    let words = wanted.map(|of| {
        let against = led_by(" against ", of.treatment.against.as_deref());
        format!("{} {}{against}", of.treatment.on, &*of.treatment.product)
    });
    let doubt = match of_place {
        true => ": whether it stood there then is not on record",
        false => "",
    };
    joined_if_any(words, "; ").map(|words| words + doubt)
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
