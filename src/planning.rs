//! Floor 3: the planner of moves. A problem goes in, a plan comes out; the meaning of both is the planning model, version 1.
//!
//! Reads no clock, disk or environment; seeds and effort are given, and the same input gives the same plan everywhere.
//! Masses are kilograms of dry matter (per hectare for cover), areas hectares, distances metres, times days.

mod behind;
mod bound;
mod clean_ground;
mod contradictions;
mod densities;
mod farm_season;
mod fault;
mod from_farm;
pub mod grazing_sums;
mod hen_walk;
mod live;
mod loads;
mod nearness;
mod plan;
mod planting;
mod problem;
pub mod questions;
mod read_back;
mod reasons;
mod replan;
mod replay;
mod rules;
mod season;
mod season_pictures;
mod settling;
mod solver;
mod strip_sums;

pub use bound::{BoundOptions, lower_bound};
pub use clean_ground::{
    CleanCause, CleanCrop, CleanSpan, FruitLine, HensOnClean, clean_crops, clean_spans,
    course_ground_of, crop_days, fruit_lines, hens_on_clean, rule_of, settled_on_clean,
};
pub use contradictions::plainest_stands;
pub use densities::{Densities, ON_STRIP_TOLD, OVER_PLOT_TOLD, OVER_SEASON_TOLD, densities};
pub use farm_season::{SeasonPlan, Spell, Stand};
pub use fault::{FaultCause, ProblemFault};
pub use from_farm::{
    CoverSource, FarmProblem, FarmProblemError, LeyCover, ley_cover, problem_from,
};
pub use hen_walk::order as hen_order;
pub use hen_walk::{
    FEED_SOURCE, FlockOnWay, HenDay, HenFacts, HenLeg, HenOrder, HenPlace, HenRemedy, HenSums,
    HenTow, HenWalk, HenWalkError, HenWalks, MOST_PLACES, WATER_SOURCE, flock_on_way_told,
    flocks_on_way, hen_findings, hen_remedies, hen_sums, hen_walk, hen_walk_after, hen_walks,
    order_words, stretch_way,
};
pub use live::{SeasonError, live_season, live_season_of};
pub use loads::{
    Caution, EWES_PER_HA, HENS_PER_HA, LIMIT_SOURCE, Load, LoadCheck, Loads, MOST_N_KG_PER_HA,
    NitrogenSet, load_checks, loads, mixed_stock_cautions, visit_kg_per_ha,
};
pub use nearness::{Nearness, SCORE_TOLD};
pub use plan::Plan;
pub use planting::{
    PlantingRow, PlantingTotal, bed_length_m, planting_rows, planting_totals, with_spare,
};
pub use problem::{
    DaySpan, FixedDay, MOST_DAYS, MOST_MOBS, MOST_STRIP_DAYS, MOST_STRIPS, Problem, ProblemMob,
    ProblemStrip, Step, Weights,
};
pub use reasons::{
    Found, LeftBecause, MoveReason, NotReady, Reasons, RunnerUp, ShortCause, ShortReason, reasons,
};
pub use replan::{Replan, replanned};
pub use replay::{Figures, Replay, replay};
pub use rules::{Breach, BreachCause, Rule, breaches};
pub use season::{
    FormerSpell, Place, Season, SeasonFixed, SeasonMob, SeasonStrip, Stands, distance_m,
};
pub use season_pictures::{
    BorneBar, RestBar, SupplyDay, WedgeBar, borne, feed_wedge, rests, supply_and_demand,
};
pub use settling::{
    KeepOff, RunningSpell, Settling, SettlingError, SpellWish, settled_stand, with_settled,
};
pub use solver::{FULL_EFFORT, Progress, SolveError, SolveOptions, solve};
pub use strip_sums::{REST_SUM_SOURCE, StripFeed, days_text, rest_told};
