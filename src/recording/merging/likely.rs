//! Founders that may be one plant: both sides have one that came under the same label, from the same supplier, on the
//! same day, and no record says that they are one. This is asked and never assumed, since siblings bear one label too.

use crate::record::{FounderClone, Hemisphere, ReceivedAs, When};
use crate::registry::Registry;
use crate::registry::ids::natural_order;
use std::collections::BTreeMap;

/// Founders here and there that agree in label, supplier and day: each of these with each of those.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Likely {
    /// Codes here.
    pub ours: Vec<String>,
    /// Codes there, each with the code it has here after the merge.
    pub theirs: Vec<(String, String)>,
    /// The label, as it is written here.
    pub received: String,
    /// The supplier.
    pub from: String,
    /// The date.
    pub on: String,
    /// Whether one of them came as seed, as a seedling or in a batch.
    pub from_seed: bool,
}

/// Label and supplier whatever their capitals and blanks, and the days that the date can mean.
type Came = (String, String, When);

/// The founders of a registry that are asked about.
pub fn founders<'r>(
    registry: &'r Registry<'r>,
    asked: impl Fn(&FounderClone) -> bool,
) -> Vec<&'r FounderClone<'r>> {
    let all = registry.plants();
    let all = all.filter_map(|plant| registry.founder(plant));
    all.filter(|founder| asked(founder)).collect()
}

/// Which founders here and there may be one; those there have codes of their own here. Dates with seasons are read in the
/// hemisphere of each side.
pub fn likely(
    ours: &[&FounderClone],
    theirs: &[(&FounderClone, String)],
    hemispheres: [Hemisphere; 2],
) -> Vec<Likely> {
    let mut found: BTreeMap<Came, Likely> = BTreeMap::new();
    for founder in ours {
        let Some(came) = came(founder, hemispheres[0]) else {
            continue;
        };
        let likely = found.entry(came).or_insert_with(|| begun(founder));
        likely.ours.push(founder.code.to_owned());
        likely.from_seed |= is_from_seed(founder);
    }
    for (founder, now) in theirs {
        let known = came(founder, hemispheres[1]).and_then(|came| found.get_mut(&came));
        if let Some(likely) = known {
            likely.theirs.push((founder.code.to_owned(), now.clone()));
            likely.from_seed |= is_from_seed(founder);
        }
    }
    let both = found.into_values().filter(|of| !of.theirs.is_empty());
    let mut both: Vec<Likely> = both.map(in_order).collect();
    both.sort_by(|a, b| natural_order(&a.ours[0], &b.ours[0]));
    both
}

/// Label, supplier and day, where all three are on record.
fn came(founder: &FounderClone, hemisphere: Hemisphere) -> Option<Came> {
    let when = When::read(founder.on?, hemisphere).ok();
    let when = when.filter(|when| when.is_bounded())?;
    let [label, from] = [&founder.received, founder.from.as_ref()?].map(|words| folded(words));
    (!label.is_empty() && !from.is_empty()).then_some((label, from, when))
}

fn folded(words: &str) -> String {
    let words: Vec<String> = words.split_whitespace().map(str::to_lowercase).collect();
    words.join(" ")
}

fn begun(founder: &FounderClone) -> Likely {
    let words = |words: Option<&str>| words.unwrap_or_default().to_owned();
    Likely {
        ours: Vec::new(),
        theirs: Vec::new(),
        received: founder.received.to_string(),
        from: words(founder.from.as_deref()),
        on: words(founder.on),
        from_seed: false,
    }
}

fn is_from_seed(founder: &FounderClone) -> bool {
    let form = matches!(founder.form, Some(ReceivedAs::Seed | ReceivedAs::Seedling));
    form || founder.batch.is_some()
}

fn in_order(mut likely: Likely) -> Likely {
    likely.ours.sort_by(|a, b| natural_order(a, b));
    likely.theirs.sort_by(|a, b| natural_order(&a.0, &b.0));
    likely
}
