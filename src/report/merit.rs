//! What each plant is worth as a parent, predicted from its own readings and those of all its relatives.

use super::descent::Descent;
use super::founding::founding;
use super::merit_model::{Model, model};
use super::series::{LeftOut, trait_named};
use super::sheet::{Cell, Report, Sheet, Table};
use super::standing::{Presence, presence};
use super::words::counted;
use crate::kinship::Kinship;
use crate::lineage::{Lineage, PlantRow};
use crate::naming::recorded::Names;
use crate::planning::merit::{Fractions, Relatives, estimate, predict, whole_variance};
use crate::record::{Day, Reads};
use crate::registry::{PlantKind, Registry};
use serde::Serialize;

/// What the grower states.
#[derive(Clone, Debug)]
pub struct MeritWishes {
    /// Traits by code or name, each with its weight.
    pub traits: Vec<(String, f64)>,
    /// Parts of the whole variance: heritability, permanent, sitting, pod.
    pub parts: Parts,
    /// Whether heritability is to be estimated from the readings.
    pub estimate: bool,
    /// Whether plants that are not here any more are listed too.
    pub all: bool,
    /// The day that counts as today.
    pub today: Day,
}

/// Parts of the whole variance; what is left is the error of a reading.
#[derive(Clone, Copy, PartialEq, Debug, Serialize)]
pub struct Parts {
    /// Heritability.
    pub heritability: f64,
    /// Permanent in a plant but not inherited.
    pub permanent: f64,
    /// Between sittings.
    pub sitting: f64,
    /// Between pods beyond what is inherited: a shared tray, a shared age.
    pub pod: f64,
}

impl Default for Parts {
    /// Our own judgement, not published values: 0.4 and 0.2 after a small simulation study, 0.05 each for sitting and pod.
    fn default() -> Parts {
        Parts {
            heritability: 0.4,
            permanent: 0.2,
            sitting: 0.05,
            pod: 0.05,
        }
    }
}

/// Pods and readings below which heritability is stated, not estimated.
const LEAST_PODS: usize = 20;
const LEAST_READINGS: usize = 200;
/// Reliability a plant's own readings must add before it is told apart from its pod's mean.
const BEYOND_THE_POD: f64 = 0.05;

/// Predicted merit of plants.
#[derive(Serialize)]
pub struct MeritReport {
    /// The traits, in the order asked for.
    pub traits: Vec<TraitOfMerit>,
    /// Plants, the best first.
    pub rows: Vec<MeritRow>,
    /// Plants of which nothing is known beyond the mean of all.
    pub without_news: usize,
    /// What to keep in mind.
    pub cautions: Vec<String>,
}

/// One trait.
#[derive(Serialize)]
pub struct TraitOfMerit {
    /// Code.
    pub code: String,
    /// Name.
    pub name: String,
    /// Weight per genetic standard deviation.
    pub weight: f64,
    /// `percent` for lengths (compared on the logarithm), else `steps` or the trait's own unit.
    pub unit: &'static str,
    /// Readings used.
    pub readings: usize,
    /// Plants read.
    pub plants: usize,
    /// Pods read.
    pub pods: usize,
    /// Readings left out, and why.
    pub left_out: LeftOut,
    /// Parts of the whole variance.
    pub parts: Parts,
    /// Limits of heritability at 95 % when it was estimated.
    pub heritability_limits: Option<(f64, f64)>,
}

/// One plant.
#[derive(Serialize)]
pub struct MeritRow {
    /// Code.
    pub id: String,
    /// The weighted sum in genetic standard deviations; with one trait its merit in them.
    pub index: f64,
    /// Standard error of the index.
    pub index_error: f64,
    /// Per trait.
    pub of_traits: Vec<MeritOfTrait>,
}

