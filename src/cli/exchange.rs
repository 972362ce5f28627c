//! `import` and `export`: outlines in and out without a window.

use std::path::Path;
use std::process::ExitCode;

use super::Trouble;
use super::json::print_text;
use crate::files::{
    GpxWish, export_geojson, import_geojson, import_gpx, open_farm, read_text, save_farm,
    write_safely,
};
use crate::quantity::Day;

/// Makes a farm of a file of outlines or of a recorded walk, told apart by its ending.
pub(super) fn import(
    source: &Path,
    output: &Path,
    wish: Option<GpxWish>,
    today: Day,
) -> Result<ExitCode, Trouble> {
    let name = source.display().to_string();
    let is_walk = source
        .extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("gpx"));
    if !is_walk && wish.is_some() {
        return Err(Trouble(format!(
            "{name}: --outline and --thin are for recorded walks (.gpx): leave them out"
        )));
    }
    let text = read_text(source)?;
    let imported = if is_walk {
        import_gpx(&text, &name, today, wish.unwrap_or_default())?
    } else {
        import_geojson(&text, &name, today)?
    };
    save_farm(&imported.farm, output)?;
    let count = imported.farm.ground.len();
    let mut lines = vec![format!("{count} things written to {}", output.display())];
    lines.extend(imported.notes);
    print_text(&lines.join("\n"))?;
    Ok(ExitCode::SUCCESS)
}

/// Hands the outlines of a farm out.
pub(super) fn export(file: &Path, output: &Path) -> Result<ExitCode, Trouble> {
    let farm = open_farm(file)?;
    let is_geojson = output
        .extension()
        .is_some_and(|ending| ending == "geojson" || ending == "json");
    if !is_geojson {
        return Err(Trouble(format!(
            "{}: the ending does not tell a format: use .geojson",
            output.display()
        )));
    }
    write_safely(output, export_geojson(&farm).as_bytes())?;
    print_text(&format!(
        "{} things written to {}",
        farm.ground.len(),
        output.display()
    ))?;
    Ok(ExitCode::SUCCESS)
}
