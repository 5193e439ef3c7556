//! What is entered is written on the pot, the piece, the spike and the plant that are meant, and never on another. Each story
//! is played on a copy of the demo.

use crate::answers::play;
use crate::played::{copied, said};
use std::io::Write;
use std::process::{Command, Stdio};

/// Lines asked one after the other, each with words its answer holds; words after `not:` it does not hold.
type Story = &'static [(&'static str, &'static str)];

/// A cross with one sowing of which 55 came up.
const SOWN: Story = &[
    (
        "add-seed \"N. maxima\" --seeds 100 --code X23-01 --on 2023-08-01",
        "X23-01",
    ),
    ("sow X23-01 --seeds 100 --on 2023-09-01", "X23-01.S1"),
    ("count X23-01.S1 --up 55 --on 2023-11-01", "55"),
];

/// Stories that begin with that sowing.
const OF_A_SOWING: &[Story] = &[
    // One count is taken once.
    &[
        (
            "count X23-01.S1 --up 55 --on 2023-11-01",
            "on record for that day already",
        ),
        ("count X23-01.S1 --up 56 --on 2023-11-01", "56"),
        ("count X23-01.S1 --standing 50 --on 2023-12-01", "50 alive"),
        (
            "count X23-01.S1 --standing 50 --on 2023-12-01",
            "on record for that day already",
        ),
        ("count X23-01.S1 --standing 50 --on 2023-12-02", "50 alive"),
    ],
    // A pricking that is entered late starts from what stood in the pot on its own day.
    &[
        ("prick X23-01.S1 10 --on 2024-04-20", "X23-01.T1"),
        ("count X23-01.T1 --standing 10 --on 2024-05-01", "10 alive"),
        ("number X23-01.T1 1-3 --on 2024-05-20", "X23-01-3"),
        ("prick X23-01.S1 5 --to T1 --on 2024-05-10", "5 seedlings"),
        (
            "show X23-01",
            "T1: 12 left: 10 alive on 2024-05-01, 5 more pricked out into it, 3 numbered since",
        ),
    ],
    // What goes by a range says so.
    &[
        ("prick X23-01.S1 20 --on 2024-04-20", "X23-01.T1"),
        ("number X23-01.T1 1-3 --on 2024-05-20", "X23-01-3"),
        ("count X23-01.T1 --standing 15 --on 2024-05-20", "15 alive"),
        ("prick X23-01.S1 5 --to T1 --on 2024-06-10", "5 seedlings"),
        ("show X23-01.T1", "17–20 left: 15 alive on 2024-05-20"),
    ],
    // What stands in the sowing is not what was pricked out of it.
    &[
        ("prick X23-01.S1 40 --left 15 --on 2024-03-01", "X23-01.T1"),
        (
            "count X23-01.S1 --standing 12 --on 2024-04-01",
            "X23-01.S1: 12 alive",
        ),
        ("show X23-01", "T1: 40 alive"),
        ("show X23-01", "T2: 12 alive"),
        ("number X23-01.T1 1-30 --on 2024-05-01", "X23-01-30"),
        (
            "count X23-01.T1 --standing 8 --on 2024-06-01",
            "not: holds more",
        ),
        ("prick X23-01.S1 2 --to T3 --on 2024-06-01", "X23-01.T3"),
        // Two pots are filled, and only one count is of the sowing.
        (
            "count X23-01.S1 --standing 9 --on 2024-07-01",
            "X23-01.S1: 9 alive",
        ),
        ("show X23-01", "T2: 9 alive"),
        ("show X23-01", "T3: 2 alive"),
    ],
    // A count and a numbering of one day: which came first is not recorded, and nothing is refused for it.
    &[
        ("prick X23-01.S1 23 --on 2024-01-01", "X23-01.T1"),
        ("number X23-01.T1 1-3 --on 2024-05-01", "X23-01-3"),
        ("count X23-01.T1 --standing 20 --on 2024-05-01", "20 alive"),
        (
            "show X23-01.T1",
            "17–20 left: 20 alive on 2024-05-01, 3 numbered, perhaps before that count",
        ),
        ("number X23-01.T1 4-23 --on 2024-05-01", "X23-01-23"),
        // No more than the count before leaves.
        ("show X23-01.T1", "0 left"),
        (
            "number X23-01.T1 24 --on 2024-05-01",
            "1 is too many: no seedlings left in X23-01.T1",
        ),
    ],
    // On the day of the only count seedlings are numbered out of what was counted.
    &[
        ("prick X23-01.S1 23 --on 2024-01-01", "X23-01.T1"),
        ("number X23-01.T1 1-3 --on 2024-01-01", "X23-01-3"),
        ("show X23-01.T1", "20 left: 23 alive"),
    ],
    // Seedlings numbered out of a sowing are taken off the count of what stands in it.
    &[
        ("count X23-01.S1 --standing 10 --on 2024-01-01", "X23-01.T1"),
        ("number X23-01.S1 1-4 --on 2024-06-02", "X23-01-4"),
        (
            "show X23-01.T1",
            "6 left: 10 alive on 2024-01-01, 4 numbered since",
        ),
        (
            "number X23-01.S1 11-20 --on 2024-06-03",
            "10 is more than there are: 6 seedlings left in X23-01.S1",
        ),
        ("number X23-01.T1 11-16 --on 2024-06-03", "X23-01-16"),
        (
            "number X23-01.S1 21 --on 2024-06-04",
            "1 is too many: no seedlings left in X23-01.S1",
        ),
    ],
    // Seedlings that were pricked out into a pot are in its next count, those that got numbers before are not.
    &[
        ("prick X23-01.S1 10 --to T1 --on 2024-01-01", "X23-01.T1"),
        (
            "prick X23-01.S1 5 --to T1 --on 2024-01-05",
            "not: holds more",
        ),
        ("check --full", "not: community-pot-grows"),
        ("number X23-01.T1 1-4 --on 2024-02-01", "X23-01-4"),
        ("prick X23-01.S1 5 --to T1 --on 2024-03-01", "X23-01.T1"),
        (
            "show X23-01.T1",
            "16 left: 10 alive on 2024-01-01, 10 more pricked out into it, 4 numbered since",
        ),
        (
            "count X23-01.T1 --standing 18 --on 2024-04-01",
            "18 seedlings alive, 16 left after those numbered since the count before",
        ),
        ("prick X23-01.S1 1 --to T1 --on 2024-05-01", "X23-01.T1"),
        (
            "count X23-01.T1 --standing 21 --on 2024-05-02",
            "21 seedlings alive, 19 at the count before",
        ),
    ],
    // A pricking that is entered late, before the count on record, takes nothing off that count and writes none.
    &[
        ("count X23-01.S1 --standing 30 --on 2024-03-01", "30 alive"),
        ("prick X23-01.S1 5 --on 2024-02-20", "not: alive"),
        ("show X23-01.T1", "alive 30 on 2024-03-01"),
        ("show X23-01.S1", "left 30 by the last count"),
        ("prick X23-01.S1 5 --on 2024-04-10", "not: alive"),
        (
            "show X23-01.T1",
            "25 left: 30 alive on 2024-03-01, 5 pricked out since",
        ),
        ("check --full", "not: X23-01"),
    ],
    // What comes up after a count of those standing is added to it, and may have died.
    &[
        ("count X23-01.S1 --standing 50 --on 2023-12-01", "50 alive"),
        ("count X23-01.S1 --up 60 --on 2024-01-05", "60"),
        (
            "show X23-01.S1",
            "50–55 left: 50 alive on 2023-12-01, up to 5 came up since",
        ),
        (
            "number X23-01.S1 1-56 --on 2024-02-01",
            "56 is more than there are: 55 seedlings left in X23-01.S1",
        ),
        (
            "prick X23-01.S1 53 --on 2024-02-01",
            "not: alive at the last count",
        ),
        ("show X23-01.S1", "left up to 2"),
        ("check --full", "not: X23-01"),
        ("undo", "Undid"),
        ("number X23-01.S1 1-53 --on 2024-02-01", "X23-01-53"),
        ("check --full", "not: X23-01"),
    ],
    // Late seedlings in an empty pot are no more forgotten than the first.
    &[
        ("count X23-01.S1 --standing 0 --on 2025-03-01", "0 alive"),
        ("due --full", "not: prick out X23-01.S1"),
        ("count X23-01.S1 --up 58 --on 2025-05-01", "58"),
        ("show X23-01.S1", "left up to 3"),
        ("due --full", "prick out X23-01.S1 up to 3 seedlings"),
    ],
    // A count of the day of a pricking, or of days that may be after it, is of what it left.
    &[
        ("prick X23-01.S1 50 --on 2024-03-01", "X23-01.T1"),
        (
            "count X23-01.S1 --standing 5 --on 2024-03-01",
            "not: stood in it",
        ),
        ("check --full", "not: X23-01"),
        ("undo", "Undid"),
        ("count X23-01.S1 --standing 0 --on 2024", "not: stood in it"),
        ("check --full", "not: X23-01"),
        ("undo", "Undid"),
        // Neither before it nor after it can so many have stood there.
        (
            "count X23-01.S1 --standing 25 --on 2024-03-01",
            "50 seedlings pricked out, 30 fewer at the last count",
        ),
    ],
    // A count of some day of a month may hold all that was pricked out in that month.
    &[
        ("prick X23-01.S1 1 --on 2024-05-20", "X23-01.T1"),
        ("prick X23-01.S1 9 --to T1 --on 2024-06-15", "9 seedlings"),
        (
            "count X23-01.T1 --standing 21 --on 2024-06",
            "21 is more than there are: 10 seedlings in X23-01.T1",
        ),
        ("count X23-01.T1 --standing 10 --on 2024-06", "10 alive"),
    ],
    // Those numbered and culled since a count are not there to be pricked out.
    &[
        ("count X23-01.S1 --standing 8 --on 2024-03-01", "8 alive"),
        ("number X23-01.S1 1-2 --on 2024-03-02", "X23-01-2"),
        ("gone X23-01.S1 --culled --seedlings 1 --on 2024-03-02", "1"),
        (
            "prick X23-01.S1 6 --on 2024-03-06",
            "6 seedlings pricked out, 5 left of those alive at the last count",
        ),
        ("undo", "Undid"),
        ("prick X23-01.S1 5 --on 2024-03-06", "not: stood in it"),
        ("check --full", "not: X23-01"),
    ],
    // So does one before a count out of which seedlings got numbers since.
    &[
        ("count X23-01.S1 --standing 9 --on 2024-03-01", "9 alive"),
        ("number X23-01.S1 1-4 --on 2024-03-02", "X23-01-4"),
        ("prick X23-01.S1 3 --on 2024-02-28", "X23-01.T2"),
        ("show X23-01.T1", "5 left: 9 alive on 2024-03-01"),
    ],
    // A count that is entered late, before a pricking, is the last that was made: no number of our own beats it.
    &[
        ("count X23-01.S1 --standing 38 --on 2024-03-01", "38 alive"),
        ("prick X23-01.S1 20 --on 2024-05-01", "X23-01.T2"),
        (
            "show X23-01.S1",
            "left 18 left: 38 alive on 2024-03-01, 20 pricked out since",
        ),
        (
            "show X23-01",
            "T1: 18 left: 38 alive on 2024-03-01, 20 pricked out since",
        ),
        ("count X23-01.S1 --standing 25 --on 2024-04-25", "25 alive"),
        (
            "show X23-01.S1",
            "left 5 left: 25 alive on 2024-04-25, 20 pricked out since",
        ),
        ("show X23-01.T1", "alive 38 on 2024-03-01, 25 on 2024-04-25"),
        ("check --full", "not: X23-01"),
        (
            "count X23-01.S1 --standing 15 --on 2024-04-28",
            "20 seedlings pricked out, 15 alive at the last count",
        ),
    ],
    // Two prickings after one count take from the same; a count after them is held against what they leave.
    &[
        ("count X23-01.S1 --standing 38 --on 2024-03-01", "38 alive"),
        ("prick X23-01.S1 20 --on 2024-05-01", "X23-01.T2"),
        (
            "prick X23-01.S1 20 --on 2024-05-02",
            "20 seedlings pricked out, 18 left of those alive at the last count",
        ),
        ("undo", "Undid"),
        (
            "count X23-01.S1 --standing 25 --on 2024-05-10",
            "25 seedlings alive, 18 at the count before, less those pricked out since",
        ),
    ],
    // A number that was entered late is taken off what was pricked out before and after it.
    &[
        ("prick X23-01.S1 10 --on 2024-03-01", "X23-01.T1"),
        ("prick X23-01.S1 5 --to T1 --on 2024-03-20", "5 seedlings"),
        ("number X23-01.T1 1-8 --on 2024-03-10", "X23-01-8"),
        (
            "show X23-01.T1",
            "7 left: 10 alive on 2024-03-01, 5 more pricked out into it, 8 numbered since",
        ),
        ("prick X23-01.S1 6 --to T1 --on 2024-02-20", "6 seedlings"),
        (
            "show X23-01.T1",
            "13 left: 6 alive on 2024-02-20, 15 more pricked out into it, 8 numbered since",
        ),
        (
            "show X23-01.S1",
            "6 on 2024-02-20 into T1; 10 on 2024-03-01 into T1",
        ),
        ("check --full", "not: X23-01"),
    ],
    // No more are pricked out than came up and were not moved, numbered or left.
    &[
        ("number X23-01.S1 1-20 --on 2024-03-01", "X23-01-20"),
        (
            "prick X23-01.S1 50 --on 2024-03-02",
            "50 is more than there are: 35 seedlings that came up and were not moved or numbered yet",
        ),
        (
            "prick X23-01.S1 30 --left 10 --on 2024-03-02",
            "30 were pricked out of X23-01.S1 and 10 left there, but at most 35 of those that came up stood there before",
        ),
        ("prick X23-01.S1 10 --left 24 --on 2024-03-02", "X23-01.T1"),
        // What was left then may be pricked out later, and be entered before.
        ("prick X23-01.S1 20 --on 2024-05-02", "X23-01.T2"),
        (
            "prick X23-01.S1 3 --left 53 --on 2024-02-20",
            "but at most 55",
        ),
        ("prick X23-01.S1 3 --left 52 --on 2024-02-20", "X23-01.T3"),
        (
            "prick X23-01.S1 3 --on 2024-05-03",
            "3 is more than there are: 2 seedlings",
        ),
        (
            "count X23-01.S1 --standing 23 --on 2024-05-04",
            "56 seedlings alive in it or taken out of it before, 55 seedlings up",
        ),
    ],
    // The same where the count of what stands there is the first to say how many came up.
    &[
        ("number X23-01.S1 1-6 --on 2024-03-01", "X23-01-6"),
        (
            "count X23-01.S1 --standing 50 --on 2024-03-02",
            "56 seedlings alive in it or taken out of it before, 55 seedlings up",
        ),
        ("undo", "Undid"),
        (
            "count X23-01.S1 --standing 49 --on 2024-03-02",
            "not: taken out of it",
        ),
    ],
    // More cannot be numbered out of a pot on a day than stood there then, nor than are left.
    &[
        ("prick X23-01.S1 10 --on 2024-03-01", "X23-01.T1"),
        ("prick X23-01.S1 5 --to T1 --on 2024-03-20", "5 seedlings"),
        (
            "number X23-01.T1 1-12 --on 2024-03-10",
            "12 is more than there are: 10 seedlings left in X23-01.T1",
        ),
        ("number X23-01.T1 1-12 --on 2024-03-25", "X23-01-12"),
        (
            "number X23-01.T1 13-16 --on 2024-03-10",
            "4 is more than there are: 3 seedlings left in X23-01.T1",
        ),
    ],
    // What had come up by an earlier day can be entered after what had come up by a later one.
    &[
        ("count X23-01.S1 --up 30 --on 2023-10-10", "30 up so far"),
        (
            "show X23-01.S1",
            "came up 30 on 2023-10-10, 55 on 2023-11-01",
        ),
        (
            "count X23-01.S1 --up 29 --on 2023-10-20",
            "30 had come up at an earlier count on 2023-10-10",
        ),
        (
            "count X23-01.S1 --up 31 --on 2023-10-05",
            "30 had come up at a later count on 2023-10-10",
        ),
        (
            "count X23-01.S1 --up 54 --on 2023-11-01",
            "55 had come up at a count on 2023-11-01",
        ),
        ("check --full", "not: falling-total"),
    ],
    // Counted and pricked out on one day: whichever came first is told where it can be, and else it is a range.
    &[
        ("count X23-01.S1 --standing 50 --on 2024-03-01", "50 alive"),
        ("prick X23-01.S1 40 --on 2024-03-01", "X23-01.T2"),
        ("show X23-01.T1", "10 left: 50 alive"),
        ("count X23-01.S1 --standing 9 --on 2024-04-01", "9 alive"),
        ("prick X23-01.S1 3 --left 6 --on 2024-05-01", "X23-01.T3"),
        ("show X23-01.T1", "not: left"),
        ("show X23-01.T1", "6 on 2024-05-01"),
        ("count X23-01.S1 --standing 4 --on 2024-05-10", "4 alive"),
        ("prick X23-01.S1 1 --on 2024-05-10", "X23-01.T4"),
        (
            "show X23-01.T1",
            "3–4 left: 4 alive on 2024-05-10, 1 pricked out, perhaps not after that count",
        ),
    ],
];

