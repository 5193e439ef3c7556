//! The page of one cross: what came of it, and its seedlings side by side.

use super::further::{FurtherPage, LISTED, Pager, SpeciesCrossRow};
use super::kin::{Curve, Kin, Kinsman, kinsmen};
use super::shots::Shot;
use super::whole::Album;
use crate::analysis::album::{SeedlingHere, TraitRead, here_first};
use crate::analysis::siblings::{SiblingsReport, SiblingsWish, siblings};
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::observation::sex::SexSeen;
use crate::observation::standing::status_words;
use crate::observation::trait_unit::TraitUnit;
use crate::observation::who_it_may_be::is_mixed_up;
use crate::registry::CrossRow;
use crate::report::show::{ShowReport, show};
use crate::wording::{Name, days};
use std::collections::HashMap;

/// Seedlings that have a card of their own; the others are listed by number.
const CARDS: usize = 150;

/// Seedlings without a card that are listed on the same page.
const FIRST: usize = 100;

/// A trait by which seedlings are put in order, as read on one day.
#[derive(Clone, Debug)]
pub struct Ordering {
    /// The trait with its unit.
    pub name: String,
    /// On which day, and whether all were of one age.
    pub when: String,
}

/// One seedling among its siblings.
pub struct SiblingCard {
    /// Code.
    pub id: String,
    /// Its page.
    pub path: String,
    /// Its latest photo.
    pub shot: Option<Shot>,
    /// Whether it is here.
    pub is_here: bool,
    /// What became of it, that it is kept or mixed up; empty for one that is simply here.
    pub status: String,
    /// `♀`, `♂`, or nothing, by open flowers.
    pub sex: &'static str,
    /// By trait: what was read, and the number to order it by.
    pub values: Vec<Option<(String, f64)>>,
}

/// What the page of a cross says.
pub struct AlbumCrossPage {
    /// Code.
    pub id: String,
    /// Name of its seedlings.
    pub name: Name,
    /// How surely their descent is known.
    pub evidence: String,
    /// How the siblings differ; none where they cannot be compared.
    pub siblings: Option<SiblingsReport>,
    /// From seed to what is kept: a label, and the count where there is one.
    pub counts: Vec<(&'static str, Option<u64>)>,
    /// Ancestors of its seedlings.
    pub ancestors: Vec<Kinsman>,
    /// Traits to order by.
    pub orderings: Vec<Ordering>,
    /// Seedlings with a card: those that are here first, then by number.
    pub cards: Vec<SiblingCard>,
    /// Of the other seedlings those that fit on the page: code and page.
    pub rest: Vec<(String, String)>,
    /// The pages of the list of the others.
    pub pager: Pager,
    /// How they grew.
    pub curve: Option<Curve>,
    /// All else that is on record.
    pub show: ShowReport,
}

/// How a count is called, and how where parts of it were not counted.
fn label(whole: &'static str, minimum: &'static str, is_minimum: bool) -> &'static str {
    if is_minimum { minimum } else { whole }
}

/// Facts that have a place of their own.
const ELSEWHERE: [&str; 3] = ["evidence", "parents", "counts"];

