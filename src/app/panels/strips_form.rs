//! What is asked for in the question of strips, read into a cut and kept until something of it changes.
//!
//! Plain data: paints nothing. The cut is the farm's, the sums are the planner's.

pub use super::strips_choice::{DirectionWay, SizeWay, StripsChoice};
use crate::app::desk::Desk;
use crate::farm::{
    Ground, GroundId, Mob, MobId, StripCut, StripDirection, countable_sides, cut_edits, cut_ground,
    line_bearing_deg, reachable, strip_name, strip_stem, taken_strip_name,
};
use crate::geometry::cut::{CutError, StripSize, bearing_across_longest_side};
use crate::geometry::label_place::label_place;
use crate::geometry::triangulate::{FillMesh, fill_mesh};
use crate::geometry::{Outline, Point, geodesic};
use crate::planning::{LeyCover, StripFeed, days_text, ley_cover, rest_told};
use crate::quantity::{
    UnitSystem, area_text, decimal_text, parse_area_m2, parse_bearing_deg, parse_length_m,
    plural_text,
};

/// The row of the question that a sentence of trouble belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Row {
    Size,
    Feed,
    Direction,
    Stem,
}

/// Why there is no cut yet, and where.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct RowTrouble {
    pub(super) row: Row,
    pub(super) text: String,
}

/// What is asked for.
#[derive(Debug, Clone)]
pub struct StripsForm {
    pub(super) ground: GroundId,
    pub(super) choice: StripsChoice,
    pub(super) mob: Option<MobId>,
    pub(super) cover: Option<LeyCover>,
    pub(super) cover_text: String,
    pub(super) leave_text: String,
    pub(super) bearing_text: String,
    pub(super) side: usize,
    pub(super) goal: Option<GroundId>,
    pub(super) stem: String,
    pub(super) is_new: bool,
    /// Where the map looked before it made room.
    pub(super) view_before: Option<crate::app::map::GroundView>,
    /// The question's place on screen for which the map made room.
    pub(super) room_made_for: Option<egui::Rect>,
    /// The strips as they would be, for the figures they were made with.
    preview: Option<(String, Result<StripsPreview, RowTrouble>)>,
}

/// Strips as they would be, ready to be drawn.
#[derive(Debug, Clone)]
pub struct StripsPreview {
    /// The cut.
    pub cut: StripCut,
    /// Each strip drawn.
    pub drawn: Vec<DrawnStrip>,
    /// The side along which cuts run, where one was chosen.
    pub side: Option<(Point, Point)>,
    /// Days on a strip of full size.
    pub days_each: Option<f64>,
}

/// One strip as it would be.
#[derive(Debug, Clone)]
pub struct DrawnStrip {
    /// Its name.
    pub name: String,
    /// Area on the ellipsoid, square metres.
    pub area_m2: f64,
    /// Days it lasts the mob, where one is chosen.
    pub days: Option<f64>,
    /// Its ground as triangles.
    pub mesh: FillMesh,
    /// Where its name stands.
    pub label: Option<Point>,
}

/// More strips than these are a slip of the finger.
const MOST_AT_ONCE: usize = 500;

impl StripsForm {
    /// For the one piece of ground that is selected, where it is an area.
    pub fn of_selected(desk: &Desk) -> Option<Self> {
        let (id, ground) = desk.selected_one()?;
        let outline = ground.outline()?;
        // Lines across the longest side make the squarest strips.
        let bearing_deg = line_bearing_deg(bearing_across_longest_side(outline)?);
        let mobs = &desk.farm().mobs;
        let here = mobs.iter().find(|(_, mob)| mob.is_here(desk.day));
        let cover = ley_cover(desk.farm(), desk.plan.as_deref(), id, desk.day);
        let figure = |figure: Option<f64>| figure.map_or(String::new(), |kg| decimal_text(kg, 0));
        let mut choice = desk.settings.strips.clone();
        let goals = reachable(desk.farm(), outline);
        if (choice.size == SizeWay::Days && mobs.is_empty())
            || (choice.direction == DirectionWay::Reaching && goals.is_empty())
        {
            choice = StripsChoice::default();
        }
        Some(Self {
            ground: id,
            choice,
            mob: here.or_else(|| mobs.iter().next()).map(|(id, _)| *id),
            cover_text: figure(cover.map(|cover| cover.cover_kg_per_ha)),
            leave_text: figure(cover.map(|cover| cover.leave_kg_per_ha)),
            cover,
            bearing_text: format!("{bearing_deg:.1}"),
            side: longest_side(outline),
            goal: goals.first().map(|(goal, _)| *goal),
            stem: strip_stem(desk.farm(), id, ground),
            is_new: true,
            view_before: None,
            room_made_for: None,
            preview: None,
        })
    }

