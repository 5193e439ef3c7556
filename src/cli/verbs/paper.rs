//! `podbook completions` and `podbook man`: what a shell and a manual reader need.

use crate::cli::request::{Outcome, Refusal, Request};
use crate::render::Written;
use clap::Args;
use clap_complete::Shell;

/// Print completions for a shell
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook completions bash > podbook.bash")]
pub struct Completions {
    /// Which shell
    #[arg(value_name = "SHELL")]
    shell: Shell,
}

impl Completions {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let mut bytes = Vec::new();
        clap_complete::generate(self.shell, &mut request.command(), "podbook", &mut bytes);
        Ok(Outcome {
            answer: Written::manual(bytes),
            ..Outcome::default()
        })
    }
}

/// Print the manual page, all commands included
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook man > podbook.1 && man ./podbook.1")]
pub struct Man {}

impl Man {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let mut bytes = Vec::new();
        let whole = request.command();
        let refused = |error: std::io::Error| Refusal::files(error.to_string());
        clap_mangen::Man::new(whole.clone())
            .render(&mut bytes)
            .map_err(refused)?;
        for verb in whole.get_subcommands() {
            let name = verb
                .get_display_name()
                .unwrap_or(verb.get_name())
                .to_owned();
            let verb = verb.clone().name(name);
            clap_mangen::Man::new(verb)
                .render(&mut bytes)
                .map_err(refused)?;
        }
        Ok(Outcome {
            answer: Written::manual(bytes),
            ..Outcome::default()
        })
    }
}
