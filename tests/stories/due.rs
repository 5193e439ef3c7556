//! What is due, on small registries: each task with its days worked out by hand, and the same task gone when it is done.

use podbook::analysis::due::{Basis, By, DueOptions, DueReport, Task, Urgency, due};
use podbook::context::Context;
use podbook::record::{Day, PollenLife};
use podbook::registry::build;
use podbook::text::Sources;

const SETTINGS: &str = "genus: \"Nepenthes\", hemisphere: north, \
     traits: [(code: \"span\", name: \"leaf span\", reads: length(cm)), \
              (code: \"leaves\", name: \"leaf count\", reads: count)]";

/// Two founders of known sex, and one cross page with these parts.
struct Small {
    settings: String,
    clones: String,
    pollen: String,
    pages: Vec<String>,
}

fn small(parts: &str) -> Small {
    Small {
        settings: SETTINGS.to_owned(),
        clones: "(code: \"A1\", received: \"N. ventricosa\", ramets: [(code: \"a\"), (code: \"b\")]), \
                 (code: \"B1\", received: \"N. spathulata\", ramets: [(code: \"a\"), (code: \"b\")])"
            .to_owned(),
        pollen: String::new(),
        pages: vec![page("X24-01", parts)],
    }
}

fn page(code: &str, parts: &str) -> String {
    format!("(code: \"{code}\", parents: known(seed: \"A1\", pollen: \"B1\"), {parts})")
}

fn day(text: &str) -> Day {
    let parts: Vec<i32> = text
        .split('-')
        .map(|part| part.parse().expect("a number"))
        .collect();
    Day::new(parts[0], parts[1] as u32, parts[2] as u32).expect("a day")
}

impl Small {
    fn settings(mut self, more: &str) -> Small {
        self.settings = format!("{SETTINGS}, {more}");
        self
    }

    fn clones(mut self, clones: &str) -> Small {
        self.clones = clones.to_owned();
        self
    }

    fn pollen(mut self, lots: &str) -> Small {
        self.pollen = lots.to_owned();
        self
    }

    fn page(mut self, code: &str, parts: &str) -> Small {
        self.pages.push(page(code, parts));
        self
    }

    fn on(&self, today: &str) -> DueReport {
        self.with(today, PollenLife::default())
    }

    fn with(&self, today: &str, pollen_lasts: PollenLife) -> DueReport {
        let mut sources = Sources::new();
        sources.add("registry.ron", format!("({})", self.settings));
        sources.add("clones.ron", format!("(clones: [{}])", self.clones));
        sources.add("pollen.ron", format!("(lots: [{}])", self.pollen));
        for (at, page) in self.pages.iter().enumerate() {
            sources.add(format!("crosses/{at}.ron"), page.clone());
        }
        let (registry, findings) = build(&sources);
        assert!(findings.is_empty(), "{findings:?}");
        let options = DueOptions {
            within: 30,
            pollen_lasts,
        };
        due(&Context::of(&registry, day(today)), options)
    }
}

/// Urgency, code and first and last day of every task of a kind.
fn tasks(report: &DueReport, is: impl Fn(&Task) -> bool) -> Vec<(Urgency, &str, String)> {
    let of = report.rows.iter().filter(|row| is(&row.task));
    of.map(|row| {
        let days = row.window.map_or("none".to_owned(), |on| {
            format!("{} {}", Day(on.earliest), Day(on.latest))
        });
        (row.urgency, row.code.as_str(), days)
    })
    .collect()
}

fn is_harvest(task: &Task) -> bool {
    matches!(task, Task::Harvest { .. })
}

const DUSTED: &str =
    "pollinations: [(zone: \"A\", on: [\"2024-02-01\", \"2024-02-03\"], flowers: 8, set: 5)]";

/// 60 to 180 days by common practice: 1 February + 60 is 1 April, 3 February + 180 is 1 August (2024 is a leap year).
#[test]
fn a_pod_is_soon_ripe_then_due_then_overdue_then_a_record_left_open() {
    let small = small(DUSTED);
    let urgency = |today: &str| tasks(&small.on(today), is_harvest).first().map(|of| of.0);
    assert_eq!(urgency("2024-03-01"), None);
    assert_eq!(urgency("2024-03-02"), Some(Urgency::Soon));
    assert_eq!(urgency("2024-04-01"), Some(Urgency::Now));
    assert_eq!(urgency("2024-08-01"), Some(Urgency::Now));
    assert_eq!(urgency("2024-08-02"), Some(Urgency::Overdue));
    // Three months, 90 days, after 1 August.
    assert_eq!(urgency("2024-10-30"), Some(Urgency::Overdue));
    assert_eq!(urgency("2024-10-31"), Some(Urgency::LongOverdue));
    let report = small.on("2024-05-01");
    let of = tasks(&report, is_harvest);
    assert_eq!(
        of,
        [(Urgency::Now, "X24-01.A", "2024-04-01 2024-08-01".to_owned())]
    );
}

