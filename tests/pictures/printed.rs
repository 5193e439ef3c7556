//! Pictures as the command writes them: the same bytes each time, PDF pages of the paper asked for, fonts embedded, and
//! text that can be searched.

use std::path::Path;
use std::process::{Command, Output};

/// Each picture, and words that a search in it finds.
const PICTURES: [(&str, &[&str]); 5] = [
    (
        "merit --trait span",
        &["X22-02-17", "% above the mean of the plants here"],
    ),
    (
        "kinship X22-02-5 X18-01-4 Spa1 X15-02-9",
        &["X15-02-9", "0.3125", "0.1875"],
    ),
    (
        "due --within 6m --today 2022-04-20",
        &[
            "harvest pods, X22-02.A",
            "2022-06-24 to 2022-10-15",
            "no date",
        ],
    ),
    (
        "show X22-02-5",
        &["pod harvested", "2022-08-13", "leaf span 14.5 cm"],
    ),
    ("show Ven1", &["received", "by 2018-02-28"]),
];

fn drawn(words: &str, file: &Path, more: &[&str]) -> Output {
    let today = ["--today", "2025-06-10"];
    let today = if words.contains("--today") {
        &[][..]
    } else {
        &today
    };
    let run = Command::new(env!("CARGO_BIN_EXE_podbook"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .args(words.split(' '))
        .args(["--registry", "registry-demo", "-o"])
        .arg(file)
        .args(today)
        .args(more)
        .output()
        .expect("the binary can be run");
    let said = String::from_utf8_lossy(&run.stderr);
    assert!(run.status.success(), "{words}: {said}");
    run
}

/// What Poppler says of a file; nothing where it is not installed.
fn asked(program: &str, file: &Path, more: &[&str]) -> Option<String> {
    let run = Command::new(program).arg(file).args(more).output().ok()?;
    assert!(run.status.success(), "{program}");
    Some(String::from_utf8_lossy(&run.stdout).into_owned())
}

#[test]
fn the_same_bytes_come_out_each_time() {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    for (words, _) in PICTURES {
        for ending in ["svg", "png", "pdf"] {
            let [one, other] =
                ["one", "other"].map(|of| folder.path().join(format!("{of}.{ending}")));
            drawn(words, &one, &[]);
            drawn(words, &other, &[]);
            let [one, other] =
                [one, other].map(|file| std::fs::read(file).expect("it was written"));
            assert_eq!(one, other, "{words}: {ending}");
        }
    }
}

#[test]
fn a_pdf_has_the_paper_asked_for_its_fonts_and_its_words() {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let file = folder.path().join("picture.pdf");
    for (words, told) in PICTURES {
        let papers = [
            (&[][..], "595.276 x 841.89 pts (A4)"),
            (&["--paper", "a5"], "419.528 x 595.276 pts"),
        ];
        for (more, size) in papers {
            drawn(words, &file, more);
            let Some(text) = asked("pdftotext", &file, &["-layout", "-"].map(|of| of)) else {
                return;
            };
            let plain = text.split_whitespace().collect::<Vec<_>>().join(" ");
            for words in told {
                let whole = words.split(' ').all(|word| plain.contains(word));
                assert!(whole, "{words} in {plain}");
            }
            let info = asked("pdfinfo", &file, &[]).expect("Poppler is there");
            assert!(info.contains(size), "{words}: {info}");
            let fonts = asked("pdffonts", &file, &[]).expect("Poppler is there");
            let fonts: Vec<&str> = fonts.lines().skip(2).collect();
            assert!(!fonts.is_empty(), "{words}");
            for font in fonts {
                assert!(font.contains("yes yes yes"), "{words}: {font}");
            }
        }
    }
}
