//! One intended pollination, weighed on one page before anything is dusted.

mod sheet;
mod tables;
mod words;
