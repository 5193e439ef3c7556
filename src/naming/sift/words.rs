//! Words of titles, sizes, doubts and hybrids, from general knowledge of labels; a word missing here stays with the name.

/// Words that describe an offer and change nothing of what the plant is.
const TITLES: &str = "rare;very rare;super rare;ultra rare;extremely rare;pitcher plant;pitcher plants;pitcher;\
    tropical pitcher plant;tropical pitcher plants;carnivorous plant;carnivorous plants;carnivorous pitcher plant;\
    carnivorous;carnivore;insect eating plant;bug eating plant;insect eater;monkey cup;monkey cups;monkey jar;plant;plants;\
    live;live plant;live plants;house plant;house plants;houseplant;houseplants;indoor;indoor plant;indoor plants;exotic;\
    tropical;seeds;seed;fresh;fresh seed;fresh seeds;viable;viable seeds;healthy;well rooted;rooted;potted;bare root;\
    bareroot;bare-root;bare rooted;beautiful;stunning;gorgeous;lovely;amazing;awesome;nice;collector;collectors;\
    collector's;collectors plant;for sale;sale;on sale;free shipping;free postage;free delivery;with free shipping;\
    in stock;available;pre order;pre-order;preorder;auction;special offer;offer;limited;limited stock;hard to find;\
    easy to grow;easy;terrarium;terrarium plant;gift;wow;hot;sold;one plant;1 plant;single plant";

/// How a plant was raised, and the words for it.
const GROWN: [(&str, &str); 4] = [
    (
        "seed",
        "seed grown;seed-grown;seedgrown;sg;from seed;grown from seed;raised from seed;seed raised;seed-raised;seedling;seedlings",
    ),
    (
        "tissue culture",
        "tc;tissue culture;tissue-culture;tissue cultured;iv;in vitro;invitro;in-vitro;ex vitro;from tissue culture",
    ),
    (
        "cutting",
        "cutting;cuttings;rooted cutting;rooted cuttings;unrooted cutting;unrooted cuttings;stem cutting;tip cutting;\
        from cutting;from cuttings;grown from cutting;cutting of;cuttings of;rooted cutting of",
    ),
    (
        "division",
        "division;divisions;basal;basal shoot;offshoot;division of",
    ),
];

const SIZES: &str = "small;medium;large;big;small size;medium size;medium sized;large size;large sized;starter size;\
    starter plant;flowering size;near flowering size;adult;adult size;mature;juvenile;baby;young;young plant;big plant;\
    small plant;large plant;xs;xl;xxl";

const UNITS: &str = "cm;mm;in;inch;inches;\u{2ba};ft";

const SIZE_ENDS: &str = "pot;pots;span;diameter;wide;tall;across;plant;size;leafspan;potted";

const COUNTED: &str =
    "seed;seeds;fresh;pcs;pieces;piece;pack;packs;packet;packets;cuttings;count;ct";

const DOUBTS: &str = "claimed;possible;possibly;probable;probably;maybe;perhaps;likely;unverified;unconfirmed;uncertain;questionable;\
    suspected;presumed;presumably;supposed;supposedly;alleged;allegedly;lookalike;look-alike;lookalikes;like;resembles;\
    resembling;so-called;putative;doubtful;unsure;not sure;apparently;labelled as;labeled as;labelled;labeled;sold as;\
    bought as;received as;looks like;look alike;similar to;to be confirmed;tbc;id uncertain;id unconfirmed;unconfirmed id;\
    identity unconfirmed;identity uncertain;type;style;complex;group;agg;mystery;noid;no id;possible id;wahrscheinlich;vermutlich;vielleicht";

const HYBRIDS: &str =
    "hybrid;hybrids;hyb;hybs;hybr;hybride;hybriden;hybrido;híbrido;ibrido;crossbreed;mutt";

/// Words that may stand in front of a name and change what it means.
const MEANT: &str = "not;no;non;without;or;and;by;x;op;open;mixed;mix;unknown;sp;species;from;of;ex;self;selfed;sib;sibling;\
    pollen;pollinated;cross;crossed;reverse;reciprocal;remake;var;aff;cf;affinis;seedling;seedlings;offspring;mother;father;\
    female;male;f;m;natural;nat;wild;clone;cl;unidentified;unk;unnamed;noid;mystery;near";

