//! One intended pollination as a person reads it.

use super::super::read::hybrid_name_line;
use super::super::sheet::{Report, Sheet};
use super::super::table::Table;
use crate::analysis::pair::{MadeBefore, PairInbreeding, PairReport, PairShare, SharesIf, SideRow};
use crate::observation::pollen::Envelope;
use crate::report::as_text::lines;
use crate::report::kinship::{decimal, odds, outcome_words, probability};
use crate::report::shares_words::{before, percent, two_copies};
use crate::wording::{
    age_of_days, counted, from_to, in_brackets, joined, joined_if_any, led_by, listed,
};

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
        let evidence = [&self.seed, &self.pollen].map(SideRow::evidence_line);
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

impl SideRow {
    fn evidence_line(&self) -> String {
        format!("{}: {}", self.id, self.evidence.words)
    }
}

impl PairReport {
    /// What fits one screen: what holds of this pair, then its traits.
    fn screen(&self, kinship: Vec<String>, sheet: &mut Sheet) {
        let mut screen = Sheet::default();
        let sides = [&self.seed, &self.pollen].into_iter();
        let unsure = sides.filter(|side| side.is_less_than_a_tag);
        screen.lines(
            None,
            kinship
                .into_iter()
                .chain(unsure.map(SideRow::evidence_line)),
        );
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
            made => {
                let codes = made.iter().map(MadeBefore::code_words);
                format!("made before as {}", listed(codes))
            }
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
            let name = side.name.as_deref().unwrap_or("name too long");
            Some(format!("{}, {}, {name}", side.id, side.sex))
        };
        let formula = self.formula.clone();
        let formula = formula.or_else(|| Some("too long to write out".to_owned()));
        let expected = before(self.shares_are).to_owned() + &share_words(&self.shares);
        let appendix = self.shares.iter().filter(|share| share.appendix_one);
        let appendix = joined_if_any(appendix.map(|s| format!("{} {}", s.of, s.share)), ", ");
        // What is not known may hold anything.
        let in_part = match self.shares.iter().any(|share| !share.is_species) {
            true => "; part of the descent is not known",
            false => "",
        };
        let none = || {
            if in_part.is_empty() {
                "none"
            } else {
                "none known"
            }
            .to_owned()
        };
        let appendix = appendix.unwrap_or_else(none) + in_part;
        vec![
            ("seed parent", side(&self.seed)),
            ("pollen parent", side(&self.pollen)),
            ("name", formula),
            ("expected parentage", Some(expected)),
            ("Appendix I ancestry, by the list used", Some(appendix)),
        ]
    }

    fn more_facts(&self) -> Vec<(&'static str, Option<String>)> {
        let copies = two_copies(self.heterozygosity, self.heterozygosity_is_a_mean);
        let [least, most] = <[f64; 2]>::from(self.spread_ratio).map(|of| format!("{of:.2}"));
        vec![
            ("genes with copies from two species", Some(copies)),
            (
                "spread as read, a species' pod being 1",
                Some(from_to(least, most, " to ")),
            ),
            ("botanical order", self.botanical.clone()),
        ]
    }

    /// What depends on the number of seedlings alone.
    fn of_any_pair(&self) -> Vec<(&'static str, Option<String>)> {
        let rare = self.plants_for_one.iter();
        let rare = joined(rare.map(|(share, n)| format!("{n} for {share}")), ", ");
        let seedlings = counted(self.seedlings as usize, "seedling", "seedlings");
        let sexes = format!("{} among {seedlings}", percent(self.both_sexes));
        let best = format!(
            "{:.2} standard deviations above the mean",
            self.best_of_them
        );
        let rare = format!("{rare} of the seedlings");
        vec![
            ("both sexes", Some(sexes)),
            ("best of so many", Some(best)),
            ("to find one (95 %)", Some(rare)),
        ]
    }
}

fn share_words(shares: &[PairShare]) -> String {
    let words = shares.iter().map(|s| format!("{} {}", s.of, s.share));
    joined(words, ", ")
}

impl SharesIf {
    fn words(&self) -> String {
        let chance = in_brackets(self.chance.map(odds));
        format!("{}{chance}: {}", self.parents, share_words(&self.shares))
    }
}

impl PairInbreeding {
    fn words(&self) -> String {
        let (figure, word) = match self.may_be.is_empty() {
            true => (format!("at least {}", probability(self.expected)), ""),
            false => {
                let (may_be, mean) = (outcome_words(&self.may_be), decimal(self.expected));
                (format!("at least {may_be}; expected {mean}"), "expected ")
            }
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
        let set = match self.set.flowers {
            0 => "set not counted".to_owned(),
            _ => format!("set {}", self.set.words()),
        };
        let open = Some(self.not_counted).filter(|n| *n > 0);
        let open = open.map(|n| counted(n, "pollination", "pollinations"));
        let open = open.map(|open| format!(", {open} without a count"));
        let numbered = counted(self.numbered, "seedling", "seedlings");
        format!(
            "{}{direction}: {set}{}; {numbered} numbered",
            self.code_words(),
            open.unwrap_or_default()
        )
    }
}

fn envelope_words(e: &Envelope) -> String {
    let age = e.age_days.map_or("age not known".to_owned(), age_of_days);
    let (place, remark) = (led_by(", ", e.place), led_by("; ", e.remark.as_ref()));
    format!(
        "{}: {age}{place}; set with this envelope {}, with all pollen of its place and age {}{remark}",
        e.lot,
        e.set_by_it.words(),
        e.pooled.words()
    )
}
