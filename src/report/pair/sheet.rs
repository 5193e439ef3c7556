//! One intended pollination as a person reads it.

use super::super::read::hybrid_name_line;
use super::super::sheet::{Report, Sheet};
use crate::analysis::pair::{MadeBefore, PairInbreeding, PairReport, PairShare, SharesIf, SideRow};
use crate::observation::pollen::Envelope;
use crate::planning::intensity::expected_best;
use crate::report::as_text::lines;
use crate::report::kinship::{decimal, odds, outcome_words, probability};
use crate::wording::{age_of_days, counted, listed};

impl Report for PairReport {
    fn is_bad_news(&self) -> bool {
        !self.impossible.is_empty()
    }

    fn sheet(&self) -> Sheet {
        let formula = self
            .formula
            .clone()
            .unwrap_or_else(|| "too long to write out".into());
        let before = match &self.made_before[..] {
            [] => "not made before".to_owned(),
            made => format!(
                "made before as {}",
                listed(&made.iter().map(|of| of.cross.as_str()).collect::<Vec<_>>())
            ),
        };
        let head = format!(
            "♀ {} × ♂ {}: inbreeding of the seedlings {}; {before}",
            self.seed.id,
            self.pollen.id,
            self.inbreeding.words()
        );
        let mut sheet = match self.impossible.is_empty() {
            true => Sheet::new(head),
            false => {
                let other_way = self.other_way.as_ref().map_or(String::new(), |pair| {
                    format!("; the other way round it can: {pair}")
                });
                let mut sheet = Sheet::new(format!(
                    "{} × {} cannot be made: {}{other_way}",
                    self.seed.id,
                    self.pollen.id,
                    lines(&self.impossible).join("; ")
                ));
                sheet.lines(None, vec![head]);
                sheet
            }
        };
        sheet.facts(None, self.facts(formula));
        sheet.lines(
            Some("Shares if a parent's own parents were these; no seedling has the mean of them"),
            self.shares_with_each.iter().map(SharesIf::words).collect(),
        );
        sheet.lines(
            Some("Hybrid names with these parents"),
            self.names.iter().map(hybrid_name_line).collect(),
        );
        if !self.traits.is_empty() {
            sheet.table(self.trait_table());
        }
        if self.traits.iter().any(|row| row.merit.is_some()) {
            sheet.table(self.merit_table());
        }
        let evidence =
            [&self.seed, &self.pollen].map(|side| format!("{}: {}", side.id, side.evidence.words));
        sheet.lines(Some("Evidence"), evidence.to_vec());
        sheet.lines(Some("Nights, as claimed"), self.nights());
        sheet.lines(
            Some("Made before"),
            self.made_before.iter().map(MadeBefore::words).collect(),
        );
        sheet.lines(Some("Flowers"), lines(&self.flowers));
        sheet.lines(
            Some("Pollen in hand"),
            self.envelopes.iter().map(envelope_words).collect(),
        );
        sheet.cautions_of(&self.cautions);
        sheet
    }
}

impl PairReport {
    fn nights(&self) -> Vec<String> {
        let lines = [&self.seed, &self.pollen].into_iter().flat_map(|side| {
            let line = move |(of, words): &(String, String)| match *of == side.id {
                true => format!("{}: {words}", side.id),
                false => format!("behind {}: {of}: {words}", side.id),
            };
            side.nights.iter().map(line)
        });
        lines.collect()
    }

