//! A proposal to keep, sell or cull, as a person reads it.

use crate::analysis::select::{
    Behind, Proposal, Quota, ReadNext, Reason, SelectCross, SelectReport, SelectRow,
};
use crate::report::caution::Weight;
use crate::report::cell::Cell;
use crate::report::select::response::response_table;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::Table;
use crate::wording::{counted, first_of, joined_if_any, listed, signed};
use std::collections::BTreeSet;

/// Gains in the index that round to nothing are not told.
const WORTH_TELLING: f64 = 0.005;

impl Proposal {
    /// The word in the table.
    pub fn word(self) -> &'static str {
        match self {
            Proposal::Keep => "keep",
            Proposal::Sell => "sell",
            Proposal::LetGo => "cull",
            Proposal::ReadFirst => "read first",
            Proposal::Undecided => "undecided",
        }
    }
}

impl Report for SelectReport {
    fn sheet(&self) -> Sheet {
        self.laid_out(self.shared_reason())
    }

    fn spreadsheet(&self) -> Sheet {
        self.laid_out(None)
    }
}

impl SelectReport {
    /// The whole answer; a reason that all undecided plants share stands below the table and not in their rows.
    fn laid_out(&self, shared: Option<String>) -> Sheet {
        let told = tally_words(&self.crosses);
        let begins = match (self.applied, self.marked) {
            (false, _) => self.kept_words(),
            (true, 0) if self.crosses.iter().all(|cross| cross.keep == 0) => {
                "Nothing to mark. ".to_owned()
            }
            (true, 0) => "Nothing to mark, those to keep are marked already. ".to_owned(),
            (true, marked) => format!("Marked {} to keep. ", counted(marked, "plant", "plants")),
        };
        let unranked = self.unranked_words();
        let mut sheet = Sheet::new(format!("{begins}{unranked}{told}"));
        if self.crosses.len() > 1 {
            sheet.brief_table(self.by_cross(SHORT_CROSSES));
            sheet.table(self.by_cross(self.crosses.len()));
        }
        sheet.table(self.table(shared.is_some()));
        let room = self.shelves;
        let room = room.map(|(taken, all)| format!("{taken:.2} of {all:.2} shelves"));
        sheet.facts(
            Some("Rules"),
            [
                (
                    "weighed, per standard deviation",
                    joined_if_any(&self.weighed, ", "),
                ),
                ("needed", joined_if_any(&self.needed, ", ")),
                ("room", room),
            ],
        );
        sheet.table_if_any(response_table(&self.responses, self.heritability));
        sheet.table(self.side_by_side());
        sheet.lines(None, self.read_at());
        if let Some(minutes) = self.minutes {
            sheet.lines(
                Some(&format!("To read next, in {minutes} minutes")),
                self.next(),
            );
        }
        let shared = shared.map(|reason| format!("each undecided plant {reason}"));
        sheet.cautions(Weight::Answer, shared);
        sheet.cautions_of(&self.cautions);
        sheet.caution(Weight::Answer, "one reading is weak grounds for culling; the limits show reading error and what was not read");
        if !self.applied {
            sheet.caution(
                Weight::General,
                "nothing was written; --apply marks those to keep",
            );
        }
        sheet
    }
}

/// Plants that the first sentence names.
const NAMED: usize = 8;

/// Crosses of which a screen has rows, and plants to keep that each row names.
const SHORT_CROSSES: usize = 12;
const SHORT_KEPT: usize = 3;

impl SelectReport {
    /// `Keep X22-02-1 and X22-02-5. `; nothing where too many would be named.
    fn kept_words(&self) -> String {
        let kept = self.plants.iter();
        let kept = kept.filter(|row| row.proposal == Proposal::Keep);
        let kept: Vec<&str> = kept.map(|row| row.plant.as_str()).collect();
        match kept.len() {
            1..=NAMED => {
                let (better, near) = (self.outdone_marks(), self.nearly_kept());
                format!("Keep {}{better}{near}. ", listed(&kept))
            }
            _ => String::new(),
        }
    }

    /// That nothing ranks those that reach the levels, and what would.
    fn unranked_words(&self) -> String {
        let undecided = self
            .crosses
            .iter()
            .map(|cross| cross.undecided)
            .sum::<usize>();
        let example = self.traits.first().filter(|_| undecided > 0);
        let words = example.map(|of| {
            let weight = if of.less_is_better { -1 } else { 1 };
            format!(
                "Nothing ranks the {undecided} plants that reach every level: give a weight, such as --weigh {}={weight}. ",
                of.code
            )
        });
        words.unwrap_or_default()
    }

