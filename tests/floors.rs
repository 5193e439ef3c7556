//! Holds the floors: imports point down, a crate is named only in its place.
//!
//! Reads every file in `src` as a row of words and signs (comments and texts left out) and looks at paths that begin
//! at the crate's root and at words that belong to one place.
//!
//! Inside a folder files do not import each other in a circle, neither one by one nor folder by folder; only the head of
//! a folder (`mod.rs`) and its parts may name each other. What a head hands on counts as an import of the file that
//! defines it.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// Modules by floor, lowest first; those of one row know nothing of each other.
const FLOORS: [&[&str]; 15] = [
    &["text", "picture", "numeric", "statistics", "planning"],
    &["diagnostic"],
    &["record"],
    &["registry", "wording"],
    &["lineage"],
    &["naming", "ancestry", "kinship", "observation"],
    &["evidence"],
    &["context"],
    &["check"],
    &["analysis"],
    &["recording"],
    &["report"],
    &["render"],
    &["server"],
    &["cli"],
];

/// Words with the only places (beginnings of paths in `src`) where they may stand.
const PLACES: &[(&str, &[&str])] = &[
    ("ron", &["record/"]),
    ("Deserialize", &["record/"]),
    ("indexmap", &["registry/"]),
    ("petgraph", &["lineage/"]),
    ("num_rational", &["numeric/"]),
    (
        "Serialize",
        &[
            "report/",
            "analysis/",
            "observation/",
            "wording.rs",
            "record/",
        ],
    ),
    ("dot_structures", &["render/"]),
    ("dot_generator", &["render/"]),
    ("tiny_skia", &["render/"]),
    ("harfrust", &["render/"]),
    ("pdf_writer", &["render/pdf/"]),
    ("subsetter", &["render/pdf/"]),
    ("qrcode", &["render/tags/", "picture/", "server/"]),
    ("maud", &["render/album/"]),
    ("calamine", &["text/"]),
    ("image", &["picture/"]),
    ("rxing", &["picture/"]),
    ("exif", &["picture/"]),
    ("base64", &["render/"]),
    ("ZipWriter", &["text/packed.rs"]),
    ("rustyline", &["cli/"]),
    ("shlex", &["cli/"]),
    ("fs", &["text/", "record/read.rs"]),
    ("tempfile", &["text/"]),
    ("rustix", &["text/"]),
    ("clap", &["cli/"]),
    ("clap_complete", &["cli/"]),
    ("clap_mangen", &["cli/"]),
    ("ctrlc", &["cli/"]),
    ("terminal_size", &["cli/"]),
    ("stdout", &["cli/"]),
    ("stderr", &["cli/"]),
    ("println", &["cli/"]),
    ("print", &["cli/"]),
    ("eprintln", &["cli/"]),
    ("eprint", &["cli/"]),
    ("dbg", &[]),
    ("SystemTime", &["cli/"]),
    ("Instant", &["cli/", "server/"]),
    ("now", &["cli/", "server/"]),
    ("axum", &["server/"]),
    ("hyper", &["server/"]),
    ("hyper_util", &["server/"]),
    ("http_body_util", &["server/"]),
    ("tokio", &["server/"]),
    ("getrandom", &["server/"]),
];

/// A word or sign of a source text.
#[derive(Clone, PartialEq, Eq, Debug)]
enum Token {
    Word(String),
    Sign(char),
}

impl Token {
    fn is(&self, sign: char) -> bool {
        *self == Token::Sign(sign)
    }

    fn word(&self) -> &str {
        match self {
            Token::Word(word) => word,
            Token::Sign(_) => "",
        }
    }
}

/// The words and signs of a Rust text, without comments, texts and characters.
fn tokens(text: &str) -> Vec<Token> {
    let mut tokens = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let length = if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if rest.starts_with("/*") {
            rest.find("*/").map_or(rest.len(), |end| end + 2)
        } else if let Some(length) = raw_text(rest) {
            length
        } else if first == '"' {
            quoted(rest)
        } else if first == '\'' {
            character(rest)
        } else if first.is_alphanumeric() || first == '_' {
            let length = rest
                .find(|c: char| !c.is_alphanumeric() && c != '_')
                .unwrap_or(rest.len());
            tokens.push(Token::Word(rest[..length].to_string()));
            length
        } else {
            if !first.is_whitespace() {
                tokens.push(Token::Sign(first));
            }
            first.len_utf8()
        };
        rest = &rest[length..];
    }
    tokens
}

