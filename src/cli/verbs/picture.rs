//! `-o FILE.svg` and `-o FILE.png`: an answer as a picture.

use crate::cli::request::{Outcome, Refusal, Request};
use crate::render::{self, scene::Scene};
use clap::Args;
use std::path::PathBuf;

/// Where a picture goes.
#[derive(Args, Debug)]
pub(super) struct Picture {
    /// Draw a picture into this file instead; its ending says the form: .svg or .png
    #[arg(long, short, value_name = "FILE")]
    output: Option<PathBuf>,
    /// Dots of a PNG for each point of the picture
    #[arg(long, value_name = "DOTS", default_value_t = 2.0)]
    scale: f64,
}

impl Picture {
    /// Whether a picture is wanted.
    pub(super) fn is_wanted(&self) -> bool {
        self.output.is_some()
    }
}

/// Writes a scene as the file's ending says.
pub(super) fn draw_to(
    request: &Request,
    picture: &Picture,
    scene: &Scene,
    remarks: String,
) -> Result<Outcome, Refusal> {
    let file = picture.output.as_deref();
    let ending = file.and_then(|file| file.extension()?.to_str());
    let bytes = match ending.map(str::to_lowercase).as_deref() {
        Some("svg") => render::svg(scene).into_bytes(),
        Some("png") => render::png(scene, picture.scale)
            .map_err(|refusal| Refusal::arguments(refusal.to_string()))?,
        _ => {
            return Err(Refusal::arguments(
                "the ending of -o FILE tells no form of picture\nend it with .svg or .png",
            ));
        }
    };
    request.deliver(bytes, file, remarks)
}
