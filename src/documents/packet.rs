//! The packet: all papers of a plan in the order of the work, and the files they are written as.

use super::blocks::Paper;
use super::frame::Frame;
use super::page_size::PageSize;
use super::{finishing, html, overview, pages, pdf, plan_json, saw_order, sheets, shopping, slip, svg, week, wording};
use crate::data::Job;
use crate::plan::Plan;
use jiff::civil::Date;

/// What the caller decides about the papers.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Options {
    /// The size of printed pages.
    pub page: PageSize,
    /// The date printed at the foot of each page, if any; never read from a clock here.
    pub date: Option<Date>,
}

/// Every paper of the plan, in the order of the work.
pub fn packet(job: &Job, plan: &Plan, options: &Options) -> Vec<Paper> {
    let size = options.page;
    let mut papers = vec![overview::paper(plan)];
    papers.push(shopping::paper(job, plan));
    papers.extend(slip::paper(job, plan, size));
    papers.extend(sheets::papers(job, plan, size));
    papers.extend(saw_order::paper(job, plan));
    papers.push(finishing::paper(job, plan));
    papers.extend(week::papers(job, plan, size));
    papers
}

/// Every file of the plan with its name: the packet for the screen and the printer, the slip and the sheets by
/// themselves, the saw order as a list, and the machine's copy.
pub fn papers(job: &Job, plan: &Plan, options: &Options) -> Vec<(String, Vec<u8>)> {
    let papers = packet(job, plan, options);
    let date = options.date.map_or_else(String::new, |date| date.to_string());
    let pages = pages::pages(&plan.title, &papers, options.page, &date);
    let screen = html::packet(&plan.title, &headline(plan), &papers, options.page);
    let mut files = vec![
        ("packet.html".to_string(), screen.into_bytes()),
        ("packet.pdf".to_string(), pdf::file(&plan.title, &pages, options.date)),
    ];
    files.extend(papers.iter().flat_map(|paper| alone(plan, paper, &date)));
    files.push(("saw-order.csv".into(), saw_order::csv_list(plan)));
    files.push(("plan.json".into(), plan_json::plan_json(job, plan).into_bytes()));
    files
}

/// The pages of a paper drawn by hand, each as an SVG file of its own; numbered where there is more than one.
fn alone(plan: &Plan, paper: &Paper, date: &str) -> Vec<(String, Vec<u8>)> {
    let title = format!("{}: {}", plan.title, paper.title);
    let file = |(at, page): (usize, &Frame)| {
        let mut page = page.clone();
        pages::furnish(&mut page, &plan.title, &paper.title, "", date);
        let name = if paper.printed.len() == 1 { paper.name.clone() } else { format!("{}-{}", paper.name, at + 1) };
        (format!("{name}.svg"), svg::file(&page, &title).into_bytes())
    };
    paper.printed.iter().enumerate().map(file).collect()
}

/// One line under the title on the screen.
fn headline(plan: &Plan) -> String {
    let bought = wording::bought(plan);
    let cost = wording::money(plan, plan.cost.total);
    let all = plan.week.shopping.as_ref().map(|shopping| wording::money(plan, shopping.total));
    let all = all.map_or_else(String::new, |all| format!(" ({all} with everything on the shopping list)"));
    format!("{cost} {bought}{all}. {}", wording::proof(plan))
}