/// The length of `r"…"` or `r#"…"#` at the start of a text.
fn raw_text(text: &str) -> Option<usize> {
    let inside = text.strip_prefix("br").or(text.strip_prefix('r'))?;
    let hashes = inside.len() - inside.trim_start_matches('#').len();
    inside[hashes..].strip_prefix('"')?;
    let close = format!("\"{}", "#".repeat(hashes));
    let start = text.len() - inside.len() + hashes + 1;
    Some(
        text[start..]
            .find(&close)
            .map_or(text.len(), |end| start + end + close.len()),
    )
}

/// The length of `"…"` at the start of a text.
fn quoted(text: &str) -> usize {
    let mut escaped = false;
    let end = text.char_indices().skip(1).find(|(_, c)| {
        let ends = *c == '"' && !escaped;
        escaped = *c == '\\' && !escaped;
        ends
    });
    end.map_or(text.len(), |(end, _)| end + 1)
}

/// The length of `'…'` at the start of a text, or of the mark of a lifetime.
fn character(text: &str) -> usize {
    let mut inside = text.char_indices().skip(1);
    match (inside.next(), inside.next()) {
        (Some((_, '\\')), Some(_)) => inside
            .find(|(_, c)| *c == '\'')
            .map_or(1, |(end, _)| end + 1),
        (Some(_), Some((end, '\''))) => end + 1,
        _ => 1,
    }
}

/// The modules at the crate's root that paths in a file name.
fn imports(path: &str, tokens: &[Token]) -> Vec<String> {
    let depth = path
        .trim_end_matches("mod.rs")
        .trim_end_matches(".rs")
        .split('/')
        .filter(|step| !step.is_empty())
        .count();
    let mut found = Vec::new();
    let mut at = 0;
    while at < tokens.len() {
        let (after, supers) = supers(tokens, at);
        let root_path =
            matches!(tokens[at].word(), "crate" | "podbook") || (supers > 0 && supers >= depth);
        if root_path && is_path(tokens, after) {
            named(&tokens[after + 2..], &mut found);
        }
        at = after;
    }
    found
}

/// Where a row of `super::` that starts at a token ends, at its last `super`, and how many there are; one token
/// further if there is none.
fn supers(tokens: &[Token], at: usize) -> (usize, usize) {
    let mut count = 0;
    while tokens
        .get(at + 3 * count)
        .is_some_and(|token| token.word() == "super")
    {
        count += 1;
        if !is_path(tokens, at + 3 * count - 2) {
            break;
        }
    }
    (at + (3 * count).saturating_sub(3) + 1, count)
}

/// Whether `::` stands at a token.
fn is_path(tokens: &[Token], at: usize) -> bool {
    tokens
        .get(at..at + 2)
        .is_some_and(|pair| pair.iter().all(|sign| sign.is(':')))
}

/// The first words of what follows `crate::`: one, or those of a group in braces.
fn named(tokens: &[Token], found: &mut Vec<String>) {
    if !tokens.first().is_some_and(|token| token.is('{')) {
        found.extend(tokens.first().map(|token| token.word().to_string()));
        return;
    }
    let (mut depth, mut fresh) = (0, true);
    for token in tokens {
        match token {
            Token::Sign('{') => depth += 1,
            Token::Sign('}') => depth -= 1,
            Token::Sign(',') if depth == 1 => fresh = true,
            Token::Word(word) if depth == 1 && fresh => {
                found.push(word.clone());
                fresh = false;
            }
            _ => {}
        }
        if depth == 0 {
            return;
        }
    }
}

fn floor(module: &str) -> Option<usize> {
    FLOORS.iter().position(|row| row.contains(&module))
}

/// What is wrong with the imports of a file.
fn upward_imports(path: &str, tokens: &[Token]) -> Vec<String> {
    let own = path.split(['/', '.']).next().unwrap_or_default();
    let top = matches!(path, "lib.rs" | "main.rs");
    let told = |module: String| match (floor(own), floor(&module)) {
        (_, None) => Some(format!("{path}: `{module}` stands on no floor")),
        (None, _) if !top => Some(format!("{path}: lies on no floor")),
        (Some(here), Some(there)) if module != own && there >= here => {
            Some(format!("{path}: imports `{module}`, not below it"))
        }
        _ => None,
    };
    imports(path, tokens).into_iter().filter_map(told).collect()
}

