//! What an answer means, whatever is asked.

/// An answer at the keyboard.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Answer<'a> {
    /// Not read; what stands there already stays.
    Blank,
    /// Takes away what stands there.
    Clear,
    /// The plant was found dead.
    Dead,
    /// A remark on the plant.
    Note(&'a str),
    /// Back to the question before.
    Back,
    /// How is it read?
    Explain,
    /// A reading.
    Value(&'a str),
}

impl<'a> Answer<'a> {
    /// The meaning of a line.
    pub fn of(typed: &'a str) -> Answer<'a> {
        match typed.trim() {
            "" => Answer::Blank,
            "-" => Answer::Clear,
            "<" => Answer::Back,
            "?" => Answer::Explain,
            dead if is_dead(dead) => Answer::Dead,
            note if note.starts_with('!') => Answer::Note(note[1..].trim()),
            // Typed behind the earlier answer, which stands there filled in.
            back if back.ends_with('<') => Answer::Back,
            value => Answer::Value(value),
        }
    }
}

/// Whether a word says that the plant is dead, and not what a trait reads.
pub fn is_dead(word: &str) -> bool {
    ["dead", "died", "†"].contains(&word.trim().to_lowercase().as_str())
}
