//! Parents that cannot be read, reported as one finding that says what to write.
//!
//! Growers write two fathers into `known`, name the sides mother and father, or leave the names out. What was meant is
//! often plain; it is put into words, never taken for granted. Only the seed parent is kept, where it is one text.

use crate::diagnostic::{Code, Finding};
use crate::text::outline::{Kind as Shape, PartId};
use crate::text::{FileId, Outline, Span};

/// Words by which growers name the side that bore the pods.
const SEED: [&str; 6] = ["seed", "mother", "female", "seed_parent", "mum", "mom"];
/// Words for the side that gave the pollen.
const POLLEN: [&str; 5] = ["pollen", "father", "male", "pollen_parent", "dad"];
/// The words for parents of which both sides are named.
const OTHER_WORDS: &str = "pollen_one_of pollen_mixed open pollen_unknown seed_one_of seed_unknown one_of_pairs direction_lost label_only";

/// The parents as typed, in the order of the page.
pub(super) struct ParentsRepair<'t> {
    seed: Vec<&'t str>,
    pollen: Vec<&'t str>,
    /// Whether the sides bear names the page does not use.
    misnamed: bool,
    /// The word before the bracket.
    word: Option<&'t str>,
}

impl<'t> ParentsRepair<'t> {
    /// What is plain of `parents`; `None` when there is more in it than two sides, or the sides cannot be told apart.
    pub fn of(outline: &Outline<'t>, parents: PartId) -> Option<ParentsRepair<'t>> {
        let mut repair = ParentsRepair {
            seed: Vec::new(),
            pollen: Vec::new(),
            misnamed: false,
            word: outline.tag(parents),
        };
        match outline.part(parents).kind {
            Shape::Struct => repair.named(outline, parents)?,
            Shape::Tuple => repair.nameless(outline, parents)?,
            _ => return None,
        }
        let known_word = repair
            .word
            .is_some_and(|word| OTHER_WORDS.split(' ').any(|of| of == word));
        let told = !repair.seed.is_empty() || !repair.pollen.is_empty();
        (told && (repair.misnamed || !known_word)).then_some(repair)
    }

    fn named(&mut self, outline: &Outline<'t>, parents: PartId) -> Option<()> {
        for field in outline.children(parents) {
            let name = outline.name(field)?;
            let side = match (SEED.contains(&name), POLLEN.contains(&name)) {
                (true, _) => &mut self.seed,
                (_, true) => &mut self.pollen,
                _ => return None,
            };
            side.extend(texts(outline, field)?);
            self.misnamed |= !matches!(name, "seed" | "pollen");
        }
        Some(())
    }

    /// Two values without names: the seed parent is written first, as on a label.
    fn nameless(&mut self, outline: &Outline<'t>, parents: PartId) -> Option<()> {
        let mut sides = outline.children(parents);
        let (seed, pollen) = (sides.next()?, sides.next()?);
        if sides.next().is_some() {
            return None;
        }
        self.seed = texts(outline, seed)?;
        self.pollen = texts(outline, pollen)?;
        Some(())
    }

    /// The finding for these parents.
    pub fn finding(&self, file: FileId, outline: &Outline, parents: PartId) -> Finding {
        let range = outline.part(parents).range();
        let end = range.start + outline.slice(parents).lines().next().unwrap_or("").len() as u32;
        let finding = Finding::fault(Code("parents-not-read"), self.title())
            .at(Span::new(file, range.start..end))
            .found(self.found());
        let write = self.to_write();
        let mut finding = finding.needed(write.join(", or "));
        if end == range.end {
            let whole = write.iter().filter(|text| !text.contains('…'));
            finding = finding.offer(whole.map(|text| text.trim_matches('`').to_owned()));
        }
        if self.pollen.len() > 1 && self.seed.len() == 1 {
            finding
                .help("`pollen_one_of` if one of them is the father of all seedlings and it is not known which")
                .help("`pollen_mixed` if their pollen was mixed: then every seed had its own father")
        } else {
            finding.help("the seed parent bore the pods; the pollen parent gave the pollen")
        }
    }

    fn title(&self) -> String {
        if self.misnamed {
            return "the sides of a cross are called `seed` and `pollen`".into();
        }
        match (self.seed.len(), self.pollen.len()) {
            (1, 1) => "each parent needs the name of its side".into(),
            (0, _) | (_, 0) => "only one side of the cross is named".into(),
            _ => "`known` names one seed parent and one pollen parent".into(),
        }
    }

    fn found(&self) -> String {
        let side = |codes: &[&str], what: &str| match codes {
            [] => format!("no {what} parent"),
            codes => format!("{what} parent {}", codes.join(" and ")),
        };
        let sides = [side(&self.seed, "seed"), side(&self.pollen, "pollen")];
        sides.join(", ")
    }

    /// What may be written instead, the likeliest first.
    fn to_write(&self) -> Vec<String> {
        let list = |codes: &[&str]| format!("[\"{}\"]", codes.join("\", \""));
        match (&self.seed[..], &self.pollen[..]) {
            ([seed], [pollen]) => vec![format!("`known(seed: \"{seed}\", pollen: \"{pollen}\")`")],
            ([seed], []) => vec![
                format!("`pollen_unknown(seed: \"{seed}\")`"),
                format!("`open(seed: \"{seed}\")`"),
            ],
            ([], [pollen]) => vec![format!("`seed_unknown(pollen: \"{pollen}\")`")],
            ([seed], several) => ["pollen_one_of", "pollen_mixed"]
                .map(|word| format!("`{word}(seed: \"{seed}\", pollen: {})`", list(several)))
                .to_vec(),
            (several, [pollen]) => vec![format!(
                "`seed_one_of(seed: {}, pollen: \"{pollen}\")`",
                list(several)
            )],
            _ => vec!["`one_of_pairs([(seed: …, pollen: …), …])`".into()],
        }
    }
}

/// The text of a value, or those of a list of texts.
fn texts<'t>(outline: &Outline<'t>, part: PartId) -> Option<Vec<&'t str>> {
    if outline.part(part).kind == Shape::List {
        return outline
            .children(part)
            .map(|one| text(outline, one))
            .collect();
    }
    Some(vec![text(outline, part)?])
}

/// A plain text in quotation marks, without them.
fn text<'t>(outline: &Outline<'t>, part: PartId) -> Option<&'t str> {
    let inside = outline.slice(part).strip_prefix('"')?.strip_suffix('"')?;
    let in_code = |c: char| c.is_alphanumeric() || "-_.? ".contains(c);
    let plain = outline.part(part).kind == Shape::Text && inside.chars().all(in_code);
    plain.then_some(inside)
}

/// The one seed parent of parents at fault, when it stands there as a text.
pub(super) fn mother<'t>(outline: &Outline<'t>, page: PartId) -> Option<&'t str> {
    let fields = outline.children(page);
    let mut fields = fields.filter(|field| outline.name(*field) == Some("parents"));
    // Which of two was meant is not known.
    let parents = fields.next().filter(|_| fields.next().is_none())?;
    let place = outline.part(parents);
    let sound = |at: u32| !place.range().contains(&at);
    if !outline.faults().iter().all(|fault| sound(fault.start)) {
        return None;
    }
    let mut seed = outline
        .children(parents)
        .filter(|side| outline.name(*side).is_some_and(|name| SEED.contains(&name)));
    let only = seed.next()?;
    seed.next().is_none().then(|| text(outline, only))?
}