/// What is wrong with the places of words.
fn misplaced_words(path: &str, tokens: &[Token]) -> Vec<String> {
    let mut told = Vec::new();
    for (at, token) in tokens.iter().enumerate() {
        let Some((word, places)) = PLACES.iter().find(|(word, _)| *word == token.word()) else {
            continue;
        };
        let next = |sign| tokens.get(at + 1).is_some_and(|next: &Token| next.is(sign));
        let before = |sign| at > 0 && tokens[at - 1].is(sign);
        let counts = match *word {
            // A crate or a module: what counts is a path or an import, not a name in passing.
            "ron" | "clap" | "indexmap" | "petgraph" => {
                is_path(tokens, at + 1) || (next(';') && !before(':'))
            }
            "println" | "print" | "eprintln" | "eprint" | "dbg" => next('!'),
            "now" => next('(') && before(':'),
            "Instant" => is_path(tokens, at + 1),
            _ => true,
        };
        if counts && !places.iter().any(|place| path.starts_with(place)) {
            told.push(format!(
                "{path}: names `{word}`, which belongs in {}",
                places.join(" or ")
            ));
        }
    }
    told
}

/// What is wrong with the head of a file, and with a `mod.rs` that holds more than a comment and re-exports.
fn bad_head(path: &str, text: &str, tokens: &[Token]) -> Vec<String> {
    let mut told = Vec::new();
    if !text.starts_with("//! ") {
        told.push(format!("{path}: has no head that says what it answers"));
    }
    let declares = [
        "fn",
        "struct",
        "enum",
        "trait",
        "impl",
        "const",
        "static",
        "type",
        "macro_rules",
    ];
    if path.ends_with("mod.rs")
        && let Some(word) = tokens.iter().find(|token| declares.contains(&token.word()))
    {
        told.push(format!(
            "{path}: holds `{}`, not only re-exports",
            word.word()
        ));
    }
    told
}

/// Rooms above the registry, where a record is known by its row.
const WITH_ROWS: [&str; 8] = [
    "ancestry",
    "naming",
    "observation",
    "evidence",
    "check",
    "analysis",
    "recording",
    "report",
];

/// A cross, an origin, a sitting or a sowing that is known by a bare number instead of its row.
fn bare_rows(path: &str, tokens: &[Token]) -> Vec<String> {
    let room = path.split('/').next().unwrap_or(path);
    if !WITH_ROWS.contains(&room) {
        return Vec::new();
    }
    let record = |token: &Token| ["cross", "origin", "sitting", "sowing"].contains(&token.word());
    let number = |token: &Token| ["u16", "u32", "usize"].contains(&token.word());
    let around = |token: &Token| token.is('&') || token.is('<') || token.word() == "Option";
    let is_bare = |at: usize| {
        let mut after = tokens[at + 1..].iter();
        record(&tokens[at])
            && after.next().is_some_and(|token| token.is(':'))
            && after.find(|token| !around(token)).is_some_and(number)
    };
    let bare = (0..tokens.len()).filter(|&at| is_bare(at));
    bare.map(|at| format!("{path}: `{}` is a bare number", tokens[at].word()))
        .collect()
}

/// What `report` may name of the floors that compute: rows, values and the words for them, nothing that works them out.
/// What was worked out comes to it from `analysis`.
const SEEN_BY_REPORT: [(&str, &[&str]); 5] = [
    ("kinship", &[]),
    ("ancestry", &["Part", "CrossKind", "Chromosomes"]),
    ("lineage", &["PlantRow"]),
    ("planning", &["Between", "Meeting", "BELIEF"]),
    (
        "statistics",
        &[
            "FEWEST",
            "FEWEST_COUNTS",
            "Level",
            "Scale",
            "Shape",
            "SpreadScale",
            "Standing",
            "StatisticsError",
            "Third",
        ],
    ),
];

/// Methods that go through a whole registry or its pedigree: `analysis` calls them.
const THROUGH_THE_REGISTRY: [&str; 8] = [
    "plants",
    "all_crosses",
    "cross_rows",
    "offspring_of",
    "with_ancestors",
    "descendants",
    "kinship",
    "founding",
];

/// Functions that look at a plant: `analysis` calls them.
const LOOKS_AT_A_PLANT: [&str; 12] = [
    "ancestors_up",
    "presence",
    "end_of",
    "is_over",
    "provenance",
    "months",
    "places",
    "pieces_here",
    "sex_seen",
    "sighting_of",
    "treated",
    "readings_of_traits",
];

/// The one room of `report` that still goes through the registry by itself, since it has a page for each record, and how.
const STILL_LOOKS: (&str, [&str; 3]) = ("report/album/", ["plants", "cross_rows", "ancestors_up"]);

