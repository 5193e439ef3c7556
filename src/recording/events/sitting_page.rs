//! The sitting on a page that further rows belong to, and where it stands there.

use crate::observation::asked_columns::AskedColumn;
use crate::observation::pitcher_named;
use crate::recording::dates::Dated;
use crate::registry::{Column, PlantRow, Registry, SittingHead, SittingRow};
use crate::text::Outline;

/// What holds for all rows of a sitting, as given with the command.
#[derive(Clone, Debug, Default)]
pub struct Circumstances {
    /// When; today if not given.
    pub on: Option<String>,
    /// Where the plants stand.
    pub place: Option<String>,
    /// How they are read.
    pub method: Option<String>,
    /// Who reads; "me" or a role.
    pub by: Option<String>,
    /// The lamp.
    pub light: Option<String>,
    /// Which pitchers are read: a word of the files, such as `lower`.
    pub pitcher: Option<&'static str>,
}

/// A sitting on record.
#[derive(Clone, Debug)]
pub struct OnPage {
    /// Its row among all sittings.
    pub sitting: SittingRow,
    /// Its place among those of its page.
    pub place: usize,
    /// The plants that have a row in it.
    pub plants: Vec<PlantRow>,
    /// Its columns.
    pub columns: Vec<Column>,
}

impl OnPage {
    /// What a plant's row holds in a column, as typed.
    pub fn cell<'r>(
        &self,
        registry: &'r Registry,
        plant: PlantRow,
        column: Column,
    ) -> Option<&'r str> {
        let mut readings = registry.readings.of(plant);
        let found = readings.find(|reading| {
            let at = self.columns.get(usize::from(reading.column));
            reading.sitting == self.sitting && at == Some(&column)
        });
        found.map(|reading| registry.cell(reading))
    }
}

/// The last sitting, on the page of a plant, of a day that has the columns asked for and nothing that contradicts the
/// circumstances given; what is not given may be anything.
pub fn sitting_of(
    registry: &Registry,
    plant: PlantRow,
    columns: &[AskedColumn],
    (on, given): (&Dated, &Circumstances),
) -> Option<OnPage> {
    let cross = registry.cross_of(plant);
    let file = cross.map_or(registry.clones_file, |cross| Some(registry[cross].file))?;
    let mut of_page = registry
        .all_sittings()
        .filter(|(_, head)| head.file == file);
    let fits = |head: &SittingHead| {
        let of = &head.sitting;
        let same = |given: &Option<String>, there: Option<&str>| {
            given
                .as_deref()
                .is_none_or(|given| there == Some(given.trim()))
        };
        registry.when(of.on) == on.when
            && same(&given.place, of.place.as_deref())
            && same(&given.method, of.method.as_deref())
            && same(&given.by, of.by.as_deref())
            && same(&given.light, of.light.as_deref())
            && given
                .pitcher
                .is_none_or(|word| of.pitcher == pitcher_named(word))
            && has_columns(head, columns)
    };
    let (at, head) = of_page.rfind(|(_, head)| fits(head))?;
    Some(OnPage {
        sitting: at,
        place: place_on_page(registry, head)?,
        plants: head.row_plants().collect(),
        columns: head.columns.clone(),
    })
}

/// How a row names its plant: a seedling by its number on its own page, a founder by its code.
pub(super) fn first_cell(registry: &Registry, plant: PlantRow) -> String {
    match registry.number(plant) {
        Some(number) => number.to_owned(),
        None => registry.code(plant),
    }
}

/// Whether a sitting has every column asked for; one for notes can be added.
fn has_columns(head: &SittingHead, columns: &[AskedColumn]) -> bool {
    let wanted = columns.iter().map(|asked| asked.column);
    wanted
        .filter(|column| *column != Column::Note)
        .all(|column| head.columns.contains(&column))
}

/// Where a sitting stands among those that are read of its page: found by the place of its date.
fn place_on_page(registry: &Registry, head: &SittingHead) -> Option<usize> {
    let at = registry.sources.span_of(head.file, head.sitting.on)?.start;
    let outline = Outline::of(registry.sources.get(head.file).kept());
    let list = outline.follow(outline.root()?, "sittings")?;
    let mut sittings = outline.children(list);
    sittings.position(|part| {
        let place = outline.part(part).whole();
        (place.start..place.end).contains(&at)
    })
}
