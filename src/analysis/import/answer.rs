//! What is known of tables that are to be brought in.

use super::facts::{CodesOf, RowFacts};
use super::headings::headed;
use super::inexact::Inexact;
use crate::naming::recorded::MissingNames;
use crate::record::{Choose, Holds, LengthUnit, RowClass};
use crate::registry::TraitRow;
use crate::text::GridRow;

/// Tables, sorted out.
#[derive(Clone, Debug, Default)]
pub struct Import {
    /// The tables, in the order given.
    pub tables: Vec<ImportTable>,
    /// Every row that is no heading and no title, in the order of the tables.
    pub rows: Vec<ImportRow>,
    /// Names of the starter list that labels use and `species.ron` lacks.
    pub names: MissingNames,
}

/// A table: a file of text, or one sheet of a workbook.
#[derive(Clone, Debug)]
pub struct ImportTable {
    /// The file's name, and the sheet's where it has one.
    pub name: String,
    /// Rows with something in them.
    pub lines: usize,
    /// Rows above the headings, the headings, and headings that are repeated further down.
    pub headings: usize,
    /// The line of the headings; none where the columns have none.
    pub headed: Option<usize>,
    /// The columns that have anything in them.
    pub columns: Vec<ColumnTaken>,
    /// Whether nothing in it is known and its cells are sentences: a letter, not a table.
    pub is_prose: bool,
    /// The code of a cross that its name, or a row above the headings, begins with.
    pub titled: Option<String>,
    /// Lines of rows with words that are struck through.
    pub struck: Vec<usize>,
    /// Whether its headings are those of the sheet that `podbook export plants` writes.
    pub is_own_sheet: bool,
}

/// A column, and what it is taken for.
#[derive(Clone, PartialEq, Debug)]
pub struct ColumnTaken {
    /// Its place in the row, from 0.
    pub at: usize,
    /// Its heading as it stands there; `column C` where it has none.
    pub heading: String,
    /// What it holds.
    pub holds: Holds,
    /// The trait that is read, by its place among those declared.
    pub of_trait: Option<TraitRow>,
    /// The unit of the heading, or of a line below it.
    pub unit: Option<LengthUnit>,
    /// The column with the unit of each cell, by its place in the row; none where there is no such column.
    pub unit_in: Option<usize>,
    /// Why it is taken for this.
    pub by: TakenBy,
    /// Up to three different cells, from the top.
    pub examples: Vec<String>,
    /// Cells with something in them.
    pub filled: usize,
    /// Where the day of its readings or counts stands; none where it is that of the row.
    pub read_on: Option<ReadOn>,
    /// How dates of the column are written; none where it holds no dates.
    pub orders: Option<DateOrders>,
    /// Cells that hold a ditto mark and are read as the cell above.
    pub dittos: usize,
    /// Cells with a coloured ground, also empty ones, beside rows with something in them.
    pub coloured: usize,
    /// Cells that come more than once in a column which holds codes otherwise, and is not read because of them.
    pub twice: Vec<String>,
    /// Whether commas stand before decimals in it.
    pub has_commas: bool,
    /// The heading of counts or sizes to the left that stands over this column too, as a joined cell does; none otherwise.
    pub under: Option<String>,
    /// What its days may be those of, where that is open: it is not read then. Empty otherwise.
    pub may_be: &'static [Holds],
}

/// Where the day of the readings of a column stands.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum ReadOn {
    /// In its heading, in these words.
    Day(String),
    /// In the cells of another column, by its place in the row.
    Column(usize),
}

/// Why a column is taken for what it is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum TakenBy {
    /// By its heading.
    Heading,
    /// By what its cells hold.
    Content,
    /// By the grower's choice.
    Choice,
    /// Nothing is known of it.
    Nothing,
}

/// Dates of a column in numbers alone that can be read in one order only, and those that can be read in several.
#[derive(Clone, Copy, PartialEq, Eq, Default, Debug)]
pub struct DateOrders {
    /// Day first only.
    pub day_first: usize,
    /// Month first only.
    pub month_first: usize,
    /// Several ways.
    pub either: usize,
    /// Beginning with the year in full.
    pub year_first: usize,
    /// Of those that can be read several ways, those that may begin with the year.
    pub may_begin_with_year: usize,
    /// Whether a cell shows that a short date may begin with its year behind other marks than hyphens, too.
    pub years_first: bool,
}

