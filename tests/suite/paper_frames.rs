//! Frames, blocks and their renderings: what is written comes out, nothing runs off a page, files are well-formed.

use yardslip::documents::blocks::{Block, Caution, Column, Paper, Table};
use yardslip::documents::font::{self, Weight};
use yardslip::documents::frame::{Dimension, Field, Frame, Mark, Pen, Spot};
use yardslip::documents::page_size::{PageSize, content};
use yardslip::documents::{html, pages, pdf, svg};

/// A paper with every kind of block, long enough for several pages.
pub(crate) fn every_block() -> Paper {
    let mut paper = Paper::new("every-block", "Every block");
    paper.heading("A heading");
    paper.text("A paragraph that is long enough to be wrapped on a letter page: the strips are ripped from the reference edge and the fall-off comes last, 11 7/8 in. wide.");
    paper.figure("15 7/8 in.", "stop block, setting 1 of 3");
    paper.list(true, vec!["First this.".into(), "Then that & the <other>.".into()]);
    let mut table =
        Table::new([Column::left("strip").big(), Column::left("what comes off"), Column::right("left")]).ticked();
    for at in 0..60 {
        table.row([
            format!("{at}"),
            format!("row {at}: six panels 12x16, then two of 9x12 across the strip, and a stub"),
            "11 5/8".into(),
        ]);
    }
    table.total(["", "all", "24"]);
    paper.table(table);
    let mut frame = Frame::new(100.0, 40.0);
    frame.outline(Pen::Thick, Field::new(10.0, 10.0, 80.0, 20.0));
    frame.hatch(Field::new(60.0, 10.0, 30.0, 20.0), 2.0);
    paper.blocks.push(Block::Drawing(frame, "A drawing".into()));
    paper.caution(Caution::about("the blade").heed("Let the blade stop before clearing pieces.", "common practice"));
    paper
}

#[test]
fn text_measures_as_the_font_says() {
    // Advances of Liberation Sans equal those of its metric-compatible model faces: a digit is 1139/2048 em, a capital
    // M 1706/2048 (from memory: the faces' published widths, 556 and 833 thousandths).
    assert!((font::width("0", 1.0, Weight::Regular) - 0.556).abs() < 0.001);
    assert!((font::width("M", 1.0, Weight::Regular) - 0.833).abs() < 0.001);
    assert!((font::width("00", 10.0, Weight::Bold) - 11.12).abs() < 0.02);
}

#[test]
fn a_figure_keeps_its_fraction_and_unit_when_wrapped() {
    let lines = font::wrap("needs 47 7/8 in. measure first", 24.0, 4.0, Weight::Regular);
    assert!(lines.contains(&"47 7/8 in.".to_string()), "{lines:?}");
}

#[test]
fn a_word_wider_than_its_room_is_broken_and_nothing_is_lost() {
    let lines = font::wrap("Unterstrassenbahnhaltestelle", 15.0, 4.0, Weight::Bold);
    assert!(lines.len() > 2);
    assert_eq!(lines.concat(), "Unterstrassenbahnhaltestelle");
    assert!(lines.iter().all(|line| font::width(line, 4.0, Weight::Bold) <= 15.0));
}

#[test]
fn hatching_stays_inside_its_rectangle_at_45_degrees() {
    let field = Field::new(3.0, 5.0, 30.0, 8.0);
    let mut frame = Frame::new(50.0, 50.0);
    frame.hatch(field, 2.0);
    let Mark::Lines(Pen::Thin, lines) = &frame.marks[0] else { panic!("hatching is thin lines") };
    assert_eq!(lines.len(), 18, "38 mm of edges, a line every 2 mm, none at the corners");
    for (from, to) in lines {
        assert!((from.x - to.x + from.y - to.y).abs() < 1e-9, "45 degrees");
        for spot in [from, to] {
            assert!(spot.x >= field.x - 1e-9 && spot.x <= field.right() + 1e-9);
            assert!(spot.y >= field.y - 1e-9 && spot.y <= field.bottom() + 1e-9);
        }
    }
}

