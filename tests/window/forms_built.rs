//! Tunnel, beds, varieties, posts and basin, each typed as a grower would; and the list of trees.

use std::fs;

use egui::Key;
use egui_kittest::kittest::Queryable;
use foldcourse::farm::{Ground, Shape, TunnelEnds};
use foldcourse::geometry::{Outline, Point};

use super::forms_desk::Bench;
use super::sitting::Sitting;

fn selected(name: &str) -> Bench {
    let mut bench = Bench::example();
    bench.select(name);
    bench
}

fn ground<'bench>(bench: &'bench Bench, name: &str) -> &'bench Ground {
    &bench.farm().ground[&bench.ground(name)]
}

/// Whether these words stand anywhere, once or more.
fn told(bench: &Bench, words: &str) -> bool {
    bench
        .harness
        .query_all_by_label_contains(words)
        .next()
        .is_some()
}

#[test]
fn a_tunnel_takes_its_sizes_from_its_first_corner() {
    let mut bench = selected("T1");
    let first = ground(&bench, "T1").shape.corners()[0];
    bench.makes_one_step("Width, m", "7");
    bench.makes_one_step("Length, m", "42.5 m");
    let corners = ground(&bench, "T1").shape.corners();
    assert_eq!(corners[0], first);
    let sides = [(0, 1), (1, 2)].map(|(a, b)| corners[a].distance_m(corners[b]));
    let (long, short) = (sides[0].max(sides[1]), sides[0].min(sides[1]));
    assert!(
        (long - 42.5).abs() < 0.002 && (short - 7.0).abs() < 0.002,
        "{sides:?}"
    );
    assert!(corners.iter().all(|corner| *corner == corner.on_whole_mm()));
    bench.makes_one_step("Runs along, °", "90");
    let corners = ground(&bench, "T1").shape.corners();
    let lies_along = corners
        .iter()
        .filter(|c| (c.north_m - corners[0].north_m).abs() < 0.01);
    assert_eq!(lies_along.count(), 2, "long sides run east");
    bench.refuses("Width, m", "60", "short way");
    bench.refuses("Length, m", "wide", "not a length");
    bench.refuses("Runs along, °", "north", "not a number");
}

#[test]
fn what_stands_corner_to_corner_with_a_tunnel_moves_with_its_typed_size() {
    let mut bench = selected("T1");
    let (id, corners) = (bench.ground("T1"), ground(&bench, "T1").shape.corners());
    // A plot beyond its far end, corner to corner with it.
    let onwards_deg = corners[1].bearing_deg(corners[2]);
    let beyond = |corner: Point| corner.towards(onwards_deg, 6.0);
    let (left, right) = (corners[3], corners[2]);
    let outline = [left, right, beyond(right), beyond(left)];
    let beside = bench.ground("Gate Plot");
    for is_held_apart in [false, true] {
        bench
            .desk_mut()
            .change_ground(beside, "Lay it beside", |ground| {
                ground.shape = Shape::Area(Outline::simple(outline.to_vec()));
            });
        bench.desk_mut().holds_apart = is_held_apart;
        bench.select("T1");
        bench.makes_one_step("Length, m", "60");
        let new = bench.farm().ground[&id].shape.corners();
        let shares = |corner: &Point| {
            bench.farm().ground[&beside]
                .shape
                .corners()
                .contains(corner)
        };
        assert_ne!(new, corners);
        let moved = new.iter().filter(|corner| !corners.contains(corner));
        assert_eq!(
            moved.filter(|corner| shares(corner)).count(),
            if is_held_apart { 0 } else { 2 },
            "held apart: {is_held_apart}"
        );
        bench.desk_mut().undo();
        bench.harness.run_steps(2);
    }
}

