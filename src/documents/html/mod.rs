//! Papers as one HTML page that needs nothing from outside: works offline and on a phone, prints a paper a page, and
//! has boxes to tick that remember themselves for this plan where the browser can.

mod block;

use super::blocks::Paper;
use super::frame::Frame;
use super::page_size::{MARGIN, PageSize};
use super::pages::furnish;
use super::svg;
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// The packet as an HTML page.
pub fn packet(title: &str, line: &str, papers: &[Paper], size: PageSize) -> String {
    let sections: Vec<Markup> = papers.iter().map(|paper| section(title, paper)).collect();
    let plan = fingerprint(title, papers);
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) }
                style { (PreEscaped(include_str!("packet.css"))) (PreEscaped(page_rules(size))) }
            }
            body data-plan=(plan) {
                header {
                    h1 { (title) }
                    p { (line) }
                }
                nav { ul { @for paper in papers { li { a href={ "#" (paper.name) } { (paper.title) } } } } }
                main { @for section in &sections { (section) } }
                script { (PreEscaped(include_str!("packet.js"))) }
            }
        }
    };
    page.into_string() + "\n"
}

/// The size of printed pages; a paper drawn by hand fills its page to the edges.
fn page_rules(size: PageSize) -> String {
    let (name, (short, long)) = (size.css(), size.sides());
    // A hair less than the page, so that rounding does not push a drawing on to a second one.
    let (low, high) = (short - 0.5, long - 0.5);
    format!(
        "@page {{ size: {name} portrait; margin: {MARGIN}mm; }}\n@page lying {{ size: {name} landscape; margin: 0; }}\n\
         @page standing {{ size: {name} portrait; margin: 0; }}\n@media print {{\n\
         .lying .printed svg {{ width: {high}mm; height: {low}mm; }}\n\
         .standing .printed svg {{ width: {low}mm; height: {high}mm; }}\n}}\n"
    )
}

fn section(job: &str, paper: &Paper) -> Markup {
    let mut boxes = 0;
    let blocks: Vec<Markup> = paper.blocks.iter().map(|part| block::markup(part, &paper.name, &mut boxes)).collect();
    let lying = paper.printed.first().is_some_and(|frame| frame.width > frame.height);
    html! {
        section id=(paper.name) class=[section_class(paper, lying)] {
            p.job { (job) }
            h2 { (paper.title) }
            @for block in &blocks { (block) }
            @if !paper.printed.is_empty() {
                div.printed { @for frame in &paper.printed { (printed(job, paper, frame)) } }
            }
        }
    }
}

/// A page drawn by hand, with the lines that every printed page carries.
fn printed(job: &str, paper: &Paper, frame: &Frame) -> Markup {
    let mut page = frame.clone();
    furnish(&mut page, job, &paper.title, "", "");
    PreEscaped(svg::inline(&page, &paper.title))
}

fn section_class(paper: &Paper, lying: bool) -> Option<&'static str> {
    match (paper.printed.is_empty(), lying) {
        (true, _) => None,
        (false, true) => Some("has-printed lying"),
        (false, false) => Some("has-printed standing"),
    }
}

/// A number that differs from plan to plan (64-bit FNV-1a), so that ticks of one plan don't show on another.
fn fingerprint(title: &str, papers: &[Paper]) -> String {
    let text = format!("{title}{papers:?}");
    let mix = |hash: u64, byte: u8| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
    format!("{:016x}", text.bytes().fold(0xcbf2_9ce4_8422_2325, mix))
}
