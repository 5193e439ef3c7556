//! Turns the arguments into an exit code and nothing else.

use std::process::ExitCode;

fn main() -> ExitCode {
    podbook::cli::main()
}
