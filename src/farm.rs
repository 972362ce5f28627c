//! Floor 2: the document. Ground, stock, sward, season, records; edits, history, findings, measures.
//!
//! Knows nothing of how plans are found, of disk or window. Plain data in ordered maps; changed only through
//! [`History::commit`].

mod basin;
mod beds;
mod cut_edits;
mod edit;
mod fence_posts;
mod finding;
mod findings;
mod grazing;
mod ground;
mod history;
mod ids;
mod kind;
mod measures;
mod place;
mod season;
mod stock;
mod stock_class;
mod stocking;
mod strip_cut;
mod strip_names;
mod strips;
mod tree_row;
mod tunnel_frame;

pub use basin::Basin;
pub use beds::Beds;
pub use cut_edits::{Replaced, cut_edits, replaced_by_cut};
pub use edit::{Edit, EditError, Touched};
pub use fence_posts::FencePosts;
pub use finding::{Finding, FindingCode, Severity, Subject};
pub use findings::findings;
pub use grazing::{Closed, Grazing, Reading, Sward};
pub use ground::{Ground, Shape};
pub use history::History;
pub use ids::{GroundId, HenHouseId, MobId};
pub use kind::{Form, Kind};
pub use measures::{GroundMeasures, farm_area_m2, measure_ground};
pub use place::Farm;
pub use season::{FixedPlace, Season};
pub use stock::{HenHouse, LineSide, Mob, Visit};
pub use stock_class::{ClassFacts, LivestockUnitSet, STOCK_CLASSES, Sourced, StockClass};
pub use stocking::{Density, density_on, sheep_days_per_ha};
pub use strip_cut::{
    REACH_M, Reaching, StripCut, StripDirection, countable_sides, cut_ground, line_bearing_deg,
    reachable,
};
pub use strip_names::{strip_name, strip_stem, taken_strip_name};
pub use strips::{GrazedUnit, grazed_units};
pub use tree_row::TreeRow;
pub use tunnel_frame::{TunnelEnds, TunnelFrame};