    /// Plants past the quota that are clearly better than one that is kept because it was marked before.
    fn outdone_marks(&self) -> String {
        let better = self.plants.iter().filter_map(|row| match &row.reason {
            Reason::Standing {
                quota: Quota::Full(_, Behind::BetterThanMarked(marked)),
                ..
            } => Some((row.plant.as_str(), marked.as_str())),
            _ => None,
        });
        let (better, marked): (Vec<&str>, BTreeSet<&str>) = better.unzip();
        let marks = match marked.len() {
            1 => "which is kept because it was marked",
            _ => "which are kept because they were marked",
        };
        few_are(
            &better,
            &format!("clearly better than {}, {marks}", listed(marked)),
        )
    }

    /// Plants past the quota that the readings do not show to be worse than the last one kept.
    fn nearly_kept(&self) -> String {
        let is_near = |row: &&SelectRow| {
            matches!(
                row.reason,
                Reason::Standing {
                    quota: Quota::Full(_, Behind::Equal(_) | Behind::NotSurely(_)),
                    ..
                }
            )
        };
        let near = self.plants.iter().filter(is_near);
        let near: Vec<&str> = near.map(|row| row.plant.as_str()).collect();
        few_are(&near, "not clearly worse than the last one kept")
    }

    /// The reason of all plants that are undecided; `None` where they have several, or one plant only is.
    fn shared_reason(&self) -> Option<String> {
        let undecided = self.plants.iter();
        let undecided = undecided.filter(|row| row.proposal == Proposal::Undecided);
        let reasons: Vec<String> = undecided.map(|row| row.reason.to_string()).collect();
        let is_shared = reasons.len() > 1 && reasons.iter().all(|of| *of == reasons[0]);
        reasons.into_iter().next().filter(|_| is_shared)
    }

    /// What the headings of the table mean.
    fn headings(&self) -> String {
        let index = match self.weighed.is_empty() {
            true => "",
            false => "Index: what is weighed, added up, in standard deviations above the mean. ",
        };
        format!("{index}Front 1: no sibling is as good in every trait and better in one")
    }

    fn table(&self, is_shared: bool) -> Table {
        Table::of(&self.plants)
            .titled(self.headings())
            .text("plant", |row| &row.plant)
            .figure("index (95 %)", |row| match row.index_words() {
                Some(index) => index.into(),
                None if self.weighed.is_empty() => Cell::Missing,
                None if row.read_elsewhere => "not comparable".into(),
                None => "unread".into(),
            })
            .when(!self.needed.is_empty(), |columns| {
                columns.text("needed levels", |row| row.levels.to_string())
            })
            .figure("front", |row| row.front)
            .text("proposal", |row| row.proposal.word())
            .text("reason", |row| match row.proposal {
                Proposal::Undecided if is_shared => String::new(),
                _ => row.reason.to_string(),
            })
            .into()
    }

    /// What is proposed cross by cross, so many of them, with the codes of the plants to keep.
    fn by_cross(&self, rows: usize) -> Table {
        let has = |of: fn(&SelectCross) -> usize| self.crosses.iter().any(|cross| of(cross) > 0);
        // The rows of the plants stand cross by cross, in this order.
        let mut plants = self.plants.as_slice();
        let crosses = self.crosses.iter().map(|cross| {
            let decided = cross.keep + cross.sell + cross.let_go + cross.read_first;
            let own = decided + cross.undecided;
            let (own, rest) = plants.split_at(own.min(plants.len()));
            plants = rest;
            (cross, own)
        });
        Table::of(crosses.take(rows))
            .text(asked_words(&self.crosses).0, |(cross, _)| &cross.id)
            .figure("here", |(cross, _)| cross.here)
            .figure("keep", |(cross, _)| cross.keep)
            .figure("sell", |(cross, _)| cross.sell)
            .when(has(|cross| cross.let_go), |columns| {
                columns.figure("cull", |(cross, _)| cross.let_go)
            })
            .when(has(|cross| cross.read_first), |columns| {
                columns.figure("read first", |(cross, _)| cross.read_first)
            })
            .when(has(|cross| cross.undecided), |columns| {
                columns.figure("undecided", |(cross, _)| cross.undecided)
            })
            .text("to keep", |(_, plants)| kept_of(plants))
            .more(self.crosses.len().saturating_sub(rows))
            .into()
    }
    /// Index, levels and front side by side.
    fn side_by_side(&self) -> Table {
        let levels = !self.needed.is_empty();
        Table::of(&self.crosses)
            .titled("Three ways side by side")
            .text("cross", |cross| &cross.id)
            .figure("here", |cross| cross.here)
            .figure("quota", |cross| cross.quota)
            .figure("reach levels", |cross| levels.then_some(cross.pass_levels))
            .figure("on front", |cross| cross.on_front)
            .figure("best by index on front", |cross| {
                let quota = cross.quota?;
                Some(format!("{} of {quota}", cross.index_on_front))
            })
            .figure("both sexes", |cross| {
                Some(format!("{:.0} %", cross.both_sexes? * 100.0))
            })
            .into()
    }