/// A female and a male that opened on one day.
const OPEN: Story = &[
    ("flower Ven1-b --sex female --opened 2025-05-14", "25a"),
    ("flower Spa1 --sex male --opened 2025-05-14", "25a"),
    ("due --full", "collect pollen Spa1"),
    ("due --full", "pollinate Ven1-b"),
];

/// Stories of jobs that are done, or not yet; they begin with those spikes.
const OF_JOBS: &[Story] = &[
    // What was dusted is not to be pollinated, before and after the pods are counted.
    &[
        (
            "pollinate Ven1-b --with Spa1 --zone A --flowers 8 --on 2025-05-16",
            "X25-01.A",
        ),
        ("due --full", "8 flowers dusted"),
        ("due --full", "not: pollinate Ven1-b"),
        ("took X25-01.A 5 --on 2025-05-31", "5 of 8 flowers set"),
        ("due --full", "not: pollinate Ven1-b"),
        ("harvest X25-01.A --seeds 40 --on 2025-06-01", "X25-01.P1"),
        ("due --full", "not: pollinate Ven1-b"),
    ],
    &[
        (
            "pollinate Ven1-b --with Spa1 --zone A --flowers 8 --on 2025-05-30",
            "X25-01.A",
        ),
        ("due --full", "dust again X25-01.A"),
        ("due --full", "not: pollinate Ven1-b"),
        ("due --full", "not: 8 flowers dusted"),
    ],
    // Pollen that was collected is not to be collected.
    &[
        ("collect Spa1 --on 2025-05-22", "Spa1-2505"),
        ("due --full", "not: collect pollen Spa1"),
    ],
];

