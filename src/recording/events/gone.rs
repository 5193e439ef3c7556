//! Plants, sowings and community pots that died, were culled, sold, given away or lost.

use crate::analysis::promised::statement;
use crate::check::faults as faults_of;
use crate::context::Context;
use crate::diagnostic::Severity;
use crate::observation::in_pod::{InPod, Ripening};
use crate::observation::pieces::pieces_left;
use crate::recording::at_place::{Standing, named_or_at};
use crate::recording::dates::Dated;
use crate::recording::draft::Draft;
use crate::recording::ending::{ended, last_piece, one_ending};
use crate::recording::part_of_pot::part_gone;
use crate::recording::parts::{Part, apart};
use crate::recording::plants::codes;
use crate::recording::recorded::{Recorded, What};
use crate::recording::seed_lots::{end_lots, hand_on};
use crate::recording::slip::{BadRange, Slip};
use crate::recording::trays::{end_trays, no_empty_count};
use crate::recording::voice::{Words, by, field, words};
use crate::recording::written::RonRecord;
use crate::registry::{LotRow, PlantOrRamet, PlantRow, Registry, build};
use crate::wording::{at_date, counted};
use std::collections::BTreeSet;

/// What became of plants or pieces of them.
#[derive(Clone, Debug, Default)]
pub struct Gone {
    /// Lists of plants, pieces, sowings, community pots and seed lots; none for all that stand at a place.
    pub plants: Vec<String>,
    /// The place at which all went.
    pub place: Option<String>,
    /// Which fate.
    pub fate: Option<FateKind>,
    /// Why it died, was culled or lost.
    pub why: Option<String>,
    /// Who has it; private.
    pub to: Option<String>,
    /// What was asked for it; private.
    pub price: Option<String>,
    /// The words on the tag it left with.
    pub label: Option<String>,
    /// How many seeds of one lot, where the others stay; all that are left if not given.
    pub seeds: Option<u32>,
    /// How many seedlings of one community pot, where the others stay.
    pub seedlings: Option<u32>,
    /// Whether a plant with several pieces left goes with all of them.
    pub all_pieces: bool,
    /// When; today if not given.
    pub on: Option<String>,
}

/// What can become of a plant.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FateKind {
    /// Found dead.
    Died,
    /// Discarded by choice.
    Culled,
    /// Sold.
    Sold,
    /// Given or traded away.
    Given,
    /// Lost sight of.
    Lost,
}

impl FateKind {
    /// All of them.
    pub const ALL: [FateKind; 5] = [
        FateKind::Died,
        FateKind::Culled,
        FateKind::Sold,
        FateKind::Given,
        FateKind::Lost,
    ];

    /// The word in the files, which is also that of the option.
    pub fn word(self) -> &'static str {
        match self {
            FateKind::Died => "died",
            FateKind::Culled => "culled",
            FateKind::Sold => "sold",
            FateKind::Given => "given",
            FateKind::Lost => "lost",
        }
    }

    /// Whether others have it now.
    fn leaves(self) -> bool {
        matches!(self, FateKind::Sold | FateKind::Given)
    }

    /// What is said of seed that comes to such an end.
    fn of_seed(self) -> &'static str {
        match self {
            FateKind::Died => "spoilt",
            FateKind::Culled => "thrown out",
            FateKind::Given => "given away",
            FateKind::Sold | FateKind::Lost => self.word(),
        }
    }

    /// The field that holds the reason.
    fn why_field(self) -> Option<&'static str> {
        match self {
            FateKind::Died => Some("cause"),
            FateKind::Culled => Some("reason"),
            FateKind::Lost => Some("note"),
            FateKind::Sold | FateKind::Given => None,
        }
    }
}

