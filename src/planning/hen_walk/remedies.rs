//! What would mend a round that is too short for the rest wanted: each tried by laying the places again.
//!
//! Metres, days, hens.

use super::closed::grounds_in_course;
use super::facts_of;
use super::in_the_way::{InTheWay, in_the_way_of_places};
use super::places::{LaidLine, lay};
use super::words::places_needed;
use crate::farm::{Farm, Ground, GroundId, HenHouse, HenHouseId, Kind, LineSide, Shape};
use crate::quantity::{UnitSystem, length_text, plural_text};

/// Longer than this no line is drawn for it, metres.
const LONGEST_M: f64 = 5_000.0;

/// A remedy that was tried and does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HenRemedy {
    /// What to do, in a sentence.
    pub what: String,
    /// Places in a round then.
    pub places: usize,
    /// Rest of each place then, days.
    pub rest_days: u32,
}

/// What would give a house the rest it wants; nothing where it has it, or follows sheep.
pub fn hen_remedies(farm: &Farm, id: HenHouseId) -> Vec<HenRemedy> {
    let Some(house) = farm.hen_houses.get(&id) else {
        return Vec::new();
    };
    let is_sound = house.days_per_place > 0
        && house.length_m > 0.0
        && house.width_m > 0.0
        && house.length_m + house.gap_m > 0.0
        && house.handling.follows.is_none();
    if !is_sound {
        return Vec::new();
    }
    let trying = Trying {
        farm,
        in_the_way: in_the_way_of_places(farm, &grounds_in_course(farm)),
    };
    let now = trying.places(farm, house);
    if facts_of(house, now).rest_days >= house.rest_days_wanted {
        return Vec::new();
    }
    let mut found = Vec::new();
    found.extend(trying.longer_line(house, now));
    found.extend(trying.longer_stay(house, now));
    found.extend(trying.other_side(house));
    found.extend(trying.another_line(house));
    found
}

struct Trying<'a> {
    farm: &'a Farm,
    in_the_way: Vec<InTheWay>,
}

impl Trying<'_> {
    fn places(&self, farm: &Farm, house: &HenHouse) -> usize {
        let laid = lay(farm, house, &self.in_the_way);
        laid.lines.iter().map(LaidLine::count).sum()
    }

    fn kept(&self, farm: &Farm, house: &HenHouse, what: String) -> Option<HenRemedy> {
        let places = self.places(farm, house);
        let facts = facts_of(house, places);
        (facts.rest_days >= house.rest_days_wanted).then_some(HenRemedy {
            what,
            places,
            rest_days: facts.rest_days,
        })
    }

    /// The last line drawn on straight at its end.
    fn longer_line(&self, house: &HenHouse, now: usize) -> Option<HenRemedy> {
        let id = house
            .lines
            .iter()
            .rev()
            .find(|id| self.farm.ground.get(id).is_some_and(is_line))?;
        let ground = self.farm.ground.get(id)?;
        let step_m = house.length_m + house.gap_m;
        let needed = usize::try_from(places_needed(house)).ok()?;
        let missing = f64::from(u32::try_from(needed.checked_sub(now)?).ok()?);
        let sides = if house.side == LineSide::Both {
            2.0
        } else {
            1.0
        };
        // A line may already be nearly long enough for one place more; what is in the way may ask for two.
        let quarters = (missing / sides).ceil() * 4.0;
        let mut quarter = (quarters - 3.0).max(1.0);
        while quarter <= quarters + 8.0 && quarter * step_m / 4.0 <= LONGEST_M {
            let more_m = (quarter * step_m / 4.0 * 10.0).ceil() / 10.0;
            quarter += 1.0;
            let mut farm = self.farm.clone();
            farm.ground.insert(*id, drawn_on(ground, more_m)?);
            let what = format!(
                "draw \"{}\" {} longer at its end",
                ground.name,
                length_text(more_m, UnitSystem::Metric)
            );
            if let Some(remedy) = self.kept(&farm, house, what) {
                return Some(remedy);
            }
        }
        None
    }

    /// More days on each place; and so many fewer hens that a place gets no more of them than now.
    fn longer_stay(&self, house: &HenHouse, now: usize) -> Vec<HenRemedy> {
        let Some(others) = u32::try_from(now)
            .ok()
            .and_then(|now| now.checked_sub(1))
            .filter(|others| *others > 0)
        else {
            return Vec::new();
        };
        let days = house.rest_days_wanted.div_ceil(others);
        let more = days.saturating_sub(house.days_per_place);
        let longer = HenHouse {
            days_per_place: days,
            ..house.clone()
        };
        let stay = format!(
            "stay {} longer on each place ({} in all)",
            plural_text(u64::from(more), "day", "days"),
            plural_text(u64::from(days), "day", "days")
        );
        let hens = u64::from(house.hens) * u64::from(house.days_per_place) / u64::from(days.max(1));
        let fewer = u64::from(house.hens).saturating_sub(hens);
        let with_fewer = format!(
            "stay {days} days with {} ({hens} left), so that no place gets more dung at a time than now",
            plural_text(fewer, "hen fewer", "hens fewer")
        );
        let mut found: Vec<HenRemedy> = self.kept(self.farm, &longer, stay).into_iter().collect();
        if hens > 0 && fewer > 0 {
            let fewer = HenHouse {
                hens: u32::try_from(hens).unwrap_or(house.hens),
                ..longer
            };
            found.extend(self.kept(self.farm, &fewer, with_fewer));
        }
        found
    }

    fn other_side(&self, house: &HenHouse) -> Option<HenRemedy> {
        let both = HenHouse {
            side: LineSide::Both,
            ..house.clone()
        };
        let what = "walk both sides of its lines".to_owned();
        (house.side != LineSide::Both)
            .then(|| self.kept(self.farm, &both, what))
            .flatten()
    }

    /// The first further line, as the ground is listed, that does by itself.
    fn another_line(&self, house: &HenHouse) -> Option<HenRemedy> {
        let is_free = |(id, ground): &(&GroundId, &Ground)| {
            !house.lines.contains(id) && is_line(ground) || is_open_ley(house, **id, ground)
        };
        self.farm
            .ground
            .iter()
            .filter(is_free)
            .find_map(|(id, ground)| {
                let mut more = house.clone();
                more.lines.push(*id);
                let what = format!("walk {} \"{}\" too", ground.kind.name(), ground.name);
                self.kept(self.farm, &more, what)
            })
    }
}

fn is_line(ground: &Ground) -> bool {
    matches!(ground.kind, Kind::TreeLine | Kind::Hedge | Kind::Fence) && ground.line().is_some()
}

fn is_open_ley(house: &HenHouse, id: GroundId, ground: &Ground) -> bool {
    ground.kind == Kind::Ley && ground.outline().is_some() && !house.lines.contains(&id)
}

/// A line drawn on straight at its end.
fn drawn_on(ground: &Ground, more_m: f64) -> Option<Ground> {
    let mut line = ground.line()?.to_vec();
    let end = line.pop()?;
    let before = *line.last()?;
    line.push(end.towards(before.bearing_deg(end), more_m));
    Some(Ground {
        shape: Shape::Line(line),
        ..ground.clone()
    })
}
