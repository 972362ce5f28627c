//! Floor 2: the document. Ground, stock, sward, season, records; edits, history, findings, measures.
//!
//! Knows nothing of how plans are found, of disk or window. Plain data in ordered maps; changed only through
//! [`History::commit`].

mod basin;
mod basin_sums;
mod bed_sums;
mod beds;
mod built_sums;
mod course;
mod cut_edits;
mod edit;
mod fence_posts;
mod fence_sums;
mod finding;
mod findings;
mod grazing;
mod ground;
mod ground_index;
mod growth_preset;
mod growth_shape;
mod hen_house;
mod history;
mod ids;
mod kind;
mod lying;
mod measures;
mod meeting;
mod mob_days;
mod neighbourhood;
mod net_area;
mod place;
mod reshape;
mod season;
mod stock;
mod stock_class;
mod stocking;
mod strip_cut;
mod strip_names;
mod strips;
mod tree_list;
mod tree_row;
mod tunnel_frame;
mod tunnel_sums;

pub use basin::Basin;
pub use basin_sums::basin_sums;
pub use bed_sums::{
    BedGap, BedLayout, BedSums, bed_gap, bed_sums, lay_out_beds, longest_way_deg, plants_on,
};
pub use beds::Beds;
pub use built_sums::{BuiltSums, built_sums};
pub use course::{
    CROP_SOURCE, CROPS, Cell, Contact, Course, CourseFinding, CourseStep, Courses, CropFigures,
    CropRow, Family, HarvestRule, HarvestWait, INTERVALS, Interval, OwnCrop, OwnWait, RULES_DEFER,
    Raised, RuleFacts, Turn, Use, YearAreas, cell_at, course_findings, course_grounds,
    course_years, crop_figures, interval_of, use_from_words, use_words, uses_at, year_areas,
};
pub use cut_edits::{Replaced, cut_edits, replaced_by_cut};
pub use edit::{Edit, EditError, Touched};
pub use fence_posts::FencePosts;
pub use fence_sums::{FenceSums, fence_posts, fence_sums};
pub use finding::{Finding, FindingCode, Severity, Subject};
pub use findings::{findings, findings_with};
pub use grazing::{Closed, Grazing, Reading, Sward};
pub use ground::{Ground, Shape};
pub use growth_preset::{GROWTH_PRESETS, GrowthCourse, GrowthPreset, year_growth_kg};
pub use growth_shape::GrowthShape;
pub use hen_house::{
    FlockStep, FollowsSheep, HenHandling, HenHouse, HenMark, HenSpot, HenStop, LeftStretch,
    LineOrder, LineSide, StopKind, StretchTrouble, TowSide,
};
pub use history::History;
pub use ids::{GroundId, HenHouseId, MobId};
pub use kind::{Form, Kind};
pub use lying::may_share_ground;
pub use measures::{GroundMeasures, farm_area_m2, measure_ground};
pub use mob_days::{EARLY_LACTATION_DAYS, MobChange};
pub use neighbourhood::{MisfitKind, NeighbourMisfit, Neighbourhood};
pub use net_area::{NetArea, TakenOff, net_areas};
pub use place::Farm;
pub use reshape::{
    AreaChange, HeadlandBecomes, HeadlandWish, HoleFill, MendChoice, Reshaped, cut_out, headland,
    hole_drawn, holes_filled, join, keep_out_round, mends, mirrored_across, neighbours_follow,
    split_along, turned_about, with_shared_corners,
};
pub use season::{FixedPlace, Season};
pub use stock::{ComesBehind, Mob, Visit};
pub use stock_class::{ClassFacts, LivestockUnitSet, STOCK_CLASSES, Sourced, StockClass};
pub use stocking::{Density, density_of, density_on, sheep_days_per_ha};
pub use strip_cut::{
    REACH_M, Reaching, StripCut, StripDirection, countable_sides, cut_ground, line_bearing_deg,
    reachable,
};
pub use strip_names::{strip_name, strip_stem, taken_strip_name};
pub use strips::{GrazedUnit, grazed_units};
pub use tree_list::{Tree, all_trees, totals_by_variety, trees_on};
pub use tree_row::TreeRow;
pub use tunnel_frame::{TunnelEnds, TunnelFrame};
pub use tunnel_sums::{TunnelFloor, TunnelGap, TunnelSums, gaps_along, tunnel_floor, tunnel_sums};
