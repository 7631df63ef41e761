"""The story from a spec to a plan: candidates, choice, ladder, record."""
