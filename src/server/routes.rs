//! What is asked for under which address.

use super::bodies::body;
use super::devices::Device;
use super::guard::{COOKIE, TOKEN, Visitor, guard, refusal};
use super::house::House;
use super::pages::{
    SittingAsked, album_page, devices_page, find_page, of_tag, record_page, sitting_page,
};
use crate::picture::{Picture, TagSeen};
use crate::render::album::live::{self, BARE_STYLE, DeviceLine};
use crate::render::album::{SCRIPT, STYLE};
use crate::render::scene::Photo;
use crate::text::read_beside;
use axum::Router;
use axum::body::Body;
use axum::extract::{Extension, Request, State};
use axum::http::header::{CONTENT_TYPE, LOCATION, SET_COOKIE};
use axum::http::{HeaderMap, StatusCode, Uri};
use axum::middleware::from_fn_with_state;
use axum::response::{Html, IntoResponse, Response};
use axum::routing::{get, post};
use serde_json::{Value, json};
use std::collections::HashMap;
use std::sync::Arc;

/// The most bytes of a form, of entries, and of a picture.
const FORM: usize = 4 << 10;
const ENTRIES: usize = 256 << 10;
const PICTURE: usize = 24 << 20;
/// The most entries sent at once.
const AT_ONCE: usize = 50;
/// The largest photo that is opened, bytes, as for the album.
const MOST: u64 = 64 << 20;
/// How long a device stays paired, seconds: 400 days, the longest browsers keep a cookie.
const PAIRED: u32 = 400 * 86_400;

type Home = State<Arc<House>>;

/// All addresses, behind the guard.
pub fn routes(house: Arc<House>) -> Router {
    Router::new()
        .route("/pair", get(pair_form).post(pair))
        .route("/bare.css", get(async || css(BARE_STYLE)))
        .route("/album.css", get(async || css(STYLE)))
        .route("/bench.css", get(async || css(live::STYLE)))
        .route("/album.js", get(async || javascript(SCRIPT)))
        .route("/bench.js", get(async || javascript(live::SCRIPT)))
        .route("/find", get(find))
        .route("/record", get(record))
        .route("/sitting", get(sitting))
        .route("/devices", get(devices))
        .route("/forget", post(forget))
        .route("/entries", post(entries))
        .route("/photo", post(photo))
        .route("/tag", post(tag))
        .fallback(get(page))
        .layer(from_fn_with_state(house.clone(), guard))
        .with_state(house)
}

fn css(text: &'static str) -> Response {
    ([(CONTENT_TYPE, "text/css; charset=utf-8")], text).into_response()
}

fn javascript(text: &'static str) -> Response {
    ([(CONTENT_TYPE, "text/javascript; charset=utf-8")], text).into_response()
}

fn busy() -> Response {
    refusal(
        StatusCode::SERVICE_UNAVAILABLE,
        "podbook is busy, or failed on this page. Try again.",
    )
}

fn shown(page: Option<String>) -> Response {
    page.map_or_else(busy, |page| Html(page).into_response())
}

/// The fields of a query or a form; the last of one name counts.
fn fields(text: &[u8]) -> HashMap<String, String> {
    form_urlencoded::parse(text).into_owned().collect()
}

fn query(uri: &Uri) -> HashMap<String, String> {
    fields(uri.query().unwrap_or_default().as_bytes())
}

fn take(fields: &mut HashMap<String, String>, name: &str) -> String {
    fields.remove(name).unwrap_or_default()
}

