//! The gallery page: every picture in it is what the command under it draws from the demo registry today.
//!
//! After a change that is meant, run `PODBOOK_REWRITE=1 cargo test --test pictures gallery` and look at each picture.

use std::fs;
use std::path::Path;
use std::process::Command;

const PAGE: &str = "docs/charts.md";

/// The commands in the page's fenced blocks, with the picture each writes.
fn commands(page: &str) -> Vec<(Vec<&str>, &str)> {
    let told = page
        .lines()
        .filter_map(|line| line.strip_prefix("podbook "));
    told.filter_map(|line| {
        let words: Vec<&str> = line.split_whitespace().collect();
        let at = words.iter().position(|word| *word == "-o")?;
        Some((words.clone(), words[at + 1]))
    })
    .collect()
}

#[test]
fn every_picture_of_the_gallery_is_current() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let page = fs::read_to_string(root.join(PAGE)).expect("the page is there");
    let commands = commands(&page);
    assert!(commands.len() >= 4, "the page shows pictures");
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let mut stale = Vec::new();
    for (words, picture) in commands {
        let drawn = folder.path().join("drawn.svg");
        let words = words.iter().map(|word| {
            if *word == picture {
                drawn.to_string_lossy().into_owned()
            } else {
                (*word).to_owned()
            }
        });
        let run = Command::new(env!("CARGO_BIN_EXE_podbook"))
            .current_dir(root)
            .args(words)
            .output()
            .expect("the binary can be run");
        assert!(
            run.status.success(),
            "{picture}: {}",
            String::from_utf8_lossy(&run.stderr)
        );
        let drawn = fs::read(&drawn).expect("the picture was drawn");
        let kept = root.join(picture);
        if std::env::var_os("PODBOOK_REWRITE").is_some() {
            fs::write(&kept, &drawn).expect("the picture can be written");
        }
        let link = picture
            .strip_prefix("docs/")
            .expect("pictures lie beside the page");
        assert!(
            page.contains(&format!("]({link})")),
            "{picture} is not shown"
        );
        if fs::read(&kept).ok().as_deref() != Some(&drawn[..]) {
            stale.push(picture.to_owned());
        }
    }
    assert!(
        stale.is_empty(),
        "drawn anew, these differ: {stale:?}; set PODBOOK_REWRITE=1 to keep them"
    );
}
