//! A tag as a phone photographs it: the code alone, large and level.

/// A PNG of the QR of a code.
pub fn drawn_tag(code: &str) -> Vec<u8> {
    let qr = qrcode::QrCode::new(code).expect("a code");
    let (side, module) = (qr.width() as u32, 12);
    let size = (side + 8) * module;
    let colours = qr.to_colors();
    let mut picture = image::GrayImage::from_pixel(size, size, image::Luma([255]));
    for (x, y, pixel) in picture.enumerate_pixels_mut() {
        let (x, y) = ((x / module).wrapping_sub(4), (y / module).wrapping_sub(4));
        if x < side && y < side && colours[(y * side + x) as usize] == qrcode::Color::Dark {
            pixel.0 = [0];
        }
    }
    let mut bytes = std::io::Cursor::new(Vec::new());
    picture
        .write_to(&mut bytes, image::ImageFormat::Png)
        .expect("a picture");
    bytes.into_inner()
}
