//! Findings: their order, their joining and their drawing.

use podbook::diagnostic::{Code, Drawing, Finding, Findings, Paint, Severity};
use podbook::text::{FileId, Outline, Sources, Span, Unread, Unwritten, WhyUnread, WhyUnwritten};
use proptest::prelude::*;
use unicode_width::UnicodeWidthStr;

const CROSSES: &str = "[\n\t(\n\t\tid: \"2024-03\",\n\t\tseed: \"vei-7\",\n\t),\n]\n";

fn sources() -> Sources {
    let mut sources = Sources::new();
    sources.add("clones.ron", "[\n    (id: \"vei-1\"),\n]\n");
    sources.add("crosses/2024.ron", CROSSES);
    sources
}

fn span(sources: &Sources, file: u32, needle: &str) -> Span {
    let start = sources.text(FileId(file)).find(needle).unwrap() as u32;
    Span::new(FileId(file), start..start + needle.len() as u32)
}

fn unknown_parent(sources: &Sources) -> Finding {
    Finding::fault(Code("unknown-parent"), "No plant is called `vei-7`")
        .at(span(sources, 1, "\"vei-7\""))
        .found("an id that no clone and no seedling bears, although it stands where the seed parent of a cross must be named")
        .needed("the id of a plant")
        .did_you_mean(["vei-1"])
        .related(span(sources, 0, "\"vei-1\""), "the nearest id")
}

