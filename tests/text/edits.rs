//! Edits that keep every other byte, and files written whole or not at all.

use podbook::text::Outline;
use podbook::text::edit::{Edit, EditFault, apply};
use proptest::prelude::*;

/// The text after an edit at the part with this path; the empty path is the root.
fn changed(
    text: &str,
    path: &str,
    edit: impl Fn(&Outline, podbook::text::outline::PartId) -> Vec<Edit>,
) -> String {
    let outline = Outline::of(text);
    let part = outline.follow(outline.root().unwrap(), path).unwrap();
    apply(text, &edit(&outline, part)).unwrap()
}

fn appended(text: &str, value: &str) -> String {
    changed(text, "", |outline, list| {
        outline.append(list, value).unwrap()
    })
}

#[test]
fn an_element_is_appended_in_the_manner_of_the_list() {
    let cases = [
        ("[]", "[9]"),
        ("[ ]", "[9 ]"),
        ("[/* none yet */]", "[/* none yet */ 9]"),
        ("[1]", "[1, 9]"),
        ("[1, 2]", "[1, 2, 9]"),
        ("[1, 2,]", "[1, 2, 9,]"),
        ("[ 1, 2 ]", "[ 1, 2, 9 ]"),
        ("[1 /* one */]", "[1, /* one */ 9]"),
        ("[\n]", "[\n    9,\n]"),
        ("[ // none yet\n]", "[ // none yet\n    9,\n]"),
        ("[\n    1,\n]", "[\n    1,\n    9,\n]"),
        ("[\n  1\n]", "[\n  1,\n  9\n]"),
        (
            "[\n\t1, // one\n\t// two\n]\n",
            "[\n\t1, // one\n\t// two\n\t9,\n]\n",
        ),
        ("[\n    1 // one\n]", "[\n    1, // one\n    9\n]"),
        ("[\r\n    1,\r\n]\r\n", "[\r\n    1,\r\n    9,\r\n]\r\n"),
        ("[1, 2, // pair\n]", "[1, 2, // pair\n    9,\n]"),
        ("[\n    1, 2,\n    3, 4]", "[\n    1, 2,\n    3, 4, 9]"),
        (
            "[(\n    a: 1,\n), (\n    a: 2,\n)]",
            "[(\n    a: 1,\n), (\n    a: 2,\n), 9]",
        ),
        (
            "[\n    (\n        a: 1,\n    ),\n]",
            "[\n    (\n        a: 1,\n    ),\n    9,\n]",
        ),
        ("[\n    1,   \n\n\n]", "[\n    1,   \n    9,\n\n\n]"),
        ("[\n    1]", "[\n    1,\n    9]"),
        (
            "[1, // hard blank\u{a0}\n]",
            "[1, // hard blank\u{a0}\n    9,\n]",
        ),
    ];
    for (text, expected) in cases {
        assert_eq!(appended(text, "9"), expected, "{text:?}");
    }
}

#[test]
fn a_value_of_many_lines_is_indented_except_inside_texts() {
    let value = "(\n    id: \"b\",\n    note: \"two\nlines\",\n)";
    let expected = "[\r\n  (id: \"a\"),\r\n  (\r\n      id: \"b\",\r\n      note: \"two\nlines\",\r\n  ),\r\n]";
    assert_eq!(appended("[\r\n  (id: \"a\"),\r\n]", value), expected);
}