#[test]
fn nothing_is_harvested_twice_and_nothing_that_did_not_take() {
    for done in [
        "pods: [(code: \"P1\", zone: \"A\", harvested: \"2024-06-01\")]",
        "pods: [(code: \"P1\", harvested: \"2024-06-01\")]",
        "pods: [(code: \"P1\", zone: \"A\")], seed_lots: [(code: \"L1\", pod: \"P1\", seeds: 9)]",
        "sowings: [(code: \"S1\", on: \"2024-06-10\")]",
    ] {
        let report = small(&format!("{DUSTED}, {done}")).on("2024-07-01");
        assert!(tasks(&report, is_harvest).is_empty(), "{done}");
    }
    let none = small(&DUSTED.replace("set: 5", "set: 0")).on("2024-07-01");
    assert!(tasks(&none, is_harvest).is_empty());
    // Of two zones the one that is off is off.
    let two = "pollinations: [(zone: \"A\", on: [\"2024-02-01\"], flowers: 8, set: 5), \
               (zone: \"B\", on: [\"2024-02-01\"], flowers: 8, set: 5)], \
               pods: [(code: \"P1\", zone: \"A\", harvested: \"2024-06-01\")]";
    let report = small(two).on("2024-07-01");
    assert_eq!(tasks(&report, is_harvest).len(), 1);
    assert_eq!(tasks(&report, is_harvest)[0].1, "X24-01.B");
}

/// Pods of other crosses took 100, 120 and 150 days. Two of them only widen common practice; three stand alone.
#[test]
fn own_pods_make_the_range_from_the_third_on() {
    let past = |code: &str, harvested: &str| {
        format!(
            "pollinations: [(zone: \"A\", on: [\"2022-01-01\"], flowers: 4, set: 2)], \
             pods: [(code: \"{code}\", zone: \"A\", harvested: \"{harvested}\")]"
        )
    };
    let two = small(DUSTED)
        .page("X22-01", &past("P1", "2022-04-11"))
        .page("X22-02", &past("P1", "2022-08-29"));
    let range = |small: &Small| {
        let report = small.on("2024-06-01");
        let row = report
            .rows
            .iter()
            .find(|row| is_harvest(&row.task))
            .expect("a pod");
        match row.basis {
            Basis::Days(range) => (range.days, range.by, range.own),
            _ => panic!("{:?}", row.basis),
        }
    };
    // 11 April is day 100 after 1 January 2022, 29 August day 240.
    assert_eq!(range(&two), ((60, 240), By::Practice, 2));
    let three = two.page("X22-03", &past("P1", "2022-05-01"));
    assert_eq!(range(&three), ((100, 240), By::OwnRecords, 3));
    // A harvest still to come on that day counts for nothing.
    let later = three.page("X23-01", &past("P1", "2024-06-02"));
    assert_eq!(range(&later), ((100, 240), By::OwnRecords, 3));
    let set = small(DUSTED).settings("intervals: (pods_ripen: (90, 110))");
    assert_eq!(range(&set), ((90, 110), By::Registry, 0));
}

#[test]
fn a_zone_is_dusted_again_while_its_spike_is_open() {
    let clones = |over: &str| {
        format!(
            "(code: \"A1\", received: \"N. ventricosa\", ramets: [(code: \"a\"), (code: \"b\")], \
             flowerings: [(opened: \"2024-05-01\", over: \"{over}\", sex: female)]), \
             (code: \"B1\", received: \"N. spathulata\", ramets: [(code: \"a\"), (code: \"b\")])"
        )
    };
    let dusted = "pollinations: [(zone: \"A\", on: [\"2024-05-04\"], flowers: 8)]";
    let is_dust = |task: &Task| matches!(task, Task::DustAgain { .. });
    let open = small(dusted).clones(&clones("2024-05-20"));
    let report = open.on("2024-05-05");
    assert_eq!(
        tasks(&report, is_dust),
        [(Urgency::Now, "X24-01.A", "2024-05-05 2024-05-07".to_owned())]
    );
    // Late, but not too late while flowers open.
    assert_eq!(tasks(&open.on("2024-05-15"), is_dust)[0].0, Urgency::Now);
    assert_eq!(
        report.rows[0].code, "X24-01.A",
        "what spoils first comes first"
    );
    // The plant's own row would say the same twice.
    assert!(tasks(&report, |task| matches!(task, Task::Spike { .. })).is_empty());
    assert!(tasks(&open.on("2024-05-21"), is_dust).is_empty());
    let counted = small(&dusted.replace("flowers: 8", "flowers: 8, set: 3"));
    let counted = counted.clones(&clones("2024-05-20"));
    assert!(tasks(&counted.on("2024-05-05"), is_dust).is_empty());
}