/// A page or a photo of the album. The path is looked up among those the registry has and never reaches the disk.
async fn page(State(house): Home, Extension(visitor): Extension<Visitor>, uri: Uri) -> Response {
    let path = match uri.path() {
        "/" => "index.html".to_owned(),
        path => path.trim_start_matches('/').to_owned(),
    };
    let none = || refusal(StatusCode::NOT_FOUND, "There is no such page.");
    if path.starts_with("photos/") {
        let found = house.look(move |view| {
            let (file, small) = view.photos.get(&path)?.clone();
            Some((view.folder.to_owned(), file, small))
        });
        return match found.await {
            Some(Some(of)) => picture(&house, of).await.unwrap_or_else(none),
            Some(None) => none(),
            None => busy(),
        };
    }
    match house
        .look(move |view| album_page(view, &path, &visitor.given))
        .await
    {
        Some(Some(page)) => Html(page).into_response(),
        Some(None) => none(),
        None => busy(),
    }
}

/// A photo made ready; `None` if it cannot be read.
async fn picture(
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

async fn find(State(house): Home, Extension(visitor): Extension<Visitor>, uri: Uri) -> Response {
    let typed = take(&mut query(&uri), "q");
    shown(
        house
            .look(move |view| find_page(view, &typed, &visitor.given))
            .await,
    )
}

async fn record(State(house): Home, Extension(visitor): Extension<Visitor>) -> Response {
    shown(
        house
            .look(move |view| record_page(view, &visitor.given))
            .await,
    )
}

async fn sitting(State(house): Home, Extension(visitor): Extension<Visitor>, uri: Uri) -> Response {
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

async fn devices(State(house): Home, Extension(visitor): Extension<Visitor>) -> Response {
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

/// The form of pairing. Opening the link uses nothing up: messengers open links too.
async fn pair_form(uri: Uri) -> Response {
    Html(live::pair(&take(&mut query(&uri), "secret"))).into_response()
}

async fn pair(State(house): Home, request: Request) -> Result<Response, Response> {
    let mut form = fields(&bytes(request, FORM).await?);
    let (secret, name) = (take(&mut form, "secret"), take(&mut form, "name"));
    let today = house.options.today();
    let paired = house.devices().pair(&secret, &name, today);
    let cookie = paired.map_err(|words| refusal(StatusCode::FORBIDDEN, &words))?;
    (house.options.tell)(&format!("Paired a device: {}\n", name.trim()));
    let cookie = format!("{COOKIE}={cookie}; Path=/; HttpOnly; SameSite=Strict; Max-Age={PAIRED}");
    Ok(see_other("/", &[(SET_COOKIE, cookie)]))
}

fn see_other(place: &'static str, headers: &[(axum::http::HeaderName, String)]) -> Response {
    let mut response = (StatusCode::SEE_OTHER, [(LOCATION, place)]).into_response();
    for (name, value) in headers {
        if let Ok(value) = value.parse() {
            response.headers_mut().insert(name, value);
        }
    }
    response
}

async fn forget(
    State(house): Home,
    Extension(visitor): Extension<Visitor>,
    request: Request,
) -> Result<Response, Response> {
    let mut form = fields(&bytes(request, FORM).await?);
    if take(&mut form, "token") != visitor.given.token {
        return Err(no_token());
    }
    let forgotten = house.devices().forget(&take(&mut form, "device"));
    forgotten.map_err(|words| refusal(StatusCode::INTERNAL_SERVER_ERROR, &words))?;
    Ok(see_other("/devices", &[]))
}

/// The bytes of a request.
async fn bytes(request: Request, most: usize) -> Result<Vec<u8>, Response> {
    let (parts, sent) = request.into_parts();
    body(&parts.headers, sent, most).await.map_err(|status| {
        refusal(
            status,
            match status {
                StatusCode::PAYLOAD_TOO_LARGE => "This is too large.",
                StatusCode::REQUEST_TIMEOUT => "This came too slowly. Nothing was recorded.",
                _ => "The connection broke. Nothing was recorded.",
            },
        )
    })
}

fn no_token() -> Response {
    refusal(
        StatusCode::FORBIDDEN,
        "This was not sent by a page of this device. Nothing was recorded.",
    )
}

/// The bytes of what the program of a page sent, if that page is one of this device and may record.
async fn sent(
    house: &House,
    visitor: &Visitor,
    (headers, sent, most): (&HeaderMap, Body, usize),
) -> Result<Vec<u8>, Response> {
    let token = headers.get(TOKEN).and_then(|of| of.to_str().ok());
    if token != Some(visitor.given.token.as_str()) {
        return Err(no_token());
    }
    if !house.options.writes {
        return Err(refusal(
            StatusCode::FORBIDDEN,
            "podbook was started with --read-only. Nothing was recorded.",
        ));
    }
    let request = Request::new(sent);
    let (mut parts, sent) = request.into_parts();
    parts.headers = headers.clone();
    bytes(Request::from_parts(parts, sent), most).await
}

fn answered(value: &Value) -> Response {
    ([(CONTENT_TYPE, "application/json")], value.to_string()).into_response()
}

fn not_understood(words: &str) -> Response {
    refusal(StatusCode::BAD_REQUEST, words)
}

/// Entries, recorded in the order they stand; the answer has one for each.
async fn entries(
    State(house): Home,
    Extension(visitor): Extension<Visitor>,
    headers: HeaderMap,
    request: Body,
) -> Result<Response, Response> {
    let bytes = sent(&house, &visitor, (&headers, request, ENTRIES)).await?;
    let list: Value = serde_json::from_slice(&bytes)
        .map_err(|why| not_understood(&format!("This is no list of entries: {why}.")))?;
    let list = list
        .as_array()
        .filter(|list| list.len() <= AT_ONCE)
        .cloned();
    let list = list.ok_or_else(|| not_understood("This is no list of at most 50 entries."))?;
    let taken = house.record(move |desk| {
        let each = list.iter().map(|entry| desk.take(entry, None));
        Value::Array(each.collect())
    });
    taken.await.map(|taken| answered(&taken)).ok_or_else(busy)
}

/// A photo, with its entry in the address.
async fn photo(
    State(house): Home,
    Extension(visitor): Extension<Visitor>,
    uri: Uri,
    headers: HeaderMap,
    request: Body,
) -> Result<Response, Response> {
    let _upload = house.uploads.try_acquire().map_err(|_| busy())?;
    let bytes = sent(&house, &visitor, (&headers, request, PICTURE)).await?;
    let mut given = query(&uri);
    let mut entry = json!({"kind": "photo"});
    for name in ["id", "plant", "on", "note"] {
        entry[name] = Value::String(take(&mut given, name));
    }
    let taken = house.record(move |desk| desk.take(&entry, Some(&bytes)));
    taken.await.map(|taken| answered(&taken)).ok_or_else(busy)
}

/// The plant whose tag is in a picture; the picture is not kept.
async fn tag(
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
        Err(why) => {
            return Ok(answered(
                &json!({"words": format!("The picture cannot be read: {why}.")}),
            ));
        }
        Ok(TagSeen::Read(code)) => code,
        Ok(TagSeen::None) => {
            return Ok(answered(
                &json!({"words": "There is no tag in this picture. Go closer."}),
            ));
        }
        Ok(TagSeen::OutOfFocus) => {
            return Ok(answered(
                &json!({"words": "The picture is out of focus. Take another."}),
            ));
        }
        Ok(TagSeen::Unreadable | TagSeen::Perhaps) => {
            return Ok(answered(
                &json!({"words": "The tag cannot be read. Take another, from straight above."}),
            ));
        }
        Ok(TagSeen::Several(_)) => {
            return Ok(answered(
                &json!({"words": "There are several tags in this picture. Take one."}),
            ));
        }
    };
    let found = house
        .look(move |view| (of_tag(view, &code), code))
        .await
        .ok_or_else(busy)?;
    Ok(answered(&match found {
        (Some((code, path)), _) => json!({"code": code, "path": path}),
        (None, code) => {
            json!({"words": format!("The tag says {code}, which is not in this registry.")})
        }
    }))
}
