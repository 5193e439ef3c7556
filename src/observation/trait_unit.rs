//! In which unit a trait is shown, and with how many decimals.

use crate::record::{MeasuredIn, Reads, ShownUnit, Trait};
use crate::registry::{Registry, TraitRow};
use crate::statistics::classes::{READING_SD, reading_error};
use crate::statistics::repeatability::{ENOUGH, Repeatability};

/// Decimals of a length in inches: a tenth of an inch is a quarter of a centimetre, too coarse for a difference.
pub const INCH_DECIMALS: u8 = 2;

/// How readings of one trait are shown.
#[derive(Clone, Debug)]
pub struct TraitUnit {
    /// Code of the trait.
    pub code: String,
    /// Full name.
    pub name: String,
    /// `cm`, `mm`, `in`; empty for counts, numbers, steps and kinds.
    pub unit: &'static str,
    /// What a centimetre or one is multiplied by to be shown.
    pub factor: f64,
    /// Decimals of one reading.
    pub decimals: u8,
    /// The steps of a scale, each its number and its anchor, or the kinds, in their order.
    pub kinds: Option<Vec<String>>,
    /// What the steps of a scale mean, without their numbers; empty for other traits.
    pub anchors: Vec<String>,
    /// Two plants no farther apart than this are tied, in the unit shown.
    pub tied_within: Option<f64>,
    /// How well it is read by the grower's own repeated readings, in the unit shown, where it was asked for.
    pub own: Option<OwnReadings>,
    /// Whether pitchers are read.
    pub of_pitcher: bool,
    /// Whether steps stand in order, as those of a scale.
    pub is_scale: bool,
}

/// How well a trait is read, in the unit shown.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct OwnReadings {
    /// Plants read again within a week, each once.
    pub plants: usize,
    /// Their readings of those weeks.
    pub readings: usize,
    /// How far the readings of a plant are apart; `None` where all plants changed by the same, or not at all.
    pub error: Option<Repeatability>,
}

/// Why repeated readings say nothing of the error.
const ALIKE: &str =
    "all changed by the same, or not at all, so no error can be worked out from them";

impl OwnReadings {
    fn how(&self) -> &'static str {
        match self.readings == 2 * self.plants {
            true => "read twice within a week",
            false => "read twice or more within a week",
        }
    }

    /// `12 plants`, `12 plants (36 readings)`.
    fn who(&self) -> String {
        match self.readings == 2 * self.plants {
            true => format!("{} plants", self.plants),
            false => format!("{} plants ({} readings)", self.plants, self.readings),
        }
    }
}

impl TraitUnit {
    /// The error of a reading by the grower's own repeated readings, where there are enough of them.
    fn own_error(&self) -> Option<Repeatability> {
        self.own?.error.filter(|error| error.df >= ENOUGH)
    }

    /// The distance, in the unit shown, within which two plants are tied: the one stated; else by the grower's own repeated
    /// readings, where there are enough; for leaf span else our own judgement; `None` where nothing says how well the
    /// trait is read.
    pub fn tie(&self) -> Option<f64> {
        let own = || self.own_error().map(|own| reading_error(own.error_sd));
        let of_span = || (self.code == "span").then(|| self.shown(reading_error(READING_SD)));
        self.tied_within.or_else(own).or_else(of_span)
    }

    /// What the error of a reading is taken from, in words; `None` where it was stated or nothing says it.
    pub fn error_words(&self) -> Option<String> {
        if self.tied_within.is_some() {
            return None;
        }
        let error = match self.own_error() {
            Some(own) => self.error_of(&own),
            None if self.code != "span" => return None,
            None => format!("{:.2} {} assumed", self.shown(READING_SD), self.unit),
        };
        let from = match self.own {
            Some(own) if self.own_error().is_some() => {
                format!(", from your own {} {}", own.who(), own.how())
            }
            Some(own) if own.error.is_none() => format!("; {} {} {ALIKE}", own.who(), own.how()),
            _ => format!(
                "; read {:.0} plants twice within a week, and your own is used",
                ENOUGH + 1.0
            ),
        };
        Some(format!("{}: error of a reading {error}{from}", self.name))
    }

    /// How well the trait was read twice, in words.
    pub fn own_words(&self) -> Option<String> {
        let own = self.own?;
        let read = format!("{}: {}", own.how(), own.who());
        let Some(error) = own.error else {
            return Some(format!("{read}; {ALIKE}"));
        };
        let between = error.repeatability_between;
        Some(format!(
            "{read}, error of a reading {}, repeatability {:.2} (95 % {:.2}–{:.2})",
            self.error_of(&error),
            error.repeatability.max(0.0),
            between.low.max(0.0),
            between.high.max(0.0)
        ))
    }

