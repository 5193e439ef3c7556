//! Pages that only a server has: a sitting to be filled in, what was found, recording, the devices, pairing.
//!
//! Their words come from `report` or stand here; how they look is in `bench.css`, what they do in `bench.js`.

mod bare;
mod devices;
mod files;
mod found;
mod record;
mod sitting;

pub use bare::{BARE_STYLE, notice, pair};
pub use devices::{DeviceLine, devices};
pub use files::{SCRIPT, STYLE};
pub use found::found;
pub use record::{RecentChange, record};
pub use sitting::sitting;
