"""Setting a page on paper: lines of text, blocks, tables, drawings and the frame around them."""
