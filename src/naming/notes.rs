//! What a reading tells besides its result: the assumptions it made, and why it was refused.
//!
//! Every note and refusal has a short code that stays the same from version to version.

use super::codes::codes;

codes! {
    /// What a note is about.
    NoteCode {
        SeedParentAssumedFirst "seed-parent-assumed-first" "The custom of the trade was assumed: the first parent bore the seed.",
        TurnedByMarks "turned-by-marks" "The marks of sex say that the first parent gave the pollen; the order was reversed.",
        DirectionUnknown "direction-unknown" "It is not known which parent bore the seed.",
        GenusAdded "genus-added" "A parent was written without its genus; it was added.",
        EpithetLowered "epithet-lowered" "A species epithet was written with a capital; epithets are lower case.",
        CodeRead "code-read" "A declared code was read as its epithet.",
        SynonymRead "synonym-read" "A synonym or old spelling was read as the name in use.",
        GenusMisspelt "genus-misspelt" "The genus was misspelt; it was read as the correct one.",
        MarkupIgnored "markup-ignored" "Entities or tags of a web page were read as the signs they stand for.",
        StockCodeKept "stock-code-kept" "A supplier's code was kept beside the name.",
        WordsSetAside "words-set-aside" "Words of a title were set aside; they do not belong to the name.",
        AuthorsSetAside "authors-set-aside" "Authors and year after a name cite its publication; they do not belong to the plant's name.",
        SexOfThePlant "sex-of-the-plant" "The sex on the label is the plant's own.",
        SpeciesUnderstood "species-understood" "A parent was written without its species; that of the parent before it was assumed.",
        HybridOfUnknown "hybrid-of-unknown" "The label calls a plant a hybrid, with or without a name; its other parents are not known.",
        HybridSaysNoMore "hybrid-says-no-more" "The word hybrid adds nothing to the formula.",
        NaturalHybrid "natural-hybrid" "Parents of a natural hybrid are not listed by sex; no seed parent is known.",
        DoubtOfThePart "doubt-of-the-part" "The label doubts a parent; no share of it counts as a named species.",
        DoubtOfTheWhole "doubt-of-the-whole" "The label doubts the whole name; no share counts as a named species.",
        NameNotListed "name-not-listed" "A name is in neither list; it is kept as a label, its parentage unknown.",
        NameBesideFormula "name-beside-formula" "A name of unknown status was written beside a formula; the formula is the parentage.",
        NameExpanded "name-expanded" "A named hybrid was read as its parents; the name itself is not used.",
        NameKept "name-kept" "A named hybrid was kept as a label: its parents are disputed or not known well enough.",
        SignMissingBeforeName "sign-missing-before-name" "A hybrid epithet was written without its sign.",
        QuotesNotMeant "quotes-not-meant" "A species or hybrid epithet was in quotes; quotes are for cultivars.",
        SignBeforeQuoted "sign-before-quoted" "A sign was written before a quoted epithet; it does not belong there.",
        QuotedNotVerified "quoted-not-verified" "A name in single quotes is kept as received; that it is an established cultivar was not verified.",
        QuotedAsClone "quoted-as-clone" "A quoted single letter or number cannot be a cultivar epithet; kept as a clone mark.",
        ParentageOfNameUnknown "parentage-of-name-unknown" "The parents of a name are not recorded; its descent counts as unknown.",
        LabelKept "label-kept" "Words in double quotes, or words that are not a name, were kept as a label.",
        HyphenReadAsFormula "hyphen-read-as-formula" "Two epithets joined by a hyphen are a formula, not an epithet.",
        RankRestored "rank-restored" "The rank of a name below the species was added or corrected.",
        NameFits "name-fits" "The hybrid name on the label fits the formula.",
        NameNotChecked "name-not-checked" "The hybrid name on the label could not be checked against the formula.",
        ReadLeftToRight "read-left-to-right" "A chain of crosses was read from left to right, as asked.",
        SelfReported "self-reported" "Selfing is reported, but Nepenthes is dioecious: a sib cross is likelier. Ask.",
        SaidOfTheWhole "said-of-the-whole" "A generation word after the last parent was applied to the whole cross.",
        FilialTakenFromLabel "filial-taken-from-label" "F2 or later was taken from the label; it is true only if both parents are of one cross.",
        FirstGeneration "first-generation" "F1 adds nothing to the formula.",
        BackcrossFits "backcross-fits" "The backcross word on the label fits the formula.",
        SameCrossBothSides "same-cross-both-sides" "Both parents have the same formula; it is an F2 only if they come from one cross.",
        FatherOneOf "father-one-of" "A parent is one of several; what they do not share is shown as one or the other.",
        MixedPollen "mixed-pollen" "Pollen of several plants was used together; seedlings differ in father.",
        OpenPollinated "open-pollinated" "Open pollination: the pollen parent is not known.",
        UnknownParent "unknown-parent" "A parent is not known; its half stays unknown.",
        ParentClaimed "parent-claimed" "A parent is only claimed.",
        Provisional "provisional" "A parent is provisional (sp., aff. or cf.): no share of it counts as the species.",
        DesignationOnly "designation-only" "With a parent not known or only labelled this is a designation, not a formula of the Code.",
        OneSpecies "one-species" "All parents are of one species: the plant is that species, not a hybrid.",
        SpeciesInDoubt "species-in-doubt" "The name of a species on a label may not mean that species.",
        AppendixOneAncestor "appendix-one-ancestor" "By the list used, an ancestor stands in CITES Appendix I; lists change, so ask your CITES management authority and plant-health service.",
        InvisibleMarksIgnored "invisible-marks-ignored" "Invisible characters were skipped.",
        PurdyRead "purdy-read" "The label was read as a Purdy pedigree: seed parent left of each stroke.",
        PurdyNotPossible "purdy-not-possible" "Purdy notation cannot express this.",
        SharesNotPossible "shares-not-possible" "Shares cannot be given as exact fractions.",
        TextTooLong "text-too-long" "The formula is too long to be written out.",
    }
}

