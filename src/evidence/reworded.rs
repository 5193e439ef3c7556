//! Sentences of an earlier podbook in the words of this one: a text that was kept is not corrected for its words alone.

/// What a sentence said before, and what it says now of the same thing.
const REWORDED: [(&str, &str); 5] = [
    (
        ", one father for the whole pod",
        ", the same one for the whole pod",
    ),
    (
        ", for each plant separately",
        ", which may differ from plant to plant",
    ),
    (
        ", a hybrid name alone: its parents if the name is right, generation unknown",
        ", a hybrid name alone, so the parents hold only if the name is right, and the generation is not known",
    ),
    ("some seedling of ", "one seedling of "),
    (
        ", so stray pollen may have set up to ",
        ", so stray pollen may have set as many as ",
    ),
];

/// A text that an earlier podbook may have written, in the words of this one.
pub fn in_todays_words(text: &str) -> String {
    let reworded = |text: String, of: &(&str, &str)| text.replace(of.0, of.1);
    let text = REWORDED.iter().fold(text.to_owned(), reworded);
    match text.split_once(", which still allows stray pollen in up to ") {
        None => text,
        Some((before, after)) => {
            let after = after.replacen(" (95 %)", " of flowers (95 % limit)", 1);
            format!("{before}, so stray pollen may have set as many as {after}")
        }
    }
}
