//! The words behind a botanical formula of two species: F2, backcross, later generation.

use super::vocabulary;
use podbook::naming::{
    Certainty, Direction, FormulaBuilder, PartId, Relation, Vocabulary, Writing, botanical, breeder,
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

/// What a part is, worked out as it is made.
#[derive(Clone, Copy, PartialEq, Debug)]
enum Twin {
    Pure(usize),
    Filial(usize),
    Backcross { to: usize, times: usize },
    Later,
}

impl Twin {
    fn crossed(one: Twin, other: Twin) -> Twin {
        match (one, other) {
            (Twin::Pure(one), Twin::Pure(other)) if one == other => Twin::Pure(one),
            (Twin::Pure(_), Twin::Pure(_)) => Twin::Filial(1),
            (Twin::Pure(to), hybrid) | (hybrid, Twin::Pure(to)) => match hybrid {
                Twin::Filial(1) => Twin::Backcross { to, times: 1 },
                Twin::Backcross { to: before, times } if before == to => Twin::Backcross {
                    to,
                    times: times + 1,
                },
                _ => Twin::Later,
            },
            _ => Twin::Later,
        }
    }

    fn sibs(of: Twin) -> Twin {
        match of {
            Twin::Pure(species) => Twin::Pure(species),
            Twin::Filial(number) => Twin::Filial(number + 1),
            _ => Twin::Later,
        }
    }

    fn said(self) -> Option<String> {
        let to = |species: usize| ["N. lowii", "N. spathulata"][species];
        Some(match self {
            Twin::Pure(_) => return None,
            Twin::Filial(1) => "N. lowii × N. spathulata".to_owned(),
            Twin::Filial(number) => format!("N. lowii × N. spathulata (F{number})"),
            Twin::Backcross { to: of, times: 1 } => {
                format!("N. lowii × N. spathulata (backcross to {})", to(of))
            }
            Twin::Backcross { to: of, times } => format!(
                "N. lowii × N. spathulata (backcross {times} times to {})",
                to(of)
            ),
            Twin::Later => "N. lowii × N. spathulata (later generation)".to_owned(),
        })
    }
}

/// Small random pedigrees of two species: plants crossed at random, and sibs of one cross.
#[test]
fn words_of_random_pedigrees_are_those_of_the_slow_twin() {
    let words = vocabulary();
    let mut state = 41_u64;
    let mut below = |bound: usize| {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        (state >> 33) as usize % bound
    };
    for _ in 0..3_000 {
        let mut builder = FormulaBuilder::new();
        let mut parts = vec![
            (builder.species("lowii"), Twin::Pure(0)),
            (builder.species("spathulata"), Twin::Pure(1)),
        ];
        for _ in 0..3 + below(4) {
            let (one, other) = (parts[below(parts.len())], parts[below(parts.len())]);
            let is_cross = !matches!(one.1, Twin::Pure(_));
            parts.push(match below(3) {
                0 if is_cross => (builder.within(one.0, Relation::Filial), Twin::sibs(one.1)),
                _ => (
                    crossed(&mut builder, one.0, other.0),
                    Twin::crossed(one.1, other.1),
                ),
            });
        }
        let (top, twin) = parts[parts.len() - 1];
        let formula = builder.finish(top);
        let writing = Writing::plain(&words);
        if let Some(said) = twin.said() {
            let text = botanical(&formula, &writing).expect("a short formula");
            assert_eq!(text, said, "{:?}", breeder(&formula, &writing).ok());
        }
    }
}

/// What botanical order says behind two species is read back as the same cross, or not at all: never as the F1.
#[test]
fn words_behind_botanical_order_are_never_dropped() {
    let pair = "N. lowii × N. ventricosa";
    for (said, shares) in [
        ("(F2)", "lowii 1/2, ventricosa 1/2"),
        ("(backcross to N. lowii)", "lowii 3/4, ventricosa 1/4"),
        (
            "(backcross 2 times to N. ventricosa)",
            "lowii 1/8, ventricosa 7/8",
        ),
        (
            "(backcross to N. lowii) (claimed)",
            "lowii (claimed) 3/4, ventricosa (claimed) 1/4",
        ),
    ] {
        let label = match said.ends_with("(claimed)") {
            true => format!("({pair}) {said}"),
            false => format!("{pair} {said}"),
        };
        let read = super::reading(&label);
        assert_eq!(read.botanical.as_deref(), Some(label.as_str()));
        assert_eq!(super::shares_of(&read), shares);
    }
    // The order of the alphabet says of no cross which parent bore the seed.
    assert_eq!(
        super::breeder_of("x ventrata (backcrossed to ventricosa)"),
        "(N. alata × N. ventricosa, direction unknown) × N. ventricosa (direction unknown)"
    );
    for label in [
        "N. lowii × N. ventricosa (later generation)",
        "N. lowii × N. ventricosa (backcross to N. maxima)",
        "(lowii × ventricosa) × ventricosa (backcross to lowii)",
        "N. maxima (backcross to N. veitchii)",
        "N. maxima (later generation)",
    ] {
        super::refusal_of(label);
    }
    let hybrid = super::reading("N. maxima (backcross hybrid)");
    assert_eq!(super::shares_of(&hybrid), "maxima 1/2, unknown 1/2");
}

/// F2 of what is only claimed is not written like the F1.
#[test]
fn f2_is_said_of_a_claimed_cross_and_of_claimed_parents() {
    for label in [
        "(N. lowii × N. ventricosa) (F2) (claimed)",
        "(N. lowii × N. ventricosa (claimed)) (F2)",
        "(N. lowii × N. ventricosa (claimed)) (sib cross)",
    ] {
        assert_eq!(super::reading(label).botanical.as_deref(), Some(label));
    }
    assert_eq!(
        super::reading("(N. ventricosa × N. lowii) (claimed) F2").botanical,
        super::reading("(N. lowii × N. ventricosa) (F2) (claimed)").botanical
    );
    // Of sibs that do not read alike one is written, as sure as the less sure of the two.
    let mut builder = FormulaBuilder::new();
    let (low, ven) = (builder.species("lowii"), builder.species("ventricosa"));
    let one = crossed(&mut builder, low, ven);
    let other = crossed(&mut builder, ven, low);
    builder.marks(other).certainty = Certainty::Claimed;
    let sibs = builder.sibs(one, other, Direction::Known);
    let max = builder.species("maxima");
    let top = crossed(&mut builder, sibs, max);
    let text = botanical(&builder.finish(top), &Writing::plain(&vocabulary()));
    assert_eq!(
        text.as_deref(),
        Ok("N. maxima × (N. lowii × N. ventricosa) (claimed)")
    );
}
