//! The finishing week, computed: canvas from the roll, what to buy, the calendar, the press, labels, packing.
//! A part the job does not ask for is `None`. Each computation is a module of its own over plain input.

pub mod board;
pub mod calendar;
pub mod canvas;
pub mod clock;
mod first_fit;
pub mod labels;
mod loading;
pub mod lots;
pub mod needs;
pub mod packing;
pub mod parcel;
pub mod press;
pub mod purchase;
mod roll_job;
pub mod shopping;
mod strips;
pub mod timetable;
pub mod work;

pub use board::Spot;
pub use calendar::{Help, HelpRow, Row, WeekPlan};
pub use canvas::{CanvasPlan, RollPiece, RollStrip};
pub use labels::{LabelGrid, LabelSet, label_grid};
pub use lots::Lot;
pub use needs::{litres_to_fill, say_area};
pub use packing::{Carrier, Misfit, Packing};
pub use parcel::{PackedStack, Parcel, Refusal};
pub use press::{PressLoad, PressMisfit, PressPlan, PressStack};
pub use purchase::cheapest;
pub use shopping::{Bought, Need, PanelCost, Shopping, ShoppingLine};

use crate::data::Job;
use crate::plan::Plan;
use crate::solve::Watch;

/// What follows the saw.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Week {
    /// How the canvas is cut from the roll.
    pub canvas: Option<CanvasPlan>,
    /// Everything to buy, if the week takes more than sheets and cuts.
    pub shopping: Option<Shopping>,
    /// Which panels are pressed together.
    pub press: Option<PressPlan>,
    /// When everything is done.
    pub calendar: Option<WeekPlan>,
    /// Labels for the backs.
    pub labels: Option<LabelSet>,
    /// What travels in which box, bag or bundle.
    pub packing: Option<Packing>,
}

/// Plans the week that follows a cutting plan.
pub fn plan_week(job: &Job, plan: &Plan, watch: &dyn Watch) -> Week {
    let (week, lots) = (&job.week, lots::lots(job, plan));
    let canvas = week.canvas.as_ref().and_then(|canvas| canvas::canvas_plan(&lots, canvas, watch));
    let press = week.press.as_ref().filter(|_| canvas.is_some()).map(|press| press::press_plan(&lots, press));
    let buys = week.finish.is_some() || week.glue.is_some() || canvas.is_some();
    Week {
        shopping: buys.then(|| shopping::shopping(job, plan, &lots, canvas.as_ref())),
        calendar: week
            .calendar
            .as_ref()
            .and_then(|calendar| calendar::week_plan(calendar, &work::works(week, calendar, &lots, press.as_ref()))),
        labels: week.labels.as_ref().map(|labels| labels::label_set(job, plan, &lots, labels)),
        packing: week.pack.as_ref().map(|pack| packing::pack_lots(&lots, pack)),
        canvas,
        press,
    }
}
