//! What is recorded from a page is what the command records, and what does not fit is given back in words.

use crate::running::{Device, Server};
use podbook::diagnostic::{Code, Finding, Findings};
use podbook::recording::checked::Consequences;
use podbook::report::unrecorded::faulty_on_page;
use podbook::text::Sources;
use serde_json::{Value, json};
use std::fs;
use std::path::Path;
use std::process::Command;

fn entered(device: &Device, mut entry: Value) -> Value {
    entry["id"] = json!(format!(
        "an-entry-{:016x}",
        entry.to_string().bytes().fold(7_u64, |sum, byte| sum
            .wrapping_mul(31)
            .wrapping_add(u64::from(byte)))
    ));
    device.enter(&json!([entry]))[0].clone()
}

/// Every page of a registry, by name.
fn pages(folder: &Path) -> Vec<(String, String)> {
    let mut found = Vec::new();
    for folder in [folder.to_owned(), folder.join("crosses")] {
        for entry in fs::read_dir(folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.extension().is_some_and(|of| of == "ron") {
                let name = path
                    .file_name()
                    .expect("a name")
                    .to_string_lossy()
                    .into_owned();
                found.push((name, fs::read_to_string(path).expect("a page")));
            }
        }
    }
    found.sort();
    found
}

#[test]
fn an_entry_does_what_its_command_does() {
    for (entry, command) in [
        (
            json!({"kind": "flower", "plant": "X22-02-5", "sex": "female", "on": "2025-05-30"}),
            "flower X22-02-5 --sex female --on 2025-05-30",
        ),
        (
            json!({"kind": "flower", "plant": "X22-02-5", "saw": "open", "sex": "female", "on": "2025-05-30"}),
            "flower X22-02-5 --sex female --on 2025-05-30",
        ),
        (
            json!({"kind": "flower", "plant": "X22-02-5", "saw": "opened", "on": "2025-05-30"}),
            "flower X22-02-5 --opened 2025-05-30",
        ),
        (
            json!({"kind": "flower", "plant": "X22-02-5", "saw": "bud", "on": "2025-05-30"}),
            "flower X22-02-5 --seen 2025-05-30",
        ),
        (
            json!({"kind": "flower", "plant": "X22-02-7", "on": "2025-05-30", "note": "in bud"}),
            "flower X22-02-7 --seen 2025-05-30 --note 'in bud'",
        ),
        (
            json!({"kind": "collect", "plant": "Spa1", "stored": "freezer", "dried": "over silica gel", "code": "S7", "on": "2025-05-20"}),
            "collect Spa1 --stored freezer --dried 'over silica gel' --code S7 --on 2025-05-20",
        ),
        (
            json!({"kind": "pollinate", "plant": "Ven1", "with": "Spa1", "zone": "red", "flowers": "12", "controls": 5, "on": "2025-05-30"}),
            "pollinate Ven1 --with Spa1 --zone red --flowers 12 --controls 5 --on 2025-05-30",
        ),
        // The pollen of one of several plants, not known which.
        (
            json!({"kind": "pollinate", "plant": "Ven1", "with": "Spa1, Tru1", "zone": "red", "flowers": "3", "on": "2025-05-30"}),
            "pollinate Ven1 --one-of Spa1,Tru1 --zone red --flowers 3 --on 2025-05-30",
        ),
        // Pollen that was mixed together.
        (
            json!({"kind": "pollinate", "plant": "Ven1-b", "with": "Spa1+Tru1", "zone": "red", "flowers": "3", "on": "2025-05-30"}),
            "pollinate Ven1-b --mixed Spa1,Tru1 --zone red --flowers 3 --on 2025-05-30",
        ),
        // A mix-up of the time before a plant was culled.
        (
            json!({"kind": "muddle", "plant": "X22-02-6", "others": "X22-02-3", "on": "2025-05-01"}),
            "muddle X22-02-6 X22-02-3 --on 2025-05-01",
        ),
        (
            json!({"kind": "took", "zone": "X22-02.A", "pods": 8, "again": true, "on": "2022-04-24"}),
            "took X22-02.A 8 --again --on 2022-04-24",
        ),
        // A count that is put right is of its day, not of that on which it was entered.
        (
            json!({"kind": "took", "zone": "X22-02.A", "pods": 9, "again": true, "entered": "2025-05-30"}),
            "took X22-02.A 9 --again",
        ),
        (
            json!({"kind": "gone", "plant": "X22-02-5", "fate": "died", "why": "damping off", "on": "2025-05-30"}),
            "gone X22-02-5 --died --why 'damping off' --on 2025-05-30",
        ),
        (
            json!({"kind": "gone", "plant": "X22-02-5", "fate": "sold", "to": "a friend", "price": "20", "label": "N. spathulata", "on": "2025-05-30"}),
            "gone X22-02-5 --sold --to 'a friend' --price 20 --label 'N. spathulata' --on 2025-05-30",
        ),
        (
            json!({"kind": "back", "plant": "X15-02-5", "place": "bench 2", "note": "in good health", "on": "2025-05-20"}),
            "back X15-02-5 --place 'bench 2' --note 'in good health' --on 2025-05-20",
        ),
        (
            json!({"kind": "keep", "plant": "X22-02-5", "why": "even, red rims", "on": "2025-05-30"}),
            "keep X22-02-5 --why 'even, red rims' --on 2025-05-30",
        ),
        (
            json!({"kind": "keep", "plant": "X22-02-1", "no_longer": true}),
            "keep X22-02-1 --no-longer",
        ),
        (
            json!({"kind": "cutting", "plant": "Ven1-b", "made": "division", "code": "k", "place": "shelf 2", "on": "2025-05-30"}),
            "cutting Ven1-b --code k --made division --place 'shelf 2' --on 2025-05-30",
        ),
        (
            json!({"kind": "move", "plant": "X22-02-5", "to": "shelf 9"}),
            "move X22-02-5 'shelf 9'",
        ),
        (
            json!({"kind": "seen", "plant": "X22-02-5", "found": "here", "on": "2025-05-30"}),
            "seen X22-02-5 --on 2025-05-30",
        ),
        (
            json!({"kind": "seen", "plant": "X22-02-5", "found": "missing", "on": "2025-05-30"}),
            "seen X22-02-5 --except X22-02-5 --on 2025-05-30",
        ),
        (
            json!({"kind": "treat", "plant": "X22-02-5", "product": "predatory mites", "against": "thrips", "by": "me", "on": "2025-05-30"}),
            "treat X22-02-5 'predatory mites' --against thrips --by me --on 2025-05-30",
        ),
        (
            json!({"kind": "rooted", "plant": "Ven1", "on": "2025-05-20"}),
            "rooted Ven1 --on 2025-05-20",
        ),
        (
            json!({"kind": "harvest", "zone": "X21-05.B", "capsules": "1", "seeds": 40, "estimated": true, "on": "2021-09-30"}),
            "harvest X21-05.B --capsules 1 --seeds 40 --estimated --on 2021-09-30",
        ),
        (
            json!({"kind": "sow", "lot": "X22-02.L1", "seeds": "10", "container": "tray 4", "on": "2025-05-30"}),
            "sow X22-02.L1 --seeds 10 --container 'tray 4' --on 2025-05-30",
        ),
        (
            json!({"kind": "count", "of": "X21-05.T1", "standing": 15, "on": "2025-05-30"}),
            "count X21-05.T1 --standing 15 --on 2025-05-30",
        ),
        (
            json!({"kind": "gone_from", "pot": "X21-05.T1", "seedlings": 3, "fate": "culled", "why": "runts", "on": "2025-05-30"}),
            "gone X21-05.T1 --culled --seedlings 3 --why runts --on 2025-05-30",
        ),
        (
            json!({"kind": "number", "from": "X21-05.T1", "numbers": "1-3", "pot": "5cm", "place": "shelf 2", "on": "2025-05-30"}),
            "number X21-05.T1 1-3 --pot 5cm --place 'shelf 2' --on 2025-05-30",
        ),
        (
            json!({"kind": "prick", "sowing": "X21-05.S1", "moved": "4", "left": 0, "to": "T2", "on": "2025-05-30"}),
            "prick X21-05.S1 4 --left 0 --to T2 --on 2025-05-30",
        ),
        (
            json!({"kind": "pot", "plant": "X22-02-5", "width": "9cm", "place": "shelf 2"}),
            "pot X22-02-5 9cm --place 'shelf 2'",
        ),
        (
            json!({"kind": "muddle", "plant": "X22-02-3", "others": "X22-02-14", "why": "tags fell out"}),
            "muddle X22-02-3 X22-02-14 --why 'tags fell out'",
        ),
    ] {
        let mut server = Server::of_demo(&[]);
        let device = server.paired();
        let by_hand = Server::of_demo(&[]);
        let answer = entered(&device, entry);
        assert_eq!(answer["state"], "recorded", "{command}: {answer}");
        let ran = Command::new(env!("CARGO_BIN_EXE_podbook"))
            .args(shlex::split(command).expect("a line of words"))
            .args(["--today", "2025-06-01", "--registry"])
            .arg(&by_hand.folder)
            .output()
            .expect("it runs");
        assert!(
            ran.status.success(),
            "{command}: {}",
            String::from_utf8_lossy(&ran.stderr)
        );
        assert_eq!(pages(&server.folder), pages(&by_hand.folder), "{command}");
        // The journal has the command, so that `changes` shows what one could have typed.
        let changes = Command::new(env!("CARGO_BIN_EXE_podbook"))
            .args(["changes", "--json", "--registry"])
            .arg(&server.folder)
            .output()
            .expect("it runs");
        let changes: Value = serde_json::from_slice(&changes.stdout).expect("JSON");
        assert_eq!(changes["changes"][0]["asked"], command);
    }
}