/// Stories of seed that came with a label that doubts itself.
const OF_LABELS: &[Story] = &[
    // What is said of the whole cross is said of both parents, as on the label of a plant.
    &[
        ("add-seed \"maxima x veitchii?\" --on 2025-05", "X25-01"),
        ("name X25-01", "N. maxima (?) × (N. veitchii (?))"),
        ("name X25-01", "Purdy notation cannot express a doubt"),
        ("parentage X25-01", "maxima (?) 1/2"),
        ("parentage X25-01", "a name in the parentage is provisional"),
        ("sow X25-01 --seeds 3 --on 2025-05", "X25-01.S1"),
        ("number X25-01.S1 1 --on 2025-05-30", "X25-01-1"),
        ("card X25-01-1", "maxima (?)"),
    ],
    &[
        (
            "add-seed \"possibly maxima x veitchii\" --on 2025-05",
            "X25-01",
        ),
        ("parentage X25-01", "veitchii (?) 1/2"),
    ],
    // What the label leaves open stays open, and is no part that is not known.
    &[
        (
            "add-seed \"maxima x (veitchii or truncata)\" --on 2025-05",
            "X25-01",
        ),
        ("parentage X25-01", "truncata or veitchii 1/2 50.0 –"),
        ("parentage X25-01", "maxima 1/2 50.0 –"),
        ("parentage X25-01", "not: unknown 1/2"),
        (
            "add F1 \"maxima x (veitchii or truncata)\" --on 2025-05-01",
            "F1",
        ),
        ("parentage F1", "truncata or veitchii 1/2 50.0 –"),
        // A seedling of it has a quarter of that.
        (
            "pollinate F1 --with Spa1 --zone A --on 2025-05-16",
            "X25-02.A",
        ),
        ("parentage X25-02", "truncata or veitchii 1/4"),
    ],
    // The words of a label stand in the name of what was raised from it, as in that of a plant.
    &[
        (
            "add-seed \"maxima x veitchii (open?)\" --on 2025-05",
            "X25-01",
        ),
        (
            "name X25-01",
            "X25-01: (N. maxima × N. veitchii (open ?)) (claimed)",
        ),
        ("sow X25-01 --seeds 3 --on 2025-05", "X25-01.S1"),
        ("number X25-01.S1 1 --on 2025-05-30", "X25-01-1"),
        ("name X25-01-1", "N. veitchii (open ?)"),
        ("card X25-01-1", "(open ?)"),
    ],
    &[
        (
            "add-seed \"maxima (giant) x veitchii\" --on 2025-05",
            "X25-01",
        ),
        ("name X25-01", "N. maxima (giant) × N. veitchii"),
        ("add-seed \"maxima (giant)\" --on 2025-05", "X25-02"),
        ("name X25-02", "(giant)"),
    ],
    // One parent in doubt leaves the other as it is.
    &[
        ("add-seed \"maxima? x veitchii\" --on 2025-05", "X25-01"),
        ("parentage X25-01", "maxima (?) 1/2"),
        ("parentage X25-01", "not: veitchii (?)"),
    ],
];

