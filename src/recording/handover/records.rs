//! The records of a lineage, without private things, as pages and as canonical lines.

use super::closure::Lineage;
use super::codes::Codes;
use super::fingerprint::Lines;
use super::muddled::{of_seedling, written};
use super::names::NamesOfLineage;
use super::names_used::{LISTS, names_used};
use super::pollinations::pollinations;
use super::words::{parents, renamed};
use crate::evidence::unsure_envelope;
use crate::record::{
    Cultivar, Flowering, FounderClone, Identification, NameAs, Ramet, Seedling, Sex, ToldBy,
    word_of,
};
use crate::recording::written::{RonRecord, lines as list};
use crate::registry::{CrossRow, MixUp, MixedUp, PlantRow, Registry};

/// A page of the small registry.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct HandedPage {
    /// Path relative to its folder, with `/`.
    pub path: String,
    /// The whole text.
    pub text: String,
}

/// The records as they are written, by what they are of: `founder Ven1`, `cross X22-02`, `plant X22-02-5`. The first
/// fingerprints were taken of these.
pub fn as_written(registry: &Registry, lineage: &Lineage) -> Lines {
    let codes = &Codes::unchanged();
    let mut lines = Lines::new();
    for &plant in &lineage.plants {
        let code = registry.code(plant);
        if let Some(record) = registry.founder(plant) {
            lines.insert(format!("founder {code}"), founder(record, codes).line());
        } else if let Some(record) = seedling(registry, (plant, Some(lineage)), codes) {
            lines.insert(format!("plant {code}"), record.line());
        }
    }
    for &cross in &lineage.crosses {
        let page = &registry[cross].page;
        let record = cross_record(registry, (cross, Some(lineage)), codes);
        lines.insert(format!("cross {}", page.code), record.line());
    }
    lines
}

/// The pages of the small registry, in the order in which they are written.
pub fn pages(registry: &Registry, lineage: &Lineage) -> Vec<HandedPage> {
    let page = |path: &str, record: RonRecord| HandedPage {
        path: path.to_owned(),
        text: record.page(),
    };
    let codes = &Codes::unchanged();
    let mut founders = Vec::new();
    for &plant in &lineage.plants {
        founders.extend(registry.founder(plant).map(|record| {
            let told = record.told_by.as_ref().map(told_by);
            founder(record, codes).value_if("told_by", told).line()
        }));
    }
    let mut pages = vec![
        page(
            "clones.ron",
            RonRecord::new().value("clones", list(&founders)),
        ),
        page(
            "species.ron",
            species(registry, &NamesOfLineage::of(registry, lineage)),
        ),
    ];
    for &cross in &lineage.crosses {
        let of = &registry[cross];
        let seedlings: Vec<String> = of
            .seedlings
            .iter()
            .filter(|plant| lineage.plants.contains(plant))
            .filter_map(|&plant| seedling(registry, (plant, Some(lineage)), codes))
            .map(|record| record.line())
            .collect();
        let told = of.page.told_by.as_deref().map(told_by);
        let record = cross_record(registry, (cross, Some(lineage)), codes);
        let mut record = record.value_if("told_by", told);
        if !seedlings.is_empty() {
            record = record.value("seedlings", list(&seedlings));
        }
        pages.push(page(&format!("crosses/{}.ron", of.page.code), record));
    }
    // What makes a folder a registry comes last.
    pages.push(page("registry.ron", settings(registry)));
    pages
}

fn settings(registry: &Registry) -> RonRecord {
    let settings = &registry.settings;
    RonRecord::new()
        .text("genus", settings.genus)
        .value("hemisphere", word_of(settings.hemisphere))
        .value("chromosome_pairs", settings.pairs())
        .value("map_length_morgans", format!("{:?}", settings.morgans()))
        .value("format", 2)
        .text_if("registry", settings.registry)
}

