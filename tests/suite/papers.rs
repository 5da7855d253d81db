//! The papers of whole plans: what each says, that nothing is lost between plan and paper, that files are sound.

use crate::by_hand::{broken_down_job, broken_down_plan, mixed_job, mixed_plan};
use crate::jobs::{len, panel, sheet, small_job};
use crate::paper_frames::{assert_inside, texts};
use std::sync::LazyLock;
use yardslip::data::{Breakdown, Cents, File, Job, Rips, SawKind, Source};
use yardslip::documents::blocks::{Block, Caution, DEFERS};
use yardslip::documents::font::Weight;
use yardslip::documents::frame::{Field, Mark, Pen};
use yardslip::documents::page_size::{PageSize, content};
use yardslip::documents::{Options, drawing, packet, pages, papers, slip};
use yardslip::length::{Area, Length, Unit};
use yardslip::plan::{Alternative, Areas, Figures, Outcome, Plan};
use yardslip::solve::Patient;

/// A job file of the demo, with the plan for it.
fn planned(name: &str) -> (Job, Plan) {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data");
    let file = |name: &str| File::of(name, std::fs::read(folder.join(name)).unwrap());
    let list = (name == "harbour-week.toml").then(|| file("harbour-week.csv"));
    let job = yardslip::data::read(&Source { job: file(name), list, rack: None }).expect("the demo is sound");
    made(job)
}

fn made(job: Job) -> (Job, Plan) {
    let solved = yardslip::solve::solve(&job, &Patient).expect("it can be done");
    let plan = yardslip::plan::lay_out(&job, &solved);
    let week = yardslip::plan::week::plan_week(&job, &plan, &Patient);
    (job, Plan { week, ..plan })
}

/// A plan beside other ways to do its job.
fn compared() -> (Job, Plan) {
    let job = planned("first-batch.toml").0;
    let plan = yardslip::plan::make_and_compare(&job, &Patient).expect("it can be done");
    (job, plan)
}

/// Jobs that are hard on paper: many narrow strips, forty sheets, long names, tiny panels, three lines a strip.
fn hard() -> Vec<(&'static str, Job)> {
    let mut narrow = small_job();
    narrow.panels = vec![panel("3", "5", 100), panel("2 1/2", "3 1/2", 80), panel("3 7/8", "7 15/16", 30)];
    let mut forty = small_job();
    forty.panels = vec![panel("16", "20", 200), panel("12", "16", 160), panel("9", "12", 120), panel("11", "14", 90)];
    forty.yard.tolerance = len("1/16");
    for panel in &mut forty.panels {
        panel.scant = len("1/8");
    }
    let mut names = small_job();
    names.title =
        "A painting week at the harbour with a title that goes on and on past the edge of any page it may be put upon"
            .into();
    names.sheets[0].name =
        "birch plywood, quarter inch, rotary cut, sanded both faces, from the shed behind the chandlery".into();
    names.panels = vec![panel("12", "16", 9), panel("6", "8", 11), panel("8", "10", 7)];
    names.panels[0].name = "studies of the outer harbour wall & <the lighthouse> at first light".into();
    names.panels[1].name = "Wolkenstudienmorgenlichtaufdemwasserspiegel".into();
    let mut across = small_job();
    across.sheets[0].edge_trim = len("3/8");
    across.yard.rips = Rips::Across;
    across.yard.breakdown = Breakdown::IfNeeded;
    across.car.longest = Some(len("48"));
    across.panels = vec![panel("11", "14", 7), panel("8", "10", 9)];
    let mut handy = small_job();
    handy.units = Unit::Mm;
    handy.sheets = vec![sheet("handy panel, grain along the short side", "24", "48")];
    handy.panels = vec![panel("5", "7", 12), panel("10", "10", 2)];
    for panel in &mut handy.panels {
        panel.name = format!("{} x {}", panel.width.show(Unit::Mm), panel.height.show(Unit::Mm));
    }
    vec![("narrow", narrow), ("forty", forty), ("names", names), ("across", across), ("handy", handy)]
}

