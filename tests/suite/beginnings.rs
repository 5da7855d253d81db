//! The job file to begin from, and the usual sizes.

use crate::papers_in::job;
use std::collections::BTreeMap;
use yardslip::data::{Job, Week, template, usual_sizes};
use yardslip::length::{Length, Unit};

/// The template with all its unused keys in use.
fn in_use() -> String {
    let keys = template().lines().filter(|line| !line.starts_with("#panels ") && !line.starts_with("#rip_step "));
    let lines: Vec<&str> =
        keys.map(|line| line.strip_prefix('#').filter(|rest| !rest.starts_with(' ')).unwrap_or(line)).collect();
    lines.join("\n")
}

#[test]
fn the_template_is_a_job_as_it_stands() {
    let job = job(template());
    assert_eq!((job.title.as_str(), job.panels.len(), job.sheets.len()), ("Harbour week", 2, 1));
}

#[test]
fn every_key_of_the_template_is_known() {
    let job = job(&in_use());
    assert_eq!((job.strips.len(), job.keepers.len()), (1, 1));
    assert!(job.assumptions.is_empty(), "{:?}", job.assumptions);
}

#[test]
fn the_defaults_that_the_template_tells_are_the_ones_in_use() {
    let (silent, told): (Job, Job) = (job(template()), job(&in_use()));
    assert_eq!((silent.rule, &silent.currency), (told.rule, &told.currency));
    assert_eq!(
        (silent.sheets[0].edge_trim, silent.sheets[0].tolerance),
        (told.sheets[0].edge_trim, told.sheets[0].tolerance)
    );
    let yard = |job: &Job| {
        let yard = job.yard.clone();
        (yard.kerf, yard.rips, yard.narrowest, yard.free_per, yard.tolerance, yard.breakdown)
    };
    assert_eq!(yard(&silent), yard(&told));
    let saw = |job: &Job| (job.saw.kind, job.saw.kerf, job.saw.squaring, job.saw.shortest, job.saw.trims);
    assert_eq!(saw(&silent), saw(&told));
}

#[test]
fn the_weeks_sections_wait_in_the_template() {
    let (silent, told) = (job(template()).week, job(&in_use()).week);
    assert_eq!(silent, Week::default());
    assert!(told.finish.is_some() && told.canvas.is_some() && told.glue.is_some() && told.press.is_some());
    assert!(told.calendar.is_some() && told.labels.is_some() && told.pack.is_some());
}

/// A section of the template's week with only the keys it cannot do without.
fn bare(section: &str) -> Job {
    job(&format!("{}\n{section}", template()))
}

#[test]
fn the_weeks_defaults_that_the_template_tells_are_the_ones_in_use() {
    let told = job(&in_use()).week;
    let silent = bare("[finish]\n[glue]\n[canvas]\nroll = 54\nprice = 34\n[press]\nlength = 36\nwidth = 24\n").week;
    let finish = |week: &Week| {
        week.finish
            .clone()
            .map(|f| (f.flaws, f.fill_depth, f.grits, f.both_faces, f.edges, f.coats, f.coverage, f.waste))
    };
    assert_eq!(finish(&silent), finish(&told));
    let glue = |week: &Week| week.glue.clone().map(|glue| (glue.coverage, glue.faces, glue.waste));
    assert_eq!(glue(&silent), glue(&told));
    let canvas = |week: &Week| {
        week.canvas
            .clone()
            .map(|c| (c.selvedge, c.overlap, c.weave, c.sold.per, c.sold.step, c.sold.smallest, c.weight))
    };
    assert_eq!(canvas(&silent), canvas(&told));
    let press = |week: &Week| week.press.clone().map(|press| (press.height, press.gap, press.padding));
    assert_eq!(press(&silent), press(&told));
}

#[test]
fn the_hours_and_labels_that_the_template_tells_are_the_ones_in_use() {
    let told = job(&in_use()).week;
    let silent = bare("[calendar]\nstart = \"2026-05-04 09:00\"\n[labels]\n[pack]\ninside = \"26 x 18 x 10\"\n").week;
    let calendar = |week: &Week| week.calendar.clone().map(|c| (c.days, c.hours, c.bench, c.times));
    assert_eq!(calendar(&silent), calendar(&told));
    let labels = |week: &Week| week.labels.clone().map(|labels| (labels.width, labels.height, labels.lines));
    assert_eq!(labels(&silent), labels(&told));
    let pack = |week: &Week| week.pack.clone().map(|p| (p.kind, p.wet, p.between, p.boards, p.board_density));
    assert_eq!(pack(&silent), pack(&told));
}

#[test]
fn a_deadline_may_be_any_day_of_the_week() {
    // 4 May 2026 is a Monday (the calendar).
    for (day, date) in [("Tuesday", 5), ("Thursday", 7), ("tue", 5), ("Sat", 9), ("2026-05-05T", 5), ("2026-05-09", 9)]
    {
        let deadline = format!("{day} 12:00").replace("T 12", "T12");
        let week =
            bare(&format!("[finish]\n[calendar]\nstart = \"2026-05-04 09:00\"\ndeadline = \"{deadline}\"\n")).week;
        let found = week.calendar.and_then(|calendar| calendar.deadline);
        assert_eq!(found.map(|found| (found.day(), found.hour())), Some((date, 12)), "{day}");
    }
}

#[test]
fn the_french_sizes_of_a_number_share_their_long_side() {
    // Figure, Paysage and Marine of a number differ in their short side only: a law of the encyclopaedia's table.
    let table = usual_sizes().remove(1);
    let mut longs: BTreeMap<String, Vec<Length>> = BTreeMap::new();
    for size in &table.sizes {
        assert!(size.width > size.height, "{}", size.name);
        longs.entry(size.name.split(' ').next().unwrap_or_default().to_owned()).or_default().push(size.width);
    }
    assert_eq!((table.units, longs.len(), table.sizes.len()), (Unit::Cm, 20, 60));
    assert!(longs.values().all(|sides| sides.len() == 3 && sides.iter().all(|side| *side == sides[0])));
}

#[test]
fn a_figure_is_wider_than_a_paysage_and_that_than_a_marine() {
    for three in usual_sizes()[1].sizes.chunks(3) {
        assert!(three[0].height > three[1].height && three[1].height > three[2].height, "{}", three[0].name);
    }
}

#[test]
fn the_usual_sizes_hold_the_painters_own() {
    // Common practice, no source: the sizes that three lists of painting panels share.
    let table = usual_sizes().remove(0);
    let known = |width, height| {
        table.sizes.iter().any(|s| s.width == Length::inches(width) && s.height == Length::inches(height))
    };
    assert!([(5, 7), (8, 10), (9, 12), (11, 14), (12, 16), (16, 20), (24, 36)].iter().all(|(w, h)| known(*w, *h)));
    assert!(table.sizes.is_sorted_by_key(|size| (size.width, size.height)));
}
