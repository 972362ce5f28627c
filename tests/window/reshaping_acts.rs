//! Mending, joining, headlands, holes, mirroring and turning, each looked at on the map before it is done, one step each.

use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use foldcourse::app::settings::LightChoice;
use foldcourse::app::tools::Tool;
use foldcourse::farm::{Farm, Kind};

use super::picture::check;
use super::sitting::{Sitting, farm_of, one_ley};

/// Two plots that share a strip of 2 m.
fn overlapping() -> Farm {
    farm_of(&[
        ("West", Kind::Plot, (-40.0, -25.0), (41.0, 50.0)),
        ("East", Kind::Plot, (-1.0, -25.0), (41.0, 50.0)),
    ])
}

/// Two leys side by side.
fn side_by_side() -> Farm {
    farm_of(&[
        ("West Ley", Kind::Ley, (-40.0, -25.0), (40.0, 50.0)),
        ("East Ley", Kind::Ley, (0.0, -25.0), (40.0, 50.0)),
    ])
}

fn area_m2(sitting: &Sitting, name: &str) -> f64 {
    let (id, _) = sitting.ground(name);
    sitting.desk().measures(id).area_m2.unwrap()
}

#[track_caller]
fn assert_m2(sitting: &Sitting, name: &str, wanted: f64) {
    let area_m2 = area_m2(sitting, name);
    assert!(
        (area_m2 - wanted).abs() < 0.05,
        "{name}: {area_m2}, not {wanted}"
    );
}

/// Picks an act from the menu of reshaping.
#[track_caller]
fn from_menu(sitting: &mut Sitting, act: &str) {
    for words in ["Ground", "Reshape"] {
        let button = egui::accesskit::Role::Button;
        sitting.harness.get_by_role_and_label(button, words).click();
        sitting.settle();
    }
    sitting.harness.get_by_label_contains(act).click();
    sitting.settle();
}

fn is_reshaping(sitting: &Sitting) -> bool {
    matches!(sitting.desk().tool, Tool::Reshape(_))
}

/// The farm is as it was, and so is the history.
#[track_caller]
fn assert_untouched(sitting: &Sitting, farm: &Farm) {
    assert_eq!(sitting.desk().farm(), farm);
    assert_eq!(sitting.steps(), 0);
}

#[track_caller]
fn assert_undone(sitting: &mut Sitting, farm: &Farm) {
    assert_eq!(sitting.steps(), 1, "one act, one step");
    sitting.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(sitting.desk().farm().ground, farm.ground);
}

#[test]
fn an_overlap_is_shown_mended_before_it_is_mended() {
    let farm = overlapping();
    let mut sitting = Sitting::at(farm.clone());
    sitting.press("Show the mend");
    assert!(is_reshaping(&sitting));
    assert_untouched(&sitting, &farm);
    sitting.press("Give it to West");
    assert_untouched(&sitting, &farm);
    sitting.press("Mend");
    assert_m2(&sitting, "West", 41.0 * 50.0);
    assert_m2(&sitting, "East", 39.0 * 50.0);
    assert!(
        sitting.desk().findings().is_empty(),
        "{:?}",
        sitting.desk().findings()
    );
    assert_undone(&mut sitting, &farm);
    assert_eq!(sitting.desk().findings().len(), 1);
}

#[test]
fn an_overlap_is_mended_to_the_middle_by_keys_alone() {
    let farm = overlapping();
    let mut sitting = Sitting::at(farm.clone());
    sitting.key_with(Modifiers::SHIFT, Key::G);
    sitting.key(Key::Escape);
    assert!(!is_reshaping(&sitting));
    assert_untouched(&sitting, &farm);
    sitting.key_with(Modifiers::SHIFT, Key::G);
    sitting.key(Key::Enter);
    assert_m2(&sitting, "West", 2000.0);
    assert_m2(&sitting, "East", 2000.0);
    assert!(!is_reshaping(&sitting));
    assert_undone(&mut sitting, &farm);
}