/// Genera of pitcher plants and other carnivores that a label may name by mistake.
const OTHER_GENERA: &str = "sarracenia;heliamphora;darlingtonia;cephalotus;drosera;dionaea;pinguicula;utricularia;genlisea;byblis;roridula;aldrovanda;drosophyllum;triphyophyllum;brocchinia;catopsis";

/// Words that a place begins with.
const HEIGHTS: &str = "mt;mount;gunung;gng;bukit;pulau;lake;sungai";

/// Whether words stand in a list. Every word of every label is looked for in several: byte by byte that takes a fifth of
/// the time that letters would.
fn listed(list: &str, words: &str) -> bool {
    let mut listed = list.as_bytes().split(|byte| *byte == b';');
    listed.any(|listed| listed == words.as_bytes())
}

/// Whether words describe an offer only.
pub(super) fn is_title(words: &str) -> bool {
    listed(TITLES, words)
}

/// How a plant was raised, where the words say so.
pub(super) fn grown_from(words: &str) -> Option<&'static str> {
    let row = GROWN.iter().find(|(_, list)| listed(list, words));
    row.map(|(how, _)| *how)
}

/// Whether a word may change the meaning of a name behind it.
pub(super) fn is_meant(word: &str) -> bool {
    let mut parts = word.split(|letter: char| !letter.is_alphabetic());
    listed(MEANT, word) || parts.any(is_doubt) || is_doubt(word) || holds_hybrid(word)
}

/// Whether a word, or a part of it between marks and digits, calls a plant a hybrid: `F2hyb`, `hyb.4`.
pub(super) fn holds_hybrid(word: &str) -> bool {
    let mut parts = word.split(|letter: char| !letter.is_alphabetic());
    is_hybrid(word) || parts.any(is_hybrid)
}

pub(super) fn begins_place(word: &str) -> bool {
    listed(HEIGHTS, word)
}

/// Whether these words doubt what stands beside them.
pub(in crate::naming) fn is_doubt(words: &str) -> bool {
    listed(DOUBTS, words)
}

/// Whether a label names another genus by mistake.
pub(in crate::naming) fn is_other_genus(word: &str) -> bool {
    listed(OTHER_GENERA, word)
}

/// Whether this word calls a plant a hybrid and no more.
pub(in crate::naming) fn is_hybrid(word: &str) -> bool {
    listed(HYBRIDS, word) || word.starts_with("hybrid")
}

/// How many of the words ahead doubt what stands beside them; the longest phrase counts.
pub(in crate::naming) fn doubt_words(ahead: [&str; 3]) -> usize {
    (1..=3)
        .rev()
        .find(|&count| is_doubt(&ahead[..count].join(" ")))
        .unwrap_or(0)
}

/// How many of the words ahead call a plant a hybrid.
pub(in crate::naming) fn hybrid_words(word: &str) -> usize {
    usize::from(is_hybrid(word))
}

/// `10 cm`, `3-4 inch`, `in 9cm pot`, `medium size`.
pub(super) fn is_size(words: &[&str]) -> bool {
    if listed(SIZES, &words.join(" ")) {
        return true;
    }
    let words = match words {
        ["in" | "ca" | "approx" | "about" | "size", rest @ ..] => rest,
        all => all,
    };
    let words = match words {
        ["a", rest @ ..] => rest,
        all => all,
    };
    let ends = words
        .iter()
        .rev()
        .take_while(|word| listed(SIZE_ENDS, word))
        .count();
    match words[..words.len() - ends] {
        [one] => {
            let unit = one.trim_start_matches(is_of_number);
            unit.len() < one.len() && listed(UNITS, unit)
        }
        [number, unit] => is_number(number) && listed(UNITS, unit),
        _ => false,
    }
}

/// `5 seeds`, `10x`: how many are on offer.
pub(super) fn is_count(words: &[&str]) -> bool {
    let few = |word: &str| word.len() <= 3 && word.chars().all(|letter| letter.is_ascii_digit());
    match words {
        [one] => {
            let digits = one.strip_suffix('x').or_else(|| one.strip_prefix('x'));
            digits.is_some_and(|digits| !digits.is_empty() && few(digits))
        }
        [number, of @ ..] => {
            few(number)
                && !number.is_empty()
                && (1..=2).contains(&of.len())
                && of.iter().all(|word| listed(COUNTED, word))
        }
        [] => false,
    }
}

fn is_number(word: &str) -> bool {
    !word.is_empty() && word.chars().all(is_of_number)
}

fn is_of_number(letter: char) -> bool {
    letter.is_ascii_digit() || "-–./,½¼¾".contains(letter)
}
