//! The picture in words: plants, crosses, caption and footnotes.

use crate::analysis::evidence::{EvidenceRow, evidence_row};
use crate::analysis::parentage::SharesAre;
use crate::analysis::pedigree::{
    Asked, CrossCodes, Member, Pedigree, PedigreeCross, PedigreeWishes, Who, pedigree,
};
use crate::context::Context;
use crate::evidence::Unit;
use crate::naming::recorded::TopOf;
use crate::registry::PotRow;
use crate::report::pedigree::{
    Caption, DrawnCross, DrawnEither, DrawnPlant, DrawnShare, PedigreeDrawing,
};
use crate::report::shares_words::note;
use crate::wording::{Name, counted, joined, latin, listed};

/// The most crosses whose doubts are written out below a picture.
const MOST_DOUBTS: usize = 6;

/// What words are made from.
pub struct Words<'w, 'r, 't> {
    pub context: &'w Context<'r, 't>,
    /// The code asked for.
    pub id: &'w str,
    /// Whether it holds the evidence of every plant drawn, for those who read the drawing as data.
    pub with_evidence: bool,
}

/// Draws up the pedigree of whatever a code names; with the evidence of every plant drawn, for those who read it as data.
///
/// # Errors
/// In words, when the code names nothing with a pedigree.
pub fn pedigree_of(
    context: &Context,
    id: &str,
    wishes: PedigreeWishes,
    with_evidence: bool,
) -> Result<PedigreeDrawing, String> {
    let asked = context.registry.target(id).and_then(Asked::of);
    let asked =
        asked.ok_or_else(|| format!("`{id}` has no pedigree: name a plant, a pod or a cross"))?;
    let words = Words {
        context,
        id,
        with_evidence,
    };
    Ok(words.drawing(&pedigree(context, asked, wishes)))
}

