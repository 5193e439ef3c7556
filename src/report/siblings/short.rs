//! One screen of how siblings differ: a line for each trait, and whether the pods do.

use crate::analysis::siblings::{Group, SiblingsReport, TraitSummary};
use crate::report::sheet::{Cell, Table};
use crate::wording::{age, listed};

impl SiblingsReport {
    /// Each trait in a line: what is typical, how far it ranges, what the parents have.
    pub(super) fn short_table(&self) -> Table {
        let headings = [
            "trait",
            ">n",
            "typical (middle half)",
            "range",
            "parents",
            "age",
        ];
        let mut table = Table::new(&headings);
        for of in &self.traits {
            table.row(of.short_row());
        }
        table
    }

    /// Which pods differ, in words that end the first sentence; empty when no pods could be compared.
    pub(super) fn pods_words(&self) -> String {
        let tested = self.traits.iter().filter_map(|of| {
            let test = of.pods.as_ref()?;
            let p = test.p_adjusted.or(test.p)?;
            Some((of, p))
        });
        let (apart, alike): (Vec<_>, Vec<_>) = tested.partition(|(_, p)| *p < 0.05);
        if apart.is_empty() && alike.is_empty() {
            return String::new();
        }
        if apart.is_empty() {
            let of = match &alike[..] {
                [(of, _)] => of.name.as_str(),
                _ => "any trait",
            };
            return format!(". Between pods there is no clear difference in {of}");
        }
        let names: Vec<&str> = apart.iter().map(|(of, _)| of.name.as_str()).collect();
        format!(". The pods differ in {}", listed(&names))
    }
}

impl TraitSummary {
    fn short_row(&self) -> Vec<Cell> {
        let all = &self.groups[0];
        let (typical, range) = match &all.measure {
            Some(_) => self.short_measure(all),
            None => (short_kinds(all), String::new()),
        };
        let parents: Vec<String> = self
            .parents
            .iter()
            .map(|parent| {
                let sign = match parent.bore_the_seed {
                    Some(true) => "♀ ",
                    Some(false) => "♂ ",
                    None => "",
                };
                format!("{sign}{}", self.shown.words(parent.value))
            })
            .collect();
        vec![
            self.name.clone().into(),
            all.n.into(),
            typical.into(),
            range.into(),
            parents.join(", ").into(),
            self.age_months.map(age).into(),
        ]
    }

    fn short_measure(&self, all: &Group) -> (String, String) {
        let decimals = usize::from(self.shown.decimals.max(1));
        let number = |value: f64| format!("{value:.decimals$}");
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
            format!("{}–{}", number(of.smallest), number(of.largest)),
        )
    }
}

/// `red 8, pink 4`: the kinds that were seen; steps of a scale by their number, in their order.
fn short_kinds(all: &Group) -> String {
    let kinds = all.kinds.as_deref().unwrap_or_default();
    let seen = kinds.iter().filter(|kind| kind.n > 0);
    let mut seen: Vec<(&str, u64)> = seen.map(|kind| (kind.kind.as_str(), kind.n)).collect();
    let is_step = |kind: &str| kind.starts_with(|letter: char| letter.is_ascii_digit());
    if seen.iter().all(|(kind, _)| is_step(kind)) {
        let step = |kind: &str| kind.split(' ').next().unwrap_or_default().to_owned();
        let steps = seen
            .iter()
            .map(|(kind, n)| format!("{n} at {}", step(kind)));
        return steps.collect::<Vec<_>>().join(", ");
    }
    seen.sort_by_key(|(_, n)| std::cmp::Reverse(*n));
    let kinds = seen.iter().map(|(kind, n)| format!("{kind} {n}"));
    kinds.collect::<Vec<_>>().join(", ")
}
