//! Shares, generations, heterozygosity, kinship, inbreeding and diversity against published values, tables computed
//! by independent programs (see `data/README.md`), slow exact twins and simulation.

#[path = "descent/heterozygosity.rs"]
mod heterozygosity;
#[path = "descent/labels.rs"]
mod labels;
#[path = "descent/rational.rs"]
mod rational;
#[path = "descent/shares.rs"]
mod shares;
#[path = "descent/spread.rs"]
mod spread;
#[path = "descent/tables.rs"]
mod tables;
#[path = "descent/worlds.rs"]
mod worlds;
