"""Photos as they come -> what is shown and printed: upright, in a few sizes, nothing in them but the picture."""
