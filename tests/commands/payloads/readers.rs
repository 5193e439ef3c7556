//! Reads outputs as another program would: XML by a parser, CSV by its library, DOT by its grammar, Markdown by its
//! rule of backslashes.

use super::list::is_raw;

/// The first character of a text that must not stand there, with what stands before it.
pub fn raw(text: &str, also_fine: &[char]) -> Option<String> {
    let at = text
        .char_indices()
        .find(|(_, c)| is_raw(*c) && !also_fine.contains(c))?
        .0;
    let before: Vec<char> = text[..at].chars().rev().take(60).collect();
    let before: String = before.into_iter().rev().collect();
    Some(format!("{:?} behind {before:?}", text[at..].chars().next()))
}

/// All text of an XML document, a blank between two elements; only these elements may be there.
pub fn xml(document: &str, elements: &[&str]) -> Result<String, String> {
    let parsed = roxmltree::Document::parse(document).map_err(|fault| fault.to_string())?;
    let mut texts = Vec::new();
    for part in parsed.descendants() {
        if part.is_element() && !elements.contains(&part.tag_name().name()) {
            return Err(format!("an element <{}>", part.tag_name().name()));
        }
        if part.is_comment() || part.is_pi() {
            return Err("a comment or an instruction".to_owned());
        }
        texts.extend(part.text().filter(|_| part.is_text()));
    }
    Ok(texts.join(" "))
}

/// Cells of CSV; a cell that a spreadsheet would compute is an error.
pub fn csv(bytes: &[u8]) -> Result<String, String> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .from_reader(bytes);
    let mut cells = Vec::new();
    for row in reader.records() {
        let row = row.map_err(|fault| fault.to_string())?;
        for cell in &row {
            if is_formula(cell) && cell.parse::<f64>().is_err() {
                return Err(format!("a cell that is computed: {cell}"));
            }
            let bare = cell.strip_prefix('\'').filter(|rest| is_formula(rest));
            cells.push(bare.unwrap_or(cell).to_owned());
        }
    }
    Ok(cells.join("\n"))
}

fn is_formula(cell: &str) -> bool {
    cell.trim_start()
        .starts_with(['=', '+', '-', '@', '＝', '＋', '－', '＠'])
}

/// All texts of a DOT document, which may hold nothing but statements of our own words and quoted or HTML-like values
/// (the grammar at the end of Graphviz's page "DOT Language", from memory).
pub fn dot(document: &str) -> Result<String, String> {
    let body = document
        .strip_prefix("digraph pedigree {\n")
        .and_then(|rest| rest.strip_suffix("}\n"))
        .ok_or("no digraph")?;
    let mut texts = Vec::new();
    let (mut rest, mut shape) = (body, String::new());
    while let Some(first) = rest.chars().next() {
        let length = match first {
            '"' => {
                let (text, length) = quoted(rest)?;
                texts.push(xml(&format!("<x>{text}</x>"), &["x"])?);
                shape.push('"');
                length
            }
            '<' => {
                let (text, length) = html(rest)?;
                if text.contains('\\') {
                    return Err(format!("a backslash in <{text}>"));
                }
                texts.push(xml(
                    &format!("<x>{text}</x>"),
                    &["x", "B", "BR", "FONT", "I", "TABLE", "TD", "TR"],
                )?);
                shape.push('<');
                length
            }
            first => {
                shape.push(first);
                first.len_utf8()
            }
        };
        rest = &rest[length..];
    }
    let ours = |c: char| c.is_ascii_alphanumeric() || "_.->=[]{}, :;\n\"<".contains(c);
    match shape.chars().find(|c| !ours(*c)) {
        Some(c) => Err(format!("{c:?} outside a text")),
        None => Ok(texts.join("\n")),
    }
}

