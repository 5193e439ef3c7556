//! The cells of one row, read as what their columns hold; what cannot be read so is a doubt.

use super::answer::{ColumnTaken, CorrectedBy, Doubt, ImportTable, ReadOn, Why};
use super::chosen::chosen;
use super::dates::{DateRead, date, is_blank};
use super::differs::Held;
use super::dittos::{is_ditto, is_read};
use super::ends::{End, contradiction, the_end};
use super::facts::{FateRead, RowFacts, SeedCount, TraitCell};
use super::inexact::{about, inexact};
use super::own_rows::OwnRows;
use super::own_sheet;
use crate::observation::asked_columns::unit_word;
use crate::observation::cell::{Misread, value};
use crate::record::{
    Choose, Day, Holds, ImportChoices, Length, LengthUnit, Reads, RowClass, Sex, When,
};
use crate::registry::Registry;
use crate::registry::ids::is_code;
use crate::text::{GridRow, visible_char};
use std::collections::BTreeMap;

/// What a row is read with.
pub(super) struct RowReader<'a, 't> {
    pub registry: &'a Registry<'t>,
    pub choices: &'a ImportChoices,
    pub today: Day,
    pub table: &'a ImportTable,
    /// What the rows of podbook's own sheet say together; nothing of any other table.
    pub own: &'a OwnRows,
}

/// A row that is being read.
struct Row {
    line: usize,
    facts: RowFacts,
    doubts: Vec<Doubt>,
    ends: Vec<End>,
    /// Days of columns of readings, by place.
    days: BTreeMap<usize, String>,
}

/// A cell as it can be written on a page: an invisible character is replaced by a visible mark.
fn seen(cell: &str) -> String {
    let seen = |c: char| if c.is_control() { c } else { visible_char(c) };
    cell.chars().map(seen).collect()
}

/// A doubt about a whole row that leaves it out.
fn about_row(class: RowClass, found: &str, why: Why) -> Doubt {
    Doubt {
        class,
        column: String::new(),
        found: found.to_owned(),
        why,
        chosen: Choose::LeaveOut,
    }
}

/// Whether a cell is a code as it stands, every character of it seen.
fn is_own_code(cell: &str) -> bool {
    is_code(cell) && !cell.contains(char::REPLACEMENT_CHARACTER)
}

impl RowReader<'_, '_> {
    /// What a row says, and what of it is not clear.
    pub fn read(&self, row: &GridRow) -> (RowFacts, Vec<Doubt>) {
        let mut out = Row {
            line: row.line,
            facts: RowFacts::default(),
            doubts: Vec::new(),
            ends: Vec::new(),
            days: BTreeMap::new(),
        };
        if is_total(row) {
            return (out.facts, out.doubts);
        }
        self.days(row, &mut out);
        for column in &self.table.columns {
            let cell = row.cells.get(column.at).map_or("", |cell| cell.trim());
            let own = self.table.is_own_sheet && column.holds == Holds::Reading;
            let with_unit = own.then(|| own_sheet::with_unit(self.table, column, row));
            let cell = with_unit.flatten().unwrap_or_else(|| cell.to_owned());
            if !cell.is_empty() {
                self.cell(column, &seen(&cell), &mut out);
            }
        }
        if self.table.is_own_sheet {
            own_sheet::seedling(&mut out.facts);
            if let Some(doubts) = self.on_record(row, &out.facts) {
                return (out.facts, doubts);
            }
            out.doubts.extend(self.no_code(row, &out.facts));
        }
        self.ended(&mut out);
        self.went(&mut out);
        self.in_order(&mut out);
        (out.facts, out.doubts)
    }

