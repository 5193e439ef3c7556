//! Where the headings of a table stand, and what each column is taken for: by the grower's choice, by its heading, else by
//! what its cells hold.

use super::answer::{ColumnTaken, ImportTable, ReadOn, TakenBy};
use super::cell_words::sex;
use super::company::by_company;
use super::dates::is_blank;
use super::dittos::is_ditto;
use super::facts::InputTable;
use super::heading_days::{counts_by_day, day_in, may_have_day};
use super::headings::headed;
use super::inexact::has_comma;
use super::looks::{are_sentences, count_coloured, is_code_like, is_pair};
use super::number_ranges::is_form_of_cross;
use super::own_sheet;
use super::short_dates::orders;
use super::unit_cells::{from_columns, from_line, is_line_of_units};
use crate::naming::{ReadOptions, Vocabulary, read};
use crate::observation::asked_columns::headed_column;
use crate::record::{Day, Holds, ImportChoices, LengthUnit};
use crate::registry::ids::is_code;
use crate::registry::{Column, Registry, TraitRow};
use crate::text::GridRow;
use crate::wording::letters;
use std::collections::BTreeSet;

/// Rows in which headings are looked for.
const LOOKED_AT: usize = 15;
/// Cells by which a column without a known heading is judged.
const JUDGED: usize = 40;

/// What columns are read with.
pub(super) struct ColumnReader<'a, 't> {
    pub registry: &'a Registry<'t>,
    pub vocabulary: &'a Vocabulary,
    pub choices: &'a ImportChoices,
    pub today: Day,
}

/// A table, and its rows that are no headings.
pub(super) struct Headed<'r> {
    pub table: ImportTable,
    pub rows: Vec<&'r GridRow>,
}

/// What a heading stands for.
type Taken = (Holds, Option<TraitRow>, Option<LengthUnit>, TakenBy);

