//! A registry to ask, and the program asked in it, with today and the width frozen.

use std::path::{Path, PathBuf};
use std::process::Command;
use tempfile::TempDir;

/// The day that counts as today.
pub const TODAY: &str = "2024-05-14";

/// A copy of a story's registry in a folder of its own.
pub struct Story {
    folder: TempDir,
}

impl Story {
    /// The registry in `tests/stories/NAME`.
    pub fn named(name: &str) -> Story {
        let from = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("tests/stories")
            .join(name);
        let folder = tempfile::tempdir().expect("a temporary folder can be made");
        copy(&from, folder.path());
        Story { folder }
    }

    /// Puts another text in the place of a file's.
    pub fn file(self, path: &str, text: &str) -> Story {
        std::fs::write(self.path(path), text).expect("a file can be written");
        self
    }

    pub fn path(&self, path: &str) -> PathBuf {
        self.folder.path().join(path)
    }

    pub fn text(&self, path: &str) -> String {
        std::fs::read_to_string(self.path(path)).expect("a file can be read")
    }

    /// What is printed, standard error last, and the exit code in front when it is not 0.
    pub fn ask(&self, words: &str) -> String {
        self.ask_words(&words.split_whitespace().collect::<Vec<_>>())
    }

    /// The same, of words that may hold spaces.
    pub fn ask_words(&self, words: &[&str]) -> String {
        let output = Command::new(env!("CARGO_BIN_EXE_podbook"))
            .current_dir(self.folder.path())
            .args(words)
            .args(["--today", TODAY, "--width", "110", "--full"])
            .env_remove("NO_COLOR")
            .output()
            .expect("the binary can be run");
        let mut told = match output.status.code() {
            Some(0) => String::new(),
            code => format!("exit {code:?}\n"),
        };
        told.push_str(&String::from_utf8_lossy(&output.stdout));
        told.push_str(&String::from_utf8_lossy(&output.stderr));
        told
    }
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).expect("a folder can be made");
    for entry in std::fs::read_dir(from).expect("the story is there") {
        let entry = entry.expect("the story can be listed");
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &target);
        } else {
            std::fs::copy(entry.path(), target).expect("a file can be copied");
        }
    }
}
