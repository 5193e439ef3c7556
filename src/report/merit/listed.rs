//! Merit of all plants that are here, traits joined to an index.

use super::super::descent::Descent;
use super::super::founding::founding;
use super::super::series::trait_named;
use super::super::standing::{Presence, presence};
use super::super::words::counted;
use super::answer::{MeritReport, MeritRow, TraitOfMerit};
use super::herd::{Herd, Single};
use super::wishes::MeritWishes;
use crate::kinship::Kinship;
use crate::lineage::{Lineage, PlantRow};
use crate::naming::recorded::Names;
use crate::registry::{PlantKind, Registry};

/// Predicts merit.
///
/// # Errors
/// In words, when a trait is unknown or has no order, the parts do not fit, or the equations cannot be solved.
pub fn merit(
    registry: &Registry,
    lineage: &Lineage,
    names: &Names,
    wishes: &MeritWishes,
) -> Result<MeritReport, String> {
    let descent = Descent::of(registry, lineage, names);
    let assumed = founding(registry, lineage, &descent);
    let kinship = Kinship::of(&lineage.pedigree, &assumed).map_err(|error| error.to_string())?;
    let here = |plant: &PlantRow| presence(registry, *plant, wishes.today) == Presence::Here;
    let listed: Vec<PlantRow> = registry
        .plants()
        .filter(|plant| registry.kind(*plant) != PlantKind::Unseen)
        .filter(|plant| wishes.all || here(plant))
        .collect();
    let herd = Herd::of((registry, lineage), (&descent, &kinship), &listed)?;
    let mut traits = Vec::new();
    let mut columns: Vec<Vec<Single>> = Vec::new();
    let mut named = Vec::new();
    for (name, weight) in &wishes.traits {
        let index = trait_named(registry, name).ok_or_else(|| unknown_trait(registry, name))?;
        check_named(registry, (index, *weight), &mut named)?;
        let (of_trait, singles) = herd.one_trait((index, *weight), &listed, wishes)?;
        traits.push(of_trait);
        columns.push(singles);
    }
    let of_plant = |(at, &plant): (usize, &PlantRow)| {
        let singles = columns.iter().map(|column| &column[at]);
        row(registry.code(plant), singles, &traits)
    };
    let mut rows: Vec<MeritRow> = listed.iter().enumerate().map(of_plant).collect();
    let told = Told::of(&columns);
    let mut without = told.without_news.iter();
    rows.retain(|_| !without.next().is_some_and(|without| *without));
    // Stable: equals stay in the order of the registry.
    rows.sort_by(|a, b| b.index.total_cmp(&a.index));
    let without_news = told.without_news.iter().filter(|of| **of).count();
    Ok(MeritReport {
        cautions: cautions(&traits, &rows, (without_news, told.by_mean_alone)),
        traits,
        rows,
        without_news,
        told_by_the_mean_alone: told.by_mean_alone,
    })
}

/// Which plants are left out, and how many of them although a relative was read.
struct Told {
    without_news: Vec<bool>,
    by_mean_alone: usize,
}

impl Told {
    fn of(columns: &[Vec<Single>]) -> Told {
        let plants = 0..columns.first().map_or(0, Vec::len);
        let all =
            |of: &dyn Fn(&Single) -> bool, at: usize| columns.iter().all(|column| of(&column[at]));
        let without_news: Vec<bool> = plants
            .map(|at| all(&|single| single.without_news.is_some(), at))
            .collect();
        let unread = |at: usize| all(&|single| single.without_news == Some(false), at);
        let by_mean_alone = (0..without_news.len())
            .filter(|&at| without_news[at] && !unread(at))
            .count();
        Told {
            without_news,
            by_mean_alone,
        }
    }
}

/// Each trait once, with a weight that says something.
fn check_named(
    registry: &Registry,
    (index, weight): (u16, f64),
    named: &mut Vec<u16>,
) -> Result<(), String> {
    let code = registry.settings.traits[usize::from(index)].code;
    if weight == 0.0 {
        return Err(format!(
            "the weight of `{code}` is 0, so it would count for nothing; leave the trait out or give it another weight"
        ));
    }
    if named.contains(&index) {
        return Err(format!(
            "the trait `{code}` is named twice; name it once, with one weight"
        ));
    }
    named.push(index);
    Ok(())
}

