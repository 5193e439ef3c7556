//! What a plant, pod or cross is truthfully called.

use super::read::{HybridName, NoteRow, hybrid_name_line, hybrid_names};
use super::sheet::{Report, Sheet};
use crate::naming::recorded::{Names, TopOf};
use crate::naming::{Rung, Style, Writing, botanical, breeder, describe, fit, purdy, suggest};
use crate::record::Confidence;
use crate::registry::{PlantRow, Registry, Target};
use serde::Serialize;

/// Characters from which on a formula is too long to be the first line: ten lines of 80.
const LONG_FORMULA: usize = 800;

/// Characters of the short form that then stands there.
const SHORT_FORMULA: usize = 240;

/// How the name is wanted.
#[derive(Clone, Copy, Debug, Default)]
pub struct NameWishes {
    /// Text, ASCII, HTML or Markdown.
    pub style: Style,
    /// Characters of a tag, when it has to fit one.
    pub fit: Option<usize>,
    /// Whether parents bear their own codes.
    pub codes: bool,
    /// Whether parents are marked ♀ and ♂.
    pub sexes: bool,
}

/// The name of one thing.
#[derive(Serialize)]
pub struct NameReport {
    /// Code asked for.
    pub id: String,
    /// Breeder order with its basis.
    pub breeder: Option<String>,
    /// What stands on the first line in the place of a breeder order of more than ten lines.
    pub short: Option<String>,
    /// Botanical order.
    pub botanical: Option<String>,
    /// Purdy notation.
    pub purdy: Option<String>,
    /// The version for a tag, when one was asked for.
    pub tag: Option<TagText>,
    /// How parentage is known, in words.
    pub rests_on: String,
    /// The name or label as received, letter by letter.
    pub received: Option<String>,
    /// A nickname.
    pub nickname: Option<String>,
    /// Cultivar epithet of this very clone, in single quotes.
    pub cultivar: Option<String>,
    /// Hybrid names with exactly these parents.
    pub names: Vec<HybridName>,
    /// Facts to heed.
    pub notes: Vec<NoteRow>,
}

/// A text for a tag.
#[derive(Serialize)]
pub struct TagText {
    /// The text.
    pub text: String,
    /// What was left out.
    pub left_out: Vec<&'static str>,
}

/// Names one thing.
///
/// # Errors
/// In words, when the code names nothing that has a formula, or nothing fits the tag.
pub fn name(
    registry: &Registry,
    names: &Names,
    id: &str,
    wishes: NameWishes,
) -> Result<NameReport, String> {
    let top = match registry.target(id) {
        Some(Target::Plant(plant) | Target::Ramet(plant, _)) => TopOf::Plant(plant),
        Some(
            Target::Cross(cross)
            | Target::Pod(cross, _)
            | Target::Zone(cross, _)
            | Target::SeedLot(cross, _)
            | Target::Sowing(cross, _)
            | Target::Patch(cross, _),
        ) => TopOf::Cross(cross),
        _ => {
            return Err(format!(
                "`{id}` is neither a plant, a pod nor a cross on record"
            ));
        }
    };
    let formula = names.formula(top, wishes.codes);
    let writing = Writing {
        vocabulary: names.vocabulary(),
        style: wishes.style,
        sexes: wishes.sexes,
    };
    let tag = match wishes.fit {
        None => None,
        Some(most) => {
            let fitted = fit(&formula, &writing, most, Some(id)).ok_or_else(|| {
                format!("not even the code alone fits {most} characters; a tag for {id} needs at least {}", id.chars().count())
            })?;
            Some(TagText {
                text: fitted.text,
                left_out: fitted.left_out,
            })
        }
    };
    let full = breeder(&formula, &writing).ok();
    let is_long = |text: &String| text.chars().count() > LONG_FORMULA;
    let short = full
        .as_ref()
        .filter(|text| is_long(text) && tag.is_none())
        .and_then(|_| fit(&formula, &writing, SHORT_FORMULA, Some(id)))
        .map(|fitted| match fitted.rung {
            Rung::SeeCode => format!("a formula of {} generations", formula.generations()),
            _ => fitted.text,
        });
    let told = describe(formula.clone(), "", names.vocabulary());
    let (received, nickname, cultivar) = kept_labels(registry, top);
    Ok(NameReport {
        id: id.to_owned(),
        breeder: full,
        short,
        botanical: botanical(&formula, &writing).ok(),
        purdy: purdy(&formula),
        tag,
        rests_on: rests_on(registry, names, top),
        received,
        nickname,
        cultivar,
        names: hybrid_names(
            suggest(&formula, names.vocabulary()),
            &names.vocabulary().genus_short(),
        ),
        notes: told
            .notes
            .into_iter()
            .map(|note| NoteRow {
                code: note.code.code(),
                text: note.text,
            })
            .collect(),
    })
}

