//! Which devices may come in: one-time secrets, and the cookies they are paired with.
//!
//! Only checksums of cookies are kept, in a hidden file of the registry's folder, so that a phone stays paired when podbook
//! is started again and a copy of the registry lets no one in.

use crate::record::Day;
use crate::recording::journal::checksum;
use crate::text::commit::{Hold, NoHold};
use crate::text::{read_own, write_own};
use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::time::Duration;
use tokio::time::Instant;

/// The cookie of a paired device: with the mark of the registry behind it, or alone as once.
pub const COOKIE: &str = "podbook";
/// The file of paired devices.
const FILE: &str = ".podbook-devices";
const HEAD: &str = "# Devices paired by `podbook serve`: checksum of the cookie, day, name. Delete a line to revoke a device.\n";
/// Before the mark of the registry: what a phone keeps for one registry is not sent to another that answers at the same
/// address. It moves along with the folder.
const REGISTRY: &str = "# Registry: ";
/// How long a secret may be used.
const LASTS: Duration = Duration::from_secs(10 * 60);
/// Wrong secrets until the right one is void too.
const WRONG: u32 = 20;
/// The longest name of a device, signs.
const LONGEST: usize = 40;
/// Digits of a checksum that tell devices apart.
const MARK: usize = 16;
/// Devices kept at most; the oldest gives way.
const MOST: usize = 50;

/// A device that is paired.
#[derive(Clone, Debug)]
pub struct Device {
    /// By which a page names it: the first digits of its checksum.
    pub mark: String,
    /// As it was called.
    pub name: String,
    /// The day it was paired.
    pub since: String,
    hash: String,
}

struct Secret {
    hash: String,
    until: Instant,
    wrong: u32,
}

/// The devices, and the secret that stands. The file is read anew each time, so that a device revoked by another podbook on
/// the same registry, or by deleting its line, is out at once.
pub struct Devices {
    folder: PathBuf,
    secret: Option<Secret>,
}

impl Devices {
    /// Those of a registry.
    pub fn of(folder: &Path) -> Devices {
        Devices {
            folder: folder.to_owned(),
            secret: None,
        }
    }

    /// Makes a secret that can be used once; an earlier one is void from now on.
    ///
    /// # Errors
    /// If the system gives no random numbers.
    pub fn new_secret(&mut self) -> Result<String, String> {
        let secret = random()?;
        self.secret = Some(Secret {
            hash: checksum(&secret),
            until: Instant::now() + LASTS,
            wrong: 0,
        });
        Ok(secret)
    }

    /// Uses the secret up.
    ///
    /// # Errors
    /// If it is not the one that stands, in words.
    pub fn spend(&mut self, secret: &str) -> Result<(), String> {
        let gone = "This link was used already, or is too old. Press Enter where podbook runs for a new one.";
        if self.stands(secret) {
            self.secret = None;
            return Ok(());
        }
        if let Some(stands) = self.secret.as_mut() {
            stands.wrong += 1;
            if stands.wrong >= WRONG {
                self.secret = None;
            }
        }
        Err(gone.to_owned())
    }

    /// Whether the secret is the one that stands. Asking counts as no try: pages of others can have links opened.
    pub fn stands(&self, secret: &str) -> bool {
        let stands = self.secret.as_ref().filter(|of| Instant::now() < of.until);
        stands.is_some_and(|of| checksum(secret) == of.hash)
    }

    /// The first cookie that belongs to a device, with that device.
    ///
    /// # Errors
    /// If there are cookies and the list cannot be read, in words.
    pub fn known<'c>(
        &self,
        cookies: impl Iterator<Item = &'c str>,
    ) -> Result<Option<(&'c str, Device)>, String> {
        let cookies: Vec<&str> = cookies.collect();
        if cookies.is_empty() {
            return Ok(None);
        }
        let list = self.list()?;
        let mut known = cookies.into_iter().filter_map(|cookie| {
            let hash = checksum(cookie);
            let of = list.iter().find(|of| of.hash == hash)?;
            Some((cookie, of.clone()))
        });
        Ok(known.next())
    }

    /// The mark of the registry; empty where no device was paired since there are marks.
    pub fn registry(&self) -> String {
        registry(&self.folder).unwrap_or_default()
    }

    /// The devices, in the order of pairing.
    ///
    /// # Errors
    /// If the list cannot be read, in words.
    pub fn list(&self) -> Result<Vec<Device>, String> {
        list(&self.folder)
    }
}

