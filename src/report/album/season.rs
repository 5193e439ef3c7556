//! What the page of the season holds: what is open, what is due, and the plan.

use super::page::WorkSheet;
use super::whole::Album;
use crate::analysis::due::{DueOptions, due};
use crate::analysis::plan::{GoalsGiven, PlanOptions, goals, plan};
use crate::analysis::ready::ready;
use crate::record::GoalsPage;
use crate::report::sheet::{Report, Sheet};

/// How far ahead the page looks, days: for flowers, for what is due, and for the plan, as their commands do.
const AHEAD: (u32, u32, u32) = (42, 30, 120);
/// Steps of the plan; `podbook plan` takes more.
const STEPS: u64 = 20_000;

/// What is open, what is due, and the plan.
///
/// # Errors
/// If what is open cannot be found out.
pub fn work(pages: &Album, goals_of: &GoalsPage) -> Result<Vec<WorkSheet>, String> {
    let context = pages.context;
    let (open, within, ahead) = AHEAD;
    let ready = ready(context, (context.today, open)).map_err(|why| why.to_string())?;
    let options = DueOptions {
        within,
        pollen_lasts: goals_of.pollen_lasts,
    };
    let mut sheets = vec![
        WorkSheet {
            heading: "In flower, and pollen in hand",
            sheet: ready.sheet(),
        },
        WorkSheet {
            heading: "What is due",
            sheet: due(context, options).sheet(),
        },
    ];
    let options = PlanOptions {
        days_ahead: ahead,
        any_time: false,
        runners_up: 0,
        steps: STEPS,
    };
    let planned = goals(context.registry, goals_of, &GoalsGiven::default())
        .map_err(|why| why.to_string())
        .and_then(|meant| {
            let plan = plan(context, (meant, options), &mut |_, _| true);
            plan.map_err(|why| why.to_string())
        });
    sheets.push(WorkSheet {
        heading: "Plan of pollinations",
        sheet: match planned {
            Ok(plan) => plan.sheet(),
            Err(why) => Sheet::new(why),
        },
    });
    Ok(sheets)
}
