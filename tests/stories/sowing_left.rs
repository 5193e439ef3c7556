//! What is left in a sowing, against histories that were played: seedlings come up, are pricked out, get numbers and die, and
//! only some of that is written down. What stands there in truth is never outside the range, and where a pricking says how
//! many were left, the range is that number less those taken out since; where none says so, its end is what stands and what died.

use podbook::observation::sowing_left::sowing_left;
use podbook::record::Day;
use podbook::registry::{CrossRow, SowingRow, build};
use podbook::text::Sources;
use proptest::prelude::*;
use std::fmt::Write;

/// One thing that happens, each on a day of its own.
#[derive(Clone, Debug)]
enum Happens {
    /// So many are pricked out, with or without a note of how many were left, into a pot or into plugs that have no code.
    Pricked(u32, bool, bool),
    /// So many get numbers, out of the sowing or out of the plugs.
    Numbered(u32, bool),
    /// So many die, and nothing is written.
    Died(u32),
}

fn happens() -> impl Strategy<Value = Happens> {
    prop_oneof![
        (1u32..12, any::<bool>(), any::<bool>())
            .prop_map(|(n, noted, plugs)| Happens::Pricked(n, noted, plugs)),
        (1u32..6, any::<bool>()).prop_map(|(n, plugs)| Happens::Numbered(n, plugs)),
        (1u32..6).prop_map(Happens::Died),
    ]
}

/// What was written of a history, and what is true at its end.
#[derive(Default)]
struct Played {
    prickings: String,
    pots: String,
    seedlings: String,
    standing: u32,
    in_plugs: u32,
    has_plugs: bool,
    died: u32,
    /// How many died, without a word, since what was left was noted at a pricking.
    died_since_note: Option<u32>,
}

fn played(up: u32, history: &[Happens]) -> Played {
    let mut of = Played {
        standing: up,
        ..Played::default()
    };
    let mut numbers = 0;
    for (day, what) in history.iter().enumerate() {
        let on = format!("2024-05-{:02}", day + 1);
        match *what {
            Happens::Pricked(n, noted, plugs) if n <= of.standing => {
                of.standing -= n;
                let left = match noted {
                    true => format!(", left: {}", of.standing),
                    false => String::new(),
                };
                let to = match plugs {
                    true => "plugs".to_owned(),
                    false => format!("T{day}"),
                };
                let _ = write!(
                    of.prickings,
                    "(on: \"{on}\", moved: {n}{left}, to: \"{to}\"), "
                );
                if plugs {
                    (of.in_plugs, of.has_plugs) = (of.in_plugs + n, true);
                } else {
                    let _ = write!(
                        of.pots,
                        "(code: \"T{day}\", sowing: \"S1\", alive: [(on: \"{on}\", count: {n})]), "
                    );
                }
                if noted {
                    of.died_since_note = Some(0);
                }
            }
            Happens::Numbered(n, plugs) if n <= (if plugs { of.in_plugs } else { of.standing }) => {
                match plugs {
                    true => of.in_plugs -= n,
                    false => of.standing -= n,
                }
                for _ in 0..n {
                    numbers += 1;
                    let _ = write!(
                        of.seedlings,
                        "(number: \"{numbers}\", sowing: \"S1\", numbered: \"{on}\"), "
                    );
                }
            }
            Happens::Died(n) if n <= of.standing => {
                of.standing -= n;
                of.died += n;
                of.died_since_note = of.died_since_note.map(|died| died + n);
            }
            _ => {}
        }
    }
    of
}

proptest! {
    #[test]
    fn the_range_holds_what_stands_there(up in 0u32..60, history in prop::collection::vec(happens(), 0..9)) {
        let of = played(up, &history);
        let mut sources = Sources::new();
        sources.add("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)".to_owned());
        sources.add(
            "clones.ron",
            "(clones: [(code: \"A1\", received: \"N. ventricosa\"), (code: \"B1\", received: \"N. spathulata\")])".to_owned(),
        );
        sources.add(
            "crosses/X24-01.ron",
            format!(
                "(code: \"X24-01\", parents: known(seed: \"A1\", pollen: \"B1\"), \
                 sowings: [(code: \"S1\", on: \"2024-01-01\", germinated: [(on: \"2024-04-01\", count: {up})], \
                 pricked_out: [{}])], community_pots: [{}], seedlings: [{}])",
                of.prickings, of.pots, of.seedlings
            ),
        );
        let (registry, findings) = build(&sources);
        prop_assert!(findings.is_empty(), "{findings:?}");
        let row = SowingRow { cross: CrossRow::new(0), at: 0 };
        let today = Day::new(2024, 6, 1).unwrap();
        let (least, most) = sowing_left(&registry, row, today).left.unwrap();
        let died: u32 = history.iter().map(|what| if let Happens::Died(n) = what { *n } else { 0 }).sum();
        prop_assert!(of.standing <= most, "{} of {least}-{most}", of.standing);
        prop_assert!(least <= of.standing || died > 0, "{} of {least}-{most}", of.standing);
        if !of.has_plugs {
            // All that were taken out are on record, so only the dead are too many.
            let expected = match of.died_since_note {
                Some(died) => (of.standing + died, of.standing + died),
                None => (0, of.standing + of.died),
            };
            prop_assert_eq!((least, most), expected);
        }
    }
}
