//! The levelcup program: parse arguments, call a command, print one error, exit.

fn main() {}