/// Writes what the eye must check into the folder that `YARDSLIP_LOOK` names.
#[test]
#[ignore = "writes papers to look at; needs YARDSLIP_LOOK"]
fn look() {
    let folder = std::path::PathBuf::from(std::env::var("YARDSLIP_LOOK").expect("YARDSLIP_LOOK names a folder"));
    let mut jobs = vec![
        ("first", planned("first-batch.toml")),
        ("week", planned("harbour-week.toml")),
        ("boathouse", planned("boathouse.toml")),
        ("mixed", (mixed_job(), mixed_plan())),
        ("broken", (broken_down_job(), broken_down_plan())),
        ("compared", compared()),
    ];
    jobs.extend(hard().into_iter().map(|(name, job)| (name, made(job))));
    for (name, (job, plan)) in jobs {
        for (size, word) in [(PageSize::Letter, "letter"), (PageSize::A4, "a4")] {
            let to = folder.join(format!("{name}-{word}"));
            std::fs::create_dir_all(&to).unwrap();
            for (file, bytes) in papers(&job, &plan, &Options { page: size, date: None }) {
                std::fs::write(to.join(file), bytes).unwrap();
            }
        }
    }
}

/// The whole text of a plan's files but the PDF.
fn everything(job: &Job, plan: &Plan) -> String {
    let files = papers(job, plan, &Options::default());
    let text = |(name, bytes): &(String, Vec<u8>)| {
        if name == "packet.pdf" { String::new() } else { String::from_utf8(bytes.clone()).unwrap() }
    };
    files.iter().map(text).collect()
}

fn file(job: &Job, plan: &Plan, name: &str) -> String {
    let files = papers(job, plan, &Options::default());
    let found = files.into_iter().find(|(other, _)| other == name).unwrap_or_else(|| panic!("no {name}"));
    String::from_utf8(found.1).unwrap()
}

/// Each page of the printed packet as its texts, a line each.
fn printed(job: &Job, plan: &Plan) -> String {
    let options = Options::default();
    let made = pages::pages(&plan.title, &packet(job, plan, &options), options.page, "");
    made.iter().map(|page| texts(page).join("\n")).collect::<Vec<_>>().join("\n\n")
}

/// All plans that the papers are tried on, made once.
static ALL: LazyLock<Vec<(&str, Job, Plan)>> = LazyLock::new(all_plans);

fn all_plans() -> Vec<(&'static str, Job, Plan)> {
    let mut plans = vec![("mixed", mixed_job(), mixed_plan()), ("broken down", broken_down_job(), broken_down_plan())];
    for (name, job) in hard() {
        let (job, plan) = made(job);
        plans.push((name, job, plan));
    }
    for name in ["first-batch.toml", "harbour-week.toml", "boathouse.toml"] {
        let (job, plan) = planned(name);
        plans.push((name, job, plan));
    }
    plans
}

#[test]
fn the_printed_packet_says_what_it_said() {
    insta::assert_snapshot!("mixed packet", printed(&mixed_job(), &mixed_plan()));
    insta::assert_snapshot!("broken down packet", printed(&broken_down_job(), &broken_down_plan()));
}

#[test]
fn the_files_of_a_small_plan_are_what_they_were() {
    let (job, plan) = (mixed_job(), mixed_plan());
    for name in ["yard-slip.svg", "sheet-1.svg", "saw-order.csv", "plan.json"] {
        insta::assert_snapshot!(name, file(&job, &plan, name));
    }
}

#[test]
fn every_drawing_is_well_formed_and_black_and_white() {
    for (name, job, plan) in ALL.iter() {
        for (file, bytes) in papers(job, plan, &Options::default()) {
            if !bytes.starts_with(b"<?xml") {
                continue;
            }
            let text = String::from_utf8(bytes).unwrap();
            let tree = roxmltree::Document::parse(&text).unwrap_or_else(|error| panic!("{name} {file}: {error}"));
            for node in tree.descendants() {
                for paint in ["fill", "stroke"].iter().filter_map(|kind| node.attribute(*kind)) {
                    assert!(["black", "white", "none"].contains(&paint), "{name} {file}: {paint}");
                }
            }
        }
    }
}