    /// A row of podbook's own sheet whose plant is on record: it adds nothing, and what differs from the record is said. In
    /// the sheet of another registry a plant with the same code and another name is another plant.
    fn on_record(&self, row: &GridRow, facts: &RowFacts) -> Option<Vec<Doubt>> {
        let code = facts.code.as_deref().unwrap_or_default();
        let Some(plant) = self.registry.plant(code) else {
            return self.without_its_code(row, code);
        };
        let received = self.registry.founder(plant).map(|of| &*of.received);
        let received = received.filter(|name| !is_blank(name));
        let is_named = received.map(seen).as_deref().map(str::trim) == facts.label.as_deref();
        if !is_named && !self.own.is_of_this_registry {
            return None;
        }
        let held = Held {
            registry: self.registry,
            today: self.today,
            table: self.table,
            row,
            plant,
        };
        let differs = held.differences();
        if !differs.is_empty() {
            return Some(differs);
        }
        Some(vec![about_row(RowClass::OnRecord, code, Why::OwnSheet)])
    }

    /// A row of the sheet of this registry that has lost its code: it is a plant on record, and never a second one.
    fn without_its_code(&self, row: &GridRow, code: &str) -> Option<Vec<Doubt>> {
        let of = self.own.known_by_cells(self.table, row)?;
        let why = Why::Differs {
            recorded: Some(of.to_owned()),
            by: CorrectedBy::Code(of.to_owned()),
        };
        let doubt = about_row(RowClass::Differs, code, why);
        let column = "plant".to_owned();
        Some(vec![Doubt { column, ..doubt }])
    }

    /// A row of the sheet of this registry without a code: nothing says that it is a new plant.
    fn no_code(&self, row: &GridRow, facts: &RowFacts) -> Option<Doubt> {
        let has_code = facts.code.is_some() || !facts.codes.is_empty();
        let class = RowClass::NoPlant;
        let chosen = chosen(self.choices, class, &self.table.name, row.line);
        let doubt = about_row(class, "", Why::NoCode);
        (self.own.is_of_this_registry && !has_code).then(|| Doubt { chosen, ..doubt })
    }

    /// The days of columns of readings that have their own.
    fn days(&self, row: &GridRow, out: &mut Row) {
        for column in &self.table.columns {
            let day = match &column.read_on {
                None => None,
                Some(ReadOn::Day(day)) => Some(day.clone()),
                Some(ReadOn::Column(at)) => row
                    .cells
                    .get(*at)
                    .and_then(|cell| self.date(column, cell.trim(), out)),
            };
            out.days.extend(day.map(|day| (column.at, day)));
        }
    }

    fn cell(&self, column: &ColumnTaken, cell: &str, out: &mut Row) {
        let words = || (!is_blank(cell)).then(|| cell.to_owned());
        let is_parent = matches!(column.holds, Holds::SeedParent | Holds::PollenParent);
        if is_ditto(cell) && is_read(column) {
            self.doubt(RowClass::Other, column, cell, Why::Ditto, out);
            if !is_parent {
                return;
            }
        }
        match column.holds {
            Holds::Code => self.code(column, cell, out),
            Holds::Label => first(&mut out.facts.label, words()),
            Holds::Supplier => first(&mut out.facts.supplier, words()),
            Holds::SupplierCode => first(&mut out.facts.supplier_code, words()),
            Holds::Form => out.facts.form = out.facts.form.or(form(cell)),
            Holds::Cross => first(&mut out.facts.cross, words()),
            // A parent of which it is written that it is not known is not one that was left blank.
            Holds::SeedParent => first(&mut out.facts.seed_parent, Some(cell.to_owned())),
            Holds::PollenParent => first(&mut out.facts.pollen_parent, Some(cell.to_owned())),
            Holds::Parents => first(&mut out.facts.both_parents, words()),
            Holds::Place => first(&mut out.facts.place, words()),
            Holds::To => first(&mut out.facts.to, words()),
            Holds::Locality => first(&mut out.facts.locality, words()),
            Holds::Sex => self.sex(column, cell, out),
            Holds::Reading => self.reading(column, cell, out),
            Holds::Pot => self.pot(column, cell, out),
            Holds::Seeds => self.seeds(column, cell, out),
            Holds::Pods => self.pods(column, cell, out),
            Holds::Status => self.status(column, cell, out),
            Holds::Died => self.left(column, "died", cell, out),
            Holds::Sold => self.left(column, "sold", cell, out),
            Holds::Given => self.left(column, "given", cell, out),
            Holds::Acquired => out.facts.acquired = self.date(column, cell, out),
            Holds::Measured => out.facts.measured = self.date(column, cell, out),
            Holds::Potted => out.facts.potted = self.date(column, cell, out),
            Holds::Pollinated => out.facts.pollinated = self.date(column, cell, out),
            Holds::Harvested => out.facts.harvested = self.date(column, cell, out),
            Holds::Sown => out.facts.sown = self.date(column, cell, out),
            Holds::Price | Holds::Note | Holds::NotRead => {}
        }
    }

