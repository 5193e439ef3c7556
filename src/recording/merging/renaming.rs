//! Gives plants, crosses, parts of crosses and envelopes other codes, wherever a page names them.
//!
//! A part of a cross or a seedling's number is written without the code of its cross, a piece without that of its plant:
//! each is looked up under its whole code; so is a spike, whose plant is the one its zone or its page names. Words of labels and remarks stay as they are.

use super::lists::spike_of;
use crate::recording::handover::Codes;
use crate::recording::page::PageFault;
use crate::recording::says::value::Value;
use crate::recording::written::text;
use crate::text::Outline;
use crate::text::edit::{Edit, EditFault, made};
use crate::text::outline::{Kind, PartId};
use std::collections::BTreeMap;

/// New codes by their old ones.
#[derive(Clone, Default, Debug)]
pub struct NewCodes {
    /// Plants, crosses, and what belongs to them, by whole codes: `X22-02-7`, `X22-02.P1`, `Ven1-b`.
    pub plants: Codes,
    /// Envelopes.
    pub pollen: BTreeMap<String, String>,
    /// Traits.
    pub traits: BTreeMap<String, String>,
    /// What is put before the name of every place.
    pub before_places: String,
    /// Places that begin so keep their names: they are those of a third grower, whose name they have.
    pub of_others: Vec<String>,
}

impl NewCodes {
    /// Whether everything keeps its code.
    pub fn is_empty(&self) -> bool {
        self.plants.is_empty()
            && self.pollen.is_empty()
            && self.traits.is_empty()
            && self.before_places.is_empty()
    }
}

/// Codes for plants, crosses and envelopes.
pub fn new_codes(renames: &[(String, String)]) -> NewCodes {
    let mut codes = NewCodes::default();
    for (was, now) in renames {
        codes.plants.rename(was, now.clone());
        codes.pollen.insert(was.clone(), now.clone());
    }
    codes
}

/// What a text that names something is.
#[derive(Clone, Copy)]
enum Names {
    Whole,
    PartOrWhole,
    Part,
    Number,
    Piece,
    Spike,
    Pollen,
    Trait,
    Heading,
    Place,
}

/// The cross and the plant that a text stands under.
#[derive(Clone, Default)]
struct Under {
    cross: Option<String>,
    plant: Option<String>,
    list: String,
}

/// A page's text with other codes.
///
/// # Errors
/// If the page has faults of shape.
pub fn renamed(page: &str, codes: &NewCodes) -> Result<String, PageFault> {
    let outline = Outline::of(page);
    let Some(root) = outline.root() else {
        return Ok(page.to_owned());
    };
    if let Some(fault) = outline.faults().first() {
        return Err(EditFault::FaultyText(*fault).into());
    }
    let is_cross = outline.follow(root, "parents").is_some();
    let code = outline.follow(root, "code").filter(|_| is_cross);
    let code = code.and_then(|code| said(&outline, code));
    let moves = |sign| {
        let code = code.as_deref();
        code.is_none_or(|code| codes.plants.are_under(code, sign))
    };
    let mut walk = Walk {
        outline: &outline,
        codes,
        moves: ['.', '-'].map(moves),
        edits: Vec::new(),
    };
    walk.part(
        "",
        root,
        &Under {
            cross: code,
            plant: seed_parent(&outline, root),
            ..Under::default()
        },
    );
    // Texts in quotation marks give way to such texts, so the result is as sound as the page.
    Ok(made(page, &walk.edits)?)
}

/// The seed parent of a cross, where its page names one.
fn seed_parent(outline: &Outline, root: PartId) -> Option<String> {
    said(outline, outline.follow(root, "parents.seed")?)
}

fn said(outline: &Outline, part: PartId) -> Option<String> {
    Value::of(outline, part)?.words().map(str::to_owned)
}

struct Walk<'o, 't> {
    outline: &'o Outline<'t>,
    codes: &'o NewCodes,
    /// Whether parts and plants of this cross get codes that its own does not explain.
    moves: [bool; 2],
    edits: Vec<Edit>,
}

impl Walk<'_, '_> {
    fn part(&mut self, field: &str, part: PartId, under: &Under) {
        let outline = self.outline;
        match outline.part(part).kind {
            Kind::Text => self.text(field, part, under),
            // A label is words, even where they look like a code.
            _ if outline.tag(part) == Some("label_only") => {}
            _ if matches!(field, "foreign" | "told_by" | "fate" | "reads") => {}
            Kind::Struct => {
                let under = self.record(part, under);
                for child in outline.children(part) {
                    self.part(outline.name(child).unwrap_or_default(), child, &under);
                }
            }
            Kind::List if field == "rows" => {
                for row in outline.children(part) {
                    if let Some(first) = outline.children(row).next() {
                        self.part("rows", first, under);
                    }
                }
            }
            _ => {
                let under = Under {
                    list: field.to_owned(),
                    ..under.clone()
                };
                for child in outline.children(part) {
                    self.part(field, child, &under);
                }
            }
        }
    }

