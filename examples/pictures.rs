//! Draws the README's pictures from the first demo batch: a sheet, the yard slip, and a page of the packet.
//!
//!     cargo run --release --example pictures demo-data/pictures

use std::path::Path;
use yardslip::data::{File, Source, read};
use yardslip::documents::{Options, packet, pages, papers, svg};
use yardslip::plan::make;
use yardslip::solve::Patient;

fn main() -> std::io::Result<()> {
    let text = include_str!("../demo-data/first-batch.toml");
    let source = Source { job: File::of("first-batch.toml", text), list: None, rack: None };
    let job = read(&source).expect("the job is sound");
    let plan = make(&job, &Patient).expect("the job can be done");
    let options = Options::default();

    let files = papers(&job, &plan, &options);
    let alone =
        |begins: &str| files.iter().rfind(|(name, _)| name.starts_with(begins)).expect("the plan has it").1.clone();
    let saw =
        packet(&job, &plan, &options).into_iter().find(|paper| paper.name == "saw-order").expect("there are cuts");
    let page = &pages::pages(&plan.title, &[saw], options.page, "")[0];

    let pictures = [
        ("sheet.svg", alone("sheet")),
        ("yard-slip.svg", alone("yard-slip")),
        ("saw-order.svg", svg::file(page, "Harbour week: saw order").into_bytes()),
    ];
    for (name, picture) in pictures {
        println!("{name}: {} bytes", picture.len());
        if let Some(folder) = std::env::args().nth(1) {
            std::fs::write(Path::new(&folder).join(name), picture)?;
        }
    }
    Ok(())
}
