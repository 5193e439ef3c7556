//! Whether words about the end of a plant say that it went, or leave that open: one judgement for the columns of a status, of
//! a day, and of who has it.

use super::cell_words::{is_handed_on, is_not_gone};
use super::dates::is_blank;
use super::word_lists::{is_in, words as listed};

/// Words of doubt.
const DOUBTS: &str = "maybe | perhaps | possibly | probably | presumably | likely | apparently | almost | nearly | unsure | \
    uncertain | not sure | not certain | i think | dying | doubtful";
/// Words of a sale or gift that is not done.
const PLANS: &str = "for sale | reserved | wanted | promised | pending | soon | on hold | loan | loaned | lent | to be | \
    not yet | uncollected | not collected | not paid | awaiting | waiting";
/// Words of a plant that is here again.
const BACK: &str = "returned | recovered | resprouted | regrew | regrown | revived | alive | came back | come back | \
    coming back | is back | grew back";
/// The same of one that was lost.
const FOUND: &str = "found | refound | resurfaced | reappeared | turned up";
/// Words that say that it went, and not when.
const NO_DAY: &str = "no date | date unknown | unknown date | date not known | not sure when | no idea when | do not know when | \
    don t know when | no longer here | gone | long ago";
/// Words that stand with a day which no date can be made of.
const NEAR: &str = "in | on | by | before | after | about | around | approx | approximately | ca | c | circa | early | mid | \
    late | end | start | beginning | middle | of | the | or | and | to | from | between | sometime | year | month | week | \
    winter | spring | summer | autumn | fall | jan | feb | mar | apr | may | jun | jul | aug | sep | sept | oct | nov | dec | \
    january | february | march | april | june | july | august | september | october | november | december";
/// What plants die of (common practice, no source).
const CAUSES: &str = "rot | rotted | rotten | frost | frosted | froze | frozen | slug | slugs | snail | snails | heat | \
    heatwave | cold | drought | dry | dried | dried out | fungus | botrytis | mould | mold | blight | thrips | mites | aphids | \
    scale | mealybug | mealybugs | pest | pests | virus | damping | overwatered | overwatering | underwatered | drowned | \
    burn | burnt | burned | sunburn | eaten | cooked | shock | root | crown | stem | off | out | up | too | much";
/// Those of these that are no cause alone.
const NO_CAUSES: &str = "root | crown | stem | off | out | up | too | much";

/// Things of a plant that go while it stays.
const PARTS: &str = "branch | bud | buds | code | colour | color | crown | cutting | cuttings | data | division | flower | \
    flowers | growth | growing | half | id | inflorescence | info | label | labels | leaf | leafs | leaves | \
    name | number | offshoot | offset | part | photo | photos | piece | pieces | pitcher | pitchers | pod | \
    pods | pollen | root | roots | seed | seeds | shoot | shoots | spike | spikes | stem | tag | tags | tip | \
    tips | top | vigor | vigour | vine";
/// Words before a part.
const OF_PARTS: &str = "a | all | an | both | few | first | her | his | its | last | lower | main | most | my | new | old | one | \
    several | some | the | two | upper";
/// Words behind a part that make a cause of death of it.
const HARM: &str = "blight | burn | damage | fungus | miners | mites | mold | mould | rot | spot";

/// Whether the words behind what became of a plant make it that of a part of it or of its label: `lost label`, `dead leaf`,
/// `died back`; or, for a gift, who it came from. A person, a place, a season or a cause does not: `sold Anna`, `dead root
/// rot`; nor does a sign between them: `dead, leaf spot`.
pub(super) fn is_of_part(word: &str, behind: &str) -> bool {
    let Some(rest) = behind.strip_prefix(' ') else {
        return false;
    };
    let lower = rest.to_lowercase();
    let words = lower.split(|c: char| !c.is_alphanumeric());
    let mut words = words.filter(|word| !word.is_empty()).peekable();
    let first = words.peek().copied().unwrap_or_default();
    let turns = match word {
        "died" => &["back", "down", "off"][..],
        "sold" => &["out"],
        "given" => &["from", "up"],
        _ => &[],
    };
    let is_before = |word: &&str| is_in(OF_PARTS, word) || word.parse::<u32>().is_ok();
    let mut part = words.skip_while(is_before);
    let is_part = part.next().is_some_and(|word| is_in(PARTS, word));
    let of_harm = part.next().is_some_and(|word| is_in(HARM, word));
    turns.contains(&first) || is_part && !of_harm
}

