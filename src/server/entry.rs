//! An entry that a page sent: which event of the bench it is, and the command that would record the same.

use super::fields::{Fields, option};
use super::row::Row;
use crate::record::Sex;
use crate::recording::draft::Draft;
use crate::recording::events::flower::Flower;
use crate::recording::events::gone::{FateKind, Gone};
use crate::recording::events::muddle::Muddle;
use crate::recording::events::pollinate::{GivenPollen, Pollinate};
use crate::recording::events::pot::Pot;
use crate::recording::events::took::Took;
use crate::recording::recorded::Recorded;
use crate::recording::slip::Slip;
use crate::wording::typed_word;
use serde_json::Value;

/// Signs of an id: enough for chance to tell all entries apart, and no more than a file takes.
const ID: std::ops::RangeInclusive<usize> = 16..=64;

/// What was sent.
#[derive(Debug)]
pub struct Entry {
    /// By which it is known when it comes again.
    pub id: String,
    command: String,
    /// What was typed and is no part of the command.
    pub remarks: Vec<String>,
    /// What is to be done.
    pub deed: Deed,
}

/// What is to be done.
#[derive(Debug)]
pub enum Deed {
    /// A spike.
    Flower(Flower),
    /// A pollination.
    Pollinate(Box<Pollinate>),
    /// What a pollination set.
    Took(Took),
    /// A plant that died or left.
    Gone(Gone),
    /// Plants potted on.
    Pot(Pot),
    /// Plants mixed up.
    Muddle(Muddle),
    /// A row of a sitting.
    Measure(Row),
    /// A photo of a plant; its bytes come beside.
    Photo {
        /// The plant.
        plant: String,
        /// The day it was taken.
        on: Option<String>,
        /// The light it was taken in.
        light: Option<String>,
        /// What it shows.
        note: Option<String>,
    },
    /// A change taken back.
    Undo(u32),
}

impl Entry {
    /// Reads an entry.
    ///
    /// # Errors
    /// What does not fit, in words.
    pub fn of(sent: &Value) -> Result<Entry, String> {
        let mut fields = Fields::of(sent)?;
        let id = fields.needed("id")?;
        let plain = |c: char| c.is_ascii_alphanumeric() || c == '-';
        if !ID.contains(&id.len()) || !id.chars().all(plain) {
            return Err("`id` needs 16 to 64 letters, digits and `-`".to_owned());
        }
        let kind = fields.needed("kind")?;
        let (deed, mut words) = deed(&kind, &mut fields)?;
        fields.end()?;
        words.retain(|word| !word.is_empty());
        let words: Vec<String> = words.iter().map(|word| typed_word(word)).collect();
        Ok(Entry {
            id,
            command: words.join(" "),
            remarks: deed.typed(),
            deed,
        })
    }

    /// The command that would record the same, for the journal, with what that command would ask for as a remark of the
    /// shell: two entries that record anything else differ in it.
    pub fn asked(&self) -> String {
        let mut asked = self.command.clone();
        for (at, remark) in self.remarks.iter().enumerate() {
            asked += if at == 0 { " # " } else { " " };
            asked += &typed_word(remark);
        }
        asked
    }
}

impl Deed {
    /// What was typed and is no part of the command.
    fn typed(&self) -> Vec<String> {
        match self {
            Deed::Measure(row) => row.typed(),
            Deed::Photo {
                on, light, note, ..
            } => [("on", on), ("light", light), ("note", note)]
                .into_iter()
                .filter_map(|(field, value)| Some(format!("{field}={}", value.as_ref()?)))
                .collect(),
            _ => Vec::new(),
        }
    }

    /// Makes the changes of an event; none of a row, a photo or an undoing, which need more than the pages.
    ///
    /// # Errors
    /// As the event says.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        match self {
            Deed::Flower(event) => event.record(draft),
            Deed::Pollinate(event) => event.record(draft),
            Deed::Took(event) => event.record(draft),
            Deed::Gone(event) => event.record(draft),
            Deed::Pot(event) => event.record(draft),
            Deed::Muddle(event) => event.record(draft),
            Deed::Measure(_) | Deed::Photo { .. } | Deed::Undo(_) => Err(Slip::NothingToChange(
                "this is no event of its own".to_owned(),
            )),
        }
    }
}

type Read = Result<(Deed, Vec<String>), String>;

fn deed(kind: &str, fields: &mut Fields) -> Read {
    match kind {
        "flower" => flower(fields),
        "pollinate" => pollinate(fields),
        "took" => took(fields),
        "gone" => gone(fields),
        "pot" => pot(fields),
        "muddle" => muddle(fields),
        "measure" => {
            let row = Row::of(fields)?;
            let words = row.words();
            Ok((Deed::Measure(row), words))
        }
        "photo" => photo(fields),
        "undo" => {
            let change = fields.number("change")?.ok_or("`change` is missing")?;
            Ok((
                Deed::Undo(change),
                vec!["undo".to_owned(), change.to_string()],
            ))
        }
        other => Err(format!(
            "`{}` is no kind of entry: flower, pollinate, took, gone, pot, muddle, measure, photo or undo",
            crate::text::one_line(other)
        )),
    }
}

