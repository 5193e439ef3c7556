//! The outline of good, faulty and nasty RON texts.

use podbook::text::Outline;
use podbook::text::outline::{DEEPEST, Fault, FaultKind, Kind, PartId};
use proptest::prelude::*;

const PAGE: &str = r##"// crosses of one spring
#![enable(implicit_some)]
[
    Cross(
        id: "2024-03", // a witness stood by
        seed: "vei-1",
        pollen: OneOf(["max-2", /* or /* perhaps */ */ "max-3"]),
        sowings: [
            (sown: "2024-05-01", seeds: 120, germinated: 31),
            (sown: "2024-06-01", seeds: 80),
        ],
        note: r#"said "never again""#,
        kept: true,
    ),
    Cross(id: "2024-04", seed: "max-2", pollen: None, at: {"bench": 'a', "tray": -1.5e3,}),
]
"##;

fn kinds(text: &str) -> Vec<FaultKind> {
    Outline::of(text)
        .faults()
        .iter()
        .map(|fault| fault.kind)
        .collect()
}

fn under<'t>(text: &'t str, fault: &Fault) -> &'t str {
    &text[fault.start as usize..fault.end as usize]
}

#[test]
fn a_page_is_outlined_without_fault() {
    let outline = Outline::of(PAGE);
    assert_eq!(outline.faults(), []);
    let root = outline.root().unwrap();
    assert_eq!(outline.part(root).kind, Kind::List);
    let records: Vec<_> = outline.children(root).collect();
    assert_eq!(records.len(), 2);
    let names: Vec<_> = outline
        .children(records[0])
        .map(|field| outline.name(field).unwrap())
        .collect();
    assert_eq!(names, ["id", "seed", "pollen", "sowings", "note", "kept"]);
    assert_eq!(outline.tag(records[0]), Some("Cross"));
    assert_eq!(
        outline.tag(outline.follow(records[0], "pollen").unwrap()),
        Some("OneOf")
    );
}

