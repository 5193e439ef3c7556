//! The picture of descent: founders on the left, the plant on offer on the right.
//!
//! Plants stand in columns by generation, each name on a ribbon that shows its species shares; a small cross mark
//! stands where two parents meet, and the siblings leave from it. [`layout`] decides what stands where and can be asked
//! how many lines cross; [`draw`] paints it. Which plants take part, and every word, is decided by the report.

mod align;
mod block;
mod caption;
mod columns;
mod crossings;
mod draw;
mod fraction;
mod grid;
mod lines;
mod manner;
mod notes;
mod order;
mod place;
mod ribbon;
mod sift;
mod sweep;
mod words;

pub use draw::draw;
pub use fraction::written;
pub use notes::of_cross;
pub use place::{Layout, layout, more_text};
pub use ribbon::{Ribbon, is_share, without_genus};
pub use words::words;
