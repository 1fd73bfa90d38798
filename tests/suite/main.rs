//! Every test of the program, a module a subject.

mod lines;
mod reading;
