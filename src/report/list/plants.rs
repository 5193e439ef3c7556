//! Plants in rows, by what a grower filters them for.

use crate::ancestry::Part;
use crate::context::Context;
use crate::context::Descent;
use crate::evidence::Unit;
use crate::lineage::{Lineage, PlantRow};
use crate::naming::recorded::TopOf;
use crate::naming::{Writing, formula_only};
use crate::observation::months::months;
use crate::observation::places::{is_in, places};
use crate::observation::presence::{Presence, end_of, presence};
use crate::observation::provenance::provenance;
use crate::observation::sex::{SexSeen, sex_seen};
use crate::observation::standing::{last_read, status_words};
use crate::record::{Day, Sex, When};
use crate::registry::{CrossRow, OriginRow, PlantKind, PodRow, Registry};
use crate::report::caution::Weight;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::Table;
use crate::wording::{age, counted, days};
use serde::Serialize;
use std::collections::{HashMap, HashSet};
use std::rc::Rc;

/// Which plants are listed; every condition given must hold.
#[derive(Clone, Debug, Default)]
pub struct PlantFilter {
    /// Only plants in the collection.
    pub alive: bool,
    /// Only plants that are not here any more.
    pub gone: bool,
    /// Only plants marked to keep.
    pub kept: bool,
    /// Only plants of this sex, seen on open flowers.
    pub sex: Option<Sex>,
    /// Only plants that never showed a sex.
    pub unsexed: bool,
    /// Only plants that descend from this species.
    pub species: Option<String>,
    /// Only seedlings of this cross, by its index.
    pub cross: Option<CrossRow>,
    /// Only plants not read on or after this day.
    pub unread_since: Option<Day>,
    /// Only founders.
    pub founders: bool,
    /// Only plants in the collection that stand at this place, or a piece of which does.
    pub place: Option<String>,
}

/// A list of plants.
#[derive(Serialize)]
pub struct PlantList {
    /// Rows in the order of the registry, founders first.
    pub plants: Vec<PlantLine>,
    /// How many plants were looked at.
    pub of: usize,
    /// Species whose names are in doubt, one line each.
    pub cautions: Vec<String>,
    /// What the list is of, in words.
    #[serde(skip)]
    pub filter: String,
}

/// One plant; words that many plants have are kept once.
#[derive(Serialize)]
pub struct PlantLine {
    /// Code.
    pub id: String,
    /// Formula, genus with every parent.
    pub name: Rc<str>,
    /// How surely its descent is known, in few words.
    pub evidence: Rc<str>,
    /// The weakest link of that.
    #[serde(skip)]
    pub(super) weakest: Rc<str>,
    /// Sex as seen, in words.
    pub sex: Rc<str>,
    /// `in the collection`, or what became of it.
    pub status: Rc<str>,
    /// Whether it is marked to keep.
    pub kept: bool,
    #[serde(skip)]
    pub(super) is_here: bool,
    /// Age from sowing in months, least and greatest; today, or when it died or left.
    pub months_from_sowing: Option<(f64, f64)>,
    /// When it was last read.
    pub last_read: Option<Rc<str>>,
    /// Where it stands.
    pub place: Option<Rc<str>>,
}

/// Lists plants.
///
/// # Errors
/// In words, when the species is not in the registry.
pub fn plants(context: &Context, filter: &PlantFilter) -> Result<PlantList, String> {
    let registry = context.registry;
    let mut shared = Shared::of(registry);
    let plants = chosen(context, filter)?;
    let cautions = context
        .names()
        .doubts(plants.iter().copied().map(TopOf::Plant));
    let rows = plants
        .into_iter()
        .map(|plant| line(context, plant, &mut shared))
        .collect();
    let seen = |plant: &PlantRow| registry.kind(*plant) != PlantKind::Unseen;
    Ok(PlantList {
        plants: rows,
        of: registry.plants().filter(seen).count(),
        cautions,
        filter: filter_words(registry, filter),
    })
}

