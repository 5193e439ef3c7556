//! The words behind a botanical formula of two species: F2, backcross, later generation.

use super::vocabulary;
use podbook::naming::{
    Direction, FormulaBuilder, PartId, Relation, Vocabulary, Writing, botanical,
};

fn said_of(
    words: &Vocabulary,
    build: impl FnOnce(&mut FormulaBuilder, [PartId; 2]) -> PartId,
) -> String {
    let mut builder = FormulaBuilder::new();
    let species = [builder.species("lowii"), builder.species("spathulata")];
    let top = build(&mut builder, species);
    let formula = builder.finish(top);
    let text = botanical(&formula, &Writing::plain(words)).expect("a short formula");
    let said = text.strip_prefix("N. lowii × N. spathulata");
    said.unwrap_or_else(|| panic!("{text}")).trim().to_owned()
}

fn crossed(builder: &mut FormulaBuilder, one: PartId, other: PartId) -> PartId {
    builder.cross(one, other, Direction::Known)
}

/// The formula that is written is that of the first cross, so F2 behind it is the F2 of that cross and of no other.
#[test]
fn f2_stands_only_behind_the_cross_it_is_the_f2_of() {
    let words = vocabulary();
    for (relation, said) in [
        (Relation::Filial, "(F2)"),
        (Relation::Sib, "(sib cross)"),
        (Relation::SelfReported, "(self reported)"),
    ] {
        let of_the_first = said_of(&words, |builder, [low, spa]| {
            let first = crossed(builder, low, spa);
            builder.within(first, relation)
        });
        assert_eq!(of_the_first, said);
        let of_a_backcross = said_of(&words, |builder, [low, spa]| {
            let first = crossed(builder, spa, low);
            let back = crossed(builder, first, spa);
            builder.within(back, relation)
        });
        assert_eq!(of_a_backcross, "(later generation)");
        let of_two_hybrids = said_of(&words, |builder, [low, spa]| {
            let [one, other] = [low, spa].map(|_| crossed(builder, low, spa));
            let mated = crossed(builder, one, other);
            builder.within(mated, relation)
        });
        assert_eq!(of_two_hybrids, "(later generation)");
    }
    for relation in [Relation::Sib, Relation::SelfReported] {
        let behind_it = said_of(&words, |builder, [low, spa]| {
            let first = crossed(builder, low, spa);
            let second = builder.within(first, relation);
            builder.within(second, Relation::Filial)
        });
        assert_eq!(behind_it, "(later generation)");
    }
    let third = said_of(&words, |builder, [low, spa]| {
        let first = crossed(builder, low, spa);
        let second = builder.within(first, Relation::Filial);
        builder.within(second, Relation::Filial)
    });
    assert_eq!(third, "(F3)");
}
