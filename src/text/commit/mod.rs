//! Several files of a registry changed together or not at all, by one program at a time.
//!
//! A writer holds the registry ([`Hold`]) from before it reads until after it has written. [`commit`] first writes down
//! what it is about to do (the intent: each file's old and new bytes, on disk before the first file is touched), then
//! replaces the files one after the other, then takes the intent away. The intent is locked as long as its writer runs. When a program is killed in between, whoever
//! comes next finds the intent unlocked: [`put_right`] takes the change as done if its last file has its new bytes, and gives all
//! files their old ones otherwise. What is to be written is left to `recording`.

mod change;
mod hold;
mod in_process;
mod intent;
mod put_right;
mod write;

pub use change::FileChange;
pub use hold::{Hold, NoHold};
pub use put_right::{PutRight, begun, put_right, put_right_anyway, unsettled};
pub use write::{Uncommitted, commit};