/// What a file of `report` works out or looks up by itself.
fn worked_out_in_report(path: &str, tokens: &[Token]) -> Vec<String> {
    if !path.starts_with("report/") {
        return Vec::new();
    }
    let mut told = Vec::new();
    for (whole, _) in paths(tokens) {
        let ["crate", module, rest @ ..] =
            &whole.iter().map(String::as_str).collect::<Vec<_>>()[..]
        else {
            continue;
        };
        let seen = SEEN_BY_REPORT.iter().find(|(of, _)| of == module);
        if seen.is_some_and(|(_, names)| !rest.iter().any(|step| names.contains(step))) {
            told.push(format!(
                "{path}: names `{}`, which computes",
                whole.join("::")
            ));
        }
    }
    let called = |at: &usize| {
        let before = at.checked_sub(1).map(|before| &tokens[before]);
        let (word, is_method) = (tokens[*at].word(), before.is_some_and(|of| of.is('.')));
        let made = before.is_some_and(|of| of.word() == "fn");
        let looks = match is_method {
            true => THROUGH_THE_REGISTRY.contains(&word),
            false => LOOKS_AT_A_PLANT.contains(&word) && !made,
        };
        looks && tokens.get(at + 1).is_some_and(|next| next.is('('))
    };
    let calls = (0..tokens.len()).filter(called);
    let calls = calls.map(|at| tokens[at].word());
    let (room, still) = STILL_LOOKS;
    let calls = calls.filter(|word| !path.starts_with(room) || !still.contains(word));
    told.extend(calls.map(|word| format!("{path}: calls `{word}` by itself")));
    told
}

/// Everything wrong with a file.
fn offences(path: &str, text: &str) -> Vec<String> {
    let tokens = tokens(text);
    let mut told = upward_imports(path, &tokens);
    told.extend(misplaced_words(path, &tokens));
    told.extend(bare_rows(path, &tokens));
    told.extend(worked_out_in_report(path, &tokens));
    told.extend(bad_head(path, text, &tokens));
    told
}

/// The Rust files below a folder, as paths relative to `src` and texts.
fn sources(folder: &Path, below: &str, found: &mut Vec<(String, String)>) {
    for entry in fs::read_dir(folder).unwrap() {
        let entry = entry.unwrap();
        let path = format!("{below}{}", entry.file_name().to_str().unwrap());
        if entry.file_type().unwrap().is_dir() {
            sources(&entry.path(), &format!("{path}/"), found);
        } else if path.ends_with(".rs") {
            found.push((path, fs::read_to_string(entry.path()).unwrap()));
        }
    }
}

#[test]
fn every_file_keeps_to_its_floor() {
    let mut found = Vec::new();
    sources(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join("src"),
        "",
        &mut found,
    );
    found.sort();
    assert!(found.len() > 10, "src was not found");
    let told: Vec<_> = found
        .iter()
        .flat_map(|(path, text)| offences(path, text))
        .collect();
    assert!(told.is_empty(), "\n{}", told.join("\n"));
}