impl Gone {
    /// Writes the fate of each.
    ///
    /// # Errors
    /// If no fate is said, a plant is unknown or already gone, several pieces of it are left and none is named, or an option
    /// does not belong to the fate.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let fate = self.fate.ok_or_else(|| {
            Slip::wanted(
                "say what became of the plants",
                "--died, --culled, --sold, --given or --lost",
            )
        })?;
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        if let Some(seedlings) = self.seedlings {
            return self.part_of_pot(draft, (fate, seedlings), &on);
        }
        let (plants, lots) = apart::<LotRow>(registry, &self.plants);
        let standing = match plants.is_empty() && !lots.is_empty() {
            true => Standing::default(),
            false => named_or_at(registry, (&plants, self.place.as_deref()), &on)?,
        };
        self.fits_seed(registry, &lots)?;
        if let (Some(seeds), [lot]) = (self.seeds, &lots[..]) {
            return self.part_of_lot(draft, *lot, (fate, seeds), &on);
        }
        no_empty_count(registry, &standing.trays, on.when.last.min(draft.today))?;
        let named = &standing.plants.named;
        self.pieces_named(draft, named)?;
        kept_later(draft, fate, named, &on)?;
        let ends = named.iter().map(|one| last_piece(registry, *one));
        let wanted = &ends.collect::<Vec<_>>();
        let said = said(draft, fate, wanted);
        let bare = RonRecord::new().text("on", &on.text).named(fate.word());
        let mut changes = Vec::new();
        for (one, said) in wanted.iter().zip(said) {
            let value = self.value(fate, &on.text, said)?;
            changes.push((one.plant, ended(draft, *one, &value, &bare)?));
        }
        draft.change_plants(changes)?;
        let whole = self.value(fate, &on.text, None)?;
        end_trays(draft, &standing.trays, &whole, &bare)?;
        end_lots(draft, &lots, &whole)?;
        let plants = codes(registry, wanted);
        let ended_lots = lots.len();
        let lots = lots.iter().map(|lot| lot.code(registry));
        let trays: Vec<String> = lots.chain(standing.tray_codes(registry)).collect();
        let about = [plants.clone(), trays.clone()].concat();
        let only_seed = plants.is_empty() && trays.len() == ended_lots;
        let what = What::Gone {
            fate: match only_seed {
                true => fate.of_seed(),
                false => fate.word(),
            },
            plants,
            trays,
        };
        Ok(Recorded::of(what, about, on.text)
            .remarks(standing.plants.remarks())
            .remarks(kept(draft, fate, named))
            .remarks(in_pod(draft, fate, named))
            .remarks(last_of_all(registry, wanted))
            .remarks(faults(draft, fate, wanted)))
    }

    /// Refuses a number of seeds without the one lot they were of.
    fn fits_seed(&self, registry: &Registry, lots: &[LotRow]) -> Result<(), Slip> {
        if self.seeds.is_some() && (lots.len() != 1 || self.names_more_than_lots(registry)) {
            return Err(Slip::contradicts(
                words!("{} was given"; field("--seeds")),
                "it needs exactly one seed lot",
                "name the one lot they were of",
            ));
        }
        Ok(())
    }

    fn names_more_than_lots(&self, registry: &Registry) -> bool {
        let (others, _) = apart::<LotRow>(registry, &self.plants);
        !others.is_empty() || self.place.is_some()
    }

    /// Writes that some of the seeds of a lot left.
    fn part_of_lot(
        &self,
        draft: &mut Draft,
        lot: LotRow,
        (fate, seeds): (FateKind, u32),
        on: &Dated,
    ) -> Result<Recorded, Slip> {
        hand_on(draft, lot, seeds, &self.value(fate, &on.text, None)?)?;
        let code = lot.code(draft.registry);
        let about = vec![code.clone()];
        let what = What::SeedHandedOn {
            lot: code,
            seeds,
            how: fate.of_seed(),
        };
        Ok(Recorded::of(what, about, &on.text))
    }

    /// Writes that some of the seedlings of a community pot died or left.
    fn part_of_pot(
        &self,
        draft: &mut Draft,
        (fate, seedlings): (FateKind, u32),
        on: &Dated,
    ) -> Result<Recorded, Slip> {
        let lists = self.plants.iter();
        let named: Vec<&str> = lists.flat_map(|list| list.split(',')).collect();
        let ([named], None, None) = (&named[..], &self.place, self.seeds) else {
            return Err(Slip::contradicts(
                words!("{} was given"; field("--seedlings")),
                "it needs exactly one community pot",
                "name the one pot they were in, such as X24-01.T1",
            ));
        };
        let value = self.value(fate, &on.text, None)?;
        let pot = part_gone(draft, named.trim(), (seedlings, &value), on)?;
        let about = vec![pot.clone()];
        let what = What::PartGone {
            pot,
            seedlings,
            fate: fate.word(),
        };
        Ok(Recorded::of(what, about, &on.text))
    }

    /// Refuses a plant that is named whole while several pieces of it are left, unless all of them go.
    fn pieces_named(&self, draft: &Draft, wanted: &[PlantOrRamet]) -> Result<(), Slip> {
        let registry = draft.registry;
        let whole = wanted.iter().filter(|one| one.ramet.is_none());
        for one in whole {
            if self.all_pieces {
                let piece = |of: &&PlantOrRamet| of.plant == one.plant && of.ramet.is_some();
                if let Some(piece) = wanted.iter().find(piece) {
                    let code = registry.code_of(*piece);
                    return Err(Slip::bad_range(&code, BadRange::Twice));
                }
            } else {
                let help = Words::or(
                    "name the piece that went, or add --all-pieces if all of them did",
                    "name the piece that went, or tick “All of its pieces went” if all of them did",
                );
                one_ending(registry, *one, None, help)?;
            }
        }
        Ok(())
    }

    /// The fate as RON.
    fn value(&self, fate: FateKind, on: &str, said: Option<String>) -> Result<String, Slip> {
        let leaves = fate.leaves();
        let misplaced = |option: &str, belongs: Words| {
            Slip::contradicts(
                words!("{} was given"; field(option)),
                format!("they are to be recorded as {}", fate.word()),
                words!("{} belongs to {}"; field(option), belongs),
            )
        };
        let of_buyer = [&self.to, &self.price, &self.label].into_iter();
        let mut of_buyer = of_buyer.zip(["--to", "--price", "--label"]);
        if let Some((_, option)) = of_buyer.find(|(given, _)| !leaves && given.is_some()) {
            return Err(misplaced(
                option,
                Words::or("--sold and --given", "sold and given"),
            ));
        }
        let mut record = RonRecord::new().text("on", on);
        match (fate.why_field(), &self.why) {
            (Some(field), Some(why)) => record = record.text(field, why),
            (None, Some(_)) => {
                return Err(misplaced(
                    "--why",
                    Words::or("--died, --culled and --lost", "died, culled and lost"),
                ));
            }
            _ => {}
        }
        let record = record
            .text_if("label", self.label.as_ref())
            .text_if("to", self.to.as_ref())
            .text_if("price", self.price.as_ref())
            .text_if("said", said);
        Ok(record.named(fate.word()))
    }
}

