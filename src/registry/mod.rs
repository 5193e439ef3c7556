//! The whole registry, checked for references and numbered founders first.
