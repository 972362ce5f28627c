//! The season lived in the ribbon: bars dragged and moved by keys, a boundary dragged, weather and early moves.

use egui::{Key, Modifiers, Pos2};
use egui_kittest::kittest::Queryable;
use foldcourse::app::panels::facts_rows::facts_of;
use foldcourse::farm::{GroundId, MobId};
use foldcourse::planning::{RunningSpell, SeasonPlan, Stand};
use foldcourse::quantity::Day;

use super::sitting::{Sitting, day};

/// Left edge of the days within a row: the width of the names.
const NAMES: f32 = 190.0;

#[expect(
    clippy::cast_precision_loss,
    reason = "a season has a few thousand days at most"
)]
fn place_of(sitting: &Sitting, name: &str, on: Day) -> Pos2 {
    let season = sitting.desk().farm().season;
    let row = sitting
        .harness
        .get_by_label_contains(&format!("Season of {name}:"))
        .rect();
    let width = (row.width() - NAMES - 6.0) / season.days as f32;
    let index = on.days_since(season.first_day) as f32;
    Pos2::new(row.left() + NAMES + (index + 0.5) * width, row.center().y)
}

/// The middle of a bar, where it is held as a whole.
fn middle_of(sitting: &Sitting, name: &str, spell: RunningSpell) -> Pos2 {
    let (first, last) = (
        place_of(sitting, name, spell.first),
        place_of(sitting, name, spell.last),
    );
    first + (last - first) * 0.5
}

/// A spell that lies wholly ahead, of two days or more, and the name of its strip.
fn spell_ahead(sitting: &Sitting) -> (RunningSpell, String) {
    let desk = sitting.desk();
    let plan = desk.plan.as_deref().unwrap();
    let mob = *plan.stands.keys().next().unwrap();
    let days = (3..40).map(|step| desk.today.plus_days(step));
    let spell = days
        .filter_map(|day| RunningSpell::at(desk.farm(), plan, mob, day))
        .find(|spell| spell.first > desk.today && spell.last > spell.first)
        .unwrap();
    let name = desk.farm().ground[&spell.ground].name.clone();
    (spell, name)
}

fn stands_before(plan: &SeasonPlan, mob: MobId, today: Day) -> Vec<Stand> {
    (0..plan.days)
        .filter(|index| plan.day_at(*index) < today)
        .map(|index| plan.stand_at(mob, index))
        .collect()
}

fn hold_from(sitting: &mut Sitting, from: Pos2, to: Pos2) {
    sitting.harness.hover_at(from);
    sitting.harness.drag_at(from);
    sitting.harness.step();
    for share in [0.3, 0.7, 1.0] {
        sitting.harness.hover_at(from + (to - from) * share);
        sitting.harness.step();
    }
}

fn frames_until(sitting: &mut Sitting, done: impl Fn(&Sitting) -> bool) {
    for _ in 0..3000 {
        if done(sitting) {
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(5));
        sitting.harness.step();
    }
    panic!("nothing came of it");
}

fn is_held(sitting: &Sitting, mob: MobId, ground: GroundId, on: Day) -> bool {
    let plan = sitting.desk().plan.as_deref().unwrap();
    plan.stand_on(mob, on) == Stand::On(ground)
}