    fn doubt(
        &self,
        class: RowClass,
        column: &ColumnTaken,
        cell: &str,
        why: Why,
        out: &mut Row,
    ) -> Choose {
        let chosen = chosen(self.choices, class, &self.table.name, out.line);
        out.doubts.push(Doubt {
            class,
            column: column.heading.clone(),
            found: cell.to_owned(),
            why,
            chosen,
        });
        chosen
    }

    fn code(&self, column: &ColumnTaken, cell: &str, out: &mut Row) {
        if is_blank(cell) {
            return;
        }
        // `dead` where the number was: what became of the plant, and no code.
        if fate(cell).is_some() {
            return self.status(column, cell, out);
        }
        if is_own_code(cell) {
            return first(&mut out.facts.code, Some(cell.to_owned()));
        }
        let marks = |c: char| ",;&/\n+".contains(c);
        let several = cell.replace(" and ", ",").replace('␊', ",");
        let several: Vec<String> = several
            .split(marks)
            .map(|code| code.trim().to_owned())
            .collect();
        if several.len() > 1 && all_differ(&several) && several.iter().all(|code| is_own_code(code))
        {
            self.doubt(RowClass::SeveralPlants, column, cell, Why::Several, out);
            out.facts.codes = several;
            return;
        }
        let joined: Vec<String> = cell
            .split(|c: char| !is_own_code(&c.to_string()))
            .filter(|piece| !piece.is_empty())
            .map(str::to_owned)
            .collect();
        let code: String = joined.join("-").chars().take(40).collect();
        if is_code(&code) {
            self.doubt(
                RowClass::Other,
                column,
                cell,
                Why::CodeChanged(code.clone()),
                out,
            );
            first(&mut out.facts.code, Some(code));
        }
    }

    fn date(&self, column: &ColumnTaken, cell: &str, out: &mut Row) -> Option<String> {
        match date(cell, self.registry.settings.hemisphere, self.today) {
            DateRead::Blank => None,
            DateRead::Known(text) => Some(text),
            DateRead::Counted(day) => {
                self.doubt(
                    RowClass::Other,
                    column,
                    cell,
                    Why::CountedDays(day.clone()),
                    out,
                );
                Some(day)
            }
            DateRead::TwoDays {
                day_first,
                month_first,
            } => {
                let (one, other) = (day_first.min(month_first), day_first.max(month_first));
                let why = Why::TwoDays(day_first.to_string(), month_first.to_string());
                Some(
                    match self.doubt(RowClass::DateTwoWays, column, cell, why, out) {
                        Choose::DayFirst => day_first.to_string(),
                        Choose::MonthFirst => month_first.to_string(),
                        _ => format!("{one} to {other}"),
                    },
                )
            }
            DateRead::NoYear(day, month) => {
                let why = Why::NoYear(day, month);
                self.doubt(RowClass::Other, column, cell, why, out);
                None
            }
            DateRead::ToCome => {
                self.doubt(RowClass::Other, column, cell, Why::DayToCome, out);
                None
            }
            DateRead::Unread => {
                self.doubt(RowClass::Other, column, cell, Why::NoDate, out);
                None
            }
        }
    }

