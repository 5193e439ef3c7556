//! What a request brings along: at most so many bytes, and not for ever.

use axum::body::Body;
use axum::http::HeaderMap;
use axum::http::StatusCode;
use axum::http::header::CONTENT_LENGTH;
use http_body_util::BodyExt;
use std::time::Duration;
use tokio::time::timeout;

/// How long the next part of a body may take, and the whole.
const PART: Duration = Duration::from_secs(5);
const WHOLE: Duration = Duration::from_secs(60);
/// How much of a body that is too long is read and thrown away, so that the answer is not lost with the connection.
const DRAINED: usize = 64 << 20;
const DRAINING: Duration = Duration::from_secs(3);

/// The bytes of a body.
///
/// # Errors
/// 413 if there are more than `most`, 408 if they are too slow, 400 if the connection breaks.
pub async fn body(headers: &HeaderMap, body: Body, most: usize) -> Result<Vec<u8>, StatusCode> {
    let length = headers.get(CONTENT_LENGTH);
    let length = length.and_then(|of| of.to_str().ok()?.parse::<u64>().ok());
    if length.is_some_and(|length| length > most as u64) {
        return too_long(body).await;
    }
    match timeout(WHOLE, whole(body, most)).await {
        Ok(Ok(Ok(bytes))) => Ok(bytes),
        Ok(Ok(Err(rest))) => too_long(rest).await,
        Ok(Err(status)) => Err(status),
        Err(_) => Err(StatusCode::REQUEST_TIMEOUT),
    }
}

/// The bytes, or the rest of a body that has more than `most`.
async fn whole(mut body: Body, most: usize) -> Result<Result<Vec<u8>, Body>, StatusCode> {
    let mut bytes = Vec::new();
    loop {
        let frame = timeout(PART, body.frame()).await;
        let frame = frame.map_err(|_| StatusCode::REQUEST_TIMEOUT)?;
        let Some(frame) = frame else {
            return Ok(Ok(bytes));
        };
        let frame = frame.map_err(|_| StatusCode::BAD_REQUEST)?;
        let Ok(data) = frame.into_data() else {
            continue;
        };
        if bytes.len() + data.len() > most {
            return Ok(Err(body));
        }
        bytes.extend_from_slice(&data);
    }
}

async fn too_long(mut body: Body) -> Result<Vec<u8>, StatusCode> {
    let drain = async {
        let mut drained = 0;
        while let Some(Ok(frame)) = body.frame().await {
            drained += frame.data_ref().map_or(0, |data| data.len());
            if drained > DRAINED {
                return;
            }
        }
    };
    let _ = timeout(DRAINING, drain).await;
    Err(StatusCode::PAYLOAD_TOO_LARGE)
}
