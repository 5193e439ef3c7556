//! How siblings differ, in words and tables.

use crate::analysis::siblings::RatioAnswer;
use crate::analysis::siblings::{KindCount, PodApart, PodTest};
use crate::analysis::siblings::{SiblingsReport, TraitSummary};
use crate::observation::not_here::NotHere;
use crate::report::caution::Weight;
use crate::report::sheet::{Report, Sheet};
use crate::report::siblings::together::{TOGETHER, no_limits_words, together_table, unclear_words};
use crate::report::table::Table;
use crate::wording::{
    between, counted, cv_words, first_of, joined, joined_if_any, listed, number, p_words,
    share_words,
};

/// Kinds up to which those nobody had are listed too.
const FEW_KINDS: usize = 4;

impl Report for SiblingsReport {
    fn sheet(&self) -> Sheet {
        let mut below = self.below_the_answer();
        let answer = match &self.ratio {
            None => self.answer(),
            Some(ratio) => {
                below.insert(0, self.answer());
                format!("{}, {}", self.id, ratio.answer())
            }
        };
        let mut sheet = Sheet::new(answer);
        sheet.lines(None, below.clone());
        sheet.lines(None, self.formula.clone());
        if self.traits.len() > 1 && self.ratio.is_none() {
            self.shorten(&mut sheet, below);
        }
        if let Some(ratio) = &self.ratio {
            ratio.tell(&mut sheet);
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
            sheet.table_if_any(together_table(&self.together));
            sheet.lines(None, no_limits_words(&self.together));
            sheet.lines(None, unclear_words(&self.together));
        }
        self.caution(&mut sheet);
        sheet
    }
}

impl SiblingsReport {
    /// Many traits fill more than a screen: each has a line there, and one of them is named for what to ask next.
    fn shorten(&self, sheet: &mut Sheet, below: Vec<String>) {
        let mut screen = Sheet::default();
        screen.lines(None, below);
        screen.table(self.short_table());
        sheet.brief = Some(screen.sections);
        let first = &self.traits[0].code;
        sheet.next = Some(format!("podbook siblings {} --trait {first}", self.id));
    }

    fn caution(&self, sheet: &mut Sheet) {
        sheet.cautions(
            Weight::Answer,
            self.traits.iter().filter_map(|of| of.doubtful.as_ref()),
        );
        sheet.cautions(Weight::Answer, self.traits.iter().flat_map(|of| &of.far));
        sheet.cautions_of(&self.cautions);
        if !self.together.is_empty() {
            sheet.caution_on(TOGETHER, Weight::General,
                "correlations are of what was read, genes and places together, over all pods; of twenty pairs of unrelated traits one \
                 looks related by chance",
            );
        }
        if !self.never_read.is_empty() {
            sheet.caution(
                Weight::General,
                format!(
                    "never read on these plants: {}",
                    first_of(&self.never_read, 6)
                ),
            );
        }
        if !self.traits.is_empty() {
            sheet.caution(Weight::General,
                "figures are of the plants read at the age named, not of those that died or left before",
            );
        }
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
                sheet.lines(None, [few]);
            }
        } else {
            sheet.table(self.counts());
        }
        sheet.lines(None, self.remarks());
    }

    fn measures(&self) -> Table {
        let decimals = self.shown.decimals.max(1);
        let number = |value: f64| number(value, usize::from(decimals));
        let between = |of: (f64, f64)| between(of, usize::from(decimals));
        let rows = self
            .groups
            .iter()
            .map(|group| (group, group.measure.as_ref()));
        Table::of(rows)
            .titled(self.title())
            .text(self.column(), |(group, _)| group.of.to_string())
            .figure("n", |(group, _)| group.n)
            .number("median", decimals, |(_, measure)| Some(measure?.median))
            .text("quartiles", |(_, measure)| measure?.quartiles.map(between))
            .figure("mean (95 %)", |(_, measure)| {
                let of = measure?;
                let limits = of.mean_between.map(|of| format!(" ({})", between(of)));
                Some(number(of.mean) + &limits.unwrap_or_default())
            })
            .number("SD", decimals, |(_, measure)| measure?.sd)
            .figure("CV % (95 %)", |(_, measure)| {
                Some(cv_words(measure?.cv?, measure?.cv_between))
            })
            .figure("range", |(_, measure)| {
                let of = measure?;
                Some(between((of.smallest, of.largest)))
            })
            .into()
    }

    /// One or two plants are listed, not described.
    fn few(&self) -> Option<String> {
        let all = &self.groups[0];
        (all.n < 3).then(|| {
            let told = self
                .values
                .iter()
                .map(|of| format!("{} {}", of.plant, self.shown.words(of.value)));
            format!(
                "too few plants to describe a spread: {}",
                joined(told, ", ")
            )
        })
    }

    fn counts(&self) -> Table {
        let n = self.groups[0].n;
        let all = self.groups[0].kinds.as_deref().unwrap_or_default();
        let listed = all
            .iter()
            .enumerate()
            .filter(|(_, kind)| self.is_listed(kind));
        Table::of(listed)
            .titled(format!("{}; n {n}", self.title()))
            .text(self.column(), |(_, kind)| &kind.kind)
            .figure("n", |(_, kind)| kind.n)
            .text("share (95 %)", |(_, kind)| {
                share_words(kind.n, n as u64, kind.share_between)
            })
            .each(&self.groups[1..], |columns, pod| {
                columns.text(format!("{} (n {})", pod.of, pod.n), |(at, _)| {
                    let kind = pod.kinds.as_ref()?.get(at)?;
                    let (low, high) = kind.share_between;
                    Some(format!(
                        "{} ({:.0}–{:.0} %)",
                        kind.n,
                        low * 100.0,
                        high * 100.0
                    ))
                })
            })
            .into()
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
        let unseen = kinds.filter(|kind| !self.is_listed(kind));
        let unseen: Vec<&str> = unseen.map(|kind| kind.kind.as_str()).collect();
        if !unseen.is_empty() {
            lines.push(format!("not seen: {}", listed(unseen)));
        }
        if let Some(why) = all.measure.as_ref().and_then(|of| of.cv_unsure.as_ref())
            && all.n > 2
        {
            lines.push(format!("the CV has no limits ({why})"));
        }
        lines.extend(self.pods.as_ref().map(PodTest::words));
        if !self.pods_apart.is_empty() {
            let pods = joined(self.pods_apart.iter().map(PodApart::words), "; ");
            lines.push(format!("not comparable with the others: {pods}"));
        }
        lines.extend(self.shown.own_words());
        let parents = self.parents_words(usize::MAX, |parent| {
            format!("{} {}", parent.plant, self.shown.words(parent.value))
        });
        if !parents.is_empty() {
            lines.push(format!("parents, at their own age: {parents}"));
        }
        if self.unread > 0 {
            let plants = counted(self.unread, "plant", "plants");
            let because = self.unread_not_compared.iter();
            let because: Vec<String> = because
                .map(|(why, n)| match *n == self.unread {
                    true => why.words().to_owned(),
                    false => format!("{n} of them read {}", why.words()),
                })
                .collect();
            lines.push(
                match self.unread_not_compared.values().any(|n| *n == self.unread) {
                    true => format!("{plants} read {}", listed(&because)),
                    false => joined(
                        [format!(
                            "{plants} without a reading that may be compared at this age"
                        )]
                        .into_iter()
                        .chain(because),
                        ", ",
                    ),
                },
            );
        }
        if let Some(words) = self.left_out.words_beside(&self.left_out_elsewhere) {
            lines.push(format!("left out: {words}"));
        }
        if self.other_ages > 0 {
            // Where no age is that of more than half, it is the one with the most of them.
            let elsewhere = self.not_compared.get(&NotHere::OtherAge).copied();
            let chosen = match self.groups[0].n > elsewhere.unwrap_or(0) {
                true => "latest age that most siblings share",
                false => "age with the most siblings read",
            };
            lines.push(format!(
                "{chosen}; {} at {} not compared with it",
                counted(self.readings_elsewhere, "reading", "readings"),
                counted(self.other_ages, "other age", "other ages")
            ));
        }
        lines
    }
}