/// The name and the evidence of each plant that leaves, as they are now.
fn said(draft: &Draft, fate: FateKind, wanted: &[PlantOrRamet]) -> Vec<Option<String>> {
    if !fate.leaves() {
        return vec![None; wanted.len()];
    }
    let context = Context::of(draft.registry, draft.today);
    let said = |one: &PlantOrRamet| Some(statement(context.evidence(), one.plant));
    wanted.iter().map(said).collect()
}

/// Plants that leave by choice although they were marked to keep; of a piece the rest of the plant stays.
fn kept(draft: &Draft, fate: FateKind, wanted: &[PlantOrRamet]) -> Vec<String> {
    if matches!(fate, FateKind::Died | FateKind::Lost) {
        return Vec::new();
    }
    let whole = wanted.iter().filter(|one| one.ramet.is_none());
    let kept = whole.filter_map(|one| {
        let kept = draft.registry.kept(one.plant)?;
        let why = kept.why.as_deref().map(|why| format!(" ({why})"));
        let plant = draft.registry.code(one.plant);
        Some(format!(
            "{plant} was marked to keep{}",
            why.unwrap_or_default()
        ))
    });
    kept.collect()
}

/// Pods that may still be ripening on what goes by choice.
fn in_pod(draft: &Draft, fate: FateKind, wanted: &[PlantOrRamet]) -> Vec<String> {
    if matches!(fate, FateKind::Died | FateKind::Lost) {
        return Vec::new();
    }
    let (registry, today) = (draft.registry, draft.today);
    let goes = |bearer: &PlantOrRamet| {
        let is_it = |one: &PlantOrRamet| {
            one.plant == bearer.plant && (one.ramet.is_none() || one.ramet == bearer.ramet)
        };
        wanted.iter().any(is_it)
    };
    let ripening = InPod { registry, today }.ripening().into_iter();
    let gone = ripening.filter(|one| goes(&one.bearer));
    let words = |one: Ripening| {
        let plant = registry.code_of(one.bearer);
        format!(
            "{plant} may still bear pods of {}: they go with it",
            one.code()
        )
    };
    gone.map(words).collect()
}

/// Plants of which no piece is left, where only pieces were named.
fn last_of_all(registry: &Registry, wanted: &[PlantOrRamet]) -> Vec<String> {
    let pieces = wanted.iter().filter(|one| one.ramet.is_some());
    let plants: BTreeSet<PlantRow> = pieces.map(|one| one.plant).collect();
    let is_left = |plant: &PlantRow| {
        let left = pieces_left(registry, *plant, None);
        left.iter().any(|(piece, _)| !wanted.contains(piece))
    };
    let none_left = plants.into_iter().filter(|plant| !is_left(plant));
    let words = |plant: PlantRow| format!("No piece of {} is left here", registry.code(plant));
    none_left.map(words).collect()
}

/// That faults of the registry are left out of the text which is kept of plants that leave.
fn faults(draft: &Draft, fate: FateKind, wanted: &[PlantOrRamet]) -> Vec<String> {
    if !fate.leaves() || wanted.is_empty() {
        return Vec::new();
    }
    let (registry, findings) = build(draft.registry.sources);
    let faults = match findings.count(Severity::Fault) + faults_of(&registry, draft.today) {
        0 => return Vec::new(),
        n => counted(n, "fault", "faults"),
    };
    vec![format!(
        "The registry has {faults}: the description kept with what left leaves out what a fault touches. Mend it, then undo this and record it again"
    )]
}

/// Refuses the death, or the choice, of a plant before the day on which it was marked to keep.
fn kept_later(
    draft: &Draft,
    fate: FateKind,
    wanted: &[PlantOrRamet],
    on: &Dated,
) -> Result<(), Slip> {
    let clause = match fate {
        FateKind::Died => "died",
        FateKind::Culled => "was culled",
        _ => return Ok(()),
    };
    let registry = draft.registry;
    for one in wanted.iter().filter(|one| one.ramet.is_none()) {
        let marked = registry.kept(one.plant).and_then(|kept| kept.on);
        let Some(marked) = marked.filter(|marked| on.when.surely_before(registry.when(marked)))
        else {
            continue;
        };
        let code = registry.code_of(*one);
        return Err(Slip::contradicts(
            format!("{code} {clause} {}", at_date(&on.text)),
            format!("it was marked to keep {}", at_date(marked)),
            words!("take the mark off first{}"; by(&format!("keep {code} --no-longer"))),
        ));
    }
    Ok(())
}