    /// `0.18 cm (95 % 0.13–0.29)`.
    fn error_of(&self, own: &Repeatability) -> String {
        let unit = if self.unit.is_empty() {
            String::new()
        } else {
            format!(" {}", self.unit)
        };
        let Repeatability {
            error_sd,
            error_between,
            ..
        } = own;
        format!(
            "{error_sd:.2}{unit} (95 % {:.2}–{:.2})",
            error_between.low, error_between.high
        )
    }

    /// Standard deviation of one reading in the unit shown, from the distance within which plants are tied; 0 where
    /// that is not known.
    pub fn reading_sd(&self) -> f64 {
        self.tie().map_or(0.0, |tied| tied / reading_error(1.0))
    }

    /// Of a declared trait, by its index. A length declared in cm is shown in inches where the registry says
    /// `show_lengths_in: in`; one declared in mm stays so, since rims are not read in inches.
    pub fn shown_in(registry: &Registry, index: TraitRow) -> TraitUnit {
        let declared = &registry[index];
        let unit = TraitUnit::of(declared);
        match (registry.settings.show_lengths_in, &declared.reads) {
            (ShownUnit::In, Reads::Length(MeasuredIn::Cm)) => TraitUnit {
                unit: "in",
                factor: 1.0 / 2.54,
                decimals: INCH_DECIMALS,
                tied_within: unit.tied_within.map(|cm| cm / 2.54),
                ..unit
            },
            _ => unit,
        }
    }

    /// Of a declared trait, in its own unit.
    fn of(declared: &Trait) -> TraitUnit {
        let (unit, factor, decimals) = match &declared.reads {
            Reads::Length(MeasuredIn::Mm) => ("mm", 10.0, 0),
            Reads::Length(MeasuredIn::Cm) => ("cm", 1.0, 1),
            Reads::Length(MeasuredIn::In) => ("in", 1.0 / 2.54, INCH_DECIMALS),
            Reads::Count => ("", 1.0, 0),
            Reads::Number => ("", 1.0, 2),
            Reads::Scale(_) | Reads::Kinds(_) => ("", 1.0, 0),
        };
        let anchors: Vec<String> = match &declared.reads {
            Reads::Scale(anchors) => anchors.iter().map(|anchor| anchor.to_string()).collect(),
            _ => Vec::new(),
        };
        let kinds = match &declared.reads {
            Reads::Scale(_) => {
                let steps = anchors.iter().enumerate();
                let step = |(at, anchor): (usize, &String)| format!("{} {anchor}", at + 1);
                Some(steps.map(step).collect())
            }
            Reads::Kinds(kinds) => Some(kinds.iter().map(|&kind| kind.to_owned()).collect()),
            _ => None,
        };
        TraitUnit {
            code: declared.code.to_owned(),
            name: declared.name.to_string(),
            unit,
            factor,
            decimals,
            kinds,
            anchors,
            tied_within: declared.tied_within,
            own: None,
            of_pitcher: declared.of_pitcher,
            is_scale: matches!(declared.reads, Reads::Scale(_)),
        }
    }

    /// The name with the unit: `leaf span, cm`.
    pub fn heading(&self) -> String {
        if self.unit.is_empty() {
            self.name.clone()
        } else {
            format!("{}, {}", self.name, self.unit)
        }
    }

    /// How many steps a scale has; `None` for other traits.
    pub fn steps(&self) -> Option<usize> {
        let anchors = self.kinds.as_ref().filter(|_| self.is_scale);
        anchors.map(Vec::len)
    }

    /// Whether the trait is a measure, not steps or kinds.
    pub fn is_measure(&self) -> bool {
        self.kinds.is_none()
    }

    /// A value as read, in the unit shown; a kind by its place.
    pub fn shown(&self, value: f64) -> f64 {
        value * self.factor
    }

    /// A shown value in words: `7.1 cm`, or the name of the kind.
    pub fn words(&self, shown: f64) -> String {
        match &self.kinds {
            Some(_) if self.is_scale => format!("{shown:.0}"),
            Some(kinds) => kinds.get(shown as usize).cloned().unwrap_or_default(),
            None if self.unit.is_empty() => format!("{shown:.*}", usize::from(self.decimals)),
            None => format!("{shown:.*} {}", usize::from(self.decimals), self.unit),
        }
    }

    /// The same without decimals that say nothing: `9 cm`, `1.4`.
    pub fn bare_words(&self, shown: f64) -> String {
        let words = self.words(shown);
        let (number, unit) = words.split_once(' ').unwrap_or((&words, ""));
        match number.contains('.') && self.is_measure() {
            true => {
                let bare = number.trim_end_matches('0').trim_end_matches('.');
                format!("{bare} {unit}").trim_end().to_owned()
            }
            false => words,
        }
    }
}