#[test]
fn a_spike_names_the_pollen_that_can_be_put_on_it_and_not_its_own() {
    let clones = "(code: \"A1\", received: \"N. ventricosa\", flowerings: [(opened: \"2024-05-01\", over: \"2024-05-20\", sex: female)]), \
         (code: \"B1\", received: \"N. spathulata\", flowerings: [(opened: \"2024-05-10\", over: \"2024-05-25\", sex: male)])";
    let lots = "(code: \"OLD\", from: plant(\"B1\"), collected: \"2020-05-01\", stored: fridge), \
         (code: \"NEW\", from: plant(\"B1\"), collected: \"2024-03-01\", stored: fridge), \
         (code: \"MIX\", from: unknown, collected: \"2024-03-01\", stored: fridge)";
    let report = small("").clones(clones).pollen(lots).on("2024-05-05");
    let pollen = |code: &str| {
        let row = report.rows.iter().find(|row| row.code == code);
        match &row.expect("a spike").task {
            Task::Spike { pollen, .. } => pollen.clone(),
            task => panic!("{task:?}"),
        }
    };
    assert_eq!(pollen("A1"), ["B1", "NEW"]);
    assert!(pollen("B1").is_empty());
}

/// In the fridge for 100 days by the goals: 1 March + 100 is 9 June.
#[test]
fn pollen_ages_by_the_goals_and_is_a_record_left_open_afterwards() {
    let small = small("")
        .pollen("(code: \"E1\", from: plant(\"B1\"), collected: \"2024-03-01\", stored: fridge)");
    let lasts = PollenLife {
        fridge: Some(100),
        ..PollenLife::default()
    };
    let is_pollen = |task: &Task| matches!(task, Task::UsePollen { .. });
    let urgency = |today| {
        let report = small.with(today, lasts);
        tasks(&report, is_pollen).first().map(|of| of.0)
    };
    assert_eq!(urgency("2024-05-09"), None);
    assert_eq!(urgency("2024-05-10"), Some(Urgency::Soon));
    assert_eq!(urgency("2024-06-09"), Some(Urgency::Now));
    assert_eq!(urgency("2024-06-10"), Some(Urgency::LongOverdue));
    // Without goals a year is what growers report of a fridge.
    assert_eq!(tasks(&small.on("2025-03-01"), is_pollen)[0].0, Urgency::Now);
}

#[test]
fn seed_waits_until_it_is_sown_or_given_away() {
    let lot = |more: &str| {
        format!(
            "pods: [(code: \"P1\", harvested: \"2024-06-01\")], \
             seed_lots: [(code: \"L1\", pod: \"P1\", seeds: 100, given_away: 40)], {more}"
        )
    };
    let is_seed = |task: &Task| matches!(task, Task::Sow { .. });
    let left = |parts: &str| {
        let report = small(parts).on("2024-06-15");
        let row = report.rows.iter().find(|row| is_seed(&row.task))?;
        match row.task {
            Task::Sow { seeds, .. } => seeds,
            _ => None,
        }
    };
    assert_eq!(left(&lot("")), Some(60));
    let sown = "sowings: [(code: \"S1\", lot: \"L1\", on: \"2024-06-05\", seeds: 25)]";
    assert_eq!(left(&lot(sown)), Some(35));
    assert_eq!(left(&lot(&sown.replace("25", "60"))), None);
    // How many were sown is not known: nothing is claimed to be left.
    assert_eq!(left(&lot(&sown.replace(", seeds: 25", ""))), None);
    // What left in parts by that day is not there any more, and nothing of what ended as a whole.
    let parts = |more: &str| left(&lot("").replace("given_away: 40", more));
    let sold = "gone: [(count: 30, fate: sold(on: \"2024-06-10\")), (count: 5, fate: culled(on: \"2024-07\"))]";
    assert_eq!(parts(sold), Some(70));
    assert_eq!(parts("fate: culled(on: \"2024-06-10\")"), None);
    // Of bought seed the day it came counts, and only where no harvest is on record.
    let bought = |lot: &str| {
        let bought = small(&format!(
            "pods: [(code: \"P1\")], seed_lots: [(code: \"L1\", pod: \"P1\", seeds: 9{lot})]"
        ));
        let report = bought.on("2024-06-15");
        let row = report.rows.into_iter().find(|row| is_seed(&row.task))?;
        Some((row.since, row.urgency))
    };
    let came = |on: &str| bought(&format!(", came: \"{on}\""));
    let since = |on: &str| Some(on.to_owned());
    assert_eq!(bought(""), Some((None, Urgency::NoDate)));
    assert_eq!(
        came("2024-06-10"),
        Some((since("2024-06-10"), Urgency::Now))
    );
    assert_eq!(
        came("2024-05-01"),
        Some((since("2024-05-01"), Urgency::Overdue))
    );
    assert_eq!(came("2024-07-01"), None);
    let whole = small("pods: [(code: \"P1\", harvested: \"2024-06-01\", seeds: 70)]");
    let report = whole.on("2024-06-15");
    assert_eq!(
        tasks(&report, is_seed),
        [(
            Urgency::Now,
            "X24-01.P1",
            "2024-06-01 2024-07-01".to_owned()
        )]
    );
}