/// Stories of trays that end, move or stand at a place; they begin with the same sowing.
const OF_TRAYS: &[Story] = &[
    // A pot of seedlings dies as one, and what was counted before stays.
    &[
        (
            "prick X23-01.S1 40 --on 2024-03-01 --place bench",
            "X23-01.T1",
        ),
        ("gone X23-01.T1 --died --why rot", "X23-01.T1: died on"),
        ("show X23-01.T1", "died 2025-06-01 (rot)"),
        ("show X23-01.T1", "alive 40 on 2024-03-01"),
        (
            "count X23-01.T1 --standing 3",
            "X23-01.T1 is no longer here: died",
        ),
        // Late entries of before are taken.
        ("count X23-01.T1 --standing 3 --on 2025-05-01", "3 alive"),
        ("number X23-01.T1 1-2 --on 2025-05-02", "X23-01-2"),
        ("number X23-01.T1 3", "X23-01.T1 is no longer here"),
        ("gone X23-01.T1 --sold", "X23-01.T1 is no longer here"),
        ("undo", "Undid"),
    ],
    // A sowing ends with the count of what stands in it; plants and trays are named together.
    &[
        ("count X23-01.S1 --standing 30 --on 2024-01-01", "X23-01.T1"),
        ("number X23-01.S1 1-4 --on 2024-06-02", "X23-01-4"),
        (
            "gone X23-01.S1,X23-01-2 --culled --why \"no room\"",
            "X23-01-2, X23-01.S1: culled on 2025-06-01",
        ),
        ("show X23-01.S1", "culled 2025-06-01 (no room)"),
        ("show X23-01.T1", "culled 2025-06-01"),
        ("show X23-01-2", "culled 2025-06-01 (no room)"),
        ("prick X23-01.S1 3", "X23-01.S1 is no longer here"),
        ("due --full", "not: X23-01"),
    ],
    // A pot that was given away is not shown as if it stood here.
    &[
        ("prick X23-01.S1 30 --on 2024-03-01", "X23-01.T1"),
        (
            "gone X23-01.T1 --given --to friend --on 2024-03-02",
            "given away",
        ),
        (
            "show X23-01",
            "community pot T1: given away 2024-03-02; 30 alive on 2024-03-01",
        ),
        (
            "show X15-02",
            "T1: given away 2017-05-13; 27–29 then: 39 alive between 2017-03-01 and 2017-03-31",
        ),
        ("siblings X15-02 --full", "T1 0 39 2017-03-01 to 2017-03-31"),
    ],
    // An empty count of what stood in a sowing is not the pot its seedlings are in.
    &[
        ("count X23-01.S1 --standing 30 --on 2024-03-01", "X23-01.T1"),
        ("prick X23-01.S1 30 --on 2024-03-10", "X23-01.T2"),
        (
            "gone X23-01.T1 --given --to friend --on 2024-03-11",
            "it is the count of what stands in X23-01.S1, and none is left there name the pot they are in: X23-01.T2",
        ),
        // Before they were pricked out they stood there.
        ("gone X23-01.T1 --died --on 2024-03-09", "X23-01.T1: died"),
        ("undo", "Undid"),
        ("gone X23-01.T2 --given --on 2024-03-11", "given away"),
        (
            "gone X23-01.T1 --given --on 2024-03-12",
            "none is left there name the sowing: X23-01.S1",
        ),
        ("gone X23-01.S1 --culled --on 2024-03-12", "culled"),
    ],
    // Before it was sown it was not there; a tray is named once.
    &[
        (
            "gone X23-01.S1 --lost --on 2023-08-20",
            "X23-01.S1 was entered for 2023-08-20, but it was sown on 2023-09-01",
        ),
        (
            "gone X23-01.S1 X23-01.S1 --lost",
            "X23-01.S1 is named twice",
        ),
    ],
    // A tray moves; a count of what stands in a sowing moves the sowing.
    &[
        (
            "move X23-01.S1 \"warm box\"",
            "X23-01.S1: moved to warm box",
        ),
        ("count X23-01.S1 --standing 30 --on 2024-01-01", "X23-01.T1"),
        (
            "move X23-01.T1 bench",
            "X23-01.T1 is the count of what stands in X23-01.S1, whose place was changed",
        ),
        ("show X23-01.S1", "place bench"),
        ("show X23-01.T1", "not: place bench"),
        (
            "prick X23-01.S1 10 --place bench --on 2024-03-01",
            "X23-01.T2",
        ),
        (
            "list plants --place bench",
            "0 of 78 plants on record (on bench); 2 trays there too",
        ),
        ("list plants --place bench", "X23-01.S1 sowing 20 bench"),
        (
            "list plants --place bench",
            "X23-01.T2 community pot 10 bench",
        ),
        ("list plants --place bench --kept", "not: X23-01.S1"),
        ("sheet --place bench --stocktake", "X23-01.T2"),
        (
            "move --place bench \"shelf 9\"",
            "X23-01.S1, X23-01.T2: moved to shelf 9",
        ),
        (
            "list plants --place \"shelf 9\"",
            "X23-01.T2 community pot 10",
        ),
        (
            "treat --place \"shelf 9\" \"neem soap\" --against gnats",
            "shelf 9: treated with neem soap",
        ),
        (
            "show X23-01.T2",
            "place treated 2025-06-01 neem soap against gnats",
        ),
        (
            "treat X23-01.T2 \"neem soap\"",
            "name the place where the tray stands",
        ),
        (
            "gone --place \"shelf 9\" --died --why frost",
            "X23-01.S1, X23-01.T2: died",
        ),
        ("list plants --place \"shelf 9\"", "not: X23-01"),
    ],
    // Where of every plant some piece may stand elsewhere, the treatment is on the record of the place, for the trays too.
    &[
        ("move X23-01.S1 \"shelf 2\"", "moved to shelf 2"),
        (
            "treat --place \"shelf 2\" \"neem soap\"",
            "Only some pieces of Spa1, Tru2, X13-01-5 and X18-01-4 are on record there, so the treatment is recorded for the place",
        ),
        ("show X23-01.S1", "place treated 2025-06-01 neem soap"),
    ],
    // Where nothing says how many were left in the sowing, `show` has the most, and nothing is due.
    &[
        ("prick X23-01.S1 40 --on 2025-05-10", "X23-01.T1"),
        ("show X23-01.S1", "left up to 15"),
        ("due --full", "not: X23-01.S1"),
    ],
    // What was left in it is not forgotten, until a word is said of it.
    &[
        ("prick X23-01.S1 40 --left 12 --on 2025-05-10", "X23-01.T1"),
        ("show X23-01.S1", "left 12, less those that died since"),
        ("number X23-01.S1 1-2 --on 2025-05-20", "X23-01-2"),
        ("show X23-01.S1", "left 10, less those that died since"),
        (
            "due --full",
            "prick out X23-01.S1 10 seedlings left in the sowing; others taken out 2025-05-20",
        ),
        ("gone X23-01.S1 --culled", "X23-01.S1: culled"),
        ("due --full", "not: X23-01.S1"),
    ],
];