/// A count that takes the place of one without a day, and that waited on the phone, is of the day on which it was entered.
#[test]
fn a_count_that_waited_is_of_the_day_it_was_entered() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let page = server.folder.join("crosses/X20-02.ron");
    let text = fs::read_to_string(&page).expect("the page");
    let zone = "(zone: \"C\", on: [\"2025-04-02\"], flowers: 5, set: 3), (zone: \"B\",";
    fs::write(&page, text.replace("(zone: \"B\",", zone)).expect("a page can be written");
    let count = json!({"kind": "took", "zone": "X20-02.C", "pods": 2, "again": true, "entered": "2025-05-30"});
    assert_eq!(entered(&device, count)["state"], "recorded");
    let text = fs::read_to_string(&page).expect("the page");
    assert!(text.contains("set: 2, counted: \"2025-05-30\""), "{text}");
}

#[test]
fn a_pollination_may_name_its_spike() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    for entry in [
        json!({"kind": "flower", "plant": "Ven1-b", "saw": "opened", "on": "2025-05-20"}),
        json!({"kind": "pollinate", "plant": "Ven1-b", "with": "Spa1", "zone": "red", "spike": "25a", "on": "2025-05-30"}),
        json!({"kind": "flower", "plant": "Ven1-b", "saw": "over", "spike": "25a", "on": "2025-06-01"}),
    ] {
        let answer = entered(&device, entry.clone());
        assert_eq!(answer["state"], "recorded", "{entry}: {answer}");
    }
    let pages = pages(&server.folder);
    assert!(
        pages
            .iter()
            .any(|(_, text)| text.contains("spike: \"25a\""))
    );
    // Another day for an open spike, or another spike, is said in the words of the form.
    let opened = json!({"kind": "flower", "plant": "Jac1", "saw": "opened", "on": "2025-05-20"});
    assert_eq!(entered(&device, opened)["state"], "recorded");
    let again = json!({"kind": "flower", "plant": "Jac1", "saw": "opened", "on": "2025-05-22"});
    let again = entered(&device, again);
    let words = again["words"].as_str().expect("words");
    let wanted =
        "to give it another day, fill in “Spike”: 25a; if that is another one, record it first as";
    assert!(words.contains(wanted) && !words.contains("--"), "{words}");
    // What was recorded last is said in the words of the forms.
    let last = device.get("/record").text();
    assert!(
        last.contains("Pollen: <a") && last.contains("Zone: red; Spike: 25a; Day: 2025-05-30"),
        "{last}"
    );
    assert!(!last.contains("--zone"), "{last}");
}

