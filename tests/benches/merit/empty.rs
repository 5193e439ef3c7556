//! Empty: this package holds nothing but a bench.