#[test]
fn a_field_is_set() {
    let set = |text: &str, path: &str, name: &str, value: &str| {
        changed(text, path, |outline, record| {
            outline.set_field(record, name, value).unwrap()
        })
    };
    assert_eq!(
        set("(a: 1, b: /* two */ 2)", "", "b", "3"),
        "(a: 1, b: /* two */ 3)"
    );
    assert_eq!(set("(a: 1)", "", "b", "3"), "(a: 1, b: 3)");
    assert_eq!(set("()", "", "b", "3"), "(b: 3)");
    assert_eq!(set("Clone()", "", "b", "3"), "Clone(b: 3)");
    assert_eq!(
        set("[\n\t(\n\t\ta: 1\n\t),\n]", "[0]", "b", "\"x\""),
        "[\n\t(\n\t\ta: 1,\n\t\tb: \"x\"\n\t),\n]"
    );
    let page = "[\n    (\n        a: 1, // one\n        // the end\n    ),\n]";
    assert_eq!(
        set(page, "[0]", "b", "3"),
        "[\n    (\n        a: 1, // one\n        // the end\n        b: 3,\n    ),\n]"
    );
}

#[test]
fn a_part_is_removed_with_its_comma_and_no_comment() {
    let removed =
        |text: &str, path: &str| changed(text, path, |outline, part| outline.remove(part).unwrap());
    let cases = [
        ("[1]", "[0]", "[]"),
        ("[1, 2, 3]", "[0]", "[2, 3]"),
        ("[1, 2, 3]", "[1]", "[1, 3]"),
        ("[1, 2, 3]", "[2]", "[1, 2]"),
        ("[1, 2,]", "[1]", "[1, ]"),
        ("[\n    1,\n    2,\n]", "[0]", "[\n    2,\n]"),
        ("[\n    1,\n    2\n]", "[1]", "[\n    1\n]"),
        ("[\r\n    1,\r\n    2,\r\n]", "[1]", "[\r\n    1,\r\n]"),
        (
            "[\n    1, // one\n    2,\n]",
            "[0]",
            "[\n    // one\n    2,\n]",
        ),
        ("[1 /* one */, 2]", "[0]", "[/* one */ 2]"),
        ("(a: 1, b: 2)", "a", "(b: 2)"),
        (
            "(\n    a: (\n        x: 1,\n    ),\n    b: 2,\n)",
            "a",
            "(\n    b: 2,\n)",
        ),
    ];
    for (text, path, expected) in cases {
        assert_eq!(removed(text, path), expected, "{text:?} {path}");
    }
}

#[test]
fn what_cannot_be_changed_safely_is_refused() {
    let outline = Outline::of("(a: 1, b: [2], c: {\"d\": 3})");
    let root = outline.root().unwrap();
    let at = |path: &str| outline.follow(root, path).unwrap();
    for value in ["", "1, 2", "1 // remark", "[1", "a: 1", "1 2"] {
        assert_eq!(
            outline.append(at("b"), value),
            Err(EditFault::FaultyValue),
            "{value}"
        );
    }
    assert_eq!(outline.append(root, "1"), Err(EditFault::NotAList));
    assert_eq!(
        outline.insert_field(at("b"), "x", "1"),
        Err(EditFault::NotAStruct)
    );
    assert_eq!(
        outline.insert_field(root, "a", "1"),
        Err(EditFault::FieldExists(1..5))
    );
    assert_eq!(outline.remove(root), Err(EditFault::Outermost));
    let put = |start, end, text: &str| Edit {
        start,
        end,
        text: text.into(),
    };
    assert_eq!(
        apply("[12]", &[put(1, 3, "1"), put(2, 3, "")]),
        Err(EditFault::Overlap(2))
    );
    assert_eq!(
        apply("[\"é\"]", &[put(3, 4, "")]),
        Err(EditFault::Outside(3..4))
    );
    assert_eq!(
        apply("[1]", &[put(9, 9, "")]),
        Err(EditFault::Outside(9..9))
    );
    assert!(matches!(apply("[1", &[]), Err(EditFault::FaultyText(_))));
    assert!(matches!(
        apply("[1]", &[put(2, 3, "")]),
        Err(EditFault::FaultyResult(_))
    ));
}

