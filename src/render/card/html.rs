//! A card as one HTML page that needs no other file: to keep, to print, or to paste into a shop.

use crate::render::scene::Photo;
use crate::report::Fact;
use crate::report::card::{Ancestor, Card};
use crate::text::Xml;
use crate::wording::Name;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use std::fmt::Write;

/// Letters, colours and widths; everything else is left to the reader's browser.
const STYLE: &str = "body{font:16px/1.4 Georgia,serif;max-width:40em;margin:1em auto;padding:0 1em;color:#2a2622;background:#fdfbf6}\
h1{font-size:1.35em;font-weight:normal}h2{font-size:1em;margin:1.2em 0 .3em;border-top:1px solid #cfc7ba;padding-top:.4em}\
dl{display:grid;grid-template-columns:minmax(7em,1fr) 3fr;gap:.2em 1em;margin:0}dt{color:#6b645c}dd{margin:0}figure{margin:1em 0}img{max-width:100%;height:auto}figcaption{color:#6b645c;font-size:.85em}\
ul{margin:0;padding-left:1.2em}ul ul{padding-left:1.4em}";

/// The page.
pub fn html(card: &Card, photo: Option<&Photo>) -> String {
    let mut out = String::new();
    let title = format!("{}: {}", card.id, card.plain_name());
    let _ = write!(
        out,
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n",
        Xml::of(&title)
    );
    let also = card.also.as_ref().map(|also| format!(" {}", Xml::of(also)));
    let _ = writeln!(
        out,
        "<h1>{}</h1>\n<p><strong>{}</strong>{}</p>",
        styled(&card.name),
        Xml::of(&card.id),
        also.unwrap_or_default()
    );
    if let (Some(of), Some(photo)) = (&card.photo, photo) {
        let _ = writeln!(
            out,
            "<figure><img src=\"data:image/jpeg;base64,{}\" width=\"{}\" height=\"{}\" alt=\"{}\"><figcaption>{}</figcaption></figure>",
            STANDARD.encode(&photo.jpeg),
            photo.width,
            photo.height,
            Xml::of(&of.caption()),
            Xml::of(&of.caption())
        );
    }
    facts(&mut out, &card.facts);
    if !card.traits.is_empty() {
        let traits = card.traits.iter();
        let rows: Vec<(String, String)> = traits.map(|of| (of.name.clone(), of.words())).collect();
        heading(&mut out, &card.traits_heading());
        list(&mut out, &rows);
    }
    heading(&mut out, "Parents and their parents");
    pedigree(&mut out, &card.ancestors);
    heading(&mut out, "Evidence");
    paragraphs(&mut out, &card.evidence_lines());
    if !card.kept.is_empty() {
        heading(&mut out, "Kept");
        facts(&mut out, &card.kept);
    }
    heading(&mut out, "Please note");
    paragraphs(&mut out, &card.cautions);
    if !card.grower.is_empty() {
        heading(&mut out, "Grower");
        paragraphs(&mut out, &card.grower);
    }
    let _ = writeln!(
        out,
        "<p><small>Written from the grower's records on {}. What is not recorded is left out.</small></p>\n</body>\n</html>",
        Xml::of(&card.made)
    );
    out
}

fn heading(out: &mut String, text: &str) {
    let _ = writeln!(out, "<h2>{}</h2>", Xml::of(text));
}

fn paragraphs(out: &mut String, lines: &[String]) {
    for line in lines {
        let _ = writeln!(out, "<p>{}</p>", Xml::of(line));
    }
}

fn facts(out: &mut String, facts: &[Fact]) {
    let facts = facts
        .iter()
        .map(|fact| (fact.label.to_owned(), fact.value.clone()));
    list(out, &facts.collect::<Vec<_>>());
}

fn list(out: &mut String, rows: &[(String, String)]) {
    if rows.is_empty() {
        return;
    }
    out.push_str("<dl>\n");
    for (label, value) in rows {
        let _ = writeln!(
            out,
            "<dt>{}</dt><dd>{}</dd>",
            Xml::of(label),
            Xml::of(value)
        );
    }
    out.push_str("</dl>\n");
}

/// Parents in a list, each with a list of its own parents.
fn pedigree(out: &mut String, ancestors: &[Ancestor]) {
    if ancestors.is_empty() {
        out.push_str("<p>not recorded</p>\n");
        return;
    }
    let mut depth = 0;
    for of in ancestors {
        while depth < of.generation {
            out.push_str("<ul>\n");
            depth += 1;
        }
        while depth > of.generation {
            out.push_str("</ul>\n");
            depth -= 1;
        }
        let side = of.side.map(|side| format!("{side} ")).unwrap_or_default();
        let _ = writeln!(
            out,
            "<li>{side}<strong>{}</strong> {}",
            Xml::of(&of.clone),
            styled(&of.name)
        );
    }
    out.push_str(&"</ul>\n".repeat(depth));
}

fn styled(name: &Name) -> String {
    let run = |run: &crate::wording::NameRun| match run.italic {
        true => format!("<i>{}</i>", Xml::of(&run.text)),
        false => Xml::of(&run.text).to_string(),
    };
    name.iter().map(run).collect()
}