/// Merit in one trait.
#[derive(Serialize)]
pub struct MeritOfTrait {
    /// Difference from the mean of all, in the trait's unit of merit.
    pub merit: f64,
    /// Standard error in the same unit.
    pub error: f64,
    /// 0: the mean of all would do as well; 1: certain.
    pub reliability: f64,
    /// Readings of the plant itself.
    pub readings: u32,
    /// Whether it says more than its pod's mean.
    pub beyond_its_pod: bool,
}

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
    let kinship =
        Kinship::of(&lineage.pedigree, &assumed.founding).map_err(|error| error.to_string())?;
    let relatives = relatives(&kinship)?;
    let here = |plant: &PlantRow| presence(registry, *plant, wishes.today) == Presence::Here;
    let listed: Vec<PlantRow> = registry
        .plants()
        .filter(|plant| registry.kind(*plant) != PlantKind::Unseen)
        .filter(|plant| wishes.all || here(plant))
        .collect();
    let ground = Ground {
        registry,
        lineage,
        descent: &descent,
        kinship: &kinship,
        relatives: &relatives,
        listed: &listed,
    };
    let mut traits = Vec::new();
    let mut columns: Vec<Vec<Single>> = Vec::new();
    for (name, weight) in &wishes.traits {
        let (of_trait, singles) = ground.one_trait(name, *weight, wishes)?;
        traits.push(of_trait);
        columns.push(singles);
    }
    let mut rows: Vec<MeritRow> = listed
        .iter()
        .enumerate()
        .map(|(at, &plant)| {
            row(
                registry.code(plant),
                columns.iter().map(|column| &column[at]),
                &traits,
            )
        })
        .collect();
    let all = rows.len();
    rows.retain(|row| row.of_traits.iter().any(|of| of.reliability > 1e-9));
    // Stable: equals stay in the order of the registry.
    rows.sort_by(|a, b| b.index.total_cmp(&a.index));
    let without_news = all - rows.len();
    Ok(MeritReport {
        cautions: cautions(&traits, &rows, without_news),
        traits,
        rows,
        without_news,
    })
}

/// Merit of one plant in one trait, with the scale that makes traits comparable.
struct Single {
    told: MeritOfTrait,
    /// In genetic standard deviations.
    standard: f64,
    standard_error: f64,
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
        let MeritOfTrait {
            merit,
            error,
            reliability,
            readings,
            beyond_its_pod,
        } = single.told;
        of_traits.push(MeritOfTrait {
            merit,
            error,
            reliability,
            readings,
            beyond_its_pod,
        });
    }
    MeritRow {
        id,
        index,
        index_error: libm::sqrt(variance),
        of_traits,
    }
}

struct Ground<'g, 'r, 't> {
    registry: &'r Registry<'t>,
    lineage: &'r Lineage,
    descent: &'g Descent,
    kinship: &'g Kinship<'r>,
    relatives: &'g Relatives,
    listed: &'g [PlantRow],
}