    fn sex(&self, column: &ColumnTaken, cell: &str, out: &mut Row) {
        // `male, claimed by the supplier`: how it is known stays in the note.
        let cell = match cell.split_once(", ") {
            Some((word, _)) if self.table.is_own_sheet => word,
            _ if self.table.is_own_sheet && cell == "unsexed" => return,
            _ => cell,
        };
        match sex(cell) {
            Some(sex) => out.facts.sex = Some(sex),
            None if is_blank(cell) => {}
            None => drop(self.doubt(RowClass::Other, column, cell, Why::NoSex, out)),
        }
    }

    fn reading(&self, column: &ColumnTaken, cell: &str, out: &mut Row) {
        if is_blank(cell) {
            return;
        }
        let Some(of) = column.of_trait else {
            self.doubt(RowClass::Other, column, cell, Why::NoTrait, out);
            return;
        };
        let declared = &self.registry[of];
        let is_length = matches!(declared.reads, Reads::Length(_));
        let bare = is_length && Length::read(cell).is_ok_and(|length| length.unit.is_none());
        let written = match column.unit.filter(|_| bare) {
            Some(unit) => format!("{cell} {}", unit_word(unit)),
            None => cell.to_owned(),
        };
        let cell = match value(declared, &written, None) {
            Ok(_) => written,
            Err(Misread::UnitUnknown) => self.without_unit(column, cell, out),
            Err(_) => {
                let why = inexact(cell).map_or(Why::NoReading, Why::Inexact);
                self.doubt(RowClass::Other, column, cell, why, out);
                return;
            }
        };
        let on = out.days.get(&column.at).cloned();
        out.facts.readings.push(TraitCell { of, cell, on });
    }

    /// A size without a unit: with the one chosen, else as it stands.
    fn without_unit(&self, column: &ColumnTaken, cell: &str, out: &mut Row) -> String {
        match self.doubt(RowClass::SizeWithoutUnit, column, cell, Why::NoUnit, out) {
            Choose::Cm => format!("{cell} cm"),
            Choose::Mm => format!("{cell} mm"),
            Choose::In => format!("{cell} in"),
            _ => cell.to_owned(),
        }
    }

    fn pot(&self, column: &ColumnTaken, cell: &str, out: &mut Row) {
        if is_blank(cell) {
            return;
        }
        out.facts.pot = match Length::read(cell) {
            Ok(length) if length.unit.is_some() => Some(cell.to_owned()),
            Ok(_) => Some(match column.unit {
                Some(unit) => format!("{cell} {}", unit_word(unit)),
                None => self.without_unit(column, cell, out),
            }),
            Err(_) => {
                let why = inexact(cell).map_or(Why::NoReading, Why::Inexact);
                self.doubt(RowClass::Other, column, cell, why, out);
                None
            }
        };
    }

    /// A number of seeds. About so many is an estimate; of a range or a limit only that there was seed is recorded.
    fn seeds(&self, column: &ColumnTaken, cell: &str, out: &mut Row) {
        let words = [" seeds", " seed"];
        let bare = words.iter().find_map(|word| cell.strip_suffix(word));
        let bare = bare.unwrap_or(cell).trim_end_matches(".0");
        let of = |number, estimated| Some(SeedCount { number, estimated });
        if let Ok(seeds) = bare.parse::<u32>() {
            out.facts.seeds = of(Some(seeds), false);
        } else if let Some(seeds) = about(bare) {
            out.facts.seeds = of(Some(seeds), true);
        } else if let Some(why) = inexact(bare) {
            self.doubt(RowClass::Other, column, cell, Why::Inexact(why), out);
            out.facts.seeds = of(None, false);
        } else if !is_blank(cell) {
            self.doubt(RowClass::Other, column, cell, Why::NoCount, out);
        }
    }

