//! The commands under four headings, as `podbook --help` shows them: by what a grower wants, not by the alphabet.

use clap::Command;
use std::fmt::Write;

/// What a grower wants, and the commands that answer it, in the order they are needed.
const GROUPS: [(&str, &str); 4] = [
    (
        "Record",
        "new add add-seed add-pollen flower collect thaw finish pollinate took harvest sow count prick \
         number pot move cutting rooted sheet measure serve import photos keep gone back muddle treat note opinion \
         seen correct undo changes due check",
    ),
    (
        "Name and trace",
        "name read epithet show find list parentage kinship",
    ),
    (
        "Compare and choose",
        "siblings growth variation grade select merit diversity ready pair plan",
    ),
    (
        "Hand over",
        "tags card pedigree promised registration handover album export verify merge",
    ),
];

/// The command line with its help grouped; the options every command takes come last, under their own heading.
pub fn grouped(command: Command) -> Command {
    let lines = lines(&command);
    command.help_template(format!(
        "{{about-with-newline}}\n{{usage-heading}} {{usage}}\n\n{lines}Options:\n{{options}}{{after-help}}"
    ))
}

fn lines(command: &Command) -> String {
    let mut out = String::new();
    for (heading, verbs) in GROUPS {
        let _ = writeln!(out, "{heading}:");
        for verb in verbs.split_whitespace() {
            let about = command
                .find_subcommand(verb)
                .and_then(Command::get_about)
                .map(ToString::to_string);
            let _ = writeln!(out, "  {verb:<12} {}", about.unwrap_or_default());
        }
        out.push('\n');
    }
    out
}
