//! What is wrong, where, what was found, what was needed and what to do: findings as plain values, and their drawing.
//!
//! A [`Finding`] is collected, never thrown. Each floor makes its own; this module gives their form, keeps them in one
//! order ([`Findings`]) and draws them for a person ([`Drawing`]). Faults of reading and of the outline, which `text`
//! gives as plain values, are put into words here. `cli` decides the exit code.

mod draw;
mod excerpt;
mod files;
mod finding;
mod findings;
mod paint;
mod shape;

pub use draw::Drawing;
pub use finding::{Code, Finding, Severity};
pub use findings::Findings;
pub use paint::{Paint, Tone};
pub use shape::shorten;
