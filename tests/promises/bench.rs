//! A registry on disk, and podbook run on it as a program of its own.

use crate::base::Pages;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// A folder that vanishes with a registry in it.
pub struct Bench(tempfile::TempDir);

impl Bench {
    pub fn of(pages: &Pages) -> Bench {
        let bench = Bench(tempfile::tempdir().expect("a folder"));
        fs::create_dir_all(bench.path().join("crosses")).unwrap();
        for (path, text) in pages {
            fs::write(bench.path().join(path), text).unwrap();
        }
        bench
    }

    /// Files by path, written as they are.
    pub fn of_tree(tree: &Tree) -> Bench {
        let bench = Bench(tempfile::tempdir().expect("a folder"));
        for (path, bytes) in tree {
            let path = bench.path().join(path);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, bytes).unwrap();
        }
        bench
    }

    /// The registry's folder: below another one, so that there is an outside.
    pub fn path(&self) -> PathBuf {
        self.0.path().join("registry")
    }

    #[cfg(unix)]
    pub fn outside(&self) -> &Path {
        self.0.path()
    }

    /// The program on this registry, on a fixed day.
    pub fn command(&self, words: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_podbook"));
        command.args(words).arg("--registry").arg(self.path());
        command.args(["--today", "2026-05-14"]);
        command
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null());
        command
            .env("RUST_BACKTRACE", "0")
            .env("RAYON_NUM_THREADS", "1");
        command
    }

    pub fn run(&self, words: &[&str]) -> Ran {
        let mut command = self.command(words);
        Ran::of(
            command
                .stdout(Stdio::piped())
                .stderr(Stdio::piped())
                .output()
                .unwrap(),
        )
    }

    pub fn tree(&self) -> Tree {
        tree(&self.path())
    }
}

/// What a run said.
#[derive(Debug)]
pub struct Ran {
    pub code: i32,
    pub out: String,
    pub err: String,
}

impl Ran {
    pub fn of(output: Output) -> Ran {
        let words = |bytes: Vec<u8>| String::from_utf8(bytes).expect("UTF-8");
        Ran {
            code: output.status.code().unwrap_or(-1),
            out: words(output.stdout),
            err: words(output.stderr),
        }
    }
}

/// Every file of a folder by path but the lock, links followed.
pub type Tree = BTreeMap<String, Vec<u8>>;

pub fn tree(folder: &Path) -> Tree {
    let mut found = Tree::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(next) = folders.pop() {
        for entry in fs::read_dir(next).unwrap() {
            let path = entry.unwrap().path();
            let name = path
                .strip_prefix(folder)
                .unwrap()
                .to_str()
                .unwrap()
                .to_owned();
            if path.is_dir() {
                folders.push(path);
            } else if name != ".podbook-lock" {
                found.insert(name, fs::read(&path).unwrap());
            }
        }
    }
    found
}

/// A tree without what podbook keeps to itself while it writes.
pub fn pages_of(tree: Tree) -> Tree {
    let own = |path: &String| {
        path.rsplit('/')
            .next()
            .is_some_and(|name| name.starts_with(".podbook-"))
    };
    tree.into_iter().filter(|(path, _)| !own(path)).collect()
}
