//! The sale card as pages, as a picture laid out for a phone, and as HTML.

mod flow;
mod html;
mod look;
mod pages;
mod tree;

pub use html::html;
pub use look::Look;
pub use pages::{pages, picture};
