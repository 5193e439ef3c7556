//! A piece taken off a plant: a cutting, division, basal shoot or laboratory copy.

use crate::observation::presence::is_over;
use crate::observation::standing::fate_words;
use crate::record::{Day, Fate, Ramet};
use crate::recording::codes::{is_free, is_unlike, next_ramet};
use crate::recording::dates::dated;
use crate::recording::draft::Draft;
use crate::recording::ending::{ended_with, fate_record};
use crate::recording::page::FieldChange;
use crate::recording::plants::{here_then, single, which_piece};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::voice::{Words, words};
use crate::recording::written::RonRecord;
use crate::registry::ids::{is_new_code, is_ramet_code};
use crate::registry::{PlantRow, Registry};

/// A piece taken.
#[derive(Clone, Debug, Default)]
pub struct Cutting {
    /// The plant, or the piece it was taken from.
    pub from: String,
    /// Its letter; the next free one if not given.
    pub code: Option<String>,
    /// How it was made: a word of the files; a cutting if not given.
    pub made: Option<&'static str>,
    /// When it had rooted, if it has.
    pub rooted: Option<String>,
    /// Where it stands.
    pub place: Option<String>,
    /// When it was cut; today if not given.
    pub on: Option<String>,
    /// Remarks.
    pub note: Option<String>,
}

impl Cutting {
    /// Writes the piece, and the plant's first piece when none is on record.
    ///
    /// # Errors
    /// If the plant is no longer here, the letter or the whole code is taken, or it is not said which of several pieces it was taken from.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        let rooted = self.rooted.as_deref();
        let rooted = rooted.map(|day| dated(registry, "--rooted", Some(day), draft.today));
        let rooted = rooted.transpose()?.map(|rooted| rooted.text);
        let from = single(registry, &self.from)?;
        here_then(registry, from, &on)?;
        let plant = registry.code(from.plant);
        let ramets = registry.ramets(from.plant);
        let first = ramets.is_empty().then(|| next_ramet(registry, &plant, &[]));
        let source = match (registry.ramet(from), &first) {
            (Some(piece), _) => piece.code,
            (None, Some(first)) => first,
            (None, None) => the_only_one(registry, from.plant, on.day())?,
        };
        let taken = ramets.iter().map(|ramet| ramet.code);
        let taken: Vec<&str> = taken.chain(first.as_deref()).collect();
        let code = self.letter(registry, &plant, &taken)?;
        let since = registry.fate(from.plant);
        let since = since.filter(|fate| is_over(registry, fate, draft.today));
        let mut changes = match since {
            Some(fate) => of_the_others(registry, from.plant, fate)?,
            None => Vec::new(),
        };
        if let Some(first) = &first {
            let first = RonRecord::new()
                .text("code", first)
                .value("made", "original")
                .value_if("fate", since.map(fate_record));
            changes.push(FieldChange::Push("ramets", first.line()));
        }
        let made = self.made.unwrap_or("cutting");
        let piece = RonRecord::new()
            .text("code", &code)
            .text("from", source)
            .value("made", made)
            .text("cut", &on.text)
            .text_if("rooted", rooted)
            .text_if("place", self.place.as_ref())
            .text_if("note", self.note.as_ref());
        changes.push(FieldChange::Push("ramets", piece.line()));
        draft.change_plants(vec![(from.plant, changes)])?;
        let whole = format!("{plant}-{code}");
        let what = What::Taken {
            piece: whole.clone(),
            from: format!("{plant}-{source}"),
            made,
        };
        let remark = since.map(|fate| is_still_here(&plant, &code, fate));
        let recorded = Recorded::of(what, vec![whole.clone(), plant], on.text);
        Ok(recorded.tag(whole, "tag").remarks(remark))
    }

    /// The letter given, or the next free one.
    fn letter(&self, registry: &Registry, plant: &str, taken: &[&str]) -> Result<String, Slip> {
        let Some(code) = self.code.as_deref() else {
            return Ok(next_ramet(registry, plant, taken));
        };
        let whole = format!("{plant}-{code}");
        if !is_ramet_code(code) || !is_new_code(code) {
            return Err(Slip::bad_code("piece", code));
        }
        if taken.contains(&code) {
            return Err(Slip::taken("piece", &whole));
        }
        is_free(registry, &whole)?;
        is_unlike(&whole, taken.iter().map(|of| format!("{plant}-{of}")))?;
        Ok(code.to_owned())
    }
}

/// The code of the only piece of a plant that was left on a day; `a` where none was.
fn the_only_one<'t>(registry: &Registry<'t>, plant: PlantRow, day: Day) -> Result<&'t str, Slip> {
    let is_left = |piece: &Ramet| {
        let fate = piece.fate.as_ref();
        fate.is_none_or(|fate| !is_over(registry, fate, day))
    };
    let pieces = registry.each_ramet(plant);
    let left: Vec<_> = pieces.filter(|(_, piece)| is_left(piece)).collect();
    match left.as_slice() {
        [] => Ok("a"),
        [(_, only)] => Ok(only.code),
        _ => Err(which_piece(
            registry,
            left,
            "name the piece it was taken from",
        )),
    }
}

/// The changes by which a plant's end becomes that of the pieces it had: of a plant that has ended, the new piece would have
/// ended as well.
///
/// # Errors
/// If no piece ended with it, or several left together: a price asked for all of them is none of each.
fn of_the_others(
    registry: &Registry,
    plant: PlantRow,
    fate: &Fate,
) -> Result<Vec<FieldChange>, Slip> {
    let with_it: Vec<&Ramet> = ended_with(registry, plant, fate).collect();
    let as_one = with_it.len() > 1 && fate.handed_on().is_some();
    if as_one || with_it.is_empty() && !registry.ramets(plant).is_empty() {
        let code = registry.code(plant);
        return Err(Slip::contradicts(
            format!("a piece of {code} was cut before it ended"),
            format!("{code} is no longer here: {}", fate_words(fate)),
            Words::or(
                "take that end back (`podbook changes` has its number for `podbook undo`), record the piece, then the end of the others, piece by piece: podbook gone PIECE …",
                "take that end back, record the piece, then the end of the others, piece by piece, under “Gone”",
            ),
        ));
    }
    let pieces = with_it.into_iter().map(|piece| {
        FieldChange::of_piece(piece.code, FieldChange::Set("fate", fate_record(fate)))
    });
    let whole = std::iter::once(FieldChange::Remove("fate"));
    Ok(whole.chain(pieces).collect())
}

/// That the piece is taken to be here, though its plant ended.
fn is_still_here(plant: &str, code: &str, fate: &Fate) -> Words {
    let end = Words::or(
        format!(": podbook gone {plant}-{code}"),
        ", record that under “Gone”",
    );
    let fate = fate_words(fate);
    words!(
        "{plant} is on record as {fate}; that now applies only to the pieces it had, and {plant}-{code} is taken to be here. If it ended too{}";
        end
    )
}
