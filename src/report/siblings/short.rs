//! One screen of how siblings differ: a line for each trait, and whether the pods do.

use crate::analysis::siblings::{Group, SiblingsReport, TraitSummary};
use crate::report::sheet::{Cell, Table};
use crate::statistics::spread_scale::most_variable;
use crate::wording::{age, listed, p_words};

/// Measures that the first sentence names as varying most.
const APART_NAMED: usize = 3;

/// Pods whose germination the first sentence gives.
const PODS_NAMED: usize = 3;

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

    /// Which measures vary most among all siblings, as more of the first sentence; empty with fewer than two measures.
    pub(super) fn most_apart_words(&self) -> String {
        let spreads: Vec<Spread> = self.traits.iter().filter_map(|of| of.spread()).collect();
        let coefficients: Vec<_> = spreads.iter().map(|of| (of.cv, of.cv_between)).collect();
        let most = most_variable(&coefficients);
        if spreads.len() < 2 || most.is_empty() || most.len() == spreads.len() {
            return String::new();
        }
        let most = most.iter().take(APART_NAMED);
        let most: Vec<String> = most.map(|&at| spreads[at].words.clone()).collect();
        let verb = if most.len() == 1 { "varies" } else { "vary" };
        format!(". Of what was measured, {} {verb} most", listed(&most))
    }

    /// What came up of each pod and whether that differs; empty where pods cannot be compared.
    pub(super) fn pods_came_up_words(&self) -> String {
        let Some(of) = &self.pods_germinated else {
            return String::new();
        };
        let (Some(day), Some(p)) = (of.day, of.p) else {
            return String::new();
        };
        if p >= 0.05 {
            return format!(
                "; their germination does not clearly differ ({})",
                p_words(p)
            );
        }
        let pods = of.groups.iter().take(PODS_NAMED);
        let pods = pods.map(|pod| {
            let percent = 100.0 * pod.up as f64 / pod.sown as f64;
            format!("{percent:.0} % of {}", pod.id)
        });
        let pods: Vec<String> = pods.collect();
        let shares = match of.groups.len() > PODS_NAMED {
            true => String::new(),
            false => format!("{} by day {day:.0}, ", listed(&pods)),
        };
        format!(". Pods germinated differently ({shares}{})", p_words(p))
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

/// How far a measure varies among all siblings.
struct Spread {
    words: String,
    cv: f64,
    cv_between: (f64, f64),
}

impl TraitSummary {
    /// Name and range of a measure; `None` where its coefficient of variation has no limits.
    fn spread(&self) -> Option<Spread> {
        let of = self.groups[0].measure.as_ref()?;
        let (_, range) = self.short_measure(&self.groups[0]);
        let range = format!("{range} {}", self.unit);
        Some(Spread {
            words: format!("{} ({})", self.name, range.trim_end()),
            cv: of.cv?,
            cv_between: of.cv_between?,
        })
    }

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
