//! Slow clients and many at once: the grower's page still comes, and memory stays bounded.

use crate::rounds;
use crate::running::{Server, answer};
use serde_json::json;
use std::collections::BTreeSet;
use std::io::{Read, Write};
use std::net::TcpStream;
use std::time::Duration;

/// Files that a test may have open are fewer than a large run would like.
const AT_A_TIME: usize = 200;

#[test]
fn slow_clients_are_cut_and_keep_no_one_waiting() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    device.get("/");
    let before = server.memory();
    for part in (0..rounds(200)).collect::<Vec<_>>().chunks(AT_A_TIME) {
        let mut slow: Vec<TcpStream> = part
            .iter()
            .filter_map(|at| {
                let mut stream = TcpStream::connect(device.at).ok()?;
                let begun = match at % 3 {
                    0 => String::new(),
                    1 => "GET / HTTP/1.1\r\nHost: ".to_owned(),
                    _ => format!(
                        "POST /pair HTTP/1.1\r\nHost: {0}\r\nOrigin: http://{0}\r\nContent-Length: 9\r\n\r\nsec",
                        device.at
                    ),
                };
                let _ = stream.write_all(begun.as_bytes());
                Some(stream)
            })
            .collect();
        assert_eq!(device.get("/").status, 200);
        let entry = json!([{"id": format!("0123456789abcdef-{}", part[0]), "kind": "flower", "plant": "Ven1", "note": "x"}]);
        device.enter(&entry);
        // Each is answered or cut, without anything more being sent.
        for stream in &mut slow {
            stream
                .set_read_timeout(Some(Duration::from_secs(20)))
                .expect("a limit");
            let mut rest = Vec::new();
            match stream.read_to_end(&mut rest) {
                Ok(_) => {}
                Err(why) => assert_ne!(
                    why.kind(),
                    std::io::ErrorKind::WouldBlock,
                    "it is held open"
                ),
            }
        }
    }
    if let (Some(before), Some(after)) = (before, server.memory()) {
        assert!(after < before + (24 << 10), "{before} kB, then {after} kB");
    }
}

/// Of more than two dozen connections from one address the oldest of a stranger gives way; one that a paired device has
/// asked over stays.
#[test]
fn the_oldest_of_too_many_strangers_gives_way() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let connect = || TcpStream::connect(device.at).expect("it listens");
    // Whether a page comes, whole, over a connection that stays open.
    let asks = |stream: &mut TcpStream, path: &str, cookie: &str| {
        let host = format!("Host: {}", device.at);
        let head = format!("GET {path} HTTP/1.1\r\n{host}\r\n{cookie}\r\n");
        let mut page = Vec::new();
        let mut part = [0; 4096];
        let sent = stream.write_all(head.as_bytes()).is_ok();
        while sent && !String::from_utf8_lossy(&page).contains("</html>") {
            match stream.read(&mut part) {
                Ok(0) | Err(_) => return false,
                Ok(read) => page.extend_from_slice(&part[..read]),
            }
        }
        sent && page.starts_with(b"HTTP/1.1 200")
    };
    let cookie = format!("Cookie: {}\r\n", device.sends());
    let mut known = connect();
    assert!(asks(&mut known, "/", &cookie));
    let mut oldest = connect();
    assert!(asks(&mut oldest, "/pair", ""));
    // Each asks as soon as it is there: a connection that asks nothing for three seconds is cut for that alone.
    let mut others = Vec::new();
    for _ in 0..24 {
        let mut stream = connect();
        assert!(asks(&mut stream, "/pair", ""));
        assert!(asks(&mut known, "/", &cookie));
        others.push(stream);
    }
    assert!(!asks(&mut oldest, "/pair", ""), "it was not cut");
}

#[test]
fn two_hundred_entries_at_once_are_each_in_the_book_once() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let (threads, each) = (10, 20);
    let ids: Vec<String> = (0..threads * each)
        .map(|at| format!("parallel-entry-{at:04}"))
        .collect();
    let plants = ["Jac1", "Tru1"];
    std::thread::scope(|scope| {
        for part in ids.chunks(each) {
            let device = &device;
            scope.spawn(move || {
                for (at, id) in part.iter().enumerate() {
                    // Each stands at a place of its own: the same potting twice is refused.
                    let entry = json!([{"id": id, "kind": "pot", "plant": plants[at % 2], "width": "9cm", "place": id}]);
                    let sent = || {
                        let answer = device.try_post("/entries", entry.to_string().as_bytes())?;
                        // Too many at once are told so, and send again.
                        assert!(matches!(answer.status, 200 | 503), "{}", answer.text());
                        (answer.status == 200).then(|| answer.json()[0].clone())
                    };
                    let answered = (0..1000).find_map(|_| sent().filter(|of| of["state"] != "later"));
                    let answered = answered.expect("it is let in");
                    assert_eq!(answered["state"], "recorded", "{answered}");
                }
            });
        }
    });
    let events = server.events();
    assert_eq!(events.len(), ids.len());
    assert_eq!(events.iter().collect::<BTreeSet<_>>(), ids.iter().collect());
    let page = std::fs::read_to_string(server.folder.join("clones.ron")).expect("the page");
    assert_eq!(
        page.matches("on: \"2025-06-01\", pot: \"9 cm\", place: \"parallel-entry-")
            .count(),
        ids.len(),
        "{page}"
    );
}

/// Each picture that comes in is held whole, so only four come in at a time; a page sends its own again.
#[test]
fn a_fifth_photo_at_once_is_sent_again_later() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let begin = |at: usize| {
        let mut stream = TcpStream::connect(device.at).expect("it listens");
        let head = format!(
            "POST /photo?id=photo-number-{at:05}&plant=Ven1 HTTP/1.1\r\nHost: {0}\r\nOrigin: http://{0}\r\nCookie: {1}\r\n\
             X-Podbook-Token: {2}\r\nContent-Length: 1000\r\n\r\n",
            device.at,
            device.sends(),
            device.token
        );
        stream.write_all(head.as_bytes()).expect("it listens");
        stream
    };
    let is = |status: u16| {
        (0..400).any(|_| {
            std::thread::sleep(Duration::from_millis(5));
            device
                .post("/photo?id=0123456789abcdef&plant=Ven1", b"x")
                .status
                == status
        })
    };
    let begun: Vec<TcpStream> = (0..4).map(begin).collect();
    assert!(is(503), "a fifth is let in");
    // Pages and entries do not wait for pictures.
    assert_eq!(device.get("/").status, 200);
    assert_eq!(device.post("/entries", b"[]").status, 200);
    drop(begun);
    assert!(is(200), "it stays shut");
}

#[test]
fn a_connection_is_kept_for_several_requests() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let mut stream = TcpStream::connect(device.at).expect("a connection");
    let request = |close: &str| {
        format!(
            "GET /album.css HTTP/1.1\r\nHost: {}\r\nCookie: {}\r\n{close}\r\n",
            device.at,
            device.sends()
        )
    };
    let all = request("") + &request("Connection: close\r\n");
    stream.write_all(all.as_bytes()).expect("it listens");
    let both = answer(&mut stream).expect("answers");
    assert_eq!(both.text().matches("HTTP/1.1 200").count() + 1, 2);
}
