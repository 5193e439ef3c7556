//! Which files make up a registry, and reading them.
//!
//! The registry is the nearest folder upward that holds `registry.ron`. Its files are the `*.ron` in that folder and
//! in its `crosses` folder, taken in the order of their paths' bytes. A file that cannot be read is left out and listed
//! as [`Unread`]; the rest is read. `record` reads what the files say.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::cores::on_cores;
use super::left_behind::is_left_behind;
use super::refusal::system_words;
use super::source::Sources;
use super::unread::{Unread, WhyUnread};

/// The file that makes a folder a registry.
const REGISTRY: &str = "registry.ron";
/// The file in which a writer says what it is about to do; one that stays was cut short.
pub(super) const INTENT: &str = ".podbook-intent";
/// Files from which on they are read on all cores.
const MANY: usize = 100;
/// The folder inside a registry whose files are read too.
pub(super) const CROSSES: &str = "crosses";
/// The pages beside that folder.
pub const PAGES: [&str; 5] = [
    REGISTRY,
    "species.ron",
    "clones.ron",
    "pollen.ron",
    "goals.ron",
];
/// What was chosen for tables that are brought in; it may lie beside `registry.ron` and is no page.
pub const CHOICES: &str = "import.ron";

/// The nearest folder at or above `from` that holds `registry.ron`; a `registry.ron` that cannot be read counts, so
/// that another registry farther up is never taken in its stead. `None` if there is none or `from` does not exist.
pub fn find_registry(from: &Path) -> Option<PathBuf> {
    let from = from.canonicalize().ok()?;
    let holds = |folder: &&Path| fs::symlink_metadata(folder.join(REGISTRY)).is_ok();
    from.ancestors().find(holds).map(Path::to_path_buf)
}

/// Why a folder is not a registry's.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum NoRegistry {
    /// There is no such folder.
    NoFolder,
    /// A file bears its name.
    AFile,
    /// It holds no `registry.ron`.
    NoPage,
    /// It, or a folder above it, cannot be looked into.
    Unread(WhyUnread),
}

/// Makes sure that a folder holds `registry.ron`, readable or not.
///
/// # Errors
/// Why it does not.
pub fn is_registry(folder: &Path) -> Result<(), NoRegistry> {
    match fs::metadata(folder) {
        Ok(about) if about.is_dir() => {}
        Ok(_) => return Err(NoRegistry::AFile),
        Err(fault) if fault.kind() == io::ErrorKind::NotFound => return Err(NoRegistry::NoFolder),
        Err(fault) => return Err(NoRegistry::Unread(refusal(folder, &fault))),
    }
    let page = folder.join(REGISTRY);
    match fs::symlink_metadata(&page) {
        Ok(_) => Ok(()),
        Err(fault) if fault.kind() == io::ErrorKind::NotFound => Err(NoRegistry::NoPage),
        Err(fault) => Err(NoRegistry::Unread(refusal(&page, &fault))),
    }
}

impl Sources {
    /// Reads the files of a registry folder, many of them on all cores, in the order of their paths. What could not be read is
    /// told by [`Sources::unread`], a folder that cannot be listed under the path `.`.
    pub fn read(folder: &Path) -> Self {
        let (mut paths, mut unread) = (Vec::new(), Vec::new());
        list(folder, "", &mut paths, &mut unread);
        paths.sort_unstable();
        let texts = on_cores(&paths, paths.len() >= MANY, |path| {
            read_text(&folder.join(path))
        });
        let mut sources = Self::new();
        for (path, text) in paths.into_iter().zip(texts) {
            match text {
                Ok(text) => {
                    sources.add(path, text);
                }
                Err(why) => unread.push(Unread { path, why }),
            }
        }
        unread.sort_by(|a, b| a.path.cmp(&b.path));
        sources.unread = unread;
        sources
    }
}

/// Paths, relative to a registry's folder, of everything in it that is read as a page or left out with a finding.
pub(super) fn listed(folder: &Path) -> Vec<String> {
    let (mut paths, mut unread) = (Vec::new(), Vec::new());
    list(folder, "", &mut paths, &mut unread);
    paths.extend(unread.into_iter().map(|unread| unread.path));
    paths.sort_unstable();
    paths
}

/// Lists the RON files of `folder/below`, where `below` is empty or [`CROSSES`].
fn list(folder: &Path, below: &str, paths: &mut Vec<String>, unread: &mut Vec<Unread>) {
    let entries = match fs::read_dir(folder.join(below)) {
        Ok(entries) => entries,
        Err(fault) => {
            let path = if below.is_empty() { "." } else { below };
            return unread.push(Unread {
                path: path.into(),
                why: refusal(&folder.join(below), &fault),
            });
        }
    };
    for entry in entries {
        match entry {
            Ok(entry) => sort_entry(folder, below, &entry.file_name(), paths, unread),
            Err(fault) => unread.push(Unread {
                path: below.into(),
                why: WhyUnread::System(system_words(&fault)),
            }),
        }
    }
}

