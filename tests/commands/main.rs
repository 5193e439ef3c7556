//! Every verb as a grower runs it: the whole output and the exit code, one file per verb.
//!
//! Expected output lies in `snapshots/`. After a change that is meant, run
//! `INSTA_UPDATE=always cargo test --test commands` and read the difference before keeping it.

pub mod bench_top;
pub mod demo;

mod album;
mod album_pages;
mod as_said;
mod bounded;
mod came_up;
mod came_up_by_pod;
mod card;
mod check;
mod doubtful;
mod doubtful_parents;
mod doubts;
mod due;
mod due_ics;
mod every_form;
mod export;
mod filled;
mod find;
mod grade;
mod growth;
#[path = "../support/heard.rs"]
mod heard;
mod help;
mod hidden;
mod inches;
mod kept_lines;
mod kinship;
mod like_with_like;
mod lineages;
mod measure;
mod merge;
mod merge_copies;
mod merit;
mod misread;
mod mixed_up;
mod name;
mod new;
mod not_yet;
mod on_paper;
mod one_screen;
mod outlet;
mod output;
mod pair;
mod payloads;
mod plan;
mod plan_worth;
mod planned;
mod promised;
mod ready;
mod received;
mod registration;
mod screens;
mod secrets;
mod select;
mod set_apart;
mod sheet;
mod siblings;
mod sixty;
mod small_answers;
mod small_records;
mod sold;
mod sowings;
mod tables;
mod tags;
mod trays;
mod undated;
mod unread;
mod variation;
mod weakest_link;
mod what_counts;
mod widths;
mod zero;
