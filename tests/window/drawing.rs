//! Drawing on empty paper, by pointer and by figures.

use egui::{Key, Modifiers};
use foldcourse::farm::Kind;

use super::sitting::{Sitting, empty_farm, one_ley};

#[test]
fn an_outline_is_drawn_corner_by_corner_and_closed_on_its_first() {
    let mut sitting = Sitting::at(empty_farm());
    sitting.press("Outline tool");
    for place in [
        (-20.0, -10.0),
        (30.0, -10.0),
        (30.0, 40.0),
        (-20.0, 40.0),
        (-20.0, -10.0),
    ] {
        sitting.click(place);
    }
    let drawn = [(-20.0, -10.0), (30.0, -10.0), (30.0, 40.0), (-20.0, 40.0)];
    assert_within_a_pixel(&sitting, "Plot 1", &drawn);
    assert_eq!(sitting.steps(), 1);
    assert_eq!(sitting.selected(), ["Plot 1"]);
}

#[test]
fn enter_closes_an_outline_backspace_takes_a_corner_back_and_escape_drops_it() {
    let mut sitting = Sitting::at(empty_farm());
    sitting.key(Key::O);
    for place in [(0.0, 0.0), (40.0, 0.0), (90.0, 60.0)] {
        sitting.click(place);
    }
    sitting.key(Key::Backspace);
    sitting.click((40.0, 30.0));
    sitting.key(Key::Enter);
    assert_within_a_pixel(&sitting, "Plot 1", &[(0.0, 0.0), (40.0, 0.0), (40.0, 30.0)]);
    sitting.click((-30.0, 0.0));
    sitting.click((-30.0, 30.0));
    sitting.key(Key::Enter);
    assert_eq!(sitting.steps(), 1, "two corners are no outline");
    assert!(
        sitting.notice().contains("three corners"),
        "{}",
        sitting.notice()
    );
    sitting.key(Key::Escape);
    assert!(!sitting.desk().tool.is_busy());
    assert_eq!(sitting.names(), ["Plot 1"]);
}

#[test]
fn three_clicks_make_a_rectangle() {
    let mut sitting = Sitting::at(empty_farm());
    sitting.key(Key::R);
    for place in [(-40.0, -25.0), (40.0, -25.0), (13.0, 25.0)] {
        sitting.click(place);
    }
    let (id, _) = sitting.ground("Plot 1");
    let area_m2 = sitting.desk().measures(id).area_m2.unwrap();
    // A pixel of the screen is 0.35 m here, on either side.
    assert!((area_m2 - 80.0 * 50.0).abs() < 0.35 * 130.0, "{area_m2}");
    let corners = sitting.corners("Plot 1");
    assert_eq!(corners.len(), 4);
}

#[test]
fn figures_typed_while_drawing_are_exact() {
    let mut sitting = Sitting::at(empty_farm());
    sitting.key(Key::R);
    sitting.click((-40.0, -25.0));
    sitting.point((40.0, -25.0));
    sitting.type_text("80");
    sitting.key(Key::Enter);
    sitting.point((0.0, 30.0));
    sitting.type_text("50");
    sitting.key(Key::Enter);
    let (id, _) = sitting.ground("Plot 1");
    let area_m2 = sitting.desk().measures(id).area_m2.unwrap();
    assert!((area_m2 / 4000.0 - 1.0).abs() < 1e-4, "{area_m2}");
}

#[test]
fn a_line_a_place_and_a_chosen_kind_are_drawn() {
    let mut sitting = Sitting::at(empty_farm());
    sitting.key(Key::L);
    sitting.click((-50.0, 0.0));
    sitting.click((0.0, 20.0));
    sitting.double_click((50.0, 0.0));
    assert_eq!(sitting.ground("Fence 1").1.kind, Kind::Fence);
    sitting.key(Key::P);
    sitting.click((10.0, -40.0));
    assert_eq!(sitting.ground("Trough 1").1.kind, Kind::Trough);
    sitting.key(Key::O);
    sitting.press("plot");
    sitting.press("ley");
    for place in [(20.0, 40.0), (60.0, 40.0), (60.0, 80.0), (20.0, 40.0)] {
        sitting.click(place);
    }
    assert_eq!(sitting.ground("Ley 1").1.kind, Kind::Ley);
    assert_eq!(sitting.steps(), 3);
}

#[test]
fn the_ruler_leaves_nothing_behind() {
    let mut sitting = Sitting::at(one_ley());
    sitting.key(Key::M);
    sitting.click((-60.0, 60.0));
    sitting.click((60.0, 60.0));
    sitting.click((60.0, -60.0));
    assert_eq!(sitting.steps(), 0);
    sitting.key(Key::Escape);
    assert!(!sitting.desk().tool.is_busy());
}

#[test]
fn a_drawn_corner_snaps_to_one_that_is_there() {
    let mut sitting = Sitting::at(one_ley());
    sitting.desk_mut().snapping.is_off = false;
    sitting.key(Key::O);
    let near = sitting.desk().view.m_per_point * 5.0;
    for place in [
        (-40.0 + near, 25.0 + near),
        (0.0, 60.0),
        (40.0 - near, 25.0 + near),
    ] {
        sitting.click(place);
    }
    sitting.key(Key::Enter);
    let corners = sitting.ground("Plot 1").1.shape.corners();
    assert!(
        corners[0].distance_m(foldcourse::geometry::Point::new(-40.0, 25.0)) < 1e-9,
        "{corners:?}"
    );
    assert!(
        corners[2].distance_m(foldcourse::geometry::Point::new(40.0, 25.0)) < 1e-9,
        "{corners:?}"
    );
}

#[test]
fn what_is_drawn_is_undone_and_done_again() {
    let mut sitting = Sitting::at(empty_farm());
    sitting.key(Key::R);
    for place in [(-40.0, -25.0), (40.0, -25.0), (40.0, 25.0)] {
        sitting.click(place);
    }
    let drawn = sitting.desk().farm().clone();
    sitting.key_with(Modifiers::COMMAND, Key::Z);
    assert!(sitting.names().is_empty());
    assert!(
        sitting.notice().contains("Draw Plot 1"),
        "{}",
        sitting.notice()
    );
    sitting.key_with(Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    assert_eq!(sitting.desk().farm(), &drawn);
    sitting.key_with(Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    assert!(
        sitting.notice().contains("Nothing to do again"),
        "{}",
        sitting.notice()
    );
}

/// Corners lie where they were clicked, to a pixel of the screen.
#[track_caller]
pub(super) fn assert_within_a_pixel(sitting: &Sitting, name: &str, wanted: &[(f64, f64)]) {
    let corners = sitting.ground(name).1.shape.corners();
    assert_eq!(corners.len(), wanted.len(), "{corners:?}");
    let pixel_m = sitting.desk().view.m_per_point;
    for (corner, (east_m, north_m)) in corners.iter().zip(wanted) {
        let off_m = corner.distance_m(foldcourse::geometry::Point::new(*east_m, *north_m));
        assert!(
            off_m <= pixel_m,
            "{corner:?} is {off_m} m from {east_m}, {north_m}"
        );
    }
}