#[test]
fn what_is_selected_first_keeps_its_name_when_joined() {
    let farm = side_by_side();
    let mut sitting = Sitting::at(farm.clone());
    sitting.click((20.0, 0.0));
    sitting.click_holding((-20.0, 0.0), Modifiers::SHIFT);
    assert_eq!(sitting.selected().len(), 2);
    sitting.key_with(Modifiers::SHIFT, Key::J);
    assert_untouched(&sitting, &farm);
    sitting.key(Key::Enter);
    assert_eq!(sitting.names(), ["East Ley"]);
    assert_m2(&sitting, "East Ley", 4000.0);
    assert_eq!(sitting.corners("East Ley").len(), 4);
    assert_undone(&mut sitting, &farm);
}

#[test]
fn what_does_not_touch_is_not_joined_and_that_is_said() {
    let farm = farm_of(&[
        ("A", Kind::Ley, (-60.0, -20.0), (30.0, 30.0)),
        ("B", Kind::Ley, (10.0, -20.0), (30.0, 30.0)),
    ]);
    let mut sitting = Sitting::at(farm.clone());
    sitting.click((-50.0, -10.0));
    sitting.click_holding((20.0, -10.0), Modifiers::SHIFT);
    sitting.key_with(Modifiers::SHIFT, Key::J);
    sitting.key(Key::Enter);
    assert!(
        sitting.notice().contains("does not touch"),
        "{}",
        sitting.notice()
    );
    sitting.key(Key::Escape);
    assert_untouched(&sitting, &farm);
}

#[test]
fn a_headland_is_set_out_all_round_by_typing_its_width() {
    let farm = one_ley();
    let mut sitting = Sitting::at(farm.clone());
    sitting.click((0.0, 0.0));
    sitting.key_with(Modifiers::SHIFT, Key::E);
    sitting.type_text("5");
    assert_untouched(&sitting, &farm);
    sitting.key(Key::Enter);
    assert_m2(&sitting, "Home Ley", 70.0 * 40.0);
    assert_m2(&sitting, "Home Ley headland 1", 4000.0 - 70.0 * 40.0);
    assert_undone(&mut sitting, &farm);
}

#[test]
fn a_headland_runs_along_the_side_that_is_clicked() {
    let farm = one_ley();
    let mut sitting = Sitting::at(farm.clone());
    sitting.click((0.0, 0.0));
    sitting.key_with(Modifiers::SHIFT, Key::E);
    sitting.fill("Width", "6");
    sitting.click((10.0, -25.0));
    sitting.press("Set out");
    assert_m2(&sitting, "Home Ley", 80.0 * 44.0);
    assert_undone(&mut sitting, &farm);
}

#[test]
fn a_headland_too_wide_says_so_and_cannot_be_set_out() {
    let farm = one_ley();
    let mut sitting = Sitting::at(farm.clone());
    sitting.click((0.0, 0.0));
    sitting.key_with(Modifiers::SHIFT, Key::E);
    sitting.type_text("30");
    sitting.key(Key::Enter);
    assert!(is_reshaping(&sitting));
    sitting.press("Cancel");
    assert_untouched(&sitting, &farm);
}

#[test]
fn a_headland_laid_over_leaves_the_outline_and_takes_it_off_the_net_area() {
    let mut sitting = Sitting::at(one_ley());
    sitting.click((0.0, 0.0));
    sitting.key_with(Modifiers::SHIFT, Key::E);
    sitting.fill("Width", "5");
    sitting.press("Laid over the edge; the ground keeps its outline");
    sitting.press("Set out");
    assert_m2(&sitting, "Home Ley", 4000.0);
    let (id, _) = sitting.ground("Home Ley");
    let net_m2 = sitting.desk().neighbourhood().net_area(id).unwrap().net_m2;
    assert!((net_m2 - 2800.0).abs() < 0.05, "{net_m2}");
}

#[test]
fn ground_is_kept_clear_round_a_line() {
    let mut sitting = Sitting::at(one_ley());
    sitting.key(Key::L);
    sitting.click((-30.0, 0.0));
    sitting.click((30.0, 0.0));
    sitting.key(Key::Enter);
    sitting.key(Key::V);
    sitting.key_with(Modifiers::SHIFT, Key::K);
    sitting.fill("Clear on each side", "2");
    sitting.press("Keep clear");
    let kept = sitting
        .names()
        .into_iter()
        .find(|name| name.contains("keep-out"))
        .unwrap()
        .to_owned();
    // What a pointer on a screen can mean is good to a decimetre or two.
    assert!(
        (area_m2(&sitting, &kept) - 60.0 * 4.0).abs() < 2.0,
        "{}",
        area_m2(&sitting, &kept)
    );
    assert_eq!(sitting.steps(), 2);
}

