//! What was seen of plants: a reading, a sex, whether a plant is in the collection.
//!
//! One reader of a cell, one rule of sex, one of presence and one of the leaf span, so that what `check` accepts is
//! exactly what the figures use; one common age, one scope of a request, one account of pollen, flowers and trays. What
//! the figures come to is left to `analysis`.

pub mod asked_columns;
pub mod batch;
pub mod bearer;
pub mod cell;
pub mod circumstances;
pub mod common_age;
pub mod community_pot_left;
pub mod count_in_sowing;
pub mod doubtful;
pub mod far_readings;
pub mod flowers;
pub mod in_pod;
pub mod kinds_short;
pub mod last_entry;
pub mod last_reading;
pub mod left_by_itself;
pub mod mixed_up;
pub mod moment;
pub mod months;
pub mod no_age;
pub mod not_here;
pub mod parent_of;
pub mod photos;
pub mod pieces;
pub mod places;
pub mod plant_cells;
pub mod pollen;
pub mod pot_account;
pub mod pottings;
pub mod presence;
pub mod provenance;
pub mod raised;
pub mod repeated;
pub mod scope;
pub mod seed_left;
pub mod seedling_trays;
pub mod seen_open;
pub mod series;
pub mod sex;
pub mod sexes;
pub mod shelf_room;
pub mod sowing_left;
pub mod spike_days;
pub mod standing;
pub mod stock_take;
pub mod tally;
pub mod trait_unit;
pub mod traits;
pub mod tray;
pub mod treated;
pub mod who_it_may_be;

pub use cell::{Misread, in_own_unit, value};
pub use pieces::pieces_here;
pub use presence::{Presence, end_of, presence};
pub use sex::{SexSeen, Sighting, sex_seen, sighting, sighting_of};
pub use traits::{
    PITCHERS, is_doubtful, is_too_small, is_too_young, pitcher_named, says_pest, span_trait,
    trait_named,
};