/// Small letters, single blanks and no signs, with a blank at both ends.
fn plain(cell: &str) -> String {
    let lower = cell.to_lowercase();
    let words = lower.split(|c: char| !c.is_alphanumeric());
    let words: Vec<&str> = words.filter(|word| !word.is_empty()).collect();
    format!(" {} ", words.join(" "))
}

/// Whether plain words have some of a list among them that no `never` or `not` takes back.
fn has(list: &str, plain: &str) -> bool {
    let said = |of: &str| plain.contains(&format!(" {of} "));
    listed(list).any(|of| said(of) && !said(&format!("never {of}")) && !said(&format!("not {of}")))
}

/// Whether the words behind what became of a plant leave open whether it went: it came back, the sale is still to be, only
/// some of several went, or the words doubt it. A doubt about a cause or a day is none about the end.
pub(super) fn leaves_open(word: &str, behind: &str) -> bool {
    let plain = plain(behind);
    let all: Vec<&str> = plain.split_whitespace().collect();
    let is_number = |of: &str| of.parse::<u32>().is_ok();
    let is_share = |of: &[&str]| of[1] == "of" && is_number(of[0]) && is_number(of[2]);
    let is_back = has(BACK, &plain) || word == "lost" && has(FOUND, &plain);
    let is_plan = is_handed_on(word) && has(PLANS, &plain);
    let is_no = is_not_gone(plain.trim());
    is_back
        || is_plan
        || all.windows(3).any(is_share)
        || is_no
        || is_doubt(behind)
        || plain.starts_with(" or ")
}

/// Whether words are nothing but a doubt.
pub(super) fn is_doubt(words: &str) -> bool {
    is_in(DOUBTS, plain(words).trim())
}

/// Whether words where a person is named leave open whether that person has the plant: only a part of it, a plan, a doubt, or
/// no name at all.
pub(super) fn is_open_receiver(whom: &str) -> bool {
    let plain = plain(whom);
    let is_no_name = !whom.contains(char::is_alphabetic) || is_not_gone(whom);
    let is_part = has(PARTS, &plain);
    is_no_name || is_part || whom.contains('?') || has(DOUBTS, &plain) || has(PLANS, &plain)
}

/// Whether a cell under `Sold to` or the like names a person who has the plant.
pub(super) fn names_receiver(cell: &str) -> bool {
    !is_blank(cell) && !is_open_receiver(cell)
}

/// Whether words that are no date say all the same that a plant ended as the heading above them says: a day that is not
/// clear, or what it died of.
pub(super) fn says_so(word: &str, cell: &str) -> bool {
    let plain = plain(cell);
    if is_in(NO_DAY, plain.trim()) {
        return true;
    }
    let digits = |of: &str| of.chars().filter(char::is_ascii_digit).count();
    let is_cause = |of: &str| word == "died" && is_in(CAUSES, of);
    let known = |of: &str| is_in(NEAR, of) || digits(of) == of.len() || is_cause(of);
    // A year, or figures with a mark between them: one figure alone is a number of something.
    let has_day = cell.split_whitespace().any(|of| digits(of) > 2);
    let has_cause = || {
        let mut causes = plain.split_whitespace().filter(|of| is_cause(of));
        causes.any(|of| !is_in(NO_CAUSES, of))
    };
    plain.split_whitespace().all(known) && (has_day || has_cause())
}
