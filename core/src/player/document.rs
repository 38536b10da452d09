//! The player document: JSON with every figure of a player.