#[test]
fn what_does_not_fit_is_given_back_in_words() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let before = pages(&server.folder);
    for row in [
        r#""gone", "plant": "X22-02-99", "fate": "died" => no plant"#,
        r#""gone", "plant": "X22-02-5", "fate": "eaten" => died, culled"#,
        r#""pot", "plant": "X22-02-5", "width": "9" => unit"#,
        r#""pot", "plant": "X22-02-5", "width": "9cm", "on": "2035-01-01" => 2025-06-01"#,
        r#""pot", "plant": "X22-02-5", "width": "9cm", "wdith": "9cm" => `wdith`"#,
        r#""pot", "plant": 5, "width": "9cm" => `plant` needs words"#,
        r#""pot", "plant": "a\nb", "width": "9cm" => one line"#,
        r#""burn", "plant": "X22-02-5" => no kind of entry"#,
        r#""flower", "plant": "X22-02-5", "saw": "bud", "sex": "male" => only open flowers"#,
        r#""flower", "plant": "X22-02-5", "saw": "much" => bud, open, opened or over"#,
        // Fields of the page, and no options of the keyboard.
        r#""gone", "plant": "X22-02-5", "fate": "sold", "why": "room" => “Why” belongs"#,
        r#""took", "zone": "X22-02.A", "pods": 3 => tick “Replace the count on record”"#,
        r#""measure", "plant": "X22-02-5", "traits": ["span"], "cells": ["tall"] => tall"#,
        r#""measure", "plant": "X22-02-5", "traits": ["spam"], "cells": ["5"] => spam"#,
        r#""measure", "plant": "X22-02-5", "traits": ["span"], "cells": [] => as many"#,
        r#""gone", "plant": "X22-02-5", "fate": "died", "to": "a friend" => “Who has it now” belongs to sold and given"#,
        r#""flower", "plant": "X22-02-3", "saw": "over", "on": "2025-05-30" => record it first as “its first flower, opened that day”"#,
        r#""flower", "plant": "X22-02-3", "saw": "opened", "on": "2035-05-30" => “Day” 2035-05-30 is in the future"#,
        r#""pollinate", "plant": "Ven1", "with": "Zzz, Tru1", "flowers": "3" => look under Plants"#,
        r#""muddle", "plant": "Spa1", "others": "Ven1" => record an opinion at the computer"#,
        r#""muddle", "plant": "X22-02-6", "others": "X22-02-3", "on": "2025-05-20" => X22-02-6 is no longer here"#,
        r#""harvest", "zone": "X22-02.A", "seeds": "many" => “Seeds” needs a whole number"#,
        r#""harvest", "zone": "X22-02.A", "capsules": 1, "on": "2022-09-10" => tick “Replace the count on record”"#,
        r#""sow", "lot": "X21-05.P1" => name its seed lot, X21-05.L1"#,
        r#""count", "of": "X20-01.S1" => fill in “Came up so far” or “Alive now”"#,
        r#""count", "of": "X20-01.S1", "up": 2, "on": "2021-05-30" => “Came up so far” counts all that ever came up; use “Alive now”"#,
        r#""back", "plant": "X22-02-5" => on record as here"#,
        r#""back", "plant": "X22-02-6" => it is on record as culled"#,
        r#""back", "plant": "Gra1" => record that you saw it, under “Looked for” on its page"#,
        r#""pot", "plant": "Gra1", "width": "9cm" => record that first, under “Looked for” on its page; else"#,
        r#""took", "zone": "X22-02.A", "pods": "many" => “Flowers that set” needs a whole number"#,
        r#""prick", "sowing": "X22-02.S1", "moved": "x" => “Seedlings moved” needs a whole number"#,
        r#""pollinate", "plant": "Ven1", "with": "Spa1+Tru1,Ram1" => “Pollen” needs commas"#,
        r#""number", "from": "X21-05.T1", "numbers": "1–8" => 7, 3,7 or 1-40"#,
        r#""seen", "plant": "Ven1-c", "found": "here" => it came back, under “Came back” on its page"#,
        r#""seen", "plant": "Ven1-a", "found": "here" => undo its end under Record, or correct its record at the computer"#,
        r#""gone_from", "pot": "X24-01.T9", "fate": "died" => look under Crosses"#,
        r#""gone", "plant": "Jac1", "fate": "died", "on": "2018-01-01" => a spike was seen after Jac1 died; found `2020-01-20`; needed: 2018-01-01 or earlier"#,
        r#""measure", "plant": "X22-02-5", "traits": ["zzzz"], "cells": ["5"] => declare the trait at the computer"#,
        r#""undo", "change": 9 => “Recorded last” under Record"#,
    ] {
        let (entry, words) = row.split_once(" => ").expect("words");
        let answer = told(&device, entry, "refused");
        let answer = answer["words"].as_str().expect("words");
        assert!(answer.contains(words), "{row}: {answer}");
        assert!(!answer.contains(".ron"), "{row}: {answer}");
    }
    for body in ["", "{", "{}", "5", "[1", "null"] {
        assert_eq!(
            device.post("/entries", body.as_bytes()).status,
            400,
            "{body}"
        );
    }
    assert_eq!(device.enter(&json!([5]))[0]["state"], "refused");
    let many = Value::Array(vec![json!({}); 51]);
    assert_eq!(
        device.post("/entries", many.to_string().as_bytes()).status,
        400
    );
    assert_eq!(pages(&server.folder), before);
}

