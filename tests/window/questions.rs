//! The page of questions: one press each, an answer in words, and nothing changed on the farm.

use std::time::Duration;

use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use foldcourse::app::asking::Answer;
use foldcourse::app::forms::Page;
use foldcourse::farm::MobId;

use super::sitting::Sitting;

fn page() -> Sitting {
    let mut sitting = Sitting::at_example();
    sitting.key_with(Modifiers::SHIFT, Key::Q);
    assert_eq!(sitting.desk().forms.page, Some(Page::Questions));
    sitting
}

/// Presses a question and waits for what comes of it.
fn answer(sitting: &mut Sitting, press: &str) -> Answer {
    sitting.press(press);
    for _ in 0..6000 {
        if sitting.desk().asking.share().is_none() {
            break;
        }
        std::thread::sleep(Duration::from_millis(10));
        sitting.harness.step();
    }
    sitting.settle();
    let (_, _, answer) = sitting.desk().asking.answer.clone().unwrap();
    answer
}

#[test]
fn one_press_tells_how_many_head_and_changes_nothing() {
    let mut sitting = page();
    let head = sitting.desk().farm().mobs.values().next().unwrap().head;
    let Answer::Head(found) = answer(&mut sitting, "How many head?") else {
        panic!("another answer");
    };
    assert!(
        found.head >= head,
        "{found:?}: the flock as it is has no short day"
    );
    let words = format!("{} head from 14 May", found.head);
    assert!(sitting.harness.query_by_label_contains(&words).is_some());
    assert_eq!(sitting.steps(), 0);
}

#[test]
fn what_is_typed_is_set_side_by_side_and_what_is_not_understood_is_said() {
    let mut sitting = page();
    sitting.fill("Rest all year, days", "many");
    sitting.press("Set side by side");
    assert!(
        sitting
            .harness
            .query_by_label_contains("not a number")
            .is_some()
    );
    sitting.fill("Rest all year, days", "30");
    let Answer::WhatIf(found) = answer(&mut sitting, "Set side by side") else {
        panic!("another answer");
    };
    assert!(found.as_is.moves > 0 && found.changed.moves > 0);
    assert!(sitting.harness.query_by_label("difference").is_some());
}

#[test]
fn a_remedy_is_put_into_force_as_one_step() {
    let mut sitting = Sitting::at_example();
    let id: MobId = *sitting.desk().farm().mobs.keys().next().unwrap();
    let old = sitting.desk().farm().mobs[&id].clone();
    let new = foldcourse::farm::Mob {
        head: old.head * 3,
        ..old.clone()
    };
    let edit = foldcourse::farm::Edit::Mob {
        id,
        old: Some(Box::new(old)),
        new: Some(Box::new(new)),
    };
    sitting.desk_mut().commit("More head", vec![edit]);
    sitting.wait_for_plan();
    let Answer::Remedies(found) = answer(&mut sitting, "What helps?") else {
        panic!("another answer");
    };
    assert!(
        !found.as_is.is_fed() && !found.remedies.is_empty(),
        "{found:?}"
    );
    let before = sitting.steps();
    let press = sitting.harness.query_all_by_label("Do it").next().unwrap();
    press.scroll_to_me();
    sitting.settle();
    sitting
        .harness
        .query_all_by_label("Do it")
        .next()
        .unwrap()
        .click();
    sitting.settle();
    assert_eq!(sitting.steps(), before + 1);
    assert!(
        sitting.desk().asking.answer.is_none(),
        "it was about the farm before"
    );
}
