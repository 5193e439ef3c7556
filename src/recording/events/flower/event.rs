//! A spike: seen, opened, over, and the sex its flowers showed.

use crate::observation::sex::sighting;
use crate::record::{Day, Flowering, Sex, When};
use crate::recording::codes::next_spike;
use crate::recording::dates::{Dated, dated, spelled_out};
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::plants::{here, here_then, single};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::voice::Words;
use crate::recording::written::{RonRecord, noted, text};
use crate::registry::{PlantOrRamet, Registry};
use crate::wording::at_date;

/// The dates to write by their fields, the sex and how it is known.
type Seen<'s> = (
    &'s [(&'static str, Dated)],
    Option<Sex>,
    Option<&'static str>,
);

/// What was seen of a spike.
#[derive(Clone, Debug, Default)]
pub struct Flower {
    /// The plant, or the piece that flowers.
    pub plant: String,
    /// The spike, when it is on record already.
    pub spike: Option<String>,
    /// When it was first seen.
    pub seen: Option<String>,
    /// When the first flower opened.
    pub opened: Option<String>,
    /// When the last flower was over.
    pub over: Option<String>,
    /// A day on which its flowers were open.
    pub open_on: Option<String>,
    /// The sex.
    pub sex: Option<Sex>,
    /// How the sex is known: a word of the files, `flowers` if not given.
    pub seen_by: Option<&'static str>,
    /// Remarks.
    pub note: Option<String>,
}