#[test]
fn a_row_is_judged_as_at_the_keyboard() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let row = |cells: Value| json!({"kind": "measure", "plant": "X22-02-5", "traits": ["span", "banding"], "cells": cells, "on": "2025-06-01"});
    let sure = entered(&device, row(json!(["1.8", "2"])));
    assert_eq!(sure["state"], "sure", "{sure}");
    assert!(sure["words"].as_str().expect("words").ends_with("sure?"));
    assert_eq!(server.events().len(), 0);
    let taken = entered(&device, row(json!(["16.2", "2"])));
    assert_eq!(taken["state"], "recorded", "{taken}");
    let twice = entered(&device, row(json!(["16.3", "2"])));
    assert!(
        twice["words"].as_str().expect("words").contains("already"),
        "{twice}"
    );
    let mut again = row(json!(["16.3", ""]));
    again["again"] = json!(true);
    assert_eq!(entered(&device, again)["state"], "recorded");
    let page = fs::read_to_string(server.folder.join("crosses/X22-02.ron")).expect("the page");
    assert!(page.contains("[\"5\", \"16.3\", \"2\"]"), "{page}");
    let line = json!({"kind": "measure", "plant": "X22-02-3", "traits": ["span", "banding"], "line": "15.5; 3; ", "on": "2025-06-01"});
    let line = entered(&device, line);
    assert_eq!(line["state"], "recorded", "{line}");
    let sheet = device.get("/sitting?of=X22-02&traits=span,banding").text();
    let row = sheet
        .split("data-plant=\"X22-02-3\"")
        .nth(1)
        .expect("the row");
    assert!(
        row[..700].contains("<b>15.5</b>") && row[..700].contains("in the book"),
        "{row}"
    );
}

/// What was taken back is said without the options of its command, which a phone does not have.
#[test]
fn an_undoing_is_told_in_the_words_of_the_page() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let row = json!({"kind": "measure", "plant": "X22-02-5", "traits": ["span", "banding"], "line": "dead", "on": "2025-06-01"});
    assert_eq!(entered(&device, row)["state"], "recorded");
    let undone = entered(&device, json!({"kind": "undo", "change": 1}));
    let told = "Undid change 1: the end of X22-02-5. Undo brings it back";
    assert_eq!(undone["report"]["recorded"], told);
}

/// A sheet marks the plants that may be another, and leads from the page of a plant that left to the change that says so.
#[test]
fn pages_say_which_plants_are_mixed_up_and_which_left() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let marked = |device: &Device| {
        let sheet = device.get("/sitting?of=X22-02").text();
        sheet.matches("mixed up").count()
    };
    assert_eq!(marked(&device), 0);
    let muddle = json!({"kind": "muddle", "plant": "X22-02-3", "others": "X22-02-14"});
    assert_eq!(entered(&device, muddle)["state"], "recorded");
    assert_eq!(marked(&device), 2);
    let left = "name=\"podbook-left\" content=\"2\"";
    let page = |device: &Device| device.get("/plants/x22-02-5.html").text();
    assert!(!page(&device).contains("podbook-left"));
    let gone = json!({"kind": "gone", "plant": "X22-02-5", "fate": "sold"});
    assert_eq!(entered(&device, gone)["state"], "recorded");
    assert!(page(&device).contains(left));
    assert_eq!(
        entered(&device, json!({"kind": "undo", "change": 2}))["state"],
        "recorded"
    );
    assert!(!page(&device).contains("podbook-left"));
    // Of a plant that was recorded as gone by other means no change is known.
    let culled = device.get("/plants/x22-02-6.html").text();
    assert!(culled.contains("name=\"podbook-left\" content=\"\" data-mixes"));
    // A founder is not mixed up.
    let lost = device.get("/plants/gra1.html").text();
    assert!(lost.contains("podbook-left") && !lost.contains("data-mixes"));
    // Only what was sold or given away may come back, whole or a piece of it.
    let sold = device.get("/plants/x15-02-5.html").text();
    assert!(sold.contains("content=\"X15-02-5\" data-returns"));
    assert!(!culled.contains("data-returns") && !lost.contains("data-returns"));
    let a_piece = device.get("/plants/ven1.html").text();
    assert!(a_piece.contains("content=\"Ven1\" data-founder data-returns"));
    let back = entered(&device, json!({"kind": "back", "plant": "X15-02-5"}));
    assert_eq!(back["state"], "recorded", "{back}");
    assert!(!back.to_string().contains("podbook "), "{back}");
    let here = device.get("/plants/x15-02-5.html").text();
    assert!(!here.contains("data-returns") && !here.contains("podbook-left"));
    // Nor is that offered.
    let founder = device.get("/plants/spa1.html").text();
    assert!(founder.contains("name=\"podbook-plant\" content=\"Spa1\" data-founder"));
    assert!(!culled.contains("data-founder"));
}