/// One bad line each, with a word of what is told of it.
#[test]
fn a_bad_line_is_seen() {
    let bad = [
        ("text/a.rs", "use crate::diagnostic::Finding;", "diagnostic"),
        ("naming/a.rs", "use crate::kinship::coefficient;", "kinship"),
        (
            "naming/a.rs",
            "use crate::{text::Span, report::{self, Page}};",
            "report",
        ),
        (
            "naming/a.rs",
            "use crate::{\n    text::{Span, FileId},\n    ancestry,\n};",
            "ancestry",
        ),
        (
            "record/a/b.rs",
            "use super::super::super::registry::Registry;",
            "registry",
        ),
        (
            "record/mod.rs",
            "pub use super::registry::Registry;",
            "registry",
        ),
        ("lineage/a.rs", "fn f() { crate::cli::main() }", "cli"),
        ("lineage/a.rs", "use crate::Registry;", "no floor"),
        ("extra/a.rs", "use crate::text::Span;", "no floor"),
        ("main.rs", "use podbook::extra;", "no floor"),
        ("registry/a.rs", "use ron::de::from_str;", "`ron`"),
        ("registry/a.rs", "use ron;", "`ron`"),
        ("report/a.rs", "use serde::Deserialize;", "Deserialize"),
        (
            "registry/a.rs",
            "#[derive(serde::Serialize)] struct A;",
            "Serialize",
        ),
        (
            "kinship/a.rs",
            "fn f(g: petgraph::Graph<(), ()>) {}",
            "petgraph",
        ),
        ("render/a.rs", "use std::{fs, io};", "`fs`"),
        ("record/write.rs", "std::fs::write(p, b)", "`fs`"),
        ("render/a.rs", "let day = chrono::Local::now();", "`now`"),
        ("report/a.rs", "println!(\"x\");", "println"),
        ("report/a.rs", "io::stdout().lock()", "stdout"),
        ("report/a.rs", "let t = Instant::now();", "Instant"),
        ("cli/a.rs", "dbg!(x);", "dbg"),
        ("report/a.rs", "use tiny_skia::Pixmap;", "tiny_skia"),
        ("report/mod.rs", "pub fn page() {}", "re-exports"),
        ("check/a.rs", "fn of(cross: usize) {}", "bare number"),
        (
            "report/a.rs",
            "struct A { origin: Option<u32> }",
            "bare number",
        ),
        ("report/a.rs", "use crate::kinship::Kinship;", "computes"),
        (
            "report/album/a.rs",
            "use crate::ancestry::{Part, Generations};",
            "Generations",
        ),
        (
            "report/a.rs",
            "fn f(r: &A) -> usize { r.plants().count() }",
            "`plants`",
        ),
        (
            "report/a/b.rs",
            "fn f(r: &A) { presence(r, plant, today) }",
            "`presence`",
        ),
        (
            "report/album/a.rs",
            "fn f(r: &A) { sex_seen(r, plant) }",
            "`sex_seen`",
        ),
    ];
    for (path, line, word) in bad {
        let told = offences(path, &format!("//! A head.\n\n{line}\n"));
        assert_eq!(told.len().min(1), 1, "{path}: {line}");
        assert!(
            told.iter().any(|told| told.contains(word)),
            "{path}: {line}: {told:?}"
        );
    }
    assert_eq!(offences("text/a.rs", "fn f() {}").len(), 1, "no head");
}

#[test]
fn a_good_line_is_let_pass() {
    let good = [
        ("diagnostic/a.rs", "use crate::text::Span;"),
        (
            "cli/a.rs",
            "use crate::{render, report::Page, text::{Span, Sources}};",
        ),
        (
            "text/edit/a.rs",
            "use super::super::outline::Outline; use super::apply; use crate::text::edit;",
        ),
        (
            "naming/a.rs",
            "// use crate::kinship;\n/* crate::cli */ const A: &str = \"crate::cli \\\" println!\";",
        ),
        (
            "naming/a.rs",
            "const A: &str = r#\"use ron::\" fs\"#; const Q: char = '\"'; fn f<'a>(x: &'a str) {}",
        ),
        (
            "record/read.rs",
            "use std::fs; use serde::Deserialize; use ron::Options;",
        ),
        (
            "report/a.rs",
            "use serde::Serialize; fn common_ancestor() {} fn known() {} let now = today; let ron = 1;",
        ),
        ("text/a.rs", "impl Iterator for A { type Item = B; }"),
        (
            "lineage/graph.rs",
            "fn node_of(row: u32) {} use petgraph::Graph;",
        ),
        ("render/dot.rs", "fn edge() {} use dot_structures::Graph;"),
        ("render/a.rs", "struct Line { cross: usize }"),
        (
            "report/a.rs",
            "fn of(cross: CrossRow) { let crosses: usize = 1; }",
        ),
        (
            "report/a.rs",
            "use crate::ancestry::{CrossKind, Part}; use crate::lineage::PlantRow; use crate::report::kinship::odds;",
        ),
        (
            "report/a.rs",
            "fn plants(of: usize) -> usize { plants(of.plants.len()) } // registry.plants()",
        ),
        ("report/album/a.rs", "fn f(r: &A) { r.plants(); }"),
        (
            "analysis/a.rs",
            "use crate::kinship::Kinship; fn f(r: &A) { r.plants(); }",
        ),
        ("main.rs", "fn main() { podbook::cli::main() }"),
        ("lib.rs", "pub mod text; pub mod cli;"),
    ];
    for (path, line) in good {
        assert_eq!(
            offences(path, &format!("//! A head.\n\n{line}\n")),
            Vec::<String>::new(),
            "{line}"
        );
    }
}

/// Circles that stand: the folder, the files in it, and why. The list may only become shorter.
const KNOWN_CIRCLES: [(&str, &[&str], &str); 0] = [];

/// A module as the steps of its path, `record`, `salvage`, `case`; none for the crate itself.
type Module = Vec<String>;

