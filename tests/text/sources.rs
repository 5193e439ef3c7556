//! Reading a folder, and places in texts.

use std::fs;
use std::path::Path;

use podbook::text::{FileId, Place, Source, Sources, Span, WhyUnread, find_registry};
use proptest::prelude::*;

fn folder(files: &[(&str, &[u8])]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (path, bytes) in files {
        let path = folder.path().join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
    folder
}

fn paths(sources: &Sources) -> Vec<&str> {
    sources
        .iter()
        .map(|(_, source)| source.path.as_str())
        .collect()
}

#[test]
fn the_files_of_a_registry_are_read_in_order_of_path() {
    let folder = folder(&[
        ("registry.ron", b"()"),
        ("species.ron", b"[]"),
        ("clones.ron", b"[]"),
        ("Zoo.RON", b"[]"),
        ("crosses/2023.ron", b"[1]"),
        ("crosses/2024.ron", b"[2]"),
        ("crosses.ron", b"[]"),
        ("crosses/.hidden.ron", b"x"),
        (".#clones.ron", b"x"),
        ("clones.ron~", b"x"),
        (".clones.ron.swp", b"x"),
        ("#clones.ron#", b"x"),
        ("notes.txt", b"x"),
        ("photos/a.ron", b"x"),
        ("crosses/notes/readme.txt", b"x"),
    ]);
    let sources = Sources::read(folder.path());
    let expected = [
        "Zoo.RON",
        "clones.ron",
        "crosses.ron",
        "crosses/2023.ron",
        "crosses/2024.ron",
        "registry.ron",
        "species.ron",
    ];
    assert_eq!(paths(&sources), expected);
    assert_eq!(sources.unread(), []);
    let file = sources.find("crosses/2024.ron").unwrap();
    assert_eq!((file, sources.text(file)), (FileId(4), "[2]"));
}

#[test]
fn marks_and_line_endings_are_kept() {
    let folder = folder(&[("a.ron", "\u{feff}(\r\n)\r\n".as_bytes()), ("b.ron", b"")]);
    let sources = Sources::read(folder.path());
    let source = sources.get(FileId(0));
    assert_eq!((source.text.as_str(), source.marked), ("(\r\n)\r\n", true));
    assert_eq!(
        (sources.text(FileId(1)), sources.get(FileId(1)).marked),
        ("", false)
    );
}

#[test]
fn what_is_not_utf8_is_left_out_and_told() {
    let utf16: Vec<u8> = [0xff, 0xfe]
        .into_iter()
        .chain("[]".encode_utf16().flat_map(u16::to_le_bytes))
        .collect();
    let folder = folder(&[
        ("a.ron", b"[\n\"\xe9\"]"),
        ("b.ron", &utf16),
        ("c.ron", b"[]"),
    ]);
    let sources = Sources::read(folder.path());
    assert_eq!(paths(&sources), ["c.ron"]);
    let why: Vec<_> = sources
        .unread()
        .iter()
        .map(|unread| (unread.path.as_str(), unread.why.clone()))
        .collect();
    let at = |offset, line, utf16| WhyUnread::NotUtf8 {
        offset,
        line,
        utf16,
    };
    assert_eq!(why, [("a.ron", at(3, 2, false)), ("b.ron", at(0, 1, true))]);
}

#[test]
fn a_folder_that_is_not_there_is_told() {
    let sources = Sources::read(Path::new("nowhere/at/all"));
    assert!(sources.is_empty());
    assert_eq!(sources.unread()[0].path, ".");
}

#[cfg(unix)]
#[test]
fn links_folders_and_pipes_are_told() {
    use std::os::unix::ffi::OsStrExt;
    use std::os::unix::fs::symlink;
    let folder = folder(&[
        ("a.ron", b"[]"),
        ("x.ron/y.txt", b""),
        ("crosses/deep/z.ron", b""),
        ("Crosses/X1.ron", b"[]"),
        ("CROSSES/note.txt", b""),
        ("Clones.ron", b"()"),
    ]);
    let at = |name: &str| folder.path().join(name);
    symlink("loop-b.ron", at("loop-a.ron")).unwrap();
    symlink("loop-a.ron", at("loop-b.ron")).unwrap();
    symlink("gone.txt", at("broken.ron")).unwrap();
    symlink("a.ron", at("same.ron")).unwrap();
    symlink("/dev/zero", at("zero.ron")).unwrap();
    fs::write(
        folder.path().join(std::ffi::OsStr::from_bytes(b"\xff.ron")),
        "[]",
    )
    .unwrap();
    let socket = std::os::unix::net::UnixListener::bind(at("socket.ron")).unwrap();
    let sources = Sources::read(folder.path());
    drop(socket);
    assert_eq!(paths(&sources), ["a.ron", "same.ron"]);
    let why: Vec<_> = sources
        .unread()
        .iter()
        .map(|unread| (unread.path.as_str(), unread.why.clone()))
        .collect();
    use WhyUnread::*;
    let expected = [
        ("Clones.ron", OtherCapitals),
        ("Crosses", OtherCapitals),
        ("broken.ron", LinkBroken),
        ("crosses/deep/z.ron", TooDeep),
        ("loop-a.ron", LinkCircle),
        ("loop-b.ron", LinkCircle),
        ("socket.ron", NotAFile),
        ("x.ron", Folder),
        ("zero.ron", NotAFile),
        ("\u{fffd}.ron", NameNotUtf8),
    ];
    assert_eq!(why, expected);
}

/// A sparse file takes no room on disk; it is refused before it is read.
#[cfg(unix)]
#[test]
fn a_file_of_more_than_16_mebibytes_is_refused() {
    let folder = folder(&[]);
    let file = fs::File::create(folder.path().join("big.ron")).unwrap();
    if file.set_len(1 << 32).is_err() {
        return; // this file system cannot hold one
    }
    let sources = Sources::read(folder.path());
    assert_eq!(
        sources.unread()[0].why,
        WhyUnread::TooLarge {
            bytes: 1 << 32,
            most: 16 << 20
        }
    );
    file.set_len((16 << 20) + 1).unwrap();
    let sources = Sources::read(folder.path());
    let bytes = (16 << 20) + 1;
    assert_eq!(
        sources.unread()[0].why,
        WhyUnread::TooLarge {
            bytes,
            most: 16 << 20
        }
    );
    file.set_len(16 << 20).unwrap();
    assert_eq!(Sources::read(folder.path()).unread(), []);
}

#[test]
fn many_files_come_in_the_same_order_each_time() {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("crosses")).unwrap();
    for number in 0..2000 {
        fs::write(
            folder.path().join(format!("crosses/{number}.ron")),
            format!("({number})"),
        )
        .unwrap();
    }
    let sources = Sources::read(folder.path());
    let read: Vec<_> = sources
        .iter()
        .map(|(_, source)| (source.path.clone(), source.text.clone()))
        .collect();
    assert!(read.len() == 2000 && read.is_sorted());
    assert!(
        read.iter()
            .all(|(path, text)| *path == format!("crosses/{}.ron", &text[1..text.len() - 1]))
    );
}