/// A registry without a plant says what to do first.
#[test]
fn an_empty_registry_has_a_first_step() {
    let kept = tempfile::tempdir().expect("a folder");
    let folder = kept.path().join("empty");
    let made = Command::new(env!("CARGO_BIN_EXE_podbook"))
        .arg("new")
        .arg(&folder)
        .output()
        .expect("it runs");
    assert!(made.status.success());
    let mut server = Server::on(&folder, &[]);
    let device = server.paired();
    for path in ["/", "/record"] {
        let page = device.get(path).text();
        assert!(page.contains("Add the first at the computer"), "{path}");
    }
    assert!(!device.get("/record").text().contains("Open the sheet"));
}

/// Faults leave something out of every page, so every page says that there are some.
#[test]
fn pages_say_that_the_registry_has_faults() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let menu = [
        "/",
        "/species.html",
        "/plants/ven1.html",
        "/find",
        "/record",
    ];
    for path in menu {
        let page = device.get(path);
        assert_eq!(page.status, 200, "{path}");
        let page = page.text();
        assert!(page.contains(">Problems</a>"), "{path}: {page}");
        assert!(!page.contains("What a fault touches"), "{path}: {page}");
    }
    let page = server.folder.join("crosses/X22-02.ron");
    let text = fs::read_to_string(&page).expect("the page");
    let wrong = text.replace("seed: \"X18-01-4\"", "seed: \"X18-01-44\"");
    fs::write(&page, wrong).expect("the page can be written");
    for path in menu {
        let page = device.get(path).text();
        assert!(page.contains(">Problems (1)</a>"), "{path}: {page}");
    }
    let page = device.get("/record").text();
    assert!(page.contains("The registry has 1 fault."), "{page}");
    let sold = json!({"kind": "gone", "fate": "sold", "plant": "X22-02-5"});
    let sold = entered(&device, sold);
    let words = "the description kept with what left leaves out what a fault touches";
    assert!(sold.to_string().contains(words), "{sold}");
}

/// A line as the field shows it: a remark behind the last value is kept, commas in it too; a value too many is refused.
#[test]
fn a_line_is_taken_whole_or_not_at_all() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let line = |plant: &str, line: &str| {
        let entry = json!({"kind": "measure", "plant": plant, "traits": ["span", "banding"], "line": line, "on": "2025-06-01"});
        entered(&device, entry)
    };
    let page = || fs::read_to_string(server.folder.join("crosses/X22-02.ron")).expect("the page");
    assert_eq!(
        line("X22-02-3", "15.5; 3; ! bent, and pale")["state"],
        "recorded"
    );
    assert!(page().contains("bent, and pale"), "{}", page());
    assert!(page().contains("\"15.5\", \"3\""), "{}", page());
    let before = page();
    let refused = line("X22-02-5", "16.2; 3; 2");
    let words = refused["words"].as_str().expect("words");
    assert!(words.contains("`2` is more than this sheet"), "{words}");
    assert_eq!(page(), before);
}

/// The answer to an entry, which is its kind and the other fields; it is so, and names no option and no command.
fn told(device: &Device, entry: &str, is: &str) -> Value {
    let entry = serde_json::from_str(&format!("{{\"kind\": {entry}}}")).expect("JSON");
    let answer = entered(device, entry);
    assert_eq!(answer["state"], is, "{answer}");
    let said = answer.to_string();
    assert!(!said.contains("--") && !said.contains("podbook "), "{said}");
    answer
}

