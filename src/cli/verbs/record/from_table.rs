//! `podbook measure --from`: a filled sheet or a paste, recorded as one change or not at all.

use super::asking::{Answered, Asker};
use crate::cli::request::{Outcome, Refusal, Request, shown, tell};
use crate::observation::asked_columns::AskedColumn;
use crate::recording::events::measure::record_all;
use crate::recording::events::sitting_page::Circumstances;
use crate::recording::filled::{Filled, Means, Wanted, doubts, filled};
use crate::recording::rows_asked::{one_column, rows_asked};
use crate::recording::slip::Slip;
use crate::registry::{PodRow, Registry, SowingRow, Target};
use crate::report::filled::{bad_words, doubtful_words, match_words};
use crate::text::{GridRow, grid_of_file, grid_of_text};
use std::io::Read;
use std::path::Path;

/// A table to be taken in.
pub(super) struct FromTable {
    /// The file; `-` is standard input.
    pub file: std::path::PathBuf,
    /// The crosses or plants it may hold.
    pub ids: Vec<String>,
    /// The traits to take.
    pub traits: Vec<String>,
    /// What holds for all rows.
    pub circumstances: Circumstances,
    /// Rows that are there may be replaced.
    pub again: bool,
    /// Rows that do not fit are left out.
    pub skip_bad: bool,
    /// Only shown.
    pub dry_run: bool,
}

impl FromTable {
    /// Reads, matches, shows and records it.
    pub(super) fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let grid = self.grid()?;
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        tell(&remarks);
        let table = self.filled(request, &registry, &grid)?;
        tell(&match_words(&table));
        tell(&doubtful_words(&doubts(
            &registry,
            &table,
            request.today()?,
        )));
        let bad = bad_words(&table);
        if !bad.is_empty() && !self.skip_bad {
            return Err(Refusal::arguments(format!(
                "the table does not fit, so nothing was written\n{bad}correct it, or leave such rows and columns out with --skip-bad"
            )));
        }
        tell(&bad);
        if table.sittings.is_empty() {
            return Err(Refusal::arguments(
                "no row of the table can be recorded\nfill in a row for at least one plant",
            ));
        }
        if !self.dry_run && !self.is_meant()? {
            return Err(Refusal::arguments("nothing was written, as you chose"));
        }
        request.record(self.dry_run, |draft| record_all(&table.sittings, draft))
    }

    fn grid(&self) -> Result<Vec<GridRow>, Refusal> {
        let file = &self.file;
        if file != Path::new("-") {
            return grid_of_file(file)
                .map_err(|why| Refusal::files(format!("{} {why}", shown(file))));
        }
        let mut bytes = Vec::new();
        std::io::stdin().read_to_end(&mut bytes).map_err(|error| {
            Refusal::files(format!("standard input could not be read: {error}"))
        })?;
        grid_of_text(&bytes).map_err(|why| Refusal::files(format!("standard input {why}")))
    }

    fn filled(
        &self,
        request: &Request,
        registry: &Registry,
        grid: &[GridRow],
    ) -> Result<Filled, Refusal> {
        let today = request.today()?;
        let refused = |slip: Slip| Refusal::arguments(slip);
        let traits = self.traits.iter().map(|typed| one_column(registry, typed));
        let traits: Vec<AskedColumn> = traits.collect::<Result<_, Slip>>().map_err(refused)?;
        let plants = match self.ids.is_empty() {
            true => None,
            false => Some(rows_asked(registry, &self.ids, None, today).map_err(refused)?),
        };
        let cross = match self.ids.as_slice() {
            [one] => registry.target(one).and_then(|target| match target {
                Target::Cross(cross)
                | Target::Pod(PodRow { cross, .. })
                | Target::Sowing(SowingRow { cross, .. }) => Some(registry[cross].page.code),
                _ => None,
            }),
            _ => None,
        };
        let wanted = Wanted {
            cross,
            plants: plants.as_deref(),
            traits: &traits,
            circumstances: &self.circumstances,
            again: self.again,
            today,
        };
        let mut table = filled(registry, grid, &wanted).map_err(refused)?;
        if self.skip_bad {
            // What is left out is said; it is not half of a row that fits.
            table.sittings.retain(|sitting| !sitting.rows.is_empty());
        }
        let read = |of: &crate::recording::filled::Heading| matches!(of.means, Means::Asked(_));
        match table.headings.iter().any(read) {
            true => Ok(table),
            false => Err(Refusal::arguments(format!(
                "no column of the table names a trait\n{}head each column with a trait and its unit, such as `span cm`",
                bad_words(&table)
            ))),
        }
    }

    /// Whether a person at the terminal agrees; elsewhere the match was shown and that is all.
    fn is_meant(&self) -> Result<bool, Refusal> {
        if self.file == Path::new("-") {
            return Ok(true);
        }
        let mut asker = Asker::new()?;
        if !asker.is_person() {
            return Ok(true);
        }
        let answer = asker.ask("record these rows? y/n ", "", &[])?;
        Ok(
            matches!(answer, Answered::Line(line) if ["y", "yes"].contains(&line.trim().to_lowercase().as_str())),
        )
    }
}
