//! What is left in a pot of seedlings and in the sowing they come from, against histories that were played: seedlings are
//! pricked out, counted, numbered, sold and die, several things on one day, and what is written down is entered in any order. What
//! stands there in truth is never outside the range but for those that died since, and where every event has a day of its own and
//! none died, the range is that number.

use podbook::observation::community_pot_left::community_pot_left;
use podbook::observation::sowing_left::sowing_left;
use podbook::record::Day;
use podbook::registry::{CrossRow, PotRow, Registry, SowingRow, build};
use podbook::text::Sources;
use proptest::prelude::*;
use std::fmt::Write;

#[derive(Clone, Debug)]
enum What {
    /// So many go into the pot, with or without a count of those left behind.
    Pricked(u32, bool),
    /// So many go into another pot.
    Elsewhere(u32),
    SowingCounted,
    PotCounted,
    NumberedOfSowing(u32),
    NumberedOfPot(u32),
    /// So many die or leave, and that is written down.
    GoneOfPot(u32),
    GoneOfSowing(u32),
    DiedInSowing(u32),
    DiedInPot(u32),
}

use What::*;

/// What happens, whether on the day after what was before, and when it is entered.
type Happens = (What, bool, u8);

fn happens() -> impl Strategy<Value = Happens> {
    let what = prop_oneof![
        3 => (1u32..9, any::<bool>()).prop_map(|(n, left)| Pricked(n, left)),
        1 => (1u32..6).prop_map(Elsewhere),
        2 => Just(SowingCounted),
        2 => Just(PotCounted),
        1 => (1u32..4).prop_map(NumberedOfSowing),
        2 => (1u32..4).prop_map(NumberedOfPot),
        2 => (1u32..4).prop_map(GoneOfPot),
        1 => (1u32..4).prop_map(GoneOfSowing),
        1 => (1u32..4).prop_map(DiedInSowing),
        1 => (1u32..4).prop_map(DiedInPot),
    ];
    (what, any::<bool>(), any::<u8>())
}

/// One line of the book.
struct Line {
    day: u32,
    entered: u8,
    what: What,
    /// What was counted.
    count: u32,
}

#[derive(Default)]
struct Played {
    lines: Vec<Line>,
    sowing: u32,
    pot: u32,
    died_in_sowing: u32,
    died_in_pot: u32,
}

fn played(up: u32, history: &[Happens], is_one_a_day: bool) -> Played {
    let mut of = Played {
        sowing: up,
        ..Played::default()
    };
    let mut day = 1;
    for (what, is_next_day, entered) in history {
        // Whatever is numbered on the day of the only count stood there first: that day is kept for it alone.
        let is_alone = is_one_a_day || matches!(what, NumberedOfSowing(_) | GoneOfSowing(_));
        day += u32::from(*is_next_day || is_alone);
        let (from, into) = match what {
            Pricked(n, _) => (Some((&mut of.sowing, *n)), Some(&mut of.pot)),
            Elsewhere(n) | NumberedOfSowing(n) | GoneOfSowing(n) => {
                (Some((&mut of.sowing, *n)), None)
            }
            NumberedOfPot(n) | GoneOfPot(n) => (Some((&mut of.pot, *n)), None),
            DiedInSowing(n) => (Some((&mut of.sowing, *n)), Some(&mut of.died_in_sowing)),
            DiedInPot(n) => (Some((&mut of.pot, *n)), Some(&mut of.died_in_pot)),
            SowingCounted | PotCounted => (None, None),
        };
        if let Some((from, n)) = from {
            if *from < n {
                continue;
            }
            *from -= n;
            if let Some(into) = into {
                *into += n;
            }
        }
        let count = match what {
            PotCounted => of.pot,
            _ => of.sowing,
        };
        let line = Line {
            day,
            entered: *entered,
            what: what.clone(),
            count,
        };
        of.lines.push(line);
        day += u32::from(is_alone);
    }
    of.lines.sort_by_key(|line| line.entered);
    // What left the sowing is written down beside a count of what stands there; without one it stays unknown.
    if !of
        .lines
        .iter()
        .any(|line| matches!(line.what, SowingCounted))
    {
        let gone = of.lines.iter().map(|line| match line.what {
            GoneOfSowing(n) => n,
            _ => 0,
        });
        of.died_in_sowing += gone.sum::<u32>();
    }
    of
}