/// The text of `"…"` with its escapes undone, and the length of the whole; only `\\` and `\"` are text in every place.
fn quoted(rest: &str) -> Result<(String, usize), String> {
    let (mut text, mut escaped) = (String::new(), false);
    for (at, c) in rest.char_indices().skip(1) {
        match (escaped, c) {
            (true, '"' | '\\') => (text.push(c), escaped = false).1,
            (true, c) => return Err(format!("an escape \\{c}")),
            (false, '\\') => escaped = true,
            (false, '"') => return Ok((text, at + 1)),
            (false, c) => text.push(c),
        }
    }
    Err("a quoted text without end".into())
}

/// What stands between `<` and the `>` that closes it, and the length of the whole.
fn html(rest: &str) -> Result<(&str, usize), String> {
    let mut depth = 0;
    for (at, c) in rest.char_indices() {
        match c {
            '<' => depth += 1,
            '>' => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return Ok((&rest[1..at], at + 1));
        }
    }
    Err("a label without end".into())
}

/// Markdown without its backslashes and entities; a mark of the language that stands without a backslash is an error,
/// but for the stars around Latin and the brackets around the codes of notes.
pub fn markdown(text: &str) -> Result<String, String> {
    let mut out = String::new();
    let mut letters = text.char_indices();
    while let Some((at, c)) = letters.next() {
        let rest = &text[at..];
        match c {
            '\\' => match letters.next() {
                Some((_, mark)) if mark.is_ascii_punctuation() => out.push(mark),
                _ => return Err(format!("a backslash before no mark: {rest:.20}")),
            },
            '&' => {
                let known = [("&amp;", '&'), ("&lt;", '<'), ("&gt;", '>')];
                let Some((entity, mark)) =
                    known.iter().find(|(entity, _)| rest.starts_with(entity))
                else {
                    return Err(format!(
                        "a bare &: {}",
                        rest.chars().take(20).collect::<String>()
                    ));
                };
                out.push(*mark);
                letters.nth(entity.len() - 2);
            }
            '<' | '>' | '`' | '|' | '~' | '_' | '#' | '{' => {
                return Err(format!(
                    "a bare {c}: {}",
                    rest.chars().take(20).collect::<String>()
                ));
            }
            ']' if rest[1..].starts_with(['(', '[', ':']) => return Err("a link".into()),
            '*' => {}
            c => out.push(c),
        }
    }
    Ok(out)
}

#[test]
fn each_reader_sees_what_is_wrong() {
    for broken in [
        "<a><b></a>",
        "<a>&bogus;</a>",
        "<a>\u{1}</a>",
        "<a><script/></a>",
        "<a><!-- --></a>",
    ] {
        assert!(xml(broken, &["a"]).is_err(), "{broken}");
    }
    for broken in ["=1+1", "x,\"@SUM(1)\"", " -2+3", "＝1"] {
        assert!(csv(broken.as_bytes()).is_err(), "{broken}");
    }
    assert_eq!(csv(b"-3.5,'=1\r\n").as_deref(), Ok("-3.5\n=1"));
    for broken in [
        "digraph pedigree {\n a [label=\"x\"y\"];}\n",
        "digraph pedigree {\n a [label=\"\\N\"];}\n",
        "digraph pedigree {\n a [label=<<b>x</b>>];}\n",
        "digraph pedigree {\n a'port [label=x];}\n",
        "digraph pedigree {\n a [label=<x\\N>];}\n",
    ] {
        assert!(dot(broken).is_err(), "{broken}");
    }
    let fine = "digraph pedigree {\n  a -> b [label=<x<BR/>&lt;>, tooltip=\"y\\\\\"];\n}\n";
    assert_eq!(dot(fine).as_deref(), Ok("x <\ny\\"));
    for broken in ["a <b>", "`x`", "[a](b)", "_x_", "&bogus;"] {
        assert!(markdown(broken).is_err(), "{broken}");
    }
    assert_eq!(
        markdown("*N. x* \\[a\\](b) &lt;").as_deref(),
        Ok("N. x [a](b) <")
    );
    assert!(raw("a\u{202e}", &[]).is_some() && raw("a\n", &['\n']).is_none());
}
