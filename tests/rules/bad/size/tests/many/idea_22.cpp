// One of 26 ideas in a folder.
