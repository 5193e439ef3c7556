//! A spike: seen, opened, over; and the sex of a plant, with how it is known.

mod event;
mod sex;
mod used;
mod which;

pub use event::Flower;