#[test]
fn a_dragged_bar_replans_while_it_moves_and_is_one_step_when_let_go() {
    let mut sitting = Sitting::at_example();
    let (spell, name) = spell_ahead(&sitting);
    let before = sitting.desk().plan.clone().unwrap();
    let past = stands_before(&before, spell.mob, sitting.desk().today);
    let fixed = sitting.desk().farm().fixed.clone();
    let from = middle_of(&sitting, &name, spell);
    let day_width = place_of(&sitting, &name, spell.first.plus_days(1)).x
        - place_of(&sitting, &name, spell.first).x;
    let to = from + egui::Vec2::new(3.0 * day_width, 0.0);
    hold_from(&mut sitting, from, to);
    assert_eq!(sitting.steps(), 0, "a drag is a preview");
    let wish = sitting.desk().live.drag.clone().unwrap().wish;
    assert_eq!(wish.first, spell.first.plus_days(3));
    frames_until(&mut sitting, |sitting| {
        is_held(sitting, spell.mob, spell.ground, wish.last)
            && !is_held(sitting, spell.mob, spell.ground, spell.first)
    });
    sitting.harness.drop_at(to);
    sitting.settle();
    assert_eq!(sitting.steps(), 1, "{}", sitting.notice());
    sitting.wait_for_plan();
    for step in 0..=wish.last.days_since(wish.first) {
        let on = wish.first.plus_days(step);
        assert!(is_held(&sitting, spell.mob, spell.ground, on), "{on}");
    }
    assert!(!is_held(&sitting, spell.mob, spell.ground, spell.first));
    let after = sitting.desk().plan.clone().unwrap();
    assert_eq!(
        stands_before(&after, spell.mob, sitting.desk().today),
        past,
        "what has been stays"
    );
    sitting.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(sitting.desk().farm().fixed, fixed, "undo frees them again");
}

#[test]
fn escape_drops_a_dragged_bar_and_brings_the_plan_back() {
    let mut sitting = Sitting::at_example();
    let (spell, name) = spell_ahead(&sitting);
    let before = sitting.desk().plan.clone().unwrap();
    let from = middle_of(&sitting, &name, spell);
    let to = from + egui::Vec2::new(24.0, 0.0);
    hold_from(&mut sitting, from, to);
    frames_until(&mut sitting, |sitting| {
        sitting.desk().plan.as_deref() != Some(&*before) || sitting.desk().live.trouble.is_some()
    });
    sitting.harness.key_press(Key::Escape);
    sitting.harness.run_steps(4);
    assert!(sitting.desk().live.drag.is_none());
    assert_eq!(sitting.desk().plan.as_deref(), Some(&*before));
    let day_in_view = sitting.desk().day;
    sitting.harness.drop_at(to);
    sitting.wait_for_plan();
    assert_eq!(sitting.desk().plan.as_deref(), Some(&*before));
    assert_eq!(
        sitting.desk().day,
        day_in_view,
        "the rest of the drag does nothing"
    );
    assert_eq!(sitting.steps(), 0);
}

#[test]
fn keys_make_the_chosen_spell_shorter_and_say_so_where_they_cannot() {
    let mut sitting = Sitting::at_example();
    let (spell, _) = spell_ahead(&sitting);
    sitting.desk_mut().select_only(spell.ground);
    sitting.desk_mut().go_to(spell.first);
    sitting.settle();
    sitting.key_with(Modifiers::ALT | Modifiers::SHIFT, Key::ArrowLeft);
    assert_eq!(sitting.steps(), 1, "{}", sitting.notice());
    sitting.wait_for_plan();
    assert!(is_held(&sitting, spell.mob, spell.ground, spell.first));
    assert!(!is_held(&sitting, spell.mob, spell.ground, spell.last));
    // No spell stands on a day before today.
    sitting.desk_mut().go_to(day("2027-04-20"));
    sitting.key_with(Modifiers::ALT, Key::ArrowRight);
    assert_eq!(sitting.steps(), 1);
    assert!(
        sitting.notice().contains("Choose a spell"),
        "{}",
        sitting.notice()
    );
}

#[test]
fn a_flock_that_moved_today_is_elsewhere_from_today_on_and_the_past_stays() {
    let mut sitting = Sitting::at_example();
    let today = sitting.desk().today;
    let plan = sitting.desk().plan.clone().unwrap();
    let mob = *plan.stands.keys().next().unwrap();
    let past = stands_before(&plan, mob, today);
    let spell = RunningSpell::at(sitting.desk().farm(), &plan, mob, today).unwrap();
    sitting.press("Moved today");
    assert_eq!(sitting.steps(), 1, "{}", sitting.notice());
    sitting.wait_for_plan();
    assert!(!is_held(&sitting, mob, spell.ground, today), "it has left");
    let moved = sitting.desk().plan.clone().unwrap();
    assert_eq!(stands_before(&moved, mob, today), past);
}

