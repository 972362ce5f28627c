//! Which figure a field stands for, and what typing into it does to the farm.
//!
//! Knows no toolkit: a typed text becomes the edits of one step, or a sentence that says why not.

use std::collections::BTreeMap;

use super::{
    built_change, course_change, grass_change, ground_change, house_change, mob_change,
    season_change,
};
use crate::app::season_acts::Act;
use crate::farm::{Farm, GroundId, HenHouseId, MobId};
use crate::planning::HenWalk;
use crate::quantity::{Day, UnitSystem};

/// A figure or a word of the farm that can be typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Target {
    /// Of a mob.
    Mob(MobId, MobField),
    /// Of a hen house.
    House(HenHouseId, HouseField),
    /// Of the season or the farm's sward.
    Season(SeasonField),
    /// Of the grass on a strip, or on every strip of a ley.
    Grass(GroundId, GrassField),
    /// Of a piece of ground.
    Ground(GroundId, GroundField),
    /// Of something built or planted on a piece of ground.
    Built(GroundId, BuiltField),
    /// Of the course of crops.
    Course(CourseField),
}

/// What is typed about a mob.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum MobField {
    /// Its name.
    Name,
    /// Head.
    Head,
    /// Liveweight of one head, kg.
    Liveweight,
    /// Eaten by one head a day, kg DM; empty for the class's share.
    Eats,
    /// What one head gains a day, g.
    Gain,
    /// The middle of lambing; empty where it is not known.
    LambedOn,
    /// First day of a later change, by its place in the list.
    LaterFrom(usize),
    /// Head from then on.
    LaterHead(usize),
    /// Liveweight of one head on that day, kg.
    LaterWeight(usize),
    /// What one head gains a day from then on, g.
    LaterGain(usize),
    /// First day of a visit, by its place in the list.
    VisitFrom(usize),
    /// Last day of a visit, by its place in the list.
    VisitTo(usize),
    /// Degrees north and east of the yard; empty for none.
    Yard,
    /// Most days behind the mob in front.
    DaysBehind,
}

/// What is typed about a hen house.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum HouseField {
    /// Its name.
    Name,
    /// Hens in it.
    Hens,
    /// Length with its run, along the line.
    Length,
    /// Width with its run, across the line.
    Width,
    /// Ground left between two places.
    Gap,
    /// From the line to the middle of the house.
    Offset,
    /// First day out.
    FirstDay,
    /// Last day out; empty for the season's end.
    LastDay,
    /// Days on one place.
    DaysPerPlace,
    /// Days of rest wanted.
    RestWanted,
    /// Length of the house without its run; empty for that with it.
    HouseLength,
    /// Width of the house without its run; empty for that with it.
    HouseWidth,
    /// Radius of its turn; empty for the length of what is towed.
    TurnRadius,
    /// The way of lanes across a ley; empty for along its longest side.
    LaneBearing,
    /// The last day with hens along a line before the walk; empty where not known.
    LeftOn(GroundId),
    /// Where a stretch that is left out begins along its line, by its place in the list.
    StretchFrom(usize),
    /// Where it ends.
    StretchTo(usize),
    /// Days after the sheep that it follows.
    FollowDays,
    /// First day of a stop, by its place in the list.
    StopFrom(usize),
    /// Last day of a stop.
    StopTo(usize),
    /// Why it is stopped.
    StopWhy(usize),
    /// The day from which a step of a growing flock holds, by its place in the list.
    StepFrom(usize),
    /// Birds from then on.
    StepBirds(usize),
    /// Ground each wants, m².
    StepRoom(usize),
    /// The place of the round it stands on, on a day; empty frees the day.
    PlaceOn(Day),
}

/// What is typed about the season and the farm's sward.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SeasonField {
    /// First planned day.
    FirstDay,
    /// Last planned day.
    LastDay,
    /// Days planned.
    Days,
    /// Growth of a month, January 0, kg DM/ha/day.
    Growth(usize),
    /// Rest owed after a spell that ends in a month, January 0, days.
    Rest(usize),
    /// Residual, kg DM/ha.
    Leave,
    /// Least cover on entry, kg DM/ha.
    Enter,
    /// Cover at which growth stops, kg DM/ha.
    Ceiling,
    /// Least days before lambs come back, for the worms; empty for the grass's own rest.
    LambRest,
    /// Growth this year as a share of the months' figures, per cent.
    Factor,
    /// The first day on which that share holds; empty for always.
    FactorFrom,
    /// Longest spell on one strip, days.
    LongestStay,
    /// Where the figures come from.
    Source,
    /// Seed of the search.
    Seed,
}

