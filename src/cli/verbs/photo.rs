//! The photo a card shows.

use crate::cli::request::{Refusal, Request};
use crate::render::scene::Photo;
use crate::report::card::Card;
use crate::text::{read_beside, visible};
use std::sync::Arc;

/// The largest photo that is opened, bytes.
const MOST: u64 = 64 << 20;

/// The latest photo of the plant, where it is drawn. Where its file cannot be shown the card has none, with a remark.
pub(super) fn photo(
    request: &Request,
    card: &mut Card,
    is_drawn: bool,
) -> Result<(Option<Arc<Photo>>, String), Refusal> {
    let Some(of) = &card.photo else {
        return Ok((None, String::new()));
    };
    let folder = request.registry_folder()?;
    let read = read_beside(&folder, &of.file, MOST).map_err(|why| why.to_string());
    let shown = |bytes: Vec<u8>| match is_drawn {
        true => Photo::read(&bytes).map(|photo| Some(Arc::new(photo))),
        false => Ok(None),
    };
    let photo = read.and_then(|bytes| shown(bytes).map_err(|why| why.to_string()));
    Ok(match photo {
        Ok(photo) => (photo, String::new()),
        Err(why) => {
            let remark = format!("no picture on the card: {}: {why}\n", visible(&of.file));
            card.without_photo();
            (None, remark)
        }
    })
}
