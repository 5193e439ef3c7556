//! Word lists, words parted by spaces.
//!
//! From general knowledge and kept short: a word missing here is not thereby allowed. Banned English words are as quoted from
//! the ninth edition of the code; "variety", the words of other languages and all other lists rest on memory.

/// Whether a list holds a word.
pub(super) fn holds(list: &str, word: &str) -> bool {
    list.split(' ').any(|listed| listed == word)
}

/// Words that name a kind of plant group.
pub(super) const BANNED: &str = "cultivar form grex group hybrid maintenance mixture selection series sport strain \
    improved transformed variety";

/// The like of them in other languages.
pub(super) const BANNED_ELSEWHERE: &str = "hybride hybriden híbrido ibrido sorte auslese mischung gruppe serie groupe série \
    sélection variété mélange grupo mezcla selección variedad gruppo selezione varietà ras";

pub(super) const BANNED_OLDER: &str = "cross crosses seedling seedlings mutant";

pub(super) const SUPERLATIVE: &str = "best most largest biggest greatest finest smallest tallest longest shortest reddest \
    darkest blackest brightest rarest strongest widest fattest hairiest prettiest \
    loveliest supreme unbeatable unsurpassed matchless perfect perfection ultimate \
    incomparable earliest latest hardiest sweetest toothiest";

/// Latin adjectives and nouns that breeders put on plants; not words of daily use in another language.
pub(super) const LATIN: &str = "alba albus album rubra ruber rubrum nigra niger nigrum viridis purpurea purpureus \
    atropurpurea aurea aureus flava lutea rosea coccinea sanguinea variegata striata \
    maculata punctata picta gigantea giganteus robusta robustus compacta nana nanus minor \
    major maxima minima elegans superba magnifica splendens formosa pulchra speciosa \
    insignis nobilis regalis imperialis grandis grandiflora latifolia longifolia hirsuta \
    pilosa villosa glabra dentata spinosa hybrida vulgaris spectabilis";

/// Endings that hardly any other language has.
pub(super) const LATIN_ENDINGS: &str =
    "ensis oides iana ianus ianum iflora ifolia issima issimus ulosa";

/// Words that describe and, alone or together, name nothing.
pub(super) const DESCRIPTIVE: &str = "red black white green yellow purple pink orange blue brown dark light bright pale \
    giant large big small dwarf tiny tall compact striped spotted speckled hairy fuzzy \
    wide narrow highland lowland upper lower pitcher leaf lid peristome trap wing \
    variegated female male";

/// Common names of plants.
pub(super) const PLANT_NAMES: &str =
    "rose lily orchid sundew flytrap butterwort bladderwort tulip daisy fern bamboo cactus";

/// Common names of more than one word, parted by semicolons.
pub(super) const PLANT_PHRASES: &str = "pitcher plant;pitcher plants;tropical pitcher plant;monkey cup;monkey cups;\
    cobra lily;venus flytrap;trumpet pitcher";

/// Words of places, in epithets such as 'Lake Poso'.
pub(super) const PLACES: &str = "lake river mount mountain hill island islands bay valley borneo sumatra sulawesi java \
    luzon mindanao palawan kinabalu sarawak sabah papua guinea malaya brunei philippine";

/// Words that show that two capital words are not a person.
pub(super) const NOT_A_PERSON: &str = "lake river mount mountain hill island bay valley night day dawn sunset sunrise moon \
    star sun storm rain fire flame ember dragon tiger lion king queen prince princess \
    lantern old new battalion jungle forest shadow dream candy velvet wow borneo";
