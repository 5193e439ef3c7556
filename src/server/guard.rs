//! Who is let in: only requests to one of our own addresses, from our own pages, of a paired device.

use super::devices::{COOKIE, token_of};
use super::house::House;
use super::pages::Given;
use crate::render::album::live::notice;
use axum::extract::{Request, State};
use axum::http::header::{self, HeaderMap, HeaderName, HeaderValue};
use axum::http::{Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use std::net::SocketAddr;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// The header in which the program of a page sends its token.
pub const TOKEN: &str = "x-podbook-token";
/// The header in which an answer to a paired device has the day: an open page dates entries by it.
const DAY: HeaderName = HeaderName::from_static("x-podbook-day");
/// Cookies that are looked up: more than registries share an address.
const COOKIES: usize = 20;
/// What strangers may ask for.
const OPEN: [&str; 2] = ["/pair", "/bare.css"];

/// What every answer says to the browser.
const HEADERS: [(HeaderName, &str); 7] = [
    (
        header::CONTENT_SECURITY_POLICY,
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; \
        form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    ),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::X_FRAME_OPTIONS, "DENY"),
    (header::REFERRER_POLICY, "same-origin"),
    (header::CACHE_CONTROL, "no-store"),
    (
        HeaderName::from_static("cross-origin-resource-policy"),
        "same-origin",
    ),
    (
        HeaderName::from_static("cross-origin-opener-policy"),
        "same-origin",
    ),
];

/// A connection as a request sees it.
#[derive(Clone)]
pub struct Line {
    /// The address that was connected to.
    pub local: SocketAddr,
    /// To be set once a paired device has asked.
    pub is_known: Arc<AtomicBool>,
}

/// A paired device that asks.
#[derive(Clone, Debug)]
pub struct Visitor {
    /// The mark of the device.
    pub device: String,
    /// What it is given along with pages.
    pub given: Given,
}

/// Lets a request in, or answers it at the door.
pub async fn guard(State(house): State<Arc<House>>, mut request: Request, next: Next) -> Response {
    let mut response = match let_in(&house, &mut request) {
        Ok(()) => {
            let visitor = request.extensions().get::<Visitor>();
            let day = visitor.and_then(|of| of.given.now.parse().ok());
            let mut response = next.run(request).await;
            response.headers_mut().extend(day.map(|day| (DAY, day)));
            response
        }
        Err(refused) => *refused,
    };
    for (name, value) in &HEADERS {
        let value = HeaderValue::from_static(value);
        response.headers_mut().insert(name, value);
    }
    response
}

fn let_in(house: &House, request: &mut Request) -> Result<(), Box<Response>> {
    let refused = |status: StatusCode, words: &str| Box::new(refusal(status, words));
    let is_post = request.method() == Method::POST;
    if !is_post && !matches!(*request.method(), Method::GET | Method::HEAD) {
        return Err(refused(
            StatusCode::METHOD_NOT_ALLOWED,
            "This cannot be asked.",
        ));
    }
    let line = request.extensions().get::<Line>().cloned();
    let line = line.ok_or_else(|| refused(StatusCode::INTERNAL_SERVER_ERROR, "No connection."))?;
    let host = one(request.headers(), &header::HOST);
    let host = host.filter(|host| is_ours(house, &line, host)).ok_or_else(|| {
        refused(
            StatusCode::MISDIRECTED_REQUEST,
            "podbook does not answer under this address. Start it with --name if you want it to.",
        )
    })?;
    if is_post && one(request.headers(), &header::ORIGIN) != Some(format!("http://{host}")) {
        return Err(refused(
            StatusCode::FORBIDDEN,
            "This was sent by a page that is not podbook's. Nothing was recorded.",
        ));
    }
    if OPEN.contains(&request.uri().path()) {
        return Ok(());
    }
    let visitor = visitor(house, request.headers()).map_err(|words| {
        house.tell_trouble(&words);
        refused(StatusCode::SERVICE_UNAVAILABLE, &words)
    })?;
    let visitor = visitor.ok_or_else(|| {
        refused(
            StatusCode::UNAUTHORIZED,
            "This device is not paired. Open the link that podbook printed where it runs; press Enter there for a new one.",
        )
    })?;
    line.is_known.store(true, Ordering::Relaxed);
    request.extensions_mut().insert(visitor);
    Ok(())
}

/// A page that says why a request was not answered.
pub fn refusal(status: StatusCode, words: &str) -> Response {
    (status, axum::response::Html(notice("podbook", &[words]))).into_response()
}

/// A header that stands once.
fn one(headers: &HeaderMap, name: &HeaderName) -> Option<String> {
    let mut all = headers.get_all(name).iter();
    let first = all.next()?.to_str().ok()?.to_owned();
    all.next().is_none().then_some(first)
}

/// Whether a host is the address that was connected to, or a name that was given: any other is a name that someone else
/// has pointed here.
fn is_ours(house: &House, line: &Line, host: &str) -> bool {
    let port = house.port;
    let with_port = |name: String| match port {
        80 => host == name || host == format!("{name}:80"),
        port => host == format!("{name}:{port}"),
    };
    let address = match line.local.ip().to_canonical() {
        std::net::IpAddr::V4(of) => of.to_string(),
        std::net::IpAddr::V6(of) => format!("[{of}]"),
    };
    let local = line.local.ip().to_canonical().is_loopback();
    with_port(address)
        || (local && with_port("localhost".to_owned()))
        || house
            .options
            .names
            .iter()
            .any(|name| with_port(name.to_ascii_lowercase()))
}

/// The paired device that asks, if it is one; why that cannot be said, in words.
fn visitor(house: &House, headers: &HeaderMap) -> Result<Option<Visitor>, String> {
    let cookies = headers.get_all(header::COOKIE).iter();
    let all = cookies
        .filter_map(|of| of.to_str().ok())
        .flat_map(|of| of.split(';'));
    let ours = all.filter_map(|of| {
        let (name, value) = of.trim().strip_prefix(COOKIE)?.split_once('=')?;
        (name.is_empty() || name.starts_with('-')).then_some(value)
    });
    let devices = house.devices();
    // Cookies of other registries at this address come along.
    let known = devices.known(ours.take(COOKIES))?;
    Ok(known.map(|(cookie, device)| Visitor {
        device: device.mark,
        given: Given {
            token: token_of(cookie),
            writes: house.options.writes,
            registry: devices.registry(),
            now: house.options.now(),
        },
    }))
}
