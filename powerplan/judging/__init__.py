"""A second program: judges any record from its statements alone."""
