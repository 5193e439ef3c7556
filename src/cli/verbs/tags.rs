//! `podbook tags`: pot tags to print.

use super::output::{CHARTED, Form, Output};
use crate::analysis::tags::{Tag, Tags as TagsAnswer, tags, tray_tags};
use crate::cli::recording::Journal;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::evidence::Unit;
use crate::observation::seedling_trays::SeedlingTray;
use crate::record::Day;
use crate::recording::dates::asked as date_asked;
use crate::recording::tags_asked::{TagsAsked, earlier, perhaps_since, tags_asked};
use crate::recording::trays_asked::trays_asked;
use crate::registry::{Registry, build};
use crate::render::Written;
use crate::render::scene::{POINTS, Scene};
use crate::render::tags::{
    Composed, DOT, Item, Paper as Size, TagSize, compose, sheets, singles, stacked,
};
use crate::text::Sources;
use crate::wording::counted;
use clap::{Args, ValueEnum};
use std::collections::BTreeMap;

/// Print pot tags, several to a sheet or one a page
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook tags X22-02 --size 13x102 -o tags.pdf --registry registry-demo\n         \
    podbook tags X22-02 X21-05 --trays --size 25x76 -o trays.pdf --registry registry-demo\n         \
    podbook tags --place \"shelf 1\" --single --size 25x76 -o labels.pdf --registry registry-demo\n\
    Usual sizes are 10x60, 13x102, 16x127 and 25x76 mm. The QR code holds the code and nothing else."
)]
pub struct Tags {
    /// Crosses, pods, sowings, plants or pieces [default: all plants that are here]
    #[arg(value_name = "ID")]
    ids: Vec<String>,
    /// Tags of trays: a sowing or community pot each, in place of the plants
    #[arg(long, conflicts_with = "changed")]
    trays: bool,
    /// Only what stands here
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Only what arrived, was numbered or was sown from this day on
    #[arg(long, value_name = "DATE")]
    since: Option<String>,
    /// Only tags that read differently than before the last change, or before --since
    #[arg(long)]
    changed: bool,
    /// Two sides of a tag in millimetres
    #[arg(long, value_name = "WxH", default_value = "13x102")]
    size: String,
    /// Millimetres of the length to leave empty [default: a quarter of a stake, else 0]
    #[arg(long, value_name = "MM")]
    tip: Option<f64>,
    /// a4 or letter
    #[arg(
        long,
        value_name = "SIZE",
        default_value = "a4",
        hide_possible_values = true
    )]
    paper: Paper,
    /// One tag a page, for a label printer
    #[arg(long, conflicts_with = "paper")]
    single: bool,
    #[command(flatten)]
    output: Output,
}

/// Paper sizes.
#[derive(ValueEnum, Clone, Copy, Debug)]
enum Paper {
    /// 210 × 297 mm.
    A4,
    /// 8.5 × 11 in.
    Letter,
}

