//! A secret lets one device in, once.

use crate::running::{Server, ask, form};

#[test]
fn a_secret_works_once_and_a_later_one_replaces_it() {
    let mut server = Server::of_demo(&[]);
    let at = server.at();
    let first = server.secret();
    // Messengers and browsers open links before anyone does: that uses nothing up.
    for _ in 0..3 {
        let page = ask(at, "GET", &format!("/pair?secret={first}"), &[], b"");
        assert!(page.status == 200 && page.text().contains(&first));
    }
    let foreign = ask(
        at,
        "POST",
        "/pair",
        &[("Origin", "http://evil.test")],
        format!("secret={first}").as_bytes(),
    );
    assert_eq!(foreign.status, 403);
    let paired = form(at, "/pair", &format!("secret={first}&name=phone"));
    assert_eq!(paired.status, 303);
    let cookie = paired.headers.to_lowercase();
    for part in ["httponly", "samesite=strict", "path=/"] {
        assert!(cookie.contains(part), "{cookie}");
    }
    assert_eq!(
        form(at, "/pair", &format!("secret={first}&name=phone")).status,
        403
    );
    server.press_enter();
    let second = server.secret();
    server.press_enter();
    let third = server.secret();
    assert!(first != second && second != third);
    assert_eq!(form(at, "/pair", &format!("secret={second}")).status, 403);
    assert_eq!(form(at, "/pair", &format!("secret={third}")).status, 303);
}

#[test]
fn guesses_void_the_secret() {
    let mut server = Server::of_demo(&[]);
    let secret = server.secret();
    for guess in 0..20 {
        assert_eq!(
            form(server.at(), "/pair", &format!("secret={guess}")).status,
            403
        );
    }
    assert_eq!(
        form(server.at(), "/pair", &format!("secret={secret}")).status,
        403
    );
    server.paired_after_enter();
}

#[test]
fn twenty_at_once_with_one_secret_pair_one_device() {
    let mut server = Server::of_demo(&[]);
    let (at, secret) = (server.at(), server.secret());
    let sent = format!("secret={secret}");
    let paired: usize = std::thread::scope(|scope| {
        let all: Vec<_> = (0..20)
            .map(|_| scope.spawn(|| usize::from(form(at, "/pair", &sent).status == 303)))
            .collect();
        all.into_iter()
            .map(|of| of.join().expect("an answer"))
            .sum()
    });
    assert_eq!(paired, 1);
}

#[test]
fn a_revoked_device_gets_nothing() {
    let mut server = Server::of_demo(&[]);
    let (kept, lost) = (server.paired(), server.paired());
    let page = kept.get("/devices").text();
    assert_eq!(page.matches("Revoke").count(), 2, "{page}");
    let wrong = kept.post("/forget", b"token=0&number=2");
    assert_eq!(wrong.status, 403);
    assert_eq!(lost.get("/").status, 200);
    let sent = format!("token={}&number=2", kept.token);
    assert_eq!(kept.post("/forget", sent.as_bytes()).status, 303);
    assert_eq!(lost.get("/").status, 401);
    assert_eq!(lost.post("/entries", b"[]").status, 401);
    assert_eq!(kept.get("/").status, 200);
    // Started again, it is still so; the file holds no cookie.
    let text =
        std::fs::read_to_string(server.folder.join(".podbook-devices")).expect("the devices");
    assert!(!text.contains(&kept.cookie) && !text.contains(&lost.cookie));
    let folder = server.folder.clone();
    let _folder = server.kill();
    let server = Server::on(&folder, &[]);
    for (mut device, status) in [(kept, 200), (lost, 401)] {
        device.at = server.at();
        assert_eq!(device.get("/").status, status);
    }
}
