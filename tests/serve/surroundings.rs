//! What goes wrong around podbook is said where it goes wrong: no phone is told that it is not paired, no plant that it is not
//! there.

use crate::running::Server;
use image::{DynamicImage, ImageFormat};
use serde_json::json;
use std::fs;
use std::io::Cursor;

#[test]
fn a_folder_that_is_away_unpairs_no_device() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let away = server.folder.with_extension("away");
    fs::rename(&server.folder, &away).expect("a folder can be moved");
    for _ in 0..2 {
        let answer = device.get("/plants/x22-02-5.html");
        assert_eq!(answer.status, 503);
        assert!(
            answer.text().contains("folder is not there"),
            "{}",
            answer.text()
        );
    }
    server.said_until("The registry's folder is not there");
    fs::rename(&away, &server.folder).expect("a folder can be moved");
    assert_eq!(device.get("/plants/x22-02-5.html").status, 200);
    fs::write(server.folder.join(".podbook-devices"), b"# Ger\xe4t\n").expect("a file");
    let answer = device.get("/");
    assert_eq!(answer.status, 503);
    assert!(
        answer
            .text()
            .contains("The list of devices could not be read: line 1 is not UTF-8")
    );
    server.said_until("The list of devices could not be read");
}

#[test]
fn a_plant_on_a_page_that_cannot_be_read_is_not_said_to_be_missing() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let page = server.folder.join("crosses/X22-02.ron");
    let mut bytes = fs::read(&page).expect("a page");
    bytes.push(0xff);
    fs::write(&page, bytes).expect("a page");
    let unread = "crosses/X22-02.ron could not be read";
    for path in ["/plants/x22-02-5.html", "/find?q=X22-02-5"] {
        let words = device.get(path).text();
        assert!(words.contains(unread), "{path}: {words}");
        assert!(!words.contains("There is no such page"), "{path}: {words}");
        assert!(!words.contains("None of"), "{path}: {words}");
    }
}

#[test]
fn a_code_with_a_plus_on_record_is_one_plant() {
    let mut server = Server::of_demo(&[]);
    let page = server.folder.join("clones.ron");
    let founders = fs::read_to_string(&page).expect("a page");
    let new = "clones: [ (code: \"Spa1+Tru1\", received: \"N. ventricosa\", on: \"2020\"),";
    let with_plus = founders.replacen("clones: [", new, 1);
    assert_ne!(with_plus, founders);
    fs::write(&page, with_plus).expect("a page");
    let device = server.paired();
    let pollinated = |with: &str, id: &str| {
        let entry = json!([{
            "id": id, "kind": "pollinate", "plant": "Ven1", "with": with, "zone": id, "flowers": "3",
        }]);
        device.enter(&entry)[0].to_string()
    };
    let answer = pollinated("Spa1+Tru1", "0123456789abcdef");
    assert!(
        answer.contains("Ven1 pollinated with Spa1+Tru1"),
        "{answer}"
    );
    let answer = pollinated("Tru1+Spa1", "0123456789abcde0");
    assert!(answer.contains("mixture of Tru1 and Spa1"), "{answer}");
}

/// CRC-32 as PNG has it (ISO/IEC 15948, annex D).
fn crc(bytes: &[u8]) -> u32 {
    let bit = |crc: u32, _| {
        if crc & 1 == 1 {
            0xedb8_8320 ^ (crc >> 1)
        } else {
            crc >> 1
        }
    };
    !bytes.iter().fold(u32::MAX, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), bit)
    })
}

#[test]
fn a_picture_of_too_many_pixels_is_refused_before_it_is_opened() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let mut png = Vec::new();
    let small = DynamicImage::new_luma8(300, 300);
    small
        .write_to(&mut Cursor::new(&mut png), ImageFormat::Png)
        .expect("a picture");
    let words = device.post("/tag", &png[..png.len() / 2]).text();
    assert!(words.contains("it is cut off before its end"), "{words}");
    // Its header says how large it is: 8 bytes of the format, 4 of a length, then the chunk.
    png[16..20].copy_from_slice(&20_000_u32.to_be_bytes());
    png[20..24].copy_from_slice(&20_000_u32.to_be_bytes());
    let sum = crc(&png[12..29]);
    png[29..33].copy_from_slice(&sum.to_be_bytes());
    let words = device.post("/tag", &png).text();
    assert!(
        words.contains("at most 20,000 pixels a side and 128 million in all"),
        "{words}"
    );
}
