//! Two registries that come together: two copies of one registry that were edited apart, or the registries of two growers.
//!
//! Pages are compared by what they say ([`value`]), in three ways where it is known what both came from ([`history`]). What
//! one side changed is taken, what both changed is a conflict ([`three_way`]), and what both added under one code gets codes
//! apart ([`apart`]). The result is written into our pages with every remark and every other byte kept ([`rewrite`]).

pub mod apart;
pub mod conflict;
pub mod contradicted;
pub mod copies;
pub mod copy;
pub mod elsewhere;
pub mod history;
pub mod joined;
pub mod let_go;
pub mod likely;
pub mod lists;
pub mod locate;
pub mod merged;
pub mod named;
pub mod of_ours;
pub mod one_entry;
pub mod others;
pub mod our_pages;
pub mod pages;
pub mod placing;
pub mod remarks;
pub mod renaming;
pub mod rewrite;
pub mod said;
pub mod same;
pub mod shared;
pub mod side_by_side;
pub mod sitting;
pub mod their_codes;
pub mod their_pages;
pub mod three_way;
pub mod told;
