//! `yardslip completions` and `yardslip man`: made from the command line's own definition, so that they never lag
//! behind.

use super::arguments::Arguments;
use super::failure::Failure;
use super::terminal::{print, print_bytes};
use clap::{Command, CommandFactory};
use clap_complete::Shell;
use clap_mangen::Man;
use std::io::{self, Write};

/// Prints completions for a shell.
pub(super) fn completions(shell: Shell) -> Result<(), Failure> {
    let mut text = Vec::new();
    clap_complete::generate(shell, &mut Arguments::command(), "yardslip", &mut text);
    print_bytes(&text)
}

/// Prints the manual page: the program's own sections, then one for each command.
pub(super) fn man() -> Result<(), Failure> {
    let mut program = Arguments::command();
    program.build();
    let commands = program.get_subcommands().filter(|command| command.get_name() != "help").cloned();
    let chapters: Vec<String> = commands.map(chapter).collect();
    let man = Man::new(program);
    let opening =
        [Man::render_title, Man::render_name_section, Man::render_synopsis_section, Man::render_description_section];
    let opening: String = opening.into_iter().map(|render| page(&man, render)).collect();
    print(&(opening + &chapters.concat() + &page(&man, Man::render_extra_section)))
}

/// A command's synopsis and options, one level below its heading.
fn chapter(command: Command) -> String {
    let heading = format!(".SH \"{}\"\n", command.get_name().to_uppercase());
    let man = Man::new(command);
    let sections = page(&man, Man::render_synopsis_section)
        + &page(&man, Man::render_description_section)
        + &page(&man, Man::render_options_section);
    heading + &sections.replace(".SH ", ".SS ")
}

fn page(man: &Man, render: impl Fn(&Man, &mut dyn Write) -> io::Result<()>) -> String {
    let mut text = Vec::new();
    render(man, &mut text).expect("memory takes every write");
    String::from_utf8(text).expect("help texts are UTF-8")
}
