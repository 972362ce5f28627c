//! The page of the flocks.

use egui::Key;
use egui_kittest::kittest::Queryable;
use foldcourse::app::forms::Page;
use foldcourse::farm::{MobId, StockClass, Visit};

use crate::forms_desk::{Bench, day, short_example};

const MOB: MobId = MobId(47);

fn flocks() -> Bench {
    let mut bench = Bench::example();
    bench.key(Key::A);
    assert_eq!(bench.desk().forms.page, Some(Page::Flocks));
    bench
}

#[test]
fn each_figure_of_a_flock_is_one_step() {
    let mut bench = flocks();
    bench.makes_one_step("Name", "Mules");
    bench.makes_one_step("Head, grown", "60");
    bench.makes_one_step("Liveweight of one, kg", "65,5 kg");
    bench.makes_one_step("One eats a day, kg DM", "2.2");
    bench.makes_one_step("Visit 1, first day", "15 apr");
    bench.makes_one_step("Visit 1, last day", "10 july");
    bench.makes_one_step("Yard, degrees north and east", "53.0502, -2.6003");
    let mob = &bench.farm().mobs[&MOB];
    assert_eq!((mob.name.as_str(), mob.head), ("Mules", 60));
    assert_eq!(mob.eats_kg_per_head, Some(2.2));
    let visit = Visit {
        from: day(2027, 4, 15),
        to: day(2027, 7, 10),
    };
    assert_eq!(mob.visits.first(), Some(&visit));
}

#[test]
fn an_edit_asks_for_a_new_plan() {
    let mut bench = flocks();
    bench.wait_for_plan();
    bench.enter("Head, grown", "20");
    // The question is put at once; the answer for fewer head comes from the planner's thread.
    bench.wait_for_plan();
    let plan = bench.desk().plan.clone().expect("a plan");
    let few: f64 = (0..plan.days).map(|index| plan.short_on(index)).sum();
    bench.enter("Head, grown", "900");
    assert!(bench.desk().planner.is_at_work(), "a plan is being sought");
    bench.wait_for_plan();
    let plan = bench.desk().plan.clone().expect("a plan");
    let many: f64 = (0..plan.days).map(|index| plan.short_on(index)).sum();
    assert!(
        many > few + 1000.0,
        "{many} kg short with many, {few} with few"
    );
}

#[test]
fn the_pages_are_found_by_what_is_typed() {
    for (typed, page) in [
        ("flock", Page::Flocks),
        ("sheep", Page::Flocks),
        ("hens", Page::Hens),
        ("grass", Page::Season),
        ("season", Page::Season),
    ] {
        let mut bench = Bench::example();
        bench
            .harness
            .key_press_modifiers(egui::Modifiers::COMMAND, Key::K);
        bench.harness.run_steps(3);
        bench.harness.event(egui::Event::Text(typed.to_owned()));
        bench.harness.run_steps(2);
        bench.key(Key::Enter);
        assert_eq!(bench.desk().forms.page, Some(page), "{typed}");
        bench.key(Key::Escape);
        assert_eq!(bench.desk().forms.page, None, "Escape leads back");
    }
}

#[test]
fn what_cannot_be_is_refused_in_words() {
    let mut bench = flocks();
    bench.refuses("Name", " ", "name is needed");
    bench.refuses("Head, grown", "some", "not a number");
    bench.refuses("Head, grown", "20.5", "whole number");
    bench.refuses("Liveweight of one, kg", "154 lb", "write it in kg");
    bench.refuses("Liveweight of one, kg", "0", "cannot be");
    bench.refuses("One eats a day, kg DM", "-1", "cannot be");
    bench.refuses("Visit 1, last day", "1 april 2027", "before it begins");
    bench.refuses("Visit 1, last day", "3 september 2027", "overlap");
    bench.refuses("Visit 2, first day", "31 february", "not a day");
    bench.refuses("Yard, degrees north and east", "53", "Two numbers");
}

#[test]
fn typing_alone_changes_nothing_until_the_field_is_left() {
    let mut bench = flocks();
    let steps = bench.steps();
    bench.type_into("Head, grown", "61");
    assert_eq!(bench.steps(), steps, "no step per key");
    bench.key(Key::Tab);
    assert_eq!(bench.farm().mobs[&MOB].head, 61);
    assert_eq!(bench.steps(), steps + 1);
}

