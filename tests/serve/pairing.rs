//! A secret lets one device in, once.

use crate::running::{Device, Server, ask, form};

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

/// What a page carries in its head under a name.
fn meta(page: &str, name: &str) -> String {
    let from = page
        .split(&format!("name=\"podbook-{name}\" content=\""))
        .nth(1);
    let words = from.expect("a field of the head").split('"').next();
    words.expect("words").to_owned()
}

/// Pages bear the mark of their registry, which moves along with the folder and stays through pairings and revoking.
#[test]
fn a_registry_has_a_mark() {
    let kept = tempfile::tempdir().expect("a folder");
    let mut first = Server::of_demo(&[]);
    let device = first.paired();
    let mark_of = |device: &Device| meta(&device.get("/record").text(), "registry");
    let mark = mark_of(&device);
    assert_eq!(mark.len(), 32);
    assert_eq!(meta(&device.get("/record").text(), "name"), "tent");
    assert_eq!(mark_of(&first.paired()), mark);
    let moved = kept.path().join("moved");
    std::fs::rename(&first.folder, &moved).expect("a folder can be moved");
    drop(first);
    let mut again = Server::on(&moved, &[]);
    assert_eq!(mark_of(&again.paired()), mark);
    let mut other = Server::of_demo(&[]);
    assert_ne!(mark_of(&other.paired()), mark);
}

/// A browser keeps the cookies of two registries that answer at one address one after the other.
#[test]
fn pairing_with_one_registry_keeps_that_with_another() {
    let (mut one, mut two) = (Server::of_demo(&[]), Server::of_demo(&[]));
    let (mine, other) = (one.paired(), two.paired());
    assert_ne!(mine.cookie_name, other.cookie_name);
    let both = format!("{}; {}", other.sends(), mine.sends());
    for at in [one.at(), two.at()] {
        assert_eq!(
            ask(at, "GET", "/record", &[("Cookie", &both)], b"").status,
            200
        );
    }
    let strange = ask(
        one.at(),
        "GET",
        "/record",
        &[("Cookie", &other.sends())],
        b"",
    );
    assert_eq!(strange.status, 401);
}

/// Who has the secret may pair, and reads with which registry; others read no name.
#[test]
fn the_page_of_pairing_names_the_registry_to_its_owner_alone() {
    let mut server = Server::of_demo(&[]);
    let (at, secret) = (server.at(), server.secret());
    let page = |secret: &str| ask(at, "GET", &format!("/pair?secret={secret}"), &[], b"").text();
    for _ in 0..30 {
        assert!(!page("0123").contains("With the registry"));
    }
    assert!(
        page(&secret).contains("With the registry <strong>tent</strong>"),
        "{}",
        page(&secret)
    );
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

/// By which the page of devices names one of them, counted from 1.
fn mark(page: &str, number: usize) -> String {
    let form = page.split("name=\"device\" value=\"").nth(number);
    let mark = form.expect("a device").split('"').next();
    mark.expect("a mark").to_owned()
}

/// Several podbooks on one registry: what one pairs or revokes holds in the others at once.
#[test]
fn a_device_revoked_in_one_server_is_out_in_another() {
    let mut one = Server::of_demo(&[]);
    let mut other = Server::on(&one.folder, &[]);
    let (kept, lost) = (one.paired(), other.paired());
    let elsewhere = |device: &Device, at| Device {
        at,
        ..device.clone()
    };
    for at in [one.at(), other.at()] {
        assert_eq!(elsewhere(&kept, at).get("/").status, 200);
        assert_eq!(elsewhere(&lost, at).get("/").status, 200);
    }
    // A page that was opened before another device went still names the same ones.
    let (first, second) = (one.paired(), other.paired());
    let page = kept.get("/devices").text();
    let revoke = |number| {
        let sent = format!("token={}&device={}", kept.token, mark(&page, number));
        assert_eq!(kept.post("/forget", sent.as_bytes()).status, 303);
    };
    revoke(2);
    revoke(3);
    for at in [one.at(), other.at()] {
        for (device, status) in [(&kept, 200), (&lost, 401), (&first, 401), (&second, 200)] {
            assert_eq!(elsewhere(device, at).get("/").status, status);
        }
    }
    assert_eq!(
        elsewhere(&lost, other.at()).post("/entries", b"[]").status,
        401
    );
    // Without the file every device is out.
    std::fs::remove_file(one.folder.join(".podbook-devices")).expect("the devices");
    assert_eq!(kept.get("/").status, 401);
}

#[test]
fn a_revoked_device_gets_nothing() {
    let mut server = Server::of_demo(&[]);
    let (kept, lost) = (server.paired(), server.paired());
    let page = kept.get("/devices").text();
    assert_eq!(page.matches("Revoke").count(), 2, "{page}");
    let second = mark(&page, 2);
    let wrong = kept.post("/forget", format!("token=0&device={second}").as_bytes());
    assert_eq!(wrong.status, 403);
    assert_eq!(lost.get("/").status, 200);
    let sent = format!("token={}&device={second}", kept.token);
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

/// Two podbooks on one registry that pair in the same instant: each finds both devices in the list afterwards.
#[test]
fn two_servers_pair_in_the_same_instant() {
    let mut one = Server::of_demo(&[]);
    let mut other = Server::on(&one.folder, &[]);
    for round in 1..=10 {
        let links = [(one.at(), one.secret()), (other.at(), other.secret())];
        let both = std::sync::Barrier::new(2);
        std::thread::scope(|scope| {
            for (at, secret) in links {
                let both = &both;
                scope.spawn(move || {
                    both.wait();
                    assert_eq!(form(at, "/pair", &format!("secret={secret}")).status, 303);
                });
            }
        });
        let text =
            std::fs::read_to_string(one.folder.join(".podbook-devices")).expect("the devices");
        let devices = text.lines().filter(|line| !line.starts_with('#')).count();
        assert_eq!(devices, 2 * round, "{text}");
        one.press_enter();
        other.press_enter();
    }
}

/// Phones offer the same name: each gets one of its own, so that the right one is revoked.
#[test]
fn devices_of_one_name_are_told_apart() {
    let mut server = Server::of_demo(&[]);
    for _ in 0..3 {
        let secret = server.secret();
        let paired = form(server.at(), "/pair", &format!("secret={secret}&name=phone"));
        assert_eq!(paired.status, 303);
        server.press_enter();
    }
    let page = server.paired().get("/devices").text();
    for name in ["phone", "phone 2", "phone 3"] {
        let button = format!("<button>Revoke {name}</button>");
        assert_eq!(page.matches(&button).count(), 1, "{page}");
    }
}

/// The terminal names a device as the list does, so that who wants to revoke it takes the right line.
#[test]
fn the_terminal_names_a_device_as_the_list_does() {
    let mut server = Server::of_demo(&[]);
    let at = server.at();
    for (typed, named) in [
        ("phone", "phone".to_owned()),
        ("phone", "phone 2".to_owned()),
        ("", "device".to_owned()),
        (&"a".repeat(400), "a".repeat(40)),
    ] {
        let secret = server.secret();
        form(at, "/pair", &format!("secret={secret}&name={typed}"));
        server.said_until(&format!("Paired a device: {named}\n"));
        server.press_enter();
    }
}
