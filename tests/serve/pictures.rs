//! Photos and tags: what a phone sends is read, made smaller and stripped, or refused in words.

use crate::drawn_tag::drawn_tag;
use crate::running::Server;
use std::fs;
use std::path::Path;

fn demo_photo() -> Vec<u8> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("registry-demo/photos");
    let first = fs::read_dir(folder)
        .expect("photos")
        .next()
        .expect("a photo");
    fs::read(first.expect("a photo").path()).expect("bytes")
}

#[test]
fn a_photo_is_taken_in_once() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let photo = demo_photo();
    let path =
        "/photo?id=0123456789abcdef&plant=X22-02-7&on=2025-05-30&light=LED&note=newest+pitcher";
    for _ in 0..2 {
        let answer = device.post(path, &photo).json();
        assert_eq!(answer["state"], "recorded", "{answer}");
        let words = answer["report"]["recorded"].as_str().expect("words");
        let is_first = words == "X22-02-7: photo of 2025-05-30";
        assert!(is_first || words.contains("on X22-02-7"), "{words}");
    }
    let page = fs::read_to_string(server.folder.join("crosses/X22-02.ron")).expect("the page");
    assert_eq!(
        page.matches("photos/X22-02-7-2025-05-30-").count(),
        1,
        "{page}"
    );
    assert!(
        page.contains("light: \"LED\", note: \"newest pitcher\""),
        "{page}"
    );
    // The same id with other words, another day or another picture is another entry.
    for (path, bytes) in [
        (path.replace("newest", "oldest"), &photo[..]),
        (path.replace("LED", "daylight"), &photo[..]),
        (path.replace("05-30", "05-29"), &photo[..]),
        (path.to_owned(), &photo[..photo.len() - 1]),
    ] {
        let answer = device.post(&path, bytes).json();
        let words = answer["words"].as_str().expect("words");
        assert!(words.contains("another entry"), "{path}: {answer}");
    }
    // The same picture as one of another plant: it may show both, or it was the wrong page.
    let other = "/photo?id=0123456789abcdeb&plant=X22-02-3&on=2025-05-30";
    let answer = device.post(other, &photo).json();
    assert_eq!(answer["state"], "recorded", "{answer}");
    let remark = "The same picture is on record as one of X22-02-7; if it shows one plant only, undo one of the two";
    assert_eq!(answer["report"]["remarks"][0], remark, "{answer}");
    let shown = device.get("/photos/x22-02-7-1.jpg");
    assert!(shown.status == 200 && shown.body.starts_with(&[0xff, 0xd8]));
    // Its name stays in the record when its file is gone.
    let mut named = page.split('"').filter(|words| words.starts_with("photos/"));
    let file = named.find(|words| words.contains("X22-02-7-2025"));
    let file = server.folder.join(file.expect("a file"));
    let aside = server.folder.join("photos/aside.jpg");
    fs::rename(&file, &aside).expect("a photo");
    let gone = device.get("/photos/x22-02-7-1.jpg");
    let words = String::from_utf8_lossy(&gone.body);
    assert!(
        gone.status == 404 && words.contains("This photo cannot be shown"),
        "{words}"
    );
    fs::rename(&aside, &file).expect("a photo");
    let same = device
        .post(
            "/photo?id=0123456789abcde0&plant=X22-02-7&on=2025-05-30",
            &photo,
        )
        .json();
    assert!(
        same["words"].as_str().expect("words").contains("already"),
        "{same}"
    );
    for (path, body, words) in [
        (
            "/photo?id=0123456789abcde1&plant=X22-02-7",
            &b"GIF89a"[..],
            "JPEG",
        ),
        (
            "/photo?id=0123456789abcde2&plant=X22-02-99",
            &photo[..],
            "no plant",
        ),
        (
            "/photo?id=0123456789abcde3&plant=X22-02-7&on=2024",
            &photo[..],
            "one exact day",
        ),
        (
            "/photo?id=0123456789abcde4&plant=X22-02-7",
            &photo[..photo.len() / 2],
            "cut off",
        ),
        // It was culled in May.
        (
            "/photo?id=0123456789abcde5&plant=X22-02-6&on=2025-06-01",
            &photo[..],
            "no longer here",
        ),
    ] {
        let answer = device.post(path, body).json();
        assert_eq!(answer["state"], "refused", "{path}: {answer}");
        assert!(
            answer["words"].as_str().expect("words").contains(words),
            "{path}: {answer}"
        );
    }
}

#[test]
fn a_tag_leads_to_its_plant() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let found = device.post("/tag", &drawn_tag("X22-02-5")).json();
    assert_eq!(found["path"], "plants/x22-02-5.html", "{found}");
    let unknown = device.post("/tag", &drawn_tag("X99-09-9")).json();
    assert!(
        unknown["words"]
            .as_str()
            .expect("words")
            .contains("X99-09-9"),
        "{unknown}"
    );
    let none = device.post("/tag", &demo_photo()).json();
    assert!(
        none["path"].is_null() && none["words"].is_string(),
        "{none}"
    );
    let broken = device.post("/tag", b"no picture").json();
    assert!(
        broken["words"]
            .as_str()
            .expect("words")
            .contains("cannot be read"),
        "{broken}"
    );
}
