//! Hens that follow sheep: each day on the strip where the mob stood some days before, place by place across it.
//!
//! Knows the mob only by where it stood. On days whose forerunner stood on no strip the house stays where it is, and
//! says so. Following sheep is weaker practice than following cattle: common practice, no source. Metres, days.

use std::collections::BTreeMap;

use super::closed::{ClosedGround, grounds_in_course, why_closed};
use super::days::RestHistory;
use super::in_the_way::{InTheWay, in_the_way_of_places, ways_of};
use super::places::{Laid, lay_line};
use super::stays::stops;
use super::towing::{HenTow, Step, Towing};
use super::{HenDay, HenPlace, HenWalk, HenWalkError, check_figures, facts_of};
use crate::farm::{Farm, FollowsSheep, GroundId, HenHouse, HenHouseId, HenMark, MobId, StopKind};
use crate::geometry::Point;
use crate::quantity::{Day, plural_text};

/// The walk of a house that follows sheep, for `days` days from `from`. `stood` says where a mob stood on a day.
///
/// # Errors
/// Says in a sentence why there is no walk; a house that follows nothing is an error here.
pub fn hen_walk_after(
    farm: &Farm,
    id: HenHouseId,
    (from, days): (Day, u32),
    stood: &dyn Fn(MobId, Day) -> Option<GroundId>,
) -> Result<HenWalk, HenWalkError> {
    let house = farm.hen_houses.get(&id).ok_or(HenWalkError::NoSuchHouse)?;
    check_figures(house, days)?;
    let no_room = |reason: String| HenWalkError::NoRoom {
        name: house.name.clone(),
        reasons: vec![reason],
    };
    let Some(follows) = house.handling.follows else {
        return Err(no_room("it follows no sheep".to_owned()));
    };
    let Some(mob) = farm.mobs.get(&follows.mob) else {
        return Err(no_room(
            "the mob it follows is gone; choose another, or lines".to_owned(),
        ));
    };
    let mut trail = Trail {
        farm,
        house,
        in_the_way: in_the_way_of_places(farm, &grounds_in_course(farm)),
        strips: BTreeMap::new(),
        places: Vec::new(),
        headings_deg: Vec::new(),
        reasons: Vec::new(),
    };
    let end = from.plus_days(i64::from(days) - 1);
    let last = house
        .last_day
        .unwrap_or_else(|| farm.season.last_day())
        .min(end);
    let days = trail.days(follows, from, last, stood);
    if trail.places.is_empty() {
        let mut reasons = trail.reasons;
        reasons.push(format!(
            "{} stood on no strip with room for it {} before",
            mob.name,
            plural_text(u64::from(follows.days_after), "day", "days")
        ));
        return Err(HenWalkError::NoRoom {
            name: house.name.clone(),
            reasons,
        });
    }
    Ok(trail.walk(follows, &mob.name, days))
}

/// Where the house has been, strip by strip.
struct Trail<'a> {
    farm: &'a Farm,
    house: &'a HenHouse,
    in_the_way: Vec<InTheWay>,
    strips: BTreeMap<GroundId, Strip>,
    places: Vec<HenPlace>,
    /// The way the house is drawn on each place: every other lane is walked back.
    headings_deg: Vec<f64>,
    reasons: Vec<String>,
}

/// The places of a strip, by their index among all, and the one used last.
struct Strip {
    first: usize,
    count: usize,
    next: usize,
}

