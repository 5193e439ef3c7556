//! What a command that takes longer than a moment is doing: one line on a terminal, gone before the answer.

use std::io::{IsTerminal, Write, stderr};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread::{JoinHandle, spawn};
use std::time::{Duration, Instant};

/// Back to the beginning of an emptied line.
pub(super) const CLEAR: &str = "\r\u{1b}[K";
/// How long a command works before anything is shown.
const AFTER: Duration = Duration::from_millis(500);
/// How often the seconds are shown anew.
const TICK: Duration = Duration::from_secs(1);

/// Shows what is being done, until it is dropped.
pub struct Working(Option<(Sender<String>, JoinHandle<()>)>);

impl Working {
    /// Shows it on standard error, if that is a terminal, once half a second has passed.
    pub fn begin() -> Working {
        match stderr().is_terminal() {
            true => Working::on(stderr(), AFTER),
            false => Working(None),
        }
    }

    /// Shows it somewhere, once some time has passed.
    pub fn on(out: impl Write + Send + 'static, after: Duration) -> Working {
        let (sender, stages) = channel();
        Working(Some((sender, spawn(move || show(out, after, &stages)))))
    }

    /// What is done from now on, in words such as `sorting 20,000 rows`.
    pub fn at(&self, stage: impl Into<String>) {
        if let Some((stages, _)) = &self.0 {
            // Without anybody to show it the work goes on.
            let _ = stages.send(stage.into());
        }
    }
}

impl Drop for Working {
    fn drop(&mut self) {
        if let Some((stages, shown)) = self.0.take() {
            drop(stages);
            let _ = shown.join();
        }
    }
}

/// Shows the stages as they come, and clears the line when no more can come.
fn show(mut out: impl Write, after: Duration, stages: &Receiver<String>) {
    let begun = Instant::now();
    let (mut stage, mut is_shown) = (String::new(), false);
    loop {
        let wait = match is_shown || stage.is_empty() {
            true => TICK,
            false => after.saturating_sub(begun.elapsed()),
        };
        match stages.recv_timeout(wait) {
            Ok(next) => stage = next,
            Err(RecvTimeoutError::Timeout) => {}
            Err(RecvTimeoutError::Disconnected) => break,
        }
        let passed = begun.elapsed();
        if !stage.is_empty() && (is_shown || passed >= after) {
            let _ = write!(out, "{CLEAR}{stage}: {} s", passed.as_secs());
            let _ = out.flush();
            is_shown = true;
        }
    }
    if is_shown {
        let _ = write!(out, "{CLEAR}");
        let _ = out.flush();
    }
}