    fn facts(&self, formula: String) -> Vec<(&'static str, Option<String>)> {
        let percent = |value: f64| match format!("{:.1} %", value * 100.0) {
            // A chance is not a certainty because it rounds to one.
            shown if shown == "100.0 %" && value < 1.0 => "over 99.9 %".to_owned(),
            shown => shown,
        };
        let range = |(least, most): (f64, f64), shown: &dyn Fn(f64) -> String| {
            if shown(least) == shown(most) {
                shown(least)
            } else {
                format!("{} to {}", shown(least), shown(most))
            }
        };
        let side = |side: &SideRow| {
            Some(format!(
                "{}, {}, {}",
                side.id,
                side.name.as_deref().unwrap_or("name too long"),
                side.sex
            ))
        };
        let appendix: Vec<String> = self
            .shares
            .iter()
            .filter(|s| s.appendix_one)
            .map(|s| format!("{} {}", s.of, s.share))
            .collect();
        let rare: Vec<String> = self
            .plants_for_one
            .iter()
            .map(|(share, n)| format!("{n} for {share}"))
            .collect();
        vec![
            ("name", Some(formula)),
            ("expected parentage", Some(share_words(&self.shares))),
            (
                "both sexes",
                Some(format!(
                    "{} among {}",
                    percent(self.both_sexes),
                    counted(self.seedlings as usize, "seedling", "seedlings")
                )),
            ),
            (
                "best of so many",
                Some(format!(
                    "{:.2} standard deviations above the mean",
                    expected_best(self.seedlings)
                )),
            ),
            (
                "to find one (95 %)",
                Some(format!("{} of the seedlings", rare.join(", "))),
            ),
            (
                "Appendix I ancestry, by the list used",
                Some(if appendix.is_empty() {
                    "none".into()
                } else {
                    appendix.join(", ")
                }),
            ),
            ("seed parent", side(&self.seed)),
            ("pollen parent", side(&self.pollen)),
            (
                "two copies of different species",
                Some(range(self.heterozygosity, &percent)),
            ),
            (
                "spread, a species' pod being 1",
                Some(range(self.spread_ratio, &|r| format!("{r:.2}"))),
            ),
            ("botanical order", self.botanical.clone()),
        ]
    }
}

fn share_words(shares: &[PairShare]) -> String {
    let words: Vec<String> = shares
        .iter()
        .map(|s| format!("{} {}", s.of, s.share))
        .collect();
    words.join(", ")
}

impl SharesIf {
    fn words(&self) -> String {
        let chance = self
            .chance
            .map_or(String::new(), |of| format!(" ({})", odds(of)));
        format!("{}{chance}: {}", self.parents, share_words(&self.shares))
    }
}

impl PairInbreeding {
    fn words(&self) -> String {
        let figure = match self.may_be.is_empty() {
            true => format!("at least {}", probability(self.expected)),
            false => format!(
                "at least {}; expected {}",
                outcome_words(&self.may_be),
                decimal(self.expected)
            ),
        };
        let word = match self.may_be.is_empty() {
            true => "",
            false => "expected ",
        };
        match self.if_batches_unrelated {
            None => figure,
            Some(apart) => format!(
                "{figure} with the recorded batch as full siblings, {word}{} if its founders are unrelated",
                probability(apart)
            ),
        }
    }
}

impl MadeBefore {
    fn words(&self) -> String {
        let direction = match self.same_direction {
            Some(true) => "",
            Some(false) => " (the other way round)",
            None => " (direction not known)",
        };
        let set = if self.set.flowers == 0 {
            "pods not counted".to_owned()
        } else {
            format!("set {}", self.set.words())
        };
        let open = match self.not_counted {
            0 => String::new(),
            n => format!(
                ", {} without a count",
                counted(n, "pollination", "pollinations")
            ),
        };
        format!(
            "{}{direction}: {set}{open}; {} numbered",
            self.cross,
            counted(self.numbered, "seedling", "seedlings")
        )
    }
}

fn envelope_words(e: &Envelope) -> String {
    let age = e.age_days.map_or("age not known".to_owned(), age_of_days);
    let place = e.place.map_or(String::new(), |place| format!(", {place}"));
    let remark = e
        .remark
        .as_ref()
        .map_or(String::new(), |remark| format!("; {remark}"));
    format!(
        "{}: {age}{place}; set with this envelope {}, with all pollen of its place and age {}{remark}",
        e.lot,
        e.set_by_it.words(),
        e.pooled.words()
    )
}
