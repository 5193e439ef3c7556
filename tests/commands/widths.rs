//! Every verb keeps to the width it is given; only a word that stands alone on its line may be wider.

use crate::demo::demo_in;
use unicode_width::UnicodeWidthStr;

/// Questions to the demo, at least one for each verb that answers from a registry.
const QUESTIONS: [&str; 32] = [
    "card X22-02-5",
    "card X18-01-4-b --missing",
    "check",
    "read (ventricosa×spathulata)×truncata",
    "epithet Quarter-Moon",
    "name X22-02-5",
    "show X22-02",
    "show X22-02-5",
    "show Spa1-1504",
    "list plants",
    "list crosses",
    "list pods",
    "list sold",
    "pedigree X22-02-5",
    "parentage X22-02-5 X18-01",
    "siblings X22-02",
    "siblings X18-01 --trait banding --ratio 3:1 --class 1,2 --class 3,4,5",
    "growth X22-02 --pods",
    "growth X22-02 X18-01 X15-02",
    "growth X22-02-5",
    "variation X15-02 X18-01 X22-02",
    "grade X18-01 --tied-within 2",
    "select X22-02 X18-01 --weigh span=1 --need banding=3 --keep 3 --minutes 20",
    "select X22-02 --weigh span=1 --need banding=3 --need teeth=2 --shelf 60x40 --pot 7 --keep 4",
    "kinship X22-02-5 X18-01-4 Spa1",
    "diversity",
    "merit --trait span=1 --trait banding=2 --trait teeth=1",
    "pair X22-02-5 Spa1",
    "ready",
    "due",
    "find ventricosa",
    "plan --any-time",
];

/// These and those that are asked for one screen.
fn questions() -> impl Iterator<Item = &'static str> {
    let screens = crate::one_screen::QUESTIONS
        .iter()
        .map(|(question, _)| *question);
    QUESTIONS.into_iter().chain(screens)
}

#[test]
fn no_line_is_wider_than_asked_for() {
    let mut wide = Vec::new();
    for question in questions() {
        for width in [40, 60, 80, 100] {
            let run = demo_in(width, question);
            assert!(!run.stdout.is_empty(), "{question}: {run}");
            for line in run.stdout.lines().filter(|line| line.width() > width) {
                if line.split_whitespace().count() > 1 {
                    wide.push(format!("{question} at {width}: {} {line:?}", line.width()));
                }
            }
        }
    }
    assert!(wide.is_empty(), "{}", wide.join("\n"));
}

/// A Purdy pedigree has no blanks; it goes on in a further line behind a stroke, and nothing of it is lost.
#[test]
fn a_long_purdy_pedigree_is_broken_behind_its_strokes() {
    let label = "read (((ventricosa×spathulata)×spathulata)×((burbidgeae×truncata)×spathulata))×((hamata×spectabilis)×(burbidgeae×truncata))";
    let all = demo_in(400, label).stdout;
    let notation = all
        .lines()
        .find_map(|line| line.trim().strip_prefix("Purdy notation"));
    let notation = notation.expect("a line").trim();
    assert!(notation.width() > 80, "{notation}");
    for width in [40, 60, 80] {
        let run = demo_in(width, label);
        let wide = run.stdout.lines().find(|line| line.width() > width);
        assert_eq!(wide, None, "{run}");
        let joined: String = run.stdout.split_whitespace().collect();
        assert!(joined.contains(notation), "{run}");
        let mut cut = run
            .stdout
            .lines()
            .filter(|line| line.trim().starts_with('/'));
        assert_eq!(cut.next(), None, "{run}");
    }
}

#[test]
fn every_verb_is_asked() {
    for verb in podbook::cli::command().get_subcommands() {
        let verb = verb.get_name();
        let asks = |question: &&str| question.split(' ').next() == Some(verb);
        let answers = ![
            "new",
            "completions",
            "man",
            "undo",
            "changes",
            "sheet",
            "measure",
            "handover",
            "album",
            "verify",
            "merge",
            "export",
            "import",
            "photos",
            "serve",
        ]
        .contains(&verb);
        assert!(
            !answers || questions().any(|question| asks(&question)),
            "{verb}"
        );
    }
}

/// A table too wide for the paper goes on below; what it says is all there, errors beside what they belong to.
#[test]
fn a_table_in_parts_loses_nothing() {
    let question = "merit --trait span=1 --trait banding=2 --trait teeth=1";
    let cells = |width: usize| {
        let text = demo_in(width, question).stdout;
        let (_, table) = text.split_once("\n\n").expect("a table");
        let rows = table.lines().filter(|line| line.starts_with("  X22-02-1 "));
        let rows: Vec<String> = rows
            .map(|row| row.split_whitespace().skip(1).collect::<Vec<_>>().join(" "))
            .collect();
        (rows.len(), rows.join(" "))
    };
    let ((whole, all), (parts, parted)) = (cells(300), cells(80));
    assert_eq!(whole, 1);
    assert!(parts > 1, "{parted}");
    assert_eq!(all, parted);
}