#[test]
fn escape_leaves_the_figure_as_it_was() {
    let mut bench = flocks();
    let steps = bench.steps();
    bench.type_into("Head, grown", "61");
    bench.key(Key::Escape);
    assert_eq!(bench.steps(), steps);
    assert_eq!(bench.value("Head, grown"), "54");
}

#[test]
fn what_is_typed_is_kept_when_the_page_is_left_for_a_strip() {
    let mut bench = flocks();
    bench.type_into("Head, grown", "61");
    bench.select("W2");
    bench.harness.run_steps(3);
    assert_eq!(bench.desk().forms.page, None, "the facts of W2 are shown");
    assert_eq!(bench.farm().mobs[&MOB].head, 61);
}

#[test]
fn what_is_typed_is_kept_when_done_is_pressed() {
    let mut bench = flocks();
    bench.type_into("Head, grown", "61");
    bench.press("Done");
    assert_eq!(bench.desk().forms.page, None);
    assert_eq!(bench.farm().mobs[&MOB].head, 61);
}

#[test]
fn an_empty_field_means_the_share_of_the_class() {
    let mut bench = flocks();
    bench.enter("One eats a day, kg DM", "2.6");
    bench.enter("One eats a day, kg DM", "");
    assert_eq!(bench.farm().mobs[&MOB].eats_kg_per_head, None);
    assert!(bench.shows("113 kg DM"), "54 head of 70 kg at 3 %");
}

#[test]
fn a_class_brings_its_usual_weight_unless_they_were_weighed() {
    let mut bench = flocks();
    bench.press("They are");
    bench.press("lambs");
    let mob = &bench.farm().mobs[&MOB];
    assert_eq!(mob.class, StockClass::Lambs);
    assert!((mob.liveweight_kg - 35.0).abs() < 1e-9);
    bench.enter("Liveweight of one, kg", "41");
    bench.press("They are");
    bench.press("dry ewes");
    assert!((bench.farm().mobs[&MOB].liveweight_kg - 41.0).abs() < 1e-9);
    assert_eq!(bench.steps(), 3);
}

#[test]
fn visits_are_added_behind_each_other_and_taken_away() {
    let mut bench = flocks();
    bench.press("Add a visit");
    let visits = bench.farm().mobs[&MOB].visits.clone();
    assert_eq!(visits.len(), 3);
    assert!(visits.windows(2).all(|pair| pair[0].to < pair[1].from));
    bench.press("Take visit 2 away");
    assert_eq!(bench.farm().mobs[&MOB].visits, [visits[0], visits[2]]);
    assert_eq!(bench.steps(), 2);
}

#[test]
fn removing_a_flock_takes_its_settled_days_and_undo_brings_all_back() {
    let mut bench = flocks();
    let before = bench.farm().clone();
    assert!(!before.fixed.is_empty());
    bench.press("Remove Ewes with lambs");
    assert!(bench.farm().mobs.is_empty() && bench.farm().fixed.is_empty());
    assert_eq!(bench.steps(), 1);
    bench.desk_mut().undo();
    assert_eq!(*bench.farm(), before);
}

#[test]
fn a_farm_without_a_flock_says_so_and_one_press_leads_there() {
    let mut farm = short_example();
    farm.mobs.clear();
    farm.fixed.clear();
    farm.hen_houses.clear();
    let mut bench = Bench::with(farm);
    bench.wait_for_plan();
    let presses = bench.harness.get_all_by_label("Put in a flock").count();
    assert_eq!(presses, 2, "in the facts and in the ribbon");
    let first = bench.harness.get_all_by_label("Put in a flock").next();
    first.expect("a button").click();
    bench.harness.run_steps(3);
    assert_eq!(bench.desk().forms.page, Some(Page::Flocks));
    bench.press("Add a flock");
    let season = bench.farm().season;
    let mob = bench.farm().mobs.values().next().expect("a mob").clone();
    assert_eq!((mob.head, mob.class), (20, StockClass::EwesWithLambs));
    let whole = Visit {
        from: season.first_day,
        to: season.last_day(),
    };
    assert_eq!(mob.visits, [whole]);
    assert_eq!(bench.steps(), 1);
}

