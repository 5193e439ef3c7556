//! Quotes of tables of text: none swallows the rows below it.

use podbook::text::{GridRow, NoGrid, grid_of_text};

fn cells(text: &str) -> Vec<Vec<String>> {
    let rows = grid_of_text(text.as_bytes()).expect("a table");
    rows.into_iter().map(|row| row.cells).collect()
}

#[test]
fn a_quote_that_is_not_closed_is_refused_by_its_line() {
    for text in [
        "Code,Name,From\nU1,N. alata,\"a friend\nU2,N. maxima,club\nU3,N. mira,club\n",
        "Code,Name,From\nU1,N. alata,\"a friend\nU2,N. maxima,\"club\"\nU3,N. mira,club\n",
    ] {
        let refused = grid_of_text(text.as_bytes()).expect_err("no table");
        assert_eq!(refused, NoGrid::QuoteOpen(2));
        let said = refused.to_string();
        assert!(
            said.contains("line 2") && said.contains("close it"),
            "{said}"
        );
    }
}

#[test]
fn a_lone_quote_is_a_ditto_mark() {
    let tabs = "Tag\tMother\tFather\nC1\tA1\tA2\nC2\t\"\tA3\nC3\t\"A2\tA1\nC4\tA2\tA1\n";
    assert_eq!(
        cells(tabs)[2..],
        [["C2", "\"", "A3"], ["C3", "\"A2", "A1"], ["C4", "A2", "A1"]]
    );
    let commas = "Tag,Mother,Father\nC1,A1,A2\nC2,\",A3\nC3,\",\"\nC4,A2,A1\n";
    assert_eq!(
        cells(commas)[2..],
        [["C2", "\"", "A3"], ["C3", "\"", "\""], ["C4", "A2", "A1"]]
    );
}

#[test]
fn a_closed_quote_may_hold_line_breaks_and_commas() {
    let text =
        "Code,Name,Note\nV1,N. alata,\"big, red,\nand \"\"old\"\", tall\"\nV2,N. mira,\", pale\"\n";
    let rows = grid_of_text(text.as_bytes()).expect("a table");
    let expected = |line: usize, cells: [&str; 3]| GridRow {
        line,
        cells: cells.map(str::to_owned).to_vec(),
    };
    assert_eq!(
        rows[1],
        expected(2, ["V1", "N. alata", "big, red,\nand \"old\", tall"])
    );
    assert_eq!(rows[2], expected(4, ["V2", "N. mira", ", pale"]));
}

/// Lines of a remark may have as many commas as a row; what begins as a row does is one.
#[test]
fn a_remark_with_commas_is_no_row() {
    let text = "Code,Name,Note\nV1,N. alata,\"stands well,\nred,green,spotted\"\nV2,N. mira,x\n";
    let remark = "stands well,\nred,green,spotted";
    let expected = [["V1", "N. alata", remark], ["V2", "N. mira", "x"]];
    assert_eq!(cells(text)[1..], expected);
    for swallowed in [
        "Code,Name,Note\nV1,N. alata,\"big\nV2,N. mira,tall\"\n",
        "Code,Name,Note\nV1,N. alata,\"big\nmira,N. mira,5\"\n",
    ] {
        let refused = grid_of_text(swallowed.as_bytes()).expect_err("no table");
        assert_eq!(refused, NoGrid::QuoteOpen(2));
    }
}
