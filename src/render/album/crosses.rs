//! Every cross in a row.

use super::words::{Here, say};
use crate::report::list::CrossList;
use crate::report::{RankedCaution, Report, Section};
use maud::{Markup, html};

pub(super) fn crosses(here: Here, of: &CrossList) -> Markup {
    let sheet = of.sheet();
    html! {
        h1 { "Crosses" }
        p.answer { (say(&sheet.answer)) }
        @for section in &sheet.sections {
            @if let Section::Table(table) = section { (here.table(table, "Crosses")) }
        }
        (here.cautions(&RankedCaution::doubts(of.cautions.clone()).collect::<Vec<_>>()))
    }
}
