//! What is on record of one plant, line by line: spikes, rooted pieces, readings, offspring.

use super::answer::{FloweringLine, OffspringLine, RametLine, ReadingLine};
use super::screen::{Screen, handed_on};
use crate::analysis::show::{Offspring, ReadingSeen, Side};
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::observation::cell::with_unit;
use crate::observation::parent_of::set_nothing;
use crate::observation::places::is_original;
use crate::observation::pottings::latest_pot;
use crate::observation::standing::status_words;
use crate::record::{Fate, Flowering, Ramet, SeenBy, Sex};
use crate::registry::Column;
use crate::report::plants::{copy_word, pot_words, typed};
use crate::wording::{days, joined, led_by};

impl Screen<'_, '_, '_> {
    pub fn flowerings(&self, plant: PlantRow) -> Vec<FloweringLine> {
        let line = |flowering: &Flowering| FloweringLine {
            when: match (flowering.opened, flowering.spike) {
                (Some(opened), _) => format!("opened {}", typed(self.registry, opened)),
                (None, Some(spike)) => format!("spike seen {}", typed(self.registry, spike)),
                (None, None) => "date not recorded".to_owned(),
            },
            sex: flowering.sex.map_or("not seen", Sex::word).to_owned(),
            seen_by: match flowering.seen_by {
                SeenBy::Flowers if flowering.sex.is_none() => "",
                SeenBy::Flowers if flowering.opened.or(flowering.over).is_none() => "not recorded",
                SeenBy::Flowers => "open flowers",
                SeenBy::Buds => "buds: a guess",
                SeenBy::LeafTest => "leaf test",
                SeenBy::Supplier => "claimed by the supplier",
                SeenBy::Unsaid => "not recorded: a guess",
            },
            spike: flowering.code.map(str::to_owned),
            over: flowering.over.map(str::to_owned),
            ramet: flowering.ramet.map(str::to_owned),
            note: flowering.note.as_deref().map(|note| note.to_string()),
        };
        self.registry.flowerings(plant).iter().map(line).collect()
    }

    /// Rooted pieces; the end of the whole plant is that of each piece without one of its own.
    pub fn ramets(&self, plant: PlantRow, whole: Option<&Fate>) -> Vec<RametLine> {
        let code = self.registry.code(plant);
        let line = |ramet: &Ramet| {
            let made = copy_word(ramet.made).unwrap_or("the plant itself");
            let from = led_by(&format!(" of {code}-"), ramet.from);
            let on = |on: Option<&str>| on.map(|on| typed(self.registry, on));
            let cut = led_by(", cut ", on(ramet.cut));
            let rooted = led_by(", rooted ", on(ramet.rooted));
            RametLine {
                id: format!("{code}-{}", ramet.code),
                made: format!("{made}{from}{cut}{rooted}"),
                status: status_words(ramet.fate.as_ref().or(whole), true),
                place: ramet.place.as_deref().map(str::to_owned),
                pot: (!is_original(ramet))
                    .then(|| latest_pot(self.registry, plant, Some(ramet)))
                    .flatten()
                    .map(|pot| pot_words(self.registry, pot)),
                handed_on: handed_on(ramet.fate.as_ref()),
            }
        };
        self.registry.ramets(plant).iter().map(line).collect()
    }

    /// What is asked for by the code of a piece: `Ven1-c: cutting of Ven1-b; given away 2017-10-06`.
    pub fn piece_words(&self, line: &RametLine) -> String {
        let place = line.place.as_ref().map(|place| format!("place {place}"));
        let pot = line.pot.as_ref().map(|pot| format!("pot {pot}"));
        let status = Some(line.status.clone());
        let told = [status, line.handed_on.clone(), place, pot];
        let told = told.into_iter().flatten();
        format!("{}: {}; {}", line.id, line.made, joined(told, "; "))
    }

    pub fn reading(&self, seen: &ReadingSeen) -> ReadingLine {
        let cell = seen.cell;
        let (of, value) = match seen.column {
            Column::Trait { index, unit } => {
                let name = self.registry[index].name.to_string();
                (name, with_unit(cell, unit))
            }
            Column::Pest => ("pest".to_owned(), cell.to_owned()),
            Column::Pitcher => ("pitcher".to_owned(), cell.to_owned()),
            Column::Note | Column::Unknown => ("note".to_owned(), cell.to_owned()),
        };
        ReadingLine {
            when: days(seen.when),
            months_from_sowing: seen.months_from_sowing,
            of,
            value,
            doubtful: seen.is_doubtful,
            own_words: seen.own_words,
            method: seen.method.map(str::to_owned),
        }
    }

    pub fn offspring(&self, of: &Offspring) -> OffspringLine {
        let cross = &self.registry[of.cross];
        let side = match of.side {
            Side::Pollen => "pollen parent",
            Side::Seed => "seed parent",
        };
        OffspringLine {
            id: cross.page.code.to_owned(),
            as_parent: match (of.sure, set_nothing(cross)) {
                (true, false) => side.to_owned(),
                (false, false) => format!("one of the possible {side}s"),
                (true, true) => format!("{side}, no pod set"),
                (false, true) => format!("one of the possible {side}s, no pod set"),
            },
            name: self.short(TopOf::Cross(of.cross)),
            numbered: cross.seedlings.len(),
        }
    }
}
