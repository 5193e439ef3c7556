//! analysis

pub mod descent;
pub mod evidence;
pub mod founding;
pub mod grade;
pub mod growth;
pub mod kinship;
pub mod merit;
pub mod pair;
pub mod parent_readings;
pub mod plan;
pub mod ready;
pub mod select;
pub mod siblings;
pub mod variation;

