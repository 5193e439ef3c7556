//! How much variety a set of plants holds, and what a death would cost.

use super::caution::Weight;
use super::cell::Cell;
use super::kinship::{decimal, four_decimals};
use super::sheet::{Report, Sheet};
use super::table::Table;
use crate::analysis::diversity::{self, AncestorPart, Diversity, DiversityError, Figures};
use crate::analysis::diversity::{PlantPart, Rest};
use crate::analysis::kinship::RestsOn;
use crate::analysis::siblings::{Sibling, alike_siblings};
use crate::context::Context;
use crate::lineage::PlantRow;
use crate::observation::mixed_up::tags_in_doubt;
use crate::registry::Registry;
use crate::wording::{counted, in_brackets, joined, listed};
use serde::Serialize;

/// Variety of a set.
#[derive(Serialize)]
pub struct DiversityReport {
    #[serde(flatten)]
    figures: Figures,
    /// The ancestors that make up the effective number, the largest contribution first; as many as are needed to explain
    /// the set.
    ancestors: Vec<AncestorRow>,
    /// Plants, those whose death costs most first.
    rows: Vec<DiversityRow>,
    /// Founders whose line hangs on one plant.
    sole_lines: Vec<SoleLine>,
    /// What the figures rest on.
    rests_on: RestsOn,
    /// Tags of its plants that may be on others.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    cautions: Vec<String>,
    /// Through how many of the ancestors half of the genes come.
    #[serde(skip)]
    half: usize,
    /// The ancestors too many to be listed.
    #[serde(skip)]
    rest: Option<Rest>,
    #[serde(skip)]
    filter: String,
}

/// One ancestor, or plant of the set, that others descend from.
#[derive(Serialize)]
struct AncestorRow {
    /// Code; `null` for a parent that is not recorded.
    id: Option<String>,
    #[serde(flatten)]
    part: AncestorPart,
}

/// One plant of the set.
#[derive(Serialize)]
struct DiversityRow {
    /// Code.
    id: String,
    #[serde(flatten)]
    part: PlantPart,
    #[serde(skip)]
    sibling: Option<Sibling>,
}

/// A founder's line that hangs on one plant.
#[derive(Serialize)]
struct SoleLine {
    /// The founder.
    founder: String,
    /// The only plant of the set that carries it.
    carried_by: String,
}

/// The variety of a set, and what it was filtered by in words.
///
/// # Errors
/// In words, when the set is empty or the pedigree too entangled.
pub fn diversity(
    context: &Context,
    set: &[PlantRow],
    filter: String,
) -> Result<DiversityReport, String> {
    let answer = diversity::diversity(context, set).map_err(|error| match error {
        DiversityError::Empty => "no plant matches the filter".to_owned(),
        DiversityError::TooComplex(error) => error.to_string(),
    })?;
    Ok(DiversityReport::of(context.registry, answer, filter))
}

impl DiversityReport {
    fn of(registry: &Registry, answer: Diversity, filter: String) -> DiversityReport {
        let ancestor = |of: &AncestorPart| AncestorRow {
            id: of.plant.map(|plant| registry.code(plant)),
            part: *of,
        };
        let row = |part: &PlantPart| DiversityRow {
            id: registry.code(part.plant),
            part: *part,
            sibling: Sibling::of(registry, part.plant),
        };
        let line = |line: &diversity::SoleLine| SoleLine {
            founder: registry.code(line.founder),
            carried_by: registry.code(line.carried_by),
        };
        DiversityReport {
            figures: answer.figures,
            half: answer.half().len(),
            rest: answer.rest(ANCESTORS),
            ancestors: answer.ancestors.iter().map(ancestor).collect(),
            cautions: tags_in_doubt(registry, answer.plants.iter().map(|of| of.plant)),
            rows: answer.plants.iter().map(row).collect(),
            sole_lines: answer.sole_lines.iter().map(line).collect(),
            rests_on: answer.rests_on,
            filter,
        }
    }
}

impl Report for DiversityReport {
    fn sheet(&self) -> Sheet {
        let together = |a: &DiversityRow, b: &DiversityRow| printed(a) == printed(b);
        // More variety without a plant is no cost: a screen says so in words.
        self.told(together, |loss| match loss < 0.0 {
            true => "none".into(),
            false => Cell::Number(loss * 1000.0, 2),
        })
    }

    fn spreadsheet(&self) -> Sheet {
        self.told(|_, _| false, |loss| Cell::Number(loss * 1000.0, 2))
    }
}

/// What a row prints. Sums in another order differ in their last bits; rows are alike when they are printed alike.
fn printed(row: &DiversityRow) -> (String, Option<String>, usize) {
    let loss = row.part.loss.map(|loss| format!("{:.2}", loss * 1000.0));
    (
        format!("{:.4}", row.part.mean_kinship),
        loss,
        row.part.pieces,
    )
}

fn percent(part: f64) -> String {
    format!("{:.1} %", part * 100.0)
}

/// Ancestors listed one by one.
const ANCESTORS: usize = 12;

impl AncestorRow {
    fn name(&self) -> String {
        let unknown = || "an unknown parent".to_owned();
        self.id.clone().unwrap_or_else(unknown)
    }

    /// What is in doubt of its being an ancestor.
    fn doubt(&self) -> Option<&'static str> {
        match (self.part.only_possible, self.part.uncertain) {
            (true, true) => Some("one of several possible parents"),
            (true, false) => Some("behind one of several possible parents"),
            (false, true) => Some("for some plants only one of several possible parents"),
            (false, false) => None,
        }
    }

    fn remarks(&self) -> String {
        let tied = self.part.tied.then_some("another adds as much");
        let remarks = [self.doubt(), tied].into_iter().flatten();
        joined(remarks, "; ")
    }
}

