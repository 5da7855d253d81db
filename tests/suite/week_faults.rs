//! Faults of the sections of the week: what is missing, what is sold by another measure, days that are none.

use crate::papers_in::faults_of_more;

#[test]
fn what_a_section_of_the_week_cannot_do_without_is_told_as_it_is_written() {
    assert_eq!(
        faults_of_more("[canvas]\nprice = 34\n"),
        "`roll` is missing\n  --> harbour.toml, line 8, canvas\n  try: write it, such as `roll = 82`"
    );
    assert_eq!(
        faults_of_more("[canvas]\nroll = 54\nprice = 34\nsizes = [\"12x16\", \"12 x 61\"]\n"),
        "no panel is named `12 x 61`\n  --> harbour.toml, line 11, canvas.sizes\n  try: did you mean `12 x 16`?"
    );
    assert!(faults_of_more("[press]\nwidth = 24\n").ends_with("try: write it, such as `length = 48`"));
    assert!(faults_of_more("[pack]\nkind = \"box\"\n").ends_with("try: write it, such as `inside = \"27 x 21 x 14\"`"));
}

#[test]
fn a_package_by_weight_is_told_what_glue_is_sold_by() {
    let told = faults_of_more("[canvas]\nroll = 54\nprice = 30\n[glue]\nsold = [\"750 g at 9.00\"]\n");
    assert_eq!(
        told,
        "`750 g` is not a volume\n  --> harbour.toml, line 12, glue.sold\n  \
         try: write `1 qt at 24.00`; the units are gal, qt, pt, fl oz, oz, ml, l"
    );
}

#[test]
fn a_day_that_no_month_has_is_told_as_such() {
    let told = faults_of_more("[finish]\n[calendar]\nstart = \"2026-02-30 09:00\"\n");
    assert_eq!(
        told,
        "there is no day `2026-02-30`\n  --> harbour.toml, line 10, calendar.start\n  \
         try: write it as `2026-05-08`: year, month, day"
    );
}

#[test]
fn a_list_that_names_nothing_is_not_taken_for_one_left_out() {
    let lists = [
        ("[finish]\n", "finish.grits", "grits"),
        ("[labels]\n", "labels.lines", "lines"),
        ("[finish]\n[calendar]\nstart = \"2026-05-04 09:00\"\n", "calendar.days", "days"),
    ];
    for (before, place, key) in lists {
        let told = faults_of_more(&format!("{before}{key} = []\n"));
        assert!(told.starts_with(&format!("`{key}` names nothing\n")), "{told}");
        assert!(
            told.contains(place) && told.ends_with("name at least one, or leave it out for what is usual"),
            "{told}"
        );
    }
}
