//! Devices let in with a secret, and revoked.

use super::answers::{Home, bytes, fields, no_token, query, see_other, take};
use super::devices::{add, remove};
use super::guard::{Visitor, refusal};
use crate::render::album::live;
use axum::extract::{Extension, Request, State};
use axum::http::header::SET_COOKIE;
use axum::http::{StatusCode, Uri};
use axum::response::{Html, IntoResponse, Response};

/// The most bytes of a form.
const FORM: usize = 4 << 10;
/// How long a device stays paired, seconds: 400 days, the longest browsers keep a cookie.
const PAIRED: u32 = 400 * 86_400;

fn not_changed(words: &str) -> Response {
    refusal(StatusCode::INTERNAL_SERVER_ERROR, words)
}

/// The form of pairing. Opening the link uses nothing up: messengers open links too. Who has the secret may pair, so it is
/// said with which registry.
pub(super) async fn pair_form(State(house): Home, uri: Uri) -> Response {
    let secret = take(&mut query(&uri), "secret");
    let stands = house.devices().stands(&secret);
    let name = match stands {
        true => house.look(|view| view.name()).await,
        false => None,
    };
    Html(live::pair(&secret, name.as_deref())).into_response()
}

pub(super) async fn pair(State(house): Home, request: Request) -> Result<Response, Response> {
    let mut form = fields(&bytes(request, FORM).await?);
    let (secret, name) = (take(&mut form, "secret"), take(&mut form, "name"));
    let today = house.options.today();
    let spent = house.devices().spend(&secret);
    spent.map_err(|words| refusal(StatusCode::FORBIDDEN, &words))?;
    let added = house.change_devices(move |folder| add(folder, &name, today));
    let paired = added.await.map_err(|words| not_changed(&words))?;
    (house.options.tell)(&format!("Paired a device: {}\n", paired.name));
    let (cookie, value) = (paired.cookie, paired.value);
    let cookie = format!("{cookie}={value}; Path=/; HttpOnly; SameSite=Strict; Max-Age={PAIRED}");
    Ok(see_other("/", &[(SET_COOKIE, cookie)]))
}

pub(super) async fn forget(
    State(house): Home,
    Extension(visitor): Extension<Visitor>,
    request: Request,
) -> Result<Response, Response> {
    let mut form = fields(&bytes(request, FORM).await?);
    if take(&mut form, "token") != visitor.given.token {
        return Err(no_token());
    }
    let device = take(&mut form, "device");
    let forgotten = house.change_devices(move |folder| remove(folder, &device));
    forgotten.await.map_err(|words| not_changed(&words))?;
    Ok(see_other("/devices", &[]))
}
