//! Merit of all plants that are here, or of some named, traits joined to an index.

use crate::analysis::evidence::parents_taken_as_right;
use crate::analysis::merit::answer::{BetterRow, MeritReport, MeritRow, TraitOfMerit};
use crate::analysis::merit::better::{CLEARLY, Compared};
use crate::analysis::merit::caution::Caution;
use crate::analysis::merit::error::MeritError;
use crate::analysis::merit::merit_model::{Basis, MeritModel};
use crate::analysis::merit::options::MeritOptions;
use crate::analysis::merit::solved::{Single, SolvedTrait};
use crate::context::Context;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::observation::mixed_up::mix_ups;
use crate::observation::presence::{Presence, presence};
use crate::observation::traits::trait_named;
use crate::registry::{PlantKind, Registry, TraitRow};

/// Predicts merit.
///
/// # Errors
/// When a trait is unknown or has no order, the parts do not fit, or the equations cannot be solved.
pub fn merit(context: &Context, options: &MeritOptions) -> Result<MeritReport, MeritError> {
    with_merit(context, options, |report, _| report)
}

/// Standard error of a weighted sum of the index of some plants, each plant once, as its difference from the mean of the
/// plants here; in genetic standard deviations.
pub type ErrorOfSum<'s> = dyn Fn(&[(PlantRow, f64)]) -> f64 + 's;

/// Predicts merit, and hands the answer on while errors of sums can still be asked for.
///
/// # Errors
/// As [`merit`].
pub fn with_merit<T>(
    context: &Context,
    options: &MeritOptions,
    with: impl FnOnce(MeritReport, &ErrorOfSum) -> T,
) -> Result<T, MeritError> {
    let plants = Plants::of(context);
    let asked = match options.compare.is_empty() {
        true if options.all => &plants.all,
        true => &plants.here,
        false => &options.compare,
    };
    let kinship = context.kinship()?;
    let model = MeritModel::of(context, &kinship, plants.measured_from())?;
    let bases = bases(context.registry, &model, options)?;
    let solve = |basis| model.solved(basis, asked.len());
    let traits = bases.iter().map(solve).collect::<Result<Vec<_>, _>>()?;
    let error_of_sum = |sum: &[(PlantRow, f64)]| {
        let error = |of: &SolvedTrait| of.basis.weight * of.error_of_sum(sum);
        // Errors of different traits are taken as independent, for want of genetic correlations.
        let variance: f64 = traits.iter().map(error).map(|error| error * error).sum();
        libm::sqrt(variance)
    };
    let report = report(context, &traits, asked, options);
    Ok(with(report, &error_of_sum))
}

/// The plants of a registry that have a merit.
struct Plants {
    all: Vec<PlantRow>,
    here: Vec<PlantRow>,
}

impl Plants {
    fn of(context: &Context) -> Plants {
        let registry = context.registry;
        let here = |plant: &PlantRow| presence(registry, *plant, context.today) == Presence::Here;
        let seen = |plant: &PlantRow| registry.kind(*plant) != PlantKind::Unseen;
        let all: Vec<PlantRow> = registry.plants().filter(seen).collect();
        Plants {
            here: all.iter().copied().filter(here).collect(),
            all,
        }
    }

    /// Plants that are gone have a merit too, but the mean it is measured from is that of those there are to breed from.
    fn measured_from(&self) -> &[PlantRow] {
        match self.here.is_empty() {
            true => &self.all,
            false => &self.here,
        }
    }
}

/// The traits asked for, each ready to be solved.
fn bases<'r, 't>(
    registry: &Registry,
    model: &MeritModel<'_, 'r, 't>,
    options: &MeritOptions,
) -> Result<Vec<Basis<'r, 't>>, MeritError> {
    let mut named = Vec::new();
    let basis = |(name, weight): &(String, f64)| {
        let index = trait_named(registry, name).ok_or_else(|| unknown_trait(registry, name))?;
        check_named(registry, (index, *weight), &mut named)?;
        model.basis((index, *weight), options)
    };
    options.traits.iter().map(basis).collect()
}

