//! The cells of one row, read as what their columns hold; what cannot be read so is a doubt.

use super::answer::{ColumnTaken, Doubt, ImportTable, ReadOn, Why};
use super::cell_words::{
    fate, fate_and_rest, form, is_no_place, is_none, is_not_gone, is_not_yet, is_own, is_piece_of,
    left_words, sex,
};
use super::dates::{DateRead, date_in, is_blank};
use super::dittos::{is_ditto, is_read};
use super::ends::{End, Gone};
use super::facts::{CodesOf, RowFacts, SeedCount, TraitCell};
use super::inexact::{about, inexact, is_in_thousands};
use super::looks::{is_code_like, seen};
use super::no_plants::no_plant;
use super::number_ranges::is_marked_range;
use super::own_rows::OwnRows;
use super::own_sheet;
use super::parents::without_doubt;
use super::short_dates::Days;
use super::unit_cells::unit_of_row;
use crate::observation::asked_columns::unit_word;
use crate::observation::cell::{Misread, value};
use crate::record::{Choose, Day, Holds, ImportChoices, Length, LengthUnit, Reads, RowClass};
use crate::registry::Registry;
use crate::registry::ids::is_new_code;
use crate::text::GridRow;
use std::collections::BTreeMap;

/// What the rows of a table are read with.
#[derive(Clone, Copy)]
pub(super) struct TableReader<'a, 't> {
    pub registry: &'a Registry<'t>,
    pub choices: &'a ImportChoices,
    pub today: Day,
    pub table: &'a ImportTable,
    /// What the rows of podbook's own sheet say together; nothing of any other table.
    pub own: &'a OwnRows,
}

/// A row that is being read.
pub(super) struct RowReader<'a, 't> {
    pub of: TableReader<'a, 't>,
    line: usize,
    pub facts: RowFacts,
    doubts: Vec<Doubt>,
    pub ends: Vec<End<'a>>,
    /// The day it went, where a column says it of every end.
    pub gone: Option<Gone<'a>>,
    /// The cell of who has it, and the day in it.
    pub receiver: Option<Gone<'a>>,
    /// Whether the day of sowing has words that are no day.
    sown_unread: bool,
    /// Whether the day of sowing has words that it was not sown.
    not_sown: bool,
    /// Days of columns of readings, by place.
    days: BTreeMap<usize, String>,
    /// Units of columns of sizes that another column has, by place; none where its cell is no unit.
    units: BTreeMap<usize, Option<LengthUnit>>,
}

impl TableReader<'_, '_> {
    /// What a row says, and what of it is not clear.
    pub fn read(&self, row: &GridRow) -> (RowFacts, Vec<Doubt>) {
        let mut reader = RowReader {
            of: *self,
            line: row.line,
            facts: RowFacts::default(),
            doubts: Vec::new(),
            ends: Vec::new(),
            gone: None,
            receiver: None,
            sown_unread: false,
            not_sown: false,
            days: BTreeMap::new(),
            units: BTreeMap::new(),
        };
        let why = no_plant(self.table, row).map(|why| reader.about_row(RowClass::NoPlant, why));
        if why != Some(Choose::LeaveOut) {
            reader.read(row);
        }
        (reader.facts, reader.doubts)
    }
}

