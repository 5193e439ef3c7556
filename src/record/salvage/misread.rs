//! Whether the parents on a page are at fault as a whole, reported before its fields are tried one by one.

use super::case::Case;
use super::compact::compact;
use super::parents_repair::ParentsRepair;
use super::trial::Trials;
use crate::record::Parents;
use crate::record::typed::typed;

impl Trials<'_, '_> {
    /// Tells of parents that cannot be read and whose meaning is plain, with what to write instead.
    pub fn misread_parents(&mut self, case: &mut Case) {
        let Some(parents) = self.outline.field(case.record, "parents") else {
            return;
        };
        let is_cross = case
            .kind
            .stand_ins
            .iter()
            .any(|(name, _)| *name == "parents");
        if !is_cross || self.marks.is_left_out(parents) {
            return;
        }
        let alone = compact(self.outline, &self.marks, parents, &[]);
        if typed::<Parents>(&alone.text).is_ok() {
            return;
        }
        if let Some(repair) = ParentsRepair::of(self.outline, parents) {
            let finding = repair.finding(self.file, self.outline, parents);
            case.findings.push((parents, finding));
            case.explained.push((case.record, "parents".to_owned()));
            self.marks.leave_out(parents);
            case.faulty.push(parents);
        }
    }
}