/// Stories of spikes.
const OF_SPIKES: &[Story] = &[
    // A spike of one piece is none of another.
    &[
        (
            "flower Ven1-b --sex female --opened 2025-05-20",
            "Ven1-b spike 25a",
        ),
        (
            "flower Ven1-d --over 2025-05-30",
            "Ven1-d has no spike on record that is not over",
        ),
        (
            "flower Ven1-d --over 2025-05-30 --spike 25a",
            "spike 25a was named for Ven1-d, but spike 25a is of Ven1-b",
        ),
        (
            "flower Ven1-d --sex female --on 2025-05-25",
            "Ven1-d spike 25b",
        ),
        ("flower Ven1-d --on 2025-05-15", "Ven1-d spike 25b"),
        ("flower Ven1-b --over 2025-05-30", "Ven1-b spike 25a"),
        (
            "pollinate Ven1-d --open --spike 25a --on 2025-05-28",
            "spike 25a is of Ven1-b",
        ),
        ("flower Ven1-d --over 2025-05-31", "Ven1-d spike 25b"),
    ],
    // Only another piece flowered.
    &[
        (
            "flower Ven1-b --sex female --opened 2025-05-20",
            "Ven1-b spike 25a",
        ),
        ("pollinate Ven1-b --open --on 2025-05-28", "not: No spike"),
        (
            "pollinate Ven1-d --open --on 2025-05-28",
            "No spike of Ven1-d",
        ),
    ],
    // A spike that was recorded without a piece may be of any.
    &[
        ("flower Ven1 --sex female --opened 2025-05-20", "spike 25a"),
        ("flower Ven1-d --over 2025-05-30", "spike 25a: over"),
    ],
    // A spike of the year before last is entered as it went.
    &[
        ("flower Ven1 --sex female --opened 2023-03-30", "spike 23a"),
        ("flower Ven1 --sex female --opened 2023-03-30", "not: 23b"),
        (
            "flower Ven1 --over 2025-04-20",
            "not over: 23a; name it with --spike",
        ),
        ("flower Ven1 --over 2023-04-20", "spike 23a: over"),
        ("flower Ven1 --sex female --on 2024-06-07", "spike 24a"),
    ],
    // A spike is not over before it began, and one whose end has no day is the one going on now.
    &[
        ("flower Ven1-b --seen 2025-05-25", "spike 25a"),
        (
            "flower Ven1-b --over 2025-05-20",
            "no spike on record that began in the 200 days before that day",
        ),
        (
            "flower Spa1 --sex male --opened 2025-05-20",
            "Spa1 spike 25a",
        ),
        ("flower Spa1 --over ?", "Spa1 spike 25a: over"),
        // That of 2014 is left alone, though its end is not on record.
        ("flower Spa1 --sex male --opened ?", "Spa1 spike 25b"),
    ],
    // No flower is pollinated before the first one opened, whichever is entered last.
    &[
        ("flower Ven1 --sex female --opened 2025-05-01", "spike 25a"),
        (
            "pollinate Ven1 --open --spike 25a --on 2025-05-03",
            "open pollination",
        ),
        (
            "flower Ven1 --opened 2025-05-10 --spike 25a",
            "flowers were pollinated before the first flower opened",
        ),
        ("flower Ven1 --opened 2025-05-02 --spike 25a", "25a"),
    ],
];

