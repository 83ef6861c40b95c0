"""The body that is drawn: its bones, flesh, joints and how they move."""
