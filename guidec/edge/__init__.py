"""Where the compiler meets the file system: a note and its pictures come in, whole folders of outputs go out."""
