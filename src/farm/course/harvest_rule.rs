//! Waits between animals or manure and a crop, as published. The texts disagree, so each is a named choice.
//!
//! Days are plain days; months are calendar months that end with the month. Your certifier and local code decide.

use super::Contact;
use crate::quantity::Day;

/// The rule that the grower follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum HarvestRule {
    /// United States, organic.
    #[default]
    UsOrganic,
    /// United States, produce safety: no wait is set.
    UsProduceSafety,
    /// United States, leafy greens agreement.
    LeafyGreens,
    /// United Kingdom, older guideline: stock last in the field.
    UkStockInField,
    /// United Kingdom, older guideline: fresh manure spread.
    UkFreshManure,
    /// United Kingdom, older guideline: treated manure.
    UkTreatedManure,
    /// United Kingdom, 2009 guide and assurance schemes.
    UkReadyToEat,
    /// The grower's own days.
    Own,
}

/// A wait between the last animals and a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HarvestWait {
    /// None is set.
    None,
    /// Plain days.
    Days(u16),
    /// Calendar months.
    Months(u16),
}

/// The grower's own waits, days.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OwnWait {
    /// To the harvest of what touches the soil or its splash.
    pub touching_days: u16,
    /// To the harvest of what hangs clear of it.
    pub clear_days: u16,
    /// To sowing or planting.
    pub planting_days: u16,
}

/// A rule with its waits and where it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RuleFacts {
    /// The rule.
    pub rule: HarvestRule,
    /// Its stable word for scripts.
    pub code: &'static str,
    /// What it is called.
    pub name: &'static str,
    /// Title, body, section; and how sure.
    pub source: &'static str,
    /// To the harvest of what touches the soil or its splash.
    pub touching: HarvestWait,
    /// To the harvest of what hangs clear of it.
    pub clear: HarvestWait,
    /// To sowing or planting.
    pub planting: HarvestWait,
    /// What else must be said of it.
    pub remark: &'static str,
}

/// What stands beside every rule.
pub const RULES_DEFER: &str =
    "Texts disagree and change: your certifier and the code in force where you farm decide.";

const UK_OLDER: &str = "Food Standards Agency guidelines as summarised by Defra (ADLib)";