#[test]
fn a_four_by_eight_sheet_is_drawn_one_to_ten_on_letter_and_on_a4_inside_half_inch_margins() {
    // 96 x 48 in. at 1:10 are 243.84 x 121.92 mm (25.4 mm an inch, exactly: NIST SP 811, from memory).
    for size in [PageSize::Letter, PageSize::A4] {
        let (job, plan) = (mixed_job(), mixed_plan());
        let page = drawing::sheet_page(&job, &plan, &plan.sheets[0], size);
        let outline = page.marks.iter().find_map(|mark| match mark {
            Mark::Outline(Pen::Thick, field) => Some(*field),
            _ => None,
        });
        let field = outline.expect("the sheet has an outline");
        assert!((field.width - 243.84).abs() < 1e-9 && (field.height - 121.92).abs() < 1e-9, "{field:?}");
        assert!(field.x >= 12.7 && field.right() <= page.width - 12.7 + 1e-9);
        assert!(field.y >= 12.7 && field.bottom() <= page.height - 12.7);
    }
}

#[test]
fn every_panel_on_a_sheet_carries_its_size() {
    let (job, plan) = (mixed_job(), mixed_plan());
    let words = texts(&drawing::sheet_page(&job, &plan, &plan.sheets[0], PageSize::Letter));
    let count = |text: &str| words.iter().filter(|word| *word == text).count();
    // Two strips of one 12 x 3 and five 12 x 16; one strip of two 12 x 3, an extra 12 x 16 and two 8 x 10.
    assert_eq!(count("11 15/16 x 15 7/8"), 11);
    assert_eq!(count("11 15/16 x 3"), 4);
    assert_eq!(count("8 x 10"), 2);
    assert_eq!(count("12 x 16 (extra)"), 1);
    assert_eq!((count("A"), count("B")), (2, 1), "a letter a strip");
    assert_eq!((count("12"), count("11 5/8"), count("96")), (3, 1, 1), "dimensions along both edges");
}

#[test]
fn strips_that_run_across_are_drawn_across_with_the_breakdown_measured() {
    let (_, job, plan) = ALL.iter().find(|(name, _, _)| *name == "across").unwrap();
    // Its boards as a breakdown crosscut would leave them: 24 and 23 7/8 in. of the 48 in. that the strips run along.
    let mut group = plan.sheets[0].clone();
    let mut second = group.boards[0].clone();
    group.boards[0].length = len("24");
    (second.start, second.length, second.from_far_end) = (len("24 1/8"), len("23 7/8"), true);
    group.boards.push(second);
    let group = &group;
    let page = drawing::sheet_page(job, plan, group, PageSize::A4);
    let upward: Vec<&str> = page
        .marks
        .iter()
        .filter_map(|mark| match mark {
            Mark::Text(text) if text.upward => Some(text.text.as_str()),
            _ => None,
        })
        .collect();
    for board in &group.boards {
        let length = board.length.show(plan.units);
        assert!(upward.contains(&length.as_str()), "{length} is not measured: {upward:?}");
    }
    let slip = slip::paper(job, plan, PageSize::A4).unwrap();
    assert!(texts(&slip.printed[0]).contains(&"Rips run ACROSS the sheet.".to_string()));
}

#[test]
fn tiny_panels_get_a_key_letter_that_is_explained() {
    let (job, plan) = made(hard().swap_remove(0).1);
    let words = texts(&drawing::sheet_page(&job, &plan, &plan.sheets[0], PageSize::Letter));
    let keyed = words.iter().filter(|word| *word == "b").count();
    assert!(keyed > 20, "{keyed} panels of 2 1/2 x 3 1/2 carry their key");
    assert!(words.iter().any(|word| word.contains("b = 2 1/2 x 3 1/2")));
}

#[test]
fn no_label_is_too_small_to_be_read_and_no_page_is_overrun() {
    for (name, job, plan) in ALL.iter() {
        for size in [PageSize::Letter, PageSize::A4] {
            let options = Options { page: size, date: None };
            let made = pages::pages(&plan.title, &packet(job, plan, &options), size, "");
            for page in &made {
                // A letter may stand in the margin of a lying page, a quarter of an inch from its edge: printers reach it.
                let lying = page.width > page.height;
                let room = Field::new(0.0, 0.0, page.width, page.height).inside(6.35);
                assert_inside(page, if lying { room } else { content(page) });
                for mark in &page.marks {
                    let Mark::Text(text) = mark else { continue };
                    assert!(text.size >= 1.7, "{name}: `{}` at {} mm", text.text, text.size);
                }
            }
        }
    }
}

