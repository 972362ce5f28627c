//! The course of crops: what stands where in which year, and what is amiss in it.

use std::collections::{BTreeMap, BTreeSet};

use foldcourse::farm::{
    Course, CourseFinding, CourseStep, Courses, Edit, Family, Farm, FindingCode, Ground, GroundId,
    History, Kind, Severity, Turn, Use, cell_at, course_findings, findings, use_from_words,
    use_words, uses_at, year_areas,
};
use proptest::prelude::*;

use super::sample::{empty_farm, put, rectangle};

fn read(text: &str) -> Use {
    use_from_words(&Courses::default(), text)
}

fn step(crops: &[&str]) -> CourseStep {
    CourseStep {
        uses: crops.iter().map(|crop| read(crop)).collect(),
    }
}

fn course(turn: Turn, steps: &[&[&str]], starts: &[(GroundId, u8)]) -> Course {
    Course {
        name: "Course".to_owned(),
        steps: steps.iter().map(|crops| step(crops)).collect(),
        first_year: 2027,
        turn,
        is_one_each: true,
        starts: starts.iter().copied().collect(),
    }
}

/// Plots of 40 by 25 m, a tenth of a hectare each, side by side.
fn plots(farm: &mut Farm, count: u32, kind: Kind) -> Vec<GroundId> {
    (0..count)
        .map(|place| {
            let shape = rectangle(f64::from(place) * 50.0, 0.0, 40.0, 25.0);
            put(farm, Ground::new(format!("P{}", place + 1), kind, shape))
        })
        .collect()
}

fn words(farm: &Farm, ground: GroundId, year: i16) -> Vec<String> {
    uses_at(&farm.course, ground, year)
        .iter()
        .map(use_words)
        .collect()
}

fn with_code(farm: &Farm, code: FindingCode) -> Vec<CourseFinding> {
    let all = course_findings(farm);
    all.into_iter().filter(|found| found.code == code).collect()
}

/// The Norfolk shape: roots, spring corn, ley, winter corn; as one knows it (from memory, no text).
const FOUR_COURSE: [&[&str]; 4] = [&["turnips"], &["barley"], &["ley"], &["wheat"]];

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn over_as_many_years_as_steps_every_plot_passes_every_step_once(
        count in 1_usize..=12, start in 0_u8..12, from in 1900_i16..2180, first_year in 1900_i16..2199,
        moves_on in any::<bool>(),
    ) {
        let plot = GroundId(1);
        let turn = if moves_on { Turn::CropsMoveOn } else { Turn::NextStep };
        let steps: Vec<CourseStep> = (0..count).map(|place| step(&[&format!("crop {place}")])).collect();
        let start = start % u8::try_from(count).unwrap();
        let course = Course {
            name: String::new(), steps, first_year, turn, is_one_each: false,
            starts: BTreeMap::from([(plot, start)]),
        };
        prop_assert_eq!(course.step_index(plot, first_year), Some(usize::from(start)));
        let seen: Vec<usize> = (from..).take(count).filter_map(|year| course.step_index(plot, year)).collect();
        let each: BTreeSet<usize> = seen.iter().copied().collect();
        prop_assert_eq!(each.len(), count);
        prop_assert_eq!(course.step_index(plot, from + i16::try_from(count).unwrap()), seen.first().copied());
    }

    #[test]
    fn a_course_of_four_with_one_cropped_over_eight_plots_crops_two_in_every_year_from_any_start(
        turn in 0_u8..4, from in 1990_i16..2100,
    ) {
        let mut farm = empty_farm();
        let ids = plots(&mut farm, 8, Kind::Plot);
        let starts: Vec<(GroundId, u8)> = ids.iter().zip(0_u8..).map(|(id, place)| (*id, (place + turn) % 4)).collect();
        let steps: [&[&str]; 4] = [&["potatoes"], &["ley"], &["ley"], &["ley"]];
        farm.course.courses = vec![course(Turn::NextStep, &steps, &starts)];
        farm.course.first_year = Some(from);
        for year in from..from + 8 {
            let cropped = ids.iter().filter(|id| cell_at(&farm.course, **id, year, 0).used.is_crop()).count();
            prop_assert_eq!(cropped, 2);
            let (_, areas) = year_areas(&farm).into_iter().find(|(at, _)| *at == year).unwrap();
            prop_assert!((areas.cropped_m2() * 3.0 - areas.ley_m2).abs() < 0.1);
        }
        // 1 in 4 with potatoes: the least that general advice gives, and six are advised.
        let soon = with_code(&farm, FindingCode::FamilyBackSoon);
        prop_assert!(soon.iter().all(|found| found.severity == Severity::Note));
        prop_assert!(with_code(&farm, FindingCode::StepShared).is_empty());
        prop_assert!(with_code(&farm, FindingCode::YearsUneven).is_empty());
        prop_assert!(with_code(&farm, FindingCode::LeyShort).is_empty());
    }
}

