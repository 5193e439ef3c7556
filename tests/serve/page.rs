//! `docs/serve.md` is true: what it shows is printed, its options are those of the command, its entries are taken.

use crate::running::Server;
use serde_json::json;
use std::collections::BTreeSet;
use std::process::Command;

const PAGE: &str = include_str!("../../docs/serve.md");

/// Words with ports and secrets alike.
fn alike(words: &str) -> String {
    let mut out = String::new();
    for word in words.split_inclusive([':', '/', '=', '\n']) {
        let end = word.len() - usize::from(word.ends_with([':', '/', '=', '\n']));
        let is_port = end > 3 && end < 6 && word[..end].bytes().all(|of| of.is_ascii_digit());
        let is_secret = end == 32 && word[..end].bytes().all(|of| of.is_ascii_hexdigit());
        match (is_port, is_secret) {
            (true, _) => out += "PORT",
            (_, true) => out += "SECRET",
            _ => out += &word[..end],
        }
        out += &word[end..];
    }
    out
}

#[test]
fn it_prints_what_the_page_shows() {
    let block = PAGE
        .split("```text\n$ podbook serve\n")
        .nth(1)
        .expect("a block");
    let block = block.split("```").next().expect("an end");
    let mut server = Server::of_demo(&[]);
    let said = server.said(block.lines().count());
    assert_eq!(alike(&said), alike(block));
}

#[test]
fn options_are_those_of_the_command() {
    let help = Command::new(env!("CARGO_BIN_EXE_podbook"))
        .args(["serve", "--help"])
        .output()
        .expect("it runs");
    let help = String::from_utf8(help.stdout).expect("UTF-8");
    let own = help
        .split("Options of every command")
        .next()
        .expect("its own");
    let own: BTreeSet<&str> = own
        .lines()
        .filter_map(|line| line.trim().strip_prefix("--")?.split([' ', '=']).next())
        .collect();
    let of_page: BTreeSet<&str> = PAGE
        .lines()
        .filter_map(|line| line.strip_prefix("| `--")?.split('`').next())
        .collect();
    assert_eq!(of_page, own);
}

#[test]
fn entries_are_those_that_are_taken() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let kinds: Vec<&str> = PAGE
        .lines()
        .filter(|line| line.contains("| `podbook "))
        .filter_map(|line| line.trim_end_matches(" |").rsplit("| ").next())
        .map(|of| of.trim_matches('`'))
        .collect();
    assert_eq!(kinds.len(), 21);
    for kind in kinds {
        let answer = &device.enter(&json!([{"id": "0123456789abcdef", "kind": kind}]))[0];
        let words = answer["words"].as_str().expect("words");
        assert!(words.contains("is missing"), "{kind}: {words}");
    }
}
