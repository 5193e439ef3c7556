//! How siblings differ, in words and tables.

use crate::analysis::siblings::RatioAnswer;
use crate::analysis::siblings::{Group, KindCount, Measure, PodTest};
use crate::analysis::siblings::{SiblingsReport, TraitSummary};
use crate::report::caution::Weight;
use crate::report::sheet::{Cell, Report, Sheet, Table};
use crate::report::siblings::together::{together_table, unclear_words};
use crate::wording::{counted, cv_words, listed, p_words, share_words};

/// Kinds up to which those nobody had are listed too.
const FEW_KINDS: usize = 4;

impl Report for SiblingsReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        let below = self.below_the_answer();
        sheet.lines(None, below.clone());
        sheet.lines(None, self.formula.clone().into_iter().collect());
        if self.traits.len() > 1 && self.ratio.is_none() {
            let mut screen = Sheet::default();
            screen.lines(None, below);
            screen.table(self.short_table());
            sheet.brief = Some(screen.sections);
            sheet.next = Some(format!(
                "podbook siblings {} --trait {}",
                self.id, self.traits[0].code
            ));
        }
        // Who asks for one trait wants its table first.
        if self.traits.len() != 1 {
            self.counts.tell(&mut sheet);
        }
        for of in &self.traits {
            of.tell(&mut sheet);
        }
        if self.traits.len() == 1 {
            self.counts.tell(&mut sheet);
        }
        if !self.together.is_empty() {
            let clear = together_table(&self.together);
            if !clear.rows.is_empty() {
                sheet.table(clear);
            }
            sheet.lines(None, unclear_words(&self.together).into_iter().collect());
        }
        if let Some(ratio) = &self.ratio {
            ratio.tell(&mut sheet);
        }
        for far in self.traits.iter().flat_map(|of| &of.far) {
            sheet.caution(Weight::Answer, far);
        }
        sheet.cautions_of(&self.cautions);
        if !self.together.is_empty() {
            sheet.caution(Weight::General,
                "correlations are of what was read, genes and places together, over all pods; of twenty pairs of unrelated traits one \
                 looks related by chance",
            );
        }
        if !self.never_read.is_empty() {
            sheet.caution(
                Weight::General,
                format!("never read on these plants: {}", self.never_read.join(", ")),
            );
        }
        if !self.traits.is_empty() {
            sheet.caution(Weight::General,
                "figures are of the plants read at the age named, not of those that died or left before",
            );
        }
        sheet
    }
}

impl TraitSummary {
    fn title(&self) -> String {
        format!("{}, {}", self.shown.heading(), self.at)
    }

    /// Heading of the first column: a table in a spreadsheet has no title.
    fn column(&self) -> String {
        if self.unit.is_empty() {
            self.code.clone()
        } else {
            format!("{} {}", self.code, self.unit)
        }
    }

    fn tell(&self, sheet: &mut Sheet) {
        if self.shown.is_measure() {
            sheet.table(self.measures());
            if let Some(few) = self.few() {
                sheet.lines(None, vec![few]);
            }
        } else {
            sheet.table(self.counts());
        }
        sheet.lines(None, self.remarks());
    }

    fn measures(&self) -> Table {
        let mut table = Table::new(&[
            self.column().as_str(),
            ">n",
            ">median",
            "quartiles",
            ">mean (95 %)",
            ">SD",
            ">CV % (95 %)",
            ">range",
        ])
        .titled(self.title());
        for group in &self.groups {
            table.row(self.measure_row(group));
        }
        table
    }

    fn measure_row(&self, group: &Group) -> Vec<Cell> {
        let decimals = self.shown.decimals.max(1);
        let number = |value: f64| format!("{value:.*}", usize::from(decimals));
        let between = |(low, high): (f64, f64)| format!("{}–{}", number(low), number(high));
        let mut row = vec![Cell::from(group.of.to_string()), Cell::from(group.n)];
        let Some(measure) = &group.measure else {
            row.extend(std::iter::repeat_n(Cell::Missing, 6));
            return row;
        };
        let Measure {
            median, mean, sd, ..
        } = measure;
        row.push(Cell::Number(*median, decimals));
        row.push(Cell::from(measure.quartiles.map(between)));
        row.push(Cell::from(match measure.mean_between {
            Some(limits) => format!("{} ({})", number(*mean), between(limits)),
            None => number(*mean),
        }));
        row.push(sd.map_or(Cell::Missing, |sd| Cell::Number(sd, decimals)));
        row.push(Cell::from(
            measure.cv.map(|cv| cv_words(cv, measure.cv_between)),
        ));
        row.push(Cell::from(between((measure.smallest, measure.largest))));
        row
    }

    /// One or two plants are listed, not described.
    fn few(&self) -> Option<String> {
        let all = &self.groups[0];
        (all.n < 3).then(|| {
            let told: Vec<String> = self
                .values
                .iter()
                .map(|of| format!("{} {}", of.plant, self.shown.words(of.value)))
                .collect();
            format!("too few plants to describe a spread: {}", told.join(", "))
        })
    }

