//! What a grower chose for tables that `podbook import` brings in: a small RON file beside them, outside the registry.

use super::fault_words::fault_words;
use super::typed::typed;
use serde::Deserialize;

/// The choices, in the order in which they are looked at: columns, whole classes, single rows.
#[derive(Deserialize, Clone, Debug, Default, PartialEq)]
#[serde(deny_unknown_fields, default)]
pub struct ImportChoices {
    /// What columns hold, where podbook took them for something else.
    pub columns: Vec<ColumnChoice>,
    /// What is done with every row of a class.
    pub choices: Vec<ClassChoice>,
    /// What is done with one row.
    pub rows: Vec<RowChoice>,
}

/// What a column holds.
#[derive(Deserialize, Clone, Debug, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct ColumnChoice {
    /// The table as the report names it; every table if left out.
    pub table: Option<String>,
    /// The heading as it stands in the table.
    pub heading: String,
    /// What it holds.
    pub holds: Holds,
}

/// What is done with the rows of a class.
#[derive(Deserialize, Clone, Copy, Debug, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct ClassChoice {
    /// The class.
    pub class: RowClass,
    /// What is done.
    pub choose: Choose,
}

/// What is done with one row.
#[derive(Deserialize, Clone, Debug, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct RowChoice {
    /// The table as the report names it.
    pub table: String,
    /// The row's number in it, from 1.
    pub row: usize,
    /// What is done.
    pub choose: Choose,
}

/// What a column of a table can hold.
#[derive(Deserialize, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
#[serde(rename_all = "snake_case")]
pub enum Holds {
    /// The grower's own code of the plant or cross.
    Code,
    /// The name on the label.
    Label,
    /// Whom it came from.
    Supplier,
    /// The supplier's code.
    SupplierCode,
    /// The day it came.
    Acquired,
    /// What it cost.
    Price,
    /// What it came as.
    Form,
    /// The code of the cross it is a seedling of.
    Cross,
    /// The mother.
    SeedParent,
    /// The father.
    PollenParent,
    /// Both parents in one cell.
    Parents,
    /// The sex.
    Sex,
    /// A reading of a trait that the heading names.
    Reading,
    /// The unit of the sizes in the column before it.
    Unit,
    /// The day of the readings.
    Measured,
    /// The pot's width.
    Pot,
    /// The day it was potted.
    Potted,
    /// Where it stands.
    Place,
    /// The day of the pollination.
    Pollinated,
    /// A number of pods.
    Pods,
    /// The day of the harvest.
    Harvested,
    /// The day of the sowing.
    Sown,
    /// A number of seeds.
    Seeds,
    /// What is left of the seed.
    Left,
    /// A number of seedlings that came up.
    Germinated,
    /// The day on which seedlings were counted.
    Counted,
    /// What became of it, in words.
    Status,
    /// The day it died.
    Died,
    /// The day it was sold.
    Sold,
    /// The day it was given away.
    Given,
    /// The day it went, however it went.
    Gone,
    /// Who has it now.
    To,
    /// Where the line is from.
    Locality,
    /// Remarks.
    Note,
    /// Nothing podbook has a field for.
    NotRead,
}

/// The class of a row.
#[derive(Deserialize, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Debug)]
#[serde(rename_all = "snake_case")]
pub enum RowClass {
    /// Everything is clear.
    #[default]
    Clean,
    /// It was brought in before, or says nothing new.
    OnRecord,
    /// Its cells are not what the record of its plant or cross says.
    Differs,
    /// It equals a row before it, cell by cell.
    Duplicate,
    /// Which plant or cross it is about is not clear.
    NoPlant,
    /// One cell names several plants.
    SeveralPlants,
    /// Another plant has its code.
    CodeTaken,
    /// Two of its cells contradict each other.
    Contradiction,
    /// The label cannot be read.
    LabelUnread,
    /// Its cross is on no page and in no table.
    CrossNotListed,
    /// A parent is named and not known, or is one of several.
    ParentUnknown,
    /// A parent is named by its species only, and one plant has that name.
    ParentBySpecies,
    /// Another supplier uses the same name.
    SharedName,
    /// A date can be read in two orders of day, month and year, or more.
    DateTwoWays,
    /// A size has no unit.
    SizeWithoutUnit,
    /// Anything else: a cell that cannot be read as what its column holds.
    Other,
}

