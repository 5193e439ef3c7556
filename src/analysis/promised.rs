//! What was said of plants when they were sold or given away, and what would be said of them now.

use crate::context::Context;
use crate::evidence::{Evidence, Unit, in_todays_words};
use crate::naming::recorded::TopOf;
use crate::observation::left_by_itself::fate_of_its_own;
use crate::record::Fate;
use crate::registry::{PlantKind, PlantOrRamet, PlantRow};
use crate::text::one_line;

/// A plant that left with a text that would read differently now.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Changed {
    /// The plant, or the piece of it that left.
    pub of: PlantOrRamet,
    /// When it left, as written.
    pub on: String,
    /// What was said.
    pub was: String,
    /// What would be said now.
    pub now: String,
}

/// What became of the texts that went along.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Promised {
    /// Those that would read differently, in the order of the plants.
    pub changed: Vec<Changed>,
    /// Texts that still hold.
    pub unchanged: Vec<PlantOrRamet>,
    /// Plants and pieces that left without a text on record.
    pub without: Vec<PlantOrRamet>,
}

impl Promised {
    /// Leaves only some plants; a plant stands for its pieces too.
    pub fn only(&mut self, asked: &[PlantOrRamet]) {
        let is_asked = |of: &PlantOrRamet| asked.iter().any(|asked| asked.covers(*of));
        self.changed.retain(|changed| is_asked(&changed.of));
        self.unchanged.retain(is_asked);
        self.without.retain(is_asked);
    }
}

/// The name of a plant in full, how surely its descent is known and which of its names are in doubt: what is said of it
/// when it leaves.
pub fn statement(evidence: &Evidence, plant: PlantRow) -> String {
    let names = evidence.names();
    let name = names.in_full(TopOf::Plant(plant));
    let name = name.unwrap_or_else(|_| "name not known".to_owned());
    let epithet = evidence.registry().cultivar(plant);
    let epithet = epithet.map(|of| format!("'{}'", &*of.epithet));
    let also = epithet.filter(|epithet| !name.contains(epithet.as_str()));
    let also = also.map_or_else(String::new, |epithet| format!(", also {epithet}"));
    let known = format!("{name}{also}; {}", evidence.sentence(Unit::Plant(plant)));
    let doubts = names.doubts([TopOf::Plant(plant)]);
    [vec![known], doubts].concat().join("; ")
}

/// Compares what was said with what would be said now.
pub fn promised(context: &Context) -> Promised {
    let evidence = context.evidence();
    let registry = evidence.registry();
    let mut found = Promised::default();
    let plants = registry
        .plants()
        .filter(|plant| registry.kind(*plant) != PlantKind::Unseen);
    for plant in plants {
        let is_told = registry.told_by(plant).is_some();
        let whole = registry.fate(plant);
        let whole = whole.map(|fate| (PlantOrRamet::whole(plant), fate));
        let pieces = registry.each_ramet(plant);
        let pieces =
            pieces.filter_map(|(of, ramet)| Some((of, fate_of_its_own(registry, plant, ramet)?)));
        for (of, fate) in whole.into_iter().chain(pieces) {
            let (Fate::Sold { on, said, .. } | Fate::Given { on, said, .. }) = fate else {
                continue;
            };
            if fate
                .handed_on()
                .is_some_and(|with| !with.left_here(is_told))
            {
                continue;
            }
            let Some(was) = said else {
                found.without.push(of);
                continue;
            };
            let now = statement(evidence, plant);
            match one_line(&in_todays_words(was)) == one_line(&now) {
                true => found.unchanged.push(of),
                false => found.changed.push(Changed {
                    of,
                    on: (*on).to_owned(),
                    was: was.to_string(),
                    now,
                }),
            }
        }
    }
    found
}