#[test]
fn the_slip_is_one_page_whose_widths_are_read_at_arms_length() {
    for (name, job, plan) in ALL.iter() {
        let slip = slip::paper(job, plan, PageSize::Letter).expect("there is something to rip");
        assert_eq!(slip.printed.len(), 1, "{name}");
        let width = plan.sheets[0].boards[0].rips[0].width.show(plan.units);
        let figure = slip.printed[0].marks.iter().find_map(|mark| match mark {
            Mark::Text(text) if text.text == width && text.weight == Weight::Bold => Some(text.size),
            _ => None,
        });
        let size = figure.unwrap_or_else(|| panic!("{name}: the slip does not say {width}"));
        assert!(size >= 7.0, "{name}: widths are only {size} mm high");
    }
}

#[test]
fn the_slip_says_what_to_refuse_and_when_to_measure_first() {
    let (job, mut plan) = (mixed_job(), mixed_plan());
    plan.sheets[0].measure_first = true;
    let slip = slip::paper(&job, &plan, PageSize::Letter).unwrap();
    let words = texts(&slip.printed[0]).join("\n");
    assert!(words.contains("MEASURE FIRST: needs 36 1/4 in."), "{words}");
    assert!(words.contains("refuse under 11 7/8, over 12 1/8"), "{words}");
    assert!(words.contains("3 strips: A A B") && words.contains("11 5/8\nleft over"), "{words}");
    assert!(words.contains("Blade 1/8 in. Rips good to 1/16 in."), "{words}");
    assert!(!words.contains("12 x 16"), "panels are no business of the yard");
}

#[test]
fn the_slip_makes_the_breakdown_crosscut_first_and_trims_bad_edges() {
    let slip = slip::paper(&broken_down_job(), &broken_down_plan(), PageSize::A4).unwrap();
    let words = texts(&slip.printed[0]);
    let at =
        |text: &str| words.iter().position(|word| word == text).unwrap_or_else(|| panic!("no `{text}` in {words:?}"));
    assert!(at("crosscut the sheet here first") < at("trim off the reference edge, blade included"));
    assert!(at("trim off the reference edge, blade included") < at("3 strips: A A A"));
    assert!(at("3 strips: A A A") < at("3 strips: B B B"));
}

#[test]
fn the_saw_list_makes_every_panel_in_the_end() {
    for (name, job, plan) in ALL.iter() {
        let text = file(job, plan, "saw-order.csv");
        let mut list = csv::Reader::from_reader(text.as_bytes());
        let mut made: Vec<(String, u32, u32)> = Vec::new();
        for record in list.records() {
            let record = record.unwrap();
            let figure = |at: usize| record[at].parse::<u32>().unwrap();
            match made.iter_mut().find(|(panel, _, _)| *panel == record[5]) {
                Some(line) => (line.1, line.2) = (line.1 + figure(7), figure(9)),
                None => made.push((record[5].to_string(), figure(7), figure(9))),
            }
        }
        for line in &plan.panels {
            let all = line.count + line.extras;
            let found = made.iter().find(|(panel, _, _)| *panel == line.name).expect("the panel is cut");
            assert_eq!((found.1, found.2), (all, all), "{name}: {}", line.name);
        }
    }
}

#[test]
fn the_word_proved_stands_only_where_the_cost_is_proved() {
    let (job, plan) = (broken_down_job(), broken_down_plan());
    assert!(!plan.proof.proved);
    let text = everything(&job, &plan);
    assert!(text.contains("Not proved: no plan can cost less than $91.00; this one costs $92.00."));
    assert!(!text.contains("Proved:") && !text.contains("\"proved\": true") && text.contains("\"status\": \"within\""));
    let (job, plan) = (mixed_job(), mixed_plan());
    let text = everything(&job, &plan);
    assert!(text.contains("Proved: no plan for this job costs less.") && text.contains("\"status\": \"proved\""));
}

