//! Opening, saving, importing, exporting, closing: with a question before unsaved work is left behind.
//!
//! Files are read and written by `files`; a failed act leaves the open farm as it was.

use std::path::{Path, PathBuf};

use super::desk::Desk;
use super::dialogs::{After, Dialog};
use super::file_chooser::ChoosingFor;
use super::taping;
use crate::farm::{Edit, Farm, GroundId};
use crate::files;
use crate::geometry::{GroundFrame, LonLat};

/// Asks for a farm to open, after a question where work is unsaved.
pub fn ask_open(desk: &mut Desk) {
    if desk.history.is_unsaved() {
        desk.dialog = Some(Dialog::Unsaved { after: After::Open });
    } else {
        begin_path(desk, ChoosingFor::Open);
    }
}

/// Begins an empty farm, after a question where work is unsaved.
pub fn ask_new(desk: &mut Desk) {
    if desk.history.is_unsaved() {
        desk.dialog = Some(Dialog::Unsaved { after: After::New });
    } else {
        desk.dialog = Some(Dialog::new_farm());
    }
}

/// Closes the window, after a question where work is unsaved.
pub fn ask_close(desk: &mut Desk) {
    if desk.history.is_unsaved() {
        desk.dialog = Some(Dialog::Unsaved {
            after: After::Close,
        });
    } else {
        desk.may_close = true;
        desk.wants_close = true;
    }
}

/// Asks for a name to save under.
pub fn ask_save_as(desk: &mut Desk) {
    begin_path(desk, ChoosingFor::SaveAs);
}

/// Asks for outlines to bring in.
pub fn ask_import(desk: &mut Desk) {
    begin_path(desk, ChoosingFor::Import);
}

/// Asks where outlines should go.
pub fn ask_export(desk: &mut Desk) {
    begin_path(desk, ChoosingFor::Export);
}

/// Saves where the farm came from, or asks for a name.
pub fn save(desk: &mut Desk) {
    match desk.path.clone() {
        Some(path) => {
            save_to(desk, &path);
        }
        None => ask_save_as(desk),
    }
}

/// The typed path is always there; the desktop's chooser opens from a button beside it.
fn begin_path(desk: &mut Desk, purpose: ChoosingFor) {
    let typed = match purpose {
        ChoosingFor::Open | ChoosingFor::Import => String::new(),
        ChoosingFor::SaveAs => path_beside(desk, ".ron"),
        ChoosingFor::Export => path_beside(desk, ".geojson"),
    };
    desk.held_up = None;
    desk.dialog = Some(Dialog::Path {
        purpose,
        typed,
        trouble: None,
    });
}

/// A file beside the open one, named after the farm with this ending.
pub fn path_beside(desk: &Desk, ending: &str) -> String {
    let stem = file_stem(&desk.farm().name);
    let here = desk
        .path
        .as_ref()
        .and_then(|path| path.parent().map(Path::to_path_buf))
        .unwrap_or_default();
    here.join(format!("{stem}{ending}"))
        .to_string_lossy()
        .into_owned()
}

/// A file name made of a farm's name.
pub fn file_stem(name: &str) -> String {
    let plain: String = name
        .to_lowercase()
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' })
        .collect();
    let stem = plain
        .split('-')
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join("-");
    if stem.is_empty() {
        "farm".to_owned()
    } else {
        stem
    }
}

/// Does what a chosen path is for; the trouble in a sentence where it fails.
///
/// # Errors
/// What went wrong, as it is to be shown.
pub fn use_path(desk: &mut Desk, purpose: ChoosingFor, path: &Path) -> Result<(), String> {
    let path = with_home(path);
    match purpose {
        ChoosingFor::Open => open_path(desk, &path),
        ChoosingFor::SaveAs => {
            let path = with_ending(path, "ron");
            if save_to(desk, &path) {
                Ok(())
            } else {
                Err(desk.notice.take().map(|n| n.text).unwrap_or_default())
            }
        }
        ChoosingFor::Import => import_path(desk, &path),
        ChoosingFor::Export => {
            let path = with_ending(path, "geojson");
            let is_table = path.extension().is_some_and(|ending| ending == "csv");
            let text = if is_table {
                files::tree_table(desk.farm())
            } else {
                files::export_geojson(desk.farm())
            };
            files::write_safely(&path, text.as_bytes()).map_err(|error| error.to_string())?;
            desk.tell(format!("Handed out to {}", path.display()));
            Ok(())
        }
    }
}

fn open_path(desk: &mut Desk, path: &Path) -> Result<(), String> {
    let farm = files::open_farm(path).map_err(|error| error.to_string())?;
    desk.settings.remember(path);
    let name = farm.name.clone();
    desk.put_on(farm, Some(path.to_path_buf()));
    desk.tell(format!("{name} is open."));
    Ok(())
}

