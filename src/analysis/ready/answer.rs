//! What can be pollinated on a day or soon after: flowers open, pollen in hand, and what each would give.

use crate::analysis::descent::Descent;
use crate::analysis::founding::founding;
use crate::kinship::Kinship;
use crate::lineage::{Lineage, PlantRow};
use crate::naming::recorded::Names;
use crate::observation::flowers::{Spike, between_words, spikes};
use crate::observation::pollen::{Envelope, OwnResults, SetRate, in_hand};
use crate::observation::standing::sex_words;
use crate::planning::windows::{Meeting, meeting};
use crate::record::{Day, Sex, When};
use crate::registry::Registry;
use crate::wording::days;
use serde::Serialize;

/// What is open.
#[derive(Serialize)]
pub struct OpenReport {
    /// The day asked for.
    pub on: String,
    /// How many days ahead "soon" reaches.
    pub days_ahead: u32,
    /// Females, and spikes whose sex is not known.
    pub females: Vec<SpikeRow>,
    /// Males.
    pub males: Vec<SpikeRow>,
    /// Envelopes, those for named crosses first, the freshest first.
    pub pollen: Vec<Envelope>,
    /// What could be put on each female, the freshest pollen first.
    pub options: Vec<OptionRow>,
    /// Set rates of this grower by place and age of the pollen.
    pub own_results: Vec<ResultRow>,
    /// Pods on flowers left alone.
    pub controls: SetRate,
    /// Cautions.
    pub cautions: Vec<String>,
}

/// One spike.
#[derive(Serialize)]
pub struct SpikeRow {
    /// Code of the plant, or of its ramet.
    pub id: String,
    /// What is recorded of its sex.
    pub sex: String,
    /// When the spike was seen.
    pub spike_seen: Option<String>,
    /// First open flower, as a range of days.
    pub opens: String,
    /// Last open flower, as a range of days.
    pub closes: String,
    /// `open` when open flowers are on record; else, by the forecast, `should be open`, `may be open` or `expected`.
    pub state: &'static str,
    /// What the dates rest on.
    pub rests_on: String,
}

/// One female with one pollen.
#[derive(Serialize)]
pub struct OptionRow {
    /// Seed parent.
    pub seed: String,
    /// Pollen parent.
    pub pollen: String,
    /// The envelope, or `null` for pollen as it is shed.
    pub lot: Option<String>,
    /// Age of the pollen on the day, days, least and greatest.
    pub age_days: Option<(i32, i32)>,
    /// When flowers and pollen meet.
    pub meet: String,
    /// Expected inbreeding of the seedlings, at least.
    pub inbreeding: f64,
    /// Pods set with this envelope; `null` for fresh pollen.
    pub set_by_it: Option<SetRate>,
    /// This grower's results with all pollen of that place and age, whatever the envelope.
    pub pooled: SetRate,
    /// Crosses of the two already on record, in either direction.
    pub made_before: Vec<String>,
}

/// Set rate of a place and age.
#[derive(Serialize)]
pub struct ResultRow {
    /// Place and age in words.
    pub pollen: String,
    /// The rate.
    pub rate: SetRate,
}

/// Works out what is open.
///
/// # Errors
/// In words, when the pedigree is too entangled for kinship.
pub fn open(
    registry: &Registry,
    lineage: &Lineage,
    names: &Names,
    (on, days_ahead): (Day, u32),
) -> Result<OpenReport, String> {
    let results = OwnResults::of(registry, on);
    let soon = on.0.saturating_add(days_ahead as i32);
    let near: Vec<Spike> = spikes(registry, on)
        .into_iter()
        .filter(|s| s.window.opens.earliest <= soon)
        .collect();
    let pollen = in_hand(registry, on, &results);
    let descent = Descent::of(registry, lineage, names);
    let assumed = founding(registry, lineage, &descent);
    let kinship = Kinship::of(&lineage.pedigree, &assumed).map_err(|error| error.to_string())?;
    let bench = Bench {
        registry,
        kinship: &kinship,
        results: &results,
        on,
    };
    let male = |spike: &&Spike| spike.planned_sex() == Some(Sex::Male);
    let options = bench.options(&near, &pollen);
    let mut report = OpenReport {
        on: on.to_string(),
        days_ahead,
        females: near
            .iter()
            .filter(|s| !male(s))
            .map(|s| bench.row(s))
            .collect(),
        males: near.iter().filter(male).map(|s| bench.row(s)).collect(),
        own_results: results
            .rows()
            .into_iter()
            .map(|(pollen, rate)| ResultRow { pollen, rate })
            .collect(),
        controls: results.controls,
        cautions: Vec::new(),
        options,
        pollen,
    };
    report.cautions = cautions(&report);
    Ok(report)
}

fn state(spike: &Spike, on: Day) -> &'static str {
    let opens = spike.window.opens;
    match (
        spike.opened && opens.latest <= on.0,
        opens.latest <= on.0,
        opens.earliest <= on.0,
    ) {
        (true, ..) => "open",
        (_, true, _) => "should be open",
        (_, _, true) => "may be open",
        _ => "expected",
    }
}

struct Bench<'b, 't> {
    registry: &'b Registry<'t>,
    kinship: &'b Kinship<'b>,
    results: &'b OwnResults,
    on: Day,
}

