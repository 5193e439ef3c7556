//! The help of the program and of each command, and the answer to a command that does not exist.

use crate::bench_top::BenchTop;
use crate::demo::{demo, demo_screen};
use podbook::cli::command;

fn help(words: &[&str]) -> String {
    BenchTop::empty().run(words).stdout
}

#[test]
fn every_command_stands_once_under_one_of_four_headings() {
    let help = help(&["--help"]);
    for heading in [
        "Record:",
        "Name and trace:",
        "Compare and choose:",
        "Hand over:",
    ] {
        assert!(help.lines().any(|line| line == heading), "{help}");
    }
    for verb in command().get_subcommands().map(|verb| verb.get_name()) {
        if ["completions", "man"].contains(&verb) {
            assert!(help.contains(&format!("`podbook {verb}")), "{help}");
            continue;
        }
        let begins = |line: &&str| line.split_whitespace().next() == Some(verb);
        let lines = help
            .lines()
            .filter(|line| line.starts_with("  "))
            .filter(begins);
        assert_eq!(lines.count(), 1, "{verb}\n{help}");
    }
}

/// A command's own options come first, those of every command last and under their heading.
#[test]
fn own_options_come_first() {
    for verb in command().get_subcommands().map(|verb| verb.get_name()) {
        let help = help(&[verb, "--help"]);
        let (own, common) = help
            .split_once("Options of every command:")
            .unwrap_or_else(|| panic!("{verb}: {help}"));
        for option in [
            "--registry",
            "--json",
            "--full",
            "--today",
            "--width",
            "--colour",
        ] {
            assert!(!own.contains(&format!("{option} ")), "{verb}: {help}");
            assert!(common.contains(option), "{verb}: {help}");
        }
    }
}

/// What an option is for takes one line of words, without a turn that only a programmer reads.
#[test]
fn every_option_is_one_plain_line() {
    let mut all = vec![command()];
    while let Some(next) = all.pop() {
        // Help and version are worded by the library.
        let own =
            |argument: &&clap::Arg| !["help", "version"].contains(&argument.get_id().as_str());
        for argument in next.get_arguments().filter(own) {
            let words = argument
                .get_help()
                .map(ToString::to_string)
                .unwrap_or_default();
            let at = format!("{} {}: {words}", next.get_name(), argument.get_id());
            assert!(!words.is_empty() && !words.contains('\n'), "{at}");
            assert!(argument.get_long_help().is_none(), "{at}");
        }
        all.extend(next.get_subcommands().cloned());
    }
}

#[test]
fn a_guess_is_answered_with_the_command_that_does_it() {
    for (guess, meant) in [
        ("validate", "check"),
        ("plants", "list"),
        ("rank", "select"),
        ("stats", "siblings"),
        ("csv", "export"),
        ("mcpd", "export"),
        ("begin", "new"),
        ("shares", "parentage"),
        ("spread", "variation"),
        ("sort", "grade"),
        ("died", "gone"),
        ("search", "find"),
        ("revert", "undo"),
        ("open", "ready"),
        ("todo", "due"),
        ("tasks", "due"),
        ("calendar", "due"),
        ("search", "find"),
        ("kin", "kinship"),
        ("Tree", "pedigree"),
        ("chekc", "check"),
        ("siblngs", "siblings"),
        ("impport", "import"),
        ("palnts", "list"),
        ("returned", "back"),
        ("print", "tags"),
        ("feed", "treat"),
        ("trade", "gone"),
        ("mother", "pedigree"),
        ("lst", "list"),
    ] {
        let run = demo(guess);
        assert_eq!(run.exit, Some(2), "{guess}: {run}");
        let hint = format!("did you mean `podbook {meant}`?");
        assert!(run.stderr.contains(&hint), "{guess}: {run}");
    }
    // None of these is one slip away from a command, and some of the nearest would write.
    for word in ["qqzx", "backup", "map", "prune"] {
        let run = demo(word);
        let hint = "see the commands with `podbook --help`";
        assert!(run.stderr.contains(hint), "{run}");
        assert!(!run.stderr.contains("did you mean"), "{run}");
    }
}

