//! fn main placeholder
fn main() {}