/// Refusals and remarks that name a command or an option at the keyboard name what the page has.
#[test]
fn a_page_is_told_of_no_command() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    // Those behind a `!` are refused.
    for row in [
        r#""flower", "plant": "Mir1", "saw": "opened", "on": "2025-05-20""#,
        r#"! "flower", "plant": "Mir1", "saw": "opened", "on": "2025-05-24""#,
        r#""flower", "plant": "Mir1", "saw": "bud", "on": "2025-05-24""#,
        r#"! "flower", "plant": "Mir1", "saw": "over", "on": "2025-05-30""#,
        r#""flower", "plant": "Mir1", "saw": "over", "spike": "25a", "on": "2025-05-30""#,
        r#""flower", "plant": "Mir1", "saw": "over", "on": "2025-05-31""#,
        r#"! "flower", "plant": "Mir1", "saw": "over", "on": "2025-06-01""#,
        r#"! "flower", "plant": "Gra1", "saw": "bud""#,
        r#"! "flower", "plant": "Mir1", "saw": "bud", "on": "1990""#,
        r#"! "flower", "plant": "X22-02-3", "saw": "bud", "on": "1990""#,
        r#"! "pollinate", "plant": "Mir1", "with": "Spa1", "on": "2025-05-10""#,
        r#"! "pollinate", "plant": "Mir1", "with": "X22-02""#,
        r#""pollinate", "plant": "Jac1", "with": "Spa1,Ram1", "zone": "red""#,
        r#"! "pollinate", "plant": "Jac1", "with": "Spa1,Ram1", "zone": "Red""#,
        r#"! "pollinate", "plant": "Jac1", "with": "Spa1,Ram1", "zone": "red", "note": "again""#,
        r#""pollinate", "plant": "Jac1", "with": "Spa1,Ram1", "on": "2025-05-30""#,
        r#"! "pollinate", "plant": "Jac1", "with": "Spe1-2105", "on": "2020-05-30""#,
        r#"! "took", "zone": "X25-01.red", "pods": 1"#,
        r#"! "took", "zone": "X22-02.X", "pods": 1"#,
        r#"! "took", "zone": "X99-02", "pods": 1"#,
        r#"! "took", "zone": "X22-02.A", "pods": 9, "again": true, "on": "2023""#,
        r#"! "harvest", "zone": "X25-01.red", "capsules": 1"#,
        r#"! "harvest", "zone": "X21-05.A", "capsules": 1"#,
        r#"! "harvest", "zone": "X22-02.A", "seeds": 0, "stored": "fridge", "on": "2022-08-13""#,
        r#""sow", "lot": "X22-02.L1", "seeds": 3"#,
        r#"! "sow", "lot": "X22-02.L1", "seeds": 3, "note": "again""#,
        r#"! "sow", "lot": "X25-01""#,
        r#"! "count", "of": "X22-02.S1", "up": 1, "on": "2021""#,
        r#"! "count", "of": "X21-05.T1", "up": 1"#,
        r#"! "count", "of": "X15-02.T1", "standing": 900"#,
        r#""count", "of": "X21-05.T1", "standing": 2"#,
        r#"! "count", "of": "X21-05.T1", "standing": 2, "on": "2025-06-01""#,
        r#"! "count", "of": "X21-05.T1", "standing": 1"#,
        r#"! "gone", "plant": "Ven1", "fate": "died""#,
        r#""gone", "plant": "X22-02-5", "fate": "sold", "on": "2025-05-01""#,
        r#"! "back", "plant": "X22-02-5", "on": "2025-04-01""#,
        r#"! "muddle", "plant": "X22-02-5", "others": "X22-02-3""#,
        r#""back", "plant": "X22-02-5""#,
        r#"! "rooted", "plant": "X22-02-3""#,
        r#"! "rooted", "plant": "Ven1-a""#,
        r#"! "pot", "plant": "Ven1", "width": "9cm", "place": "shelf 9""#,
        r#""pot", "plant": "X22-02-3", "width": "9cm", "place": "shelf 9", "on": "2025-05-01""#,
        r#""collect", "plant": "X22-02-7""#,
        r#"! "collect", "plant": "Mir1", "on": "2025-05-10""#,
        r#"! "collect", "plant": "Ven1""#,
        r#""keep", "plant": "X22-02-7", "why": "red""#,
        r#"! "keep", "plant": "X22-02-7", "why": "red", "on": "2025-05-31""#,
        r#""keep", "plant": "X22-02-7", "no_longer": true"#,
        r#"! "keep", "plant": "X22-02-7", "no_longer": true, "on": "2025-05-31""#,
        r#"! "keep", "plant": "X22-02-7", "no_longer": true, "why": "red""#,
        r#"! "cutting", "plant": "Ven1""#,
        r#""cutting", "plant": "X22-02-7", "on": "2025-05-20""#,
        r#"! "cutting", "plant": "X22-02-7", "code": "b""#,
        r#"! "move", "plant": "Ven1", "to": "shelf 9""#,
        r#"! "move", "plant": "X22-02-8", "to": "Spa1""#,
        r#""move", "plant": "X22-02-8", "to": "shelf 9""#,
        r#""seen", "plant": "X22-02-8", "found": "here""#,
        r#"! "seen", "plant": "X22-02-8", "found": "missing""#,
        r#"! "seen", "plant": "X22-02-6", "found": "here""#,
        r#"! "seen", "plant": "X22-02-6", "found": "gone""#,
        r#""treat", "plant": "X22-02-8", "product": "oil", "against": "scale""#,
        r#"! "treat", "plant": "X22-02-8", "product": "oil", "against": "scale", "by": "me""#,
        r#"! "treat", "plant": "X22-02-8", "product": "oil, 5 ml per litre""#,
        r#"! "gone_from", "pot": "X21-05.T1", "fate": "died", "seedlings": 900"#,
        r#"! "gone_from", "pot": "X22-02.S1", "fate": "died", "seedlings": 2"#,
        r#"! "prick", "sowing": "X21-05.S1", "moved": 900"#,
        r#"! "prick", "sowing": "X21-05.T1", "moved": 3"#,
        r#"! "prick", "sowing": "X21-05.S1", "moved": 20, "left": 20"#,
        r#"! "number", "from": "X21-05.T1", "numbers": "1-99""#,
        r#"! "number", "from": "X22-02.S1", "numbers": "1-3""#,
        r#"! "measure", "plant": "Ven1", "traits": ["span"], "line": "dead""#,
        r#"! "undo", "change": 99"#,
    ] {
        match row.strip_prefix("! ") {
            Some(entry) => drop(told(&device, entry, "refused")),
            None => drop(told(&device, row, "recorded")),
        }
    }
}

/// A warning that an entry brings is said without the file and the fields that only its writer at the keyboard has.
#[test]
fn a_warning_names_no_field_of_a_file() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let row = r#""count", "of": "X21-05.T1", "standing": 30, "on": "2025-05-30""#;
    let answer = told(&device, row, "recorded");
    let warnings = answer["report"]["warnings"].as_array().expect("warnings");
    let words: Vec<&str> = warnings.iter().filter_map(Value::as_str).collect();
    assert!(!words.is_empty(), "{answer}");
    for words in words {
        assert!(words.starts_with("X21-05: "), "{words}");
        assert!(words.ends_with("; “Problems” says what to do"), "{words}");
        assert!(!words.contains('`') && !words.contains(".ron"), "{words}");
    }
}

