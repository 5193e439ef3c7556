//! The pedigree on a card: the plant, its parents and theirs, joined by lines; a broken line means doubt.

use super::flow::{Flow, bold};
use crate::render::scene::{INK, Path, SOFT, Stroke, Word, styled};
use crate::report::card::{Ancestor, Card};

/// How far a generation is set in, in sizes of the letters.
const INDENT: f64 = 1.9;

/// Draws it in one piece.
pub(super) fn tree(flow: &mut Flow, card: &Card) {
    let (look, size) = (flow.look, flow.look.body);
    let entries: Vec<(usize, Vec<Word>, bool)> = card.ancestors.iter().map(entry).collect();
    let left = |generation: usize| look.margin + INDENT * size * generation as f64;
    let room = |generation: usize| look.width - look.margin - left(generation);
    let heights = entries
        .iter()
        .map(|(generation, words, _)| Flow::height(words, size, room(*generation)));
    flow.need(size * 3.0 + heights.sum::<f64>() + entries.len() as f64 * size * 0.3);
    flow.words(
        &[bold(card.id.as_str())],
        (look.margin, look.room()),
        (size, INK),
    );
    // Where a line to a plant of each generation begins: under the plant it belongs to.
    let mut from = [flow.y; 2];
    for (generation, words, doubtful) in entries {
        flow.gap(size * 0.3);
        let base = flow.words(&words, (left(generation), room(generation)), (size, INK));
        let (x, y) = (left(generation - 1) + size * 0.5, base - size * 0.28);
        let stroke = match doubtful {
            true => Stroke::dashed(SOFT, 0.8, &[2.5, 2.0]),
            false => Stroke::solid(SOFT, 0.8),
        };
        let line = Path::polyline(&[
            (x, from[generation - 1]),
            (x, y),
            (left(generation) - size * 0.3, y),
        ]);
        flow.scene().stroke(line, stroke);
        // The next of the same generation goes on from here.
        from[generation - 1] = y;
        if generation == 1 {
            from[1] = flow.y;
        }
    }
}

fn entry(of: &Ancestor) -> (usize, Vec<Word>, bool) {
    let side = of.side.map(|side| format!("{side} ")).unwrap_or_default();
    let mut words = vec![bold(format!("{side}{}", of.clone))];
    if !of.name.is_empty() {
        words.push(Word::roman("  "));
        words.extend(styled(&of.name));
    }
    (of.generation.clamp(1, 2), words, of.doubtful)
}
