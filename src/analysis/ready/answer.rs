//! What can be pollinated on a day or soon after: flowers open, pollen in hand, and what each would give.

use crate::analysis::kinship::{Outcome, outcomes};
use crate::context::Context;
use crate::kinship::{Kinship, Possible, possible_kinship};
use crate::lineage::{PedigreeTooComplex, PlantRow};
use crate::observation::flowers::{Forecast, Spike, spikes};
use crate::observation::pollen::{Envelope, OwnResults, PollenAge, SetRate, in_hand};
use crate::observation::sex::SexSeen;
use crate::planning::windows::{Between, Meeting, meeting};
use crate::record::{Day, PollenPlace, Sex, When};
use crate::registry::{Cross, Registry};
use crate::wording::days;
use serde::Serialize;

/// What is open.
#[derive(Serialize)]
pub struct ReadyReport {
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
    /// What could be put on the females, the freshest pollen first, then what surely meets.
    pub options: Vec<OptionRow>,
    /// Set rates of this grower by place and age of the pollen.
    pub own_results: Vec<ResultRow>,
    /// Pods on flowers left alone.
    pub controls: SetRate,
    /// Cautions.
    pub cautions: Vec<Caution>,
}

/// One spike.
#[derive(Serialize)]
pub struct SpikeRow {
    /// Code of the plant, or of its ramet.
    pub id: String,
    /// Which spike of it, where others of that plant or piece are listed too.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spike: Option<String>,
    /// What is recorded of its sex.
    pub sex: SexSeen,
    /// When the spike was seen.
    pub spike_seen: Option<String>,
    /// First open flower, as a range of days.
    pub opens: Between,
    /// Last open flower, as a range of days.
    pub closes: Between,
    /// Whether it is open.
    pub state: SpikeState,
    /// What the dates rest on.
    pub rests_on: Forecast,
}

/// Whether a spike is open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpikeState {
    /// Open flowers are on record.
    Open,
    /// By the forecast it has opened.
    ShouldBeOpen,
    /// By the forecast it may have.
    MayBeOpen,
    /// By the forecast it will open.
    Expected,
    /// It opened, and may be over by now.
    MayBeOver,
}

/// When flowers and pollen meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OptionMeets {
    /// With pollen as it is shed.
    Fresh(Meeting),
    /// With stored pollen, from a day on.
    StoredFrom(Day),
}

/// One thing to keep in mind before pollinating.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Caution {
    /// No set is promised.
    NoPromise,
    /// How pollen is kept apart.
    OnePollenToAZone,
    /// Plants of whose pollen there is one envelope only.
    OnlyEnvelope(Vec<String>),
    /// Spikes of unknown sex may be male.
    SexUnknown,
    /// Set rates of few flowers.
    FewFlowers,
    /// Inbreeding is a minimum.
    KinshipIsAMinimum,
}

