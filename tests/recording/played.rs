//! A registry in a folder of its own that lines are typed at, each on a day.

use crate::bench_words::words;
use std::fs;
use std::path::Path;
use std::process::Command;
use tempfile::TempDir;

/// A copy of a registry of this project, by its folder.
pub fn copied(from: &str) -> TempDir {
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join(from);
    let folder = tempfile::tempdir().unwrap();
    for below in ["", "crosses"] {
        fs::create_dir_all(folder.path().join(below)).unwrap();
        for entry in fs::read_dir(from.join(below)).unwrap() {
            let path = entry.unwrap().path();
            if path.is_file() {
                let name = path.file_name().unwrap();
                fs::copy(&path, folder.path().join(below).join(name)).unwrap();
            }
        }
    }
    folder
}

/// What is answered on a day, in one line: the answer, then what is remarked on.
pub fn said(folder: &Path, line: &str, today: &str) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_podbook"))
        .args(words(line))
        .args(["--today", today, "--registry"])
        .arg(folder)
        .env("COLUMNS", "400")
        .output()
        .unwrap();
    let text = [output.stdout, output.stderr].concat();
    let text = String::from_utf8(text).unwrap();
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
