//! How siblings differ: published values, slow twins, awkward shapes, and whether stated rates hold.

mod statistics {
    mod tables;

    mod calibration;
    mod contingency;
    mod describe;
    mod distribution;
    mod location;
    mod proportion;
    mod ranks;
    mod segregation;
    mod variance;
}
