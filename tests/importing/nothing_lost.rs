//! Numbers and rows that a table holds in an unusual place: read or asked about, never lost and called clear.

use crate::bench_top::{BenchTop, Run};

/// A count, and what part of the seeds it is.
#[test]
fn a_count_with_its_percent_is_the_count() {
    let (top, run) = brought_in("Cross,Sown,Seeds,Germinated\nX20-01,2021-05-01,100,55 (55%)\n");
    assert!(!run.stdout.contains("not a number"), "{run}");
    assert!(page(&top).contains("count: 55"), "{}", page(&top));
}

/// A joined cell is that of its first column alone: the counts of the others are asked about, and stand in the note.
#[test]
fn a_heading_over_several_counts_is_asked_about() {
    let (top, run) = brought_in("Cross,Sown,Seeds,Germinated,,\nX20-01,2021-05-01,20,3,7,9\n");
    let words = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    let asked = "a further number under “Germinated”: give each column a heading of its own";
    assert_eq!(words.matches(asked).count(), 2, "{run}");
    assert!(page(&top).contains("column E: 7"), "{}", page(&top));
    // A column with a heading of its own, and words, are none of it.
    let (_, run) = brought_in("Cross,Sown,Seeds,Germinated,Temp,\nX20-01,2021-05-01,20,3,7,9\n");
    assert!(!run.stdout.contains("a further number"), "{run}");
}

/// Only seed that came from someone came in a packet.
#[test]
fn own_seed_came_in_no_packet() {
    for (table, bought) in [
        (
            "Name,Sown,Seeds\nN. maxima x N. mira,2021-05-01,20\n",
            false,
        ),
        (
            "Name,From,Sown,Seeds\nN. maxima x N. mira,a club,2021-05-01,20\n",
            true,
        ),
    ] {
        let (top, _) = brought_in(table);
        let pages: String = pages(&top).join("\n");
        assert_eq!(pages.contains("the packet as it came"), bought, "{pages}");
    }
}

/// V1 and V2 are known: no further plant is made for each.
#[test]
fn a_sale_of_two_known_plants_makes_no_plants() {
    let (_, run) =
        brought_in("Code,Name,Sold\nV1,N. maxima,\nV2,N. mira,\n\"V1, V2\",,2024-05-01\n");
    assert!(!run.stdout.contains("a plant for each"), "{run}");
    let words = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        words.contains("several plants, and V1 is known: write a row for each"),
        "{run}"
    );
}

/// A new registry with a table brought in on top of the cross X20-01.
fn brought_in(table: &str) -> (BenchTop, Run) {
    let top = BenchTop::empty()
        .file("c.csv", "Cross no.,Mother,Father\nX20-01,?,?\n")
        .file("t.csv", table);
    assert_eq!(top.run(&["new", "mine"]).exit, Some(0));
    let choose = ["--choose", "several_plants=take", "--apply"];
    let import = [
        "import",
        "c.csv",
        "t.csv",
        "--registry",
        "mine",
        "--today",
        "2025-06-01",
    ];
    let run = top.run(&[&import[..], &choose].concat());
    assert_eq!(run.exit, Some(0), "{run}");
    (top, run)
}

fn page(top: &BenchTop) -> String {
    top.text("mine/crosses/X20-01.ron")
}

/// The texts of all pages of crosses.
fn pages(top: &BenchTop) -> Vec<String> {
    let folder = std::fs::read_dir(top.path().join("mine/crosses")).expect("pages");
    let text = |entry: std::io::Result<std::fs::DirEntry>| {
        std::fs::read_to_string(entry.expect("a page").path()).expect("a text")
    };
    folder.map(text).collect()
}

/// A remark and a size that is no number come in with a row that says nothing else of a known plant or cross: its note keeps
/// them, and says so once.
#[test]
fn a_remark_on_what_is_known_is_kept() {
    for (code, row, kept) in [
        ("V1", "V1;~16;window side", "Remarks: window side"),
        ("V1", "V1;;seen aphids", "Remarks: seen aphids"),
        ("V1", "V1;~16;", "Span 2025-05-20 (cm): ~16"),
    ] {
        let (top, run) = second(
            "Code;Name\nV1;N. maxima\n",
            "Plant no.;Span 2025-05-20 (cm);Remarks",
            row,
        );
        assert!(
            run.stdout.contains("more about 1 plant on record"),
            "{code}: {run}"
        );
        let page = top.text("mine/clones.ron");
        assert!(page.contains(kept), "{row}: {page}");
        let again = import(&top, "t.csv");
        assert!(again.stdout.contains("nothing to bring in"), "{again}");
    }
    let head = "Cross no.;Mother;Father";
    let table = format!("{head}\nX20-01;maxima;mira\n");
    let (top, run) = second(
        &table,
        &format!("{head};Remarks"),
        "X20-01;maxima;mira;pale",
    );
    assert!(run.stdout.contains("remarks on 1 cross on record"), "{run}");
    assert!(page(&top).contains("Remarks: pale"), "{}", page(&top));
    let again = import(&top, "t.csv");
    assert!(again.stdout.contains("nothing to bring in"), "{again}");
}

/// The same remark with another place is not written twice.
#[test]
fn a_remark_that_is_kept_is_not_new() {
    let head = "Code;Name;Where;Remarks";
    let first = format!("{head}\nV1;N. maxima;shelf 1;pale\n");
    let (_, run) = second(&first, head, "V1;N. maxima;shelf 2;pale");
    assert!(run.stdout.contains("nothing to bring in"), "{run}");
}

/// What a row says that is left out for something else is not said to be in a note.
#[test]
fn nothing_of_a_row_left_out_is_called_kept() {
    let (_, run) = second(
        "Code;Name\nV1;N. maxima\n",
        "Code;Name;Span (cm)",
        "V1;N. mira;~16",
    );
    let words = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("something else (other): left out"), "{run}");
    assert!(!words.contains("stays in the note"), "{run}");
}

/// A new registry with one table brought in, and what bringing in a second one says.
fn second(first: &str, head: &str, row: &str) -> (BenchTop, Run) {
    let top = BenchTop::empty()
        .file("first.csv", first)
        .file("t.csv", &format!("{head}\n{row}\n"));
    assert_eq!(top.run(&["new", "mine"]).exit, Some(0));
    import(&top, "first.csv");
    let run = import(&top, "t.csv");
    (top, run)
}

fn import(top: &BenchTop, table: &str) -> Run {
    let args = ["import", table, "--registry", "mine", "--apply"];
    let run = top.run(&[&args[..], &["--today", "2025-06-01"]].concat());
    assert_eq!(run.exit, Some(0), "{run}");
    run
}
