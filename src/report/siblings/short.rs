//! One screen of how siblings differ: a line for each trait, and whether the pods do.

use crate::analysis::siblings::{
    Group, KindCount, PodsCompared, SiblingsReport, TraitSummary, most_apart, pods_compared,
};
use crate::report::table::Table;
use crate::wording::{age, counted, first_of, from_to, joined, led_by, listed};

/// Measures that the first sentence names as varying most.
const APART_NAMED: usize = 3;

/// Plants that may be a parent whose readings stand in a line.
const PARENTS_NAMED: usize = 3;

/// Pods whose germination the first sentence gives.
const PODS_NAMED: usize = 3;

impl SiblingsReport {
    /// Each trait in a line: what is typical, how far it ranges, what the parents have.
    pub(super) fn short_table(&self) -> Table {
        Table::of(&self.traits)
            .text("trait", |of| &of.name)
            .figure("n", |of| of.groups[0].n)
            .text("typical (middle half)", |of| of.typical_and_range().0)
            .text("range", |of| of.typical_and_range().1)
            .text("parents", |of| {
                of.parents_words(PARENTS_NAMED, |parent| of.shown.words(parent.value))
            })
            .text("age", |of| of.age_months.map(age))
            .into()
    }

    /// How the siblings differ, in one sentence: the measures that vary most, else what was read of them.
    pub(super) fn answer(&self) -> String {
        let siblings = counted(self.numbered, "sibling", "siblings");
        let most = most_apart(&self.traits).into_iter().take(APART_NAMED);
        let most: Vec<String> = most.map(|of| of.spread_words(self.numbered)).collect();
        if !most.is_empty() {
            return format!(
                "The {siblings} of {} differ most in {}",
                self.id,
                listed(&most)
            );
        }
        let ranges: Vec<String> = self
            .traits
            .iter()
            .filter_map(|of| of.range_words(self.numbered))
            .collect();
        match (self.numbered, &ranges[..]) {
            (2.., [_, ..]) => {
                let named = first_of(&ranges, APART_NAMED);
                format!("The {siblings} of {} show {named}", self.id)
            }
            _ => format!(
                "{} of {}",
                counted(self.numbered, "numbered sibling", "numbered siblings"),
                self.id
            ),
        }
    }

    /// What stands below the answer: how many are here, whether pods differ, and what came up of them.
    pub(super) fn below_the_answer(&self) -> Vec<String> {
        let here = match (self.here, self.numbered) {
            (_, 0) => "none is numbered".to_owned(),
            (1, 1) => "the one numbered is in the collection".to_owned(),
            (0, 1) => "the one numbered is not in the collection".to_owned(),
            (1, all) => format!("1 of the {all} numbered is in the collection"),
            (here, all) => format!("{here} of the {all} numbered are in the collection"),
        };
        let pods = [self.pods_words(), self.pods_came_up_words()];
        let pods = pods.into_iter().filter(|words| !words.is_empty());
        [here].into_iter().chain(pods).collect()
    }

    /// What came up of each pod and whether that differs; empty where pods cannot be compared.
    pub(super) fn pods_came_up_words(&self) -> String {
        let Some(of) = &self.pods_germinated else {
            return String::new();
        };
        let (Some(day), Some(p)) = (of.day, of.p) else {
            return String::new();
        };
        let left_out: Vec<&String> = (of.groups.iter().flat_map(|pod| &pod.left_out)).collect();
        let without = match left_out.is_empty() {
            true => String::new(),
            false => format!("; left out: {}", listed(left_out)),
        };
        let p_words = of.p_words(p);
        if !of.differ() {
            return format!("Germination of the pods does not clearly differ ({p_words}{without})");
        }
        let pods = of.groups.iter().take(PODS_NAMED);
        let pods = pods.map(|pod| format!("{} % of {}", pod.percent_words(), pod.id));
        let shares = match of.groups.len() > PODS_NAMED {
            true => String::new(),
            false => format!("{} by day {day:.0}, ", listed(pods)),
        };
        format!("Pods germinated differently ({shares}{p_words}{without})")
    }

    /// Which pods differ; empty when no pods could be compared.
    pub(super) fn pods_words(&self) -> String {
        let PodsCompared { apart, alike } = pods_compared(&self.traits);
        if apart.is_empty() && alike.is_empty() {
            return String::new();
        }
        if apart.is_empty() {
            let of = match &alike[..] {
                [of] => of.name.as_str(),
                _ => "any trait",
            };
            return format!("Between pods there is no clear difference in {of}");
        }
        let names = apart.iter().map(|of| of.name.as_str());
        format!("The pods differ in {}", listed(names))
    }
}

