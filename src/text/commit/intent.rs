//! What a writer is about to do, as a file: for each file its path, its old and its new bytes.
//!
//! The first line names the form. Then, for each file, a line `path N`, `was N` and `now N`, each followed by N bytes
//! and a line break, or `was none` and `now none` where the file is not there. The last line is `end`. The file appears
//! under its name only when it is whole and on disk, so that one that cannot be read was not written by podbook.

use super::change::FileChange;

/// The file's name in the registry's folder.
pub const INTENT: &str = ".podbook-intent";
const HEAD: &[u8] = b"podbook intent 1\n";
const END: &[u8] = b"end\n";

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
    for change in changes {
        put("path", Some(change.path.as_bytes()));
        put("was", change.was.as_deref());
        put("now", change.now.as_deref());
    }
    out.extend_from_slice(END);
    out
}

/// The changes that an intent's bytes name; `None` if they are no intent.
pub fn read(bytes: &[u8]) -> Option<Vec<FileChange>> {
    let mut rest = bytes.strip_prefix(HEAD)?;
    let mut changes = Vec::new();
    while rest != END {
        let path = String::from_utf8(part(&mut rest, "path")??).ok()?;
        let was = part(&mut rest, "was")?;
        let now = part(&mut rest, "now")?;
        changes.push(FileChange { path, was, now });
    }
    Some(changes)
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