impl DiversityReport {
    /// The fewest ancestors through which half of the genes come.
    fn half_from(&self) -> String {
        let name = |of: &AncestorRow| match (of.part.only_possible, of.part.uncertain) {
            (false, false) => of.name(),
            (true, _) => format!("perhaps {} ({})", of.name(), of.doubt().unwrap_or_default()),
            (false, true) => format!("{} ({})", of.name(), of.doubt().unwrap_or_default()),
        };
        let names: Vec<String> = self.ancestors[..self.half].iter().map(name).collect();
        let through = match names.len() {
            n if n > ANCESTORS => counted(n, "ancestor", "ancestors"),
            _ => listed(&names),
        };
        format!("half of their genes come through {through}")
    }

    /// The plants without a spare piece whose loss would cost most, at most three, or the plant hardest to replace.
    fn back_up_first(&self) -> String {
        let alone = self.rows.iter().filter(|row| row.part.lacks_a_spare());
        let alone: Vec<&DiversityRow> = alone.collect();
        let alike = |a: &&DiversityRow, b: &&DiversityRow| printed(a) == printed(b);
        let groups = alike_siblings(&alone, |row| (&row.id, row.sibling), alike);
        let first: Vec<String> = groups.into_iter().take(3).map(|(codes, _)| codes).collect();
        match (&first[..], self.rows.first()) {
            ([], Some(row)) => format!("{} is the hardest to replace", row.id),
            ([], None) => "Nothing to back up".to_owned(),
            (first, _) => format!("No spare piece, back up first: {}", first.join("; ")),
        }
    }

    fn ancestor_table(&self) -> Table {
        let named = self.ancestors.iter().take(ANCESTORS);
        let named = named.map(|of| {
            (
                of.name(),
                of.part.contribution,
                of.part.together,
                of.remarks(),
            )
        });
        let more = self.rest.map(|rest| {
            let more = format!("{} more", rest.ancestors);
            (more, rest.contribution, 1.0, String::new())
        });
        let rows: Vec<_> = named.chain(more).collect();
        Table::of(&rows)
            .titled("Ancestors that make up the effective number")
            .text("ancestor", |row| &row.0)
            .figure("adds", |row| percent(row.1))
            .figure("together", |row| percent(row.2))
            .text("", |row| &row.3)
            .into()
    }

    fn told(
        &self,
        together: impl Fn(&DiversityRow, &DiversityRow) -> bool,
        cost: impl Fn(f64) -> Cell,
    ) -> Sheet {
        let figures = &self.figures;
        let filter = in_brackets(Some(&self.filter).filter(|of| !of.is_empty()));
        let hold = if figures.plants == 1 { "holds" } else { "hold" };
        let mut sheet = Sheet::new(format!(
            "{}. {}{filter} {hold} as much variety as {:.1} unrelated founders; {}",
            self.back_up_first(),
            counted(figures.plants, "plant", "plants"),
            figures.founder_genome_equivalents,
            self.half_from()
        ));
        let groups = alike_siblings(&self.rows, |row| (&row.id, row.sibling), together);
        let rows = groups.iter().map(|(plants, rows)| (plants, &rows[0]));
        sheet.table(
            Table::of(rows)
                .titled("Hardest to replace (gene diversity lost with the plant, in thousandths)")
                .text("plant", |(plants, _)| plants)
                .number("mean kinship", 4, |(_, row)| row.part.mean_kinship)
                .figure("lost with it", |(_, row)| row.part.loss.map(&cost))
                .figure("pieces here", |(_, row)| row.part.pieces)
                .text("spare", |(_, row)| match row.part.pieces {
                    1 => "none: take a cutting",
                    _ => "",
                }),
        );
        let lines = self.sole_lines.iter();
        sheet.lines(
            Some("Founders whose line only one plant carries"),
            lines.map(|line| format!("{}: only {}", line.founder, line.carried_by)),
        );
        let of_ancestors = "Boichard, Maignel & Verrier 1997";
        let [diversity, kinship, inbreeding] = [
            format!("at most {}", decimal(figures.gene_diversity)),
            format!("at least {}", four_decimals(figures.mean_kinship)),
            format!("at least {}", four_decimals(figures.mean_inbreeding)),
        ];
        let [founders, ancestors, equivalents] = [
            (figures.effective_founders, "Lacy 1989"),
            (figures.effective_ancestors, of_ancestors),
            (figures.founder_genome_equivalents, "from mean kinship"),
        ]
        .map(|(figure, by)| format!("{figure:.2} ({by})"));
        let unknown = (figures.unknown > 0.0).then(|| percent(figures.unknown));
        sheet.facts(
            None,
            [
                ("founders behind them", Some(figures.founders.to_string())),
                ("gene diversity", Some(diversity)),
                ("effective founders", Some(founders)),
                ("effective ancestors", Some(ancestors)),
                ("founder genome equivalents", Some(equivalents)),
                ("mean kinship", Some(kinship)),
                ("mean inbreeding", Some(inbreeding)),
                ("through unknown parents", unknown),
            ],
        );
        sheet.table(self.ancestor_table());
        for words in &self.cautions {
            sheet.caution(Weight::Doubt, words.clone());
        }
        sheet.cautions_of(&self.rests_on.assumptions());
        sheet.caution(Weight::General, "plants stand in the order of the variety lost with them; `podbook due` asks for cuttings of founders, parents and plants marked to keep, whatever they add to the variety");
        if self.rows.iter().any(|row| row.part.holds_variety_down()) {
            sheet.caution(Weight::General, "none lost, or below 0: the others would be more varied without the plant; it may still be worth keeping");
        }
        sheet
    }
}