/// The page of names that labels of the lineage bear.
fn species(registry: &Registry, names: &NamesOfLineage) -> RonRecord {
    let rows = names_used(registry, names);
    LISTS.into_iter().fold(RonRecord::new(), |page, (list, _)| {
        let of_list = rows.iter().filter(|row| row.list == list);
        let of_list: Vec<String> = of_list.map(|row| row.record.line()).collect();
        page.value(list, self::list(&of_list))
    })
}

/// A founder's own record.
pub(super) fn founder(of: &FounderClone, codes: &Codes) -> RonRecord {
    let record = RonRecord::new()
        .text("code", &codes.of(of.code))
        .text("received", &of.received)
        .text_if("on", of.on)
        .value_if("form", of.form.map(word_of))
        .text_if("batch", of.batch)
        .value("confidence", word_of(of.confidence))
        .text_if("locality", of.locality.as_deref());
    let record = match of.name_as {
        NameAs::Accepted => record,
        NameAs::Received => record.value("name_as", "received"),
    };
    let record = opinions(record, &of.identified);
    let record = plant_parts(record, of.cultivar.as_ref(), &of.ramets, &of.flowerings);
    let foreign = of.foreign.as_ref().map(|foreign| {
        let record = RonRecord::new().text("registry", foreign.registry);
        record.text("code", foreign.code).line()
    });
    record.value_if("foreign", foreign)
}

/// A seedling; `None` for a plant that is none. In a lineage its record also says what only plants that stay behind say of it.
pub(super) fn seedling(
    registry: &Registry,
    (plant, lineage): (PlantRow, Option<&Lineage>),
    codes: &Codes,
) -> Option<RonRecord> {
    let (sowing, pod, pot) = registry.road(plant);
    let whole = registry.seedling(plant);
    let one_of = whole.map_or(&[][..], |seedling| &seedling.one_of);
    let record = RonRecord::new()
        .text("number", registry.number(plant)?)
        .text_if("sowing", sowing.map(|row| registry[row].code))
        .text_if("pod", pod.map(|row| registry[row].code))
        .text_if("community_pot", pot.map(|row| registry[row].code))
        .value_if(
            "one_of",
            (!one_of.is_empty()).then(|| renamed(codes, one_of)),
        );
    let record = match whole {
        Some(whole) => details(record, whole),
        None => record,
    };
    let muddled = of_seedling(registry, plant, lineage);
    Some(listed(record, "muddled", written(&muddled, codes)))
}

/// What was recorded of a seedling beside its number and where it came from.
fn details(record: RonRecord, of: &Seedling) -> RonRecord {
    let record = record
        .text_if("germinated", of.germinated)
        .text_if("numbered", of.numbered);
    let record = opinions(record, &of.identified);
    let cultivar = of.cultivar.as_deref();
    plant_parts(record, cultivar, &of.ramets, &of.flowerings)
}

/// Opinions on what a plant is; whose they are and their remarks are left out.
fn opinions(record: RonRecord, of: &[Identification]) -> RonRecord {
    let opinion = |opinion: &Identification| {
        RonRecord::new()
            .text_if("on", opinion.on)
            .text("name", &opinion.name)
            .text_if("basis", opinion.basis.as_deref())
            .value("confidence", word_of(opinion.confidence))
            .value_if("accepted", opinion.accepted.then_some("true"))
            .line()
    };
    listed(record, "identified", of.iter().map(opinion).collect())
}

fn plant_parts(
    record: RonRecord,
    cultivar: Option<&Cultivar>,
    ramets: &[Ramet],
    flowerings: &[Flowering],
) -> RonRecord {
    let cultivar = cultivar.map(|cultivar| {
        let record = RonRecord::new().text("epithet", &cultivar.epithet);
        record
            .text_if("published", cultivar.published.as_deref())
            .line()
    });
    let flowering = |flowering: &Flowering| {
        RonRecord::new()
            .text_if("code", flowering.code)
            .text_if("spike", flowering.spike)
            .text_if("opened", flowering.opened)
            .text_if("over", flowering.over)
            .value_if("sex", flowering.sex.map(Sex::word))
            .value("seen_by", word_of(flowering.seen_by))
            .text_if("ramet", flowering.ramet)
            .line()
    };
    let record = record.value_if("cultivar", cultivar);
    let record = listed(
        record,
        "ramets",
        ramets.iter().map(|of| ramet(of).line()).collect(),
    );
    listed(
        record,
        "flowerings",
        flowerings.iter().map(flowering).collect(),
    )
}

