//! Tests of what the core offers, in one program: fifty would be linked one after another.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test fails by panicking"
)]

mod across;
mod ahead;
mod around;
mod calibration;
mod common;
mod conditions;
mod course;
mod doors;
mod even;
mod explain;
mod far_trees;
mod fit;
mod fit_known;
mod fit_players;
mod fit_words;
mod flight;
mod flight_tables;
mod flight_weather;
mod fuzz;
mod geometry;
mod ground;
mod habits;
mod hole;
mod kernel;
mod layers;
mod level_runs;
mod map_fuzz;
mod maps;
mod player;
mod player_changes;
mod player_document;
mod player_level;
mod pointed;
mod putting;
mod putting_greens;
mod putting_roll;
mod putting_slopes;
mod putting_told;
mod round_course;
mod round_practice;
mod round_review;
mod round_rounds;
mod rules;
mod setting_anchors;
mod setting_invariants;
mod setting_landings;
mod setting_planning;
mod setting_trees;
mod solve;
mod solve_value;
mod strikes;
mod terrain_documents;
mod terrain_greens;
mod terrain_landform;
mod usual;
