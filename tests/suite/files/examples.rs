//! The shipped farms: they open, save as they are, have nothing amiss, and are drawn as a careful person draws.

use std::fs;
use std::ops::ControlFlow;
use std::path::PathBuf;

use foldcourse::farm::{Farm, Ground, Kind, farm_area_m2, findings, grazed_units, measure_ground};
use foldcourse::files::{export_geojson, farm_from_text, farm_text, import_geojson};
use foldcourse::geometry::buffer::{LineEnds, line_with_width};
use foldcourse::geometry::overlay::in_both;
use foldcourse::geometry::{Outline, Point};
use foldcourse::planning::{
    FULL_EFFORT, Season as PlannedSeason, SolveOptions, hen_walk, problem_from, solve,
};
use foldcourse::quantity::hectares_from_m2;

/// Name, text and farm of every file in the folder, by name.
fn examples() -> Vec<(String, String, Farm)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("example-layouts");
    let mut paths: Vec<PathBuf> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    paths.sort();
    let examples: Vec<_> = paths
        .into_iter()
        .map(|path| {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            let text = fs::read_to_string(&path).unwrap();
            let farm = farm_from_text(&text, &name).unwrap();
            (name, text, farm)
        })
        .collect();
    assert_eq!(examples.len(), 2);
    examples
}

#[test]
fn they_save_byte_for_byte_as_they_are_shipped() {
    for (name, text, farm) in examples() {
        assert_eq!(farm_text(&farm), text, "{name}");
    }
}

#[test]
fn they_say_that_they_are_invented() {
    for (name, _, farm) in examples() {
        assert!(farm.note.starts_with("An invented farm"), "{name}");
    }
}

#[test]
fn nothing_is_amiss_on_them() {
    for (name, _, farm) in examples() {
        let amiss: Vec<String> = findings(&farm)
            .into_iter()
            .map(|finding| finding.what)
            .collect();
        assert!(amiss.is_empty(), "{name}: {amiss:?}");
    }
}

#[test]
fn they_are_of_the_size_they_are_meant_to_be() {
    let sizes: Vec<(String, f64, usize)> = examples()
        .into_iter()
        .map(|(name, _, farm)| {
            let area_m2 = farm_area_m2(&farm, |id| measure_ground(&farm, &farm.ground[&id]));
            (name, hectares_from_m2(area_m2), grazed_units(&farm).len())
        })
        .collect();
    assert_eq!(sizes[0].0, "corrabil-run.ron");
    assert!(
        (40.0..80.0).contains(&sizes[0].1) && (24..=36).contains(&sizes[0].2),
        "{sizes:?}"
    );
    assert!(
        (6.0..9.0).contains(&sizes[1].1) && sizes[1].2 == 16,
        "{sizes:?}"
    );
}

#[test]
fn every_drawn_corner_lies_on_whole_millimetres() {
    for (name, _, farm) in examples() {
        for ground in farm.ground.values() {
            for corner in ground.shape.corners() {
                assert_eq!(corner, corner.on_whole_mm(), "{name}: {}", ground.name);
            }
        }
    }
}

#[test]
fn strips_make_up_their_ley_exactly() {
    for (name, _, farm) in examples() {
        let leys = farm
            .ground
            .iter()
            .filter(|(_, ground)| ground.kind == Kind::Ley);
        for (id, ley) in leys {
            let strips: Vec<&Ground> = farm.strips_of(*id).map(|(_, strip)| strip).collect();
            assert!(strips.len() >= 5, "{name}: {}", ley.name);
            let strips_m2: f64 = strips
                .iter()
                .map(|strip| strip.outline().unwrap().area_m2())
                .sum();
            let ley_m2 = ley.outline().unwrap().area_m2();
            assert!(
                (strips_m2 - ley_m2).abs() < 1e-6,
                "{name}: {} {}",
                ley.name,
                strips_m2 - ley_m2
            );
            // Shared boundaries meet bit by bit: every corner of a strip is a corner of the ley.
            let corners: Vec<Point> = ley.shape.corners();
            let strip_corners = strips.iter().flat_map(|strip| strip.shape.corners());
            strip_corners
                .for_each(|corner| assert!(corners.contains(&corner), "{name}: {}", ley.name));
        }
    }
}

