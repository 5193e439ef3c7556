//! The cells of one row, read as what their columns hold; what cannot be read so is a doubt.

use super::answer::{ColumnTaken, Doubt, ImportTable, ReadOn, Why};
use super::cell_words::{fate, form, is_none, is_not_gone, is_not_yet, is_own, left_words, sex};
use super::chosen::chosen;
use super::dates::{DateRead, date_in, is_blank};
use super::dittos::{is_ditto, is_read};
use super::ends::{End, Gone};
use super::facts::{CodesOf, RowFacts, SeedCount, TraitCell};
use super::inexact::{about, inexact};
use super::looks::is_code_like;
use super::no_plants::no_plant;
use super::own_rows::OwnRows;
use super::own_sheet;
use super::short_dates::Days;
use super::unit_cells::unit_of_row;
use crate::observation::asked_columns::unit_word;
use crate::observation::cell::{Misread, value};
use crate::record::{Choose, Day, Holds, ImportChoices, Length, LengthUnit, Reads, RowClass};
use crate::registry::Registry;
use crate::registry::ids::is_new_code;
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
pub(super) struct Row {
    line: usize,
    pub facts: RowFacts,
    doubts: Vec<Doubt>,
    pub ends: Vec<End>,
    /// The day it went, where a column says it of every end.
    pub gone: Option<Gone>,
    /// Whether the day of sowing has words that are no day.
    sown_unread: bool,
    /// Days of columns of readings, by place.
    days: BTreeMap<usize, String>,
    /// Units of columns of sizes that another column has, by place; none where its cell is no unit.
    units: BTreeMap<usize, Option<LengthUnit>>,
}

/// A cell as it can be written on a page: an invisible character is replaced by a visible mark.
pub(super) fn seen(cell: &str) -> String {
    let seen = |c: char| if c.is_control() { c } else { visible_char(c) };
    cell.chars().map(seen).collect()
}

