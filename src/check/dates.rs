//! Can every date be read, and is it in the past?

use super::context::{CheckContext, fate_words};
use crate::diagnostic::{Code, Finding};
use crate::observation::photos::photos;
use crate::record::{Day, Return, WhenFault};
use crate::registry::{CrossRow, PlantRow};
use crate::text::{FileId, nearest};

/// Signs that look like a hyphen.
const DASHES: [char; 6] = ['‐', '‑', '‒', '–', '—', '−'];

/// The dates of one kind of record, told one by one.
struct Dates<'g, 'r, 't> {
    context: &'g CheckContext<'r, 't>,
    file: FileId,
    found: Vec<Finding>,
}

/// The dates of a cross, of its readings too; those of its seedlings are asked of each.
pub(super) fn of_cross(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    let page = context.page(cross);
    let mut dates = Dates::of(context, context.cross(cross).file);
    for pollination in &page.pollinations {
        dates.all(pollination.on.iter().copied());
        dates.all(pollination.counted);
    }
    dates.all(page.pods.iter().filter_map(|pod| pod.harvested));
    for lot in &page.seed_lots {
        dates.all(lot.came);
        let ends = lot.gone.iter().map(|part| &part.fate).chain(&lot.fate);
        dates.all(ends.map(|fate| fate_words(fate).1));
    }
    for sowing in &page.sowings {
        dates.all(sowing.on);
        dates.all(sowing.treatments.iter().map(|of| of.on));
        dates.all(sowing.germinated.iter().map(|tally| tally.on));
        dates.all(sowing.pricked_out.iter().map(|pricking| pricking.on));
        dates.all(sowing.fate.as_ref().map(|fate| fate_words(fate).1));
    }
    for community_pot in &page.community_pots {
        dates.all(community_pot.treatments.iter().map(|of| of.on));
        dates.all(community_pot.alive.iter().map(|tally| tally.on));
        let ends = community_pot.gone.iter().map(|part| &part.fate);
        let ends = ends.chain(&community_pot.fate);
        dates.all(ends.map(|fate| fate_words(fate).1));
    }
    dates.found
}

/// The dates of a founder or seedling.
pub(super) fn of_plant(context: &CheckContext, plant: PlantRow) -> Vec<Finding> {
    let Some(anchor) = context.anchor(plant) else {
        return Vec::new();
    };
    let registry = context.registry;
    let mut dates = Dates::of(context, anchor.file);
    match (registry.founder(plant), registry.seedling(plant)) {
        (Some(founder), _) => {
            dates.all(founder.on);
        }
        (_, Some(seedling)) => {
            dates.all(seedling.germinated);
            dates.all(seedling.numbered);
        }
        _ => {}
    }
    dates.all(registry.kept(plant).and_then(|kept| kept.on));
    dates.all(registry.fate(plant).map(|fate| fate_words(fate).1));
    dates.all(days_of(registry.came_back(plant)));
    dates.all(registry.identified(plant).iter().filter_map(|i| i.on));
    dates.all(registry.all_pots(plant).map(|pot| pot.on));
    dates.all(photos(registry, plant).into_iter().filter_map(|p| p.on));
    for ramet in registry.ramets(plant) {
        let fate = ramet.fate.as_ref().map(|fate| fate_words(fate).1);
        dates.all([ramet.cut, ramet.rooted, fate].into_iter().flatten());
        dates.all(days_of(&ramet.came_back));
    }
    for flowering in registry.flowerings(plant) {
        let days = [flowering.spike, flowering.opened, flowering.over];
        dates.all(days.into_iter().flatten());
    }
    dates.found
}

/// The dates on envelopes of pollen, and of all sittings.
pub(super) fn of_pollen(context: &CheckContext) -> Vec<Finding> {
    let mut found = Vec::new();
    if let Some(file) = context.registry.pollen_file {
        let mut dates = Dates::of(context, file);
        for lot in &context.registry.pollen {
            dates.all(lot.collected);
            dates.all(lot.thawed.iter().copied());
            dates.all(lot.finished);
        }
        found.append(&mut dates.found);
    }
    for sitting in context.registry.readings.sittings() {
        let mut dates = Dates::of(context, sitting.file);
        dates.one(sitting.sitting.on);
        found.append(&mut dates.found);
    }
    found
}