/// What `pollinate` remarks at the keyboard is in the answer, and an answer that was lost is given again with the codes.
#[test]
fn remarks_and_codes_come_along() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let entry = |id: &str, zone: &str| json!([{"id": id, "kind": "pollinate", "plant": "Jac1", "with": "Spa1", "zone": zone, "on": "2025-05-30"}]);
    let first = device.enter(&entry("remarks-entry-0001", "red"))[0].clone();
    assert_eq!(first["state"], "recorded", "{first}");
    let remarks = first["report"]["remarks"].to_string();
    assert!(
        remarks.contains("Jac1") && !remarks.contains("podbook flower"),
        "{remarks}"
    );
    let code = first["report"]["write_down"][0]["code"]
        .as_str()
        .expect("a code");
    let again = device.enter(&entry("remarks-entry-0001", "red"))[0].clone();
    let words = again["report"]["recorded"].as_str().expect("words");
    assert!(words.contains("already") && words.contains(code), "{words}");
}

#[test]
fn the_sheet_has_the_rows_of_the_paper() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let sheet = device.get("/sitting?of=X22-02&traits=span,banding").text();
    let rows: Vec<&str> = sheet
        .split("data-plant=\"")
        .skip(1)
        .map(|of| of.split('"').next().expect("a code"))
        .collect();
    let paper = Command::new(env!("CARGO_BIN_EXE_podbook"))
        .args([
            "sheet",
            "X22-02",
            "--traits",
            "span,banding",
            "--json",
            "--today",
            "2025-06-01",
            "--registry",
        ])
        .arg(&server.folder)
        .output()
        .expect("it runs");
    let paper: Value = serde_json::from_slice(&paper.stdout).expect("JSON");
    let of_paper: Vec<&str> = paper["rows"]
        .as_array()
        .expect("rows")
        .iter()
        .map(|of| of["plant"].as_str().expect("a code"))
        .collect();
    assert_eq!(rows, of_paper);
    assert!(device.get("/sitting?of=X99-01").text().contains("X99-01"));
    assert!(device.get("/sitting").text().contains("No sheet"));
}

#[test]
fn a_page_changed_by_another_program_is_seen_at_once() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    assert!(
        !device
            .get("/plants/x22-02-5.html")
            .text()
            .contains("seen by a test")
    );
    let page = server.folder.join("crosses/X22-02.ron");
    let text = fs::read_to_string(&page).expect("the page");
    let changed = text.replacen(
        "(number: \"5\",",
        "(number: \"5\", note: \"seen by a test\",",
        1,
    );
    assert_ne!(text, changed);
    fs::write(&page, changed).expect("it can be written");
    assert!(
        device
            .get("/plants/x22-02-5.html")
            .text()
            .contains("seen by a test")
    );
    // An entry that no longer fits is refused and the page of the other program stays.
    fs::write(&page, "(code: \"X22-02\", parents: unknown)").expect("it can be written");
    let answer = entered(
        &device,
        json!({"kind": "gone", "plant": "X22-02-5", "fate": "died"}),
    );
    assert_eq!(answer["state"], "refused", "{answer}");
    assert_eq!(
        fs::read_to_string(&page).expect("the page"),
        "(code: \"X22-02\", parents: unknown)"
    );
}

/// A page sends what stood in the cells that it changes: where another device has changed them since, it is asked, and all that
/// the row has is shown.
#[test]
fn a_row_that_another_device_changed_is_asked_about() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let row = |traits: Value, cells: Value| json!({"kind": "measure", "plant": "X22-02-3", "traits": traits, "cells": cells, "on": "2025-06-01"});
    let traits = json!(["span", "banding"]);
    let mut first = row(traits.clone(), json!(["15", ""]));
    assert_eq!(entered(&device, first.clone())["state"], "recorded");
    let mut other = row(traits.clone(), json!(["", "4"]));
    other["again"] = json!(true);
    other["note"] = json!("B saw it");
    assert_eq!(entered(&device, other)["state"], "recorded");
    first["cells"] = json!(["", "3"]);
    first["again"] = json!(true);
    first["seen"] = json!(["", ""]);
    let asked = entered(&device, first.clone());
    assert_eq!(asked["there"], "replace", "{asked}");
    assert_eq!(
        asked["words"],
        "X22-02-3 has a row in this sitting already: span cm 15, banding 4, note B saw it. Yours would change it to: banding 3"
    );
    // What was seen there, in whatever spelling, is not asked about; nor is what the grower has said of it.
    first["seen"] = json!(["", "4.0"]);
    assert_eq!(entered(&device, first.clone())["state"], "recorded");
    first.as_object_mut().expect("fields").remove("seen");
    first["cells"] = json!(["", "2"]);
    assert_eq!(entered(&device, first)["state"], "recorded");
    // A row of which the sheet asks nothing is shown too.
    let mut only = row(json!(["banding"]), json!(["2"]));
    only["plant"] = json!("X22-02-4");
    let line = json!({"kind": "measure", "plant": "X22-02-4", "traits": ["span", "banding"], "line": "! only words", "on": "2025-06-01"});
    assert_eq!(entered(&device, line)["state"], "recorded");
    let asked = entered(&device, only);
    let words = asked["words"].as_str().expect("words");
    assert!(
        words.contains("already: note only words. Yours adds: banding 2"),
        "{words}"
    );
}

/// An entry that was taken back after it arrived is not said to be in the book.
#[test]
fn an_entry_that_was_undone_is_said_to_be_undone() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let entry =
        json!([{"id": "aaaaaaaaaaaaaaaa", "kind": "pot", "plant": "X22-02-7", "width": "9cm"}]);
    assert_eq!(device.enter(&entry)[0]["state"], "recorded");
    entered(&device, json!({"kind": "undo", "change": 1}));
    let again = device.enter(&entry)[0].clone();
    assert_eq!(again["state"], "recorded", "{again}");
    assert_eq!(
        again["report"]["recorded"],
        "It was recorded as change 1, on X22-02-7, and change 2 took it back. Undo brings it back"
    );
    assert_eq!(again["report"]["change"], 2);
    entered(&device, json!({"kind": "undo", "change": 2}));
    let back = device.enter(&entry)[0].clone();
    let words = back["report"]["recorded"].as_str().expect("words");
    assert!(
        words.starts_with("It is in the book already, as change 1"),
        "{words}"
    );
}

