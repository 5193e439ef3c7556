//! Formulas built from records, not from labels.

use super::vocabulary;
use podbook::naming::{
    Certainty, Direction, FormulaBuilder, Leaf, NoteCode, Relation, Tag, Unknown, Writing, breeder,
    describe, fit, purdy, shares,
};

#[test]
fn codes_and_certainty_stand_beside_their_parent() {
    let words = vocabulary();
    let mut builder = FormulaBuilder::new();
    let (one, other) = (builder.species("ventricosa"), builder.species("lowii"));
    builder.marks(one).tags.push(Tag::Plant("VEN-1".into()));
    builder.marks(other).certainty = Certainty::Claimed;
    let cross = builder.cross(one, other, Direction::Known);
    builder
        .marks(cross)
        .tags
        .push(Tag::Plant("RB-014.3".into()));
    let unknown = builder.leaf(Leaf::Unknown(Unknown::NotRecorded));
    let top = builder.cross(cross, unknown, Direction::Known);
    let formula = builder.finish(top);
    assert_eq!(
        breeder(&formula, &Writing::plain(&words)).unwrap(),
        "(N. ventricosa [VEN-1] × N. lowii (claimed)) [RB-014.3] × ? (seed parent first)"
    );
    let told = describe(formula, "as received", &words);
    assert_eq!((told.label.as_str(), told.refused), ("as received", None));
    assert!(
        told.notes
            .iter()
            .any(|note| note.code == NoteCode::ParentClaimed)
    );
}

#[test]
fn filial_generations_are_counted_from_the_first_cross() {
    let words = vocabulary();
    let mut builder = FormulaBuilder::new();
    let (one, other) = (builder.species("maxima"), builder.species("veitchii"));
    let first = builder.cross(one, other, Direction::Known);
    let second = builder.within(first, Relation::Filial);
    builder.marks(second).tags.push(Tag::Clone("#7".into()));
    let third = builder.within(second, Relation::Filial);
    let formula = builder.finish(third);
    let text = breeder(&formula, &Writing::plain(&words)).unwrap();
    assert_eq!(
        text,
        "((N. maxima × N. veitchii) F2) #7 F3 (seed parent first)"
    );
    assert!(super::reading(&text).formula.unwrap().same_as(&formula));
    // Sibs that do not read alike are both written, and are what the next generation is counted from.
    let mut builder = FormulaBuilder::new();
    let (one, other) = (builder.species("maxima"), builder.species("veitchii"));
    let [a, b] = [(one, other), (other, one)].map(|(x, y)| builder.cross(x, y, Direction::Known));
    let second = builder.sibs(a, b, Direction::Known);
    let third = builder.within(second, Relation::Filial);
    let text = breeder(&builder.finish(third), &Writing::plain(&words)).unwrap();
    assert_eq!(
        text,
        "((N. maxima × N. veitchii) × (N. veitchii × N. maxima)) F2 (seed parent first)"
    );
}

#[test]
fn a_line_of_a_million_generations_is_refused_in_order() {
    let words = vocabulary();
    let mut builder = FormulaBuilder::new();
    let recurrent = builder.species("maxima");
    let mut line = builder.species("veitchii");
    for generation in 0..1_000_000 {
        let (seed, pollen) = if generation % 2 == 0 {
            (recurrent, line)
        } else {
            (line, recurrent)
        };
        line = builder.cross(seed, pollen, Direction::Known);
    }
    let formula = builder.finish(line);
    assert_eq!(formula.generations(), 1_000_000);
    let refused = breeder(&formula, &Writing::plain(&words)).unwrap_err();
    assert!(
        refused.to_string().contains("1000000 generations"),
        "{refused}"
    );
    assert!(
        shares(&formula)
            .unwrap_err()
            .contains("1000000 generations")
    );
    assert_eq!(purdy(&formula), None);
    let fitted = fit(&formula, &Writing::plain(&words), 40, Some("RB-014")).unwrap();
    assert_eq!(fitted.text, "RB-014 (see code)");
    let told = describe(formula, "", &words);
    assert!(told.breeder.is_none() && told.botanical.is_none());
    let codes: Vec<NoteCode> = told.notes.iter().map(|note| note.code).collect();
    assert!(codes.contains(&NoteCode::TextTooLong) && codes.contains(&NoteCode::SharesNotPossible));
}

#[test]
fn doubling_parents_are_small_to_keep_and_refused_in_writing() {
    let words = vocabulary();
    let mut builder = FormulaBuilder::new();
    let (one, other) = (builder.species("maxima"), builder.species("veitchii"));
    let mut top = builder.cross(one, other, Direction::Known);
    for _ in 0..200 {
        top = builder.cross(top, top, Direction::Known);
    }
    let formula = builder.finish(top);
    assert_eq!(formula.len(), 203);
    assert!(breeder(&formula, &Writing::plain(&words)).is_err());
    assert_eq!(
        shares(&formula)
            .unwrap()
            .values()
            .map(ToString::to_string)
            .collect::<Vec<_>>(),
        ["1/2", "1/2"]
    );
}

#[test]
fn unused_parts_are_left_behind() {
    let mut builder = FormulaBuilder::new();
    let _ = builder.species("lowii");
    let kept = builder.species("maxima");
    assert_eq!(builder.finish(kept).len(), 1);
}

/// Single quotes would make a cultivar of a word that the tag has in double quotes.
#[test]
fn a_name_as_received_keeps_the_quotes_of_its_tag() {
    let words = vocabulary();
    for (received, written) in [
        ("N. alata", "N. mira (received as \"N. alata\")"),
        (
            "N. ventricosa \"red\"",
            "N. mira (received as N. ventricosa \"red\")",
        ),
        (
            "N. ventricosa 'A' \"red\"",
            "N. mira (received as \"N. ventricosa 'A' ''red''\")",
        ),
        (
            "N. ventricosa 1 1/8\"",
            "N. mira (received as \"N. ventricosa 1 1/8''\")",
        ),
    ] {
        let mut builder = FormulaBuilder::new();
        let leaf = builder.species("mira");
        let tag = Tag::Received(received.into());
        builder.marks(leaf).tags.push(tag);
        let formula = builder.finish(leaf);
        let text = breeder(&formula, &Writing::plain(&words)).unwrap();
        assert_eq!(text, written);
        let read = super::reading(&text).formula.unwrap();
        assert_eq!(
            breeder(&read, &Writing::plain(&words)).unwrap(),
            written,
            "{received}"
        );
    }
}
