"""The estimated load at a joint: how large a moment a body that holds still needs there, pose by pose."""