/// A piece and how it was made.
pub(super) fn ramet(of: &Ramet) -> RonRecord {
    RonRecord::new()
        .text("code", of.code)
        .text_if("from", of.from)
        .value_if("made", of.made.map(word_of))
        .text_if("cut", of.cut)
        .text_if("rooted", of.rooted)
}

/// Whose record it is, for the next who takes it in: no part of the fingerprint.
fn told_by(of: &ToldBy) -> String {
    let record = RonRecord::new().text("registry", of.registry);
    record.text("code", of.code).text_if("on", of.on).line()
}

/// Adds a list in one line, unless it is empty.
fn listed(record: RonRecord, name: &'static str, values: Vec<String>) -> RonRecord {
    match values.is_empty() {
        true => record,
        false => record.value(name, format!("[{}]", values.join(", "))),
    }
}

/// A cross without its seedlings and readings. In a lineage it also says what only pages that stay behind say of it.
pub(super) fn cross_record(
    registry: &Registry,
    (cross, lineage): (CrossRow, Option<&Lineage>),
    codes: &Codes,
) -> RonRecord {
    let page = &registry[cross].page;
    // The envelope stays behind, and then nothing else would say how sure it is.
    let envelopes = registry.zones(cross);
    let envelopes = envelopes.filter_map(|(zone, _)| unsure_envelope(registry, zone));
    let known = envelopes.fold(page.confidence, |known, (_, of)| known.max(of.confidence()));
    let record = RonRecord::new()
        .text("code", &codes.of(page.code))
        .value("parents", parents(&page.parents, codes))
        .value("confidence", word_of(known))
        .text_if("received", page.received.as_deref());
    let pollinations = pollinations(registry, (cross, lineage), codes);
    let record = listed(record, "pollinations", pollinations);
    let pods = page.pods.iter().map(|pod| {
        RonRecord::new()
            .text("code", pod.code)
            .text_if("zone", pod.zone)
            .value_if("capsules", pod.capsules)
            .text_if("harvested", pod.harvested)
            .value_if("seeds", pod.seeds)
            .line()
    });
    let lots = page.seed_lots.iter().map(|lot| {
        RonRecord::new()
            .text("code", lot.code)
            .text_if("pod", lot.pod)
            .value_if("seeds", lot.seeds)
            .value_if("estimated", lot.estimated.then_some("true"))
            .line()
    });
    let sowings = page.sowings.iter().map(|sowing| {
        RonRecord::new()
            .text("code", sowing.code)
            .text_if("lot", sowing.lot)
            .text_if("pod", sowing.pod)
            .text_if("on", sowing.on)
            .value_if("seeds", sowing.seeds)
            .line()
    });
    let pots = registry.community_pots(cross).map(|(row, pot)| {
        let record = RonRecord::new()
            .text("code", pot.code)
            .text_if("sowing", pot.sowing)
            .value_if(
                "one_of",
                (!pot.one_of.is_empty()).then(|| renamed(codes, &pot.one_of)),
            );
        // Its record goes alone, so those mix-ups go with it that only the other pot has on record; a told one has them all.
        let mix_ups = registry.mix_ups_of(MixedUp::Pot(row)).iter();
        let mix_ups = mix_ups.filter(|of| of.is_own || page.told_by.is_none());
        let mix_ups: Vec<MixUp> = mix_ups.cloned().collect();
        listed(record, "muddled", written(&mix_ups, codes)).line()
    });
    let record = listed(record, "pods", pods.collect());
    let record = listed(record, "seed_lots", lots.collect());
    let record = listed(record, "sowings", sowings.collect());
    listed(record, "community_pots", pots.collect())
}
