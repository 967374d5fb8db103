"""A guide -> the sheet that lies on the bench under its screws, to scale."""
