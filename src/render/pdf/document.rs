//! The file: its title, its pages, their contents and the fonts they share.

use super::fonts::Fonts;
use super::painting::{painted, photo_name};
use crate::render::scene::{Placed, Scene};
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, TextStr};

const CATALOG: Ref = Ref::new(1);
const TREE: Ref = Ref::new(2);
const INFO: Ref = Ref::new(3);
/// The first number of what comes page by page, and of what comes font by font after it.
const FIRST: i32 = 4;

/// The scenes as a document of as many pages, each as large as its scene.
pub fn pdf(scenes: &[Scene]) -> Vec<u8> {
    let mut file = Pdf::new();
    let photos: usize = scenes.iter().map(|scene| scene.photos().count()).sum();
    let first_photo = FIRST + 2 * scenes.len() as i32;
    let fonts = Fonts::of(scenes, first_photo + photos as i32);
    let mut photo = Ref::new(first_photo);
    let title = scenes.first().map_or("", |scene| scene.title.as_str());
    let page_at = |at: usize| Ref::new(FIRST + 2 * at as i32);
    let mut catalog = file.catalog(CATALOG);
    catalog.pages(TREE).lang(TextStr("en"));
    catalog.viewer_preferences().display_doc_title(true);
    catalog.finish();
    file.document_info(INFO).title(TextStr(title));
    file.pages(TREE)
        .kids((0..scenes.len()).map(page_at))
        .count(scenes.len() as i32);
    for (at, scene) in scenes.iter().enumerate() {
        let content = Ref::new(page_at(at).get() + 1);
        let mut page = file.page(page_at(at));
        page.parent(TREE)
            .media_box(Rect::new(0.0, 0.0, scene.width as f32, scene.height as f32))
            .contents(content);
        let mut resources = page.resources();
        let mut named = resources.fonts();
        for (name, font) in fonts.named() {
            named.pair(Name(name.as_bytes()), font);
        }
        named.finish();
        let first = photo;
        let mut shown = resources.x_objects();
        for at in 0..scene.photos().count() {
            shown.pair(Name(photo_name(at).as_bytes()), photo);
            photo = Ref::new(photo.get() + 1);
        }
        shown.finish();
        resources.finish();
        page.finish();
        for (at, placed) in scene.photos().enumerate() {
            write_photo(&mut file, Ref::new(first.get() + at as i32), placed);
        }
        file.stream(content, &painted(scene, &fonts));
    }
    fonts.write(&mut file);
    file.finish()
}

/// A photo as the JPEG it is.
fn write_photo(file: &mut Pdf, number: Ref, placed: &Placed) {
    let photo = &placed.photo;
    let mut drawn = file.image_xobject(number, &photo.jpeg);
    drawn.filter(Filter::DctDecode);
    drawn
        .width(photo.width as i32)
        .height(photo.height as i32)
        .bits_per_component(8);
    drawn.color_space().device_rgb();
}
