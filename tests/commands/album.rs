//! `podbook album`: what is written, over what, for whom.

use crate::album_pages::{album, all, files, pages};
use crate::bench_top::BenchTop;
use crate::demo::copied;
use crate::secrets::with_secrets;
use insta::assert_snapshot;
use scraper::Html;
use std::collections::BTreeSet;

#[test]
fn an_album_is_written_and_made_anew() {
    let top = copied();
    let run = top.run(&["album", "-o", "out", "--today", "2025-06-01"]);
    assert_snapshot!("album", run);
    let first = files(&top.path().join("out"));
    let again = album(&top, &[]);
    assert_eq!(first, again, "the same bytes again");
    // One plant fewer leaves no page of it behind.
    let top = top.change(
        "crosses/X22-02.ron",
        "(number: \"18\", sowing: \"S2\"),",
        "",
    );
    let fewer = album(&top, &[]);
    assert!(
        first.contains_key("plants/x22-02-18.html") && !fewer.contains_key("plants/x22-02-18.html")
    );
    let published = top.run(&["album", "-o", "out", "--public", "--today", "2025-06-01"]);
    assert_snapshot!("album-for-others", published);
    assert!(!files(&top.path().join("out")).contains_key("season.html"));
}

#[test]
fn no_other_file_gives_way() {
    let top = copied();
    album(&top, &[]);
    let top = top
        .file("out/plants/mine.txt", "mine")
        .file("full/notes.txt", "mine");
    let before = files(top.path());
    for folder in ["out", "full", ".", "crosses", "photos", "registry.ron"] {
        let run = top.run(&["album", "-o", folder]);
        assert_eq!(run.exit, Some(2), "{folder}: {run}");
        assert_eq!(files(top.path()), before, "{folder}");
    }
    let run = top.run(&["album", "-o", "out"]);
    assert!(run.stderr.contains("plants/mine.txt"), "{run}");
    assert_eq!(top.run(&["album"]).exit, Some(2));
}

/// The fields that docs/files.md marks as private, and every place, note and name of a helper.
#[test]
fn nothing_private_is_published() {
    let top = with_secrets();
    let own = album(&top, &[]);
    let own: String = pages(&own).into_values().collect();
    assert!(own.contains("secret"), "the grower's own album says all");
    let published = top.run(&["album", "-o", "public", "--public"]);
    assert_eq!(published.exit, Some(0), "{published}");
    let files = files(&top.path().join("public"));
    for (path, bytes) in &files {
        let text = String::from_utf8_lossy(bytes).to_lowercase();
        for private in ["secret", "the one who grows", "at the table"] {
            assert!(
                !path.contains(private) && !text.contains(private),
                "{path} holds {private}"
            );
        }
    }
    // Words under a heading that names nothing are no readings.
    let misspelt = with_secrets().change("crosses/X22-01.ron", "\"note\"],", "\"remarks\"],");
    let misspelt: String = pages(&album(&misspelt, &["--public"]))
        .into_values()
        .collect();
    assert!(!misspelt.contains("secret"));
    // Nor are words in the cell of a trait.
    let worded = with_secrets().change("crosses/X22-01.ron", "\"12.0\"", "\"secret tear\"");
    let worded: String = pages(&album(&worded, &["--public"]))
        .into_values()
        .collect();
    assert!(!worded.contains("secret"));
    let plant = String::from_utf8_lossy(&files["plants/x22-01-1.html"]).into_owned();
    for public in ["7 cm", "12.0 cm", "a mild soap", "female"] {
        assert!(plant.contains(public), "{public}: {plant}");
    }
    let index = String::from_utf8_lossy(&files["index.html"]).into_owned();
    let html = Html::parse_document(&index);
    assert_eq!(all(&html, "#left-out ~ ul li").len(), 5);
    assert!(!index.contains("season.html"));
}

/// Two codes that differ only in capitals, a name of a device, and letters of no file name.
#[test]
fn names_of_files_are_safe_on_any_disk() {
    let top = BenchTop::with([
        ("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)"),
        (
            "clones.ron",
            r#"(clones: [(code: "ven1", received: "N. ventricosa"), (code: "VEN1", received: "N. ventricosa"), (code: "Con", received: "N. ventricosa"),
                (code: "é%#1", received: "N. ventricosa"), (code: "ven1~2", received: "N. ventricosa")])"#,
        ),
    ]);
    let files = album(&top, &[]);
    let folded: BTreeSet<String> = files.keys().map(|path| path.to_lowercase()).collect();
    assert_eq!(folded.len(), files.len());
    let plants: Vec<&String> = files
        .keys()
        .filter(|path| path.starts_with("plants/"))
        .collect();
    assert_eq!(plants.len(), 5);
    for path in plants {
        let safe = |letter: char| {
            letter.is_ascii_lowercase() || letter.is_ascii_digit() || "-_~./".contains(letter)
        };
        assert!(
            path.chars().all(safe) && !path.ends_with("/con.html"),
            "{path}"
        );
    }
}