/// The answer for some plants, the best first.
fn report(
    context: &Context,
    traits: &[SolvedTrait],
    asked: &[PlantRow],
    options: &MeritOptions,
) -> MeritReport {
    let registry = context.registry;
    let columns: Vec<Vec<Single>> = traits.iter().map(|of| singles(of, asked)).collect();
    let told: Vec<TraitOfMerit> = traits.iter().map(SolvedTrait::told).collect();
    let news = Told::of(&columns);
    let known = (0..asked.len()).filter(|&at| !news.without_news[at]);
    let mut ranked: Vec<Ranked> = known
        .map(|at| {
            let plant = asked[at];
            let singles = columns.iter().map(|column| &column[at]);
            let row = row(registry.code(plant), singles, &told);
            Ranked { plant, at, row }
        })
        .collect();
    // Stable: equals stay in the order of the registry.
    ranked.sort_by(|a, b| b.row.index.total_cmp(&a.row.index));
    let better = match options.compare.is_empty() {
        true => Vec::new(),
        false => better(traits, &ranked),
    };
    against_first(traits, &columns, &mut ranked);
    let plants: Vec<PlantRow> = ranked.iter().map(|of| of.plant).collect();
    let rows: Vec<MeritRow> = ranked.into_iter().map(|of| of.row).collect();
    let without_news = news.without_news.iter().filter(|of| **of).count();
    let mut report = MeritReport {
        cautions: Vec::new(),
        better,
        not_clearly_worse: not_clearly_worse(&rows),
        traits: told,
        rows,
        plants,
        without_news,
        told_by_the_mean_alone: news.by_mean_alone,
    };
    let mixed_up = mix_ups(registry, report.plants.iter().copied()).into_iter();
    report.cautions = mixed_up.map(Caution::Doubt).collect();
    let by_code = report.plants.iter();
    let by_code = by_code.map(|&plant| (Unit::Plant(plant), registry.code(plant)));
    let taken = parents_taken_as_right(context.evidence(), &by_code.collect::<Vec<_>>());
    report.cautions.extend(taken.map(Caution::ParentsAsRight));
    report.cautions.extend(report.to_keep_in_mind());
    report
}

/// A plant of the answer.
struct Ranked {
    plant: PlantRow,
    /// Its place among those asked for.
    at: usize,
    row: MeritRow,
}

/// The merit of some plants in one trait, in their order.
fn singles(of: &SolvedTrait, asked: &[PlantRow]) -> Vec<Single> {
    let mut singles: Vec<Single> = Vec::with_capacity(asked.len());
    // Most plants of a large registry are not read, and of all of them from one cross the same is known.
    let mut last_unread: Option<usize> = None;
    for (at, &plant) in asked.iter().enumerate() {
        let same = last_unread.filter(|&last| of.same_is_known(asked[last], plant));
        let single = match same {
            Some(last) => singles[last].clone(),
            None => of.single(plant),
        };
        last_unread = match single.told.readings {
            0 => Some(at),
            _ => last_unread,
        };
        singles.push(single);
    }
    singles
}

/// Gives each plant but the first its chance of being better than the first.
fn against_first(traits: &[SolvedTrait], columns: &[Vec<Single>], ranked: &mut [Ranked]) {
    let Some((first, others)) = ranked.split_first_mut() else {
        return;
    };
    let first = Compared::of(traits, first.plant);
    let mut last: Option<(PlantRow, f64)> = None;
    for Ranked { plant, at, row } in others {
        let same = |of: &SolvedTrait| last.is_some_and(|(last, _)| of.same_is_known(last, *plant));
        let chance = match last {
            Some((_, chance)) if traits.iter().all(same) => chance,
            _ => first.chance_better_of(traits, (*plant, columns.iter().map(|of| &of[*at]))),
        };
        row.chance_better_than_first = Some(chance);
        last = Some((*plant, chance));
    }
}

/// Plants that may well be better than the first.
fn not_clearly_worse(rows: &[MeritRow]) -> Vec<String> {
    let may = |row: &&MeritRow| row.chance_better_than_first.is_some_and(|of| of >= CLEARLY);
    let may = rows.iter().filter(may);
    may.map(|row| row.id.clone()).collect()
}

/// The chance of every plant to be better than each after it.
fn better(traits: &[SolvedTrait], ranked: &[Ranked]) -> Vec<BetterRow> {
    let compared = |of: &Ranked| Compared::of(traits, of.plant);
    let compared: Vec<Compared> = ranked.iter().map(compared).collect();
    let mut better = Vec::new();
    for (at, one) in ranked.iter().enumerate() {
        for (other, than) in ranked.iter().zip(&compared).skip(at + 1) {
            better.push(BetterRow {
                plant: one.row.id.clone(),
                than: other.row.id.clone(),
                chance: than.chance_better(traits, one.plant),
            });
        }
    }
    better
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
    (index, weight): (TraitRow, f64),
    named: &mut Vec<TraitRow>,
) -> Result<(), MeritError> {
    let code = registry[index].code;
    if weight == 0.0 {
        return Err(MeritError::ZeroWeight(code.to_owned()));
    }
    if named.contains(&index) {
        return Err(MeritError::NamedTwice(code.to_owned()));
    }
    named.push(index);
    Ok(())
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
        chance_better_than_first: None,
        of_traits,
    }
}

fn unknown_trait(registry: &Registry, name: &str) -> MeritError {
    let codes = || registry.settings.traits.iter().map(|of| of.code);
    let near = crate::text::nearest(name, codes());
    MeritError::UnknownTrait {
        name: name.to_owned(),
        near: near.into_iter().map(str::to_owned).collect(),
        declared: codes().map(str::to_owned).collect(),
    }
}