/// First count 28 to 84 days after sowing, the next 14 to 28 days after the last, until there is something to prick out.
#[test]
fn seedlings_are_counted_then_pricked_out() {
    let is_count = |task: &Task| matches!(task, Task::CountSeedlings { .. });
    let is_prick = |task: &Task| matches!(task, Task::PrickOut { .. });
    let sown = |counts: &str| {
        small(&format!(
            "sowings: [(code: \"S1\", on: \"2024-01-01\", seeds: 50{counts})]"
        ))
    };
    let first = sown("").on("2024-02-01");
    assert_eq!(
        tasks(&first, is_count),
        [(
            Urgency::Now,
            "X24-01.S1",
            "2024-01-29 2024-03-25".to_owned()
        )]
    );
    assert!(tasks(&first, is_prick).is_empty());
    let counted = sown(", germinated: [(on: \"2024-02-10\", count: 12)]");
    let again = counted.on("2024-02-20");
    assert_eq!(
        tasks(&again, is_count),
        [(
            Urgency::Soon,
            "X24-01.S1",
            "2024-02-24 2024-03-09".to_owned()
        )]
    );
    // 120 days after 1 January is 30 April.
    let later = counted.on("2024-05-10");
    assert!(tasks(&later, is_count).is_empty());
    assert_eq!(
        tasks(&later, is_prick),
        [(
            Urgency::Now,
            "X24-01.S1",
            "2024-04-30 2024-12-31".to_owned()
        )]
    );
    let done = sown(
        ", germinated: [(on: \"2024-02-10\", count: 12)], pricked_out: [(on: \"2024-05-01\", moved: 12)]",
    );
    assert!(tasks(&done.on("2024-05-10"), is_prick).is_empty());
}

/// 14 to 28 days after the others were taken out, for a year; not where a record says that nothing is left.
#[test]
fn what_is_left_in_a_sowing_is_pricked_out_too() {
    let is_prick = |task: &Task| matches!(task, Task::PrickOut { .. });
    let sown = |more: &str| {
        small(&format!(
            "sowings: [(code: \"S1\", on: \"2023-01-01\", germinated: [(on: \"2023-03-01\", count: 30)]{more})]"
        ))
    };
    let pricked = ", pricked_out: [(on: \"2023-09-01\", moved: 20, left: 7)]";
    let left = sown(pricked);
    assert_eq!(
        tasks(&left.on("2023-09-20"), is_prick),
        [(
            Urgency::Now,
            "X24-01.S1",
            "2023-09-15 2023-09-29".to_owned()
        )]
    );
    let seedlings = |small: &Small| {
        let report = small.on("2023-09-20");
        let row = report.rows.iter().find(|row| is_prick(&row.task))?;
        match row.task {
            Task::PrickOut { seedlings, is_rest } => seedlings.filter(|_| is_rest),
            _ => None,
        }
    };
    assert_eq!(seedlings(&left), Some((7, 7)));
    assert!(!tasks(&left.on("2024-08-31"), is_prick).is_empty());
    assert!(tasks(&left.on("2024-09-01"), is_prick).is_empty());
    for gone in [
        format!("{pricked}, fate: culled(on: \"2023-09-02\")"),
        ", pricked_out: [(on: \"2023-09-01\", moved: 30)]".to_owned(),
        // More came up than were taken out, but that any were left is not recorded.
        ", pricked_out: [(on: \"2023-09-01\", moved: 20)]".to_owned(),
        ", pricked_out: [(on: \"2023-09-01\", moved: 20, left: 0)]".to_owned(),
    ] {
        let report = sown(&gone).on("2023-09-20");
        assert!(tasks(&report, is_prick).is_empty(), "{gone}");
    }
    // A sowing that came to nothing is no more to be counted.
    let is_count = |task: &Task| matches!(task, Task::CountSeedlings { .. });
    let unseen = |more: &str| {
        small(&format!(
            "sowings: [(code: \"S1\", on: \"2024-01-01\"{more})]"
        ))
        .on("2024-03-01")
    };
    assert!(!tasks(&unseen(""), is_count).is_empty());
    let ended = unseen(", fate: died(on: \"2024-02-20\", cause: \"mould\")");
    assert!(tasks(&ended, is_count).is_empty());
}

