//! A finding: something about the farm that the grower should know, with its place, cause and remedy.
//!
//! A value, never an error: the farm is usable all the same.

use super::{GroundId, HenHouseId, MobId};
use crate::geometry::Point;

/// Something to know or to mend.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// How much it matters.
    pub severity: Severity,
    /// Which rule speaks.
    pub code: FindingCode,
    /// What it is about.
    pub about: Subject,
    /// The other piece of ground, where it is about two.
    pub beside: Option<GroundId>,
    /// Where on the map.
    pub place: Option<Point>,
    /// What is wrong, in a sentence.
    pub what: String,
    /// What to do about it, in a sentence.
    pub remedy: String,
}

/// How much a finding matters, the gravest last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Good to know.
    Note,
    /// Look at it.
    Warning,
    /// Figures here cannot be trusted until it is mended.
    Error,
}

/// What a finding is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// The farm as a whole.
    Farm,
    /// A piece of ground.
    Ground(GroundId),
    /// A mob.
    Mob(MobId),
    /// A hen house.
    HenHouse(HenHouseId),
}

/// The rules that speak in findings; the text form is stable.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FindingCode {
    /// An outline or line is not a sound shape.
    ShapeFault,
    /// A kind that does not lie in this form.
    FormUnusual,
    /// Two pieces of ground with one name.
    NameTwice,
    /// No name.
    NameMissing,
    /// A strip without a ley, or with one that is gone.
    StripAlone,
    /// Strips and ley do not add up to one area.
    StripsUneven,
    /// Strips of one ley lie on each other.
    StripsOverlap,
    /// Two areas that each cover the ground lie on each other.
    AreasOverlap,
    /// Two areas leave a sliver between them.
    AreasGap,
    /// A figure of the sward that does not fit the others.
    SwardFigure,
    /// A mob without a day on the farm, or with visits that overlap.
    VisitFault,
    /// A figure of a mob or hen house that cannot be.
    StockFigure,
    /// A settled day that cannot be.
    FixedFault,
    /// A hen line that is gone, too short, or not a line.
    HenLine,
    /// Density above what spreads dung and urine evenly.
    DensityHigh,
    /// A tunnel of unusual size, or one whose hoops cannot be reckoned.
    TunnelUnusual,
    /// Beds that have no room.
    BedsUnfit,
    /// A pond whose sides meet before its depth.
    BasinCloses,
    /// A family of crops back on its ground sooner than its years.
    FamilyBackSoon,
    /// A ley broken before the years wanted.
    LeyShort,
    /// Two plots at one step of a course that wants one each.
    StepShared,
    /// A year with much more under crop than another.
    YearsUneven,
    /// Hens come back to ground sooner than it should rest, stand on closed ground, or have too little room.
    HenRound,
    /// A family with more than half of the ground under crop.
    FamilyLarge,
}

impl Severity {
    /// The word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Error => "error",
        }
    }
}

impl FindingCode {
    /// The stable word for scripts.
    pub const fn name(self) -> &'static str {
        match self {
            Self::ShapeFault => "shape_fault",
            Self::FormUnusual => "form_unusual",
            Self::NameTwice => "name_twice",
            Self::NameMissing => "name_missing",
            Self::StripAlone => "strip_alone",
            Self::StripsUneven => "strips_uneven",
            Self::StripsOverlap => "strips_overlap",
            Self::AreasOverlap => "areas_overlap",
            Self::AreasGap => "areas_gap",
            Self::SwardFigure => "sward_figure",
            Self::VisitFault => "visit_fault",
            Self::StockFigure => "stock_figure",
            Self::FixedFault => "fixed_fault",
            Self::HenLine => "hen_line",
            Self::DensityHigh => "density_high",
            Self::TunnelUnusual => "tunnel_unusual",
            Self::BedsUnfit => "beds_unfit",
            Self::BasinCloses => "basin_closes",
            Self::FamilyBackSoon => "family_back_soon",
            Self::LeyShort => "ley_short",
            Self::StepShared => "step_shared",
            Self::YearsUneven => "years_uneven",
            Self::HenRound => "hen_round",
            Self::FamilyLarge => "family_large",
        }
    }
}
