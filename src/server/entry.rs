//! An entry that a page sent: which event of the bench it is, and the command that would record the same.

use super::fields::{Fields, option};
use super::row::Row;
use crate::record::Sex;
use crate::recording::draft::Draft;
use crate::recording::events::back::Back;
use crate::recording::events::collect::Collect;
use crate::recording::events::count::Count;
use crate::recording::events::cutting::Cutting;
use crate::recording::events::flower::Flower;
use crate::recording::events::gone::{FateKind, Gone};
use crate::recording::events::harvest::Harvest;
use crate::recording::events::keep::Keep;
use crate::recording::events::muddle::Muddle;
use crate::recording::events::number::Number;
use crate::recording::events::place::Move;
use crate::recording::events::pollinate::{GivenPollen, Pollinate};
use crate::recording::events::pot::Pot;
use crate::recording::events::prick::Prick;
use crate::recording::events::rooted::Rooted;
use crate::recording::events::seen::Seen;
use crate::recording::events::sow::Sow;
use crate::recording::events::took::Took;
use crate::recording::events::treat::Treat;
use crate::recording::recorded::Recorded;
use crate::recording::slip::Slip;
use crate::wording::typed_word;
use serde_json::Value;

/// The kinds of entry.
const KINDS: &str = "flower, collect, pollinate, took, keep, gone, back, cutting, rooted, pot, move, seen, treat, muddle, harvest, sow, count, prick, number, gone_from, measure, photo or undo";

/// Signs of an id: enough for chance to tell all entries apart, and no more than a file takes.
const ID: std::ops::RangeInclusive<usize> = 16..=64;

/// What was sent.
pub struct Entry {
    /// By which it is known when it comes again.
    pub id: String,
    command: String,
    /// What was typed and is no part of the command.
    pub remarks: Vec<String>,
    /// What is to be done.
    pub deed: Deed,
}

/// How an event changes a draft.
pub type Recording = dyn Fn(&mut Draft) -> Result<Recorded, Slip>;

/// What is to be done.
pub enum Deed {
    /// An event of the bench: how it changes a draft.
    Event(Box<Recording>),
    /// A row of a sitting.
    Measure(Row),
    /// A photo of a plant; its bytes come beside.
    Photo(Shot),
    /// A change taken back.
    Undo(u32),
}

/// A photo of a plant.
#[derive(Debug)]
pub struct Shot {
    /// The plant.
    pub plant: String,
    /// The day it was taken.
    pub on: Option<String>,
    /// The light it was taken in.
    pub light: Option<String>,
    /// What it shows.
    pub note: Option<String>,
}

impl Entry {
    /// Reads an entry; `has` says whether a code is on record.
    ///
    /// # Errors
    /// What does not fit, in words.
    pub fn of(sent: &Value, has: &dyn Fn(&str) -> bool) -> Result<Entry, String> {
        let mut fields = Fields::of(sent)?;
        let id = fields.needed("id")?;
        let plain = |c: char| c.is_ascii_alphanumeric() || c == '-';
        if !ID.contains(&id.len()) || !id.chars().all(plain) {
            return Err("`id` needs 16 to 64 letters, digits and `-`".to_owned());
        }
        let kind = fields.needed("kind")?;
        let deed = deed(&kind, &mut fields, has)?;
        let command = fields.end()?;
        let words = command.iter().filter(|word| !word.is_empty());
        let words: Vec<String> = words.map(|word| typed_word(word)).collect();
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
            Deed::Photo(of) => [("on", &of.on), ("light", &of.light), ("note", &of.note)]
                .into_iter()
                .filter_map(|(field, value)| Some(format!("{field}={}", value.as_ref()?)))
                .collect(),
            _ => Vec::new(),
        }
    }
}

/// An event of the bench, and how it is recorded.
fn event<E: 'static>(of: E, record: fn(&E, &mut Draft) -> Result<Recorded, Slip>) -> Deed {
    Deed::Event(Box::new(move |draft| record(&of, draft)))
}

fn deed(kind: &str, fields: &mut Fields, has: &dyn Fn(&str) -> bool) -> Result<Deed, String> {
    let verb = match kind {
        "photo" => "photos",
        "gone_from" => "gone",
        kind => kind,
    };
    fields.command.push(verb.to_owned());
    Ok(match kind {
        "flower" => event(flower(fields)?, Flower::record),
        "collect" => event(collect(fields)?, Collect::record),
        "pollinate" => event(pollinate(fields, has)?, Pollinate::record),
        "took" => event(took(fields)?, Took::record),
        "keep" => event(keep(fields)?, Keep::record),
        "gone" => event(gone(fields, "plant")?, Gone::record),
        "gone_from" => event(gone(fields, "pot")?, Gone::record),
        "back" => event(back(fields)?, Back::record),
        "cutting" => event(cutting(fields)?, Cutting::record),
        "rooted" => event(rooted(fields)?, Rooted::record),
        "pot" => event(pot(fields)?, Pot::record),
        "move" => event(moved(fields)?, Move::record),
        "seen" => event(seen(fields)?, Seen::record),
        "treat" => event(treat(fields)?, Treat::record),
        "muddle" => event(muddle(fields)?, Muddle::record),
        "harvest" => event(harvest(fields)?, Harvest::record),
        "sow" => event(sow(fields)?, Sow::record),
        "count" => event(count(fields)?, Count::record),
        "prick" => event(prick(fields)?, Prick::record),
        "number" => event(number(fields)?, Number::record),
        "measure" => {
            let row = Row::of(fields)?;
            fields.command.extend(row.words());
            Deed::Measure(row)
        }
        "photo" => Deed::Photo(Shot {
            plant: fields.word("plant")?,
            on: fields.text("on")?,
            light: fields.text("light")?,
            note: fields.text("note")?,
        }),
        "undo" => {
            let change = fields.number("change")?.ok_or("`change` is missing")?;
            fields.command.push(change.to_string());
            Deed::Undo(change)
        }
        other => {
            return Err(format!(
                "`{}` is no kind of entry: {KINDS}",
                crate::text::one_line(other)
            ));
        }
    })
}

