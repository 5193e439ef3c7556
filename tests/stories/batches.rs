//! Who grew up with whom: the rows of pods and sowings are told apart.

use podbook::observation::batch::{Batch, batch};
use podbook::registry::{Registry, Target, build};
use podbook::text::Sources;

const PAGE: &str = "(code: \"X22-01\", parents: unknown,
    pods: [(code: \"P1\"), (code: \"P2\")],
    sowings: [(code: \"S1\"), (code: \"S2\")],
    seedlings: [(number: \"1\", pod: \"P1\"), (number: \"2\", sowing: \"S1\"), (number: \"3\", pod: \"P1\"),
        (number: \"4\", sowing: \"S2\"), (number: \"5\")])";

fn sources() -> Sources {
    let mut sources = Sources::new();
    sources.add("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)");
    sources.add("crosses/X22-01.ron", PAGE);
    sources
}

fn of(registry: &Registry, number: u32) -> Option<Batch> {
    let plant = registry.plant(&format!("X22-01-{number}"));
    batch(registry, plant.expect("the seedling is on record"))
}

/// P1 and S1 both stand first in their lists; that makes their seedlings no siblings of one pod.
#[test]
fn a_pod_and_a_sowing_at_one_place_are_two_batches() {
    let sources = sources();
    let (registry, findings) = build(&sources);
    assert_eq!(findings.len(), 0);
    assert!(matches!(of(&registry, 1), Some(Batch::Pod(_))));
    assert_eq!(of(&registry, 1), of(&registry, 3));
    assert_ne!(of(&registry, 1), of(&registry, 2));
    assert_ne!(of(&registry, 2), of(&registry, 4));
    assert_eq!(of(&registry, 5), None);
}

/// What a code names is the record with that code.
#[test]
fn a_row_leads_back_to_its_record() {
    let sources = sources();
    let (registry, _) = build(&sources);
    let code = |typed| match registry.target(typed) {
        Some(Target::Pod(pod)) => registry[pod].code,
        Some(Target::Sowing(sowing)) => registry[sowing].code,
        other => panic!("{typed} names {other:?}"),
    };
    assert_eq!((code("X22-01.P2"), code("X22-01.S1")), ("P2", "S1"));
    let pods = registry.pods(registry.cross("X22-01").expect("the cross is on record"));
    let codes: Vec<&str> = pods.map(|(row, _)| registry[row].code).collect();
    assert_eq!(codes, ["P1", "P2"]);
}
