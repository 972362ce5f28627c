//! The places of a house: laid end to end along each line on one or both sides of it, or in lanes across a ley.
//!
//! What is in the way is passed by: the next place begins where there is room again. Metres on the farm's plane.

use super::in_the_way::InTheWay;
use super::track::{Track, track_of};
use super::{HenPlace, MOST_PLACES};
use crate::farm::{Farm, Ground, GroundId, HenHouse, LeftStretch, LineSide, longest_way_deg};
use crate::geometry::chord::{chords, place_along_and_across, reach_along_and_across};
use crate::geometry::oblong::{self, Oblong};
use crate::geometry::{Outline, Point};
use crate::quantity::{UnitSystem, length_text};

/// How far a line may be too short for one more place: corners lie on whole millimetres.
const FORGIVEN_M: f64 = 0.001;
/// How far a place is pushed along at a time until it lies clear.
const PUSH_M: f64 = 0.1;
/// Left out less than this is not worth a word.
const TOLD_M: f64 = 0.5;

/// The places found, and what was in the way.
pub(super) struct Laid {
    /// The lines that have room for a place.
    pub(super) lines: Vec<LaidLine>,
    /// Why a line gave no place, or gave fewer, in words.
    pub(super) reasons: Vec<String>,
    pub(super) is_too_many: bool,
}

/// The places of one line, side by side or lane by lane, each from the line's beginning.
pub(super) struct LaidLine {
    pub(super) line: GroundId,
    pub(super) lanes: Vec<Vec<HenPlace>>,
}

/// Lays the places along every line of the house in order.
///
/// # Assumptions
/// Length and width above 0, the gap above the length taken back, all finite.
pub(super) fn lay(farm: &Farm, house: &HenHouse, in_the_way: &[InTheWay]) -> Laid {
    let mut laid = Laid {
        lines: Vec::new(),
        reasons: Vec::new(),
        is_too_many: false,
    };
    if house.lines.is_empty() {
        laid.reasons
            .push("no line is chosen; choose a tree line, hedge, fence or ley".to_owned());
    }
    let mut seen: Vec<GroundId> = Vec::new();
    for id in &house.lines {
        let Some(ground) = farm.ground.get(id) else {
            laid.reasons
                .push("one of its lines is gone; choose another".to_owned());
            continue;
        };
        if seen.contains(id) {
            laid.reasons
                .push(format!("\"{}\" is listed twice", ground.name));
            continue;
        }
        seen.push(*id);
        lay_line(house, in_the_way, *id, ground, &mut laid);
    }
    laid
}

/// Lays the places of one line or ley.
pub(super) fn lay_line(
    house: &HenHouse,
    in_the_way: &[InTheWay],
    id: GroundId,
    ground: &Ground,
    laid: &mut Laid,
) {
    let mut laying = Laying {
        house,
        in_the_way,
        line: id,
        ley: None,
        places: Vec::new(),
        left_out: Vec::new(),
        room: MOST_PLACES - laid.lines.iter().map(LaidLine::count).sum::<usize>(),
    };
    let mut lanes = Vec::new();
    let length_m = if let Some(outline) = ground.outline().filter(|_| ground.kind.is_grazed()) {
        laying.ley = Some(outline);
        lanes = laying.lanes(outline);
        None
    } else if let Some(track) = track_of(ground) {
        let sides: &[LineSide] = match house.side {
            LineSide::Left => &[LineSide::Left],
            LineSide::Right => &[LineSide::Right],
            LineSide::Both => &[LineSide::Left, LineSide::Right],
        };
        for side in sides {
            let before = laying.places.len();
            laying.along(&track, *side, house.offset_m, 1);
            lanes.push(laying.places.iter().skip(before).copied().collect());
        }
        laid.reasons
            .extend(stretch_words(house, id, ground, track.length_m()));
        Some(track.length_m())
    } else {
        laid.reasons.push(format!(
            "\"{}\" is not a line; choose a tree line, hedge, fence or ley",
            ground.name
        ));
        return;
    };
    laid.is_too_many |= laying.places.len() >= laying.room;
    lanes.retain(|lane: &Vec<HenPlace>| !lane.is_empty());
    laid.reasons
        .extend(laying.left_out_words(ground, length_m, lanes.is_empty()));
    if !lanes.is_empty() {
        laid.lines.push(LaidLine { line: id, lanes });
    }
}

impl LaidLine {
    pub(super) fn count(&self) -> usize {
        self.lanes.iter().map(Vec::len).sum()
    }
}

/// One line being laid.
struct Laying<'a> {
    house: &'a HenHouse,
    in_the_way: &'a [InTheWay],
    line: GroundId,
    ley: Option<&'a Outline>,
    places: Vec<HenPlace>,
    /// Metres left out, by what was in the way.
    left_out: Vec<(String, f64)>,
    room: usize,
}