impl ColumnReader<'_, '_> {
    /// Finds the headings of a table and takes each column for something.
    pub fn table<'r>(&self, table: &'r InputTable) -> Headed<'r> {
        let (name, rows) = (table.name.as_str(), table.rows.as_slice());
        let heading = self.heading(name, rows);
        let head = heading.map(|at| &rows[at]);
        let below = heading.and_then(|at| rows.get(at + 1));
        let units = below.filter(|row| is_line_of_units(row));
        let begins = heading.map_or(0, |at| at + 1) + usize::from(units.is_some());
        let is_repeated = |row: &GridRow| head.is_some_and(|head| row.cells == head.cells);
        let below = rows[begins..].iter().filter(|row| !is_repeated(row));
        let below: Vec<&GridRow> = below.collect();
        let width = rows.iter().map(|row| row.cells.len()).max().unwrap_or(0);
        let columns = (0..width).filter_map(|at| self.column(name, at, head, &below));
        let mut columns: Vec<ColumnTaken> = columns.collect();
        self.by_content(&mut columns, &below);
        words_beside_codes(&mut columns, &below);
        codes_twice(&mut columns, &below);
        counts_by_day(&mut columns, self.registry.settings.hemisphere, self.today);
        under_one_heading(&mut columns, head);
        by_company(&mut columns, &below);
        if let Some(line) = units {
            from_line(&mut columns, line);
        }
        from_columns(&mut columns);
        count_coloured(&mut columns, &below, table);
        let lines = below.iter().map(|row| row.line);
        let struck = lines.filter(|line| table.struck.binary_search(line).is_ok());
        let struck = struck.collect();
        let is_own_sheet = own_sheet::is_own(&columns);
        if is_own_sheet {
            own_sheet::take(&mut columns, self.registry);
        }
        let is_known = |of: &ColumnTaken| !matches!(of.holds, Holds::NotRead | Holds::Note);
        Headed {
            table: ImportTable {
                is_prose: !columns.iter().any(is_known) && are_sentences(&below),
                name: name.to_owned(),
                lines: rows.len(),
                headings: rows.len() - below.len(),
                headed: head.map(|row| row.line),
                columns,
                titled: self.titled(name, &rows[..heading.unwrap_or(0)]),
                struck,
                is_own_sheet,
            },
            rows: below,
        }
    }

    /// The code of a cross that the name of a sheet or file, or a row above the headings, begins with.
    fn titled(&self, name: &str, above: &[GridRow]) -> Option<String> {
        let first = above
            .iter()
            .flat_map(|row| row.cells.iter().find(|cell| !cell.is_empty()));
        let words = name.rsplit('/').take(1).chain(first.map(String::as_str));
        let begins = |words: &'_ str| {
            let is_of_code = |c: char| c.is_alphanumeric() || c == '-';
            words
                .chars()
                .take_while(|c| is_of_code(*c))
                .collect::<String>()
        };
        let is_cross =
            |code: &String| is_form_of_cross(code) || self.registry.cross(code).is_some();
        words.map(begins).find(is_cross)
    }

    /// The tables of a sheet: a row of known headings behind a blank row begins the next.
    pub fn parts(&self, table: &InputTable) -> Vec<InputTable> {
        let (mut parts, mut part): (Vec<Vec<GridRow>>, Vec<GridRow>) = (Vec::new(), Vec::new());
        for row in &table.rows {
            let behind_a_blank = part.last().is_some_and(|last| last.line + 1 < row.line);
            let filled = row.cells.iter().filter(|cell| !cell.is_empty());
            let known = |cell: &String| self.by_heading(&table.name, cell).is_some();
            if behind_a_blank
                && filled.clone().count() >= 2
                && filled.clone().all(known)
                && self.heading(&table.name, &part).is_some()
            {
                parts.push(std::mem::take(&mut part));
            }
            part.push(row.clone());
        }
        parts.push(part);
        // Rows of one file have numbers of their own, so the parts need no other name.
        let named = |rows: Vec<GridRow>| InputTable {
            name: table.name.clone(),
            rows,
            coloured: table.coloured.clone(),
            struck: table.struck.clone(),
        };
        parts.into_iter().map(named).collect()
    }

    /// The row with the most known headings, at least two of them or all there are.
    fn heading(&self, name: &str, rows: &[GridRow]) -> Option<usize> {
        let known = |row: &GridRow| {
            let cells = row.cells.iter().filter(|cell| !cell.is_empty());
            let known = cells
                .clone()
                .filter(|cell| self.by_heading(name, cell).is_some())
                .count();
            (known, cells.count())
        };
        let mut best: Option<(usize, usize)> = None;
        for (at, row) in rows.iter().take(LOOKED_AT).enumerate() {
            let (known, cells) = known(row);
            let enough = known >= 2 || known == 1 && cells == 1 && rows.len() > at + 1;
            if enough && best.is_none_or(|(_, most)| known > most) {
                best = Some((at, known));
            }
        }
        best.map(|(at, _)| at)
            .or_else(|| self.bare_heading(name, rows))
    }

    /// A first row with one known heading and no digit, above rows of which most have digits.
    fn bare_heading(&self, name: &str, rows: &[GridRow]) -> Option<usize> {
        let (first, below) = rows.split_first()?;
        let has_digit = |row: &GridRow| {
            let mut cells = row.cells.iter();
            cells.any(|cell| cell.contains(|c: char| c.is_ascii_digit()))
        };
        let mut filled = first.cells.iter().filter(|cell| !cell.is_empty());
        let known = filled.any(|cell| self.by_heading(name, cell).is_some());
        let digits = below.iter().filter(|row| has_digit(row)).count();
        (known && !has_digit(first) && 2 * digits > below.len()).then_some(0)
    }

    fn by_heading(&self, name: &str, heading: &str) -> Option<Taken> {
        let same = |of: &&crate::record::ColumnChoice| {
            let table = of.table.as_deref().is_none_or(|table| table == name);
            table && of.heading.trim() == heading.trim()
        };
        let choice = self.choices.columns.iter().rev().find(same);
        let as_trait = |heading: &str| match headed_column(self.registry, heading)?.column {
            Column::Trait { index, unit } => Some((index, unit)),
            _ => None,
        };
        if let Some(choice) = choice {
            let without_day = self.day_in(heading).map(|(rest, _)| rest);
            let heading = without_day.as_deref().unwrap_or(heading);
            let unit = headed(heading).and_then(|(_, unit)| unit);
            // Another size than a bare one is not guessed to be the leaf span.
            let is_size = headed(heading).is_some_and(|(holds, _)| holds == Holds::Reading);
            let span = || self.span().filter(|_| is_size).map(|span| (span, unit));
            let of_trait = as_trait(heading).or_else(span);
            let (of_trait, unit) = match (choice.holds, of_trait) {
                (Holds::Reading, Some((index, unit))) => (Some(index), unit),
                _ => (None, unit),
            };
            return Some((choice.holds, of_trait, unit, TakenBy::Choice));
        }
        // A trait the grower declared comes before our own words: `width` may be that of a pitcher.
        if let Some((index, unit)) = as_trait(heading) {
            return Some((Holds::Reading, Some(index), unit, TakenBy::Heading));
        }
        let Some((holds, unit)) = headed(heading) else {
            // `Span 2022-05-01 (cm)`: the readings of one day, or its counts.
            let (rest, _) = self.day_in(heading)?;
            let taken = self.by_heading(name, &rest)?;
            return may_have_day(taken.0).then_some(taken);
        };
        let of_trait = (holds == Holds::Reading).then(|| self.span()).flatten();
        Some((holds, of_trait, unit, TakenBy::Heading))
    }

    fn day_in<'h>(&self, heading: &'h str) -> Option<(String, &'h str)> {
        day_in(heading, self.registry.settings.hemisphere, self.today)
    }

    /// The trait that a bare "size" means: leaf span, where it is declared.
    fn span(&self) -> Option<TraitRow> {
        let traits = self.registry.settings.traits.iter();
        let mut traits = self.registry.trait_rows().zip(traits);
        traits.find(|(_, of)| of.code == "span").map(|(row, _)| row)
    }

    /// A column as its heading has it; none where it holds nothing and has none.
    fn column(
        &self,
        name: &str,
        at: usize,
        head: Option<&GridRow>,
        below: &[&GridRow],
    ) -> Option<ColumnTaken> {
        let words = head.and_then(|head| head.cells.get(at));
        let words = words.filter(|words| !words.is_empty());
        let raw = below.iter().filter_map(|row| row.cells.get(at));
        let filled = raw.filter(|cell| !cell.is_empty()).count();
        if filled == 0 && words.is_none() {
            return None;
        }
        let taken = words.and_then(|words| self.by_heading(name, words));
        let (holds, of_trait, unit, by) =
            taken.unwrap_or((Holds::NotRead, None, None, TakenBy::Nothing));
        let day = words.filter(|_| may_have_day(holds));
        let day = day.and_then(|words| self.day_in(words));
        let hemisphere = self.registry.settings.hemisphere;
        let of_dates = || {
            orders(
                &cells(at, below).collect::<Vec<_>>(),
                hemisphere,
                self.today,
            )
        };
        let unheaded = || format!("column {}", letters(at).to_uppercase());
        Some(ColumnTaken {
            at,
            heading: words.cloned().unwrap_or_else(unheaded),
            holds,
            of_trait,
            unit,
            unit_in: None,
            by,
            examples: examples(cells(at, below)),
            filled,
            read_on: day.map(|(_, day)| ReadOn::Day(day.to_owned())),
            orders: is_date(holds).then(of_dates),
            dittos: 0,
            coloured: 0,
            twice: Vec::new(),
            has_commas: cells(at, below).any(has_comma),
            under: None,
            may_be: &[],
        })
    }

    /// Takes columns for what their cells hold: those whose heading is one of several things, and those without a known
    /// heading for codes, labels and sexes. A column of dates is left: its cells do not say what happened on them.
    fn by_content(&self, columns: &mut [ColumnTaken], below: &[&GridRow]) {
        self.formulas(columns, below);
        self.names(columns, below);
        for holds in [Holds::Label, Holds::Code, Holds::Sex] {
            let fits = |column: &&mut ColumnTaken| {
                column.by == TakenBy::Nothing && self.are(holds, &judged(column, below))
            };
            if !has(columns, holds)
                && let Some(column) = columns.iter_mut().find(fits)
            {
                (column.holds, column.by) = (holds, TakenBy::Content);
            }
        }
    }

    /// `Cross` heads codes in one list and formulas in another: of plants that came these are names, else parents.
    fn formulas(&self, columns: &mut [ColumnTaken], below: &[&GridRow]) {
        let formulas = match !has(columns, Holds::Label) && has(columns, Holds::Supplier) {
            true => Holds::Label,
            false => Holds::Parents,
        };
        let is_formula = |cell: &&&str| !is_code(cell) && (is_pair(cell) || self.is_label(cell));
        let is_cross = |of: &&mut ColumnTaken| of.is_taken_for(Holds::Cross);
        for column in columns.iter_mut().filter(is_cross) {
            let cells = judged(column, below);
            if 2 * cells.iter().filter(is_formula).count() > cells.len() {
                // Seed that came has names of species on its label, and no codes of plants.
                let of_codes = cells.iter().filter(|cell| is_cross_of_codes(cell));
                let holds = match 2 * of_codes.count() > cells.len() {
                    true => Holds::Parents,
                    false => formulas,
                };
                (column.holds, column.by) = (holds, TakenBy::Content);
            }
        }
    }

    /// `Plant` heads codes in one list and names in another: its cells say which, and so does a column beside it whose heading
    /// can only mean codes.
    fn names(&self, columns: &mut [ColumnTaken], below: &[&GridRow]) {
        let mut codes = columns.iter().filter(|of| of.is_taken_for(Holds::Code));
        let beside = codes.any(|of| !of.is_bare_plant());
        let are_names = |column: &&mut ColumnTaken| {
            let cells = judged(column, below);
            let most = self.are(Holds::Label, &cells) && !self.are(Holds::Code, &cells);
            let is_headed = column.is_taken_for(Holds::Code);
            is_headed && (most || column.is_bare_plant() && self.name(&cells, beside))
        };
        if !has(columns, Holds::Label)
            && let Some(column) = columns.iter_mut().find(are_names)
        {
            (column.holds, column.by) = (Holds::Label, TakenBy::Content);
        }
    }

    /// Whether most cells are names; beside a column of codes, whether few are codes.
    fn name(&self, cells: &[&str], beside_codes: bool) -> bool {
        let codes = cells.iter().filter(|cell| is_code_like(cell)).count();
        let labels = cells.iter().filter(|cell| self.is_label(cell)).count();
        match beside_codes {
            true => 2 * codes < cells.len(),
            false => 2 * labels > cells.len() && codes < labels,
        }
    }

    fn are(&self, holds: Holds, cells: &[&str]) -> bool {
        let fits = |cell: &&&str| match holds {
            Holds::Label => self.is_label(cell),
            Holds::Code => is_code_like(cell),
            _ => sex(cell).is_some(),
        };
        let different: BTreeSet<&&str> = cells.iter().collect();
        let many = cells.iter().filter(fits).count();
        let distinct = holds != Holds::Code || different.len() == cells.len();
        !cells.is_empty() && distinct && many * 10 >= cells.len() * 8
    }

    fn is_label(&self, cell: &str) -> bool {
        let words = cell.contains(char::is_alphabetic) && cell.len() > 3;
        let is_read = || {
            read(cell, self.vocabulary, ReadOptions::default())
                .refused
                .is_none()
        };
        words && is_read()
    }
}

