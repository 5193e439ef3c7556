//! Exactly once: entries sent again, in another order, and cut off between the page and the answer.

use crate::lot::Lot;
use crate::rounds;
use crate::running::{Device, Server, ask, events};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::net::TcpStream;
use std::path::Path;

/// Entries of many kinds that all fit, whatever the order.
pub fn entries(count: usize) -> Vec<Value> {
    (0..count)
        .map(|at| {
            let id = format!("entry-number-{at:05}");
            match at % 3 {
                0 => json!({"id": id, "kind": "pot", "plant": "Ven1-b", "width": format!("{}cm", 5 + at % 20)}),
                1 => json!({"id": id, "kind": "pot", "plant": "X22-02-5", "width": format!("{}cm", 5 + at % 20)}),
                _ => json!({"id": id, "kind": "pollinate", "plant": "Ven1", "with": "Spa1", "zone": format!("z{at}")}),
            }
        })
        .collect()
}

/// What stands on the pages: how often each pot and zone is on record.
fn on_pages(folder: &Path) -> (usize, BTreeMap<String, usize>) {
    let mut text = fs::read_to_string(folder.join("clones.ron")).expect("a page");
    for page in fs::read_dir(folder.join("crosses")).expect("pages") {
        text += &fs::read_to_string(page.expect("a page").path()).expect("a page");
    }
    let pots = text.matches("(on: \"2025-06-01\", pot: \"").count();
    let mut zones = BTreeMap::new();
    for of in text.split("zone: \"z").skip(1) {
        *zones
            .entry(of.split('"').next().expect("a zone").to_owned())
            .or_default() += 1;
    }
    (pots, zones)
}

/// Whether each entry that was sent is in the journal and on the pages once.
pub fn is_once(folder: &Path, sent: &[Value]) {
    let mut ids: Vec<&str> = sent
        .iter()
        .map(|of| of["id"].as_str().expect("an id"))
        .collect();
    ids.sort_unstable();
    assert_eq!(events(folder), ids);
    let of_kind = |kind: &str| sent.iter().filter(|of| of["kind"] == kind).count();
    let (pots, zones) = on_pages(folder);
    assert_eq!(pots, of_kind("pot"));
    assert_eq!(zones.len(), of_kind("pollinate"));
    assert!(zones.values().all(|&times| times == 1), "{zones:?}");
}

#[test]
fn sent_again_and_in_another_order() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let all = entries(60);
    let mut lot = Lot(7);
    let mut left: Vec<Value> = all.iter().chain(&all).chain(&all).cloned().collect();
    while !left.is_empty() {
        let many = 1 + lot.below(left.len().min(9));
        let part: Vec<Value> = (0..many)
            .map(|_| left.swap_remove(lot.below(left.len())))
            .collect();
        for answer in device
            .enter(&Value::Array(part))
            .as_array()
            .expect("answers")
        {
            assert_eq!(answer["state"], "recorded", "{answer}");
        }
    }
    is_once(&server.folder, &all);
    let checked = std::process::Command::new(env!("CARGO_BIN_EXE_podbook"))
        .args(["check", "--today", "2025-06-01", "--registry"])
        .arg(&server.folder)
        .output()
        .expect("it runs");
    assert!(
        checked.status.success(),
        "{}",
        String::from_utf8_lossy(&checked.stdout)
    );
}

/// Sends an entry and goes away without hearing the answer, at some moment.
fn send_and_leave(device: &Device, entry: &Value, lot: &mut Lot) {
    let body = json!([entry]).to_string();
    let request = format!(
        "POST /entries HTTP/1.1\r\nHost: {0}\r\nOrigin: http://{0}\r\nCookie: {1}\r\nX-Podbook-Token: {2}\r\nContent-Length: {3}\r\n\r\n{body}",
        device.at,
        device.sends(),
        device.token,
        body.len()
    );
    let sent = match lot.below(3) {
        0 => lot.below(request.len()),
        _ => request.len(),
    };
    if let Ok(mut stream) = TcpStream::connect(device.at) {
        let _ = stream.write_all(&request.as_bytes()[..sent]);
    }
}

#[test]
fn a_page_that_goes_away_and_comes_again() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let all = entries(rounds(60));
    let mut lot = Lot(11);
    for entry in &all {
        for _ in 0..=lot.below(2) {
            send_and_leave(&device, entry, &mut lot);
        }
    }
    // The page sends what it has not heard of until it is answered.
    for part in all.chunks(20) {
        for answer in device
            .enter(&Value::Array(part.to_vec()))
            .as_array()
            .expect("answers")
        {
            assert_eq!(answer["state"], "recorded", "{answer}");
        }
    }
    is_once(&server.folder, &all);
}

