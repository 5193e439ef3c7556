//! The demo registry asked as a grower asks it: a day in June 2025, 80 columns wide.

use crate::bench_top::{BenchTop, Run};
use std::path::Path;
use std::process::Command;

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/registry-demo");

/// Asks the demo as it lies in the project; nothing that writes may be asked.
pub fn demo(question: &str) -> Run {
    ask(Path::new(DEMO), question)
}

/// A copy of the demo to write in.
pub fn copied() -> BenchTop {
    let mut top = BenchTop::empty();
    let mut folders = vec![(Path::new(DEMO).to_path_buf(), String::new())];
    while let Some((folder, inside)) = folders.pop() {
        for found in std::fs::read_dir(folder).expect("the demo can be listed") {
            let path = found.expect("the demo can be listed").path();
            let name = path.file_name().expect("a file has a name");
            let place = format!("{inside}{}", name.to_string_lossy());
            if path.is_dir() {
                folders.push((path, format!("{place}/")));
            } else {
                let bytes = std::fs::read(&path).expect("the demo can be read");
                top = top.bytes(&place, &bytes);
            }
        }
    }
    top
}

/// As [`demo`], in another width.
pub fn demo_in(width: usize, question: &str) -> Run {
    ask_in(width, Path::new(DEMO), question)
}

/// One screen of the demo, as a grower sees it.
pub fn demo_screen(width: usize, question: &str) -> Run {
    ask_with(width, Path::new(DEMO), question, &[])
}

/// Asks the registry in a folder; words are parted by blanks.
pub fn ask(folder: &Path, question: &str) -> Run {
    ask_in(80, folder, question)
}

fn ask_in(width: usize, folder: &Path, question: &str) -> Run {
    ask_with(width, folder, question, &["--full"])
}

/// One screen of a registry, as a grower sees it.
pub fn screen_of(width: usize, folder: &Path, question: &str) -> Run {
    ask_with(width, folder, question, &[])
}

fn ask_with(width: usize, folder: &Path, question: &str, more: &[&str]) -> Run {
    let output = Command::new(env!("CARGO_BIN_EXE_podbook"))
        .current_dir(folder)
        .env_remove("NO_COLOR")
        .env_remove("COLUMNS")
        .args(question.split(' '))
        .args(["--today", "2025-06-01", "--width", &width.to_string()])
        .args(more)
        .output()
        .expect("the binary can be run");
    let folder = folder.to_string_lossy().into_owned();
    let words = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).replace(&folder, "[folder]");
    Run {
        exit: output.status.code(),
        stdout: words(output.stdout),
        stderr: words(output.stderr),
    }
}
