//! Strangers, other names, other pages, tricks with paths, and bodies that are too large: nothing gets in, nothing gets out.

use crate::running::{Server, ask, try_ask};
use serde_json::json;

/// Addresses that only paired devices may ask for.
const OWN: [&str; 18] = [
    "/",
    "/index.html",
    "/crosses.html",
    "/species.html",
    "/season.html",
    "/problems.html",
    "/plants/x22-02-5.html",
    "/crosses/x22-02.html",
    "/species/ventricosa.html",
    "/photos/x22-02-5-1.jpg",
    "/album.css",
    "/album.js",
    "/bench.css",
    "/bench.js",
    "/find?q=a",
    "/record",
    "/sitting?of=X22-02",
    "/devices",
];
const POSTED: [&str; 4] = ["/entries", "/photo?plant=X22-02-5", "/tag", "/forget"];

#[test]
fn a_stranger_gets_nothing() {
    let server = Server::of_demo(&[]);
    let at = server.at();
    for path in OWN.iter().chain(&["/registry.ron", "/nothing"]) {
        for cookie in ["", "podbook=0123456789abcdef0123456789abcdef", "podbook="] {
            let answer = ask(at, "GET", path, &[("Cookie", cookie)], b"");
            assert_eq!(answer.status, 401, "{path} {cookie}");
            let text = answer.text();
            assert!(
                text.contains("not paired") && !text.contains("X22"),
                "{path}: {text}"
            );
            assert!(!answer.headers.contains("x-podbook-day"), "{path}");
        }
    }
    for path in POSTED {
        let origin = format!("http://{at}");
        let answer = ask(at, "POST", path, &[("Origin", &origin)], b"[]");
        assert_eq!(answer.status, 401, "{path}");
    }
    for path in ["/pair", "/bare.css"] {
        let answer = ask(at, "GET", path, &[], b"");
        assert_eq!(answer.status, 200);
        assert!(!answer.text().contains("X22") && !answer.text().contains("ventricosa"));
    }
}

#[test]
fn a_paired_device_gets_every_page_with_the_headers_that_guard_it() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    for path in OWN {
        let answer = device.get(path);
        assert_eq!(answer.status, 200, "{path}");
        let headers = answer.headers.to_lowercase();
        for needed in [
            "content-security-policy: default-src 'none'; script-src 'self'",
            "x-content-type-options: nosniff",
            "x-frame-options: deny",
            "cache-control: no-store",
            "referrer-policy: same-origin",
            "cross-origin-resource-policy: same-origin",
            // By which an open page dates entries.
            "x-podbook-day: 2025-06-01",
        ] {
            assert!(headers.contains(needed), "{path}: {headers}");
        }
    }
    // What is private is shown to the grower's own devices.
    assert!(
        device
            .get("/plants/x22-02-5.html")
            .text()
            .contains("shelf 1")
    );
    assert_eq!(device.get("/plants/none.html").status, 404);
}

#[test]
fn another_host_or_origin_is_refused() {
    let mut server = Server::of_demo(&["--name", "greenhouse.test"]);
    let device = server.paired();
    let (at, cookie) = (device.at, device.sends());
    let port = server.port;
    let own = [
        format!("127.0.0.1:{port}"),
        format!("localhost:{port}"),
        format!("greenhouse.test:{port}"),
    ];
    for host in &own {
        let answer = ask(at, "GET", "/", &[("Host", host), ("Cookie", &cookie)], b"");
        assert_eq!(answer.status, 200, "{host}");
    }
    for host in [
        "evil.test".to_owned(),
        format!("evil.test:{port}"),
        "127.0.0.1".to_owned(),
        format!("127.0.0.2:{port}"),
        format!("127.0.0.1:{port}.evil.test"),
        format!("greenhouse.test.evil.test:{port}"),
        format!("127.0.0.1:{}", port.wrapping_add(1)),
    ] {
        let answer = ask(at, "GET", "/", &[("Host", &host), ("Cookie", &cookie)], b"");
        assert_eq!(answer.status, 421, "{host}");
    }
    let entry =
        json!([{"id": "0123456789abcdef", "kind": "gone", "plant": "X22-02-5", "fate": "died"}]);
    let entry = entry.to_string();
    for origin in [
        "",
        "null",
        "http://evil.test",
        "https://127.0.0.1",
        "http://127.0.0.1",
        &format!("http://localhost:{port}"),
        &format!("https://127.0.0.1:{port}"),
        &format!("http://127.0.0.1:{port}.evil.test"),
    ] {
        let headers = [
            ("Origin", origin),
            ("Cookie", &cookie),
            ("X-Podbook-Token", &device.token),
        ];
        let answer = ask(at, "POST", "/entries", &headers, entry.as_bytes());
        assert_eq!(answer.status, 403, "{origin}");
    }
    assert_eq!(server.events(), Vec::<String>::new());
}

#[test]
fn a_page_that_only_has_the_cookie_sent_for_it_writes_nothing() {
    let mut server = Server::of_demo(&[]);
    let mut device = server.paired();
    let token = std::mem::replace(&mut device.token, "0".repeat(64));
    for path in POSTED {
        assert_eq!(device.post(path, b"[]").status, 403, "{path}");
        device.token.clear();
    }
    device.token = token;
    assert_eq!(device.post("/entries", b"[]").status, 200);
    assert_eq!(server.events(), Vec::<String>::new());
}