/// A row, and what it would bring.
#[derive(Clone, Debug, Default)]
pub struct ImportRow {
    /// The table, by its place.
    pub table: usize,
    /// Its number in the file or sheet, from 1.
    pub line: usize,
    /// The class it is counted in: that of its weightiest doubt.
    pub class: RowClass,
    /// Everything that is not clear, the weightiest first.
    pub doubts: Vec<Doubt>,
    /// Whether it comes in.
    pub comes: bool,
    /// What it is.
    pub kind: Kind,
    /// What its cells say.
    pub facts: RowFacts,
    /// Its parents.
    pub parents: RowParents,
    /// Its cells word for word, with file and row.
    pub source: String,
    /// Of a further row of what is known: its cells that only a note can keep, and that no note has yet. Of another row all
    /// such cells of its own columns.
    pub remarks: Vec<String>,
}

/// Something about a row that is not clear.
#[derive(Clone, PartialEq, Debug)]
pub struct Doubt {
    /// The class it puts the row in.
    pub class: RowClass,
    /// The heading of the column; empty where it is about the row.
    pub column: String,
    /// The cell.
    pub found: String,
    /// What is not clear.
    pub why: Why,
    /// What is done.
    pub chosen: Choose,
}

/// What is not clear.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Why {
    /// It was brought in before.
    BroughtInBefore,
    /// The plant is on record, and the row says nothing new.
    NothingNew,
    /// The cross is on record, and the row says nothing else of it.
    CrossKnown,
    /// It equals another row; that row's table and line.
    Equals(String, usize),
    /// It has neither a code, nor a name, nor a cross.
    NoPlant,
    /// The same, of a row that says something all the same: it may be about the plant of the row above.
    NoPlantSaid,
    /// It adds up other rows, or has their mean or another figure of them.
    Figures,
    /// It is the title of the rows below it.
    Title,
    /// It is one more line of headings.
    Headings,
    /// Several codes, or several names.
    Several,
    /// Several plants of which a row can bring in one only: numbers from one to another, or seedlings.
    SeveralOnOneRow,
    /// Several codes, of which one is that of a plant or cross that is known.
    SeveralKnown(String),
    /// A further number under a heading that stands over several columns: nothing says what sets them apart.
    UnderOneHeading(String),
    /// Its plant is in a row that is left out.
    PlantLeftOut,
    /// The code is that of another plant, on record or in a row before.
    CodeTaken,
    /// The code is that of a plant with another name; the name of this row and that one.
    OtherName(String, String),
    /// A number of two plants, or of one by two tables, of which neither has a name for it.
    NumberAlone,
    /// A piece of a plant, which is no plant of its own; that plant.
    PieceOf(String),
    /// A code with a mark of doubt; the code.
    CodeDoubted(String),
    /// A code, or several, with what became of the plants.
    EndInCode,
    /// One of several crosses, and no row can say of which.
    OneOfCrosses,
    /// Another code differs only in capitals; that code.
    OtherCapitals(String),
    /// A row of podbook's own sheet, whose plant is on record.
    OwnSheet,
    /// A cell is not what the record of its plant says; what that says, and what puts it right.
    Differs {
        /// The cell as the record would have it; none where nothing is recorded.
        recorded: Option<String>,
        /// What puts the record right.
        by: String,
    },
    /// A cell is not what another row of its plant says; that row's table and line come in.
    DiffersFrom {
        /// Table and line of that row.
        row: (String, usize),
        /// The cell there; none where it says nothing.
        there: Option<String>,
        /// What puts the record right afterwards.
        by: String,
    },
    /// Seed of a cross that is known, without a sowing; the page of the cross.
    SeedNotTaken(String),
    /// A sowing that may be one which is known; its code where it is on record, and the page of the cross.
    SownBefore(Option<String>, String),
    /// More than a sowing of a cross that is known; the page of the cross.
    OnlySowing(String),
    /// One cell names two ends of the plant.
    TwoEnds,
    /// It has no code, and its cells are like those of a row that was brought in for what has this code, and that is gone.
    LooksLike(String),
    /// A row of podbook's own sheet that has no code any more, and whose plant its other cells do not name.
    NoCode,
    /// Another cell of the row says otherwise: that cell's column, and what it says.
    Contradicts(String, String),
    /// A parent is of another species than the label; the parent's name.
    ParentIs(String),
    /// The cross of the seedling has other parents; its code.
    CrossHasOthers(String),
    /// Parents of a plant that came from a supplier: no record of such a plant has parents.
    ParentsOfAFounder,
    /// The label cannot be read.
    LabelUnread,
    /// The cross is neither on record nor in the tables.
    CrossNotListed,
    /// A parent is named by nothing that is known.
    ParentNotKnown,
    /// Several codes of plants in one cell, and nothing that says whether one of them or pollen of all.
    SeveralCodes(Vec<String>),
    /// A ditto mark that stands for nothing: the cell above is blank, of another row, or one that is never repeated.
    Ditto,
    /// `same` for a father: the seed parent again, or the father of the row above.
    SameAsWhich,
    /// Selfed: a plant has one sex here, so that no record has it for both parents.
    Selfed,
    /// One of several parents.
    ParentOneOf,
    /// The same, of so many pods: the files say one parent for all of them.
    ParentOneOfPods(u32),
    /// A parent named only by its species, which one plant has for its name.
    BySpecies(Who),
    /// A code that two plants have.
    CodeOfTwo,
    /// Pollen of several, mixed: each seed has one of them for its father.
    PollenMixed,
    /// A parent that is known, with a mark of doubt on it: its code.
    ParentDoubted(String),
    /// One parent is left blank.
    ParentMissing,
    /// Another supplier's plant has this name.
    NameOfTwo,
    /// The days a date can be.
    SeveralDays(Vec<String>),
    /// No unit, neither in the cell nor in the heading.
    NoUnit,
    /// Not a unit of length, so that the size beside it is not read.
    UnitUnread,
    /// A day whose year is not said; with the month of a year that it may be as well.
    NoYear(String, Option<String>),
    /// Not a date.
    NoDate,
    /// A day that is still to come.
    DayToCome,
    /// A number, read as the days a spreadsheet counts.
    CountedDays(String),
    /// It left before it came.
    LeftBeforeItCame,
    /// A range or a mark on a number, where the files have room for one number.
    Inexact(Inexact),
    /// A point that may stand before decimals or behind thousands, in a column of decimal commas.
    PointOrThousand,
    /// Something that only a plant has, in the row of a cross and its seed.
    OfNoPlant,
    /// A second reading of the trait of one day, or of none.
    SecondReading,
    /// Not a reading of the trait.
    NoReading,
    /// Not a number of seeds.
    NoCount,
    /// A reading of a trait that `registry.ron` does not declare.
    NoTrait,
    /// Neither male nor female.
    NoSex,
    /// Words that do not say what became of the plant.
    NoStatus,
    /// Words that are no date, of a plant that went all the same.
    NoDayOfEnd,
    /// A bare date that may be the day of several things; what its column may hold.
    DateOf(&'static [Holds]),
    /// Words where a place is expected, which say what became of the plant.
    NoPlace,
    /// A code with signs that no code may have; the code it gets.
    CodeChanged(String),
    /// There is no name.
    NoName,
}