impl RowReader<'_, '_> {
    /// What a row says, and what of it is not clear.
    pub fn read(&self, row: &GridRow) -> (RowFacts, Vec<Doubt>) {
        let mut out = Row {
            line: row.line,
            facts: RowFacts::default(),
            doubts: Vec::new(),
            ends: Vec::new(),
            gone: None,
            sown_unread: false,
            days: BTreeMap::new(),
            units: BTreeMap::new(),
        };
        if let Some(why) = no_plant(row)
            && self.about_row(RowClass::NoPlant, why, &mut out) == Choose::LeaveOut
        {
            return (out.facts, out.doubts);
        }
        out.facts.codes_of = self.table.codes_of();
        self.days(row, &mut out);
        self.units(row, &mut out);
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
        // A packet is seed, however little is said of it.
        if out.facts.codes_of == CodesOf::Packets && !out.facts.is_of_plant() {
            out.facts.seeds.get_or_insert_default();
        }
        // Seed with words under the day of sowing was sown, on a day that is not known. Of seedlings nothing says that one
        // sowing is that of another.
        if out.sown_unread && out.facts.seeds.is_some() && !out.facts.is_of_plant() {
            out.facts.sown.get_or_insert_with(|| "?".to_owned());
        }
        self.of_no_plant(&mut out);
        self.on_day(&mut out);
        self.ended(&mut out);
        self.went(&mut out);
        self.in_order(&mut out);
        (out.facts, out.doubts)
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

    /// The units of columns of sizes that another column has; one that is not understood is a doubt about that column.
    fn units(&self, row: &GridRow, out: &mut Row) {
        for column in &self.table.columns {
            match unit_of_row(column, row) {
                Ok(None) => {}
                Ok(unit) => drop(out.units.insert(column.at, unit)),
                Err(cell) => {
                    let mut columns = self.table.columns.iter();
                    let of_units = columns.find(|of| Some(of.at) == column.unit_in);
                    let of_units = of_units.unwrap_or(column);
                    self.doubt(RowClass::Other, of_units, cell, Why::UnitUnread, out);
                    out.units.insert(column.at, None);
                }
            }
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
            Holds::Supplier if is_own(cell) => {}
            Holds::Supplier => first(&mut out.facts.supplier, words()),
            Holds::SupplierCode => first(&mut out.facts.supplier_code, words()),
            Holds::Form => out.facts.form = out.facts.form.or(form(cell)),
            Holds::Cross => first(&mut out.facts.cross, words()),
            // A parent of which it is written that it is not known is not one that was left blank.
            Holds::SeedParent => first(&mut out.facts.seed_parent, Some(cell.to_owned())),
            Holds::PollenParent => first(&mut out.facts.pollen_parent, Some(cell.to_owned())),
            // A column of formulas that is headed `Cross` may have a code among them.
            Holds::Parents if column.is_headed_cross() && is_code_like(cell) => {
                first(&mut out.facts.cross, words());
            }
            Holds::Parents => first(&mut out.facts.both_parents, words()),
            Holds::Place => first(&mut out.facts.place, words()),
            Holds::To => self.receiver(column, cell, out),
            Holds::Locality => first(&mut out.facts.locality, words()),
            Holds::Sex => self.sex(column, cell, out),
            Holds::Reading => self.reading(column, cell, out),
            Holds::Pot => self.pot(column, cell, out),
            Holds::Seeds => self.seeds(column, cell, out),
            Holds::Pods => {
                let pods = self.count(column, cell, out);
                out.facts.pods = out.facts.pods.or(pods);
            }
            Holds::Germinated => {
                let up = self.count(column, cell, out);
                match out.days.get(&column.at).cloned().zip(up) {
                    Some(dated) => out.facts.counts.push(dated),
                    None => out.facts.germinated = out.facts.germinated.or(up),
                }
            }
            Holds::Left => out.facts.left = left_words(cell),
            Holds::Status => self.status(column, cell, out),
            Holds::Gone => {
                let on = self.date(column, cell, out);
                out.gone = on.map(|on| Gone::of(column, cell, on));
            }
            Holds::Died => self.left(column, "died", cell, out),
            Holds::Sold => self.left(column, "sold", cell, out),
            Holds::Given => self.left(column, "given", cell, out),
            Holds::Acquired
            | Holds::Measured
            | Holds::Potted
            | Holds::Pollinated
            | Holds::Harvested
            | Holds::Sown
            | Holds::Counted => {
                let on = self.date(column, cell, out);
                let says_so = !is_blank(cell) && !is_not_gone(cell) && !is_not_yet(cell);
                let unread = out.doubts.last().map(|of| &of.why);
                let unread = matches!(unread, Some(Why::NoDate | Why::NoYear(..))) && on.is_none();
                out.sown_unread |= column.holds == Holds::Sown && unread && says_so;
                if let Some(field) = out.facts.day(column.holds) {
                    first(field, on);
                }
            }
            Holds::NotRead if !is_blank(cell) => self.under_one_heading(column, cell, out),
            Holds::Unit | Holds::Price | Holds::Note | Holds::NotRead => {}
        }
    }

    /// What only a plant has is not taken in from the row of a cross and its seed.
    fn of_no_plant(&self, out: &mut Row) {
        if out.facts.codes_of != CodesOf::Sowings {
            return;
        }
        let readings = std::mem::take(&mut out.facts.readings).into_iter();
        let ends = std::mem::take(&mut out.ends).into_iter();
        let ends = ends.filter(|end| end.fate.is_some());
        let said = readings.map(|of| (of.column, of.cell));
        for (at, cell) in said.chain(ends.map(|end| (end.at, end.cell))) {
            if let Some(column) = self.table.columns.iter().find(|of| of.at == at) {
                self.doubt(RowClass::Other, column, &cell, Why::OfNoPlant, out);
            }
        }
        (out.gone, out.facts.to) = (None, None);
    }

    pub fn doubt(
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

    fn about_row(&self, class: RowClass, why: Why, out: &mut Row) -> Choose {
        let chosen = chosen(self.choices, class, &self.table.name, out.line);
        out.doubts.push(Doubt {
            class,
            column: String::new(),
            found: String::new(),
            why,
            chosen,
        });
        chosen
    }

    /// Whether a cell is a code as it stands: one on record, or one that can be given.
    fn is_own_code(&self, cell: &str) -> bool {
        is_new_code(cell) || self.registry.target(cell).is_some()
    }

    fn code(&self, column: &ColumnTaken, cell: &str, out: &mut Row) {
        if is_blank(cell) {
            return;
        }
        // `dead` where the number was: what became of the plant, and no code.
        if fate(cell).is_some() {
            return self.status(column, cell, out);
        }
        if self.is_own_code(cell) {
            return first(&mut out.facts.code, Some(cell.to_owned()));
        }
        let marks = |c: char| ",;&/\n+".contains(c);
        let several = cell.replace(" and ", ",").replace('␊', ",");
        let several: Vec<String> = several
            .split(marks)
            .map(|code| code.trim().to_owned())
            .collect();
        if several.len() > 1
            && all_differ(&several)
            && several.iter().all(|code| self.is_own_code(code))
        {
            self.doubt(RowClass::SeveralPlants, column, cell, Why::Several, out);
            out.facts.codes = several;
            return;
        }
        let joined: Vec<String> = cell
            .split(|c: char| !is_new_code(&c.to_string()))
            .filter(|piece| !piece.is_empty())
            .map(str::to_owned)
            .collect();
        let code: String = joined.join("-").chars().take(40).collect();
        if is_new_code(&code) {
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

    pub fn date(&self, column: &ColumnTaken, cell: &str, out: &mut Row) -> Option<String> {
        let years_first = column.orders.is_some_and(|of| of.years_first);
        match date_in(
            cell,
            self.registry.settings.hemisphere,
            self.today,
            years_first,
        ) {
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
            DateRead::SeveralDays(days) => Some(self.one_of_days(column, cell, days, out)),
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

    /// A date that can be several days: the one chosen, else the range of all. A choice that the cell cannot be read by
    /// leaves it the range.
    fn one_of_days(&self, column: &ColumnTaken, cell: &str, days: Days, out: &mut Row) -> String {
        let why = Why::SeveralDays(days.words());
        let chosen = match self.doubt(RowClass::DateTwoWays, column, cell, why, out) {
            Choose::DayFirst => days.day_first,
            Choose::MonthFirst => days.month_first,
            Choose::YearFirst => days.year_first,
            Choose::LeaveOut => return range(&days.each()),
            _ => None,
        };
        if let (None, Some(doubt)) = (chosen, out.doubts.last_mut()) {
            doubt.chosen = Choose::Take;
        }
        chosen.map_or_else(|| range(&days.each()), |day| day.to_string())
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
        let unit_of_row = out.units.get(&column.at).copied();
        if bare && unit_of_row == Some(None) {
            return;
        }
        let unit = column.unit.or(unit_of_row.flatten());
        let written = match unit.filter(|_| bare) {
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
        out.facts.readings.push(TraitCell {
            of,
            cell,
            on,
            column: column.at,
        });
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
            Ok(_) => match (column.unit, out.units.get(&column.at).copied()) {
                (Some(unit), _) | (None, Some(Some(unit))) => {
                    Some(format!("{cell} {}", unit_word(unit)))
                }
                (None, Some(None)) => None,
                (None, None) => Some(self.without_unit(column, cell, out)),
            },
            Err(_) => {
                let why = inexact(cell).map_or(Why::NoReading, Why::Inexact);
                self.doubt(RowClass::Other, column, cell, why, out);
                None
            }
        };
    }

    /// A number of seeds. About so many is an estimate; of a range, a limit or words only that there was seed is recorded.
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
        } else if is_none(cell) {
            out.facts.seeds = of(Some(0), false);
        } else if !is_blank(cell) {
            self.doubt(RowClass::Other, column, cell, Why::NoCount, out);
            out.facts.seeds = of(None, false);
        }
    }

    /// A whole number of pods or seedlings.
    /// A number that would stand in the note alone, although its heading says what it is.
    fn under_one_heading(&self, column: &ColumnTaken, cell: &str, out: &mut Row) {
        if let Some(heading) = &column.under {
            let why = Why::UnderOneHeading(heading.clone());
            self.doubt(RowClass::Other, column, cell, why, out);
        }
    }

    fn count(&self, column: &ColumnTaken, cell: &str, out: &mut Row) -> Option<u32> {
        let bare = without_percent(cell);
        let count = bare.trim_end_matches(".0").parse::<u32>().ok();
        if count.is_none() && !is_blank(cell) {
            let why = inexact(cell).map_or(Why::NoCount, Why::Inexact);
            self.doubt(RowClass::Other, column, cell, why, out);
        }
        count
    }
}

/// `55 (55%)`: a count with what part it is of, which its seeds say too.
fn without_percent(cell: &str) -> &str {
    let Some((count, behind)) = cell.split_once('(') else {
        return cell;
    };
    let part = behind.strip_suffix("%)").map(str::trim);
    match part.is_some_and(|part| part.replace(',', ".").parse::<f64>().is_ok()) {
        true => count.trim(),
        false => cell,
    }
}

/// The range from the first of some days to the last.
fn range(days: &[Day]) -> String {
    let ends = days.first().zip(days.last());
    ends.map_or_else(String::new, |(one, other)| format!("{one} to {other}"))
}

fn all_differ(codes: &[String]) -> bool {
    codes
        .iter()
        .enumerate()
        .all(|(at, code)| !codes[..at].contains(code))
}

/// The first of two columns of one kind counts; the note holds both.
pub(super) fn first(field: &mut Option<String>, words: Option<String>) {
    if field.is_none() {
        *field = words;
    }
}
