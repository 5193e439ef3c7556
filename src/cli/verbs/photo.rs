//! The photo a card shows.

use crate::cli::request::{Refusal, Request};
use crate::render::scene::Photo;
use crate::report::card::Card;
use crate::text::{read_beside, visible};
use std::sync::Arc;

/// The largest photo that is opened, bytes.
const MOST: u64 = 64 << 20;

/// The latest photo of the plant; nothing where there is none, with a remark where its file cannot be shown.
pub(super) fn photo(
    request: &Request,
    card: &Card,
) -> Result<(Option<Arc<Photo>>, String), Refusal> {
    let Some(of) = &card.photo else {
        return Ok((None, String::new()));
    };
    let folder = request.registry_folder()?;
    let read = read_beside(&folder, &of.file, MOST).map_err(|why| why.to_string());
    let photo = read.and_then(|bytes| Photo::read(&bytes).map_err(|why| why.to_string()));
    Ok(match photo {
        Ok(photo) => (Some(Arc::new(photo)), String::new()),
        Err(why) => (
            None,
            format!("no picture on the card: {}: {why}\n", visible(&of.file)),
        ),
    })
}
