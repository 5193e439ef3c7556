//! All that is due, in the order of urgency.

use super::context::{DueContext, DueOptions};
use super::ranges::{By, Ranges};
use super::room::RoomForecast;
use super::row::{Basis, DueRow, Task, Urgency};
use crate::context::Context;
use crate::lineage::Lineage;
use crate::observation::flowers::spikes;
use crate::record::Day;
use crate::registry::natural_order;
use serde::Serialize;

/// What is due.
#[derive(Serialize)]
pub struct DueReport {
    /// The day that counts as today.
    pub on: String,
    /// How many days ahead "soon" reaches.
    pub within_days: u32,
    /// The last of those days.
    pub until: String,
    /// Tasks, the most urgent first; among equals what spoils first, then what ends first.
    pub rows: Vec<DueRow>,
    /// Pots and shelves needed.
    pub room: RoomForecast,
    /// Cautions.
    pub cautions: Vec<Caution>,
}

/// One thing to keep in mind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Caution {
    /// Ranges are no promise.
    NoPromise,
    /// Some ranges are common practice.
    Practice,
    /// Nothing that was missed shows whether it was done and not recorded.
    Overdue,
    /// The steps from pot to pot are common practice.
    PotSteps,
    /// So many pots of unknown width are not in the shelves.
    Unplaced(u64),
    /// So many pots are too wide for every shelf.
    TooWide(u64),
    /// No shelf is recorded.
    NoShelves,
    /// Zones whose pods were ripe more than a year ago, of which no pod is on record: their codes.
    NotEntered(Vec<String>),
    /// The same of zones that a pod without a zone may be of.
    ZoneNotEntered(Vec<String>),
}

/// Works out what is due.
pub fn due(context: &Context, options: DueOptions) -> DueReport {
    let lineage = context.lineage();
    let context = DueContext {
        registry: context.registry,
        today: context.today,
        options,
        ranges: Ranges::of(context.registry, context.today),
    };
    let (rows, not_entered) = without_long_ripe(rows(&context, lineage));
    let room = context.room();
    DueReport {
        on: context.today.to_string(),
        within_days: options.within,
        until: Day(context.today.0.saturating_add_unsigned(options.within)).to_string(),
        cautions: [cautions(&rows, &room), not_entered].concat(),
        rows,
        room,
    }
}

fn rows(context: &DueContext, lineage: &Lineage) -> Vec<DueRow> {
    let registry = context.registry;
    let spikes = spikes(registry, context.today);
    let pollen = context.pollen_in_hand();
    let mut rows = Vec::new();
    for (row, cross) in registry.own_crosses() {
        rows.extend(context.pollinations(cross, &spikes));
        rows.extend(context.seed(cross));
        rows.extend(context.counts(row));
        rows.extend(context.prick_out(row));
    }
    rows.extend(context.spikes(&spikes, &pollen));
    rows.extend(context.ageing(&pollen));
    rows.extend(context.sittings());
    rows.extend(context.cuttings());
    rows.extend(context.sole_pieces(lineage));
    for row in &mut rows {
        (row.plant, row.place) = context.stands(&row.code);
    }
    let ends = |row: &DueRow| row.window.map_or(i32::MAX, |window| window.latest);
    rows.sort_by(|a, b| {
        let key = |row: &DueRow| (row.urgency, row.task.rank(), ends(row));
        key(a)
            .cmp(&key(b))
            .then_with(|| natural_order(&a.code, &b.code))
    });
    rows
}

/// Days after the last on which its pods may be ripe until a zone is no more a task: what it bore is off or has spilled.
const LONG_RIPE: i32 = 365;

/// The rows without pods to count or to harvest that were ripe long ago, and what is said of these instead.
fn without_long_ripe(rows: Vec<DueRow>) -> (Vec<DueRow>, Vec<Caution>) {
    let is_long_ripe = |row: &DueRow| {
        let of_pods = matches!(row.task, Task::Harvest { .. } | Task::CountSet { .. });
        of_pods && row.in_days.is_some_and(|(_, last)| last < -LONG_RIPE)
    };
    let (ripe, rows): (Vec<DueRow>, Vec<DueRow>) = rows.into_iter().partition(is_long_ripe);
    let harvests = ripe.into_iter();
    let harvests = harvests.filter(|row| matches!(row.task, Task::Harvest { .. }));
    let has_nameless =
        |row: &DueRow| matches!(&row.task, Task::Harvest { unless, .. } if !unless.is_empty());
    let (nameless, unharvested): (Vec<DueRow>, Vec<DueRow>) = harvests.partition(has_nameless);
    let codes = |rows: Vec<DueRow>| rows.into_iter().map(|row| row.code).collect::<Vec<_>>();
    let (nameless, unharvested) = (codes(nameless), codes(unharvested));
    let told = [
        (!unharvested.is_empty()).then_some(Caution::NotEntered(unharvested)),
        (!nameless.is_empty()).then_some(Caution::ZoneNotEntered(nameless)),
    ];
    (rows, told.into_iter().flatten().collect())
}

fn cautions(rows: &[DueRow], room: &RoomForecast) -> Vec<Caution> {
    let mut told = Vec::new();
    let mut dated = rows.iter().filter(|row| row.urgency.is_dated());
    let practice =
        |row: &DueRow| matches!(row.basis, Basis::Days(range) if range.by == By::Practice);
    if dated.clone().next().is_some() {
        told.push(Caution::NoPromise);
    }
    if dated.clone().any(|row| row.urgency == Urgency::Overdue) {
        told.push(Caution::Overdue);
    }
    if dated.any(practice) {
        told.push(Caution::Practice);
    }
    if room.shelves == 0 {
        told.push(Caution::NoShelves);
    } else {
        let unplaced = room.months.iter().map(|of| of.unplaced).max();
        let too_wide = room.months.iter().map(|of| of.too_wide).max();
        told.extend(too_wide.filter(|pots| *pots > 0).map(Caution::TooWide));
        told.extend(unplaced.filter(|pots| *pots > 0).map(Caution::Unplaced));
        if !room.own_steps {
            told.push(Caution::PotSteps);
        }
    }
    told
}
