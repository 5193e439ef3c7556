//! Do the dates of one plant follow one another: sown, up, numbered, spike, open, over, cut, rooted, and nothing after
//! it died or left?

use super::absent::{after_end, never_handed_on, while_away};
use super::context::{Anchor, CheckContext, fate_words};
use super::events::Event;
use super::timeline::start_of;
use crate::diagnostic::{Finding, Severity};
use crate::record::{Fate, Flowering, Ramet, Return};
use crate::registry::PlantRow;

/// How it left and how it came back, in words.
type Clauses = [&'static str; 2];

const PLANT: Clauses = ["the plant left", "the plant came back"];

const PIECE: Clauses = ["the piece left", "the piece came back"];

/// One plant's life under check.
struct Life<'g, 'r, 't> {
    context: &'g CheckContext<'r, 't>,
    plant: PlantRow,
    anchor: Anchor<'t>,
    start: Option<Event<'t>>,
    found: Vec<Finding>,
}

/// Every order of dates in the record of a founder or seedling.
pub(super) fn of_plant(context: &CheckContext, plant: PlantRow) -> Vec<Finding> {
    let Some(anchor) = context.anchor(plant) else {
        return Vec::new();
    };
    let mut life = Life {
        context,
        plant,
        anchor,
        start: start(context, plant),
        found: Vec::new(),
    };
    life.seedling();
    for flowering in context.registry.flowerings(plant) {
        life.flowering(flowering);
    }
    for ramet in context.registry.ramets(plant) {
        life.ramet(ramet);
    }
    for pot in context.registry.pots(plant) {
        life.happened("the plant was potted", Some(pot.on));
    }
    for treatment in context.registry.treatments(plant) {
        life.happened("the plant was treated", Some(treatment.on));
    }
    let kept = context.registry.kept(plant);
    life.happened(
        "the plant was marked to keep",
        kept.and_then(|kept| kept.on),
    );
    let end = context.registry.fate(plant).and_then(|fate| {
        let (_, on) = fate_words(fate);
        life.after_start("the plant came to its end", Some(on))
    });
    let came_back = context.registry.came_back(plant);
    if !came_back.is_empty() {
        let code = context.registry.code(plant);
        life.returns((&code, PLANT), came_back, end);
    }
    life.found
}

/// Before which nothing can have been done with a plant here: a seedling's sowing, a founder's arrival.
fn start<'t>(context: &CheckContext<'_, 't>, plant: PlantRow) -> Option<Event<'t>> {
    match context.registry.founder(plant) {
        Some(founder) => {
            let file = context.registry.clones_file?;
            Event::new(context, file, "the plant came", founder.on?)
        }
        None => start_of(context, plant),
    }
}

