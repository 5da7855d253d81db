//! The drawings of sheets: to scale, inside their page, every panel with words that can be read.

use super::plans::{ALL, hard, made};
use crate::by_hand::{mixed_job, mixed_plan};
use crate::jobs::len;
use crate::paper_frames::{assert_inside, texts};
use yardslip::documents::frame::{Field, Mark, Pen};
use yardslip::documents::page_size::{PageSize, content};
use yardslip::documents::{Options, drawing, packet, pages, papers, slip};

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
                // A letter may stand in the margin of a lying page, a quarter of an inch from its edge: printers reach
                // it.
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