codes! {
    /// Why a label was not read.
    RefusalCode {
        NothingToRead "nothing-to-read" "The label has no name.",
        LabelTooLong "label-too-long" "The label is longer than a million letters.",
        ControlCharacter "control-character" "The label holds a control character.",
        BracketNotClosed "bracket-not-closed" "A bracket was opened and not closed.",
        BracketNotOpened "bracket-not-opened" "A bracket was closed that was never opened.",
        BracketsDiffer "brackets-differ" "A bracket was closed by one of another kind.",
        BracketsEmpty "brackets-empty" "There is nothing between two brackets.",
        QuoteNotClosed "quote-not-closed" "A quote was opened and not closed.",
        ParentMissing "parent-missing" "A parent is missing beside a sign.",
        SignMissing "sign-missing" "There is no sign between two parents.",
        AmbiguousChain "ambiguous-chain" "A chain of crosses without brackets can be read in several ways.",
        UndeclaredCode "undeclared-code" "A shortened epithet was not declared as a code.",
        UnknownEpithet "unknown-epithet" "A name is neither in the list of species and named hybrids nor a declared code.",
        EpithetMissing "epithet-missing" "A genus or qualifier has no epithet.",
        SecondGenus "second-genus" "A parent of another genus is named; this family has one genus.",
        NotANamedHybrid "not-a-named-hybrid" "A sign was written before an epithet that is not a named hybrid.",
        NameContradictsFormula "name-contradicts-formula" "The hybrid name on the label belongs to other parents than the formula.",
        TwoSeedParents "two-seed-parents" "Both parents are marked as seed parents.",
        TwoPollenParents "two-pollen-parents" "Both parents are marked as pollen parents.",
        SexTwice "sex-twice" "One parent is marked with both sexes.",
        FilialNeedsACross "filial-needs-a-cross" "F2 or later was written of something that is not a cross.",
        GenerationUnlikely "generation-unlikely" "A generation or dose is too high to be real.",
        BackcrossContradicts "backcross-contradicts" "The backcross word on the label is not true of the formula.",
        PurdyAmbiguous "purdy-ambiguous" "The same stroke was used twice on one level; the order of crosses is ambiguous.",
        PurdyMixed "purdy-mixed" "Strokes and signs of crossing are mixed in one label.",
        DoseMisplaced "dose-misplaced" "A dose needs a cross, a whole number, and one parent only.",
        SexOfWhich "sex-of-which" "A sex word ends a cross; it may apply to the plant or to its last parent.",
        HybridOfWhich "hybrid-of-which" "The word hybrid ends a cross or a hybrid's name; it may apply to the whole, or mean another cross with its last name.",
        SecondSpecies "second-species" "Another species follows the first; the label does not say how the two belong together.",
        NotUnderstood "not-understood" "A mark or word makes no sense at its place.",
    }
}

/// An assumption or fact told beside a reading.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Note {
    /// What it is about.
    pub code: NoteCode,
    /// The note in full.
    pub text: String,
}

/// Why a label was not read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refusal {
    /// The reason.
    pub code: RefusalCode,
    /// The reason in full: where, what was found, what to do.
    pub text: String,
    /// The column it is about, counted in characters from 1.
    pub column: usize,
    /// Readings to choose from, best first; empty when none can be offered.
    pub readings: Vec<String>,
    /// How many answers its question has, each of which lets the label be read on; 0 when nothing is asked.
    pub(super) ways: u8,
}

impl Refusal {
    pub(super) fn new(code: RefusalCode, column: usize, text: impl Into<String>) -> Self {
        Self {
            code,
            text: text.into(),
            column,
            readings: Vec::new(),
            ways: 0,
        }
    }

    pub(super) fn with_readings(mut self, readings: Vec<String>) -> Self {
        self.readings = readings;
        self
    }
}

/// Notes in the order they arose, each said once.
#[derive(Clone, Debug, Default)]
pub(super) struct Notes {
    notes: Vec<Note>,
    said: std::collections::BTreeSet<(NoteCode, String)>,
}

impl Notes {
    pub(super) fn say(&mut self, code: NoteCode, text: impl Into<String>) {
        let text = text.into();
        if self.said.insert((code, text.clone())) {
            self.notes.push(Note { code, text });
        }
    }

    pub(super) fn into_vec(self) -> Vec<Note> {
        self.notes
    }
}