impl Tags {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let form = self.output.form(request, CHARTED)?;
        let size = self.tag_size()?;
        let sources = request.sources()?;
        let (registry, mut remarks) = request.registry(&sources);
        let mut answer = self.chosen(request, &sources, &registry)?;
        remarks.push_str(&self.unsure(request, &registry)?);
        let composed = answer.tags.iter().map(|tag| compose(tag, size));
        let composed: Vec<Composed> = composed
            .collect::<Result<_, _>>()
            .map_err(Refusal::arguments)?;
        remarks.push_str(&left_out(&composed));
        answer.size = size.words();
        for (tag, composed) in answer.tags.iter_mut().zip(&composed) {
            tag.printed = composed.name();
        }
        let written = match form {
            Form::Pdf => Written::pdf(&self.pages(&composed)?),
            Form::Svg => Written::svg(&stacked(self.pages(&composed)?)),
            Form::Png => png(self.pages(&composed)?)?,
            form => self
                .output
                .written(request, form, std::slice::from_ref(&answer))?,
        };
        self.output.deliver(request, written, remarks, false)
    }

    fn tag_size(&self) -> Result<TagSize, Refusal> {
        let size: TagSize = self.size.parse().map_err(Refusal::arguments)?;
        match self.tip {
            Some(tip) => size.with_tip(tip).map_err(Refusal::arguments),
            None => Ok(size),
        }
    }

    /// The tags asked for; refused when there is none.
    fn chosen(
        &self,
        request: &Request,
        sources: &Sources,
        registry: &Registry,
    ) -> Result<TagsAnswer, Refusal> {
        let today = request.today()?;
        let since = self.since(registry, today)?;
        let asked = TagsAsked {
            ids: &self.ids,
            place: self.place.as_deref(),
            // With --changed the day says since when the tag changed, not since when the plant is here.
            since: since.filter(|_| !self.changed),
        };
        for id in self.ids.iter().filter(|id| !id.contains([',', '.'])) {
            super::known(registry, id)?;
        }
        if self.trays {
            return self.trays(request, registry, asked);
        }
        let plants = tags_asked(registry, asked, today).map_err(Refusal::arguments)?;
        let mut answer = tags(&Context::of(registry, today), &plants);
        if self.changed {
            let entries = Journal::read(&request.registry_folder()?).entries;
            let before = earlier(sources, &entries, since).map_err(Refusal::arguments)?;
            let before = before
                .map(|before| all_before(&before, today))
                .transpose()?;
            answer.tags.retain(|tag| match &before {
                Some(before) => before.get(&tag.id) != Some(tag),
                None => false,
            });
        }
        match answer.tags.is_empty() {
            true => {
                let unsure = self.unsure(request, registry)?;
                Err(Refusal::arguments(
                    format!("{}\n{unsure}", self.nothing()).trim_end(),
                ))
            }
            false => Ok(answer),
        }
    }

    /// A line for the plants, or trays, of which it is not on record whether they came from the day of --since on.
    fn unsure(&self, request: &Request, registry: &Registry) -> Result<String, Refusal> {
        if self.changed {
            return Ok(String::new());
        }
        let today = request.today()?;
        let asked = TagsAsked {
            ids: &self.ids,
            place: self.place.as_deref(),
            since: self.since(registry, today)?,
        };
        let (codes, one, several) = match self.trays {
            true => {
                let trays = trays_perhaps_since(registry, asked, today)?;
                (trays, "tray", "trays")
            }
            false => {
                let perhaps = perhaps_since(registry, asked, today).map_err(Refusal::arguments)?;
                let codes = perhaps.iter().map(|of| registry.code_of(*of)).collect();
                (codes, "plant or piece", "plants and pieces")
            }
        };
        Ok(match codes.is_empty() {
            true => String::new(),
            false => format!(
                "no tag of {}: the record does not say whether that was before the day of --since or after; without --since they are printed\n",
                few(&codes, one, several)
            ),
        })
    }

    fn trays(
        &self,
        request: &Request,
        registry: &Registry,
        asked: TagsAsked,
    ) -> Result<TagsAnswer, Refusal> {
        let today = request.today()?;
        let trays = trays_asked(registry, asked, today).map_err(Refusal::arguments)?;
        let answer = tray_tags(&Context::of(registry, today), &trays);
        if !answer.tags.is_empty() {
            return Ok(answer);
        }
        let unsure = self.unsure(request, registry)?;
        let nothing = match asked.since {
            None => {
                "no tray asked for is standing: no tag was written\nname a sowing or a community pot, or leave out --place"
            }
            Some(_) => {
                "no tray asked for surely stands since that day or a later one: no tag was written\nname an earlier day, or leave out --place and --since"
            }
        };
        Err(Refusal::arguments(
            format!("{nothing}\n{unsure}").trim_end(),
        ))
    }

    fn since(&self, registry: &Registry, today: Day) -> Result<Option<Day>, Refusal> {
        let Some(typed) = &self.since else {
            return Ok(None);
        };
        let when = date_asked(typed, registry.settings.hemisphere, today);
        when.map(|when| Some(when.first)).ok_or_else(|| {
            Refusal::arguments(format!(
                "--since needs a date such as 2025-05-10 or 2025-05; found `{}`",
                crate::text::one_line(typed)
            ))
        })
    }

    fn nothing(&self) -> String {
        let (since, changed) = (self.since.is_some(), self.changed);
        match (since, changed) {
            (_, true) => "no tag reads differently: no tag was written\n`podbook changes` lists what podbook has changed; leave out --changed for all tags",
            (true, false) => "no plant surely arrived or was numbered from that day on: no tag was written\nname an earlier day, or leave out --since",
            (false, false) => "no plant asked for is in the collection: no tag was written\n`podbook list plants` lists those that are",
        }
        .to_owned()
    }

    fn pages(&self, tags: &[Composed]) -> Result<Vec<Scene>, Refusal> {
        if self.single {
            return Ok(singles(tags));
        }
        let paper = match self.paper {
            Paper::A4 => Size::A4,
            Paper::Letter => Size::Letter,
        };
        sheets(tags, paper).map_err(Refusal::arguments)
    }
}

