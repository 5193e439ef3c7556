//! Who is connected: so many at a time from one address and in all, strangers giving way to those that come.

use std::collections::BTreeMap;
use std::net::IpAddr;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use tokio::sync::Notify;

/// Connections from one address: browsers open six each.
const OF_ONE: usize = 24;
/// Connections in all.
const OF_ALL: usize = 256;

/// A connection.
#[derive(Clone)]
struct One {
    from: IpAddr,
    /// Whether a paired device has asked over it.
    is_known: Arc<AtomicBool>,
    cut: Arc<Notify>,
}

/// The connections, in the order they came.
#[derive(Clone, Default)]
pub struct Connections(Arc<Mutex<(u64, BTreeMap<u64, One>)>>);

/// A connection that is counted for as long as this value lives.
pub struct Counted {
    number: u64,
    all: Connections,
    /// To be set once a paired device has asked over it.
    pub is_known: Arc<AtomicBool>,
    /// Tells that it is to be cut, to make room.
    pub cut: Arc<Notify>,
}

impl Connections {
    /// Counts a new connection. Where there are too many, the oldest of a stranger is cut, of the same address if there
    /// are too many of that; `None` if there is none to cut.
    pub fn count(&self, from: IpAddr) -> Option<Counted> {
        let mut all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let (last, open) = &mut *all;
        let of_one = open.values().filter(|of| of.from == from).count() >= OF_ONE;
        if of_one || open.len() >= OF_ALL {
            let is_stranger = |of: &One| !of.is_known.load(Ordering::Relaxed);
            let gives_way = open
                .iter()
                .find(|(_, of)| is_stranger(of) && (!of_one || of.from == from));
            let number = *gives_way?.0;
            if let Some(of) = open.remove(&number) {
                of.cut.notify_one();
            }
        }
        *last += 1;
        let one = One {
            from,
            is_known: Arc::default(),
            cut: Arc::default(),
        };
        open.insert(*last, one.clone());
        Some(Counted {
            number: *last,
            all: self.clone(),
            is_known: one.is_known,
            cut: one.cut,
        })
    }
}

impl Drop for Counted {
    fn drop(&mut self) {
        let mut all = self.all.0.lock().unwrap_or_else(PoisonError::into_inner);
        all.1.remove(&self.number);
    }
}
