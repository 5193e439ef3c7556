//! The spread of crosses in words and tables.

use crate::analysis::expected_spread::BETWEEN_SPECIES;
use crate::analysis::variation::{SpreadRatio, VariationReport};
use crate::report::caution::Weight;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::Table;
use crate::wording::{bare_age, counted, cv_words, in_brackets, listed, p_words};

/// What the headings of the table mean.
const HEADINGS: &str = "CV: the SD in percent of the mean. het.: how likely the parent's two copies of a gene are of two species \
     (1 in a primary hybrid)";

impl Report for VariationReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        sheet.table(self.table());
        sheet.lines(None, [HEADINGS.to_owned()]);
        sheet.lines(
            Some("Measured and expected"),
            self.against_first
                .iter()
                .map(|ratio| ratio.line(self.heritability)),
        );
        let ratios = self.against_first.iter().filter(|_| self.comparable);
        let needs: Vec<String> = ratios.filter_map(SpreadRatio::need).collect();
        sheet.lines(Some("Plants needed"), needs);
        sheet.cautions_of(&self.cautions);
        if self.limits_say_otherwise() {
            sheet.caution(
                Weight::General,
                "the limits of a ratio take readings as normal and so let one odd plant count in full, the test does not: where they disagree, look for that plant first",
            );
        }
        if self
            .against_first
            .iter()
            .any(|ratio| ratio.expected.is_some())
        {
            let [low, middle, high] = BETWEEN_SPECIES;
            sheet.caution(Weight::General, format!(
                "expected ratios assume a heritability of {} inside a species (--heritability), the rest of the spread alike in every \
                 cross, unlinked genes that add up, species equally varied, and an F2 between species that varies {middle} times \
                 as much beyond that (in brackets {low} to {high} times): assumptions, not measurements",
                self.heritability
            ));
        }
        sheet
    }
}

impl VariationReport {
    /// Whether the limits of a ratio leave out 1 where the test of two crosses sees no clear difference, or hold it where the
    /// test sees one.
    fn limits_say_otherwise(&self) -> bool {
        let (Some(p), [only]) = (self.p, &self.against_first[..]) else {
            return false;
        };
        only.between
            .is_some_and(|(low, high)| (low > 1.0 || high < 1.0) != (p < 0.05))
    }

    fn answer(&self) -> String {
        let ids = self.crosses.iter().map(|cross| cross.id.as_str());
        let varies = format!("how much {} varies", self.of);
        let verdict = match (self.p, &self.why_not) {
            (Some(p), _) if p < 0.05 => format!("they differ in {varies} ({})", p_words(p)),
            (Some(p), _) => format!("no clear difference in {varies} ({})", p_words(p)),
            (None, Some(why)) => format!("{varies} is not comparable ({why})"),
            (None, None) => format!("{varies} cannot be compared"),
        };
        format!("{}: {verdict}", listed(ids))
    }

    fn table(&self) -> Table {
        let decimals = self.shown.decimals.max(1);
        let places = usize::from(decimals);
        let rows = self.crosses.iter().map(|cross| {
            let heterozygosity = cross.expected.parents_heterozygosity;
            (cross, cross.measure.as_ref(), heterozygosity)
        });
        Table::of(rows)
            .titled(match self.comparable {
                true => self.shown.heading(),
                false => format!(
                    "{}: each at its own latest age, not to be compared",
                    self.shown.heading()
                ),
            })
            .text("group", |(cross, ..)| &cross.id)
            .figure("n", |(cross, ..)| cross.n)
            .number("mean", decimals, |(_, measure, _)| Some(measure?.mean))
            .number("SD", decimals, |(_, measure, _)| measure?.sd)
            .figure("CV % (95 %)", |(_, measure, _)| {
                Some(cv_words(measure?.cv?, measure?.cv_between))
            })
            .figure("range", |(_, measure, _)| {
                let measure = measure?;
                Some(format!(
                    "{:.places$}–{:.places$}",
                    measure.smallest, measure.largest
                ))
            })
            .number("het. ♀", 2, |(.., het)| Some(het?.0))
            .number("♂", 2, |(.., het)| Some(het?.1))
            .figure("months", |(cross, ..)| cross.months.map(bare_age))
            .text("read", |(cross, ..)| &cross.read)
            .into()
    }
}

impl SpreadRatio {
    /// Measured and expected on one line.
    fn line(&self, heritability: f64) -> String {
        let measured = match (self.ratio, self.between, &self.why_not) {
            (Some(ratio), Some((low, high)), _) => {
                format!("varies {ratio:.2} times as much (95 % {low:.2}–{high:.2})")
            }
            (_, _, Some(why)) => format!("not measured ({why})"),
            _ => "not measured".to_owned(),
        };
        let limits = self
            .expected_between
            .filter(|(low, high)| high - low > 0.005);
        let limits = in_brackets(limits.map(|(low, high)| format!("{low:.2}–{high:.2}")));
        let expected = match self.expected {
            Some(ratio) => {
                format!("expected from ancestry {ratio:.2}{limits} at heritability {heritability}")
            }
            _ => "nothing expected: parents or their descent not certain".to_owned(),
        };
        format!(
            "{} against {}: {measured}; {expected}",
            self.id, self.against
        )
    }

    /// How many more plants it takes.
    fn need(&self) -> Option<String> {
        let Some(needed) = self.plants_needed else {
            return Some(format!(
                "{} against {}: no number of plants shows a ratio of {:.2}",
                self.id, self.against, self.to_see
            ));
        };
        let (mine, others) = self.more_needed?;
        if mine == 0 && others == 0 {
            return None;
        }
        Some(format!(
            "to see a ratio of {:.2} four times in five takes {} of each cross: {mine} more of {}, {others} more of {}",
            self.to_see,
            counted(needed, "plant", "plants"),
            self.id,
            self.against
        ))
    }
}