#[test]
fn a_finding_is_drawn_with_its_line_and_underline() {
    let sources = sources();
    let drawn = Drawing::default()
        .finding(&unknown_parent(&sources), &sources)
        .to_string();
    let expected = "\
fault unknown-parent: No plant is called `vei-7`
  at crosses/2024.ron:4:9
  4 |         seed: \"vei-7\",
    |               ^^^^^^^
  found   an id that no clone and no seedling bears, although it stands where
          the seed parent of a cross must be named
  needed  the id of a plant
  help    did you mean `vei-1`?
  see clones.ron:2:10  the nearest id
  2 |     (id: \"vei-1\"),
    |          -------
";
    assert_eq!(drawn, expected);
}

#[test]
fn colour_adds_nothing_but_colour() {
    let sources = sources();
    let finding = unknown_parent(&sources);
    let painted = Drawing {
        width: 80,
        paint: Paint::Ansi,
    }
    .finding(&finding, &sources)
    .to_string();
    let mut bare = String::new();
    let mut rest = painted.as_str();
    while let Some((before, after)) = rest.split_once('\u{1b}') {
        bare.push_str(before);
        rest = after.split_once('m').unwrap().1;
    }
    bare.push_str(rest);
    let plain = Drawing::default().finding(&finding, &sources).to_string();
    let trim = |text: &str| {
        text.lines()
            .map(|line| line.trim_end().to_string())
            .collect::<Vec<_>>()
    };
    assert_eq!(trim(&bare), trim(&plain));
    assert!(painted.contains("\u{1b}[1;31m"));
}

fn draw(text: &str, place: std::ops::Range<u32>) -> String {
    let mut sources = Sources::new();
    let file = sources.add("a.ron", text);
    let finding = Finding::note(Code("a-code"), "A title").at(Span::new(file, place));
    Drawing {
        width: 40,
        paint: Paint::Plain,
    }
    .finding(&finding, &sources)
    .to_string()
}

#[test]
fn awkward_places_are_drawn() {
    let head = "note a-code: A title\n  at a.ron:";
    let cases = [
        ("", 0..0, "1:1\n  1 |\n    | ^\n"),
        ("ab\n", 3..3, "2:1\n  2 |\n    | ^\n"),
        ("ab\r\ncd\r\n", 2..4, "1:3\n  1 | ab\n    |   ^\n"),
        (
            "(種: \"a\")",
            6..9,
            "1:5\n  1 | (種: \"a\")\n    |      ^^^\n",
        ),
        (
            "(\n  a: 1,\n  b: 2,\n)",
            0..20,
            "1:1\n  1 | (\n    | ^\n... |\n  4 | )\n    | ^\n",
        ),
        (
            "x\u{1b}[31m\u{202e}y",
            1..2,
            "1:2\n  1 | x␛[31m�y\n    |  ^\n",
        ),
        ("\ta\tb", 1..4, "1:2\n  1 |     a   b\n    |     ^^^^^\n"),
    ];
    for (text, place, expected) in cases {
        assert_eq!(draw(text, place), format!("{head}{expected}"), "{text:?}");
    }
}

#[test]
fn a_long_line_is_shown_around_the_underline() {
    let text = format!("({}here{})", "a, ".repeat(5000), ", b".repeat(5000));
    let drawn = draw(&text, 15001..15005);
    let lines: Vec<_> = drawn.lines().collect();
    assert!(lines.iter().all(|line| line.width() <= 40), "{drawn}");
    let (shown, under) = (lines[2], lines[3]);
    assert_eq!(
        under.find('^').unwrap(),
        shown.replace('…', ".").find("here").unwrap()
    );
    assert!(shown.contains('…') && under.ends_with("^^^^"));
}

#[test]
fn the_gravest_come_first_then_in_order_of_place_and_each_once() {
    let sources = sources();
    let mut findings = Findings::new();
    let late = unknown_parent(&sources);
    let early = Finding::note(Code("b-note"), "Early").at(span(&sources, 0, "id"));
    let same_place = Finding::warning(Code("a-warning"), "Early").at(span(&sources, 0, "id"));
    let nowhere = Finding::warning(Code("z-last"), "No place");
    findings.extend([
        late.clone(),
        early,
        same_place,
        nowhere,
        late.clone().help("look at its tag"),
    ]);
    let codes: Vec<_> = findings.iter().map(|finding| finding.code.0).collect();
    assert_eq!(codes, ["unknown-parent", "z-last", "a-warning", "b-note"]);
    let first = findings.iter().next().unwrap();
    assert_eq!(first.help, ["did you mean `vei-1`?", "look at its tag"]);
    assert_eq!(*first.offers, ["vei-1"]);
    assert_eq!(first.related, late.related);
    assert_eq!(
        (findings.count(Severity::Warning), first.severity),
        (2, Severity::Fault)
    );
}

#[test]
fn did_you_mean_names_up_to_three() {
    let help = |names: &[&str]| Finding::note(Code("n"), "t").did_you_mean(names).help;
    assert_eq!(help(&[]), Vec::<String>::new());
    assert_eq!(help(&["a", "b"]), ["did you mean `a` or `b`?"]);
    assert_eq!(
        help(&["a", "b", "c", "d"]),
        ["did you mean `a`, `b` or `c`?"]
    );
}

#[test]
fn a_fault_of_shape_becomes_a_finding() {
    let mut sources = Sources::new();
    let text = "(a: 1, b: vei-1, c: 2024-05-01, d: [1, 2)";
    let file = sources.add("a.ron", text);
    let outline = Outline::of(sources.text(file));
    let findings: Findings = outline
        .faults()
        .iter()
        .map(|fault| Finding::of_shape(fault, file, text))
        .collect();
    let told: Vec<_> = findings
        .iter()
        .map(|f| (f.code.0, f.help.first().map_or("", String::as_str)))
        .collect();
    let expected = [
        ("bare-text", "write \"vei-1\""),
        ("not-a-number", "write \"2024-05-01\""),
        ("unclosed-bracket", ""),
    ];
    assert_eq!(told, expected);
    assert_eq!(findings.iter().last().unwrap().related.len(), 1);
}

#[test]
fn what_cannot_be_read_becomes_a_finding() {
    use WhyUnread::*;
    let utf8 = |utf16| NotUtf8 {
        offset: 7,
        line: 2,
        utf16,
    };
    let all = [
        utf8(true),
        utf8(false),
        TooLarge {
            bytes: 1 << 33,
            most: 16 << 20,
        },
        OtherCapitals,
        Folder,
        NotAFile,
        LinkCircle,
        LinkBroken,
        NameNotUtf8,
        TooDeep,
        Forbidden,
        System("the disk is gone".into()),
    ];
    for why in all {
        let finding = Finding::from(&Unread {
            path: "x/x.ron".into(),
            why,
        });
        assert!(
            finding.title.contains("`x") && !finding.found.is_empty() && !finding.needed.is_empty()
        );
        assert!(finding.place.is_none());
    }
    let finding = Finding::from(&Unread {
        path: "x.ron".into(),
        why: utf8(false),
    });
    assert!(finding.found.contains("line 2 (byte 7"));
}

#[test]
fn what_cannot_be_written_becomes_a_finding() {
    use WhyUnwritten::*;
    for why in [
        Changed,
        Protected,
        Exists,
        Outside,
        NoIntent,
        OtherComputer("bench".into()),
        TooLarge {
            bytes: 1 << 33,
            most: 16 << 20,
        },
        BeingWritten,
        NoLocks,
        LockLost,
        GivenBack,
        Denied,
        StillNew("y.ron".into(), Box::new(Denied)),
        NotReadBack,
        System("the disk is full".into()),
    ] {
        let finding = Finding::from(&Unwritten {
            path: "x.ron".into(),
            why,
        });
        assert!(
            finding.title.contains("x.ron")
                && !finding.found.is_empty()
                && !finding.needed.is_empty()
        );
    }
}

proptest! {
    /// Any place in any text is drawn, within the width, with at least one mark.
    #[test]
    fn any_place_is_drawn(text in "[\\PC\t\n\r\u{0}\u{202e}種é]{0,200}", a in 0u32..220, b in 0u32..220, width in 0usize..120) {
        let mut sources = Sources::new();
        let file = sources.add("a.ron", text);
        let place = Span::new(file, a.min(b)..a.max(b));
        let finding = Finding::fault(Code("a-code"), "T").at(place).related(place, "there");
        let drawn = Drawing { width, paint: Paint::Plain }.finding(&finding, &sources).to_string();
        prop_assert!(drawn.contains('^') && drawn.contains('-'));
        for line in drawn.lines().filter(|line| line.contains(" | ")) {
            let columns: usize = line.chars().map(|c| unicode_width::UnicodeWidthChar::width(c).unwrap_or(9)).sum();
            prop_assert!(columns <= width.max(40) + 1, "{columns}: {line}");
        }
    }

    /// The order in which findings come in does not show.
    #[test]
    fn order_of_arrival_does_not_show(starts in prop::collection::vec((0u32..4, 0usize..3, 0..4), 0..30)) {
        let make = |&(start, kind, help): &(u32, usize, i32)| {
            Finding::note(Code(["a", "b", "c"][kind]), "t").at(Span::at(FileId(start % 2), start)).help(help.to_string())
        };
        let forward: Findings = starts.iter().map(make).collect();
        let backward: Findings = starts.iter().rev().map(make).collect();
        prop_assert_eq!(forward.into_vec(), backward.into_vec());
    }
}
