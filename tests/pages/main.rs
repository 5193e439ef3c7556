//! The pages under `docs` are true: their examples are read, their commands are run.

mod album;
mod architecture;
mod bring_in;
#[path = "../photos/camera.rs"]
mod camera;
mod demo;
mod due;
mod fences;
mod files_dates;
mod files_examples;
mod files_fields;
mod first_hour;
mod handing_over;
#[path = "../support/lot.rs"]
mod lot;
#[cfg(unix)]
mod measuring;
mod merging;
mod names;
mod photos;
mod plain_words;
mod readme;
mod run;
mod sections;