#[test]
fn each_plot_takes_the_next_step_every_year() {
    let mut farm = empty_farm();
    let ids = plots(&mut farm, 2, Kind::Plot);
    farm.course.courses = vec![course(
        Turn::NextStep,
        &FOUR_COURSE,
        &[(ids[0], 0), (ids[1], 2)],
    )];
    let seen: Vec<_> = (2027..=2031)
        .map(|year| words(&farm, ids[0], year))
        .collect();
    assert_eq!(
        seen.concat(),
        ["turnips", "barley", "ley, year 1", "wheat", "turnips"]
    );
    assert_eq!(words(&farm, ids[1], 2027), ["ley, year 1"]);
    assert_eq!(words(&farm, ids[1], 2026), ["barley"]);
}

#[test]
fn crops_move_on_one_tunnel_with_the_winter_salad_behind_them() {
    let mut farm = empty_farm();
    let ids = plots(&mut farm, 4, Kind::Tunnel);
    let steps: [&[&str]; 4] = [
        &["tomatoes", "winter salad"],
        &["cucumbers", "winter brassica leaves"],
        &["lettuce"],
        &["french beans", "winter spinach"],
    ];
    let starts: Vec<_> = ids.iter().copied().zip(0_u8..).collect();
    farm.course.courses = vec![course(Turn::CropsMoveOn, &steps, &starts)];
    // What stood in the first tunnel stands in the second the year after.
    for year in 2027..2040 {
        for pair in ids.windows(2) {
            assert_eq!(words(&farm, pair[0], year), words(&farm, pair[1], year + 1));
        }
    }
    assert_eq!(words(&farm, ids[0], 2027), ["tomatoes", "winter salad"]);
    assert_eq!(words(&farm, ids[1], 2028), ["tomatoes", "winter salad"]);
    let (_, areas) = year_areas(&farm).remove(0);
    assert!(
        areas.cropped_m2() < 1e-9,
        "tunnels stand apart from open ground"
    );
    assert_eq!(areas.tunnels_by_family_m2.len(), 4);
}

#[test]
fn a_cell_changed_by_hand_stands_above_the_course_and_is_given_back() {
    let mut farm = empty_farm();
    let ids = plots(&mut farm, 1, Kind::Plot);
    farm.course.courses = vec![course(Turn::NextStep, &FOUR_COURSE, &[(ids[0], 0)])];
    let mut history = History::new(farm);
    let old = history.farm().course.clone();
    let mut new = old.clone();
    new.by_hand.insert((ids[0], 2028, 0), read("peas"));
    new.by_hand.insert((ids[0], 2028, 1), read("cover: rye"));
    let touched = history
        .commit("Peas", vec![Edit::change_course(&old, new)])
        .unwrap();
    assert!(touched.season, "the plan follows the course");
    let cell = cell_at(&history.farm().course, ids[0], 2028, 0);
    assert!(cell.is_by_hand);
    assert_eq!(words(history.farm(), ids[0], 2028), ["peas", "cover: rye"]);
    assert_eq!(words(history.farm(), ids[0], 2029), ["ley, year 1"]);
    history.undo();
    assert_eq!(words(history.farm(), ids[0], 2028), ["barley"]);
    assert_eq!(history.farm().course, old);
}

#[test]
fn leys_are_counted_from_what_was_said_or_from_their_first_year() {
    let mut farm = empty_farm();
    let ids = plots(&mut farm, 2, Kind::Ley);
    for year in 2027..=2029 {
        farm.course.by_hand.insert((ids[0], year, 0), read("ley"));
    }
    farm.course
        .by_hand
        .insert((ids[1], 2027, 0), read("ley, year 3"));
    farm.course.by_hand.insert((ids[1], 2028, 0), read("ley"));
    assert_eq!(words(&farm, ids[0], 2029), ["ley, year 3"]);
    assert_eq!(words(&farm, ids[1], 2028), ["ley, year 4"]);
    // A course of nothing but ley is not counted for ever.
    let steps: [&[&str]; 1] = [&["ley"]];
    let all_ley = put(
        &mut farm,
        Ground::new("All", Kind::Ley, rectangle(0.0, 50.0, 9.0, 9.0)),
    );
    farm.course.courses = vec![course(Turn::NextStep, &steps, &[(all_ley, 0)])];
    assert_eq!(cell_at(&farm.course, all_ley, 2027, 0).ley_year, Some(99));
}

