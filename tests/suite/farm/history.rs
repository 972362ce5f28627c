//! Whatever edits are made, undo leads back and redo leads on.
//!
//! Random acts are followed by a plain list of whole farms, one for each step, which the history must agree with.

use foldcourse::farm::{
    Edit, EditError, Farm, FixedPlace, Ground, GroundId, HenHouseId, History, Kind, MobId,
};
use foldcourse::geometry::{GroundFrame, LonLat};
use foldcourse::quantity::Day;
use proptest::prelude::*;

use super::sample::{changed, day, empty_farm, ewes, hens, put, rectangle, two_strip_farm};

#[derive(Debug, Clone)]
enum Act {
    AddGround(u8),
    RenameGround(u8, u8),
    RemoveGround(u8),
    PutMob(u8, u8),
    RemoveMob(u8),
    PutHouse(u8, u8),
    RemoveHouse(u8),
    Settle(u8, u8),
    Unsettle(u8),
    Growth(u8),
    SeasonDays(u8),
    Course(u8),
    About(u8),
    Frame(u8),
    TwoAtOnce(u8, u8),
    RenameTwice(u8, u8),
    Idle,
    Stale(u8),
    Undo,
    Redo,
    Save,
}

fn any_act() -> impl Strategy<Value = Act> {
    let byte = any::<u8>;
    prop_oneof![
        3 => byte().prop_map(Act::AddGround),
        3 => (byte(), byte()).prop_map(|(a, b)| Act::RenameGround(a, b)),
        2 => byte().prop_map(Act::RemoveGround),
        2 => (byte(), byte()).prop_map(|(a, b)| Act::PutMob(a, b)),
        1 => byte().prop_map(Act::RemoveMob),
        2 => (byte(), byte()).prop_map(|(a, b)| Act::PutHouse(a, b)),
        1 => byte().prop_map(Act::RemoveHouse),
        2 => (byte(), byte()).prop_map(|(a, b)| Act::Settle(a, b)),
        1 => byte().prop_map(Act::Unsettle),
        1 => byte().prop_map(Act::Growth),
        1 => byte().prop_map(Act::SeasonDays),
        1 => byte().prop_map(Act::Course),
        1 => byte().prop_map(Act::About),
        1 => byte().prop_map(Act::Frame),
        2 => (byte(), byte()).prop_map(|(a, b)| Act::TwoAtOnce(a, b)),
        2 => (byte(), byte()).prop_map(|(a, b)| Act::RenameTwice(a, b)),
        2 => Just(Act::Idle),
        2 => byte().prop_map(Act::Stale),
        6 => Just(Act::Undo),
        4 => Just(Act::Redo),
        2 => Just(Act::Save),
    ]
}

fn pick<K: Copy>(keys: impl Iterator<Item = K>, choice: u8) -> Option<K> {
    let keys: Vec<K> = keys.collect();
    (!keys.is_empty()).then(|| keys[usize::from(choice) % keys.len()])
}

fn a_field(name: u8) -> Ground {
    let side_m = f64::from(name) + 10.0;
    Ground::new(
        format!("Field {name}"),
        Kind::Plot,
        rectangle(0.0, 0.0, side_m, side_m),
    )
}

fn settled_day(choice: u8) -> (MobId, Day) {
    (
        MobId(1),
        day("2027-04-01").plus_days(i64::from(choice % 20)),
    )
}

/// The edits of an act on a farm as it stands; none where there is nothing to act on.
fn edits_of(act: &Act, farm: &Farm) -> Vec<Edit> {
    let ground = |choice: &u8| pick(farm.ground.keys().copied(), *choice);
    match act {
        Act::AddGround(name) => vec![Edit::add_ground(GroundId(farm.next_id), a_field(*name))],
        Act::RenameGround(which, name) => ground(which)
            .map(|id| changed(farm, id, |new| new.name = format!("Field {name}")))
            .into_iter()
            .collect(),
        Act::RemoveGround(which) => ground(which)
            .map(|id| Edit::remove_ground(id, &farm.ground[&id]))
            .into_iter()
            .collect(),
        Act::TwoAtOnce(which, name) => {
            let mut edits = edits_of(&Act::RemoveGround(*which), farm);
            edits.extend(edits_of(&Act::AddGround(*name), farm));
            edits
        }
        Act::RenameTwice(which, name) => ground(which)
            .map(|id| {
                let first = changed(farm, id, |new| new.name = format!("Passing {name}"));
                let Edit::Ground {
                    new: Some(between), ..
                } = &first
                else {
                    return Vec::new();
                };
                let mut last = between.clone();
                last.name = format!("Field {name}");
                let second = Edit::change_ground(id, between, *last);
                vec![first, second]
            })
            .unwrap_or_default(),
        Act::PutMob(which, head) => {
            let id = pick(farm.mobs.keys().copied(), *which).unwrap_or(MobId(farm.next_id));
            let mut mob = ewes();
            mob.head = u32::from(*head);
            let old = farm.mobs.get(&id).cloned().map(Box::new);
            vec![Edit::Mob {
                id,
                old,
                new: Some(Box::new(mob)),
            }]
        }
        Act::RemoveMob(which) => pick(farm.mobs.keys().copied(), *which)
            .map(|id| Edit::Mob {
                id,
                old: Some(Box::new(farm.mobs[&id].clone())),
                new: None,
            })
            .into_iter()
            .collect(),
        _ => edits_of_the_rest(act, farm),
    }
}

