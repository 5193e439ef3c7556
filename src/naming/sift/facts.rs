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
    /// What both say alike.
    pub(in crate::naming) fn shared(self, other: &Self) -> Self {
        fn alike<T: PartialEq>(one: Option<T>, other: &Option<T>) -> Option<T> {
            one.filter(|one| other.as_ref() == Some(one))
        }
        Self {
            stock_code: alike(self.stock_code, &other.stock_code),
            clone: alike(self.clone, &other.clone),
            grown_from: alike(self.grown_from, &other.grown_from),
            size: alike(self.size, &other.size),
            place: alike(self.place, &other.place),
            sex: alike(self.sex, &other.sex),
            set_aside: match self.set_aside == other.set_aside {
                true => self.set_aside,
                false => Vec::new(),
            },
        }
    }

    /// The words set aside, in one line.
    pub fn aside_words(&self) -> String {
        let quoted = |words: &String| format!("`{words}`");
        let all: Vec<String> = self.set_aside.iter().map(quoted).collect();
        all.join(", ")
    }
}
