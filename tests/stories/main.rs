//! Stories of a grower's year, each as a registry of its own: the whole answer as a snapshot, and the figures of the right
//! answer asserted one by one. All plants, people and places are invented.

#[path = "../commands/bench_top.rs"]
pub mod bench_top;
#[path = "../support/lot.rs"]
mod lot;

mod answers;
mod apply;
mod bare_number;
mod batches;
mod both_sexes;
mod collection;
mod context;
mod decimals;
mod drawn;
mod due;
mod evidence;
mod evidence_twin;
mod fast;
mod faster_cross;
mod further_back;
mod history;
mod losses;
mod mixed_up_by_hand;
mod on_record;
mod pot_left;
mod shapes;
mod side_by_side;
mod sowing_left;
mod sowing_twin;
mod spring;
mod story;
