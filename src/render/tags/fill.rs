//! The words of a tag in lines: which version of the name, how many lines, and letters of what size.

use crate::analysis::tags::Tag;
use crate::render::scene::{Face, POINTS, Word, line_width, styled, width, wrap};

/// How far letters reach above and below the baseline, in sizes of the letter (Libertinus Serif, measured).
pub(super) const ABOVE: f64 = 0.75;
pub(super) const BELOW: f64 = 0.26;
/// From one baseline to the next.
const LEADING: f64 = 1.1;
/// Sizes of the code's letters, points, the largest first. From 12 points, with capitals 2.7 mm high, they are read at
/// arm's length (common practice, no source).
const CODE_SIZES: [f64; 9] = [22.0, 18.0, 16.0, 14.0, 12.0, 10.5, 9.0, 8.0, 7.0];
/// The smallest letters of a code that are read at arm's length.
pub(super) const AT_ARMS_LENGTH: f64 = 12.0;
/// Sizes of all other letters.
const SIZES: [f64; 5] = [9.0, 8.0, 7.0, 6.5, 6.0];
/// Between parts of a line.
const BETWEEN: &str = " · ";

/// Words of one size on one baseline, millimetres from the upper left corner of the words.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Line {
    pub words: Vec<Word>,
    /// Left end of the baseline.
    pub at: (f64, f64),
    /// Size of the letters, points.
    pub size: f64,
}

/// The words of a tag in their places.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Filled {
    pub lines: Vec<Line>,
    /// Size of the code's letters, points.
    pub code: f64,
    pub parents: bool,
    /// Which version of the name, 0 for the longest.
    pub name: Option<usize>,
    /// How many of the details behind the name: sowing, sex, mark.
    pub details: usize,
}

/// The details in the order in which they find room; a plant has no count and a tray no sex.
pub(super) fn details(tag: &Tag) -> Vec<String> {
    let sex = tag.sex.map(str::to_owned);
    [tag.sown.clone(), tag.count.clone(), sex, tag.mark.clone()]
        .into_iter()
        .flatten()
        .collect()
}

/// Fills a space of `room` millimetres; `None` where not even the code fits.
pub(super) fn fill(tag: &Tag, room: (f64, f64)) -> Option<Filled> {
    let codes = CODE_SIZES
        .iter()
        .copied()
        .filter(|&size| fits_code(tag, size, room));
    let codes: Vec<f64> = codes.collect();
    let smallest = *codes.last()?;
    // A code that can be read at arm's length is never made smaller for the sake of other words.
    let least = codes.iter().copied().rfind(|&size| size >= AT_ARMS_LENGTH);
    let codes: Vec<f64> = codes
        .into_iter()
        .filter(|&size| size >= least.unwrap_or(smallest))
        .collect();
    let all = details(tag);
    wished(tag, all.len()).into_iter().find_map(|wish| {
        let flow = flow(tag, wish.parents, wish.name);
        let sizes = codes
            .iter()
            .flat_map(|&code| SIZES.iter().map(move |&size| (code, size)));
        sizes.into_iter().find_map(|(code, size)| {
            let lines = lines(tag, (code, size), (&flow, &all[..wish.details]), room)?;
            Some(Filled {
                lines,
                code,
                ..wish.clone()
            })
        })
    })
}

fn fits_code(tag: &Tag, size: f64, (wide, high): (f64, f64)) -> bool {
    width(&tag.id, Face::Bold, size) <= wide * POINTS && size * depth(&tag.id) <= high * POINTS
}

/// How much height a code takes, in sizes: without letters that reach below the line it takes less.
fn depth(code: &str) -> f64 {
    match code.contains(|c: char| "gjpqyQ,;_".contains(c)) {
        true => ABOVE + BELOW,
        false => ABOVE + 0.08,
    }
}

/// What is tried, the fullest first: the cross goes before the name, any name before none, a shorter name before the loss
/// of a detail.
fn wished(tag: &Tag, details: usize) -> Vec<Filled> {
    let names = (0..tag.names.len()).map(Some).collect::<Vec<_>>();
    let parents: &[bool] = if tag.parents.is_some() {
        &[true, false]
    } else {
        &[false]
    };
    let tiers = parents
        .iter()
        .flat_map(|&parents| [(parents, &names[..]), (parents, &[None][..])]);
    let wish = |parents, name, details| Filled {
        parents,
        name,
        details,
        ..Filled::default()
    };
    let mut wished = Vec::new();
    for (parents, names) in tiers {
        for details in (0..=details).rev() {
            wished.extend(names.iter().map(|name| wish(parents, *name, details)));
        }
    }
    wished
}

/// The cross and the name, one behind the other.
fn flow(tag: &Tag, parents: bool, name: Option<usize>) -> Vec<Word> {
    let mut words = Vec::new();
    let parents = tag.parents.as_ref().filter(|_| parents);
    words.extend(parents.map(|parents| Word::roman(parents.as_str())));
    if let Some(name) = name {
        if !words.is_empty() {
            words.push(Word::roman(BETWEEN));
        }
        words.extend(styled(&tag.names[name].text));
    }
    words
}

/// The code, beside it the details where they fit, and under it the rest in lines; `None` where that is too much.
fn lines(
    tag: &Tag,
    (code, size): (f64, f64),
    (flow, details): (&[Word], &[String]),
    (wide, high): (f64, f64),
) -> Option<Vec<Line>> {
    let room = wide * POINTS;
    let gap = 0.5 * code;
    let beside = room - width(&tag.id, Face::Bold, code) - gap;
    let told = Word::roman(details.join(BETWEEN));
    let is_beside = line_width(std::slice::from_ref(&told), size) <= beside;
    let mut flow = flow.to_vec();
    if !is_beside {
        if !flow.is_empty() {
            flow.push(Word::roman(BETWEEN));
        }
        flow.push(told.clone());
    }
    let head = match is_beside && !told.text.is_empty() {
        true => (code * depth(&tag.id)).max(code * ABOVE + size * BELOW),
        false => code * depth(&tag.id),
    };
    let below = high * POINTS - head;
    let most = libm::floor((below - size * (ABOVE + BELOW)) / (size * LEADING) + 1.0).max(0.0);
    if line_width(&flow, size) > room * most || has_wide_word(&flow, size, room) {
        return None;
    }
    let wrapped = wrap(&flow, size, room);
    if wrapped.len() > most as usize {
        return None;
    }
    let base = code * ABOVE;
    let word = Word {
        text: tag.id.clone(),
        face: Face::Bold,
    };
    let mut lines = vec![Line {
        words: vec![word],
        at: (0.0, base / POINTS),
        size: code,
    }];
    if is_beside && !told.text.is_empty() {
        let x = room - line_width(std::slice::from_ref(&told), size);
        lines.push(Line {
            words: vec![told],
            at: (x / POINTS, base / POINTS),
            size,
        });
    }
    let first = head + size * ABOVE;
    for (at, words) in wrapped.into_iter().enumerate() {
        let y = first + size * LEADING * at as f64;
        lines.push(Line {
            words,
            at: (0.0, y / POINTS),
            size,
        });
    }
    Some(lines)
}

/// Whether a stretch without blanks is wider than a line: it would be cut between letters.
fn has_wide_word(flow: &[Word], size: f64, room: f64) -> bool {
    let mut used = 0.0;
    for word in flow {
        for piece in word.text.split_inclusive(' ') {
            used += width(piece.trim_end(), word.face, size);
            if used > room {
                return true;
            }
            if piece.ends_with(' ') {
                used = 0.0;
            }
        }
    }
    false
}
