//! Requests a second of `podbook serve` on loopback, against a bare loop over sockets in the same run.
//!
//! Ours: the page of a plant, the list of all plants, and an entry recorded, one after the other, a connection for each. The
//! yardstick of a page: the same bytes from a thread that reads a request and writes the answer. The yardstick of an entry:
//! reading the same registry from disk, which every command does. Medians; an entry's time holds what the disk takes.
//!
//! `cargo bench --bench serving [-- SEEDLINGS…]`

#[path = "../support/nursery.rs"]
mod nursery;
#[path = "../support/rounds.rs"]
mod rounds;
#[path = "../serve/running.rs"]
mod running;

use nursery::Nursery;
use podbook::registry::build;
use podbook::text::Sources;
use rounds::{median, seconds, sizes_asked};
use running::{Device, Server, ask};
use serde_json::json;
use std::hint::black_box;
use std::io::{Read, Write};
use std::net::{SocketAddr, TcpListener};
use std::path::Path;

const RUNS: usize = 200;
const ENTRIES: usize = 25;

fn main() {
    println!("requests a second; how many times the yardstick's time each takes");
    let mut server = Server::of_demo(&[]);
    measure("demo", &mut server, "X22-02-5");
    for seedlings in sizes_asked(&[2_000]) {
        let kept = tempfile::tempdir().expect("a folder");
        let nursery = Nursery::of(seedlings);
        nursery.grow().write(kept.path());
        let plant = format!("{}-1", nursery.code(0));
        let mut server = Server::on(kept.path(), &[]);
        measure(&format!("{seedlings} seedlings"), &mut server, &plant);
    }
}

fn measure(what: &str, server: &mut Server, plant: &str) {
    let device = server.paired();
    let page = format!("/plants/{}.html", plant.to_lowercase());
    for (name, path) in [("page of a plant", &*page), ("list", "/index.html")] {
        let body = device.get(path);
        assert_eq!(body.status, 200, "{path}");
        let bare = bare(body.body);
        let (mut ours, mut yardstick) = (Vec::new(), Vec::new());
        for _ in 0..RUNS {
            ours.push(seconds(|| device.get(path).body.len()));
            yardstick.push(seconds(|| ask(bare, "GET", path, &[], b"").body.len()));
        }
        say(
            (what, name),
            median(ours),
            ("bare sockets", median(yardstick)),
        );
    }
    let (mut ours, mut yardstick) = (Vec::new(), Vec::new());
    for at in 0..ENTRIES {
        ours.push(seconds(|| enter(&device, plant, at)));
        yardstick.push(seconds(|| read(&server.folder)));
    }
    say(
        (what, "entry"),
        median(ours),
        ("reading the registry", median(yardstick)),
    );
}

fn say((what, name): (&str, &str), ours: f64, (against, yardstick): (&str, f64)) {
    println!(
        "{what:>15}, {name}: {:.0} a second, {:.1} times {against} ({:.2} ms, {:.2} ms)",
        1.0 / ours,
        ours / yardstick,
        ours * 1e3,
        yardstick * 1e3,
    );
}

fn enter(device: &Device, plant: &str, at: usize) {
    let id = format!("bench-entry-{at:06}");
    let width = format!("{}cm", 5 + at);
    let entry = json!([{"id": id, "kind": "pot", "plant": plant, "width": width}]);
    let answer = device.enter(&entry);
    assert_eq!(answer[0]["state"], "recorded", "{answer}");
}

fn read(folder: &Path) -> usize {
    let sources = Sources::read(folder);
    black_box(build(&sources).0.plant_count())
}

/// Answers every request with the same bytes, without looking at it.
fn bare(body: Vec<u8>) -> SocketAddr {
    let listener = TcpListener::bind("127.0.0.1:0").expect("a port");
    let at = listener.local_addr().expect("an address");
    std::thread::spawn(move || {
        for stream in listener.incoming() {
            let mut stream = stream.expect("a connection");
            let _ = stream.read(&mut [0; 4096]);
            let head = format!("HTTP/1.1 200 OK\r\nContent-Length: {}\r\n\r\n", body.len());
            let _ = stream.write_all(head.as_bytes());
            let _ = stream.write_all(&body);
        }
    });
    at
}