    /// The strips as the map shows them.
    pub fn shown(&self) -> Option<(GroundId, &StripsPreview)> {
        let (_, made) = self.preview.as_ref()?;
        Some((self.ground, made.as_ref().ok()?))
    }

    /// What strips are to reach, where that was chosen.
    pub fn goal_shown(&self) -> Option<GroundId> {
        self.goal
            .filter(|_| self.choice.direction == DirectionWay::Reaching)
    }

    /// The strips for what stands in the fields; whether they were made anew.
    pub(super) fn renew(&mut self, desk: &Desk) -> bool {
        let key = format!(
            "{:?} {:?} {:?} {:?} {:?} {} {} {} {}",
            self.choice,
            self.mob,
            self.side,
            self.goal,
            desk.units(),
            self.cover_text,
            self.leave_text,
            self.bearing_text,
            self.stem
        );
        if self.preview.as_ref().is_some_and(|(made, _)| *made == key) {
            return false;
        }
        let made = self.made(desk);
        self.preview = Some((key, made));
        true
    }

    pub(super) fn made_now(&self) -> Option<&Result<StripsPreview, RowTrouble>> {
        self.preview.as_ref().map(|(_, made)| made)
    }

    fn made(&self, desk: &Desk) -> Result<StripsPreview, RowTrouble> {
        let told = |row: Row| move |text: String| RowTrouble { row, text };
        let farm = desk.farm();
        let ground = farm.ground.get(&self.ground);
        let outline = ground
            .and_then(Ground::outline)
            .ok_or_else(|| told(Row::Size)("It is gone.".to_owned()))?;
        let feed = self.feed(desk);
        let size = self.size(desk.units(), outline, &feed)?;
        let direction = self.direction().map_err(told(Row::Direction))?;
        let cut = cut_ground(farm, outline, size, direction).map_err(|error| {
            let row = match error {
                CutError::NotABearing | CutError::NoSuchSide | CutError::NothingToReach => {
                    Row::Direction
                }
                _ => Row::Size,
            };
            told(row)(error.to_string())
        })?;
        let count = cut.strips.len();
        self.stem_trouble(desk, count).map_err(told(Row::Stem))?;
        let feed = feed.ok().flatten();
        let drawn: Vec<DrawnStrip> = cut
            .strips
            .iter()
            .enumerate()
            .map(|(index, strip)| {
                let area_m2 = geodesic::area_m2(farm.frame, &strip.outline);
                DrawnStrip {
                    name: strip_name(&self.stem, index + 1),
                    area_m2,
                    days: feed.and_then(|feed| feed.days_on(area_m2)),
                    mesh: fill_mesh(&strip.outline),
                    label: name_place(&strip.outline),
                }
            })
            .collect();
        let side = (self.choice.direction == DirectionWay::Side)
            .then(|| countable_sides(outline).get(self.side).copied())
            .flatten();
        Ok(StripsPreview {
            days_each: drawn.first().and_then(|strip| strip.days),
            cut,
            drawn,
            side,
        })
    }

    /// What the mob takes and what stands, where a mob is chosen.
    pub(super) fn feed(&self, desk: &Desk) -> Result<Option<StripFeed>, String> {
        let Some(mob) = self.mob_of(desk) else {
            return Ok(None);
        };
        let kg = |text: &str, what: &str| -> Result<f64, String> {
            let plain = text.replace([',', ' ', '\u{2009}', '\u{a0}'], "");
            let value: f64 = plain
                .parse()
                .map_err(|_| format!("\"{text}\" is not a {what}: write kg DM/ha, like 1900."))?;
            if (0.0..=20_000.0).contains(&value) {
                Ok(value)
            } else {
                Err(format!("The {what} lies between 0 and 20,000 kg DM/ha."))
            }
        };
        Ok(Some(StripFeed {
            demand_kg: mob.demand_kg(),
            cover_kg_per_ha: kg(&self.cover_text, "cover")?,
            leave_kg_per_ha: kg(&self.leave_text, "residual")?,
        }))
    }

