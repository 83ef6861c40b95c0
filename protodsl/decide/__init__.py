"""From model and case to plan, with the reason of every choice."""
