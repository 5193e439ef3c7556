//! What must hold of any formula: a text written is read back the same, shares sum to one.

use super::vocabulary;
use podbook::naming::{
    Certainty, Direction, Formula, FormulaBuilder, Infraspecific, Leaf, Part, PartId, Qualifier,
    Rank, ReadOptions, Relation, ShareOf, Style, Tag, Unknown, Vocabulary, Writing, botanical,
    breeder, formula_only, purdy, read, shares,
};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// Shares by name alone.
fn as_named(formula: &Formula) -> BTreeMap<ShareOf, f64> {
    let mut named = BTreeMap::new();
    for (of, share) in shares(formula).expect("shares of a small formula") {
        *named.entry(without_claim(of)).or_default() += podbook::numeric::nearest(&share);
    }
    named
}

fn without_claim(of: ShareOf) -> ShareOf {
    let several = match of {
        ShareOf::Claimed(name) => return ShareOf::Species(name),
        ShareOf::OneOf(several) => several,
        other => return other,
    };
    let mut several: BTreeSet<ShareOf> = several.into_iter().map(without_claim).collect();
    match several.len() {
        1 => several.pop_first().expect("there is one"),
        _ => ShareOf::OneOf(several),
    }
}

/// Everything a formula is of, perhaps as one of several, whether claimed or not.
fn names_in(formula: &Formula) -> BTreeSet<ShareOf> {
    let mut names = BTreeSet::new();
    let mut open: Vec<ShareOf> = as_named(formula).into_keys().collect();
    while let Some(of) = open.pop() {
        match of {
            ShareOf::OneOf(several) => open.extend(several),
            single => drop(names.insert(single)),
        }
    }
    names
}

/// Species a formula is surely of, perhaps as one of several, and those it is only claimed to be of.
fn sure_and_claimed(formula: &Formula) -> [BTreeSet<String>; 2] {
    let mut found = [BTreeSet::new(), BTreeSet::new()];
    let mut open: Vec<ShareOf> = shares(formula).expect("shares").into_keys().collect();
    while let Some(of) = open.pop() {
        match of {
            ShareOf::Species(name) => found[0].insert(name),
            ShareOf::Claimed(name) => found[1].insert(name),
            ShareOf::OneOf(several) => {
                open.extend(several);
                false
            }
            _ => false,
        };
    }
    found
}

/// Whether a cross as a whole is only claimed somewhere in a formula.
fn claims_a_cross(formula: &Formula) -> bool {
    let mut parts = formula.parts();
    parts.any(|(id, part)| {
        matches!(part, Part::Cross(_)) && formula.marks(id).certainty == Certainty::Claimed
    })
}

/// Whether a name in a formula is only claimed, by itself or with all of its cross.
fn has_claimed_name(formula: &Formula) -> bool {
    let mut open = vec![(formula.top(), false)];
    while let Some((part, within_claim)) = open.pop() {
        let claimed = within_claim || formula.marks(part).certainty == Certainty::Claimed;
        match formula.part(part) {
            Part::Leaf(Leaf::Unknown(_)) => {}
            Part::Leaf(_) if claimed => return true,
            other => open.extend(other.made_of().into_iter().map(|made| (made, claimed))),
        }
    }
    false
}

/// One step in building a formula from a few parts: each takes parts built before by their number, counted round.
#[derive(Clone, Debug)]
enum Step {
    Leaf(Leaf, Vec<Tag>, bool),
    Cross(usize, usize, Direction),
    Within(usize, Relation),
    OneOf(usize, usize),
    Mixed(usize, usize),
    Mark(usize, Tag),
    Claim(usize),
}

const EPITHETS: [&str; 8] = [
    "lowii",
    "maxima",
    "ventricosa",
    "mirabilis",
    "rajah",
    "hamata",
    "alata",
    "talangensis",
];

fn species() -> impl Strategy<Value = Leaf> {
    let qualifier = prop_oneof![4 => Just(None), 1 => Just(Some(Qualifier::Affinis)), 1 => Just(Some(Qualifier::Confer))];
    let rank = prop_oneof![
        Just(Rank::Variety),
        Just(Rank::Subspecies),
        Just(Rank::Forma)
    ];
    let below = prop_oneof![4 => Just(None), 1 => rank.prop_map(|rank| Some(Infraspecific { rank, epithet: "globosa".into() }))];
    (prop::sample::select(&EPITHETS[..]), qualifier, below).prop_map(
        |(epithet, qualifier, infraspecific)| Leaf::Species {
            epithet: epithet.to_owned(),
            qualifier,
            infraspecific,
        },
    )
}