fn import_path(desk: &mut Desk, path: &Path) -> Result<(), String> {
    let text = files::read_text(path).map_err(|error| error.to_string())?;
    let name = path.display().to_string();
    if is_walk(path) {
        return taping::open_walk_file(desk, &text, &name);
    }
    if desk.farm().ground.is_empty() {
        let imported =
            files::import_geojson(&text, &name, desk.today).map_err(|error| error.to_string())?;
        let count = imported.farm.ground.len();
        let open = desk.farm().clone();
        let farm = Farm {
            name: open.name,
            note: open.note,
            season: open.season,
            sward: open.sward,
            ..imported.farm
        };
        desk.put_on(farm, None);
        desk.history.mark_unsaved();
        desk.tell(format!(
            "{count} things brought in. {}",
            imported.notes.join(" ")
        ));
        return Ok(());
    }
    let imported = files::import_geojson_onto(&text, &name, desk.farm().frame)
        .map_err(|error| error.to_string())?;
    add_imported(desk, imported);
    Ok(())
}

/// Whether a file is a recorded walk, by its ending.
fn is_walk(path: &Path) -> bool {
    path.extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("gpx"))
}

/// Puts imported ground beside what is there, in one step.
fn add_imported(desk: &mut Desk, imported: files::ImportedGround) {
    let first = desk.farm().next_id;
    let id_of =
        |place: usize| GroundId(first.saturating_add(u32::try_from(place).unwrap_or(u32::MAX)));
    let count = imported.pieces.len();
    let edits = imported
        .pieces
        .into_iter()
        .enumerate()
        .map(|(place, piece)| {
            let mut ground = piece.ground;
            ground.within = piece.strip_of.map(id_of);
            Edit::add_ground(id_of(place), ground)
        })
        .collect();
    desk.commit(&format!("Import {count} things"), edits);
    desk.selected = (0..count)
        .map(id_of)
        .filter(|id| desk.farm().ground.contains_key(id))
        .collect();
    desk.wants_fit = true;
    desk.tell(format!(
        "{count} things brought in. {}",
        imported.notes.join(" ")
    ));
}

/// Saves; whether it worked. What went wrong is in the notice.
pub fn save_to(desk: &mut Desk, path: &Path) -> bool {
    match files::save_farm(desk.farm(), path) {
        Ok(()) => {
            desk.path = Some(path.to_path_buf());
            desk.history.mark_saved();
            desk.settings.remember(path);
            desk.tell(format!("Saved to {}", path.display()));
            true
        }
        Err(error) => {
            desk.tell_trouble(error.to_string());
            false
        }
    }
}

/// Goes on with what waited for a name to save under, if anything did.
pub fn go_on_with_held_up(desk: &mut Desk) {
    if let Some(after) = desk.held_up.take() {
        go_on(desk, after);
    }
}

/// Goes on with what the question about unsaved work held up.
pub fn go_on(desk: &mut Desk, after: After) {
    match after {
        After::Open => begin_path(desk, ChoosingFor::Open),
        After::New => desk.dialog = Some(Dialog::new_farm()),
        After::Close => {
            desk.may_close = true;
            desk.wants_close = true;
        }
        After::OpenThis(path) => {
            if let Err(trouble) = open_path(desk, &path) {
                desk.tell_trouble(trouble);
            }
        }
    }
}

/// Opens a farm that was dropped on the window or picked from the recent ones.
pub fn ask_open_this(desk: &mut Desk, path: PathBuf) {
    // A walk that is dropped on the window is no farm: it comes in beside what is drawn.
    if is_walk(&path) {
        if let Err(trouble) = import_path(desk, &path) {
            desk.tell_trouble(trouble);
        }
    } else if desk.history.is_unsaved() {
        desk.dialog = Some(Dialog::Unsaved {
            after: After::OpenThis(path),
        });
    } else if let Err(trouble) = open_path(desk, &path) {
        desk.tell_trouble(trouble);
    }
}

/// Puts an empty farm on the desk.
///
/// # Errors
/// Where the place typed is none.
pub fn begin_farm(desk: &mut Desk, name: &str, lat_deg: f64, lon_deg: f64) -> Result<(), String> {
    let frame =
        GroundFrame::new(LonLat::new(lon_deg, lat_deg)).map_err(|error| error.to_string())?;
    let farm = Farm::new(name, frame, desk.today);
    desk.put_on(farm, None);
    desk.history.mark_unsaved();
    desk.tell("An empty farm. Draw the first piece of ground with Outline or Square.".to_owned());
    Ok(())
}

fn with_ending(path: PathBuf, ending: &str) -> PathBuf {
    if path.extension().is_some() {
        path
    } else {
        path.with_extension(ending)
    }
}

/// `~/farm.ron` as people type it.
fn with_home(path: &Path) -> PathBuf {
    match (path.strip_prefix("~"), directories::UserDirs::new()) {
        (Ok(rest), Some(user)) => user.home_dir().join(rest),
        _ => path.to_path_buf(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_farm_name_becomes_a_plain_file_name() {
        assert_eq!(file_stem("Übermoor & Söhne / Nord"), "übermoor-söhne-nord");
        assert_eq!(file_stem("  "), "farm");
    }
}
