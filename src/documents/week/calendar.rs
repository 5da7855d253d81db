//! The calendar: a chart, the list of what to do when, and where the deadline is missed, what would help.

use super::chart;
use super::moments::{day, duration, hour, hours, moment};
use crate::data::week::Step;
use crate::documents::assumptions;
use crate::documents::blocks::{Block, Column, Paper, Table};
use crate::plan::Plan;
use crate::plan::week::{Help, HelpRow, Row, WeekPlan};

/// The calendar; `None` where the job has none.
pub(super) fn paper(plan: &Plan) -> Option<Paper> {
    let week = plan.week.calendar.as_ref()?;
    let mut paper = Paper::new("calendar", "Calendar");
    paper.figure(moment(week.finish), format!("all is done; begin {}", moment(week.start)));
    paper.list(false, verdict(week));
    if !week.helps.is_empty() {
        paper.heading("What would help");
        paper.table(helps(week));
    }
    paper.blocks.push(Block::Drawing(
        chart::chart(week),
        "Black: hands at work. Hatched: drying or under weight. Upright lines: midnight.".into(),
    ));
    paper.heading("Day by day");
    paper.table(list(week));
    if week.spread {
        paper.text("Work that is longer than any working time without a break is spread over several.");
    }
    assumptions::add(&mut paper, plan, &["calendar"]);
    Some(paper)
}

/// A step in a few words.
pub(super) const fn named(step: Step) -> &'static str {
    match step {
        Step::Fill => "fill",
        Step::Sand => "sand",
        Step::Seal => "seal, first coat",
        Step::Coat => "seal, next coat",
        Step::Glue => "glue and press",
        Step::Trim => "trim",
        Step::Label => "label",
        Step::Pack => "pack",
    }
}

fn verdict(week: &WeekPlan) -> Vec<String> {
    let mut lines = vec![format!("Hands at work for {} in all.", hours(week.hands_on))];
    let Some(deadline) = week.deadline else { return lines };
    lines.push(if week.late > 0 {
        format!("THE DEADLINE CANNOT BE MET: {} is {} too early.", moment(deadline), duration(week.late))
    } else if week.backwards {
        format!("The latest start for the deadline, {}; {} to spare.", moment(deadline), duration(-week.late))
    } else {
        format!("The deadline, {}, is met with {} to spare.", moment(deadline), duration(-week.late))
    });
    if let Some(latest) = week.latest_start.filter(|_| week.late <= 0 && !week.backwards) {
        lines.push(format!("It would still be met by a start on {}.", moment(latest)));
    }
    lines
}

fn helps(week: &WeekPlan) -> Table {
    let mut table =
        Table::new([Column::left("change").bold(), Column::left("then all is done"), Column::left("in time")]);
    for HelpRow { help, finish, meets } in &week.helps {
        let change = match help {
            Help::StartBy(start) => format!("begin by {}", moment(*start)),
            Help::TwiceTheBench => "lay out twice as many panels to dry".into(),
            Help::TwiceThePress => "press twice as many panels at once".into(),
            Help::LongerDays => "work two hours longer each day".into(),
            Help::EveryDay => "work on all seven days".into(),
            Help::OneCoatLess => "one coat of sealer less".into(),
        };
        table.row([change, moment(*finish), if *meets { "yes".into() } else { "no".to_string() }]);
    }
    table
}

/// One row a batch and step, the day named where it changes.
fn list(week: &WeekPlan) -> Table {
    let columns =
        [Column::left("day").bold(), Column::right("begin").bold(), Column::left("do"), Column::right("panels")];
    let mut table =
        Table::new(columns.into_iter().chain([Column::right("until"), Column::left("then ready")])).ticked();
    let mut before = None;
    for row in &week.rows {
        let date = row.begin.date();
        let today = if before == Some(date) { String::new() } else { day(date) };
        before = Some(date);
        table.row([today, hour(row.begin), task(week, row), row.panels.to_string(), until(row), ready(row)]);
    }
    table
}

fn task(week: &WeekPlan, row: &Row) -> String {
    let name = named(week.steps[row.step]);
    if row.batches == 1 { name.into() } else { format!("{name} (batch {} of {})", row.batch, row.batches) }
}

fn until(row: &Row) -> String {
    if row.free.date() == row.begin.date() { hour(row.free) } else { moment(row.free) }
}

fn ready(row: &Row) -> String {
    if row.ready == row.free {
        String::new()
    } else if row.ready.date() == row.begin.date() {
        hour(row.ready)
    } else {
        moment(row.ready)
    }
}
