//! `podbook select`: whom to keep, sell or let go.

use super::charted::Charted;
use super::output::Form;
use crate::analysis::merit::Parts;
use crate::analysis::select::{KeepWish, Proposal, SelectReport, keep, show_beside};
use crate::cli::recording::{Book, Change};
use crate::cli::request::{Outcome, Refusal, Request, shown};
use crate::record::{KeepRules, Need, Shelf, Weight};
use crate::recording::events::keep::mark;
use crate::registry::Registry;
use crate::render;
use crate::report::select::{select_grid, select_scatter};
use crate::text::read_plain;
use clap::Args;
use std::path::{Path, PathBuf};

/// Propose which seedlings to keep, sell or cull
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook select X22-02 --weigh span=1 --weigh banding=2 --keep 4 --registry registry-demo\n         \
    podbook select X22-02 X18-01 --weigh span=1 --need banding=3 --keep 3 --minutes 20 --registry registry-demo\n         \
    podbook select X22-02 --weigh span=1 --weigh banding=2 --keep 4 -o grid.png --for phone --registry registry-demo\n         \
    podbook select X22-02 --weigh banding=1 --show all -o grid.pdf --registry registry-demo\n\
    A file for --rules: (weigh: [(of: \"span\", weight: 1)], need: [(of: \"banding\", at_least: 2)], keep: 4,\n\
    quotas: [(cross: \"X18-01\", keep: 6)], small_cross: 5, both_sexes: 0.9, shelf: (width_cm: 110, depth_cm: 110, shelves: 1, pot_cm: 7))\n\
    Nothing is written without --apply, which sets `kept: (on:, why:)` for the plants to keep and changes no other byte."
)]
pub struct Select {
    /// Codes of crosses, pods or sowings
    #[arg(value_name = "ID", required = true)]
    ids: Vec<String>,
    /// File of rules; what the options below say is added to it
    #[arg(long, value_name = "FILE")]
    rules: Option<PathBuf>,
    /// A trait and its weight for one standard deviation, such as span=1; below zero where less is better
    #[arg(long, value_name = "TRAIT=WEIGHT", allow_hyphen_values = true)]
    weigh: Vec<String>,
    /// A trait and the least that is kept, in the unit shown, such as banding=3
    #[arg(long, value_name = "TRAIT=LEAST")]
    need: Vec<String>,
    /// A trait and the most that is kept, in the unit shown
    #[arg(long, value_name = "TRAIT=MOST")]
    at_most: Vec<String>,
    /// A trait to show beside those that count, in the picture and in JSON; or all that were read
    #[arg(long, value_name = "TRAIT", conflicts_with = "scatter")]
    show: Vec<String>,
    /// How many to keep of each cross
    #[arg(long, value_name = "N")]
    keep: Option<usize>,
    /// Keep crosses whole that have no more plants than this
    #[arg(long, value_name = "N")]
    small_cross: Option<usize>,
    /// Keep enough for this chance of both sexes, such as 0.9
    #[arg(long, value_name = "CHANCE")]
    both_sexes: Option<f64>,
    /// Usable width and depth of a shelf in cm, such as 110x110
    #[arg(long, value_name = "WIDTHxDEPTH")]
    shelf: Option<String>,
    /// How many shelves there are
    #[arg(long, value_name = "N", requires = "shelf")]
    shelves: Option<f64>,
    /// Pot size in cm for plants without one on record
    #[arg(long, value_name = "CM", requires = "shelf")]
    pot: Option<f64>,
    /// Tell which plants to read next in so many minutes
    #[arg(long, value_name = "MINUTES")]
    minutes: Option<f64>,
    /// Minutes it takes to read one plant
    #[arg(long, value_name = "MINUTES", default_value_t = 1.0)]
    minutes_each: f64,
    /// Heritability assumed for what the choice is expected to pass on, 0 to 1
    #[arg(long, value_name = "H2", default_value_t = Parts::default().heritability)]
    heritability: f64,
    /// Draw the two traits that count against each other instead of the grid
    #[arg(long, conflicts_with = "apply")]
    scatter: bool,
    /// Mark the plants to keep in their files
    #[arg(long)]
    apply: bool,
    #[command(flatten)]
    picture: Charted,
}

impl Select {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        // A form that cannot be is refused before anything is written.
        let form = self.picture.form(request)?;
        if !self.show.is_empty() && matches!(form, Form::Text | Form::Csv) {
            return Err(Refusal::arguments(
                "--show adds columns to the picture and to JSON\nend the file of -o with .png, .svg, .pdf or .json, or leave --show out",
            ));
        }
        let rules = self.rules()?;
        let today = request.today()?;
        let wish = KeepWish {
            today,
            minutes: positive("--minutes", self.minutes)?,
            minutes_each: positive("--minutes-each", Some(self.minutes_each))?.unwrap_or(1.0),
            heritability: self.share("--heritability", self.heritability)?,
        };
        if !self.apply {
            let sources = request.sources()?;
            let (registry, remarks) = request.registry(&sources);
            let report = self.proposal(&registry, &rules, wish)?;
            return self.answer(request, &report, remarks);
        }
        let book = Book::open(request, false)?;
        let (registry, remarks) = request.registry(&book.sources);
        let mut report = self.proposal(&registry, &rules, wish)?;
        let written = apply(request, &book, &registry, &mut report)?;
        let remarks = format!("{}{remarks}", book.remarks);
        match self.answer(request, &report, remarks) {
            Ok(mut outcome) => {
                outcome.written.extend(written);
                Ok(outcome)
            }
            Err(refusal) => Err(refusal.after(&written)),
        }
    }

    fn proposal(
        &self,
        registry: &Registry,
        rules: &KeepRules,
        wish: KeepWish,
    ) -> Result<SelectReport, Refusal> {
        for id in &self.ids {
            super::known(registry, id)?;
        }
        let mut report = keep(registry, &self.ids, rules, wish).map_err(Refusal::arguments)?;
        let shown = (&self.show[..], wish.today);
        show_beside(registry, &self.ids, shown, &mut report).map_err(Refusal::arguments)?;
        Ok(report)
    }

    fn answer(
        &self,
        request: &Request,
        report: &SelectReport,
        remarks: String,
    ) -> Result<Outcome, Refusal> {
        let reports = std::slice::from_ref(report);
        if self.scatter && self.picture.is_drawn(request)? {
            let chart = select_scatter(report).map_err(Refusal::arguments)?;
            let draw = |look| render::chart::scatter(&chart, look);
            return self.picture.answer(request, reports, draw, remarks);
        }
        let draw = |look| render::chart::select(&select_grid(report), look);
        self.picture.answer(request, reports, draw, remarks)
    }

    fn share(&self, flag: &str, share: f64) -> Result<f64, Refusal> {
        match (0.0..=1.0).contains(&share) {
            true => Ok(share),
            false => Err(Refusal::arguments(format!(
                "{flag} lies between 0 and 1; found {share}"
            ))),
        }
    }

    /// The rules of the file, and what the options add to them.
    fn rules(&self) -> Result<KeepRules, Refusal> {
        let of_file = self.rules.as_deref().map(rules_of).transpose()?;
        let mut rules = of_file.unwrap_or_default();
        for text in &self.weigh {
            let (of, weight) = pair("--weigh", text)?;
            rules.weigh.push(Weight { of, weight });
        }
        let (at_least, at_most) = (None, None);
        for text in &self.need {
            let (of, least) = pair("--need", text)?;
            let at_least = Some(least);
            rules.need.push(Need {
                of,
                at_least,
                at_most,
            });
        }
        for text in &self.at_most {
            let (of, most) = pair("--at-most", text)?;
            let at_most = Some(most);
            rules.need.push(Need {
                of,
                at_least,
                at_most,
            });
        }
        rules.keep = self.keep.or(rules.keep);
        rules.small_cross = self.small_cross.or(rules.small_cross);
        rules.both_sexes = self.both_sexes.or(rules.both_sexes);
        if let Some(text) = &self.shelf {
            rules.shelf = Some(self.shelf(text)?);
        }
        within_bounds(&rules)?;
        Ok(rules)
    }

    fn shelf(&self, text: &str) -> Result<Shelf, Refusal> {
        let sizes = text.split_once(['x', '×']).and_then(|(width, depth)| {
            Some((width.trim().parse().ok()?, depth.trim().parse().ok()?))
        });
        let (width_cm, depth_cm) = sizes.ok_or_else(|| {
            Refusal::arguments(format!(
                "--shelf needs width and depth in cm such as 110x110; found `{text}`"
            ))
        })?;
        Ok(Shelf {
            width_cm,
            depth_cm,
            shelves: self.shelves.unwrap_or(1.0),
            pot_cm: self.pot,
        })
    }
}