/// Words of records are words on a page, whatever they look like.
#[test]
fn nothing_a_record_says_becomes_a_part_of_a_page() {
    let nasty = r#"</title></td><script>alert(1)</script>\" onload=\"x' <b>&amp; \u{202e}"#;
    let mut top = copied();
    for (path, from) in [
        ("registry.ron", "\"leaf span\""),
        ("registry.ron", "\"shelf 2\""),
        ("clones.ron", "\"N. gracilis\""),
        ("crosses/X22-02.ron", "\"shelf 1, front\""),
        ("crosses/X22-02.ron", "\"whole plant from above\""),
        ("crosses/X22-02.ron", "\"slowest fifth of its pod\""),
        ("crosses/X22-02.ron", "\"fastest of its pod\""),
        ("crosses/X22-02.ron", "\"the broad rim on a smaller plant\""),
        ("crosses/X22-02.ron", "[\"5\", \"14.5\""),
    ] {
        let to = match from.starts_with('[') {
            true => format!("[\"5\", \"{nasty}\""),
            false => format!("\"{nasty}\""),
        };
        top = top.change(path, from, &to);
    }
    let files = album(&top, &[]);
    let mut seen = 0;
    for (page, text) in pages(&files) {
        let html = Html::parse_document(&text);
        assert!(html.errors.is_empty(), "{page}: {:?}", html.errors);
        assert!(
            all(
                &html,
                "script:not([src='album.js']):not([src='../album.js']), b:not(.counts b), [onload]"
            )
            .is_empty(),
            "{page}"
        );
        assert!(
            !text.contains("<script>") && !text.contains('\u{202e}'),
            "{page}"
        );
        seen += text.matches("&lt;script&gt;").count();
    }
    assert!(seen > 8, "{seen}");
}

/// Colours of words and of what carries meaning against what they stand on, by the contrast ratio of WCAG 2.2 (relative
/// luminance and 1.4.3, 1.4.11): 4.5 for words, 3 for lines.
#[test]
fn every_pair_of_colours_can_be_told_apart() {
    let files = album(&copied(), &[]);
    let style = String::from_utf8_lossy(&files["album.css"]).into_owned();
    let (light, dark) = style
        .split_once("prefers-color-scheme: dark")
        .expect("two schemes");
    for scheme in [light, dark] {
        let colour = |name: &str| {
            let at = scheme
                .split_once(&format!("--{name}: #"))
                .unwrap_or_else(|| panic!("no {name}"))
                .1;
            luminance(&at[..6])
        };
        for (front, behind, least) in [
            ("ink", "paper", 4.5),
            ("ink", "sheet", 4.5),
            ("soft", "paper", 4.5),
            ("soft", "sheet", 4.5),
            ("link", "paper", 4.5),
            ("link", "sheet", 4.5),
            ("mark", "paper", 3.0),
            ("mark", "sheet", 3.0),
            ("edge", "paper", 3.0),
        ] {
            let (one, other) = (colour(front), colour(behind));
            let ratio = (one.max(other) + 0.05) / (one.min(other) + 0.05);
            assert!(ratio >= least, "{front} on {behind}: {ratio:.2}");
        }
    }
    // No colour but those named.
    let (_, rules) = style.split_once("* { box-sizing").expect("rules");
    assert!(
        !rules.contains('#') && !rules.contains("rgb"),
        "a colour without a name"
    );
    // The formula's own examples: black on white is 21, and #767676 is the lightest grey that holds 4.5.
    assert!(((luminance("ffffff") + 0.05) / (luminance("000000") + 0.05) - 21.0).abs() < 1e-9);
    assert!(
        1.05 / (luminance("767676") + 0.05) >= 4.5 && 1.05 / (luminance("777777") + 0.05) < 4.5
    );
}

fn luminance(hex: &str) -> f64 {
    let part = |at: usize| {
        let value = f64::from(u8::from_str_radix(&hex[at..at + 2], 16).expect("a colour")) / 255.0;
        match value <= 0.04045 {
            true => value / 12.92,
            false => libm::pow((value + 0.055) / 1.055, 2.4),
        }
    };
    0.2126 * part(0) + 0.7152 * part(2) + 0.0722 * part(4)
}