#[test]
fn nothing_lies_on_anything_else_by_accident() {
    for (name, _, farm) in examples() {
        let areas: Vec<(&Ground, &Outline)> = farm
            .ground
            .values()
            .filter(|ground| ground.kind != Kind::Ley)
            .filter_map(|ground| Some((ground, ground.outline()?)))
            .collect();
        for (place, (one, one_outline)) in areas.iter().enumerate() {
            for (two, two_outline) in &areas[place + 1..] {
                let both_m2 = in_both(one_outline, two_outline).area_m2();
                assert!(
                    both_m2 < 0.01,
                    "{name}: {} and {}: {both_m2} m²",
                    one.name,
                    two.name
                );
            }
        }
    }
}

/// Trees with their crowns, hedges, tracks and streams as wide as they are drawn.
#[test]
fn lines_keep_clear_of_the_fields() {
    for (name, _, farm) in examples() {
        for line in farm
            .ground
            .values()
            .filter(|ground| ground.kind != Kind::Gate)
        {
            let crown_m = line.trees.as_ref().map_or(0.0, |row| row.crown_m);
            let width_m = line.drawn_width_m().max(crown_m);
            let covered = line_with_width(line.line().unwrap_or_default(), width_m, LineEnds::Flat);
            for area in farm.ground.values().filter(|area| area.kind != line.kind) {
                let both_m2 = area
                    .outline()
                    .map_or(0.0, |outline| in_both(outline, &covered).area_m2());
                assert!(
                    both_m2 < 0.01,
                    "{name}: {} and {}: {both_m2} m²",
                    line.name,
                    area.name
                );
            }
        }
    }
}

#[test]
fn they_go_out_and_come_in_as_geojson() {
    for (name, _, farm) in examples() {
        let exported = export_geojson(&farm);
        let imported = import_geojson(&exported, &name, farm.season.first_day).unwrap();
        assert!(imported.notes.is_empty(), "{name}: {:?}", imported.notes);
        assert_eq!(imported.farm.name, farm.name);
        let strips = |farm: &Farm| {
            farm.ground
                .values()
                .filter(|ground| ground.within.is_some())
                .count()
        };
        assert_eq!(
            strips(&imported.farm),
            strips(&farm),
            "{name}: strips find their leys again"
        );
    }
}

/// A short search: enough to see that the figures hold together, not the best plan.
#[test]
fn a_season_can_be_planned_on_them() {
    for (name, _, farm) in examples() {
        let asked = problem_from(&farm, farm.season.first_day, farm.season.days).unwrap();
        assert!(
            asked.assumptions.is_empty(),
            "{name}: {:?}",
            asked.assumptions
        );
        let season = PlannedSeason::compile(&asked.problem).unwrap();
        let options = SolveOptions {
            seed: farm.season.seed,
            effort: FULL_EFFORT / 20,
            start: None,
        };
        let plan = solve(&season, &options, &mut |_| ControlFlow::Continue(())).unwrap();
        let moves = plan.figures.moves;
        assert!(moves > 20, "{name}: {moves} moves");
        assert!(
            plan.warnings.is_empty(),
            "{name}: the lived days keep the rules"
        );
        assert!(plan.figures.short_kg < 100.0, "{name}: {:?}", plan.figures);
    }
}

#[test]
fn the_hens_walk_their_lines_with_room_to_spare() {
    let (name, _, farm) = examples().remove(1);
    for id in farm.hen_houses.keys() {
        let walk = hen_walk(&farm, *id, farm.season.first_day, farm.season.days).unwrap();
        assert!(walk.notes.is_empty(), "{name}: {:?}", walk.notes);
        assert_eq!(walk.days.len(), 203);
    }
}
