//! The steps of writing at which a system may fail or a program may be killed, so that tests can do both.

use std::io;

/// Asked before every step of a write; an error stands for the system's refusal of that step.
pub trait Steps {
    /// About to do `step`, such as `rename`, to a file called `name`.
    ///
    /// # Errors
    /// What the system is to be taken to have said.
    fn before(&self, step: &'static str, name: &str) -> io::Result<()>;
}

/// Lets every step happen.
pub struct NoFailures;

impl Steps for NoFailures {
    fn before(&self, _: &'static str, _: &str) -> io::Result<()> {
        Ok(())
    }
}