impl Ground<'_, '_, '_> {
    fn one_trait(
        &self,
        name: &str,
        weight: f64,
        wishes: &MeritWishes,
    ) -> Result<(TraitOfMerit, Vec<Single>), String> {
        let index = trait_named(self.registry, name).ok_or_else(|| self.unknown_trait(name))?;
        let declared = &self.registry.settings.traits[usize::from(index)];
        if matches!(declared.reads, Reads::Kinds(_)) {
            return Err(format!(
                "`{name}` is read in kinds without order, so no plant can be better in it; choose a measure or a scale"
            ));
        }
        let model = model(self.registry, self.lineage, self.descent, index);
        if model.design.readings.is_empty() {
            let left = model.left_out.words();
            let left = if left.is_empty() {
                String::new()
            } else {
                format!(" (left out: {left})")
            };
            return Err(format!("nothing comparable was read of `{name}`{left}"));
        }
        let (parts, limits, whole) = self.parts(&model, wishes)?;
        let fractions = fractions(&parts);
        let variances = fractions
            .of_whole(whole)
            .ok_or("heritability and the other parts must sum to less than 1")?;
        let wanted: Vec<(u32, Vec<(u32, f64)>)> = self
            .listed
            .iter()
            .flat_map(|&plant| [(plant.0, model.species_of(plant)), (plant.0, Vec::new())])
            .collect();
        let found = predict(self.relatives, &model.design, &variances, &wanted)
            .map_err(|error| error.to_string())?;
        let centre = self.centre(&found.merit, wanted.len());
        let genetic = libm::sqrt(variances.additive);
        let percent = matches!(declared.reads, Reads::Length(_));
        let shown = |value: f64| {
            if percent {
                libm::expm1(value) * 100.0
            } else {
                value
            }
        };
        let singles = self.listed.iter().enumerate().map(|(at, &plant)| {
            let (whole_row, own_row) = (2 * at, 2 * at + 1);
            let merit = found.merit[whole_row] - centre;
            let prior = variances.additive * (1.0 + self.kinship.inbreeding(plant));
            let reliable = |error: f64| (1.0 - error * error / prior).clamp(0.0, 1.0);
            let reliability = reliable(found.error[own_row]);
            let readings = found.readings[own_row];
            let is_parent = found.error[own_row] == found.error_unread[own_row];
            let gain = reliability - reliable(found.error_unread[own_row]);
            Single {
                told: MeritOfTrait {
                    merit: shown(merit),
                    error: if percent {
                        found.error[whole_row] * 100.0
                    } else {
                        found.error[whole_row]
                    },
                    reliability,
                    readings,
                    beyond_its_pod: readings > 0 && (is_parent || gain >= BEYOND_THE_POD),
                },
                standard: merit / genetic,
                standard_error: found.error[whole_row] / genetic,
            }
        });
        let singles = singles.collect();
        let told = TraitOfMerit {
            code: declared.code.to_owned(),
            name: declared.name.to_string(),
            weight,
            unit: if percent { "percent" } else { "steps" },
            readings: model.design.readings.len(),
            plants: model.plants,
            pods: model.pods,
            left_out: model.left_out,
            parts,
            heritability_limits: limits,
        };
        Ok((told, singles))
    }

    /// The mean merit, species' shares included, of the plants listed: merit is told as a difference from it.
    fn centre(&self, merit: &[f64], wanted: usize) -> f64 {
        let sum: f64 = (0..wanted).step_by(2).map(|at| merit[at]).sum();
        sum / (self.listed.len().max(1)) as f64
    }

    fn unknown_trait(&self, name: &str) -> String {
        let codes: Vec<&str> = self
            .registry
            .settings
            .traits
            .iter()
            .map(|t| t.code)
            .collect();
        let near = crate::text::nearest(name, codes.iter().copied());
        let hint = if near.is_empty() {
            format!("declared: {}", codes.join(", "))
        } else {
            format!("did you mean {}?", near.join(" or "))
        };
        format!("there is no trait `{name}`; {hint}")
    }

    fn parts(&self, model: &Model, wishes: &MeritWishes) -> Result<Stated, String> {
        if !wishes.estimate {
            let whole = whole_variance(self.relatives, &model.design, &fractions(&wishes.parts))
                .map_err(|error| error.to_string())?;
            return Ok((wishes.parts, None, whole));
        }
        let readings = model.design.readings.len();
        if model.pods < LEAST_PODS || readings < LEAST_READINGS {
            return Err(format!(
                "heritability is not estimated from {} and {}: at least {LEAST_PODS} pods and {LEAST_READINGS} readings are needed, since fewer estimate it worse than any value from 0.2 to 0.65 stated beforehand; state one with --heritability",
                counted(model.pods, "pod", "pods"),
                counted(readings, "reading", "readings"),
            ));
        }
        let found = estimate(self.relatives, &model.design, 2, &[SPECIES])
            .map_err(|error| error.to_string())?;
        let parts = Parts {
            heritability: found.fractions.additive,
            permanent: found.fractions.permanent,
            sitting: found.fractions.groups[0],
            pod: found.fractions.groups[1],
        };
        Ok((parts, Some(found.limits), found.whole))
    }
}

/// Parts of the whole variance, limits of heritability when it was estimated, the whole variance.
type Stated = (Parts, Option<(f64, f64)>, f64);

/// Variance of the species' means as a multiple of the whole: wide, so that the readings decide, yet a species with few
/// plants is drawn to the mean. Our own choice.
const SPECIES: f64 = 1.0;

fn fractions(parts: &Parts) -> Fractions {
    Fractions {
        additive: parts.heritability,
        permanent: parts.permanent,
        groups: vec![parts.sitting, parts.pod],
        apart: vec![SPECIES],
    }
}