#[test]
fn a_server_that_is_killed_at_any_moment() {
    let mut server = Server::of_demo(&[]);
    let mut device = server.paired();
    let folder = server.folder.clone();
    let all = entries(rounds(24));
    let mut lot = Lot(13);
    let mut kept = None;
    for (at, entry) in all.iter().enumerate() {
        send_and_leave(&device, entry, &mut lot);
        // A while that goes by in work, not in time, so that it ends anywhere between the page and the answer.
        for _ in 0..lot.below(4) {
            ask(device.at, "GET", "/bare.css", &[], b"");
        }
        kept = server.kill().or(kept);
        server = Server::on(&folder, &[]);
        device.at = server.at();
        if at % 5 == 4 {
            let answers = device.enter(&Value::Array(all[at - 4..=at].to_vec()));
            for answer in answers.as_array().expect("answers") {
                assert_eq!(answer["state"], "recorded", "{answer}");
            }
        }
    }
    for part in all.chunks(20) {
        device.enter(&Value::Array(part.to_vec()));
    }
    is_once(&folder, &all);
    drop(server);
    drop(kept);
}

#[test]
fn an_id_is_of_one_entry() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let mut entry =
        json!({"id": "0123456789abcdef", "kind": "pot", "plant": "Ven1-b", "width": "9cm"});
    assert_eq!(device.enter(&json!([entry]))[0]["state"], "recorded");
    entry["width"] = json!("12cm");
    let answer = &device.enter(&json!([entry]))[0];
    assert_eq!(answer["state"], "refused", "{answer}");
    // What was undone does not come back by being sent again.
    entry["width"] = json!("9cm");
    let undo = json!({"id": "fedcba9876543210", "kind": "undo", "change": 1});
    let answers = device.enter(&json!([undo, entry, undo]));
    assert!(
        answers
            .as_array()
            .expect("answers")
            .iter()
            .all(|of| of["state"] == "recorded")
    );
    let (pots, _) = on_pages(&server.folder);
    assert_eq!(pots, 0);
    assert_eq!(server.events().len(), 2);
}

/// An id that comes with anything else typed is refused, in whatever field; with the same it is in the book already.
#[test]
fn an_id_is_of_one_row_and_all_that_was_typed_in_it() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let row = |id: &str, other: Value| {
        let mut row =
            json!({"id": id, "kind": "measure", "plant": "Ven1", "traits": ["span", "banding"]});
        for (name, value) in other.as_object().expect("fields") {
            row[name] = value.clone();
        }
        device.enter(&json!([row]))[0].clone()
    };
    let cells = |id: &str, cells: [&str; 2], note: &str| {
        row(id, json!({"cells": cells, "note": note, "sure": true}))
    };
    let line = |id: &str, line: &str| row(id, json!({"line": line, "sure": true, "again": true}));
    let first = cells("row-number-0000001", ["14.5", ""], "one; banding=2");
    assert_eq!(first["state"], "recorded", "{first}");
    let second = line("row-number-0000002", "15.5; 2");
    assert_eq!(second["state"], "recorded", "{second}");
    let page = || fs::read_to_string(server.folder.join("clones.ron")).expect("a page");
    let before = page();
    for other in [
        cells("row-number-0000001", ["14.6", ""], "one; banding=2"),
        cells("row-number-0000001", ["14.5", "2"], "one; banding=2"),
        cells("row-number-0000001", ["", "14.5"], "one; banding=2"),
        cells("row-number-0000001", ["14.5", ""], "one"),
        line("row-number-0000001", "14.5"),
        line("row-number-0000002", "15.5; 3"),
        line("row-number-0000002", "15.5; 2; ! a remark"),
    ] {
        assert_eq!(other["state"], "refused", "{other}");
        let words = other["words"].as_str().expect("words");
        assert!(
            words.contains("another entry") && words.contains("change"),
            "{words}"
        );
    }
    for same in [
        cells("row-number-0000001", ["14.5", ""], "one; banding=2"),
        line("row-number-0000002", "15.5; 2"),
    ] {
        assert_eq!(same["state"], "recorded", "{same}");
        assert_eq!(same["report"]["again"], true, "{same}");
    }
    assert_eq!(page(), before);
    assert_eq!(server.events().len(), 2);
}