/// Decides whether an entry is a file to read, a folder to list or nothing of ours.
fn sort_entry(
    folder: &Path,
    below: &str,
    name: &std::ffi::OsStr,
    paths: &mut Vec<String>,
    unread: &mut Vec<Unread>,
) {
    let shown = name.to_string_lossy();
    let path = if below.is_empty() {
        shown.to_string()
    } else {
        format!("{below}/{shown}")
    };
    let inside = below == CROSSES && folder.join(below).join(name).is_dir();
    if below.is_empty() && shown == INTENT {
        let why = WhyUnread::HalfWritten;
        unread.push(Unread { path, why });
    } else if shown.starts_with('.') {
        if is_left_behind(&folder.join(&path)) {
            let why = WhyUnread::LeftBehind;
            unread.push(Unread { path, why });
        }
    } else if below.is_empty() && shown == CHOICES {
        // Not ours to read as records.
    } else if below.is_empty() && shown == CROSSES {
        list(folder, CROSSES, paths, unread);
    } else if below.is_empty() && is_misspelt(folder, &shown) {
        unread.push(Unread {
            path,
            why: WhyUnread::OtherCapitals,
        });
    } else if is_ron_by_mistake(&shown) {
        unread.push(Unread {
            path,
            why: WhyUnread::OtherEnding,
        });
    } else if !is_ron(&shown) {
        let pages = names_in(&folder.join(&path)).into_iter();
        let pages = pages.filter(|name| inside && is_ron(name));
        unread.extend(pages.map(|page| Unread {
            path: format!("{path}/{page}"),
            why: WhyUnread::TooDeep,
        }));
    } else if name.to_str().is_none() {
        unread.push(Unread {
            path,
            why: WhyUnread::NameNotUtf8,
        });
    } else {
        paths.push(path);
    }
}

/// Whether a name is one we read. Hidden files are skipped before; what editors leave behind (`x.ron~`, `.x.ron.swp`,
/// `#x.ron#`) does not end so.
pub(super) fn is_ron(name: &str) -> bool {
    let ending = name.rsplit_once('.').map(|(_, ending)| ending);
    ending.is_some_and(|ending| ending.eq_ignore_ascii_case("ron"))
}

/// Whether an editor has put its own ending after ours.
pub(super) fn is_ron_by_mistake(name: &str) -> bool {
    const ENDINGS: [&str; 4] = ["txt", "text", "rtf", "doc"];
    let (name, ending) = name.rsplit_once('.').unwrap_or((name, ""));
    is_ron(name)
        && ENDINGS
            .iter()
            .any(|other| ending.eq_ignore_ascii_case(other))
}

/// Whether a page, or the folder of the crosses with pages in it, has its name but for capitals, as one made on a system that
/// takes both for one name may have.
fn is_misspelt(folder: &Path, name: &str) -> bool {
    let holds_ron = || names_in(&folder.join(name)).iter().any(|name| is_ron(name));
    let is_page = |page: &&str| name.eq_ignore_ascii_case(page) && name != *page;
    PAGES.iter().any(is_page) || name.eq_ignore_ascii_case(CROSSES) && holds_ron()
}

/// The file outside a registry's folder to which the path of one of its pages leads through links.
pub fn leads_out(folder: &Path, page: &str) -> Option<PathBuf> {
    let (folder, file) = (
        folder.canonicalize().ok()?,
        folder.join(page).canonicalize().ok()?,
    );
    (!file.starts_with(folder)).then_some(file)
}

/// The names in a folder, in the order of their bytes; none when it is not there or cannot be listed.
pub fn names_in(folder: &Path) -> Vec<String> {
    listed_names(folder).unwrap_or_default()
}

/// The names in a folder, in the order of their bytes; none when it is not there.
///
/// # Errors
/// Why it could not be listed.
pub fn listed_names(folder: &Path) -> Result<Vec<String>, WhyUnread> {
    let entries = match fs::read_dir(folder) {
        Err(fault) if fault.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        entries => entries.map_err(|fault| refusal(folder, &fault))?,
    };
    let names = entries.flatten();
    let names = names.filter_map(|entry| entry.file_name().into_string().ok());
    let mut names: Vec<String> = names.collect();
    names.sort_unstable();
    Ok(names)
}

/// Reads one file outside the registry as UTF-8, without a byte-order mark.
///
/// # Errors
/// Why it could not be read.
pub fn read_plain(path: &Path) -> Result<String, WhyUnread> {
    read_plain_up_to(path, LONGEST_PAGE)
}