/// What is typed about the grass on one strip, or on every strip of a ley.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum GrassField {
    /// Cover read on a day, kg DM/ha; empty takes the reading away.
    Cover(Day),
    /// Growth against the farm's, times.
    GrowthFactor,
    /// Its own residual, kg DM/ha; empty for the farm's.
    Leave,
    /// Its own least cover on entry, kg DM/ha; empty for the farm's.
    Enter,
    /// Its own ceiling, kg DM/ha; empty for the farm's.
    Ceiling,
    /// Cover wanted on the morning after the season, kg DM/ha; empty for none.
    EndCover,
    /// The last day with stock before the season; empty where not known.
    LastGrazed,
    /// First day of a closed span, by its place in the list.
    ClosedFrom(usize),
    /// Last day of a closed span, by its place in the list.
    ClosedTo(usize),
    /// Why it is closed, by its place in the list.
    ClosedWhy(usize),
}

/// What is typed about any piece of ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum GroundField {
    /// Width of a line; empty for the usual one.
    Width,
    /// Height above ground; empty where not known.
    Height,
    /// From stem to stem; empty for no trees.
    TreeSpacing,
    /// From the line's beginning to the first stem.
    TreeFirst,
    /// Width of a grown crown.
    TreeCrown,
    /// Anything else.
    Note,
}

/// What is typed about something built or planted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BuiltField {
    /// Length of a tunnel.
    Length,
    /// Width of a tunnel.
    Width,
    /// Bearing of a tunnel.
    Bearing,
    /// From hoop to hoop; empty where it is not said how the tunnel is built.
    HoopSpacing,
    /// Upright side below the bow.
    StraightSide,
    /// Cover that is dug in.
    Skirt,
    /// Varieties of a tree line, in order.
    Varieties,
    /// Width of a bed; empty for no beds.
    BedWidth,
    /// Between two beds.
    PathWidth,
    /// Bearing of the beds; empty for along the longest side.
    BedBearing,
    /// Rows on a bed.
    Rows,
    /// From plant to plant in the row.
    PlantSpacing,
    /// From post to post of a fence; empty where it is not said.
    PostSpacing,
    /// Length of a roll.
    Roll,
    /// Strands of wire.
    Strands,
    /// Depth of a pond; empty where it is not known.
    Depth,
    /// Run of its sides for each metre down.
    SideRun,
}

/// What is typed about the course of crops.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CourseField {
    /// What grows on ground in a year, by the crop's place in the year; what follows from the course takes it back.
    Cell(GroundId, i16, u8),
    /// First year of the table.
    FirstYear,
    /// Years of the table.
    Years,
    /// Years that a ley should lie; empty for the usual.
    LeyYears,
    /// Days between the last animals and sowing; empty for the usual.
    ClearDays,
    /// The name of a course, by its place in the list.
    CourseName(usize),
    /// What grows in a step of a course, crops with + between; empty takes the step out.
    Step(usize, usize),
    /// A further step of a course.
    NewStep(usize),
    /// The step, from 1, at which ground is in the first year of a course; empty takes it out.
    Start(usize, GroundId),
    /// Own years from crop to crop of a family; empty for those of the table.
    Interval(u8),
    /// The soil's pH; empty where not known.
    SoilPh(GroundId),
    /// One of the grower's own waits: 0 to what touches the soil, 1 to what hangs clear, 2 to planting.
    OwnWait(u8),
    /// A figure of the crop in view, by the number of its name.
    Crop(u64, CropField),
}

/// A figure of a crop; empty for that of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CropField {
    /// Metres from row to row.
    Row,
    /// Metres from plant to plant.
    Plant,
    /// Sown or planted out.
    Planted,
    /// First picked.
    FirstHarvest,
    /// Last picked.
    LastHarvest,
    /// To spare, in 100.
    Spare,
    /// Expected, kg/m².
    Yield,
    /// Expected of a plant, kg.
    YieldPerPlant,
}

/// What a change may look at.
#[derive(Debug, Clone, Copy)]
pub struct Given<'farm> {
    /// The farm as it stands.
    pub farm: &'farm Farm,
    /// The units in which bare lengths are read.
    pub units: UnitSystem,
    /// The day in view: it gives the year where none is typed.
    pub near: Day,
    /// Whether neighbours' corners stay where they are.
    pub holds_apart: bool,
    /// The walks of the plan in view: places that the mob a house follows has led it to are known from there alone.
    pub walks: Option<&'farm BTreeMap<HenHouseId, HenWalk>>,
}

/// The step that a typed text makes.
///
/// # Errors
/// A sentence for the grower, where the text is not understood or cannot be; nothing is to change then.
pub fn change(given: Given<'_>, target: Target, typed: &str) -> Result<Act, String> {
    match target {
        Target::Mob(id, field) => mob_change::change(given, id, field, typed),
        Target::House(id, field) => house_change::change(given, id, field, typed),
        Target::Season(field) => season_change::change(given, field, typed),
        Target::Grass(id, field) => grass_change::change(given, id, field, typed),
        Target::Ground(id, field) => ground_change::change(given, id, field, typed),
        Target::Built(id, field) => built_change::change(given, id, field, typed),
        Target::Course(field) => course_change::change(given, field, typed),
    }
}

/// What is said where the thing that was typed about has gone meanwhile.
pub(super) fn gone() -> String {
    "It is no longer on the farm.".to_owned()
}