fn rules_of(file: &Path) -> Result<KeepRules, Refusal> {
    let place = shown(file);
    let text = read_plain(file)
        .map_err(|why| Refusal::files(format!("{place} could not be read: {why}")))?;
    KeepRules::read(&text).map_err(|why| {
        Refusal::files(format!(
            "{place}:{why}\nsee `podbook select --help` for a rules file"
        ))
    })
}

/// Refuses a chance that is none, and a shelf or pot without a size.
fn within_bounds(rules: &KeepRules) -> Result<(), Refusal> {
    let is_chance = |chance: f64| (0.0..1.0).contains(&chance);
    if !rules.both_sexes.is_none_or(is_chance) {
        return Err(Refusal::arguments(
            "the chance of both sexes lies from 0 to below 1, such as 0.9",
        ));
    }
    let sizes = rules.shelf.iter().flat_map(|of| {
        let pot = of.pot_cm.unwrap_or(1.0);
        [of.width_cm, of.depth_cm, of.shelves, pot]
    });
    let is_size = |size: f64| size.is_finite() && size > 0.0 && size < 1e5;
    match sizes.into_iter().all(is_size) {
        true => Ok(()),
        false => Err(Refusal::arguments(
            "shelf sizes, shelves and pot size must be numbers above zero",
        )),
    }
}