fn edits_of_the_rest(act: &Act, farm: &Farm) -> Vec<Edit> {
    match act {
        Act::PutHouse(which, count) => {
            let id =
                pick(farm.hen_houses.keys().copied(), *which).unwrap_or(HenHouseId(farm.next_id));
            let mut house = hens(Vec::new());
            house.hens = u32::from(*count);
            let old = farm.hen_houses.get(&id).cloned().map(Box::new);
            vec![Edit::HenHouse {
                id,
                old,
                new: Some(Box::new(house)),
            }]
        }
        Act::RemoveHouse(which) => pick(farm.hen_houses.keys().copied(), *which)
            .map(|id| Edit::HenHouse {
                id,
                old: Some(Box::new(farm.hen_houses[&id].clone())),
                new: None,
            })
            .into_iter()
            .collect(),
        Act::Settle(which, place) => {
            let key = settled_day(*which);
            let new = FixedPlace {
                place: (place % 3 != 0).then_some(GroundId(u32::from(*place))),
                lived: place % 2 == 0,
            };
            vec![Edit::Fixed {
                key,
                old: farm.fixed.get(&key).copied(),
                new: Some(new),
            }]
        }
        Act::Unsettle(which) => {
            let key = settled_day(*which);
            let old = farm.fixed.get(&key).copied();
            vec![Edit::Fixed {
                key,
                old,
                new: None,
            }]
        }
        Act::Growth(value) => {
            let mut new = farm.sward.clone();
            new.growth_by_month[4] = f64::from(*value);
            let old = Box::new(farm.sward.clone());
            vec![Edit::Sward {
                old,
                new: Box::new(new),
            }]
        }
        Act::SeasonDays(days) => {
            let mut new = farm.season;
            new.days = u32::from(*days) + 1;
            vec![Edit::Season {
                old: farm.season,
                new,
            }]
        }
        Act::Course(years) => {
            let mut new = farm.course.clone();
            new.years = Some(*years);
            vec![Edit::change_course(&farm.course, new)]
        }
        Act::About(name) => vec![Edit::About {
            old: (farm.name.clone(), farm.note.clone()),
            new: (format!("Farm {name}"), farm.note.clone()),
        }],
        Act::Frame(place) => {
            let new = GroundFrame::new(LonLat::new(f64::from(*place), 52.0)).unwrap();
            vec![Edit::Frame {
                old: farm.frame,
                new,
            }]
        }
        _ => Vec::new(),
    }
}

/// A good edit first and then one that starts from a piece of ground the farm does not hold.
fn stale_edits(name: u8, farm: &Farm) -> Vec<Edit> {
    let mut edits = edits_of(&Act::AddGround(name), farm);
    edits.push(Edit::change_ground(
        GroundId(farm.next_id + 7),
        &a_field(name),
        a_field(name.wrapping_add(1)),
    ));
    edits
}

/// The farm less its counter, which only ever rises.
fn without_counter(farm: &Farm) -> Farm {
    Farm {
        next_id: 0,
        ..farm.clone()
    }
}

/// What the history must agree with: a whole farm for each step, and which of them was saved.
struct Shadow {
    farms: Vec<(u64, Farm)>,
    done: usize,
    made: u64,
    saved: u64,
}

impl Shadow {
    fn new(farm: &Farm) -> Self {
        Self {
            farms: vec![(0, without_counter(farm))],
            done: 0,
            made: 0,
            saved: 0,
        }
    }

    fn step(&mut self, farm: &Farm) {
        self.farms.truncate(self.done + 1);
        self.made += 1;
        self.farms.push((self.made, without_counter(farm)));
        self.done += 1;
    }

    fn check(&self, history: &History) {
        let (number, farm) = &self.farms[self.done];
        assert_eq!(&without_counter(history.farm()), farm);
        assert_eq!(history.steps_done(), self.done);
        assert_eq!(history.is_unsaved(), *number != self.saved);
        assert_eq!(
            history.redo_label().is_some(),
            self.done + 1 < self.farms.len()
        );
        assert_eq!(history.undo_label().is_some(), self.done > 0);
    }
}