#[test]
fn a_day_longer_is_settled_or_the_rule_against_it_is_named() {
    let mut sitting = Sitting::at_example();
    let today = sitting.desk().today;
    let plan = sitting.desk().plan.clone().unwrap();
    let mob = *plan.stands.keys().next().unwrap();
    let past = stands_before(&plan, mob, today);
    let mut spell = RunningSpell::at(sitting.desk().farm(), &plan, mob, today).unwrap();
    let longest = i64::from(sitting.desk().farm().sward.longest_stay_days);
    let mut steps = 0;
    while spell.last.days_since(spell.first) + 1 < longest {
        sitting.press("Stay a day longer");
        sitting.wait_for_plan();
        steps += 1;
        assert_eq!(sitting.steps(), steps, "{}", sitting.notice());
        spell.last = spell.last.plus_days(1);
        assert!(is_held(&sitting, mob, spell.ground, spell.last));
        let after = sitting.desk().plan.clone().unwrap();
        assert_eq!(stands_before(&after, mob, today), past);
    }
    sitting.press("Stay a day longer");
    assert_eq!(sitting.steps(), steps);
    assert!(sitting.notice().contains("R3"), "{}", sitting.notice());
}

#[test]
fn the_figures_of_a_piece_follow_its_corner_while_it_is_dragged_and_come_back() {
    let mut sitting = Sitting::at_example();
    let (spell, name) = spell_ahead(&sitting);
    sitting.desk_mut().select_only(spell.ground);
    sitting.settle();
    let area_text = |sitting: &Sitting| {
        let facts = facts_of(sitting.desk(), spell.ground);
        let mut rows = facts[0].rows.iter();
        rows.find(|(name, _)| name == "Area").unwrap().1.clone()
    };
    let before = area_text(&sitting);
    let corner = sitting.ground(&name).1.shape.corners()[0];
    let from = (corner.east_m, corner.north_m);
    sitting.hold_drag(&[
        from,
        (from.0 + 4.0, from.1 + 4.0),
        (from.0 + 9.0, from.1 + 9.0),
    ]);
    sitting.harness.run_steps(2);
    let dragged = area_text(&sitting);
    assert_ne!(dragged, before);
    sitting.harness.get_by_label_contains(&dragged);
    sitting.harness.key_press(Key::Escape);
    sitting.harness.run_steps(4);
    assert_eq!(area_text(&sitting), before);
}

#[test]
fn the_ribbon_follows_a_boundary_that_is_dragged() {
    let mut sitting = Sitting::at_example();
    let (spell, name) = spell_ahead(&sitting);
    sitting.desk_mut().select_only(spell.ground);
    sitting.settle();
    let before = sitting.desk().plan.clone().unwrap();
    let corner = sitting.ground(&name).1.shape.corners()[0];
    let from = (corner.east_m, corner.north_m);
    let to = (corner.east_m + 9.0, corner.north_m + 9.0);
    sitting.hold_drag(&[from, (from.0 + 4.0, from.1 + 4.0), to]);
    sitting.harness.run_steps(2);
    frames_until(&mut sitting, |sitting| {
        let plan = sitting.desk().plan.as_deref().unwrap();
        (plan.area_ha[&spell.ground] - before.area_ha[&spell.ground]).abs() > 1e-6
    });
    assert_eq!(sitting.steps(), 0, "a drag is a preview");
    sitting.harness.key_press(Key::Escape);
    sitting.harness.run_steps(4);
    assert_eq!(sitting.desk().plan.as_deref(), Some(&*before));
}
