//! Words for classes, columns, doubts and choices of tables that are to be brought in.

use crate::analysis::import::{Inexact, KEPT, LEFT_LABEL, PRICE, TakenBy, Why};
use crate::record::{Choose, Holds, RowClass};

/// What a class of rows is.
pub fn class_words(class: RowClass) -> &'static str {
    match class {
        RowClass::Clean => "everything is clear",
        RowClass::OnRecord => "on record already",
        RowClass::Differs => "cells differ from the record",
        RowClass::Duplicate => "equal to a row before it",
        RowClass::NoPlant => "no clear plant or cross",
        RowClass::SeveralPlants => "several plants in one cell",
        RowClass::CodeTaken => "another plant has the code",
        RowClass::Contradiction => "two cells contradict each other",
        RowClass::LabelUnread => "label cannot be read",
        RowClass::CrossNotListed => "cross not on the list",
        RowClass::ParentUnknown => "a parent not known, or one of several",
        RowClass::ParentBySpecies => "a parent named only by its species",
        RowClass::SharedName => "a name two suppliers use",
        RowClass::DateTwoWays => "a date that can be read two ways",
        RowClass::SizeWithoutUnit => "a size without a unit",
        RowClass::Other => "something else",
    }
}

/// What a choice does to a row of a class.
pub fn choice_words(class: RowClass, choose: Choose) -> &'static str {
    match (class, choose) {
        (RowClass::OnRecord, _) => "nothing to add",
        (RowClass::Differs, _) => "the record stays",
        (_, Choose::LeaveOut) => "left out",
        (_, Choose::DayFirst) => "day first",
        (_, Choose::MonthFirst) => "month first",
        (_, Choose::YearFirst) => "year first",
        (_, Choose::Mm) => "millimetres",
        (_, Choose::Cm) => "centimetres",
        (_, Choose::In) => "inches",
        (_, Choose::OnePlant) => "one plant",
        (_, Choose::Each) => "a record for each",
        (_, Choose::Species) => "the species, and no plant of yours",
        (RowClass::Clean, Choose::Take) => "comes in",
        (RowClass::NoPlant, Choose::Take) => "a record of its own",
        (RowClass::SeveralPlants, Choose::Take) => "a plant for each",
        (RowClass::CodeTaken, Choose::Take) => "the next free code",
        (RowClass::Contradiction, Choose::Take) => "the earlier end; parents before the label",
        (RowClass::LabelUnread, Choose::Take) => "kept as it is written",
        (RowClass::CrossNotListed, Choose::Take) => "a cross with unknown parents",
        (RowClass::ParentUnknown, Choose::Take) => "stays in doubt",
        (RowClass::ParentBySpecies, Choose::Take) => "your one plant of that name",
        (RowClass::SharedName, Choose::Take) => "two plants",
        (RowClass::DateTwoWays, Choose::Take) => "a range of both days",
        (RowClass::SizeWithoutUnit, Choose::Take) => "stays without a unit",
        (_, Choose::Take) => "comes in; the cell stays in the note",
    }
}

/// What a column holds.
pub(super) fn holds_words(holds: Holds) -> &'static str {
    match holds {
        Holds::Code => "your own code",
        Holds::Label => "the name on the label",
        Holds::Supplier => "supplier",
        Holds::SupplierCode => "the supplier's code",
        Holds::Acquired => "the day it came",
        Holds::Price => "price, kept in the note",
        Holds::Form => "what it came as",
        Holds::Cross => "the cross it is of",
        Holds::SeedParent => "seed parent",
        Holds::PollenParent => "pollen parent",
        Holds::Parents => "both parents",
        Holds::Sex => "sex",
        Holds::Reading => "a reading",
        Holds::Unit => "unit of the size",
        Holds::Measured => "the day of the readings",
        Holds::Pot => "pot",
        Holds::Potted => "the day it was potted",
        Holds::Place => "place",
        Holds::Pollinated => "the day of the pollination",
        Holds::Pods => "number of pods",
        Holds::Harvested => "the day of the harvest",
        Holds::Sown => "the day of sowing",
        Holds::Seeds => "number of seeds",
        Holds::Left => "what is left of the seed",
        Holds::Counted => "the day seedlings were counted",
        Holds::Germinated => "number of seedlings that came up",
        Holds::Status => "what became of it",
        Holds::Died => "the day it died",
        Holds::Sold => "the day it was sold",
        Holds::Given => "the day it was given away",
        Holds::Gone => "the day it went",
        Holds::To => "who has it now",
        Holds::Locality => "locality",
        Holds::Note => "remarks, kept in the note",
        Holds::NotRead => "not read, kept in the note",
    }
}