/// What can be done with a row.
#[derive(Deserialize, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
#[serde(rename_all = "snake_case")]
pub enum Choose {
    /// Bring it in; what is in doubt stays in doubt.
    Take,
    /// Leave the row out.
    LeaveOut,
    /// Read the date with the day first.
    DayFirst,
    /// Read the date with the month first.
    MonthFirst,
    /// Read the date with the year first.
    YearFirst,
    /// Millimetres.
    Mm,
    /// Centimetres.
    Cm,
    /// Inches.
    In,
    /// The rows of one name are one plant.
    OnePlant,
    /// Equal rows are one record each.
    Each,
    /// The species itself, and no plant of it.
    Species,
}

impl ImportChoices {
    /// What is done with a doubt of a class in a row: the row's own choice, else that of the class, else the default; a choice
    /// that the class does not know is passed over.
    pub fn chosen(&self, class: RowClass, table: &str, row: usize) -> Choose {
        let own = self.of_row(table, row);
        let of_class = self.choices.iter().rev().filter(|of| of.class == class);
        let mut all = own.chain(of_class.map(|of| of.choose));
        let possible = class.choices();
        all.find(|choose| possible.contains(choose))
            .unwrap_or(possible[0])
    }

    /// What was chosen for one row, the last choice first.
    pub fn of_row(&self, table: &str, row: usize) -> impl Iterator<Item = Choose> {
        let rows = self.rows.iter().rev();
        let own = rows.filter(move |of| of.row == row && of.table == table);
        own.map(|of| of.choose)
    }

    /// Reads the text of a file of choices.
    ///
    /// # Errors
    /// With line, column and what was found, when the text is not such a file.
    pub fn read(text: &str) -> Result<ImportChoices, String> {
        typed(text).map_err(|error| {
            let place = error.span.start;
            format!("{}:{}: {}", place.line, place.col, fault_words(&error.code))
        })
    }
}

/// Words of the files, with what they stand for.
macro_rules! words {
    ($of:ident { $($member:ident $word:literal,)* }) => {
        impl $of {
            /// All of them, in their order.
            pub const ALL: &[$of] = &[$($of::$member,)*];

            /// The word in the file.
            pub fn word(self) -> &'static str {
                match self { $($of::$member => $word,)* }
            }

            /// The one that a word of the file stands for.
            pub fn named(word: &str) -> Option<$of> {
                $of::ALL.iter().copied().find(|of| of.word() == word)
            }
        }
    };
}

words!(Holds {
    Code "code", Label "label", Supplier "supplier", SupplierCode "supplier_code", Acquired "acquired", Price "price",
    Form "form", Cross "cross", SeedParent "seed_parent", PollenParent "pollen_parent", Parents "parents", Sex "sex",
    Reading "reading", Unit "unit", Measured "measured", Pot "pot", Potted "potted", Place "place", Pollinated "pollinated",
    Pods "pods", Harvested "harvested", Sown "sown", Seeds "seeds", Left "left", Germinated "germinated",
    Counted "counted", Status "status", Died "died", Sold "sold", Given "given", Gone "gone", To "to",
    Locality "locality", Note "note", NotRead "not_read",
});
words!(RowClass {
    Clean "clean", OnRecord "on_record", Differs "differs", Duplicate "duplicate", NoPlant "no_plant",
    SeveralPlants "several_plants",
    CodeTaken "code_taken", Contradiction "contradiction", LabelUnread "label_unread", CrossNotListed "cross_not_listed",
    ParentUnknown "parent_unknown", ParentBySpecies "parent_by_species", SharedName "shared_name", DateTwoWays "date_two_ways",
    SizeWithoutUnit "size_without_unit", Other "other",
});
words!(Choose {
    Take "take", LeaveOut "leave_out", DayFirst "day_first", MonthFirst "month_first", YearFirst "year_first", Mm "mm", Cm "cm", In "in",
    OnePlant "one_plant", Each "each", Species "species",
});

impl RowClass {
    /// What can be chosen for it, the default first.
    pub fn choices(self) -> &'static [Choose] {
        use Choose::{
            Cm, DayFirst, Each, In, LeaveOut, Mm, MonthFirst, OnePlant, Species, Take, YearFirst,
        };
        match self {
            RowClass::OnRecord | RowClass::Differs => &[LeaveOut],
            RowClass::Duplicate => &[LeaveOut, Each],
            RowClass::NoPlant
            | RowClass::SeveralPlants
            | RowClass::CodeTaken
            | RowClass::Contradiction => &[LeaveOut, Take],
            RowClass::ParentBySpecies => &[Take, Species, LeaveOut],
            RowClass::SharedName => &[Take, OnePlant, LeaveOut],
            RowClass::DateTwoWays => &[Take, DayFirst, MonthFirst, YearFirst, LeaveOut],
            RowClass::SizeWithoutUnit => &[Take, Cm, Mm, In, LeaveOut],
            _ => &[Take, LeaveOut],
        }
    }
}
