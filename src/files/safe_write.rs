//! Writing a file so that a failure at any moment leaves the old one whole.
//!
//! The new bytes go to a file beside the target, are pushed to the disk, and only then take its name; what stood
//! there before is kept beside it. Knows no format.

use std::ffi::OsString;
use std::fs::{self, File, Permissions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

use super::FileError;

/// Links that are followed one after another before a ring of them is assumed.
const MOST_LINKS: usize = 32;

/// Writes `bytes` to `path`, keeping what stood there as [`previous_path`]. The same bytes once more change nothing.
///
/// # Errors
/// Folder missing, not writable, disk full, a folder of that name …; the old file is then as it was.
pub fn write_safely(path: &Path, bytes: &[u8]) -> Result<(), FileError> {
    let name = path.display().to_string();
    let told = |error: io::Error| writing_error(&name, &error);
    let target = followed(path).map_err(told)?;
    let old = match fs::metadata(&target) {
        Ok(old) => Some(old),
        Err(error) if error.kind() == io::ErrorKind::NotFound => None,
        Err(error) => return Err(told(error)),
    };
    if let Some(old) = &old {
        refuse_unfit(&name, old)?;
        if fs::read(&target).is_ok_and(|there| there == bytes) {
            return Ok(());
        }
    }
    let folder = folder_of(&target);
    let fresh = written_beside(&folder, bytes, old.as_ref().map(fs::Metadata::permissions))
        .map_err(told)?;
    if old.is_some() {
        keep_previous(&target, &folder).map_err(|error| {
            FileError::new(
                &name,
                format!(
                    "the earlier copy could not be kept as {} ({error})",
                    previous_path(&target).display()
                ),
                "move that file away, or save under another name",
            )
        })?;
    }
    fresh.persist(&target).map_err(|error| told(error.error))?;
    // The name itself must reach the disk too; a file system that cannot do so has still written the file.
    if let Ok(folder) = File::open(&folder) {
        drop(folder.sync_all());
    }
    Ok(())
}

/// Where the version before the last save is kept: `farm.ron` beside `farm.previous.ron`.
pub fn previous_path(path: &Path) -> PathBuf {
    let mut name: OsString = path.file_stem().unwrap_or_default().to_owned();
    name.push(".previous");
    if let Some(ending) = path.extension() {
        name.push(".");
        name.push(ending);
    }
    path.with_file_name(name)
}

/// The file that a chain of links leads to, whether or not it is there yet.
fn followed(path: &Path) -> io::Result<PathBuf> {
    let mut target = path.to_owned();
    for _ in 0..MOST_LINKS {
        let is_link = fs::symlink_metadata(&target).is_ok_and(|known| known.is_symlink());
        if !is_link {
            return Ok(target);
        }
        // A link may be relative to the folder it lies in.
        target = folder_of(&target).join(fs::read_link(&target)?);
    }
    Err(io::Error::other("links lead round in a ring"))
}

fn refuse_unfit(name: &str, old: &fs::Metadata) -> Result<(), FileError> {
    let refusal = |cause: &str, remedy: &str| Err(FileError::new(name, cause, remedy));
    if old.is_dir() {
        return refusal(
            "there is a folder of this name",
            "choose another name; nothing was written",
        );
    }
    if !old.is_file() {
        return refusal(
            "this is not an ordinary file",
            "choose another name; nothing was written",
        );
    }
    if old.permissions().readonly() {
        return refusal(
            "the file is marked as not to be changed",
            "save under another name, or allow writing in the file's properties; nothing was written",
        );
    }
    Ok(())
}

fn folder_of(path: &Path) -> PathBuf {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.to_owned(),
        _ => PathBuf::from("."),
    }
}

/// A file without a lasting name in `folder`, its bytes on the disk; it is removed again unless it is given a name.
fn written_beside(
    folder: &Path,
    bytes: &[u8],
    permissions: Option<Permissions>,
) -> io::Result<NamedTempFile> {
    let mut file = new_file_in(folder)?;
    file.write_all(bytes)?;
    if let Some(permissions) = permissions {
        file.as_file().set_permissions(permissions)?;
    }
    file.as_file().sync_all()?;
    Ok(file)
}

fn new_file_in(folder: &Path) -> io::Result<NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".foldcourse-").suffix(".part");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // As any new file of this person; the system takes off what they do not give to others.
        builder.permissions(Permissions::from_mode(0o666));
    }
    builder.tempfile_in(folder)
}

/// Gives the old file its second name while it keeps its first, so that it is never missing.
fn keep_previous(target: &Path, folder: &Path) -> io::Result<()> {
    let previous = previous_path(target);
    let second_name = new_file_in(folder)?.into_temp_path();
    fs::remove_file(&second_name)?;
    if fs::hard_link(target, &second_name).is_err() {
        // Sticks and shares without links get a copy.
        fs::copy(target, &second_name)?;
        File::open(&second_name)?.sync_all()?;
    }
    second_name.persist(previous).map_err(|error| error.error)
}

fn writing_error(name: &str, error: &io::Error) -> FileError {
    let (cause, remedy) = match error.kind() {
        io::ErrorKind::NotFound => (
            "there is no such folder".to_owned(),
            "make the folder first, or choose another",
        ),
        io::ErrorKind::PermissionDenied | io::ErrorKind::ReadOnlyFilesystem => (
            "nothing may be written in this folder".to_owned(),
            "choose a folder of your own",
        ),
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => (
            "the disk is full".to_owned(),
            "make room, or choose another disk",
        ),
        io::ErrorKind::NotADirectory => (
            "a part of this path is a file, not a folder".to_owned(),
            "choose another folder",
        ),
        io::ErrorKind::InvalidFilename => (
            "the name is too long or holds a sign that this disk does not allow".to_owned(),
            "choose a shorter, plainer name",
        ),
        _ => (
            format!("the file could not be written ({error})"),
            "choose another folder or disk",
        ),
    };
    FileError::new(
        name,
        cause,
        format!("{remedy}; what was there before is untouched"),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_full_disk_is_told_in_words() {
        for kind in [io::ErrorKind::StorageFull, io::ErrorKind::QuotaExceeded] {
            let told = writing_error("farm.ron", &io::Error::from(kind)).to_string();
            assert_eq!(
                told,
                "farm.ron: the disk is full; make room, or choose another disk; what was there before is untouched"
            );
        }
    }

    #[test]
    fn the_previous_version_lies_beside_with_the_same_ending() {
        let kept = |path: &str| previous_path(Path::new(path));
        assert_eq!(kept("a/farm.ron"), Path::new("a/farm.previous.ron"));
        assert_eq!(kept("farm"), Path::new("farm.previous"));
        assert_eq!(kept("a.b/x.y.ron"), Path::new("a.b/x.y.previous.ron"));
    }
}