impl<'t> Life<'_, '_, 't> {
    fn event(&self, clause: &'static str, text: Option<&'t str>) -> Option<Event<'t>> {
        Event::new(self.context, self.anchor.file, clause, text?)
    }

    /// Something must not lie before the plant began. What a supplier saw may lie before it came.
    fn after_start(&mut self, clause: &'static str, text: Option<&'t str>) -> Option<Event<'t>> {
        let event = self.event(clause, text)?;
        let finding = self
            .start
            .and_then(|start| event.must_follow(self.context, &start));
        let founder = self.context.registry.founder(self.plant).is_some();
        self.found.extend(finding.map(|mut finding| {
            if founder {
                finding.severity = Severity::Warning;
            }
            finding
        }));
        Some(event)
    }

    /// Something must lie between the plant's beginning and its end.
    fn happened(&mut self, clause: &'static str, text: Option<&'t str>) -> Option<Event<'t>> {
        let event = self.after_start(clause, text)?;
        let after = after_end(self.context, self.plant, &event);
        self.found.extend(after);
        Some(event)
    }

    fn in_order(&mut self, events: &[Option<Event<'t>>]) {
        for (at, later) in events.iter().enumerate() {
            let Some(later) = later else { continue };
            let mut before = events[..at].iter().rev().flatten();
            let finding = before.find_map(|earlier| later.must_follow(self.context, earlier));
            self.found.extend(finding);
        }
    }

    fn seedling(&mut self) {
        let Some(seedling) = self.context.registry.seedling(self.plant) else {
            return;
        };
        let up = self.happened("the seedling came up", seedling.germinated);
        let numbered = self.happened("the seedling got its number", seedling.numbered);
        self.in_order(&[up, numbered]);
        for muddle in seedling.muddled.iter() {
            let mixed_up = self.event("the plants were mixed up", Some(muddle.on));
            let settled = self.event("the mix-up was settled", muddle.settled);
            self.in_order(&[mixed_up, settled]);
        }
        // Of a founder there may be a picture from where it came from.
        let whose = (&*self.context.registry.code(self.plant), self.anchor.file);
        for photo in seedling.photos.iter() {
            let taken = self.after_start("a photo of the seedling was taken", photo.on);
            let returns = self.context.registry.came_back(self.plant);
            let away = taken.and_then(|taken| while_away(self.context, whose, returns, &taken));
            self.found.extend(away);
        }
    }

    fn flowering(&mut self, flowering: &Flowering<'t>) {
        let spike = self.happened("a spike was seen", flowering.spike);
        let opened = self.happened("the first flower opened", flowering.opened);
        let over = self.happened("the last flower was over", flowering.over);
        self.in_order(&[spike, opened, over]);
        let ramets = self.context.registry.ramets(self.plant);
        let ramet = flowering
            .ramet
            .and_then(|code| ramets.iter().find(|ramet| ramet.code == code));
        if let (Some(ramet), Some(first)) = (ramet, spike.or(opened)) {
            let cut = self.event("the piece was cut", ramet.cut);
            self.in_order(&[cut, Some(first)]);
            let end = self.end_of(ramet);
            self.in_order(&[Some(first), end]);
            let whose = (&*self.code_of(ramet), self.anchor.file);
            let away = while_away(self.context, whose, &ramet.came_back, &first);
            self.found.extend(away);
        }
    }

    fn ramet(&mut self, ramet: &Ramet<'t>) {
        let cut = self.happened("the piece was cut", ramet.cut);
        let rooted = self.event("the piece had rooted", ramet.rooted);
        let end = self.end_of(ramet);
        self.in_order(&[cut, rooted, end]);
        for pot in ramet.pots.iter() {
            let potted = self.happened("the piece was potted", Some(pot.on));
            self.in_order(&[cut, potted, end]);
        }
        self.returns((&self.code_of(ramet), PIECE), &ramet.came_back, end);
        // A piece that was taken off another one: that one was there.
        let ramets = self.context.registry.ramets(self.plant);
        let source = ramets.iter().find(|of| Some(of.code) == ramet.from);
        // One that was sold or given away lives on, and whoever has it may cut it.
        let source = source.filter(|of| of.fate.as_ref().and_then(Fate::handed_on).is_none());
        let source_end = source.and_then(|source| self.end_of(source));
        if let (Some(cut), Some(source_end)) = (cut, source_end)
            && let Some(mut finding) = source_end.must_follow(self.context, &cut)
        {
            finding.severity = Severity::Warning;
            self.found.push(finding);
        }
    }

    /// What left came back later, and came to its end later still.
    fn returns(
        &mut self,
        (code, [left, came_back]): (&str, Clauses),
        returns: &[Return<'t>],
        end: Option<Event<'t>>,
    ) {
        let whose = (code, self.anchor.file);
        let never = returns.iter();
        self.found
            .extend(never.filter_map(|back| never_handed_on(self.context, whose, back)));
        let mut days: Vec<Option<Event<'t>>> = Vec::new();
        for back in returns {
            days.push(self.event(left, Some(back.left.on())));
            days.push(self.event(came_back, Some(back.on)));
        }
        days.push(end);
        self.in_order(&days);
    }

    fn code_of(&self, ramet: &Ramet) -> String {
        let plant = self.context.registry.code(self.plant);
        format!("{plant}-{}", ramet.code)
    }

    fn end_of(&self, ramet: &Ramet<'t>) -> Option<Event<'t>> {
        let (_, on) = fate_words(ramet.fate.as_ref()?);
        self.event("the piece came to its end", Some(on))
    }
}
