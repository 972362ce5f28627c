//! What typing about something built or planted does to the farm: tunnel, beds, varieties, posts, basin. Metres.
//!
//! The first field of a sort brings the sort into being with usual figures for the rest, and takes it away where it is
//! emptied.

use super::change::{BuiltField, Given, gone};
use super::figures::{decimal, length_m, unless_empty, whole};
use super::varieties::varieties_of;
use crate::app::season_acts::Act;
use crate::farm::{
    Basin, Beds, Edit, FencePosts, Ground, GroundId, Shape, TunnelEnds, TunnelFrame,
    neighbours_follow, tunnel_floor,
};
use crate::quantity::parse_bearing_deg;

/// Least and most metres of each figure: wide enough for anything that is built.
const TUNNEL_M: (f64, f64) = (0.5, 1000.0);
const HOOP_SPACING_M: (f64, f64) = (0.2, 50.0);
const SIDE_M: (f64, f64) = (0.0, 20.0);
const BED_M: (f64, f64) = (0.1, 100.0);
const PATH_M: (f64, f64) = (0.0, 100.0);
const PLANT_M: (f64, f64) = (0.01, 50.0);
const POST_M: (f64, f64) = (0.3, 200.0);
const ROLL_M: (f64, f64) = (1.0, 5000.0);
const DEPTH_M: (f64, f64) = (0.05, 100.0);
const MOST_SIDE_RUN: f64 = 50.0;
const MOST_ROWS: u32 = 200;
const MOST_STRANDS: u32 = 20;

/// Hoops 2 m apart under a cover that closes the ends too and is dug in half a metre (common practice, no source).
const USUAL_FRAME: TunnelFrame = TunnelFrame {
    ends: TunnelEnds::Covered,
    straight_side_m: 0.0,
    skirt_m: 0.5,
    hoop_spacing_m: 2.0,
};

/// Beds to step across with paths to kneel in, three rows (common practice, no source).
const USUAL_BEDS: Beds = Beds {
    bed_width_m: 0.75,
    path_width_m: 0.45,
    bearing_deg: None,
    rows: 3,
    plant_spacing_m: 0.3,
};

/// Posts for stock netting in rolls of 50 m (common practice, no source).
const USUAL_POSTS: FencePosts = FencePosts {
    spacing_m: 3.0,
    roll_m: 50.0,
    strands: 1,
};

/// Sides that stand in most soils (common practice, no source).
const USUAL_BASIN: Basin = Basin {
    depth_m: 1.5,
    side_run: 2.0,
};

pub(super) fn change(
    given: Given<'_>,
    id: GroundId,
    field: BuiltField,
    typed: &str,
) -> Result<Act, String> {
    let old = given.farm.ground.get(&id).ok_or_else(gone)?;
    let mut ground = old.clone();
    let length = |(least_m, most_m): (f64, f64)| length_m(typed, given.units, least_m..=most_m);
    let maybe_length = |bounds| unless_empty(typed, |_| length(bounds));
    let what = match field {
        BuiltField::Length | BuiltField::Width | BuiltField::Bearing => {
            change_size(given, &mut ground, field, typed)?
        }
        BuiltField::HoopSpacing => {
            ground.frame = maybe_length(HOOP_SPACING_M)?.map(|hoop_spacing_m| TunnelFrame {
                hoop_spacing_m,
                ..ground.frame.unwrap_or(USUAL_FRAME)
            });
            "hoops"
        }
        BuiltField::StraightSide => {
            let side_m = length(SIDE_M)?;
            if ground.height_m.is_some_and(|height_m| side_m >= height_m) {
                return Err("The straight side must end below the ridge.".to_owned());
            }
            said(ground.frame.as_mut(), "how far apart the hoops stand")?.straight_side_m = side_m;
            "straight sides"
        }
        BuiltField::Skirt => {
            said(ground.frame.as_mut(), "how far apart the hoops stand")?.skirt_m = length(SIDE_M)?;
            "skirt"
        }
        BuiltField::Varieties => {
            let varieties = varieties_of(typed)?;
            said(ground.trees.as_mut(), "how far apart the trees stand")?.varieties = varieties;
            "varieties"
        }
        BuiltField::BedWidth => {
            ground.beds = maybe_length(BED_M)?.map(|bed_width_m| Beds {
                bed_width_m,
                ..ground.beds.unwrap_or(USUAL_BEDS)
            });
            "beds"
        }
        BuiltField::PathWidth
        | BuiltField::BedBearing
        | BuiltField::Rows
        | BuiltField::PlantSpacing => change_beds(given, &mut ground, field, typed)?,
        BuiltField::PostSpacing => {
            ground.posts = maybe_length(POST_M)?.map(|spacing_m| FencePosts {
                spacing_m,
                ..ground.posts.unwrap_or(USUAL_POSTS)
            });
            "posts"
        }
        BuiltField::Roll => {
            said(ground.posts.as_mut(), "how far apart the posts stand")?.roll_m = length(ROLL_M)?;
            "rolls"
        }
        BuiltField::Strands => {
            let strands = whole(typed, 1..=MOST_STRANDS, "strands")?;
            said(ground.posts.as_mut(), "how far apart the posts stand")?.strands = strands;
            "strands"
        }
        BuiltField::Depth => {
            ground.basin = maybe_length(DEPTH_M)?.map(|depth_m| Basin {
                depth_m,
                ..ground.basin.unwrap_or(USUAL_BASIN)
            });
            "depth"
        }
        BuiltField::SideRun => {
            let side_run = decimal(slope_figure(typed), 0.0..=MOST_SIDE_RUN, "")?;
            said(ground.basin.as_mut(), "how deep it is")?.side_run = side_run;
            "slope of its sides"
        }
    };
    let label = format!("{}: {what}", ground.name);
    let mut edits = neighbours_moved(given, id, old, &ground);
    edits.push(Edit::change_ground(id, old, ground));
    Ok((label, edits))
}