impl<'a> RowReader<'a, '_> {
    fn read(&mut self, row: &GridRow) {
        let table = self.of.table;
        self.facts.codes_of = table.codes_of();
        self.days(row);
        self.units(row);
        for column in &table.columns {
            let own = table.is_own_sheet && column.holds == Holds::Reading;
            let with_unit = own.then(|| own_sheet::with_unit(table, column, row));
            let cell = with_unit
                .flatten()
                .unwrap_or_else(|| column.cell(row).to_owned());
            if !cell.is_empty() {
                self.cell(column, &seen(&cell));
            }
        }
        if table.is_own_sheet {
            own_sheet::seedling(&mut self.facts);
            if let Some(doubts) = self.on_record(row) {
                self.doubts = doubts;
                return;
            }
            self.no_code();
        }
        self.of_seed();
        self.of_no_plant();
        self.went();
        self.on_day();
        self.ended();
        self.in_order();
        own_sheet::left_with(table, row, &mut self.facts);
    }

    /// What a packet, or words under the day of sowing, say of seed.
    fn of_seed(&mut self) {
        if self.facts.is_of_plant() {
            return;
        }
        // A packet is seed, however little is said of it.
        if self.facts.codes_of == CodesOf::Packets {
            self.facts.seeds.get_or_insert_default();
        }
        // Seed with words under the day of sowing was sown, on a day that is not known. Of seedlings nothing says that one
        // sowing is that of another.
        if self.not_sown && self.facts.germinated == Some(0) {
            self.facts.germinated = None;
        }
        if self.sown_unread && self.facts.seeds.is_some() {
            self.facts.sown.get_or_insert_with(|| "?".to_owned());
        }
    }

    /// The days of columns of readings that have their own.
    fn days(&mut self, row: &GridRow) {
        let columns = self.of.table.columns.iter();
        for column in columns.filter(|of| !of.cell(row).is_empty()) {
            let day = match &column.read_on {
                None => None,
                Some(ReadOn::Day(day)) => self.date(column, day),
                Some(ReadOn::Column(at)) => {
                    let cell = row.cells.get(*at);
                    cell.and_then(|cell| self.date(column, cell.trim()))
                }
            };
            self.days.extend(day.map(|day| (column.at, day)));
        }
    }

    /// The units of columns of sizes that another column has; one that is not understood is a doubt about that column.
    fn units(&mut self, row: &GridRow) {
        let table = self.of.table;
        for column in &table.columns {
            match unit_of_row(column, row) {
                Ok(None) => {}
                Ok(unit) => drop(self.units.insert(column.at, unit)),
                Err(cell) => {
                    let of_units = table.column(|of| Some(of.at) == column.unit_in);
                    self.other(of_units.unwrap_or(column), cell, Why::UnitUnread);
                    self.units.insert(column.at, None);
                }
            }
        }
    }

    fn cell(&mut self, column: &'a ColumnTaken, cell: &str) {
        let words = || (!is_blank(cell)).then(|| cell.to_owned());
        let is_parent = matches!(column.holds, Holds::SeedParent | Holds::PollenParent);
        if is_ditto(cell) && is_read(column) {
            if column.holds == Holds::Cross {
                return self.left_out(column, cell, Why::Ditto);
            }
            self.other(column, cell, Why::Ditto);
            if !is_parent {
                return;
            }
        }
        match column.holds {
            Holds::Code => self.code(column, cell),
            Holds::Label => first(&mut self.facts.label, words()),
            Holds::Supplier if is_own(cell) => {}
            Holds::Supplier => first(&mut self.facts.supplier, words()),
            Holds::SupplierCode => first(&mut self.facts.supplier_code, words()),
            Holds::Form => self.facts.form = self.facts.form.or(form(cell)),
            Holds::Cross => self.cross(column, cell),
            // A parent of which it is written that it is not known is not one that was left blank.
            Holds::SeedParent => first(&mut self.facts.seed_parent, Some(cell.to_owned())),
            Holds::PollenParent => first(&mut self.facts.pollen_parent, Some(cell.to_owned())),
            // A column of formulas that is headed `Cross` may have a code among them.
            Holds::Parents if column.is_headed_cross() && is_code_like(cell) => {
                first(&mut self.facts.cross, words());
            }
            Holds::Parents => first(&mut self.facts.both_parents, words()),
            Holds::Place if !self.of.table.is_own_sheet && is_no_place(cell) => {
                self.other(column, cell, Why::NoPlace);
            }
            Holds::Place => first(&mut self.facts.place, words()),
            Holds::To => self.receiver(column, cell),
            Holds::Locality => first(&mut self.facts.locality, words()),
            Holds::Sex => self.sex(column, cell),
            Holds::Reading => self.reading(column, cell),
            Holds::Pot => self.pot(column, cell),
            Holds::Seeds => self.seeds(column, cell),
            Holds::Pods => {
                let pods = self.count(column, cell);
                self.facts.pods = self.facts.pods.or(pods);
            }
            Holds::Germinated => {
                let up = self.count(column, cell);
                match self.days.get(&column.at).cloned().zip(up) {
                    Some(dated) => self.facts.counts.push(dated),
                    None => self.facts.germinated = self.facts.germinated.or(up),
                }
            }
            Holds::Left => self.facts.left = left_words(cell),
            Holds::Status => self.status(column, cell),
            Holds::Gone => {
                let on = self.date(column, cell);
                let cell = cell.to_owned();
                self.gone = on.map(|on| Gone { column, cell, on });
            }
            Holds::Died => self.left(column, "died", cell),
            Holds::Sold => self.left(column, "sold", cell),
            Holds::Given => self.left(column, "given", cell),
            Holds::Acquired
            | Holds::Measured
            | Holds::Potted
            | Holds::Pollinated
            | Holds::Harvested
            | Holds::Sown
            | Holds::Counted => self.day(column, cell),
            Holds::NotRead if is_blank(cell) => {}
            Holds::NotRead if is_piece_of(&column.heading) => {
                self.other(column, cell, Why::PieceOf(cell.to_owned()));
            }
            Holds::NotRead if !column.may_be.is_empty() => {
                self.other(column, cell, Why::DateOf(column.may_be));
            }
            Holds::NotRead => self.under_one_heading(column, cell),
            Holds::Unit | Holds::Price | Holds::Note => {}
        }
    }

    fn day(&mut self, column: &'a ColumnTaken, cell: &str) {
        let on = self.date(column, cell);
        // Seed that was given away was not sown.
        let says_not = is_not_gone(cell) || is_not_yet(cell) || fate_and_rest(cell).is_some();
        let unread = self.doubts.last().map(|of| &of.why);
        let unread = matches!(unread, Some(Why::NoDate | Why::NoYear(..))) && on.is_none();
        if column.holds == Holds::Sown && !is_blank(cell) {
            self.sown_unread |= unread && !says_not;
            self.not_sown |= says_not;
        }
        if let Some(field) = self.facts.day(column.holds) {
            first(field, on);
        }
    }

    /// What only a plant has is not taken in from the row of a cross and its seed.
    fn of_no_plant(&mut self) {
        if self.facts.codes_of != CodesOf::Sowings {
            return;
        }
        let table = self.of.table;
        for TraitCell { column, cell, .. } in std::mem::take(&mut self.facts.readings) {
            if let Some(column) = table.column(|of| of.at == column) {
                self.other(column, &cell, Why::OfNoPlant);
            }
        }
        for End { column, cell, fate } in std::mem::take(&mut self.ends) {
            if fate.is_some() {
                self.other(column, &cell, Why::OfNoPlant);
            }
        }
        (self.gone, self.receiver, self.facts.to) = (None, None, None);
    }

    /// Notes a doubt about a cell, and says what was chosen for such.
    pub fn doubt(&mut self, class: RowClass, column: &ColumnTaken, cell: &str, why: Why) -> Choose {
        let chosen = self.chosen(class);
        self.doubts.push(Doubt {
            class,
            column: column.heading.clone(),
            found: cell.to_owned(),
            why,
            chosen,
        });
        chosen
    }

    /// Notes that a cell cannot be read as what its column holds.
    pub fn other(&mut self, column: &ColumnTaken, cell: &str, why: Why) {
        self.doubt(RowClass::Other, column, cell, why);
    }

    /// Notes a doubt about the whole row, and says what was chosen for such.
    pub fn about_row(&mut self, class: RowClass, why: Why) -> Choose {
        let chosen = self.chosen(class);
        self.doubts.push(Doubt::of_row(class, "", why, chosen));
        chosen
    }

    fn chosen(&self, class: RowClass) -> Choose {
        let table = &self.of.table.name;
        self.of.choices.chosen(class, table, self.line)
    }

    /// Whether a cell is a code as it stands: one on record, or one that can be given.
    fn is_own_code(&self, cell: &str) -> bool {
        is_new_code(cell) || self.of.registry.target(cell).is_some()
    }

    /// Leaves out a row for a cell in the place of its cross or code, whatever was chosen.
    pub fn left_out(&mut self, column: &ColumnTaken, cell: &str, why: Why) {
        self.doubt(RowClass::NoPlant, column, cell, why);
        if let Some(doubt) = self.doubts.last_mut() {
            doubt.chosen = Choose::LeaveOut;
        }
    }

    fn code(&mut self, column: &'a ColumnTaken, cell: &str) {
        if is_blank(cell) {
            return;
        }
        // `dead` where the number was: what became of the plant, and no code.
        if fate(cell).is_some() {
            return self.status(column, cell);
        }
        if self.is_own_code(cell) || is_marked_range(cell) {
            return first(&mut self.facts.code, Some(cell.to_owned()));
        }
        let several = cell.replace(" and ", ",").replace('␊', ",");
        let several: Vec<String> = several
            .split(marks)
            .map(|code| code.trim().to_owned())
            .collect();
        if several.len() > 1
            && all_differ(&several)
            && several.iter().all(|code| self.is_own_code(code))
        {
            self.doubt(RowClass::SeveralPlants, column, cell, Why::Several);
            self.facts.codes = several;
            return;
        }
        // Brackets may mean a doubt as well as a plant that is gone or lent.
        let sure = without_doubt(cell).trim_matches(['(', '[', ']']);
        let is_doubted = cell.contains('?') || !cell.starts_with(sure);
        if is_doubted && self.is_own_code(sure) {
            self.about_row(RowClass::NoPlant, Why::CodeDoubted(sure.to_owned()));
            return;
        }
        if has_end(cell) {
            return self.left_out(column, cell, Why::EndInCode);
        }
        let code = joined(cell);
        if is_new_code(&code) && self.facts.code.is_none() {
            self.other(column, cell, Why::CodeChanged(code.clone()));
            self.facts.code = Some(code);
        }
    }

    pub fn date(&mut self, column: &ColumnTaken, cell: &str) -> Option<String> {
        self.date_else(column, cell, Why::NoDate)
    }

    /// The same with what a cell is that is no date.
    pub fn date_else(&mut self, column: &ColumnTaken, cell: &str, unread: Why) -> Option<String> {
        let years_first = column.orders.is_some_and(|of| of.years_first);
        let hemisphere = self.of.registry.settings.hemisphere;
        let why = match date_in(cell, hemisphere, self.of.today, years_first) {
            DateRead::Blank => return None,
            DateRead::Known(text) => return Some(text),
            DateRead::SeveralDays(days) => return Some(self.one_of_days(column, cell, days)),
            DateRead::Counted(day) => {
                self.other(column, cell, Why::CountedDays(day.clone()));
                return Some(day);
            }
            DateRead::NoYear(day, month) => Why::NoYear(day, month),
            DateRead::ToCome => Why::DayToCome,
            DateRead::Unread => unread,
        };
        self.other(column, cell, why);
        None
    }

    /// A date that can be several days: the one chosen, else the range of all. A choice that the cell cannot be read by
    /// leaves it the range.
    fn one_of_days(&mut self, column: &ColumnTaken, cell: &str, days: Days) -> String {
        let why = Why::SeveralDays(days.words());
        let chosen = match self.doubt(RowClass::DateTwoWays, column, cell, why) {
            Choose::DayFirst => days.day_first,
            Choose::MonthFirst => days.month_first,
            Choose::YearFirst => days.year_first,
            Choose::LeaveOut => return range(&days.each()),
            _ => None,
        };
        if let (None, Some(doubt)) = (chosen, self.doubts.last_mut()) {
            doubt.chosen = Choose::Take;
        }
        chosen.map_or_else(|| range(&days.each()), |day| day.to_string())
    }

    fn sex(&mut self, column: &ColumnTaken, cell: &str) {
        // `male, claimed by the supplier`: how it is known stays in the note.
        let cell = match cell.split_once(", ") {
            Some((word, _)) if self.of.table.is_own_sheet => word,
            _ if self.of.table.is_own_sheet && cell == "unsexed" => return,
            _ => cell,
        };
        match sex(cell) {
            Some(sex) => self.facts.sex = Some(sex),
            None if is_blank(cell) => {}
            None => self.other(column, cell, Why::NoSex),
        }
    }

    fn reading(&mut self, column: &ColumnTaken, cell: &str) {
        if is_blank(cell) {
            return;
        }
        let Some(of) = column.of_trait else {
            return self.other(column, cell, Why::NoTrait);
        };
        let declared = &self.of.registry[of];
        if column.has_commas && is_in_thousands(cell) {
            return self.other(column, cell, Why::PointOrThousand);
        }
        let is_length = matches!(declared.reads, Reads::Length(_));
        let bare = is_length && Length::read(cell).is_ok_and(|length| length.unit.is_none());
        let written = match self.unit_of(column).filter(|_| bare) {
            Some(Some(unit)) => format!("{cell} {}", unit_word(unit)),
            Some(None) => return,
            None => cell.to_owned(),
        };
        let cell = match value(declared, &written, None) {
            Ok(_) => written,
            Err(Misread::UnitUnknown) => self.without_unit(column, cell),
            Err(_) => return self.no_number(column, cell, Why::NoReading),
        };
        let on = self.days.get(&column.at).cloned();
        let mut readings = self.facts.readings.iter();
        if let Some(there) = readings.find(|read| read.of == of && read.on == on) {
            if there.cell != cell {
                self.other(column, &cell, Why::SecondReading);
            }
            return;
        }
        self.facts.readings.push(TraitCell {
            of,
            cell,
            on,
            column: column.at,
        });
    }

    /// The unit of bare numbers in a column: none where nothing says it, and none inside where what says it is no unit.
    fn unit_of(&self, column: &ColumnTaken) -> Option<Option<LengthUnit>> {
        let of_row = self.units.get(&column.at).copied();
        column.unit.map(Some).or(of_row)
    }

    /// A cell that is not one number, for the reason that it shows, else another.
    fn no_number(&mut self, column: &ColumnTaken, cell: &str, other: Why) {
        let why = inexact(cell).map_or(other, Why::Inexact);
        self.other(column, cell, why);
    }

    /// A size without a unit: with the one chosen, else as it stands.
    fn without_unit(&mut self, column: &ColumnTaken, cell: &str) -> String {
        match self.doubt(RowClass::SizeWithoutUnit, column, cell, Why::NoUnit) {
            Choose::Cm => format!("{cell} cm"),
            Choose::Mm => format!("{cell} mm"),
            Choose::In => format!("{cell} in"),
            _ => cell.to_owned(),
        }
    }

    fn pot(&mut self, column: &ColumnTaken, cell: &str) {
        if is_blank(cell) {
            return;
        }
        self.facts.pot = match Length::read(cell) {
            Ok(length) if length.unit.is_some() => Some(cell.to_owned()),
            Ok(_) => match self.unit_of(column) {
                Some(unit) => unit.map(|unit| format!("{cell} {}", unit_word(unit))),
                None => Some(self.without_unit(column, cell)),
            },
            Err(_) => {
                self.no_number(column, cell, Why::NoReading);
                None
            }
        };
    }

    /// A number of seeds. About so many is an estimate; of a range, a limit or words only that there was seed is recorded.
    fn seeds(&mut self, column: &ColumnTaken, cell: &str) {
        let words = [" seeds", " seed"];
        let bare = words.iter().find_map(|word| cell.strip_suffix(word));
        let bare = bare.unwrap_or(cell).trim_end_matches(".0");
        let of = |number, estimated| Some(SeedCount { number, estimated });
        if let Ok(seeds) = bare.parse::<u32>() {
            self.facts.seeds = of(Some(seeds), false);
        } else if let Some(seeds) = about(bare) {
            self.facts.seeds = of(Some(seeds), true);
        } else if let Some(why) = inexact(bare) {
            self.other(column, cell, Why::Inexact(why));
            self.facts.seeds = of(None, false);
        } else if is_none(cell) {
            self.facts.seeds = of(Some(0), false);
        } else if !is_blank(cell) {
            self.other(column, cell, Why::NoCount);
            self.facts.seeds = of(None, false);
        }
    }

    /// A number that would stand in the note alone, although its heading says what it is.
    fn under_one_heading(&mut self, column: &ColumnTaken, cell: &str) {
        if let Some(heading) = &column.under {
            self.other(column, cell, Why::UnderOneHeading(heading.clone()));
        }
    }

    /// A whole number of pods or seedlings; `none` is 0, as it is of seeds.
    fn count(&mut self, column: &ColumnTaken, cell: &str) -> Option<u32> {
        if is_none(cell) {
            return Some(0);
        }
        let bare = without_percent(cell);
        let count = bare.trim_end_matches(".0").parse::<u32>().ok();
        if count.is_none() && !is_blank(cell) {
            self.no_number(column, cell, Why::NoCount);
        }
        count
    }
}

/// `7 dead`, `7 and 8 sold to Ann`: what became of plants beside their codes.
fn has_end(cell: &str) -> bool {
    let behind = cell.match_indices(' ').map(|(at, _)| at + 1);
    let mut words = std::iter::once(0).chain(behind).map(|at| &cell[at..]);
    cell.contains(|c: char| c.is_ascii_digit()) && words.any(|of| fate_and_rest(of).is_some())
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

/// A code of the letters and digits of a cell, with hyphens between them.
pub(super) fn joined(cell: &str) -> String {
    let pieces = cell.split(|c: char| !is_new_code(&c.to_string()));
    let pieces: Vec<&str> = pieces.filter(|piece| !piece.is_empty()).collect();
    pieces.join("-").chars().take(40).collect()
}

/// Marks between several codes.
pub(super) fn marks(c: char) -> bool {
    ",;&/\n+".contains(c)
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
