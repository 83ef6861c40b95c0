"""From tree to model: names, libraries, likenesses, changes, kinds and units."""