fn leaf() -> impl Strategy<Value = Leaf> {
    prop_oneof![
        8 => species(),
        1 => Just(Leaf::Unnamed { label: Some("Tidewater".into()) }),
        1 => Just(Leaf::Unnamed { label: None }),
        1 => Just(Leaf::NamedHybrid { epithet: "dominii".into() }),
        1 => Just(Leaf::Quoted { epithet: "King's Moth".into() }),
        1 => prop::sample::select(vec![Unknown::NotRecorded, Unknown::OpenPollinated, Unknown::MixedPollen]).prop_map(Leaf::Unknown),
    ]
}

fn tag() -> impl Strategy<Value = Tag> {
    prop_oneof![
        Just(Tag::Label("giant, (dark) × 2".into())),
        Just(Tag::Place("Bario".into())),
        Just(Tag::Word("HL".into())),
        Just(Tag::Clone("A".into())),
        Just(Tag::Clone("#3".into())),
        Just(Tag::Plant("RB-014.3".into())),
    ]
}

fn step() -> impl Strategy<Value = Step> {
    let direction = prop::sample::select(vec![
        Direction::Known,
        Direction::Assumed,
        Direction::Unknown,
    ]);
    let relation = prop::sample::select(vec![
        Relation::Sib,
        Relation::Filial,
        Relation::SelfReported,
    ]);
    prop_oneof![
        3 => (leaf(), prop::collection::vec(tag(), 0..2), any::<bool>()).prop_map(|(leaf, tags, claimed)| Step::Leaf(leaf, tags, claimed)),
        4 => (0..64_usize, 0..64_usize, direction).prop_map(|(seed, pollen, direction)| Step::Cross(seed, pollen, direction)),
        1 => (0..64_usize, relation).prop_map(|(parent, relation)| Step::Within(parent, relation)),
        1 => (0..64_usize, 0..64_usize).prop_map(|(one, other)| Step::OneOf(one, other)),
        1 => (0..64_usize, 0..64_usize).prop_map(|(one, other)| Step::Mixed(one, other)),
        1 => (0..64_usize, tag()).prop_map(|(part, tag)| Step::Mark(part, tag)),
        1 => (0..64_usize).prop_map(Step::Claim),
    ]
}

/// An unknown parent bears no marks, and the first label on a nameless species is its name.
fn is_bare(leaf: &Leaf) -> bool {
    matches!(leaf, Leaf::Unknown(_) | Leaf::Unnamed { label: None })
}

fn built(steps: &[Step]) -> Formula {
    let mut builder = FormulaBuilder::new();
    let mut parts: Vec<PartId> = vec![builder.species("lowii")];
    for step in steps {
        let of = |number: usize| parts[number % parts.len()];
        let part = match step {
            Step::Leaf(leaf, tags, claimed) => {
                let part = builder.leaf(leaf.clone());
                if !is_bare(leaf) {
                    builder.marks(part).tags.clone_from(tags);
                    builder.marks(part).certainty = if *claimed {
                        Certainty::Claimed
                    } else {
                        Certainty::Stated
                    };
                }
                part
            }
            Step::Cross(seed, pollen, direction) => {
                builder.cross(of(*seed), of(*pollen), *direction)
            }
            // F2 is only said of a cross; a sib cross may be within a species.
            Step::Within(parent, relation) => {
                let parent = of(*parent);
                let is_cross = matches!(builder.part(parent), Part::Cross(_));
                builder.within(parent, if is_cross { *relation } else { Relation::Sib })
            }
            Step::OneOf(one, other) => builder.one_of(vec![of(*one), of(*other)]),
            Step::Mixed(one, other) => builder.mixed(vec![of(*one), of(*other)]),
            Step::Claim(part) => {
                let part = of(*part);
                if !matches!(builder.part(part), Part::Leaf(leaf) if is_bare(leaf)) {
                    builder.marks(part).certainty = Certainty::Claimed;
                }
                part
            }
            Step::Mark(part, tag) => {
                let part = of(*part);
                if !matches!(builder.part(part), Part::Leaf(leaf) if is_bare(leaf))
                    && builder.marks(part).tags.len() < 3
                {
                    builder.marks(part).tags.push(tag.clone());
                }
                part
            }
        };
        parts.push(part);
    }
    builder.finish(parts[parts.len() - 1])
}