#[test]
fn a_hole_is_drawn_and_one_across_the_boundary_is_refused() {
    let farm = one_ley();
    let mut sitting = Sitting::at(farm.clone());
    sitting.key_with(Modifiers::SHIFT, Key::O);
    for place in [(30.0, 0.0), (50.0, 0.0), (50.0, 10.0)] {
        sitting.click(place);
    }
    sitting.key(Key::Enter);
    assert!(
        sitting.notice().contains("wholly inside"),
        "{}",
        sitting.notice()
    );
    assert_untouched(&sitting, &farm);
    sitting.key(Key::Escape);
    for place in [(-10.0, -10.0), (10.0, -10.0), (10.0, 10.0), (-10.0, 10.0)] {
        sitting.click(place);
    }
    sitting.key(Key::Enter);
    assert!((area_m2(&sitting, "Home Ley") - 3600.0).abs() < 8.0);
    assert_undone(&mut sitting, &farm);
}

#[test]
fn a_hole_is_given_back_or_drawn_as_water() {
    let mut sitting = Sitting::at(one_ley());
    sitting.key_with(Modifiers::SHIFT, Key::O);
    for place in [(-10.0, -10.0), (10.0, -10.0), (10.0, 10.0), (-10.0, 10.0)] {
        sitting.click(place);
    }
    sitting.key(Key::Enter);
    sitting.key(Key::V);
    from_menu(&mut sitting, "Fill a hole …");
    sitting.press("The hole stays and is drawn as ground of its own");
    sitting.press("Fill");
    assert!((area_m2(&sitting, "Home Ley water 1") - 400.0).abs() < 8.0);
    sitting.key_with(Modifiers::COMMAND, Key::Z);
    sitting.click((-30.0, 0.0));
    from_menu(&mut sitting, "Fill a hole …");
    sitting.press("Fill");
    assert_m2(&sitting, "Home Ley", 4000.0);
}

#[test]
fn a_pond_is_taken_out_of_the_ley_under_it() {
    let farm = farm_of(&[
        ("Home Ley", Kind::Ley, (-40.0, -25.0), (80.0, 50.0)),
        ("Pond", Kind::Water, (-5.0, -5.0), (10.0, 10.0)),
    ]);
    let mut sitting = Sitting::at(farm.clone());
    sitting.click((0.0, 0.0));
    assert_eq!(sitting.selected(), ["Pond"]);
    from_menu(&mut sitting, "Take out of the ground under it …");
    sitting.press("Take out");
    assert_m2(&sitting, "Home Ley", 3900.0);
    assert_undone(&mut sitting, &farm);
}

#[test]
fn what_is_selected_is_mirrored_across_a_side_that_is_clicked() {
    let farm = side_by_side();
    let mut sitting = Sitting::at(farm.clone());
    sitting.click((-20.0, 0.0));
    sitting.key_with(Modifiers::SHIFT, Key::M);
    sitting.press("Across a side: click it");
    sitting.click((40.0, 5.0));
    assert_untouched(&sitting, &farm);
    sitting.press("Mirror");
    let corners = sitting.corners("West Ley");
    assert!(
        corners.contains(&(80.0, -25.0)) && corners.contains(&(120.0, 25.0)),
        "{corners:?}"
    );
    assert_undone(&mut sitting, &farm);
}

#[test]
fn what_is_selected_is_mirrored_across_a_line_of_two_clicks() {
    let mut sitting = Sitting::at(one_ley());
    sitting.click((0.0, 0.0));
    sitting.key_with(Modifiers::SHIFT, Key::M);
    sitting.click((50.0, -50.0));
    sitting.click((50.0, 50.0));
    sitting.key(Key::Enter);
    let most = sitting
        .corners("Home Ley")
        .into_iter()
        .map(|(east, _)| east)
        .fold(0.0, f64::max);
    assert!((most - 140.0).abs() < 0.5, "{most}");
    assert_m2(&sitting, "Home Ley", 4000.0);
}