/// Pages of records in many manners: line endings, indentation, trailing commas, comments, one line or many.
fn page() -> impl Strategy<Value = String> {
    let gap = prop::sample::select(vec![
        "",
        " ",
        "\n",
        "\n    ",
        "\r\n\t",
        " /* c */ ",
        " // c\n  ",
        "\n\n// c\r\n",
    ]);
    let value = prop::sample::select(vec![
        "1",
        "\"a, ]\"",
        "None",
        "(a: 1, b: 2)",
        "[1, 2,]",
        "(\n x: 1,\n)",
        "Some(3)",
        "r#\"\"\"#",
    ]);
    let fields = prop::collection::vec((gap.clone(), value, gap.clone()), 0..5);
    let trailing = any::<bool>();
    (fields, trailing, gap, any::<bool>()).prop_map(|(fields, trailing, gap, list)| {
        let one = |(number, (before, value, after)): (usize, &(&str, &str, &str))| {
            let name = if list {
                String::new()
            } else {
                format!("f{number}: ")
            };
            format!("{before}{name}{value}{after}")
        };
        let mut inside = fields
            .iter()
            .enumerate()
            .map(one)
            .collect::<Vec<_>>()
            .join(",");
        if trailing && !fields.is_empty() {
            inside.push(',');
        }
        let (open, close) = if list { ('[', ']') } else { ('(', ')') };
        format!("{open}{inside}{gap}{close}{gap}")
    })
}

/// Whether `part` is what remains of `whole` when some characters are left out.
fn is_left_of(part: &str, whole: &str) -> bool {
    let mut whole = whole.chars();
    part.chars().all(|c| whole.any(|other| other == c))
}

/// The values directly inside the root, as written.
fn values(text: &str) -> Vec<String> {
    let outline = Outline::of(text);
    outline
        .children(outline.root().unwrap())
        .map(|part| outline.slice(part).to_string())
        .collect()
}

proptest! {
    #[test]
    fn putting_in_keeps_every_byte_there_was(page in page()) {
        let outline = Outline::of(&page);
        prop_assert_eq!(outline.faults(), &[]);
        let root = outline.root().unwrap();
        let edits = match page.starts_with('[') {
            true => outline.append(root, "(new: \"x\")").unwrap(),
            false => outline.insert_field(root, "new", "\"x\"").unwrap(),
        };
        let result = apply(&page, &edits).unwrap();
        prop_assert!(edits.iter().all(|edit| edit.start == edit.end));
        prop_assert!(is_left_of(&page, &result));
        let (before, after) = (values(&page), values(&result));
        prop_assert_eq!(&before[..], &after[..after.len() - 1]);
        prop_assert!(after.last().unwrap().contains("\"x\""));
    }

    #[test]
    fn removing_keeps_every_comment_and_other_value(page in page(), which in any::<prop::sample::Index>()) {
        let outline = Outline::of(&page);
        let children: Vec<_> = outline.children(outline.root().unwrap()).collect();
        if !children.is_empty() {
            let at = which.index(children.len());
            let result = apply(&page, &outline.remove(children[at]).unwrap()).unwrap();
            prop_assert!(is_left_of(&result, &page));
            let mut expected = values(&page);
            expected.remove(at);
            prop_assert_eq!(values(&result), expected);
            let comments = |text: &str| text.matches("// c").count() + text.matches("/* c */").count();
            prop_assert_eq!(comments(&result), comments(&page));
        }
    }

    #[test]
    fn replacing_changes_that_value_only(page in page(), which in any::<prop::sample::Index>()) {
        let outline = Outline::of(&page);
        let children: Vec<_> = outline.children(outline.root().unwrap()).collect();
        if !children.is_empty() {
            let part = outline.part(children[which.index(children.len())]);
            let result = apply(&page, &[outline.replace(children[which.index(children.len())], "\"new\"").unwrap()]).unwrap();
            let (head, tail) = (&page[..part.start as usize], &page[part.end as usize..]);
            prop_assert_eq!(result, format!("{head}\"new\"{tail}"));
        }
    }
}
