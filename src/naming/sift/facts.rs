//! What a label says beside the name.

use crate::naming::formula::Sex;

/// What a label says of the plant on offer, beside its name; each as the label has it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LabelFacts {
    /// A supplier's or grower's code.
    pub stock_code: Option<String>,
    /// The number or letter of the plant's own clone.
    pub clone: Option<String>,
    /// How it was raised: `seed`, `tissue culture`, `cutting` or `division`.
    pub grown_from: Option<&'static str>,
    /// Its size, or that of its pot.
    pub size: Option<String>,
    /// Where it is from.
    pub place: Option<String>,
    /// The plant's own sex.
    pub sex: Option<Sex>,
    /// Words of the title that are no part of the name, in the order of the label.
    pub set_aside: Vec<String>,
}

impl LabelFacts {
    /// The words set aside, in one line.
    pub fn aside_words(&self) -> String {
        let quoted = |words: &String| format!("`{words}`");
        let all: Vec<String> = self.set_aside.iter().map(quoted).collect();
        all.join(", ")
    }
}
