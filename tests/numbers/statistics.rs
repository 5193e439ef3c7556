//! How siblings differ: published values, slow twins, awkward shapes, and whether stated rates hold.

mod statistics {
    mod tables;

    mod calibration;
    mod choosing;
    mod classes;
    mod contingency;
    mod curves;
    mod describe;
    mod distribution;
    mod families;
    mod germination;
    mod growth;
    mod location;
    mod mixed;
    mod outlier;
    mod proportion;
    mod random;
    mod ranks;
    mod segregation;
    mod survival;
    mod variance;
}
