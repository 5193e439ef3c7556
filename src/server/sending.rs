//! Entries and photos that come in.

use super::answers::{Home, answered, busy, not_understood, query, sent, take};
use super::guard::Visitor;
use axum::body::Body;
use axum::extract::{Extension, State};
use axum::http::{HeaderMap, Uri};
use axum::response::Response;
use serde_json::{Value, json};

/// The most bytes of entries, and of a picture.
const ENTRIES: usize = 256 << 10;
pub(super) const PICTURE: usize = 24 << 20;
/// The most entries sent at once.
const AT_ONCE: usize = 50;

/// Entries, recorded in the order they stand; the answer has one for each.
pub(super) async fn entries(
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
pub(super) async fn photo(
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
    for name in ["id", "plant", "on", "light", "note"] {
        entry[name] = Value::String(take(&mut given, name));
    }
    let taken = house.record(move |desk| desk.take(&entry, Some(&bytes)));
    taken.await.map(|taken| answered(&taken)).ok_or_else(busy)
}