#[test]
fn the_seedlings_in_a_sowing_are_pricked_out_until_all_are_numbered() {
    let is_prick = |task: &Task| matches!(task, Task::PrickOut { .. });
    let pot = |seedlings: &str| {
        small(&format!(
            "sowings: [(code: \"S1\", on: \"2024-01-01\")], \
             community_pots: [(code: \"T1\", sowing: \"S1\", alive: [(on: \"2024-05-01\", count: 2)])], \
             seedlings: [{seedlings}]"
        ))
    };
    let report = pot("").on("2024-06-01");
    // What was counted is still in the sowing, and `prick` takes the code of that.
    assert_eq!(tasks(&report, is_prick)[0].1, "X24-01.S1");
    let numbered = "(number: \"1\", community_pot: \"T1\", numbered: \"2024-05-10\"), \
                    (number: \"2\", community_pot: \"T1\", numbered: \"2024-05-10\")";
    assert!(tasks(&pot(numbered).on("2024-06-01"), is_prick).is_empty());
    // A pot of its own is what they were pricked out into, though no record says when.
    let tray = small(
        "sowings: [(code: \"S1\", on: \"2024-01-01\")], \
         community_pots: [(code: \"T1\", sowing: \"S1\", alive: [(on: \"2024-05-01\", count: 2)], pot: \"plug tray 7\")]",
    );
    assert!(tasks(&tray.on("2024-06-01"), is_prick).is_empty());
}

/// X22-01 was read at 20 months; X24-01, sown on 1 January 2024, is 20 ± ½ months old from 17 August to 15 September 2025
/// (19.5 × 30.4375 = 593.5 days, 20.5 × 30.4375 = 624.0).
#[test]
fn a_sitting_is_due_at_the_age_at_which_others_were_read() {
    let is_sitting = |task: &Task| matches!(task, Task::TakeSitting { .. });
    let three = "seedlings: [(number: \"1\", sowing: \"S1\"), (number: \"2\", sowing: \"S1\"), (number: \"3\", sowing: \"S1\")]";
    let read = |on: &str| {
        format!(
            "sittings: [(on: \"{on}\", columns: [\"span cm\"], rows: [[\"1\", \"4\"], [\"2\", \"5\"], [\"3\", \"6\"]])]"
        )
    };
    let sown = |on: &str| format!("sowings: [(code: \"S1\", on: \"{on}\")], {three}");
    // 609 days, 20.0 months, after 1 January 2022.
    let old = format!("{}, {}", sown("2022-01-01"), read("2023-09-02"));
    let young = small(&sown("2024-01-01")).page("X22-01", &old);
    let due_on = |today: &str| young.on(today);
    assert!(tasks(&due_on("2025-07-15"), is_sitting).is_empty());
    let report = due_on("2025-08-01");
    assert_eq!(
        tasks(&report, is_sitting),
        [(
            Urgency::Soon,
            "X24-01.S1",
            "2025-08-17 2025-09-16".to_owned()
        )]
    );
    let row = report
        .rows
        .iter()
        .find(|row| is_sitting(&row.task))
        .expect("a sitting");
    let Task::TakeSitting {
        months,
        plants,
        beside,
    } = &row.task
    else {
        panic!("{:?}", row.task)
    };
    assert!((months - 609.0 / 30.4375).abs() < 1e-9);
    assert_eq!((*plants, &beside[..]), (3, &["X22-01.S1".to_owned()][..]));
    assert_eq!(row.basis, Basis::ReadBefore);
    // Once it is past it cannot be made up for, and once it is taken it is not asked for again.
    assert!(tasks(&due_on("2025-09-17"), is_sitting).is_empty());
    let taken = format!("{}, {}", sown("2024-01-01"), read("2025-08-20"));
    let taken = small(&taken).page("X22-01", &old).on("2025-08-25");
    assert!(tasks(&taken, is_sitting).is_empty());
}

/// A sitting from which nothing can be set beside the others leaves the readings due: remarks, another trait, lengths
/// without a unit, plants with pests. So does one of which the others have nothing to compare.
#[test]
fn a_sitting_with_nothing_to_compare_leaves_the_readings_due() {
    let is_sitting = |task: &Task| matches!(task, Task::TakeSitting { .. });
    let sown = |on: &str, sitting: &str, columns: &str, cells: &str| {
        let row = |number: u32| format!("[\"{number}\", {cells}]");
        let (rows, seedling) = ([1, 2, 3].map(row).join(", "), |number: u32| {
            format!("(number: \"{number}\", sowing: \"S1\")")
        });
        let seedlings = [1, 2, 3].map(seedling).join(", ");
        format!(
            "sowings: [(code: \"S1\", on: \"{on}\")], seedlings: [{seedlings}], \
             sittings: [(on: \"{sitting}\", columns: [{columns}], rows: [{rows}])]"
        )
    };
    let span = ("\"span cm\"", "\"4\"");
    let old = |(columns, cells)| sown("2022-01-01", "2023-09-02", columns, cells);
    let asked = |young: (&str, &str), old: String| {
        let young = sown("2024-01-01", "2025-08-20", young.0, young.1);
        let report = small(&young).page("X22-01", &old).on("2025-08-25");
        tasks(&report, is_sitting).len()
    };
    for (columns, cells) in [
        ("\"note\"", "\"pale\""),
        ("\"leaves\"", "\"6\""),
        ("\"span\"", "\"4\""),
        ("\"span cm\", \"pest\"", "\"4\", \"thrips\""),
    ] {
        assert_eq!(asked((columns, cells), old(span)), 1, "{columns}");
        let unread = asked(span, old((columns, cells)));
        assert_eq!(unread, usize::from(columns == "\"leaves\""), "{columns}");
    }
    let more = ("\"leaves\", \"span cm\"", "\"6\", \"4\"");
    assert_eq!(asked(span, old(more)), 0, "one trait in common");
}

