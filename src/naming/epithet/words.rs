//! Word lists, and the rules that look at whole words: Latin, banned words, superlatives, descriptions, persons.
//!
//! The lists are from general knowledge and kept short: a word missing here is not thereby allowed. Banned English words are as
//! quoted from the ninth edition of the code; "variety", the words of other languages and all other lists rest on memory.

use crate::naming::vocabulary::Vocabulary;

use super::rule::{Remarks, Rule};

const BANNED: [&str; 14] = [
    "cultivar",
    "form",
    "grex",
    "group",
    "hybrid",
    "maintenance",
    "mixture",
    "selection",
    "series",
    "sport",
    "strain",
    "improved",
    "transformed",
    "variety",
];

/// The like in other languages.
const BANNED_ELSEWHERE: [&str; 22] = [
    "hybride",
    "hybriden",
    "híbrido",
    "ibrido",
    "sorte",
    "auslese",
    "mischung",
    "gruppe",
    "serie",
    "groupe",
    "série",
    "sélection",
    "variété",
    "mélange",
    "grupo",
    "mezcla",
    "selección",
    "variedad",
    "gruppo",
    "selezione",
    "varietà",
    "ras",
];

const BANNED_OLDER: [&str; 5] = ["cross", "crosses", "seedling", "seedlings", "mutant"];

const SUPERLATIVE: [&str; 34] = [
    "best",
    "most",
    "largest",
    "biggest",
    "greatest",
    "finest",
    "smallest",
    "tallest",
    "longest",
    "shortest",
    "reddest",
    "darkest",
    "blackest",
    "brightest",
    "rarest",
    "strongest",
    "widest",
    "fattest",
    "hairiest",
    "prettiest",
    "loveliest",
    "supreme",
    "unbeatable",
    "unsurpassed",
    "matchless",
    "perfect",
    "perfection",
    "ultimate",
    "incomparable",
    "earliest",
    "latest",
    "hardiest",
    "sweetest",
    "toothiest",
];

/// Latin adjectives and nouns that breeders put on plants; not words of daily use in another language.
const LATIN: [&str; 60] = [
    "alba",
    "albus",
    "album",
    "rubra",
    "ruber",
    "rubrum",
    "nigra",
    "niger",
    "nigrum",
    "viridis",
    "purpurea",
    "purpureus",
    "atropurpurea",
    "aurea",
    "aureus",
    "flava",
    "lutea",
    "rosea",
    "coccinea",
    "sanguinea",
    "variegata",
    "striata",
    "maculata",
    "punctata",
    "picta",
    "gigantea",
    "giganteus",
    "robusta",
    "robustus",
    "compacta",
    "nana",
    "nanus",
    "minor",
    "major",
    "maxima",
    "minima",
    "elegans",
    "superba",
    "magnifica",
    "splendens",
    "formosa",
    "pulchra",
    "speciosa",
    "insignis",
    "nobilis",
    "regalis",
    "imperialis",
    "grandis",
    "grandiflora",
    "latifolia",
    "longifolia",
    "hirsuta",
    "pilosa",
    "villosa",
    "glabra",
    "dentata",
    "spinosa",
    "hybrida",
    "vulgaris",
    "spectabilis",
];

/// Endings that hardly any other language has.
const LATIN_ENDINGS: [&str; 10] = [
    "ensis", "oides", "iana", "ianus", "ianum", "iflora", "ifolia", "issima", "issimus", "ulosa",
];

/// Words that describe and, alone or together, name nothing.
const DESCRIPTIVE: [&str; 42] = [
    "red",
    "black",
    "white",
    "green",
    "yellow",
    "purple",
    "pink",
    "orange",
    "blue",
    "brown",
    "dark",
    "light",
    "bright",
    "pale",
    "giant",
    "large",
    "big",
    "small",
    "dwarf",
    "tiny",
    "tall",
    "compact",
    "striped",
    "spotted",
    "speckled",
    "hairy",
    "fuzzy",
    "wide",
    "narrow",
    "highland",
    "lowland",
    "upper",
    "lower",
    "pitcher",
    "leaf",
    "lid",
    "peristome",
    "trap",
    "wing",
    "variegated",
    "female",
    "male",
];

