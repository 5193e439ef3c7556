//! A card laid out.

use super::flow::{Flow, bold};
use super::look::Look;
use super::tree::tree;
use crate::render::scene::{Colour, PAPER, Path, Photo, SOFT, Scene, Word, styled};
use crate::report::Fact;
use crate::report::card::Card;
use std::sync::Arc;

/// Sizes that are tried to keep a card on one page; the smallest letters on A5 are 6 points.
const SIZES: [f64; 6] = [1.0, 0.96, 0.92, 0.88, 0.84, 0.8];

/// The pages of a card, with the photo of the plant where there is one: one where letters no smaller than four fifths allow it. For a phone one as long as it needs to be.
pub fn pages(card: &Card, photo: Option<&Arc<Photo>>, look: Look) -> Vec<Scene> {
    let in_sizes = SIZES.iter();
    let in_sizes = in_sizes.map(|&size| laid_out(card, photo, look.in_size(size)));
    let mut several = None;
    for pages in in_sizes {
        if pages.len() == 1 {
            return pages;
        }
        several.get_or_insert(pages);
    }
    several.unwrap_or_default()
}

fn laid_out(card: &Card, photo: Option<&Arc<Photo>>, look: Look) -> Vec<Scene> {
    let title = format!("{}: {}", card.id, card.plain_name());
    let mut flow = Flow::new(look, &title);
    head(&mut flow, card);
    if let (Some(of), Some(photo)) = (&card.photo, photo) {
        flow.photo(photo, &of.caption());
    }
    facts(&mut flow, &card.facts);
    flow.below_photo();
    if !card.traits.is_empty() {
        flow.heading(&card.traits_heading());
        for of in &card.traits {
            flow.fact(&of.name, &[Word::roman(of.words())]);
        }
    }
    flow.heading("Parents and their parents; a broken line means doubt");
    match card.ancestors.is_empty() {
        true => flow.line(&[Word::roman("not recorded")], look.body),
        false => tree(&mut flow, card),
    }
    flow.heading("Evidence");
    for line in card.evidence_lines() {
        flow.line(&[Word::roman(line)], look.body);
    }
    if !card.kept.is_empty() {
        flow.heading("Kept");
        facts(&mut flow, &card.kept);
    }
    flow.heading("Please note");
    for caution in &card.cautions {
        flow.line(&[Word::roman(caution.as_str())], look.small);
    }
    foot(&mut flow, card);
    flow.finish()
}

/// All pages one under the other, on paper.
pub fn picture(card: &Card, photo: Option<&Arc<Photo>>, look: Look) -> Scene {
    let mut all = Scene::default();
    for page in pages(card, photo, look) {
        let top = all.height;
        all.width = page.width;
        all.height = top + page.height;
        all.title = page.title.clone();
        all.description = page.description.clone();
        all.marks
            .extend(page.marks.into_iter().map(|mark| mark.moved((0.0, top))));
    }
    let mut scene = Scene {
        marks: Vec::new(),
        ..all.clone()
    };
    scene.fill(Path::rect(0.0, 0.0, all.width, all.height), PAPER);
    scene.marks.extend(all.marks);
    scene
}

/// The name in full, and under it the code and what else it is called.
fn head(flow: &mut Flow, card: &Card) {
    let look = flow.look;
    let name: Vec<Word> = styled(&card.name).collect();
    flow.line(&name, look.title);
    flow.gap(look.body * 0.4);
    let mut words = vec![bold(card.id.as_str())];
    words.extend(
        card.also
            .as_ref()
            .map(|also| Word::roman(format!("  {also}"))),
    );
    flow.line(&words, look.body * 1.25);
    flow.gap(look.body * 0.5);
}

fn facts(flow: &mut Flow, facts: &[Fact]) {
    for fact in facts {
        flow.fact(fact.label, &[Word::roman(fact.value.as_str())]);
    }
}

/// Who grew it, and what the card is.
fn foot(flow: &mut Flow, card: &Card) {
    let (look, soft): (Look, Colour) = (flow.look, SOFT);
    if !card.grower.is_empty() {
        flow.heading("Grower");
        flow.line(&[Word::roman(card.grower.join(" · "))], look.body);
    }
    flow.gap(look.body * 0.6);
    let made = format!(
        "Written from the grower's records on {}. What is not recorded is left out.",
        card.made
    );
    flow.words(
        &[Word::roman(made)],
        (look.margin, look.room()),
        (look.small, soft),
    );
}
