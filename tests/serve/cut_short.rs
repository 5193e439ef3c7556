//! A change that a killed program left half written: `serve` takes it back and says so, or says that pages show half of it.

use crate::running::{Server, copied};
use serde_json::json;
use std::fs;
use std::path::{Path, PathBuf};

/// A copy of the demo in which a change stopped after its first page, written by a computer of this name.
fn half(kept: &Path, by: &str) -> (PathBuf, Vec<u8>) {
    let folder = kept.join("registry");
    copied(
        &Path::new(env!("CARGO_MANIFEST_DIR")).join("registry-demo"),
        &folder,
    );
    let was = fs::read(folder.join("clones.ron")).expect("a page");
    let now = [&was[..], b"// half\n"].concat();
    fs::write(folder.join("clones.ron"), &now).expect("a page");
    let mut intent = format!("podbook intent 2\nby {}\n{by}\n", by.len()).into_bytes();
    let mut part = |head: String, bytes: &[u8]| {
        intent.extend_from_slice(head.as_bytes());
        intent.extend_from_slice(bytes);
        intent.push(b'\n');
    };
    part("path 10\n".to_owned(), b"clones.ron");
    part(format!("was {}\n", was.len()), &was);
    part(format!("now {}\n", now.len()), &now);
    part("path 18\n".to_owned(), b"journal/000001.ron");
    part("was none".to_owned(), b"");
    part("now 1\n".to_owned(), b"x");
    intent.extend_from_slice(b"end\n");
    fs::write(folder.join(".podbook-intent"), intent).expect("an intent");
    (folder, was)
}

/// The name of this computer.
fn here() -> String {
    let name = std::process::Command::new("uname").arg("-n").output();
    let name = String::from_utf8(name.expect("it runs").stdout).expect("a name");
    name.trim_end().to_owned()
}

#[test]
fn what_is_taken_back_is_said_where_podbook_runs_and_on_every_page_until_an_entry_says_it() {
    let kept = tempfile::tempdir().expect("a folder");
    let (folder, was) = half(kept.path(), &here());
    let mut server = Server::on(&folder, &[]);
    let device = server.paired();
    for path in ["/", "/record", "/plants/x22-02-5.html"] {
        let page = device.get(path).text();
        assert!(
            page.contains("took back a change that was cut short; record it again"),
            "{page}"
        );
    }
    let said = server.said_until("took back");
    assert!(
        said.contains("took back a change that was cut short; record it again"),
        "{said}"
    );
    assert_eq!(fs::read(folder.join("clones.ron")).expect("a page"), was);
    let entry =
        json!([{"id": "cut-short-0000001", "kind": "keep", "plant": "X22-02-5", "why": "even"}]);
    let answer = &device.enter(&entry)[0];
    assert_eq!(answer["state"], "recorded", "{answer}");
    let remarks = answer["report"]["remarks"].to_string();
    assert!(remarks.contains("took back a change"), "{answer}");
    assert!(!device.get("/").text().contains("took back a change"));
}

#[test]
fn an_entry_that_takes_it_back_says_so() {
    let kept = tempfile::tempdir().expect("a folder");
    let (folder, _) = half(kept.path(), &here());
    let mut server = Server::on(&folder, &[]);
    let device = server.paired();
    let entry =
        |id: &str, plant: &str| json!([{"id": id, "kind": "keep", "plant": plant, "why": "even"}]);
    // What is refused says nothing of it; the pages do.
    let refused = device.enter(&entry("cut-short-0000001", "X99-99-9"));
    assert_eq!(refused[0]["state"], "refused", "{refused}");
    assert!(server.said_until("took back").contains("record it again"));
    let recorded = device.enter(&entry("cut-short-0000002", "X22-02-5"));
    let remarks = recorded[0]["report"]["remarks"].to_string();
    assert!(
        remarks.contains("took back a change that was cut short"),
        "{recorded}"
    );
}

#[test]
fn half_a_change_of_another_computer_is_not_shown_as_the_truth() {
    let kept = tempfile::tempdir().expect("a folder");
    let (folder, was) = half(kept.path(), "greenhouse");
    let mut server = Server::on(&folder, &[]);
    let device = server.paired();
    for path in ["/", "/record", "/plants/x22-02-5.html", "/problems.html"] {
        let page = device.get(path).text();
        assert!(
            page.contains(
                "what is shown may hold half of a change: its new text stands in clones.ron"
            ),
            "{page}"
        );
        assert!(page.contains("greenhouse"), "{page}");
        assert!(page.contains("Problems (1)"), "{page}");
    }
    assert!(
        device
            .get("/problems.html")
            .text()
            .contains("pages may hold half of it")
    );
    assert!(server.said_until("half of a change").contains("clones.ron"));
    assert!(folder.join(".podbook-intent").exists());
    let undo = std::process::Command::new(env!("CARGO_BIN_EXE_podbook"))
        .args(["undo", "--cut-short", "--registry"])
        .arg(&folder)
        .output()
        .expect("it runs");
    assert_eq!(undo.status.code(), Some(0), "{undo:?}");
    assert_eq!(fs::read(folder.join("clones.ron")).expect("a page"), was);
    let page = device.get("/").text();
    assert!(
        !page.contains("half of a change") && !page.contains("Problems ("),
        "{page}"
    );
}