/// The plants that pass a filter, in the order of the registry.
///
/// # Errors
/// In words, when the species is not in the registry.
pub fn chosen(context: &Context, filter: &PlantFilter) -> Result<Vec<PlantRow>, String> {
    let (registry, today) = (context.registry, context.today);
    let descent = filter.species.is_some().then(|| context.descent());
    let wanted = match (&filter.species, &descent) {
        (Some(species), Some(descent)) => Some(species_part(registry, descent, species)?),
        _ => None,
    };
    let of_species = |plant: PlantRow| match (wanted, &descent) {
        (Some(Some(part)), Some(descent)) => descends(descent, context.lineage(), plant, part),
        (Some(None), _) => false,
        _ => true,
    };
    let seen = |plant: &PlantRow| registry.kind(*plant) != PlantKind::Unseen;
    let passing = registry
        .plants()
        .filter(seen)
        .filter(|&plant| passes(registry, plant, filter, today));
    Ok(passing.filter(|&plant| of_species(plant)).collect())
}

/// The part a species name stands for; inner `None` when no founder brings it in.
fn species_part(
    registry: &Registry,
    descent: &Descent,
    species: &str,
) -> Result<Option<Part>, String> {
    let epithet = species
        .trim()
        .trim_start_matches("N. ")
        .trim_start_matches("Nepenthes ")
        .to_lowercase();
    let meant = registry
        .taxa
        .codes
        .iter()
        .find(|code| code.code.eq_ignore_ascii_case(&epithet));
    let epithet = meant.map_or(epithet.as_str(), |code| code.means);
    if let Some(at) = descent.species.iter().position(|known| known == epithet) {
        return Ok(Some(Part::Species(at as u32)));
    }
    if registry
        .taxa
        .species
        .iter()
        .any(|row| row.epithet == epithet)
    {
        return Ok(None);
    }
    let known = registry.taxa.species.iter().map(|row| row.epithet);
    let near = crate::text::nearest(epithet, known);
    let hint = if near.is_empty() {
        String::new()
    } else {
        format!("; did you mean {}?", near.join(" or "))
    };
    Err(format!("`{species}` is not in species.ron{hint}"))
}

fn descends(descent: &Descent, lineage: &Lineage, plant: PlantRow, part: Part) -> bool {
    let holds = |of: &Part| *of == part;
    descent.shares_of(lineage, plant).is_ok_and(|shares| {
        shares.iter().any(|(of, _)| match of {
            Part::OneOf(set) => descent.shares.members(*set).iter().any(holds),
            of => holds(of),
        })
    })
}

fn passes(registry: &Registry, plant: PlantRow, filter: &PlantFilter, today: Day) -> bool {
    let here = presence(registry, plant, today) == Presence::Here;
    let sex = || sex_seen(registry, plant);
    let read_lately =
        |since: Day| last_read(registry, plant).is_some_and(|when| when.last >= since);
    (!filter.alive || here)
        && (!filter.gone || !here)
        && (!filter.kept || registry.is_kept(plant))
        && (!filter.founders || registry.kind(plant) == PlantKind::Founder)
        && filter
            .cross
            .is_none_or(|cross| registry.cross_of(plant) == Some(cross))
        && filter
            .sex
            .is_none_or(|wanted| sex() == SexSeen::Certain(wanted))
        && (!filter.unsexed || !matches!(sex(), SexSeen::Certain(_)))
        && filter.unread_since.is_none_or(|since| !read_lately(since))
        && filter.place.as_deref().is_none_or(|asked| {
            here && places(registry, plant, today)
                .iter()
                .any(|of| is_in(of, asked))
        })
}

