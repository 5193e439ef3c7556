//! Which verb was typed.

use super::record::{add, changes, gone, keep, pollinate, undo};
use super::{
    check, diversity, due, epithet, find, grade, growth, kinship, list, merit, name, new, pair,
    paper, parentage, pedigree, plan, read, ready, select, show, siblings, variation,
};
use crate::cli::request::{Outcome, Refusal, Request};
use clap::Subcommand;

/// What to do.
#[derive(Subcommand, Debug)]
pub enum Verb {
    /// Start a new registry in a folder of its own
    #[command(alias = "init")]
    New(new::New),
    /// Record a plant that arrived
    Add(add::Add),
    /// Record a pollination, zone by zone
    Pollinate(pollinate::Pollinate),
    /// Mark plants to keep, with the reason
    Keep(keep::Keep),
    /// Record plants that died, were culled, sold, given away or lost
    Gone(gone::Gone),
    /// Take back the last change, or one by its number
    Undo(undo::Undo),
    /// List what podbook has changed, the latest first
    Changes(changes::Changes),
    /// Show what is due: pods, dusting, seed, seedlings, readings, room
    Due(due::Due),
    /// Find every fault in the registry
    Check(check::Check),
    /// Read a label the way growers write it
    Read(read::Read),
    /// Name a plant, pod or cross from its recorded parents
    Name(name::Name),
    /// Check a cultivar epithet, rule by rule
    Epithet(epithet::Epithet),
    /// Show all about one plant, cross, pod, pollen lot or species
    Show(show::Show),
    /// Find words in names, labels, notes and places
    Find(find::Find),
    /// List plants, crosses or pods
    List(list::List),
    /// Draw the pedigree of a plant, pod or cross
    Pedigree(pedigree::Pedigree),
    /// Show the expected parentage, species by species, as exact fractions
    Parentage(parentage::Parentage),
    /// Show how the siblings of a cross, pod or sowing differ
    Siblings(siblings::Siblings),
    /// Compare how plants, pods, crosses or species grow, at a common age
    Growth(growth::Growth),
    /// Compare how much two crosses vary
    Variation(variation::Variation),
    /// Grade the siblings of one sowing into fast, medium and slow
    Grade(grade::Grade),
    /// Propose which seedlings to keep, sell or cull
    Select(select::Select),
    /// Show how closely plants are related, and through which ancestors
    Kinship(kinship::Kinship),
    /// Show which plants to back up first, and how much variety you hold
    Diversity(diversity::Diversity),
    /// Rank plants as parents by predicted breeding value
    #[command(alias = "breeding-values")]
    Merit(merit::Merit),
    /// Look at one intended pollination before you make it
    Pair(pair::Pair),
    /// Show what can be pollinated now or soon
    Ready(ready::Ready),
    /// Plan the season's pollinations
    Plan(plan::Plan),
    /// Print completions for a shell
    Completions(paper::Completions),
    /// Print the manual page, all commands included
    Man(paper::Man),
}

impl Verb {
    /// Runs the verb.
    ///
    /// # Errors
    /// As the verb says.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        match self {
            Verb::New(verb) => verb.run(request),
            Verb::Add(verb) => verb.run(request),
            Verb::Pollinate(verb) => verb.run(request),
            Verb::Keep(verb) => verb.run(request),
            Verb::Gone(verb) => verb.run(request),
            Verb::Undo(verb) => verb.run(request),
            Verb::Changes(verb) => verb.run(request),
            Verb::Due(verb) => verb.run(request),
            Verb::Check(verb) => verb.run(request),
            Verb::Read(verb) => verb.run(request),
            Verb::Name(verb) => verb.run(request),
            Verb::Epithet(verb) => verb.run(request),
            Verb::Show(verb) => verb.run(request),
            Verb::Find(verb) => verb.run(request),
            Verb::List(verb) => verb.run(request),
            Verb::Pedigree(verb) => verb.run(request),
            Verb::Parentage(verb) => verb.run(request),
            Verb::Siblings(verb) => verb.run(request),
            Verb::Growth(verb) => verb.run(request),
            Verb::Variation(verb) => verb.run(request),
            Verb::Grade(verb) => verb.run(request),
            Verb::Select(verb) => verb.run(request),
            Verb::Kinship(verb) => verb.run(request),
            Verb::Diversity(verb) => verb.run(request),
            Verb::Merit(verb) => verb.run(request),
            Verb::Pair(verb) => verb.run(request),
            Verb::Ready(verb) => verb.run(request),
            Verb::Plan(verb) => verb.run(request),
            Verb::Completions(verb) => verb.run(request),
            Verb::Man(verb) => verb.run(request),
        }
    }
}
