//! Texts as they are on disk: sources, places in them, their outline, edits that keep every other byte.
//!
//! Answers "what does the registry folder hold", "which line and column is this", "where does this record's field
//! stand", "how is one value changed without touching the rest", "which known name was meant", "where may an answer be
//! written" and "how is a text shown without harm". `record` reads what a text *says*; `diagnostic` words a fault. With `record::read`, this is the only place that touches the file system.

mod below;
mod cell_style;
mod choices_file;
pub mod commit;
mod conflicts;
mod cores;
mod disk;
pub mod edit;
mod folder;
mod grid;
mod identity;
mod kept;
mod kept_file;
mod left_behind;
mod locks;
mod markup;
mod nearest;
mod new_folder;
mod no_table;
mod outlet;
pub mod outline;
mod own_file;
mod packed;
mod quotes;
mod refusal;
mod renewed_folder;
mod same_form;
mod shown;
mod source;
mod span;
mod stamp;
mod steps;
mod swap;
mod terminal;
mod unread;
mod unwritten;

pub use below::files_below;
pub use choices_file::{outlet_for_choices, read_choices};
pub use conflicts::{conflicts, left_marks, marks};
pub use cores::on_cores;
pub use folder::{
    CHOICES, LONGEST_PAGE, NoRegistry, PAGES, beside, find_registry, is_registry, leads_out,
    listed_names, names_in, read_beside, read_plain, read_plain_up_to,
};
pub use grid::{GridRow, GridSheet, NoGrid, grid_of_file, grid_of_text, sheets_of_file};
pub use kept::Kept;
pub use kept_file::keep_beside;
pub use left_behind::folders_left_behind;
pub use markup::{Markdown, Xml};
pub use nearest::{Names, nearest};
pub use new_folder::{NoFolder, new_folder};
pub use outlet::{NoOutlet, Outlet};
pub use outline::Outline;
pub use own_file::{read_own, takes_files, write_own};
pub use packed::packed;
pub use refusal::system_words;
pub use renewed_folder::{mark, renewed_folder};
pub use same_form::{composed, same_form};
pub use shown::{one_line, visible, visible_char};
pub use source::{LeftOut, Place, Source, Sources, UNREAD_LISTS, UNREAD_PLACE};
pub use span::{FileId, Span};
pub use stamp::{Stamp, stamp};
pub use steps::{NoFailures, Steps};
pub use terminal::Terminal;
pub use unread::{Unread, WhyUnread};
pub use unwritten::{Unwritten, WhyUnwritten};
