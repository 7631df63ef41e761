"""How a page becomes text or JSON."""
