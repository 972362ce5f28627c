//! Moving, reshaping, cutting and deleting what is drawn.

use egui::Key;
use foldcourse::farm::Kind;

use super::drawing::assert_within_a_pixel;
use super::sitting::{Sitting, farm_of, one_ley};

fn with_ley_selected() -> Sitting {
    let mut sitting = Sitting::at(one_ley());
    sitting.click((5.0, 8.0));
    assert_eq!(sitting.selected(), ["Home Ley"]);
    sitting
}

#[test]
fn a_corner_is_dragged_in_one_step() {
    let mut sitting = with_ley_selected();
    let path: Vec<(f64, f64)> = (0..=60)
        .map(|step| (40.0, 25.0 - f64::from(step) * 0.25))
        .collect();
    sitting.drag(&path);
    assert_within_a_pixel(
        &sitting,
        "Home Ley",
        &[(-40.0, -25.0), (40.0, -25.0), (40.0, 10.0), (-40.0, 25.0)],
    );
    assert_eq!(sitting.steps(), 1, "one drag is one step, however long");
}

#[test]
fn a_drag_is_a_preview_until_it_ends_and_escape_leaves_things_as_they_were() {
    let mut sitting = with_ley_selected();
    let before = sitting.desk().farm().clone();
    sitting.hold_drag(&[(40.0, 25.0), (35.0, 20.0), (20.0, 10.0)]);
    assert_eq!(sitting.desk().farm(), &before);
    assert!(sitting.desk().tool.is_busy());
    sitting.key(Key::Escape);
    assert_eq!(sitting.desk().farm(), &before);
    assert_eq!(sitting.steps(), 0);
}

#[test]
fn a_whole_ley_is_moved_with_its_strips() {
    let mut sitting = with_ley_selected();
    sitting.key(Key::S);
    sitting.press("Cut");
    let before = sitting.desk().farm().clone();
    sitting.drag(&[(7.0, 9.0), (10.0, 10.0), (17.0, 14.0)]);
    assert_eq!(sitting.steps(), 2);
    let after = sitting.desk().farm();
    let moved = after.ground.values().zip(before.ground.values());
    for (after, before) in moved {
        for (now, then) in after.shape.corners().iter().zip(before.shape.corners()) {
            let wanted = then.moved(10.0, 5.0);
            assert!(
                now.distance_m(wanted) < sitting.desk().view.m_per_point * 1.5,
                "{}",
                after.name
            );
        }
    }
}

#[test]
fn a_side_takes_a_new_corner_by_drag_or_double_click_and_a_corner_is_taken_away() {
    let mut sitting = with_ley_selected();
    sitting.drag(&[(0.0, 25.0), (0.0, 30.0), (0.0, 40.0)]);
    assert_within_a_pixel(
        &sitting,
        "Home Ley",
        &[
            (-40.0, -25.0),
            (40.0, -25.0),
            (40.0, 25.0),
            (0.0, 40.0),
            (-40.0, 25.0),
        ],
    );
    sitting.double_click((20.0, -25.0));
    assert_eq!(sitting.corners("Home Ley").len(), 6);
    sitting.double_click((0.0, 40.0));
    assert_eq!(sitting.corners("Home Ley").len(), 5);
    assert_eq!(sitting.steps(), 3);
}

#[test]
fn neighbours_corners_move_together_unless_held_apart() {
    let two = [
        ("West", Kind::Plot, (-40.0, -25.0), (40.0, 50.0)),
        ("East", Kind::Plot, (0.0, -25.0), (40.0, 50.0)),
    ];
    let mut sitting = Sitting::at(farm_of(&two));
    sitting.click((-20.0, 5.0));
    sitting.drag(&[(0.0, 25.0), (0.0, 30.0), (5.0, 35.0)]);
    assert_within_a_pixel(
        &sitting,
        "West",
        &[(-40.0, -25.0), (0.0, -25.0), (5.0, 35.0), (-40.0, 25.0)],
    );
    assert_within_a_pixel(
        &sitting,
        "East",
        &[(0.0, -25.0), (40.0, -25.0), (40.0, 25.0), (5.0, 35.0)],
    );
    assert_eq!(
        sitting.ground("West").1.shape.corners()[2],
        sitting.ground("East").1.shape.corners()[3]
    );
    assert_eq!(sitting.steps(), 1);
    sitting.key(Key::J);
    sitting.drag(&[(0.0, -25.0), (0.0, -30.0), (-5.0, -35.0)]);
    assert_within_a_pixel(
        &sitting,
        "East",
        &[(0.0, -25.0), (40.0, -25.0), (40.0, 25.0), (5.0, 35.0)],
    );
}