    fn pods(&self, column: &ColumnTaken, cell: &str, out: &mut Row) {
        match cell.trim_end_matches(".0").parse::<u32>() {
            Ok(pods) => out.facts.pods = Some(pods),
            Err(_) if is_blank(cell) => {}
            Err(_) => {
                let why = inexact(cell).map_or(Why::NoCount, Why::Inexact);
                self.doubt(RowClass::Other, column, cell, why, out);
            }
        }
    }

    /// What became of a plant: a word, with a day or `to somebody` behind it. What is not understood is said to be so.
    fn status(&self, column: &ColumnTaken, cell: &str, out: &mut Row) {
        if is_blank(cell) {
            return;
        }
        if is_here(cell) {
            return out.ends.push(End::of(column, cell, None));
        }
        let own = cell.split_once(" (").map(|(words, _)| words);
        let own = own.filter(|_| self.table.is_own_sheet);
        let Some((word, rest)) = fate_and_rest(own.unwrap_or(cell)) else {
            self.doubt(RowClass::Other, column, cell, Why::NoStatus, out);
            return;
        };
        let on = match rest.strip_prefix("to ") {
            Some(who) if !who.trim().is_empty() => {
                first(&mut out.facts.to, Some(who.trim().to_owned()));
                None
            }
            _ if rest.is_empty() => None,
            _ => self.date(column, rest.trim_start_matches("on "), out),
        };
        let on = on.unwrap_or_else(|| "?".to_owned());
        let fate = FateRead { word, on };
        out.ends.push(End::of(column, cell, Some(fate)));
    }

    /// A column headed `died` or `sold`: a day, or a word that it did.
    fn left(&self, column: &ColumnTaken, word: &'static str, cell: &str, out: &mut Row) {
        let lower = cell.to_lowercase();
        if is_blank(cell) && cell != "?" || ["no", "n", "false", "0"].contains(&lower.as_str()) {
            return;
        }
        let said = ["yes", "y", "x", "true", "1", "✓", "?", word];
        let on = match said.contains(&lower.as_str()) {
            true => None,
            false => self.date(column, cell, out),
        };
        let on = on.unwrap_or_else(|| "?".to_owned());
        let fate = FateRead { word, on };
        out.ends.push(End::of(column, cell, Some(fate)));
    }

    /// What became of the plant by all its cells. Where they contradict each other, the earlier end counts if the row comes:
    /// with it the plant was gone.
    fn ended(&self, out: &mut Row) {
        let when = |text: &str| When::read(text, self.registry.settings.hemisphere).ok();
        let ends = std::mem::take(&mut out.ends);
        if let Some((one, other)) = contradiction(&ends, when) {
            let why = Why::Contradicts(other.heading.clone(), other.cell.clone());
            let column = self.table.columns.iter().find(|of| of.at == one.at);
            if let Some(column) = column {
                self.doubt(RowClass::Contradiction, column, &one.cell, why, out);
            }
        }
        out.facts.fate = the_end(ends, when);
    }

    /// Somebody it was sold or given to says that it went, though no day is said.
    fn went(&self, out: &mut Row) {
        let heading = self.table.columns.iter().find(|of| of.holds == Holds::To);
        let heading = heading
            .map(|of| of.heading.to_lowercase())
            .unwrap_or_default();
        let word = match heading.as_str() {
            words if words.contains("sold") || words.contains("buyer") => "sold",
            words if words.contains("given") => "given",
            _ => return,
        };
        if out.facts.to.is_some() && out.facts.fate.is_none() {
            let on = "?".to_owned();
            out.facts.fate = Some(FateRead { word, on });
        }
    }

