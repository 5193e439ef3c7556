//! Kinship on the screen.

mod sheet;