/// The same of a file of at most so many bytes.
///
/// # Errors
/// Why it could not be read.
pub fn read_plain_up_to(path: &Path, most: u64) -> Result<String, WhyUnread> {
    let text = read_text_up_to(path, most)?;
    let unmarked = text.strip_prefix('\u{feff}').map(str::to_owned);
    Ok(unmarked.unwrap_or(text))
}

/// Reads one file as UTF-8, refusing what is no file before opening it (a pipe would never end).
pub(super) fn read_text(path: &Path) -> Result<String, WhyUnread> {
    read_text_up_to(path, LONGEST_PAGE)
}

fn read_text_up_to(path: &Path, most: u64) -> Result<String, WhyUnread> {
    let about = fs::metadata(path).map_err(|fault| refusal(path, &fault))?;
    if about.is_dir() {
        return Err(WhyUnread::Folder);
    } else if !about.is_file() {
        return Err(WhyUnread::NotAFile);
    }
    refuse_large(about.len(), most)?;
    let bytes = fs::read(path).map_err(|fault| refusal(path, &fault))?;
    refuse_large(bytes.len() as u64, most)?;
    String::from_utf8(bytes)
        .map_err(|fault| not_utf8(fault.as_bytes(), fault.utf8_error().valid_up_to()))
}

/// Reads a file of a folder, such as a photo a record names, of at most so many bytes.
///
/// # Errors
/// As [`beside`], or if it is larger.
pub fn read_beside(folder: &Path, file: &str, most: u64) -> Result<Vec<u8>, WhyUnread> {
    let (path, bytes) = beside(folder, file)?;
    refuse_large(bytes, most)?;
    fs::read(&path).map_err(|fault| refusal(&path, &fault))
}

/// A file of a folder that a record names, with its length in bytes.
///
/// # Errors
/// Why it could not be read; a path that leads out of the folder names no file of it.
pub fn beside(folder: &Path, file: &str) -> Result<(PathBuf, u64), WhyUnread> {
    let inside = Path::new(file).components().all(|part| {
        matches!(
            part,
            std::path::Component::Normal(_) | std::path::Component::CurDir
        )
    });
    let path = folder.join(file);
    let real = |path: &Path| fs::canonicalize(path).map_err(|fault| refusal(path, &fault));
    if !inside || !real(&path)?.starts_with(real(folder)?) {
        return Err(WhyUnread::NotAFile);
    }
    let about = fs::metadata(&path).map_err(|fault| refusal(&path, &fault))?;
    if !about.is_file() {
        return Err(WhyUnread::NotAFile);
    }
    Ok((path, about.len()))
}

/// A page of 250,000 seedlings is no longer. What a page takes in memory is a multiple of its length, up to some fifty
/// times where it holds little but brackets, so that this bounds the whole.
pub const LONGEST_PAGE: u64 = 16 << 20;

fn refuse_large(bytes: u64, most: u64) -> Result<(), WhyUnread> {
    if bytes > most {
        Err(WhyUnread::TooLarge { bytes, most })
    } else {
        Ok(())
    }
}

/// How packed workbooks begin (the local file header of the ZIP format), and the older kind (compound file binary).
const WORKBOOKS: [&[u8]; 2] = [
    b"PK\x03\x04",
    &[0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1],
];

fn not_utf8(bytes: &[u8], offset: usize) -> WhyUnread {
    if WORKBOOKS.iter().any(|head| bytes.starts_with(head)) {
        return WhyUnread::Spreadsheet;
    }
    let breaks = bytes[..offset]
        .iter()
        .filter(|byte| **byte == b'\n')
        .count();
    WhyUnread::NotUtf8 {
        offset: offset as u64,
        line: breaks as u64 + 1,
        utf16: bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]),
    }
}

/// The system's refusal in our words, where we can tell.
fn refusal(path: &Path, fault: &io::Error) -> WhyUnread {
    let link = fs::symlink_metadata(path).is_ok_and(|about| about.is_symlink());
    match fault.kind() {
        io::ErrorKind::PermissionDenied => WhyUnread::Forbidden,
        io::ErrorKind::NotFound if link => WhyUnread::LinkBroken,
        // As `files_below` lists a name that no text can hold.
        io::ErrorKind::NotFound if path.to_string_lossy().contains('\u{fffd}') => {
            WhyUnread::NameNotUtf8
        }
        io::ErrorKind::NotFound => WhyUnread::Gone,
        _ if link && fs::metadata(path).is_err() => WhyUnread::LinkCircle,
        _ => WhyUnread::System(system_words(fault)),
    }
}