/// `span=1`.
fn pair(option: &str, text: &str) -> Result<(String, f64), Refusal> {
    let found = text.split_once('=').and_then(|(of, number)| {
        let number: f64 = number.trim().parse().ok()?;
        number.is_finite().then(|| (of.trim().to_owned(), number))
    });
    found.ok_or_else(|| {
        Refusal::arguments(format!(
            "{option} needs a trait and a number such as span=1; found `{text}`"
        ))
    })
}

fn positive(option: &str, number: Option<f64>) -> Result<Option<f64>, Refusal> {
    match number {
        Some(number) if !(number.is_finite() && number > 0.0) => Err(Refusal::arguments(format!(
            "{option} needs a number above zero; found {number}"
        ))),
        number => Ok(number),
    }
}

/// Marks the plants proposed to be kept that bear no mark yet; gives the paths of the pages written.
fn apply(
    request: &Request,
    book: &Book,
    registry: &Registry,
    report: &mut SelectReport,
) -> Result<Vec<String>, Refusal> {
    let wanted = report.plants.iter();
    let wanted = wanted.filter(|row| row.proposal == Proposal::Keep && !row.already_marked);
    let marks: Vec<_> = wanted
        .map(|row| (row.row, Some(row.reason.to_string())))
        .collect();
    report.applied = true;
    if marks.is_empty() {
        return Ok(Vec::new());
    }
    let count = marks.len();
    let on = book.today.to_string();
    let change = Change::of(registry, book.today, |draft| mark(draft, &on, marks))
        .map_err(|slip| Refusal::slip(&slip))?;
    let told = book.record(request, registry, change)?;
    report.marked = count;
    Ok(told.pages)
}
