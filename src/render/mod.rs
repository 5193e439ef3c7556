//! Reports as bytes: the same input gives the same bytes on any machine.