/// One female with one pollen.
#[derive(Serialize)]
pub struct OptionRow {
    /// Seed parent.
    pub seed: String,
    /// Which spike of it, where others of that plant or piece are listed too.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seed_spike: Option<String>,
    /// Pollen parent.
    pub pollen: String,
    /// Which spike of it sheds the pollen, where others of that plant or piece are listed too.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pollen_spike: Option<String>,
    /// The envelope, or `null` for pollen as it is shed.
    pub lot: Option<String>,
    /// Age of the pollen on the day; of pollen as it is shed 0, `null` before the first flower.
    pub age_days: Option<PollenAge>,
    /// When flowers and pollen meet.
    pub meet: OptionMeets,
    /// Expected inbreeding of the seedlings, at least.
    pub inbreeding: f64,
    /// What it may be, ascending, where parents are one of several; empty when that makes no difference.
    pub inbreeding_may_be: Vec<Outcome>,
    /// Whether what it may be was worked out; the ways may be too many.
    pub ways_known: bool,
    /// Pods set with this envelope; `null` for fresh pollen.
    pub set_by_it: Option<SetRate>,
    /// This grower's results with all pollen of that place and age, whatever the envelope.
    pub pooled: SetRate,
    /// Crosses of the two already on record, in either direction.
    pub made_before: Vec<String>,
    /// Crosses of which one of the two, or both, are only possibly the parents.
    pub perhaps_made_before: Vec<String>,
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
/// [`PedigreeTooComplex`] when the pedigree cannot be solved.
pub fn ready(
    context: &Context,
    (on, days_ahead): (Day, u32),
) -> Result<ReadyReport, PedigreeTooComplex> {
    let registry = context.registry;
    let results = OwnResults::of(registry, on);
    let soon = on.0.saturating_add(days_ahead as i32);
    let near: Vec<Spike> = spikes(registry, on)
        .into_iter()
        .filter(|s| s.window.opens.earliest <= soon)
        .collect();
    let pollen = in_hand(registry, on, &results);
    let kinship = context.kinship()?;
    let context = ReadyContext {
        context,
        registry,
        kinship: &kinship,
        results: &results,
        on,
    };
    let male = |spike: &&Spike| spike.planned_sex() == Some(Sex::Male);
    let options = context.options(&near, &pollen);
    let mut report = ReadyReport {
        on: on.to_string(),
        days_ahead,
        females: near
            .iter()
            .filter(|s| !male(s))
            .map(|s| context.row(s))
            .collect(),
        males: near.iter().filter(male).map(|s| context.row(s)).collect(),
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

/// Whether a spike is open on a day. One that opened counts as open until it is on record as over, or has outlived what
/// is forecast of it.
pub fn state(spike: &Spike, on: Day) -> SpikeState {
    let (opens, closes) = (spike.window.opens, spike.window.closes);
    let may_be_over = match spike.forecast.lasting {
        None => closes.earliest <= on.0,
        Some(_) if spike.opened => spike.forecast.outlived,
        Some(_) => closes.earliest < on.0,
    };
    match (opens.latest <= on.0, opens.earliest <= on.0) {
        (true, _) if spike.opened && may_be_over => SpikeState::MayBeOver,
        (true, _) if spike.opened => SpikeState::Open,
        (true, _) if !may_be_over => SpikeState::ShouldBeOpen,
        (_, true) => SpikeState::MayBeOpen,
        _ => SpikeState::Expected,
    }
}

/// What orders the rows: the greatest age of the pollen in days, or for how long its flowers may have been over, then whether flowers and pollen only perhaps meet.
type Rank = (i32, bool);

struct ReadyContext<'b, 'r, 't> {
    context: &'b Context<'r, 't>,
    registry: &'b Registry<'t>,
    kinship: &'b Kinship<'b>,
    results: &'b OwnResults,
    on: Day,
}

impl ReadyContext<'_, '_, '_> {
    fn row(&self, spike: &Spike) -> SpikeRow {
        SpikeRow {
            id: spike.code(self.registry),
            spike: spike.apart.clone(),
            sex: spike.sex,
            spike_seen: (spike.seen != When::UNKNOWN).then(|| days(spike.seen)),
            opens: spike.window.opens,
            closes: spike.window.closes,
            state: state(spike, self.on),
            rests_on: spike.forecast,
        }
    }

    fn options(&self, near: &[Spike], pollen: &[Envelope]) -> Vec<OptionRow> {
        let mut rows: Vec<(Rank, OptionRow)> = Vec::new();
        for female in near.iter().filter(|s| s.planned_sex() == Some(Sex::Female)) {
            let mut of_female: Vec<(Rank, OptionRow)> = Vec::new();
            for male in near.iter().filter(|s| s.planned_sex() == Some(Sex::Male)) {
                of_female.extend(self.fresh(female, male));
            }
            for envelope in pollen {
                of_female.extend(self.stored(female, envelope));
            }
            of_female
                .sort_by(|a, b| (a.0, &a.1.pollen, &a.1.lot).cmp(&(b.0, &b.1.pollen, &b.1.lot)));
            rows.extend(of_female);
        }
        // Stable: females of one rank stay in their order.
        rows.sort_by_key(|(rank, _)| *rank);
        rows.into_iter().map(|(_, row)| row).collect()
    }

    /// Pollen as it is shed; kept for a fortnight it counts as fresh no longer, so only days in common are offered.
    fn fresh(&self, female: &Spike, male: &Spike) -> Option<(Rank, OptionRow)> {
        let [female_open, male_open] = [female, male].map(|of| of.left_on(self.on.0));
        let meets = meeting(female_open, male_open, 0);
        if !meets.possible() {
            return None;
        }
        let state = state(male, self.on);
        let fresh = (0, Some(0));
        let rate = self.results.with(Some(PollenPlace::Fresh), Some(fresh));
        let mut row = self.option(female, male.plant, OptionMeets::Fresh(meets))?;
        row.pollen_spike = male.apart.clone();
        row.age_days = (state != SpikeState::Expected).then_some(fresh);
        row.pooled = rate;
        let is_unsure = matches!(meets, Meeting::Perhaps(..));
        // The longer flowers may have been over, the less is this pollen to be counted on.
        let days_over = match state {
            SpikeState::MayBeOver => (self.on.0 - male.window.closes.earliest).max(0),
            _ => 0,
        };
        Some(((days_over, is_unsure), row))
    }

    fn stored(&self, female: &Spike, envelope: &Envelope) -> Option<(Rank, OptionRow)> {
        let first = female.window.opens.earliest.max(self.on.0);
        let meet = OptionMeets::StoredFrom(Day(first));
        let mut row = self.option(female, envelope.plant?, meet)?;
        row.lot = Some(envelope.lot.clone());
        (row.age_days, row.pooled) = (envelope.age_days, envelope.pooled);
        row.set_by_it = Some(envelope.set_by_it);
        let age = envelope
            .age_days
            .and_then(|(_, most)| most)
            .unwrap_or(i32::MAX);
        Some(((age, state(female, self.on) == SpikeState::MayBeOver), row))
    }

    fn option(&self, female: &Spike, pollen: PlantRow, meet: OptionMeets) -> Option<OptionRow> {
        if female.plant == pollen {
            return None;
        }
        let [made_before, perhaps_made_before] = made_before(self.registry, female.plant, pollen);
        let possible = self.possible([female.plant, pollen]);
        Some(OptionRow {
            seed: female.code(self.registry),
            seed_spike: female.apart.clone(),
            pollen_spike: None,
            pollen: self.registry.code(pollen),
            lot: None,
            age_days: None,
            meet,
            inbreeding: self.kinship.pair(female.plant, pollen),
            ways_known: possible.is_some(),
            inbreeding_may_be: possible.as_ref().map(outcomes).unwrap_or_default(),
            set_by_it: None,
            pooled: SetRate::default(),
            made_before,
            perhaps_made_before,
        })
    }

    /// What the kinship of two plants may be; `None` where the ways are too many to go through.
    fn possible(&self, pair: [PlantRow; 2]) -> Option<Possible> {
        let pedigree = &self.context.lineage().pedigree;
        possible_kinship(pedigree, self.context.founding(), pair)
            .ok()
            .flatten()
    }
}

/// The crosses two plants are the recorded, or the possible, parents of, in either direction.
pub fn crosses_between<'r, 't>(
    registry: &'r Registry<'t>,
    one: PlantRow,
    other: PlantRow,
) -> impl Iterator<Item = &'r Cross<'t>> {
    let both = move |pair: &crate::lineage::Pair| {
        let parents = [pair.seed, pair.pollen];
        parents == [Some(one), Some(other)] || parents == [Some(other), Some(one)]
    };
    registry.crosses.iter().filter(move |cross| {
        let origin = &registry[cross.origin];
        origin.pairs.iter().any(both)
    })
}

/// Their codes: those of which the two are surely the parents, and those of which they only may be.
pub fn made_before(registry: &Registry, one: PlantRow, other: PlantRow) -> [Vec<String>; 2] {
    let mut found = [Vec::new(), Vec::new()];
    for cross in crosses_between(registry, one, other) {
        let surely = are_surely_parents(registry, cross, [one, other]);
        found[usize::from(!surely)].push(cross.page.code.to_owned());
    }
    found
}

/// Whether two plants are the parents of a cross under every pair it may have, in either direction.
pub fn are_surely_parents(registry: &Registry, cross: &Cross, [one, other]: [PlantRow; 2]) -> bool {
    registry[cross.origin].pairs.iter().all(|pair| {
        let parents = [pair.seed, pair.pollen];
        parents == [Some(one), Some(other)] || parents == [Some(other), Some(one)]
    })
}

fn cautions(report: &ReadyReport) -> Vec<Caution> {
    let mut told = Vec::new();
    if !report.own_results.is_empty() || report.controls.interval.is_some() {
        told.push(Caution::NoPromise);
    }
    let may_be_made = !report.options.is_empty();
    if may_be_made {
        told.push(Caution::OnePollenToAZone);
    }
    let worth_keeping = |of: &&Envelope| of.for_a_named_cross && !of.beyond_reports;
    let named = || report.pollen.iter().filter(worth_keeping);
    let alone = |one: &&Envelope| named().filter(|of| of.plant == one.plant).count() == 1;
    let mut single: Vec<String> = named().filter(alone).map(|of| of.of.clone()).collect();
    single.sort_unstable();
    if !single.is_empty() {
        told.push(Caution::OnlyEnvelope(single));
    }
    if report.females.iter().any(|row| row.sex.is_open()) {
        told.push(Caution::SexUnknown);
    }
    if report.own_results.iter().any(|row| row.rate.flowers < 20) {
        told.push(Caution::FewFlowers);
    }
    if may_be_made {
        told.push(Caution::KinshipIsAMinimum);
    }
    told
}
