//! What `registry.ron` settles, with its defaults.

use crate::record::{
    FreeText, Hemisphere, Intervals, PlantPlace, PotStep, RegistryPage, ShelfSpace, ShownUnit,
    Trait, Treatment,
};

/// The settings of a registry.
#[derive(Debug)]
pub struct Settings<'t> {
    /// The one genus.
    pub genus: &'t str,
    /// Which half of the world.
    pub hemisphere: Hemisphere,
    /// Unit in which lengths are shown.
    pub show_lengths_in: ShownUnit,
    /// Pairs of chromosomes; 40 (2n = 80, Heubl & Wistuba 1997, from memory) unless the registry says otherwise.
    pub chromosome_pairs: u32,
    /// Map length of one pair in Morgans: an assumption.
    pub map_length_morgans: f64,
    /// Declared traits in the order of the file.
    pub traits: Vec<Trait<'t>>,
    /// The form of the files, 1 or 2; a newer one has a finding.
    pub format: u32,
    /// Short name of the registry.
    pub registry: Option<&'t str>,
    /// Whose it is; private.
    pub grower: Option<FreeText<'t>>,
    /// How to reach the grower; private.
    pub contact: Option<FreeText<'t>>,
    /// Where plants stand.
    pub places: Vec<PlantPlace<'t>>,
    /// Treatments of whole places.
    pub treatments: Vec<Treatment<'t>>,
    /// How long things take here; what is not said is `None`.
    pub intervals: Intervals,
    /// The pots seedlings move into, by age; empty when the registry does not say.
    pub pot_steps: Vec<PotStep>,
    /// The shelves there are.
    pub shelves: Vec<ShelfSpace<'t>>,
}

impl Settings<'_> {
    /// The newest form of the files that this program reads and writes.
    pub const NEWEST: u32 = 2;
}

impl Default for Settings<'_> {
    fn default() -> Self {
        Settings {
            genus: "Nepenthes",
            hemisphere: Hemisphere::North,
            show_lengths_in: ShownUnit::Cm,
            chromosome_pairs: 40,
            map_length_morgans: 1.0,
            traits: Vec::new(),
            format: 1,
            registry: None,
            grower: None,
            contact: None,
            places: Vec::new(),
            treatments: Vec::new(),
            intervals: Intervals::default(),
            pot_steps: Vec::new(),
            shelves: Vec::new(),
        }
    }
}

impl<'t> From<RegistryPage<'t>> for Settings<'t> {
    fn from(page: RegistryPage<'t>) -> Self {
        let defaults = Settings::default();
        Settings {
            genus: page.genus,
            hemisphere: page.hemisphere,
            show_lengths_in: page.show_lengths_in,
            chromosome_pairs: page.chromosome_pairs.unwrap_or(defaults.chromosome_pairs),
            map_length_morgans: page
                .map_length_morgans
                .unwrap_or(defaults.map_length_morgans),
            traits: page.traits,
            format: page.format.unwrap_or(defaults.format),
            registry: page.registry,
            grower: page.grower,
            contact: page.contact,
            places: page.places,
            treatments: page.treatments,
            intervals: page.intervals,
            pot_steps: page.pot_steps,
            shelves: page.shelves,
        }
    }
}
