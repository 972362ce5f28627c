//! Questions a grower asks of a season, each answered by planning: how many head, until when, what if, when to stop,
//! what helps against a short day.
//!
//! Every answer rests on plans of a changed copy of the farm, from a day on, with everything before that day taken as
//! planned. Searches go by halves: more head or a later day nearly always means more short days, but a planner that
//! searches is not bound to it, so the answer is planned again in full, and its neighbour too. Today, the seed and the
//! effort are given; reads no clock. kg DM, head, civil days.

mod asked;
mod carry;
mod compare;
mod outcome;
mod remedies;
mod stop;
mod strip_now;

pub use asked::{Asked, QuestionError};
pub use carry::{CarryAnswer, UntilAnswer, head_carried, lasts_until};
pub use compare::{Change, Comparison, compared};
pub use outcome::{Outcome, SHORT_FROM_KG};
pub use remedies::{Remedies, Remedy, RemedyKind, USUAL_BALE_KG_DM, remedies};
pub use stop::{StopAnswer, stop_day};
pub use strip_now::{StripNow, strip_now};
