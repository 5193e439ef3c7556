//! The siblings of one sowing sorted, as a person reads them.

use crate::analysis::grade::{GradeReport, GradedPlant};
use crate::observation::not_here::NotHere;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::Table;
use crate::statistics::classes::{Standing, Third};
use crate::wording::{counted, joined, led_by, listed};

/// Plants that the first sentence names.
const NAMED: usize = 8;

impl Report for GradeReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        sheet.lines(None, self.sample());
        sheet.table(self.table(true));
        sheet.brief_table(self.table(false));
        let anybody = self.plants.iter().any(|row| row.gone.is_none());
        if let Some((right, wrong)) = self.chance_right.filter(|_| anybody) {
            sheet.lines(None, [format!(
                "{}one reading puts a plant in its true third {:.0} times in 100 and calls a truly fast one slow {} in 100; read again before culling",
                self.basis(),
                right * 100.0,
                if wrong < 0.005 { "less than once".to_owned() } else { format!("{:.0} times", wrong * 100.0) }
            )]);
        }
        sheet.cautions_of(&self.cautions);
        sheet
    }
}

impl GradedPlant {
    /// The same in a word or two: whether it is gone, tied, or had pests.
    fn note(&self) -> String {
        let tied = !self.tied_with.is_empty();
        match &self.gone {
            Some(_) => "gone".to_owned(),
            None if self.not_compared.is_some() => self.not_compared_words(),
            None if self.pest => "pests seen".to_owned(),
            None if tied => "tied".to_owned(),
            None => String::new(),
        }
    }

    /// How it was read, where that may not be compared: `read by another method`.
    fn not_compared_words(&self) -> String {
        led_by("read ", self.not_compared.map(NotHere::words))
    }

    /// Those it is tied with, the nearest by name: `X22-02-5 and X22-02-6`, `X22-02-5, X22-02-6, X22-02-7 and 2 more`.
    fn ties(&self) -> String {
        match self.tied_with_more {
            0 => listed(&self.tied_with),
            more => format!("{} and {more} more", self.tied_with.join(", ")),
        }
    }

    /// Whether it is gone, with whom it is tied, and whether pests were seen.
    fn notes(&self) -> String {
        let tied = match (&self.gone, self.tied_with.is_empty()) {
            (Some(gone), _) => Some(gone.to_string()),
            (None, true) => None,
            (None, false) => Some(format!("tied with {}", self.ties())),
        };
        let pest = (self.pest && self.gone.is_none())
            .then(|| "pests seen: not to be culled for size".to_owned());
        let not_compared = self.not_compared.map(|_| self.not_compared_words());
        let notes = [tied, not_compared, pest].into_iter().flatten();
        joined(notes, "; ")
    }
}

impl GradeReport {
    /// The siblings in order; in full with the pot and with whom each is tied.
    fn table(&self, full: bool) -> Table {
        let decimals = self.shown.decimals.max(1);
        Table::of(&self.plants)
            .text("", |row| {
                let place = row.place.map(|place| format!("#{place}"));
                place.unwrap_or_default()
            })
            .text("plant", |row| &row.plant)
            .number(self.shown.heading(), decimals, |row| row.size)
            .text("class", |row| row.class.to_string())
            .figure("growth a month since the reading before", |row| {
                let percent = 100.0 * libm::expm1(row.growth_per_month?);
                Some(format!("{percent:+.1} %"))
            })
            .when(full, |columns| columns.text("pot", |row| &row.potted))
            .when(full, |columns| columns.text("", GradedPlant::notes))
            .when(!full, |columns| columns.text("", GradedPlant::note))
            .into()
    }

    /// `3 fast, 4 medium, 3 slow`; nothing where none is classed.
    fn classes(&self) -> String {
        let here = self.plants.iter().filter(|row| row.gone.is_none());
        let third = |row: &GradedPlant| match row.class {
            Standing::Classed(third) => Some(third),
            _ => None,
        };
        let thirds: Vec<Third> = here.filter_map(third).collect();
        let count = |wanted: Third| thirds.iter().filter(|of| **of == wanted).count();
        let [fast, medium, slow] = [Third::Fast, Third::Medium, Third::Slow].map(count);
        match thirds.is_empty() {
            true => String::new(),
            false => format!("{fast} fast, {medium} medium, {slow} slow. "),
        }
    }

    /// `Fast: X22-02-1 and X22-02-3. `; nothing where none is classed or too many would be named.
    fn fast(&self) -> String {
        let fast = self.plants.iter().filter(|row| row.gone.is_none());
        let fast = fast.filter(|row| row.class == Standing::Classed(Third::Fast));
        let fast: Vec<&str> = fast.map(|row| row.plant.as_str()).collect();
        match fast.len() {
            1..=NAMED => format!("Fast: {}. ", listed(&fast)),
            _ => self.classes(),
        }
    }

    fn answer(&self) -> String {
        let read = self.plants.iter().filter(|row| row.counts()).count();
        if self.measure.is_none() {
            return format!("{}: no readings", self.id);
        }
        format!(
            "{}{} of {} graded by {} at {}; {}",
            self.fast(),
            counted(read, "sibling", "siblings"),
            self.id,
            self.shown.name,
            self.at,
            self.ties()
        )
    }

    /// What was read, in figures: `n 13, 2 of them gone since, median 9.0, …`; `None` without readings.
    fn sample(&self) -> Option<String> {
        let decimals = usize::from(self.shown.decimals.max(1));
        let read = self.plants.iter().filter(|row| row.counts()).count();
        let without = self.plants.iter().filter(|row| row.size.is_none());
        let (not_compared, unread): (Vec<_>, Vec<_>) =
            without.partition(|row| row.not_compared.is_some());
        let measure = self.measure.as_ref()?;
        let sd = led_by(", SD ", measure.sd.map(|sd| format!("{sd:.decimals$}")));
        let gone = self.plants.iter().filter(|row| row.gone.is_some());
        let gone = Some(gone.filter(|row| row.counts()).count()).filter(|n| *n > 0);
        let gone = led_by(", ", gone.map(|n| format!("{n} of them gone since")));
        let fold = self
            .fold
            .map(|fold| format!("{fold:.1} times the smallest"));
        let fold = led_by(", largest ", fold);
        let some = |of: &[&GradedPlant], how: &str| {
            let n = Some(of.len()).filter(|n| *n > 0);
            led_by(", ", n.map(|n| format!("{n} {how}")))
        };
        let unread = some(&unread, "unread") + &some(&not_compared, "read, but not comparable");
        Some(format!(
            "{}: n {read}{unread}{gone}, median {:.decimals$}, mean {:.decimals$}{sd}{fold}",
            self.shown.heading(),
            measure.median,
            measure.mean
        ))
    }

    /// What the chances of a right third are worked out from.
    fn basis(&self) -> String {
        let read = self.plants.iter().filter(|row| row.counts()).count();
        let plants = counted(read, "plant", "plants");
        match self.tied_within {
            None => String::new(),
            Some(_) => format!(
                "worked out from the spread of {plants} and the distance that counts as a tie: "
            ),
        }
    }

    /// The distance within which plants are tied, with its unit: `plants within 0.7 cm are tied`.
    fn ties(&self) -> String {
        let Some(tied) = self.tied_within else {
            return "no ties marked".to_owned();
        };
        let tenth = libm::round(tied * 10.0) / 10.0;
        let exact = (tenth - tied).abs() < 1e-9;
        let decimals = if exact { 1 } else { 2 };
        let distance = format!("{tied:.decimals$} {}", self.unit);
        format!("plants within {} are tied", distance.trim_end())
    }
}
