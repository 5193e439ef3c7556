//! What a plant descends from: exact shares, generations, interspecific heterozygosity, the spread to expect.
