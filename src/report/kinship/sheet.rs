//! Kinship and inbreeding as a person reads them: where parents are one of several, what a figure may be before its mean.

use crate::analysis::kinship::{InbreedingReport, InbreedingRow, KinReport, PairRow};
use crate::analysis::siblings::alike_siblings;
use crate::report::caution::Weight;
use crate::report::cell::Cell;
use crate::report::kinship::words::{
    decimal, decimals_that_show, odds, outcome_words, probability,
};
use crate::report::sheet::{Report, Sheet};
use crate::report::table::Table;
use crate::wording::{counted, listed};

/// Pairs and ways shown one by one.
const SHOWN: usize = 16;

/// Pairs that the first sentence names.
const PAIRS_NAMED: usize = 3;

impl Report for KinReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        if self.square.len() > 2 {
            sheet.table(self.square_table());
            sheet.lines(Some("May be, at least"), self.may_be_lines());
        }
        if !self.with_each.is_empty() {
            sheet.table(self.way_table());
            if self.with_each.len() > SHOWN {
                let more = format!("{} more ways not shown", self.with_each.len() - SHOWN);
                sheet.lines(None, [more]);
            }
        }
        if !self.paths.is_empty() {
            sheet.table(self.path_table());
            if !self.paths_complete {
                sheet.lines(None, ["further lines are not listed"]);
            }
        }
        let evidence = self.evidence.iter();
        let evidence = evidence.map(|of| format!("{}: {}", of.id, of.evidence.words));
        sheet.lines(Some("Evidence"), evidence);
        sheet.cautions(Weight::Doubt, &self.cautions);
        sheet.cautions_of(&self.rests_on.assumptions());
        let untold = self.pairs.iter().filter(|pair| !pair.ways_known).count();
        if untold > 0 {
            sheet.caution(Weight::Answer, format!(
                "{} may have come about in too many ways to list: only the expected kinship is shown",
                counted(untold, "pair", "pairs")
            ));
        }
        sheet
    }

    /// Two plants that have nothing in common have no lines to list, but a figure.
    fn spreadsheet(&self) -> Sheet {
        let mut sheet = self.sheet();
        if self.square.len() <= 2 && self.with_each.is_empty() && self.paths.is_empty() {
            sheet.table(
                Table::of(&self.pairs)
                    .text("plant", |pair| &pair.a)
                    .text("with", |pair| &pair.b)
                    .number("kinship, at least", 4, |pair| pair.kinship),
            );
        }
        sheet
    }
}

impl PairRow {
    /// Whether the figure is no mean over several possible parents.
    pub(super) fn is_certain(&self) -> bool {
        self.may_be.is_empty() && self.ways_known
    }
}

impl KinReport {
    /// Which two of several plants are the most closely related.
    fn closest(&self) -> String {
        let apart = || self.pairs.iter().filter(|pair| pair.a != pair.b);
        let Some(most) = apart().max_by(|a, b| a.kinship.total_cmp(&b.kinship)) else {
            return format!("Kinship of {}", counted(self.pairs.len(), "pair", "pairs"));
        };
        let alike: Vec<String> = apart()
            .filter(|pair| pair.kinship == most.kinship)
            .map(|pair| format!("{} with {}", pair.a, pair.b))
            .collect();
        let who = match &alike[..] {
            [_] => format!("{} and {}", most.a, most.b),
            pairs if pairs.len() <= PAIRS_NAMED => listed(pairs),
            pairs => format!("{} and {} more pairs", pairs[0], pairs.len() - 1),
        };
        let sure = match most.is_certain() {
            true => "at least",
            false => "expected at least",
        };
        if most.kinship == 0.0 {
            let plants = counted(self.square.len(), "plant", "plants");
            return format!("No two of these {plants} have a common ancestor on record");
        }
        let kinship = probability(most.kinship);
        format!("Most closely related: {who}, kinship {sure} {kinship}")
    }

