//! What single words of a cell mean: a sex, what a plant came as, what became of it.

use super::dates::is_blank;
use super::word_lists::is_in;
use crate::record::Sex;

/// The sex a word says.
pub(super) fn sex(cell: &str) -> Option<Sex> {
    match cell.to_lowercase().trim_end_matches('.') {
        "f" | "fem" | "female" | "♀" => Some(Sex::Female),
        "m" | "male" | "♂" => Some(Sex::Male),
        _ => None,
    }
}

/// A word of the files for what a plant came as.
pub(super) fn form(cell: &str) -> Option<&'static str> {
    Some(match cell.to_lowercase().as_str() {
        "seed" | "seeds" => "seed",
        "seedling" | "seedlings" | "young plant" => "seedling",
        "cutting" | "cuttings" | "rooted cutting" | "unrooted cutting" => "cutting",
        "division" | "divided" => "division",
        "lab" | "lab plant" | "tc" | "tissue culture" | "in vitro" | "flask" => "lab_plant",
        "plant" | "adult" | "mature" | "grown plant" => "plant",
        _ => return None,
    })
}

/// Whether a supplier is the grower: such a plant was raised here and came from nowhere.
pub(super) fn is_own(cell: &str) -> bool {
    let words = "own | my own | mine | me | own cross | my cross | my own cross | own seed | own plant | bred here | \
        made here | raised here";
    is_in(words, cell.trim().to_lowercase().trim_end_matches('.'))
}

/// Whether a cell says that there is no seed.
pub(super) fn is_none(cell: &str) -> bool {
    let lower = cell.to_lowercase();
    ["none", "no", "nothing", "nil"].contains(&lower.trim().trim_end_matches('.'))
}

/// Whether a cell says that something is still to be done, or was not.
pub(super) fn is_not_yet(cell: &str) -> bool {
    let lower = cell.trim().to_lowercase();
    let begins = [
        "not", "no ", "never", "to ", "tbd", "soon", "when ", "later", "will ", "next ",
    ];
    is_none(cell) || begins.iter().any(|word| lower.starts_with(word))
}

/// What is left of seed, in the words of a cell.
pub(super) fn left_words(cell: &str) -> Option<String> {
    if is_none(cell) {
        return Some("none".to_owned());
    }
    (!is_blank(cell)).then(|| cell.to_owned())
}

/// Whether a status says that the plant is still here.
pub(super) fn is_here(cell: &str) -> bool {
    let words = "alive | living | here | still here | still alive | ok | okay | good | fine | healthy | growing | yes | \
        y | in collection | in the collection";
    is_in(words, cell.to_lowercase().trim_end_matches('.'))
}

/// Whether a heading says that its cells name the plant of which each row is a piece.
pub(super) fn is_piece_of(heading: &str) -> bool {
    let words = "cutting of | division of | offset of | piece of";
    is_in(words, heading.trim().to_lowercase().as_str())
}

/// Whether a cell under `Alive` says that the plant is not.
pub(super) fn is_not_alive(cell: &str) -> bool {
    let lower = cell.to_lowercase();
    let words = lower.trim_end_matches(['.', '!']);
    is_in("no | n | nope | false | 0 | not alive | no longer", words)
}

/// Whether a column headed `died`, `sold` or `sold to` says that the plant did not: `no`, `not yet`, `alive`.
pub(super) fn is_not_gone(cell: &str) -> bool {
    let lower = cell.trim().to_lowercase();
    let words = lower.trim_end_matches(['.', '!']);
    let not = "no | not | not yet | not dead | not died | not sold | not for sale | not given | not gone | never | nope | \
        n | false | 0 | no not yet | not so far | unsold | kept | keeping | keeper | nobody | no one | no-one";
    is_in(not, words) || is_here(words) && !["yes", "y"].contains(&words)
}

/// Whether a cell says that something is not known, and not even that it happened.
pub(super) fn is_not_known(cell: &str) -> bool {
    let lower = cell.trim().to_lowercase();
    let words = "unknown | not known | not recorded | no record | not noted | not sure | no idea";
    is_in(words, lower.trim_end_matches(['.', '!']))
}