impl AlbumCrossPage {
    pub(super) fn of(album: &Album, at: CrossRow, kin: &Kin) -> AlbumCrossPage {
        let registry = album.registry();
        let cross = &registry[at];
        let id = cross.page.code.to_owned();
        let show = show(album.context, &id);
        let mut show = show.unwrap_or_default();
        show.facts.retain(|fact| !ELSEWHERE.contains(&fact.label));
        let line = &album.crosses.crosses[at.index()];
        let of_another = cross.seedlings.iter();
        let of_another = of_another.filter(|plant| !registry.pods_it_may_be_of(**plant).is_empty());
        let of_another = of_another.count() as u64;
        let mut counts = vec![
            (
                label("seeds sown", "seeds sown, at least", line.sown_is_minimum),
                line.sown.map(u64::from),
            ),
            (
                label("came up", "came up, at least", line.germinated_is_minimum),
                line.germinated.map(u64::from),
            ),
            ("numbered", Some(line.numbered as u64)),
            ("here", Some(line.here as u64)),
            ("kept", Some(line.kept as u64)),
        ];
        if of_another > 0 {
            counts.insert(3, ("perhaps of another pod", Some(of_another)));
        }
        let wish = SiblingsWish::default();
        let compared = siblings(album.context, &id, &wish);
        let read: Vec<Read> = kin.readings.traits.iter().filter_map(Read::of).collect();
        let plants = here_first(album.context, at);
        let with_card = plants.len().min(CARDS);
        let cards = plants[..with_card].iter();
        let cards = cards.map(|&seedling| card(album, seedling, &read));
        let rest = plants[with_card..].iter().take(FIRST);
        AlbumCrossPage {
            name: album.full_name(Unit::Cross(at)),
            evidence: album.context.evidence().sentence(Unit::Cross(at)),
            siblings: compared.ok().filter(|of| !of.traits.is_empty()),
            counts,
            ancestors: kinsmen(album, Unit::Cross(at)),
            orderings: read.iter().map(|of| of.ordering.clone()).collect(),
            cards: cards.collect(),
            rest: rest
                .map(|of| {
                    let path = album.files.plant(of.plant).to_owned();
                    (registry.code(of.plant), path)
                })
                .collect(),
            pager: Pager::of(album.files.cross(at), pages_of(album, at), 0),
            curve: kin.curve(None),
            show,
            id,
        }
    }
}

/// Pages that the seedlings of a cross need.
pub(super) fn pages_of(album: &Album, at: CrossRow) -> usize {
    let others = album.registry()[at].seedlings.len();
    1 + others.saturating_sub(CARDS + FIRST).div_ceil(LISTED)
}

/// A further page of the seedlings of a cross, counted from 0.
pub(super) fn further(album: &Album, cross: CrossRow, at: usize) -> FurtherPage {
    let door = album.door_of_cross(cross);
    let plants = here_first(album.context, cross).into_iter();
    let plants = plants.map(|of| of.plant);
    let listed = plants.skip(CARDS + FIRST + (at - 1) * LISTED).take(LISTED);
    FurtherPage {
        part: "Crosses",
        heading: "More seedlings".to_owned(),
        crosses: vec![SpeciesCrossRow {
            door: door.clone(),
            name: album.short_name(Unit::Cross(cross)),
            share: String::new(),
            seedlings: listed.map(|plant| album.numbered(plant)).collect(),
        }],
        pager: Pager::of(&door.path, pages_of(album, cross), at),
        of: door,
    }
}

/// A trait in the last sitting that has it.
struct Read {
    ordering: Ordering,
    values: HashMap<PlantRow, (String, f64)>,
}

impl Read {
    fn of(of: &TraitRead) -> Option<Read> {
        let last = of.last_sitting()?;
        let differ = match last.alike {
            true => "",
            false => "; ages or kinds of pitcher differ",
        };
        let value = |value: f64| (short_words(&of.unit, value), of.unit.shown(value));
        let values = last.values.iter();
        Some(Read {
            ordering: Ordering {
                name: of.unit.name.clone(),
                when: format!("{}{differ}", days(last.when)),
            },
            values: values.map(|&(plant, of)| (plant, value(of))).collect(),
        })
    }
}

/// A value in the room of a card: a step without its anchor.
fn short_words(unit: &TraitUnit, value: f64) -> String {
    let words = unit.words(unit.shown(value));
    match unit.steps() {
        Some(steps) => format!("{words} of {steps}"),
        None => words,
    }
}

fn card(album: &Album, of: SeedlingHere, read: &[Read]) -> SiblingCard {
    let SeedlingHere {
        plant,
        is_here,
        sex,
    } = of;
    let registry = album.registry();
    let status = match is_here {
        true => registry.is_kept(plant).then(|| "to keep".to_owned()),
        false => Some(status_words(registry.fate(plant), false)),
    };
    let mixed_up = is_mixed_up(registry, plant).then(|| "mixed up".to_owned());
    let status: Vec<String> = status.into_iter().chain(mixed_up).collect();
    SiblingCard {
        id: registry.code(plant),
        path: album.files.plant(plant).to_owned(),
        shot: album.shots(plant).first().cloned(),
        is_here,
        status: status.join(", "),
        sex: match sex {
            SexSeen::Certain(sex) => sex.mark(),
            _ => "",
        },
        values: read
            .iter()
            .map(|of| of.values.get(&plant).cloned())
            .collect(),
    }
}