#[test]
fn pages_are_letter_and_a4() {
    // US letter 8 1/2 x 11 in., 25.4 mm an inch; A4 210 x 297 mm (ISO 216; from memory).
    let (short, long) = PageSize::Letter.sides();
    assert!((short - 8.5 * 25.4).abs() < 1e-9 && (long - 11.0 * 25.4).abs() < 1e-9);
    assert_eq!(PageSize::A4.sides(), (210.0, 297.0));
}

#[test]
fn the_two_line_weights_are_those_of_the_standard() {
    // ASME Y14.2: two widths, 2:1, thin at least 0.3 mm, thick at least 0.6 mm.
    assert!(Pen::Thin.width() >= 0.3 && Pen::Thick.width() >= 0.6);
    assert!((Pen::Thick.width() / Pen::Thin.width() - 2.0).abs() < 1e-9);
}

#[test]
fn arrowheads_are_three_times_as_long_as_wide() {
    let mut frame = Frame::new(100.0, 30.0);
    let dimension =
        Dimension { from: 10.0, to: 90.0, outline: 10.0, line: 20.0, vertical: false, text: "80".into(), size: 3.0 };
    assert!(frame.dimension(&dimension));
    let heads: Vec<&Vec<Spot>> = frame
        .marks
        .iter()
        .filter_map(|mark| if let Mark::Shape(corners) = mark { Some(corners) } else { None })
        .collect();
    assert_eq!(heads.len(), 2);
    for corners in heads {
        let length = (corners[1].x - corners[0].x).abs();
        let width = (corners[2].y - corners[1].y).abs();
        assert!((length / width - 3.0).abs() < 1e-9);
    }
}

#[test]
fn a_dimension_without_room_for_its_text_says_so() {
    let mut frame = Frame::new(100.0, 30.0);
    let dimension = Dimension {
        from: 10.0,
        to: 12.0,
        outline: 10.0,
        line: 20.0,
        vertical: false,
        text: "11 63/64".into(),
        size: 3.0,
    };
    assert!(!frame.dimension(&dimension));
}

#[test]
fn long_tables_go_over_the_page_with_their_head_and_stay_inside_the_margins() {
    for size in [PageSize::Letter, PageSize::A4] {
        let made = pages::pages("Harbour week", &[every_block()], size, "2026-05-01");
        assert!(made.len() >= 3, "{} pages", made.len());
        let heads = made.iter().filter(|page| texts(page).contains(&"what comes off".to_string())).count();
        assert!(heads >= 3, "the head is repeated");
        let body: String = made.iter().flat_map(texts).collect::<Vec<_>>().join(" ");
        assert!((0..60).all(|at| body.contains(&format!("row {at}: six panels"))));
        for page in &made {
            assert_inside(page, content(page));
        }
    }
}

#[test]
fn pages_are_numbered_through_all_papers() {
    let made = pages::pages("Harbour week", &[every_block(), Paper::new("last", "Last")], PageSize::A4, "");
    let count = made.len();
    assert!(texts(&made[0]).contains(&format!("page 1 of {count}")));
    assert!(texts(&made[count - 1]).contains(&format!("page {count} of {count}")));
}

#[test]
fn a_sentence_about_a_table_stands_on_the_page_of_its_rows_however_full_the_page_is() {
    for filled in 0..80 {
        let mut paper = Paper::new("full", "Full");
        (0..filled).for_each(|_| paper.text("Filled."));
        paper.text("Above.");
        let mut table = Table::new([Column::left("way")]);
        (1..=5).for_each(|at| table.row([format!("row {at}")]));
        paper.table(table);
        paper.text("Under.");
        let made = pages::pages("Harbour week", &[paper], PageSize::Letter, "");
        let page = |text: &str| made.iter().position(|page| texts(page).iter().any(|found| found == text));
        assert_eq!((page("Above."), page("Under.")), (page("row 1"), page("row 5")), "after {filled} lines");
    }
}