    /// At what age and on which days each cross was read.
    fn read_at(&self) -> Vec<String> {
        let crosses = self.crosses.iter();
        let read = crosses.flat_map(|cross| cross.read_at.iter().map(move |at| (&cross.id, at)));
        read.map(|(id, at)| format!("{id}, {at}")).collect()
    }

    fn next(&self) -> Vec<String> {
        let plants = self.plants.iter();
        let unjudged = plants.filter(|row| row.proposal == Proposal::ReadFirst);
        let unjudged: Vec<&str> = unjudged.map(|row| row.plant.as_str()).collect();
        let mut lines = Vec::new();
        if !unjudged.is_empty() {
            lines.push(format!(
                "cannot be judged before they are read: {}",
                listed(&unjudged)
            ));
        }
        let worth = |next: &&ReadNext| next.gain >= WORTH_TELLING;
        lines.extend(self.read_next.iter().filter(worth).map(|next| {
            format!(
                "{} ({} min), expected to raise the index of those kept by {:.2}",
                next.plant, next.minutes, next.gain
            )
        }));
        if lines.is_empty() {
            lines.push("no further reading is expected to change the choice".to_owned());
        }
        lines
    }
}

impl SelectRow {
    /// `1.2 (0.4 to 2.0)`; `None` without an index.
    fn index_words(&self) -> Option<String> {
        let index = signed(self.index?, 1);
        Some(match self.index_between {
            Some((low, high)) if high > low => {
                format!("{index} ({} to {})", signed(low, 1), signed(high, 1))
            }
            _ => index,
        })
    }
}

/// `; X22-02-5 is …`, of more than three `; 5 others are …`; nothing where there are none.
fn few_are(plants: &[&str], what: &str) -> String {
    match plants.len() {
        0 => String::new(),
        1 => format!("; {} is {what}", plants[0]),
        2..=3 => format!("; {} are {what}", listed(plants)),
        n => format!("; {n} others are {what}"),
    }
}

/// The plants to keep of a cross, the first few by their codes.
fn kept_of(plants: &[SelectRow]) -> String {
    let kept = plants.iter().filter(|row| row.proposal == Proposal::Keep);
    let kept: Vec<&str> = kept.map(|row| row.plant.as_str()).collect();
    match kept.is_empty() {
        true => "none".to_owned(),
        false => first_of(&kept, SHORT_KEPT),
    }
}

/// What was asked for: one of them, several.
fn asked_words(crosses: &[SelectCross]) -> (&'static str, &'static str) {
    let part = |cross: &SelectCross| {
        cross
            .id
            .split_once('.')
            .and_then(|(_, part)| part.chars().next())
    };
    let mut parts: Vec<Option<char>> = crosses.iter().map(part).collect();
    parts.dedup();
    match parts[..] {
        [None] => ("cross", "crosses"),
        [Some('S')] => ("sowing", "sowings"),
        [Some('P')] => ("pod", "pods"),
        _ => ("group", "groups"),
    }
}

/// `X22-02: keep 4, sell 11 of 15 plants`; of several `3 crosses: keep 12, sell 18 of 30 plants`.
fn tally_words(crosses: &[SelectCross]) -> String {
    let (one, many) = asked_words(crosses);
    let sum = |of: fn(&SelectCross) -> usize| crosses.iter().map(of).sum::<usize>();
    let parts = [
        (sum(|cross| cross.keep), Proposal::Keep),
        (sum(|cross| cross.sell), Proposal::Sell),
        (sum(|cross| cross.let_go), Proposal::LetGo),
        (sum(|cross| cross.read_first), Proposal::ReadFirst),
        (sum(|cross| cross.undecided), Proposal::Undecided),
    ];
    let told = parts.iter().filter(|(n, _)| *n > 0);
    let told = joined_if_any(told.map(|(n, what)| format!("{} {n}", what.word())), ", ");
    let told = told.unwrap_or_else(|| "nothing to decide".to_owned());
    let of = match crosses {
        [cross] => cross.id.clone(),
        _ => counted(crosses.len(), one, many),
    };
    let plants = counted(sum(|cross| cross.here), "plant", "plants");
    format!("{of}: {told} of {plants}")
}