#[test]
fn a_line_cuts_a_plot_in_two_whose_areas_sum_to_the_whole() {
    let mut sitting = Sitting::at(one_ley());
    let whole_m2 = area_m2(&sitting, "Home Ley");
    sitting.key(Key::C);
    sitting.click((10.0, -50.0));
    sitting.click((10.0, 50.0));
    assert_eq!(sitting.names(), ["Home Ley", "Home Ley b"]);
    let sum_m2 = area_m2(&sitting, "Home Ley") + area_m2(&sitting, "Home Ley b");
    assert!(
        (sum_m2 / whole_m2 - 1.0).abs() < 1e-6,
        "{sum_m2} of {whole_m2}"
    );
    assert!((area_m2(&sitting, "Home Ley") / whole_m2 - 50.0 / 80.0).abs() < 0.01);
    assert_eq!(sitting.steps(), 1);
}

#[test]
fn a_line_that_cuts_nothing_says_so() {
    let mut sitting = Sitting::at(one_ley());
    sitting.key(Key::C);
    sitting.click((-60.0, 60.0));
    sitting.double_click((60.0, 60.0));
    assert_eq!(sitting.steps(), 0);
    assert!(
        sitting.notice().contains("does not cut"),
        "{}",
        sitting.notice()
    );
}

#[test]
fn a_ley_is_cut_into_equal_strips_by_the_question() {
    let mut sitting = with_ley_selected();
    sitting.press("Strips tool");
    sitting.press("Cut");
    let (ley, _) = sitting.ground("Home Ley");
    let strips: Vec<f64> = sitting
        .desk()
        .farm()
        .strips_of(ley)
        .map(|(id, _)| sitting.desk().measures(id).area_m2.unwrap())
        .collect();
    assert_eq!(strips.len(), 6);
    for area_m2 in strips {
        assert!((area_m2 - 80.0 * 50.0 / 6.0).abs() < 0.5, "{area_m2}");
    }
    assert_eq!(sitting.steps(), 1);
    sitting.key_with(egui::Modifiers::COMMAND, Key::Z);
    assert_eq!(sitting.names(), ["Home Ley"]);
}

#[test]
fn strips_of_an_area_leave_the_rest_to_the_last() {
    let mut sitting = with_ley_selected();
    sitting.press("Strips tool");
    sitting.press("Strips of");
    sitting.fill("Area of a strip", "0.15 ha");
    sitting.press("Cut");
    let (ley, _) = sitting.ground("Home Ley");
    let mut strips: Vec<f64> = sitting
        .desk()
        .farm()
        .strips_of(ley)
        .map(|(id, _)| sitting.desk().measures(id).area_m2.unwrap())
        .collect();
    strips.sort_by(f64::total_cmp);
    assert_eq!(strips.len(), 3);
    for (area_m2, wanted) in strips.iter().zip([1000.0, 1500.0, 1500.0]) {
        assert!((area_m2 - wanted).abs() < 2.0, "{strips:?}");
    }
}

#[test]
fn a_cancelled_question_changes_nothing() {
    let mut sitting = with_ley_selected();
    sitting.press("Strips tool");
    sitting.press("Cancel");
    assert_eq!(sitting.steps(), 0);
    sitting.press("Strips tool");
    sitting.key(Key::Escape);
    assert!(sitting.desk().dialog.is_none());
    assert_eq!(sitting.steps(), 0);
}

#[test]
fn deleting_a_ley_takes_its_strips_with_it() {
    let mut sitting = with_ley_selected();
    sitting.key(Key::S);
    sitting.key(Key::Enter);
    assert_eq!(sitting.names().len(), 7);
    sitting.key(Key::Delete);
    assert!(sitting.names().is_empty(), "{:?}", sitting.names());
    sitting.key_with(egui::Modifiers::COMMAND, Key::Z);
    assert_eq!(sitting.names().len(), 7);
}

fn area_m2(sitting: &Sitting, name: &str) -> f64 {
    let (id, _) = sitting.ground(name);
    sitting.desk().measures(id).area_m2.unwrap()
}