#[test]
fn hoops_and_cover_follow_from_ridge_and_frame() {
    let mut bench = selected("T1");
    assert!(!told(&bench, "Cover in all"));
    bench.makes_one_step("Hoop to hoop, m", "2.5");
    assert!(told(&bench, "Cover in all"));
    assert_eq!(
        ground(&bench, "T1").frame.map(|frame| frame.ends),
        Some(TunnelEnds::Covered)
    );
    bench.makes_one_step("Skirt, dug in, m", "0.3");
    bench.makes_one_step("Straight side, m", "0.4");
    bench.refuses("Straight side, m", "4", "below the ridge");
    assert!(told(&bench, "One sheet, ends too"));
    bench.press("boards");
    assert_eq!(
        ground(&bench, "T1").frame.map(|frame| frame.ends),
        Some(TunnelEnds::Boarded)
    );
    assert!(!told(&bench, "One sheet, ends too"));
    bench.makes_one_step("Ridge height, m", "5");
    assert!(told(&bench, "bulge out over its feet"));
    bench.makes_one_step("Ridge height, m", "");
    assert!(told(&bench, "Say how high the ridge is"));
    bench.makes_one_step("Hoop to hoop, m", "");
    assert_eq!(ground(&bench, "T1").frame, None);
}

#[test]
fn a_locked_tunnel_keeps_its_sizes() {
    let mut bench = selected("T1");
    let id = bench.ground("T1");
    bench
        .desk_mut()
        .change_ground(id, "Lock it", |ground| ground.is_locked = true);
    bench.harness.run_steps(2);
    bench.refuses("Width, m", "7", "let it go first");
}

#[test]
fn beds_are_laid_out_planted_and_taken_up() {
    let mut bench = selected("Gate Plot");
    bench.makes_one_step("Bed width, m", "1.2");
    bench.makes_one_step("Path width, m", "40 cm");
    bench.makes_one_step("Rows on a bed, rows", "4");
    bench.makes_one_step("Plant to plant, m", "0.25");
    let id = bench.ground("Gate Plot");
    let sums = bench
        .desk()
        .built(id)
        .and_then(|sums| sums.beds)
        .expect("beds")
        .expect("room");
    let whole_m2 = bench.desk().measures(id).area_m2.expect("an area");
    assert!(sums.beds > 10 && sums.area_m2 < whole_m2);
    // 1.2 m of each 1.6 m, but for the margins.
    assert!((0.70..=0.76).contains(&sums.share), "{}", sums.share);
    assert!(told(&bench, "Bed length in all"));
    bench.makes_one_step("Beds run along, °", "30");
    let turned = bench
        .desk()
        .built(id)
        .and_then(|sums| sums.beds)
        .expect("beds")
        .expect("room");
    assert!((turned.bearing_deg - 30.0).abs() < 1e-9);
    bench.refuses("Rows on a bed, rows", "0", "cannot be");
    bench.makes_one_step("Beds run along, °", "");
    bench.makes_one_step("Bed width, m", "99");
    assert!(told(&bench, "No bed of that width has room here"));
    bench.makes_one_step("Bed width, m", "");
    assert_eq!(ground(&bench, "Gate Plot").beds, None);
    assert!(!told(&bench, "Path width"));
}

#[test]
fn varieties_repeat_along_the_line() {
    let mut bench = selected("Apple line");
    bench.makes_one_step("Stem to stem, m", "6");
    bench.type_into("Varieties, in planting order", "Egremont, 2 x Bramley");
    bench.key(Key::Tab);
    let varieties = ground(&bench, "Apple line")
        .trees
        .as_ref()
        .map(|row| row.varieties.clone());
    assert_eq!(
        varieties,
        Some(
            ["Egremont", "Bramley", "Bramley"]
                .map(str::to_owned)
                .to_vec()
        )
    );
    assert_eq!(
        bench.value("Varieties, in planting order"),
        "Egremont, 2 x Bramley"
    );
    let id = bench.ground("Apple line");
    let totals = bench.desk().built(id).expect("trees").varieties.clone();
    let trees = bench.desk().measures(id).trees.expect("trees");
    assert_eq!(totals.values().sum::<usize>(), trees);
    bench.press("List every tree");
    assert!(told(&bench, "Trees of Apple line"));
    assert!(told(&bench, "Tree 1, Egremont, "));
    bench.key(Key::End);
    assert!(
        told(&bench, &format!("Tree {trees}, ")),
        "the last tree is walked to"
    );
    bench.key(Key::Escape);
    assert!(bench.desk().dialog.is_none());
}

