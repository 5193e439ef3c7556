//! `podbook find`: where words stand.

use super::output::{Output, TABLES};
use crate::analysis::find::find;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::recording::slip::Slip;
use clap::Args;

/// Find words in names, labels, notes and places
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook find window one --registry registry-demo\n\
    Every word must be in the record, whole or as a part; capitals and accents do not count."
)]
pub struct Find {
    /// Words to look for
    #[arg(required = true, value_name = "TEXT")]
    words: Vec<String>,
    #[command(flatten)]
    output: Output,
}

impl Find {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        if self.words.iter().all(|word| word.trim().is_empty()) {
            return Err(Refusal::arguments(
                "there is no word to look for\nname one or more, such as `podbook find windowsill`",
            ));
        }
        let sources = request.sources()?;
        let (registry, remarks) = request.records(&sources);
        let context = Context::of(&registry, request.today()?);
        let found = find(&context, &self.words);
        self.output.form(request, TABLES)?;
        if !found.unread.is_empty() {
            let asked = found.words.join(" ");
            let left_out = Slip::left_out(&asked, &found.unread, &found.near);
            return Err(Refusal::slip(&left_out));
        }
        self.output.answer(request, &found, remarks)
    }
}
