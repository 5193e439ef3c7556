//! `podbook thaw` and `podbook finish`: what happens to an envelope of pollen.

use super::command::command;
use crate::recording::events::collect::{Envelope, EnvelopeEvent};

command! {
    #[command(after_help = "Example: podbook thaw Ram1-2105 --dry-run --registry registry-demo")]
    Thaw => Envelope { what: EnvelopeEvent::Thawed };

    /// Code of the envelope
    #[arg(value_name = "ENVELOPE")]
    code: String,
}

command! {
    #[command(after_help = "Example: podbook finish Spe1-2105 --dry-run --registry registry-demo")]
    Finish => Envelope { what: EnvelopeEvent::Finished };

    /// Code of the envelope
    #[arg(value_name = "ENVELOPE")]
    code: String,
}
