//! Probabilities of identity by descent: kinship, inbreeding, diversity.
