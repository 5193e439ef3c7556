//! `podbook card`: line by line what is on it, and what never gets there.

use crate::bench_top::BenchTop;
use crate::demo::{copied, demo};
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
    let files = include_str!("../../docs/files.md");
    let private: Vec<&str> = files
        .lines()
        .filter(|line| line.starts_with("| `") && line.contains("private"))
        .map(|line| line.split('`').nth(1).unwrap_or(""))
        .collect();
    // One that comes to be private has to be looked at here too.
    assert_eq!(
        private,
        [
            "grower", "contact", "place", "from", "from", "sold", "asked", "not_kept"
        ]
    );
    let top = BenchTop::with([
        ("registry.ron", REGISTRY),
        ("clones.ron", CLONES),
        ("species.ron", "(species: [])"),
        ("crosses/X22-01.ron", CROSS),
    ]);
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

const REGISTRY: &str = r#"(genus: "Nepenthes", hemisphere: north, format: 2, registry: "ours",
    grower: "the one who grows", contact: "at the table", note: "secret note of the registry",
    places: [(name: "secret shelf", climate: "warm and wet", note: "secret note of a place")],
    treatments: [(on: "2024-01-05", place: "secret shelf", product: "a mild soap", against: "mites", by: "secret helper", note: "secret note")],
    traits: [(code: "span", name: "leaf span", reads: length(cm))])"#;

const CLONES: &str = r#"(clones: [
    (code: "V1", received: "N. ventricosa", from: "secret nursery", on: "2015", form: plant, confidence: tag,
        supplier_code: "secret stock 7", locality: "secret valley", papers: "secret papers", nights: "secret nights",
        identified: [(on: "2016", name: "N. ventricosa", by: "secret visitor", basis: "secret basis", confidence: claim, note: "secret opinion")],
        kept: (why: "secret reason"), note: "secret note of a clone",
        foreign: (registry: "secret club", code: "secret-3")),
    (code: "S1", received: "N. spathulata", from: "secret friend", confidence: tag),
])"#;

const CROSS: &str = r#"(code: "X22-01", parents: known(seed: "V1", pollen: "S1"), confidence: witnessed, goal: "secret goal", note: "secret note of the cross",
    pollinations: [(zone: "A", plant: "V1", on: ["2022-03-01"], note: "secret note of a zone")],
    pods: [(code: "P1", zone: "A", harvested: "2022-07-01", seeds: 90, note: "secret note of a pod")],
    sowings: [(code: "W1", pod: "P1", on: "2022-08-01", seeds: 50, container: "secret tray", place: "secret shelf", note: "secret note of a sowing")],
    seedlings: [
        (number: "1", sowing: "W1", place: "secret shelf, front", pots: [(on: "2023-05-01", pot: "7 cm", place: "secret shelf")],
            photos: [(file: "photos/secret.jpg", on: "2024-05-01", note: "secret note of a picture")],
            ramets: [(code: "a", made: original, place: "secret shelf", note: "secret note of a piece"), (code: "b", from: "a", made: cutting, cut: "2024-01", place: "secret shelf")],
            flowerings: [(opened: "2024-02-01", sex: female, note: "secret note of a spike")],
            treatments: [(on: "2023-12-01", product: "a mild soap", by: "secret helper", note: "secret note")],
            identified: [(on: "2024", name: "N. ventricosa", by: "secret visitor", confidence: claim)],
            kept: (on: "2024-05-01", why: "secret reason"), note: "secret note of a seedling"),
        (number: "2", sowing: "W1", fate: sold(on: "2024-05-20", label: "secret label", to: "secret buyer", price: "secret sum", said: "secret words")),
    ],
    sittings: [(on: "2024-05-01", place: "secret shelf", by: "secret helper", light: "secret lamp", columns: ["span cm", "note"],
        rows: [["1", "12.0", "secret remark"], ["2", "9.0", "secret remark"]], note: "secret note of a sitting")])"#;

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