/// Sown in January 2024, most likely about the 16th: 609 days from there, and half a month either way.
#[test]
fn the_days_of_a_sitting_are_no_surer_than_the_sowing() {
    let of = |on: &str, sitting: &str| {
        format!(
            "sowings: [(code: \"S1\", on: \"{on}\")], seedlings: [(number: \"1\", sowing: \"S1\"), \
             (number: \"2\", sowing: \"S1\"), (number: \"3\", sowing: \"S1\")], {sitting}"
        )
    };
    let read = "sittings: [(on: \"2023-09-02\", columns: [\"span cm\"], \
                rows: [[\"1\", \"4\"], [\"2\", \"5\"], [\"3\", \"6\"]])]";
    let report = small(&of("2024-01", ""))
        .page("X22-01", &of("2022-01-01", read))
        .on("2025-08-25");
    let days = "2025-09-01 2025-10-01".to_owned();
    assert_eq!(
        tasks(&report, |task| matches!(task, Task::TakeSitting { .. })),
        [(Urgency::Soon, "X24-01.S1", days)]
    );
}

#[test]
fn cuttings_are_checked_and_sole_pieces_named() {
    let clones = "(code: \"A1\", received: \"N. ventricosa\", ramets: [(code: \"a\"), \
         (code: \"b\", from: \"a\", made: cutting, cut: \"2024-05-01\"), \
         (code: \"c\", from: \"a\", made: cutting, cut: \"2024-05-01\", rooted: \"2024-06-10\")]), \
         (code: \"B1\", received: \"N. spathulata\")";
    let report = small("").clones(clones).on("2024-06-15");
    let cuttings = tasks(&report, |task| *task == Task::CheckCutting);
    // 28 to 90 days by common practice; the one of 40 days changes neither end.
    assert_eq!(
        cuttings,
        [(Urgency::Now, "A1-b", "2024-05-29 2024-07-30".to_owned())]
    );
    let sole = tasks(&report, |task| matches!(task, Task::TakeCutting { .. }));
    assert_eq!(sole, [(Urgency::NoDate, "B1", "none".to_owned())]);
}

/// Two shelves' worth of 5 cm pots is 2 × 22 × 11; the pot of 20 cm holds 5 × 2 places on each.
#[test]
fn room_is_measured_against_the_shelves_there_are() {
    let clones = "(code: \"A1\", received: \"N. ventricosa\", pots: [(on: \"2020\", pot: \"20 cm\")]), \
                  (code: \"B1\", received: \"N. spathulata\")";
    let shelves =
        "shelves: [(width_cm: 110, depth_cm: 55), (place: \"top\", width_cm: 110, depth_cm: 55)]";
    let report = small("").clones(clones).settings(shelves).on("2024-06-15");
    let first = &report.room.months[0];
    assert_eq!(
        (first.on.as_str(), first.pots, first.unplaced),
        ("2024-06-15", (2, 2), 1)
    );
    let (least, most) = first.shelves.expect("shelves");
    assert!((least - 2.0 / 20.0).abs() < 1e-12 && least == most);
    assert_eq!(report.room.months.len(), 13);
    assert_eq!(report.room.months[1].on, "2024-07-01");
    assert_eq!(report.room.months[12].on, "2025-06-01");
    let none = small("").clones(clones).on("2024-06-15");
    assert!(none.room.months.iter().all(|of| of.shelves.is_none()));
}

/// A dozen large pots fill a shelf that holds ten.
#[test]
fn full_shelves_are_named_with_their_day() {
    let clones: Vec<String> = (1..=12)
        .map(|n| format!("(code: \"A{n}\", received: \"N. ventricosa\", pots: [(on: \"2020\", pot: \"20 cm\")])"))
        .collect();
    let clones = format!(
        "{}, (code: \"B1\", received: \"N. spathulata\")",
        clones.join(", ")
    );
    let shelf = "shelves: [(width_cm: 110, depth_cm: 55)]";
    let report = small("").clones(&clones).settings(shelf).on("2024-06-15");
    let day = Some("2024-06-15".to_owned());
    assert_eq!(report.room.full, (day.clone(), day));
}

