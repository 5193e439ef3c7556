//! `podbook took`: what a pollination set.

use super::command::command;
use crate::recording::events::took::Took as Event;

command! {
    #[command(
        after_help = "Example: podbook took X22-02.A 9 --again --dry-run --registry registry-demo\n\
        None is a result too: podbook took X24-01.red 0. Controls are pods and flowers: --controls 0/5."
    )]
    Took => Event { entered: None };

    /// The zone, or its cross when it has only one
    #[arg(value_name = "ZONE")]
    zone: String,
    /// Pods that set
    #[arg(value_name = "PODS")]
    set: u32,
    /// Pods on the controls, and flowers left as controls, such as 0/5
    #[arg(long, value_name = "PODS/FLOWERS")]
    controls: Option<String>,
    /// Replace an earlier count
    #[arg(long)]
    again: bool,
}