#[test]
fn a_value_is_found_by_path() {
    let outline = Outline::of(PAGE);
    let root = outline.root().unwrap();
    let value = |path: &str| outline.slice(outline.follow(root, path).unwrap());
    assert_eq!(value("[0].sowings[0].germinated"), "31");
    assert_eq!(value("[0].pollen[1]"), "\"max-3\"");
    assert_eq!(value("[1].at"), r#"{"bench": 'a', "tray": -1.5e3,}"#);
    assert_eq!(outline.follow(root, "[0].sowings[2]"), None);
    assert_eq!(outline.follow(root, "[1].sowings"), None);
    let seeds = outline.follow(root, "[0].sowings[1].seeds").unwrap();
    assert_eq!(outline.at(outline.part(seeds).start), Some(seeds));
}

#[test]
fn a_field_is_found_from_the_place_of_the_id() {
    let outline = Outline::of(PAGE);
    let id = PAGE.find("2024-04").unwrap() as u32;
    let range = outline.field_of_record_at(id, "seed").unwrap();
    assert_eq!(&PAGE[range.start as usize..range.end as usize], "\"max-2\"");
    assert_eq!(outline.field_of_record_at(id, "sowings"), None);
    let name = PAGE.find("germinated").unwrap() as u32;
    let sowing = outline.record_at(name).unwrap();
    assert!(outline.slice(sowing).starts_with("(sown: \"2024-05-01\""));
    assert_eq!(outline.record_at(0), None, "a comment lies in no record");
}

#[test]
fn a_whole_field_includes_its_name() {
    let outline = Outline::of("(a: 1, b : (c: 2))");
    let b = outline.follow(PartId(0), "b").unwrap();
    assert_eq!(outline.part(b).whole(), 7..17);
    assert_eq!(outline.part(b).label(), Some(7..8));
    assert_eq!(outline.part(PartId(0)).whole(), 0..18);
}

#[test]
fn every_kind_of_value_is_known() {
    let text = r###"["a\"b", r"c", r##"d"#e"##, b"f", br#"g"#, b'h', 'i', '\'', '\u{2640}', 1, -2, +3.5, .5, 1e-3, 0x1F, 0b10, 0o7,
        1_000, 7u8, 2.5f32, inf, -inf, NaN, true, r#type, Größe, (), (1,), ("a", 2), (a: 1), Some(2), {}, []]"###;
    let outline = Outline::of(text);
    assert_eq!(outline.faults(), []);
    use Kind::*;
    let expected = [
        Text, Text, Text, Bytes, Bytes, Bytes, Char, Char, Char, Number, Number, Number, Number,
        Number, Number, Number, Number, Number, Number, Number, Word, Number, Word, Word, Word,
        Word, Struct, Tuple, Tuple, Struct, Tuple, Map, List,
    ];
    let found: Vec<_> = outline
        .children(PartId(0))
        .map(|part| outline.part(part).kind)
        .collect();
    assert_eq!(found, expected);
}

#[test]
fn each_fault_is_told_with_its_place() {
    use FaultKind::*;
    let cases: &[(&str, &[(FaultKind, &str)])] = &[
        ("(a: 1, b: [2)", &[(UnclosedBracket, "[")]),
        ("(a: 1", &[(UnclosedBracket, "(")]),
        ("(a: 1)]", &[(StrayBracket, "]")]),
        ("(a: 1 b: 2)", &[(MissingComma, "")]),
        ("(a: 1,, b: 2)", &[(StrayComma, ",")]),
        ("(a: 1, b 2)", &[(MissingColon, "")]),
        ("{\"a\" 2}", &[(MissingColon, "")]),
        ("{\"a\"}", &[(MissingColon, "")]),
        ("(a: , b: 2)", &[(MissingValue, "")]),
        ("(a: 1, b:)", &[(MissingValue, "")]),
        ("[a: 1]", &[(StrayColon, ":")]),
        ("(a: 1, 2)", &[(NamelessValue, "2")]),
        ("(1, b: 2)", &[(NamelessValue, "1")]),
        ("(\"a\": 1)", &[(QuotedName, "\"a\"")]),
        ("(a: 1) (b: 2) (c: 3)", &[(SecondValue, "(")]),
        ("(a: 1);", &[(StrayCharacters, ";")]),
        ("(a: %%§ 1)", &[(StrayCharacters, "%%§")]),
        ("(a: “x, y”, b: 2)", &[(CurlyQuotes, "“x, y”")]),
        (
            "(a: 1, # a remark, (with) \"marks\n b: 2)",
            &[(WrongRemark, "# a remark, (with) \"marks")],
        ),
        ("/ a (b\n(a: 1)", &[(WrongRemark, "/ a (b")]),
        ("(a: 1,\n -- b (c\n)", &[(WrongRemark, "-- b (c")]),
        ("<!-- a, b -->\n(a: 1)", &[(WrongRemark, "<!-- a, b -->")]),
        (
            "(a: 1, b: \"2\" / c: 3)",
            &[(MissingComma, ""), (StrayCharacters, "/")],
        ),
        ("(a: 80,5, b: 2)", &[(CommaInNumber, "80,5")]),
        ("(a: 1,200,5)", &[(CommaInNumber, "1,200,5")]),
        ("(a: 1, 5)", &[(NamelessValue, "5")]),
        (
            "(a: \"b \"red\" 4in\", c: 2)",
            &[(InnerQuotes, "\"b \"red\" 4in\"")],
        ),
        (
            "(a: \"b \"red\"\", c: 2)",
            &[(InnerQuotes, "\"b \"red\"\"")],
        ),
        (
            "(a: \"\"red\" 4in\", c: 2)",
            &[(InnerQuotes, "\"\"red\" 4in\"")],
        ),
        ("[\"1\" \"2 a\", \"b\"]", &[(MissingComma, "")]),
        ("(a: 1, b-c: 2)", &[(SplitName, "b-c")]),
        ("(a: 1, b c: 2)", &[(SplitName, "b c")]),
        (
            "(a: 1, b [(c: 2)]))",
            &[(MissingColon, ""), (StrayBracket, ")")],
        ),
        (
            "(\n a: [\n  (b: 1)),\n ],\n c: 2,\n)",
            &[(StrayBracket, ")")],
        ),
        ("(\n a: d(b: 1)),\n c: [2],\n)", &[(StrayBracket, ")")]),
        ("(a: 2024-05-01)", &[(NotANumber, "2024-05-01")]),
        ("(a: 1.2.3)", &[(NotANumber, "1.2.3")]),
        ("(a: vei-1)", &[(BareText, "vei-1")]),
        (
            "(a: 1, /* b: 2)",
            &[(UnclosedBracket, "("), (UnclosedComment, "/*")],
        ),
        ("(a: \"x,\n b: 2)", &[(UnclosedText, "\"")]),
        (
            "(a: '\n b: 2)",
            &[(MissingValue, ""), (StrayCharacters, "'")],
        ),
        ("(a:\n b: 2)", &[(MissingValue, "")]),
    ];
    for (text, expected) in cases {
        let outline = Outline::of(text);
        let found: Vec<_> = outline
            .faults()
            .iter()
            .map(|fault| (fault.kind, under(text, fault)))
            .collect();
        assert_eq!(&found, expected, "{text}");
    }
}

#[test]
fn layout_tells_which_record_lacks_its_bracket() {
    let text = "[\n    (\n        id: \"a\",\n        tags: [1,\n    (\n        id: \"b\",\n    ),\n    (\n        id: \"c\",\n    ),\n]\n";
    let outline = Outline::of(text);
    let found: Vec<_> = outline
        .faults()
        .iter()
        .map(|fault| (fault.kind, fault.start))
        .collect();
    let open = text.find("    (").unwrap() as u32 + 4;
    let list = text.find("[1").unwrap() as u32;
    assert_eq!(
        found,
        [
            (FaultKind::UnclosedBracket, open),
            (FaultKind::UnclosedBracket, list)
        ]
    );
    assert_eq!(
        outline.children(PartId(0)).count(),
        3,
        "the other two records are whole"
    );
}

#[test]
fn a_text_that_lacks_its_mark_ends_with_its_line() {
    let inline = "    (id: \"a, note: \"b\"),\n";
    let alone = "    (\n        id: \"a,\n        note: \"b\",\n    ),\n";
    let last_of_record = "    (\n        id: \"a\",\n        note: \"b\n    ),\n";
    for faulty in [inline, alone, last_of_record] {
        let text = format!(
            "[\n    (id: \"z\"),\n{faulty}    (\n        id: \"c\",\n        note: \"d\",\n    ),\n]\n"
        );
        let outline = Outline::of(&text);
        assert_eq!(outline.children(PartId(0)).count(), 3, "{text}");
        let note = outline.follow(PartId(0), "[2].note").unwrap();
        assert_eq!(outline.slice(note), "\"d\"");
        let unclosed: Vec<_> = outline
            .faults()
            .iter()
            .filter(|fault| fault.kind == FaultKind::UnclosedText)
            .collect();
        assert_eq!(unclosed.len(), 1);
        let record = text.find(faulty).unwrap();
        assert!((record..record + faulty.len()).contains(&(unclosed[0].start as usize)));
    }
}

#[test]
fn brackets_are_outlined_as_deep_as_a_page_may_go() {
    let depth = DEEPEST;
    let deep = format!("{}{}", "[".repeat(depth), "]".repeat(depth));
    let outline = Outline::of(&deep);
    assert_eq!((outline.faults().len(), outline.parts().len()), (0, depth));
    assert_eq!(outline.at(depth as u32), Some(PartId(depth as u32 - 1)));
    let open = "([{".repeat(depth / 3);
    assert_eq!(
        Outline::of(&open)
            .faults()
            .iter()
            .filter(|f| f.kind == FaultKind::UnclosedBracket)
            .count(),
        depth / 3 * 3
    );
    let depth = 100_000;
    let shut = ")]}".repeat(depth);
    assert_eq!(kinds(&shut), vec![FaultKind::StrayBracket; 3 * depth]);
    let crossed = format!("{}{}", "(".repeat(DEEPEST), "]".repeat(depth));
    assert_eq!(kinds(&crossed).len(), DEEPEST + depth);
}

#[test]
fn a_text_deeper_than_any_page_is_given_up_at_once() {
    for deep in ["[", "(", "{", "(a: ["] {
        let text = deep.repeat(100_000);
        let outline = Outline::of(&text);
        assert_eq!(
            (kinds(&text), outline.parts().len()),
            (vec![FaultKind::NestedTooDeep], 0)
        );
    }
    let deeper: String = (0..=DEEPEST)
        .map(|at| format!("{}(\n", " ".repeat(at)))
        .collect();
    assert_eq!(kinds(&deeper), [FaultKind::NestedTooDeep]);
}

/// A bracket forgotten in each of many records is no depth: the layout shows where each ends.
#[test]
fn brackets_forgotten_in_many_records_are_no_depth() {
    let records = "    (number: \"1\",\n".repeat(1000);
    let text = format!("(\n  seedlings: [\n{records}  ],\n)\n");
    let outline = Outline::of(&text);
    assert_eq!(
        outline
            .parts()
            .iter()
            .filter(|part| part.kind == Kind::Struct)
            .count(),
        1001
    );
    assert!(
        outline
            .faults()
            .iter()
            .all(|fault| fault.kind == FaultKind::UnclosedBracket)
    );
}

/// Each of these made a reader that looks for the end of everything it opens read the rest of the text every time.
#[test]
fn texts_full_of_opening_marks_are_read_in_linear_time() {
    for opening in [
        "\\\"\n",
        "/*\n",
        "r#\"\n",
        "#![\n",
        "“",
        "'",
        "b'",
        "/* \"",
        "r##\"\"#\n",
        "\"\n\n",
        "“x\n",
    ] {
        let text = opening.repeat(400_000);
        let outline = Outline::of(&text);
        assert!(!outline.faults().is_empty(), "{opening:?}");
    }
}

#[test]
fn blanks_and_emptiness_hold_no_value() {
    for text in [
        "",
        " \n\t\r\n",
        "// only a comment",
        "/* a */ /* b /* c */ */\n",
        "#![enable(implicit_some)]",
    ] {
        let outline = Outline::of(text);
        assert_eq!(
            (outline.root(), outline.faults()),
            (None, &[][..]),
            "{text:?}"
        );
        assert_eq!(outline.at(0), None);
    }
}

/// Texts made of the pieces RON is made of, in any order.
fn pieces() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(vec![
        "(", ")", "[", "]", "{", "}", ",", ":", "\"", "\\", "'", "r#\"", "\"#", "//", "/*", "*/",
        "\n", " ", "id", "1", "-", ".5", "#![", "#", "b'", "br\"", "é", "“", "”", "♀", "\u{feff}",
        "\r\n", "\t", "r#", "None", "\u{0}", "\u{85}",
    ]);
    prop::collection::vec(piece, 0..60).prop_map(|pieces| pieces.concat())
}

