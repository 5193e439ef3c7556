//! What the style of a cell of a workbook says beside its value: whether it has a coloured ground, whether its words are
//! struck through, and how much of a date a
//! person sees of it.

use calamine::Style;

/// The style of a cell, as far as it matters here.
#[derive(Clone, Copy, PartialEq, Eq, Default, Debug)]
pub(super) struct CellStyle {
    /// Whether its ground has a colour other than white.
    pub is_coloured: bool,
    /// Whether its words are struck through.
    pub is_struck: bool,
    /// What a date in it shows.
    shows: Shows,
}

#[derive(Clone, Copy, PartialEq, Eq, Default, Debug)]
enum Shows {
    #[default]
    Day,
    Month,
    Year,
}

impl CellStyle {
    /// What matters of a style.
    pub fn of(style: &Style) -> CellStyle {
        let fill = style.fill.as_ref().filter(|fill| fill.is_visible());
        let is_white = |fill: &calamine::Fill| {
            let colour = fill.get_color();
            colour.is_some_and(|of| (of.red, of.green, of.blue) == (255, 255, 255))
        };
        let format = style.number_format.as_ref();
        CellStyle {
            is_struck: style
                .font
                .as_ref()
                .is_some_and(calamine::Font::has_strikethrough),
            is_coloured: fill.is_some_and(|fill| !is_white(fill)),
            shows: shows(format.map_or("", |format| &format.format_code)),
        }
    }

    /// The date that a cell shows. Where it shows only a month or a year, the spreadsheet added the first day by itself, so
    /// that day is left out; any other day was typed, and stays.
    pub fn seen(self, day: &str) -> &str {
        match self.shows {
            Shows::Month => day.strip_suffix("-01").unwrap_or(day),
            Shows::Year => day.strip_suffix("-01-01").unwrap_or(day),
            Shows::Day => day,
        }
    }
}

/// What a format of numbers shows of a date: `d`, `m` and `y` stand for its parts (ECMA-376, 18.8.31); what is quoted or in
/// brackets is words or a colour.
fn shows(format: &str) -> Shows {
    let (mut parts, mut end) = (String::new(), None);
    for c in format.to_lowercase().chars() {
        match (end, c) {
            (Some(mark), c) if c == mark => end = None,
            (Some(_), _) => {}
            (None, '"') => end = Some('"'),
            (None, '[') => end = Some(']'),
            (None, c) => parts.push(c),
        }
    }
    match (
        parts.contains('d'),
        parts.contains('m'),
        parts.contains('y'),
    ) {
        (false, true, true) => Shows::Month,
        (false, false, true) => Shows::Year,
        _ => Shows::Day,
    }
}