const fn facts(
    rule: HarvestRule,
    (code, name, source): (&'static str, &'static str, &'static str),
    [touching, clear, planting]: [HarvestWait; 3],
    remark: &'static str,
) -> RuleFacts {
    RuleFacts {
        rule,
        code,
        name,
        source,
        touching,
        clear,
        planting,
        remark,
    }
}

use HarvestWait::{Days, Months, None as NoWait};

impl HarvestRule {
    /// Every rule, in the order in which lists show them.
    pub const ALL: [Self; 8] = [
        Self::UsOrganic,
        Self::UkStockInField,
        Self::UkReadyToEat,
        Self::UkFreshManure,
        Self::UkTreatedManure,
        Self::LeafyGreens,
        Self::UsProduceSafety,
        Self::Own,
    ];

    /// Name, source and waits; those of [`Self::Own`] are in `own`.
    pub fn facts(self, own: OwnWait) -> RuleFacts {
        match self {
            Self::UsOrganic => facts(
                self,
                (
                    "us_organic",
                    "US organic, 120 and 90 days",
                    "7 CFR 205.203(c)(1)(i) to (iii)",
                ),
                [Days(120), Days(90), NoWait],
                "The text speaks of raw manure that is worked in; for droppings of grazing animals it is followed by \
                 analogy.",
            ),
            Self::UsProduceSafety => facts(
                self,
                (
                    "us_produce_safety",
                    "US produce safety, no wait set",
                    "21 CFR 112.56(a)(1): the interval is reserved",
                ),
                [NoWait, NoWait, NoWait],
                "No wait is set yet where manure may touch the crop; many growers keep the organic 120 and 90 days \
                 meanwhile.",
            ),
            Self::LeafyGreens => facts(
                self,
                (
                    "leafy_greens",
                    "US leafy greens agreement, 1 year",
                    "Leafy greens marketing agreement, as quoted by Cornell University, produce safety decision trees",
                ),
                [Months(12), Months(12), NoWait],
                "",
            ),
            Self::UkStockInField => facts(
                self,
                (
                    "uk_stock_in_field",
                    "UK, stock last in the field, 4 months",
                    UK_OLDER,
                ),
                [Months(4), Months(4), NoWait],
                "Other UK texts ask for more: see the 12 months.",
            ),
            Self::UkFreshManure => facts(
                self,
                ("uk_fresh_manure", "UK, fresh manure, 6 months", UK_OLDER),
                [Months(6), Months(6), NoWait],
                "",
            ),
            Self::UkTreatedManure => facts(
                self,
                (
                    "uk_treated_manure",
                    "UK, treated manure, 2 months",
                    UK_OLDER,
                ),
                [Months(2), Months(2), NoWait],
                "For treated or batch-stored manure; it says nothing of animals in the field.",
            ),
            Self::UkReadyToEat => facts(
                self,
                (
                    "uk_ready_to_eat",
                    "UK, ready to eat, 12 months and 6 before planting",
                    "Managing farm manures for food safety, Food Standards Agency, 2009, and assurance schemes; figures \
                     from memory",
                ),
                [Months(12), Months(12), Months(6)],
                "Voluntary, and for crops that are eaten raw.",
            ),
            Self::Own => facts(
                self,
                ("own", "My own days", "your own figures"),
                [
                    Days(own.touching_days),
                    Days(own.clear_days),
                    Days(own.planting_days),
                ],
                "",
            ),
        }
    }

    /// The rule of a stable word.
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|rule| rule.facts(OwnWait::default()).code == code)
    }
}

impl RuleFacts {
    /// The wait to the harvest of a crop.
    pub const fn to_harvest(&self, contact: Contact) -> HarvestWait {
        match contact {
            Contact::TouchesSoil => self.touching,
            Contact::OffSoil => self.clear,
            Contact::NotFood => HarvestWait::None,
        }
    }

    /// The wait to sowing or planting of a crop.
    pub const fn to_planting(&self, contact: Contact) -> HarvestWait {
        match contact {
            Contact::NotFood => HarvestWait::None,
            Contact::TouchesSoil | Contact::OffSoil => self.planting,
        }
    }
}

impl HarvestWait {
    /// The first day that is far enough from the last animals.
    pub fn earliest_after(self, last_animals: Day) -> Day {
        match self {
            Self::None => last_animals,
            Self::Days(days) => last_animals.plus_days(i64::from(days)),
            Self::Months(months) => last_animals.plus_months(i32::from(months)),
        }
    }

    /// The last day on which animals may stand so that `day` is far enough.
    pub fn last_before(self, day: Day) -> Day {
        match self {
            Self::None => day,
            Self::Days(days) => day.plus_days(-i64::from(days)),
            Self::Months(months) => {
                // Several days of a long month come to the end of a short one: the latest of them is meant.
                let mut last = day.plus_months(-i32::from(months));
                for _ in 0..4 {
                    let next = last.plus_days(1);
                    if self.earliest_after(next) > day || next == last {
                        break;
                    }
                    last = next;
                }
                last
            }
        }
    }

    /// `120 days`, `4 months`, `no wait`.
    pub fn words(self) -> String {
        let counted = |count: u16, one: &str| {
            let ending = if count == 1 { "" } else { "s" };
            format!("{count} {one}{ending}")
        };
        match self {
            Self::None => "no wait".to_owned(),
            Self::Days(days) => counted(days, "day"),
            Self::Months(months) => counted(months, "month"),
        }
    }
}

impl Default for OwnWait {
    /// The longest of the plain-day rules.
    fn default() -> Self {
        Self {
            touching_days: 120,
            clear_days: 90,
            planting_days: 0,
        }
    }
}