fn flower(fields: &mut Fields) -> Read {
    let (plant, on) = (fields.needed("plant")?, fields.text("on")?);
    let sex = match fields.text("sex")?.as_deref() {
        None => None,
        Some("female") => Some(Sex::Female),
        Some("male") => Some(Sex::Male),
        Some(_) => return Err("`sex` needs female or male".to_owned()),
    };
    let note = fields.text("note")?;
    let saw = fields.text("saw")?;
    let mut words = vec!["flower".to_owned(), plant.clone()];
    let sex_word = sex.map(|sex| sex.word().to_owned());
    words.extend(option("--sex", sex_word.as_ref()));
    let mut event = Flower {
        plant,
        sex,
        note,
        ..Flower::default()
    };
    let (option_of_day, day) = match (saw.as_deref(), sex) {
        (Some("bud"), Some(_)) => return Err("only open flowers show the sex".to_owned()),
        (Some("bud") | None, None) => ("--seen", &mut event.seen),
        (Some("open"), _) | (None, Some(_)) => ("--on", &mut event.open_on),
        (Some("opened"), _) => ("--opened", &mut event.opened),
        (Some("over"), _) => ("--over", &mut event.over),
        (Some(_), _) => return Err("`saw` needs bud, open, opened or over".to_owned()),
    };
    *day = on.or_else(|| saw.map(|_| "today".to_owned()));
    words.extend(option(option_of_day, day.as_ref()));
    words.extend(option("--note", event.note.as_ref()));
    Ok((Deed::Flower(event), words))
}

fn pollinate(fields: &mut Fields) -> Read {
    let event = Pollinate {
        seed: fields.needed("plant")?,
        pollen: Some(GivenPollen::With(fields.needed("with")?)),
        zone: fields.text("zone")?,
        flowers: fields.number("flowers")?,
        controls: fields.number("controls")?,
        on: fields.text("on")?,
        note: fields.text("note")?,
        ..Pollinate::default()
    };
    let mut words = vec!["pollinate".to_owned(), event.seed.clone()];
    if let Some(GivenPollen::With(pollen)) = &event.pollen {
        words.extend(option("--with", Some(pollen)));
    }
    words.extend(option("--zone", event.zone.as_ref()));
    let count = |of: Option<u32>| of.map(|of| of.to_string());
    words.extend(option("--flowers", count(event.flowers).as_ref()));
    words.extend(option("--controls", count(event.controls).as_ref()));
    words.extend(option("--on", event.on.as_ref()));
    words.extend(option("--note", event.note.as_ref()));
    Ok((Deed::Pollinate(Box::new(event)), words))
}

fn took(fields: &mut Fields) -> Read {
    let event = Took {
        zone: fields.needed("zone")?,
        set: fields
            .number("pods")?
            .ok_or("`pods` is missing; none is 0")?,
        controls: fields.text("controls")?,
        again: fields.is("again")?,
        on: fields.text("on")?,
    };
    let mut words = vec!["took".to_owned(), event.zone.clone(), event.set.to_string()];
    words.extend(option("--controls", event.controls.as_ref()));
    words.extend(event.again.then(|| "--again".to_owned()));
    words.extend(option("--on", event.on.as_ref()));
    Ok((Deed::Took(event), words))
}

fn gone(fields: &mut Fields) -> Read {
    let plant = fields.needed("plant")?;
    let typed = fields.needed("fate")?;
    let fates = [
        FateKind::Died,
        FateKind::Culled,
        FateKind::Sold,
        FateKind::Given,
        FateKind::Lost,
    ];
    let fate = fates.into_iter().find(|fate| fate.word() == typed);
    let fate = fate.ok_or("`fate` needs died, culled, sold, given or lost")?;
    let event = Gone {
        plants: vec![plant.clone()],
        fate: Some(fate),
        why: fields.text("why")?,
        to: fields.text("to")?,
        price: fields.text("price")?,
        label: fields.text("label")?,
        all_pieces: fields.is("all_pieces")?,
        on: fields.text("on")?,
        ..Gone::default()
    };
    let mut words = vec!["gone".to_owned(), plant, format!("--{typed}")];
    words.extend(option("--why", event.why.as_ref()));
    words.extend(option("--to", event.to.as_ref()));
    words.extend(option("--price", event.price.as_ref()));
    words.extend(option("--label", event.label.as_ref()));
    words.extend(event.all_pieces.then(|| "--all-pieces".to_owned()));
    words.extend(option("--on", event.on.as_ref()));
    Ok((Deed::Gone(event), words))
}

fn pot(fields: &mut Fields) -> Read {
    let event = Pot {
        plants: vec![fields.needed("plant")?],
        width: fields.needed("width")?,
        place: fields.text("place")?,
        on: fields.text("on")?,
    };
    let mut words = vec![
        "pot".to_owned(),
        event.plants[0].clone(),
        event.width.clone(),
    ];
    words.extend(option("--place", event.place.as_ref()));
    words.extend(option("--on", event.on.as_ref()));
    Ok((Deed::Pot(event), words))
}

fn muddle(fields: &mut Fields) -> Read {
    let first = fields.needed("plant")?;
    let others = fields.needed("others")?;
    let others = others.split([' ', ',']).filter(|code| !code.is_empty());
    let event = Muddle {
        codes: std::iter::once(first)
            .chain(others.map(str::to_owned))
            .collect(),
        why: fields.text("why")?,
        on: fields.text("on")?,
        ..Muddle::default()
    };
    let mut words = vec!["muddle".to_owned()];
    words.extend(event.codes.iter().cloned());
    words.extend(option("--why", event.why.as_ref()));
    words.extend(option("--on", event.on.as_ref()));
    Ok((Deed::Muddle(event), words))
}

fn photo(fields: &mut Fields) -> Read {
    let (plant, on) = (fields.needed("plant")?, fields.text("on")?);
    let (light, note) = (fields.text("light")?, fields.text("note")?);
    let words = vec!["photos".to_owned(), plant.clone()];
    let photo = Deed::Photo {
        plant,
        on,
        light,
        note,
    };
    Ok((photo, words))
}
