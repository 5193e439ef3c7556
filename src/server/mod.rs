//! The registry in a browser: the pages of the album as they are now, and recording from a phone.
//!
//! One thread ([`shelf`]) holds the registry and makes pages, another ([`desk`]) records through `recording::book`; what
//! arrives over the network is let in by [`guard`] and led by [`routes`] to what answers: [`looking`], [`pairing`], [`sending`],
//! [`tags`]. What is drawn is left to `render`, what an event means to `recording`.

mod answers;
mod bodies;
mod connections;
mod desk;
mod devices;
mod entry;
mod fared;
mod fields;
mod guard;
mod house;
mod known;
mod looking;
mod pages;
mod pairing;
mod phone_words;
mod routes;
mod row;
mod run;
mod said;
mod sending;
mod shelf;
mod tags;

pub use house::{Options, Stop};
pub use run::run;
