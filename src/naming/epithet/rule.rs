//! The rules by their number, and a remark under a rule.
//!
//! The numbers are ours and in the order of the project's list; the wording follows the ninth edition of the cultivated plant code
//! (ICNCP, 2016) as far as it could be confirmed.

use crate::naming::codes::codes;

codes! {
    /// A rule on cultivar epithets.
    Rule {
        Quotes "N-1" "An epithet is written in single quotes, not double ones and not after cv. or var.",
        Capitals "N-2" "Each word begins with a capital, but for small joining words and what follows a hyphen.",
        Length "N-3" "At most 30 characters besides spaces and quotes, for epithets since 1 January 1996.",
        Syllables "N-4" "There is no limit on words or syllables any more.",
        TooLittle "N-5" "It may not be a single letter or only digits.",
        Code "N-6" "A pure code has at most 10 characters and no spaces.",
        Latin "N-7" "Since 1959 it may not be wholly Latin; Latin mixed with other words is allowed.",
        BannedWord "N-8" "Words that name a kind of plant group are banned.",
        OlderBannedWord "N-9" "Older and local guides also bar cross, seedling, mutant.",
        Marks "N-10" "Besides letters, digits and spaces: apostrophe, comma, full stop, hyphen, strokes, and two exclamation marks apart.",
        Genus "N-11" "The genus is not repeated in the epithet.",
        Superlative "N-12" "No superlative and no exaggerated claim.",
        Person "N-13" "A living person's name needs that person's consent.",
        Unique "N-14" "An epithet is used once in the genus, for ever.",
        Descriptive "N-15" "Not a common description alone, not the common name of a plant, nothing to be confused with an epithet in use.",
        Trademark "N-16" "A trademark or sales name is a trade designation: no name, no quotes, in another style beside the cultivar name.",
        Sign "N-17" "Write no × directly before a cultivar epithet.",
        FullName "N-18" "Genus and epithet are the full name; species or parentage may be added.",
        Group "N-19" "A Group has a capital G and no quotes, and is defined by characters its members share.",
        Grex "N-20" "Grex names are for orchids only.",
        Establishment "N-21" "An epithet is established by dated publication with a description; registration alone does not do it.",
        Label "N-22" "Single quotes around a label, code or Latin name misstate its status.",
        Clone "N-23" "Seedlings do not inherit an epithet; only cuttings, divisions and laboratory copies of the plant carry it.",
    }
}

/// What a remark does to the verdict.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Action {
    /// Worth knowing.
    Note,
    /// To be thought over.
    Warn,
    /// Put right in the mended form.
    Mend,
    /// Stands against the epithet.
    Refuse,
}

/// One rule applied.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    /// The rule.
    pub rule: Rule,
    /// What it does to the verdict.
    pub action: Action,
    /// What was found and what to do.
    pub text: String,
}

/// Remarks as they are made.
#[derive(Clone, Debug, Default)]
pub(super) struct Remarks(pub Vec<Remark>);

impl Remarks {
    pub fn add(&mut self, rule: Rule, action: Action, text: impl Into<String>) {
        self.0.push(Remark {
            rule,
            action,
            text: text.into(),
        });
    }

    pub fn refuse(&mut self, rule: Rule, text: impl Into<String>) {
        self.add(rule, Action::Refuse, text);
    }

    pub fn warn(&mut self, rule: Rule, text: impl Into<String>) {
        self.add(rule, Action::Warn, text);
    }

    pub fn mend(&mut self, rule: Rule, text: impl Into<String>) {
        self.add(rule, Action::Mend, text);
    }

    pub fn note(&mut self, rule: Rule, text: impl Into<String>) {
        self.add(rule, Action::Note, text);
    }
}