fn module_of(path: &str) -> Module {
    let path = path.trim_end_matches(".rs");
    let path = path.strip_suffix("/mod").unwrap_or(path);
    let steps = path.split('/').map(str::to_owned);
    steps.filter(|step| step != "lib").collect()
}

/// Every path in a row of tokens, with the name it is used under: those of `use`, groups in braces written out, and
/// those in the text.
fn paths(tokens: &[Token]) -> Vec<(Vec<String>, String)> {
    let mut found = Vec::new();
    let mut at = 0;
    while at < tokens.len() {
        // What an `impl Trait` captures, `use<'r>`, imports nothing.
        let captures = tokens.get(at + 1).is_some_and(|next| next.is('<'));
        if tokens[at].word() == "use" && !captures {
            at = tree(tokens, at + 1, &[], &mut found);
            continue;
        }
        let starts = !tokens[at].word().is_empty() && (at < 2 || !is_path(tokens, at - 2));
        let length = if starts { path_length(tokens, at) } else { 1 };
        if length > 1 {
            let path: Vec<String> = words(&tokens[at..at + length]);
            found.push((path, String::new()));
        }
        at += length;
    }
    found
}

fn words(tokens: &[Token]) -> Vec<String> {
    let words = tokens.iter().map(|token| token.word().to_owned());
    words.filter(|word| !word.is_empty()).collect()
}

/// How many tokens the path at a token takes: `a::b::c` takes seven.
fn path_length(tokens: &[Token], at: usize) -> usize {
    let mut length = 1;
    while is_path(tokens, at + length)
        && tokens
            .get(at + length + 2)
            .is_some_and(|token| !token.word().is_empty())
    {
        length += 3;
    }
    length
}

/// Reads one tree of a `use` behind a path already read; gives the place behind it.
fn tree(
    tokens: &[Token],
    mut at: usize,
    before: &[String],
    found: &mut Vec<(Vec<String>, String)>,
) -> usize {
    let mut path = before.to_vec();
    while let Some(token) = tokens.get(at) {
        match token {
            Token::Word(word) if word == "as" => {
                let alias = tokens.get(at + 1).map_or("", Token::word).to_owned();
                found.push((path, alias));
                return at + 2;
            }
            Token::Word(word) => path.push(word.clone()),
            Token::Sign('{') => {
                at += 1;
                while tokens.get(at).is_some_and(|token| !token.is('}')) {
                    at = tree(tokens, at, &path, found);
                    at += usize::from(tokens.get(at).is_some_and(|token| token.is(',')));
                }
                return at + 1;
            }
            Token::Sign(',' | ';' | '}') => break,
            Token::Sign(_) => {}
        }
        at += 1;
    }
    if path.last().is_some_and(|last| last == "self") {
        path.pop();
    }
    let name = path.last().cloned().unwrap_or_default();
    found.push((path, name));
    at
}

/// The source of a crate as modules that know what they import.
struct House {
    /// The names each module brings in, with the path from the crate's root.
    names: BTreeMap<Module, BTreeMap<String, Module>>,
    paths: BTreeMap<Module, Vec<Vec<String>>>,
}

impl House {
    fn of(sources: &[(String, String)]) -> House {
        let mut house = House {
            names: BTreeMap::new(),
            paths: BTreeMap::new(),
        };
        for (path, _) in sources {
            house.names.insert(module_of(path), BTreeMap::new());
        }
        for (path, text) in sources {
            let module = module_of(path);
            let found = paths(&tokens(text));
            let named = found.iter().filter(|(_, name)| !name.is_empty());
            let named = named.filter_map(|(path, name)| {
                let whole = house.root_path(&module, path)?;
                Some((name.clone(), whole))
            });
            let named = named.collect();
            house.names.insert(module.clone(), named);
            let all = found.into_iter().map(|(path, _)| path).collect();
            house.paths.insert(module, all);
        }
        house
    }

    /// A path from the crate's root; `None` where it leads to another crate.
    fn root_path(&self, module: &Module, path: &[String]) -> Option<Module> {
        let mut base = module.clone();
        let mut rest = path;
        match path.first()?.as_str() {
            "crate" => return Some(path[1..].to_vec()),
            "self" => rest = &path[1..],
            "super" => {
                while let Some((_, further)) =
                    rest.split_first().filter(|(step, _)| *step == "super")
                {
                    base.pop();
                    rest = further;
                }
            }
            first => {
                if let Some(named) = self.names.get(module).and_then(|names| names.get(first)) {
                    return Some([named, &path[1..]].concat());
                }
                base.push(first.to_owned());
                if !self.names.contains_key(&base) {
                    return None;
                }
                base.pop();
            }
        }
        base.extend_from_slice(rest);
        Some(base)
    }

