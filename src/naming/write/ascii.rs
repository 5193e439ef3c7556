//! Text in ASCII throughout: signs as letters, marks of sex in brackets, letters without their accents.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// What is written for a letter or mark that has a plain form.
fn plain(letter: char) -> Option<&'static str> {
    Some(match letter {
        '×' | '✕' | '✖' | '╳' | '⨯' => "x",
        '♀' => "(f)",
        '♂' => "(m)",
        '–' | '—' | '‐' | '‑' | '−' => "-",
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '‘' | '’' | '‛' | '´' | '′' | '‚' => "'",
        '“' | '”' | '„' | '″' | 'ʺ' | '«' | '»' => "\"",
        '…' => "...",
        '·' | '•' => "-",
        '°' => " deg ",
        '±' => "+/-",
        '™' => "(TM)",
        '®' => "(R)",
        'ß' => "ss",
        'æ' => "ae",
        'Æ' => "Ae",
        'œ' => "oe",
        'ø' => "o",
        'Ø' => "O",
        'ł' => "l",
        'Ł' => "L",
        'đ' => "d",
        '\u{a0}' | '\u{2009}' | '\u{202f}' => " ",
        _ => return None,
    })
}

/// The text in ASCII; a letter that has no plain form is written `?`, so that its place is seen.
pub fn ascii(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match plain(letter) {
            _ if letter.is_ascii() => out.push(letter),
            Some(plain) => out.push_str(plain),
            None => push_without_accents(letter, &mut out),
        }
    }
    out
}

fn push_without_accents(letter: char, out: &mut String) {
    let base: String = std::iter::once(letter)
        .nfkd()
        .filter(|part| !is_combining_mark(*part))
        .filter(char::is_ascii)
        .collect();
    let invisible =
        is_combining_mark(letter) || matches!(letter, '\u{200b}'..='\u{200f}' | '\u{feff}');
    match base.is_empty() {
        true if invisible => {}
        true => out.push('?'),
        false => out.push_str(&base),
    }
}