impl Laying<'_> {
    /// Lanes side by side across a ley, the room that is left over shared by both edges.
    fn lanes(&mut self, outline: &Outline) -> Vec<Vec<HenPlace>> {
        let bearing_deg = self.house.handling.lane_bearing_deg;
        let Some(bearing_deg) = bearing_deg.or_else(|| longest_way_deg(outline)) else {
            return Vec::new();
        };
        let Some((_, (least_m, most_m))) = reach_along_and_across(outline, bearing_deg) else {
            return Vec::new();
        };
        let (width_m, gap_m) = (self.house.width_m, self.house.gap_m.max(0.0));
        let room_m = most_m - least_m + FORGIVEN_M;
        let count = ((room_m + gap_m) / (width_m + gap_m)).floor();
        let used_m = count * (width_m + gap_m) - gap_m;
        let mut across_m = least_m + (room_m - used_m).max(0.0) / 2.0 + width_m / 2.0;
        let mut lanes = Vec::new();
        while across_m + width_m / 2.0 <= most_m + 2.0 * FORGIVEN_M && self.places.len() < self.room
        {
            let middle = place_along_and_across(bearing_deg, 0.0, across_m);
            let before = self.places.len();
            for (from, to) in chords(outline, middle, bearing_deg) {
                let track = Track::of([from, to]);
                let first = u32::try_from(self.places.len()).unwrap_or(u32::MAX) + 1;
                self.along(&track, LineSide::Left, 0.0, first);
            }
            lanes.push(self.places.iter().skip(before).copied().collect());
            across_m += width_m + gap_m;
        }
        lanes
    }

    fn along(&mut self, track: &Track, side: LineSide, offset_m: f64, first: u32) {
        let house = self.house;
        let step_m = house.length_m + house.gap_m;
        let mut base_m = 0.0;
        let mut number = first;
        // Counting steps from the last push keeps a long straight line free of summed rounding.
        let mut steps = 0.0;
        loop {
            let along_m = step_m * steps + base_m;
            if along_m + house.length_m > track.length_m() + FORGIVEN_M
                || self.places.len() >= self.room
            {
                return;
            }
            if let Some(stretch) = self.left_stretch(along_m) {
                // Beyond a stretch a place begins at once: its metres are the grower's own.
                base_m = stretch.to_m.max(along_m + FORGIVEN_M);
                steps = 0.0;
                continue;
            }
            let place = self.place_at(track, along_m, (side, number, offset_m));
            match self.hindrance(&place) {
                Hindrance::None => {
                    self.places.push(place);
                    number += 1;
                    steps += 1.0;
                }
                Hindrance::Bend | Hindrance::Edge => {
                    base_m = along_m + PUSH_M;
                    steps = 0.0;
                }
                Hindrance::Thing(what) => {
                    self.leave_out(what);
                    base_m = along_m + PUSH_M;
                    steps = 0.0;
                }
            }
        }
    }

    /// The stretch of this line, if any, on which a place that begins here would lie.
    fn left_stretch(&self, along_m: f64) -> Option<LeftStretch> {
        let end_m = along_m + self.house.length_m;
        let is_under = |stretch: &&LeftStretch| {
            stretch.from_m < end_m - FORGIVEN_M && stretch.to_m > along_m + FORGIVEN_M
        };
        self.left_of_line().find(is_under).copied()
    }

    /// The stretches of this line; lanes across a ley have none.
    fn left_of_line(&self) -> impl Iterator<Item = &LeftStretch> {
        let (line, is_ley) = (self.line, self.ley.is_some());
        let all = self.house.handling.left_stretches.iter();
        all.filter(move |stretch| !is_ley && stretch.line == line)
    }

    fn leave_out(&mut self, what: String) {
        match self.left_out.iter_mut().find(|(known, _)| *known == what) {
            Some((_, left_m)) => *left_m += PUSH_M,
            None => self.left_out.push((what, PUSH_M)),
        }
    }

    fn hindrance(&self, place: &HenPlace) -> Hindrance {
        let overlap_m = self.house.overlap_m();
        let core = place.core(overlap_m);
        let is_on_earlier = |earlier: &HenPlace| {
            earlier.middle.distance_m(place.middle) < self.house.length_m.hypot(self.house.width_m)
                && oblong::overlap(&earlier.core(overlap_m), &core)
        };
        if self.places.iter().rev().any(is_on_earlier) {
            return Hindrance::Bend;
        }
        if self
            .ley
            .is_some_and(|ley| !oblong::lies_within(&place.outline, ley))
        {
            return Hindrance::Edge;
        }
        self.in_the_way
            .iter()
            .find(|thing| thing.is_under(&place.outline))
            .map_or(Hindrance::None, |thing| {
                Hindrance::Thing(thing.what.clone())
            })
    }

    fn place_at(
        &self,
        track: &Track,
        along_m: f64,
        (side, on_line, offset_m): (LineSide, u32, f64),
    ) -> HenPlace {
        let house = self.house;
        let (from, to) = (track.at(along_m), track.at(along_m + house.length_m));
        let bearing_deg = from.bearing_deg(to);
        let aside_deg = match side {
            LineSide::Right => bearing_deg + 90.0,
            LineSide::Left | LineSide::Both => bearing_deg - 90.0,
        };
        let middle = from.between(to, 0.5).towards(aside_deg, offset_m);
        HenPlace {
            number: 0,
            line: self.line,
            side,
            on_line,
            along_m,
            middle,
            outline: corners(middle, bearing_deg, house.length_m, house.width_m),
            bearing_deg,
        }
    }

    fn left_out_words(
        &self,
        ground: &Ground,
        length_m: Option<f64>,
        is_empty: bool,
    ) -> Vec<String> {
        let metric = UnitSystem::Metric;
        let one_m = length_text(self.house.length_m, metric);
        if let Some(length_m) = length_m
            && length_m + FORGIVEN_M < self.house.length_m
        {
            return vec![format!(
                "\"{}\" is too short: it is {} long and one place takes {one_m}",
                ground.name,
                length_text(length_m, metric),
            )];
        }
        let told = |(what, left_m): &(String, f64)| {
            format!(
                "\"{}\": {} left out, {what} is in the way",
                ground.name,
                length_text(*left_m, metric)
            )
        };
        let mut words: Vec<String> = self
            .left_out
            .iter()
            .filter(|(_, left_m)| is_empty || *left_m >= TOLD_M)
            .map(told)
            .collect();
        if is_empty && words.is_empty() && self.left_of_line().next().is_some() {
            words.push(format!(
                "\"{}\": beside the stretches left out no {one_m} are free for a place",
                ground.name
            ));
        } else if is_empty && words.is_empty() {
            words.push(format!(
                "\"{}\" is too narrow or too short for a place of {one_m} by {}",
                ground.name,
                length_text(self.house.width_m, metric)
            ));
        }
        words
    }
}