/// A device that was paired just now.
pub struct Paired {
    /// The name of its cookie: a browser keeps one for each registry that answers at an address.
    pub cookie: String,
    /// The value of the cookie.
    pub value: String,
    /// What the list calls it.
    pub name: String,
}

/// Adds a device to those of a registry. Waits while another podbook writes in the registry.
///
/// # Errors
/// If the list cannot be read or written, in words.
pub fn add(folder: &Path, name: &str, today: Day) -> Result<Paired, String> {
    let _held = held(folder)?;
    let value = random()?;
    let mut all = list(folder)?;
    let name: String = name
        .chars()
        .filter(|c| !c.is_control())
        .take(LONGEST)
        .collect();
    let name = match name.trim() {
        "" => "device",
        name => name,
    };
    let name = own_name(name, &all);
    all.push(Device::new(
        checksum(&value),
        today.to_string(),
        name.clone(),
    ));
    let over = all.len().saturating_sub(MOST);
    let registry = match registry(folder) {
        Some(known) => known,
        None => random()?,
    };
    save(folder, &registry, &all[over..])?;
    Ok(Paired {
        cookie: format!("{COOKIE}-{registry}"),
        value,
        name,
    })
}

/// A name that no other device has: phones offer the same one, and each is revoked by its name.
fn own_name(name: &str, all: &[Device]) -> String {
    let numbered = (2..).map(|number| format!("{name} {number}"));
    let mut names = std::iter::once(name.to_owned()).chain(numbered);
    let free = names.find(|name| all.iter().all(|of| of.name != *name));
    free.unwrap_or_default()
}

/// Revokes a device. Waits while another podbook writes in the registry.
///
/// # Errors
/// If the list cannot be read or written, in words: the device is then not revoked.
pub fn remove(folder: &Path, mark: &str) -> Result<(), String> {
    let _held = held(folder)?;
    let mut all = list(folder)?;
    all.retain(|of| of.mark != mark);
    let registry = registry(folder).unwrap_or_default();
    save(folder, &registry, &all)
}

/// Keeps every other podbook from changing the list between reading and writing it.
fn held(folder: &Path) -> Result<Hold, String> {
    is_there(folder)?;
    Hold::to_write(folder).map_err(|why| match why {
        NoHold::Busy => {
            "Another podbook is writing in this registry. Press Enter where podbook runs for a new link, and try again.".to_owned()
        }
        NoHold::InTheWay => "The list of devices could not be held: `.podbook-lock` in the registry's folder is not a file.".to_owned(),
        NoHold::System(words) => format!("The list of devices could not be held: {words}."),
    })
}

fn is_there(folder: &Path) -> Result<(), String> {
    match folder.is_dir() {
        true => Ok(()),
        false => Err("The registry's folder is not there: perhaps a stick was pulled out, or a drive is not connected. Paired devices stay paired.".to_owned()),
    }
}

fn registry(folder: &Path) -> Option<String> {
    let text = read_own(folder, FILE).ok()?;
    let mark = text.lines().find_map(|line| line.strip_prefix(REGISTRY))?;
    Some(mark.trim().to_owned()).filter(|mark| !mark.is_empty())
}

fn list(folder: &Path) -> Result<Vec<Device>, String> {
    is_there(folder)?;
    let text = read_own(folder, FILE)
        .map_err(|why| format!("The list of devices could not be read: {why}."))?;
    let lines = text.lines().filter(|line| !line.starts_with('#'));
    let of = |line: &str| {
        let mut parts = line.splitn(3, ' ').map(str::to_owned);
        Some(Device::new(parts.next()?, parts.next()?, parts.next()?))
    };
    Ok(lines.filter_map(of).collect())
}

fn save(folder: &Path, registry: &str, list: &[Device]) -> Result<(), String> {
    let mut text = format!("{HEAD}{REGISTRY}{registry}\n");
    for of in list {
        let _ = writeln!(text, "{} {} {}", of.hash, of.since, of.name);
    }
    write_own(folder, FILE, &text)
        .map_err(|why| format!("The list of devices could not be written: {}.", why.why))
}

impl Device {
    fn new(hash: String, since: String, name: String) -> Device {
        Device {
            mark: hash.chars().take(MARK).collect(),
            name,
            since,
            hash,
        }
    }
}

/// What a device must send along to record; a page that only has the cookie sent for it does not know it.
pub fn token_of(cookie: &str) -> String {
    checksum(&format!("token of {cookie}"))
}

/// 128 random bits in hexadecimal digits.
fn random() -> Result<String, String> {
    let mut bytes = [0_u8; 16];
    getrandom::fill(&mut bytes).map_err(|why| format!("no random numbers: {why}"))?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}
