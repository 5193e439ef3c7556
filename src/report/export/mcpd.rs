//! The columns of FAO/Bioversity Multi-Crop Passport Descriptors V.2.1, and how a value is written in them.
//!
//! Source: Alercia, Diulgheroff and Mackay 2015, FAO/Bioversity Multi-Crop Passport Descriptors V.2.1, Rome. Several
//! values in one field have `;` between them and no blank; a missing value is an empty field.

use crate::record::{Day, When};
use crate::report::cell::Cell;
use crate::wording::days;

/// The descriptors in the order of their numbers, 0 to 28.
pub const FIELDS: [&str; 41] = [
    "PUID",
    "INSTCODE",
    "ACCENUMB",
    "COLLNUMB",
    "COLLCODE",
    "COLLNAME",
    "COLLINSTADDRESS",
    "COLLMISSID",
    "GENUS",
    "SPECIES",
    "SPAUTHOR",
    "SUBTAXA",
    "SUBTAUTHOR",
    "CROPNAME",
    "ACCENAME",
    "ACQDATE",
    "ORIGCTY",
    "COLLSITE",
    "DECLATITUDE",
    "LATITUDE",
    "DECLONGITUDE",
    "LONGITUDE",
    "COORDUNCERT",
    "COORDDATUM",
    "GEOREFMETH",
    "ELEVATION",
    "COLLDATE",
    "BREDCODE",
    "BREDNAME",
    "SAMPSTAT",
    "ANCEST",
    "COLLSRC",
    "DONORCODE",
    "DONORNAME",
    "DONORNUMB",
    "OTHERNUMB",
    "DUPLSITE",
    "DUPLINSTNAME",
    "STORAGE",
    "MLSSTAT",
    "REMARKS",
];

/// The values of one accession by field, and its remarks.
#[derive(Default)]
pub(super) struct Accession {
    values: Vec<(&'static str, String)>,
    remarks: Vec<String>,
}

impl Accession {
    /// Fills a field that is known; a `;` within a value would part it.
    pub fn fill(&mut self, field: &'static str, value: Option<impl Into<String>>) {
        let value = value.map(|value| value.into().replace(';', ","));
        self.values.extend(value.map(|value| (field, value)));
    }

    /// Adds a remark on a field.
    pub fn remark(&mut self, field: &'static str, text: &str) {
        self.remarks
            .push(format!("{field}:{}", text.replace(';', ",")));
    }

    /// A date as far as it is certain; what more is known of it goes into a remark.
    pub fn date(&mut self, field: &'static str, when: When) {
        let written = mcpd_date(when);
        if when != When::UNKNOWN && !says_all(when) {
            self.remark(field, &days(when));
        }
        self.fill(field, written);
    }

    /// The row, a cell for each of [`FIELDS`].
    pub fn cells(self) -> Vec<Cell> {
        let remarks = self.remarks.join(";");
        let cell = |field: &&str| match *field {
            "REMARKS" if !remarks.is_empty() => Cell::from(remarks.as_str()),
            field => {
                let value = self.values.iter().find(|(of, _)| *of == field);
                Cell::from(value.map(|(_, value)| value.as_str().to_owned()))
            }
        };
        FIELDS.iter().map(cell).collect()
    }
}

/// A date as `YYYYMMDD`, with hyphens for a month or day that is not certain; none when the year is not.
pub fn mcpd_date(when: When) -> Option<String> {
    let (from, to) = (written_day(when.first)?, written_day(when.last)?);
    // The year, then the month, then the day: each only where both ends agree, and nothing behind one that is open.
    let certain = [8, 6, 4].into_iter().find(|&of| from[..of] == to[..of])?;
    Some(format!("{}{}", &from[..certain], "-".repeat(8 - certain)))
}

/// Whether the date in [`mcpd_date`] stands for just these days.
fn says_all(when: When) -> bool {
    let day_after = Day(when.last.0.saturating_add(1));
    let ends = (when.first.ymd(), day_after.ymd());
    let (Some((year, month, day)), Some(after)) = ends else {
        return false;
    };
    let next_month = match month {
        12 => (year + 1, 1, 1),
        month => (year, month + 1, 1),
    };
    let whole_month = day == 1 && after == next_month;
    let whole_year = (month, day) == (1, 1) && after == (year + 1, 1, 1);
    when.is_exact() || whole_month || whole_year
}

fn written_day(day: Day) -> Option<String> {
    let (year, month, day) = day.ymd()?;
    (0..=9999)
        .contains(&year)
        .then(|| format!("{year:04}{month:02}{day:02}"))
}
