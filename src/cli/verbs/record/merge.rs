//! `podbook merge`: merges another copy of the registry or another grower's registry, or takes in a lineage that was handed
//! over.

use crate::cli::recording::Recording;
use crate::cli::request::{Outcome, Refusal, Request, shown};
use crate::cli::verbs::handed_over::HandedOver;
use crate::recording::handover::{Keep, TakeIn, doubts_not_here};
use crate::recording::merging::conflict::{Decisions, Side};
use crate::recording::merging::remarks::seasons;
use crate::recording::slip::Slip;
use crate::recording::voice::Words;
use crate::registry::ids::is_code;
use crate::registry::{PlantOrRamet, RametRow, Registry};
use crate::text::visible;
use clap::Args;
use std::collections::BTreeSet;
use std::path::PathBuf;

/// Merge another copy of the registry, another grower's registry, or a lineage that was handed over
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook merge ../tent-of-my-partner --dry-run\n\
    Two copies of one registry: what one side changed is taken. Where both changed \
    a field, you decide with --keep. New plants with one code get two codes.\n\
    Another grower's registry: all of it is recorded as that grower's word. A code \
    that is taken here gets the other registry's name before it.\n\
    A lineage: the same for its ancestors; the plant comes into your collection.\n\
    Merging the same folder again changes nothing. `podbook undo` takes a merge back."
)]
pub struct Merge {
    /// The folder of the other registry, or the one that was handed over
    #[arg(value_name = "DIR")]
    pub(super) folder: PathBuf,
    /// Short name for the other registry [default: the one it gives itself]
    #[arg(long, value_name = "NAME")]
    pub(super) told_by: Option<String>,
    /// Code of the piece that came, where the plant has several
    #[arg(long, value_name = "PIECE")]
    piece: Option<String>,
    /// What stays where both sides say something else: ours or theirs; theirs=Ven1 for one plant or field
    #[arg(long, value_name = "WHOSE", value_parser = whose)]
    keep: Vec<(String, Side)>,
    /// Code that both copies added and that is one plant, cross or pod, not two; OURS=THEIRS for one founder with two codes
    #[arg(long, value_name = "CODE", value_parser = one_or_two)]
    same: Vec<(String, Option<String>)>,
    /// The registry as it was when the copies parted [default: by their journals]
    #[arg(long, value_name = "DIR")]
    pub(super) base: Option<PathBuf>,
    #[command(flatten)]
    pub(super) recording: Recording,
}

/// `ours`, `theirs`, or one of them for what a conflict is about: `theirs=Ven1`.
fn whose(words: &str) -> Result<(String, Side), String> {
    let (whose, about) = words.split_once('=').unwrap_or((words, ""));
    let side = match whose.trim() {
        "ours" => Side::Ours,
        "theirs" => Side::Theirs,
        _ => return Err("write ours, theirs, or such as theirs=Ven1".to_owned()),
    };
    Ok((about.trim().to_owned(), side))
}

/// A code, or a code here and one there: `Ven1=Ven3`.
fn one_or_two(words: &str) -> Result<(String, Option<String>), String> {
    let codes: Vec<&str> = words.split('=').map(str::trim).collect();
    match codes[..] {
        [code] if !code.is_empty() => Ok((code.to_owned(), None)),
        [ours, theirs] if !ours.is_empty() && !theirs.is_empty() => {
            Ok((ours.to_owned(), Some(theirs.to_owned())))
        }
        _ => Err("write a code, or yours and theirs such as Ven1=Ven3".to_owned()),
    }
}