#[test]
fn the_registry_is_the_nearest_folder_upward() {
    let folder = folder(&[
        ("registry.ron", b"()"),
        ("inner/registry.ron", b"()"),
        ("crosses/deep/x.ron", b""),
    ]);
    let root = folder.path().canonicalize().unwrap();
    assert_eq!(find_registry(&root), Some(root.clone()));
    assert_eq!(
        find_registry(&root.join("crosses/deep")),
        Some(root.clone())
    );
    assert_eq!(find_registry(&root.join("inner")), Some(root.join("inner")));
    assert_eq!(find_registry(&root.join("absent")), None);
}

#[test]
fn places_count_lines_and_characters_from_one() {
    let mut sources = Sources::new();
    let file = sources.add("a.ron", "é種\r\n\tx\n\nlast");
    let place = |start| {
        let Place { line, column, .. } = sources.locate(Span::at(file, start));
        (line, column)
    };
    let offsets = [
        (0, (1, 1)),
        (2, (1, 2)),
        (5, (1, 3)),
        (7, (2, 1)),
        (8, (2, 2)),
        (10, (3, 1)),
        (11, (4, 1)),
        (15, (4, 5)),
    ];
    for (offset, expected) in offsets {
        assert_eq!(place(offset), expected, "at {offset}");
    }
    assert_eq!(
        place(1),
        (1, 1),
        "within a character counts as that character"
    );
    assert_eq!(place(999), (4, 5), "past the end counts as the end");
    assert_eq!(sources.locate(Span::at(file, 0)).path, "a.ron");
    let source = sources.get(file);
    assert_eq!(
        (
            source.line(1),
            source.line(2),
            source.line(3),
            source.line(9)
        ),
        ("é種", "\tx", "", "")
    );
}

#[test]
fn a_borrowed_slice_tells_its_place() {
    let mut sources = Sources::new();
    let file = sources.add("a.ron", "(id: \"vei-1\", seed: \"vei-1\")");
    let other = sources.add("b.ron", "vei-1");
    let text = sources.text(file);
    let second = &text[21..26];
    let span = sources.span_of(file, second).unwrap();
    assert_eq!(
        (span, &text[span.range()]),
        (Span::new(file, 21..26), "vei-1")
    );
    assert_eq!(
        sources.span_of(file, &text[text.len()..]),
        Some(Span::at(file, text.len() as u32))
    );
    assert_eq!(sources.span_of(other, second), None);
    assert_eq!(sources.span_of(file, &String::from("vei-1")), None);
}