/// What a column of podbook's own sheet holds that no other table has; none of another heading.
pub(super) fn own_words(heading: &str) -> Option<&'static str> {
    match heading {
        KEPT => Some("whether it is marked to keep"),
        PRICE => Some("what was asked for it"),
        LEFT_LABEL => Some("the tag it left with"),
        _ => None,
    }
}

/// Why a column is taken for what it is.
pub(super) fn by_words(by: TakenBy) -> &'static str {
    match by {
        TakenBy::Heading => "its heading",
        TakenBy::Content => "its cells",
        TakenBy::Choice => "your choice",
        TakenBy::Nothing => "",
    }
}

/// What is not clear, after the cell.
pub(super) fn why_words(why: &Why) -> String {
    match why {
        Why::BroughtInBefore => "brought in before".to_owned(),
        Why::NothingNew => {
            "the plant is known; a further row adds readings, remarks and its end only, and this has no new ones"
                .to_owned()
        }
        Why::TwoEnds => "the cell names two ends of one plant".to_owned(),
        Why::OtherCapitals(code) => format!("differs from {code} only in capitals"),
        Why::OwnSheet => "podbook's own sheet; the plant is on record".to_owned(),
        Why::Differs { recorded, by } => format!(
            "{}; to put it right: {}",
            match recorded {
                Some(recorded) => format!("the record says {recorded}"),
                None => "the record says nothing".to_owned(),
            },
            by
        ),
        Why::DiffersFrom {
            row: (table, line),
            there,
            by,
        } => format!(
            "{table}, row {line} {}; to record this cell afterwards: {}",
            match there {
                Some(there) => format!("says {there}, and that is recorded"),
                None => "says nothing of it, and that row counts".to_owned(),
            },
            by
        ),
        Why::SeedNotTaken(page) => format!(
            "the cross is known, and the row names no sowing of it: write what is new on {page}"
        ),
        Why::SownBefore(Some(sowing), page) => format!(
            "may be sowing {sowing}, which is on record. If it is: podbook count {sowing} --up … --on …; if not, write it on {page}"
        ),
        Why::SownBefore(None, page) => format!(
            "may be the sowing in another row of this cross; once that is recorded, add the count with podbook count, or another sowing on {page}"
        ),
        Why::OnlySowing(page) => {
            format!(
                "the cross is known: the sowing is added, the rest stays in its note; see {page}"
            )
        }
        Why::CrossKnown => "the cross is known, and the row says nothing new of it".to_owned(),
        Why::Equals(table, line) => format!("equals {table}, row {line}"),
        Why::NoPlant => "neither a code nor a name nor a cross".to_owned(),
        Why::NoPlantSaid => "neither a code nor a name nor a cross; if the row is about the plant above it, write that plant's code into it".to_owned(),
        Why::Figures => "a sum, mean or other figure of other rows".to_owned(),
        Why::Headings => "one more line of headings".to_owned(),
        Why::Title => "a title of other rows".to_owned(),
        Why::Several => "several plants".to_owned(),
        Why::NumberAlone => "a number that another table has too, and neither names the plant: add its name, or a column `Cross` for seedlings".to_owned(),
        Why::PieceOf(plant) => format!(
            "a piece of {plant}, and a table brings in whole plants only: leave the row out, and record it with podbook cutting {plant}"
        ),
        Why::CodeDoubted(code) => format!(
            "{code}, in doubt in the table: write the code without the mark if it is right"
        ),
        Why::EndInCode => "a code, and what became of the plant: write a row for each plant, with its end in a column such as `Status`".to_owned(),
        Why::OneOfCrosses => "a seedling of one of several crosses: write the code of one, and then `one_of` on its page for the pods it may be of".to_owned(),
        Why::SeveralOnOneRow => "several plants: write a row for each".to_owned(),
        Why::SeveralKnown(code) => format!("several plants, and {code} is known: write a row for each"),
        Why::UnderOneHeading(heading) => {
            format!("a further number under “{heading}”: give each column a heading of its own")
        }
        Why::PlantLeftOut => "the row of this plant is left out".to_owned(),
        Why::OtherName(own, other) => {
            format!("this row is \"{own}\", and the plant with that code is \"{other}\"")
        }
        Why::CodeTaken => "the code is that of another plant or cross".to_owned(),
        Why::LooksLike(code) => format!(
            "looks like the row of {code}, which is not there any more: write {code} in a column `Code` if it is, or take it as new"
        ),
        Why::SeveralCodes(codes) => format!(
            "several codes: write {} or {}",
            codes.join(" or "),
            codes.join(" & ")
        ),
        Why::NoCode => {
            "the row has no code any more: write its code back, or take it as a new plant"
                .to_owned()
        }
        Why::Contradicts(column, found) => format!("but `{column}` says {found}"),
        Why::ParentIs(name) => format!("but a parent is {name}"),
        Why::CrossHasOthers(code) => format!("but {code} has other parents"),
        Why::ParentsOfAFounder => {
            "the plant came from a supplier: its parents stay in the note only".to_owned()
        }
        Why::LabelUnread => "the label cannot be read; `podbook read` says why".to_owned(),
        Why::CrossNotListed => "no such cross on record or in the tables".to_owned(),
        Why::ParentNotKnown => "no plant, cross or species of this name".to_owned(),
        Why::Ditto => {
            "a ditto mark with no cell right above it to repeat".to_owned()
        }
        Why::SameAsWhich => {
            "the seed parent again, or the cell above? The parent stays unknown".to_owned()
        }
        Why::Selfed => "selfed, but no plant has both sexes: not recorded as selfed".to_owned(),
        Why::ParentOneOf => "one of several".to_owned(),
        Why::ParentOneOfPods(pods) => format!(
            "one of several, recorded as the same one for all {pods} pods, which the table does not say; if pods may differ, write a cross for each on its own row"
        ),
        Why::BySpecies(_) => "one plant of yours has this name".to_owned(),
        Why::CodeOfTwo => "two plants have this code: the parent stays unknown".to_owned(),
        Why::PollenMixed => "mixed pollen: each seed has one of them as father".to_owned(),
        Why::ParentDoubted(code) => {
            format!("{code}, in doubt in the table: the parent stays unknown")
        }
        Why::ParentMissing => "one parent is blank".to_owned(),
        Why::NameOfTwo => "another supplier's plant has this name".to_owned(),
        Why::SeveralDays(days) => days.join(" or "),
        Why::NoUnit => "no unit, in the cell or the heading".to_owned(),
        Why::UnitUnread => "not mm, cm, m or in: the size beside it is not recorded".to_owned(),
        Why::NoYear(day, month) => {
            let month = month.as_ref().map(|month| format!(", or {month}"));
            format!(
                "{day} of a year not given{}: write the year in full",
                month.unwrap_or_default()
            )
        }
        Why::NoDate => "not a date".to_owned(),
        Why::DayToCome => "in the future".to_owned(),
        Why::CountedDays(day) => format!("a spreadsheet's count of days, read as {day}"),
        Why::LeftBeforeItCame => "before the day it came".to_owned(),
        Why::Inexact(of) => inexact_words(*of).to_owned(),
        Why::PointOrThousand => "decimals or thousands? Other cells of the column have a decimal comma".to_owned(),
        Why::OfNoPlant => "a row of a cross and its seed, and this is said of one plant".to_owned(),
        Why::SecondReading => {
            "another reading of this measure on the same day, or on none: give each column its day"
                .to_owned()
        }
        Why::NoReading => "not a value of this measure".to_owned(),
        Why::NoCount => "not a number".to_owned(),
        Why::NoTrait => "registry.ron declares no such trait".to_owned(),
        Why::NoSex => "neither female nor male".to_owned(),
        Why::NoStatus => "not understood; the plant counts as here".to_owned(),
        Why::NoDayOfEnd => "not a date; the plant counts as gone, day not known".to_owned(),
        Why::DateOf(may_be) => {
            let may_be: Vec<&str> = may_be.iter().map(|of| holds_words(*of)).collect();
            format!("{}? Say in import.ron what the column holds", may_be.join(", or "))
        }
        Why::NoPlace => "not a place; the plant counts as here".to_owned(),
        Why::CodeChanged(code) => format!("cannot be a code; becomes {code}"),
        Why::NoName => "no name; received as \"?\"".to_owned(),
    }
}

/// Why a cell is not one number, and which form of it the files lack.
fn inexact_words(of: Inexact) -> &'static str {
    match of {
        Inexact::Range => "a range; only one exact number can be recorded here",
        Inexact::About => "an approximate figure; only an exact number can be recorded here",
        Inexact::Limit => {
            "a limit, more or less than a number; only an exact number can be recorded here"
        }
        Inexact::Date => "a date, which spreadsheets make of a range such as 4-6",
    }
}