impl Trail<'_> {
    fn days(
        &mut self,
        follows: FollowsSheep,
        from: Day,
        last: Day,
        stood: &dyn Fn(MobId, Day) -> Option<GroundId>,
    ) -> Vec<HenDay> {
        let mut history = RestHistory::default();
        let mut days = Vec::new();
        let (mut at, mut out_days, mut moves): (Option<(GroundId, usize)>, u32, usize) =
            (None, 0, 0);
        let mut day = self.house.first_day;
        while day <= last {
            let is_housed = stops(self.house, day, StopKind::Housed);
            let before = at;
            let forerunner = stood(follows.mob, day.plus_days(-i64::from(follows.days_after)));
            let wanted = forerunner.filter(|strip| self.strip(*strip).is_some());
            let mark = self.house.handling.marks.get(&day).copied();
            let can_move = !is_housed
                && !stops(self.house, day, StopKind::NoTowing)
                && mark != Some(HenMark::Late);
            let settled = self.settled(day, mark, is_housed);
            if settled.is_some() {
                if at != settled {
                    (at, out_days) = (settled, 0);
                }
            } else if can_move && let Some(strip) = wanted {
                let is_there = at.is_some_and(|(here, _)| here == strip);
                let is_skipped = mark == Some(HenMark::Skipped);
                if !is_there || is_skipped || out_days >= self.house.days_per_place.max(1) {
                    if is_skipped {
                        self.next_place(strip);
                    }
                    at = self.next_place(strip).map(|place| (strip, place));
                    out_days = 0;
                }
            }
            out_days += u32::from(!is_housed);
            if let Some((_, place)) = at {
                moves += usize::from(at != before);
                let rested_days = history.rested((moves, place), day, is_housed, None);
                if day >= from {
                    days.push(HenDay {
                        day,
                        place: place + 1,
                        day_of_stay: out_days.max(1),
                        is_moved: at != before,
                        is_housed,
                        is_waiting: wanted.is_none() && settled.is_none(),
                        rested_days,
                        is_rested: rested_days.map(|rested| rested >= self.house.rest_days_wanted),
                    });
                }
            }
            day = day.plus_days(1);
        }
        days
    }

    /// The places of a strip; none where there is no room for one.
    fn strip(&mut self, id: GroundId) -> Option<&mut Strip> {
        if !self.strips.contains_key(&id) {
            let mut laid = Laid {
                lines: Vec::new(),
                reasons: Vec::new(),
                is_too_many: false,
            };
            if let Some(ground) = self.farm.ground.get(&id) {
                lay_line(self.house, &self.in_the_way, id, ground, &mut laid);
            }
            self.reasons.append(&mut laid.reasons);
            let first = self.places.len();
            let mut is_back = false;
            for lane in laid.lines.into_iter().flat_map(|line| line.lanes) {
                let mut lane = lane;
                if is_back {
                    lane.reverse();
                }
                let turned_deg = if is_back { 180.0 } else { 0.0 };
                let headings = lane.iter().map(|place| place.bearing_deg + turned_deg);
                self.headings_deg.extend(headings);
                is_back = !is_back;
                self.places.extend(lane);
            }
            for (index, place) in self.places.iter_mut().enumerate().skip(first) {
                place.number = index + 1;
            }
            let count = self.places.len() - first;
            self.strips.insert(
                id,
                Strip {
                    first,
                    count,
                    next: 0,
                },
            );
        }
        self.strips.get_mut(&id).filter(|strip| strip.count > 0)
    }

    /// Where the house was fixed or lived on a day, whatever the mob does; the next move goes on from there. Shut-in hens
    /// stay where they are unless they lived elsewhere.
    fn settled(
        &mut self,
        day: Day,
        mark: Option<HenMark>,
        is_housed: bool,
    ) -> Option<(GroundId, usize)> {
        let Some(HenMark::At { spot, lived }) = mark else {
            return None;
        };
        if is_housed && !lived {
            return None;
        }
        let found = self
            .strip(spot.line)
            .map(|strip| (strip.first, strip.count));
        let place = found.and_then(|(first, count)| {
            (first..first + count).find(|&at| self.places.get(at).is_some_and(|p| p.spot() == spot))
        });
        let (Some((first, _)), Some(place)) = (found, place) else {
            let day = day.short_text();
            self.reasons
                .push(format!("the place settled for {day} is there no more"));
            return None;
        };
        if let Some(strip) = self.strip(spot.line) {
            strip.next = place - first + 1;
        }
        Some((spot.line, place))
    }

    fn next_place(&mut self, id: GroundId) -> Option<usize> {
        let strip = self.strip(id)?;
        let place = strip.first + strip.next % strip.count;
        strip.next += 1;
        Some(place)
    }

    fn walk(self, follows: FollowsSheep, mob: &str, days: Vec<HenDay>) -> HenWalk {
        let house = self.house;
        let middles: Vec<Point> = self.places.iter().map(|place| place.middle).collect();
        let towing = Towing::new(house, &self.places, ways_of(self.farm, house, &middles));
        let step = |place: usize| Step {
            place,
            heading_deg: self.headings_deg.get(place).copied().unwrap_or_default(),
        };
        let moves = days.iter().zip(days.iter().skip(1));
        let tow_m = moves
            .filter(|(_, now)| now.is_moved)
            .map(|(before, now)| {
                towing
                    .tow(step(before.place - 1), step(now.place - 1))
                    .length_m
            })
            .sum();
        let count = self.places.len();
        let tows: Vec<HenTow> = (0..count)
            .map(|place| towing.tow(step(place), step((place + 1) % count)))
            .collect();
        let mut notes = self.reasons;
        notes.extend(waiting_note(follows, mob, &days));
        let known = ClosedGround::of(
            self.farm,
            house.first_day,
            days.last().map_or(house.first_day, |day| day.day),
        );
        let closed = days
            .iter()
            .filter(|day| !day.is_housed)
            .filter_map(|day| {
                let place = self.places.get(day.place.checked_sub(1)?)?;
                let spans = known.of_place(house, place);
                Some((day.day, why_closed(&spans, day.day)?.to_owned()))
            })
            .collect();
        let used: std::collections::BTreeSet<usize> = days.iter().map(|day| day.place).collect();
        let mut facts = facts_of(house, used.len());
        facts.round_days = 0;
        facts.rest_days = days
            .iter()
            .filter_map(|day| day.rested_days)
            .min()
            .unwrap_or(facts.rest_days_wanted);
        facts.tow_m = tow_m;
        HenWalk {
            places: self.places,
            tows,
            legs: Vec::new(),
            order: None,
            days,
            facts,
            closed,
            notes,
        }
    }
}

fn waiting_note(follows: FollowsSheep, mob: &str, days: &[HenDay]) -> Option<String> {
    let waits = days.iter().filter(|day| day.is_waiting).count();
    (waits > 0).then(|| {
        format!(
            "on {} {mob} had stood on no strip with room {} before: the hens stay where they are",
            plural_text(u64::try_from(waits).unwrap_or(u64::MAX), "day", "days"),
            plural_text(u64::from(follows.days_after), "day", "days")
        )
    })
}
