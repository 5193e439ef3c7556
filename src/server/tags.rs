//! A plant found by a photograph of its tag.

use super::answers::{Home, answered, busy, sent};
use super::guard::Visitor;
use super::pages::of_tag;
use super::sending::PICTURE;
use crate::picture::{Picture, TagSeen};
use axum::body::Body;
use axum::extract::{Extension, State};
use axum::http::HeaderMap;
use axum::response::Response;
use serde_json::json;

/// The plant whose tag is in a picture; the picture is not kept.
pub(super) async fn tag(
    State(house): Home,
    Extension(visitor): Extension<Visitor>,
    headers: HeaderMap,
    request: Body,
) -> Result<Response, Response> {
    let _upload = house.uploads.try_acquire().map_err(|_| busy())?;
    let bytes = sent(&house, &visitor, (&headers, request, PICTURE)).await?;
    let _one = house.pictures.acquire().await.map_err(|_| busy())?;
    let read = move || Picture::read(&bytes).map(|picture| picture.tag());
    let seen = tokio::task::spawn_blocking(read)
        .await
        .map_err(|_| busy())?;
    let code = match seen {
        Ok(TagSeen::Read(code)) => code,
        Ok(other) => return Ok(answered(&json!({"words": unread(&other)}))),
        Err(why) => {
            let words = format!("The picture cannot be read: {why}.");
            return Ok(answered(&json!({"words": words})));
        }
    };
    let found = house.look(move |view| (of_tag(view, &code), code));
    Ok(answered(&match found.await.ok_or_else(busy)? {
        (Some((code, path)), _) => json!({"code": code, "path": path}),
        (None, code) => {
            json!({"words": format!("The tag says {code}, which is not in this registry.")})
        }
    }))
}

/// What to do about a picture from which no code was read.
fn unread(seen: &TagSeen) -> &'static str {
    match seen {
        TagSeen::OutOfFocus => "The picture is out of focus. Take another.",
        TagSeen::Unreadable | TagSeen::Perhaps => {
            "The tag cannot be read. Take another, from straight above."
        }
        TagSeen::Several(_) => "There are several tags in this picture. Take one.",
        TagSeen::None | TagSeen::Read(_) => "There is no tag in this picture. Go closer.",
    }
}