/// Common names of plants.
const PLANT_NAMES: [&str; 12] = [
    "rose",
    "lily",
    "orchid",
    "sundew",
    "flytrap",
    "butterwort",
    "bladderwort",
    "tulip",
    "daisy",
    "fern",
    "bamboo",
    "cactus",
];

/// Words that show that two capital words are not a person.
const NOT_A_PERSON: [&str; 40] = [
    "lake",
    "river",
    "mount",
    "mountain",
    "hill",
    "island",
    "bay",
    "valley",
    "night",
    "day",
    "dawn",
    "sunset",
    "sunrise",
    "moon",
    "star",
    "sun",
    "storm",
    "rain",
    "fire",
    "flame",
    "ember",
    "dragon",
    "tiger",
    "lion",
    "king",
    "queen",
    "prince",
    "princess",
    "lantern",
    "old",
    "new",
    "battalion",
    "jungle",
    "forest",
    "shadow",
    "dream",
    "candy",
    "velvet",
    "wow",
    "borneo",
];

/// The words of an epithet: parted by spaces, hyphens and strokes, in lower case, without marks.
pub(super) fn words(epithet: &str) -> Vec<String> {
    let parted = epithet.split(|letter: char| letter.is_whitespace() || "-/\\,".contains(letter));
    let bare = parted.map(|word| {
        word.trim_matches(|letter: char| !letter.is_alphanumeric())
            .to_lowercase()
    });
    bare.filter(|word| !word.is_empty()).collect()
}

/// Remarks under the rules that look at whole words.
pub(super) fn judge_words(
    epithet: &str,
    vocabulary: &Vocabulary,
    year: Option<i32>,
    remarks: &mut Remarks,
) {
    let words = words(epithet);
    banned(&words, remarks);
    genus(&words, vocabulary, remarks);
    latin(epithet, &words, vocabulary, year, remarks);
    superlative(&words, year, remarks);
    descriptive(&words, remarks);
    person(epithet, &words, vocabulary, remarks);
    syllables(&words, remarks);
}

fn banned(words: &[String], remarks: &mut Remarks) {
    for word in words {
        if BANNED
            .iter()
            .any(|banned| word == banned || is_plural(word, banned))
        {
            remarks.refuse(
                Rule::BannedWord,
                format!("`{word}` is banned in an epithet; leave it out"),
            );
        } else if BANNED_ELSEWHERE.contains(&word.as_str()) {
            remarks.warn(
                Rule::BannedWord,
                format!("`{word}` is the like of a banned word in another language; leave it out"),
            );
        } else if BANNED_OLDER.contains(&word.as_str()) {
            remarks.warn(
                Rule::OlderBannedWord,
                format!("`{word}` is barred by older and local guides"),
            );
        }
    }
}

fn is_plural(word: &str, singular: &str) -> bool {
    let stem = singular.strip_suffix('y');
    word.strip_suffix("es").is_some_and(|stem| stem == singular)
        || word.strip_suffix('s').is_some_and(|stem| stem == singular)
        || stem.is_some_and(|stem| word.strip_suffix("ies") == Some(stem))
}

fn genus(words: &[String], vocabulary: &Vocabulary, remarks: &mut Remarks) {
    let genus = vocabulary.genus().to_lowercase();
    if !genus.is_empty() && words.iter().any(|word| *word == genus) {
        remarks.refuse(
            Rule::Genus,
            format!("the epithet repeats the genus {}", vocabulary.genus()),
        );
    }
}

