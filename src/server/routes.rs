//! What is asked for under which address.

use super::guard::guard;
use super::house::House;
use super::looking::{devices, find, page, record, sitting};
use super::pairing::{forget, pair, pair_form};
use super::sending::{entries, photo};
use super::tags::tag;
use crate::render::album::live::{self, BARE_STYLE};
use crate::render::album::{SCRIPT, STYLE};
use axum::Router;
use axum::http::header::CONTENT_TYPE;
use axum::middleware::from_fn_with_state;
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use std::sync::Arc;

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