/// The conditions of a filter in words.
pub fn filter_words(registry: &Registry, filter: &PlantFilter) -> String {
    let mut words = Vec::new();
    words.extend(filter.alive.then(|| "in the collection".to_owned()));
    words.extend(
        filter
            .gone
            .then(|| "no longer in the collection".to_owned()),
    );
    words.extend(filter.kept.then(|| "kept".to_owned()));
    words.extend(filter.founders.then(|| "founders".to_owned()));
    words.extend(
        filter
            .sex
            .map(|sex| if sex == Sex::Female { "female" } else { "male" }.to_owned()),
    );
    words.extend(filter.unsexed.then(|| "unsexed".to_owned()));
    words.extend(
        filter
            .species
            .as_ref()
            .map(|species| format!("descended from {species}")),
    );
    words.extend(
        filter
            .cross
            .map(|cross| format!("of {}", registry[cross].page.code)),
    );
    words.extend(
        filter
            .unread_since
            .map(|since| format!("not read since {since}")),
    );
    words.extend(filter.place.as_ref().map(|place| format!("on {place}")));
    words.join(", ")
}

/// How surely a descent is known, in few words, and its weakest link.
type Surety = (Rc<str>, Rc<str>);

/// What siblings share, written once.
#[derive(Default)]
struct Shared {
    formulas: HashMap<OriginRow, Rc<str>>,
    /// By origin and pod.
    evidence: HashMap<(OriginRow, Option<PodRow>), Surety>,
    /// Words that stand for many plants.
    words: HashSet<Rc<str>>,
    /// Days of the sittings, in words.
    days: Vec<(When, Rc<str>)>,
}

impl Shared {
    fn of(registry: &Registry) -> Shared {
        let sittings = registry.readings.sittings().iter();
        let day = |on: &str| {
            let when = registry.when(on);
            (when, days(when).into())
        };
        Shared {
            days: sittings.map(|of| day(of.sitting.on)).collect(),
            ..Shared::default()
        }
    }

    /// Words, kept once.
    fn word(&mut self, words: &str) -> Rc<str> {
        if let Some(known) = self.words.get(words) {
            return known.clone();
        }
        let words: Rc<str> = words.into();
        self.words.insert(words.clone());
        words
    }

    /// The day on which a plant was last read.
    fn last_read(&self, registry: &Registry, plant: PlantRow) -> Option<Rc<str>> {
        let read = registry.readings.of(plant);
        let days = read.map(|reading| &self.days[reading.sitting.index()]);
        let last = days.max_by_key(|(when, _)| (when.last, when.first));
        last.map(|(_, words)| words.clone())
    }
}

fn line(context: &Context, plant: PlantRow, shared: &mut Shared) -> PlantLine {
    let (registry, names, today) = (context.registry, context.names(), context.today);
    let evidence = context.evidence();
    let unit = Unit::Plant(plant);
    let how = || {
        (
            evidence.short(unit).into(),
            evidence.weakest_short(unit).into(),
        )
    };
    // Plants of one origin and pod have the same evidence, unless a tray or a pot was muddled.
    let origin = registry
        .origin_of(plant)
        .filter(|_| registry.pods_it_may_be_of(plant).is_empty());
    let (evidence, weakest) = match origin {
        Some(origin) => {
            let key = (origin, registry.road(plant).1);
            shared.evidence.entry(key).or_insert_with(how).clone()
        }
        None => how(),
    };
    let write = || -> Rc<str> {
        let formula = names.formula(TopOf::Plant(plant), false);
        formula_only(&formula, &Writing::plain(names.vocabulary()))
            .unwrap_or_else(|long| long.to_string())
            .into()
    };
    let name = match registry.origin_of(plant) {
        None => write(),
        Some(origin) => shared.formulas.entry(origin).or_insert_with(write).clone(),
    };
    let presence = presence(registry, plant, today);
    let is_here = presence == Presence::Here;
    // Whether a plant of another grower lives is not known here, so it has no age.
    let until = match presence {
        Presence::NeverHere => None,
        _ => Some(end_of(registry, plant, today).unwrap_or(When::on(today))),
    };
    PlantLine {
        id: registry.code(plant),
        name,
        evidence,
        weakest,
        sex: shared.word(&sex_seen(registry, plant).to_string()),
        status: shared.word(&status_words(
            registry.fate(plant).filter(|_| !is_here),
            is_here,
        )),
        is_here,
        kept: registry.is_kept(plant),
        months_from_sowing: until.and_then(|until| months(provenance(registry, plant).sown, until)),
        last_read: shared.last_read(registry, plant),
        place: place(registry, plant).map(|place| shared.word(&place)),
    }
}

