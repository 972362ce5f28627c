//! The page of the course: cells typed and given back, courses made, the year on the map, clean ground, planting.

use egui::Key;
use egui_kittest::kittest::Queryable;
use foldcourse::app::forms::CourseTab;
use foldcourse::farm::{Courses, Family, HarvestRule, Use, cell_at, use_from_words};
use foldcourse::planning::Stand;

use crate::forms_desk::{Bench, short_example};

fn read(text: &str) -> Use {
    use_from_words(&Courses::default(), text)
}

/// Whether these words stand anywhere, once or more often.
fn says(bench: &Bench, words: &str) -> bool {
    let mut found = bench.harness.query_all_by_label_contains(words);
    found.next().is_some()
}

/// Chooses a cell by the beginning of what is heard of it.
fn press_cell(bench: &mut Bench, words: &str) {
    bench.wait_for_plan();
    bench.harness.get_by_label_contains(words).click();
    bench.harness.run_steps(3);
}

/// The page, with a course of the plots just made.
fn page() -> Bench {
    let mut bench = Bench::example();
    bench.key(Key::Y);
    assert_eq!(bench.desk().forms.course.tab, Some(CourseTab::Course));
    bench.press("Make a course of the plots");
    bench
}

#[test]
fn a_course_is_made_of_what_is_drawn_in_one_step_and_escape_leads_back() {
    let mut bench = Bench::example();
    let steps = bench.steps();
    bench.key(Key::Y);
    bench.press("Make a course of the plots");
    assert_eq!(bench.steps(), steps + 1);
    let course = &bench.farm().course.courses[0];
    assert_eq!(course.steps.len(), 6, "three plots and three leys");
    assert_eq!(course.steps[0].uses, [read("leeks, year 4 of 6")]);
    assert_eq!(course.steps[1].uses, [Use::Ley { year: None }]);
    bench.key(Key::Escape);
    assert_eq!(bench.desk().forms.course.tab, None);
    assert_eq!(bench.steps(), steps + 1, "Escape takes nothing back");
}

#[test]
fn a_cell_is_chosen_typed_over_and_given_back() {
    let mut bench = page();
    let gate = bench.ground("Gate Plot");
    bench.press("Gate Plot, 2027: squash, year 1, gourd family");
    // The field has the keys at once.
    bench.makes_one_step("Main crop of this year", "broad beans");
    let cell = cell_at(&bench.farm().course, gate, 2027, 0);
    assert!(cell.is_by_hand);
    assert_eq!(cell.used.family(), Some(Family::Pea));
    bench.makes_one_step("Crop 2 of this year", "cover: rye");
    assert_eq!(
        cell_at(&bench.farm().course, gate, 2027, 1).used,
        read("cover: rye")
    );
    assert!(bench.shows("Gate Plot, 2027: broad beans, pea family, then cover: rye, by hand"));
    bench.press("Back to the course");
    assert!(bench.farm().course.by_hand.is_empty());
    // What the course says anyway is no change by hand.
    bench.enter("Main crop of this year", "squash, year 1");
    assert!(bench.farm().course.by_hand.is_empty());
}

#[test]
fn a_cell_is_reached_and_pressed_by_key_alone() {
    let mut bench = page();
    let cell = bench.harness.get_by_label_contains("South Piece, 2028");
    cell.focus();
    bench.harness.run_steps(2);
    bench.key(Key::Enter);
    let chosen = (bench.ground("South Piece"), 2028);
    assert_eq!(bench.desk().forms.course.cell, Some(chosen));
    // Its field has the keys: typing goes there.
    bench.harness.event(egui::Event::Text("onions".to_owned()));
    bench.harness.run_steps(2);
    bench.key(Key::Enter);
    let cell = cell_at(&bench.farm().course, chosen.0, 2028, 0);
    assert_eq!(cell.used, read("onions"));
}

#[test]
fn steps_and_starts_are_typed_and_wrong_ones_refused() {
    let mut bench = page();
    bench.makes_one_step("Step 1 of Field course", "leeks + cover: rye");
    assert_eq!(bench.farm().course.courses[0].steps[0].uses.len(), 2);
    bench.makes_one_step("New step of Field course", "potatoes");
    assert_eq!(bench.farm().course.courses[0].steps.len(), 7);
    bench.makes_one_step("Start of Gate Plot", "7");
    let gate = bench.ground("Gate Plot");
    assert_eq!(bench.farm().course.courses[0].starts[&gate], 6);
    bench.refuses("Start of Gate Plot", "9", "write 1 to 7");
    bench.makes_one_step("Step 7 of Field course", "");
    assert_eq!(bench.farm().course.courses[0].starts[&gate], 0);
    bench.makes_one_step("First year", "2025");
    bench.makes_one_step("Years shown, years", "5");
    bench.makes_one_step("Years between crops of the cabbage family, years", "5");
    bench.refuses("Years shown, years", "0", "write 1 to 40");
    bench.refuses("First year", "next", "not a number");
}

