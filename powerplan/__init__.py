"""Plan the power of motor-reclining seats: circuits, floor boxes and cords."""

__version__ = "0.1.0"
