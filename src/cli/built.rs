//! What is built and planted, for `measure`: fields for scripts, words for people; and the list of trees.
//!
//! Metres, square and cubic metres.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use serde_json::Value;

use super::Trouble;
use super::json::{Fields, print_json, print_text};
use crate::farm::{
    BedSums, BuiltSums, Farm, FenceSums, Ground, TunnelEnds, TunnelSums, all_trees, built_sums,
};
use crate::files::{open_farm, tree_table, write_safely};
use crate::geometry::prismoid::BasinVolume;
use crate::quantity::{UnitSystem, area_text, decimal_text, length_text, water_text};

/// The fields of what is built on a piece of ground, one object for each sort.
pub(super) fn built_fields(fields: Fields, farm: &Farm, ground: &Ground) -> Fields {
    let sums = built_sums(farm, ground);
    let BuiltSums {
        tunnel,
        beds,
        varieties,
        fence,
        basin,
    } = sums;
    let is_line = ground.line().is_some() && ground.drawn_width_m() > 0.0;
    let varieties: Value = varieties
        .into_iter()
        .filter(|(name, _)| !name.is_empty())
        .collect();
    let has_varieties = varieties.as_object().is_some_and(|names| !names.is_empty());
    fields
        .put_some("width_m", is_line.then(|| ground.drawn_width_m()))
        .put_some("height_m", ground.height_m)
        .put_some("varieties", has_varieties.then_some(varieties))
        .put_some(
            "tunnel",
            tunnel
                .and_then(Result::ok)
                .map(|sums| tunnel_value(ground, &sums)),
        )
        .put_some(
            "beds",
            beds.and_then(Result::ok).map(|sums| beds_value(&sums)),
        )
        .put_some("fence", fence.map(|sums| fence_value(&sums)))
        .put_some("basin", basin.map(|sums| basin_value(&sums)))
}

fn tunnel_value(ground: &Ground, sums: &TunnelSums) -> Value {
    let ends = ground.frame.map(|frame| match frame.ends {
        TunnelEnds::Covered => "covered",
        TunnelEnds::Boarded => "boarded",
        TunnelEnds::Open => "open",
    });
    Fields::default()
        .put("length_m", sums.floor.length_m)
        .put("width_m", sums.floor.width_m)
        .put("bearing_deg", sums.floor.bearing_deg)
        .put("bow_radius_m", sums.bow.radius_m())
        .put("bow_arc_m", sums.bow.arc_m())
        .put("hoop_m", sums.hoop_m)
        .put("hoops", sums.hoops)
        .put("hoop_gap_m", sums.hoop_gap_m)
        .put_some("ends", ends)
        .put("sheet_m", sums.sheet_m)
        .put_some("one_sheet_length_m", sums.one_sheet_length_m)
        .put("end_wall_m2", sums.end_wall_m2)
        .put("cover_m2", sums.cover_m2)
        .put("air_m3", sums.air_m3)
        .done()
}

fn beds_value(sums: &BedSums) -> Value {
    Fields::default()
        .put("bearing_deg", sums.bearing_deg)
        .put("beds", sums.beds)
        .put("length_m", sums.length_m)
        .put("area_m2", sums.area_m2)
        .put("share", sums.share)
        .put("plants", sums.plants)
        .done()
}

fn fence_value(sums: &FenceSums) -> Value {
    Fields::default()
        .put("posts", sums.posts)
        .put("corner_posts", sums.corner_posts)
        .put("wire_m", sums.wire_m)
        .put("rolls", sums.rolls)
        .done()
}

fn basin_value(sums: &BasinVolume) -> Value {
    Fields::default()
        .put("volume_m3", sums.volume_m3)
        .put("surface_m2", sums.top_m2)
        .put("floor_m2", sums.floor_m2)
        .put("depth_reached_m", sums.depth_m)
        .put("sides_meet", sums.is_closed)
        .done()
}

/// The same in words, short.
pub(super) fn built_words(farm: &Farm, ground: &Ground) -> Vec<String> {
    let metric = UnitSystem::Metric;
    let sums = built_sums(farm, ground);
    let mut words = Vec::new();
    match &sums.tunnel {
        Some(Ok(tunnel)) => words.push(format!(
            "{} hoops of {} m, cover {}",
            tunnel.hoops,
            decimal_text(tunnel.hoop_m, 2),
            area_text(tunnel.cover_m2, metric)
        )),
        Some(Err(gap)) => words.push(gap.sentence().to_owned()),
        None => {}
    }
    match &sums.beds {
        Some(Ok(beds)) => words.push(format!(
            "{} beds, {} of bed, {} plants",
            beds.beds,
            length_text(beds.length_m, metric),
            beds.plants
        )),
        Some(Err(gap)) => words.push(gap.sentence().to_owned()),
        None => {}
    }
    words.extend(
        sums.fence
            .map(|fence| format!("{} posts, {} rolls", fence.posts, fence.rolls)),
    );
    words.extend(sums.basin.map(|basin| {
        let water = water_text(basin.volume_m3, metric);
        if basin.is_closed {
            format!(
                "{water}, sides meet at {} m",
                decimal_text(basin.depth_m, 2)
            )
        } else {
            water
        }
    }));
    words
}

/// Prints or writes the list of every tree.
pub(super) fn trees(
    file: &Path,
    json: bool,
    output: Option<&PathBuf>,
) -> Result<ExitCode, Trouble> {
    let farm = open_farm(file)?;
    if let Some(output) = output {
        write_safely(output, tree_table(&farm).as_bytes())?;
        let count: usize = all_trees(&farm).iter().map(|(_, trees)| trees.len()).sum();
        print_text(&format!("{count} trees written to {}", output.display()))?;
    } else if json {
        print_json(&tree_rows(&farm))?;
    } else {
        print_text(&tree_table(&farm))?;
    }
    Ok(ExitCode::SUCCESS)
}

fn tree_rows(farm: &Farm) -> Value {
    all_trees(farm)
        .into_iter()
        .flat_map(|(id, trees)| {
            let line = farm.ground.get(&id).map(|ground| ground.name.clone());
            trees.into_iter().map(move |tree| {
                let variety = (!tree.variety.is_empty()).then_some(tree.variety);
                Fields::default()
                    .put("line_id", id.0)
                    .put_some("line", line.clone())
                    .put("number", tree.number)
                    .put_some("variety", variety)
                    .put("along_m", tree.along_m)
                    .put("east_m", tree.place.east_m)
                    .put("north_m", tree.place.north_m)
                    .put("lon_deg", tree.lonlat.lon_deg)
                    .put("lat_deg", tree.lonlat.lat_deg)
                    .done()
            })
        })
        .collect()
}