/// The page as the lines write it. The pot has a tally from the line that made it; a count of the sowing is a pot of its own.
fn page(up: u32, lines: &[Line]) -> String {
    let [
        mut pricked,
        mut pot,
        mut late,
        mut counts,
        mut other,
        mut seedlings,
        mut gone,
        mut gone_of_sowing,
    ] = [const { String::new() }; 8];
    let mut number = 0;
    for line in lines {
        let on = format!("2024-05-{:02}", line.day);
        let tally = |count: u32| format!("(on: \"{on}\", count: {count}), ");
        let mut numbered = |n: u32, from: &str| {
            for _ in 0..n {
                number += 1;
                let _ = write!(
                    seedlings,
                    "(number: \"{number}\", {from}, numbered: \"{on}\"), "
                );
            }
        };
        match line.what {
            Pricked(n, has_left) => {
                if pot.is_empty() {
                    pot += &tally(n);
                }
                let left = match has_left {
                    true => format!("left: {}, ", line.count),
                    false => String::new(),
                };
                let _ = write!(pricked, "(on: \"{on}\", moved: {n}, {left}to: \"T1\"), ");
                if has_left && !counts.is_empty() {
                    counts += &tally(line.count);
                }
            }
            Elsewhere(n) => {
                let _ = write!(pricked, "(on: \"{on}\", moved: {n}, to: \"T3\"), ");
                if other.is_empty() {
                    other += &tally(n);
                }
            }
            SowingCounted => counts += &tally(line.count),
            PotCounted => late += &tally(line.count),
            NumberedOfSowing(n) => numbered(
                n,
                match counts.is_empty() {
                    true => "sowing: \"S1\"",
                    false => "community_pot: \"T2\"",
                },
            ),
            NumberedOfPot(n) => numbered(n, "community_pot: \"T1\""),
            GoneOfPot(n) => {
                let _ = write!(gone, "(count: {n}, fate: sold(on: \"{on}\")), ");
            }
            GoneOfSowing(n) => {
                let _ = write!(gone_of_sowing, "(count: {n}, fate: culled(on: \"{on}\")), ");
            }
            DiedInSowing(_) | DiedInPot(_) => {}
        }
    }
    // The pot is made by the first pricking that is entered; counts of it are entered after that.
    let pots = [
        ("T1", pot.clone() + &late, gone),
        ("T2", counts, gone_of_sowing),
        ("T3", other, String::new()),
    ];
    let pots = pots
        .iter()
        .filter(|(code, alive, _)| !alive.is_empty() && (*code != "T1" || !pot.is_empty()));
    let pots = pots.map(|(code, alive, gone)| {
        format!("(code: \"{code}\", sowing: \"S1\", alive: [{alive}], gone: [{gone}])")
    });
    let pots: Vec<String> = pots.collect();
    let pots = pots.join(", ");
    format!(
        "(code: \"X24-01\", parents: known(seed: \"A1\", pollen: \"B1\"), \
         sowings: [(code: \"S1\", on: \"2024-01-01\", germinated: [(on: \"2024-04-01\", count: {up})], \
         pricked_out: [{pricked}])], community_pots: [{pots}], seedlings: [{seedlings}])"
    )
}

/// What is left in the pot of a code.
fn left(registry: &Registry, code: &str) -> Option<(u32, u32)> {
    let cross = CrossRow::new(0);
    let at = registry[cross].page.community_pots.iter();
    let at = at.clone().position(|pot| pot.code == code)?;
    community_pot_left(registry, PotRow { cross, at }, today()).left
}

fn today() -> Day {
    Day::new(2024, 6, 1).unwrap()
}

fn holds(range: (u32, u32), truth: u32, died: u32) -> bool {
    let (least, most) = range;
    truth <= most && least <= truth + died
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]
    #[test]
    fn the_range_holds_what_stands_there_whatever_was_entered_first(
        up in 0u32..40,
        is_one_a_day in any::<bool>(),
        history in prop::collection::vec(happens(), 0..12),
    ) {
        let of = played(up, &history, is_one_a_day);
        let mut sources = Sources::new();
        sources.add("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)".to_owned());
        sources.add(
            "clones.ron",
            "(clones: [(code: \"A1\", received: \"N. ventricosa\"), (code: \"B1\", received: \"N. spathulata\")])".to_owned(),
        );
        let page = page(up, &of.lines);
        sources.add("crosses/X24-01.ron", page.clone());
        let (registry, findings) = build(&sources);
        prop_assert!(findings.is_empty(), "{findings:?}\n{page}");
        let said = format!("{} in the pot, {} in the sowing\n{page}", of.pot, of.sowing);
        if let Some(range) = left(&registry, "T1") {
            prop_assert!(holds(range, of.pot, of.died_in_pot), "T1 {range:?}: {said}");
            if is_one_a_day && of.died_in_pot == 0 {
                prop_assert_eq!(range, (of.pot, of.pot), "T1: {}", said);
            }
        }
        if let Some(range) = left(&registry, "T2") {
            prop_assert!(holds(range, of.sowing, of.died_in_sowing), "T2 {range:?}: {said}");
            let is_sure = !page.contains("(number: \"1\", sowing") && !page.contains(", sowing: \"S1\", numbered");
            if is_one_a_day && of.died_in_sowing == 0 && is_sure {
                prop_assert_eq!(range, (of.sowing, of.sowing), "T2: {}", said);
            }
        }
        let row = SowingRow { cross: CrossRow::new(0), at: 0 };
        let range = sowing_left(&registry, row, today()).left.unwrap();
        prop_assert!(holds(range, of.sowing, of.died_in_sowing), "S1 {range:?}: {said}");
    }
}