fn formula() -> impl Strategy<Value = Formula> {
    prop::collection::vec(step(), 1..14).prop_map(|steps| built(&steps))
}

fn reread(text: &str, words: &Vocabulary) -> Formula {
    let reading = read(text, words, ReadOptions::default());
    reading
        .formula
        .unwrap_or_else(|| panic!("{text}\n{:?}", reading.refused))
}

/// Parents of whom different little is known share a name, yet their order must not depend on who bore the seed.
#[test]
fn two_unknown_parents_have_one_botanical_order() {
    let words = vocabulary();
    let plain = Writing::plain(&words);
    let one = reread("lowii x (? x ? (open pollinated))", &words);
    let other = reread("lowii x (? (open pollinated) x ?)", &words);
    let expected = "N. lowii × (? × ? (open pollinated))";
    assert_eq!(botanical(&one, &plain).unwrap(), expected);
    assert_eq!(botanical(&other, &plain).unwrap(), expected);
}

proptest! {
    #![proptest_config(crate::draws(256))]

    #[test]
    fn breeder_text_is_read_back_the_same(formula in formula()) {
        let words = vocabulary();
        let plain = Writing::plain(&words);
        let text = breeder(&formula, &plain).unwrap();
        let again = reread(&text, &words);
        prop_assert!(again.same_as(&formula), "{text}\n{}", breeder(&again, &plain).unwrap());
    }

    #[test]
    fn ascii_text_is_ascii_and_read_back_the_same(formula in formula()) {
        let words = vocabulary();
        let ascii = Writing { style: Style::Ascii, sexes: true, vocabulary: &words };
        let text = breeder(&formula, &ascii).unwrap();
        prop_assert!(text.is_ascii(), "{text}");
        // A label loses its signs and accents, so the same is asked of the text and the shares.
        let again = reread(&text, &words);
        prop_assert_eq!(formula_only(&again, &ascii), formula_only(&formula, &ascii));
        prop_assert_eq!(shares(&again), shares(&formula));
    }

    #[test]
    fn botanical_text_has_the_same_shares_or_the_same_parents(formula in formula()) {
        let words = vocabulary();
        let text = botanical(&formula, &Writing::plain(&words)).unwrap();
        let read_back = read(&text, &words, ReadOptions::default());
        let Some(again) = read_back.formula else {
            // Who was crossed with whom is not in these words.
            prop_assert!(text.contains(" (later generation)"), "{}\n{:?}", text, read_back.refused);
            return Ok(());
        };
        // What is read back is no other cross: how often species were crossed back is not lost.
        if formula.parts().all(|(_, part)| matches!(part, Part::Leaf(_) | Part::Cross(_)))
            && !has_claimed_name(&formula)
        {
            prop_assert_eq!(as_named(&again), as_named(&formula), "{}", text);
        }
        // Where of one species both a sure and a claimed part stand beside each other, what is common to several
        // possibilities is less than without the claim: then the names are compared one by one.
        match has_claimed_name(&formula) {
            true => prop_assert_eq!(names_in(&again), names_in(&formula), "{}", text),
            false => {
                let of = |formula: &Formula| as_named(formula).into_keys().collect::<Vec<_>>();
                prop_assert_eq!(of(&again), of(&formula), "{}", text);
            }
        }
        // Parts that are alike are written once, as surely as the least of them is known and no surer.
        let ([sure, claimed], [sure_again, claimed_again]) = (sure_and_claimed(&formula), sure_and_claimed(&again));
        prop_assert!(sure_again.is_subset(&sure) && claimed.is_subset(&claimed_again), "{}", text);
        prop_assert!(text.contains("(claimed)") || !has_claimed_name(&formula), "{}", text);
        prop_assert_eq!(botanical(&again, &Writing::plain(&words)).unwrap().contains('×'), text.contains('×'));
    }

    #[test]
    fn turning_every_cross_changes_nothing_botanical(steps in prop::collection::vec(step(), 1..14)) {
        let words = vocabulary();
        let turned: Vec<Step> = steps.iter().map(|step| match step.clone() {
            Step::Cross(seed, pollen, direction) => Step::Cross(pollen, seed, direction),
            other => other,
        }).collect();
        let plain = Writing::plain(&words);
        prop_assert_eq!(botanical(&built(&steps), &plain), botanical(&built(&turned), &plain));
        prop_assert_eq!(shares(&built(&steps)), shares(&built(&turned)));
    }

    #[test]
    fn purdy_text_is_read_back_with_the_same_shares(formula in formula()) {
        let words = vocabulary();
        if let Some(text) = purdy(&formula) {
            let again = reread(&text, &words);
            prop_assert_eq!(shares(&again), shares(&formula), "{}", &text);
            prop_assert_eq!(text.contains("(claimed)"), has_claimed_name(&formula), "{}", &text);
            // A claim on a whole cross is read back as one on each of its names, which may then stand in a run of doses.
            let twice = purdy(&again).unwrap();
            match claims_a_cross(&formula) {
                false => prop_assert_eq!(twice, text),
                true => {
                    let third = reread(&twice, &words);
                    prop_assert_eq!(shares(&third), shares(&formula), "{}", &twice);
                    prop_assert_eq!(purdy(&third), Some(twice));
                }
            }
        }
    }

    #[test]
    fn shares_sum_to_one(formula in formula()) {
        let shares = shares(&formula).unwrap();
        let sum: f64 = shares.values().map(podbook::numeric::nearest).sum();
        prop_assert!((sum - 1.0).abs() < 1e-12, "{shares:?}");
    }

    #[test]
    fn shares_agree_with_drawing_every_line_of_descent(steps in prop::collection::vec(step(), 1..14)) {
        // Where a father is one of several there is no one line to draw; those steps become crosses here.
        let certain: Vec<Step> = steps.into_iter().map(|step| match step {
            Step::OneOf(one, other) | Step::Mixed(one, other) => Step::Cross(one, other, Direction::Known),
            other => other,
        }).collect();
        let formula = built(&certain);
        let mut slow = std::collections::BTreeMap::<String, f64>::new();
        let mut lines = vec![(formula.top(), 1.0, false)];
        while let Some((part, weight, within_claim)) = lines.pop() {
            let claimed = within_claim || formula.marks(part).certainty == Certainty::Claimed;
            match formula.part(part) {
                Part::Leaf(Leaf::Species { qualifier: None, epithet, .. }) => {
                    let name = if claimed { format!("{epithet} (claimed)") } else { epithet.clone() };
                    *slow.entry(name).or_default() += weight;
                }
                Part::Leaf(leaf @ (Leaf::Species { .. } | Leaf::Unnamed { .. })) => *slow.entry(leaf.name()).or_default() += weight,
                Part::Leaf(_) => *slow.entry("unknown".into()).or_default() += weight,
                other => lines.extend(other.made_of().into_iter().map(|parent| (parent, weight / 2.0, claimed))),
            }
        }
        let fast: std::collections::BTreeMap<String, f64> =
            shares(&formula).unwrap().iter().map(|(of, share)| (of.to_string(), podbook::numeric::nearest(share))).collect();
        prop_assert_eq!(fast, slow);
    }

    #[test]
    fn any_text_is_answered(label in "\\PC*") {
        let words = vocabulary();
        let reading = read(&label, &words, ReadOptions::default());
        prop_assert!(reading.formula.is_some() != reading.refused.is_some());
        prop_assert_eq!(reading.label, label);
    }

    #[test]
    fn any_mixture_of_words_is_answered(words in prop::collection::vec(prop::sample::select(WORDS.to_vec()), 0..12)) {
        let label = words.join(" ");
        let known = vocabulary();
        let reading = read(&label, &known, ReadOptions::default());
        if let Some(formula) = reading.formula {
            let text = formula_only(&formula, &Writing::plain(&known)).unwrap();
            prop_assert!(read(&text, &known, ReadOptions::default()).formula.is_some(), "{label}\n{text}");
        }
    }
}

const WORDS: [&str; 44] = [
    "lowii",
    "maxima",
    "ventricosa",
    "mixta",
    "ventrata",
    "dominii",
    "x",
    "×",
    "(",
    ")",
    "[",
    "]",
    "or",
    "and",
    "+",
    "?",
    "♀",
    "♂",
    "(f)",
    "(m)",
    "OP",
    "sib",
    "F2",
    "BC1",
    "selfed",
    "var.",
    "globosa",
    "f.",
    "sp.",
    "cf.",
    "aff.",
    "N.",
    "'Abc'",
    "\"giant\"",
    "(Bario)",
    "HL",
    "clone",
    "#3",
    "mixed",
    "pollen",
    ",",
    "=",
    "kinabaluensis",
    "ven/low",
];