impl Merge {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        if HandedOver::is_in(&self.folder) {
            self.lineage(request)
        } else {
            self.registry(request)
        }
    }

    /// Whose word stays, for copies.
    pub(super) fn decisions(&self) -> Decisions {
        Decisions(self.keep.clone())
    }

    /// Codes that are one thing on both sides.
    pub(super) fn same_codes(&self) -> BTreeSet<String> {
        let codes = self.same.iter().filter(|of| of.1.is_none());
        codes.map(|of| of.0.clone()).collect()
    }

    /// Founders here and there that are one plant.
    pub(super) fn same_founders(&self) -> Vec<(String, String)> {
        let both = self.same.iter().cloned();
        both.filter_map(|(ours, theirs)| Some((ours, theirs?)))
            .collect()
    }

    fn lineage(self, request: &Request) -> Result<Outcome, Refusal> {
        let handed = HandedOver::read(&self.folder)?;
        let theirs = handed.registry();
        if let Some(why) = handed.broken(&theirs) {
            return Err(Refusal::files(format!(
                "{} is not as it was handed over: {why}\n`podbook verify` says which record differs; ask for the folder again",
                shown(&self.folder)
            )));
        }
        let by = self.teller(&theirs)?;
        let Some(came) = handed.plant(&theirs) else {
            return Err(Refusal::files(format!(
                "{} does not hold its plant {}\nask for the folder again",
                shown(&self.folder),
                visible(&handed.sheet.plant)
            )));
        };
        let (plant, piece) = (came.plant, self.piece(&theirs, came)?);
        let keep = match self.decisions().on("") {
            None => Keep::Neither,
            Some(Side::Ours) => Keep::Ours,
            Some(Side::Theirs) => Keep::Theirs,
        };
        request.record(self.recording.dry_run, |draft| {
            if draft.registry.settings.registry == Some(by.as_str()) {
                return Err(Slip::contradicts(
                    format!("a lineage of the registry {by}"),
                    "that is the name of this registry",
                    "if the other is a registry of its own, give it another name with --told-by",
                ));
            }
            // Dates say what they say there; the pages are the same but for them, and so are the rows.
            let (read, dates) = handed.in_months_of(draft.registry.settings.hemisphere)?;
            let event = TakeIn {
                theirs: &read.registry(),
                plant,
                piece,
                by: &by,
                keep,
                on: self.recording.on.as_deref(),
            };
            let mut recorded = event.record(draft)?;
            let doubts = doubts_not_here(draft.registry, &theirs, &by).into_iter();
            let more = seasons(dates).into_iter().chain(doubts);
            recorded.remarks.extend(more.map(Words::from));
            Ok(recorded)
        })
    }

    /// The other registry's name.
    fn teller(&self, theirs: &Registry) -> Result<String, Refusal> {
        let name = self.told_by.as_deref().or(theirs.settings.registry);
        match name.map(str::trim) {
            Some(name) if is_code(name) => Ok(name.to_owned()),
            Some(name) => Err(Refusal::arguments(format!(
                "`{}` cannot stand before a code\ngive a short name without blanks with --told-by, such as --told-by club",
                visible(name)
            ))),
            None => Err(Refusal::arguments(
                "the lineage does not say whose registry it is from\ngive that registry a short name with --told-by, such as --told-by club",
            )),
        }
    }

    /// The piece that came: the one asked for, the one handed over, or none where the plant has at most one.
    fn piece(&self, theirs: &Registry, came: PlantOrRamet) -> Result<Option<RametRow>, Refusal> {
        let plant = came.plant;
        let pieces = theirs.ramets(plant);
        let codes: Vec<&str> = pieces.iter().map(|piece| piece.code).collect();
        let asked = match &self.piece {
            None => came.ramet,
            Some(code) => codes.iter().position(|of| of == code).map(RametRow::new),
        };
        if asked.is_some() || self.piece.is_none() && pieces.len() < 2 {
            return Ok(asked.filter(|_| pieces.len() > 1));
        }
        let plant = theirs.code(plant);
        Err(Refusal::arguments(match (&self.piece, codes.is_empty()) {
            (Some(code), true) => format!(
                "{plant} has no piece `{}`: no pieces of it are on record\nleave out --piece",
                visible(code)
            ),
            (Some(code), false) => format!(
                "{plant} has no piece `{}`; its pieces are {}",
                visible(code),
                codes.join(", ")
            ),
            (None, _) => format!(
                "which piece of {plant} came is not said; its pieces are {}\nname it with --piece, such as --piece {}",
                codes.join(", "),
                codes[codes.len() - 1]
            ),
        }))
    }
}
