//! Other addresses of this computer than 127.0.0.1: with `--lan` they lead to the page of pairing, without it nowhere.

use crate::running::{Server, ask};
use std::net::{IpAddr, Ipv4Addr, SocketAddr, TcpListener, TcpStream, UdpSocket};

/// Addresses besides 127.0.0.1 that this computer can be asked under: the one it would send from, and a second one of its
/// own loopback where the system has that.
fn others() -> Vec<IpAddr> {
    let sends_from = || {
        let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
        // An address for documentation (RFC 5737); nothing is sent.
        socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9)).ok()?;
        Some(socket.local_addr().ok()?.ip())
    };
    let second = IpAddr::V4(Ipv4Addr::new(127, 0, 0, 2));
    let mut all: Vec<IpAddr> = sends_from().into_iter().chain([second]).collect();
    all.retain(|of| *of != IpAddr::V4(Ipv4Addr::LOCALHOST) && TcpListener::bind((*of, 0)).is_ok());
    if all.is_empty() {
        println!("skipped: this computer has one address only");
    }
    all
}

#[test]
fn with_lan_every_address_leads_to_the_page_of_pairing() {
    let mut server = Server::of_demo(&["--lan", "--name", "greenhouse.test"]);
    let port = server.port;
    let secret = server.secret();
    let link = format!("/pair?secret={secret}");
    for address in others() {
        let at = SocketAddr::new(address, port);
        let page = ask(at, "GET", &link, &[], b"");
        assert!(page.status == 200 && page.text().contains(&secret), "{at}");
        let named = [("Host", &*format!("greenhouse.test:{port}"))];
        assert_eq!(ask(at, "GET", &link, &named, b"").status, 200, "{at}");
        assert_eq!(ask(at, "GET", "/", &[], b"").status, 401, "{at}");
        // A name that someone else pointed here, and addresses that were not connected to.
        for host in [
            "evil.test".to_owned(),
            format!("evil.test:{port}"),
            format!("127.0.0.1:{port}"),
            format!("0.0.0.0:{port}"),
            address.to_string(),
        ] {
            let page = ask(at, "GET", &link, &[("Host", &host)], b"");
            assert_eq!(page.status, 421, "{host} at {at}");
            assert!(!page.text().contains(&secret), "{host} at {at}");
        }
    }
}

#[test]
fn a_device_pairs_from_another_address_and_records() {
    for address in others() {
        let mut server = Server::of_demo(&["--lan"]);
        let device = server.paired_from(address);
        assert_eq!(device.get("/plants/x22-02-5.html").status, 200);
        let entry = serde_json::json!([{
            "id": "0123456789abcdef", "kind": "pot", "plant": "Ven1-b", "width": "9cm",
        }]);
        assert_eq!(device.enter(&entry)[0]["state"], "recorded");
    }
}

#[test]
fn with_lan_it_says_so_and_draws_the_link() {
    let mut server = Server::of_demo(&["--lan"]);
    let said = server.said_until("Press Enter");
    let first = said.lines().next().expect("a line");
    for part in [
        "this computer and its network",
        "plain HTTP",
        "at home only",
    ] {
        assert!(first.contains(part), "{first}");
    }
    let drawn = said.lines().filter(|line| line.contains('█')).count();
    assert!(drawn > 10, "{said}");
}

#[test]
fn without_lan_no_other_address_is_answered() {
    let server = Server::of_demo(&[]);
    for address in others() {
        let refused = TcpStream::connect((address, server.port));
        let why = refused.expect_err("it is connected").kind();
        assert_eq!(why, std::io::ErrorKind::ConnectionRefused, "{address}");
    }
}