/// What must hold of the outline of any text at all.
fn is_sound(text: &str) {
    let outline = Outline::of(text);
    let length = text.len() as u32;
    for (number, part) in outline.parts().iter().enumerate() {
        let id = PartId(number as u32);
        assert!(part.start <= part.open && part.open <= part.end && part.end <= length);
        assert!(
            text.get(part.start as usize..part.end as usize).is_some(),
            "on character boundaries"
        );
        if let Some(parent) = part.parent() {
            let parent = outline.part(parent);
            assert!(parent.start <= part.start && part.end <= parent.end);
        }
        assert!(
            outline
                .children(id)
                .all(|child| outline.part(child).parent() == Some(id))
        );
        assert_eq!(
            outline
                .at(part.start)
                .map(|at| at >= id || part.start == part.end),
            Some(true)
        );
        outline.tag(id);
        outline.name(id);
    }
    for fault in outline.faults() {
        assert!(text.get(fault.start as usize..fault.end as usize).is_some());
        assert!(fault.other.is_none_or(|other| other <= length));
    }
}

/// A value with the text `ron` writes for it.
fn value() -> impl Strategy<Value = ron::Value> {
    let leaf = prop_oneof![
        any::<bool>().prop_map(ron::Value::Bool),
        any::<char>().prop_map(ron::Value::Char),
        ".*".prop_map(ron::Value::String),
        any::<i64>().prop_map(|number| ron::Value::Number(number.into())),
        any::<f64>().prop_map(|number| ron::Value::Number(number.into())),
        Just(ron::Value::Option(None)),
        Just(ron::Value::Unit),
    ];
    leaf.prop_recursive(5, 60, 6, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..6).prop_map(ron::Value::Seq),
            prop::collection::vec((".{0,4}".prop_map(ron::Value::String), inner.clone()), 0..5)
                .prop_map(|entries| ron::Value::Map(entries.into_iter().collect())),
            inner.prop_map(|value| ron::Value::Option(Some(Box::new(value)))),
        ]
    })
}