/// A spike is looked at until a zone of it was dusted or its pollen collected, whatever came of either.
#[test]
fn a_spike_that_was_used_is_not_asked_for_again() {
    let clones = "(code: \"A1\", received: \"N. ventricosa\", flowerings: [(code: \"a\", opened: \"2024-05-01\", over: \"2024-05-29\", sex: female)]), \
         (code: \"B1\", received: \"N. spathulata\", flowerings: [(opened: \"2024-05-01\", over: \"2024-05-29\", sex: male)])";
    let asked = |parts: &str, lots: &str| {
        let report = small(parts).clones(clones).pollen(lots).on("2024-05-20");
        let spikes = tasks(&report, |task| matches!(task, Task::Spike { .. }));
        spikes
            .into_iter()
            .map(|(_, code, _)| code.to_owned())
            .collect::<Vec<_>>()
    };
    assert_eq!(asked("", ""), ["A1", "B1"]);
    let took = |spike: &str| {
        format!(
            "pollinations: [(zone: \"A\", {spike}on: [\"2024-05-05\"], flowers: 8, set: 5, counted: \"2024-05-20\")]"
        )
    };
    assert_eq!(asked(&took(""), ""), ["B1"]);
    assert_eq!(asked(&took("spike: \"a\", "), ""), ["B1"]);
    let lot = "(code: \"L\", from: plant(\"B1\"), collected: \"2024-05-10\")";
    assert_eq!(asked("", lot), ["A1"]);
    // Pollen of an earlier spike is not of this one.
    assert_eq!(asked("", &lot.replace("2024-05", "2023-05")), ["A1", "B1"]);
}

/// Of two spikes of one plant the rows say which is meant, and a zone closes only the one that it is on: one dusted before
/// the second spike opened is on the first; one dusted when both were open is on either, and two are on both.
#[test]
fn two_spikes_of_a_plant_are_told_apart() {
    let clones = |spikes: [&str; 2]| {
        format!(
            "(code: \"A1\", received: \"N. ventricosa\", flowerings: [({}opened: \"2024-05-20\", sex: female), ({}opened: \"2024-05-22\", sex: female)]), \
             (code: \"B1\", received: \"N. spathulata\", flowerings: [(opened: \"2024-05-20\", sex: male), (opened: \"2024-05-22\", sex: male)])",
            spikes[0], spikes[1]
        )
    };
    let coded = clones(["code: \"24a\", ", "code: \"24b\", "]);
    let asked = |clones: &str, zones: &[&str]| -> Vec<String> {
        let zones = ["A", "B"]
            .iter()
            .zip(zones)
            .map(|(zone, more)| format!("(zone: \"{zone}\", {more}, flowers: 5)"));
        let parts = format!("pollinations: [{}]", zones.collect::<Vec<_>>().join(", "));
        let report = small(&parts).clones(clones).on("2024-05-28");
        let rows = report.rows.into_iter().filter(|row| row.code == "A1");
        let spikes =
            rows.filter(|row| matches!(&row.task, Task::Spike { pollen, .. } if *pollen == ["B1"]));
        spikes.map(|row| row.spike.expect("which spike")).collect()
    };
    assert_eq!(asked(&coded, &[]), ["24a", "24b"]);
    assert_eq!(
        asked(&clones(["", ""]), &[]),
        ["opened 2024-05-20", "opened 2024-05-22"]
    );
    let [before, after] = ["on: [\"2024-05-21\"]", "on: [\"2024-05-25\"]"];
    assert_eq!(asked(&coded, &[before]), ["24b"]);
    assert_eq!(
        asked(&coded, &["on: [\"2024-05-21\", \"2024-05-25\"]"]),
        ["24b"]
    );
    assert_eq!(asked(&coded, &[after]), ["24a", "24b"]);
    assert_eq!(asked(&coded, &[after, after]), [""; 0]);
    assert_eq!(asked(&coded, &[before, after]), ["24b"]);
    assert_eq!(
        asked(&coded, &["spike: \"24b\", on: [\"2024-05-25\"]"]),
        ["24a"]
    );
}

/// Flowers that are still opening hide no count that may be made.
#[test]
fn a_set_may_be_counted_while_flowers_open() {
    let clones = "(code: \"A1\", received: \"N. ventricosa\", flowerings: [(opened: \"2024-05-01\", over: \"2024-05-29\", sex: female)]), \
         (code: \"B1\", received: \"N. spathulata\")";
    let dusted =
        small("pollinations: [(zone: \"A\", on: [\"2024-05-05\"], flowers: 8)]").clones(clones);
    let both = |on: &str| {
        let report = dusted.on(on);
        let dust = tasks(&report, |task| matches!(task, Task::DustAgain { .. })).len();
        let count = tasks(&report, |task| matches!(task, Task::CountSet { .. })).len();
        (dust, count)
    };
    assert_eq!(both("2024-05-06"), (1, 0));
    assert_eq!(both("2024-05-13"), (1, 1));
    assert_eq!(both("2024-05-30"), (0, 1));
}

