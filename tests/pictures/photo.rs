//! A photo on a card: upright, small, and without what the camera wrote beside it.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use image::{ImageFormat, Rgb, RgbImage};
use podbook::render::Written;
use podbook::render::card::{Look, pages, picture};
use podbook::render::scene::{Mark, Photo};
use podbook::report::card::{Card, CardPhoto};
use std::io::Cursor;
use std::sync::Arc;

/// Green, with the upper left quarter red.
fn drawn(width: u32, height: u32) -> RgbImage {
    RgbImage::from_fn(width, height, |x, y| {
        match x < width / 2 && y < height / 2 {
            true => Rgb([200, 20, 20]),
            false => Rgb([20, 160, 20]),
        }
    })
}

fn bytes(picture: &RgbImage, format: ImageFormat) -> Vec<u8> {
    let mut out = Cursor::new(Vec::new());
    picture.write_to(&mut out, format).expect("a picture");
    out.into_inner()
}

/// The same JPEG with what a camera writes: how it is turned (EXIF 2.3, tag 0x0112), and a place as words.
fn turned(jpeg: &[u8], orientation: u8) -> Vec<u8> {
    let mut exif = b"Exif\0\0II*\0\x08\0\0\0\x01\0".to_vec();
    exif.extend([
        0x12,
        0x01,
        3,
        0,
        1,
        0,
        0,
        0,
        orientation,
        0,
        0,
        0,
        0,
        0,
        0,
        0,
    ]);
    exif.extend(b"SECRET PLACE");
    let length = u16::try_from(exif.len() + 2).expect("short");
    let mut out = jpeg[..2].to_vec();
    out.extend([0xff, 0xe1]);
    out.extend(length.to_be_bytes());
    out.extend(exif);
    out.extend(&jpeg[2..]);
    out
}

/// The colour at a place, in parts of the width and height.
fn at(photo: &Photo, (right, down): (f64, f64)) -> [u8; 3] {
    let (x, y) = (
        (right * f64::from(photo.width)) as usize,
        (down * f64::from(photo.height)) as usize,
    );
    let from = 3 * (y * photo.width as usize + x);
    photo.pixels[from..from + 3].try_into().expect("a pixel")
}

fn is_red(colour: [u8; 3]) -> bool {
    colour[0] > 150 && colour[1] < 80
}

#[test]
fn a_photo_is_turned_upright_and_made_small() {
    let lying = bytes(&drawn(1600, 800), ImageFormat::Jpeg);
    let plain = Photo::read(&lying).expect("a photo");
    assert_eq!((plain.width, plain.height), (1000, 500));
    assert!(is_red(at(&plain, (0.1, 0.1))) && !is_red(at(&plain, (0.9, 0.1))));
    // 6: turned a quarter to the right to be seen; 3: upside down; 8: a quarter to the left.
    for (orientation, size, red) in [
        (6, (500, 1000), (0.9, 0.1)),
        (3, (1000, 500), (0.9, 0.9)),
        (8, (500, 1000), (0.1, 0.9)),
    ] {
        let photo = Photo::read(&turned(&lying, orientation)).expect("a photo");
        assert_eq!((photo.width, photo.height), size, "{orientation}");
        assert!(is_red(at(&photo, red)), "{orientation}");
        let kept = String::from_utf8_lossy(&photo.jpeg);
        assert!(
            !kept.contains("SECRET") && !kept.contains("Exif"),
            "{orientation}"
        );
    }
    let png = Photo::read(&bytes(&drawn(30, 20), ImageFormat::Png)).expect("a photo");
    assert_eq!((png.width, png.height), (30, 20));
}

#[test]
fn what_is_no_photo_is_refused() {
    let whole = bytes(&drawn(400, 300), ImageFormat::Png);
    for broken in [
        &b""[..],
        b"not a picture",
        &whole[..whole.len() / 2],
        &whole[..9],
    ] {
        assert!(Photo::read(broken).is_err());
    }
    // A PNG that says it is 100,000 pixels wide.
    let mut huge = whole.clone();
    huge[16..20].copy_from_slice(&100_000u32.to_be_bytes());
    assert!(Photo::read(&huge).is_err());
}

fn card() -> Card {
    Card {
        id: "X22-02-5".to_owned(),
        photo: Some(CardPhoto {
            light: None,
            on: "2025-05-10".to_owned(),
            file: "x.jpg".to_owned(),
        }),
        made: "2025-06-01".to_owned(),
        ..Card::default()
    }
}

/// The photo is in every form of the card, in its shape, inside the page; nothing stands on it.
#[test]
fn the_photo_is_in_every_form() {
    for (width, height) in [(300, 200), (200, 300), (900, 30), (30, 900)] {
        let photo = Photo::read(&turned(&bytes(&drawn(width, height), ImageFormat::Jpeg), 1));
        let photo = Arc::new(photo.expect("a photo"));
        for look in [Look::A5, Look::A4, Look::PHONE] {
            for page in pages(&card(), Some(&photo), look) {
                for mark in &page.marks {
                    let Mark::Photo(placed) = mark else { continue };
                    let ((x, y), (across, down)) = (placed.place, placed.size);
                    assert!(x >= 0.0 && y >= 0.0 && x + across <= page.width);
                    assert!(y + down <= page.height && across > 0.0);
                    let shape = across / down * f64::from(height) / f64::from(width);
                    assert!((shape - 1.0).abs() < 1e-9, "{shape}");
                    for run in page.texts() {
                        let words = podbook::render::scene::width(&run.text, run.face, run.size);
                        let (left, top) = (run.place.0, run.place.1 - run.size);
                        let apart = left > x + across || left + words < x;
                        assert!(apart || top > y + down || run.place.1 < y, "{}", run.text);
                    }
                }
            }
        }
        let scene = picture(&card(), Some(&photo), Look::PHONE);
        let base = STANDARD.encode(&photo.jpeg);
        for text in [Written::svg(&scene), Written::html(&card(), Some(&photo))] {
            let text = String::from_utf8(text.bytes().to_vec()).expect("text");
            assert!(text.contains(&base) && text.contains("this plant, 2025-05-10"));
        }
        let pdf = Written::pdf(&pages(&card(), Some(&photo), Look::A5));
        let holds = |needle: &[u8]| pdf.bytes().windows(needle.len()).any(|at| at == needle);
        assert!(holds(&photo.jpeg) && holds(b"/DCTDecode"));
        let png = Written::png(&scene, 1.0).expect("a picture");
        let png = image::load_from_memory(png.bytes())
            .expect("a PNG")
            .to_rgb8();
        let placed = scene.photos().next().expect("the photo");
        let (x, y) = (
            placed.place.0 + placed.size.0 * 0.2,
            placed.place.1 + placed.size.1 * 0.2,
        );
        let Rgb(colour) = *png.get_pixel(x as u32, y as u32);
        assert!(is_red(colour), "{colour:?}");
    }
}