impl Bench<'_, '_> {
    fn row(&self, spike: &Spike) -> SpikeRow {
        SpikeRow {
            id: self.code(spike),
            sex: sex_words(spike.sex),
            spike_seen: (spike.seen != When::UNKNOWN).then(|| days(spike.seen)),
            opens: between_words(spike.window.opens),
            closes: between_words(spike.window.closes),
            state: state(spike, self.on),
            rests_on: spike.rests_on.clone(),
        }
    }

    fn code(&self, spike: &Spike) -> String {
        let code = self.registry.code(spike.plant);
        spike.ramet.as_ref().map_or(code.clone(), |ramet| {
            if ramet.starts_with(&code) {
                ramet.clone()
            } else {
                format!("{code}-{ramet}")
            }
        })
    }

    fn options(&self, near: &[Spike], pollen: &[Envelope]) -> Vec<OptionRow> {
        let mut rows = Vec::new();
        for female in near.iter().filter(|s| s.planned_sex() == Some(Sex::Female)) {
            let mut of_female: Vec<(i32, OptionRow)> = Vec::new();
            for male in near.iter().filter(|s| s.planned_sex() == Some(Sex::Male)) {
                of_female.extend(self.fresh(female, male));
            }
            for envelope in pollen {
                of_female.extend(self.stored(female, envelope));
            }
            of_female
                .sort_by(|a, b| (a.0, &a.1.pollen, &a.1.lot).cmp(&(b.0, &b.1.pollen, &b.1.lot)));
            rows.extend(of_female.into_iter().map(|(_, row)| row));
        }
        rows
    }

    /// Pollen as it is shed; kept for a fortnight it counts as fresh no longer, so only days in common are offered.
    fn fresh(&self, female: &Spike, male: &Spike) -> Option<(i32, OptionRow)> {
        let meets = meeting(female.window, male.window, 0);
        let meet = match meets {
            Meeting::Never => return None,
            Meeting::Perhaps(first, last) => format!("perhaps {} to {}", Day(first), Day(last)),
            Meeting::Surely(first, last) => format!("{} to {}", Day(first), Day(last)),
        };
        let opens = male.window.opens;
        let age = (self.on.0 - opens.latest, self.on.0 - opens.earliest);
        let age = (age.1 >= 0).then(|| (age.0.max(0), age.1));
        let rate = self.results.with(
            Some(crate::record::PollenPlace::Fresh),
            age.or(Some((0, 0))),
        );
        let mut row = self.option(female, male.plant, meet)?;
        (row.age_days, row.pooled) = (age, rate);
        Some((age.map_or(0, |(_, most)| most), row))
    }

    fn stored(&self, female: &Spike, envelope: &Envelope) -> Option<(i32, OptionRow)> {
        let first = female.window.opens.earliest.max(self.on.0);
        let meet = format!("from {} on, if it has lasted", Day(first));
        let mut row = self.option(female, envelope.plant?, meet)?;
        row.lot = Some(envelope.lot.clone());
        (row.age_days, row.pooled) = (envelope.age_days, envelope.pooled);
        row.set_by_it = Some(envelope.set_by_it);
        Some((envelope.age_days.map_or(i32::MAX, |(_, most)| most), row))
    }

    fn option(&self, female: &Spike, pollen: PlantRow, meet: String) -> Option<OptionRow> {
        (female.plant != pollen).then(|| OptionRow {
            seed: self.code(female),
            pollen: self.registry.code(pollen),
            lot: None,
            age_days: None,
            meet,
            inbreeding: self.kinship.pair(female.plant, pollen),
            set_by_it: None,
            pooled: SetRate::default(),
            made_before: made_before(self.registry, female.plant, pollen),
        })
    }
}

/// Codes of the crosses two plants are the recorded, or the possible, parents of, in either direction.
pub fn made_before(registry: &Registry, one: PlantRow, other: PlantRow) -> Vec<String> {
    let both = |pair: &crate::lineage::Pair| {
        let parents = [pair.seed, pair.pollen];
        parents == [Some(one), Some(other)] || parents == [Some(other), Some(one)]
    };
    let crosses = registry.crosses.iter().filter(|cross| {
        registry.origins()[cross.origin as usize]
            .pairs
            .iter()
            .any(both)
    });
    crosses.map(|cross| cross.page.code.to_owned()).collect()
}

fn cautions(report: &OpenReport) -> Vec<String> {
    let mut told = vec![
        "no set is promised: rates are this grower's own so far, and few flowers tell little".to_owned(),
        "one pollen to a zone, the lowest zone first, a clean brush for each; a mixture has no single father".to_owned(),
    ];
    let mut plants: Vec<&str> = report
        .pollen
        .iter()
        .filter(|e| e.for_a_named_cross)
        .map(|e| e.of.as_str())
        .collect();
    plants.sort_unstable();
    plants.dedup();
    let only = |of: &str| report.pollen.iter().filter(|e| e.of == of).count() == 1;
    let single: Vec<&str> = plants.into_iter().filter(|of| only(of)).collect();
    if !single.is_empty() {
        told.push(format!(
            "only one envelope each of {}: keep half back",
            crate::wording::listed(&single)
        ));
    }
    if report.females.iter().any(|row| row.sex == "unsexed") {
        told.push(
            "a spike of unknown sex is listed with the females; it may turn out male".to_owned(),
        );
    }
    if report.own_results.iter().any(|row| row.rate.flowers < 20) {
        told.push("set rates on fewer than 20 flowers are hardly more than a hint".to_owned());
    }
    told.push(
        "inbreeding is at least so much: founders count as unrelated unless a batch is recorded"
            .to_owned(),
    );
    told
}
