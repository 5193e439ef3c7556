//! Lines of text in mixed faces: how wide they are, where to break them, and setting them on a scene.

use super::{Colour, Face, INK, SOFT, Scene, TextRun, width};
use crate::wording::{Name, stays_with_next};

/// A stretch of text in one face.
#[derive(Clone, Debug, PartialEq)]
pub struct Word {
    /// What it says, blanks included.
    pub text: String,
    /// In which face.
    pub face: Face,
}

impl Word {
    /// Upright text.
    pub fn roman(text: impl Into<String>) -> Word {
        Word {
            text: text.into(),
            face: Face::Roman,
        }
    }
}

/// Size and colour of a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// Size of the letters in points.
    pub size: f64,
    /// Their colour.
    pub colour: Colour,
}

impl Setting {
    /// Words that are read first.
    pub fn ink(size: f64) -> Setting {
        let colour = INK;
        Setting { size, colour }
    }

    /// Words that stand back.
    pub fn soft(size: f64) -> Setting {
        let colour = SOFT;
        Setting { size, colour }
    }
}

/// A name in its faces.
pub fn styled(name: &Name) -> impl Iterator<Item = Word> + '_ {
    name.iter().map(|run| Word {
        text: run.text.clone(),
        face: if run.italic {
            Face::Italic
        } else {
            Face::Roman
        },
    })
}

/// The width of a line in points.
pub fn line_width(line: &[Word], size: f64) -> f64 {
    line.iter()
        .map(|word| width(&word.text, word.face, size))
        .sum()
}

/// Sets a line from its left end on the baseline; returns where it ends.
pub fn set(scene: &mut Scene, line: &[Word], place: (f64, f64), setting: Setting) -> f64 {
    let mut x = place.0;
    for word in line {
        scene.text(TextRun {
            place: (x, place.1),
            size: setting.size,
            face: word.face,
            colour: setting.colour,
            text: word.text.clone(),
        });
        x += width(&word.text, word.face, setting.size);
    }
    x
}

/// Breaks words into lines no wider than `room` points, at blanks; what is wider than a line by itself is cut between
/// letters.
pub fn wrap(words: &[Word], size: f64, room: f64) -> Vec<Vec<Word>> {
    let (mut lines, mut line, mut used) = (Vec::new(), Vec::new(), 0.0);
    for cluster in clusters(words, size, room) {
        let whole = line_width(&cluster, size);
        let blank = cluster.last().map_or(0.0, |last| {
            width(&last.text, last.face, size) - width(last.text.trim_end(), last.face, size)
        });
        if !line.is_empty() && used + whole - blank > room {
            lines.push(tidy(std::mem::take(&mut line)));
            used = 0.0;
        }
        used += whole;
        line.extend(cluster);
    }
    if !line.is_empty() {
        lines.push(tidy(line));
    }
    lines
}

/// A line cut to `room` points, with an ellipsis where something was left out.
pub fn fit(line: &[Word], size: f64, room: f64) -> Vec<Word> {
    if line_width(line, size) <= room {
        return line.to_vec();
    }
    let mut kept = Vec::new();
    let mut left = room - width("…", Face::Roman, size);
    for word in line {
        let text = cut(word, size, left);
        left -= width(&text, word.face, size);
        let whole = text.len() == word.text.len();
        kept.push(Word {
            text,
            face: word.face,
        });
        if !whole {
            break;
        }
    }
    kept.push(Word::roman("…"));
    kept
}

/// The longest start of a word that fits into `room`, cut between characters.
fn cut(word: &Word, size: f64, room: f64) -> String {
    let mut ends: Vec<usize> = word.text.char_indices().map(|(at, _)| at).collect();
    ends.push(word.text.len());
    let fits = ends.partition_point(|&end| width(&word.text[..end], word.face, size) <= room);
    word.text[..ends[fits.saturating_sub(1)]].to_string()
}

/// What must stay together: everything up to and with a blank, over changes of face; the sign of a
/// parent and what [`stays_with_next`] joins stay with what follows them.
fn clusters(words: &[Word], size: f64, room: f64) -> Vec<Vec<Word>> {
    let pieces = words.iter().flat_map(|word| {
        let pieces = word.text.split_inclusive(' ');
        pieces.map(|piece| (piece, word.face))
    });
    let pieces: Vec<(&str, Face)> = pieces.collect();
    let (mut clusters, mut open) = (Vec::new(), Vec::new());
    for (at, (piece, face)) in pieces.iter().enumerate() {
        open.push(Word {
            text: (*piece).to_owned(),
            face: *face,
        });
        let next = pieces.get(at + 1).map_or("", |(next, _)| next);
        let (bare, next) = (piece.trim_end(), next.trim_end());
        let sign = matches!(bare.trim_start_matches('('), "♀" | "♂");
        if piece.ends_with(' ') && !sign && !stays_with_next(bare, next) {
            clusters.extend(cut_to(std::mem::take(&mut open), size, room));
        }
    }
    clusters.extend(cut_to(open, size, room));
    clusters
}

/// A cluster that fits, or its pieces cut between letters.
fn cut_to(cluster: Vec<Word>, size: f64, room: f64) -> Vec<Vec<Word>> {
    if line_width(&cluster, size) <= room {
        return if cluster.is_empty() {
            Vec::new()
        } else {
            vec![cluster]
        };
    }
    let mut parts = Vec::new();
    for mut rest in cluster {
        loop {
            let mut head = cut(&rest, size, room);
            if head.is_empty() {
                head = rest.text.chars().take(1).collect();
            }
            let tail = rest.text.split_off(head.len());
            parts.push(vec![Word {
                text: head,
                face: rest.face,
            }]);
            if tail.is_empty() {
                break;
            }
            rest.text = tail;
        }
    }
    parts
}

/// Pieces of one face joined again and the blank at the end taken off.
fn tidy(pieces: Vec<Word>) -> Vec<Word> {
    let mut line: Vec<Word> = Vec::new();
    for piece in pieces {
        match line.last_mut() {
            Some(last) if last.face == piece.face => last.text.push_str(&piece.text),
            _ => line.push(piece),
        }
    }
    if let Some(last) = line.last_mut() {
        last.text.truncate(last.text.trim_end().len());
    }
    line
}