    fn answer(&self) -> String {
        let [pair] = &self.pairs[..] else {
            return self.closest();
        };
        let of = format!("{} and {}", pair.a, pair.b);
        if pair.kinship == 0.0 {
            return format!(
                "{of} have no common ancestor on record: kinship at least 0, seedlings of the two not known to be inbred"
            );
        }
        let seedlings = "seedlings of the two would be inbred by at least as much";
        match (pair.is_certain(), pair.may_be.is_empty()) {
            (certain, true) => {
                let kinship = match certain {
                    true => format!("at least {}", probability(pair.kinship)),
                    false => format!("expected at least {}", decimal(pair.kinship)),
                };
                format!("Kinship of {of}: {kinship} if the recorded parents are right; {seedlings}")
            }
            (_, false) => format!(
                "Kinship of {of}: at least {}, depending on which of several parents is the true one; expected {}; {seedlings}",
                outcome_words(&pair.may_be),
                decimal(pair.kinship)
            ),
        }
    }

    /// The pair of two plants by their places in the square; `None` for a plant with itself where two alone were asked for.
    pub(super) fn pair(&self, a: usize, b: usize) -> Option<&PairRow> {
        let (a, b, count) = (a.min(b), a.max(b), self.square.len());
        if count == 2 {
            return (a != b).then(|| self.pairs.first()).flatten();
        }
        // Pairs run row by row from the diagonal.
        self.pairs
            .get(a * count - a * a.saturating_sub(1) / 2 + (b - a))
    }

    /// A square of all pairs; the diagonal is a plant with itself.
    fn square_table(&self) -> Table {
        let certain = self.pairs.iter().all(PairRow::is_certain);
        let at = |a: usize, b: usize| self.pair(a, b).map_or(0.0, |pair| pair.kinship);
        let codes = || self.square.iter().enumerate();
        // A file without the cautions says it too.
        let heading = match certain {
            true => "kinship, at least",
            false => "expected kinship, at least",
        };
        Table::of(codes())
            .when(!certain, |columns| {
                columns.titled("Kinship; expected, where parents are one of several")
            })
            .text(heading, |(_, code)| code)
            .each(codes(), |columns, (across, code)| {
                columns.number(code, 4, |(down, _)| at(down, across))
            })
            .into()
    }

    fn may_be_lines(&self) -> Vec<String> {
        let several = |pair: &&PairRow| !pair.may_be.is_empty();
        let of = |pair: &PairRow| match pair.a == pair.b {
            true => format!("{} with itself", pair.a),
            false => format!("{} and {}", pair.a, pair.b),
        };
        let line = |pair: &PairRow| format!("{}: {}", of(pair), outcome_words(&pair.may_be));
        let pairs: Vec<&PairRow> = self.pairs.iter().filter(several).collect();
        let mut lines: Vec<String> = pairs.iter().take(SHOWN).map(|pair| line(pair)).collect();
        if pairs.len() > SHOWN {
            lines.push(format!("{} more pairs not shown", pairs.len() - SHOWN));
        }
        lines
    }

    fn way_table(&self) -> Table {
        Table::of(self.with_each.iter().take(SHOWN))
            .titled("With each possible pair of parents, at least")
            .text("if", |way| way.parents.to_string())
            .figure("chance", |way| odds(way.chance))
            .figure("kinship", |way| decimal(way.kinship))
            .into()
    }

    fn path_table(&self) -> Table {
        let adds = match self.with_each.is_empty() {
            true => "adds",
            false => "adds, expected",
        };
        Table::of(&self.paths)
            .figure(adds, |path| {
                Cell::Number(path.kinship, decimals_that_show(path.kinship))
            })
            .text("through (meeting in brackets)", |path| {
                path.path.to_string()
            })
            .into()
    }
}