fn relatives(kinship: &Kinship) -> Result<Relatives, String> {
    let parts = kinship
        .inverse_parts()
        .map_err(|singular| singular.to_string())?;
    let mut relatives = Relatives {
        sources: vec![Vec::new(); parts.len()],
        own: vec![1.0; parts.len()],
    };
    for part in parts.contributions {
        relatives.sources[part.row] = part
            .sources
            .into_iter()
            .map(|(row, share)| (row as u32, share))
            .collect();
        relatives.own[part.row] = part.own;
    }
    Ok(relatives)
}

fn cautions(traits: &[TraitOfMerit], rows: &[MeritRow], without_news: usize) -> Vec<String> {
    let mut lines = Vec::new();
    for of in traits {
        let p = &of.parts;
        let rest = 1.0 - p.heritability - p.permanent - p.sitting - p.pod;
        let basis = match of.heritability_limits {
            Some((low, high)) => format!("estimated, 95 % limits {low:.2} to {high:.2}"),
            None => "stated, not measured".to_owned(),
        };
        lines.push(format!(
            "{}: heritability {:.2} ({basis}), permanent {:.2}, sitting {:.2}, pod {:.2}, error of a reading {rest:.2}",
            of.name, p.heritability, p.permanent, p.sitting, p.pod
        ));
        if of.left_out.total() > 0 {
            lines.push(format!("{}: left out {}", of.name, of.left_out.words()));
        }
    }
    let pod_only = rows
        .iter()
        .filter(|row| row.of_traits.iter().all(|of| !of.beyond_its_pod))
        .count();
    if pod_only > 0 {
        lines.push(format!(
            "{} no better known than by the mean of the pod (marked \"pod\"): choose among them by reading them, not by this table",
            counted(pod_only, "plant is", "plants are")
        ));
    }
    if without_news > 0 {
        lines.push(format!(
            "{} without any read relative left out: nothing is known of them",
            counted(without_news, "plant", "plants")
        ));
    }
    if traits.len() > 1 {
        lines.push("errors of the index take the traits as independent".into());
    }
    lines.push("merit is what a plant is expected to pass on, twice over; its seedlings get half of it and differ".into());
    lines
}

impl Report for MeritReport {
    fn sheet(&self) -> Sheet {
        let names: Vec<&str> = self.traits.iter().map(|of| of.name.as_str()).collect();
        let read: usize = self.traits.iter().map(|of| of.readings).sum();
        let best = self
            .rows
            .first()
            .map_or_else(String::new, |row| format!("; best predicted: {}", row.id));
        let mut sheet = Sheet::new(format!(
            "merit in {} of {} from {}{best}",
            names.join(" and "),
            counted(self.rows.len(), "plant", "plants"),
            counted(read, "reading", "readings"),
        ));
        let mut headings = vec!["plant".to_owned()];
        if self.traits.len() > 1 {
            headings.extend([">index (genetic SD)".to_owned(), ">±".to_owned()]);
        }
        for of in &self.traits {
            let unit = if of.unit == "percent" { "%" } else { "steps" };
            headings.extend([
                format!(">{}, {unit}", of.code),
                ">±".into(),
                ">reliability".into(),
                ">readings".into(),
                String::new(),
            ]);
        }
        let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
        let mut table = Table::new(&headings);
        for row in &self.rows {
            let mut cells: Vec<Cell> = vec![row.id.clone().into()];
            if self.traits.len() > 1 {
                cells.extend([Cell::Number(row.index, 2), Cell::Number(row.index_error, 2)]);
            }
            for (of, told) in row.of_traits.iter().zip(&self.traits) {
                let decimals = if told.unit == "percent" { 0 } else { 2 };
                cells.extend([
                    Cell::Number(of.merit, decimals),
                    Cell::Number(of.error, decimals),
                    Cell::Number(of.reliability, 2),
                    of.readings.into(),
                    if of.beyond_its_pod { "" } else { "pod" }.into(),
                ]);
            }
            table.row(cells);
        }
        sheet.table(table);
        sheet.cautions.extend(self.cautions.iter().cloned());
        sheet
    }
}