/// `Ven1 x Max1`.
fn is_cross_of_codes(cell: &str) -> bool {
    let cell = cell.replace('×', " x ").to_lowercase();
    let sides = cell.split_once(" x ");
    sides.is_some_and(|(one, other)| [one, other].iter().all(|side| is_code_like(side.trim())))
}

/// Takes no column for codes of whose cells most can be none, beside one that has codes.
fn words_beside_codes(columns: &mut [ColumnTaken], below: &[&GridRow]) {
    let holds_codes = |column: &ColumnTaken| {
        let cells = judged(column, below);
        2 * cells.iter().filter(|cell| is_code(cell)).count() >= cells.len()
    };
    let (with, without): (Vec<&mut ColumnTaken>, Vec<_>) = columns
        .iter_mut()
        .filter(|of| of.is_taken_for(Holds::Code))
        .partition(|of| holds_codes(of));
    for column in without.into_iter().filter(|_| !with.is_empty()) {
        (column.holds, column.by) = (Holds::NotRead, TakenBy::Nothing);
    }
}

/// Notes the cells that come twice in a column that holds codes otherwise: no such column is read, and that is said. A
/// column of crosses repeats most of its codes, and is none.
fn codes_twice(columns: &mut [ColumnTaken], below: &[&GridRow]) {
    if has(columns, Holds::Code) {
        return;
    }
    for column in columns.iter_mut().filter(|of| of.by == TakenBy::Nothing) {
        let cells: Vec<&str> = cells(column.at, below).collect();
        let codes = cells.iter().filter(|cell| is_code_like(cell)).count();
        let different: BTreeSet<&str> = cells.iter().copied().collect();
        let are_codes = codes * 10 >= cells.len() * 8 && different.len() * 2 > cells.len();
        let count = |of: &str| cells.iter().filter(|cell| **cell == of).count();
        if are_codes {
            let twice = different.iter().filter(|of| count(of) > 1);
            column.twice = twice.map(|of| (*of).to_owned()).collect();
        }
    }
}

