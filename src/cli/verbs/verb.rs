//! Which verb was typed.
//!
//! The verbs are declared once. The arguments of a verb are only made ready when it is asked for: those of sixty verbs
//! take longer than many an answer.

use super::record::{
    add, add_pollen, add_seed, back, changes, collect, correct, count, cutting, envelope, flower,
    gone, harvest, import, keep, measure, merge, muddle, note, number, opinion, photos, place,
    pollinate, pot, prick, rooted, seen, sheet, sow, took, treat, undo,
};
use super::{
    album, card, check, diversity, due, epithet, export, find, grade, growth, handover, kinship,
    list, merit, name, new, pair, paper, parentage, pedigree, plan, promised, read, ready,
    registration, select, serve, show, siblings, tags, variation, verify,
};
use crate::cli::request::{Outcome, Refusal, Request};
use crate::cli::taken::as_typed;
use clap::error::ErrorKind;
use clap::{ArgMatches, Args, Command, FromArgMatches};

macro_rules! verbs {
    ($($name:literal $(or $alias:literal)? => $variant:ident($verb:ty) $($records:ident)?, $about:literal;)*) => {
        /// What to do.
        #[derive(Debug)]
        pub enum Verb {
            $(#[doc = $about] $variant($verb),)*
        }

        impl Verb {
            /// The words they are typed as.
            pub const NAMES: &[&str] = &[$($name),*];

            /// Whether a verb writes, unless it is only to show what it would.
            pub fn records(typed: &str) -> bool {
                [$($((stringify!($records), $name),)?)*].contains(&("records", typed))
            }

            /// The verb that was found in a line.
            ///
            /// # Errors
            /// If there is none, or its arguments do not fit together.
            pub fn found(found: &ArgMatches) -> Result<Self, clap::Error> {
                match found.subcommand() {
                    $(Some(($name, given)) => Ok(Verb::$variant(<$verb>::from_arg_matches(given)?)),)*
                    _ => Err(clap::Error::new(ErrorKind::MissingSubcommand)),
                }
            }

            /// A command line with every verb.
            pub fn all(command: Command) -> Command {
                let with = |command, name: &&str| match Self::with(command, name) {
                    Ok(command) | Err(command) => command,
                };
                Self::NAMES.iter().fold(command, with)
            }

            /// A command line with one verb more.
            ///
            /// # Errors
            /// The command line as it was, if no verb is typed so.
            #[expect(clippy::result_large_err, reason = "it is the command line either way")]
            pub fn with(command: Command, typed: &str) -> Result<Command, Command> {
                match typed {
                    $($name $(| $alias)? => Ok(command.subcommand(
                        Command::new($name).about($about)$(.alias($alias))?.defer(made_ready::<$verb>),
                    )),)*
                    _ => Err(command),
                }
            }

            /// Runs the verb.
            ///
            /// # Errors
            /// As the verb says.
            pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
                match self {
                    $(Verb::$variant(verb) => verb.run(request),)*
                }
            }
        }

    };
}

/// A verb with its arguments; what it is about stays as declared.
fn made_ready<V: Args>(command: Command) -> Command {
    let about = command.get_about().cloned().unwrap_or_default();
    as_typed(V::augment_args(command).about(about).long_about(None))
}