#[test]
fn every_caution_names_its_sources_and_defers() {
    for kind in [SawKind::RadialArm, SawKind::Mitre, SawKind::Table] {
        let mut job = mixed_job();
        job.saw.kind = kind;
        let papers = packet(&job, &mixed_plan(), &Options::default());
        let cautions: Vec<&Caution> = papers
            .iter()
            .flat_map(|paper| &paper.blocks)
            .filter_map(|block| if let Block::Caution(caution) = block { Some(caution) } else { None })
            .collect();
        assert!(cautions.len() >= 4);
        assert!(cautions.iter().flat_map(|caution| &caution.warnings).all(|warning| warning.source.len() > 5));
        let page = file(&job, &mixed_plan(), "packet.html");
        assert_eq!(page.matches(DEFERS).count(), cautions.len());
    }
}

#[test]
fn defaults_are_printed_where_they_are_used_with_their_origin() {
    let (job, plan) = planned("first-batch.toml");
    assert!(!plan.assumptions.is_empty());
    let page = file(&job, &plan, "packet.html");
    for assumption in &plan.assumptions {
        assert!(page.contains(&assumption.key), "{} is not printed", assumption.key);
    }
}

#[test]
fn the_machines_copy_reads_back() {
    for (name, job, plan) in ALL.iter() {
        let copy: serde_json::Value = serde_json::from_str(&file(job, plan, "plan.json")).unwrap();
        let kept: Job = serde_json::from_value(copy["job"].clone()).unwrap_or_else(|error| panic!("{name}: {error}"));
        assert_eq!(&kept, job, "{name}");
        assert_eq!(copy["sheets_bought"], plan.cost.sheets_bought);
        let cents = (copy["cost"]["total"].as_f64().unwrap() * 100.0).round();
        assert!((cents - f64::from(i32::try_from(plan.cost.total.0).unwrap())).abs() < 1e-6);
        let strips = copy["strips"].as_array().unwrap();
        for (written, strip) in strips.iter().zip(&plan.strips) {
            let width = Length::parse(written["width"].as_str().unwrap(), plan.units).unwrap();
            assert_eq!(width, strip.width, "lengths are exact text");
            assert_eq!(written["panels"].as_array().unwrap().len(), strip.pieces.len());
        }
        assert_eq!(copy["faults"], serde_json::json!([]));
    }
}

#[test]
fn strips_on_hand_are_on_the_shopping_list_for_nothing() {
    let text = printed(&mixed_job(), &mixed_plan());
    assert!(text.contains("Take from what is on hand: 1 of from spring 10 x 40, as strip C."), "{text}");
}

#[test]
fn the_comparison_says_what_each_way_costs_or_why_it_cannot_be_done() {
    let (job, mut plan) = (mixed_job(), mixed_plan());
    let figures = Figures {
        sheets: 2,
        cost: Cents(7700),
        areas: Areas { stock: len("48") * len("96"), panels: len("48") * len("48"), kept: Area::ZERO },
        layouts: 1,
        sizes: plan.panels.iter().map(|line| (line.width, line.height)).collect(),
        proved: false,
    };
    let planned = Figures {
        sizes: plan.panels.iter().map(|line| (line.cut_width, line.cut_height)).collect(),
        ..figures.clone()
    };
    let way = |name: &str, outcome| Alternative { name: name.into(), outcome };
    plan.comparison = vec![
        way("this plan", Outcome::Done(planned)),
        way("at nominal size", Outcome::Done(figures)),
        way("all rips across the sheet", Outcome::Not("panel `12 x 16` fits nowhere".into())),
    ];
    let text = printed(&job, &plan);
    let page = text.split("Side by side").nth(1).unwrap();
    for row in [
        "this plan\n2\n$77.00\n50.0 %\n1\nthe sizes of this plan\nno",
        "at nominal size\n2\n$77.00\n50.0 %\n1\nnominal size\nno",
        "all rips across the sheet\n\n\n\n\ncannot be done: panel `12 x 16`",
    ] {
        assert!(page.contains(row), "{row}\nis not in\n{page}");
    }
}

#[test]
fn files_are_few_and_small_and_the_same_each_time() {
    for (name, job, plan) in ALL.iter() {
        let files = papers(job, plan, &Options::default());
        assert_eq!(files, papers(job, plan, &Options::default()), "{name}");
        let mut names: Vec<&String> = files.iter().map(|(name, _)| name).collect();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), files.len(), "{name}: two files of one name");
        let size: usize = files.iter().map(|(_, bytes)| bytes.len()).sum();
        assert!(size < 2_000_000, "{name}: {size} bytes");
    }
}
