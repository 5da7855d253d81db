//! A search that is stopped (time is up, or the user asked) still gives a whole week, and says what is not proved.

use crate::papers_in::{job, told};
use yardslip::data::Job;
use yardslip::documents::{Options, papers};
use yardslip::length::Length;
use yardslip::plan::week::plan_week;
use yardslip::plan::{Plan, check, make};
use yardslip::solve::{Patient, Progress, Watch};

/// Stops at once, as after Ctrl-C before the first plan.
struct Impatient;

impl Watch for Impatient {
    fn stop(&self) -> bool {
        true
    }
    fn seconds(&self) -> f64 {
        1.0
    }
    fn allowed(&self) -> f64 {
        1.0
    }
    fn report(&self, _: Progress) {}
}

/// Ten sizes off a narrow roll: strips of mixed sizes, so that a first guess is seldom the best.
fn many_sizes() -> Job {
    let sizes = ["5 x 7", "6 x 8", "8 x 10", "9 x 12", "11 x 14", "7 x 13", "10 x 10", "6 x 15", "5 x 11", "8 x 17"];
    let line = |(at, size): (usize, &&str)| format!("[[panel]]\nsize = \"{size}\"\ncount = {}\n", 3 + at * 2 % 7);
    let panels: String = sizes.iter().enumerate().map(line).collect();
    let sheet = "title = \"Harbour week\"\n[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n";
    job(&format!("{sheet}{panels}[canvas]\nroll = 54\nprice = 34\n[glue]\n[press]\nlength = 36\nwidth = 24\n"))
}

/// The plan of the sheets, and a week for which no time is left.
fn out_of_time() -> Plan {
    let job = many_sizes();
    let plan = make(&job, &Patient).unwrap_or_else(|faults| panic!("{}", told(&faults)));
    let week = plan_week(&job, &plan, &Impatient);
    Plan { week, ..plan }
}

fn canvas_page(plan: &Plan) -> String {
    let files = papers(&many_sizes(), plan, &Options::default());
    let page = &files.iter().find(|file| file.0 == "packet.html").expect("a packet").1;
    String::from_utf8(page.clone()).expect("text").replace('\u{a0}', " ")
}

#[test]
fn a_search_stopped_at_once_still_cuts_every_piece_of_canvas() {
    let plan = out_of_time();
    assert_eq!(check(&many_sizes(), &plan), Ok(()));
    let canvas = plan.week.canvas.as_ref().expect("canvas");
    assert!(canvas.misfits.is_empty());
    let patient = make(&many_sizes(), &Patient).expect("it can be done");
    let least = patient.week.canvas.as_ref().expect("canvas");
    assert!(canvas.bound <= least.needs, "a bound of a stopped search is a bound too");
    assert!(canvas.needs >= least.bound);
}

#[test]
fn what_is_not_proved_is_said_with_the_least_that_is_known() {
    let plan = out_of_time();
    let canvas = plan.week.canvas.as_ref().expect("canvas");
    assert!(!canvas.proved && canvas.bound < canvas.needs && canvas.bound > Length::ZERO, "{canvas:?}");
    let page = canvas_page(&plan);
    let bound =
        format!("not proved: no cut plan of strips across the roll takes less than {}", canvas.bound.say(plan.units));
    assert!(page.contains(&bound), "{bound}");
    assert!(!page.contains("proved: strips across the roll cannot take less"));
}
