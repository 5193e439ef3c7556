//! What is on record of a clone that is to be registered as a cultivar, beside what its sale card says.

mod answer;

pub use answer::{Away, RaisedBy, RegistrationSeen, registration};
