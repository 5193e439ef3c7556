//! Steps shared by several searches, and whether anyone has asked to stop.
//!
//! A season's answer takes many searches: the best plan, what each limit costs, the frontier. They draw on one number of
//! steps, in a fixed order, so that a stated number gives the same answer everywhere; and a wish to stop, once told, ends
//! all that would follow.

use super::relax::steps_for;
use super::search::{Asked, Found, Progress, search};
use super::season::Season;

/// What several searches may use together.
pub struct Budget<'w> {
    left: u64,
    watch: &'w mut dyn FnMut(Progress) -> bool,
    last: Progress,
    stopped: bool,
}

impl<'w> Budget<'w> {
    /// `steps` networks in all; `watch` is called with the progress and stops the work by giving `false`.
    pub fn new(steps: u64, watch: &'w mut dyn FnMut(Progress) -> bool) -> Self {
        let last = Progress {
            steps: 0,
            best: None,
            bound: f64::INFINITY,
        };
        Self {
            left: steps,
            watch,
            last,
            stopped: false,
        }
    }

    /// Searches with the steps that are left, but no more than `asked` allows.
    pub fn search(&mut self, season: &Season, asked: Asked) -> Found {
        let steps = asked.steps.min(self.left);
        let (watch, last, stopped) = (&mut self.watch, &mut self.last, &mut self.stopped);
        let found = search(season, Asked { steps, ..asked }, &mut |progress| {
            *last = progress;
            *stopped |= !watch(progress);
            !*stopped
        });
        self.left = self.left.saturating_sub(found.steps);
        found
    }

    /// Takes the steps that so many looks at pairings are worth.
    pub fn spend(&mut self, looks: usize) {
        self.left = self.left.saturating_sub(steps_for(looks as u64));
    }

    /// Whether there are steps left and nobody has asked to stop.
    pub fn goes_on(&mut self) -> bool {
        self.stopped |= !(self.watch)(self.last);
        self.left > 0 && !self.stopped
    }
}