impl Words<'_, '_, '_> {
    /// The whole picture.
    fn drawing(&self, of: &Pedigree) -> PedigreeDrawing {
        let names = self.context.names();
        let plants: Vec<DrawnPlant> = of.members.iter().map(|of| self.member(of)).collect();
        let crosses: Vec<DrawnCross> = of.crosses.iter().map(|of| self.cross(of)).collect();
        let unit = of.asked.unit();
        let formula = names.formula(unit.top(), false);
        let title = names.in_full(unit.top());
        let species = self.context.descent().species.iter();
        PedigreeDrawing {
            title: title.map_or_else(
                |_| format!("Pedigree of {}", self.id),
                |name| format!("{}: {name}", self.id),
            ),
            footnotes: self.footnotes(of, &plants),
            down: of.down,
            species: species.map(|name| self.taxon(name)).collect(),
            caption: Caption {
                heading: self.heading((&plants, &crosses), of, &formula),
                formula: self.name(&formula, true).unwrap_or_default(),
                code: self.id.to_owned(),
                evidence: self.context.evidence().sentence(unit),
            },
            plants,
            crosses,
        }
    }

    fn member(&self, of: &Member) -> DrawnPlant {
        let (code, label) = match of.who {
            Who::Plant(plant) => (self.code(plant), self.label(plant)),
            Who::Siblings {
                origin,
                of,
                seedlings,
            } => (self.batch_code(of), self.batch_label(origin, seedlings)),
            Who::Pot { pot, left } => (self.pot_code(pot), self.pot_label(pot, left)),
        };
        let is_named_only = match of.who {
            Who::Plant(plant) => self.is_named_only(plant),
            Who::Siblings { .. } | Who::Pot { .. } => false,
        };
        DrawnPlant {
            code,
            is_named_only,
            label,
            column: of.column,
            kind: of.kind,
            fate: of.fate,
            sex: of.sex,
            shares: DrawnShare::all(&of.shares),
            either: DrawnEither::all(&of.shares, self.context.descent()),
            unknown_share: of.shares.unknown,
            shares_are: of.shares_are,
            focus: of.focus,
            evidence: of.unit.and_then(|unit| self.evidence_of(unit)),
        }
    }

    /// A cross by its code; of a part of one what was asked for.
    fn batch_code(&self, of: Asked) -> String {
        match of {
            Asked::Cross(cross) => self.context.registry[cross].page.code.to_owned(),
            _ => self.id.to_owned(),
        }
    }

    fn pot_code(&self, pot: PotRow) -> String {
        let registry = self.context.registry;
        format!("{}.{}", registry[pot.cross].page.code, registry[pot].code)
    }

    fn cross(&self, of: &PedigreeCross) -> DrawnCross {
        let registry = self.context.registry;
        DrawnCross {
            code: match &of.codes {
                CrossCodes::One(cross) => registry[*cross].page.code.to_owned(),
                CrossCodes::OneOf(crosses) => {
                    let codes = crosses.iter().map(|&cross| registry[cross].page.code);
                    joined(codes, " or ")
                }
                CrossCodes::MuddledTray => "muddled tray".to_owned(),
            },
            seed: of.seed.clone(),
            pollen: of.pollen.clone(),
            chances: of.chances.clone(),
            direction_known: of.direction_known,
            father_probable: of.father_probable,
            seed_doubtful: of.seed_doubtful,
            pollen_doubtful: of.pollen_doubtful,
            children: of.children.clone(),
            more_siblings: of.more_siblings,
        }
    }

    fn footnotes(&self, of: &Pedigree, plants: &[DrawnPlant]) -> Vec<String> {
        let mut notes =
            vec!["Expected shares are averages over seedlings, not a test of a plant.".to_owned()];
        if of.down && of.crosses.is_empty() && of.members.len() == 1 {
            notes.insert(0, "No offspring on record.".to_owned());
        }
        notes.extend(doubts_of_shares(plants));
        notes.extend(self.doubts(&of.doubtful));
        let drawn = of.family.iter().copied().map(TopOf::Plant);
        let tops = drawn.chain([of.asked.unit().top()]);
        notes.extend(self.context.names().doubts(tops));
        match of.cut {
            0 => {}
            1 => notes.push("One plant has recorded parents that are not drawn here.".to_owned()),
            several => notes.push(format!(
                "{several} plants have recorded parents that are not drawn here."
            )),
        }
        notes
    }

    /// Crosses in doubt, each with what is recorded of its own parents; that of what was asked for stands in the caption.
    fn doubts(&self, units: &[Unit]) -> Vec<String> {
        let note = |&unit: &Unit| {
            let own = self.context.evidence().own(unit)?;
            Some(format!("{}: {own}.", self.code_of(unit)))
        };
        let mut notes: Vec<String> = units.iter().filter_map(note).collect();
        let more = notes.len().saturating_sub(MOST_DOUBTS);
        notes.truncate(MOST_DOUBTS);
        if more > 0 {
            let crosses = counted(more, "more cross is", "more crosses are");
            notes.push(format!("{crosses} less sure than a tag."));
        }
        notes
    }

    fn code_of(&self, unit: Unit) -> String {
        let registry = self.context.registry;
        match unit {
            Unit::Plant(plant) => registry.code(plant),
            unit => unit
                .cross(registry)
                .map_or(String::new(), |cross| registry[cross].page.code.to_owned()),
        }
    }

    /// How surely the descent of one thing drawn is known, where that was asked for.
    fn evidence_of(&self, unit: Unit) -> Option<EvidenceRow> {
        self.with_evidence
            .then(|| evidence_row(self.context.evidence(), unit))
    }

    /// A species or provisional taxon with the genus.
    fn taxon(&self, name: &str) -> Name {
        let genus = self.context.names().vocabulary().genus_short();
        latin(&format!("{genus} {name}"))
    }
}

/// The plants whose shares are not those of one plant, by what their shares are: squares have no room for a word.
fn doubts_of_shares(plants: &[DrawnPlant]) -> Vec<String> {
    let kinds = [
        SharesAre::Expected,
        SharesAre::AtLeast,
        SharesAre::ExpectedAtLeast,
        SharesAre::ByName,
    ];
    let of_kind = |kind: SharesAre| {
        let of = plants.iter();
        let of = of.filter(|plant| plant.shares_are == kind && !plant.has_no_common_share());
        let mut codes: Vec<String> = of.map(|plant| plant.code.clone()).collect();
        let more = codes.len().saturating_sub(MOST_DOUBTS);
        codes.truncate(MOST_DOUBTS);
        if more > 0 {
            codes.push(format!("{more} more"));
        }
        (!codes.is_empty()).then(|| note(kind, &listed(&codes)))?
    };
    kinds.into_iter().filter_map(of_kind).collect()
}