fn live(acts: &[Act]) -> (History, Shadow) {
    let mut history = History::new(empty_farm());
    let mut shadow = Shadow::new(history.farm());
    for act in acts {
        let counter_before = history.farm().next_id;
        match act {
            Act::Undo => {
                let is_done = history.undo().is_some();
                assert_eq!(is_done, shadow.done > 0);
                shadow.done -= usize::from(is_done);
            }
            Act::Redo => {
                let is_done = history.redo().is_some();
                assert_eq!(is_done, shadow.done + 1 < shadow.farms.len());
                shadow.done += usize::from(is_done);
            }
            Act::Save => {
                history.mark_saved();
                shadow.saved = shadow.farms[shadow.done].0;
            }
            Act::Stale(name) => {
                let before = history.farm().clone();
                let edits = stale_edits(*name, &before);
                let refused = history.commit("stale", edits);
                assert!(matches!(refused, Err(EditError::Stale { .. })));
                assert_eq!(history.farm(), &before);
            }
            _ => {
                let before = history.farm().clone();
                let edits = edits_of(act, &before);
                let changes = edits.iter().any(|edit| !edit.is_idle());
                history.commit("act", edits).unwrap();
                if changes {
                    shadow.step(history.farm());
                } else {
                    assert_eq!(history.farm(), &before);
                }
            }
        }
        shadow.check(&history);
        check_counter(history.farm(), counter_before);
    }
    (history, shadow)
}

/// The counter never falls and lies above every number in use.
fn check_counter(farm: &Farm, before: u32) {
    assert!(farm.next_id >= before);
    let numbers = farm.ground.keys().map(|id| id.0);
    let numbers = numbers.chain(farm.mobs.keys().map(|id| id.0));
    let mut numbers = numbers.chain(farm.hen_houses.keys().map(|id| id.0));
    assert!(numbers.all(|number| number < farm.next_id));
}

proptest! {
    #[test]
    fn random_acts_agree_with_a_list_of_whole_farms(acts in prop::collection::vec(any_act(), 0..60)) {
        let (mut history, shadow) = live(&acts);
        while history.redo().is_some() {}
        let end = shadow.farms.last().unwrap().1.clone();
        prop_assert_eq!(without_counter(history.farm()), end.clone());
        while history.undo().is_some() {}
        prop_assert_eq!(without_counter(history.farm()), without_counter(&empty_farm()));
        while history.redo().is_some() {}
        prop_assert_eq!(without_counter(history.farm()), end);
    }
}

#[test]
fn idle_edits_make_no_step_and_cut_nothing_off() {
    let (farm, _, [west, _]) = two_strip_farm();
    let mut history = History::new(farm);
    let rename = changed(history.farm(), west, |ground| {
        ground.name = "B1".to_owned();
    });
    history.commit("Rename", vec![rename]).unwrap();
    history.undo().unwrap();
    let idle = changed(history.farm(), west, |_| {});
    let touched = history.commit("Nothing", vec![idle]).unwrap();
    assert!(touched.ground.is_empty() && !touched.season);
    assert_eq!(history.steps_done(), 0);
    assert_eq!(history.redo_label(), Some("Rename"));
    assert!(!history.is_unsaved());
}

#[test]
fn a_refused_step_leaves_farm_counter_and_redo_as_they_were() {
    let mut history = History::new(empty_farm());
    let id = GroundId(history.farm().next_id);
    history
        .commit("Draw", vec![Edit::add_ground(id, a_field(1))])
        .unwrap();
    history.undo().unwrap();
    let before = history.farm().clone();
    let edits = vec![
        Edit::add_ground(GroundId(900), a_field(2)),
        Edit::remove_ground(GroundId(901), &a_field(3)),
    ];
    let refused = history.commit("Draw and remove", edits).unwrap_err();
    assert!(refused.to_string().contains("Field 3"), "{refused}");
    assert_eq!(history.farm(), &before);
    assert_eq!(history.redo_label(), Some("Draw"));
}

#[test]
fn a_saved_step_that_was_cut_off_is_never_taken_for_the_farm() {
    let mut farm = empty_farm();
    let id = put(&mut farm, a_field(1));
    let mut history = History::new(farm);
    let rename = |history: &mut History, name: &str| {
        let edit = changed(history.farm(), id, |ground| {
            name.clone_into(&mut ground.name);
        });
        history.commit("Rename", vec![edit]).unwrap();
    };
    rename(&mut history, "Saved");
    history.mark_saved();
    history.undo().unwrap();
    assert!(history.is_unsaved());
    history.redo().unwrap();
    assert!(!history.is_unsaved());
    history.undo().unwrap();
    rename(&mut history, "Other");
    assert!(history.is_unsaved(), "as many steps, but not those saved");
    history.mark_saved();
    assert!(!history.is_unsaved());
    history.mark_unsaved();
    assert!(history.is_unsaved());
}

#[test]
fn a_step_tells_what_it_touched_once_and_in_order() {
    let (farm, ley, [west, east]) = two_strip_farm();
    let mut history = History::new(farm);
    let edits = vec![
        changed(history.farm(), east, |ground| ground.crop = "clover".into()),
        changed(history.farm(), ley, |ground| ground.crop = "clover".into()),
        changed(history.farm(), west, |ground| ground.crop = "clover".into()),
    ];
    let touched = history.commit("Crop", edits).unwrap();
    assert_eq!(touched.ground, [ley, west, east]);
    assert!(!touched.season);
    let season = Edit::Season {
        old: history.farm().season,
        new: foldcourse::farm::Season {
            days: 10,
            ..history.farm().season
        },
    };
    assert!(history.commit("Days", vec![season]).unwrap().season);
    assert!(history.undo().unwrap().1.season);
}
