//! Rows that say the same of several seedlings of one cross, as one row.
//!
//! Siblings share parents, so tables of kinship repeat one figure for each of them. Which rows say the same is the
//! caller's to know; the order is never changed.

/// Rows one after another that say the same of seedlings of one cross, with their codes as one phrase: `X18-01-1`,
/// `X18-01-1, 3, 6 to 13`.
pub(crate) fn alike_siblings<R>(
    rows: &[R],
    code: impl Fn(&R) -> &str,
    same: impl Fn(&R, &R) -> bool,
) -> Vec<(String, &[R])> {
    let cross = |row: &R| seedling(code(row)).map(|(cross, _)| cross.to_owned());
    let alike = |a: &R, b: &R| cross(a).is_some() && cross(a) == cross(b) && same(a, b);
    let phrase = |group: &[R]| match group {
        [one] => code(one).to_owned(),
        many => {
            let numbers: Vec<u32> = many
                .iter()
                .filter_map(|row| seedling(code(row)))
                .map(|(_, number)| number)
                .collect();
            format!(
                "{}-{}",
                cross(&many[0]).unwrap_or_default(),
                spans(&numbers)
            )
        }
    };
    let groups = rows.chunk_by(alike);
    groups.map(|group| (phrase(group), group)).collect()
}

/// A code's cross and plain number; `None` for other codes and for numbers that would not be written back the same.
fn seedling(code: &str) -> Option<(&str, u32)> {
    let (cross, number) = code.rsplit_once('-')?;
    let plain: u32 = number.parse().ok()?;
    (plain.to_string() == number).then_some((cross, plain))
}

/// Numbers in the order given, three or more in a row as a span: `1, 3, 6 to 13`.
fn spans(numbers: &[u32]) -> String {
    let runs = numbers.chunk_by(|a, b| a.checked_add(1) == Some(*b));
    let words: Vec<String> = runs
        .flat_map(|run| match run {
            [first, .., last] if run.len() > 2 => vec![format!("{first} to {last}")],
            few => few.iter().map(u32::to_string).collect(),
        })
        .collect();
    words.join(", ")
}
