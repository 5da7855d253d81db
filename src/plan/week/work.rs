//! The steps of the week as work for one pair of hands: which batches, how long, and what they lie on while they dry.

use super::lots::Lot;
use super::press::PressPlan;
use crate::data::week::{Calendar, Step, Timing, Week};

/// Where a batch lies from the first touch until it is ready; only one batch at a time lies there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Nowhere in particular: the hands are the only limit.
    Hands,
    /// On the bench.
    Bench,
    /// Under the press.
    Press,
}

/// One step for all panels. Panels are numbered through with those that get canvas first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Work {
    /// The step.
    pub step: Step,
    /// Panels of each batch, in order; together they may be fewer than all panels.
    pub batches: Vec<u32>,
    /// Where a batch lies.
    pub place: Place,
    /// Hands-on seconds a panel.
    pub seconds: u32,
    /// Minutes of waiting afterwards.
    pub wait: u32,
}

impl Work {
    /// Hands-on minutes of a batch, rounded up.
    pub fn minutes(&self, panels: u32) -> i64 {
        (i64::from(panels) * i64::from(self.seconds)).div_euclid(60)
            + i64::from((i64::from(panels) * i64::from(self.seconds)) % 60 > 0)
    }
}

/// The works that a job's week asks for, in order; none where there are no panels.
pub fn works(week: &Week, calendar: &Calendar, lots: &[Lot], press: Option<&PressPlan>) -> Vec<Work> {
    let panels: u32 = lots.iter().map(|lot| lot.count).sum();
    let (loads, under) = glued(calendar, lots, press);
    let mut works = Vec::new();
    let mut add = |step: Step, batches: Vec<u32>, place: Place| {
        let Timing { seconds, wait } = calendar.times.get(&step).copied().unwrap_or(Timing { seconds: 0, wait: 0 });
        if !batches.is_empty() {
            works.push(Work { step, batches, place, seconds, wait });
        }
    };
    let benches = in_batches(panels, calendar.bench);
    if let Some(finish) = &week.finish {
        if finish.flaws > 0 {
            add(Step::Fill, benches.clone(), Place::Bench);
        }
        add(Step::Sand, benches.clone(), Place::Hands);
        for coat in 0..finish.coats {
            add(if coat == 0 { Step::Seal } else { Step::Coat }, benches.clone(), Place::Bench);
        }
    }
    add(Step::Glue, loads.clone(), under);
    add(Step::Trim, loads, Place::Hands);
    if week.labels.is_some() {
        add(Step::Label, in_batches(panels, panels), Place::Hands);
    }
    if week.pack.is_some() {
        add(Step::Pack, in_batches(panels, panels), Place::Hands);
    }
    works
}

/// Batches of glued panels: the press loads, or without a press as many as the bench holds.
fn glued(calendar: &Calendar, lots: &[Lot], press: Option<&PressPlan>) -> (Vec<u32>, Place) {
    let canvassed = lots.iter().filter(|lot| lot.canvas.is_some()).map(|lot| lot.count).sum();
    match press {
        Some(press) => (press.loads.iter().map(|load| load.panels).collect(), Place::Press),
        None => (in_batches(canvassed, calendar.bench), Place::Bench),
    }
}

/// So many panels in batches of at most `most`.
fn in_batches(panels: u32, most: u32) -> Vec<u32> {
    let most = most.max(1);
    let full = vec![most; (panels / most) as usize];
    full.into_iter().chain((!panels.is_multiple_of(most)).then_some(panels % most)).collect()
}
