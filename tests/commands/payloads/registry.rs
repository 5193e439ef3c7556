//! A registry with every payload in every field of text a record has.

use super::list::{PAYLOADS, recorded};
use crate::bench_top::BenchTop;
use std::fmt::Write;

/// A text in RON: everything but letters and digits by its number.
fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for letter in text.chars() {
        match letter {
            letter if letter.is_ascii_alphanumeric() || letter == ' ' => out.push(letter),
            letter => _ = write!(out, "\\u{{{:x}}}", letter as u32),
        }
    }
    out + "\""
}

/// A text in RON as it is, for fields that take no escapes.
fn bare(at: usize) -> String {
    format!("r##\"{}\"##", recorded(at))
}

/// The code of the founder with a payload: what of the payload may stand in a code, in front.
pub fn code(at: usize) -> String {
    let allowed = |letter: &char| {
        let barred = "\"'`()[]{}<>,;:./\\|&?*-";
        !letter.is_whitespace() && !letter.is_control() && !barred.contains(*letter)
    };
    let start: String = PAYLOADS[at].0.chars().filter(allowed).take(8).collect();
    format!("{start}F{at:02}")
}

/// A word of letters for a number.
fn letters(at: usize) -> String {
    let letter = |number: usize| char::from(b'a' + (number % 26) as u8);
    [letter(at / 26), letter(at)].iter().collect()
}

/// The whole registry, without faults of form.
pub fn nasty() -> BenchTop {
    let each = |line: &dyn Fn(usize) -> String| {
        (0..PAYLOADS.len()).map(line).collect::<Vec<_>>().join("\n")
    };
    let mut top = BenchTop::empty()
        .file("registry.ron", &registry_page(&each(&a_trait)))
        .file(
            "species.ron",
            &format!(
                "(species: [\n{}\n], named_hybrids: [\n{}\n], synonyms: [\n{}\n])",
                each(&species),
                each(&hybrid),
                each(&synonym)
            ),
        )
        .file(
            "clones.ron",
            &format!("(clones: [\n{MOTHER}\n{}\n])", each(&founder)),
        )
        .file("pollen.ron", &format!("(lots: [\n{}\n])", each(&lot)))
        .file(
            "goals.ron",
            &format!(
                "(pots: 100, traits: [(of: \"span\", weight: 1)], note: {})",
                quoted(&recorded(6))
            ),
        );
    for at in 0..PAYLOADS.len() {
        top = top
            .file(&format!("crosses/X20-{at:02}.ron"), &cross(at))
            .file(&format!("crosses/X21-{at:02}.ron"), &labelled(at));
    }
    top.file("crosses/X23-01.ron", &mixed())
}