/// Where a plant stands: its own note, or that of its last potting.
pub fn place(registry: &Registry, plant: PlantRow) -> Option<String> {
    let own = registry
        .seedling(plant)
        .and_then(|seedling| seedling.place.as_deref());
    let potted = registry
        .pots(plant)
        .last()
        .and_then(|pot| pot.place.as_deref());
    own.or(potted).map(str::to_owned)
}

/// Plants of which a screen has rows.
const SHORT_ROWS: usize = 24;

/// Letters of a name that a row of a screen holds.
const SHORT_NAME: usize = 120;

impl PlantList {
    /// A line for each plant, as many as a screen holds: what became of it without the reason, the weakest link, and the
    /// name unless it is that of the row above.
    fn short_rows(&self) -> Table {
        let mut above: &str = "";
        Table::of(self.plants.iter().take(SHORT_ROWS))
            .text("plant", |plant| &plant.id)
            .text("sex", |plant| match plant.sex.split_once(',') {
                Some((sex, _)) => format!("{sex} (claimed)"),
                None => plant.sex.to_string(),
            })
            .text("status", |plant| {
                let status = match plant.is_here {
                    true => "here",
                    false => plant.status.split(" (").next().unwrap_or_default(),
                };
                format!("{status}{}", if plant.kept { ", to keep" } else { "" })
            })
            .figure("age", |plant| plant.months_from_sowing.map(age))
            .text("weakest link", |plant| plant.weakest.to_string())
            .text("name", |plant| {
                let same = std::mem::replace(&mut above, &plant.name) == &*plant.name;
                match same {
                    true => "as above".to_owned(),
                    false => shortened(&plant.name, SHORT_NAME),
                }
            })
            .into()
    }
}

/// A text, cut short where it has more letters than `most`.
fn shortened(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    let cut: String = text.chars().take(most - 1).collect();
    format!("{}…", cut.trim_end())
}

impl PlantList {
    /// How many there are, the next step and cautions.
    fn head(&self) -> Sheet {
        let filter = if self.filter.is_empty() {
            String::new()
        } else {
            format!(" ({})", self.filter)
        };
        let all = self.plants.len();
        let here = self.plants.iter().filter(|plant| plant.is_here).count();
        // A filter that says where they are leaves nothing to count.
        let here = match here {
            0 => ", none of them in the collection any more".to_owned(),
            here if here == all => ", all of them in the collection".to_owned(),
            here => format!(", {here} of them in the collection"),
        };
        let said = self.filter.contains("in the collection") || all == 0;
        let mut sheet = Sheet::new(format!(
            "{all} of {} on record{filter}{}",
            counted(self.of, "plant", "plants"),
            if said { "" } else { &here }
        ));
        if all > 0 {
            sheet.next = Some("podbook show CODE".to_owned());
        }
        for doubt in &self.cautions {
            sheet.caution(Weight::Doubt, doubt);
        }
        sheet
    }
}

impl Report for PlantList {
    fn sheet(&self) -> Sheet {
        let mut sheet = self.screen();
        sheet.table_if_any(
            Table::of(&self.plants)
                .text("plant", |plant| &plant.id)
                .text("sex", |plant| plant.sex.to_string())
                .text("status", |plant| plant.status.to_string())
                .text("kept", |plant| if plant.kept { "kept" } else { "" })
                .figure("age from sowing", |plant| plant.months_from_sowing.map(age))
                .text("last read", |plant| plant.last_read.as_deref())
                .text("name", |plant| plant.name.to_string())
                .text("evidence", |plant| plant.evidence.to_string()),
        );
        sheet
    }

    fn screen(&self) -> Sheet {
        let mut sheet = self.head();
        if !self.plants.is_empty() {
            sheet.brief_table(self.short_rows());
        }
        sheet
    }
}
