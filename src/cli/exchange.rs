//! `import`, `export` and `cut`: outlines in and out, and a ley cut into strips without a window.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use super::Trouble;
use super::json::print_text;
use crate::farm::{History, cut_edits};
use crate::files::{
    GpxWish, export_geojson, import_geojson, import_gpx, open_farm, read_text, save_farm,
    write_safely,
};
use crate::geometry::cut::{bearing_across_longest_side, strips_of_equal_area};
use crate::quantity::{Day, UnitSystem, area_text};

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

/// Makes a piece of ground a ley and cuts it into equal strips.
pub(super) fn cut(
    file: &Path,
    name: &str,
    count: u32,
    bearing_deg: Option<f64>,
    output: Option<&PathBuf>,
) -> Result<ExitCode, Trouble> {
    let farm = open_farm(file)?;
    let found = farm.ground.iter().find(|(_, ground)| ground.name == name);
    let Some((id, ground)) = found.map(|(id, ground)| (*id, ground.clone())) else {
        return Err(Trouble(format!(
            "{}: no ground is called \"{name}\": see `foldcourse measure`",
            file.display()
        )));
    };
    let Some(outline) = ground.outline() else {
        return Err(Trouble(format!(
            "{}: \"{name}\" is no area, so it cannot be cut into strips",
            file.display()
        )));
    };
    let bearing_deg = match bearing_deg {
        Some(bearing_deg) => bearing_deg,
        None => bearing_across_longest_side(outline).unwrap_or(0.0),
    };
    let strips = strips_of_equal_area(outline, bearing_deg, usize::try_from(count).unwrap_or(1))?;
    let (label, edits) = cut_edits(&farm, id, &ground, &strips);
    let each_m2 = strips.first().map_or(0.0, |strip| strip.outline.area_m2());
    let broken = strips.iter().filter(|strip| strip.pieces > 1).count();
    let mut history = History::new(farm);
    history.commit(&label, edits)?;
    save_farm(history.farm(), output.map_or(file, PathBuf::as_path))?;
    print_text(&format!(
        "{label}, {} each",
        area_text(each_m2, UnitSystem::Metric)
    ))?;
    if broken > 0 {
        print_text(&format!("{broken} of them fall in two pieces or more"))?;
    }
    Ok(ExitCode::SUCCESS)
}
