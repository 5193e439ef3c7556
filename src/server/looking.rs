//! Pages and photos, made of the registry as it is.

use super::answers::{Home, busy, query, shown, take};
use super::devices::Device;
use super::guard::{Visitor, refusal};
use super::house::House;
use super::pages::{SittingAsked, album_page, devices_page, find_page, record_page, sitting_page};
use super::shelf::View;
use crate::render::album::live::DeviceLine;
use crate::render::scene::Photo;
use crate::text::read_beside;
use axum::extract::{Extension, State};
use axum::http::header::CONTENT_TYPE;
use axum::http::{StatusCode, Uri};
use axum::response::{Html, IntoResponse, Response};

/// The largest photo that is opened, bytes, as for the album.
const MOST: u64 = 64 << 20;
const NO_PAGE: &str = "There is no such page.";
const NO_PHOTO: &str = "This photo cannot be shown: its file, which the plant's record names, is not in the registry's folder or is no picture.";

/// A page or a photo of the album. The path is looked up among those the registry has and never reaches the disk.
pub(super) async fn page(
    State(house): Home,
    Extension(visitor): Extension<Visitor>,
    uri: Uri,
) -> Response {
    let path = match uri.path() {
        "/" => "index.html".to_owned(),
        path => path.trim_start_matches('/').to_owned(),
    };
    let none = || refusal(StatusCode::NOT_FOUND, NO_PAGE);
    let no_photo = || refusal(StatusCode::NOT_FOUND, NO_PHOTO);
    if path.starts_with("photos/") {
        let found = house.look(move |view| {
            let (file, small) = view.photos.get(&path)?.clone();
            Some((view.folder.to_owned(), file, small))
        });
        return match found.await {
            Some(Some(of)) => picture(&house, of).await.unwrap_or_else(no_photo),
            Some(None) => none(),
            None => busy(),
        };
    }
    let page = house.look(move |view| {
        album_page(view, &path, &visitor.given).ok_or_else(|| no_page(view, &path))
    });
    match page.await {
        Some(Ok(page)) => Html(page).into_response(),
        Some(Err(words)) => refusal(StatusCode::NOT_FOUND, &words),
        None => busy(),
    }
}

/// That there is no page at a path, or that its record may be on a page of the registry that could not be read.
fn no_page(view: &View, path: &str) -> String {
    let name = path.rsplit('/').next().unwrap_or(path);
    let code = name.trim_end_matches(".html").to_uppercase();
    match &view.album.registry().may_be_on(&code)[..] {
        [] => NO_PAGE.to_owned(),
        unread => format!(
            "There is no page of {code} now: it may be on a page of the registry that could not be read. {}.",
            unread.join("; ")
        ),
    }
}

/// A photo made ready; `None` if it cannot be read.
pub(super) async fn picture(
    house: &House,
    (folder, file, small): (std::path::PathBuf, String, bool),
) -> Option<Response> {
    let _one = house.pictures.acquire().await.ok()?;
    let ready = move || {
        let bytes = read_beside(&folder, &file, MOST).ok()?;
        let photo = Photo::read(&bytes).ok()?;
        match small {
            true => Some(photo.small().ok()?.0),
            false => Some(photo.jpeg),
        }
    };
    let bytes = tokio::task::spawn_blocking(ready).await.ok()??;
    Some(([(CONTENT_TYPE, "image/jpeg")], bytes).into_response())
}

pub(super) async fn find(
    State(house): Home,
    Extension(visitor): Extension<Visitor>,
    uri: Uri,
) -> Response {
    let typed = take(&mut query(&uri), "q");
    shown(
        house
            .look(move |view| find_page(view, &typed, &visitor.given))
            .await,
    )
}

pub(super) async fn record(State(house): Home, Extension(visitor): Extension<Visitor>) -> Response {
    shown(
        house
            .look(move |view| record_page(view, &visitor.given))
            .await,
    )
}

pub(super) async fn sitting(
    State(house): Home,
    Extension(visitor): Extension<Visitor>,
    uri: Uri,
) -> Response {
    let mut given = query(&uri);
    let asked = SittingAsked {
        of: take(&mut given, "of"),
        place: take(&mut given, "place"),
        traits: take(&mut given, "traits"),
        on: take(&mut given, "on"),
    };
    shown(
        house
            .look(move |view| sitting_page(view, &asked, &visitor.given))
            .await,
    )
}

pub(super) async fn devices(
    State(house): Home,
    Extension(visitor): Extension<Visitor>,
) -> Response {
    let list = match house.devices().list() {
        Ok(list) => list,
        Err(words) => return refusal(StatusCode::INTERNAL_SERVER_ERROR, &words),
    };
    let line = |of: Device| DeviceLine {
        is_this: of.mark == visitor.device,
        mark: of.mark,
        name: of.name,
        since: of.since,
    };
    let lines: Vec<DeviceLine> = list.into_iter().map(line).collect();
    shown(
        house
            .look(move |view| devices_page(view, &lines, &visitor.given))
            .await,
    )
}
