//! Which verb was typed.

use super::{
    begin, check, diversity, epithet, growth, keep, kin, list, merit, name, open, pair, paper,
    pedigree, plan, read, shares, show, siblings, sort, spread,
};
use crate::cli::request::{Outcome, Refusal, Request};
use clap::Subcommand;

/// What to do.
#[derive(Subcommand, Debug)]
pub enum Verb {
    /// Begin a new registry in a folder of its own
    Begin(begin::Begin),
    /// Find every fault in the registry
    Check(check::Check),
    /// Read a label as growers write it
    Read(read::Read),
    /// Name a plant, pod or cross from its recorded parents
    Name(name::Name),
    /// Judge a cultivar epithet, rule by rule
    Epithet(epithet::Epithet),
    /// Show one plant, cross, pod, pollen lot or species
    Show(show::Show),
    /// List plants, crosses or pods
    List(list::List),
    /// Draw the pedigree of a plant, pod or cross
    Pedigree(pedigree::Pedigree),
    /// Tell the expected share of each species, exactly
    Shares(shares::SharesOf),
    /// Tell how the siblings of a cross, pod or sowing differ
    Siblings(siblings::Siblings),
    /// Compare how plants, pods, crosses or species grow, at a common age
    Growth(growth::Growth),
    /// Tell whether one cross varies more than another
    Spread(spread::Spread),
    /// Sort the siblings of a sowing into fast, medium and slow
    Sort(sort::Sort),
    /// Propose which seedlings to keep, sell or let go
    Keep(keep::Keep),
    /// Tell how closely plants are related, and through whom
    Kin(kin::Kin),
    /// Tell how much variety the plants hold, and what a death would cost
    Diversity(diversity::Diversity),
    /// Predict what each plant is worth as a parent
    Merit(merit::Merit),
    /// Look at one intended pollination
    Pair(pair::Pair),
    /// Tell what can be pollinated now or soon
    Open(open::Open),
    /// Plan the season's pollinations
    Plan(plan::Plan),
    /// Print completions for a shell
    Completions(paper::Completions),
    /// Print the manual page, all verbs included
    Man(paper::Man),
}

impl Verb {
    /// Runs the verb.
    ///
    /// # Errors
    /// As the verb says.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        match self {
            Verb::Begin(verb) => verb.run(request),
            Verb::Check(verb) => verb.run(request),
            Verb::Read(verb) => verb.run(request),
            Verb::Name(verb) => verb.run(request),
            Verb::Epithet(verb) => verb.run(request),
            Verb::Show(verb) => verb.run(request),
            Verb::List(verb) => verb.run(request),
            Verb::Pedigree(verb) => verb.run(request),
            Verb::Shares(verb) => verb.run(request),
            Verb::Siblings(verb) => verb.run(request),
            Verb::Growth(verb) => verb.run(request),
            Verb::Spread(verb) => verb.run(request),
            Verb::Sort(verb) => verb.run(request),
            Verb::Keep(verb) => verb.run(request),
            Verb::Kin(verb) => verb.run(request),
            Verb::Diversity(verb) => verb.run(request),
            Verb::Merit(verb) => verb.run(request),
            Verb::Pair(verb) => verb.run(request),
            Verb::Open(verb) => verb.run(request),
            Verb::Plan(verb) => verb.run(request),
            Verb::Completions(verb) => verb.run(request),
            Verb::Man(verb) => verb.run(request),
        }
    }
}
