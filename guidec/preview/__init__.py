"""A note or a folder of notes -> its guide in a browser, made anew when the note is saved."""