/// Stories of plants and their pieces.
const OF_PIECES: &[Story] = &[
    // A piece gets a code that nothing has.
    &[
        ("add Mir8 \"N. mirabilis\" --on 2021", "Mir8"),
        ("add Mir8-b \"N. maxima\" --on 2021", "Mir8-b"),
        (
            "cutting Mir8 --code b --on 2022",
            "there is a plant Mir8-b already",
        ),
        ("cutting Mir8 --on 2022", "Mir8-c: cutting of Mir8-a"),
        ("gone Mir8-b --died", "Mir8-b: died"),
        ("show Mir8", "Mir8-c"),
        ("add Max9 \"N. maxima\" --on 2021", "Max9"),
        ("add Max9-a \"N. mirabilis\" --on 2021", "Max9-a"),
        ("cutting Max9 --on 2022", "Max9-c: cutting of Max9-b"),
    ],
    // A plant that a stock-take did not find was not read that day; its last reading stays the last.
    &[
        (
            "list --cross X22-02 --unread-since 2025-06 --full",
            "X22-02-5 ",
        ),
        (
            "seen --place \"shelf 1\" --except X22-02-5",
            "not found: X22-02-5",
        ),
        ("show X22-02-5", "last read 2025-05-10"),
        (
            "list --cross X22-02 --unread-since 2025-06 --full",
            "X22-02-5 ",
        ),
        (
            "show X22-02-5",
            "status not found on 2025-06-01; on record as here",
        ),
        (
            "list --place \"shelf 1\" --format csv",
            "not found on 2025-06-01",
        ),
        // Found once more, it is as before.
        ("seen X22-02-5", "1 plant found"),
        ("show X22-02-5", "status in the collection"),
    ],
    // A lost plant that turns up is here again, and its loss stays on record.
    &[
        (
            "gone X22-02-5 --lost --why \"tag lost\" --on 2025-05-20",
            "lost",
        ),
        (
            "seen X22-02-5",
            "X22-02-5 was on record as lost 2025-05-20 (tag lost); it is on record as here again",
        ),
        ("show X22-02-5", "status in the collection"),
        (
            "show X22-02-5 --full",
            "lost 2025-05-20 (tag lost), found again",
        ),
        ("move X22-02-5 \"shelf 2\"", "shelf 2"),
    ],
    // One that was seen before it was lost stays lost.
    &[
        ("gone X22-02-5 --lost --on 2025-05-20", "lost"),
        ("seen X22-02-5 --on 2025-05-10", "not: here again"),
        ("show X22-02-5", "status lost 2025-05-20"),
    ],
    // A plant that left is not found: it is another plant, or its record is wrong. A range means those that are here.
    &[
        ("gone X22-02-5 --sold --on 2025-05-20", "sold"),
        ("seen X22-02-5", "look at its tag: is it another plant?"),
        ("seen X22-02-6", "it is on record as culled 2025-05-16"),
        (
            "seen X22-02-5..8",
            "X22-02-5 is on record as sold 2025-05-20: left out",
        ),
    ],
    // A stock-take reads no trait, so the next sheet asks for what the last sitting read.
    &[
        ("sheet X22-02 --json", "\"asked\": \"span\""),
        ("seen X22-02-1..18", "found"),
        ("sheet X22-02 --json", "\"asked\": \"span\""),
        ("sheet X22-02 --json", "not: \"asked\": \"leaves\""),
    ],
    // A plant marked to keep today that died yesterday: the way out is named.
    &[
        ("keep X22-02-3", "marked to keep"),
        (
            "gone X22-02-3 --died --on 2025-05-31",
            "it was marked to keep on 2025-06-01 take the mark off first: podbook keep X22-02-3 --no-longer",
        ),
        ("keep X22-02-3 --no-longer", "X22-02-3"),
        ("gone X22-02-3 --died --on 2025-05-31", "died on 2025-05-31"),
    ],
    // Seedlings numbered out of a pot were in the pot, whether a pricking names it or not.
    &[
        ("prick X21-05.S1 7 --left 14 --on 2022-04-01", "X21-05.T2"),
        ("number X21-05.T1 1-10 --on 2024-06-01", "X21-05-10"),
        ("show X21-05.S1", "left 14, less those that died since"),
    ],
    // Numbers without a day do not hide the day on which others were pricked out; an end is no count.
    &[
        ("prick X22-02.S1 5 --left 9 --on 2025-05-20", "X22-02.T1"),
        ("list plants --place \"warm box\"", "X22-02.S1"),
        ("show X18-01.S1", "not: by the last count"),
    ],
    // Of a plant with two pieces on a shelf both are looked at, and it is one plant.
    &[("seen --place \"shelf 2\"", "4 plants found on shelf 2")],
];

