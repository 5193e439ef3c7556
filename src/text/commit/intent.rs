//! What a writer is about to do, as a file: for each file its path, its old and its new bytes.
//!
//! The first line names the form. Then comes a line `by N` with the name of the computer, and, for each file, a line
//! `path N`, `was N` and `now N`, each followed by N bytes and a line break, or `was none` and `now none` where the file is
//! not there. The last line is `end`. The file appears under its name only when it is whole and on disk, so that one that
//! cannot be read was not written by podbook. It stays locked as long as its writer runs, so that whoever finds it sees
//! whether the change was cut short or is being written, also when the lock of the registry went away meanwhile.

use super::change::FileChange;

pub(super) use crate::text::folder::INTENT;

const HEAD: &[u8] = b"podbook intent 2\n";
const END: &[u8] = b"end\n";

/// An intent that was read.
pub struct Intent {
    /// The name of the computer that wrote it.
    pub by: String,
    /// What it was about to do.
    pub changes: Vec<FileChange>,
}

/// The name of this computer, as the system has it.
#[cfg(any(target_os = "linux", target_vendor = "apple"))]
pub fn this_computer() -> String {
    let about = rustix::system::uname();
    about.nodename().to_string_lossy().into_owned()
}

/// The name of this computer, where the system puts it among the variables of a process.
#[cfg(not(any(target_os = "linux", target_vendor = "apple")))]
pub fn this_computer() -> String {
    std::env::var("COMPUTERNAME").unwrap_or_default()
}

/// The intent's bytes.
pub fn written(changes: &[FileChange]) -> Vec<u8> {
    let mut out = HEAD.to_vec();
    let mut put = |name: &str, bytes: Option<&[u8]>| match bytes {
        Some(bytes) => {
            out.extend_from_slice(format!("{name} {}\n", bytes.len()).as_bytes());
            out.extend_from_slice(bytes);
            out.push(b'\n');
        }
        None => out.extend_from_slice(format!("{name} none\n").as_bytes()),
    };
    put("by", Some(this_computer().as_bytes()));
    for change in changes {
        put("path", Some(change.path.as_bytes()));
        put("was", change.was.as_deref());
        put("now", change.now.as_deref());
    }
    out.extend_from_slice(END);
    out
}

/// What an intent's bytes say; `None` if they are no intent.
pub fn read(bytes: &[u8]) -> Option<Intent> {
    let mut rest = bytes.strip_prefix(HEAD)?;
    let by = String::from_utf8(part(&mut rest, "by")??).ok()?;
    let mut changes = Vec::new();
    while rest != END {
        let path = String::from_utf8(part(&mut rest, "path")??).ok()?;
        let was = part(&mut rest, "was")?;
        let now = part(&mut rest, "now")?;
        changes.push(FileChange { path, was, now });
    }
    Some(Intent { by, changes })
}

/// The bytes under a name, which are taken off; `None` inside where there are none.
fn part(rest: &mut &[u8], name: &str) -> Option<Option<Vec<u8>>> {
    let end = rest.iter().position(|byte| *byte == b'\n')?;
    let line = std::str::from_utf8(&rest[..end]).ok()?;
    let length = line.strip_prefix(name)?.strip_prefix(' ')?;
    *rest = &rest[end + 1..];
    if length == "none" {
        return Some(None);
    }
    let length: usize = length.parse().ok()?;
    let bytes = rest.get(..length)?.to_vec();
    *rest = rest.get(length..)?.strip_prefix(b"\n")?;
    Some(Some(bytes))
}
