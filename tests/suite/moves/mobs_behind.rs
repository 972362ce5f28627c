//! A mob that comes behind another: the order of strips, the days between, and what the rules make of it.

use foldcourse::farm::{ComesBehind, Farm, Ground, GroundId, History, Kind, Mob, MobId, Reading};
use foldcourse::planning::questions::{Asked, RemedyKind, remedies};
use foldcourse::planning::{Nearness, SeasonPlan, Stand, live_season};

use crate::farm::sample::{day, empty_farm, ewes, put, rectangle, strip};

const FRONT: MobId = MobId(900);
const BEHIND: MobId = MobId(901);

/// Twelve strips of 0.3 ha in good growth, and two mobs; the second comes behind the first.
fn farm_with(days_after: Option<u32>) -> Farm {
    let mut farm = empty_farm();
    farm.season.days = 80;
    farm.sward.longest_stay_days = 6;
    let ley = put(
        &mut farm,
        Ground::new("Ley", Kind::Ley, rectangle(0.0, 0.0, 360.0, 100.0)),
    );
    for number in 0..12_u32 {
        let shape = rectangle(30.0 * f64::from(number), 0.0, 30.0, 100.0);
        let mut piece = strip(&format!("A{number}"), shape, ley);
        let grazing = piece.grazing.get_or_insert_default();
        grazing.readings.push(Reading {
            day: day("2027-04-01"),
            cover_kg_per_ha: 2900.0,
        });
        put(&mut farm, piece);
    }
    let front = Mob { head: 30, ..ewes() };
    let behind = Mob {
        name: "Hoggets".to_owned(),
        head: 12,
        follows: days_after.map(|days_after| ComesBehind {
            mob: FRONT,
            days_after,
        }),
        ..ewes()
    };
    farm.mobs.insert(FRONT, front);
    farm.mobs.insert(BEHIND, behind);
    farm
}

fn strips_of(plan: &SeasonPlan, mob: MobId) -> Vec<Option<GroundId>> {
    (0..plan.days)
        .map(|index| match plan.stand_at(mob, index) {
            Stand::On(ground) => Some(ground),
            Stand::Yard | Stand::Away => None,
        })
        .collect()
}

/// The strip that a mob last left before a day, and the day on which it came onto it.
fn left_before(stands: &[Option<GroundId>], day: usize) -> Option<(GroundId, usize)> {
    let now = stands[day];
    let last = (0..day)
        .rev()
        .find(|before| stands[*before].is_some() && stands[*before] != now)?;
    let strip = stands[last]?;
    let first = (0..=last)
        .rev()
        .take_while(|before| stands[*before] == Some(strip))
        .last()?;
    Some((strip, first))
}

#[test]
fn a_mob_behind_comes_onto_each_strip_as_the_one_in_front_leaves_it() {
    let plan = live_season(&farm_with(Some(3)), &mut |_| true).unwrap();
    let (front, behind) = (strips_of(&plan, FRONT), strips_of(&plan, BEHIND));
    let mut followed = 0;
    for index in 0..plan.days {
        let Some(strip) = behind[index] else { continue };
        assert_ne!(
            front[index],
            Some(strip),
            "two mobs on one strip on day {index}"
        );
        let Some((left, came)) = left_before(&front, index) else {
            continue;
        };
        let first_here = (0..=index)
            .rev()
            .take_while(|day| behind[*day] == Some(strip))
            .last();
        if left == strip {
            followed += 1;
            assert!(
                first_here.unwrap() <= came + 3,
                "day {index}: more than three days after"
            );
        }
    }
    assert!(
        followed * 10 >= plan.days * 8,
        "{followed} of {} days behind",
        plan.days
    );
    let told = plan.assumptions.join("; ");
    assert!(told.contains("Hoggets come behind Ewes"), "{told}");
    // Its moves are explained by it, and those in front as if they were planned alone.
    let why = |mob: MobId, words: &str| {
        let said = plan.why.iter().filter(|((whose, _), _)| *whose == mob);
        said.flat_map(|(_, sentences)| sentences)
            .filter(|said| said.contains(words))
            .count()
    };
    assert!(why(BEHIND, "comes behind Ewes") > 5);
    assert_eq!(why(FRONT, "comes behind"), 0);
    assert_eq!(why(FRONT, "fixed"), 0, "{:?}", plan.why);
}