proptest! {
    /// Counted the slow way they are the same.
    #[test]
    fn line_and_column_of_every_offset(text in "[a種\r\n\t]{0,60}") {
        let source = Source::new("a.ron", text.clone());
        for (offset, _) in text.char_indices().chain([(text.len(), ' ')]) {
            let (line, column) = source.line_column(offset as u32);
            let before = &text[..offset];
            prop_assert_eq!(line as usize, before.matches('\n').count() + 1);
            let in_line = before.rsplit('\n').next().unwrap();
            prop_assert_eq!(column as usize, in_line.chars().count() + 1);
        }
    }
}

#[test]
fn the_system_refuses_in_words_without_numbers() {
    use std::io::{Error, ErrorKind};
    let words = |fault: Error| podbook::text::system_words(&fault);
    assert_eq!(
        words(ErrorKind::PermissionDenied.into()),
        "permission denied"
    );
    assert_eq!(
        words(ErrorKind::NotFound.into()),
        "no such file or directory"
    );
    // As one system words it: a sentence of its own.
    let said = "The device is not ready. (os error 21)";
    assert_eq!(words(Error::other(said)), "the device is not ready");
    if cfg!(unix) {
        assert_eq!(words(Error::from_raw_os_error(13)), "permission denied");
        assert_eq!(
            words(Error::from_raw_os_error(28)),
            "no space left on device"
        );
    }
}

#[test]
fn a_file_that_is_gone_is_told_in_words() {
    let why = podbook::text::read_plain(Path::new("nowhere/x.ron")).expect_err("it is not there");
    assert_eq!(why, WhyUnread::Gone);
    let unread = podbook::text::Unread {
        path: "x.ron".into(),
        why,
    };
    let finding = podbook::diagnostic::Finding::from(&unread);
    assert_eq!(finding.code.0, "unreadable-file");
    assert!(
        finding
            .found
            .contains("was there when the folder was listed")
    );
}

/// What stands at a place is found by it, in lines of any length and of any letters.
#[test]
fn columns_in_a_line_of_many_blocks_count_letters() {
    let line: String = "aé種🌿".chars().cycle().take(20_000).collect();
    let source = Source::new("x.ron", format!("first\n{line}\nlast"));
    for letters in [0, 1, 2, 4095, 4096, 9999, 19_999, 20_000] {
        let bytes: usize = line.chars().take(letters).map(char::len_utf8).sum();
        let offset = 6 + bytes as u32;
        assert_eq!(source.line_column(offset), (2, letters as u32 + 1));
    }
    let whole = Source::new("x.ron", "é".repeat(4096));
    assert_eq!(whole.line_column(8192), (1, 4097));
}

#[test]
fn what_a_stopped_run_left_behind_is_told_unless_it_is_held_or_the_growers() {
    let left = ".podbook-Xq3TzA0cW9mKfe7R.part";
    let held = ".podbook-Yq3TzA0cW9mKfe7R.part";
    let folder = folder(&[
        ("registry.ron", b"()"),
        (left, b"half a te"),
        (held, b"being written"),
        (".podbook-notes.part", b"mine"),
        (".podbook-Xq3TzA0cW9mKfe7R.ron", b"mine"),
        (".podbook-Xq3TzA0cW9mKfe7R.part~", b"mine"),
        (".podbook-Xq3TzA0cW9mK_e7R.part", b"mine"),
    ]);
    fs::create_dir(folder.path().join(".podbook-Zq3TzA0cW9mKfe7R.part")).unwrap();
    let hold = fs::File::open(folder.path().join(held)).unwrap();
    hold.lock().unwrap();
    let sources = Sources::read(folder.path());
    let told: Vec<&str> = sources.unread().iter().map(|u| u.path.as_str()).collect();
    assert_eq!(told, [left]);
    assert_eq!(sources.unread()[0].why, WhyUnread::LeftBehind);
    let outlet = podbook::text::Outlet::of(&folder.path().join("answer.txt"), None).unwrap();
    outlet.save(b"x").unwrap();
    let mut there: Vec<String> = fs::read_dir(folder.path())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    there.sort();
    assert_eq!(
        there,
        [
            ".podbook-Xq3TzA0cW9mK_e7R.part",
            ".podbook-Xq3TzA0cW9mKfe7R.part~",
            ".podbook-Xq3TzA0cW9mKfe7R.ron",
            held,
            ".podbook-Zq3TzA0cW9mKfe7R.part",
            ".podbook-notes.part",
            "answer.txt",
            "registry.ron",
        ]
    );
}
