//! The door onto the disk.