/// How many parts the outline of a value's text must have: counted from the value itself.
fn parts_of(value: &ron::Value) -> usize {
    match value {
        ron::Value::Seq(values) => 1 + values.iter().map(parts_of).sum::<usize>(),
        ron::Value::Map(map) => {
            1 + map
                .iter()
                .map(|(key, value)| parts_of(key) + parts_of(value))
                .sum::<usize>()
        }
        ron::Value::Option(Some(inner)) => 1 + parts_of(inner),
        _ => 1,
    }
}

#[derive(Debug, serde::Serialize)]
struct Sowing {
    sown: String,
    seeds: u32,
    germinated: Option<u32>,
}

#[derive(Debug, serde::Serialize)]
struct Cross {
    id: String,
    note: String,
    share: f64,
    mark: char,
    sowings: Vec<Sowing>,
}

fn sowing() -> impl Strategy<Value = Sowing> {
    (".{0,12}", any::<u32>(), any::<Option<u32>>()).prop_map(|(sown, seeds, germinated)| Sowing {
        sown,
        seeds,
        germinated,
    })
}

fn cross() -> impl Strategy<Value = Cross> {
    let fields = (
        ".*",
        ".*",
        any::<f64>(),
        any::<char>(),
        prop::collection::vec(sowing(), 0..4),
    );
    fields.prop_map(|(id, note, share, mark, sowings)| Cross {
        id,
        note,
        share,
        mark,
        sowings,
    })
}