    /// The module that defines what a path from the root names, whichever heads hand it on.
    fn defined_in(&self, path: &[String]) -> Module {
        let mut path = path.to_vec();
        for _ in 0..16 {
            let length = (0..=path.len()).rev();
            let mut known = length.filter(|&length| self.names.contains_key(&path[..length]));
            let length = known.next().unwrap_or(0);
            let (module, rest) = path.split_at(length);
            let handed_on = rest
                .first()
                .and_then(|name| self.names.get(module)?.get(name));
            match handed_on {
                Some(whole) => path = [whole, &rest[1..]].concat(),
                None => return module.to_vec(),
            }
        }
        panic!("{path:?} is handed on in a circle")
    }

    /// For a folder, which of its files and folders import which others of them.
    fn imports_in(&self, folder: &[String]) -> BTreeMap<&str, BTreeSet<String>> {
        let mut imports: BTreeMap<&str, BTreeSet<String>> = BTreeMap::new();
        let depth = folder.len();
        let inside = self.paths.iter();
        let inside =
            inside.filter(|(module, _)| module.len() > depth && module.starts_with(folder));
        for (module, paths) in inside {
            let here = module[depth].as_str();
            let whole = paths.iter().filter_map(|path| self.root_path(module, path));
            for there in whole.map(|path| self.defined_in(&path)) {
                if there.len() > depth && there.starts_with(folder) && there[depth] != here {
                    imports
                        .entry(here)
                        .or_default()
                        .insert(there[depth].clone());
                }
            }
        }
        imports
    }

    /// Circles: for each folder the parts that reach each other, in order.
    fn circles(&self) -> BTreeSet<(String, Vec<String>)> {
        let mut found = BTreeSet::new();
        let heads = self.names.keys().flat_map(|module| {
            let lengths = 1..module.len();
            lengths.map(|length| module[..length].to_vec())
        });
        for folder in heads.collect::<BTreeSet<Module>>() {
            let imports = self.imports_in(&folder);
            let reached: BTreeMap<&str, BTreeSet<&str>> = imports
                .keys()
                .map(|&part| (part, reached_from(part, &imports)))
                .collect();
            for (&part, far) in &reached {
                let back = |other: &&str| reached.get(other).is_some_and(|far| far.contains(part));
                let circle: Vec<String> = far
                    .iter()
                    .filter(|other| back(other))
                    .map(|&other| other.to_owned())
                    .collect();
                if circle.len() > 1 {
                    found.insert((folder.join("/"), circle));
                }
            }
        }
        found
    }
}

/// Every part that a part imports, directly or through others.
fn reached_from<'i>(
    part: &str,
    imports: &'i BTreeMap<&str, BTreeSet<String>>,
) -> BTreeSet<&'i str> {
    let mut far = BTreeSet::new();
    let mut open = vec![part];
    while let Some(at) = open.pop() {
        for next in imports.get(at).into_iter().flatten() {
            if far.insert(next.as_str()) {
                open.push(next);
            }
        }
    }
    far
}

#[test]
fn no_files_of_a_folder_import_each_other_in_a_circle() {
    let mut files = Vec::new();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    sources(&folder, "", &mut files);
    let found = House::of(&files).circles();
    let known = KNOWN_CIRCLES.iter().map(|(folder, parts, why)| {
        assert!(!why.is_empty());
        let parts: Vec<String> = parts.iter().map(|&part| part.to_owned()).collect();
        ((*folder).to_owned(), parts)
    });
    let known: BTreeSet<_> = known.collect();
    let new: Vec<_> = found.difference(&known).collect();
    assert!(new.is_empty(), "new circles: {new:#?}");
    let gone: Vec<_> = known.difference(&found).collect();
    assert!(gone.is_empty(), "take these out of the list: {gone:#?}");
}

/// The circles among a few files.
fn circles_of(files: &[(&str, &str)]) -> Vec<String> {
    let owned = files
        .iter()
        .map(|(path, text)| ((*path).to_owned(), (*text).to_owned()));
    let circles = House::of(&owned.collect::<Vec<_>>()).circles();
    let shown = circles
        .iter()
        .map(|(folder, parts)| format!("{folder}: {}", parts.join(" ")));
    shown.collect()
}