#[test]
fn the_same_paper_gives_the_same_bytes_in_every_format() {
    let render = || {
        let made = pages::pages("Harbour week", &[every_block()], PageSize::Letter, "");
        (
            pdf::file("Harbour week", &made, None),
            svg::file(&made[0], "page"),
            html::packet("Harbour week", "", &[every_block()], PageSize::Letter),
        )
    };
    assert_eq!(render(), render());
}

#[test]
fn the_pdf_has_a_page_for_each_frame_and_stays_small() {
    let made = pages::pages("Harbour week", &[every_block()], PageSize::Letter, "");
    let bytes = pdf::file("Harbour week", &made, None);
    assert!(bytes.starts_with(b"%PDF-"));
    let text = String::from_utf8_lossy(&bytes);
    assert!(text.contains(&format!("/Count {}", made.len())), "the page tree counts {} pages", made.len());
    assert_eq!(
        text.matches("/ToUnicode").count(),
        2,
        "both fonts say which characters their glyphs are, for search and copy"
    );
    assert!(bytes.len() < 100_000, "{} bytes", bytes.len());
}

#[test]
fn what_a_user_writes_cannot_break_the_files() {
    let mut paper = Paper::new("odd", "<b>\"Odd\" & 'ends'\u{7}");
    paper.text("<script>alert(1)</script>");
    let page = html::packet("A & B <c>", "", &[paper.clone()], PageSize::Letter);
    assert!(!page.contains("<script>alert") && page.contains("&lt;script&gt;alert"));
    let made = pages::pages("A & B <c>", &[paper], PageSize::Letter, "");
    let drawing = svg::file(&made[0], "A & B <c>");
    assert!(drawing.contains("A &amp; B &lt;c&gt;") && !drawing.contains('\u{7}'));
}

#[test]
fn the_screen_page_needs_nothing_from_outside_and_names_each_box_once() {
    let page = html::packet("Harbour week", "", &[every_block()], PageSize::Letter);
    assert!(!page.contains("http://") && !page.contains("https://") && !page.contains("url("));
    let boxes = page.matches("type=\"checkbox\"").count();
    assert_eq!(boxes, 60, "each row but the total");
    assert!((1..=60).all(|at| page.matches(&format!("id=\"every-block-{at}\"")).count() == 1));
}

/// All texts on a page.
pub(crate) fn texts(page: &Frame) -> Vec<String> {
    page.marks
        .iter()
        .filter_map(|mark| if let Mark::Text(text) = mark { Some(text.text.clone()) } else { None })
        .collect()
}

/// Every text between head and foot lies inside the field.
pub(crate) fn assert_inside(page: &Frame, field: Field) {
    for mark in &page.marks {
        let Mark::Text(text) = mark else { continue };
        if text.at.y < field.y || text.at.y > field.bottom() + 1.0 || text.upward {
            continue;
        }
        let wide = font::width(&text.text, text.size, text.weight);
        let left = match text.anchor {
            yardslip::documents::frame::Anchor::Start => text.at.x,
            yardslip::documents::frame::Anchor::Middle => text.at.x - wide / 2.0,
            yardslip::documents::frame::Anchor::End => text.at.x - wide,
        };
        assert!(left >= field.x - 0.1 && left + wide <= field.right() + 0.1, "`{}` runs off the page", text.text);
    }
}

/// Writes what the eye must check into the folder that `YARDSLIP_LOOK` names; without it, does nothing.
#[test]
#[ignore = "writes pictures to look at; needs YARDSLIP_LOOK"]
fn look() {
    let folder = std::path::PathBuf::from(std::env::var("YARDSLIP_LOOK").expect("YARDSLIP_LOOK names a folder"));
    let made = pages::pages("Harbour week", &[every_block()], PageSize::Letter, "2026-05-01");
    std::fs::write(folder.join("blocks.pdf"), pdf::file("Harbour week", &made, None)).unwrap();
    std::fs::write(folder.join("blocks.svg"), svg::file(&made[0], "page")).unwrap();
    std::fs::write(
        folder.join("blocks.html"),
        html::packet("Harbour week", "a line", &[every_block()], PageSize::Letter),
    )
    .unwrap();
}
