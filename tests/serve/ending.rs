//! Ctrl-C: podbook ends by itself, and what had arrived is whole.

use crate::once::{entries, is_once};
use crate::rounds;
use crate::running::{Device, Server, events};
use serde_json::Value;
use std::path::Path;
use std::process::Command;
use std::thread;
use std::time::Duration;

fn podbook(folder: &Path, words: &[&str]) -> String {
    let ran = Command::new(env!("CARGO_BIN_EXE_podbook"))
        .args(words)
        .args(["--today", "2025-06-01", "--registry"])
        .arg(folder)
        .output()
        .expect("it runs");
    let said = String::from_utf8_lossy(&ran.stdout).into_owned();
    assert!(ran.status.success(), "{words:?}: {said}");
    said
}

/// Names in a folder that podbook only needs while it writes.
fn unfinished(folder: &Path) -> Vec<String> {
    let all = std::fs::read_dir(folder).expect("a folder");
    let names = all.map(|of| {
        of.expect("an entry")
            .file_name()
            .to_string_lossy()
            .into_owned()
    });
    let kept = [".podbook-devices", ".podbook-lock"];
    names
        .filter(|name| name.starts_with(".podbook-") && !kept.contains(&name.as_str()))
        .collect()
}

#[test]
fn ctrl_c_ends_it_with_0_and_says_so() {
    let mut server = Server::of_demo(&[]);
    server.secret();
    server.interrupt();
    let (exit, said, _kept) = server.ended();
    assert_eq!(exit.code(), Some(0));
    assert!(said.ends_with("Stopped.\n"), "{said}");
}

/// Entries that the journal has, while it is written.
fn in_journal(folder: &Path) -> usize {
    let names = std::fs::read_dir(folder.join("journal"))
        .into_iter()
        .flatten();
    let names = names.filter_map(|of| of.ok()?.file_name().into_string().ok());
    names.filter(|name| name.ends_with(".ron")).count()
}

/// Sends entries until podbook no longer answers; how many it called recorded.
fn send(device: &Device, all: &[Value]) -> usize {
    let answered = all.chunks(4).map_while(|part| {
        let body = Value::Array(part.to_vec()).to_string();
        let answer = device.try_post("/entries", body.as_bytes())?;
        let states = answer.json();
        let states = states.as_array().expect("answers").iter();
        Some(states.filter(|of| of["state"] == "recorded").count())
    });
    answered.sum()
}

#[test]
fn an_entry_under_way_is_whole_and_the_registry_is_free() {
    for round in 0..rounds(4) {
        let mut server = Server::of_demo(&[]);
        let device = server.paired();
        let folder = server.folder.clone();
        let all = entries(400);
        let sending = {
            let (device, all) = (device.clone(), all.clone());
            thread::spawn(move || send(&device, &all))
        };
        while in_journal(&folder) < 5 + 7 * (round % 8) {
            thread::sleep(Duration::from_millis(1));
        }
        server.interrupt();
        let (exit, said, _kept) = server.ended();
        let answered = sending.join().expect("it sends");
        assert_eq!(exit.code(), Some(0), "{said}");
        assert!(said.ends_with("Stopped.\n"), "{said}");
        let recorded = events(&folder);
        assert!(answered < all.len(), "it went on");
        assert!(recorded.len() >= answered && recorded.len() <= answered + 4);
        is_once(&folder, &all[..recorded.len()]);
        assert_eq!(unfinished(&folder), Vec::<String>::new());
        podbook(&folder, &["check"]);
        podbook(&folder, &["pot", "Ven1-b", "30cm"]);
    }
}

/// An entry that has arrived waits for another program that writes; Ctrl-C meanwhile does not lose it.
#[test]
fn an_entry_that_has_arrived_is_recorded_before_the_end() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let folder = server.folder.clone();
    let lock = std::fs::File::options()
        .create(true)
        .append(true)
        .open(folder.join(".podbook-lock"));
    let lock = lock.expect("the file that is locked");
    lock.lock().expect("it can be locked");
    let entry = entries(1);
    let sending = {
        let (device, entry) = (device.clone(), Value::Array(entry.clone()).to_string());
        thread::spawn(move || device.try_post("/entries", entry.as_bytes()).is_some())
    };
    thread::sleep(Duration::from_millis(500));
    server.interrupt();
    thread::sleep(Duration::from_millis(1500));
    assert_eq!(in_journal(&folder), 0);
    lock.unlock().expect("it can be unlocked");
    let (exit, said, _kept) = server.ended();
    let _ = sending.join();
    assert_eq!(exit.code(), Some(0), "{said}");
    is_once(&folder, &entry);
    assert_eq!(events(&folder).len(), 1);
}