#[test]
fn both_mobs_leave_a_strip_within_the_longest_stay_and_it_rests_as_long_as_owed() {
    let farm = farm_with(Some(30));
    let plan = live_season(&farm, &mut |_| true).unwrap();
    let (front, behind) = (strips_of(&plan, FRONT), strips_of(&plan, BEHIND));
    for id in farm.ground.keys() {
        let stood: Vec<bool> = (0..plan.days)
            .map(|day| front[day] == Some(*id) || behind[day] == Some(*id))
            .collect();
        let mut spell = 0;
        let mut ended: Option<usize> = None;
        for (index, stands) in stood.iter().enumerate() {
            if !stands {
                spell = 0;
                continue;
            }
            if spell == 0
                && let Some(ended) = ended
            {
                let rested = u32::try_from(index - ended - 1).unwrap();
                let owed = farm.rest_days_on(plan.day_at(ended));
                assert!(rested >= owed, "{id:?}: {rested} days of {owed}");
            }
            spell += 1;
            ended = Some(index);
            assert!(spell <= 6, "{id:?} on day {index}");
        }
    }
}

#[test]
fn a_mob_whose_front_is_gone_or_follows_itself_goes_its_own_way() {
    let mut gone = farm_with(Some(3));
    gone.mobs.remove(&FRONT);
    let mut free = farm_with(None);
    free.mobs.remove(&FRONT);
    let plan = |farm: &Farm| live_season(farm, &mut |_| true).unwrap();
    assert_eq!(plan(&gone).stands, plan(&free).stands);
    let mut each_other = farm_with(Some(3));
    each_other.mobs.get_mut(&FRONT).unwrap().follows = Some(ComesBehind {
        mob: BEHIND,
        days_after: 3,
    });
    let told = plan(&each_other);
    assert_eq!(told.stands, plan(&farm_with(None)).stands);
    assert!(told.assumptions.join("; ").contains("cannot come behind"));
}

#[test]
fn days_settled_for_the_mob_behind_are_kept() {
    let mut farm = farm_with(Some(3));
    let strip = *farm.ground.keys().next_back().unwrap();
    let when = day("2027-04-20");
    farm.fixed.insert(
        (BEHIND, when),
        foldcourse::farm::FixedPlace {
            place: Some(strip),
            lived: false,
        },
    );
    let plan = live_season(&farm, &mut |_| true).unwrap();
    assert_eq!(plan.stand_on(BEHIND, when), Stand::On(strip));
}

#[test]
fn where_leading_leaves_days_short_more_days_behind_and_an_own_way_are_weighed() {
    let farm = farm_with(Some(1));
    let plan = live_season(&farm, &mut |_| true).unwrap();
    let days = (farm.season.first_day, farm.season.last_day());
    let mut watch = |_: f64| true;
    let mut asked = Asked::new(&farm, &plan, days, &mut watch).unwrap();
    let found = remedies(&mut asked, 16.0).unwrap();
    // Twelve strips for a day each: the flock is round long before the first has had its rest.
    assert!(found.as_is.short_days > 20, "{:?}", found.as_is);
    let led = found
        .remedies
        .iter()
        .filter_map(|remedy| match remedy.kind {
            RemedyKind::LedOtherwise { mob, follows } => Some((mob, follows, remedy)),
            _ => None,
        });
    let led: Vec<_> = led.collect();
    let (_, later, remedy) = led
        .iter()
        .find(|(_, follows, _)| follows.is_some())
        .unwrap();
    assert!(later.unwrap().days_after > 1);
    assert!(led.iter().any(|(_, follows, _)| follows.is_none()));
    assert!(led.iter().all(|(mob, ..)| *mob == BEHIND));
    assert!(
        remedy.with_it.short_kg < found.as_is.short_kg / 2.0,
        "{found:?}"
    );
    // What is proven holds for plans that lead nobody too, and says so.
    let near = Nearness::of_farm(&farm, &plan, days.0, &|| true).unwrap();
    assert!(near.is_led && near.bound <= near.score, "{near:?}");
    assert!(
        near.wording().contains("goes its own way"),
        "{}",
        near.wording()
    );
    // Put into force, the farm's own plan comes to what was told.
    let mut history = History::new(farm.clone());
    let edits = remedy.edits(history.farm());
    history.commit("Later", edits).unwrap();
    assert_eq!(history.farm().mobs[&BEHIND].follows, *later);
    let after = live_season(history.farm(), &mut |_| true).unwrap();
    let short: f64 = (0..after.days).map(|index| after.short_on(index)).sum();
    assert!(short < found.as_is.short_kg / 2.0, "{short}");
}
