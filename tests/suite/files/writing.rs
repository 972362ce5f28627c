//! Saving and opening on a real disk: nothing is ever lost, and every failure is told.

use std::fs;
use std::path::Path;

use foldcourse::files::{
    FileError, LARGEST_FILE_BYTES, open_farm, previous_path, save_farm, write_safely,
};

use super::sample::full_farm;

fn names_in(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

#[track_caller]
fn check_words(error: &FileError, words: &[&str]) {
    let line = error.to_string();
    assert!(!line.contains('\n'), "{line}");
    for word in words {
        assert!(line.contains(word), "\"{word}\" is missing in: {line}");
    }
}

#[test]
fn the_version_before_is_kept_beside() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("farm.ron");
    for text in ["first", "second", "third", "third"] {
        write_safely(&path, text.as_bytes()).unwrap();
    }
    assert_eq!(fs::read_to_string(&path).unwrap(), "third");
    assert_eq!(
        fs::read_to_string(previous_path(&path)).unwrap(),
        "second",
        "saving the same again keeps it"
    );
    assert_eq!(names_in(folder.path()), ["farm.previous.ron", "farm.ron"]);
}

#[test]
fn a_missing_folder_a_folder_and_a_file_for_a_folder_are_told() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("file");
    fs::write(&file, "x").unwrap();
    let save = |path: &Path| save_farm(&full_farm(), path).unwrap_err();
    check_words(
        &save(&folder.path().join("none/farm.ron")),
        &["none/farm.ron", "no such folder", "make the folder first"],
    );
    check_words(
        &save(folder.path()),
        &["there is a folder of this name", "choose another name"],
    );
    check_words(&save(&file.join("farm.ron")), &["a file, not a folder"]);
    check_words(
        &save(&folder.path().join("x".repeat(300))),
        &["name is too long"],
    );
    assert_eq!(names_in(folder.path()), ["file"], "nothing was left behind");
}

#[test]
fn what_cannot_be_opened_is_told() {
    let folder = tempfile::tempdir().unwrap();
    check_words(
        &open_farm(&folder.path().join("gone.ron")).unwrap_err(),
        &["gone.ron", "no such file", "moved or renamed"],
    );
    check_words(
        &open_farm(folder.path()).unwrap_err(),
        &["a folder, not a file"],
    );
    let binary = folder.path().join("picture.png");
    fs::write(&binary, b"\x89PNG\r\n\x1a\n\0\0").unwrap();
    check_words(
        &open_farm(&binary).unwrap_err(),
        &["picture.png, line 1", "not a text file"],
    );
    let empty = folder.path().join("empty.ron");
    fs::write(&empty, b"\xef\xbb\xbf").unwrap();
    check_words(
        &open_farm(&empty).unwrap_err(),
        &["the file is empty", ".previous.ron"],
    );
}

#[test]
fn a_huge_file_is_refused_by_its_size_alone() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("huge.ron");
    let file = fs::File::create(&path).unwrap();
    // Takes no room on the disk: the bytes are never read.
    file.set_len(200 * 1024 * 1024).unwrap();
    let begun = std::time::Instant::now();
    check_words(
        &open_farm(&path).unwrap_err(),
        &["too large", "200 MB", "64 MB is the most"],
    );
    assert!(begun.elapsed().as_millis() < 500);
    file.set_len(LARGEST_FILE_BYTES).unwrap();
    check_words(&open_farm(&path).unwrap_err(), &["not a saved farm"]);
}

#[cfg(unix)]
mod unix {
    use std::os::unix::fs::{PermissionsExt, symlink};

    use super::*;

    #[test]
    fn permissions_and_links_are_kept() {
        let folder = tempfile::tempdir().unwrap();
        let other = folder.path().join("shared");
        fs::create_dir(&other).unwrap();
        let real = other.join("real.ron");
        write_safely(&real, b"old").unwrap();
        fs::set_permissions(&real, fs::Permissions::from_mode(0o664)).unwrap();
        let link = folder.path().join("farm.ron");
        symlink("shared/real.ron", &link).unwrap();
        write_safely(&link, b"new").unwrap();
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(fs::read(&real).unwrap(), b"new");
        assert_eq!(
            fs::metadata(&real).unwrap().permissions().mode() & 0o777,
            0o664
        );
        assert_eq!(fs::read(previous_path(&real)).unwrap(), b"old");
        assert_eq!(names_in(folder.path()), ["farm.ron", "shared"]);
    }

    #[test]
    fn a_link_to_a_file_not_yet_there_makes_it_and_a_ring_of_links_is_told() {
        let folder = tempfile::tempdir().unwrap();
        let link = folder.path().join("farm.ron");
        symlink("real.ron", &link).unwrap();
        write_safely(&link, b"new").unwrap();
        assert_eq!(fs::read(folder.path().join("real.ron")).unwrap(), b"new");
        let ring = folder.path().join("ring.ron");
        symlink("ring.ron", &ring).unwrap();
        check_words(
            &write_safely(&ring, b"x").unwrap_err(),
            &["links lead round in a ring"],
        );
    }

    #[test]
    fn a_file_marked_as_not_to_be_changed_is_left_alone() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("farm.ron");
        write_safely(&path, b"old").unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o444)).unwrap();
        check_words(
            &write_safely(&path, b"new").unwrap_err(),
            &["not to be changed", "nothing was written"],
        );
        assert_eq!(fs::read(&path).unwrap(), b"old");
        assert_eq!(names_in(folder.path()), ["farm.ron"]);
    }

    #[test]
    fn a_folder_that_takes_nothing_is_told_and_the_old_file_stays() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("farm.ron");
        write_safely(&path, b"old").unwrap();
        fs::set_permissions(folder.path(), fs::Permissions::from_mode(0o555)).unwrap();
        if fs::write(folder.path().join("probe"), b"").is_ok() {
            eprintln!(
                "skipped: this person may write everywhere, so a closed folder cannot be tried"
            );
            return;
        }
        let told = write_safely(&path, b"new").unwrap_err();
        fs::set_permissions(folder.path(), fs::Permissions::from_mode(0o755)).unwrap();
        check_words(
            &told,
            &["nothing may be written in this folder", "untouched"],
        );
        assert_eq!(fs::read(&path).unwrap(), b"old");
        assert_eq!(names_in(folder.path()), ["farm.ron"]);
    }

    #[test]
    fn a_device_is_no_farm() {
        check_words(
            &open_farm(Path::new("/dev/zero")).unwrap_err(),
            &["not an ordinary file"],
        );
        check_words(
            &write_safely(Path::new("/dev/null"), b"x").unwrap_err(),
            &["not an ordinary file"],
        );
    }
}
