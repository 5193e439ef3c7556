//! `podbook plan`: the season's best set of pollinations.

use super::charted::Charted;
use super::goals::{goals_page, goals_text};
use crate::analysis::plan::{GoalsGiven, PlanOptions, Stage, goals, plan};
use crate::cli::request::{INTERRUPTED, Outcome, Refusal, Request};
use crate::cli::working::CLEAR;
use crate::context::Context;
use crate::planning::search::Progress;
use crate::render::chart::{calendar, plans};
use crate::report::Report;
use crate::report::plan::{plan_on_the_bench, plans_chart, worth_figure};
use clap::Args;
use std::io::IsTerminal;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

/// Plan the season's pollinations
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook plan --pots 120 --trait banding=2 --registry registry-demo\n         \
    podbook plan --any-time --pots 120 -o plan.svg --registry registry-demo\n         \
    podbook plan --any-time --pots 120 --bench -o bench.pdf --registry registry-demo\n\
    Goals are read from goals.ron in the registry if it is there, or from a file of yours with --goals; options override it.\n\
    Exit code 1 when no plan keeps every limit, 2 when a goal is impossible, such as a pair that cannot be crossed.\n\
    Ctrl-C ends the work with the best plan so far and how much better any other could be; exit code 130."
)]
pub struct Plan {
    /// Pots for this season's seedlings
    #[arg(long, value_name = "N")]
    pots: Option<u32>,
    /// File of goals [default: goals.ron of the registry]
    #[arg(long, value_name = "FILE")]
    goals: Option<PathBuf>,
    /// Trait by code, with its weight (banding=2); may be given several times
    #[arg(long = "trait", value_name = "TRAIT[=WEIGHT]")]
    traits: Vec<String>,
    /// Seedlings raised from each pod, one pot each
    #[arg(long, value_name = "N")]
    seedlings: Option<u32>,
    /// Most pods on one flowering female
    #[arg(long, value_name = "N")]
    pods_per_spike: Option<u32>,
    /// Highest inbreeding of any seedlings, 0 to 1
    #[arg(long, value_name = "F")]
    most_inbreeding: Option<f64>,
    /// Highest mean kinship of the seedlings with what is kept, 0 to 1
    #[arg(long, value_name = "K")]
    most_kinship: Option<f64>,
    /// How many days ahead the season reaches
    #[arg(long, value_name = "DAYS", default_value_t = 120)]
    ahead: u32,
    /// Plan as if every plant flowered whose sex was seen or guessed
    #[arg(long)]
    any_time: bool,
    /// Other good plans to show
    #[arg(long, value_name = "N", default_value_t = 4)]
    others: usize,
    /// Stop after so many steps in all: the plan first, then what limits cost, then gain against kinship
    #[arg(long, value_name = "N", default_value_t = 200_000)]
    steps: u64,
    /// Stop after so many seconds, with the best plan so far; the answer then depends on the machine
    #[arg(long, value_name = "SECONDS")]
    seconds: Option<u64>,
    /// Draw the plan as a sheet for the bench: plants, places, envelopes and days, with boxes to tick
    #[arg(long)]
    bench: bool,
    #[command(flatten)]
    picture: Charted,
}

impl Plan {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        // Nothing is planned for a picture that cannot be or a file that may not be written.
        let is_drawn = self.picture.is_drawn(request)?;
        if self.bench && !is_drawn {
            return Err(Refusal::arguments(
                "--bench draws a sheet\nend the file of -o with .pdf, .svg or .png, such as -o plan.pdf, or leave --bench out",
            ));
        }
        let given = self.given()?;
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        let text = goals_text(request, self.goals.as_deref())?;
        let page = goals_page(&text)?;
        let context = Context::of(&registry, request.today()?);
        let meant = goals(&registry, &page, &given).map_err(Refusal::arguments)?;
        let options = PlanOptions {
            days_ahead: self.ahead.min(36_500),
            any_time: self.any_time,
            runners_up: self.others,
            steps: self.steps,
        };
        let mut watch = Watch::begin(self.seconds);
        let report = plan(&context, (meant, options), &mut |stage, progress| {
            watch.goes_on(stage, progress)
        })
        .map_err(Refusal::arguments)?;
        let interrupted = watch.was_interrupted();
        drop(watch);
        if report.pods == 0 && is_drawn {
            return Err(Refusal::arguments(format!(
                "no picture is drawn: {}",
                report.sheet().answer
            )));
        }
        let today = request.today()?;
        let draw = |look| match self.bench {
            true => calendar(&plan_on_the_bench(&report, today, self.ahead), look),
            false => plans(&plans_chart(&report), look),
        };
        let reports = std::slice::from_ref(&report);
        let outcome = self.picture.answer(request, reports, draw, remarks)?;
        Ok(Outcome {
            interrupted,
            ..outcome
        })
    }

    fn given(&self) -> Result<GoalsGiven, Refusal> {
        let traits = self.traits.iter().map(|text| super::merit::weighted(text));
        Ok(GoalsGiven {
            pots: self.pots,
            seedlings_per_pod: self.seedlings,
            pods_per_spike: self.pods_per_spike,
            most_inbreeding: self.most_inbreeding,
            most_kinship: self.most_kinship,
            traits: traits.collect::<Result<Vec<_>, _>>()?,
        })
    }
}

/// Watches the work: tells progress on a terminal once a second, and ends it when the time is up or Ctrl-C was pressed.
struct Watch {
    start: Instant,
    seconds: Option<u64>,
    on_terminal: bool,
    told: u64,
    interrupted: Arc<AtomicBool>,
}

impl Watch {
    /// From here on Ctrl-C ends the work and not the program; pressed again it ends the program.
    fn begin(seconds: Option<u64>) -> Watch {
        let interrupted = Arc::new(AtomicBool::new(false));
        let pressed = Arc::clone(&interrupted);
        // Where no signal can be caught Ctrl-C still ends the program, without a plan.
        let _ = ctrlc::set_handler(move || {
            if pressed.swap(true, Ordering::SeqCst) {
                std::process::exit(i32::from(INTERRUPTED));
            }
        });
        Watch {
            start: Instant::now(),
            seconds,
            on_terminal: std::io::stderr().is_terminal(),
            told: 0,
            interrupted,
        }
    }

    fn goes_on(&mut self, stage: Stage, progress: Progress) -> bool {
        let passed = self.start.elapsed();
        if self.on_terminal && passed.as_secs() > self.told {
            self.told = passed.as_secs();
            eprint!("{CLEAR}{}", progress_words(stage, progress));
        }
        let in_time = self
            .seconds
            .is_none_or(|most| passed < Duration::from_secs(most));
        in_time && !self.was_interrupted()
    }

    fn was_interrupted(&self) -> bool {
        self.interrupted.load(Ordering::SeqCst)
    }
}

impl Drop for Watch {
    fn drop(&mut self) {
        if self.told > 0 {
            eprint!("{CLEAR}");
        }
    }
}

fn progress_words(stage: Stage, progress: Progress) -> String {
    let mut words = format!("planning: {}, {} steps", stage, progress.steps);
    if stage == Stage::BestPlan {
        let best = progress.best.map_or("none yet".to_owned(), worth_figure);
        let bound = worth_figure(progress.bound);
        words.push_str(&format!(", best {best}, bound {bound}"));
    }
    words + "; Ctrl-C ends with the best so far"
}
