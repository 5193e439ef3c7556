//! The page of one plant: its name and what that rests on, its photo, where it stands, then all that is on record.

use super::door::Door;
use super::kin::{Curve, Kin, Kinsman, SeenTrait};
use super::shots::Shot;
use super::whole::Album;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::registry::Readers;
use crate::report::cell::Cell;
use crate::report::fact::Fact;
use crate::report::show::{ReadingLine, ShowReport, show};
use crate::report::table::Table;
use crate::wording::{Name, bare_age, each_once, led_by};

/// Facts that stand at the top of the page, in this order.
const FIRST: [&str; 6] = ["status", "place", "pot", "sex", "kept", "last read"];
/// Facts that have a place of their own.
const ELSEWHERE: [&str; 5] = ["evidence", "nickname", "cultivar", "parents", "photos"];

/// What the page of a plant says.
pub struct AlbumPlantPage {
    /// Code.
    pub id: String,
    /// Name in full with its basis.
    pub name: Name,
    /// Cultivar or nickname.
    pub also: Option<String>,
    /// How surely its descent is known.
    pub evidence: String,
    /// Status, place, pot, sex, age.
    pub first: Vec<(String, String)>,
    /// Photos, the latest first.
    pub shots: Vec<Shot>,
    /// The crosses it may be of, one unless it was mixed up; none for a founder.
    pub crosses: Vec<Door>,
    /// The siblings numbered before and after it.
    pub beside: (Option<Door>, Option<Door>),
    /// Traits as read last.
    pub seen: Vec<SeenTrait>,
    /// All readings as typed: a row for each trait, a column for each day.
    pub readings: Table,
    /// Its growth among its siblings.
    pub curve: Option<Curve>,
    /// Ancestors, each parent followed by its own.
    pub ancestors: Vec<Kinsman>,
    /// All that is on record; the facts told before are taken out.
    pub show: ShowReport,
}

impl AlbumPlantPage {
    pub(super) fn of(album: &Album, plant: PlantRow, kin: &Kin) -> AlbumPlantPage {
        let registry = album.registry();
        let id = registry.code(plant);
        let show = show(album.context, &id);
        let mut show = show.unwrap_or_default();
        if album.readers == Readers::Anybody {
            show.readings.retain(|reading| !reading.own_words);
        }
        let facts = std::mem::take(&mut show.facts);
        let mut first: Vec<(String, String)> = FIRST
            .iter()
            .filter_map(|label| facts.iter().find(|fact| fact.label == *label))
            .map(|fact| (fact.label.to_owned(), fact.value.clone()))
            .collect();
        let age = show
            .history
            .iter()
            .filter(|of| of.stage.starts_with("age from sowing"));
        let age: Vec<_> = age
            .map(|of| (of.stage.to_owned(), of.when.clone()))
            .collect();
        let at = first.len().min(1);
        first.splice(at..at, age);
        show.facts = facts.into_iter().filter(is_left).collect();
        let cross = registry.cross_of(plant);
        let siblings = cross.map_or(&[][..], |at| &registry[at].seedlings);
        let at = siblings.iter().position(|of| *of == plant);
        let before = at.and_then(|at| at.checked_sub(1));
        let after = at.and_then(|at| siblings.get(at + 1));
        AlbumPlantPage {
            name: album.full_name(Unit::Plant(plant)),
            also: album.also(plant),
            evidence: album.context.evidence().sentence(Unit::Plant(plant)),
            first,
            shots: album.shots(plant).to_vec(),
            crosses: crosses_of(album, plant),
            beside: (
                before.map(|at| album.door(siblings[at])),
                after.map(|of| album.door(*of)),
            ),
            seen: kin.seen(album.registry(), plant),
            curve: kin.curve(Some(plant)),
            ancestors: kin.ancestors(album, plant),
            readings: readings(&show.readings),
            show,
            id,
        }
    }
}

/// The crosses a plant may be of, its own first.
fn crosses_of(album: &Album, plant: PlantRow) -> Vec<Door> {
    let registry = album.registry();
    let pods = registry.pods_it_may_be_of(plant);
    let possible = pods.iter().map(|pod| pod.cross);
    let crosses = each_once(registry.cross_of(plant).into_iter().chain(possible)).into_iter();
    crosses.map(|cross| album.door_of_cross(cross)).collect()
}

/// A row for what was read, in the order in which it was first read; a column for each day.
fn readings(all: &[ReadingLine]) -> Table {
    let mut days: Vec<(&str, String)> = Vec::new();
    let mut rows: Vec<(&str, Vec<String>)> = Vec::new();
    for of in all {
        if days.last().is_none_or(|(day, _)| *day != of.when) {
            let age = of
                .months_from_sowing
                .map(|age| format!(", {} months", bare_age(age)));
            days.push((&of.when, age.unwrap_or_default()));
        }
        let at = rows.iter().position(|(what, _)| *what == of.of);
        let at = at.unwrap_or_else(|| {
            rows.push((&of.of, Vec::new()));
            rows.len() - 1
        });
        let cells = &mut rows[at].1;
        cells.resize(days.len(), String::new());
        let cell = &mut cells[days.len() - 1];
        let between = if cell.is_empty() { "" } else { ", " };
        let method = led_by(" ", of.method.as_deref());
        *cell += &format!("{between}{}{method}", of.value);
    }
    let headings = days.iter().map(|(day, age)| format!("{day}{age}"));
    let count = days.len();
    let rows = rows.into_iter().map(|(what, mut cells)| {
        cells.resize(count, String::new());
        let cells = cells
            .into_iter()
            .map(|cell| (!cell.is_empty()).then_some(cell));
        [Cell::from(what)]
            .into_iter()
            .chain(cells.map(Cell::from))
            .collect()
    });
    Table::plain(["read".to_owned()].into_iter().chain(headings), rows)
}

fn is_left(fact: &Fact) -> bool {
    !FIRST.contains(&fact.label) && !ELSEWHERE.contains(&fact.label)
}
