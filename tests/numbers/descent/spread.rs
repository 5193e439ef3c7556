//! Spread within a pod: realised shares and segregation variance.

use podbook::ancestry::{
    Chromosomes, FounderDescent, Founders, Part, TraitVariance, TwoCopies, share_deviation,
    two_copies, variance_from_parent,
};
use podbook::lineage::{Origin, Pedigree, PlantRow};

use crate::shares::worked;
use crate::tables::{json, text};

/// The variance among the seedlings of a pod: what each parent adds.
fn within_pod(parents: &[TwoCopies], assumed: &TraitVariance) -> f64 {
    let each = parents.iter();
    each.map(|parent| variance_from_parent(parent, assumed))
        .sum()
}

fn close(found: f64, wanted: f64) -> bool {
    (found - wanted).abs() <= 1e-11 * wanted.abs()
}

#[test]
fn closed_forms_for_all_tabled_chromosomes() {
    let (named, founders, _) = worked();
    let mut rows = 0;
    for line in text("01_realised_fraction_sd.csv").lines().skip(1) {
        let row: Vec<f64> = line
            .split(',')
            .map(|field| field.parse().unwrap())
            .collect();
        let chromosomes = Chromosomes {
            pairs: row[0] as u32,
            morgans: row[1],
        };
        let of = |seed, pollen, species| {
            let parents = [named.row(seed), named.row(pollen)];
            share_deviation(
                &named.pedigree,
                &founders,
                parents,
                Part::Species(species),
                chromosomes,
            )
        };
        assert!(close(of("F1_AB", "F1_AB_sib", 0), row[5]), "{line}");
        assert!(close(of("F1_AB", "spA", 0), row[6]), "{line}");
        assert!(close(of("F1_AB", "F1_CD", 0), row[7]), "{line}");
        rows += 1;
    }
    assert_eq!(rows, 12);
}

#[test]
fn two_locus_integral_for_partly_heterozygous_parents() {
    let (named, founders, _) = worked();
    let table = json("01_realised_fraction_two_locus.json");
    for row in table["rows"].as_array().unwrap() {
        let name = |field: &str| row[field].as_str().unwrap();
        let species = Part::Species(u32::from(name("species").as_bytes()[0] - b'A'));
        let parents = [named.row(name("seed")), named.row(name("pollen"))];
        let found = share_deviation(
            &named.pedigree,
            &founders,
            parents,
            species,
            Chromosomes::default(),
        );
        assert!(
            close(found, row["sd_within_pod"].as_f64().unwrap()),
            "{row} {found}"
        );
    }
}

#[test]
fn nearly_no_crossing_over_is_nearly_none() {
    let (named, founders, _) = worked();
    let parents = [named.row("F1_AB"), named.row("spA")];
    for pairs in [1, 39, 40] {
        let of = |morgans: f64| {
            let chromosomes = Chromosomes { pairs, morgans };
            share_deviation(
                &named.pedigree,
                &founders,
                parents,
                Part::Species(0),
                chromosomes,
            )
        };
        // One gamete of a first-generation hybrid, half of it a plant's: √(1/(4N))/2.
        assert!(
            close(of(0.0), 0.25 / f64::from(pairs).sqrt()),
            "{}",
            of(0.0)
        );
        let near = of(1e-4) / of(0.0);
        assert!((0.9999..1.0).contains(&near), "{near}");
    }
}

