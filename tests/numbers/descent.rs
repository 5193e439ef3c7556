//! Shares, generations, heterozygosity, kinship, inbreeding and diversity against published values, tables computed
//! by independent programs (see `data/README.md`), slow exact twins and simulation.

// The dense twins run over rows and columns by index, as the formulas are written on paper.
#![allow(clippy::needless_range_loop)]

#[path = "descent/diversity.rs"]
mod diversity;
#[path = "descent/families.rs"]
mod families;
#[path = "descent/heterozygosity.rs"]
mod heterozygosity;
#[path = "descent/inbreeding.rs"]
mod inbreeding;
#[path = "descent/inverse.rs"]
mod inverse;
#[path = "descent/labels.rs"]
mod labels;
#[path = "descent/lines.rs"]
mod lines;
#[path = "descent/plain_tables.rs"]
mod plain_tables;
#[path = "descent/rational.rs"]
mod rational;
#[path = "descent/shares.rs"]
mod shares;
#[path = "descent/simulation.rs"]
mod simulation;
#[path = "descent/spread.rs"]
mod spread;
#[path = "descent/tables.rs"]
mod tables;
#[path = "descent/uncertain.rs"]
mod uncertain;
#[path = "descent/worlds.rs"]
mod worlds;