/// The page of a sheet names no command.
#[test]
fn a_sheet_that_cannot_be_is_refused_in_words_of_the_page() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let page = device.get("/sitting?of=nope&traits=span").text();
    assert!(
        page.contains("look under Plants") && !page.contains("podbook list"),
        "{page}"
    );
}

/// The page of a plant that died or left offers the change that says so, and not one of before it came back.
#[test]
fn the_change_by_which_a_plant_left_is_offered() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    let record = |entry: Value| {
        let answer = entered(&device, entry);
        assert_eq!(answer["state"], "recorded", "{answer}");
    };
    let dead = |plant: &str, word: &str| json!({"kind": "measure", "plant": plant, "traits": ["span"], "line": word, "on": "2025-06-01"});
    record(json!({"kind": "gone", "plant": "X22-02-5", "fate": "sold", "on": "2025-05-01"}));
    record(json!({"kind": "back", "plant": "X22-02-5", "on": "2025-05-10"}));
    record(json!({"kind": "gone", "plant": "X22-02-5", "fate": "died", "on": "2025-06-01"}));
    record(json!({"kind": "gone", "plant": "Ven1-d", "fate": "died", "on": "2025-05-30"}));
    record(json!({"kind": "gone", "plant": "Ven1-b", "fate": "sold", "on": "2025-06-01"}));
    record(dead("X22-02-11", "died"));
    record(dead("X22-02-12", "†"));
    record(dead("X22-02-13", "dead"));
    for (path, change) in [
        ("x22-02-5", 3),
        ("ven1", 5),
        ("x22-02-11", 6),
        ("x22-02-12", 7),
        ("x22-02-13", 8),
    ] {
        let page = device.get(&format!("/plants/{path}.html")).text();
        let left = format!("<meta name=\"podbook-left\" content=\"{change}\"");
        assert!(page.contains(&left), "{path}: {page}");
    }
    // What was recorded last says that they are dead.
    let last = device.get("/record").text();
    assert_eq!(last.matches(": Found dead ").count(), 3, "{last}");
    // Back by the hand of its owner, and gone by it: no change of the journal says so.
    record(json!({"kind": "undo", "change": 3}));
    let page = server.folder.join("crosses/X22-02.ron");
    let text = fs::read_to_string(&page).expect("the page");
    let ended = text.replace(
        "number: \"5\",",
        "number: \"5\", fate: died(on: \"2025-06-01\"),",
    );
    fs::write(&page, ended).expect("a page can be written");
    let page = device.get("/plants/x22-02-5.html").text();
    assert!(
        page.contains("<meta name=\"podbook-left\" content=\"\""),
        "{page}"
    );
}

/// What is refused after other entries names what the page has, and no file; what was missed is not counted as found.
#[test]
fn later_refusals_name_no_file() {
    let mut server = Server::of_demo(&[]);
    let device = server.paired();
    for (entry, is, words) in [
        (
            r#""gone", "plant": "Amp1", "fate": "sold", "all_pieces": true"#,
            "recorded",
            "Amp1: sold",
        ),
        (
            r#""back", "plant": "Amp1", "place": "bench""#,
            "refused",
            "leave “Where it stands now” empty",
        ),
        (
            r#""pot", "plant": "X22-02-5", "width": "7cm", "on": "2025-05-20""#,
            "recorded",
            "7 cm",
        ),
        (
            r#""pot", "plant": "X22-02-5", "width": "9cm""#,
            "recorded",
            "9 cm",
        ),
        (
            r#""undo", "change": 2"#,
            "refused",
            "change 3 changed the same records",
        ),
        (
            r#""keep", "plant": "Spa1", "why": "vigour""#,
            "recorded",
            "Spa1",
        ),
        (r#""undo", "change": 1"#, "recorded", "since then stays"),
        (
            r#""seen", "plant": "X22-02-7", "found": "missing""#,
            "recorded",
            "X22-02-7: not found on 2025-06-01",
        ),
        (
            r#""measure", "plant": "X22-02-7", "traits": ["span"], "line": "! bent""#,
            "recorded",
            "X22-02-7: row without a reading",
        ),
        (
            r#""harvest", "zone": "X21-05.B", "capsules": "1", "seeds": 40, "on": "2021-09-30""#,
            "recorded",
            "X21-05.L2",
        ),
        (
            r#""sow", "lot": "X21-05.L2", "seeds": "10""#,
            "recorded",
            "X21-05.S2",
        ),
        (r#""undo", "change": 8"#, "refused", "undo change 9 first"),
    ] {
        let answer = told(&device, entry, is).to_string();
        assert!(answer.contains(words), "{entry}: {answer}");
        assert!(!answer.contains(".ron"), "{entry}: {answer}");
    }
}

/// Of faults and warnings that an entry would bring the page shows the faults: they are why it was refused.
#[test]
fn a_page_shows_the_faults_of_what_it_refuses() {
    let mut findings = Findings::new();
    findings.push(Finding::fault(
        Code("one"),
        "a plant died before it flowered",
    ));
    findings.push(Finding::warning(Code("other"), "a pod had little time"));
    let brought = Consequences {
        sources: Sources::new(),
        findings,
        needed_by: None,
    };
    assert_eq!(
        faulty_on_page(&brought),
        "this would bring 1 fault into the registry, so nothing was written\na plant died before it flowered"
    );
}
