//! Quiet when nothing happens: nothing drawn again, nothing added to the history.

use std::time::Duration;

use egui::ViewportId;

use super::sitting::{Sitting, one_ley};

/// Whether the window asks to be drawn again at once.
fn asks_for_more(sitting: &Sitting) -> bool {
    let viewport = &sitting.harness.output().viewport_output[&ViewportId::ROOT];
    viewport.repaint_delay < Duration::from_secs(1)
}

#[test]
fn an_idle_window_asks_for_no_frame_and_makes_no_step() {
    let mut sitting = Sitting::at_example();
    assert!(!asks_for_more(&sitting));
    for _ in 0..100 {
        sitting.harness.step();
        assert!(!asks_for_more(&sitting));
    }
    assert_eq!(sitting.steps(), 0);
    assert!(!sitting.desk().history.is_unsaved());
}

#[test]
fn a_window_with_something_chosen_and_a_tool_in_hand_is_idle_too() {
    let mut sitting = Sitting::at(one_ley());
    sitting.click((5.0, 8.0));
    sitting.key(egui::Key::O);
    sitting.click((-50.0, 40.0));
    sitting.wait_for_plan();
    for _ in 0..20 {
        sitting.harness.step();
    }
    assert!(
        !asks_for_more(&sitting),
        "{:?}",
        sitting.harness.ctx.repaint_causes()
    );
}

#[test]
fn a_question_on_screen_is_idle_too() {
    let mut sitting = Sitting::at(one_ley());
    sitting.click((5.0, 8.0));
    sitting.press("Strips tool");
    sitting.wait_for_plan();
    for _ in 0..20 {
        sitting.harness.step();
    }
    assert!(
        !asks_for_more(&sitting),
        "{:?}",
        sitting.harness.ctx.repaint_causes()
    );
}

#[test]
fn panning_and_zooming_make_no_step() {
    let mut sitting = Sitting::at(one_ley());
    sitting.key(egui::Key::F);
    let before = sitting.desk().view;
    sitting.drag(&[(-30.0, 30.0), (-25.0, 28.0), (-20.0, 26.0)]);
    assert_ne!(
        sitting.desk().view.middle,
        before.middle,
        "empty paper is panned"
    );
    sitting.key(egui::Key::Plus);
    assert!(sitting.desk().view.m_per_point < before.m_per_point);
    sitting.key(egui::Key::F);
    assert_eq!(sitting.desk().view, before, "the whole farm is shown again");
    assert_eq!(sitting.steps(), 0);
}
