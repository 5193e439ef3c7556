//! Which characters are blank, make up a word or a number, or are quotation marks.

pub(super) fn is_wide_blank(c: char) -> bool {
    matches!(
        c,
        '\u{85}' | '\u{200e}' | '\u{200f}' | '\u{2028}' | '\u{2029}'
    )
}

/// What a word or number is made of; `.`, `+` and `-` are faults in a word that is not raw.
pub(super) fn is_word_byte(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || matches!(byte, b'_' | b'.' | b'+' | b'-')
}

pub(super) fn is_word_char(c: char) -> bool {
    if c.is_ascii() {
        is_word_byte(c as u8)
    } else {
        c.is_alphanumeric()
    }
}

pub(super) fn is_curly(c: char) -> bool {
    matches!(c, '“' | '”' | '„' | '‟' | '«' | '»' | '‘' | '’')
}

pub(super) fn is_quote(c: char) -> bool {
    c == '"' || is_curly(c)
}

/// Whether a text may end before this: what follows a value is a comma, a colon, a closing bracket or the end.
pub(super) fn may_follow(rest: &str) -> bool {
    let next = rest.trim_start();
    next.is_empty() || next.starts_with([',', ')', ']', '}', ':', '/'])
}

/// Whether RON reads this as a number: a sign, `inf` or `NaN`, digits to base 2, 8, 10 or 16, or a decimal number with
/// an exponent; then perhaps its size, such as `u8`.
pub(super) fn is_number(word: &str) -> bool {
    if word.bytes().all(|byte| byte.is_ascii_digit()) {
        return true;
    }
    let word = word.strip_prefix(['+', '-']).unwrap_or(word);
    let word = [
        "i8", "i16", "i32", "i64", "i128", "u8", "u16", "u32", "u64", "u128", "f32", "f64",
    ]
    .iter()
    .filter(|_| !word.starts_with("0x"))
    .find_map(|size| word.strip_suffix(size))
    .unwrap_or(word);
    let digits = |digits: &str, base: u32| {
        digits.chars().any(|c| c.is_digit(base))
            && digits.chars().all(|c| c == '_' || c.is_digit(base))
    };
    match word.get(..2) {
        Some("0x") => return digits(&word[2..], 16),
        Some("0b") => return digits(&word[2..], 2),
        Some("0o") => return digits(&word[2..], 8),
        _ => {}
    }
    let (number, exponent) = word.split_once(['e', 'E']).unwrap_or((word, "0"));
    let exponent = exponent.strip_prefix(['+', '-']).unwrap_or(exponent);
    let plain = number.replacen('.', "", 1);
    word == "inf" || word == "NaN" || (digits(&plain, 10) && digits(exponent, 10))
}