/// Why plants are left out, a line for each reason.
pub(super) fn left_out(without_news: usize, by_mean_alone: usize, crosses: usize) -> Vec<String> {
    let mut lines = Vec::new();
    if by_mean_alone > 0 {
        let why = if crosses <= 1 {
            "one cross only was read, and its parents cannot be told apart from its mean"
        } else {
            "what was read of their relatives cannot be told apart from the mean of all"
        };
        lines.push(format!(
            "{}: {why}",
            counted(by_mean_alone, "plant", "plants")
        ));
    }
    if without_news > by_mean_alone {
        lines.push(format!(
            "{} without any read relative: nothing is known of them",
            counted(without_news - by_mean_alone, "plant", "plants")
        ));
    }
    lines
}

impl MeritReport {
    /// Why plants are left out, a line for each reason.
    pub fn why_left_out(&self) -> Vec<String> {
        let crosses = self.traits.iter().map(|of| of.crosses).max().unwrap_or(0);
        left_out(self.without_news, self.told_by_the_mean_alone, crosses)
    }
}

fn row<'s>(
    id: String,
    singles: impl Iterator<Item = &'s Single>,
    traits: &[TraitOfMerit],
) -> MeritRow {
    let (mut index, mut variance, mut of_traits) = (0.0, 0.0, Vec::new());
    for (single, of) in singles.zip(traits) {
        index += of.weight * single.standard;
        // Errors of different traits are taken as independent, for want of genetic correlations.
        variance += (of.weight * single.standard_error) * (of.weight * single.standard_error);
        of_traits.push(single.told.clone());
    }
    MeritRow {
        id,
        index,
        index_error: libm::sqrt(variance),
        of_traits,
    }
}

fn unknown_trait(registry: &Registry, name: &str) -> String {
    let codes: Vec<&str> = registry.settings.traits.iter().map(|t| t.code).collect();
    let near = crate::text::nearest(name, codes.iter().copied());
    let hint = if near.is_empty() {
        format!("declared: {}", codes.join(", "))
    } else {
        format!("did you mean {}?", near.join(" or "))
    };
    format!("there is no trait `{name}`; {hint}")
}

impl TraitOfMerit {
    /// What its figures rest on, and what was left out.
    pub fn rests_on(&self) -> String {
        let p = &self.parts;
        let rest = 1.0 - p.heritability - p.permanent - p.sitting - p.pod;
        let basis = match self.heritability_limits {
            Some((low, high)) => format!("estimated, 95 % limits {low:.2} to {high:.2}"),
            None => "stated, not measured".to_owned(),
        };
        let left = match self.left_out.total() {
            0 => String::new(),
            _ => format!("; left out {}", self.left_out.words()),
        };
        format!(
            "{}: heritability {:.2} ({basis}), permanent {:.2}, sitting {:.2}, pod {:.2}, error of a reading {rest:.2}{left}",
            self.name, p.heritability, p.permanent, p.sitting, p.pod
        )
    }
}

fn cautions(
    traits: &[TraitOfMerit],
    rows: &[MeritRow],
    (without_news, by_mean_alone): (usize, usize),
) -> Vec<String> {
    let mut lines: Vec<String> = traits.iter().map(TraitOfMerit::rests_on).collect();
    let by_mean = |row: &&MeritRow| row.of_traits.iter().all(|of| !of.beyond_its_pod);
    match rows.iter().filter(by_mean).count() {
        0 => {}
        n => lines.push(format!(
            "{} no better known than by the mean of the pod or the species (last column): choose among them by reading them, not by this table",
            counted(n, "plant is", "plants are")
        )),
    }
    let crosses = traits.iter().map(|of| of.crosses).max().unwrap_or(0);
    let left = left_out(without_news, by_mean_alone, crosses);
    lines.extend(left.into_iter().map(|line| format!("left out: {line}")));
    lines.push(
        match traits.iter().any(|of| of.unit == "percent") {
            true => "± is one standard error; of a length it is worked out on the logarithm, so its limits stand unequally far from the merit",
            false => "± is one standard error",
        }
        .into(),
    );
    if traits.len() > 1 {
        lines.push("errors of the index take the traits as independent".into());
    }
    lines.push("merit is what a plant is expected to pass on, twice over: its seedlings get half of it from each parent, and differ among themselves".into());
    lines
}