#[test]
fn a_misspelt_word_of_a_command_is_proposed() {
    let run = demo("list sould");
    assert!(
        run.stderr.contains("did you mean `podbook list sold`?"),
        "{run}"
    );
    let run = demo("list X22-02");
    assert!(run.stderr.contains("list takes no code"), "{run}");
}

/// The reader of arguments folds help into the width of the terminal; a paragraph broken by hand is folded twice.
#[test]
fn no_paragraph_of_help_is_broken_by_hand() {
    for verb in command().get_subcommands() {
        let after = verb.get_after_help().map(ToString::to_string);
        let after = after.unwrap_or_default();
        let lines: Vec<&str> = after.lines().map(str::trim).collect();
        for pair in lines.windows(2) {
            let is_example = |line: &str| line.contains("podbook ") && !line.ends_with('.');
            let is_open = !pair[0].ends_with('.') && !is_example(pair[0]);
            let is_lower = pair[1].starts_with(|c: char| c.is_lowercase());
            let goes_on = is_lower || pair[1].starts_with('`') && is_open;
            let is_broken = goes_on && !is_example(pair[1]) && !pair[0].starts_with("A file for");
            assert!(!is_broken, "{}: {pair:?}", verb.get_name());
        }
    }
}

#[test]
fn other_names_of_a_command_work() {
    let run = BenchTop::empty().run(&["init", "mine"]);
    assert_eq!(run.exit, Some(0), "{run}");
    let [long, short] =
        ["breeding-values", "merit"].map(|verb| demo(&format!("{verb} --trait span")).stdout);
    assert_eq!(long, short);
    let [bare, plants] = ["list", "list plants"].map(|list| demo_screen(80, list).stdout);
    assert_eq!(bare, plants);
    assert!(demo("list --founders").stdout.contains("Spa1"));
}

/// Every example that help shows runs on the demo.
#[test]
fn every_example_runs() {
    let mut tried = 0;
    for verb in command().get_subcommands() {
        let after = verb
            .get_after_help()
            .map(ToString::to_string)
            .unwrap_or_default();
        for line in after.lines() {
            let Some((_, example)) = line.split_once("podbook ") else {
                continue;
            };
            let Some(asked) = example.strip_suffix(" --registry registry-demo") else {
                continue;
            };
            if asked.contains('"') || asked.contains(" -o ") || asked.contains("--apply") {
                continue;
            }
            let run = demo(asked);
            assert!(matches!(run.exit, Some(0 | 1)), "{asked}: {run}");
            tried += 1;
        }
    }
    assert!(tried >= 20, "{tried}");
}

/// A word that is none of those an option takes is answered as every other slip is.
#[test]
fn words_of_a_list_are_named_in_our_words() {
    for (line, wanted) in [
        (
            "list --sex f",
            "found `f` after --sex, needed female, male or unsexed",
        ),
        ("--json", "a command is missing"),
        (
            "export --json",
            "`podbook export` needs one of these words after it",
        ),
    ] {
        let run = demo(line);
        assert_eq!(run.exit, Some(2), "{line}: {run}");
        assert!(run.stderr.contains(wanted), "{line}: {run}");
        for unwanted in [
            "possible values",
            "tip:",
            "mcpd",
            "breeding-values",
            "error:",
        ] {
            assert!(!run.stderr.contains(unwanted), "{line}: {run}");
        }
    }
}

/// However its file is called: `.exe` behind it, or a name of the grower's own.
#[cfg(unix)]
#[test]
fn the_program_has_one_name() {
    let folder = tempfile::tempdir().expect("a folder");
    let other = folder.path().join("pods");
    std::os::unix::fs::symlink(env!("CARGO_BIN_EXE_podbook"), &other).expect("a link");
    for words in [&["--help"][..], &["plan", "--help"], &["plan", "--pots"]] {
        let said = |program: &std::path::Path| {
            let run = std::process::Command::new(program).args(words).output();
            let run = run.expect("it runs");
            String::from_utf8_lossy(&[run.stdout, run.stderr].concat()).into_owned()
        };
        let usual = said(env!("CARGO_BIN_EXE_podbook").as_ref());
        assert!(usual.contains("podbook"), "{words:?}\n{usual}");
        assert_eq!(said(&other), usual, "{words:?}");
    }
}
