//! `podbook card`: line by line what is on it, and what never gets there.

use crate::bench_top::BenchTop;
use crate::demo::{copied, demo};
use crate::secrets::with_secrets;
use insta::assert_snapshot;

#[test]
fn the_plant_on_offer_line_by_line() {
    assert_snapshot!("card-of-the-plant-on-offer", demo("card X22-02-5"));
    assert_snapshot!("card-what-is-missing", demo("card X22-02-5 --missing"));
}

/// An uncertain father, a cutting, a laboratory copy, a founder whose label says little, a seedling of a muddled tray, a
/// direction that was lost.
#[test]
fn nothing_is_surer_than_the_record() {
    for (name, code) in [
        ("card-uncertain-father", "X18-01-7"),
        ("card-cutting", "X18-01-4-b"),
        ("card-laboratory-copy", "Spa1-b"),
        ("card-founder-with-a-bad-label", "Vta1"),
        ("card-muddled", "X20-01-5"),
        ("card-direction-lost", "X19-02-1"),
    ] {
        assert_snapshot!(name, demo(&format!("card {code}")));
    }
}

/// A parent of many species has a formula on the card or none: the strokes of Purdy notation say nothing to a buyer.
#[test]
fn a_card_has_one_notation() {
    let species = [
        "ventricosa",
        "spathulata",
        "hamata",
        "truncata",
        "maxima",
        "veitchii",
        "lowii",
        "burbidgeae",
    ];
    let clones: String = (1..)
        .zip(species)
        .map(|(n, of)| format!("(code: \"A{n}\", received: \"N. {of}\"),"))
        .collect();
    let mut top = BenchTop::with([
        ("registry.ron", "(genus: \"Nepenthes\")"),
        ("clones.ron", format!("(clones: [{clones}])").as_str()),
    ]);
    for (cross, seed, pollen) in [
        ("X1", "A1", "A2"),
        ("X2", "A3", "A4"),
        ("X3", "A5", "A6"),
        ("X4", "A7", "A8"),
        ("X5", "X1-1", "X2-1"),
        ("X6", "X3-1", "X4-1"),
        ("X7", "X5-1", "X6-1"),
        ("X8", "X7-1", "A1"),
    ] {
        let page = format!(
            "(code: \"{cross}\", parents: known(seed: \"{seed}\", pollen: \"{pollen}\"), seedlings: [(number: \"1\")])"
        );
        top = top.file(&format!("crosses/{cross}.ron"), &page);
    }
    let card = top.run(&["card", "X8-1"]).stdout;
    assert!(card.contains("♀ X7-1"), "{card}");
    assert!(!card.contains("//"), "{card}");
}

#[test]
fn a_card_is_of_one_plant() {
    assert_snapshot!("card-of-a-cross", demo("card X22-02"));
    assert_eq!(demo("card X22-02-5 --for phone --paper a4").exit, Some(2));
}

/// Open pollination, and a father who is only probable because a control set.
#[test]
fn doubt_about_the_father_is_on_the_card() {
    let open = copied().change(
        "crosses/X22-02.ron",
        "parents: known(seed: \"X18-01-4\", pollen: \"Spa1\")",
        "parents: open(seed: \"X18-01-4\")",
    );
    let card = open.run(&["card", "X22-02-5"]).stdout;
    assert!(
        card.contains("♂ open pollinated, father not known"),
        "{card}"
    );
    assert!(card.contains("? (open pollinated)"), "{card}");
    let stray = copied().change("crosses/X22-02.ron", "control_set: 0", "control_set: 2");
    let card = stray.run(&["card", "X22-02-5"]).stdout;
    assert!(
        card.contains("♂ probably Spa1") && card.contains("(father probable)"),
        "{card}"
    );
}

/// The fields that docs/files.md marks as private, but for the grower's own name and contact, which are printed where they
/// are recorded; and every place, note and name of a helper.
#[test]
fn nothing_private_is_on_a_card() {
    let top = with_secrets();
    let check = top.run(&["check"]);
    assert!(!check.stdout.contains("fault:"), "{check}");
    for code in ["X22-01-1", "X22-01-1-b", "V1", "X22-01-2"] {
        for form in ["text", "json", "html", "svg"] {
            for more in [&["--paper", "a4"][..], &["--for", "phone"][..]] {
                let asked = [&["card", code, "--format", form], more].concat();
                let run = top.run(&asked);
                assert_eq!(run.exit, Some(0), "{asked:?}: {run}");
                assert!(!run.stdout.contains("secret"), "{asked:?}: {run}");
                assert!(run.stdout.len() > 300, "{asked:?}");
            }
        }
        let missing = top.run(&["card", code, "--missing"]);
        assert!(!missing.stdout.contains("secret"), "{missing}");
        let tags = top.run(&["tags", code, "--json"]).stdout;
        assert!(!tags.contains("secret"), "{tags}");
    }
    let card = top.run(&["card", "X22-01-1"]).stdout;
    for public in [
        "warm and wet",
        "7 cm",
        "12.0 cm (4.7 in)",
        "a mild soap",
        "the one who grows",
    ] {
        assert!(card.contains(public), "{public}: {card}");
    }
}