#[test]
fn the_list_of_trees_is_written_as_a_table() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("trees.csv");
    let mut sitting = Sitting::at_example();
    let (id, _) = sitting.ground("Pear row");
    sitting.desk_mut().select_only(id);
    sitting.settle();
    sitting.press("List every tree");
    sitting.press("Write as a table …");
    sitting.fill("Path of the file", &path.to_string_lossy());
    sitting.key(Key::Enter);
    let text = fs::read_to_string(&path).unwrap();
    let trees: usize = sitting
        .desk()
        .farm()
        .ground
        .keys()
        .filter_map(|id| sitting.desk().measures(*id).trees)
        .sum();
    assert_eq!(text.matches("\r\n").count(), trees + 1);
    assert!(text.starts_with("line,number,variety,along_m,"));
    assert!(text.contains("\r\nPear row,1,Blakeney Red,3.00,"), "{text}");
    assert_eq!(sitting.steps(), 0, "writing is no step");
}

#[test]
fn a_fence_counts_posts_and_rolls() {
    let mut bench = selected("Bank fence");
    bench.makes_one_step("Post to post, m", "4");
    bench.makes_one_step("Roll length, m", "100");
    bench.makes_one_step("Strands, strands", "3");
    let id = bench.ground("Bank fence");
    let sums = bench
        .desk()
        .built(id)
        .and_then(|sums| sums.fence)
        .expect("posts");
    let length_m = bench.desk().measures(id).length_m.expect("a line");
    assert!((sums.wire_m - 3.0 * length_m).abs() < 1e-6);
    assert!(f64::from(sums.rolls) * 100.0 >= sums.wire_m);
    assert!(told(&bench, "of them at ends and corners") && told(&bench, "Local code comes first"));
    bench.refuses("Strands, strands", "0", "cannot be");
    bench.makes_one_step("Post to post, m", "");
    assert_eq!(ground(&bench, "Bank fence").posts, None);
}

#[test]
fn a_pond_holds_water_until_its_sides_meet() {
    let mut bench = selected("Marl Pond");
    bench.makes_one_step("Depth when full, m", "1.2");
    bench.makes_one_step("Side slope, across for one down, : 1", "3:1");
    assert!(told(&bench, "Water when full") && told(&bench, "Open water drowns"));
    let id = bench.ground("Marl Pond");
    let sums = bench
        .desk()
        .built(id)
        .and_then(|sums| sums.basin)
        .expect("a basin");
    assert!(sums.volume_m3 > 0.0 && sums.volume_m3 < 1.2 * sums.top_m2);
    assert!(!sums.is_closed);
    bench.makes_one_step("Depth when full, m", "40");
    assert!(told(&bench, "Its sides meet at"));
    bench.refuses("Depth when full, m", "deep", "not a length");
    bench.makes_one_step("Depth when full, m", "");
    assert_eq!(ground(&bench, "Marl Pond").basin, None);
}

#[test]
fn made_things_are_told_in_feet_and_gallons_where_those_are_in_use() {
    let mut bench = selected("Marl Pond");
    bench.enter("Depth when full, m", "1");
    bench.key(Key::Tab);
    bench.desk_mut().settings.units = foldcourse::quantity::UnitSystem::Imperial;
    bench.harness.run_steps(3);
    assert!(told(&bench, "gallons"));
    bench.select("T1");
    bench.enter("Hoop to hoop, yd", "7 ft");
    let spacing_m = ground(&bench, "T1").frame.map(|frame| frame.hoop_spacing_m);
    assert_eq!(spacing_m, Some(7.0 * 0.3048));
    assert!(
        bench
            .harness
            .query_all_by_label_contains(" cu ft")
            .next()
            .is_some()
    );
}
