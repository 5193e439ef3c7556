//! Pictures: what is drawn, that it is the same everywhere, and that any text and any shape of descent can be drawn.
//!
//! With `PODBOOK_PICTURES=folder` the samples are written there, to be looked at.

mod calendar;
mod card;
mod charts;
mod colours;
mod gallery;
mod graphviz;
mod kindred;
mod layouts;
mod look;
mod pdf;
mod pedigree;
mod pedigree_parts;
mod pedigree_phone;
mod photo;
mod printed;
mod room;
mod samples;
mod sketch;
mod tags;
mod writers;
