//! What is on record of one plant, line by line: spikes, rooted pieces, readings, offspring.

use super::answer::{FloweringLine, OffspringLine, RametLine, ReadingLine};
use super::screen::Screen;
use crate::lineage::{Link, PlantRow};
use crate::naming::recorded::TopOf;
use crate::observation::cell::{Misread, value};
use crate::observation::months::months;
use crate::observation::presence::is_over;
use crate::observation::provenance::provenance;
use crate::observation::standing::status_words;
use crate::observation::{pitcher_named, says_pest};
use crate::record::{SeenBy, Sex, When};
use crate::registry::{Column, Registry};
use crate::wording::days;

impl Screen<'_, '_, '_> {
    pub fn flowerings(&self, plant: PlantRow) -> Vec<FloweringLine> {
        let line = |flowering: &crate::record::Flowering| FloweringLine {
            when: match (flowering.opened, flowering.spike) {
                (Some(opened), _) => format!("opened {}", self.typed(opened)),
                (None, Some(spike)) => format!("spike seen {}", self.typed(spike)),
                (None, None) => "date not recorded".to_owned(),
            },
            sex: match flowering.sex {
                Some(Sex::Female) => "female",
                Some(Sex::Male) => "male",
                None => "not seen",
            }
            .to_owned(),
            seen_by: match flowering.seen_by {
                SeenBy::Flowers if flowering.sex.is_none() => "",
                SeenBy::Flowers if flowering.opened.or(flowering.over).is_none() => "not recorded",
                SeenBy::Flowers => "open flowers",
                SeenBy::Buds => "buds: a guess",
                SeenBy::LeafTest => "leaf test",
                SeenBy::Supplier => "claimed by the supplier",
                SeenBy::Unsaid => "not recorded: a guess",
            },
            ramet: flowering.ramet.map(str::to_owned),
        };
        self.registry.flowerings(plant).iter().map(line).collect()
    }

    pub fn ramets(&self, plant: PlantRow) -> Vec<RametLine> {
        use crate::record::Made;
        let code = self.registry.code(plant);
        // The end of a plant is that of each piece without one of its own.
        let whole = self.registry.fate(plant);
        let whole = whole.filter(|fate| is_over(self.registry, fate, self.context.today));
        let line = |ramet: &crate::record::Ramet| {
            let made = match ramet.made {
                Some(Made::Original) | None => "the plant itself",
                Some(Made::Cutting) => "cutting",
                Some(Made::Division) => "division",
                Some(Made::Basal) => "basal shoot",
                Some(Made::LabCopy) => "laboratory copy",
            };
            let from = ramet
                .from
                .map(|from| format!(" of {code}-{from}"))
                .unwrap_or_default();
            let cut = ramet
                .cut
                .map(|cut| format!(", cut {}", self.typed(cut)))
                .unwrap_or_default();
            let rooted = ramet
                .rooted
                .map(|on| format!(", rooted {}", self.typed(on)))
                .unwrap_or_default();
            RametLine {
                id: format!("{code}-{}", ramet.code),
                made: format!("{made}{from}{cut}{rooted}"),
                status: status_words(ramet.fate.as_ref().or(whole), true),
                place: ramet.place.as_deref().map(str::to_owned),
            }
        };
        self.registry.ramets(plant).iter().map(line).collect()
    }

    pub fn readings(&self, plant: PlantRow) -> Vec<ReadingLine> {
        let registry = self.registry;
        let sown = provenance(registry, plant).sown;
        let mut lines: Vec<(When, ReadingLine)> = registry
            .readings
            .of(plant)
            .map(|reading| {
                let head = &registry[reading.sitting];
                let when = registry.when(head.sitting.on);
                let cell = registry.cell(reading);
                let own_words =
                    own_words(registry, head.columns[usize::from(reading.column)], cell);
                let (of, value) = match head.columns[usize::from(reading.column)] {
                    Column::Trait { index, unit } => {
                        let of = registry[index].name.to_string();
                        let bare = cell
                            .trim()
                            .bytes()
                            .all(|byte| byte.is_ascii_digit() || byte == b'.');
                        let unit = if bare { unit_words(unit) } else { "" };
                        (of, format!("{cell}{unit}"))
                    }
                    Column::Pest => ("pest".to_owned(), cell.to_owned()),
                    Column::Pitcher => ("pitcher".to_owned(), cell.to_owned()),
                    Column::Note | Column::Unknown => ("note".to_owned(), cell.to_owned()),
                };
                (
                    when,
                    ReadingLine {
                        when: days(when),
                        months_from_sowing: months(sown, when),
                        of,
                        value,
                        own_words,
                    },
                )
            })
            .collect();
        lines.sort_by_key(|(when, _)| *when);
        lines.into_iter().map(|(_, line)| line).collect()
    }

    pub fn offspring(&self, plant: PlantRow) -> Vec<OffspringLine> {
        let of = self.context.lineage().offspring_of(plant);
        let crosses = of.iter().filter_map(|(origin, link)| {
            let mut crosses = self.registry.all_crosses();
            let (at, cross) = crosses.find(|(_, cross)| cross.origin == *origin)?;
            let pairs = &self.registry[*origin].pairs;
            let side = match link {
                Link::Pollen => "pollen parent",
                _ => "seed parent",
            };
            let sure = pairs.iter().all(|pair| match link {
                Link::Pollen => pair.pollen == Some(plant),
                _ => pair.seed == Some(plant),
            });
            Some(OffspringLine {
                id: cross.page.code.to_owned(),
                as_parent: if sure {
                    side.to_owned()
                } else {
                    format!("one of the possible {side}s")
                },
                name: self.short(TopOf::Cross(at)),
                numbered: cross.seedlings.len(),
            })
        });
        crosses.collect()
    }
}

fn unit_words(unit: Option<crate::record::LengthUnit>) -> &'static str {
    use crate::record::LengthUnit;
    match unit {
        Some(LengthUnit::Mm) => " mm",
        Some(LengthUnit::Cm) => " cm",
        Some(LengthUnit::M) => " m",
        Some(LengthUnit::In) => " in",
        None => "",
    }
}

/// Whether a cell holds something else than its column is for.
fn own_words(registry: &Registry, column: Column, cell: &str) -> bool {
    match column {
        Column::Trait { index, unit } => {
            let declared = &registry[index];
            let read = value(declared, cell, unit);
            !matches!(read, Ok(_) | Err(Misread::UnitUnknown))
        }
        Column::Pest => says_pest(cell) && !cell.trim().eq_ignore_ascii_case("yes"),
        Column::Pitcher => pitcher_named(cell).is_none(),
        Column::Note | Column::Unknown => true,
    }
}