#[test]
fn a_count_is_of_the_pot_that_is_meant() {
    let stories = OF_A_SOWING.iter().map(|story| [SOWN, story].concat());
    let stories: Vec<Vec<(&str, &str)>> = stories.collect();
    play(&stories.iter().map(Vec::as_slice).collect::<Vec<_>>());
}

/// What stands in a community pot is out of its sowing, whether or not a pricking out says how it came there.
const OF_POTS: &[Story] = &[
    &[
        ("due --full", "not: X21-05.T1"),
        (
            "prick X21-05.T1 16",
            "X21-05.T1 is a community pot: what stands there is pricked out give each seedling a number when it gets its own pot: podbook number X21-05.T1 1-16 --pot 5cm",
        ),
        (
            "prick X21-05.S1 16",
            "16 seedlings were to be pricked out of X21-05.S1, but at most 7 of 26 can be left in it: those counted in X21-05.T1 are out of it if these are the seedlings of X21-05.T1, number them: podbook number X21-05.T1 1-16 --pot 5cm; if this is how they came there, add --to T1 and --on with the day",
        ),
        ("prick X21-05.S1 7", "X21-05.T2: 7 seedlings pricked out"),
        ("prick X21-05.S1 1", "at most 0 of 26 can be left in it"),
    ],
    // The day on which that pot was filled is entered later, and then it is another pricking that is too many.
    &[
        (
            "prick X21-05.S1 16 --to T1",
            "at most 7 of 26 can be left in it",
        ),
        (
            "prick X21-05.S1 19 --to T1 --on 2022-09-01",
            "X21-05.T1: 19 seedlings pricked out",
        ),
        ("show X21-05", "T1: 16 alive"),
        ("prick X21-05.S1 8", "8 is more than there are: 7 seedlings"),
    ],
];

