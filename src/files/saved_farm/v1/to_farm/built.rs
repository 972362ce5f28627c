//! What is built or planted on a piece of ground, checked: no spacing so small that it would be drawn for ever.
//!
//! Metres.

use super::Checked;
use super::fault::{FARTHEST_M, Fault, key, maybe, within};
use crate::farm::{Basin, Beds, FencePosts, TreeRow, TunnelEnds, TunnelFrame};
use crate::files::saved_farm::v1::saved_built::{
    SavedBasin, SavedBeds, SavedEnds, SavedFrame, SavedPosts, SavedTrees,
};

/// The least distance between two of a row, metres: closer rows would be drawn for ever.
const CLOSEST_M: f64 = 0.01;

/// More rows of plants, or strands of wire, than this stand on no bed or fence.
const MOST_ROWS: u32 = 1_000;

pub(super) fn trees(saved: SavedTrees) -> Checked<TreeRow> {
    Ok(TreeRow {
        spacing_m: metres("spacing_m", saved.spacing_m, CLOSEST_M, FARTHEST_M)?,
        first_m: metres("first_m", saved.first_m, 0.0, FARTHEST_M)?,
        crown_m: metres("crown_m", saved.crown_m, 0.0, 1_000.0)?,
        varieties: saved.varieties,
    })
}

pub(super) fn frame(saved: &SavedFrame) -> Checked<TunnelFrame> {
    Ok(TunnelFrame {
        ends: match saved.ends {
            SavedEnds::Covered => TunnelEnds::Covered,
            SavedEnds::Boarded => TunnelEnds::Boarded,
            SavedEnds::Open => TunnelEnds::Open,
        },
        straight_side_m: metres("straight_side_m", saved.straight_side_m, 0.0, 1_000.0)?,
        skirt_m: metres("skirt_m", saved.skirt_m, 0.0, 1_000.0)?,
        hoop_spacing_m: metres("hoop_spacing_m", saved.hoop_spacing_m, CLOSEST_M, 1_000.0)?,
    })
}

pub(super) fn beds(saved: &SavedBeds) -> Checked<Beds> {
    Ok(Beds {
        bed_width_m: metres("bed_width_m", saved.bed_width_m, CLOSEST_M, 10_000.0)?,
        path_width_m: metres("path_width_m", saved.path_width_m, 0.0, 10_000.0)?,
        bearing_deg: maybe("bearing_deg", saved.bearing_deg, -360.0, 360.0, "degrees")?,
        rows: counted("rows", saved.rows)?,
        plant_spacing_m: metres("plant_spacing_m", saved.plant_spacing_m, CLOSEST_M, 1_000.0)?,
    })
}

pub(super) fn posts(saved: &SavedPosts) -> Checked<FencePosts> {
    Ok(FencePosts {
        spacing_m: metres("spacing_m", saved.spacing_m, CLOSEST_M, FARTHEST_M)?,
        roll_m: metres("roll_m", saved.roll_m, CLOSEST_M, FARTHEST_M)?,
        strands: counted("strands", saved.strands)?,
    })
}

pub(super) fn basin(saved: &SavedBasin) -> Checked<Basin> {
    Ok(Basin {
        depth_m: metres("depth_m", saved.depth_m, 0.001, 1_000.0)?,
        side_run: within(saved.side_run, 0.0, 1_000.0, "m for each metre down")
            .map_err(|fault| fault.within(&[key("side_run")]))?,
    })
}

fn metres(field: &str, value: f64, least: f64, most: f64) -> Checked<f64> {
    within(value, least, most, "m").map_err(|fault| fault.within(&[key(field)]))
}

fn counted(field: &str, count: u32) -> Checked<u32> {
    if (1..=MOST_ROWS).contains(&count) {
        return Ok(count);
    }
    Err(Fault::new(
        format!("{count} is out of bounds"),
        format!("write a number from 1 to {MOST_ROWS}"),
    )
    .within(&[key(field)]))
}
