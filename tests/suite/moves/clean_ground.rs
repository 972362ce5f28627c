//! Clean ground: the last day for animals before a crop, how the plan keeps it, and what the sheet says of it.

use std::collections::BTreeMap;

use foldcourse::farm::{
    Contact, Courses, Farm, FixedPlace, Ground, GroundId, HarvestRule, Kind, MobId, OwnCrop,
    use_from_words,
};
use foldcourse::planning::{
    CleanCause, CleanCrop, Stand, clean_crops, clean_spans, fruit_lines, hen_walk, live_season,
    problem_from, settled_on_clean,
};
use foldcourse::quantity::{Day, YearDay};
use foldcourse::sheets::season_sheet::sheet_days;

use crate::farm::sample::{day, empty_farm, ewes, hens, line, put, rectangle, two_strip_farm};

const EWES: MobId = MobId(90);

/// One plot with a crop in a year, by a rule.
fn plot_with(crop: &str, year: i16, rule: HarvestRule) -> (Farm, GroundId) {
    let mut farm = empty_farm();
    let shape = rectangle(0.0, 0.0, 40.0, 25.0);
    let plot = put(&mut farm, Ground::new("Plot", Kind::Plot, shape));
    let used = use_from_words(&Courses::default(), crop);
    farm.course.by_hand.insert((plot, year, 0), used);
    farm.course.harvest_rule = rule;
    (farm, plot)
}

fn only_crop(farm: &Farm, year: i16) -> CleanCrop {
    let (first, last) = (Day::new(year, 1, 1), Day::new(year, 12, 31));
    let mut crops = clean_crops(farm, first.unwrap(), last.unwrap());
    assert_eq!(crops.len(), 1, "{crops:#?}");
    crops.remove(0)
}

fn own_days(farm: &mut Farm, crop: &str, days: [(i8, i8); 3]) {
    let [planted, first, last] = days.map(|(month, day)| YearDay::new(month, day));
    let own = OwnCrop {
        planted,
        first_harvest: first,
        last_harvest: last,
        ..OwnCrop::default()
    };
    farm.course.own_crops.insert(crop.to_owned(), own);
}

/// The same days as 7 CFR 205.203(c) read forward: hens off on 1 April give a harvest from 30 July where it touches
/// the soil and 30 June where it does not; 4, 6 and 12 months by the United Kingdom's texts.
#[test]
fn the_last_day_for_animals_is_the_rule_read_backward_from_the_first_harvest() {
    for (rule, crop, harvest) in [
        (HarvestRule::UsOrganic, "carrots", (7, 30)),
        (HarvestRule::UsOrganic, "tomatoes", (6, 30)),
        (HarvestRule::UkStockInField, "carrots", (8, 1)),
        (HarvestRule::UkFreshManure, "carrots", (10, 1)),
    ] {
        let (mut farm, _) = plot_with(crop, 2026, rule);
        farm.course.clear_days = Some(0);
        own_days(&mut farm, crop, [(5, 1), harvest, (12, 1)]);
        let made = only_crop(&farm, 2026);
        assert_eq!(
            made.last_animals(),
            (CleanCause::Harvest, day("2026-04-01")),
            "{rule:?} {crop}"
        );
        assert_eq!(made.closed().first, day("2026-04-02"));
        assert_eq!(made.closed().last, day("2026-12-01"));
    }
}

#[test]
fn the_uk_guide_counts_to_planting_as_well_and_clearing_counts_where_it_is_earlier() {
    let (mut farm, _) = plot_with("lettuce", 2027, HarvestRule::UkReadyToEat);
    own_days(&mut farm, "lettuce", [(10, 1), (4, 1), (5, 1)]);
    let made = only_crop(&farm, 2027);
    // Planted on 1 October 2026: six months before is 1 April, as is twelve before the first harvest of 1 April 2027.
    let by: BTreeMap<CleanCause, Day> = made.last_by.into_iter().collect();
    assert_eq!(by[&CleanCause::Planting], day("2026-04-01"));
    assert_eq!(by[&CleanCause::Harvest], day("2026-04-01"));
    assert_eq!(by[&CleanCause::Clearing], day("2026-09-03"));
    farm.course.harvest_rule = HarvestRule::UsProduceSafety;
    let made = only_crop(&farm, 2027);
    assert_eq!(
        made.last_animals(),
        (CleanCause::Clearing, day("2026-09-03"))
    );
}

#[test]
fn a_crop_that_stands_over_winter_counts_to_the_year_of_its_first_harvest() {
    let (farm, _) = plot_with("garlic", 2028, HarvestRule::UsOrganic);
    let made = only_crop(&farm, 2028);
    assert_eq!(made.planted, day("2027-10-20"));
    assert_eq!(made.first_harvest, day("2028-07-05"));
    let (farm, _) = plot_with("leeks", 2027, HarvestRule::UsOrganic);
    assert_eq!(only_crop(&farm, 2027).last_harvest, day("2028-03-31"));
}

#[test]
fn what_nobody_eats_waits_for_nothing_but_the_clearing() {
    let (mut farm, _) = plot_with("field rape (cabbage)", 2027, HarvestRule::UkReadyToEat);
    let own = OwnCrop {
        contact: Some(Contact::NotFood),
        ..OwnCrop::default()
    };
    farm.course.own_crops.insert("field rape".to_owned(), own);
    assert_eq!(
        only_crop(&farm, 2027).last_animals().0,
        CleanCause::Clearing
    );
    // A ley, a cover crop and fallow close nothing at all.
    for words in ["ley", "cover: phacelia", "fallow"] {
        let (farm, _) = plot_with(words, 2027, HarvestRule::UkReadyToEat);
        let (first, last) = (day("2027-01-01"), day("2027-12-31"));
        assert!(clean_crops(&farm, first, last).is_empty(), "{words}");
    }
}

