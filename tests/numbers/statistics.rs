//! How siblings differ: published values, slow twins, awkward shapes, and whether stated rates hold.

mod statistics {
    mod tables;

    mod calibration;
    mod choosing;
    mod classes;
    mod contingency;
    mod correlation;
    mod curves;
    mod describe;
    mod distribution;
    mod germination;
    mod germination_limits;
    mod germination_side_by_side;
    mod growth;
    mod heritability;
    mod location;
    mod outlier;
    mod proportion;
    mod random;
    mod ranks;
    mod repeatability;
    mod segregation;
    mod spread_scale;
    mod survival;
    mod variance;
}
