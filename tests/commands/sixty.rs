//! A tray of sixty siblings of one sowing, two of them gone, measured once a year ago.

use crate::bench_top::BenchTop;

/// The page of the tray.
pub const PAGE: &str = "crosses/X23-01.ron";

const REGISTRY: &str = r#"(
    genus: "Nepenthes",
    hemisphere: north,
    traits: [
        (code: "span", name: "leaf span", reads: length(cm), between: (0.1, 250.0), definition: "tip to tip, from above"),
        (code: "height", name: "pitcher height", reads: length(mm)),
        (code: "banding", name: "rim banding", reads: scale(["plain", "ghost lines", "in part", "clear", "crisp"])),
        (code: "teeth", name: "teeth", reads: scale(["none", "felt", "short", "long", "hooked"])),
        (code: "rim", name: "rim colour", reads: kinds(["green", "yellow", "gold", "red", "maroon", "near black"])),
    ],
)
"#;

/// A registry with the tray.
pub fn sixty() -> BenchTop {
    let seedling =
        |number: u32| match number {
            7 => "        (number: \"7\", sowing: \"S1\", fate: died(on: \"2024-01-10\")),\n"
                .to_owned(),
            9 => "        (number: \"9\", sowing: \"S1\", fate: given(on: \"2024-02-01\")),\n"
                .to_owned(),
            n if n <= 3 => {
                format!("        (number: \"{n}\", sowing: \"S1\", place: \"shelf 1, front\"),\n")
            }
            n => format!("        (number: \"{n}\", sowing: \"S1\"),\n"),
        };
    let seedlings: String = (1..=62).map(seedling).collect();
    let read = |number: u32| {
        format!(
            "            [\"{number}\", \"{}.{}\", \"2\"],\n",
            2 + number % 3,
            number % 10
        )
    };
    let rows: String = (1..=62).filter(|n| ![7, 9].contains(n)).map(read).collect();
    let page = format!(
        r#"// The tray by the door.
(
    code: "X23-01",
    parents: known(seed: "Ven1", pollen: "Spa1"),
    pollinations: [(zone: "A", on: ["2022-06-01"])],
    pods: [(code: "P1", zone: "A")],
    sowings: [(code: "S1", pod: "P1", on: "2023-02-01", seeds: 90)],
    seedlings: [
{seedlings}    ],
    sittings: [
        (on: "2024-03-01", place: "shelf 1", columns: ["span cm", "banding"], rows: [
{rows}        ]),
    ],
)
"#
    );
    BenchTop::with([
        ("registry.ron", REGISTRY),
        (
            "species.ron",
            "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\")])\n",
        ),
        (
            "clones.ron",
            "(clones: [(code: \"Ven1\", received: \"N. ventricosa\"), (code: \"Spa1\", received: \"N. spathulata\")])\n",
        ),
        (PAGE, page.as_str()),
    ])
}
