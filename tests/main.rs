//! All tests but those that stand beside what they test: one file a behaviour, one program for all of them,
//! because linking a program a file took longer than running it. `cargo test --test all remake::` runs one file.

// What tests build on.
mod catalogue;
mod fixture;
mod maker;
mod support;

// The behaviours.
mod account;
mod advice;
mod bench_command;
mod chart_pages;
mod check_command;
mod claims;
mod colour;
mod count_command;
mod counts;
mod counts_agree;
mod demo_designs;
mod diagnostic_text;
mod diagrams;
mod ear_wires;
mod earring_cards;
mod faulty_catalogue;
mod film;
mod folded;
mod fuzz;
mod help;
mod house_style;
mod interruptions;
mod kept_ticks;
mod languages;
mod layout;
mod licences;
mod links;
mod make_command;
mod match_command;
mod next_editions;
mod own_templates;
mod packing;
mod page_fill;
mod painted_pdf;
mod palette_edit;
mod personal_copy;
mod picture_command;
mod pictures;
mod random_pictures;
mod readme;
mod refused_booklets;
mod remake;
mod same_bytes;
mod same_names;
mod shapes;
mod shared_beads;
mod starter_files;
mod stitching;
mod structure;
mod tablet;
mod tally_whole;
mod terminal;
mod thread_command;
mod wording;
mod wrong_design_files;
