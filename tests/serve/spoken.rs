//! The live pages as they are sent, heard: the rules the pages of the album are held to.

use crate::heard::{twice, unheard, unheard_without_menu};
use crate::running::{Answer, Server, ask};
use scraper::Html;

fn faults(page: &Answer, of: fn(&Html) -> Vec<String>) -> Vec<String> {
    let html = Html::parse_document(&page.text());
    let written = html.errors.iter().map(ToString::to_string);
    written.chain(twice(&html)).chain(of(&html)).collect()
}

#[test]
fn pages_of_a_paired_device_can_be_heard() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    for path in [
        "/",
        "/plants/x22-02-5.html",
        "/crosses/x22-02.html",
        "/season.html",
        "/problems.html",
        "/record",
        "/sitting?of=X22-02",
        "/sitting?of=X22-02&traits=span,banding",
        "/sitting?of=X99-99",
        "/find?q=shelf+1",
        "/find?q=nothing-at-all",
        "/devices",
    ] {
        let page = device.get(path);
        assert_eq!(page.status, 200, "{path}");
        assert_eq!(faults(&page, unheard), Vec::<String>::new(), "{path}");
    }
}

#[test]
fn pages_before_pairing_and_refusals_can_be_heard() {
    let mut server = Server::of_demo(&[]);
    let at = server.at();
    let secret = server.secret();
    server.press_enter();
    let device = server.paired();
    for (page, status) in [
        (
            ask(at, "GET", &format!("/pair?secret={secret}"), &[], b""),
            200,
        ),
        (ask(at, "GET", "/pair", &[], b""), 200),
        (ask(at, "GET", "/", &[], b""), 401),
        (ask(at, "GET", "/", &[("Host", "evil.test")], b""), 421),
        (device.get("/nothing"), 404),
    ] {
        assert_eq!(page.status, status);
        let found = faults(&page, unheard_without_menu);
        assert_eq!(found, Vec::<String>::new(), "{}", page.text());
    }
}
