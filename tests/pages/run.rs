//! Runs a page: writes the files it shows, runs the commands it shows, and gives the page back with what they print.
//!
//! ```` ```console ```` holds commands after `$ `, each followed by what is typed at its questions after `> ` and by what it
//! prints; `cd` and `podbook` are known.
//! ```` ```ron PATH ```` is the whole text of a file; ```` ```ron PATH after WORDS ```` is put behind the first line
//! of the file that ends in these words. Today, width and colour are frozen.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The day that counts as today on every page.
pub const TODAY: &str = "2025-06-01";

/// The page as it would read if every output were true.
pub fn as_it_runs(page: &str, folder: &Path) -> String {
    let mut here = folder.to_path_buf();
    let mut out = String::new();
    let mut lines = page.lines();
    while let Some(line) = lines.next() {
        push(&mut out, line);
        let Some(info) = line.strip_prefix("```") else {
            continue;
        };
        let inside: Vec<&str> = lines.by_ref().take_while(|line| *line != "```").collect();
        if info == "console" {
            for (at, line) in inside.iter().enumerate() {
                if let Some(command) = line.strip_prefix("$ ") {
                    let typed = inside[at + 1..]
                        .iter()
                        .map_while(|line| line.strip_prefix("> "));
                    run((command, &typed.collect::<Vec<_>>()), &mut here, &mut out);
                }
            }
        } else {
            if let Some(file) = info.strip_prefix("ron ") {
                write(file, &inside.join("\n"), &here);
            }
            inside.iter().for_each(|line| push(&mut out, line));
        }
        push(&mut out, "```");
    }
    out
}

fn push(out: &mut String, line: &str) {
    out.push_str(line);
    out.push('\n');
}

/// Runs a command, with the lines that are typed at its questions.
fn run((command, typed): (&str, &[&str]), here: &mut PathBuf, out: &mut String) {
    push(out, &format!("$ {command}"));
    typed
        .iter()
        .for_each(|line| push(out, &format!("> {line}")));
    // From a fresh copy the program is run by cargo; it is the same program.
    let called = command.strip_prefix("cargo run --locked -- ");
    let words = words(&called.map_or(command.to_owned(), |rest| format!("podbook {rest}")));
    match words[0].as_str() {
        "cd" => *here = here.join(&words[1]),
        "podbook" => {
            let mut child = Command::new(env!("CARGO_BIN_EXE_podbook"))
                .current_dir(&here)
                .env_remove("NO_COLOR")
                .args(&words[1..])
                .args(["--today", TODAY, "--width", "80", "--colour", "never"])
                .stdin(Stdio::piped())
                .stdout(Stdio::piped())
                .stderr(Stdio::piped())
                .spawn()
                .expect("the binary can be run");
            let mut keyboard = child.stdin.take().expect("a keyboard");
            // A command that asks nothing may be gone before anything is typed.
            let _ = keyboard.write_all(format!("{}\n", typed.join("\n")).as_bytes());
            drop(keyboard);
            let ran = child.wait_with_output().expect("the binary ends");
            for bytes in [ran.stdout, ran.stderr] {
                let text = String::from_utf8(bytes).expect("UTF-8");
                text.lines().for_each(|line| push(out, line.trim_end()));
            }
        }
        other => panic!("the page runs `{other}`, which the test does not know"),
    }
}

/// Splits a command at blanks outside quotes.
fn words(command: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut quote = None;
    for letter in command.chars() {
        match (letter, quote) {
            ('"' | '\'', None) => quote = Some(letter),
            (end, Some(open)) if end == open => quote = None,
            (' ', None) => words.push(String::new()),
            _ => words.last_mut().expect("a word").push(letter),
        }
    }
    words.retain(|word| !word.is_empty());
    words
}

fn write(file: &str, text: &str, here: &Path) {
    let (path, after) = match file.split_once(" after ") {
        Some((path, after)) => (here.join(path), Some(after)),
        None => (here.join(file), None),
    };
    let text = match after {
        None => format!("{text}\n"),
        Some(after) => {
            let old = std::fs::read_to_string(&path).expect("the file is there");
            let place = format!("{after}\n");
            assert!(
                old.contains(&place),
                "{} has no line that ends in `{after}`",
                path.display()
            );
            old.replacen(&place, &format!("{place}{text}\n"), 1)
        }
    };
    std::fs::write(&path, text).expect("the file can be written");
}

/// Holds a page to what its commands print; what it should read is written beside the test binaries.
pub fn hold(name: &str, page: &str) {
    let scratch = tempfile::tempdir().expect("a scratch folder");
    hold_in(name, page, scratch.path());
}

/// The same for a page whose commands are run in a certain folder.
pub fn hold_in(name: &str, page: &str, folder: &Path) {
    let truth = as_it_runs(page, folder);
    if truth != page {
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
        std::fs::write(&path, &truth).expect("the page can be written");
        let first = truth
            .lines()
            .zip(page.lines())
            .position(|(new, old)| new != old);
        let line = first.unwrap_or(page.lines().count());
        panic!(
            "{name} is not true from line {}:\n  the page: {:?}\n  in truth: {:?}\nthe whole page as it should read lies in {}",
            line + 1,
            page.lines().nth(line),
            truth.lines().nth(line),
            path.display()
        );
    }
}
