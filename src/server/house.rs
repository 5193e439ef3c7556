//! What all answers share: how podbook was started, the devices, the two threads.

use super::desk::{Desk, Task};
use super::devices::Devices;
use super::shelf::{Ask, View};
use crate::record::Day;
use std::path::{Path, PathBuf};
use std::sync::mpsc::SyncSender;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use tokio::sync::{Notify, Semaphore, oneshot};

/// Pictures that come in at a time.
const UPLOADS: usize = 4;

/// How podbook was started.
pub struct Options {
    /// The registry's folder.
    pub folder: PathBuf,
    /// The port; 0 for any that is free.
    pub port: u16,
    /// Whether other devices of the network may connect.
    pub lan: bool,
    /// Names besides the addresses under which it may be asked.
    pub names: Vec<String>,
    /// Whether paired devices may record.
    pub writes: bool,
    /// The day that counts as today.
    pub today: fn() -> Day,
    /// That day, with the seconds until it ends.
    pub now: fn() -> (Day, u32),
    /// A day that counts as today whatever the clock says.
    pub fixed_day: Option<Day>,
    /// Shows lines where podbook runs.
    pub tell: Arc<dyn Fn(&str) + Send + Sync>,
}

impl Options {
    /// The day that counts as today.
    pub fn today(&self) -> Day {
        self.fixed_day.unwrap_or_else(|| (self.today)())
    }

    /// Today as an open page reads it: the day and the seconds until it ends; a fixed day stands alone, since it does not end.
    pub fn now(&self) -> String {
        match (self.fixed_day, (self.now)()) {
            (Some(day), _) => day.to_string(),
            (None, (day, left)) => format!("{day} {left}"),
        }
    }
}

/// What happens where podbook runs.
#[derive(Clone, Default)]
pub struct Stop {
    pub(super) ends: Arc<Notify>,
    pub(super) asks_link: Arc<Notify>,
}

impl Stop {
    /// Ends the server.
    pub fn end(&self) {
        self.ends.notify_one();
    }

    /// Asks for a new link to pair a device with.
    pub fn new_link(&self) {
        self.asks_link.notify_one();
    }
}

/// What all answers share.
pub struct House {
    pub options: Options,
    pub port: u16,
    devices: Mutex<Devices>,
    /// What was last said of a list of devices that cannot be read.
    trouble: Mutex<String>,
    shelf: SyncSender<Ask>,
    desk: SyncSender<Task>,
    /// Pictures opened at a time.
    pub pictures: Semaphore,
    /// Pictures that come in at a time: each is held whole.
    pub uploads: Semaphore,
}

impl House {
    pub fn new(
        options: Options,
        port: u16,
        (shelf, desk): (SyncSender<Ask>, SyncSender<Task>),
    ) -> House {
        House {
            devices: Mutex::new(Devices::of(&options.folder)),
            trouble: Mutex::default(),
            options,
            port,
            shelf,
            desk,
            pictures: Semaphore::new(2),
            uploads: Semaphore::new(UPLOADS),
        }
    }

    pub fn devices(&self) -> MutexGuard<'_, Devices> {
        self.devices.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Says where podbook runs why no device is let in, once for as long as it stays the same.
    pub fn tell_trouble(&self, words: &str) {
        let mut said = self.trouble.lock().unwrap_or_else(PoisonError::into_inner);
        if *said != words {
            words.clone_into(&mut said);
            (self.options.tell)(&format!("{words}\n"));
        }
    }

    /// Changes the list of devices of the registry, away from the thread that answers: it may have to wait.
    pub async fn change_devices<T: Send + 'static>(
        &self,
        of: impl FnOnce(&Path) -> Result<T, String> + Send + 'static,
    ) -> Result<T, String> {
        let folder = self.options.folder.clone();
        let changed = tokio::task::spawn_blocking(move || of(&folder)).await;
        changed.unwrap_or_else(|_| Err("podbook failed on this. Try again.".to_owned()))
    }

    /// What the thread that holds the registry makes of it; `None` when too many ask, or it failed.
    pub async fn look<T: Send + 'static>(
        &self,
        of: impl FnOnce(&View) -> T + Send + 'static,
    ) -> Option<T> {
        let (send, answer) = oneshot::channel();
        let ask: Ask = Box::new(move |view: &View| drop(send.send(of(view))));
        self.shelf.try_send(ask).ok()?;
        answer.await.ok()
    }

    /// What the thread that records makes of a task; `None` when too many wait, or it failed.
    pub async fn record<T: Send + 'static>(
        &self,
        of: impl FnOnce(&mut Desk) -> T + Send + 'static,
    ) -> Option<T> {
        let (send, answer) = oneshot::channel();
        let task: Task = Box::new(move |desk: &mut Desk| drop(send.send(of(desk))));
        self.desk.try_send(task).ok()?;
        answer.await.ok()
    }
}
