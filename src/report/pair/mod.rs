//! One intended pollination, weighed on one page before anything is dusted.

mod now;
mod sheet;
mod tables;
mod words;