/// What a row is.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Kind {
    /// Nothing that could be brought in.
    #[default]
    Nothing,
    /// A plant that came from elsewhere.
    Founder,
    /// A cross made here.
    Cross,
    /// Seed that came with a label.
    Seed,
    /// A seedling of a cross with this code, and its number if it has one.
    Seedling {
        /// Code of the cross.
        cross: String,
        /// Its number.
        number: Option<String>,
    },
    /// A seedling whose parents are named, but not its cross; rows with the same words are of one cross.
    SeedlingOf(String),
    /// Seed of the cross with this code: it begins the cross, or adds a sowing to one that is known.
    SeedOf(String),
    /// More about a plant that is known.
    More(Who),
}

/// Who is meant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Who {
    /// The plant or cross of another row, by its place among the rows.
    Row(usize),
    /// A plant, piece or cross on record, by its code.
    OnRecord(String),
    /// A species: a plant that was never seen.
    Species(String),
}

/// The parents a row names.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RowParents {
    /// Plants one of which bore the pods; none where it is not known.
    pub seed: Vec<Who>,
    /// Plants one of which gave the pollen; none where it is not known.
    pub pollen: Vec<Who>,
    /// Pollen from anywhere.
    pub open: bool,
    /// The pollen is a mixture of those that gave it.
    pub mixed: bool,
    /// The label that is all there is.
    pub label: Option<String>,
}