fn latin(
    epithet: &str,
    words: &[String],
    vocabulary: &Vocabulary,
    year: Option<i32>,
    remarks: &mut Remarks,
) {
    let latin = words
        .iter()
        .filter(|word| is_latin(word, vocabulary))
        .count();
    if latin == 0 || year.is_some_and(|year| year < 1959) {
        return;
    }
    if latin < words.len() {
        remarks.warn(Rule::Latin, "Latin mixed with other words is allowed; that the whole does not look like a Latin name is for you to see");
        return;
    }
    remarks.refuse(
        Rule::Latin,
        format!("`{epithet}` is wholly Latin; since 1959 an epithet is in another language"),
    );
    let name = words.join("-");
    if vocabulary.named_hybrid(&name).is_some() {
        let text = format!(
            "{name} is the epithet of a named hybrid, not of a cultivar; write {} ×{name}",
            vocabulary.genus_short()
        );
        remarks.refuse(Rule::Label, text);
    } else if vocabulary.species(&name).is_some() {
        let text = format!(
            "{name} is the epithet of a species, not of a cultivar; write {} {name}",
            vocabulary.genus_short()
        );
        remarks.refuse(Rule::Label, text);
    }
}

fn is_latin(word: &str, vocabulary: &Vocabulary) -> bool {
    let known = vocabulary.species(word).is_some() || vocabulary.named_hybrid(word).is_some();
    let ending =
        word.chars().count() >= 8 && LATIN_ENDINGS.iter().any(|ending| word.ends_with(ending));
    known || LATIN.contains(&word) || ending
}

fn superlative(words: &[String], year: Option<i32>, remarks: &mut Remarks) {
    let claims: Vec<&String> = words
        .iter()
        .filter(|word| SUPERLATIVE.contains(&word.as_str()))
        .collect();
    if let Some(word) = claims.first()
        && year.is_none_or(|year| year >= 1959)
    {
        remarks.refuse(
            Rule::Superlative,
            format!("`{word}` is a superlative or an exaggerated claim"),
        );
    }
}

fn descriptive(words: &[String], remarks: &mut Remarks) {
    if !words.is_empty()
        && words
            .iter()
            .all(|word| DESCRIPTIVE.contains(&word.as_str()))
    {
        remarks.warn(
            Rule::Descriptive,
            "only common describing words: add something that names this plant alone",
        );
    }
    if words.len() == 1 && PLANT_NAMES.contains(&words[0].as_str()) {
        remarks.warn(
            Rule::Descriptive,
            format!("`{}` is the common name of a plant", words[0]),
        );
    }
}

/// Two or three capital words that are no known words may be somebody's name.
fn person(epithet: &str, words: &[String], vocabulary: &Vocabulary, remarks: &mut Remarks) {
    let capital = |word: &str| {
        word.chars().next().is_some_and(char::is_uppercase)
            && word.chars().all(|l| l.is_alphabetic() || "'.-".contains(l))
    };
    let typed: Vec<&str> = epithet.split_whitespace().collect();
    let plain = |word: &String| {
        let word = word.as_str();
        !NOT_A_PERSON.contains(&word)
            && !DESCRIPTIVE.contains(&word)
            && !SUPERLATIVE.contains(&word)
            && !BANNED.contains(&word)
            && !is_latin(word, vocabulary)
    };
    if (2..=3).contains(&typed.len())
        && typed.iter().all(|word| capital(word))
        && words.iter().all(plain)
    {
        remarks.note(
            Rule::Person,
            "if this is a living person's name, that person must have consented",
        );
    }
}

fn syllables(words: &[String], remarks: &mut Remarks) {
    let is_vowel = |letter: char| "aeiouyäöüáéíóúàèìòùâêîôû".contains(letter);
    let count: usize = words
        .iter()
        .map(|word| {
            let vowels: Vec<bool> = word.chars().map(is_vowel).collect();
            (0..vowels.len())
                .filter(|&at| vowels[at] && (at == 0 || !vowels[at - 1]))
                .count()
        })
        .sum();
    if count > 10 {
        remarks.note(
            Rule::Syllables,
            "more than ten syllables: allowed now, though many guides still repeat the old limit",
        );
    }
}