    fn counts(&self) -> Table {
        let pods = &self.groups[1..];
        let mut headings = vec![self.column(), ">n".to_owned(), "share (95 %)".to_owned()];
        headings.extend(pods.iter().map(|pod| format!("{} (n {})", pod.of, pod.n)));
        let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
        let mut table =
            Table::new(&headings).titled(format!("{}; n {}", self.title(), self.groups[0].n));
        let all = self.groups[0].kinds.as_deref().unwrap_or_default();
        for (at, kind) in all
            .iter()
            .enumerate()
            .filter(|(_, kind)| self.is_listed(kind))
        {
            let n = self.groups[0].n as u64;
            let mut row = vec![
                Cell::from(kind.kind.as_str()),
                Cell::Count(kind.n),
                Cell::from(share_words(kind.n, n, kind.share_between)),
            ];
            row.extend(pods.iter().map(|pod| {
                let kind = pod.kinds.as_ref().and_then(|kinds| kinds.get(at));
                Cell::from(kind.map(|kind| {
                    let (low, high) = kind.share_between;
                    format!("{} ({:.0}–{:.0} %)", kind.n, low * 100.0, high * 100.0)
                }))
            }));
            table.row(row);
        }
        table
    }

    /// Of many kinds without order only those somebody had have a row; every step of a scale has one.
    fn is_listed(&self, kind: &KindCount) -> bool {
        let all = self.groups[0].kinds.as_deref().unwrap_or_default();
        kind.n > 0 || self.shown.is_scale || all.len() <= FEW_KINDS
    }

    fn remarks(&self) -> Vec<String> {
        let mut lines = Vec::new();
        let all = &self.groups[0];
        let kinds = all.kinds.as_deref().unwrap_or_default().iter();
        let unseen: Vec<&str> = kinds
            .filter(|kind| !self.is_listed(kind))
            .map(|kind| kind.kind.as_str())
            .collect();
        if !unseen.is_empty() {
            lines.push(format!("not seen: {}", listed(&unseen)));
        }
        if let Some(why) = all.measure.as_ref().and_then(|of| of.cv_unsure.as_ref())
            && all.n > 2
        {
            lines.push(format!("the CV has no limits ({why})"));
        }
        lines.extend(self.pods.as_ref().map(PodTest::words));
        if !self.pods_apart.is_empty() {
            lines.push(format!(
                "not comparable with the others: {}, read at other ages only; `podbook growth` sets pods at a common age",
                listed(&self.pods_apart)
            ));
        }
        lines.extend(self.shown.own_words());
        if !self.parents.is_empty() {
            let told: Vec<String> = self
                .parents
                .iter()
                .map(|parent| {
                    let sign = match parent.bore_the_seed {
                        Some(true) => "♀ ",
                        Some(false) => "♂ ",
                        None => "",
                    };
                    format!("{sign}{} {}", parent.plant, self.shown.words(parent.value))
                })
                .collect();
            lines.push(format!("parents, at their own age: {}", told.join(", ")));
        }
        if self.unread > 0 {
            lines.push(format!(
                "{} without a reading that may be compared at this age",
                counted(self.unread, "plant", "plants")
            ));
        }
        if let Some(words) = self.left_out.words_beside(&self.left_out_elsewhere) {
            lines.push(format!("left out: {words}"));
        }
        if self.other_ages > 0 {
            lines.push(format!(
                "latest age that most siblings share; {} at {} not compared with it",
                counted(self.readings_elsewhere, "reading", "readings"),
                counted(self.other_ages, "other age", "other ages")
            ));
        }
        lines
    }
}

impl PodTest {
    fn words(&self) -> String {
        let Some(p) = self.p else {
            let why = self.why_not.map(|why| why.to_string());
            return format!(
                "pods cannot be compared ({})",
                why.as_deref().unwrap_or("nothing to compare")
            );
        };
        let judged = self.p_adjusted.unwrap_or(p);
        let verdict = if judged < 0.05 {
            "pods differ"
        } else {
            "no difference between pods shown"
        };
        let several = if self.tests > 1 {
            format!(
                "; {} after allowing for {} traits tested",
                p_words(judged),
                self.tests
            )
        } else {
            String::new()
        };
        format!("{verdict} ({}, {}{several})", self.method, p_words(p))
    }
}

impl RatioAnswer {
    /// Whether the counts fit, with the probability of the exact test or the one that stands for it.
    pub(super) fn verdict(&self) -> String {
        let verdict = if self.p < 0.05 {
            "does not fit"
        } else {
            "fits, as far as so few plants can tell"
        };
        let (ratio, p, method) = (&self.ratio, p_words(self.p), self.method);
        format!("{ratio} {verdict}: {p} ({method})")
    }

    fn tell(&self, sheet: &mut Sheet) {
        let mut table = Table::new(&["", ">counted", ">expected"])
            .titled(format!("{} against {}", self.of, self.ratio));
        for (at, class) in self.classes.iter().enumerate() {
            table.row(vec![
                Cell::from(class.to_string()),
                Cell::Count(self.counts[at]),
                Cell::Number(self.expected[at], 1),
            ]);
        }
        sheet.table(table);
        let (x, df, p_x) = self.chi_square;
        let mut lines = vec![format!(
            "{}; chi-square {x:.2}, df {df}, {}; G {:.2}, {}",
            self.verdict(),
            p_words(p_x),
            self.g.0,
            p_words(self.g.1)
        )];
        if self.outside > 0 {
            lines.push(format!(
                "{} of other kinds not counted",
                counted(self.outside as usize, "plant", "plants")
            ));
        }
        let others = self.not_ruled_out.iter().filter(|of| **of != self.ratio);
        let others: Vec<String> = others.map(|of| of.to_string()).collect();
        if !others.is_empty() {
            let either = if self.p < 0.05 { "" } else { " either" };
            lines.push(format!(
                "usual ratios these counts do not rule out{either}: {}",
                others.join(", ")
            ));
        }
        sheet.lines(None, lines);
        sheet.caution(Weight::General,
            "a ratio from one or two genes assumes what the parents carry; in hybrids of species a fit is a hint, not a proof",
        );
    }
}
