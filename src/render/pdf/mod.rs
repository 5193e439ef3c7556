//! Scenes as PDF (ISO 32000), one a page: sizes to the tenth of a millimetre, letters as text that can be selected and
//! searched.
//!
//! No clock, no random number and no packing takes part, so the same scenes give the same bytes. The paper is left as it
//! is: a scene's background is not printed. Fonts are embedded as subsets of the one typeface.

mod document;
mod fonts;
mod painting;

pub use document::pdf;