impl Flower {
    /// Writes the spike, or what is new of one on record.
    ///
    /// # Errors
    /// If nothing was seen, the spike is unknown, or its flowers contradict the sex on record.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let day = |typed: &Option<String>| Some(spelled_out(typed.as_deref()?, draft.today));
        let on_days = Flower {
            seen: day(&self.seen),
            opened: day(&self.opened),
            over: day(&self.over),
            open_on: day(&self.open_on),
            ..self.clone()
        };
        on_days.record_on_days(draft)
    }

    fn record_on_days(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let plant = single(registry, &self.plant)?;
        if !self.is_dated() {
            here(registry, plant, draft.today)?;
        }
        self.sex_fits(registry, plant.plant)?;
        let mut dates = self.dates(draft, plant)?;
        if self.spike.is_none() {
            let is_whole = vec![FieldChange::Whole("flowerings")];
            draft.change_plants(vec![(plant.plant, is_whole)])?;
        }
        let flowerings = registry.flowerings(plant.plant);
        let at = self.of_record(draft, plant)?;
        let of = at.map(|at| &flowerings[at]);
        let known = at.and_then(|at| sighting(at, &flowerings[at]));
        self.opened_by_then(draft, of)?;
        let (sex, seen_by) = self.sex_to_write(registry, plant.plant, known)?;
        let was = self.other_sex(registry, plant.plant);
        if self.is_of_open_flowers(registry, of) {
            dates.push(("opened", self.by_then(draft)?));
        }
        if of.is_none() && dates.is_empty() && !self.is_claim() {
            dates.push(("spike", dated(registry, "--seen", None, draft.today)?));
        }
        let moved = of.and_then(|of| self.seen_before(registry, of, &dates));
        let over = dates.iter().find(|(field, _)| *field == "over");
        if let (Some(at), Some((_, over))) = (at, over) {
            self.open_after(registry, &flowerings[at], over)?;
            self.not_used_later(registry, (plant, at), over)?;
        }
        let remarks = moved.iter().map(|(was, now)| seen_earlier(was, now).into());
        let piece = registry.ramet(plant).map(|ramet| ramet.code);
        let added = piece.filter(|_| !self.is_claim() && of.is_some_and(|of| of.ramet.is_none()));
        let remarks = remarks
            .chain(added.and(of).map(|of| piece_added(registry, plant, of)))
            .chain(self.told_apart(draft, plant.plant));
        let remarks: Vec<Words> = remarks.collect();
        dates.extend(moved.map(|(_, now)| ("spike", now)));
        let is_new = of.is_none() && !self.is_claim();
        let new = is_new.then(|| next_spike(flowerings, year(&dates, draft.today)));
        let seen = (&dates[..], sex, seen_by);
        let change = match at.zip(of) {
            Some((at, of)) => {
                self.changes((at, of.note.as_deref().map(|note| &**note)), added, seen)?
            }
            None => {
                let record = self.new_record((new.as_deref(), piece), seen);
                vec![FieldChange::Push("flowerings", record)]
            }
        };
        draft.change_plants(vec![(plant.plant, change)])?;
        let whole = registry.code_of(plant);
        let about = vec![whole.clone(), registry.code(plant.plant)];
        let seen = dates.into_iter().map(|(field, date)| (field, date.text));
        let what = What::Flowered {
            plant: whole,
            spike: of.and_then(|of| of.code).map(str::to_owned).or(new.clone()),
            sex: sex.map(|sex| self.as_seen(sex)),
            was,
            seen: seen.collect(),
        };
        let recorded = Recorded::of(what, about, "").tag(new, "spike");
        Ok(recorded.remarks(remarks))
    }

    /// The dates given, by the field that holds each; a day on which flowers were open is only looked at.
    fn dates(
        &self,
        draft: &Draft,
        plant: PlantOrRamet,
    ) -> Result<Vec<(&'static str, Dated)>, Slip> {
        let mut dates = Vec::new();
        for (field, option, typed) in [
            ("spike", "--seen", &self.seen),
            ("opened", "--opened", &self.opened),
            ("over", "--over", &self.over),
            ("", "--on", &self.open_on),
        ] {
            if let Some(typed) = typed {
                let on = dated(draft.registry, option, Some(typed), draft.today)?;
                here_then(draft.registry, plant, &on)?;
                if !field.is_empty() {
                    dates.push((field, on));
                }
            }
        }
        Ok(dates)
    }

    fn is_dated(&self) -> bool {
        let dates = [&self.seen, &self.opened, &self.over, &self.open_on];
        dates.into_iter().any(Option::is_some)
    }

    /// What is new of a spike on record, the piece it is on among it; a note is added to the one that is there.
    fn changes(
        &self,
        (at, before): (usize, Option<&str>),
        piece: Option<&str>,
        (dates, sex, seen_by): Seen,
    ) -> Result<Vec<FieldChange>, Slip> {
        let dates = dates.iter();
        let dates = dates.map(|(field, date)| FieldChange::Set(field, text(&date.text)));
        let sex = sex.map(|sex| FieldChange::Set("sex", sex.word().to_owned()));
        let seen_by = seen_by.map(|by| FieldChange::Set("seen_by", by.to_owned()));
        let note = self.note.as_deref().filter(|note| before != Some(*note));
        let note = note.map(|note| FieldChange::Set("note", text(&noted(before, note))));
        let within = |change| FieldChange::at("flowerings", at, vec![change]);
        let piece = piece.map(|piece| FieldChange::Set("ramet", text(piece)));
        let changes = dates.chain(sex).chain(seen_by).chain(piece).chain(note);
        let changes = changes.map(within);
        let changes: Vec<FieldChange> = changes.collect();
        match changes.is_empty() {
            true => Err(self.nothing_new()),
            false => Ok(changes),
        }
    }

    fn nothing_new(&self) -> Slip {
        let plant = &self.plant;
        match (&self.open_on, self.sex) {
            (Some(_), _) => {
                Slip::nothing(format!("the open flowers of {plant} are on record already"))
            }
            (None, Some(_)) => Slip::nothing(format!(
                "the open flowers of {plant} showed that sex already"
            )),
            (None, None) => Slip::wanted(
                "say what you saw of the spike",
                Words::or(
                    "--opened, --over or --sex",
                    "“What you saw”, or “Sex the open flowers show”",
                ),
            ),
        }
    }

    /// The record of a spike that is new, with its code and that of the piece it is on.
    fn new_record(
        &self,
        (code, piece): (Option<&str>, Option<&str>),
        (dates, sex, seen_by): Seen,
    ) -> String {
        let mut record = RonRecord::new().text_if("code", code);
        for (field, date) in dates {
            record = record.text(field, &date.text);
        }
        record
            .value_if("sex", sex.map(Sex::word))
            .value_if("seen_by", seen_by)
            .text_if("ramet", piece)
            .text_if("note", self.note.as_ref())
            .line()
    }

    /// Whether open flowers were seen of which no day is recorded or given.
    fn is_of_open_flowers(&self, registry: &Registry, of: Option<&Flowering>) -> bool {
        let on_flowers =
            self.open_on.is_some() || (self.sex.is_some() && self.is_by_open_flowers());
        let given = self.opened.is_some() || self.over.is_some();
        let known = of.is_some_and(|of| {
            of.over.is_some()
                || of
                    .opened
                    .is_some_and(|opened| !self.is_sooner(registry, opened))
        });
        on_flowers && !given && !known
    }

    /// Whether flowers were open on a day before one by which they are on record as open.
    fn is_sooner(&self, registry: &Registry, opened: &str) -> bool {
        let seen = self.open_on.as_deref().map(|on| registry.when(on));
        let by = registry.when(opened);
        by.first == Day::FIRST && seen.is_some_and(|seen| seen.last < by.last)
    }

    /// Flowers seen open on a day opened no later; today if no day is given.
    fn by_then(&self, draft: &Draft) -> Result<Dated, Slip> {
        let seen = dated(draft.registry, "--on", self.open_on.as_deref(), draft.today)?;
        let by = format!("by {}", seen.when.last.min(draft.today));
        dated(draft.registry, "--opened", Some(&by), draft.today)
    }

    /// Refuses open flowers on a day before the first one opened as it is on record.
    fn opened_by_then(&self, draft: &Draft, of: Option<&Flowering>) -> Result<(), Slip> {
        let opened = of.and_then(|of| of.opened);
        let (Some(asked), Some(opened)) = (self.open_on.as_deref(), opened) else {
            return Ok(());
        };
        let seen = dated(draft.registry, "--on", Some(asked), draft.today)?;
        match seen.when.surely_before(draft.registry.when(opened)) {
            false => Ok(()),
            true => Err(Slip::contradicts(
                format!("flowers of {} were open on {asked}", self.plant),
                format!("its first flower opened {}", at_date(opened)),
                "look at the day; or correct the record of its flowers",
            )),
        }
    }

    /// Refuses an end before a day by which flowers are on record as open.
    fn open_after(&self, registry: &Registry, of: &Flowering, over: &Dated) -> Result<(), Slip> {
        let Some(by) = of.opened.map(|opened| registry.when(opened)) else {
            return Ok(());
        };
        let is_by = by.first == Day::FIRST && by.last != Day::LAST;
        match is_by && over.when.last < by.last {
            false => Ok(()),
            true => Err(Slip::contradicts(
                format!(
                    "flowers of {} were over {}",
                    self.plant,
                    at_date(&over.text)
                ),
                format!("they are on record as open by {}", by.last),
                "look at the day; or correct the record of its flowers",
            )),
        }
    }

    /// The day on record on which a spike was seen, and the one by which it was seen, when flowers opened earlier.
    fn seen_before(
        &self,
        registry: &Registry,
        of: &Flowering,
        dates: &[(&'static str, Dated)],
    ) -> Option<(String, Dated)> {
        let was = of.spike.filter(|_| self.seen.is_none())?;
        let (_, opened) = dates.iter().find(|(field, _)| *field == "opened")?;
        let late = opened.when.surely_before(registry.when(was));
        let now = || Dated {
            text: format!("by {}", opened.when.last),
            when: When {
                first: Day::FIRST,
                last: opened.when.last,
            },
            today: opened.today,
        };
        late.then(|| (was.to_owned(), now()))
    }
}

/// That the day on which a spike was first seen is put earlier.
fn seen_earlier(was: &str, now: &Dated) -> String {
    format!(
        "The spike was on record as seen {was}; it now says {}, because its first flower opened earlier",
        now.text
    )
}

/// That a spike without a piece on record is that of the piece named from now on.
fn piece_added(registry: &Registry, plant: PlantOrRamet, of: &Flowering) -> Words {
    let spike = of
        .code
        .map_or("The spike".to_owned(), |code| format!("Spike {code}"));
    let piece = registry.code_of(plant);
    format!(
        "{spike} was on record without a piece and now counts as a spike of {piece}. If {piece} has another spike, undo this and record that one as first seen"
    ).into()
}

/// The year of the first date, or this year where that is open. Of a day by which something was seen it is that day's.
fn year(dates: &[(&str, Dated)], today: Day) -> i32 {
    let day = dates.first().and_then(|(_, date)| match date.when {
        When {
            last: Day::LAST, ..
        } => None,
        When {
            first: Day::FIRST,
            last,
        } => Some(last),
        When { first, .. } => Some(first),
    });
    let year = day.and_then(Day::ymd).or(today.ymd());
    year.map_or(0, |(year, ..)| year)
}
