//! Files named like tables that are none: each is refused with what it is and what to do, and nothing is written.

use crate::bench_top::BenchTop;
use crate::workbook::{sheet, xlsx};

/// What is said of one file, and its exit code.
fn told(name: &str, bytes: &[u8]) -> (Option<i32>, String) {
    let top = BenchTop::empty().bytes(name, bytes);
    assert_eq!(top.run(&["new", "mine"]).exit, Some(0));
    let before = top.text("mine/clones.ron");
    let run = top.run(&["import", name, "--registry", "mine", "--apply"]);
    if run.exit != Some(0) {
        assert_eq!(top.text("mine/clones.ron"), before);
    }
    (run.exit, format!("{}{}", run.stdout, run.stderr))
}

const LETTER: &str = "Dear friend,\n\nthank you for the plants, they came well, and the box was dry.\n\
    I have potted the maxima, the truncata and the small hybrid.\n\
    The red one, which you said was from the fair, has a new leaf.\n\nYours,\na grower\n";

#[test]
fn what_is_no_table_is_refused_by_what_it_is() {
    let page = "<html><body><table>\n<tr><td>Code</td><td>Name</td></tr>\n</table></body></html>";
    let book = xlsx(&[sheet("Plants", &["code|name", "V1|N. maxima"])]);
    let utf16: Vec<u8> = "\u{feff}code,name"
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    let refused: [(&str, &[u8], &str, &str); 9] = [
        (
            "letter.csv",
            LETTER.as_bytes(),
            "holds sentences, not a table",
            "one plant or cross on each row",
        ),
        (
            "page.csv",
            page.as_bytes(),
            "is a web page (HTML)",
            "open it in a spreadsheet",
        ),
        (
            "page.xls",
            page.as_bytes(),
            "is a web page (HTML)",
            "open it in a spreadsheet",
        ),
        (
            "old.xls",
            b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1",
            "is a workbook or document of the old kind",
            "save the table as .xlsx",
        ),
        (
            "book.csv",
            &book,
            "is a packed file, such as a workbook",
            "give it the ending .xlsx",
        ),
        (
            "photo.csv",
            b"\xff\xd8\xff\xe0\x00\x10JFIF",
            "is a picture (JPEG)",
            "write the table into a spreadsheet",
        ),
        (
            "bytes.csv",
            b"code,name\nV1,\xc3\x28\n",
            "is not text in UTF-8",
            "save it as \"CSV UTF-8\"",
        ),
        ("wide.csv", &utf16, "is text in UTF-16", "CSV UTF-8"),
        (
            "data.csv",
            b"[{\"code\": \"V1\", \"name\": \"N. maxima\"}]",
            "is a page of data (JSON)",
            "open it in a spreadsheet",
        ),
    ];
    for (name, bytes, is, then) in refused {
        let (exit, said) = told(name, bytes);
        assert_eq!(exit, Some(3), "{name}: {said}");
        assert!(said.contains(&format!("{name} {is}")), "{said}");
        assert!(said.contains(then), "{said}");
    }
}

/// A list of names is a table, with its heading or without, and so is one whose headings nothing is known of.
#[test]
fn short_lists_and_unknown_headings_are_still_tables() {
    for (name, text, says) in [
        (
            "one.csv",
            "Name\nN. maxima\nN. truncata\n",
            "Brought in 2 rows",
        ),
        (
            "bare.csv",
            "N. maxima\nN. truncata\nzorkleana\n",
            "Brought in 3 rows",
        ),
        ("ends.csv", "Name\n<N. maxima>\n", "Brought in 1 row"),
        (
            "nom.csv",
            "Nom,Lieu\nrouge,serre\nvert,maison\n",
            "nothing to bring in",
        ),
        (
            "diary.csv",
            "Code,Remarks\nV1,it came in a box that was wet on one side and has lost two leaves since\n",
            "Brought in 1 row",
        ),
    ] {
        let (exit, said) = told(name, text.as_bytes());
        assert_eq!(exit, Some(0), "{name}: {said}");
        assert!(said.contains(says), "{name}: {said}");
    }
}