const MOTHER: &str = "(code: \"V1\", received: \"N. genusaa\", on: \"2010-05\", confidence: claim,
    ramets: [(code: \"a\", made: original)], flowerings: [(opened: \"2018-03-20\", sex: female), (opened: \"2024-05-20\", sex: female)]),";

fn registry_page(traits: &str) -> String {
    format!(
        "(genus: \"Nepenthes\", hemisphere: north, note: {}, traits: [
        (code: \"span\", name: \"leaf span\", reads: length(cm)),\n{traits}\n])",
        quoted(&recorded(6))
    )
}

fn a_trait(at: usize) -> String {
    let text = quoted(&recorded(at));
    let reads = match at % 2 {
        0 => format!("kinds([{}, \"other\"])", bare(at)),
        _ => format!("scale([{text}, \"middle\", \"top\"])"),
    };
    format!("(code: \"t{at:02}\", name: {text}, definition: {text}, reads: {reads}),")
}

fn species(at: usize) -> String {
    let (text, word) = (quoted(&recorded(at)), letters(at));
    format!(
        "(epithet: \"genus{word}\", authors: {text}, area: {text}, status: {text}, doubtful: true, doubt: {text},
        evidence: {text}, source: {text}, note: {text}),"
    )
}

fn hybrid(at: usize) -> String {
    let (text, word) = (quoted(&recorded(at)), letters(at));
    format!(
        "(epithet: \"hybrid{word}\", parents: [\"genusaa\", \"genus{word}\"], status: {text}, authors: {text},
        origin: {text}, may_be_used: true, evidence: {text}, source: {text}, note: {text}),"
    )
}

fn synonym(at: usize) -> String {
    let (text, word) = (quoted(&recorded(at)), letters(at));
    format!("(name: \"older{word}\", now: \"genus{word}\", note: {text}),")
}

fn founder(at: usize) -> String {
    let text = quoted(&recorded(at));
    let received = match at % 3 {
        0 => format!("\"N. genus{}\"", letters(at)),
        _ => text.clone(),
    };
    let fate = match at % 6 {
        1 => format!("fate: died(on: \"2024-01\", cause: {text}),"),
        2 => format!("fate: sold(on: \"2024-01\", label: {text}, to: {text}),"),
        4 => format!("fate: lost(on: \"2024-01\", note: {text}),"),
        _ => String::new(),
    };
    format!(
        "(code: \"{}\", received: {received}, from: {text}, on: \"2012-05\", supplier_code: {text}, confidence: tag,
        identified: [(on: \"2018-05\", name: {text}, by: {text}, confidence: claim, note: {text})],
        locality: {text}, papers: {text}, nights: {text}, nickname: {text},
        cultivar: (epithet: {text}, published: {text}, note: {text}),
        ramets: [(code: \"a\", made: original, place: {text}, note: {text})],
        flowerings: [(opened: \"2024-05-20\", sex: male, note: {text})],
        pots: [(on: \"2020-05\", pot: \"7 cm\", place: {text})], kept: (on: \"2021-05\", why: {text}), {fate}
        note: {text}),",
        code(at)
    )
}

fn lot(at: usize) -> String {
    let text = quoted(&recorded(at));
    format!(
        "(code: \"L{at:02}\", from: plant(\"{}\"), collected: \"2024-05-21\", dried: {text}, stored: fridge,
        left: {text}, note: {text}),",
        code(at)
    )
}

fn cross(at: usize) -> String {
    let text = quoted(&recorded(at));
    let kind = if at.is_multiple_of(2) {
        text.clone()
    } else {
        "\"1\"".into()
    };
    let other = if at.is_multiple_of(2) {
        "\"other\""
    } else {
        "\"2\""
    };
    let sitting = |year: u16, more: usize| {
        let rows: Vec<String> = (1..=8)
            .map(|number| {
                let kind = if number < 5 { &kind } else { other };
                let (pest, note) = if number == 8 {
                    (text.as_str(), "\"\"")
                } else {
                    ("\"\"", text.as_str())
                };
                format!(
                    "[\"{number}\", \"{}.{number}\", {kind}, {pest}, {note}]",
                    number + more
                )
            })
            .collect();
        format!(
            "(on: \"{year}-05-01\", place: {text}, method: {text}, by: {text}, light: {text},
            columns: [\"span cm\", \"t{at:02}\", \"pest\", \"note\"], rows: [{}], note: {text}),",
            rows.join(", ")
        )
    };
    let seedlings: Vec<String> = (1..=8)
        .map(|number| {
            // One female of each cross is enough: a season of all of them is long to plan.
            let flowers = match number {
                1 => format!("flowerings: [(opened: \"2024-05-20\", sex: female, note: {text})],"),
                _ => String::new(),
            };
            let fate = match number {
                3 => format!("fate: culled(on: \"2023-07\", reason: {text}),"),
                4 => format!("fate: given(on: \"2023-07\", label: {text}, to: {text}),"),
                _ => String::new(),
            };
            format!(
                "(number: \"{number}\", place: {text}, nickname: {text}, ramets: [(code: \"a\", made: original, place: {text})],
                {flowers} {fate} note: {text}),"
            )
        })
        .collect();
    format!(
        "(code: \"X20-{at:02}\", parents: known(seed: \"V1\", pollen: \"{}\"), confidence: witnessed, received: {text},
        from: {text}, goal: {text}, pollinations: [(zone: \"A\", on: [\"2020-04-03\"], flowers: 10, set: 5, note: {text})],
        pods: [(code: \"P1\", zone: \"A\", capsules: 5, harvested: \"2020-08-20\", seeds: 100, note: {text})],
        seed_lots: [(code: \"L1\", pod: \"P1\", seeds: 100, stored: {text}, note: {text})],
        sowings: [(code: \"S1\", lot: \"L1\", on: \"2020-09-01\", seeds: 60, container: {text}, medium: {text}, place: {text},
            germinated: [(on: \"2020-12-01\", count: 30)], pricked_out: [(on: \"2021-02\", moved: 20, left: 5, to: {text})], note: {text})],
        community_pots: [(code: \"T1\", sowing: \"S1\", alive: [(on: \"2021-06\", count: 8)], pot: {text}, place: {text}, note: {text})],
        seedlings: [{}], sittings: [{}{}], note: {text})",
        code(at),
        seedlings.join("\n"),
        sitting(2022, 2),
        sitting(2023, 9),
    )
}

fn labelled(at: usize) -> String {
    let text = quoted(&recorded(at));
    format!(
        "(code: \"X21-{at:02}\", parents: label_only({text}), received: {text}, note: {text}, seedlings: [(number: \"1\", nickname: {text})])"
    )
}

/// A cross with every founder as one of the fathers.
fn mixed() -> String {
    let fathers: Vec<String> = (0..PAYLOADS.len())
        .map(|at| format!("\"{}\"", code(at)))
        .collect();
    format!(
        "(code: \"X23-01\", parents: pollen_mixed(seed: \"X20-00-1\", pollen: [{}]), seedlings: [(number: \"1\")])",
        fathers.join(", ")
    )
}

/// Pages at fault in every way a payload brings about: as codes, as words that are none, in the names of files.
pub fn faulty() -> BenchTop {
    let mut top = nasty();
    for (at, (payload, _)) in PAYLOADS.iter().enumerate() {
        let text = bare(at);
        top = top.file(
            &format!("crosses/X30-{at:02}.ron"),
            &format!(
                "(code: {text}, parents: known(seed: {text}, pollen: {text}), pods: [(code: {text}, harvested: {text})], {} {payload} )",
                recorded(at)
            ),
        );
        // What no name of a file may hold: on some systems more.
        let is_taken = |c: &char| match cfg!(windows) {
            true => !c.is_control() && !"/\\:*?\"<>|".contains(*c),
            false => !"/\0".contains(*c),
        };
        let name: String = payload.chars().filter(is_taken).take(30).collect();
        top = top
            .file(
                &format!("crosses/{name}.ron"),
                &format!("(code: {}, parents: {payload}", quoted(payload)),
            )
            .file(&format!("crosses/{name}{at}.ron.txt"), "");
    }
    let traits: String = (0..PAYLOADS.len())
        .map(|at| {
            format!(
                "(code: {0}, name: {0}, reads: kinds([{0}, {0}])),\n",
                bare(at)
            )
        })
        .collect();
    let goals: String = (0..PAYLOADS.len())
        .map(|at| {
            format!(
                "(epithet: {0}, varieties: [{0}], appendix: {0}),\n",
                bare(at)
            )
        })
        .collect();
    top.file("registry.ron", &registry_page(&traits))
        .file("species.ron", &format!("(species: [{goals}])"))
}
