//! Tables and command lines no sound hand makes: cells mutilated, columns torn, options out of place. Nothing panics, every
//! row is counted once, and what is taken leaves no new fault and is not taken twice.

use crate::base::{Pages, plain};
use crate::hostile::{survives, today};
use crate::mutate::Mutator;
use crate::{rounds, sources};
use podbook::analysis::import::{Import, InputTable, import};
use podbook::cli::{Arguments, command};
use podbook::record::{ImportChoices, RowClass};
use podbook::recording::checked::consequences;
use podbook::recording::draft::{Draft, PageChange};
use podbook::recording::events::sitting_page::Circumstances;
use podbook::recording::filled::{Wanted, doubts, filled};
use podbook::recording::import::bring_in;
use podbook::registry::{Registry, build};
use podbook::text::grid_of_text;

const TABLES: &[&str] = &[
    "code,span cm,rim,note\nX22-02-1,12.5,green,\nX22-02-2,\"9,5\",red,\"said \"\"wavy\"\"\"\nVen1,31,,\n",
    "plant;leaf span (cm);leaves;date\nX22-02-1;12;7;2024-05-01\nX22-02-3;5 3/4in;6;1.5.2024\nMax2;dead;;2024-05-01\n",
    "My plants\n\nname\tfrom\tbought\tsex\nN. maxima\ta friend\tspring 2021\tm\nN. ventricosa × maxima\t\t2019\t?\n",
    "code,seed parent,pollen parent,date,pods\nX24-01,Ven1,Max2,2024-03-30,3\nX24-02,Vei4,Ven1 or Max2,04/2024,\n",
    "code,name,status,sold to,price\nMax9,N. maxima,sold 2023,a friend,20\nX22-02-1,,died,,\nMax9,N. veitchii,alive,,\n",
];

const LINES: &[&str] = &[
    "list plants --species maxima --place shelf-1 --width 60",
    "measure X22-02 --trait span --on 2024-05-01 --from readings.csv",
    "pollinate Vei4 --with Max2-2403 --flowers 12 --on 2024-03-30 --note dry",
    "plan --pots 60 --spikes Ven1=2 --json",
    "import plants.csv crosses.csv --apply --choose plants.csv/3=skip",
    "show X22-02-1 --registry . --today 2025-06-01 --color never",
];

/// Reads a table as a sheet of readings, and where it can be taken, looks at what it would bring.
fn read_as_readings(registry: &Registry, text: &str) -> bool {
    let Ok(grid) = grid_of_text(text.as_bytes()) else {
        return false;
    };
    let circumstances = Circumstances::default();
    let wanted = Wanted {
        cross: Some("X22-02"),
        plants: None,
        traits: &[],
        circumstances: &circumstances,
        again: false,
        today: today(),
    };
    match filled(registry, &grid, &wanted) {
        Ok(table) => {
            let _ = doubts(registry, &table, today());
            !table.sittings.is_empty()
        }
        Err(slip) => {
            assert!(slip.to_string().chars().any(char::is_alphabetic));
            false
        }
    }
}

fn brought(registry: &Registry, table: &InputTable) -> Import {
    let choices = ImportChoices::read("()").expect("no choices");
    let import = import(registry, std::slice::from_ref(table), &choices, today());
    let counted: usize = RowClass::ALL.iter().map(|class| import.count(*class)).sum();
    assert_eq!(counted, import.rows.len());
    assert_eq!(counted + import.headings(), import.lines());
    import
}

fn with(changes: Vec<PageChange>) -> Pages {
    let mut pages = plain();
    pages.extend(
        changes
            .into_iter()
            .map(|page| (page.path, page.now.expect("a page"))),
    );
    pages
}

/// Brings a table in; if it is taken, it is brought in again, and nothing may be left to take.
fn bring_in_twice(registry: &Registry, text: &str) -> bool {
    let Ok(rows) = grid_of_text(text.as_bytes()) else {
        return false;
    };
    let name = "table.csv".to_owned();
    let table = InputTable {
        name,
        rows,
        ..InputTable::default()
    };
    let import = brought(registry, &table);
    let mut draft = Draft::new(registry, today());
    let Ok(recorded) = bring_in(&import, &mut draft) else {
        return false;
    };
    let changes = draft.changes();
    let seen = consequences(registry, &changes, &recorded.about, today());
    if changes.is_empty() || seen.are_faulty() {
        return false;
    }
    // What was looked at are the pages in question; the whole registry has the others as well.
    let after = sources(&with(changes));
    let coming = brought(&build(&after).0, &table).coming().count();
    assert_eq!(coming, 0, "a second run adds nothing");
    true
}

#[test]
fn no_table_brings_the_program_down() {
    let pages: Pages = plain();
    let read = sources(&pages);
    let (registry, _) = build(&read);
    let mut mutator = Mutator::new(41, TABLES);
    let (all, mut measured, mut taken) = (rounds(400), 0, 0);
    for number in 0..all {
        let text = mutator.text();
        survives("table", number, &|| text.clone(), || {
            measured += u64::from(read_as_readings(&registry, &text));
            taken += u64::from(bring_in_twice(&registry, &text));
        });
    }
    println!("{all} mutilated tables: {measured} with readings, {taken} brought in");
    assert!(measured > all / 20, "{measured}");
    assert!(taken > all / 20, "{taken}");
}

#[test]
fn no_command_line_brings_the_program_down() {
    let mut mutator = Mutator::new(51, LINES);
    let (all, mut understood) = (rounds(600), 0);
    for number in 0..all {
        let line = mutator.text();
        survives("line", number, &|| line.clone(), || {
            let words = std::iter::once("podbook").chain(line.split(' '));
            let found = command().try_get_matches_from(words);
            match found.and_then(|found| Arguments::found(&found)) {
                Ok(_) => understood += 1,
                Err(error) => assert!(!error.to_string().is_empty()),
            }
        });
    }
    println!("{all} mutilated command lines, {understood} understood");
    assert!(understood > all / 100, "{understood}");
}