/// What stands corner to corner with ground whose size is typed moves as it does when a corner is dragged.
fn neighbours_moved(given: Given<'_>, id: GroundId, old: &Ground, new: &Ground) -> Vec<Edit> {
    if given.holds_apart || old.shape == new.shape {
        return Vec::new();
    }
    let (had, has) = (old.shape.corners(), new.shape.corners());
    let moved: Vec<_> = had.into_iter().zip(has).collect();
    neighbours_follow(given.farm, id, &moved)
}

/// Closes the ends of a tunnel another way.
pub(super) fn set_ends(id: GroundId, old: &Ground, ends: TunnelEnds) -> Option<Act> {
    let mut ground = old.clone();
    ground.frame.as_mut()?.ends = ends;
    let label = format!("{}: ends", ground.name);
    Some((label, vec![Edit::change_ground(id, old, ground)]))
}

/// A tunnel's length and width from its first corner, its bearing about its middle.
fn change_size(
    given: Given<'_>,
    ground: &mut Ground,
    field: BuiltField,
    typed: &str,
) -> Result<&'static str, String> {
    if ground.is_locked {
        return Err("It is locked: let it go first.".to_owned());
    }
    let four = ground
        .outline()
        .and_then(tunnel_floor)
        .and_then(|floor| floor.rectangle)
        .ok_or("Its outline is no rectangle: move its corners on the map.")?;
    let length = || length_m(typed, given.units, TUNNEL_M.0..=TUNNEL_M.1);
    let (length_now_m, width_now_m) = (four.length_m(), four.width_m());
    let (outline, what) = match field {
        BuiltField::Length => (four.with_sizes(length()?, width_now_m), "length"),
        BuiltField::Width => (four.with_sizes(length_now_m, length()?), "width"),
        _ => {
            let bearing_deg = parse_bearing_deg(typed).map_err(|error| error.to_string() + ".")?;
            (four.turned_to(bearing_deg), "bearing")
        }
    };
    let is_too_wide = match field {
        BuiltField::Length => length()? < width_now_m,
        BuiltField::Width => length()? > length_now_m,
        _ => false,
    };
    if is_too_wide {
        return Err(
            "The hoops span the short way, so a tunnel is at least as long as it is wide."
                .to_owned(),
        );
    }
    ground.shape = Shape::Area(outline);
    Ok(what)
}

fn change_beds(
    given: Given<'_>,
    ground: &mut Ground,
    field: BuiltField,
    typed: &str,
) -> Result<&'static str, String> {
    let beds = said(ground.beds.as_mut(), "how wide a bed is")?;
    let length = |(least_m, most_m): (f64, f64)| length_m(typed, given.units, least_m..=most_m);
    Ok(match field {
        BuiltField::PathWidth => {
            beds.path_width_m = length(PATH_M)?;
            "paths"
        }
        BuiltField::BedBearing => {
            beds.bearing_deg = unless_empty(typed, |typed| {
                parse_bearing_deg(typed).map_err(|error| error.to_string() + ".")
            })?;
            "bearing of the beds"
        }
        BuiltField::Rows => {
            beds.rows = whole(typed, 1..=MOST_ROWS, "rows")?;
            "rows on a bed"
        }
        _ => {
            beds.plant_spacing_m = length(PLANT_M)?;
            "plants in the row"
        }
    })
}

/// What is there already, or a sentence that says what comes first.
fn said<'ground, T>(part: Option<&'ground mut T>, first: &str) -> Result<&'ground mut T, String> {
    part.ok_or_else(|| format!("Say first {first}."))
}

/// `2`, from `2`, `2:1`, `2 : 1` or `2 to 1`.
fn slope_figure(typed: &str) -> &str {
    let plain = typed.trim();
    let before = plain
        .strip_suffix('1')
        .map(str::trim_end)
        .and_then(|rest| rest.strip_suffix(':').or_else(|| rest.strip_suffix("to")));
    before.unwrap_or(plain)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slope_is_read_with_or_without_its_one() {
        for typed in ["2", "2:1", " 2 : 1", "2 to 1"] {
            assert_eq!(slope_figure(typed).trim(), "2", "{typed}");
        }
        assert_eq!(slope_figure("1"), "1");
        assert_eq!(slope_figure("2.1"), "2.1");
    }
}