/// What became of a plant, and the words behind that.
pub(super) fn fate_and_rest(cell: &str) -> Option<(&'static str, &str)> {
    if let Some(word) = fate(cell) {
        return Some((word, ""));
    }
    let blanks = cell.match_indices(BEHIND).map(|(at, _)| at);
    let ends: Vec<usize> = blanks.collect();
    // `given away to` before `given`.
    let mut ends = ends.into_iter().rev();
    ends.find_map(|end| Some((fate(cell[..end].trim())?, &cell[end..])))
}

/// Signs between what became of a plant and the words behind.
pub(super) const BEHIND: [char; 4] = [' ', ',', ':', ';'];

/// Words with a capital that say when or how something was sold, and not to whom.
const NO_NAMES: &str = "again | april | august | autumn | cheap | christmas | december | easter | fall | february | friday | \
    january | july | june | march | may | monday | november | october | online | saturday | september | \
    spring | summer | sunday | thursday | tuesday | wednesday | winter";

/// Whether a word may be the name of a person and is no other word: one capital, then small letters.
pub(super) fn is_name(word: &str) -> bool {
    let mut letters = word.chars();
    let is_capital = letters.next().is_some_and(char::is_uppercase);
    let rest = letters.as_str();
    is_capital
        && !rest.is_empty()
        && rest.chars().all(char::is_lowercase)
        && !is_in(NO_NAMES, &word.to_lowercase())
}

/// Words without a price in them: `£20`, `20 EUR`, `for 60`.
pub(super) fn without_price(words: &str) -> String {
    let all: Vec<&str> = words.split(' ').collect();
    let (mut kept, mut at) = (Vec::new(), 0);
    while let Some(word) = all.get(at) {
        let of_price = words_of_price(&all[at..]);
        kept.extend((of_price == 0).then_some(*word));
        at += of_price.max(1);
    }
    kept.join(" ").trim_matches(BEHIND).to_owned()
}

/// How many words from the first on are a price.
fn words_of_price(words: &[&str]) -> usize {
    let signs = ['£', '€', '$'];
    let is_amount = |word: &str| {
        let figures = word.trim_matches([',', ';']).trim_matches(signs);
        // Names such as Nan are numbers too, as a computer writes them.
        figures.starts_with(|c: char| c.is_ascii_digit())
            && figures.replace(',', ".").parse::<f64>().is_ok()
    };
    let units = ["eur", "euro", "euros", "gbp", "usd", "pounds", "dollars"];
    match words {
        ["for", rest @ ..] => match words_of_price(rest) {
            0 if rest.first().is_some_and(|word| is_amount(word)) => 2,
            0 => 0,
            more => more + 1,
        },
        [amount, unit, ..] if is_amount(amount) && units.contains(&&*unit.to_lowercase()) => 2,
        [amount, ..] if amount.contains(signs) && is_amount(amount) => 1,
        _ => 0,
    }
}

/// Whether a cell says that something was done: a mark, or a plain yes.
pub(super) fn is_yes(cell: &str) -> bool {
    is_in(
        "yes | y | x | true | 1 | ✓",
        cell.to_lowercase().trim_end_matches(['.', '!']),
    )
}

/// The words behind a `yes` or a mark: `yes, slugs`.
pub(super) fn behind_yes(cell: &str) -> Option<&str> {
    let (yes, behind) = cell.split_at(cell.find(BEHIND)?);
    // `1 May 2020` begins with no mark.
    (is_yes(yes) && yes != "1").then_some(behind)
}

/// Whether words where a place is expected say instead what became of the plant.
pub(super) fn is_no_place(cell: &str) -> bool {
    let lower = cell.to_lowercase();
    let words = "gone | no longer here | compost | compost heap | bin | in the bin | rubbish";
    fate_and_rest(cell).is_some() || is_none(cell) || is_in(words, lower.trim_end_matches('.'))
}

/// Whether a plant that ended so has another owner.
pub(super) fn is_handed_on(word: &str) -> bool {
    ["sold", "given"].contains(&word)
}

/// A word of the files for what became of a plant.
pub(super) fn fate(cell: &str) -> Option<&'static str> {
    Some(match cell.to_lowercase().trim_end_matches('.') {
        "dead" | "died" | "rip" | "✝" | "†" => "died",
        "sold" => "sold",
        "given" | "given away" | "gave" | "gave away" | "gift" | "traded" | "swapped" => "given",
        "lost" | "missing" => "lost",
        "culled" | "binned" | "discarded" | "thrown out" => "culled",
        _ => return None,
    })
}
