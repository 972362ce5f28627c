//! The planner on threads of its own: the season's plan, its proven bound, and plans for the moment while something is
//! dragged.
//!
//! A newer question makes an older answer worthless: it is cancelled and dropped. A plan for the moment is let finish,
//! so that the ribbon follows a drag that never rests. Each answer wakes the window once.

use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};

use crate::farm::Farm;
use crate::planning::{Nearness, Replan, SeasonPlan, replanned};
use crate::quantity::Day;

/// The planner.
#[derive(Debug)]
pub struct Planner {
    /// The newest question about the season, and the newest row of plans for the moment.
    newest: Arc<Newest>,
    asked: u64,
    waiting: Option<Question>,
    waiting_preview: Option<Question>,
    is_at_work: bool,
    is_previewing: bool,
    answers: (Sender<Answer>, Receiver<Answer>),
}

#[derive(Debug, Default)]
struct Newest {
    question: AtomicU64,
    previews: AtomicU64,
}

/// What is to be planned.
#[derive(Debug, Clone)]
struct Question {
    farm: Farm,
    before: Option<Arc<SeasonPlan>>,
    today: Day,
}

#[derive(Debug)]
struct Answer {
    number: u64,
    news: News,
}

/// What came back.
#[derive(Debug)]
pub enum News {
    /// A better plan; more may come.
    Better(SeasonPlan),
    /// The plan that stays, or why there is none.
    Settled(Result<SeasonPlan, String>),
    /// How far that plan can be from the best.
    Bound(Option<Nearness>),
    /// A plan for the moment, or why there is none.
    Preview(Result<SeasonPlan, String>),
}

impl Default for Planner {
    fn default() -> Self {
        Self {
            newest: Arc::default(),
            asked: 0,
            waiting: None,
            waiting_preview: None,
            is_at_work: false,
            is_previewing: false,
            answers: channel(),
        }
    }
}

impl Planner {
    /// Asks for the season of a farm, the days before today as in the plan before; what was asked before is dropped.
    pub fn ask(&mut self, farm: &Farm, before: Option<Arc<SeasonPlan>>, today: Day) {
        self.asked += 1;
        self.newest.question.store(self.asked, Ordering::Relaxed);
        self.drop_previews();
        self.waiting = Some(Question {
            farm: farm.clone(),
            before,
            today,
        });
    }

    /// Asks for a plan for the moment, from the plan before; it comes after the one that is being made.
    pub fn ask_preview(&mut self, farm: Farm, before: Option<Arc<SeasonPlan>>, today: Day) {
        self.waiting_preview = Some(Question {
            farm,
            before,
            today,
        });
    }

    /// Lets go of plans for the moment, made or in the making.
    pub fn drop_previews(&mut self) {
        self.newest.previews.fetch_add(1, Ordering::Relaxed);
        self.waiting_preview = None;
    }

    /// The number of the question asked last: another one, whenever something on the farm has changed.
    pub const fn question(&self) -> u64 {
        self.asked
    }

    /// Whether a plan for the moment is asked for or in the making.
    pub fn has_preview_to_come(&self) -> bool {
        self.is_previewing || self.waiting_preview.is_some()
    }

    /// Whether a better plan may still come.
    pub fn is_at_work(&self) -> bool {
        self.is_at_work
            || self.waiting.is_some()
            || self.is_previewing
            || self.waiting_preview.is_some()
    }

    /// Starts what waits and gives what came, oldest first.
    pub fn poll(&mut self, ctx: &egui::Context) -> Vec<News> {
        let mut fresh = Vec::new();
        while let Ok(Answer { number, news }) = self.answers.1.try_recv() {
            let is_preview = matches!(news, News::Preview(_));
            self.is_previewing &= !is_preview;
            let newest = if is_preview {
                self.newest.previews.load(Ordering::Relaxed)
            } else {
                self.asked
            };
            if number == newest {
                self.is_at_work &= !matches!(news, News::Settled(_));
                fresh.push(news);
            }
        }
        if let Some(question) = self.waiting.take() {
            self.is_at_work = true;
            self.start(question, ctx.clone());
        }
        if !self.is_previewing
            && let Some(question) = self.waiting_preview.take()
        {
            self.is_previewing = true;
            self.start_preview(question, ctx.clone());
        }
        fresh
    }

    fn start(&self, question: Question, ctx: egui::Context) {
        let (number, newest, sender) =
            (self.asked, Arc::clone(&self.newest), self.answers.0.clone());
        std::thread::spawn(move || {
            let is_stale = || newest.question.load(Ordering::Relaxed) != number;
            let tell = |news: News| {
                // A closed channel means that the window is gone.
                drop(sender.send(Answer { number, news }));
                ctx.request_repaint();
            };
            let Question {
                farm,
                before,
                today,
            } = question;
            let replan = Replan {
                before: before.as_deref(),
                today,
                is_preview: false,
            };
            let found = replanned(&farm, &replan, &mut |better| {
                tell(News::Better(better));
                !is_stale()
            });
            if is_stale() {
                return;
            }
            let plan = found.as_ref().ok().cloned();
            tell(News::Settled(found.map_err(|error| error.to_string())));
            if let Some(plan) = plan {
                let bound = Nearness::of_farm(&farm, &plan, today, &|| !is_stale());
                if !is_stale() {
                    tell(News::Bound(bound));
                }
            }
        });
    }

    fn start_preview(&self, question: Question, ctx: egui::Context) {
        let (newest, sender) = (Arc::clone(&self.newest), self.answers.0.clone());
        let number = newest.previews.load(Ordering::Relaxed);
        std::thread::spawn(move || {
            let replan = Replan {
                before: question.before.as_deref(),
                today: question.today,
                is_preview: true,
            };
            let goes_on = |_| newest.previews.load(Ordering::Relaxed) == number;
            let found = replanned(&question.farm, &replan, &mut { goes_on });
            let news = News::Preview(found.map_err(|error| error.to_string()));
            drop(sender.send(Answer { number, news }));
            ctx.request_repaint();
        });
    }
}
