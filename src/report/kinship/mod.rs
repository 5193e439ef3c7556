//! kinship

mod sheet;

