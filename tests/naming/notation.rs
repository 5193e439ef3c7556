//! Purdy notation: Purdy and others 1968, Crop Science 8: 405–406, as explained in two public guides (confirmed); which side a
//! dose stands on and ? are our reading.

use super::{reading, refusal_of, shares_of, vocabulary};
use podbook::naming::{
    Direction, FormulaBuilder, RefusalCode, Relation, ShareOf, Writing, breeder,
};

/// A formula, its Purdy text, its shares.
const ROWS: [(&str, &str, &str); 6] = [
    (
        "N. ventricosa × N. lowii",
        "ventricosa/lowii",
        "lowii 1/2, ventricosa 1/2",
    ),
    (
        "(ventricosa × lowii) × maxima",
        "ventricosa/lowii//maxima",
        "lowii 1/4, maxima 1/2, ventricosa 1/4",
    ),
    (
        "maxima × (ventricosa × lowii)",
        "maxima//ventricosa/lowii",
        "lowii 1/4, maxima 1/2, ventricosa 1/4",
    ),
    (
        "(northiana × maxima) × (rafflesiana × veitchii)",
        "northiana/maxima//rafflesiana/veitchii",
        "maxima 1/4, northiana 1/4, rafflesiana 1/4, veitchii 1/4",
    ),
    (
        "maxima × (maxima × (maxima × veitchii))",
        "maxima*3/veitchii",
        "maxima 7/8, veitchii 1/8",
    ),
    (
        "(((gracilis × lowii) × maxima) × naga) × ovata",
        "gracilis/lowii//maxima/3/naga/4/ovata",
        "gracilis 1/16, lowii 1/16, maxima 1/8, naga 1/4, ovata 1/2",
    ),
];

#[test]
fn worked_conversions_go_both_ways() {
    for (label, purdy, shares) in ROWS {
        let from_label = reading(label);
        assert_eq!(from_label.purdy.as_deref(), Some(purdy), "{label}");
        assert_eq!(shares_of(&from_label), shares, "{label}");
        let from_purdy = reading(purdy);
        assert_eq!(from_purdy.purdy.as_deref(), Some(purdy), "{purdy}");
        assert_eq!(from_purdy.shares, from_label.shares, "{purdy}");
        assert_eq!(from_purdy.botanical, from_label.botanical, "{purdy}");
    }
}

#[test]
fn levels_may_be_written_in_three_ways() {
    for purdy in [
        "ventricosa/lowii//maxima",
        "ventricosa/lowii/2/maxima",
        "ventricosa / lowii // maxima",
        "ven/low//max",
        "ventricosa/lowii///maxima",
    ] {
        assert_eq!(
            reading(purdy).purdy.as_deref(),
            Some("ventricosa/lowii//maxima"),
            "{purdy}"
        );
    }
    assert_eq!(
        reading("maxima/3/maxima//maxima/veitchii").purdy.as_deref(),
        Some("maxima*3/veitchii")
    );
    assert_eq!(
        reading("3*maxima/veitchii").purdy.as_deref(),
        Some("maxima*3/veitchii")
    );
    // A/B*3 is A/B//B///B in the second guide (confirmed).
    assert_eq!(
        reading("lowii/maxima//maxima/3/maxima").purdy.as_deref(),
        Some("lowii/maxima*3")
    );
    assert_eq!(
        reading("low/ven//max").breeder.as_deref(),
        Some("(N. lowii × N. ventricosa) × N. maxima (seed parent first)")
    );
}

#[test]
fn share_of_a_recurrent_parent_is_one_less_a_power_of_two() {
    for doses in 1..=60_u32 {
        let reading = reading(&format!("maxima*{doses}/veitchii"));
        let share = reading.shares[&ShareOf::Species("maxima".into())];
        let below = 1_u128 << doses;
        assert_eq!(
            (*share.numer(), *share.denom()),
            (below - 1, below),
            "{doses} doses"
        );
    }
}

