//! Commands: one file each; they read, call the stages, and report.
