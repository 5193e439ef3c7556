//! A folder of new texts: whole or not at all, and nothing written over.

use podbook::text::{NoFolder, new_folder};
use std::fs;
use std::path::Path;

const TEXTS: [(&str, &[u8]); 3] = [
    ("crosses/page.txt", b"page"),
    ("clones.ron", b"clones"),
    ("registry.ron", b"registry"),
];

/// Every path under a folder, sorted, and whether it is hidden is no matter.
fn all_under(folder: &Path) -> Vec<String> {
    let mut found = Vec::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(next) = open.pop() {
        for entry in fs::read_dir(&next).unwrap() {
            let path = entry.unwrap().path();
            found.push(
                path.strip_prefix(folder)
                    .unwrap()
                    .to_string_lossy()
                    .replace('\\', "/"),
            );
            if path.is_dir() {
                open.push(path);
            }
        }
    }
    found.sort();
    found
}

const WHOLE: [&str; 4] = ["clones.ron", "crosses", "crosses/page.txt", "registry.ron"];

#[test]
fn a_new_folder_is_made_with_all_above_it() {
    let scratch = tempfile::tempdir().unwrap();
    // Some systems take no such name.
    let quoted = (!cfg!(windows)).then_some("it's \"mine\"");
    let names = ["plants", "two words", "Kännchen ♀ 豬籠草", "a/b/c", "-x"];
    for name in names.into_iter().chain(quoted) {
        let folder = scratch.path().join(name);
        new_folder(&folder, &TEXTS).unwrap();
        assert_eq!(all_under(&folder), WHOLE, "{name}");
        assert_eq!(
            fs::read_to_string(folder.join("crosses/page.txt")).unwrap(),
            "page"
        );
    }
    assert!(
        all_under(scratch.path())
            .iter()
            .all(|path| !path.contains(".podbook")),
        "something was left behind"
    );
}

#[test]
fn an_empty_folder_is_filled_where_it_is() {
    let scratch = tempfile::tempdir().unwrap();
    new_folder(scratch.path(), &TEXTS).unwrap();
    assert_eq!(all_under(scratch.path()), WHOLE);
}

#[test]
fn a_folder_that_holds_anything_is_left_alone() {
    for there in ["notes.txt", ".hidden", "registry.ron"] {
        let scratch = tempfile::tempdir().unwrap();
        fs::write(scratch.path().join(there), "mine").unwrap();
        assert_eq!(
            new_folder(scratch.path(), &TEXTS),
            Err(NoFolder::NotEmpty(there.into()))
        );
        assert_eq!(all_under(scratch.path()), [there]);
        assert_eq!(
            fs::read_to_string(scratch.path().join(there)).unwrap(),
            "mine"
        );
    }
}

#[test]
fn a_second_time_is_refused() {
    let scratch = tempfile::tempdir().unwrap();
    let folder = scratch.path().join("plants");
    new_folder(&folder, &TEXTS).unwrap();
    assert_eq!(
        new_folder(&folder, &TEXTS),
        Err(NoFolder::NotEmpty("clones.ron".into()))
    );
}

#[test]
fn a_file_of_that_name_is_left_alone() {
    let scratch = tempfile::tempdir().unwrap();
    let file = scratch.path().join("plants");
    fs::write(&file, "mine").unwrap();
    assert_eq!(new_folder(&file, &TEXTS), Err(NoFolder::AFile));
    assert!(matches!(
        new_folder(&file.join("inside"), &TEXTS),
        Err(NoFolder::System(_))
    ));
    assert_eq!(fs::read_to_string(&file).unwrap(), "mine");
}

#[cfg(unix)]
mod unix {
    use super::*;
    use std::os::unix::fs::{PermissionsExt, symlink};

    #[test]
    fn a_link_to_nothing_is_refused_and_one_to_an_empty_folder_filled() {
        let scratch = tempfile::tempdir().unwrap();
        symlink(
            scratch.path().join("nowhere"),
            scratch.path().join("broken"),
        )
        .unwrap();
        assert_eq!(
            new_folder(&scratch.path().join("broken"), &TEXTS),
            Err(NoFolder::LinkBroken)
        );
        fs::create_dir(scratch.path().join("real")).unwrap();
        symlink(scratch.path().join("real"), scratch.path().join("link")).unwrap();
        new_folder(&scratch.path().join("link"), &TEXTS).unwrap();
        assert_eq!(all_under(&scratch.path().join("real")), WHOLE);
    }

    #[test]
    fn files_and_folder_are_open_to_whom_any_new_ones_are() {
        let scratch = tempfile::tempdir().unwrap();
        fs::create_dir(scratch.path().join("any")).unwrap();
        fs::write(scratch.path().join("any.txt"), "").unwrap();
        new_folder(&scratch.path().join("plants"), &TEXTS).unwrap();
        let mode = |path: &str| {
            fs::metadata(scratch.path().join(path))
                .unwrap()
                .permissions()
                .mode()
        };
        assert_eq!(mode("plants"), mode("any"));
        assert_eq!(mode("plants/crosses"), mode("any"));
        assert_eq!(mode("plants/registry.ron"), mode("any.txt"));
    }
}