impl<'g, 'r, 't> Dates<'g, 'r, 't> {
    fn of(context: &'g CheckContext<'r, 't>, file: FileId) -> Self {
        Dates {
            context,
            file,
            found: Vec::new(),
        }
    }

    fn all(&mut self, dates: impl IntoIterator<Item = &'t str>) {
        dates.into_iter().for_each(|date| self.one(date));
    }

    fn one(&mut self, text: &'t str) {
        let finding = match self.context.read(text) {
            Ok(when) if when.first > self.context.today => in_future(text, self.context.today),
            Ok(_) => return,
            Err(fault) => unreadable(self.context, text, &fault),
        };
        let place = self.context.span(self.file, text);
        self.found.push(finding.at(place));
    }
}

fn in_future(text: &str, today: Day) -> Finding {
    Finding::fault(Code("date-in-future"), "this day has not come yet")
        .found(format!("`{text}`; today is {today}"))
        .needed("the day something was done or seen")
        .help("records hold what has happened; `--today DATE` sets the day that counts as today")
}

fn unreadable(context: &CheckContext, text: &str, fault: &WhenFault) -> Finding {
    let forms = "such as 2021, 2021-10, 2021-10-05, 5 Oct 2021, spring 2021, late 2019, by 2021-10 or 2021-03 to 2021-05";
    match fault {
        WhenFault::NotADate => {
            let finding = Finding::fault(Code("bad-date"), "this is not a date")
                .found(format!("`{text}`"))
                .needed(format!("a date {forms}"))
                .did_you_mean(meant(context, text));
            match text.chars().find(|c| DASHES.contains(c)) {
                Some(dash) => finding.help(format!("`{dash}` is a dash; dates have hyphens, `-`")),
                None => finding,
            }
        }
        WhenFault::NoSuchDay => Finding::fault(Code("no-such-day"), "there is no such day")
            .found(format!("`{text}`"))
            .needed("a day that is in the calendar")
            .help("write the month alone, such as 2021-02, if the day is not known"),
        WhenFault::RangeReversed => {
            Finding::fault(Code("range-reversed"), "this range ends before it begins")
                .found(format!("`{text}`"))
                .needed("the earlier date first")
        }
        WhenFault::OrderUnclear {
            day_first,
            month_first,
        } => order_unclear(text, *day_first, *month_first),
    }
}

/// Both readings, to choose from.
fn order_unclear(text: &str, day_first: Day, month_first: Day) -> Finding {
    Finding::fault(
        Code("date-order-unclear"),
        "this date can be read in two ways",
    )
    .found(format!("`{text}`"))
    .needed("year, month, day: 2021-10-05")
    .write_so(day_first.to_string(), " if the day comes first")
    .write_so(month_first.to_string(), " if the month comes first")
}

/// The date with its misspelt words mended, if that makes it a date.
fn meant(context: &CheckContext, text: &str) -> Option<String> {
    const WORDS: &str = "spring summer autumn winter fall early mid late by after before to January February March April May June July August September October November December";
    if text.len() > 60 {
        return None;
    }
    // Telephones type a long dash for a hyphen.
    let text = text.replace(DASHES, "-");
    let words = text.split_whitespace().map(|word| {
        let known = word.starts_with(|c: char| c.is_ascii_digit())
            || WORDS.split(' ').any(|w| w.eq_ignore_ascii_case(word));
        match nearest(word, WORDS.split(' ')).first() {
            Some(near) if !known => near,
            _ => word,
        }
    });
    let mended = words.collect::<Vec<_>>().join(" ");
    context.when(&mended).map(|_| mended)
}

/// The days on which a plant left and came back.
fn days_of<'r, 't>(returns: &'r [Return<'t>]) -> impl Iterator<Item = &'t str> + use<'r, 't> {
    returns.iter().flat_map(|back| [back.left.on(), back.on])
}