#[test]
fn what_purdy_cannot_say_has_no_purdy_text() {
    for label in [
        "x ventrata",
        "truncata x lowii or veitchii",
        "ventricosa-alata",
        "maxima selfed",
    ] {
        assert_eq!(reading(label).purdy, None, "{label}");
    }
    assert_eq!(reading("maxima x ?").purdy.as_deref(), Some("maxima/?"));
    assert_eq!(
        reading("maxima/UNK").breeder.as_deref(),
        Some("N. maxima × ? (seed parent first)")
    );
    assert_eq!(
        reading("mirabilis var. globosa x lowii").purdy.as_deref(),
        Some("\"mirabilis var. globosa\"/lowii")
    );
    assert_eq!(
        reading("\"mirabilis var. globosa\"/lowii")
            .breeder
            .as_deref(),
        Some("N. mirabilis var. globosa × N. lowii (seed parent first)")
    );
    assert_eq!(
        reading("'X'/rajah").breeder.as_deref(),
        Some("N. 'X' × N. rajah (seed parent first)")
    );
}

#[test]
fn strokes_that_leave_the_order_open_are_refused() {
    let (code, column, readings) = refusal_of("lowii/maxima/rajah");
    assert_eq!((code, column), (RefusalCode::PurdyAmbiguous, 13));
    assert_eq!(
        readings,
        [
            "(N. lowii × N. maxima) × N. rajah (seed parent first)",
            "N. lowii × (N. maxima × N. rajah) (seed parent first)"
        ]
    );
    assert_eq!(
        refusal_of("lowii//maxima/hamata//rajah").0,
        RefusalCode::PurdyAmbiguous
    );
    assert_eq!(
        refusal_of("maxima*2/veitchii*2").0,
        RefusalCode::DoseMisplaced
    );
    assert_eq!(
        refusal_of("maxima*b/veitchii").0,
        RefusalCode::DoseMisplaced
    );
    assert_eq!(
        refusal_of("maxima*65/veitchii").0,
        RefusalCode::GenerationUnlikely
    );
    assert_eq!(refusal_of("maxima*3").0, RefusalCode::DoseMisplaced);
    assert_eq!(refusal_of("maxima/").0, RefusalCode::ParentMissing);
    assert_eq!(
        refusal_of("maxima//(lowii/hamata)").0,
        RefusalCode::PurdyMixed
    );
    for mixed in ["ven/low x max", "lowii ×maxima/hamata", "low x ven//max"] {
        assert_eq!(refusal_of(mixed).0, RefusalCode::PurdyMixed, "{mixed}");
    }
    assert_eq!(
        reading("×dominii/lowii").breeder.as_deref(),
        Some("N. ×dominii × N. lowii (seed parent first)")
    );
}

/// `*n` says that one parent was used again; two unknown fathers may be two plants.
#[test]
fn an_unknown_parent_is_never_a_recurrent_one() {
    assert_eq!(
        reading("(ventricosa x ? (open pollinated)) x ? (open pollinated)")
            .purdy
            .as_deref(),
        Some("ventricosa/?//?")
    );
    assert_eq!(
        reading("((ventricosa x ?) x ?) x ?").purdy.as_deref(),
        Some("ventricosa/?//?/3/?")
    );
}

/// A reader counts the places of the text, not the records behind it.
#[test]
fn unmarked_crosses_are_counted_where_they_stand() {
    let mut builder = FormulaBuilder::new();
    let [low, raj, max] = ["lowii", "rajah", "maxima"].map(|name| builder.species(name));
    let bought = builder.cross(low, raj, Direction::Assumed);
    let seedling = builder.cross(max, bought, Direction::Known);
    let top = builder.cross(bought, seedling, Direction::Known);
    let text = breeder(&builder.finish(top), &Writing::plain(&vocabulary()));
    assert_eq!(
        text.as_deref(),
        Ok(
            "♀ (N. lowii × N. rajah) × ♂ (♀ N. maxima × ♂ (N. lowii × N. rajah)) (unmarked crosses: seed parent assumed first)"
        )
    );
    // The two parents of an F2 are written once.
    let mut builder = FormulaBuilder::new();
    let [low, raj, max] = ["lowii", "rajah", "maxima"].map(|name| builder.species(name));
    let bought = builder.cross(low, raj, Direction::Assumed);
    let second = builder.within(bought, Relation::Filial);
    let top = builder.cross(max, second, Direction::Known);
    let text = breeder(&builder.finish(top), &Writing::plain(&vocabulary()));
    assert_eq!(
        text.as_deref(),
        Ok(
            "♀ N. maxima × ♂ ((N. lowii × N. rajah) F2) (unmarked cross: seed parent assumed first)"
        )
    );
}