impl Doubt {
    /// A doubt about a whole row.
    pub(super) fn of_row(class: RowClass, found: &str, why: Why, chosen: Choose) -> Doubt {
        Doubt {
            class,
            column: String::new(),
            found: found.to_owned(),
            why,
            chosen,
        }
    }
}

impl ImportTable {
    /// The first column that something is true of.
    pub(super) fn column(&self, is: impl Fn(&ColumnTaken) -> bool) -> Option<&ColumnTaken> {
        self.columns.iter().find(|of| is(of))
    }

    /// The first column with a heading.
    pub(super) fn headed(&self, heading: &str) -> Option<&ColumnTaken> {
        self.column(|of| of.heading == heading)
    }

    /// The first column that holds something.
    pub(super) fn holding(&self, holds: Holds) -> Option<&ColumnTaken> {
        self.column(|of| of.holds == holds)
    }

    /// What its codes are of.
    pub(super) fn codes_of(&self) -> CodesOf {
        let has = |all: &[Holds]| self.columns.iter().any(|of| all.contains(&of.holds));
        let counts = [Holds::Pods, Holds::Seeds, Holds::Left, Holds::Germinated];
        let mut said = self.columns.iter().map(ColumnTaken::codes_of);
        let said = said.find(|of| *of != CodesOf::Unsaid);
        // Without a column of its own a code is that under `Cross`, or there is none.
        let headed = || self.columns.iter().any(ColumnTaken::is_headed_cross);
        let is_plant = |of: &ColumnTaken| of.holds == Holds::Code && of.is_bare_plant();
        let plants = || self.columns.iter().any(is_plant);
        match said.unwrap_or_default() {
            CodesOf::Crosses if has(&counts) => CodesOf::Sowings,
            CodesOf::Unsaid if !has(&[Holds::Code]) && has(&counts) && headed() => CodesOf::Sowings,
            // Plants by their heading, with the formula of their parents beside them.
            CodesOf::Unsaid if plants() && headed() && !has(&counts) => CodesOf::Seedlings,
            said => said,
        }
    }
}

impl ColumnTaken {
    /// Its cell of a row, without blanks around it; empty where the row has none.
    pub(super) fn cell<'r>(&self, row: &'r GridRow) -> &'r str {
        row.cells.get(self.at).map_or("", |cell| cell.trim())
    }

    /// What its codes are of, if it holds any.
    pub(super) fn codes_of(&self) -> CodesOf {
        let words = self.heading.to_lowercase();
        match () {
            () if self.holds != Holds::Code => CodesOf::Unsaid,
            () if self.is_headed_cross() => CodesOf::Crosses,
            () if words.contains("packet") => CodesOf::Packets,
            () if words.contains("seedling") => CodesOf::Seedlings,
            () => CodesOf::Unsaid,
        }
    }

    /// Whether its heading, and nothing else, says that it holds something.
    pub(super) fn is_taken_for(&self, holds: Holds) -> bool {
        self.holds == holds && self.by == TakenBy::Heading
    }

    /// Whether its heading is `Plant` alone, which heads names as well as codes.
    pub(super) fn is_bare_plant(&self) -> bool {
        let words = self.heading.trim().to_lowercase();
        ["plant", "plants"].contains(&words.as_str())
    }

    /// Whether its heading is one of crosses, whatever its cells are.
    pub(super) fn is_headed_cross(&self) -> bool {
        headed(&self.heading).is_some_and(|(holds, _)| holds == Holds::Cross)
    }
}

impl Import {
    /// Rows of the files with something in them.
    pub fn lines(&self) -> usize {
        self.tables.iter().map(|table| table.lines).sum()
    }

    /// Headings and titles.
    pub fn headings(&self) -> usize {
        self.tables.iter().map(|table| table.headings).sum()
    }

    /// Rows of a class.
    pub fn count(&self, class: RowClass) -> usize {
        self.rows.iter().filter(|row| row.class == class).count()
    }

    /// The rows that come in, with their places.
    pub fn coming(&self) -> impl Iterator<Item = (usize, &ImportRow)> {
        self.rows.iter().enumerate().filter(|(_, row)| row.comes)
    }
}