#[test]
fn a_circle_is_seen_however_it_is_written() {
    let head = (
        "a/mod.rs",
        "mod one; mod two; pub use one::One; pub use two::{Two, three as four};",
    );
    for (one, two) in [
        ("use super::two::Two;", "use super::one::One;"),
        ("use super::Two;", "use crate::a::One;"),
        ("use crate::{a::{two::Two}};", "fn f(x: super::one::One) {}"),
        ("use super::four;", "fn f() { crate::a::One::new() }"),
        (
            "use super::two; fn f() { two::g() }",
            "use super::{One as Other};",
        ),
        ("use super::two::{self, Two};", "use crate::a::one::*;"),
    ] {
        let circles = circles_of(&[head, ("a/one.rs", one), ("a/two.rs", two)]);
        assert_eq!(circles, ["a: one two"], "{one} {two}");
    }
    let of_three = [
        ("a/mod.rs", ""),
        ("a/one.rs", "use super::two::B;"),
        ("a/two.rs", "use super::deep::C;"),
        ("a/deep/mod.rs", "mod c; pub use c::C;"),
        ("a/deep/c.rs", "use crate::a::one::A;"),
        ("a/four.rs", "use super::one::A;"),
    ];
    assert_eq!(circles_of(&of_three), ["a: deep one two"]);
}

#[test]
fn what_is_no_circle_is_let_pass() {
    let head = (
        "a/mod.rs",
        "mod one; mod two; pub use one::One; use two::two;",
    );
    for (one, two) in [
        (
            "use super::two::Two;",
            "fn one() {} // use super::one::One;",
        ),
        ("use super::two;", "const A: &str = \"super::one::One\";"),
        (
            "use std::one::two; use other::two::x;",
            "use super::one::One;",
        ),
        ("fn two() { let two = two::x; }", "use super::One;"),
        (
            "fn f<'r>(of: &'r str) -> impl Iterator + use<'r> { let at = of; at.chars() }",
            "use super::One;",
        ),
    ] {
        let circles = circles_of(&[head, ("a/one.rs", one), ("a/two.rs", two)]);
        assert_eq!(circles, Vec::<String>::new(), "{one} {two}");
    }
}

/// Rooms of `analysis` that hold typed answers only: how they are said stands in `report`.
const WITHOUT_SENTENCES: [&str; 10] = [
    "grade",
    "growth",
    "kinship",
    "merit",
    "pair",
    "plan",
    "ready",
    "select",
    "siblings",
    "variation",
];

/// The texts in quotes of a Rust text, as written, but those handed to `expect`.
fn literals(text: &str) -> Vec<&str> {
    let (mut found, mut rest, mut before) = (Vec::new(), text, String::new());
    while let Some(first) = rest.chars().next() {
        let length = if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if let Some(length) = raw_text(rest) {
            found.push(&rest[..length]);
            length
        } else if first == '"' {
            let length = quoted(rest);
            if !before.ends_with("expect(") {
                found.push(&rest[..length]);
            }
            length
        } else if first == '\'' {
            character(rest)
        } else {
            if !first.is_whitespace() {
                before.push(first);
            }
            first.len_utf8()
        };
        rest = &rest[length..];
    }
    found
}

/// Whether a blank stands between two letters.
fn is_sentence(literal: &str) -> bool {
    let signs: Vec<char> = literal.chars().collect();
    let mut threes = signs.windows(3);
    threes.any(|of| of[0].is_alphabetic() && of[1] == ' ' && of[2].is_alphabetic())
}

#[test]
fn rooms_of_analysis_hold_no_sentences() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/analysis");
    for room in WITHOUT_SENTENCES {
        let mut found = Vec::new();
        sources(&src.join(room), "", &mut found);
        assert!(!found.is_empty(), "{room} was not found");
        for (path, text) in &found {
            let mut told = literals(text);
            told.retain(|literal| is_sentence(literal));
            assert!(told.is_empty(), "{room}/{path}: {told:?}");
        }
    }
}

#[test]
fn a_sentence_is_seen() {
    let seen = |line: &str| literals(line).into_iter().any(is_sentence);
    for line in [
        "format!(\"place {place} of all\")",
        "f(r#\"let go\"#)",
        "(\"a\", \"last one kept\")",
        "Err(\"é à\")",
    ] {
        assert!(seen(line), "{line}");
    }
    for line in [
        "x.expect(\"a plant has a row\")",
        "x.expect(\n    \"a plant has a row\",\n)",
        "// \"a plant\"",
        "format!(\"{} {}\", code, \"cm\")",
        "let c = '\"'; f(\"code\"); g(\"code\")",
    ] {
        assert!(!seen(line), "{line}");
    }
}