/// The trays left out by `since` although they may stand only from that day on: their day is not on record, or not exactly.
fn trays_perhaps_since(
    registry: &Registry,
    asked: TagsAsked,
    today: Day,
) -> Result<Vec<String>, Refusal> {
    let Some(since) = asked.since else {
        return Ok(Vec::new());
    };
    let all = TagsAsked {
        since: None,
        ..asked
    };
    let all = trays_asked(registry, all, today).map_err(Refusal::arguments)?;
    let unsure = |unit: &Unit| {
        let tray = match *unit {
            Unit::Sowing(row) => SeedlingTray::Sowing(row),
            Unit::Pot(row) => SeedlingTray::Pot(row),
            _ => return None,
        };
        let stands = tray.since(registry);
        let is_unsure = stands.first < since && since <= stands.last;
        is_unsure.then(|| tray.code(registry))
    };
    Ok(all.iter().filter_map(unsure).collect())
}

/// All tags as the pages stood then, by code.
fn all_before(sources: &Sources, today: Day) -> Result<BTreeMap<String, Tag>, Refusal> {
    let (mut registry, _) = build(sources);
    registry.leave_out_after(today);
    let plants = tags_asked(&registry, TagsAsked::default(), today).map_err(Refusal::arguments)?;
    let tags = tags(&Context::of(&registry, today), &plants)
        .tags
        .into_iter();
    Ok(tags.map(|tag| (tag.id.clone(), tag)).collect())
}

/// 300 dots to the inch, so that every module of a QR code is whole dots.
fn png(pages: Vec<Scene>) -> Result<Written, Refusal> {
    let count = pages.len();
    Written::png(&stacked(pages), 1.0 / (DOT * POINTS)).map_err(|_| {
        Refusal::arguments(format!(
            "{count} pages are too large for one PNG\nwrite a PDF, or ask for fewer tags"
        ))
    })
}

/// Codes, or how many there are with the first and the last.
fn few<S: AsRef<str>>(codes: &[S], one: &str, several: &str) -> String {
    let codes: Vec<&str> = codes.iter().map(AsRef::as_ref).collect();
    match codes.as_slice() {
        [first, .., last] if codes.len() > 3 => {
            format!("{} ({first} … {last})", counted(codes.len(), one, several))
        }
        some => some.join(", "),
    }
}

/// A line for everything that found no room.
fn left_out(tags: &[Composed]) -> String {
    let mut by_item: BTreeMap<Item, Vec<&str>> = BTreeMap::new();
    for tag in tags {
        for item in &tag.left_out {
            by_item.entry(*item).or_default().push(&tag.id);
        }
    }
    let line = |(item, of): (Item, Vec<&str>)| {
        format!(
            "no room for {} on {}\n",
            item.words(),
            few(&of, "tag", "tags")
        )
    };
    by_item.into_iter().map(line).collect()
}