#[test]
fn segregation_variance_of_all_tabled_pods() {
    let (named, founders, _) = worked();
    let table = json("01_segregation_variance.json");
    let unequal = &table["unequal_case"];
    let number = |part: Part| match part {
        Part::Species(number) => number as usize,
        other => panic!("{other:?}"),
    };
    let equal = TraitVariance {
        within: &|_| 1.0,
        between: &|_, _| 4.0,
    };
    let given = TraitVariance {
        within: &|part| unequal["V"][number(part)].as_f64().unwrap(),
        between: &|one, other| unequal["S2"][number(one)][number(other)].as_f64().unwrap(),
    };
    for row in table["crosses"].as_array().unwrap() {
        let parents = ["seed", "pollen"].map(|side| named.row(row[side].as_str().unwrap()));
        let copies = two_copies(&named.pedigree, &founders, &parents).unwrap();
        let heterozygous = |plant: &TwoCopies| {
            plant
                .differing
                .iter()
                .map(|(_, chance)| chance)
                .sum::<f64>()
        };
        assert_eq!(
            heterozygous(&copies[0]),
            row["H_seed"].as_f64().unwrap(),
            "{row}"
        );
        assert_eq!(
            heterozygous(&copies[1]),
            row["H_pollen"].as_f64().unwrap(),
            "{row}"
        );
        assert_eq!(
            within_pod(&copies, &equal),
            row["V_within_pod_equal"].as_f64().unwrap(),
            "{row}"
        );
        let found = within_pod(&copies, &given);
        assert!(
            close(found, row["V_within_pod_unequal"].as_f64().unwrap()),
            "{row} {found}"
        );
    }
}

/// The rows of the methods table that the file does not hold, for V = 1 and S = 4: primary hybrids, F2, sibling
/// matings, three-way and four-way crosses (derived with the formula's source, checked there by simulation).
#[test]
fn segregation_variance_of_common_crosses() {
    let (named, founders, _) = worked();
    let equal = TraitVariance {
        within: &|_| 1.0,
        between: &|_, _| 4.0,
    };
    let wanted = [
        ("spA", "spB", 0.5),
        ("F1_AB", "F1_AB_sib", 4.5),
        ("F1_AB", "F1_AC", 4.5),
        ("BC1_A_1", "BC1_A_2", 2.375),
        ("F3_sib_1", "F3_sib_2", 2.3125),
        ("W4_1", "W4_2", 4.5),
    ];
    for (seed, pollen, variance) in wanted {
        let copies = two_copies(
            &named.pedigree,
            &founders,
            &[named.row(seed), named.row(pollen)],
        )
        .unwrap();
        assert_eq!(within_pod(&copies, &equal), variance, "{seed} {pollen}");
    }
}

/// Founders of one batch of seed are full siblings: their offspring are as those of siblings whose parents are recorded.
/// Under full-sib mating F = 1/4 (S. Wright, "Systems of mating", Genetics 6, 1921, from memory), so the pod of such a
/// plant and an unrelated one of the species varies by 3/16 + 1/4 = 7/16 of the variance between plants.
#[test]
fn a_batch_counts_as_a_pod_whose_parents_are_not_recorded() {
    let mut batch = Pedigree::default();
    let [one, other, mate] = [(); 3].map(|()| batch.add_founder());
    let of_a_species = |plants: &[PlantRow]| -> Founders {
        let each = plants.iter().map(|&of| (of, FounderDescent::Species(0)));
        each.collect()
    };
    let founders = of_a_species(&[one, other, mate]);
    let in_batch = founders.clone().with_batches([(one, 0), (other, 0)].into());
    let pod = batch.add_origin(Origin::certain(Some(one), Some(other)));
    let inbred = batch.add_offspring(pod);

    let mut recorded = Pedigree::default();
    let [seed, pollen, stranger] = [(); 3].map(|()| recorded.add_founder());
    let pod = recorded.add_origin(Origin::certain(Some(seed), Some(pollen)));
    let siblings = [(); 2].map(|()| recorded.add_offspring(pod));
    let pod = recorded.add_origin(Origin::certain(Some(siblings[0]), Some(siblings[1])));
    let twin = recorded.add_offspring(pod);
    let parents = of_a_species(&[seed, pollen, stranger]);

    let equal = TraitVariance {
        within: &|_| 1.0,
        between: &|_, _| 4.0,
    };
    let variance = |pedigree: &Pedigree, founders: &Founders, parents: [PlantRow; 2]| {
        let copies = two_copies(pedigree, founders, &parents).unwrap();
        within_pod(&copies, &equal)
    };
    assert_eq!(variance(&batch, &in_batch, [inbred, mate]), 0.4375);
    assert_eq!(variance(&recorded, &parents, [twin, stranger]), 0.4375);
    assert_eq!(variance(&batch, &founders, [inbred, mate]), 0.5);
}
