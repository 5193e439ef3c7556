//! What the seasons ahead assume.

use crate::analysis::plan::caution::Caution;
use crate::analysis::plan::later::answer::{Later, LineAhead};

impl Later {
    pub(crate) fn cautions(&self) -> Vec<Caution> {
        if self.lines.is_empty() && self.holds.is_empty() {
            return Vec::new();
        }
        let mut told = vec![Caution::SexesAhead];
        let ages = self
            .lines
            .iter()
            .map(|line| (line.first_flower, line.first_flower_of));
        let ages: Vec<_> = ages.collect();
        if !ages.is_empty() {
            told.push(Caution::FirstFlowers(ages));
        }
        let undated = |line: &LineAhead| line.by_year.iter().any(|year| year.chance.is_none());
        if self.lines.iter().any(undated) {
            told.push(Caution::YearNotKnown);
        }
        if self.lines.iter().any(|line| !line.marked) {
            told.push(Caution::UnmarkedLines);
        }
        let doubted = self.lines.iter().filter(|line| line.may_be_elsewhere > 0);
        told.extend(doubted.map(|line| Caution::LineMixedUp {
            line: line.line.clone(),
            n: line.may_be_elsewhere,
        }));
        if self.lines_untold > 0 {
            told.push(Caution::LinesNotShown(self.lines_untold));
        }
        told
    }
}
