//! Label sheets: what fits on a page, what a line says, what is refused.

use crate::lots::len;
use crate::papers_in::faults;
use yardslip::data::week::{LabelLine, Word};
use yardslip::length::Length;
use yardslip::plan::week::label_grid;

#[test]
fn two_by_five_labels_lie_on_a_letter_page_less_half_an_inch_all_round() {
    // 8 1/2 x 11 in. less 1/2 in. all round is 7 1/2 x 10: two columns of 3 1/2 in. and five rows of 2 in.; of 4 in.
    // there is room for one column only.
    let grid = label_grid(len("7 1/2"), len("10"), len("3 1/2"), len("2")).expect("they fit");
    assert_eq!((grid.columns, grid.rows), (2, 5));
    let wide = label_grid(len("7 1/2"), len("10"), len("4"), len("2")).expect("they fit");
    assert_eq!((wide.columns, wide.rows), (1, 5));
}

#[test]
fn two_columns_of_90_by_50_mm_lie_on_a4_less_its_margins() {
    let grid = label_grid(Length::mm(190), Length::mm(277), Length::mm(90), Length::mm(50)).expect("they fit");
    assert_eq!((grid.columns, grid.rows), (2, 5));
}

#[test]
fn a_label_larger_than_the_page_has_no_grid() {
    assert_eq!(label_grid(len("7 1/2"), len("10"), len("8"), len("2")), None);
}

#[test]
fn a_line_mixes_words_and_the_makers_own_text() {
    let line = LabelLine::parse("batch {batch}, no. {number}").expect("a line");
    let own = |text: &str| Word::Own(text.into());
    assert_eq!(line.0, [own("batch "), Word::Batch, own(", no. "), Word::Number]);
    assert_eq!(LabelLine::parse("plain").map(|line| line.0), Ok(vec![own("plain")]));
    assert_eq!(LabelLine::parse("{colour}"), Err("{colour}".into()));
    assert_eq!(LabelLine::parse("open {batch"), Err("{batch".into()));
}

#[test]
fn an_unknown_word_is_refused_with_the_known_ones() {
    let told = faults(
        "[[sheet]]\nlength = 96\nwidth = 48\nprice = 40\n[[panel]]\nsize = \"12 x 16\"\ncount = 1\n[labels]\nlines = [\"{colour}\"]\n",
    );
    assert!(told.starts_with("`{colour}` is no word of labels\n  --> harbour.toml, line 9, labels.lines"), "{told}");
}
