//! What is refused, whichever of two records was entered first, and what the refusal says to do. Each story is played on a
//! copy of the demo.

use crate::answers::play;

/// Lines asked one after the other, each with words its answer holds; words after `not:` it does not hold.
const STORIES: &[&[(&str, &str)]] = &[
    // Flowers that were dusted, or gave pollen, were not over before, also where no spike was named.
    &[
        ("flower Ven1-b --sex female --opened 2025-05-01", "25a"),
        ("flower Spa1-a --sex male --opened 2025-05-01", "25a"),
        (
            "pollinate Ven1-b --with Spa1 --zone A --flowers 8 --on 2025-05-16",
            "X25-01.A",
        ),
        ("collect Spa1-a --on 2025-05-20", "Spa1-2505"),
        (
            "flower Ven1-b --over 2025-05-10",
            "X25-01.A was pollinated on 2025-05-16, when no other spike of Ven1-b was open",
        ),
        (
            "flower Spa1-a --over 2025-05-10",
            "the pollen of Spa1-2505 was collected on 2025-05-20, when no other spike of Spa1-a was open",
        ),
        ("flower Ven1-b --over 2025-05-16", "over on 2025-05-16"),
        ("flower Spa1-a --over \"May 2025\"", "over in May 2025"),
        // Another spike may have borne it.
        ("flower Ven1-b --opened 2025-05-12 --seen 2025-04-01", "25b"),
        (
            "flower Ven1-b --spike 25a --over 2025-05-10",
            "over on 2025-05-10",
        ),
    ],
];

#[test]
fn what_cannot_be_is_refused_in_either_order() {
    play(STORIES);
}