fn flower(fields: &mut Fields) -> Result<Flower, String> {
    let (plant, on) = (fields.word("plant")?, fields.text("on")?);
    let sex = match fields.option("sex")?.as_deref() {
        None => None,
        Some("female") => Some(Sex::Female),
        Some("male") => Some(Sex::Male),
        Some(_) => return Err("`sex` needs female or male".to_owned()),
    };
    let spike = fields.option("spike")?;
    let note = fields.text("note")?;
    let saw = fields.text("saw")?;
    let mut event = Flower {
        plant,
        spike,
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
    let words = option(option_of_day, day.as_ref()).chain(option("--note", event.note.as_ref()));
    fields.command.extend(words);
    Ok(event)
}

fn collect(fields: &mut Fields) -> Result<Collect, String> {
    Ok(Collect {
        plant: fields.word("plant")?,
        stored: fields.choice("stored", &["fresh", "room", "fridge", "freezer"])?,
        dried: fields.option("dried")?,
        code: fields.option("code")?,
        note: fields.option("note")?,
        on: fields.option("on")?,
    })
}

fn pollinate(fields: &mut Fields, has: &dyn Fn(&str) -> bool) -> Result<Pollinate, String> {
    let seed = fields.word("plant")?;
    let typed = fields.text("with")?.ok_or("`with` is missing")?;
    let (of, given, pollen) = given_pollen(typed, has)?;
    fields.command.extend(option(of, Some(&given)));
    Ok(Pollinate {
        seed,
        pollen: Some(pollen),
        zone: fields.option("zone")?,
        flowers: fields.count("flowers")?,
        controls: fields.count("controls")?,
        spike: fields.option("spike")?,
        on: fields.option("on")?,
        note: fields.option("note")?,
        ..Pollinate::default()
    })
}

/// Pollen as a form has it, with the option of the command and its words: one envelope or plant, one of several with commas
/// between them, or several mixed together with `+` between them. A code on record may hold that sign itself.
fn given_pollen(
    typed: String,
    has: &dyn Fn(&str) -> bool,
) -> Result<(&'static str, String, GivenPollen), String> {
    let codes = |between: char| -> Vec<String> {
        let codes = typed.split(between).map(|code| code.trim().to_owned());
        codes.filter(|code| !code.is_empty()).collect()
    };
    let (one_of, mixed) = (codes(','), codes('+'));
    if mixed.len() > 1 && has(&typed) {
        return Ok(("--with", typed.clone(), GivenPollen::With(typed)));
    }
    match (one_of.len(), mixed.len()) {
        (0 | 1, 0 | 1) => Ok(("--with", typed.clone(), GivenPollen::With(typed))),
        (_, 0 | 1) => Ok(("--one-of", one_of.join(","), GivenPollen::OneOf(one_of))),
        (0 | 1, _) => Ok(("--mixed", mixed.join(","), GivenPollen::Mixed(mixed))),
        _ => Err("“Pollen” needs commas between plants of which it was one, or + between those that were mixed".to_owned()),
    }
}

fn took(fields: &mut Fields) -> Result<Took, String> {
    let zone = fields.word("zone")?;
    let set = fields.number("pods")?;
    let set = set.ok_or("`pods` is missing; none is 0")?;
    fields.command.push(set.to_string());
    Ok(Took {
        zone,
        set,
        controls: fields.option("controls")?,
        again: fields.flag("again")?,
        on: fields.option("on")?,
        entered: fields.text("entered")?,
    })
}

fn keep(fields: &mut Fields) -> Result<Keep, String> {
    let keep = Keep {
        plants: vec![fields.word("plant")?],
        place: None,
        why: fields.option("why")?,
        no_longer: fields.flag("no_longer")?,
        on: fields.option("on")?,
    };
    match keep.no_longer && keep.why.is_some() {
        true => Err("a mark that is taken away has no “Why”".to_owned()),
        false => Ok(keep),
    }
}

/// What became of a plant, or of the seedlings of a pot, whose code this field has.
fn gone(fields: &mut Fields, of: &str) -> Result<Gone, String> {
    let plant = fields.word(of)?;
    let typed = fields.needed("fate")?;
    let fate = FateKind::ALL.into_iter().find(|fate| fate.word() == typed);
    let fate = fate.ok_or("`fate` needs died, culled, sold, given or lost")?;
    fields.command.push(format!("--{typed}"));
    Ok(Gone {
        plants: vec![plant],
        fate: Some(fate),
        seedlings: fields.count("seedlings")?,
        why: fields.option("why")?,
        to: fields.option("to")?,
        price: fields.option("price")?,
        label: fields.option("label")?,
        all_pieces: fields.flag("all_pieces")?,
        on: fields.option("on")?,
        ..Gone::default()
    })
}

fn back(fields: &mut Fields) -> Result<Back, String> {
    Ok(Back {
        plants: vec![fields.word("plant")?],
        place: fields.option("place")?,
        note: fields.option("note")?,
        on: fields.option("on")?,
    })
}

fn cutting(fields: &mut Fields) -> Result<Cutting, String> {
    Ok(Cutting {
        from: fields.word("plant")?,
        code: fields.option("code")?,
        made: fields.choice("made", &["cutting", "division", "basal", "lab_copy"])?,
        rooted: None,
        place: fields.option("place")?,
        on: fields.option("on")?,
        note: fields.option("note")?,
    })
}

fn rooted(fields: &mut Fields) -> Result<Rooted, String> {
    Ok(Rooted {
        pieces: vec![fields.word("plant")?],
        on: fields.option("on")?,
    })
}

fn pot(fields: &mut Fields) -> Result<Pot, String> {
    Ok(Pot {
        plants: vec![fields.word("plant")?],
        width: fields.word("width")?,
        place: fields.option("place")?,
        on: fields.option("on")?,
    })
}

/// A plant has no day on which it was moved: its place is where it stands now.
fn moved(fields: &mut Fields) -> Result<Move, String> {
    Ok(Move {
        plants: vec![fields.word("plant")?],
        place: None,
        to: fields.word("to")?,
    })
}

fn seen(fields: &mut Fields) -> Result<Seen, String> {
    let plant = fields.word("plant")?;
    let except = match fields.needed("found")?.as_str() {
        "here" => Vec::new(),
        "missing" => vec![plant.clone()],
        _ => return Err("`found` needs here or missing".to_owned()),
    };
    fields.command.extend(option("--except", except.first()));
    Ok(Seen {
        plants: vec![plant],
        place: None,
        except,
        on: fields.option("on")?,
    })
}

fn treat(fields: &mut Fields) -> Result<Treat, String> {
    Ok(Treat {
        plants: vec![fields.word("plant")?],
        place: None,
        product: fields.word("product")?,
        against: fields.option("against")?,
        by: fields.option("by")?,
        on: fields.option("on")?,
        note: fields.option("note")?,
    })
}

fn muddle(fields: &mut Fields) -> Result<Muddle, String> {
    let mut codes = vec![fields.needed("plant")?];
    let others = fields.needed("others")?;
    let others = others.split([' ', ',']).filter(|code| !code.is_empty());
    codes.extend(others.map(str::to_owned));
    fields.command.extend(codes.iter().cloned());
    Ok(Muddle {
        codes,
        why: fields.option("why")?,
        on: fields.option("on")?,
        ..Muddle::default()
    })
}

fn harvest(fields: &mut Fields) -> Result<Harvest, String> {
    Ok(Harvest {
        zone: fields.word("zone")?,
        capsules: fields.count("capsules")?,
        seeds: fields.count("seeds")?,
        estimated: fields.flag("estimated")?,
        stored: fields.option("stored")?,
        on: fields.option("on")?,
        note: fields.option("note")?,
        ..Harvest::default()
    })
}

fn sow(fields: &mut Fields) -> Result<Sow, String> {
    Ok(Sow {
        lot: fields.word("lot")?,
        seeds: fields.count("seeds")?,
        container: fields.option("container")?,
        medium: fields.option("medium")?,
        place: fields.option("place")?,
        again: fields.flag("again")?,
        on: fields.option("on")?,
        note: fields.option("note")?,
    })
}

fn count(fields: &mut Fields) -> Result<Count, String> {
    Ok(Count {
        of: fields.word("of")?,
        up: fields.count("up")?,
        standing: fields.count("standing")?,
        on: fields.option("on")?,
    })
}

fn prick(fields: &mut Fields) -> Result<Prick, String> {
    let sowing = fields.word("sowing")?;
    let moved = fields.number("moved")?.ok_or("`moved` is missing")?;
    fields.command.push(moved.to_string());
    Ok(Prick {
        sowing,
        moved,
        left: fields.count("left")?,
        to: fields.option("to")?,
        pot: fields.option("pot")?,
        place: fields.option("place")?,
        on: fields.option("on")?,
    })
}

fn number(fields: &mut Fields) -> Result<Number, String> {
    Ok(Number {
        from: fields.word("from")?,
        numbers: fields.word("numbers")?,
        pot: fields.option("pot")?,
        place: fields.option("place")?,
        on: fields.option("on")?,
    })
}