proptest! {
    #[test]
    fn any_text_has_a_sound_outline(text in any::<String>()) {
        is_sound(&text);
    }

    #[test]
    fn any_medley_of_ron_has_a_sound_outline(text in pieces()) {
        is_sound(&text);
    }

    #[test]
    fn any_bytes_made_text_have_a_sound_outline(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        is_sound(&String::from_utf8_lossy(&bytes));
    }

    #[test]
    fn what_ron_writes_has_no_fault_and_every_value(value in value(), pretty in any::<bool>()) {
        let text = if pretty {
            ron::ser::to_string_pretty(&value, Default::default()).unwrap()
        } else {
            ron::to_string(&value).unwrap()
        };
        let outline = Outline::of(&text);
        prop_assert_eq!(outline.faults(), &[]);
        prop_assert_eq!(outline.parts().len(), parts_of(&value));
    }

    #[test]
    fn every_field_ron_writes_is_found_and_reads_back(crosses in prop::collection::vec(cross(), 1..4), pretty in any::<bool>()) {
        let text = if pretty {
            ron::ser::to_string_pretty(&crosses, ron::ser::PrettyConfig::new().struct_names(true)).unwrap()
        } else {
            ron::to_string(&crosses).unwrap()
        };
        let outline = Outline::of(&text);
        let root = outline.root().unwrap();
        for (number, cross) in crosses.iter().enumerate() {
            let slice = |path: &str| outline.slice(outline.follow(root, &format!("[{number}].{path}")).unwrap());
            prop_assert_eq!(&ron::from_str::<String>(slice("id")).unwrap(), &cross.id);
            prop_assert_eq!(&ron::from_str::<String>(slice("note")).unwrap(), &cross.note);
            prop_assert_eq!(ron::from_str::<f64>(slice("share")).unwrap(), cross.share);
            prop_assert_eq!(ron::from_str::<char>(slice("mark")).unwrap(), cross.mark);
            for (at, sowing) in cross.sowings.iter().enumerate() {
                prop_assert_eq!(ron::from_str::<u32>(slice(&format!("sowings[{at}].seeds"))).unwrap(), sowing.seeds);
                let germinated = ron::from_str::<Option<u32>>(slice(&format!("sowings[{at}].germinated"))).unwrap();
                prop_assert_eq!(germinated, sowing.germinated);
                prop_assert_eq!(&ron::from_str::<String>(slice(&format!("sowings[{at}].sown"))).unwrap(), &sowing.sown);
            }
        }
    }

    /// Where `ron` reads a text without complaint, the outline has none either.
    #[test]
    fn what_ron_reads_has_no_fault(text in pieces()) {
        if ron::from_str::<ron::Value>(&text).is_ok() {
            prop_assert_eq!(kinds(&text), vec![], "{}", text);
        }
    }
}
