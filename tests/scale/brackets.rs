//! A hundred thousand brackets, in every file, where a value is due: refused in order, never an overflow.

use podbook::registry::build;
use podbook::text::Sources;

const DEEP: usize = 100_000;

#[test]
fn nested_brackets_are_refused_on_every_page() {
    let paths = [
        "registry.ron",
        "species.ron",
        "clones.ron",
        "pollen.ron",
        "crosses/X1.ron",
    ];
    for path in paths {
        for (open, close) in [
            ("(", ")"),
            ("[", "]"),
            ("{", "}"),
            ("Some(", ")"),
            ("/*", "*/"),
        ] {
            for field in [
                "",
                "(code: \"X1\", note: ",
                "(clones: [(code: ",
                "(code: \"X1\", sittings: [(rows: ",
            ] {
                for closed in [0, DEEP] {
                    let text = format!("{field}{}{}", open.repeat(DEEP), close.repeat(closed));
                    let mut sources = Sources::new();
                    sources.add(path, text);
                    let (_, findings) = build(&sources);
                    assert!(!findings.is_empty(), "{field}{open} in {path}");
                }
            }
        }
    }
}
