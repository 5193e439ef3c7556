//! One intended pollination as a person reads it.

use super::super::read::hybrid_name_line;
use super::super::sheet::{Report, Sheet};
use super::super::table::Table;
use crate::analysis::pair::{MadeBefore, PairInbreeding, PairReport, PairShare, SharesIf, SideRow};
use crate::observation::pollen::Envelope;
use crate::report::as_text::lines;
use crate::report::kinship::{decimal, odds, outcome_words, probability};
use crate::report::shares_words::{before, percent, two_copies};
use crate::wording::{age_of_days, counted, joined, listed};

impl Report for PairReport {
    fn is_bad_news(&self) -> bool {
        !self.impossible.is_empty()
    }

    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.now_words());
        let kinship = vec![self.inbreeding_line()];
        sheet.lines(None, kinship.clone());
        sheet.facts(None, self.facts());
        sheet.lines(
            Some("Shares if a parent's own parents were these; no seedling has the mean of them"),
            self.shares_with_each.iter().map(SharesIf::words),
        );
        self.screen(kinship, &mut sheet);
        if self.impossible.is_empty() {
            sheet.facts(None, self.more_facts());
            sheet.facts(Some("Of seedlings of any pair"), self.of_any_pair());
        }
        sheet.lines(
            Some("Hybrid names with these parents"),
            self.names.iter().map(hybrid_name_line),
        );
        self.trait_tables().for_each(|table| sheet.table(table));
        let evidence =
            [&self.seed, &self.pollen].map(|side| format!("{}: {}", side.id, side.evidence.words));
        sheet.lines(Some("Evidence"), evidence.to_vec());
        sheet.lines(Some("Nights, as claimed"), self.nights());
        sheet.lines(
            Some("Made before"),
            self.made_before.iter().map(MadeBefore::words),
        );
        sheet.lines(Some("Flowers"), lines(&self.flowers));
        sheet.lines(
            Some("Pollen in hand"),
            self.envelopes.iter().map(envelope_words),
        );
        sheet.cautions_of(&self.cautions);
        sheet
    }
}

impl PairReport {
    /// What fits one screen: what holds of this pair, then its traits.
    fn screen(&self, kinship: Vec<String>, sheet: &mut Sheet) {
        let mut screen = Sheet::default();
        screen.lines(None, kinship);
        screen.facts(None, self.facts());
        if self.impossible.is_empty() {
            self.trait_tables().for_each(|table| screen.table(table));
        }
        sheet.brief = Some(screen.sections);
    }

    fn trait_tables(&self) -> impl Iterator<Item = Table> {
        let merit = self.traits.iter().any(|row| row.merit.is_some());
        let readings = (!self.traits.is_empty()).then(|| self.trait_table());
        readings
            .into_iter()
            .chain(merit.then(|| self.merit_table()))
    }

    fn inbreeding_line(&self) -> String {
        let before = match &self.made_before[..] {
            [] => "not made before".to_owned(),
            made if made.iter().all(|of| of.perhaps) => {
                let codes = made.iter().map(|of| of.cross.as_str());
                format!("perhaps made before: {}", listed(codes))
            }
            made => format!(
                "made before as {}",
                listed(&made.iter().map(MadeBefore::code_words).collect::<Vec<_>>())
            ),
        };
        let right = match self.inbreeding.expected > 0.0 {
            true => " if the recorded parents are right",
            false => "",
        };
        format!(
            "Inbreeding of the seedlings {}{right}; {before}",
            self.inbreeding.words()
        )
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

    fn facts(&self) -> Vec<(&'static str, Option<String>)> {
        let side = |side: &SideRow| {
            Some(format!(
                "{}, {}, {}",
                side.id,
                side.sex,
                side.name.as_deref().unwrap_or("name too long")
            ))
        };
        let formula = self.formula.clone();
        let appendix = self.shares.iter().filter(|share| share.appendix_one);
        let appendix: Vec<String> = appendix.map(|s| format!("{} {}", s.of, s.share)).collect();
        // What is not known may hold anything.
        let in_part = self.shares.iter().any(|share| !share.is_species);
        let appendix = match (appendix.is_empty(), in_part) {
            (true, true) => "none known; part of the descent is not known".to_owned(),
            (true, false) => "none".to_owned(),
            (false, true) => format!("{}; part of the descent is not known", appendix.join(", ")),
            (false, false) => appendix.join(", "),
        };
        vec![
            ("seed parent", side(&self.seed)),
            ("pollen parent", side(&self.pollen)),
            (
                "name",
                formula.or_else(|| Some("too long to write out".to_owned())),
            ),
            (
                "expected parentage",
                Some(before(self.shares_are).to_owned() + &share_words(&self.shares)),
            ),
            ("Appendix I ancestry, by the list used", Some(appendix)),
        ]
    }

    fn more_facts(&self) -> Vec<(&'static str, Option<String>)> {
        let range = |(least, most): (f64, f64), shown: &dyn Fn(f64) -> String| {
            if shown(least) == shown(most) {
                shown(least)
            } else {
                format!("{} to {}", shown(least), shown(most))
            }
        };
        vec![
            (
                "genes with copies from two species",
                Some(two_copies(
                    self.heterozygosity,
                    self.heterozygosity_is_a_mean,
                )),
            ),
            (
                "spread as read, a species' pod being 1",
                Some(range(self.spread_ratio, &|r| format!("{r:.2}"))),
            ),
            ("botanical order", self.botanical.clone()),
        ]
    }

    /// What depends on the number of seedlings alone.
    fn of_any_pair(&self) -> Vec<(&'static str, Option<String>)> {
        let rare = self
            .plants_for_one
            .iter()
            .map(|(share, n)| format!("{n} for {share}"));
        vec![
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
                    self.best_of_them
                )),
            ),
            (
                "to find one (95 %)",
                Some(format!("{} of the seedlings", joined(rare, ", "))),
            ),
        ]
    }
}

fn share_words(shares: &[PairShare]) -> String {
    let words = shares.iter().map(|s| format!("{} {}", s.of, s.share));
    joined(words, ", ")
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
    /// `X22-05`, or `perhaps X22-05`.
    fn code_words(&self) -> String {
        let perhaps = if self.perhaps { "perhaps " } else { "" };
        format!("{perhaps}{}", self.cross)
    }

    fn words(&self) -> String {
        let direction = match self.same_direction {
            Some(true) => "",
            Some(false) => " (the other way round)",
            None => " (direction not known)",
        };
        let set = if self.set.flowers == 0 {
            "set not counted".to_owned()
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
            self.code_words(),
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
