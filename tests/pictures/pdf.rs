//! PDF: the same every time, pages of the scene's size, text that can be read back letter by letter.
//!
//! What other programs make of it is asked of Poppler where it is installed, as it is for the checks of every change.

use std::process::Command;

use podbook::render::pdf;
use podbook::render::scene::{Face, INK, Path, Scene, Stroke, TextRun};

fn page(lines: &[&str]) -> Scene {
    let mut scene = Scene {
        width: 210.0 * 72.0 / 25.4,
        height: 297.0 * 72.0 / 25.4,
        title: "Finest of the tray".into(),
        ..Scene::default()
    };
    scene.fill(Path::rect(20.0, 20.0, 50.0, 8.0), INK);
    scene.stroke(
        Path::line((20.0, 40.0), (90.0, 40.0)),
        Stroke::dashed(INK, 1.0, &[4.0, 2.0]),
    );
    for (at, line) in lines.iter().enumerate() {
        scene.text(TextRun {
            place: (60.0, 80.0 + 24.0 * at as f64),
            size: 12.0,
            face: [Face::Roman, Face::Italic, Face::Bold, Face::BoldItalic][at % 4],
            colour: INK,
            text: (*line).into(),
        });
    }
    scene
}

/// Ligatures, signs of the trade, fractions, a no-break space, which shares its glyph with the plain one, and letters that
/// the typeface has not.
const LINES: [&str; 6] = [
    "N. ventricosa ♀ × spathulata ♂, first office fjord",
    "N. maxima, affine, flagship 5 ¾ in",
    "14.5 cm · ½ · \u{a0}end",
    "To. Ty. AVAW: kerned",
    "pitcher plant 猪笼草 unknown to the typeface",
    "a name with <marks> & (brackets) \\ and é",
];

#[test]
fn the_same_scenes_give_the_same_bytes() {
    let scenes = [page(&LINES), page(&LINES[..1])];
    let first = pdf(&scenes);
    assert!(first.starts_with(b"%PDF-1.7") && first.ends_with(b"%%EOF"));
    assert_eq!(first, pdf(&scenes));
    let text = String::from_utf8_lossy(&first);
    for clock in ["CreationDate", "ModDate", "/ID"] {
        assert!(!text.contains(clock), "{clock}");
    }
}

#[test]
fn any_text_and_no_text_are_written() {
    let nasty = [
        "猪笼草 ネペンテス \u{202e} abc",
        "e\u{301}👩‍🌾",
        "\u{0}\u{1}\u{fffe}",
        "",
    ];
    for scenes in [vec![], vec![Scene::default()], vec![page(&nasty)]] {
        assert!(pdf(&scenes).ends_with(b"%%EOF"));
    }
}

/// The words a program prints of a file, or none when it is not installed.
fn asked(program: &str, options: &[&str], file: &std::path::Path) -> Option<String> {
    let output = Command::new(program)
        .args(options)
        .arg(file)
        .arg("-")
        .output();
    let output = match program {
        "pdftotext" => output,
        _ => Command::new(program).args(options).arg(file).output(),
    };
    let output = output.ok()?;
    assert!(
        output.status.success(),
        "{program}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    assert!(
        output.stderr.is_empty(),
        "{program}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    Some(String::from_utf8_lossy(&output.stdout).into_owned())
}

#[test]
fn poppler_reads_every_letter_back() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("page.pdf");
    std::fs::write(&file, pdf(&[page(&LINES), page(&LINES[..1])])).unwrap();
    let Some(text) = asked("pdftotext", &["-layout"], &file) else {
        return;
    };
    for line in LINES {
        let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(plain(&text).contains(&plain(line)), "{line}\n{text}");
    }
    let fonts = asked("pdffonts", &[], &file).unwrap();
    assert_eq!(fonts.lines().skip(2).count(), 4, "{fonts}");
    for font in fonts.lines().skip(2) {
        assert!(
            font.contains("CID Type 0C") && font.contains("yes yes yes"),
            "{fonts}"
        );
    }
    let info = asked("pdfinfo", &[], &file).unwrap();
    assert!(
        info.contains("595.276 x 841.89 pts (A4)") && info.contains("Pages:           2"),
        "{info}"
    );
}