#[test]
fn the_map_shows_the_year_and_says_so() {
    let mut bench = page();
    bench.press("2030");
    bench.press("On the map");
    assert_eq!(bench.desk().forms.course.tab, None);
    assert!(bench.shows("in the course of 2030"));
    bench
        .harness
        .key_press_modifiers(egui::Modifiers::SHIFT, Key::Y);
    bench.harness.run_steps(3);
    assert!(!bench.shows("in the course of 2030"));
}

#[test]
fn a_crop_in_a_ley_moves_the_flock_and_undo_brings_it_back() {
    let mut bench = page();
    let ley = bench.ground("Bank Ley");
    let strips: Vec<_> = bench
        .farm()
        .ground
        .iter()
        .filter(|(_, ground)| ground.within == Some(ley))
        .map(|(id, _)| *id)
        .collect();
    press_cell(&mut bench, "Bank Ley, 2027: ley, year 1");
    bench.enter("Main crop of this year", "lettuce");
    bench.wait_for_plan();
    bench.harness.run_steps(2);
    let plan = bench.desk().plan.clone().unwrap();
    assert!(!plan.clean.is_empty());
    let closed = plan
        .clean
        .iter()
        .find(|span| span.ground == ley)
        .unwrap()
        .clone();
    for stands in plan.stands.values() {
        for (index, stand) in stands.iter().enumerate() {
            let is_there = strips.iter().any(|strip| *stand == Stand::On(*strip));
            let is_closed = plan.day_at(index) >= closed.span.first;
            let is_settled = bench
                .farm()
                .fixed
                .values()
                .any(|fixed| fixed.place.is_some());
            assert!(
                !(is_there && is_closed) || is_settled,
                "{}",
                plan.day_at(index)
            );
        }
    }
    bench.press("Clean ground");
    assert!(says(&bench, "Bank Ley") && says(&bench, "120 days to picking"));
    bench
        .harness
        .key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
    bench.harness.run_steps(3);
    bench.wait_for_plan();
    bench.harness.run_steps(2);
    assert!(
        bench
            .desk()
            .plan
            .as_ref()
            .unwrap()
            .clean
            .iter()
            .all(|span| span.ground != ley)
    );
}

#[test]
fn every_rule_is_offered_and_choosing_one_is_a_step() {
    let mut bench = page();
    bench.press("Clean ground");
    for rule in HarvestRule::ALL {
        let name = rule.facts(bench.farm().course.own_wait).name;
        assert!(says(&bench, name), "{name}");
    }
    let steps = bench.steps();
    bench.press("UK, ready to eat, 12 months and 6 before planting");
    assert_eq!(bench.steps(), steps + 1);
    assert_eq!(bench.farm().course.harvest_rule, HarvestRule::UkReadyToEat);
    bench.makes_one_step("My days to harvest, touching soil, days", "150");
    bench.makes_one_step("Days to clear ground before sowing, days", "40");
}

#[test]
fn loads_and_planting_stand_on_pages_of_their_own() {
    let mut bench = page();
    bench.wait_for_plan();
    bench.press("Loads");
    assert!(says(&bench, "the whole holding") && says(&bench, "Local law decides"));
    bench.press("Planting");
    assert!(says(&bench, "By week"));
    bench.press("leeks, year 4 of 6, usual");
    bench.makes_one_step("Row to row, m", "0.5");
    bench.makes_one_step("Yield, kg/m²", "3.2");
    bench.makes_one_step("First picked", "1 october");
    bench.refuses("First picked", "soon", "not a day of the year");
    assert!(says(&bench, "0.5 × 0.15 m"));
    let steps = bench.steps();
    bench.press("Copy as rows");
    assert_eq!(bench.steps(), steps);
}

#[test]
fn a_farm_opens_on_the_map_and_a_tool_leads_back_to_it() {
    let mut bench = Bench::with(short_example());
    bench.key(Key::Y);
    bench.key(Key::M);
    assert_eq!(
        bench.desk().forms.course.tab,
        None,
        "the ruler is for the map"
    );
}