impl PodApart {
    /// Its code and how it was read instead.
    fn words(&self) -> String {
        let because = listed(self.because.keys().map(|why| why.words()));
        let growth = match self.because.contains_key(&NotHere::OtherAge) {
            true => " (growth compares pods at a common age)",
            false => "",
        };
        format!("{}, read {because}{growth}", self.pod)
    }
}

impl PodTest {
    fn words(&self) -> String {
        let Some(p) = self.p else {
            let why = self.why_not.map(|why| why.to_string());
            let why = why.as_deref().unwrap_or("nothing to compare");
            return format!("pods cannot be compared ({why})");
        };
        let judged = self.p_adjusted.unwrap_or(p);
        let verdict = match judged < 0.05 {
            true => "pods differ",
            false => "no difference between pods shown",
        };
        let several = (self.tests > 1).then(|| {
            let (p, tests) = (p_words(judged), self.tests);
            format!("; {p} after allowing for {tests} traits tested")
        });
        let p = p_words(p) + &several.unwrap_or_default();
        format!("{verdict} ({}, {p})", self.method)
    }
}

impl RatioAnswer {
    /// The trait and whether its counts fit.
    pub(super) fn answer(&self) -> String {
        format!("{}: {}", self.of, self.verdict())
    }

    /// Whether the counts fit, with the probability of the exact test or the one that stands for it.
    fn verdict(&self) -> String {
        let verdict = if self.p < 0.05 {
            "does not fit"
        } else {
            "fits, as far as so few plants can tell"
        };
        let (ratio, p, method) = (&self.ratio, p_words(self.p), self.method);
        format!("{ratio} {verdict}: {p} ({method})")
    }

    fn tell(&self, sheet: &mut Sheet) {
        let classes = self.classes.iter().enumerate();
        sheet.table(
            Table::of(classes)
                .titled(format!("{} against {}", self.of, self.ratio))
                .text("", |(_, class)| class.to_string())
                .figure("counted", |(at, _)| self.counts[at])
                .number("expected", 1, |(at, _)| self.expected[at]),
        );
        let (x, df, p_x) = self.chi_square;
        let mut lines = vec![format!(
            "chi-square {x:.2}, df {df}, {}; G {:.2}, {}",
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
        let either = if self.p < 0.05 { "" } else { " either" };
        lines.extend(
            joined_if_any(others, ", ").map(|others| {
                format!("usual ratios these counts do not rule out{either}: {others}")
            }),
        );
        sheet.lines(None, lines);
        sheet.caution(Weight::General,
            "a ratio from one or two genes assumes what the parents carry; in hybrids of species a fit is a hint, not a proof",
        );
    }
}