/// Notes the columns of numbers without a heading to the right of a heading of counts or sizes: a cell joined over several
/// columns is that of the first alone in a table.
fn under_one_heading(columns: &mut [ColumnTaken], head: Option<&GridRow>) {
    use Holds::{Germinated, Left, Pods, Reading, Seeds};
    let has_heading = |at: usize| {
        let words = head.and_then(|head| head.cells.get(at));
        words.is_some_and(|words| !words.is_empty())
    };
    let mut over: Option<(String, usize)> = None;
    for column in columns.iter_mut() {
        if head.is_none() || has_heading(column.at) {
            let is_number = [Germinated, Left, Pods, Reading, Seeds].contains(&column.holds);
            over = is_number.then(|| (column.heading.clone(), column.at));
            continue;
        }
        let begins_with_digit = |cell: &String| cell.starts_with(|c: char| c.is_ascii_digit());
        let are_numbers =
            !column.examples.is_empty() && column.examples.iter().all(begins_with_digit);
        let is_next = |(_, at): &(String, usize)| at + 1 == column.at;
        over = over.filter(|over| is_next(over) && are_numbers && column.by == TakenBy::Nothing);
        if let Some((heading, at)) = &mut over {
            column.under = Some(heading.clone());
            *at = column.at;
        }
    }
}