/// What a record says stays what it says: escaped in HTML, and no part of the page.
#[test]
fn html_is_escaped_and_needs_no_other_file() {
    let nasty = r#"</title><script src="x">&"#;
    let top = copied().change(
        "registry.ron",
        "ask at the club table",
        &nasty.replace('"', "\\\""),
    );
    let page = top.run(&["card", "X22-02-5", "--format", "html"]).stdout;
    assert!(
        !page.contains("<script") && page.contains("&lt;script src=&quot;x&quot;&gt;&amp;"),
        "{page}"
    );
    // The photo is within the page.
    let page = page.replace("src=\"data:image/jpeg;base64,", "");
    for outside in ["src=\"", "href=", "@import", "url("] {
        assert!(!page.contains(outside), "{outside}");
    }
    assert!(page.contains("<i>N. spathulata</i>"), "{page}");
    let opened = page.matches("<ul>").count();
    assert!(
        opened > 0 && opened == page.matches("</ul>").count(),
        "{page}"
    );
}

/// Sizes of letters in an SVG, through the outlines' scale.
fn sizes(svg: &str) -> Vec<f64> {
    let texts = svg.split("font-size=\"").skip(1);
    texts
        .filter_map(|rest| rest.split('"').next()?.trim_end_matches("px").parse().ok())
        .collect()
}

/// Nothing on the phone is smaller than 11, nothing leaves the 360 points.
#[test]
fn a_phone_shows_letters_of_eleven_points() {
    let run = demo("card X22-02-5 --for phone --format svg");
    assert!(
        run.stdout.contains("width=\"360pt\"") || run.stdout.contains("width=\"360.00pt\""),
        "{}",
        &run.stdout[..200]
    );
    let sizes = sizes(&run.stdout);
    assert!(sizes.len() > 20, "{}", sizes.len());
    assert!(sizes.iter().all(|size| *size >= 11.0), "{sizes:?}");
}

/// The demo's plant fits on one page of either paper.
#[test]
fn a_card_is_one_page() {
    for paper in ["a5", "a4"] {
        let top = copied();
        let file = top.path().join("card.pdf");
        let run = top.run(&[
            "card",
            "X22-02-5",
            "--paper",
            paper,
            "-o",
            &file.to_string_lossy(),
        ]);
        assert_eq!(run.exit, Some(0), "{run}");
        let pdf = std::fs::read(&file).expect("a PDF");
        let boxes = String::from_utf8_lossy(&pdf).matches("/MediaBox").count();
        assert_eq!(boxes, 1, "{paper}");
    }
}

/// A photo that is not there, is no picture or lies outside the registry is named; the card is written without it.
#[test]
fn a_photo_that_cannot_be_shown_is_named() {
    let record = "photos/X22-02-5.jpg";
    let shown = copied().run(&["card", "X22-02-5", "--format", "html"]);
    assert!(
        shown.stdout.contains("data:image/jpeg;base64,"),
        "{}",
        shown.stderr
    );
    assert!(!shown.stderr.contains("no picture"), "{}", shown.stderr);
    for (file, why) in [
        ("photos/gone.jpg", "no file of that name"),
        ("registry.ron", "format"),
        ("../../secret.jpg", "not a file"),
        ("photos", "not a file"),
    ] {
        let top = copied().change("crosses/X22-02.ron", record, file);
        // The text of a card does not say that a photo goes along, and `check` names the file; that one is a picture is not asked.
        if file != "registry.ron" {
            let text = top.run(&["card", "X22-02-5"]);
            assert!(!text.stdout.contains("photo of this plant"), "{text}");
            assert!(text.stderr.contains("no picture on the card"), "{text}");
            let missing = top.run(&["card", "X22-02-5", "--missing"]);
            assert!(missing.stdout.contains("(no photo of it)"), "{missing}");
            let check = top.run(&["check", "--today", "2025-06-01"]);
            let remark = format!("photo {file} of X22-02-5: ");
            assert!(check.stderr.contains(&remark), "{check}");
            assert_eq!(check.exit, Some(0), "{check}");
        }
        let run = top.run(&["card", "X22-02-5", "--format", "html"]);
        assert_eq!(run.exit, Some(0), "{run}");
        assert!(!run.stdout.contains("<img"), "{file}");
        assert!(
            run.stderr.contains("no picture on the card") && run.stderr.contains(why),
            "{file}: {}",
            run.stderr
        );
    }
}

/// Possible fathers have names, as a certain one has: codes alone say nothing to a buyer.
#[test]
fn possible_fathers_have_names() {
    let top = copied().change(
        "crosses/X22-02.ron",
        "parents: known(seed: \"X18-01-4\", pollen: \"Spa1\")",
        "parents: pollen_one_of(seed: \"X18-01-4\", pollen: [\"Spa1\", \"Mir1\"])",
    );
    let card = top.run(&["card", "X22-02-5"]).stdout;
    let card = card.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        card.contains("♂ one of Spa1 and Mir1: N. spathulata or N. mira"),
        "{card}"
    );
}
