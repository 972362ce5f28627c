//! A question under way on a thread of its own, what was typed for it, and its answer.
//!
//! One question at a time; a newer one, or an edit of the farm, calls the older one off. The answer wakes the window.

use std::collections::BTreeSet;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};

use crate::farm::{Farm, GroundId, MobId};
use crate::planning::SeasonPlan;
use crate::planning::questions::{
    Asked, CarryAnswer, Change, Comparison, QuestionError, Remedies, StopAnswer, UntilAnswer,
    compared, head_carried, lasts_until, remedies, stop_day,
};
use crate::quantity::Day;

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub enum Question {
    /// How many head of this mob's kind.
    Head(MobId, BTreeSet<GroundId>),
    /// Until what day this mob is carried.
    Until(MobId, BTreeSet<GroundId>),
    /// Both plans side by side.
    WhatIf(Vec<Change>),
    /// When to stop so that so much is kept, kg DM/ha.
    Stop(f64),
    /// What helps against short days, with bales of so much, kg DM.
    Remedies(f64),
}

/// What came of it.
#[derive(Debug, Clone, PartialEq)]
pub enum Answer {
    /// How many head.
    Head(CarryAnswer),
    /// Until when.
    Until(UntilAnswer),
    /// Side by side.
    WhatIf(Comparison),
    /// When to stop.
    Stop(StopAnswer),
    /// What helps.
    Remedies(Remedies),
    /// Why there is no answer.
    None(String),
}

/// The days asked about.
pub type Days = (Day, Day);

/// What was typed on the page, as text.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Typed {
    /// The flock asked about; the first where absent.
    pub mob: Option<MobId>,
    /// First day; today where empty.
    pub from: String,
    /// Last day; the season's last where empty.
    pub to: String,
    /// Rest all year, days.
    pub rest: String,
    /// Head.
    pub head: String,
    /// Longest stay, days.
    pub stay: String,
    /// Growth, %.
    pub growth: String,
    /// Cover to keep, kg DM/ha.
    pub keep: String,
    /// Dry matter of a bale, kg.
    pub bale: String,
    /// Why what was typed is not understood.
    pub refusal: Option<String>,
}

enum News {
    Share(f64),
    Answer(Box<Answer>),
}

/// News with the number of its question.
type Numbered = (u64, News);

/// The question under way and the last answer.
pub struct Asking {
    /// What was typed.
    pub typed: Typed,
    /// The last answer, with the question and the days it is about.
    pub answer: Option<(Question, Days, Answer)>,
    /// Whether the page should bring the answer into view.
    pub wants_view: bool,
    /// The question under way, with the share that is done.
    under_way: Option<(Question, Days, f64)>,
    newest: Arc<AtomicU64>,
    news: (Sender<Numbered>, Receiver<Numbered>),
}

impl Default for Asking {
    fn default() -> Self {
        Self {
            typed: Typed::default(),
            answer: None,
            wants_view: false,
            under_way: None,
            newest: Arc::default(),
            news: channel(),
        }
    }
}

impl Asking {
    /// Asks; what was under way is called off.
    pub fn ask(
        &mut self,
        question: Question,
        days: Days,
        farm: &Farm,
        plan: Arc<SeasonPlan>,
        ctx: &egui::Context,
    ) {
        self.call_off();
        self.answer = None;
        self.under_way = Some((question.clone(), days, 0.0));
        let number = self.newest.load(Ordering::Relaxed);
        let (newest, sender) = (Arc::clone(&self.newest), self.news.0.clone());
        let (farm, ctx) = (farm.clone(), ctx.clone());
        std::thread::spawn(move || {
            let tell = |news: News| {
                // A closed channel means that the window is gone.
                drop(sender.send((number, news)));
                ctx.request_repaint();
            };
            let mut told = -1.0;
            let mut watch = |share: f64| {
                // A hundredth is worth a look.
                if share - told >= 0.01 {
                    told = share;
                    tell(News::Share(share));
                }
                newest.load(Ordering::Relaxed) == number
            };
            let answer = answered(&farm, &plan, &question, days, &mut watch);
            tell(News::Answer(Box::new(answer)));
        });
    }

    /// Calls off what is under way.
    pub fn call_off(&mut self) {
        self.newest.fetch_add(1, Ordering::Relaxed);
        self.under_way = None;
    }

    /// The share that is done of what is under way.
    pub fn share(&self) -> Option<f64> {
        self.under_way.as_ref().map(|(_, _, share)| *share)
    }

    /// Takes what came.
    pub fn poll(&mut self) {
        while let Ok((number, news)) = self.news.1.try_recv() {
            if number != self.newest.load(Ordering::Relaxed) {
                continue;
            }
            match news {
                News::Share(share) => {
                    if let Some(under_way) = &mut self.under_way {
                        under_way.2 = share;
                    }
                }
                News::Answer(answer) => {
                    let under_way = self.under_way.take();
                    self.answer = under_way.map(|(question, days, _)| (question, days, *answer));
                }
            }
        }
    }
}

fn answered(
    farm: &Farm,
    plan: &SeasonPlan,
    question: &Question,
    days: Days,
    watch: &mut dyn FnMut(f64) -> bool,
) -> Answer {
    let mut answer = || -> Result<Answer, QuestionError> {
        let mut asked = Asked::new(farm, plan, days, watch)?;
        Ok(match question {
            Question::Head(mob, ground) => Answer::Head(head_carried(&mut asked, *mob, ground)?),
            Question::Until(mob, ground) => Answer::Until(lasts_until(&mut asked, *mob, ground)?),
            Question::WhatIf(changes) => Answer::WhatIf(compared(&mut asked, changes)?),
            Question::Stop(keep) => Answer::Stop(stop_day(&mut asked, *keep)?),
            Question::Remedies(bale) => Answer::Remedies(remedies(&mut asked, *bale)?),
        })
    };
    answer().unwrap_or_else(|error| Answer::None(error.to_string()))
}
