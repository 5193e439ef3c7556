//! Which verb was typed.

use super::record::{
    add, add_seed, changes, collect, correct, count, cutting, envelope, flower, gone, harvest,
    import, keep, measure, merge, muddle, number, opinion, place, pollinate, pot, prick, seen,
    sheet, sow, took, treat, undo,
};
use super::{
    album, card, check, diversity, due, epithet, export, find, grade, growth, handover, kinship,
    list, merit, name, new, pair, paper, parentage, pedigree, plan, promised, read, ready,
    registration, select, show, siblings, tags, variation, verify,
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
    /// Print a sheet to measure plants by, or to take stock by
    Sheet(sheet::Sheet),
    /// Record readings, plant after plant, or from a filled sheet
    Measure(measure::Measure),
    /// Bring in tables of plants, crosses and readings you kept until now
    Import(import::Import),
    /// Mark plants to keep, with the reason
    Keep(keep::Keep),
    /// Record plants that died, were culled, sold, given away or lost
    Gone(gone::Gone),
    /// Record seed that arrived, bought or swapped
    AddSeed(add_seed::AddSeed),
    /// Record a spike and the sex of its flowers
    Flower(flower::Flower),
    /// Record pollen put into an envelope
    Collect(collect::Collect),
    /// Record that an envelope of pollen was thawed
    Thaw(envelope::Thaw),
    /// Record that an envelope of pollen is used up or thrown out
    Finish(envelope::Finish),
    /// Record how many pods of a zone set
    Took(took::Took),
    /// Record pods harvested from a zone, and their seed
    Harvest(harvest::Harvest),
    /// Record seed sown in one container
    Sow(sow::Sow),
    /// Record how many seedlings came up or are alive
    Count(count::Count),
    /// Record seedlings pricked out into a community pot
    Prick(prick::Prick),
    /// Record seedlings that got numbers of their own
    Number(number::Number),
    /// Record plants potted on
    Pot(pot::Pot),
    /// Record plants moved to another place
    Move(place::Move),
    /// Record a piece taken off a plant
    Cutting(cutting::Cutting),
    /// Record a mix-up of plants or community pots
    Muddle(muddle::Muddle),
    /// Record a treatment of plants or of a place
    Treat(treat::Treat),
    /// Record an opinion on what a plant is
    Opinion(opinion::Opinion),
    /// Record which plants a stock-take found
    Seen(seen::Seen),
    /// Correct one reading of a plant
    Correct(correct::Correct),
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
    /// Write the sale card of a plant
    Card(card::Card),
    /// Print pot tags, several to a sheet or one a page
    Tags(tags::Tags),
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
    /// Write a plant's lineage as a small registry to hand over
    Handover(handover::Handover),
    /// Write the registry as pages to look at, for yourself or to publish
    Album(album::Album),
    /// List plants sold or given away whose text would now read differently
    Promised(promised::Promised),
    /// Compare a lineage that was handed over with its fingerprint
    Verify(verify::Verify),
    /// Write tables and records for other programs
    Export(export::Export),
    /// Draft the form to register a clone as a cultivar
    Registration(registration::Registration),
    /// Take in a plant with the lineage its grower handed over
    Merge(merge::Merge),
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
            Verb::Sheet(verb) => verb.run(request),
            Verb::Measure(verb) => verb.run(request),
            Verb::Import(verb) => verb.run(request),
            Verb::Keep(verb) => verb.run(request),
            Verb::Gone(verb) => verb.run(request),
            Verb::AddSeed(verb) => verb.run(request),
            Verb::Flower(verb) => verb.run(request),
            Verb::Collect(verb) => verb.run(request),
            Verb::Thaw(verb) => verb.run(request),
            Verb::Finish(verb) => verb.run(request),
            Verb::Took(verb) => verb.run(request),
            Verb::Harvest(verb) => verb.run(request),
            Verb::Sow(verb) => verb.run(request),
            Verb::Count(verb) => verb.run(request),
            Verb::Prick(verb) => verb.run(request),
            Verb::Number(verb) => verb.run(request),
            Verb::Pot(verb) => verb.run(request),
            Verb::Move(verb) => verb.run(request),
            Verb::Cutting(verb) => verb.run(request),
            Verb::Muddle(verb) => verb.run(request),
            Verb::Treat(verb) => verb.run(request),
            Verb::Opinion(verb) => verb.run(request),
            Verb::Seen(verb) => verb.run(request),
            Verb::Correct(verb) => verb.run(request),
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
            Verb::Card(verb) => verb.run(request),
            Verb::Tags(verb) => verb.run(request),
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
            Verb::Handover(verb) => verb.run(request),
            Verb::Album(verb) => verb.run(request),
            Verb::Promised(verb) => verb.run(request),
            Verb::Verify(verb) => verb.run(request),
            Verb::Export(verb) => verb.run(request),
            Verb::Registration(verb) => verb.run(request),
            Verb::Merge(verb) => verb.run(request),
            Verb::Completions(verb) => verb.run(request),
            Verb::Man(verb) => verb.run(request),
        }
    }
}