verbs! {
    "new" or "init" => New(new::New) records, "Start a new registry in a folder of its own";
    "add" => Add(add::Add) records, "Record a plant that arrived";
    "pollinate" => Pollinate(pollinate::Pollinate) records, "Record a pollination, zone by zone";
    "sheet" => Sheet(sheet::Sheet), "Print a sheet to measure plants by, or to take stock by";
    "measure" => Measure(measure::Measure) records, "Record readings, plant after plant, or from a filled sheet";
    "import" => Import(import::Import), "Bring in tables of plants, crosses and readings you have";
    "photos" => Photos(photos::Photos), "Take in pictures from a phone, each placed by the tag it shows";
    "keep" => Keep(keep::Keep) records, "Mark plants to keep, with the reason";
    "gone" => Gone(gone::Gone) records, "Record plants that died, were culled, sold, given away or lost";
    "back" => Back(back::Back) records, "Record plants that were sold or given away and came back";
    "add-seed" => AddSeed(add_seed::AddSeed) records, "Record seed that arrived, bought or swapped";
    "add-pollen" => AddPollen(add_pollen::AddPollen) records, "Record pollen that arrived, bought or swapped";
    "flower" => Flower(flower::Flower) records, "Record a spike and the sex of its flowers";
    "collect" => Collect(collect::Collect) records, "Record pollen put into an envelope";
    "thaw" => Thaw(envelope::Thaw) records, "Record that an envelope of pollen was thawed";
    "finish" => Finish(envelope::Finish) records, "Record that an envelope of pollen is used up or thrown out";
    "took" => Took(took::Took) records, "Record how many flowers of a zone set";
    "harvest" => Harvest(harvest::Harvest) records, "Record pods harvested from a zone, and their seed";
    "sow" => Sow(sow::Sow) records, "Record seed sown in one container";
    "count" => Count(count::Count) records, "Record how many seedlings came up or are alive";
    "prick" => Prick(prick::Prick) records, "Record seedlings pricked out into a community pot";
    "number" => Number(number::Number) records, "Record seedlings that got numbers of their own";
    "pot" => Pot(pot::Pot) records, "Record plants potted on";
    "move" => Move(place::Move) records, "Record plants moved to another place";
    "cutting" => Cutting(cutting::Cutting) records, "Record a piece taken off a plant";
    "rooted" => Rooted(rooted::Rooted) records, "Record that a cutting has rooted";
    "muddle" => Muddle(muddle::Muddle) records, "Record a mix-up of plants or community pots";
    "treat" => Treat(treat::Treat) records, "Record a treatment of plants or of a place";
    "note" => Note(note::Note) records, "Record a remark on plants";
    "opinion" => Opinion(opinion::Opinion) records, "Record an opinion on what a plant is";
    "seen" => Seen(seen::Seen) records, "Record which plants a stock-take found";
    "correct" => Correct(correct::Correct) records, "Correct one reading of a plant";
    "undo" => Undo(undo::Undo) records, "Take back the last change, or one by its number";
    "changes" => Changes(changes::Changes), "List what podbook has changed, the latest first";
    "due" => Due(due::Due), "Show what is due: pods, dusting, seed, seedlings, readings, room";
    "check" => Check(check::Check), "Find every fault in the registry";
    "read" => Read(read::Read), "Read a label the way growers write it";
    "name" => Name(name::Name), "Name a plant, pod or cross from its recorded parents";
    "epithet" => Epithet(epithet::Epithet), "Check a cultivar epithet, rule by rule";
    "show" => Show(show::Show), "Show all about one plant, cross, pod, pollen lot or species";
    "find" => Find(find::Find), "Find words in names, labels, notes and places";
    "list" => List(list::List), "List plants, crosses or pods";
    "pedigree" => Pedigree(pedigree::Pedigree), "Draw the pedigree of a plant, pod or cross";
    "card" => Card(card::Card), "Write the sale card of a plant";
    "tags" => Tags(tags::Tags), "Print pot tags, several to a sheet or one a page";
    "parentage" => Parentage(parentage::Parentage), "Show the expected parentage, species by species, as exact fractions";
    "siblings" => Siblings(siblings::Siblings), "Show how the siblings of a cross, pod or sowing differ";
    "growth" => Growth(growth::Growth), "Compare how plants, pods, crosses or species grow, at a common age";
    "variation" => Variation(variation::Variation), "Compare how much two crosses vary";
    "grade" => Grade(grade::Grade), "Grade the siblings of one sowing into fast, medium and slow";
    "select" => Select(select::Select), "Propose which seedlings to keep, sell or cull";
    "kinship" => Kinship(kinship::Kinship), "Show how closely plants are related, and through which ancestors";
    "diversity" => Diversity(diversity::Diversity), "Show which plants to back up first, and how much variety you hold";
    "merit" or "breeding-values" => Merit(merit::Merit), "Rank plants as parents by predicted breeding value";
    "pair" => Pair(pair::Pair), "Look at one intended pollination before you make it";
    "ready" => Ready(ready::Ready), "Show what can be pollinated now or soon";
    "plan" => Plan(plan::Plan), "Plan the season's pollinations";
    "handover" => Handover(handover::Handover) records, "Write a plant's lineage as a small registry to hand over";
    "album" => Album(album::Album) records, "Write the registry as pages to look at, for yourself or to publish";
    "serve" => Serve(serve::Serve), "Show the registry in a browser, and record from a phone";
    "promised" => Promised(promised::Promised), "List plants sold or given whose description has changed";
    "verify" => Verify(verify::Verify), "Compare a lineage that was handed over with its fingerprint";
    "export" => Export(export::Export), "Write tables and records for other programs";
    "registration" => Registration(registration::Registration), "Draft the form to register a clone as a cultivar";
    "merge" => Merge(merge::Merge) records, "Bring in another registry, or a plant with its lineage";
    "completions" => Completions(paper::Completions), "Print completions for a shell";
    "man" => Man(paper::Man), "Print the manual page, all commands included";
}