/// Two strips of a ley and forty ewes from 1 April to 30 June 2027.
fn ley_with_ewes() -> (Farm, GroundId, [GroundId; 2]) {
    let (mut farm, ley, strips) = two_strip_farm();
    farm.mobs.insert(EWES, ewes());
    (farm, ley, strips)
}

fn put_in(farm: &mut Farm, ley: GroundId, year: i16, crop: &str) {
    let used = use_from_words(&Courses::default(), crop);
    farm.course.by_hand.insert((ley, year, 0), used);
}

#[test]
fn a_crop_in_the_ley_closes_its_strips_and_the_season_is_planned_round_it() {
    let (mut farm, ley, strips) = ley_with_ewes();
    let before = problem_from(&farm, farm.season.first_day, farm.season.days).unwrap();
    assert!(
        before
            .problem
            .strips
            .iter()
            .all(|strip| strip.closed.is_empty())
    );
    // Leeks go in on 10 June: 28 days to clear the ground leave 13 May as the last day; 120 days before 15 September
    // is 18 May, which comes later.
    put_in(&mut farm, ley, 2027, "leeks");
    let made = problem_from(&farm, farm.season.first_day, farm.season.days).unwrap();
    for strip in &made.problem.strips {
        assert_eq!(strip.closed.len(), 1, "{}", strip.name);
        assert_eq!(strip.closed[0].first, day("2027-05-14"));
    }
    let plan = live_season(&farm, &mut |_| true).unwrap();
    for index in 0..plan.days {
        let stands = plan.stand_at(EWES, index);
        let is_on_strip = strips.iter().any(|strip| stands == Stand::On(*strip));
        assert!(
            !is_on_strip || plan.day_at(index) < day("2027-05-14"),
            "{} {stands:?}",
            plan.day_at(index)
        );
    }
}

#[test]
fn the_sheet_says_when_ground_must_be_clear_and_for_what() {
    let (mut farm, ley, strips) = ley_with_ewes();
    put_in(&mut farm, ley, 2027, "leeks");
    // The last day that is allowed is settled, so that the sheep stand there whatever the plan.
    let last = day("2027-05-13");
    let place = Some(strips[0]);
    farm.fixed.insert(
        (EWES, last),
        FixedPlace {
            place,
            lived: false,
        },
    );
    let plan = live_season(&farm, &mut |_| true).unwrap();
    let rows = sheet_days(&farm, &plan, last, 2);
    let cautions = &rows[0].mobs[0].sums.as_ref().unwrap().cautions;
    assert!(
        cautions
            .iter()
            .any(|caution| caution.starts_with("last day for animals here")
                && caution.contains("leeks")
                && caution.contains("10 June 2027")),
        "{cautions:?}"
    );
    let why = rows[1].mobs[0].why.join(" ");
    assert!(why.contains("Clean ground: leeks"), "{why}");
}

#[test]
fn settled_days_on_clean_ground_stand_and_are_told() {
    let (mut farm, ley, strips) = ley_with_ewes();
    put_in(&mut farm, ley, 2027, "leeks");
    let place = Some(strips[1]);
    for on in ["2027-05-20", "2027-05-21"] {
        farm.fixed
            .insert((EWES, day(on)), FixedPlace { place, lived: true });
    }
    let spans = clean_spans(&farm, farm.season.first_day, farm.season.last_day());
    assert_eq!(settled_on_clean(&farm, &spans).len(), 2);
    let plan = live_season(&farm, &mut |_| true).unwrap();
    assert_eq!(plan.stand_on(EWES, day("2027-05-20")), Stand::On(strips[1]));
    let told = plan.assumptions.join(" ");
    assert!(
        told.contains("20 May, 21 May") && told.contains("leeks"),
        "{told}"
    );
}

#[test]
fn tree_fruit_and_windfalls_beside_hens_have_days_of_their_own() {
    let mut farm = empty_farm();
    let row = Ground::new("Apples", Kind::TreeLine, line(&[(0.0, 0.0), (80.0, 0.0)]));
    let row = put(&mut farm, row);
    let mut house = hens(vec![row]);
    (house.first_day, house.last_day) = (day("2026-03-20"), Some(day("2026-04-01")));
    let id = foldcourse::farm::HenHouseId(91);
    farm.hen_houses.insert(id, house);
    let walk = hen_walk(&farm, id, day("2026-03-01"), 60).unwrap();
    let walks = BTreeMap::from([(id, walk)]);
    farm.course.harvest_rule = HarvestRule::UsOrganic;
    let fruit = fruit_lines(&farm, &walks);
    assert_eq!(fruit.len(), 1);
    assert_eq!(fruit[0].last_hens, day("2026-04-01"));
    assert_eq!(fruit[0].tree_fruit_from, day("2026-06-30"));
    assert_eq!(fruit[0].windfalls_from, day("2026-07-30"));
    farm.course.harvest_rule = HarvestRule::UkReadyToEat;
    let fruit = fruit_lines(&farm, &walks);
    assert_eq!(fruit[0].tree_fruit_from, day("2027-04-01"));
    assert_eq!(fruit[0].windfalls_from, day("2027-04-01"));
}
