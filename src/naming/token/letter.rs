//! What a letter or mark is: sign, look-alike, quote, bracket, or nothing to be seen.

/// A stroke means Purdy notation, unless a sign of crossing stands in the label as well or it only joins highland and
/// lowland.
pub(super) fn has_strokes(letters: &[char]) -> bool {
    let stroke = (0..letters.len()).any(|at| letters[at] == '/' && !joins_altitudes(letters, at));
    let crossed = (0..letters.len()).any(|at| is_sign(letters[at]) && !glued_to_name(letters, at));
    stroke && !crossed && !lone_x(letters)
}

/// `×dominii` at the start of a name: its sign crosses nothing.
fn glued_to_name(letters: &[char], at: usize) -> bool {
    let before = at.checked_sub(1).map(|before| letters[before]);
    let starts =
        before.is_none_or(|before| before.is_whitespace() || before == '/' || before == '*');
    starts && letters.get(at + 1).is_some_and(|next| next.is_alphabetic())
}

fn joins_altitudes(letters: &[char], at: usize) -> bool {
    let around = letters
        .get(at.wrapping_sub(2)..(at + 3).min(letters.len()))
        .unwrap_or_default();
    matches!(
        around,
        ['H', 'L', '/', 'L', 'L'] | ['L', 'L', '/', 'H', 'L']
    )
}

fn lone_x(letters: &[char]) -> bool {
    let quoted = |at: usize| {
        at > 0
            && is_single(letters[at - 1])
            && letters.get(at + 1).is_some_and(|next| is_single(*next))
    };
    (0..letters.len())
        .any(|at| is_letter_sign(letters[at]) && stands_alone(letters, at, at + 1) && !quoted(at))
}

pub(super) fn stands_alone(letters: &[char], from: usize, to: usize) -> bool {
    let bound = |letter: Option<&char>| letter.is_none_or(|&letter| bounds_a_letter_sign(letter));
    bound(from.checked_sub(1).and_then(|before| letters.get(before))) && bound(letters.get(to))
}

fn bounds_a_letter_sign(letter: char) -> bool {
    letter.is_whitespace()
        || is_bracket(letter)
        || is_single(letter)
        || is_double(letter)
        || "♀♂?,".contains(letter)
}

pub(in crate::naming) fn is_sign(letter: char) -> bool {
    matches!(letter, '×' | '✕' | '✖' | '╳' | '⨯')
}

pub(in crate::naming) fn is_letter_sign(letter: char) -> bool {
    matches!(letter, 'x' | 'X' | '\u{445}' | '\u{425}' | 'χ')
}

pub(super) fn is_bracket(letter: char) -> bool {
    "()[]{}".contains(letter)
}

pub(super) fn is_single(letter: char) -> bool {
    matches!(letter, '\'' | '‘' | '’' | '‛' | '`' | '´' | '′')
}

pub(in crate::naming) fn is_double(letter: char) -> bool {
    matches!(letter, '"' | '“' | '”' | '„' | '″')
}

/// Zero-width, direction and joining marks: copied along from web pages, never meant.
pub(super) fn is_invisible(letter: char) -> bool {
    matches!(letter, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}')
        || matches!(letter, '\u{fe0e}' | '\u{fe0f}')
}

/// A picture or ornament, which no name holds.
pub(in crate::naming) fn is_picture(letter: char) -> bool {
    matches!(letter, '\u{1f000}'..='\u{1faff}' | '\u{2600}'..='\u{27bf}' | '\u{2b00}'..='\u{2bff}' | '\u{25a0}'..='\u{25ff}')
        && !is_sign(letter)
        && !matches!(letter, '♀' | '♂')
}

pub(in crate::naming) fn closing(bracket: char) -> char {
    match bracket {
        '(' => ')',
        '[' => ']',
        _ => '}',
    }
}