fn kept_labels(
    registry: &Registry,
    top: TopOf,
) -> (Option<String>, Option<String>, Option<String>) {
    match top {
        TopOf::Plant(plant) => {
            let received = registry
                .founder(plant)
                .map(|founder| founder.received.to_string());
            let nickname = registry.nickname(plant).map(str::to_owned);
            let cultivar = registry.cultivar(plant).map(|cultivar| {
                let established = if cultivar.published.is_some() {
                    ""
                } else {
                    " (not published: not established)"
                };
                format!("'{}'{established}", &*cultivar.epithet)
            });
            (received, nickname, cultivar)
        }
        TopOf::Cross(cross) => {
            let page = &registry.crosses[cross as usize].page;
            (
                page.received.as_ref().map(|label| label.to_string()),
                None,
                None,
            )
        }
    }
}

/// A confidence in the trade's words.
pub fn confidence_words(confidence: Confidence) -> &'static str {
    match confidence {
        Confidence::Witnessed => "witnessed",
        Confidence::Tag => "by the tag",
        Confidence::Claim => "by somebody's word",
        Confidence::OneOfSeveral => "one of several",
        Confidence::Unknown => "not said how it is known",
    }
}

/// What a name rests on: how the parentage of the plant is known, and the weakest link behind it.
pub fn rests_on(registry: &Registry, names: &Names, top: TopOf) -> String {
    let cross = match top {
        TopOf::Cross(cross) => Some(cross),
        TopOf::Plant(plant) => registry.cross_of(plant),
    };
    let own = match (cross, top) {
        (Some(_), TopOf::Plant(plant)) if possible_crosses(registry, plant).len() > 1 => {
            let of: Vec<String> = possible_crosses(registry, plant)
                .into_iter()
                .map(|cross| format!("of {}", registry.crosses[cross as usize].page.code))
                .collect();
            format!("parents one of several, {}", of.join(" or "))
        }
        (Some(cross), _) => match registry.crosses[cross as usize].page.confidence {
            Confidence::Unknown => "how the parents are known is not said".to_owned(),
            confidence => format!("parents {}", confidence_words(confidence)),
        },
        (None, TopOf::Plant(plant)) => match names.founder(plant) {
            Some(founder) if founder.refused.is_some() => {
                "the received name could not be read".to_owned()
            }
            Some(founder) if founder.identified => {
                format!(
                    "identified as \"{}\", {}",
                    founder.label,
                    confidence_words(founder.confidence)
                )
            }
            Some(founder) => format!("name as received, {}", confidence_words(founder.confidence)),
            None => "named only as a parent, never seen here".to_owned(),
        },
        (None, TopOf::Cross(_)) => String::new(),
    };
    let start: Vec<PlantRow> = match top {
        TopOf::Plant(plant) => vec![plant],
        TopOf::Cross(cross) => registry.origins()[registry.crosses[cross as usize].origin as usize]
            .pairs
            .iter()
            .flat_map(|pair| [pair.seed, pair.pollen])
            .flatten()
            .collect(),
    };
    let pages = match top {
        TopOf::Plant(plant) => possible_crosses(registry, plant),
        TopOf::Cross(_) => Vec::new(),
    };
    match weakest(registry, names, &start, &pages) {
        Some((confidence, code)) => format!(
            "{own}; weakest behind it: {code}, {}",
            confidence_words(confidence)
        ),
        None => own,
    }
}

