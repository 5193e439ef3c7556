//! What handlers share: reading what was sent, and the answers they have in common.

use super::bodies::body;
use super::guard::{TOKEN, Visitor, refusal};
use super::house::House;
use axum::body::Body;
use axum::extract::{Request, State};
use axum::http::header::{CONTENT_TYPE, LOCATION};
use axum::http::{HeaderMap, StatusCode, Uri};
use axum::response::{Html, IntoResponse, Response};
use serde_json::Value;
use std::collections::HashMap;
use std::sync::Arc;

/// What every handler is given.
pub(super) type Home = State<Arc<House>>;

pub(super) fn busy() -> Response {
    refusal(
        StatusCode::SERVICE_UNAVAILABLE,
        "podbook is busy, or failed on this page. Try again.",
    )
}

pub(super) fn shown(page: Option<String>) -> Response {
    page.map_or_else(busy, |page| Html(page).into_response())
}

/// The fields of a query or a form; the last of one name counts.
pub(super) fn fields(text: &[u8]) -> HashMap<String, String> {
    form_urlencoded::parse(text).into_owned().collect()
}

pub(super) fn query(uri: &Uri) -> HashMap<String, String> {
    fields(uri.query().unwrap_or_default().as_bytes())
}

pub(super) fn take(fields: &mut HashMap<String, String>, name: &str) -> String {
    fields.remove(name).unwrap_or_default()
}

pub(super) fn see_other(
    place: &'static str,
    headers: &[(axum::http::HeaderName, String)],
) -> Response {
    let mut response = (StatusCode::SEE_OTHER, [(LOCATION, place)]).into_response();
    for (name, value) in headers {
        if let Ok(value) = value.parse() {
            response.headers_mut().insert(name, value);
        }
    }
    response
}

/// The bytes of a request.
pub(super) async fn bytes(request: Request, most: usize) -> Result<Vec<u8>, Response> {
    let (parts, sent) = request.into_parts();
    whole(&parts.headers, sent, most).await
}

async fn whole(headers: &HeaderMap, sent: Body, most: usize) -> Result<Vec<u8>, Response> {
    body(headers, sent, most).await.map_err(|status| {
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

pub(super) fn no_token() -> Response {
    refusal(
        StatusCode::FORBIDDEN,
        "This page was loaded before this device was paired anew. Load it again: what waits on this device is kept. Nothing was recorded.",
    )
}

/// The bytes of what the program of a page sent, if that page is one of this device and may record.
pub(super) async fn sent(
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
            "podbook was started for reading only. Nothing was recorded.",
        ));
    }
    whole(headers, sent, most).await
}

pub(super) fn answered(value: &Value) -> Response {
    ([(CONTENT_TYPE, "application/json")], value.to_string()).into_response()
}

pub(super) fn not_understood(words: &str) -> Response {
    refusal(StatusCode::BAD_REQUEST, words)
}
