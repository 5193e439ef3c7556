//! Fenced blocks of a page, and rows of its tables.

/// A fenced block.
pub struct Fence<'p> {
    /// What stands behind the opening fence, such as `ron Pod`.
    pub info: &'p str,
    /// The text between the fences.
    pub text: String,
}

/// All fenced blocks of a page, in order.
pub fn fences(page: &str) -> Vec<Fence<'_>> {
    let mut found = Vec::new();
    let mut lines = page.lines();
    while let Some(line) = lines.next() {
        let Some(info) = line.strip_prefix("```") else {
            continue;
        };
        let inside: Vec<&str> = lines.by_ref().take_while(|line| *line != "```").collect();
        found.push(Fence {
            info: info.trim(),
            text: inside.join("\n"),
        });
    }
    found
}

/// The rows of the tables of a text without their headings, cells trimmed.
pub fn table_rows(text: &str) -> Vec<Vec<&str>> {
    let mut rows = Vec::new();
    let mut in_table = false;
    for line in text.lines() {
        let Some(inner) = line
            .strip_prefix('|')
            .and_then(|line| line.strip_suffix('|'))
        else {
            in_table = false;
            continue;
        };
        if inner.starts_with("---") {
            in_table = true;
        } else if in_table {
            rows.push(inner.split('|').map(str::trim).collect());
        }
    }
    rows
}

/// A cell without the marks that set it as code.
pub fn code(cell: &str) -> &str {
    cell.trim_matches('`')
}
