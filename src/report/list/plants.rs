//! Plants in rows, by what a grower filters them for.

use super::filter::{filter_words, unknown_species};
use super::shared::{Shared, shortened};
use crate::analysis::list::{self, PlantFilter};
use crate::context::Context;
use crate::naming::recorded::TopOf;
use crate::observation::mixed_up::tags_in_doubt;
use crate::observation::seedling_trays::SeedlingTray;
use crate::observation::sex::SexSeen;
use crate::observation::standing::{EVERY_PIECE_GONE, fate_and_day, not_found_words, status_words};
use crate::record::SeenBy;
use crate::report::caution::Weight;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::Table;
use crate::wording::{FIRST_PLANT, age, bare_age, counted, from_to, in_brackets, led_by};
use serde::Serialize;
use std::rc::Rc;

/// A list of plants.
#[derive(Serialize)]
pub struct PlantList {
    /// Rows in the order of the registry, founders first.
    pub plants: Vec<PlantLine>,
    /// How many plants were looked at.
    pub of: usize,
    /// Sowings and community pots that stand at the place asked for.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub trays: Vec<TrayLine>,
    /// Species whose names are in doubt and tags that were mixed up, one line each.
    pub cautions: Vec<String>,
    /// What the list is of, in words.
    #[serde(skip)]
    filter: String,
    /// How many of them are in the collection.
    #[serde(skip)]
    here: usize,
    /// How many of those the last stock-take that looked for them did not find.
    #[serde(skip)]
    not_found: usize,
    /// Whether the filter says where they are.
    #[serde(skip)]
    says_where: bool,
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
    weakest: Rc<str>,
    /// Sex as seen, in words.
    pub sex: Rc<str>,
    /// The same in a word or two.
    #[serde(skip)]
    short_sex: Rc<str>,
    /// `in the collection`, or what became of it.
    pub status: Rc<str>,
    /// The same without a reason.
    #[serde(skip)]
    short_status: Rc<str>,
    /// Whether it is in the collection.
    #[serde(skip)]
    is_here: bool,
    /// Whether it is marked to keep.
    pub kept: bool,
    /// The registry that told of a plant marked to keep which is not here: the mark is that grower's.
    pub kept_told_by: Option<Rc<str>>,
    /// Age from sowing in months, least and greatest; today, or when it died or left.
    pub months_from_sowing: Option<(f64, f64)>,
    /// When it was last read.
    pub last_read: Option<Rc<str>>,
    /// Where it stands.
    pub place: Option<Rc<str>>,
}

/// A sowing or a community pot.
#[derive(Serialize)]
pub struct TrayLine {
    /// Code.
    pub id: String,
    /// `sowing` or `community pot`.
    pub what: &'static str,
    /// Seedlings in it, least and most; `null` where they were not counted.
    pub seedlings: Option<(u32, u32)>,
    /// Where it stands.
    pub place: Option<String>,
}

impl TrayLine {
    fn seedlings_words(&self) -> String {
        match self.seedlings {
            None => "not counted".to_owned(),
            Some((0, most @ 1..)) => format!("up to {most}"),
            Some((least, most)) => from_to(least, most, "–"),
        }
    }
}

/// Lists plants.
///
/// # Errors
/// In words, when the species is not in the registry.
pub fn plants(context: &Context, filter: &PlantFilter) -> Result<PlantList, String> {
    let answer = list::plants(context, filter).map_err(unknown_species)?;
    let tops = answer.plants.iter().map(|of| TopOf::Plant(of.plant));
    let mut cautions = context.names().doubts(tops);
    let listed = answer.plants.iter().map(|of| of.plant);
    cautions.extend(tags_in_doubt(context.registry, listed));
    let mut shared = Shared::default();
    let rows = answer.plants.iter();
    Ok(PlantList {
        plants: rows.map(|of| line(context, of, &mut shared)).collect(),
        of: answer.of,
        trays: (answer.trays.iter()).map(|of| tray(context, of)).collect(),
        cautions,
        filter: filter_words(context.registry, filter),
        here: answer.here,
        not_found: (answer.plants.iter().filter(|of| of.not_found.is_some())).count(),
        says_where: filter.says_where(),
    })
}

fn tray(context: &Context, of: &list::TrayLine) -> TrayLine {
    TrayLine {
        id: of.tray.code(context.registry),
        what: match of.tray {
            SeedlingTray::Sowing(_) => "sowing",
            SeedlingTray::Pot(_) => "community pot",
        },
        seedlings: of.seedlings,
        place: of.place.map(str::to_owned),
    }
}

fn line(context: &Context, of: &list::PlantLine, shared: &mut Shared) -> PlantLine {
    let (evidence, weakest) = shared.evidence(context, of);
    // What a grower marks on a plant that stands here is that grower's own mark.
    let told = context.registry.told_by(of.plant);
    let told = told.filter(|_| of.kept && !of.is_here);
    PlantLine {
        id: context.registry.code(of.plant),
        name: shared.name(context, of),
        evidence,
        weakest,
        sex: shared.word(&of.sex.to_string()),
        short_sex: shared.word(&short_sex(of.sex)),
        status: shared.word(&match of.not_found {
            Some(on) => not_found_words(on),
            None => status_words(of.fate, of.is_here),
        }),
        short_status: shared.word(&match (of.fate, of.is_here) {
            (_, true) => of.not_found.map_or("here".to_owned(), not_found_words),
            (Some(fate), false) => fate_and_day(fate),
            (None, false) => EVERY_PIECE_GONE.to_owned(),
        }),
        is_here: of.is_here,
        kept: of.kept,
        kept_told_by: told.map(|told| shared.word(told.registry)),
        months_from_sowing: of.months_from_sowing,
        last_read: of.last_read.map(|when| shared.days(when)),
        place: of.place.map(|place| shared.word(place)),
    }
}

