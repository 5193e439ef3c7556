//! Kinds written short: the fewest letters that tell each from the others, on a sheet and at the keyboard.

/// For each kind the shortest beginning that no other kind has; all of it where one is the beginning of another.
pub fn shortest(kinds: &[&str]) -> Vec<String> {
    let lower: Vec<Vec<char>> = kinds
        .iter()
        .map(|kind| kind.to_lowercase().chars().collect())
        .collect();
    let is_own = |at: usize, length: usize| {
        let others = lower.iter().enumerate().filter(|(other, _)| *other != at);
        let mut same = others.filter(|(_, kind)| kind.get(..length) == lower[at].get(..length));
        same.next().is_none()
    };
    (0..kinds.len())
        .map(|at| {
            let lengths = 1..=lower[at].len();
            let length = lengths.into_iter().find(|length| is_own(at, *length));
            lower[at][..length.unwrap_or(lower[at].len())]
                .iter()
                .collect()
        })
        .collect()
}

/// The kind meant by a word: the kind itself in any case, or a beginning that only one kind has.
pub fn kind_meant(kinds: &[&str], typed: &str) -> Option<usize> {
    let typed = typed.trim().to_lowercase();
    let whole = kinds.iter().position(|kind| kind.to_lowercase() == typed);
    let mut begun = (0..kinds.len()).filter(|at| kinds[*at].to_lowercase().starts_with(&typed));
    whole.or_else(|| match (begun.next(), begun.next()) {
        (Some(only), None) if !typed.is_empty() => Some(only),
        _ => None,
    })
}