#[test]
fn the_yard_is_put_where_the_map_is_clicked() {
    let mut bench = flocks();
    bench.press("Put the yard where I click");
    let at = bench.desk().view.screen.center();
    let wanted = bench.desk().view.ground_from_screen(at);
    bench.harness.hover_at(at);
    bench.harness.drag_at(at);
    bench.harness.drop_at(at);
    bench.harness.run_steps(3);
    let yard = bench.farm().mobs[&MOB].yard.expect("a yard");
    assert!(yard.distance_m(wanted) < 0.01, "{yard:?} and {wanted:?}");
    assert_eq!(
        bench.desk().forms.page,
        Some(Page::Flocks),
        "the page stays"
    );
    assert_eq!(
        bench.desk().tool.name(),
        "Pick",
        "one click, then the usual tool"
    );
    bench.press("No yard");
    assert_eq!(bench.farm().mobs[&MOB].yard, None);
}

#[test]
fn a_flock_is_parted_and_joined_again_in_one_step_each() {
    let mut bench = flocks();
    bench.go_to(day(2027, 5, 20));
    let before = bench.farm().clone();
    let head = before.mobs[&MOB].as_on(day(2027, 5, 20)).head;
    bench.press("Part half off on 20 May");
    let farm = bench.farm().clone();
    let parted = farm
        .mobs
        .keys()
        .copied()
        .find(|id| !before.mobs.contains_key(id));
    let parted = parted.expect("a new flock");
    let on = |farm: &foldcourse::farm::Farm, id: MobId, on| farm.mobs[&id].as_on(on).head;
    assert_eq!(
        on(&farm, MOB, day(2027, 5, 19)),
        head,
        "the day before all are together"
    );
    assert_eq!(
        on(&farm, MOB, day(2027, 5, 20)) + on(&farm, parted, day(2027, 5, 20)),
        head
    );
    bench.go_to(day(2027, 5, 25));
    let name = farm.mobs[&MOB].name.clone();
    bench.press(&format!("Join {name} on 25 May"));
    assert_eq!(on(bench.farm(), MOB, day(2027, 5, 25)), head);
    assert!(!bench.farm().mobs[&parted].is_here(day(2027, 5, 25)));
    assert!(bench.farm().mobs[&parted].is_here(day(2027, 5, 24)));
    bench.undo();
    bench.undo();
    assert!(
        bench.farm().mobs == before.mobs,
        "two steps back all is as before"
    );
}

#[test]
fn a_later_change_is_added_altered_and_taken_away() {
    let mut bench = flocks();
    bench.go_to(day(2027, 6, 1));
    bench.press("A change from 1 June");
    bench.makes_one_step("Change 1, head, grown", "18");
    bench.makes_one_step("Change 1, what one head gains a day, g", "150");
    bench.makes_one_step("Change 1, first day", "3 june");
    bench.refuses("Change 1, liveweight of one, kg", "0", "cannot be");
    let change = bench.farm().mobs[&MOB].changes[0].clone();
    assert_eq!((change.head, change.from), (18, day(2027, 6, 3)));
    bench.press("Take change 1 away");
    assert!(bench.farm().mobs[&MOB].changes.is_empty());
}

#[test]
fn a_second_flock_comes_behind_the_first_and_goes_its_own_way_again() {
    let mut bench = flocks();
    let front = bench.farm().mobs[&MOB].name.clone();
    assert!(!bench.shows("It comes behind"), "there is no other flock");
    bench.press("Add a flock");
    bench.makes_one_step("Head, grown", "6");
    let other = *bench.farm().mobs.keys().next_back().expect("two flocks");
    bench.press("It comes behind");
    // Its row in the list bears the name as well: the choice was opened last.
    bench.press_last(&front);
    bench.makes_one_step("At most, days after", "4");
    bench.refuses("At most, days after", "0", "1 to 30");
    let follows = bench.farm().mobs[&other].follows.expect("it follows");
    assert_eq!((follows.mob, follows.days_after), (MOB, 4));
    bench.wait_for_plan();
    let plan = bench.desk().plan.clone().expect("a plan");
    assert!(
        plan.assumptions.join("; ").contains("come behind"),
        "{:?}",
        plan.assumptions
    );
    bench.press("It comes behind");
    bench.press("its own");
    assert_eq!(bench.farm().mobs[&other].follows, None);
}