#[test]
fn what_stands_in_a_pot_is_not_pricked_out_again() {
    play(OF_POTS);
}

/// The history of a sowing is that of the pod its seed is of.
const OF_SOWN_PODS: &[Story] = &[&[
    (
        "show X22-02.S1",
        "pollinated 2022-03-26 to 2022-03-29 harvested 2022-08-13 after 137–140 days sown 2022-09-10 after 28 days",
    ),
    (
        "show X22-02.S2",
        "pollinated 2022-04-02 to 2022-04-04 harvested 2022-08-27",
    ),
    (
        "show X22-02.L1",
        "pollinated 2022-03-26 to 2022-03-29 harvested 2022-08-13 after 137–140 days",
    ),
    ("show X22-02", "pollinated 2022-03-26 to 2022-04-04"),
]];

#[test]
fn a_sowing_has_the_days_of_its_pod() {
    play(OF_SOWN_PODS);
}

#[test]
fn doubt_on_a_label_of_seed_is_kept() {
    play(OF_LABELS);
}

#[test]
fn a_job_goes_away_when_it_is_done() {
    let stories = OF_JOBS.iter().map(|story| [OPEN, story].concat());
    let stories: Vec<Vec<(&str, &str)>> = stories.collect();
    play(&stories.iter().map(Vec::as_slice).collect::<Vec<_>>());
}

#[test]
fn a_tray_ends_moves_and_is_left_as_was_said() {
    let stories = OF_TRAYS.iter().map(|story| [SOWN, story].concat());
    let stories: Vec<Vec<(&str, &str)>> = stories.collect();
    play(&stories.iter().map(Vec::as_slice).collect::<Vec<_>>());
}

#[test]
fn a_spike_is_of_the_piece_that_flowers() {
    play(OF_SPIKES);
}

#[test]
fn a_piece_is_no_other_plant() {
    play(OF_PIECES);
}

/// Who is alive today stands beside how many of them have no entry of the last year. A stock-take is an entry of a plant it
/// found, and one it did not find is not called alive.
#[test]
fn a_plant_not_seen_for_long_is_not_surely_alive() {
    let demo = copied("registry-demo");
    let grown = || {
        let asked = "growth X22-02 X18-01 --full";
        said(demo.path(), asked, "2026-06-02")
    };
    let before = grown();
    let words = "X22-02 15 of 16, 94 % (72–99 %); none of these has an entry of the last year";
    assert!(before.contains(words), "{before}");
    let looked = "seen X22-02-1..18 --except X22-02-5 --on 2026-06-01";
    let looked = said(demo.path(), looked, "2026-06-02");
    assert!(looked.contains("not found: X22-02-5"), "{looked}");
    let after = grown();
    let words = "X22-02 14 of 15, 93 % (70–99 %); 2 of its 18 were culled, sold or lost and count neither way; 1 not found by the last stock-take counts neither way";
    assert!(after.contains(words), "{after}");
    assert!(!after.contains("! X22-02: 14 of the 14 plants"), "{after}");
}

/// Of a plant with two pieces the one on the windowsill is found dead, and only that one is said to have died.
#[test]
fn the_piece_that_died_is_named() {
    let demo = copied("registry-demo");
    let asked = "measure Ven1 --traits span --place windowsill --today 2025-06-01 --registry";
    let mut measuring = Command::new(env!("CARGO_BIN_EXE_podbook"))
        .args(asked.split(' '))
        .arg(demo.path())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut answers = measuring.stdin.take().unwrap();
    answers.write_all(b"dead\n").unwrap();
    drop(answers);
    let output = measuring.wait_with_output().unwrap();
    let answer = String::from_utf8(output.stdout).unwrap();
    assert!(answer.contains("died: Ven1-d"), "{answer}");
    assert!(!answer.contains("not read"), "{answer}");
    let other = said(demo.path(), "show Ven1-b", "2025-06-01");
    assert!(other.contains("in the collection"), "{other}");
}