#[test]
fn what_is_selected_is_turned_by_typed_degrees_about_its_middle() {
    let farm = one_ley();
    let mut sitting = Sitting::at(farm.clone());
    sitting.click((0.0, 0.0));
    sitting.key_with(Modifiers::SHIFT, Key::T);
    sitting.type_text("90");
    sitting.key(Key::Enter);
    let corners = sitting.corners("Home Ley");
    assert!(
        corners.contains(&(25.0, 40.0)) && corners.contains(&(-25.0, -40.0)),
        "{corners:?}"
    );
    assert_undone(&mut sitting, &farm);
}

#[test]
fn what_is_selected_is_turned_by_dragging_about_a_corner() {
    let farm = one_ley();
    let mut sitting = Sitting::at(farm.clone());
    sitting.click((0.0, 0.0));
    sitting.key_with(Modifiers::SHIFT, Key::T);
    sitting.click((-40.0, -25.0));
    sitting.drag(&[(20.0, -25.0), (0.0, 20.0), (-40.0, 35.0)]);
    assert_untouched(&sitting, &farm);
    sitting.press("Turn");
    let corners = sitting.corners("Home Ley");
    // A quarter to the left about the south-west corner, as near as a pointer can mean it.
    assert_eq!(corners[0], (-40.0, -25.0));
    assert!(
        (corners[1].0 + 40.0).abs() < 1.0 && (corners[1].1 - 55.0).abs() < 1.0,
        "{corners:?}"
    );
    assert_m2(&sitting, "Home Ley", 4000.0);
    assert_undone(&mut sitting, &farm);
}

#[test]
fn a_cut_puts_its_corner_into_the_neighbour() {
    let mut sitting = Sitting::at(side_by_side());
    sitting.key(Key::C);
    sitting.click((-60.0, 5.0));
    sitting.click((-2.0, 5.0));
    sitting.click((20.0, 5.0));
    let corner = sitting
        .ground("West Ley b")
        .1
        .shape
        .corners()
        .into_iter()
        .find(|corner| corner.east_m.abs() < 0.01 && (corner.north_m - 5.0).abs() < 1.0);
    let corner = corner.expect("the cut ends on the shared side");
    assert!(
        sitting
            .ground("East Ley")
            .1
            .shape
            .corners()
            .contains(&corner)
    );
}

#[test]
fn locked_ground_is_left_alone_and_that_is_said() {
    let mut farm = one_ley();
    for ground in farm.ground.values_mut() {
        ground.is_locked = true;
    }
    let mut sitting = Sitting::at(farm.clone());
    sitting.click((0.0, 0.0));
    sitting.key_with(Modifiers::SHIFT, Key::T);
    sitting.type_text("90");
    sitting.key(Key::Enter);
    assert_untouched(&sitting, &farm);
    sitting.press("Cancel");
    sitting.key(Key::C);
    sitting.click((10.0, -50.0));
    sitting.click((10.0, 50.0));
    assert!(
        sitting.notice().contains("is locked"),
        "{}",
        sitting.notice()
    );
    assert_untouched(&sitting, &farm);
}

#[test]
fn pictures_of_a_mend_and_of_a_headland_before_they_are_done() {
    for (name, farm, open) in [
        ("mend", overlapping(), (Modifiers::SHIFT, Key::G)),
        ("headland", one_ley(), (Modifiers::SHIFT, Key::E)),
    ] {
        let mut sitting =
            Sitting::sized(farm, egui::Vec2::new(1280.0, 800.0), 1.0, LightChoice::Day);
        if name == "headland" {
            sitting.desk_mut().selected = sitting.desk().farm().ground.keys().copied().collect();
            sitting.settle();
        }
        sitting.key_with(open.0, open.1);
        sitting.harness.remove_cursor();
        sitting.settle();
        let drawn = sitting.harness.render().unwrap();
        check(
            &drawn,
            sitting.harness.ctx.pixels_per_point(),
            &format!("reshaping-{name}"),
        );
    }
}