    pub(super) fn mob_of<'desk>(&self, desk: &'desk Desk) -> Option<&'desk Mob> {
        desk.farm().mobs.get(&self.mob?)
    }

    fn size(
        &self,
        units: UnitSystem,
        outline: &Outline,
        feed: &Result<Option<StripFeed>, String>,
    ) -> Result<StripSize, RowTrouble> {
        let told = |text: String| RowTrouble {
            row: Row::Size,
            text,
        };
        let choice = &self.choice;
        let size = match choice.size {
            SizeWay::Count => {
                let text = choice.count_text.trim();
                let count: usize = text
                    .parse()
                    .map_err(|_| told(format!("\"{text}\" is not a count of strips.")))?;
                if !(1..=MOST_AT_ONCE).contains(&count) {
                    return Err(told(format!("From 1 to {MOST_AT_ONCE} strips.")));
                }
                return Ok(StripSize::Count(count));
            }
            SizeWay::Width => {
                let width_m = parse_length_m(&choice.width_text, units)
                    .map_err(|error| told(error.to_string()))?;
                let long_m = outline
                    .bounds()
                    .map_or(0.0, |bounds| bounds.least.distance_m(bounds.most));
                refuse_too_many(long_m / width_m).map_err(told)?;
                return Ok(StripSize::WidthM(width_m));
            }
            SizeWay::Area => {
                parse_area_m2(&choice.area_text, units).map_err(|error| told(error.to_string()))?
            }
            SizeWay::Days => {
                let days = whole_days(&choice.days_text).map_err(told)?;
                let in_feed = |text: String| RowTrouble {
                    row: Row::Feed,
                    text,
                };
                let feed = feed
                    .clone()
                    .map_err(in_feed)?
                    .ok_or_else(|| told("Choose the mob that the strips are for.".to_owned()))?;
                feed.area_m2(f64::from(days)).ok_or_else(|| {
                    in_feed(
                        "Nothing may be eaten: the cover must stand above the residual, and the mob must eat."
                            .to_owned(),
                    )
                })?
            }
        };
        refuse_too_many(outline.area_m2() / size).map_err(told)?;
        Ok(StripSize::AreaM2(size))
    }

    fn direction(&self) -> Result<StripDirection, String> {
        Ok(match self.choice.direction {
            DirectionWay::Across => StripDirection::AcrossLongestSide,
            DirectionWay::Side => StripDirection::AlongSide(self.side),
            DirectionWay::Bearing => StripDirection::Bearing(
                parse_bearing_deg(&self.bearing_text).map_err(|error| error.to_string())?,
            ),
            DirectionWay::Reaching => StripDirection::Reaching(
                self.goal
                    .ok_or("Draw a trough, gate, pond or track first.")?,
            ),
        })
    }

    fn stem_trouble(&self, desk: &Desk, count: usize) -> Result<(), String> {
        if self.stem.trim().is_empty() {
            return Err("Give the strips a name to begin with, such as L.".to_owned());
        }
        match taken_strip_name(desk.farm(), self.ground, &self.stem, count) {
            Some(name) => Err(format!(
                "{name} is the name of other ground already: choose another."
            )),
            None => Ok(()),
        }
    }

    /// Days that sheep stand on each strip: as asked, else as long as one lasts, else the farm's longest stay.
    fn stay_days(&self, desk: &Desk, preview: &StripsPreview) -> (u32, &'static str) {
        if self.choice.size == SizeWay::Days
            && let Ok(days) = whole_days(&self.choice.days_text)
        {
            return (days, "");
        }
        if let Some(days) = preview.days_each {
            if days < 1.0 {
                return (1, " (a strip lasts less than a day)");
            }
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "at least one, and a figure too large becomes the largest"
            )]
            return (
                days.floor() as u32,
                " (as long as one lasts, in whole days)",
            );
        }
        let longest = desk.farm().sward.longest_stay_days.max(1);
        (longest, " (your longest stay)")
    }

    /// What the strips are, in sentences.
    pub(super) fn told(&self, desk: &Desk, preview: &StripsPreview) -> Vec<String> {
        let units = desk.units();
        let mut told = Vec::new();
        let (Some(first), Some(last)) = (preview.drawn.first(), preview.drawn.last()) else {
            return told;
        };
        let size = |strip: &DrawnStrip| match strip.days {
            Some(days) => format!("{}, {}", area_text(strip.area_m2, units), days_text(days)),
            None => area_text(strip.area_m2, units),
        };
        let count = u64::try_from(preview.drawn.len()).unwrap_or(u64::MAX);
        let strips = plural_text(count, "strip", "strips");
        let all_alike = preview
            .drawn
            .iter()
            .all(|strip| (strip.area_m2 / first.area_m2 - 1.0).abs() < 1e-4);
        told.push(if all_alike {
            format!("{strips} of {}", size(first))
        } else if self.choice.size == SizeWay::Width {
            let least = preview
                .drawn
                .iter()
                .map(|strip| strip.area_m2)
                .fold(f64::INFINITY, f64::min);
            let most = preview
                .drawn
                .iter()
                .map(|strip| strip.area_m2)
                .fold(0.0, f64::max);
            format!(
                "{strips} of {} to {}",
                area_text(least, units),
                area_text(most, units)
            )
        } else {
            format!(
                "{strips} of {}; the last takes the rest: {}",
                size(first),
                size(last)
            )
        });
        told.extend(preview.cut.told(|index| strip_name(&self.stem, index + 1)));
        told
    }

    /// What the strips do for the rest, in a sentence; none without a mob and without a plan.
    pub(super) fn rest_told(&self, desk: &Desk, preview: &StripsPreview) -> Option<String> {
        if self.mob.is_none() && desk.plan.is_none() {
            return None;
        }
        let (days, why) = self.stay_days(desk, preview);
        let wanted = desk.farm().rest_days_on(desk.day);
        let rest = rest_told(preview.drawn.len(), days, desk.day.month_name(), wanted);
        Some(format!("{rest}{why}"))
    }

    /// Puts the strips on the farm: strips of a ley lie within it; a plot that is cut becomes a ley first.
    pub(super) fn commit(&self, desk: &mut Desk) {
        let Some(Ok(preview)) = self.made_now() else {
            return;
        };
        let Some(ground) = desk.farm().ground.get(&self.ground).cloned() else {
            return;
        };
        let strips = &preview.cut.strips;
        let (label, edits) = cut_edits(desk.farm(), self.ground, &ground, strips, &self.stem);
        let told = preview.cut.told(|index| strip_name(&self.stem, index + 1));
        desk.commit(&label, edits);
        desk.select_only(self.ground);
        desk.settings.strips = self.choice.clone();
        desk.settings.keep();
        if !told.is_empty() {
            desk.tell(format!("{label}. {}", told.join(" ")));
        }
    }
}

/// The middle of a strip, so that names stand in line; the roomiest place where the middle lies outside.
fn name_place(outline: &Outline) -> Option<Point> {
    let middle = outline
        .centroid()
        .filter(|middle| outline.contains(*middle));
    middle.or_else(|| label_place(outline).map(|label| label.place))
}

fn longest_side(outline: &Outline) -> usize {
    let sides = countable_sides(outline);
    let longest = sides
        .iter()
        .enumerate()
        .max_by(|(_, one), (_, two)| one.0.distance_m(one.1).total_cmp(&two.0.distance_m(two.1)));
    longest.map_or(0, |(index, _)| index)
}

fn whole_days(text: &str) -> Result<u32, String> {
    let text = text.trim();
    text.parse()
        .ok()
        .filter(|days| (1..=60).contains(days))
        .ok_or_else(|| format!("\"{text}\" is not a number of days: from 1 to 60."))
}

fn refuse_too_many(strips: f64) -> Result<(), String> {
    #[expect(clippy::cast_precision_loss, reason = "a few hundred")]
    let most = MOST_AT_ONCE as f64;
    if strips > most {
        return Err(format!(
            "That would make more than {MOST_AT_ONCE} strips: give a larger figure."
        ));
    }
    Ok(())
}
