//! What web pages leave in a label: entities, tags, inch marks. Every letter keeps its column, so what is taken out
//! leaves spaces behind. Inside double quotes a label stays as received.

use super::letter::is_double;

/// The mark that stands for inches once it is known not to open a quote.
pub(in crate::naming) const INCH: char = '\u{2ba}';

/// Longest entity or tag that is looked for, in characters.
const LONGEST: usize = 80;

const ENTITIES: [(&str, char); 14] = [
    ("&times;", '×'),
    ("&#215;", '×'),
    ("&#xd7;", '×'),
    ("&amp;", '&'),
    ("&nbsp;", ' '),
    ("&#160;", ' '),
    ("&quot;", '"'),
    ("&#34;", '"'),
    ("&apos;", '\''),
    ("&#39;", '\''),
    ("&lsquo;", '‘'),
    ("&rsquo;", '’'),
    ("&ldquo;", '“'),
    ("&rdquo;", '”'),
];

const TAGS: [&str; 10] = [
    "i", "em", "b", "strong", "u", "span", "p", "br", "sup", "sub",
];

/// Puts entities, tags and inch marks into plain letters; says whether there were entities or tags.
pub(super) fn plain(letters: &mut [char]) -> bool {
    let (mut quoted, mut found, mut at) = (false, false, 0);
    while at < letters.len() {
        let (length, letter) = match letters[at] {
            mark if is_double(mark) && !quoted && is_inch(letters, at) => (1, INCH),
            mark if is_double(mark) => {
                quoted = !quoted;
                (1, mark)
            }
            '&' if !quoted => entity(letters, at).unwrap_or((1, '&')),
            '<' if !quoted => tag(letters, at).map_or((1, '<'), |length| (length, ' ')),
            other => (1, other),
        };
        found |= length > 1;
        letters[at] = letter;
        letters[at + 1..at + length].fill(' ');
        if length > 1 && is_double(letter) {
            quoted = !quoted;
        }
        at += length;
    }
    found
}

/// A double mark right behind a digit, with nothing behind it that it could open.
fn is_inch(letters: &[char], at: usize) -> bool {
    let digit = |letter: &char| letter.is_ascii_digit() || "¼½¾⅛⅜⅝⅞".contains(*letter);
    let after = letters.get(at + 1);
    at > 0
        && digit(&letters[at - 1])
        && after.is_none_or(|letter| letter.is_whitespace() || ",;)]".contains(*letter))
}

fn entity(letters: &[char], at: usize) -> Option<(usize, char)> {
    let ahead: String = letters[at..].iter().take(LONGEST).collect::<String>();
    let ahead = ahead.to_ascii_lowercase();
    let (entity, letter) = ENTITIES
        .iter()
        .find(|(entity, _)| ahead.starts_with(entity))?;
    Some((entity.len(), *letter))
}

/// How long the tag is that begins here.
fn tag(letters: &[char], at: usize) -> Option<usize> {
    let inside: String = letters[at + 1..]
        .iter()
        .take(LONGEST)
        .take_while(|letter| **letter != '>')
        .collect();
    let length = inside.chars().count() + 2;
    let closed = letters.get(at + length - 1) == Some(&'>');
    let name = inside.trim_start_matches('/').trim_end_matches('/');
    let name = name.split_whitespace().next()?.to_ascii_lowercase();
    (closed && TAGS.contains(&name.as_str())).then_some(length)
}
