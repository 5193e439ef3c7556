//! Our pages as records, where a page of another grower may be about them.

use super::pages::{About, Sheet};
use super::their_codes::TheirCodes;
use crate::recording::says::value::Record;
use std::collections::{BTreeMap, BTreeSet};

/// Codes of the records of a list, in their order.
pub fn codes_of(page: &Record, list: &str) -> impl Iterator<Item = String> {
    let codes: Vec<String> = page
        .records(list)
        .map(|record| record.text("code").unwrap_or_default().to_owned())
        .collect();
    codes.into_iter()
}

/// Our records that theirs may be about.
pub struct Ours {
    /// Pages that are looked at.
    pub pages: BTreeMap<About, Record>,
    founders: BTreeMap<String, usize>,
    lots: BTreeMap<String, usize>,
}

impl Ours {
    /// Those that pages with such codes need.
    pub fn of(sheets: &BTreeMap<About, Sheet>, codes: &TheirCodes) -> Ours {
        let own = codes.own.iter().map(|code| codes.codes.plants.of(code));
        let own: BTreeSet<String> = own.collect();
        let needed = |about: &About, sheet: &Sheet| {
            matches!(about, About::Page(_))
                || sheet.text.contains("told_by")
                || own.contains(about.words())
        };
        let pages = sheets.iter().filter(|(about, sheet)| needed(about, sheet));
        let pages: BTreeMap<About, Record> = pages
            .filter_map(|(about, sheet)| Some((about.clone(), Record::of_page(&sheet.text)?)))
            .collect();
        let index = |page: &'static str, list: &str| {
            let page = pages.get(&About::Page(page));
            let codes = page.into_iter().flat_map(|page| codes_of(page, list));
            codes.enumerate().map(|(at, code)| (code, at)).collect()
        };
        Ours {
            founders: index("clones.ron", "clones"),
            lots: index("pollen.ron", "lots"),
            pages,
        }
    }

    /// A page of the folder.
    pub fn page(&self, page: &'static str) -> Option<&Record> {
        self.pages.get(&About::Page(page))
    }

    /// A founder by its code.
    pub fn founder(&self, code: Option<&str>) -> Option<&Record> {
        let at = self.founders.get(code?)?;
        self.page("clones.ron")?.record("clones", *at)
    }

    /// An envelope by its code.
    pub fn lot(&self, code: Option<&str>) -> Option<&Record> {
        let at = self.lots.get(code?)?;
        self.page("pollen.ron")?.record("lots", *at)
    }
}