/// What is left out of a line by the grower's word.
fn stretch_words(house: &HenHouse, line: GroundId, ground: &Ground, length_m: f64) -> Vec<String> {
    let metres = |length_m: f64| length_text(length_m, UnitSystem::Metric);
    let told = |stretch: &LeftStretch| {
        let what = stretch.why.words();
        if stretch.from_m >= length_m {
            return format!(
                "\"{}\": the stretch {what} from {} on lies past its end at {}",
                ground.name,
                metres(stretch.from_m),
                metres(length_m)
            );
        }
        format!(
            "\"{}\": no place from {} to {} along it, {what} by your word",
            ground.name,
            metres(stretch.from_m),
            metres(stretch.to_m.min(length_m))
        )
    };
    let all = house.handling.left_stretches.iter();
    all.filter(|stretch| stretch.line == line)
        .map(told)
        .collect()
}

/// Why no place lies here.
enum Hindrance {
    None,
    /// A place before it on the same line.
    Bend,
    /// The boundary of the ley.
    Edge,
    Thing(String),
}

/// Corners of an oblong along a bearing, anticlockwise.
pub(super) fn corners(middle: Point, bearing_deg: f64, length_m: f64, width_m: f64) -> Oblong {
    let corner = |ahead_m: f64, right_m: f64| {
        middle
            .towards(bearing_deg, ahead_m)
            .towards(bearing_deg + 90.0, right_m)
    };
    let (half_length_m, half_width_m) = (length_m / 2.0, width_m / 2.0);
    [
        corner(-half_length_m, half_width_m),
        corner(half_length_m, half_width_m),
        corner(half_length_m, -half_width_m),
        corner(-half_length_m, -half_width_m),
    ]
}

/// Says which places lie partly on ground that another line's places use in the same round.
pub(super) fn overlap_note(places: &[HenPlace], overlap_m: f64) -> Option<String> {
    let is_shared = |one: &HenPlace, other: &HenPlace| {
        let [a, _, c, _] = one.outline;
        one.middle.distance_m(other.middle) < a.distance_m(c)
            && oblong::overlap(&one.core(overlap_m), &other.core(overlap_m))
    };
    let clash = |later: &HenPlace| {
        places
            .iter()
            .take_while(|earlier| earlier.number < later.number)
            .find(|earlier| earlier.line != later.line && is_shared(earlier, later))
            .map(|earlier| (earlier.number, later.number))
    };
    let clashes: Vec<(usize, usize)> = places.iter().filter_map(clash).collect();
    let (earlier, later) = *clashes.first()?;
    let more = match clashes.len() {
        1 => String::new(),
        count => format!(" (and {} more)", count - 1),
    };
    Some(format!(
        "place {later} lies partly on place {earlier} of another line{more}: that ground rests less than the round says"
    ))
}