#[test]
fn a_ley_broken_before_its_years_is_told_at_its_last_year() {
    let mut farm = empty_farm();
    let ids = plots(&mut farm, 2, Kind::Plot);
    let steps: [&[&str]; 3] = [&["leeks"], &["carrots"], &["ley"]];
    farm.course.courses = vec![course(Turn::NextStep, &steps, &[(ids[0], 0)])];
    let short = with_code(&farm, FindingCode::LeyShort);
    let years: Vec<i16> = short.iter().map(|found| found.year).collect();
    assert_eq!(years, [2029, 2032]);
    assert!(
        short[0].what.contains("after 1 of the 2 years"),
        "{short:?}"
    );
    farm.course.ley_years_wanted = Some(1);
    assert!(with_code(&farm, FindingCode::LeyShort).is_empty());
    // A ley of which nobody said how long it has lain is not called short.
    farm.course.ley_years_wanted = Some(4);
    farm.course.courses.clear();
    farm.course.by_hand.insert((ids[1], 2027, 0), read("ley"));
    farm.course.by_hand.insert((ids[1], 2028, 0), read("leeks"));
    assert!(with_code(&farm, FindingCode::LeyShort).is_empty());
    farm.course
        .by_hand
        .insert((ids[1], 2027, 0), read("ley, year 3"));
    assert_eq!(with_code(&farm, FindingCode::LeyShort).len(), 1);
}

#[test]
fn two_plots_at_one_step_are_told_where_one_each_is_wanted() {
    let mut farm = empty_farm();
    let ids = plots(&mut farm, 4, Kind::Plot);
    let starts = [(ids[0], 0), (ids[1], 1), (ids[2], 1), (ids[3], 3)];
    farm.course.courses = vec![course(Turn::NextStep, &FOUR_COURSE, &starts)];
    let shared = with_code(&farm, FindingCode::StepShared);
    assert_eq!(shared.len(), 1);
    assert_eq!(shared[0].ground, Some(ids[2]));
    assert!(shared[0].what.contains("P2 and P3"), "{shared:?}");
    farm.course.courses[0].is_one_each = false;
    assert!(with_code(&farm, FindingCode::StepShared).is_empty());
}

#[test]
fn a_year_with_much_more_under_crop_and_a_family_above_half_are_told() {
    let mut farm = empty_farm();
    let ids = plots(&mut farm, 4, Kind::Plot);
    farm.course.years = Some(2);
    for (place, crop) in ["leeks", "onions", "garlic", "carrots"].iter().enumerate() {
        farm.course
            .by_hand
            .insert((ids[place], 2027, 0), read(crop));
    }
    farm.course
        .by_hand
        .insert((ids[0], 2028, 0), read("beetroot"));
    let uneven = with_code(&farm, FindingCode::YearsUneven);
    assert_eq!(uneven.len(), 1);
    assert_eq!((uneven[0].year, uneven[0].ground), (2027, None));
    let large = with_code(&farm, FindingCode::FamilyLarge);
    assert_eq!(large.len(), 1);
    assert!(large[0].what.contains("75 %"), "{large:?}");
    let told = findings(&farm);
    assert!(
        told.iter()
            .any(|found| found.code == FindingCode::FamilyLarge)
    );
}

#[test]
fn a_farm_of_which_no_course_was_said_gives_no_word_about_it() {
    let mut farm = empty_farm();
    plots(&mut farm, 3, Kind::Plot);
    assert!(course_findings(&farm).is_empty());
}

#[test]
fn crops_are_known_by_the_words_that_growers_use() {
    let family = |text: &str| read(text).family();
    for (text, wanted) in [
        ("Leeks", Family::Onion),
        ("savoy cabbages", Family::Cabbage),
        ("swede", Family::Cabbage),
        ("Broad beans", Family::Pea),
        ("early potatoes", Family::Nightshade),
        ("sweet potato", Family::Other),
        ("winter salad", Family::Daisy),
        ("peppers and basil", Family::Nightshade),
        ("sweetcorn", Family::Grass),
        ("pears", Family::Other),
        ("squash after vetch", Family::Gourd),
    ] {
        assert_eq!(family(text), Some(wanted), "{text}");
    }
}