    /// A founder or seedling is what its pieces and spikes stand under; a zone may name its seed parent.
    fn record(&self, part: PartId, under: &Under) -> Under {
        let own = |key| {
            let field = self.outline.field(part, key);
            field.and_then(|field| said(self.outline, field))
        };
        let plant = match (under.list.as_str(), &under.cross) {
            ("clones", _) => own("code"),
            ("seedlings", Some(cross)) => own("number").map(|own| format!("{cross}-{own}")),
            ("pollinations", _) => own("plant").or(under.plant.clone()),
            _ => return under.clone(),
        };
        Under {
            plant,
            ..under.clone()
        }
    }

    /// Whether a text surely stays: it is written without the code of its cross, and nothing of that cross moves by itself.
    fn stays(&self, names: Names, part: PartId) -> bool {
        match names {
            Names::Part => !self.moves[0],
            Names::Number => !self.moves[1] && !self.outline.slice(part).contains(['-', '\\']),
            _ => false,
        }
    }

    fn text(&mut self, field: &str, part: PartId, under: &Under) {
        let Some(names) = names(field, under) else {
            return;
        };
        if self.stays(names, part) {
            return;
        }
        let Some(was) = said(self.outline, part) else {
            return;
        };
        let now = self.codes.of(names, &was, under);
        if now != was {
            let place = self.outline.part(part);
            self.edits.push(Edit {
                start: place.start,
                end: place.end,
                text: text(&now),
            });
        }
    }
}

/// What a text names, by its field and the list it stands in.
fn names(field: &str, under: &Under) -> Option<Names> {
    let list = under.list.as_str();
    Some(match (list, field) {
        ("traits", "code" | "of") => Names::Trait,
        (_, "columns") => Names::Heading,
        (_, "place") | ("places", "name") => Names::Place,
        ("lots", "code") | ("pollinations", "pollen") => Names::Pollen,
        ("clones", "code") | ("", "code") => Names::Whole,
        ("seedlings", "number") => Names::Number,
        (_, "rows") if under.cross.is_some() => Names::Number,
        ("ramets", "code" | "from") | ("flowerings", "ramet") => Names::Piece,
        ("flowerings", "code") | ("pollinations", "spike") => Names::Spike,
        ("pods" | "seed_lots" | "sowings" | "community_pots", "code")
        | ("pollinations" | "pods", "zone")
        | ("pricked_out", "to")
        | (_, "lot" | "pod" | "sowing" | "community_pot") => Names::Part,
        (_, "one_of" | "one_of_before") => Names::PartOrWhole,
        (_, "rows" | "seed" | "pollen" | "plant" | "with" | "near" | "same_flowers") => {
            Names::Whole
        }
        // The parents of a named hybrid are species, and whom a plant came from is said in words.
        (_, "parents") if under.cross.is_some() => Names::Whole,
        ("from", "from") => Names::Whole,
        _ => return None,
    })
}

impl NewCodes {
    fn of(&self, names: Names, was: &str, under: &Under) -> String {
        let cross = under.cross.as_deref().unwrap_or_default();
        let plant = under.plant.as_deref().unwrap_or_default();
        match names {
            Names::Whole => self.plants.of(was),
            Names::PartOrWhole if was.contains('.') => self.plants.of(was),
            Names::Part | Names::PartOrWhole => self.inside(cross, '.', was),
            Names::Number if is_whole(was) => self.plants.of(was),
            Names::Number => self.inside(cross, '-', was),
            Names::Piece => self.inside(plant, '-', was),
            Names::Spike => self.spike(plant, was),
            Names::Pollen => self
                .pollen
                .get(was)
                .cloned()
                .unwrap_or_else(|| was.to_owned()),
            Names::Trait => self
                .traits
                .get(was)
                .cloned()
                .unwrap_or_else(|| was.to_owned()),
            Names::Heading => {
                let (code, unit) = was
                    .split_once(' ')
                    .map_or((was, None), |(code, unit)| (code, Some(unit)));
                let code = self.traits.get(code).map_or(code, String::as_str);
                unit.map_or_else(|| code.to_owned(), |unit| format!("{code} {unit}"))
            }
            Names::Place if self.of_others.iter().any(|other| was.starts_with(other)) => {
                was.to_owned()
            }
            Names::Place => format!("{}{was}", self.before_places),
        }
    }

    /// The new code of a spike, without its plant's. What is named may be a piece of the plant.
    fn spike(&self, plant: &str, was: &str) -> String {
        let of_piece = plant.rsplit_once('-').map(|(plant, _)| plant);
        let plants = std::iter::once(plant).chain(of_piece);
        let mut renamed = plants.filter_map(|plant| self.plants.exactly(&spike_of(plant, was)));
        let code = renamed.next().and_then(|now| now.rsplit(' ').next());
        code.unwrap_or(was).to_owned()
    }

    /// The new code of what stands under something, without that one's.
    fn inside(&self, around: &str, sign: char, was: &str) -> String {
        let now = self.plants.of(&format!("{around}{sign}{was}"));
        let around = self.plants.of(around);
        let inside = now
            .strip_prefix(&around)
            .and_then(|rest| rest.strip_prefix(sign));
        inside.map_or_else(|| was.to_owned(), str::to_owned)
    }
}

/// A row of a plant of another page begins with its whole code.
fn is_whole(row: &str) -> bool {
    row.contains('-')
}