/// Seedlings of a sowing without a day need room, and are pricked out some day.
#[test]
fn a_sowing_without_a_day_waits_too() {
    let sown = small(
        "sowings: [(code: \"S1\", seeds: 40, germinated: [(on: \"2023-02-01\", count: 12)])]",
    );
    let report = sown.on("2025-06-01");
    let pricked = tasks(&report, |task| matches!(task, Task::PrickOut { .. }));
    assert_eq!(pricked.len(), 1, "{pricked:?}");
    assert_eq!(
        (pricked[0].0, pricked[0].1),
        (Urgency::NoDate, "X24-01.S1"),
        "{pricked:?}"
    );
    let (least, most) = report.room.months[0].pots;
    assert_eq!(most - least, 12);
}

/// Pricked out into something that is no community pot on record, seedlings need the room that they needed before.
#[test]
fn seedlings_pricked_out_without_a_pot_on_record_take_room() {
    let pots = |moved: &str, numbered: u32, pot: &str, today: &str| {
        let seedling =
            |at: u32| format!("(number: \"{at}\", sowing: \"S1\", numbered: \"2024-05-25\")");
        let seedlings: Vec<String> = (1..=numbered).map(seedling).collect();
        let parts = format!(
            "sowings: [(code: \"S1\", on: \"2024-01-01\", seeds: 40, germinated: [(on: \"2024-04-01\", count: 20)], \
             pricked_out: [{moved}])], community_pots: [{pot}], seedlings: [{}]",
            seedlings.join(", ")
        );
        let months = small(&parts).on(today).room.months;
        // Two founders with two pieces each.
        [0, 12].map(|month| (months[month].pots.0 - 4, months[month].pots.1 - 4))
    };
    let today = "2024-06-01";
    let moved = |seedlings: u32| format!("(on: \"2024-05-20\", moved: {seedlings})");
    assert_eq!(pots("", 0, "", today), [(0, 20), (20, 20)]);
    assert_eq!(pots(&moved(20), 0, "", today), [(0, 20), (20, 20)]);
    assert_eq!(pots(&moved(12), 0, "", today), [(0, 20), (12, 20)]);
    assert_eq!(pots(&moved(20), 5, "", today), [(5, 20), (20, 20)]);
    assert_eq!(pots(&moved(20), 20, "", today), [(20, 20), (20, 20)]);
    let pot = "(code: \"T1\", sowing: \"S1\", alive: [(on: \"2024-05-20\", count: 20)])";
    assert_eq!(pots(&moved(20), 0, pot, today), [(0, 20), (20, 20)]);
    // A year later nothing says that they are there yet.
    assert_eq!(pots(&moved(20), 0, "", "2025-06-01"), [(0, 0), (0, 0)]);
}

/// A plant whose pollen was in a mixture is perhaps a parent, and of a cross that set nothing none is.
#[test]
fn a_parent_is_sure_or_perhaps() {
    let mut nursery = small("sowings: [(code: \"S1\", seeds: 4)]");
    let made = |code: &str, parents: &str, parts: &str| {
        format!("(code: \"{code}\", parents: {parents}, {parts})")
    };
    let mixed = "pollen_mixed(seed: \"A1\", pollen: [\"B1\", \"C1\"])";
    let known = "known(seed: \"A1\", pollen: \"B1\")";
    let none = "pollinations: [(zone: \"A\", on: [\"2024-05-05\"], flowers: 8, set: 0)]";
    nursery.pages.push(made("X24-02", mixed, ""));
    nursery.pages.push(made("X24-03", known, none));
    let nursery = nursery.clones(
        "(code: \"A1\", received: \"N. ventricosa\", ramets: [(code: \"a\"), (code: \"b\")]), \
         (code: \"B1\", received: \"N. spathulata\"), (code: \"C1\", received: \"N. truncata\")",
    );
    let report = nursery.on("2024-06-15");
    let alone = |code: &str| {
        let mut rows = report.rows.iter();
        let row = rows.find(|row| row.code == code && matches!(row.task, Task::TakeCutting { .. }));
        match row.map(|row| &row.task) {
            Some(Task::TakeCutting {
                crosses, perhaps, ..
            }) => Some((*crosses, *perhaps)),
            _ => None,
        }
    };
    assert_eq!(alone("B1"), Some((1, 1)));
    assert_eq!(alone("C1"), Some((0, 1)));
}
