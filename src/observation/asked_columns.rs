//! What is to be read at a sitting: traits, or a word about pests or pitchers, each with the heading it gets.

use super::trait_unit::TraitUnit;
use super::traits::trait_named;
use crate::record::{LengthUnit, Reads, Trait};
use crate::registry::{Column, Registry, SittingRow, TraitRow, column_named};

/// A column to be filled.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct AskedColumn {
    /// The heading as it stands in a sitting: `span cm`.
    pub heading: String,
    /// What it holds; never [`Column::Unknown`].
    pub column: Column,
}

impl AskedColumn {
    /// A trait in the unit it is shown in, unless another is named.
    fn of_trait(registry: &Registry, index: TraitRow, unit: Option<LengthUnit>) -> AskedColumn {
        let declared = &registry[index];
        let shown = TraitUnit::shown_in(registry, index).unit;
        let unit = match declared.reads {
            Reads::Length(_) => unit.or_else(|| LengthUnit::read(shown)),
            _ => None,
        };
        let heading = match unit {
            Some(unit) => format!("{} {}", declared.code, unit_word(unit)),
            None => declared.code.to_owned(),
        };
        AskedColumn {
            heading,
            column: Column::Trait { index, unit },
        }
    }

    /// The trait that is read, if it is one.
    pub fn declared<'r, 't>(&self, registry: &'r Registry<'t>) -> Option<&'r Trait<'t>> {
        match self.column {
            Column::Trait { index, .. } => Some(&registry[index]),
            _ => None,
        }
    }

    /// The unit of the heading.
    pub fn unit(&self) -> Option<LengthUnit> {
        match self.column {
            Column::Trait { unit, .. } => unit,
            _ => None,
        }
    }
}

/// The word for a unit in a heading.
pub fn unit_word(unit: LengthUnit) -> &'static str {
    match unit {
        LengthUnit::Mm => "mm",
        LengthUnit::Cm => "cm",
        LengthUnit::M => "m",
        LengthUnit::In => "in",
    }
}

/// The column a grower means by a word or heading: the code or name of a trait, with its unit or without (`span`,
/// `span in`, `leaf span, cm`, `leaf span (cm)`), `pest`, `pitcher` or `note`; `None` when it means nothing declared.
pub fn asked_column(registry: &Registry, typed: &str) -> Option<AskedColumn> {
    let (column, unit) = named(registry, typed)?;
    Some(match column {
        Column::Trait { index, .. } => AskedColumn::of_trait(registry, index, unit),
        column => AskedColumn {
            heading: typed.trim().to_lowercase(),
            column,
        },
    })
}

/// As [`asked_column`], of a heading that is not ours: a length without a unit keeps none, since nothing says which.
pub fn headed_column(registry: &Registry, heading: &str) -> Option<AskedColumn> {
    let (column, unit) = named(registry, heading)?;
    let asked = asked_column(registry, heading)?;
    match (column, asked.declared(registry), unit) {
        (Column::Trait { index, .. }, Some(declared), None) => Some(AskedColumn {
            heading: declared.code.to_owned(),
            column: Column::Trait { index, unit: None },
        }),
        _ => Some(asked),
    }
}

/// The declared traits, each in the unit it is shown in.
pub fn all_columns(registry: &Registry) -> Vec<AskedColumn> {
    let traits = registry.trait_rows();
    traits
        .map(|index| AskedColumn::of_trait(registry, index, None))
        .collect()
}

/// The trait columns of a sitting, as its headings say.
pub fn columns_of(registry: &Registry, sitting: SittingRow) -> Vec<AskedColumn> {
    let head = &registry[sitting];
    let columns = head.columns.iter().filter_map(|column| match *column {
        Column::Trait { index, unit } => Some(AskedColumn::of_trait(registry, index, unit)),
        _ => None,
    });
    columns.collect()
}

fn named(registry: &Registry, typed: &str) -> Option<(Column, Option<LengthUnit>)> {
    let of_unit = |column: Column| match column {
        Column::Trait { unit, .. } => (column, unit),
        column => (column, None),
    };
    let typed = typed.trim();
    let lower = typed.to_lowercase();
    let known = column_named(&registry.settings.traits, typed)
        .or_else(|| column_named(&registry.settings.traits, &lower));
    if let Some(column) = known {
        return Some(of_unit(column));
    }
    let whole = |index| Column::Trait { index, unit: None };
    if let Some(index) = trait_named(registry, typed) {
        return Some((whole(index), None));
    }
    let is_mark = |c: char| c.is_whitespace() || "()[],;:/".contains(c);
    let (name, unit) = typed.trim_end_matches(is_mark).rsplit_once(is_mark)?;
    let index = trait_named(registry, name.trim_matches(is_mark))?;
    let is_length = matches!(registry[index].reads, Reads::Length(_));
    let unit = LengthUnit::read(unit).filter(|_| is_length)?;
    Some((whole(index), Some(unit)))
}
