//! Commands a newcomer may guess, and the one that answers what they meant.

/// The guesses under the command they stand for, with what it does beyond the guess where that needs saying.
const GUESSES: [(&str, &[&str]); 21] = [
    ("new", &["begin", "create", "setup", "start", "make"]),
    (
        "check",
        &[
            "validate", "verify", "lint", "test", "doctor", "faults", "errors", "status",
        ],
    ),
    (
        "due",
        &[
            "todo",
            "tasks",
            "calendar",
            "agenda",
            "reminders",
            "jobs",
            "upcoming",
        ],
    ),
    (
        "list",
        &[
            "plants",
            "crosses",
            "pods",
            "seedlings",
            "ls",
            "all",
            "inventory",
        ],
    ),
    (
        "show",
        &[
            "info", "view", "get", "plant", "cross", "history", "details",
        ],
    ),
    ("find", &["search", "grep", "where", "lookup"]),
    ("read", &["parse", "label", "decode"]),
    ("name", &["formula", "tag", "tags", "names"]),
    ("epithet", &["cultivar"]),
    (
        "pedigree",
        &[
            "tree",
            "lineage",
            "ancestors",
            "descendants",
            "ancestry",
            "descent",
            "draw",
            "export",
        ],
    ),
    (
        "parentage",
        &[
            "shares",
            "parents",
            "species",
            "fractions",
            "composition",
            "percent",
        ],
    ),
    (
        "kinship",
        &["kin", "related", "relationship", "inbreeding", "coi"],
    ),
    (
        "siblings",
        &[
            "stats",
            "statistics",
            "summary",
            "summarise",
            "summarize",
            "describe",
            "compare",
            "traits",
        ],
    ),
    ("growth", &["grow", "survival", "germination", "size"]),
    ("variation", &["spread", "variance", "variability", "vary"]),
    ("grade", &["sort", "sizes", "fast", "slow"]),
    (
        "select",
        &[
            "keep",
            "rank",
            "choose",
            "cull",
            "best",
            "pick",
            "selection",
            "index",
        ],
    ),
    ("merit", &["value", "values", "heritability", "blup"]),
    (
        "ready",
        &["open", "flowering", "flowers", "bloom", "pollen", "now"],
    ),
    (
        "pair",
        &[
            "cross-check",
            "mate",
            "predict",
            "pollinate",
            "hybridise",
            "hybridize",
        ],
    ),
    (
        "plan",
        &["season", "schedule", "optimise", "optimize", "crossings"],
    ),
];

/// The command meant by a word that is none.
pub fn meant(word: &str) -> Option<&'static str> {
    let word = word.to_lowercase();
    GUESSES
        .iter()
        .find(|(_, guesses)| guesses.contains(&word.as_str()))
        .map(|(verb, _)| *verb)
}
