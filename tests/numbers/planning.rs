//! What to pollinate next: published and worked values, brute force on every small season, a general solver, awkward
//! shapes.

mod planning {
    mod nursery;
    mod seasons;
    mod solver;

    mod brute;
    mod frontier;
    mod highs;
    mod intensity;
    mod prices;
    mod random;
    mod room;
    mod sexes;
    mod sift;
    mod spikes;
    mod table;
    mod windows;
}