fn is_date(holds: Holds) -> bool {
    use Holds::{
        Acquired, Counted, Died, Given, Gone, Harvested, Measured, Pollinated, Potted, Sold, Sown,
    };
    let of_end = matches!(holds, Died | Sold | Given | Gone);
    let of_seed = matches!(holds, Pollinated | Harvested | Sown | Counted);
    of_end || of_seed || matches!(holds, Acquired | Measured | Potted)
}

/// Whether a column holds something.
fn has(columns: &[ColumnTaken], holds: Holds) -> bool {
    columns.iter().any(|of| of.holds == holds)
}

/// The cells of a column that say something.
fn cells<'r>(at: usize, below: &[&'r GridRow]) -> impl Iterator<Item = &'r str> {
    let cells = below.iter().filter_map(move |row| row.cells.get(at));
    let cells = cells.map(|cell| cell.trim());
    cells.filter(|cell| !is_blank(cell) && !is_ditto(cell))
}

/// Those by which a column is judged.
fn judged<'r>(column: &ColumnTaken, below: &[&'r GridRow]) -> Vec<&'r str> {
    cells(column.at, below).take(JUDGED).collect()
}

fn examples<'c>(cells: impl Iterator<Item = &'c str>) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    for cell in cells.take(JUDGED) {
        if found.len() < 3 && !found.iter().any(|of| of == cell) {
            found.push(cell.to_owned());
        }
    }
    found
}