    /// A plant does not leave before it comes.
    fn in_order(&self, out: &mut Row) {
        let when = |text: &str| When::read(text, self.registry.settings.hemisphere).ok();
        let (Some(came), Some(fate)) = (&out.facts.acquired, &out.facts.fate) else {
            return;
        };
        let (Some(came), Some(left)) = (when(came), when(&fate.on)) else {
            return;
        };
        if left.surely_before(came) {
            let found = fate.on.clone();
            let column = self
                .table
                .columns
                .iter()
                .find(|of| matches!(of.holds, Holds::Died | Holds::Sold | Holds::Given));
            if let Some(column) = column {
                self.doubt(RowClass::Other, column, &found, Why::LeftBeforeItCame, out);
            }
            if let Some(fate) = &mut out.facts.fate {
                fate.on = "?".to_owned();
            }
        }
    }
}

fn all_differ(codes: &[String]) -> bool {
    codes
        .iter()
        .enumerate()
        .all(|(at, code)| !codes[..at].contains(code))
}

/// The first of two columns of one kind counts; the note holds both.
fn first(field: &mut Option<String>, words: Option<String>) {
    if field.is_none() {
        *field = words;
    }
}

/// The sex a word says.
pub(super) fn sex(cell: &str) -> Option<Sex> {
    match cell.to_lowercase().trim_end_matches('.') {
        "f" | "fem" | "female" | "♀" => Some(Sex::Female),
        "m" | "male" | "♂" => Some(Sex::Male),
        _ => None,
    }
}

/// A word of the files for what a plant came as.
fn form(cell: &str) -> Option<&'static str> {
    Some(match cell.to_lowercase().as_str() {
        "seed" | "seeds" => "seed",
        "seedling" | "seedlings" | "young plant" => "seedling",
        "cutting" | "cuttings" | "rooted cutting" | "unrooted cutting" => "cutting",
        "division" | "divided" => "division",
        "lab" | "lab plant" | "tc" | "tissue culture" | "in vitro" | "flask" => "lab_plant",
        "plant" | "adult" | "mature" | "grown plant" => "plant",
        _ => return None,
    })
}

/// Whether a status says that the plant is still here.
fn is_here(cell: &str) -> bool {
    let words = [
        "alive",
        "living",
        "here",
        "ok",
        "okay",
        "good",
        "fine",
        "healthy",
        "growing",
        "yes",
        "y",
        "in collection",
        "in the collection",
    ];
    words.contains(&cell.to_lowercase().trim_end_matches('.'))
}

/// What became of a plant, and the words behind that.
fn fate_and_rest(cell: &str) -> Option<(&'static str, &str)> {
    if let Some(word) = fate(cell) {
        return Some((word, ""));
    }
    let blanks = cell.match_indices([' ', ',', ':', ';']).map(|(at, _)| at);
    let ends: Vec<usize> = blanks.collect();
    // `given away to` before `given`.
    ends.into_iter().rev().find_map(|end| {
        let rest = cell[end..].trim_start_matches([' ', ',', ':', ';']);
        Some((fate(cell[..end].trim())?, rest))
    })
}

/// Whether a row adds up others: the first word of it says so.
fn is_total(row: &GridRow) -> bool {
    let words = [
        "total",
        "totals",
        "sum",
        "subtotal",
        "grand total",
        "summe",
        "count",
    ];
    let first = row
        .cells
        .iter()
        .map(|cell| cell.trim())
        .find(|cell| !cell.is_empty());
    let first = first.map(str::to_lowercase).unwrap_or_default();
    words.contains(&first.trim_end_matches([':', '.', ' ']))
}

/// A word of the files for what became of a plant.
fn fate(cell: &str) -> Option<&'static str> {
    Some(match cell.to_lowercase().trim_end_matches('.') {
        "dead" | "died" | "rip" | "✝" | "†" => "died",
        "sold" => "sold",
        "given" | "given away" | "gave" | "gave away" | "gift" | "traded" | "swapped" => "given",
        "lost" | "missing" => "lost",
        "culled" | "binned" | "discarded" | "thrown out" => "culled",
        _ => return None,
    })
}

/// Whether a cell is a length with or without a unit.
pub(super) fn unit_of(cell: &str) -> Option<LengthUnit> {
    Length::read(cell).ok()?.unit
}
