//! `podbook list`: plants, crosses and pods in rows.

use super::output::Output;
use crate::analysis::list::PlantFilter;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::record::{Day, Sex};
use crate::recording::at_place::standing_at;
use crate::recording::dates::asked;
use crate::registry::{CrossRow, Registry, Target};
use crate::report::list::{crosses, handed_on, plants, pods};
use clap::{Args, Subcommand, ValueEnum};

/// List plants, crosses or pods
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook list --alive --sex female --registry registry-demo")]
#[command(args_conflicts_with_subcommands = true)]
pub struct List {
    #[command(subcommand)]
    of: Option<ListOf>,
    #[command(flatten)]
    plants: PlantsAsked,
}

#[derive(Subcommand, Debug)]
enum ListOf {
    /// Founders and seedlings
    Plants(PlantsAsked),
    /// Crosses, from pollination to what is kept
    Crosses {
        #[command(flatten)]
        output: Output,
    },
    /// Pods
    Pods {
        /// Only those of this cross
        #[arg(long, value_name = "CROSS")]
        cross: Option<String>,
        #[command(flatten)]
        output: Output,
    },
    /// What was sold or given away, to whom, for how much and under which tag
    #[command(alias = "given")]
    Sold {
        #[command(flatten)]
        output: Output,
    },
}

#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook list plants --cross X22-02 --unread-since 2024-01 --registry registry-demo"
)]
struct PlantsAsked {
    #[command(flatten)]
    filter: PlantArgs,
    #[command(flatten)]
    output: Output,
}

/// Conditions a plant must meet.
#[derive(Args, Debug)]
pub(super) struct PlantArgs {
    /// Only plants in the collection
    #[arg(long)]
    alive: bool,
    /// Only plants that died, were culled, lost, sold or given away
    #[arg(long, conflicts_with = "alive")]
    gone: bool,
    /// Only plants marked to keep
    #[arg(long)]
    kept: bool,
    /// Only founders
    #[arg(long)]
    founders: bool,
    /// Only plants of this sex, seen on open flowers
    #[arg(long, value_name = "SEX")]
    sex: Option<SexWord>,
    /// Only plants that descend from this species
    #[arg(long, value_name = "EPITHET")]
    species: Option<String>,
    /// Only seedlings of this cross
    #[arg(long, value_name = "CROSS")]
    cross: Option<String>,
    /// Only plants that stand here
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Only plants not read on or after this date
    #[arg(long, value_name = "DATE")]
    unread_since: Option<String>,
}

#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug)]
enum SexWord {
    Female,
    Male,
    Unsexed,
}

impl List {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, mut remarks) = request.registry(&sources);
        let context = Context::of(&registry, request.today()?);
        match self.of.unwrap_or(ListOf::Plants(self.plants)) {
            ListOf::Plants(PlantsAsked { filter, output }) => {
                let filter = filter.filter(&registry, request.today()?)?;
                let list = plants(&context, &filter).map_err(Refusal::arguments)?;
                // An empty shelf is an answer, a place that was mistyped looks like one.
                if let (Some(place), true) = (&filter.place, list.plants.is_empty())
                    && let Err(slip) = standing_at(&registry, place, request.today()?)
                {
                    remarks += &format!("{slip}\n");
                }
                output.answer(request, &list, remarks)
            }
            ListOf::Crosses { output } => output.answer(request, &crosses(&context), remarks),
            ListOf::Sold { output } => output.answer(request, &handed_on(&context), remarks),
            ListOf::Pods { cross, output } => {
                let cross = cross
                    .map(|code| cross_named(&registry, &code))
                    .transpose()?;
                output.answer(request, &pods(&registry, cross), remarks)
            }
        }
    }
}

impl PlantArgs {
    /// The filter as meant.
    pub(super) fn filter(self, registry: &Registry, today: Day) -> Result<PlantFilter, Refusal> {
        let unread_since = match &self.unread_since {
            None => None,
            Some(text) => {
                let when = asked(text, registry.settings.hemisphere, today);
                let when = when.ok_or_else(|| {
                    Refusal::arguments(format!(
                        "--unread-since needs a date such as 2024-05; found `{text}`"
                    ))
                })?;
                Some(when.first)
            }
        };
        Ok(PlantFilter {
            alive: self.alive,
            gone: self.gone,
            kept: self.kept,
            founders: self.founders,
            sex: match self.sex {
                Some(SexWord::Female) => Some(Sex::Female),
                Some(SexWord::Male) => Some(Sex::Male),
                _ => None,
            },
            unsexed: self.sex == Some(SexWord::Unsexed),
            species: self.species,
            cross: self
                .cross
                .map(|code| cross_named(registry, &code))
                .transpose()?,
            unread_since,
            place: self.place,
        })
    }
}

fn cross_named(registry: &Registry, code: &str) -> Result<CrossRow, Refusal> {
    match super::known(registry, code)? {
        Target::Cross(cross) => Ok(cross),
        _ => Err(Refusal::arguments(format!("`{code}` is not a cross"))),
    }
}
