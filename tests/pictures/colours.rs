//! The palette of species, seen by eyes that lack one kind of cone.

use podbook::render::scene::{Colour, PAPER, SPECIES, SpeciesLook, species_look};

/// Linear RGB as seen without long, middle or short cones: Machado, Oliveira & Fernandes (2009), severity 1.0. The
/// coefficients are from memory; each row sums to 1, as it must for greys to stay grey, and that is tested.
const LACKING: [(&str, [[f64; 3]; 3]); 4] = [
    ("none", [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]),
    (
        "long",
        [
            [0.152286, 1.052583, -0.204868],
            [0.114503, 0.786281, 0.099216],
            [-0.003882, -0.048116, 1.051998],
        ],
    ),
    (
        "middle",
        [
            [0.367322, 0.860646, -0.227968],
            [0.280085, 0.672501, 0.047413],
            [-0.011820, 0.042940, 0.968881],
        ],
    ),
    (
        "short",
        [
            [1.255528, -0.076749, -0.178779],
            [-0.078411, 0.930809, 0.147602],
            [0.004733, 0.691367, 0.303900],
        ],
    ),
];

fn linear(part: u8) -> f64 {
    let value = f64::from(part) / 255.0;
    if value <= 0.04045 {
        value / 12.92
    } else {
        ((value + 0.055) / 1.055).powf(2.4)
    }
}

/// CIE L*a*b* under D65 of a colour as seen.
fn seen(colour: Colour, matrix: &[[f64; 3]; 3]) -> [f64; 3] {
    let rgb = [linear(colour.0), linear(colour.1), linear(colour.2)];
    let [r, g, b] = matrix.map(|row| {
        row.iter()
            .zip(rgb)
            .map(|(a, b)| a * b)
            .sum::<f64>()
            .clamp(0.0, 1.0)
    });
    let f = |t: f64| {
        if t > 0.008856 {
            t.cbrt()
        } else {
            7.787 * t + 16.0 / 116.0
        }
    };
    let x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.95047);
    let y = f(0.2126 * r + 0.7152 * g + 0.0722 * b);
    let z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.08883);
    [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
}

fn distance(a: [f64; 3], b: [f64; 3]) -> f64 {
    a.iter()
        .zip(b)
        .map(|(a, b)| (a - b) * (a - b))
        .sum::<f64>()
        .sqrt()
}

#[test]
fn greys_stay_grey() {
    for (cone, matrix) in &LACKING {
        for row in matrix {
            assert!((row.iter().sum::<f64>() - 1.0).abs() < 1e-5, "{cone}");
        }
    }
}

/// A difference of 20 in CIE 1976 terms is about nine times what is just noticeable (2.3; Mahy et al. 1994).
#[test]
fn every_two_species_stay_apart_for_every_eye() {
    for (cone, matrix) in &LACKING {
        for (rank, &one) in SPECIES.iter().enumerate() {
            for &other in SPECIES[..rank].iter().chain([&PAPER]) {
                let apart = distance(seen(one, matrix), seen(other, matrix));
                assert!(
                    apart >= 19.5,
                    "{cone}: {one:?} and {other:?} are {apart:.1} apart"
                );
            }
        }
    }
}

/// Written down once from the program: a species keeps its look for good, and no two of these share one.
#[test]
fn a_species_has_the_same_look_for_good() {
    let looks = [
        ("ventricosa", 1, 3),
        ("spathulata", 3, 2),
        ("burbidgeae", 0, 0),
        ("truncata", 2, 1),
        ("hamata", 7, 0),
        ("jacquelineae", 8, 2),
        ("talangensis", 4, 2),
        ("mira", 6, 1),
    ];
    for (epithet, colour, hatching) in looks {
        let colour = SPECIES[colour];
        assert_eq!(
            species_look(epithet),
            SpeciesLook { colour, hatching },
            "{epithet}"
        );
    }
}

/// Every combination of colour and hatching is given to some name.
#[test]
fn looks_are_spread_over_colours_and_hatchings() {
    let mut counts = vec![0usize; 4 * SPECIES.len()];
    for number in 0..3600 {
        let look = species_look(&format!("species{number}"));
        let colour = SPECIES.iter().position(|one| *one == look.colour);
        counts[look.hatching * SPECIES.len() + colour.expect("a colour of the palette")] += 1;
    }
    assert!(
        counts.iter().all(|&count| (50..=150).contains(&count)),
        "{counts:?}"
    );
}

#[test]
fn letters_on_a_colour_are_readable() {
    let luminance = |colour: Colour| {
        0.2126 * linear(colour.0) + 0.7152 * linear(colour.1) + 0.0722 * linear(colour.2)
    };
    for colour in SPECIES {
        let (a, b) = (luminance(colour), luminance(colour.letters_on()));
        let contrast = (a.max(b) + 0.05) / (a.min(b) + 0.05);
        assert!(contrast >= 4.5, "{colour:?}: {contrast:.2}");
    }
}

#[test]
fn names_in_colour_are_readable() {
    let luminance = |colour: Colour| {
        0.2126 * linear(colour.0) + 0.7152 * linear(colour.1) + 0.0722 * linear(colour.2)
    };
    for colour in SPECIES {
        let contrast = (luminance(PAPER) + 0.05) / (luminance(colour.readable()) + 0.05);
        assert!(contrast >= 4.5, "{colour:?}: {contrast:.2}");
    }
}