impl Report for InbreedingReport {
    fn sheet(&self) -> Sheet {
        let mut rows: Vec<&InbreedingRow> = self.rows.iter().collect();
        if !self.asked {
            rows.retain(|row| row.inbreeding > 0.0);
        }
        rows.sort_by(|a, b| b.inbreeding.total_cmp(&a.inbreeding));
        let alike = |a: &&InbreedingRow, b: &&InbreedingRow| {
            a.inbreeding == b.inbreeding && a.may_be == b.may_be && a.known == b.known
        };
        self.sheet_of(&rows, alike)
    }

    fn spreadsheet(&self) -> Sheet {
        let rows: Vec<&InbreedingRow> = self.rows.iter().collect();
        self.sheet_of(&rows, |_, _| false)
    }
}

impl InbreedingRow {
    /// Inbred, whoever the parents were.
    fn is_surely_inbred(&self) -> bool {
        let least = self.may_be.first().map_or(self.inbreeding, |of| of.value);
        least > 0.0
    }

    /// The answer where this plant alone was asked for.
    fn answer(&self) -> String {
        let id = &self.id;
        match self.may_be.is_empty() {
            _ if self.inbreeding == 0.0 => {
                format!(
                    "{id} is not known to be inbred: its parents have no common ancestor on record"
                )
            }
            true => format!(
                "{id}: inbred by at least {} if the recorded parents are right",
                probability(self.inbreeding)
            ),
            false => format!(
                "{id}: inbreeding at least {}, depending on which of several parents is the true one",
                outcome_words(&self.may_be)
            ),
        }
    }
}

impl InbreedingReport {
    fn answer(&self) -> String {
        let inbred = self.rows.iter().filter(|row| row.inbreeding > 0.0);
        let whoever = inbred.clone().filter(|row| row.is_surely_inbred()).count();
        let perhaps = match inbred.clone().count() - whoever {
            0 => String::new(),
            n => format!(
                "; {n} more may be, depending on which of several parents are the true ones"
            ),
        };
        if let ([row], true) = (&self.rows[..], self.asked) {
            return row.answer();
        }
        let plants = counted(self.rows.len(), "plant", "plants");
        if whoever == 0 && perhaps.is_empty() {
            return format!("None of {plants} is inbred, as far as the records go");
        }
        let are = if whoever == 1 { "is" } else { "are" };
        format!("{whoever} of {plants} {are} inbred if the recorded parents are right{perhaps}")
    }

    fn sheet_of(
        &self,
        rows: &[&InbreedingRow],
        together: impl Fn(&&InbreedingRow, &&InbreedingRow) -> bool,
    ) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        let several = rows.iter().any(|row| !row.may_be.is_empty());
        let known = rows.iter().any(|row| row.known.is_some());
        let figure = match several {
            false => "inbreeding, at least",
            true => "expected inbreeding, at least",
        };
        let groups = alike_siblings(rows, |row| (&row.id, row.sibling), together);
        let groups = groups.iter().map(|(plants, alike)| (plants, alike[0]));
        sheet.table_if_any(
            Table::of(groups)
                .text("plant", |(plants, _)| plants)
                .number(figure, 4, |(_, row)| row.inbreeding)
                .when(several, |columns| {
                    columns.text("may be", |(_, row)| outcome_words(&row.may_be))
                })
                .when(known, |columns| {
                    columns.text("weakest record of parents", |(_, row)| {
                        Some(row.known?.replace('_', " "))
                    })
                }),
        );
        // A plain table has no pedigree to look at.
        let inbred = rows
            .iter()
            .find(|row| row.inbreeding > 0.0 && row.known.is_some());
        sheet.next = inbred.map(|row| format!("podbook pedigree {}", row.id));
        let unlisted = self.rows.len() - rows.len();
        if unlisted > 0 && !rows.is_empty() {
            let plants = counted(unlisted, "other plant", "other plants");
            let line = format!("{plants}: no common ancestor of the parents on record");
            sheet.lines(None, [line]);
        }
        sheet.cautions(Weight::Doubt, &self.cautions);
        sheet.cautions_of(&self.rests_on.assumptions());
        sheet
    }
}