/// The crosses a seedling from a muddled tray may be of; none for a plant whose cross is certain.
fn possible_crosses(registry: &Registry, plant: PlantRow) -> Vec<u32> {
    let (Some(own), Some(seedling)) = (registry.cross_of(plant), registry.seedling(plant)) else {
        return Vec::new();
    };
    let pods = seedling.one_of.iter();
    let mut crosses: Vec<u32> = pods
        .filter_map(|pod| match pod.split_once('.') {
            Some((page, _)) => registry.cross(page),
            None => Some(own),
        })
        .collect();
    crosses.sort_unstable();
    crosses.dedup();
    if crosses.len() > 1 {
        crosses
    } else {
        Vec::new()
    }
}

/// The least certain statement among the ancestors of a plant, when it is less than a tag.
fn weakest(
    registry: &Registry,
    names: &Names,
    start: &[PlantRow],
    pages: &[u32],
) -> Option<(Confidence, String)> {
    let of_page = |cross: u32| {
        let page = &registry.crosses[cross as usize].page;
        (page.confidence, page.code.to_owned())
    };
    let above = names.lineage().pedigree.with_ancestors(start);
    let behind = above
        .into_iter()
        .filter(|plant| !start.contains(plant) || start.len() > 1);
    // Of a parent nobody saw we know what its cross page says, and as surely as it says it.
    let page_of = |plant: PlantRow| {
        let unseen = registry.unseen(plant).map(|unseen| unseen.cross);
        registry.cross_of(plant).or(unseen)
    };
    let sure = |plant: PlantRow| match page_of(plant) {
        Some(cross) => of_page(cross),
        None => {
            let confidence = names
                .founder(plant)
                .map_or(Confidence::Unknown, |founder| founder.confidence);
            (confidence, registry.code(plant))
        }
    };
    let least = behind
        .map(sure)
        .chain(pages.iter().map(|&cross| of_page(cross)))
        .max_by(|a, b| a.0.cmp(&b.0).then_with(|| b.1.cmp(&a.1)))?;
    (least.0 > Confidence::Tag).then_some(least)
}

impl Report for NameReport {
    fn sheet(&self) -> Sheet {
        let name = self
            .breeder
            .clone()
            .unwrap_or_else(|| "too long to write out".into());
        let mut sheet = Sheet::new(match &self.tag {
            Some(tag) => tag.text.clone(),
            None => format!("{}: {}", self.id, self.short.as_ref().unwrap_or(&name)),
        });
        let left_out = self
            .tag
            .as_ref()
            .map(|tag| tag.left_out.join(", "))
            .filter(|text| !text.is_empty());
        sheet.facts(
            None,
            vec![
                ("left out for the tag", left_out),
                (
                    "in full",
                    self.tag
                        .as_ref()
                        .map(|_| ())
                        .or(self.short.as_ref().map(|_| ()))
                        .map(|()| name),
                ),
                ("botanical order", self.botanical.clone()),
                ("Purdy notation", self.purdy.clone()),
                (
                    "rests on",
                    Some(self.rests_on.clone()).filter(|text| !text.is_empty()),
                ),
                (
                    "received as",
                    self.received.as_ref().map(|label| format!("\"{label}\"")),
                ),
                ("cultivar", self.cultivar.clone()),
                (
                    "nickname",
                    self.nickname
                        .as_ref()
                        .map(|nickname| format!("{nickname} (not a cultivar name)")),
                ),
            ],
        );
        sheet.lines(
            Some("Hybrid names with these parents"),
            self.names.iter().map(hybrid_name_line).collect(),
        );
        sheet.cautions = self
            .notes
            .iter()
            .map(|note| format!("{} [{}]", note.text, note.code))
            .collect();
        sheet
    }
}