impl TraitSummary {
    /// Name and range of a measure, and how many were read if that is not all: `leaf span (7.3–22.5 cm, 12 read)`.
    fn spread_words(&self, numbered: usize) -> String {
        let all = &self.groups[0];
        let (_, range) = self.short_measure(all);
        let range = format!("{range} {}", self.unit);
        let read = self.read_words(numbered);
        let read = led_by(", ", read);
        format!("{} ({}{read})", self.name, range.trim_end())
    }

    /// What was read, from the least to the most, and of how many if not of all: `leaf span 7.3–22.5 cm (2 read)`,
    /// `banding 1 to 5`, `colour red 8, pink 4`.
    fn range_words(&self, numbered: usize) -> Option<String> {
        let range = self.seen_words()?;
        Some(match self.read_words(numbered) {
            Some(read) => format!("{range} ({read})"),
            None => range,
        })
    }

    /// How many were read if that is not all: `12 read`; where others were read that may not be set beside them, `12 of the
    /// 15 read`.
    fn read_words(&self, numbered: usize) -> Option<String> {
        let n = self.groups[0].n;
        match self.not_compared.values().sum() {
            0 => (n < numbered).then(|| format!("{n} read")),
            more => Some(format!("{n} of the {} read", n + more)),
        }
    }

    fn seen_words(&self) -> Option<String> {
        let all = &self.groups[0];
        if all.measure.is_some() {
            let (_, range) = self.short_measure(all);
            return Some(
                format!("{} {range} {}", self.name, self.unit)
                    .trim_end()
                    .to_owned(),
            );
        }
        let kinds = all.kinds.as_deref().unwrap_or_default();
        let mut seen = kinds.iter().filter(|kind| kind.n > 0);
        match (seen.next(), seen.next_back()) {
            (None, _) => None,
            (Some(first), Some(last)) if first.step.is_some() => Some(format!(
                "{} {} to {}",
                self.name,
                step_words(first),
                step_words(last)
            )),
            _ => Some(format!("{} {}", self.name, short_kinds(all))),
        }
    }

    /// What is typical, and how far it ranges; kinds have no range.
    fn typical_and_range(&self) -> (String, String) {
        let all = &self.groups[0];
        match &all.measure {
            Some(_) => self.short_measure(all),
            None => (short_kinds(all), String::new()),
        }
    }

    fn short_measure(&self, all: &Group) -> (String, String) {
        let decimals = usize::from(self.shown.decimals.max(1));
        let number = |value: f64| format!("{value:.decimals$}");
        // The least and the greatest were read; what is typical is worked out.
        let read = |value: f64| format!("{value:.*}", usize::from(self.shown.decimals));
        let Some(of) = &all.measure else {
            return Default::default();
        };
        let half = of.quartiles.map_or(String::new(), |(low, high)| {
            format!(" ({}–{})", number(low), number(high))
        });
        let unit = match self.unit.is_empty() {
            true => String::new(),
            false => format!(" {}", self.unit),
        };
        (
            format!("{}{unit}{half}", number(of.median)),
            from_to(read(of.smallest), read(of.largest), "–"),
        )
    }
}

/// `red 8, pink 4`: the kinds that were seen; steps of a scale by their number, in their order.
fn short_kinds(all: &Group) -> String {
    let kinds = all.kinds.as_deref().unwrap_or_default();
    let seen = kinds.iter().filter(|kind| kind.n > 0);
    let mut seen: Vec<&KindCount> = seen.collect();
    if seen.iter().all(|kind| kind.step.is_some()) {
        let steps = seen
            .iter()
            .map(|kind| format!("{} at {}", kind.n, step_words(kind)));
        return joined(steps, ", ");
    }
    seen.sort_by_key(|kind| std::cmp::Reverse(kind.n));
    let kinds = seen.iter().map(|kind| format!("{} {}", kind.kind, kind.n));
    joined(kinds, ", ")
}

/// A step of a scale by its number; a kind by its name.
fn step_words(kind: &KindCount) -> String {
    let step = kind.step.map(|step| step.to_string());
    step.unwrap_or_else(|| kind.kind.clone())
}
