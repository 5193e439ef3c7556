//! A change shown before it is made: for each page the lines taken out and put in, with a line around them.

use super::draft::PageChange;
use similar::TextDiff;

/// The lines that differ, page after page: `-` before what goes, `+` before what comes.
pub fn difference(changes: &[PageChange]) -> String {
    let mut out = String::new();
    for change in changes {
        let (was, now) = change.texts();
        let (from, to) = match (&change.was, &change.now) {
            (None, _) => ("no page".to_owned(), change.path.clone()),
            (_, None) => (change.path.clone(), "no page".to_owned()),
            _ => (change.path.clone(), change.path.clone()),
        };
        let diff = TextDiff::from_lines(was, now);
        out.push_str(
            &diff
                .unified_diff()
                .context_radius(1)
                .header(&from, &to)
                .to_string(),
        );
    }
    out
}