#[test]
fn nothing_is_written_by_get_or_by_a_method_unknown() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    for path in POSTED {
        let answer = device.get(path);
        assert!(
            answer.status == 405 || answer.status == 404,
            "{path}: {}",
            answer.status
        );
    }
    for method in ["PUT", "DELETE", "OPTIONS", "PATCH", "TRACE"] {
        let answer = ask(
            device.at,
            method,
            "/entries",
            &[("Cookie", &device.sends())],
            b"",
        );
        assert_eq!(answer.status, 405, "{method}");
        // Before anything else is asked about who sends it.
        let strangers = ask(device.at, method, "/entries", &[], b"");
        assert_eq!(strangers.status, 405, "{method}");
    }
    let first = std::fs::read(server.folder.join("crosses/X22-02.ron")).unwrap();
    for path in [
        "/entries?kind=gone&plant=X22-02-5",
        "/forget?number=1",
        "/pair?secret=x",
    ] {
        device.get(path);
    }
    assert_eq!(
        std::fs::read(server.folder.join("crosses/X22-02.ron")).unwrap(),
        first
    );
    assert_eq!(device.get("/").status, 200);
}

#[test]
fn no_path_reaches_the_disk() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    for path in [
        "/registry.ron",
        "/../registry.ron",
        "/photos/../registry.ron",
        "/photos/%2e%2e/registry.ron",
        "/photos/..%2fregistry.ron",
        "/plants/..\\registry.ron",
        "//etc/passwd",
        "/photos//etc/passwd",
        "/.podbook-devices",
        "/photos/.podbook-devices",
        "/crosses/X22-02.ron",
        "/journal/",
        "/photos/",
        "/plants/x22-02-5.html%00",
        "/plants/x22-02-5.html/",
        "/%",
        "/photos/x22-02-5-1.jpg/../../registry.ron",
    ] {
        let answer = device.get(path);
        assert!(
            matches!(answer.status, 400 | 404),
            "{path}: {}",
            answer.status
        );
    }
    let whole = format!("http://{}/registry.ron", device.at);
    assert_eq!(device.get(&whole).status, 404);
    let long = format!("/{}", "a".repeat(200_000));
    let answer = try_ask(device.at, "GET", &long, &[("Cookie", &device.sends())], b"");
    assert!(answer.is_none_or(|answer| matches!(answer.status, 400 | 404 | 414 | 431)));
    assert_eq!(device.get("/").status, 200);
}

#[test]
fn a_body_too_large_is_answered_with_413() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let before = server.memory();
    let large = vec![b'a'; 10 << 20];
    for path in ["/entries", "/forget"] {
        let answer = device.post(path, &large);
        assert_eq!(answer.status, 413, "{path}");
        let mut chunked = Vec::new();
        for part in large.chunks(1 << 16) {
            chunked.extend_from_slice(format!("{:x}\r\n", part.len()).as_bytes());
            chunked.extend_from_slice(part);
            chunked.extend_from_slice(b"\r\n");
        }
        chunked.extend_from_slice(b"0\r\n\r\n");
        let origin = format!("http://{}", device.at);
        let headers = [
            ("Cookie", device.sends()),
            ("Origin", origin),
            ("X-Podbook-Token", device.token.clone()),
            ("Transfer-Encoding", "chunked".to_owned()),
        ];
        let headers: Vec<(&str, &str)> = headers.iter().map(|(a, b)| (*a, b.as_str())).collect();
        let answer = ask(device.at, "POST", path, &headers, &chunked);
        assert_eq!(answer.status, 413, "{path}, chunked");
    }
    let strangers = ask(
        device.at,
        "POST",
        "/pair",
        &[("Origin", &format!("http://{}", device.at))],
        &large,
    );
    assert_eq!(strangers.status, 413);
    if let (Some(before), Some(after)) = (before, server.memory()) {
        assert!(after < before + (16 << 10), "{before} kB, then {after} kB");
    }
}

#[test]
fn read_only_records_nothing() {
    let mut server = Server::of_demo(&[]);
    let mut device = server.paired();
    let folder = server.folder.clone();
    // The device stays paired, and its token stays right.
    let _kept = server.kill();
    let server = Server::on(&folder, &["--read-only"]);
    device.at = server.at();
    let page = device.get("/plants/x22-02-5.html");
    assert_eq!(page.status, 200);
    assert!(!page.text().contains("podbook-token") && !page.text().contains("bench.js"));
    assert!(device.get("/record").text().contains("reading only"));
    let entry =
        json!([{"id": "0123456789abcdef", "kind": "gone", "plant": "X22-02-5", "fate": "died"}]);
    let answer = device.post("/entries", entry.to_string().as_bytes());
    assert_eq!(answer.status, 403);
    assert!(answer.text().contains("reading only"), "{}", answer.text());
    assert_eq!(device.post("/photo?plant=X22-02-5", b"x").status, 403);
    assert_eq!(server.events(), Vec::<String>::new());
}