/// A sex and how it is known, in as few words as a column of a screen takes.
fn short_sex(seen: SexSeen) -> String {
    match seen {
        SexSeen::Guess(sex, SeenBy::Supplier) => format!("{sex} (claimed)"),
        SexSeen::Guess(sex, SeenBy::Unsaid) => format!("{sex} (not recorded how)"),
        SexSeen::MixedUp => "female or male".to_owned(),
        other => other.to_string(),
    }
}

impl PlantLine {
    /// The mark to keep, and whose it is where it came with another grower's record.
    fn kept_words(&self, kept: &str) -> Option<String> {
        let words = match &self.kept_told_by {
            Some(registry) => format!("{kept} (told by {registry})"),
            None => kept.to_owned(),
        };
        self.kept.then_some(words)
    }
}

/// Plants of which a screen has rows.
const SHORT_ROWS: usize = 24;

/// Letters of a name that a row of a screen holds.
const SHORT_NAME: usize = 72;

impl PlantList {
    /// A line for each plant, as many as a screen holds: what became of it without the reason, the weakest link, and the
    /// name unless it is that of the row above.
    fn short_rows(&self) -> Table {
        let mut above: &str = "";
        Table::of(self.plants.iter().take(SHORT_ROWS))
            .text("plant", |plant| &plant.id)
            .text("sex", |plant| plant.short_sex.to_string())
            .text("status", |plant| {
                let counts = plant.is_here || plant.kept_told_by.is_some();
                let kept = plant.kept_words("to keep").filter(|_| counts);
                let kept = led_by(", ", kept);
                format!("{}{kept}", plant.short_status)
            })
            .figure("months old", |plant| plant.months_from_sowing.map(bare_age))
            .text("weakest link", |plant| plant.weakest.to_string())
            .text("name", |plant| {
                let same = std::mem::replace(&mut above, &plant.name) == &*plant.name;
                match same {
                    true => "as above".to_owned(),
                    false => shortened(&plant.name, SHORT_NAME),
                }
            })
            .more(self.plants.len().saturating_sub(SHORT_ROWS))
            .into()
    }

    /// How many there are, the next step and cautions.
    fn head(&self) -> Sheet {
        let filter = in_brackets(Some(&self.filter).filter(|of| !of.is_empty()));
        let all = self.plants.len();
        // A filter that says where they are leaves nothing to count.
        let here = match self.here {
            0 if all == 1 => ", not in the collection any more".to_owned(),
            1 if all == 1 => ", in the collection".to_owned(),
            0 => ", none of them in the collection any more".to_owned(),
            here if here == all => ", all of them in the collection".to_owned(),
            here => format!(", {here} of them in the collection"),
        };
        let not_found = match self.not_found {
            0 => String::new(),
            n => format!("; a stock-take did not find {n} of them"),
        };
        let said = self.says_where || all == 0;
        let mut sheet = Sheet::new(format!(
            "{all} of {} on record{filter}{}{}",
            counted(self.of, "plant", "plants"),
            [if said { "" } else { &here }, &not_found].concat(),
            match self.trays.len() {
                0 => String::new(),
                trays => format!("; {} there too", counted(trays, "tray", "trays")),
            }
        ));
        sheet.next = match (all, self.of) {
            (0, 0) => Some(FIRST_PLANT.to_owned()),
            (0, _) => None,
            _ => Some("podbook show CODE".to_owned()),
        };
        sheet.cautions(Weight::Doubt, &self.cautions);
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
                .text("kept", |plant| plant.kept_words("kept"))
                .figure("age from sowing", |plant| plant.months_from_sowing.map(age))
                .text("last read", |plant| plant.last_read.as_deref())
                .text("name", |plant| plant.name.to_string())
                .text("evidence", |plant| plant.evidence.to_string()),
        );
        sheet.table_if_any(self.trays_table(self.trays.len()));
        sheet
    }

    fn screen(&self) -> Sheet {
        let mut sheet = self.head();
        if !self.plants.is_empty() {
            sheet.brief_table(self.short_rows());
        }
        sheet.brief_table_if_any(self.trays_table(SHORT_TRAYS));
        sheet
    }
}

impl PlantList {
    /// Sowings and community pots, so many.
    fn trays_table(&self, rows: usize) -> Table {
        Table::of(self.trays.iter().take(rows))
            .text("tray", |tray| &tray.id)
            .text("what", |tray| tray.what)
            .figure("seedlings", |tray| tray.seedlings_words())
            .text("place", |tray| tray.place.as_deref())
            .more(self.trays.len().saturating_sub(rows))
            .into()
    }
}

/// Trays of which a screen has rows.
const SHORT_TRAYS: usize = 8;