/// A look at one plant hides nothing of its siblings, and a species that is only possible is counted apart.
#[test]
fn pages_show_the_last_full_sitting_and_count_what_is_sure() {
    let clones = "(clones: [(code: \"V1\", received: \"N. ventricosa\", confidence: tag), \
        (code: \"T1\", received: \"N. truncata\", confidence: tag), \
        (code: \"S1\", received: \"N. spathulata\", confidence: tag)])";
    let sure = "(code: \"X20-01\", parents: known(seed: \"V1\", pollen: \"T1\"), confidence: witnessed, \
        sowings: [(code: \"S1\", on: \"2020-09-01\")], seedlings: [(number: \"1\", sowing: \"S1\"), \
        (number: \"2\", sowing: \"S1\"), (number: \"3\", sowing: \"S1\")], sittings: [\
        (on: \"2022-09-01\", columns: [\"span cm\"], rows: [[\"1\", \"2.0\"], [\"2\", \"3.0\"], [\"3\", \"4.0\"]]), \
        (on: \"2023-09-01\", columns: [\"span cm\"], rows: [[\"1\", \"9.5\"]])])";
    let possible = "(code: \"X20-02\", parents: pollen_one_of(seed: \"V1\", pollen: [\"T1\", \"S1\"]), \
        seedlings: [(number: \"1\"), (number: \"2\")])";
    let top = BenchTop::with([
        ("registry.ron", include_str!("sound/registry.ron")),
        ("species.ron", include_str!("sound/species.ron")),
        ("clones.ron", clones),
        ("crosses/X20-01.ron", sure),
        ("crosses/X20-02.ron", possible),
    ]);
    let folder = album(&top, &[]);
    let album = pages(&folder);
    let cross = &album["crosses/x20-01.html"];
    for span in ["2", "3", "4"] {
        assert!(cross.contains(&format!("data-v=\"{span}\"")), "{cross}");
    }
    assert!(!cross.contains("data-v=\"9.5\""), "{cross}");
    let truncata = &album["species/truncata.html"];
    let words = "It is in 1 founder and in 1 cross, perhaps 1 more.";
    assert!(truncata.contains(words), "{truncata}");
    let all = &album["species.html"];
    let words = "1 founder; 1 cross, perhaps 1 more; 3 numbered seedlings, perhaps 2 more";
    assert!(all.contains(words), "{all}");
    let words = "1 founder; perhaps 1 cross; perhaps 2 numbered seedlings";
    assert!(all.contains(words), "{all}");
}

/// What a new registry's list says of a species is public already; what the grower wrote in its place is not.
#[test]
fn the_note_of_the_starter_list_is_published_and_a_growers_own_is_not() {
    let starter = "Older literature uses the name broadly for most Philippine islands, 0-1900 m";
    let own = "I was wrong about mine";
    for (doubt, note, shown) in [
        ("doubt: \"often another\"", starter, "often another"),
        ("doubt: \"often another\"", own, "often another"),
        ("doubtful: true", own, "marked doubtful in species.ron"),
    ] {
        let species = format!("(species: [(epithet: \"alata\", {doubt}, note: \"{note}\")])");
        let top = BenchTop::with([
            (
                "registry.ron",
                "(genus: \"Nepenthes\", hemisphere: north, format: 2)",
            ),
            ("species.ron", species.as_str()),
            (
                "clones.ron",
                "(clones: [(code: \"A1\", received: \"N. alata\")])",
            ),
        ]);
        let published: String = pages(&album(&top, &["--public"])).into_values().collect();
        assert_eq!(published.contains(note), note == starter, "{note}");
        assert!(published.contains(shown), "{doubt}");
    }
}

/// What a run that was stopped left hidden is a private album in a folder that others are to get.
#[test]
fn a_public_album_keeps_nothing_of_a_stopped_run() {
    let hidden = ".podbook-AbCdEfGh12345678.new";
    let left = |top: BenchTop, around: &str| {
        [
            "whole/podbook-album.txt",
            "whole/season.html",
            "old/plants/ven1.html",
            "hold",
        ]
        .iter()
        .fold(top, |top, path| {
            top.file(&format!("{around}{hidden}/{path}"), "to a friend")
        })
    };
    for made in [true, false] {
        let top = copied();
        if made {
            album(&top, &[]);
        }
        // Beside the folder it may be of another kind: a registry in the making.
        let top = left(left(top, "out/"), "")
            .file(".podbook-AbCdEfGh12345679.new/hold", "")
            .file(".podbook-AbCdEfGh12345679.new/whole/registry.ron", "mine");
        let run = top.run(&["album", "-o", "out", "--public", "--today", "2025-06-01"]);
        assert_eq!(run.exit, Some(0), "{run}");
        let out = top.path().join("out");
        assert!(!out.join(hidden).exists() && !top.path().join(hidden).exists());
        assert!(
            files(&out)
                .values()
                .all(|bytes| !String::from_utf8_lossy(bytes).contains("to a friend"))
        );
        assert_eq!(
            top.text(".podbook-AbCdEfGh12345679.new/whole/registry.ron"),
            "mine"
        );
    }
}
