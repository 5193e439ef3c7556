//! Kinds of cross.

use podbook::ancestry::{CrossKind, CrossKinds, Shares};

use crate::shares::worked;

/// The worked pedigree, judged by hand from the rules: F1 and F2 as the trade uses the words (common practice).
#[test]
fn kinds_of_the_worked_pedigree() {
    let (named, founders, _) = worked();
    let shares = Shares::of(&named.pedigree, &founders);
    let kinds = CrossKinds::of(&named.pedigree, &founders, &shares);
    let filial = |generation| CrossKind::Filial {
        species: [0, 1],
        generation,
        one_family: Some(true),
    };
    let wanted = [
        ("spB", CrossKind::Species(1)),
        ("F1_AB", CrossKind::Primary([0, 1])),
        ("F1_CD", CrossKind::Primary([2, 3])),
        ("F2_1", filial(2)),
        ("F3_sib_1", filial(3)),
        ("F4_sib", filial(4)),
        (
            "BC1_A_1",
            CrossKind::Backcross {
                to: 0,
                times: 1,
                one_plant: true,
            },
        ),
        (
            "BC2_A",
            CrossKind::Backcross {
                to: 0,
                times: 2,
                one_plant: true,
            },
        ),
        ("BC1xBC1", CrossKind::Complex { species: 2 }),
        ("W4_1", CrossKind::Complex { species: 4 }),
        ("W4xF1AC", CrossKind::Complex { species: 4 }),
        ("F2xF1parent", CrossKind::Complex { species: 2 }),
        ("F5_mix", CrossKind::Complex { species: 2 }),
    ];
    for (name, kind) in wanted {
        assert_eq!(
            kinds.kind(&named.pedigree, &founders, named.row(name)),
            kind,
            "{name}"
        );
    }
}
