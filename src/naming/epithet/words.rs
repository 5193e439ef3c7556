//! The rules that look at whole words: banned words, Latin, superlatives, descriptions, persons.

use crate::naming::vocabulary::Vocabulary;

use super::lists::{
    BANNED, BANNED_ELSEWHERE, BANNED_OLDER, DESCRIPTIVE, LATIN, LATIN_ENDINGS, NOT_A_PERSON,
    PLACES, PLANT_NAMES, PLANT_PHRASES, SUPERLATIVE, holds,
};
use super::rule::{Remarks, Rule};

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
    genus_in_short(&words, epithet, vocabulary, remarks);
    latin(epithet, &words, vocabulary, year, remarks);
    superlative(&words, year, remarks);
    descriptive(&words, remarks);
    person(epithet, &words, vocabulary, remarks);
    syllables(&words, remarks);
}

fn banned(words: &[String], remarks: &mut Remarks) {
    for word in words {
        if BANNED
            .split(' ')
            .any(|banned| word == banned || is_plural(word, banned))
        {
            remarks.refuse(
                Rule::BannedWord,
                format!("`{word}` is banned in an epithet; leave it out"),
            );
        } else if holds(BANNED_ELSEWHERE, word) {
            remarks.warn(
                Rule::BannedWord,
                format!("`{word}` is the like of a banned word in another language; leave it out"),
            );
        } else if holds(BANNED_OLDER, word) {
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
    if !genus.is_empty() && words.contains(&genus) {
        remarks.refuse(
            Rule::Genus,
            format!("the epithet repeats the genus {}", vocabulary.genus()),
        );
    }
}

/// `N. Rajah` and `Nep Lowii` repeat the genus; `N. Fernley` may, or gives somebody's initial.
fn genus_in_short(words: &[String], epithet: &str, vocabulary: &Vocabulary, remarks: &mut Remarks) {
    let [first, next, ..] = words else {
        return;
    };
    let in_full = vocabulary.genus().to_lowercase() == *first;
    let dotted = epithet
        .trim_start()
        .to_lowercase()
        .starts_with(&format!("{first}."));
    let short = first.chars().count() > 1 || dotted;
    if in_full || !short || !vocabulary.is_genus(first) {
        return;
    }
    if is_latin(next, vocabulary) {
        let text = format!(
            "`{first}` repeats the genus {} in short",
            vocabulary.genus()
        );
        remarks.refuse(Rule::Genus, text);
    } else {
        let text = format!(
            "`{first}` may be taken for the genus {}",
            vocabulary.genus()
        );
        remarks.warn(Rule::Genus, text);
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
    let ending = word.chars().count() >= 8
        && LATIN_ENDINGS
            .split(' ')
            .any(|ending| word.ends_with(ending));
    known || holds(LATIN, word) || ending
}

fn superlative(words: &[String], year: Option<i32>, remarks: &mut Remarks) {
    let claims: Vec<&String> = words
        .iter()
        .filter(|word| holds(SUPERLATIVE, word))
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
    if !words.is_empty() && words.iter().all(|word| holds(DESCRIPTIVE, word)) {
        remarks.warn(
            Rule::Descriptive,
            "only common describing words: add something that names this plant alone",
        );
    }
    if words.iter().any(|word| holds(PLACES, word)) {
        remarks.note(
            Rule::Descriptive,
            "a place name is allowed; it does not say where the plant is from",
        );
    }
    if let Some(name) = common_name(words) {
        remarks.warn(
            Rule::Descriptive,
            format!("`{name}` is the common name of a plant"),
        );
    }
}

/// The common name of a plant that an epithet is, but for describing words before it.
fn common_name(words: &[String]) -> Option<String> {
    let ends =
        (0..words.len()).filter(|&from| words[..from].iter().all(|word| holds(DESCRIPTIVE, word)));
    ends.map(|from| words[from..].join(" ")).find(|name| {
        holds(PLANT_NAMES, name) || PLANT_PHRASES.split(';').any(|phrase| phrase == name)
    })
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
        !holds(NOT_A_PERSON, word)
            && !holds(DESCRIPTIVE, word)
            && !holds(SUPERLATIVE, word)
            && !holds(BANNED, word)
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
